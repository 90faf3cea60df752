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

/// Writes a file whole or not at all.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<(), Problem> {
    let unwritable = |error: std::io::Error| {
        let what = format!("this file can't be written ({error})");
        let next = "nothing was left behind; choose a folder that exists and has room";
        Problem::input(what, next).in_file(path)
    };
    let folder = match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    };
    if path.is_dir() {
        return Err(Problem::input("this is a folder", "name a file in it").in_file(path));
    }
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(unwritable)?;
    file.write_all(bytes).and_then(|()| file.as_file().sync_all()).map_err(unwritable)?;
    file.persist(path).map_err(|error| unwritable(error.error))?;
    Ok(())
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
