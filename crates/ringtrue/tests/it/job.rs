//! Whole jobs through the command line: both kinds of load ring, and what a script meets.

use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

use crate::bench::{Bench, Ran};

pub(crate) const PASSPHRASE: &str = "river stone coat nine";

fn script(kind: &str, folder: &Path) -> String {
    let script = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples/job.sh");
    let output = Command::new("bash")
        .arg(script)
        .arg(kind)
        .arg(folder)
        .env("RINGTRUE", env!("CARGO_BIN_EXE_ringtrue"))
        // Solved curves stay for the next run of the tests.
        .env("XDG_CACHE_HOME", env!("CARGO_TARGET_TMPDIR"))
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success(), "{kind}: {said}\n{out}");
    // Nothing secret is ever printed.
    for secret in ["oak table", "river stone", "seven green", "a long way"] {
        assert!(!out.contains(secret) && !said.contains(secret), "{secret}");
    }
    out
}

/// Runs the program in a folder that holds a store.
fn run(folder: &Path, arguments: &[&str]) -> (i32, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_ringtrue"))
        .args(arguments)
        .current_dir(folder)
        .env("RINGTRUE_STORE", "record.db")
        .output()
        .unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

#[test]
fn the_example_job_with_torics_from_the_first_person_to_the_check_of_its_pdf() {
    let folder = tempfile::tempdir().unwrap();
    let out = script("toric", folder.path());
    assert!(out.contains("does not conform") && out.contains("CORRECTED event"), "{out}");
    for half in ["a", "b"] {
        let judged = format!("plan-seating (half {half}), judged. Seating: conforms");
        assert!(out.contains(&judged), "{judged}: {out}");
    }
    assert!(out.matches("Verified: 1 job,").count() == 3, "{out}");
    the_pdf_tells_the_record(folder.path());
    changed_files_are_found(folder.path());
    // At rest the store is one file.
    let beside = ["record.db-wal", "record.db-shm", "record.db-journal"];
    assert!(beside.iter().all(|name| !folder.path().join(name).exists()));
}

#[test]
fn the_example_job_with_conical_washers_from_the_first_person_to_the_check_of_its_pdf() {
    let folder = tempfile::tempdir().unwrap();
    let out = script("conical-washer", folder.path());
    assert!(out.contains("OVERRIDDEN  height (half b)"), "{out}");
    assert!(out.contains("plan-seating (half a), judged. Seating: conforms"), "{out}");
    assert!(out.matches("Verified: 1 job,").count() == 3, "{out}");
    an_export_comes_out_as_it_went_in(folder.path());
    a_rewritten_history_is_shown_by_the_checkpoint(folder.path());
}

#[test]
fn the_example_job_with_chilled_torics_from_the_first_person_to_the_check_of_its_pdf() {
    let folder = tempfile::tempdir().unwrap();
    let out = script("chilled-toric", folder.path());
    for half in ["a", "b"] {
        let gates =
            [("plan-seating", "Seating"), ("chill-toric", "Chilling"), ("re-warm", "Chilling")];
        for (step, question) in gates {
            let judged = format!("{step} (half {half}), judged. {question}: conforms");
            assert!(out.contains(&judged), "{judged}: {out}");
        }
    }
    // Read too early, half a waits.
    assert!(out.contains("re-warm (half a), judged. Chilling: does not conform"), "{out}");
    assert!(out.matches("Verified: 1 job,").count() == 3, "{out}");
    the_pdf_tells_the_record(folder.path());
}

/// Verdicts and signatures first, then the work in its order, then what became known later; every
/// event is on the pages, and the numbers to compare with are those of the record.
fn the_pdf_tells_the_record(folder: &Path) {
    let (_, out, _) = run(folder, &["job", "list", "--json"]);
    let list: Value = serde_json::from_str(&out).unwrap();
    let id = list["jobs"][0]["id"].as_str().unwrap();
    let (_, out, _) = run(folder, &["job", "show", id, "--json"]);
    let shown: Value = serde_json::from_str(&out).unwrap();
    let mut command = Command::new("pdftotext");
    let output = command.args(["-layout", "job.pdf", "-"]).current_dir(folder).output().unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let squeezed: String =
        text.chars().filter(|c| !c.is_whitespace() && *c != '\u{200b}').collect();
    let place = |words: &str| {
        let wanted: String = words.chars().filter(|c| !c.is_whitespace()).collect();
        squeezed.find(&wanted).unwrap_or_else(|| panic!("`{words}` is not on the pages"))
    };
    let order = [
        "record of a job",
        "Signed by",
        "Record of the job",
        "Signatures",
        "Gates",
        "Against which it can be checked",
        "The work, step by step",
        "Make the machine safe",
        "Hand over and sign",
        "Photos",
        "What became known later",
        "Cautions that were given",
        "Half a: assembled height",
        "What this rests on",
    ];
    let mut from = 0;
    for words in order {
        let wanted: String = words.chars().filter(|c| !c.is_whitespace()).collect();
        let found = squeezed[from..].find(&wanted);
        from += found.unwrap_or_else(|| panic!("`{words}` is not on the pages, in this order"));
    }
    place(shown["last_hash"].as_str().unwrap());
    place(&format!("{} events", shown["events"]));
    place("CORRECTION");
    let work = &text[text.find("The work, step by step").unwrap()..text.find("Photos").unwrap()];
    for event in shown["log"].as_array().unwrap() {
        let number = event["event"].to_string();
        let at_a_step = !event["place"].is_null();
        let there = work.lines().any(|line| line.split_whitespace().next() == Some(&number));
        assert!(!at_a_step || there, "event {number} is not on the pages");
    }
}

/// Any byte of the PDF, its attachment's all the more.
fn changed_files_are_found(folder: &Path) {
    let pdf = std::fs::read(folder.join("job.pdf")).unwrap();
    let attached = pdf.windows(13).position(|window| window == b"/EmbeddedFile").unwrap();
    let step = pdf.len() / 23;
    let places = (1..23).map(|part| part * step).chain([attached + 300, pdf.len() - 40]);
    for at in places {
        let mut changed = pdf.clone();
        changed[at] ^= 1;
        std::fs::write(folder.join("changed.pdf"), &changed).unwrap();
        let (code, out, err) = run(folder, &["job", "verify", "changed.pdf"]);
        assert_eq!(code, 1, "byte {at}: {out}{err}");
        assert!(out.contains("Does not verify"), "{out}");
    }
    let export = std::fs::read_to_string(folder.join("job.json")).unwrap();
    let other = export.replacen("12", "13", 1);
    std::fs::write(folder.join("changed.json"), other).unwrap();
    let (code, out, _) = run(folder, &["job", "verify", "changed.json", "--json"]);
    let json: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, &json["verified"]), (1, &Value::Bool(false)), "{out}");
    assert!(json["misfit"].is_string());
}

