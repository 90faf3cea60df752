use std::io::Write;

use ringtrue_metrology::units::Quantity;

use super::*;

const OLD: &[u8] = include_bytes!("../../../tests/data/profile_sine_noise_1000.x3p");
const NEW: &[u8] = include_bytes!("../../../tests/data/profile_sine_noise_1000_2017.x3p");
const TABLE: &str =
    include_str!("../../../../../validation/reference/roughness/profile_sine_noise_1000.csv");

/// A file of three points, each text of it as given.
struct Made {
    xml: String,
    points: Vec<u8>,
    sum_of_xml: Option<String>,
}

fn made() -> Made {
    let points: Vec<u8> = [1e-6_f64, 2e-6, 4e-6].iter().flat_map(|z| z.to_le_bytes()).collect();
    let xml = "<p:ISO5436_2 xmlns:p='x'><Record1><Revision>ISO5436 - 2000</Revision>\
               <FeatureType>PRF</FeatureType><Axes>\
               <CX><AxisType>I</AxisType><DataType>D</DataType><Increment>1e-06</Increment></CX>\
               <CZ><AxisType>A</AxisType><DataType>D</DataType><Increment>1</Increment>\
               <Offset>0</Offset></CZ></Axes></Record1>\
               <Record3><MatrixDimension><SizeX>3</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ>\
               </MatrixDimension><DataLink><PointDataLink>bindata/data.bin</PointDataLink>\
               </DataLink></Record3></p:ISO5436_2>";
    Made { xml: xml.to_owned(), points, sum_of_xml: None }
}

impl Made {
    fn with(mut self, from: &str, to: &str) -> Self {
        assert!(self.xml.contains(from), "{from}");
        self.xml = self.xml.replace(from, to);
        self
    }

    fn zip(&self) -> Vec<u8> {
        let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
        let options = zip::write::SimpleFileOptions::default();
        let mut put = |name: &str, bytes: &[u8]| {
            zip.start_file(name, options).unwrap();
            zip.write_all(bytes).unwrap();
        };
        put("main.xml", self.xml.as_bytes());
        put("bindata/data.bin", &self.points);
        if let Some(sum) = &self.sum_of_xml {
            put("md5checksum.hex", format!("{sum} *main.xml\n").as_bytes());
        }
        zip.finish().unwrap().into_inner()
    }
}

#[test]
fn both_revisions_give_the_points_of_the_table() {
    let table: Vec<f64> = TABLE.lines().skip(2).map(|line| line.trim().parse().unwrap()).collect();
    assert_eq!(table.len(), 1000);
    for file in [OLD, NEW] {
        let trace = x3p(file).unwrap();
        assert!((trace.step.si() - 1e-7).abs() < 1e-20);
        assert_eq!(trace.heights_um.len(), table.len());
        let off = trace.heights_um.iter().zip(&table).map(|(a, b)| (a - b).abs());
        assert!(off.fold(0.0, f64::max) < 1e-8);
    }
}

#[test]
fn scaled_integers_and_listed_points_are_read_too() {
    assert_eq!(x3p(&made().zip()).unwrap().heights_um, [1.0, 2.0, 4.0]);
    let mut scaled = made()
        .with("<CZ><AxisType>A</AxisType><DataType>D", "<CZ><AxisType>A</AxisType><DataType>I")
        .with("<Increment>1</Increment><Offset>0<", "<Increment>1e-9</Increment><Offset>1e-6<");
    scaled.points = [1000_i16, -500, 0].iter().flat_map(|z| z.to_le_bytes()).collect();
    let heights = x3p(&scaled.zip()).unwrap().heights_um;
    let off = heights.iter().zip([2.0, 0.5, 1.0]).map(|(a, b)| (a - b).abs());
    assert!(off.fold(0.0, f64::max) < 1e-12, "{heights:?}");
    let listed = made().with(
        "<DataLink><PointDataLink>bindata/data.bin</PointDataLink></DataLink>",
        "<DataList><Datum>1e-6</Datum><Datum>0;2e-6</Datum><Datum>4e-6</Datum></DataList>",
    );
    assert_eq!(x3p(&listed.zip()).unwrap().heights_um, [1.0, 2.0, 4.0]);
    let row = made().with(">PRF<", ">SUR<");
    assert!(x3p(&row.zip()).is_ok());
}

#[test]
fn what_is_no_sound_profile_is_refused() {
    let refused = |bytes: &[u8], said: &str| {
        let error = x3p(bytes).expect_err(said);
        assert!(error.found.contains(said), "{error}");
        assert!(!error.fits.is_empty());
    };
    let without = |from: &str, to: &str, said: &str| refused(&made().with(from, to).zip(), said);
    refused(b"PK\x03\x04", "not a zip");
    without(">PRF<", ">PCL<", "feature type is `PCL`");
    without("ISO5436 - 2000", "2031", "revision is `2031`");
    without("<SizeX>3<", "<SizeX>4<", "3 points where the file says 4");
    without("<SizeX>3<", "<SizeX>4000000000<", "a trace of");
    without("<SizeX>3<", "<SizeX>three<", "`three`");
    without("<DataType>D</DataType><Increment>1</", "<DataType>Q</DataType><Increment>1</", "`Q`");
    without("<AxisType>I<", "<AxisType>A<", "not incremental");
    without("<Increment>1e-06<", "<Increment>0<", "no increment");
    without("</p:ISO5436_2>", "</p:other>", "well-formed");
    without("bindata/data.bin", "nowhere.bin", "no `nowhere.bin`");
    let mut missing = made();
    missing.points[8..16].copy_from_slice(&f64::NAN.to_le_bytes());
    refused(&missing.zip(), "point 2 of the trace is missing");
    let mut changed = made();
    changed.sum_of_xml = Some("00112233445566778899aabbccddeeff".to_owned());
    refused(&changed.zip(), "MD5 sum of `main.xml`");
    let link = "</PointDataLink>";
    let summed = format!("{link}<MD5ChecksumPointData>00</MD5ChecksumPointData>");
    without(link, &summed, "MD5 sum of `bindata/data.bin`");
    let mut bomb = made();
    bomb.points = vec![0; LARGEST_POINTS as usize + 8];
    refused(&bomb.zip(), "unpacks to more than");
}

#[test]
fn no_bytes_make_the_reader_panic() {
    let file = made().zip();
    for end in 0..file.len() {
        let _ = x3p(&file[..end]);
        let mut spoilt = file.clone();
        spoilt[end] ^= 0x41;
        let _ = x3p(&spoilt);
    }
}
