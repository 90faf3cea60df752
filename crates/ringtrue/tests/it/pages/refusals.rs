//! What the bench refuses, and how it says so.

use serde_json::json;

use super::client::{Asked, Server, Tablet, first_tick};

/// The one script that a page names.
const OUR_SCRIPT: &str = "<script src=\"/assets/bench.js\" defer></script>";

#[test]
fn nobody_writes_or_reads_without_signing_in_and_no_body_is_judged_before() {
    let server = Server::with_people();
    let stranger = Tablet::at(&server);
    for (path, body) in [("/api/jobs", "{broken"), ("/api/jobs/1/events", "{}"), ("/jobs/new", "")]
    {
        let json = ("content-type", "application/json".to_owned());
        let asked =
            Asked { method: "POST", path, headers: vec![json], body: body.as_bytes().to_vec() };
        let answer = stranger.send(asked);
        let api = path.starts_with("/api/");
        assert_eq!(answer.status, if api { 401 } else { 303 }, "{path}: {}", answer.body);
    }
    assert_eq!(stranger.get("/api/jobs").status, 401);
    let sent = stranger.get("/jobs?which=held");
    assert_eq!(sent.status, 303);
    assert_eq!(sent.header("location"), "/sign-in?next=%2Fjobs%3Fwhich%3Dheld");
    // The description is for everybody.
    let description = stranger.get("/api/openapi.json");
    assert_eq!(description.status, 200);
    assert_eq!(description.json()["openapi"], "3.1.0");
}

#[test]
fn a_write_without_the_token_or_from_another_site_is_refused() {
    let server = Server::with_people();
    let mut fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let token = std::mem::take(&mut fay.csrf);
    assert_eq!(fay.act(&job, (1, first_tick())).status, 403);
    assert_eq!(fay.post_form(&format!("/jobs/{job}/steps/make-safe"), &[]).status, 403);
    fay.csrf = token;
    let body = json!({ "expected": 1, "deed": first_tick() });
    let path = format!("/api/jobs/{job}/events");
    for foreign in [("origin", "https://elsewhere.example"), ("sec-fetch-site", "cross-site")] {
        assert_eq!(fay.post_json(&path, &body, &[foreign]).status, 403, "{foreign:?}");
    }
    assert_eq!(fay.get(&format!("/api/jobs/{job}")).json()["expected"], 1);
    assert_eq!(fay.act(&job, (1, first_tick())).status, 201);
}

#[test]
fn every_answer_carries_the_headers_that_keep_others_out() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    for path in ["/jobs", "/sign-in", "/api/jobs", "/assets/bench.css", "/nowhere", "/api/x"] {
        let answer = fay.get(path);
        let policy = answer.header("content-security-policy");
        assert!(policy.contains("default-src 'none'") && !policy.contains("unsafe"), "{path}");
        assert!(policy.contains("frame-ancestors 'none'"), "{path}");
        assert_eq!(answer.header("x-content-type-options"), "nosniff", "{path}");
        assert_eq!(answer.header("referrer-policy"), "no-referrer", "{path}");
        // No script and no style stands inside a page.
        let body = answer.body.replace(OUR_SCRIPT, "");
        for inline in ["<script", "<style", " style=", "onclick"] {
            assert!(!body.contains(inline) || path.ends_with("css"), "{path}: {inline}");
        }
    }
    assert_eq!(fay.get("/nowhere").status, 404);
    assert_eq!(fay.get("/api/x").json()["problem"], "not-found");
}

#[test]
fn names_are_no_paths_and_other_hosts_are_not_answered() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    for path in [
        "/assets/..%2Ftext%2Fen.ftl".to_owned(),
        "/assets/%2e%2e%2ftext%2fen.ftl".to_owned(),
        format!("/jobs/{job}/files/..%2F..%2Fetc%2Fpasswd"),
        "/jobs/..%2F..%2Fetc%2Fpasswd".to_owned(),
    ] {
        assert_eq!(fay.get(&path).status, 404, "{path}");
    }
    let host = ("host", "elsewhere.example".to_owned());
    let asked = Asked { method: "GET", path: "/jobs", headers: vec![host], body: Vec::new() };
    assert_eq!(fay.send(asked).status, 421);
}

#[test]
fn what_is_too_large_or_of_another_type_is_said_so() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let large = "x".repeat(300 << 10);
    let body = json!({ "name": "Fay", "passphrase": large });
    assert_eq!(fay.post_json("/api/session", &body, &[]).status, 413);
    let plain = ("content-type", "text/plain".to_owned());
    let token = ("x-csrf-token", fay.csrf.clone());
    let asked = Asked {
        method: "POST",
        path: "/api/jobs",
        headers: vec![plain, token],
        body: b"{}".to_vec(),
    };
    assert_eq!(fay.send(asked).status, 415);
}

#[test]
fn a_list_is_asked_for_as_described() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let odd = ["which=odd", "which=", "which=open%00", "skip=-1", "skip=4294967296", "most=201"];
    for query in odd.into_iter().chain(["most=x", "most="]) {
        let answer = fay.get(&format!("/api/jobs?{query}"));
        assert_eq!(answer.status, 400, "{query}: {}", answer.body);
    }
    for query in ["", "which=held&skip=4294967295&most=200", "most=0&search=%25%27%22%00"] {
        let answer = fay.get(&format!("/api/jobs?{query}"));
        assert_eq!(answer.status, 200, "{query}: {}", answer.body);
    }
}

#[test]
fn a_disk_that_takes_no_more_is_said_and_nothing_is_half_done() {
    let mut server = Server::with_little_room(420);
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let mut expected = 1;
    let refused = loop {
        let answer = fay.act(&job, (expected, first_tick()));
        if answer.status != 201 {
            break answer;
        }
        expected += 2;
        assert!(expected < 10_000, "there is room for ever");
    };
    let problem = refused.json()["problem"].clone();
    assert_eq!((refused.status, problem.as_str()), (503, Some("not-kept")), "{}", refused.body);
    // What was acknowledged is there and can be read, and the bench stays.
    assert_eq!(fay.get(&format!("/api/jobs/{job}")).json()["expected"], expected);
    assert_eq!(fay.get(&format!("/jobs/{job}/steps/make-safe")).status, 200);
    server.is_well();
}

#[test]
fn whoever_guesses_has_to_wait() {
    let server = Server::with_people();
    let tablet = Tablet::at(&server);
    let guess = json!({ "name": "Fay", "passphrase": "not this one" });
    for _ in 0..5 {
        assert_eq!(tablet.post_json("/api/session", &guess, &[]).status, 401);
    }
    let answer = tablet.post_json("/api/session", &guess, &[]);
    assert_eq!(answer.status, 429, "{}", answer.body);
    assert!(answer.header("retry-after").parse::<u64>().unwrap() >= 1);
}