fn an_export_comes_out_as_it_went_in(folder: &Path) {
    let into = |arguments: &[&str]| {
        let (code, out, err) = run(folder, arguments);
        assert_eq!(code, 0, "{arguments:?}: {err}");
        out
    };
    into(&["job", "import", "job.json", "--store", "other.db"]);
    into(&["job", "export", "--all", "-o", "again.json", "--store", "other.db"]);
    let read = |name: &str| std::fs::read(folder.join(name)).unwrap();
    assert!(read("job.json") == read("again.json"), "the export is another one");
    // The PDF holds the same.
    into(&["job", "import", "job.pdf", "--store", "third.db"]);
    into(&["job", "verify", "--all", "--recompute", "--store", "third.db"]);
    into(&["store", "backup", "copy.db"]);
    into(&["store", "restore", "copy.db", "--store", "fourth.db"]);
    into(&["store", "check", "--store", "fourth.db"]);
}

/// A store with another history: here simply another job in the place of the first.
fn a_rewritten_history_is_shown_by_the_checkpoint(folder: &Path) {
    let bench = Shop::new();
    bench.job();
    std::fs::copy(folder.join("checkpoint.json"), bench.bench.path().join("kept.json")).unwrap();
    let ran = bench.run(&["job", "verify", "--all", "--against", "kept.json"]);
    assert_eq!(ran.code(), 1, "{}", ran.stderr());
    let kept = std::fs::read_to_string(folder.join("checkpoint.json")).unwrap();
    bench.bench.file("kept.json", kept.replace("\"person\": \"Kim\"", "\"person\": \"Cam\""));
    let ran = bench.run(&["job", "verify", "--all", "--against", "kept.json"]);
    assert_eq!(ran.code(), 2, "{}", ran.stdout());
    assert!(ran.stderr().contains("signature"), "{}", ran.stderr());
}

