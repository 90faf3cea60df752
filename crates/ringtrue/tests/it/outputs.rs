//! Where results go, and where they must not: a store, an input, a link, a device, a terminal.

use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;
use std::process::{Command, Stdio};

use crate::bench::Bench;
use crate::job::{PASSPHRASE, Shop};

fn mode(path: &Path) -> u32 {
    std::fs::metadata(path).unwrap().permissions().mode() & 0o777
}

#[test]
fn a_result_takes_the_place_of_no_store_and_of_no_other_kind_of_file() {
    let shop = Shop::new();
    let job = shop.job();
    let path = |name: &str| shop.bench.path().join(name);
    for (arguments, into) in [
        (vec!["job", "export", &job, "-o"], "record.db"),
        (vec!["job", "report", &job, "-o"], "record.db"),
        (vec!["job", "report", &job, "-o"], "joint.toml"),
        (vec!["job", "export", &job, "-o"], "joint.toml"),
    ] {
        let before = std::fs::read(path(into)).unwrap();
        let ran = shop.run(&[arguments.as_slice(), &[into]].concat());
        assert_eq!(ran.code(), 2, "{arguments:?} {into}: {}", ran.stdout());
        assert!(ran.stderr().contains("nother kind of file"), "{}", ran.stderr());
        assert_eq!(std::fs::read(path(into)).unwrap(), before, "{into}");
    }
    assert_eq!(shop.run(&["store", "check"]).code(), 0);
    // Its own kind it does take the place of, and of what is empty.
    shop.bench.file("job.json", "");
    for _ in 0..2 {
        let ran = shop.run(&["job", "export", &job, "-o", "job.json"]);
        assert_eq!(ran.code(), 0, "{}", ran.stderr());
    }
}

#[test]
fn a_link_is_followed_a_pipe_is_filled_and_keys_are_their_owners() {
    let shop = Shop::new();
    let job = shop.job();
    let path = |name: &str| shop.bench.path().join(name);
    shop.bench.file("real.json", "");
    symlink("real.json", path("link.json")).unwrap();
    assert_eq!(shop.run(&["job", "export", &job, "-o", "link.json"]).code(), 0);
    assert!(std::fs::symlink_metadata(path("link.json")).unwrap().is_symlink());
    let exported = std::fs::read_to_string(path("real.json")).unwrap();
    assert!(exported.starts_with('{'), "{exported}");
    // What is written stays a device or a pipe.
    let ran = shop.run(&["job", "export", &job, "-o", "/dev/stdout"]);
    assert_eq!((ran.code(), ran.stdout()), (0, exported));
    // A result may be read as any other file; the keys of people may not.
    shop.bench.file("as-any-other", "");
    assert_eq!(shop.run(&["job", "export", &job, "-o", "new.json"]).code(), 0);
    assert_eq!(mode(&path("new.json")), mode(&path("as-any-other")));
    assert_eq!(shop.run(&["store", "backup", "copy.db"]).code(), 0);
    assert_eq!([mode(&path("record.db")), mode(&path("copy.db"))], [0o600; 2]);
}

#[test]
fn whoever_can_not_be_told_still_gets_the_exit_code() {
    let bench = Bench::new();
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_ringtrue"));
    command.args(["check", "nofile.toml"]).current_dir(bench.path()).stderr(Stdio::from(full));
    assert_eq!(command.status().unwrap().code(), Some(2));
}

