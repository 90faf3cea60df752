//! Files in and out: the only place where the program touches the disk.

use std::io::{ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

use ringtrue_seal::definition::joint::{self, Half, Joint, JointFile};
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::definition::{self, Definition, TextError};

use crate::problem::Problem;

/// Largest file that is read: beyond any definition or readings a person would write.
const LARGEST: u64 = 4 << 20;
/// Largest export, PDF or photo that is read.
const LARGEST_RECORD: u64 = 1 << 30;

/// The text of a file.
pub(crate) fn text(path: &Path) -> Result<String, Problem> {
    utf8(path, bytes(path)?)
}

/// The bytes of a definition or readings file.
pub(crate) fn bytes(path: &Path) -> Result<Vec<u8>, Problem> {
    bytes_up_to(path, (LARGEST, "a definition or readings file is wanted"))
}

/// The bytes of a record, a photo or a PDF.
pub(crate) fn record_bytes(path: &Path) -> Result<Vec<u8>, Problem> {
    bytes_up_to(path, (LARGEST_RECORD, "an export, a PDF or a photo is wanted"))
}

fn bytes_up_to(path: &Path, (largest, wanted): (u64, &str)) -> Result<Vec<u8>, Problem> {
    let unreadable = |error: &std::io::Error| {
        let known = [
            (ErrorKind::NotFound, "there is no such file", "check the path"),
            (
                ErrorKind::PermissionDenied,
                "this file may not be read",
                "give yourself leave to read it",
            ),
            (ErrorKind::IsADirectory, "this is a folder", "name a file in it"),
        ];
        let Some((_, what, next)) = known.into_iter().find(|(kind, ..)| *kind == error.kind())
        else {
            return Problem::input(error.to_string(), "check the file").in_file(path);
        };
        Problem::input(what, next).in_file(path)
    };
    let file = std::fs::File::open(path).map_err(|error| unreadable(&error))?;
    if file.metadata().is_ok_and(|metadata| metadata.is_dir()) {
        return Err(unreadable(&ErrorKind::IsADirectory.into()));
    }
    let mut bytes = Vec::new();
    file.take(largest + 1).read_to_end(&mut bytes).map_err(|error| unreadable(&error))?;
    if bytes.len() as u64 > largest {
        let what = format!("this file is larger than {} MiB", largest >> 20);
        return Err(Problem::input(what, wanted).in_file(path));
    }
    Ok(bytes)
}

/// The text that a file's bytes are.
pub(crate) fn utf8(path: &Path, bytes: Vec<u8>) -> Result<String, Problem> {
    String::from_utf8(bytes).map_err(|error| {
        let valid = error.utf8_error().valid_up_to();
        let before = String::from_utf8_lossy(&error.as_bytes()[..valid]).into_owned();
        let found = "a byte that is not UTF-8 text".to_owned();
        let fits = "save the file as plain text in UTF-8".to_owned();
        Problem::text(path, TextError::at(&before, valid, found, fits))
    })
}

/// A definition from the text of its file.
pub(crate) fn parse<T: Definition>(path: &Path, text: &str) -> Result<T, Problem> {
    definition::read(text).map_err(|error| Problem::text(path, error))
}

/// A definition file.
pub(crate) fn definition<T: Definition>(path: &Path) -> Result<T, Problem> {
    parse(path, &text(path)?)
}

/// A joint with everything that its file names.
#[derive(Debug, Clone)]
pub(crate) struct JointOnDisk {
    pub(crate) joint: Joint,
    pub(crate) material_a: Option<Material>,
    pub(crate) material_b: Option<Material>,
    /// Files that were read: what each is, and its path.
    pub(crate) read: Vec<(String, PathBuf)>,
    /// The files that hold the seals: paths written in them start there.
    homes: [PathBuf; 2],
}

impl JointOnDisk {
    /// The material files that its seals name.
    pub(crate) fn materials(&self) -> [Option<&Material>; 2] {
        [self.material_a.as_ref(), self.material_b.as_ref()]
    }

    /// The file that holds a half's seal.
    pub(crate) fn home(&self, half: Half) -> &Path {
        &self.homes[half as usize]
    }
}

/// A joint file and the files that it names.
pub(crate) fn joint(path: &Path) -> Result<JointOnDisk, Problem> {
    assemble(path, definition(path)?)
}

/// A joint as read, with the files that it names.
pub(crate) fn assemble(path: &Path, file: JointFile) -> Result<JointOnDisk, Problem> {
    let mut read = vec![("joint".to_owned(), path.to_owned())];
    let mut homes = [path.to_owned(), path.to_owned()];
    let joint = joint::assemble(file, |written, half| {
        let seal_path = beside(path, written);
        let seal = definition::<Seal>(&seal_path)?;
        homes[half as usize].clone_from(&seal_path);
        read.push((format!("seal, half {}", half.name()), seal_path));
        Ok(seal)
    })?;
    let [home_a, home_b] = &homes;
    let material_a = material_of(&joint.a, home_a)?;
    let material_b = material_of(&joint.b, home_b)?;
    Ok(JointOnDisk { joint, material_a, material_b, read, homes })
}

/// The material file that a seal names, if it names one; its path starts at the seal's file.
pub(crate) fn material_of(seal: &Seal, home: &Path) -> Result<Option<Material>, Problem> {
    seal.load_ring.material_file().map(|written| material(&beside(home, written))).transpose()
}

/// A material file, with the points of the tests' files that it names.
pub(crate) fn material(path: &Path) -> Result<Material, Problem> {
    definition::<Material>(path)?.with_points(|written| stretch_test(&beside(path, written)))
}

/// The text of a material file by which it stands alone: as written, unless it names files.
pub(crate) fn whole_material(path: &Path) -> Result<String, Problem> {
    let written = text(path)?;
    if parse::<Material>(path, &written)?.test_files().next().is_none() {
        return Ok(written);
    }
    toml::to_string(&material(path)?).map_err(|error| {
        Problem::input(format!("the material can't be written whole ({error})"), "check its file")
            .in_file(path)
    })
}

/// The points of a stretch test's file.
pub(crate) fn stretch_test(path: &Path) -> Result<Vec<[f64; 2]>, Problem> {
    ringtrue_job::reading::stretch_test(&text(path)?).map_err(|error| Problem::text(path, error))
}

/// A path written in a file, taken from that file's folder.
pub(crate) fn beside(file: &Path, written: &str) -> PathBuf {
    file.parent().unwrap_or_else(|| Path::new("")).join(written)
}

/// Writes a file whole or not at all; whoever may make files there may read it, as with any other
/// program's. What is there gives way only to its own kind: a result never takes the place of a
/// store or of what it was made from. A pipe or a device is written into.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<(), Problem> {
    put(path, bytes, Readers::AsUsual)
}