/// A shop with one fitter and a store of its own.
pub(crate) struct Shop {
    pub(crate) bench: Bench,
    fitter: &'static str,
}

impl Shop {
    pub(crate) fn new() -> Self {
        Self::of("Fay")
    }

    fn of(fitter: &'static str) -> Self {
        let shop = Self { bench: Bench::new(), fitter };
        let ran = shop.run(&["person", "add", fitter, "--role", "fitter"]);
        assert_eq!(ran.code(), 0, "{}", ran.stderr());
        shop
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Ran {
        self.bench.run_with(
            arguments,
            &[
                ("RINGTRUE_STORE", "record.db"),
                ("RINGTRUE_PERSON", self.fitter),
                ("RINGTRUE_PASSPHRASE", PASSPHRASE),
                ("RINGTRUE_NEW_PASSPHRASE", PASSPHRASE),
                ("RINGTRUE_DEVICE", "bench nine"),
            ],
        )
    }

    /// A job on the starter's joint; its id.
    pub(crate) fn job(&self) -> String {
        self.bench.file("joint.toml", self.run(&["new", "joint"]).stdout());
        let json = self.run(&["job", "new", "joint.toml", "--json"]).json();
        json["job"].as_str().unwrap().to_owned()
    }
}

#[test]
fn a_script_reads_what_is_wanted_and_is_told_what_does_not_fit() {
    let shop = Shop::new();
    let id = shop.job();
    let next = shop.run(&["job", "next", &id, "--json"]).json();
    assert_eq!(next["step"]["step"], "make-safe");
    assert!(!next["step"]["cautions"].as_array().unwrap().is_empty());
    assert!(next["step"]["why"].as_str().unwrap().len() > 10);
    let evidence = next["step"]["evidence"].as_array().unwrap();
    assert_eq!(evidence[0]["name"], "locked-out");
    let refused = [
        (vec!["job", "record", &id, "no-such-step", "--tick", "x"], 2, "no step"),
        (vec!["job", "record", &id, "make-safe"], 2, "nothing is given"),
        (vec!["job", "record", &id, "make-safe", "--tick", "x"], 2, "asks for no `x`"),
        (vec!["job", "record", &id, "make-safe", "--value", "locked-out=1 mm"], 2, "a tick"),
        (vec!["job", "sign", &id], 2, "not done"),
        (vec!["job", "override", &id, "make-safe", "--why", "x"], 2, "does not hold"),
        (vec!["job", "correct", &id, "1", "--why", "x"], 2, "not corrected"),
        (vec!["job", "follow-up", &id, "leak"], 2, "signed"),
        (vec!["job", "show", "J-0"], 2, "no job"),
        (vec!["job", "verify", "--all", "--store", "gone.db"], 4, "no store"),
        (vec!["job", "verify", "gone.json"], 2, "no such file"),
        (vec!["checkpoint"], 2, "keeper"),
    ];
    for (arguments, code, said) in refused {
        let ran = shop.run(&arguments);
        assert_eq!(ran.code(), code, "{arguments:?}: {}{}", ran.stdout(), ran.stderr());
        let told = ran.stderr().to_lowercase();
        assert!(told.contains(said), "{arguments:?}: {told}");
    }
    assert_eq!(shop.run(&["job", "show", &id, "--json"]).json()["events"], 1);
}

/// Whole jobs as each released form wrote them: read for ever, the same when written out again.
#[test]
fn a_job_of_each_released_form_is_read_and_goes_on() {
    let released = [
        ("form-1", include_str!("released/job-form-1.json")),
        ("form-2", include_str!("released/job-form-2.json")),
    ];
    for (form, text) in released {
        assert!(text.contains(form), "{form}");
        goes_on(text);
    }
}

fn goes_on(text: &str) {
    // Keys do not travel: in this shop somebody else goes on.
    let shop = Shop::of("Gus");
    let file = shop.bench.file("old.json", text);
    let file = file.to_str().unwrap();
    assert_eq!(shop.run(&["job", "verify", file]).code(), 0);
    let json = shop.run(&["job", "import", file, "--json"]).json();
    let id = json["new"][0].as_str().unwrap().to_owned();
    assert_eq!(shop.run(&["job", "export", "--all", "-o", "again.json"]).code(), 0);
    assert!(std::fs::read_to_string(shop.bench.path().join("again.json")).unwrap() == text);
    let before = shop.run(&["job", "show", &id, "--json"]).json();
    let ran = shop.run(&["job", "follow-up", &id, "hours", "--hours", "250 h"]);
    assert_eq!(ran.code(), 0, "{}", ran.stderr());
    let after = shop.run(&["job", "show", &id, "--json"]).json();
    assert_eq!(after["events"].as_u64().unwrap(), before["events"].as_u64().unwrap() + 1);
    assert_eq!(after["state"], "signed");
    let ran = shop.run(&["job", "verify", "--all"]);
    assert_eq!(ran.code(), 0, "{}", ran.stdout());
}

#[test]
fn a_wrong_passphrase_and_a_retired_person_record_nothing() {
    let shop = Shop::new();
    let id = shop.job();
    let record = ["job", "record", &id, "make-safe", "--tick", "locked-out"];
    let wrong = shop.bench.run_with(
        &record,
        &[
            ("RINGTRUE_STORE", "record.db"),
            ("RINGTRUE_PERSON", "Fay"),
            ("RINGTRUE_PASSPHRASE", "another one"),
        ],
    );
    assert_eq!(wrong.code(), 2);
    assert!(wrong.stderr().contains("does not open") && !wrong.stderr().contains("another one"));
    let nobody = shop.bench.run_with(&record, &[("RINGTRUE_STORE", "record.db")]);
    assert!(nobody.stderr().contains("--person"), "{}", nobody.stderr());
    let unasked = [("RINGTRUE_STORE", "record.db"), ("RINGTRUE_PERSON", "Fay")];
    let unasked = shop.bench.run_with(&record, &unasked);
    assert!(unasked.stderr().contains("--passphrase-fd"), "{}", unasked.stderr());
    assert_eq!(shop.run(&["person", "retire", "Fay"]).code(), 0);
    let retired = shop.run(&record);
    assert!(retired.code() == 2 && retired.stderr().contains("retired"), "{}", retired.stderr());
    assert_eq!(shop.run(&["job", "show", &id, "--json"]).json()["events"], 1);
}

/// The three ways to give a passphrase, and evidence as it is typed at a prompt.
#[test]
fn evidence_and_passphrase_are_typed_at_a_prompt() {
    let bench = Bench::new();
    let store = [("RINGTRUE_STORE", "record.db")];
    let add = ["person", "add", "Fay", "--role", "fitter"];
    let ran = bench.at_a_terminal((&add, &[PASSPHRASE, "another one"]), &store);
    assert!(ran.code() == 2 && ran.stdout().contains("The two differ"), "{}", ran.stdout());
    let ran = bench.at_a_terminal((&add, &[PASSPHRASE, PASSPHRASE]), &store);
    assert_eq!(ran.code(), 0, "{}", ran.stdout());
    let shop = Shop { bench, fitter: "Fay" };
    let id = shop.job();
    let safe = ["job", "record", &id, "make-safe", "--person", "Fay"];
    // What is no answer records nothing.
    let ran = shop.bench.at_a_terminal((&safe, &["perhaps", PASSPHRASE]), &store);
    assert!(ran.code() == 2 && ran.stdout().contains("`perhaps` is no answer"), "{}", ran.stdout());
    // Nor does a wrong passphrase.
    let ran = shop.bench.at_a_terminal((&safe, &["yes", "yes", "a wrong phrase"]), &store);
    assert!(ran.code() == 2 && ran.stdout().contains("does not open"), "{}", ran.stdout());
    assert_eq!(shop.run(&["job", "show", &id, "--json"]).json()["events"], 1);
    let ran = shop.bench.at_a_terminal((&safe, &["yes", "yes", PASSPHRASE]), &store);
    assert_eq!(ran.code(), 0, "{}", ran.stdout());
    let json = shop.run(&["job", "show", &id, "--json"]).json();
    assert_eq!(json["events"], 3, "{json}");
    assert!(json["log"][1]["says"].as_str().unwrap().contains("locked-out yes; pressure-off yes"));
    // A text, and a value with its unit; an empty line leaves out what is not wanted.
    std::fs::write(shop.bench.path().join("wet.jpg"), b"\xff\xd8\xff not really").unwrap();
    let photo = ["job", "record", &id, "first-photo", "--person", "Fay"];
    let typed = ["wet.jpg", "", "weeps", PASSPHRASE];
    let ran = shop.bench.at_a_terminal((&photo, &typed), &store);
    assert_eq!(ran.code(), 0, "{}", ran.stdout());
    let log = shop.run(&["job", "show", &id, "--json"]).json();
    let says = log["log"][3]["says"].as_str().unwrap();
    assert!(says.contains("wet.jpg") && says.contains("weeps"), "{says}");
}

/// A file that can't be read as a store does not verify; one that is not there could not be used.
#[test]
fn a_store_too_damaged_to_be_read_does_not_verify() {
    let shop = Shop::new();
    shop.job();
    let path = shop.bench.path().join("record.db");
    let whole = std::fs::read(&path).unwrap();
    let mut damages: Vec<Vec<u8>> = [0, 16, 18, 28, 56, 100, 105, 4096]
        .iter()
        .map(|at| {
            let mut bytes = whole.clone();
            bytes[*at] ^= 0xff;
            bytes
        })
        .collect();
    damages.extend([whole[..whole.len() / 2].to_vec(), b"no store".repeat(100), Vec::new()]);
    for (number, damaged) in damages.iter().enumerate() {
        std::fs::write(&path, damaged).unwrap();
        let verified = shop.run(&["job", "verify", "--all"]);
        let checked = shop.run(&["store", "check"]);
        if verified.code() == 0 {
            // A byte that says nothing about the record: everything is still there.
            assert!(shop.run(&["job", "list"]).code() == 0, "damage {number}");
            continue;
        }
        assert_eq!(verified.code(), 1, "damage {number}: {}", verified.stderr());
        assert!(verified.stdout().contains("Does not verify."), "{}", verified.stdout());
        assert_eq!(checked.code(), 1, "damage {number}: {}", checked.stderr());
        assert!(checked.stdout().contains("not sound"), "{}", checked.stdout());
    }
    std::fs::remove_file(&path).unwrap();
    assert_eq!(shop.run(&["job", "verify", "--all"]).code(), 4);
}

#[test]
fn a_changed_store_does_not_verify_and_names_the_event() {
    let shop = Shop::new();
    let id = shop.job();
    for _ in 0..2 {
        let ran = shop.run(&["job", "record", &id, "make-safe", "--tick", "locked-out"]);
        assert_eq!(ran.code(), 0, "{}", ran.stderr());
    }
    assert_eq!(shop.run(&["job", "verify", &id]).code(), 0);
    let path = shop.bench.path().join("record.db");
    let mut bytes = std::fs::read(&path).unwrap();
    let at = bytes.windows(10).position(|window| window == b"bench nine").unwrap();
    bytes[at] = b'B';
    std::fs::write(&path, bytes).unwrap();
    for arguments in
        [vec!["job", "verify", &id, "--json"], vec!["job", "verify", "--all", "--json"]]
    {
        let ran = shop.run(&arguments);
        assert_eq!(ran.code(), 1, "{}", ran.stderr());
        let json: Value = serde_json::from_str(&ran.stdout()).unwrap();
        assert_eq!(
            (&json["job"], &json["verified"]),
            (&Value::from(id.as_str()), &Value::Bool(false))
        );
        assert!(json["event"].as_u64().is_some_and(|event| event >= 2), "{json}");
    }
}
