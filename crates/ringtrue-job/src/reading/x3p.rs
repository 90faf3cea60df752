//! X3P: a zip with `main.xml`, binary points and MD5 sums.
//!
//! ISO 25178-72:2017 with Amd 1:2020, first published as ISO 5436-2; the two write different
//! `Revision` strings and are read alike. All lengths are in metres. Read are profiles: feature
//! type `PRF`, or a `SUR` of one row, with evenly spaced x. Nothing of a file is trusted: sizes are
//! capped before anything is unpacked, sums are compared, missing points are refused.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::io::{Cursor, Read};

use md5::{Digest, Md5};
use quick_xml::Reader;
use quick_xml::events::Event;
use ringtrue_metrology::profile::MOST_POINTS;
use ringtrue_metrology::units::{clip, parse_number};
use ringtrue_seal::definition::TextError;
use ringtrue_seal::roughness::Trace;
use ringtrue_words::say;

use super::profile::parse_metres;

/// Largest `main.xml` that is unpacked: with an inline list of points some MiB.
const LARGEST_XML: u64 = 8 << 20;
/// Largest file of points that is unpacked.
const LARGEST_POINTS: u64 = 8 * MOST_POINTS as u64;
/// Deepest nesting of elements: the format has six.
const DEEPEST: usize = 32;
/// Most parts of the zip.
const MOST_PARTS: usize = 64;

type Archive<'b> = zip::ZipArchive<Cursor<&'b [u8]>>;

/// Is this a zip file, by its first bytes?
#[must_use]
pub fn looks_like_x3p(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK")
}

/// Reads the profile of an X3P file.
///
/// # Errors
/// [`TextError`] without a place: no zip, no `main.xml`, a sum that does not agree, an areal or
/// free-form data set, missing points, a size that does not agree with the points, or a file that
/// unpacks to more than a profile holds.
pub fn x3p(bytes: &[u8]) -> Result<Trace, TextError> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).map_err(|_| {
        refused(say!("reading-this-not-zip-file"), say!("reading-x3p-file-zip-with-main-xml"))
    })?;
    if archive.len() > MOST_PARTS {
        return Err(refused(
            say!("reading-file-holds-parts", parts = archive.len()),
            say!("reading-x3p-file-holds-handful"),
        ));
    }
    let xml = part(&mut archive, "main.xml", LARGEST_XML)?.ok_or_else(|| {
        refused(say!("reading-there-no-main-xml-in"), say!("reading-x3p-file-has-one"))
    })?;
    let header = Header::read(&xml)?;
    if let Some(sums) = part(&mut archive, header.checksum_file(), 4096)? {
        let stated = String::from_utf8_lossy(&sums);
        compare_sums("main.xml", stated.split_whitespace().next().unwrap_or_default(), &xml)?;
    }
    header.check()?;
    let points = header.points()?;
    let raw = match header.text(POINT_LINK) {
        Some(name) => linked_points(&mut archive, &header, name, points)?,
        None => header.listed_points(points)?,
    };
    if let Some(missing) = raw.iter().position(|z| !z.is_finite()) {
        let found = say!("reading-point-trace-missing", point = missing + 1);
        return Err(refused(found, say!("reading-trace-again-where-stylus-or-light")));
    }
    let (increment, offset) =
        (header.number(Z_INCREMENT)?.unwrap_or(1.0), header.number(Z_OFFSET)?.unwrap_or(0.0));
    let heights_um: Vec<f64> = raw.iter().map(|z| (z * increment + offset) * 1e6).collect();
    let step = header.number(X_INCREMENT)?.filter(|step| *step > 0.0);
    let step = step.ok_or_else(|| {
        refused(say!("reading-x-axis-has-no-increment"), say!("reading-one-in-metres"))
    })?;
    Ok(Trace { step: parse_metres(step), heights_um })
}

fn refused(found: impl Into<String>, fits: impl Into<String>) -> TextError {
    TextError::of_text(found, fits)
}

/// Unpacks one part, no more than `largest` bytes of it; `None` where there is none.
fn part(archive: &mut Archive<'_>, name: &str, largest: u64) -> Result<Option<Vec<u8>>, TextError> {
    let Ok(file) = archive.by_name(name) else { return Ok(None) };
    let mut bytes = Vec::new();
    file.take(largest + 1).read_to_end(&mut bytes).map_err(|_| {
        refused(
            say!("reading-cant-be-unpacked", name = clip(name)),
            say!("reading-copy-file-again-damaged"),
        )
    })?;
    if bytes.len() as u64 > largest {
        let found = say!("reading-unpacks-more-than-bytes", name = clip(name), bytes = largest);
        return Err(refused(
            found,
            say!("reading-profile-has-at-most-points", points = MOST_POINTS),
        ));
    }
    Ok(Some(bytes))
}