#[test]
fn nothing_that_was_typed_steers_a_terminal() {
    let shop = Shop::new();
    let job = shop.job();
    let safe = ["--tick", "locked-out", "--tick", "pressure-off"];
    let make_safe = [["job", "record", &job, "make-safe"].as_slice(), &safe].concat();
    assert_eq!(shop.run(&make_safe).code(), 0);
    let story = "leak-story=\u{1b}[2J\u{7}weeps";
    let photo = shop.bench.file("as-found.jpg", b"\xff\xd8\xff\xe0");
    let found = format!("as-found={}", photo.display());
    let recorded = ["job", "record", &job, "first-photo", "--photo", &found, "--text", story];
    let refused = shop.run(&recorded);
    assert_eq!(refused.code(), 2, "{}", refused.stdout());
    assert!(refused.stderr().contains("can't be printed"), "{}", refused.stderr());
    // A title comes from a file and may hold anything.
    let joint = std::fs::read_to_string(shop.bench.path().join("joint.toml")).unwrap();
    let name = joint.lines().find(|line| line.starts_with("name = ")).unwrap();
    let steering = joint.replacen(name, "name = \"\\u001b[31mred\"", 1);
    shop.bench.file("red.toml", steering);
    let ran = shop.run(&["job", "new", "red.toml"]);
    let listed = shop.run(&["job", "list"]);
    assert!(listed.stdout().contains("\\u{1b}[31mred"), "{}", listed.stdout());
    for said in [ran.stdout(), ran.stderr(), listed.stdout(), refused.stderr()] {
        assert!(!said.contains(['\u{1b}', '\u{7}']), "{said:?}");
    }
    // And a file that holds nothing is no evidence.
    shop.bench.file("as-found.jpg", "");
    let story = ["--text", "leak-story=weeps"].as_slice();
    let empty = [&recorded[..6], story].concat();
    let refused = shop.run(&empty);
    assert_eq!(refused.code(), 2, "{}", refused.stdout());
    assert!(refused.stderr().contains("is empty"), "{}", refused.stderr());
}

/// Of several first keepers who come at once one is: the others are the keeper's business.
#[test]
fn there_is_one_first_keeper() {
    let bench = Bench::new();
    let add = |name: &str| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_ringtrue"));
        command.args(["person", "add", name, "--role", "keeper", "--store", "r.db"]);
        command.current_dir(bench.path()).env("RINGTRUE_NEW_PASSPHRASE", PASSPHRASE);
        command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
    };
    let all = ["Kim", "Ida", "Ola", "Per"].map(add);
    let added = all.into_iter().filter_map(|mut one| one.wait().ok()).filter(|done| done.success());
    assert_eq!(added.count(), 1);
}

/// Nobody is there to ask: no store is left behind.
#[test]
fn a_person_without_a_passphrase_leaves_no_store() {
    let bench = Bench::new();
    let add = ["person", "add", "Kim", "--role", "keeper", "--store", "r.db"];
    let ran = bench.run_with(&add, &[]);
    assert_eq!(ran.code(), 2, "{}", ran.stdout());
    assert_eq!(bench.listing(), []);
}

/// A copy of a damaged store is made, and said to be one.
#[test]
fn a_copy_of_a_damaged_store_is_not_taken_for_a_sound_one() {
    let shop = Shop::new();
    shop.job();
    let sound = shop.run(&["store", "backup", "sound.db"]);
    assert!(sound.code() == 0 && sound.stdout().contains("verifies"), "{}", sound.stdout());
    let path = shop.bench.path().join("record.db");
    let text = std::fs::read(&path).unwrap();
    let at = text.windows(9).rposition(|bytes| bytes == b"bench nin").unwrap();
    let mut damaged = text;
    damaged[at] ^= 1;
    std::fs::write(&path, damaged).unwrap();
    let copied = shop.run(&["store", "backup", "damaged.db"]);
    assert_eq!(copied.code(), 1, "{}{}", copied.stdout(), copied.stderr());
    assert!(copied.stdout().contains("is not sound"), "{}", copied.stdout());
}

/// Deep nesting breaks whoever takes a PDF apart: only what was written by the program is.
#[test]
fn a_pdf_that_is_not_ours_is_not_taken_apart() {
    let bench = Bench::new();
    let nested = [b"%PDF-1.7\n".as_slice(), &b"<<".repeat(50_000)].concat();
    bench.file("deep.pdf", nested);
    let verified = bench.run(&["job", "verify", "deep.pdf"]);
    assert_eq!(verified.code(), 1, "{}{}", verified.stdout(), verified.stderr());
    let taken = bench.run(&["job", "import", "deep.pdf", "--store", "r.db"]);
    assert_eq!(taken.code(), 2, "{}{}", taken.stdout(), taken.stderr());
}
