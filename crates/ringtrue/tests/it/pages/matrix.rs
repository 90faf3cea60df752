//! Each role at each call, over the wire.

use serde_json::json;

use super::client::{Server, Tablet, first_tick};

/// What each role is answered: fitter, checker, engineer, keeper.
const TABLE: &[(&str, &str, [u16; 4])] = &[
    ("GET", "/jobs", [200, 200, 200, 200]),
    ("GET", "/jobs/new", [200, 200, 200, 403]),
    ("GET", "/jobs/{job}", [200, 200, 200, 200]),
    ("GET", "/jobs/{job}/steps/make-safe", [200, 200, 200, 200]),
    ("GET", "/jobs/{job}/history", [200, 200, 200, 200]),
    ("GET", "/jobs/{job}/sign", [200, 200, 200, 200]),
    ("GET", "/jobs/{job}/record.json", [200, 200, 200, 200]),
    ("GET", "/jobs/{job}/events/1/correct", [200, 200, 200, 403]),
    ("GET", "/library", [200, 200, 200, 200]),
    ("GET", "/people", [403, 403, 403, 200]),
    ("GET", "/api/jobs", [200, 200, 200, 200]),
    ("GET", "/api/jobs/{job}", [200, 200, 200, 200]),
    ("POST", "/library", [403, 403, 422, 422]),
    ("POST", "/people", [403, 403, 403, 422]),
    ("POST", "/people/retire", [403, 403, 403, 404]),
];

#[test]
fn each_role_is_answered_as_the_table_says() {
    let server = Server::with_people();
    let job = Tablet::of(&server, "Fay").open_job();
    for (column, name) in ["Fay", "Cam", "Eli", "Kim"].into_iter().enumerate() {
        let tablet = Tablet::of(&server, name);
        for (method, path, wanted) in TABLE {
            let path = path.replace("{job}", &job);
            let answer = match *method {
                "GET" => tablet.get(&path),
                _ => tablet.post_form(&path, &[]),
            };
            assert_eq!(answer.status, wanted[column], "{name} {method} {path}: {}", answer.body);
        }
    }
}

#[test]
fn each_role_does_only_its_deeds() {
    let server = Server::with_people();
    let tablets = ["Fay", "Cam", "Eli", "Kim"].map(|name| Tablet::of(&server, name));
    let job = tablets[0].open_job();
    // The gate answers no: it holds, and only an engineer passes it.
    let no = json!({ "kind": "record", "step": "make-safe", "half": null, "given": [
        { "kind": "tick", "name": "locked-out", "answer": "no" },
        { "kind": "tick", "name": "pressure-off", "answer": "yes" },
    ] });
    assert_eq!(tablets[3].act(&job, (1, no.clone())).status, 403);
    assert_eq!(tablets[0].act(&job, (1, no)).status, 201);
    assert_eq!(tablets[0].get(&format!("/api/jobs/{job}")).json()["state"], "held");
    let pass = json!({ "kind": "override", "step": "make-safe", "half": null, "why": "seen" });
    for tablet in [&tablets[0], &tablets[1], &tablets[3]] {
        let refused = tablet.act(&job, (3, pass.clone()));
        assert_eq!(refused.status, 403, "{}", refused.body);
    }
    assert_eq!(tablets[2].act(&job, (3, pass)).status, 201);
    let wrong = json!({ "kind": "correct", "event": 4, "why": "too soon", "given": [] });
    assert_eq!(tablets[3].act(&job, (4, wrong.clone())).status, 403);
    assert_eq!(tablets[1].act(&job, (4, wrong)).status, 201);
    assert_eq!(tablets[1].act(&job, (5, first_tick())).status, 201);
}

#[test]
fn a_second_person_confirms_with_their_own_passphrase_on_the_same_tablet() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let by = |name: &str, passphrase: &str| {
        let body = json!({
            "expected": 1,
            "by": { "name": name, "passphrase": passphrase },
            "deed": first_tick(),
        });
        fay.post_json(&format!("/api/jobs/{job}/events"), &body, &[])
    };
    let wrong = by("Cam", "not this one");
    assert_eq!(wrong.status, 403, "{}", wrong.body);
    // A wrong one signs nobody out.
    assert_eq!(fay.get("/jobs").status, 200);
    let right = by("Cam", super::client::PASSPHRASE);
    assert_eq!(right.status, 201, "{}", right.body);
    assert_eq!(right.json()["events"][0]["person"], "Cam");
    assert_eq!(by("Kim", super::client::PASSPHRASE).status, 409);
}