/// The same for what nobody else may read: a private key.
pub(crate) fn write_private(path: &Path, bytes: &[u8]) -> Result<(), Problem> {
    put(path, bytes, Readers::OwnerAlone)
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Readers {
    AsUsual,
    OwnerAlone,
}

fn put(path: &Path, bytes: &[u8], readers: Readers) -> Result<(), Problem> {
    let unwritable = |error: std::io::Error| {
        let what = format!("this file can't be written ({error})");
        let next = "it is as it was; choose a folder that exists and has room";
        Problem::input(what, next).in_file(path)
    };
    // Where a link leads, not in the link's place.
    let place = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    match place.metadata() {
        Ok(there) if there.is_dir() => {
            return Err(Problem::input("this is a folder", "name a file in it").in_file(path));
        }
        Ok(there) if there.is_file() => gives_way(path, &place, bytes)?,
        Ok(_) => {
            let opened = std::fs::OpenOptions::new().write(true).open(&place);
            return opened.and_then(|mut device| device.write_all(bytes)).map_err(unwritable);
        }
        Err(_) => {}
    }
    let folder = match place.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    let mut made = tempfile::Builder::new();
    #[cfg(unix)]
    if readers == Readers::AsUsual {
        use std::os::unix::fs::PermissionsExt;
        made.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = made.tempfile_in(folder).map_err(unwritable)?;
    file.write_all(bytes).and_then(|()| file.as_file().sync_all()).map_err(unwritable)?;
    file.persist(&place).map_err(|error| unwritable(error.error))?;
    Ok(())
}

/// Starts of files by which kinds are told apart; what has none of them is text.
const STARTS: [&[u8]; 6] = [b"SQLite format 3", b"%PDF-", b"<svg", b"{", b"\x89PNG", b"\xff\xd8"];

/// May a file that is there be replaced by these bytes?
fn gives_way(path: &Path, there: &Path, bytes: &[u8]) -> Result<(), Problem> {
    let kind = |bytes: &[u8]| STARTS.iter().position(|start| bytes.starts_with(start));
    let mut start = Vec::new();
    let read = std::fs::File::open(there).and_then(|file| file.take(64).read_to_end(&mut start));
    // What can't be read can't be told from a store.
    if read.is_ok_and(|length| length == 0 || kind(&start) == kind(bytes)) {
        return Ok(());
    }
    let what = "another kind of file is there already";
    Err(Problem::input(what, "nothing was written: name another file").in_file(path))
}

/// Makes a folder and those above it.
pub(crate) fn make_folder(path: &Path) -> Result<(), Problem> {
    std::fs::create_dir_all(path).map_err(|error| {
        let what = format!("this folder can't be made ({error})");
        Problem::input(what, "choose a place that may be written").in_file(path)
    })
}

/// Writes drawings into a folder, made where it is not there.
pub(crate) fn write_drawings(
    folder: &Path,
    drawings: &[ringtrue_report::Drawing],
) -> Result<(), Problem> {
    make_folder(folder)?;
    drawings.iter().try_for_each(|drawing| {
        write(&folder.join(format!("{}.svg", drawing.name)), drawing.svg.as_bytes())
    })
}
