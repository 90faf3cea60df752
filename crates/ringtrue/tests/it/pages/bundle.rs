//! The scripts that ship are made from the scripts that are here. Node makes them and compares
//! them byte for byte; this notices without Node that somebody forgot.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

fn sources(folder: &Path) -> Vec<String> {
    let beside = ["build.mjs", "package-lock.json", "package.json", "tsconfig.json"];
    let mut names: Vec<String> = beside.map(String::from).into();
    let scripts = std::fs::read_dir(folder.join("src")).unwrap();
    names.extend(scripts.map(|e| format!("src/{}", e.unwrap().file_name().to_string_lossy())));
    names.sort();
    names
}

#[test]
fn the_bundle_is_made_from_the_scripts_that_are_here() {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let folder = root.join("web-src");
    let mut list = String::new();
    for name in sources(&folder) {
        let hash = Sha256::digest(std::fs::read(folder.join(&name)).unwrap());
        let hash = hash.iter().fold(String::new(), |mut hex, byte| {
            let _ = write!(hex, "{byte:02x}");
            hex
        });
        let _ = writeln!(list, "{hash}  {name}");
    }
    let made_from = std::fs::read_to_string(root.join("assets/bench.js.sources")).unwrap();
    assert_eq!(list, made_from, "`npm run build` in crates/ringtrue/web-src makes it anew");
}
