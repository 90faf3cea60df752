//! Each role at each call, over the wire.

use std::collections::BTreeSet;

use serde_json::json;

use super::client::{Server, Tablet, first_tick};
use super::raw;
use super::routes::ROUTES;

/// What each call is answered: a stranger, fitter, checker, engineer, keeper. What is sent holds
/// nothing but the token, so 400, 404 and 422 mean that the call was allowed and then did not fit.
const TABLE: &[(&str, &str, [u16; 5])] = &[
    ("GET", "/", [303, 303, 303, 303, 303]),
    ("GET", "/first", [303, 303, 303, 303, 303]),
    ("POST", "/first", [409, 409, 409, 409, 409]),
    ("GET", "/sign-in", [200, 200, 200, 200, 200]),
    ("POST", "/sign-in", [401, 401, 401, 401, 401]),
    ("GET", "/unlock", [303, 303, 303, 303, 303]),
    ("POST", "/unlock", [303, 303, 303, 303, 303]),
    ("POST", "/look", [303, 303, 303, 303, 303]),
    ("GET", "/jobs", [303, 200, 200, 200, 200]),
    ("GET", "/jobs/new", [303, 200, 200, 200, 403]),
    ("POST", "/jobs/new", [303, 422, 422, 422, 403]),
    ("GET", "/jobs/build", [303, 200, 200, 200, 403]),
    ("POST", "/jobs/build", [303, 422, 422, 422, 403]),
    ("GET", "/library", [303, 200, 200, 200, 200]),
    ("POST", "/library", [303, 403, 403, 422, 422]),
    ("GET", "/library/{hash}", [303, 404, 404, 404, 404]),
    ("GET", "/library/{hash}/file", [303, 404, 404, 404, 404]),
    ("GET", "/people", [303, 403, 403, 403, 200]),
    ("POST", "/people", [303, 403, 403, 403, 422]),
    ("POST", "/people/retire", [303, 403, 403, 403, 404]),
    ("GET", "/jobs/{id}", [303, 200, 200, 200, 200]),
    ("GET", "/jobs/{id}/steps/{step}", [303, 200, 200, 200, 200]),
    ("POST", "/jobs/{id}/steps/{step}", [303, 422, 422, 422, 403]),
    ("GET", "/jobs/{id}/steps/{step}/{half}", [303, 404, 404, 404, 404]),
    ("POST", "/jobs/{id}/steps/{step}/{half}", [303, 404, 404, 404, 403]),
    ("GET", "/jobs/{id}/history", [303, 200, 200, 200, 200]),
    ("GET", "/jobs/{id}/events/{event}/correct", [303, 200, 200, 200, 403]),
    ("POST", "/jobs/{id}/events/{event}/correct", [303, 422, 422, 422, 403]),
    ("GET", "/jobs/{id}/sign", [303, 200, 200, 200, 200]),
    ("POST", "/jobs/{id}/sign", [303, 422, 422, 422, 403]),
    ("GET", "/jobs/{id}/section", [303, 200, 200, 200, 200]),
    ("GET", "/jobs/{id}/try", [303, 200, 200, 200, 200]),
    ("GET", "/jobs/{id}/report.pdf", [303, 200, 200, 200, 200]),
    ("GET", "/jobs/{id}/record.json", [303, 200, 200, 200, 200]),
    ("GET", "/jobs/{id}/files/{hash}", [303, 404, 404, 404, 404]),
    ("GET", "/api/openapi.json", [200, 200, 200, 200, 200]),
    ("POST", "/api/session", [400, 400, 400, 400, 400]),
    ("POST", "/api/session/unlock", [400, 400, 400, 400, 400]),
    ("GET", "/api/jobs", [401, 200, 200, 200, 200]),
    ("POST", "/api/jobs", [401, 400, 400, 400, 403]),
    ("GET", "/api/jobs/{id}", [401, 200, 200, 200, 200]),
    ("POST", "/api/jobs/{id}/events", [401, 400, 400, 400, 403]),
    ("POST", "/api/jobs/{id}/assess", [401, 415, 415, 415, 403]),
    ("POST", "/api/joints/draw", [401, 415, 415, 415, 403]),
    ("GET", "/api/jobs/{id}/section", [401, 202, 202, 202, 202]),
    ("GET", "/api/jobs/{id}/section/progress", [401, 200, 200, 200, 200]),
    ("GET", "/api/jobs/{id}/solving/{name}", [401, 200, 200, 200, 200]),
    ("GET", "/api/jobs/{id}/stream", [401, 200, 200, 200, 200]),
    ("GET", "/assets/{name}", [200, 200, 200, 200, 200]),
    // These two end what the others need.
    ("POST", "/lock", [303, 303, 303, 303, 303]),
    ("POST", "/sign-out", [303, 303, 303, 303, 303]),
];

#[test]
fn each_role_is_answered_as_the_table_says() {
    let server = Server::with_people();
    let job = Tablet::of(&server, "Fay").open_job();
    let hash = "0".repeat(64);
    let filled = [
        ("{id}", job.as_str()),
        ("{step}", "make-safe"),
        ("{half}", "a"),
        ("{event}", "1"),
        ("{hash}", &hash),
        ("{name}", "bench.css"),
    ];
    let mut wrong = Vec::new();
    for (column, name) in ["nobody", "Fay", "Cam", "Eli", "Kim"].into_iter().enumerate() {
        let tablet = if column == 0 { Tablet::at(&server) } else { Tablet::of(&server, name) };
        for (method, path, wanted) in TABLE {
            let at = filled.iter().fold((*path).to_owned(), |at, (part, it)| at.replace(part, it));
            let (kind, body) = match path.starts_with("/api/") {
                true => ("application/json", "{}".to_owned()),
                false => ("application/x-www-form-urlencoded", format!("csrf={}", tablet.csrf)),
            };
            let bytes = format!(
                "{method} {at} HTTP/1.1\r\nhost: HOST\r\ncookie: {}\r\nx-csrf-token: {}\r\n\
                 content-type: {kind}\r\ncontent-length: {}\r\n\r\n{body}",
                tablet.cookie,
                tablet.csrf,
                body.len()
            );
            let status = raw::send(&server, bytes.as_bytes()).unwrap().status;
            // The section may have been solved meanwhile.
            if status != wanted[column] && (status, wanted[column]) != (200, 202) {
                wrong.push(format!("{name} {method} {path}: {status}, not {}", wanted[column]));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn the_table_names_every_call() {
    let known: BTreeSet<(&str, &str)> = TABLE.iter().map(|(m, p, _)| (*m, *p)).collect();
    let routes: BTreeSet<(&str, &str)> = ROUTES.iter().map(|r| (r.method, r.path)).collect();
    assert_eq!(known, routes);
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
