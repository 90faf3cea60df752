//! What stands beside fields, above forms and in lists, so that nobody has to look it up.

use serde_json::json;

use super::client::{PASSPHRASE, Server, Tablet, first_tick};
use crate::bench::Bench;

fn step(tablet: &Tablet, (job, step): (&str, &str)) -> String {
    let page = tablet.get(&format!("/jobs/{job}/steps/{step}"));
    assert_eq!(page.status, 200, "{step}: {}", page.body);
    page.body
}

/// The first step, said not to be done: its gate holds.
fn hold(tablet: &Tablet, job: &str) {
    let deed = json!({ "kind": "record", "step": "make-safe", "half": null, "given": [
        { "kind": "tick", "name": "locked-out", "answer": "no" },
        { "kind": "tick", "name": "pressure-off", "answer": "yes" },
    ] });
    let held = tablet.act(job, (1, deed));
    assert_eq!(held.status, 201, "{}", held.body);
}

#[test]
fn the_drawing_and_the_limit_of_a_value_stand_beside_its_field() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let housing = step(&fay, (&job, "measure-housing/a"));
    for size in ["15 deg", "274.4 mm, 9 mm from the housing face", "28 mm"] {
        assert!(housing.contains(&format!("class=\"known\">drawing: {size}<")), "{housing}");
    }
    // No number of another joint in the empty field.
    for other in ["274.5 mm", "274.6 mm", "28.0 mm", "15.0 deg"] {
        assert!(!housing.contains(&format!("placeholder=\"{other}\"")), "{other}");
    }
    let pressure = step(&fay, (&job, "test-pressure"));
    let limit = "class=\"known\">limit: half a: at most 0.2 MPa (drawing HL-2207, example)";
    assert!(pressure.contains(limit), "{pressure}");
    let warm = step(&fay, (&job, "run-in"));
    assert!(warm.contains("class=\"known\">limit: half a: "), "{warm}");
    let mut inches = Tablet::of(&server, "Fay");
    inches.cookie.push_str("; ringtrue-units=in");
    let housing = step(&inches, (&job, "measure-housing/a"));
    let both = "drawing: 274.4 mm (10.8031 in), 9 mm (0.3543 in) from the housing face";
    assert!(housing.contains(both), "{housing}");
}

#[test]
fn what_keeps_a_step_back_and_what_it_still_wants_stand_above_its_form() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let early = step(&fay, (&job, "drain"));
    let note = early.find("data-held-back").expect("the gate is named");
    assert!(note < early.find("data-evidence-form").unwrap());
    assert!(early[note..].contains(&format!("href=\"/jobs/{job}/steps/make-safe\"")), "{early}");
    assert_eq!(fay.act(&job, (1, first_tick())).status, 201);
    let due = step(&fay, (&job, "drain"));
    assert!(!due.contains("data-held-back") && !due.contains("data-still-wanted"), "{due}");
    let one = [
        ("deed", "record"),
        ("expected", "3"),
        ("key", "k1"),
        ("units", "mm"),
        ("given.drained", "7,4"),
    ];
    let path = format!("/jobs/{job}/steps/drain");
    let saved = fay.post_form(&path, &one);
    assert_eq!((saved.status, saved.header("location")), (303, path.as_str()), "{}", saved.body);
    let page = step(&fay, (&job, "drain"));
    let wanted = "Still wanted here: “Colour, water, metal, smell; number of the sample”.";
    assert!(page.contains(wanted), "{page}");
}

#[test]
fn a_gate_that_was_passed_by_decision_says_by_whom_and_why() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    hold(&fay, &job);
    // With nothing open, the list begins with what is held.
    let list = fay.get("/jobs").body;
    assert!(list.contains("?which=held\" aria-current=\"page\""), "{list}");
    assert!(list.contains(&format!("href=\"/jobs/{job}\"")), "{list}");
    assert!(!fay.get("/jobs?which=open").body.contains(&format!("href=\"/jobs/{job}\"")));
    let why = "Locked by the works <b>office</b>.";
    let deed = json!({ "kind": "override", "step": "make-safe", "half": null, "why": why });
    let eli = Tablet::of(&server, "Eli");
    let passed = eli.act(&job, (3, deed));
    assert_eq!(passed.status, 201, "{}", passed.body);
    let page = step(&fay, (&job, "make-safe"));
    assert!(page.contains("Passed by an engineer"), "{page}");
    assert!(page.contains("<p>Eli, "), "{page}");
    assert!(page.contains(": Locked by the works &#60;b&#62;office&#60;/b&#62;.</p>"), "{page}");
}

