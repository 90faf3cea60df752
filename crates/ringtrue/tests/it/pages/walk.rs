//! Ways that a person goes, without script.

use super::client::{Server, Tablet};

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
