//! Requests that come twice, and two tablets on one job.

use std::io::{BufRead, BufReader};
use std::time::{Duration, Instant};

use serde_json::json;

use super::client::{PASSPHRASE, Server, Tablet, example_joint, first_tick};

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
fn a_write_that_comes_many_times_at_once_is_done_once_and_answered_alike() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let path = format!("/api/jobs/{job}/events");
    for round in 0..5_u64 {
        let expected = 1 + 2 * round;
        let body = json!({ "expected": expected, "deed": first_tick() });
        let key = format!("round {round}");
        let answers: Vec<_> = std::thread::scope(|scope| {
            let send = || fay.post_json(&path, &body, &[("idempotency-key", key.as_str())]);
            let sent: Vec<_> = (0..8).map(|_| scope.spawn(send)).collect();
            sent.into_iter().map(|one| one.join().unwrap()).collect()
        });
        for answer in &answers {
            assert_eq!((answer.status, &answer.body), (201, &answers[0].body));
        }
        let now = fay.get(&format!("/api/jobs/{job}")).json();
        assert_eq!(now["expected"], expected + 2);
    }
}

#[test]
fn of_many_who_write_at_once_one_is_first_and_the_others_are_shown_it() {
    let server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let mut statuses: Vec<u16> = std::thread::scope(|scope| {
        let act = || fay.act(&job, (1, first_tick())).status;
        let sent: Vec<_> = (0..8).map(|_| scope.spawn(act)).collect();
        sent.into_iter().map(|one| one.join().unwrap()).collect()
    });
    statuses.sort_unstable();
    assert_eq!(statuses, [201, 409, 409, 409, 409, 409, 409, 409]);
    assert_eq!(fay.get(&format!("/api/jobs/{job}")).json()["expected"], 3);
}

#[test]
fn of_many_who_come_at_once_to_an_empty_bench_one_is_the_first() {
    let server = Server::start();
    let answers: Vec<_> = std::thread::scope(|scope| {
        let come = |name: &'static str| {
            let tablet = Tablet::at(&server);
            move || {
                let passphrase = [("passphrase", PASSPHRASE), ("passphrase-again", PASSPHRASE)];
                let fields = [[("name", name)].as_slice(), &passphrase].concat();
                tablet.post_form("/first", &fields)
            }
        };
        let sent: Vec<_> =
            ["Fay", "Cam", "Eli", "Kim"].map(|name| scope.spawn(come(name))).into_iter().collect();
        sent.into_iter().map(|one| one.join().unwrap()).collect()
    });
    let mut statuses: Vec<u16> = answers.iter().map(|answer| answer.status).collect();
    statuses.sort_unstable();
    assert_eq!(statuses, [303, 409, 409, 409]);
    let first = answers.iter().position(|answer| answer.status == 303).unwrap();
    let mut keeper = Tablet::at(&server);
    keeper.sign_in(["Fay", "Cam", "Eli", "Kim"][first]);
    let people = keeper.get("/people").body;
    assert_eq!(people.matches("class=\"card\"").count(), 1);
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
    let says = now["events"][0]["says"].as_str().unwrap();
    let wanted = "Blocked, locked out and tagged: yes; Pressure let off, vent open: yes";
    assert!(says.ends_with(wanted), "{says}");
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
    // How long it takes from a deed that is recorded to the line that tells the other tablet.
    let mut heard_of = |expected: u64| {
        assert_eq!(fay.act(&job, (expected, first_tick())).status, 201);
        let recorded = Instant::now();
        let wanted = format!("\"event\":{},", expected + 1);
        // A stream that has nothing to say keeps itself alive: it would be listened to for ever.
        let is_enough =
            |line: &str| line.contains(&wanted) || recorded.elapsed() > Duration::from_secs(30);
        let heard = lines.find(|line| is_enough(line.as_ref().unwrap())).unwrap().unwrap();
        assert!(heard.starts_with("data:") && heard.contains("\"person\":\"Fay\""), "{heard}");
        recorded.elapsed()
    };
    // What comes first shows that the bench asks its store for news by now. On a machine that has
    // much to do one may come late: of three, one is in time.
    heard_of(1);
    let took = [3, 5, 7].map(heard_of);
    assert!(took.iter().min() < Some(&Duration::from_secs(1)), "{took:?}");
}