#[test]
fn a_cell_that_can_not_be_read_is_named_by_its_line_and_column() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let path = format!("/jobs/{job}/steps/gap-closed");
    let sent = |cells: [[&'static str; 2]; 2]| {
        let mut fields =
            vec![("deed", "record"), ("expected", "1"), ("key", "k1"), ("units", "mm")];
        for [angle, gap] in cells {
            fields.extend([("given.feeler.cell.angle", angle), ("given.feeler.cell.gap", gap)]);
        }
        let answer = fay.post_form(&path, &fields);
        assert_eq!(answer.status, 422, "{}", answer.body);
        answer.body
    };
    let page = sent([["0", "2.61"], ["90", "2.6l"]]);
    assert!(page.contains("Line 2, Gap: ") && !page.contains("typed:"), "{page}");
    assert!(page.contains("aria-invalid"), "{page}");
}

#[test]
fn a_swept_surface_is_chosen_from_the_words_that_are_taken() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let page = step(&fay, (&job, "line-up"));
    for word in ["rim", "bore", "face"] {
        assert!(page.contains(&format!("<option value=\"{word}\">")), "{word}: {page}");
    }
    let path = format!("/jobs/{job}/steps/line-up");
    let typed = [
        ("deed", "record"),
        ("key", "k1"),
        ("units", "mm"),
        ("given.sweeps.cell.surface", "face"),
        ("given.sweeps.cell.angle", "ninety"),
    ];
    let refused = fay.post_form(&path, &typed);
    assert_eq!(refused.status, 422, "{}", refused.body);
    assert!(refused.body.contains("<option value=\"face\" selected>"), "{}", refused.body);
}

/// What was typed beside one unit is not shown beside another one.
#[test]
fn a_form_that_was_refused_keeps_the_units_that_it_was_typed_in() {
    let server = Server::with_people();
    let mut fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    fay.cookie.push_str("; ringtrue-units=in");
    let typed = [("deed", "record"), ("key", "k1"), ("units", "mm"), ("given.torque", "120")];
    let refused = fay.post_form(&format!("/jobs/{job}/steps/tighten"), &typed);
    assert_eq!(refused.status, 422, "{}", refused.body);
    let field = refused.body.split("name=\"given.torque\" value=\"120\"").nth(1).unwrap();
    let unit = field.split("class=\"unit\">").nth(1).unwrap();
    assert!(unit.starts_with("N m<"), "{unit}");
    assert!(refused.body.contains("name=\"units\" value=\"mm\""), "{}", refused.body);
}

#[test]
fn without_a_keeper_anybody_adds_people_as_at_the_command_line() {
    let bench = Bench::new();
    let store = bench.path().join("record.db");
    let added = std::process::Command::new(env!("CARGO_BIN_EXE_ringtrue"))
        .args(["person", "add", "Fay", "--role", "fitter", "--store"])
        .arg(&store)
        .env("RINGTRUE_NEW_PASSPHRASE", PASSPHRASE)
        .output()
        .unwrap();
    assert!(added.status.success(), "{}", String::from_utf8_lossy(&added.stderr));
    let server = Server::on(&store, &[]);
    let fay = Tablet::of(&server, "Fay");
    let people = fay.get("/people");
    assert_eq!(people.status, 200, "{}", people.body);
    assert!(fay.get("/jobs").body.contains("href=\"/people\""));
    let kim = [
        ("name", "Kim"),
        ("role", "keeper"),
        ("passphrase", PASSPHRASE),
        ("passphrase-again", PASSPHRASE),
    ];
    assert_eq!(fay.post_form("/people", &kim).status, 303);
    // From now on a keeper does it.
    assert_eq!(fay.get("/people").status, 403);
    assert_eq!(fay.post_form("/people", &kim).status, 403);
    assert!(!fay.get("/jobs").body.contains("href=\"/people\""));
}
