//! Requests that come twice, and two tablets on one job.

use std::io::{BufRead, BufReader};
use std::time::{Duration, Instant};

use serde_json::json;

use super::client::{Server, Tablet, example_joint, first_tick};

#[test]
fn a_repeated_write_is_done_once_and_answered_alike_even_after_a_power_cut() {
    let mut server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let path = format!("/api/jobs/{job}/events");
    let body = json!({ "expected": 1, "deed": first_tick() });
    let key = [("idempotency-key", "round 1")];
    let first = fay.post_json(&path, &body, &key);
    assert_eq!(first.status, 201, "{}", first.body);
    assert_eq!(fay.post_json(&path, &body, &key).body, first.body);
    server.kill_and_restart();
    let mut fay = Tablet::at(&server);
    fay.sign_in("Fay");
    let again = fay.post_json(&path, &body, &key);
    assert_eq!((again.status, again.body), (201, first.body));
    assert_eq!(fay.get(&format!("/api/jobs/{job}")).json()["expected"], 3);
    // The key stands for that one request, and for that one person's.
    let other = json!({ "expected": 3, "deed": first_tick() });
    assert_eq!(fay.post_json(&path, &other, &key).status, 422);
    let cam = Tablet::of(&server, "Cam");
    assert_eq!(cam.post_json(&path, &other, &key).status, 201);
}

#[test]
fn a_job_is_opened_once_for_one_key() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let key = [("idempotency-key", "joint of today")];
    let first = fay.post_json("/api/jobs", &example_joint(), &key);
    assert_eq!(first.status, 201, "{}", first.body);
    assert_eq!(fay.post_json("/api/jobs", &example_joint(), &key).body, first.body);
    assert_eq!(fay.get("/api/jobs").json()["jobs"].as_array().unwrap().len(), 1);
}

#[test]
fn the_later_of_two_tablets_is_shown_what_changed_and_overwrites_nothing() {
    let server = Server::with_people();
    let (fay, cam) = (Tablet::of(&server, "Fay"), Tablet::of(&server, "Cam"));
    let job = fay.open_job();
    assert_eq!(fay.act(&job, (1, first_tick())).status, 201);
    let late = cam.act(&job, (1, first_tick()));
    assert_eq!(late.status, 409, "{}", late.body);
    let now = &late.json()["now"];
    assert_eq!(now["expected"], 3);
    assert_eq!(now["events"][0]["person"], "Fay");
    assert_eq!(now["events"][0]["says"], "make-safe: locked-out yes; pressure-off yes");
    assert_eq!(cam.act(&job, (3, first_tick())).status, 201);
}

#[test]
fn the_other_tablet_hears_of_it_within_a_second() {
    let server = Server::with_people();
    let (fay, cam) = (Tablet::of(&server, "Fay"), Tablet::of(&server, "Cam"));
    let job = fay.open_job();
    let url = format!("{}/api/jobs/{job}/stream", server.url);
    let stream = ureq::get(&url).header("cookie", &cam.cookie).call().unwrap();
    let mut lines = BufReader::new(stream.into_body().into_reader()).lines();
    // The bench asks its store for news from now on.
    std::thread::sleep(Duration::from_millis(900));
    assert_eq!(fay.act(&job, (1, first_tick())).status, 201);
    let sent = Instant::now();
    let heard = lines.find(|line| line.as_ref().unwrap().contains("make-safe")).unwrap().unwrap();
    assert!(sent.elapsed() < Duration::from_secs(1), "{:?}", sent.elapsed());
    assert!(heard.starts_with("data:") && heard.contains("\"person\":\"Fay\""), "{heard}");
}
