//! Ways that a person goes, without script.

use std::path::Path;
use std::time::Duration;

use super::client::{Server, Tablet};
use crate::bench::Bench;

#[test]
fn the_first_start_makes_a_keeper_who_adds_a_fitter() {
    let server = Server::start();
    let mut tablet = Tablet::at(&server);
    assert_eq!(tablet.get("/jobs").header("location"), "/first?next=%2Fjobs");
    assert!(tablet.get("/first").body.contains("The first person is the keeper"));
    let two =
        |again| [("name", "Kim"), ("passphrase", "oak table lamp"), ("passphrase-again", again)];
    assert_eq!(tablet.post_form("/first", &two("oak table lamb")).status, 422);
    let made = tablet.post_form("/first", &two("oak table lamp"));
    assert_eq!(made.status, 303, "{}", made.body);
    tablet.cookie = made.header("set-cookie").split(';').next().unwrap().to_owned();
    let people = tablet.get("/people");
    assert_eq!(people.status, 200, "{}", people.body);
    let token = people.body.split("name=\"csrf-token\" content=\"").nth(1).unwrap();
    tablet.csrf = token.split('"').next().unwrap().to_owned();
    let fay = [
        ("name", "Fay"),
        ("role", "fitter"),
        ("passphrase", super::client::PASSPHRASE),
        ("passphrase-again", super::client::PASSPHRASE),
    ];
    assert_eq!(tablet.post_form("/people", &fay).status, 303);
    // Nobody makes a second first person.
    assert_eq!(Tablet::at(&server).get("/first").header("location"), "/sign-in");
    assert_eq!(Tablet::at(&server).post_form("/first", &two("oak table lamp")).status, 409);
    // The keeper does no fitting, and the fitter keeps nobody.
    assert_eq!(tablet.get("/jobs/new").status, 403);
    assert_eq!(Tablet::of(&server, "Fay").get("/people").status, 403);
}

#[test]
fn a_step_is_recorded_by_its_form_and_what_was_refused_stays_typed() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let page = fay.get(&format!("/jobs/{job}"));
    assert!(page.body.contains(&format!("href=\"/jobs/{job}/steps/make-safe\"")), "{}", page.body);
    let step = format!("/jobs/{job}/steps/make-safe");
    let shown = fay.get(&step).body;
    // The caution stands before the step.
    assert!(shown.find("class=\"caution\"").unwrap() < shown.find("class=\"what\"").unwrap());
    let both = [
        ("deed", "record"),
        ("expected", "1"),
        ("key", "k1"),
        ("given.locked-out", "yes"),
        ("given.pressure-off", "yes"),
    ];
    let saved = fay.post_form(&step, &both);
    assert_eq!(saved.status, 303, "{}", saved.body);
    assert_eq!(saved.header("location"), format!("/jobs/{job}/steps/first-photo"));
    // The same form again is not done twice.
    assert_eq!(fay.post_form(&step, &both).status, 303);
    assert_eq!(fay.get(&format!("/api/jobs/{job}")).json()["expected"], 3);
    let drain = format!("/jobs/{job}/steps/drain");
    let typed = [
        ("deed", "record"),
        ("expected", "3"),
        ("key", "k2"),
        ("given.drained", "7.4 parsec"),
        ("given.oil-look", "grey <b>no</b> water"),
    ];
    let refused = fay.post_form(&drain, &typed);
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("value=\"7.4 parsec\""), "{}", refused.body);
    assert!(refused.body.contains("grey &#60;b&#62;no"), "{}", refused.body);
}

/// A set of readings that is not recorded without a setting says so at its field.
#[test]
fn settings_that_a_step_wants_are_marked() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let marks = |step: &str| {
        let page = fay.get(&format!("/jobs/{job}/steps/{step}"));
        assert_eq!(page.status, 200, "{}", page.body);
        (page.body.matches("wanted here").count(), page.body.matches("aria-required").count())
    };
    // A toric has no free height that could be stated.
    let seating = fay.get(&format!("/jobs/{job}/steps/plan-seating/a")).body;
    assert!(seating.contains("data-setting=\"wet\"") && !seating.contains("free-height"));
    assert_eq!(marks("dry-out"), (2, 2));
    assert_eq!(marks("plan-seating/a"), (0, 0));
    assert_eq!(marks("choose-agent/a"), (0, 0));
}

/// A step asks for a gauge only where something is read with one.
#[test]
fn a_check_that_takes_no_gauge_shows_none() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let asks = |step: &str| {
        let page = fay.get(&format!("/jobs/{job}/steps/{step}"));
        assert_eq!(page.status, 200, "{step}: {}", page.body);
        page.body.contains("data-evidence-gauge")
    };
    for step in ["plan-seating/a", "choose-agent/a", "face-flatness/a", "leak-test"] {
        assert!(!asks(step), "{step}");
    }
    for step in ["height/a", "measure-stack", "line-up", "gap-closed", "make-safe"] {
        assert_eq!(asks(step), step != "make-safe", "{step}");
    }
}

/// What the load rings push back with is on the pages before a bolt is turned, and where the
/// closed joint is judged.
#[test]
fn a_closing_shows_the_forces_of_the_face_load() {
    let bench = Bench::new();
    let demo = bench.run_in_cache(&["demo", "--out", "."], Path::new(env!("CARGO_TARGET_TMPDIR")));
    assert_eq!(demo.code(), 0, "{}", demo.stderr());
    assert!(demo.stdout().contains("1 job, "), "{}", demo.stdout());
    let server = Server::on(&bench.path().join("record.db"), &[]);
    let mut eli = Tablet::at(&server);
    eli.sign_in_with("Eli", "only for the demo");
    let jobs = eli.get("/api/jobs?which=done").json();
    let job = jobs["jobs"][0]["id"].as_str().unwrap().to_owned();
    let shown = |page: &str| {
        let path = format!("/jobs/{job}/{page}");
        // A face load that the memory has lost comes from the disk beside the request.
        for _ in 0..100 {
            let page = eli.get(&path).body;
            if !page.contains("data-solving=") {
                return page;
            }
            std::thread::sleep(Duration::from_millis(100));
        }
        panic!("{path} is solved for ever");
    };
    let order = shown("steps/draw-together");
    assert!(order.contains("Bolts, each round: 1, 7, 4, 10"), "{order}");
    let last = order.split("100 %").nth(1).unwrap_or_else(|| panic!("{order}"));
    let row = last.split("</tr>").next().unwrap();
    assert!(row.matches("kN").count() + row.matches(" N<").count() == 2, "{row}");
    let closed = shown("steps/gap-closed");
    for words in ["Face load where it is narrowest: ", "Face load where it is widest: "] {
        assert!(closed.contains(words), "{words}: {closed}");
    }
    let section = shown("section");
    assert!(section.contains("by the feelers: 2.62"), "{section}");
}