fn compare_sums(name: &str, stated: &str, bytes: &[u8]) -> Result<(), TextError> {
    let mut sum = String::new();
    for byte in Md5::digest(bytes) {
        let _ = write!(sum, "{byte:02x}");
    }
    if stated.eq_ignore_ascii_case(&sum) {
        return Ok(());
    }
    let found = say!("reading-md5-sum-does-not-agree", name = clip(name));
    Err(refused(found, say!("reading-copy-file-again-damaged-or-was")))
}

const REVISION: &str = "Record1/Revision";
const FEATURE: &str = "Record1/FeatureType";
const X_AXIS: &str = "Record1/Axes/CX/AxisType";
const X_INCREMENT: &str = "Record1/Axes/CX/Increment";
const Z_TYPE: &str = "Record1/Axes/CZ/DataType";
const Z_INCREMENT: &str = "Record1/Axes/CZ/Increment";
const Z_OFFSET: &str = "Record1/Axes/CZ/Offset";
const SIZE_X: &str = "Record3/MatrixDimension/SizeX";
const SIZE_Y: &str = "Record3/MatrixDimension/SizeY";
const SIZE_Z: &str = "Record3/MatrixDimension/SizeZ";
const LIST_SIZE: &str = "Record3/ListDimension";
const POINT_LINK: &str = "Record3/DataLink/PointDataLink";
const POINT_SUM: &str = "Record3/DataLink/MD5ChecksumPointData";
const VALID_LINK: &str = "Record3/DataLink/ValidPointsLink";
const DATUM: &str = "Record3/DataList/Datum";
const SUMS: &str = "Record4/ChecksumFile";

/// The texts of `main.xml` by their path below its root, and the inline points.
struct Header {
    texts: BTreeMap<String, String>,
    listed: Vec<String>,
}

impl Header {
    fn read(xml: &[u8]) -> Result<Self, TextError> {
        let broken = || {
            refused(
                say!("reading-main-xml-no-well-formed-xml"),
                say!("reading-copy-file-again-damaged"),
            )
        };
        let mut reader = Reader::from_str(std::str::from_utf8(xml).map_err(|_| broken())?);
        let mut header = Self { texts: BTreeMap::new(), listed: Vec::new() };
        let mut path: Vec<String> = Vec::new();
        let mut text = String::new();
        loop {
            match reader.read_event().map_err(|_| broken())? {
                Event::Start(start) => {
                    if path.len() == DEEPEST {
                        return Err(broken());
                    }
                    path.push(start.local_name().as_ref().to_owned());
                    text.clear();
                }
                Event::Text(part) => text.push_str(&part),
                Event::End(_) => {
                    header.keep(&path, text.trim());
                    text.clear();
                    path.pop();
                }
                Event::Eof => break,
                Event::Empty(_)
                | Event::CData(_)
                | Event::Comment(_)
                | Event::Decl(_)
                | Event::PI(_)
                | Event::DocType(_)
                | Event::GeneralRef(_) => {}
            }
        }
        if !path.is_empty() {
            return Err(broken());
        }
        Ok(header)
    }

    fn keep(&mut self, path: &[String], text: &str) {
        let Some(below) = path.get(1..).filter(|below| !below.is_empty()) else { return };
        let key = below.join("/");
        if key == DATUM {
            self.listed.push(text.to_owned());
        } else if !text.is_empty() {
            self.texts.insert(key, text.to_owned());
        }
    }

    fn text(&self, key: &str) -> Option<&str> {
        self.texts.get(key).map(String::as_str)
    }

    fn number(&self, key: &str) -> Result<Option<f64>, TextError> {
        let Some(text) = self.text(key) else { return Ok(None) };
        let number = parse_number(text).ok().filter(|number| number.is_finite());
        number.map(Some).ok_or_else(|| {
            refused(
                say!("reading-number-is", what = key, typed = clip(text)),
                say!("reading-finite-number-wanted"),
            )
        })
    }

    fn checksum_file(&self) -> &str {
        self.text(SUMS).unwrap_or("md5checksum.hex")
    }

    /// The revision is known and the points are a profile.
    fn check(&self) -> Result<(), TextError> {
        let revision = self.text(REVISION).unwrap_or_default();
        if !["ISO5436", "ISO25178"].iter().any(|known| revision.starts_with(known)) {
            let found = say!("reading-revision", revision = clip(revision));
            let fits = say!("reading-iso5436-2000-iso25178-72-2017-dam1");
            return Err(refused(found, fits));
        }
        let feature = self.text(FEATURE).unwrap_or_default();
        let one_row = || self.number(SIZE_Y).is_ok_and(|rows| rows.is_none_or(|rows| rows == 1.0));
        if !(feature == "PRF" || (feature == "SUR" && one_row())) {
            let found = say!("reading-feature-type", feature = clip(feature));
            return Err(refused(found, say!("reading-profile-prf-wanted-not-map-or")));
        }
        if self.text(X_AXIS) != Some("I") {
            return Err(refused(
                say!("reading-x-axis-not-incremental"),
                say!("reading-evenly-spaced-points-wanted"),
            ));
        }
        Ok(())
    }

    fn points(&self) -> Result<usize, TextError> {
        let size = |key: &str| self.number(key);
        let along = match size(SIZE_X)? {
            Some(along) => Some(along),
            None => size(LIST_SIZE)?,
        };
        let points =
            along.unwrap_or(0.0) * size(SIZE_Y)?.unwrap_or(1.0) * size(SIZE_Z)?.unwrap_or(1.0);
        let whole = points.fract() == 0.0 && points >= 3.0 && points <= MOST_POINTS as f64;
        if whole {
            return Ok(points as usize);
        }
        let found = say!("reading-trace-of-so-many-points", points = points.to_string());
        Err(refused(found, say!("reading-three-to-most-points", most = MOST_POINTS)))
    }

    /// Points written into `main.xml` itself: one a `Datum`, the height last.
    fn listed_points(&self, points: usize) -> Result<Vec<f64>, TextError> {
        agree(self.listed.len(), points)?;
        let height = |datum: &String| {
            let last = datum.rsplit(';').next().unwrap_or_default().trim();
            // An empty datum is a missing point.
            if last.is_empty() { f64::NAN } else { parse_number(last).unwrap_or(f64::NAN) }
        };
        Ok(self.listed.iter().map(height).collect())
    }
}

fn agree(found: usize, stated: usize) -> Result<(), TextError> {
    if found == stated {
        return Ok(());
    }
    let found = say!("reading-points-where-file-says", found, stated);
    Err(refused(found, say!("reading-copy-file-again-damaged")))
}

/// Points in a part of their own, little-endian.
fn linked_points(
    archive: &mut Archive<'_>,
    header: &Header,
    name: &str,
    points: usize,
) -> Result<Vec<f64>, TextError> {
    let bytes = part(archive, name, LARGEST_POINTS)?.ok_or_else(|| {
        refused(say!("reading-there-no-in", name = clip(name)), say!("reading-copy-file-again"))
    })?;
    if let Some(stated) = header.text(POINT_SUM) {
        compare_sums(name, stated, &bytes)?;
    }
    let heights: Vec<f64> = match header.text(Z_TYPE).unwrap_or_default() {
        "D" => values(&bytes, f64::from_le_bytes),
        "F" => values(&bytes, |bytes| f64::from(f32::from_le_bytes(bytes))),
        "L" => values(&bytes, |bytes| f64::from(i32::from_le_bytes(bytes))),
        "I" => values(&bytes, |bytes| f64::from(i16::from_le_bytes(bytes))),
        other => {
            let found = say!("reading-heights-data-type", kind = clip(other));
            return Err(refused(found, say!("reading-data-types-would-fit")));
        }
    };
    agree(heights.len(), points)?;
    if let Some(valid) = header.text(VALID_LINK) {
        let bits = part(archive, valid, LARGEST_POINTS)?.unwrap_or_default();
        let set: usize = bits.iter().map(|byte| byte.count_ones() as usize).sum();
        if set < points {
            let found = say!("reading-points-trace-missing", points = points - set);
            return Err(refused(found, say!("reading-trace-again-where-surface-was-lost")));
        }
    }
    Ok(heights)
}

/// Whole values of `N` bytes; a rest that makes none is dropped here and found by their number.
fn values<const N: usize>(bytes: &[u8], read: impl Fn([u8; N]) -> f64) -> Vec<f64> {
    bytes.as_chunks::<N>().0.iter().map(|chunk| read(*chunk)).collect()
}

#[cfg(test)]
mod tests;
