//! Requests that nobody sends by mistake.

use std::io::Write;

use serde_json::json;

use super::client::{Asked, PASSPHRASE, Server, Tablet, first_tick};
use super::raw::{self, line, send, until_closed};

fn get(path: &str, more: &str) -> Vec<u8> {
    format!("GET {path} HTTP/1.1\r\nhost: HOST\r\n{more}\r\n").into_bytes()
}

#[test]
fn heads_and_bodies_beyond_all_measure_are_refused_before_they_are_there() {
    let mut server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let long = "a".repeat(100 << 10);
    let many: String = (0..200).map(|number| format!("x-{number}: 1\r\n")).collect();
    for head in [
        get(&format!("/{long}"), ""),
        get("/sign-in", &format!("x-long: {long}\r\n")),
        get("/sign-in", &many),
        get("/sign-in", &format!("cookie: ringtrue-session={long}\r\n")),
    ] {
        let reply = send(&server, &head).unwrap();
        assert!(matches!(reply.status, 414 | 431), "{}", reply.head);
    }
    // The length is enough: nothing of the body is sent, and none is waited for.
    let who = format!("cookie: {}\r\nx-csrf-token: {}\r\n", fay.cookie, fay.csrf);
    let json = "content-type: application/json\r\n";
    let form = "content-type: application/x-www-form-urlencoded\r\n";
    for (path, who, kind, length) in [
        ("/api/session", "", json, 17_u64 << 10),
        ("/sign-in", "", form, 17 << 10),
        ("/api/jobs", &who, json, 25 << 20),
        ("/api/jobs", &who, json, u64::MAX),
        ("/api/joints/draw", &who, form, 257 << 10),
    ] {
        let head = format!(
            "POST {path} HTTP/1.1\r\nhost: HOST\r\n{who}{kind}content-length: {length}\r\n\r\n"
        );
        let reply = send(&server, head.as_bytes()).unwrap();
        let wanted = if length == u64::MAX { 431 } else { 413 };
        assert_eq!(reply.status, wanted, "{path} {length}: {}", reply.head);
    }
    // A body that does not say how long it is.
    let piece = format!("{:x}\r\n{}\r\n", 8 << 10, " ".repeat(8 << 10));
    let pieces = piece.repeat(5);
    let head = format!(
        "POST /api/session HTTP/1.1\r\nhost: HOST\r\n{json}transfer-encoding: chunked\r\n\r\n\
         {pieces}"
    );
    assert_eq!(send(&server, head.as_bytes()).unwrap().status, 413);
    server.is_well();
}

/// A tablet without script sends a photo as it is: it has to be told, not to find the line broken.
#[test]
fn whoever_sends_too_much_is_told_though_they_send_it_to_the_end() {
    let mut server = Server::with_people();
    let mut fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let path = format!("/api/jobs/{job}/events");
    let much = json!({ "expected": 1, "deed": "x".repeat(30 << 20) });
    assert_eq!(fay.post_json(&path, &much, &[]).status, 413);
    let step = format!("/jobs/{job}/steps/make-safe");
    assert_eq!(fay.post_form(&step, &[("note", &"x".repeat(25 << 20))]).status, 413);
    // So has whoever is not signed in any more.
    let much = json!({ "expected": 1, "deed": "x".repeat(9 << 20) });
    fay.cookie.clear();
    assert_eq!(fay.post_json(&path, &much, &[]).status, 401);
    server.is_well();
}

#[test]
fn two_ways_to_read_a_request_are_none() {
    let mut server = Server::with_people();
    let inner = "GET /api/openapi.json HTTP/1.1\r\nhost: HOST\r\n\r\n";
    let post = "POST /api/session HTTP/1.1\r\nhost: HOST\r\ncontent-type: application/json\r\n";
    let chunked = "transfer-encoding: chunked\r\n";
    let cases = [
        format!("{post}content-length: 4\r\n{chunked}\r\n0\r\n\r\n{inner}"),
        format!("{post}{chunked}content-length: 4\r\n\r\n0\r\n\r\n{inner}"),
        format!("{post}content-length: 0\r\ncontent-length: 60\r\n\r\n{inner}"),
        format!("{post}content-length: +0\r\n\r\n{inner}"),
        format!("{post}content-length: -1\r\n\r\n{inner}"),
        format!("{post}content-length: 0x10\r\n\r\n{inner}"),
        format!("{post}transfer-encoding: xchunked\r\n\r\n0\r\n\r\n{inner}"),
        format!("{post}transfer-encoding: chunked, identity\r\n\r\n0\r\n\r\n{inner}"),
        format!("{post}{chunked}\r\nfffffffffffffffff\r\n{inner}"),
        format!("{post}{chunked}\r\n-1\r\n{inner}"),
        format!("{post}{chunked}\r\nzz\r\n{inner}"),
        format!("GET /api/openapi.json HTTP/1.1\r\nhost : HOST\r\n\r\n{inner}"),
        format!("GET /api/openapi.json HTTP/1.1\r\nhost: HOST\r\n folded: 1\r\n\r\n{inner}"),
        format!("GET /api/openapi.json HTTP/1.1\r\nhost: HOST\r\nx: a\0b\r\n\r\n{inner}"),
        format!("GET /api/ openapi.json HTTP/1.1\r\nhost: HOST\r\n\r\n{inner}"),
        format!("GET /api/openapi.json HTTP/9.9\r\nhost: HOST\r\n\r\n{inner}"),
        "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n\0\0\0\x04\0\0\0\0\0".to_owned(),
        "GET /api/openapi.json\r\n".to_owned(),
        "\r\n\r\n\r\n\0\0\0\0".to_owned(),
        "\u{feff}GET / HTTP/1.1\r\nhost: HOST\r\n\r\n".to_owned(),
    ];
    for case in cases {
        let (mut stream, host) = line(&server);
        stream.write_all(case.replace("HOST", &host).as_bytes()).unwrap();
        stream.shutdown(std::net::Shutdown::Write).unwrap();
        let seen = String::from_utf8_lossy(&until_closed(&mut stream)).into_owned();
        assert!(!seen.contains("\"openapi\""), "{case:?} was read in two ways: {seen}");
        assert!(seen.is_empty() || seen.starts_with("HTTP/1.1 4"), "{case:?}: {seen}");
    }
    server.is_well();
}

#[test]
fn nothing_that_is_sent_becomes_a_header_of_the_answer() {
    let mut server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let split = "%0d%0ax-injected:%20yes%0d%0a%0d%0a<b>";
    let who = format!("cookie: {}\r\n", fay.cookie);
    for path in [
        format!("/sign-in?next=/{split}"),
        format!("/unlock?next=/{split}"),
        format!("/{split}"),
        format!("/jobs?search={split}"),
        format!("/jobs/{split}"),
        format!("/jobs/{split}/report.pdf"),
        format!("/jobs/{job}/steps/{split}"),
        format!("/jobs/{job}/files/{split}"),
        format!("/assets/{split}"),
        format!("/library/{split}/file"),
        format!("/api/jobs/{split}"),
    ] {
        for who in ["", &who] {
            let reply = send(&server, &get(&path, who)).unwrap();
            assert!(!reply.head.contains("x-injected"), "{path}: {}", reply.head);
            assert!(!reply.text().contains("<b>"), "{path}");
        }
    }
    let crlf = "a\r\nx-injected: yes";
    for (path, fields) in [
        ("/lock", vec![("next", crlf)]),
        ("/look", vec![("next", crlf), ("theme", crlf), ("units", crlf)]),
        ("/sign-in", vec![("name", "Fay"), ("passphrase", PASSPHRASE), ("next", crlf)]),
        ("/sign-in", vec![("name", "Fay"), ("passphrase", PASSPHRASE), ("device", crlf)]),
        ("/unlock", vec![("passphrase", PASSPHRASE), ("next", crlf)]),
    ] {
        let answer = fay.post_form(path, &fields);
        assert_eq!(answer.status, 303, "{path}");
        assert_eq!(answer.header("x-injected"), "", "{path}");
    }
    server.is_well();
}

#[test]
fn a_token_stands_for_one_session_while_it_lasts() {
    let mut server = Server::with_people();
    let mut fay = Tablet::of(&server, "Fay");
    let cam = Tablet::of(&server, "Cam");
    let job = fay.open_job();
    let path = format!("/api/jobs/{job}/events");
    let body = json!({ "expected": 1, "deed": first_tick() });
    let step = format!("/jobs/{job}/steps/make-safe");
    // Somebody else's token, one of an earlier session, none, and one that is nearly right.
    let own = std::mem::replace(&mut fay.csrf, cam.csrf.clone());
    let earlier = Tablet::of(&server, "Fay");
    let nearly = own[..own.len() - 1].to_owned();
    for token in [cam.csrf.clone(), earlier.csrf.clone(), String::new(), nearly, "0".repeat(64)] {
        fay.csrf = token;
        assert_eq!(fay.post_json(&path, &body, &[]).status, 403);
        assert_eq!(fay.post_form(&step, &[("deed", "record"), ("expected", "1")]).status, 403);
        assert_eq!(fay.post_form("/sign-out", &[]).status, 403);
        assert_eq!(fay.post_form("/lock", &[]).status, 403);
    }
    fay.csrf = own;
    assert_eq!(fay.post_json(&path, &body, &[]).status, 201);
    // What was recorded of a session is worth nothing once it has ended.
    assert_eq!(fay.post_form("/sign-out", &[]).status, 303);
    let body = json!({ "expected": 3, "deed": first_tick() });
    assert_eq!(fay.post_json(&path, &body, &[]).status, 401);
    assert_eq!(cam.get(&format!("/api/jobs/{job}")).json()["expected"], 3);
    server.is_well();
}

#[test]
fn a_key_stands_for_one_deed_on_one_job() {
    let mut server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let (one, other) = (fay.open_job(), fay.open_job());
    let key = [("idempotency-key", "round 1")];
    let body = json!({ "expected": 1, "deed": first_tick() });
    let events = |job: &str| format!("/api/jobs/{job}/events");
    assert_eq!(fay.post_json(&events(&one), &body, &key).status, 201);
    // The very same bytes for another job are another request: not answered as if it were done.
    let answer = fay.post_json(&events(&other), &body, &key);
    assert_eq!((answer.status, answer.json()["problem"].as_str()), (422, Some("key-taken")));
    assert_eq!(fay.get(&format!("/api/jobs/{other}")).json()["expected"], 1);
    let fresh = [("idempotency-key", "round 2")];
    assert_eq!(fay.post_json(&events(&other), &body, &fresh).status, 201);
    let later = json!({ "expected": 3, "deed": first_tick() });
    assert_eq!(fay.post_json(&events(&one), &later, &key).status, 422);
    for odd in ["", " ", &"k".repeat(201)] {
        let answer = fay.post_json(&events(&one), &later, &[("idempotency-key", odd)]);
        assert_eq!(answer.status, 400, "{odd:?}");
    }
    assert_eq!(fay.get(&format!("/api/jobs/{one}")).json()["expected"], 3);
    server.is_well();
}

#[test]
fn a_method_is_what_the_request_says_and_nothing_else() {
    let mut server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let token = |more: &[(&'static str, &str)]| {
        let mut headers = vec![("x-csrf-token", fay.csrf.clone())];
        headers.extend(more.iter().map(|(name, value)| (*name, (*value).to_owned())));
        headers
    };
    let overrides = ["x-http-method-override", "x-http-method", "x-method-override"];
    let body = json!({ "expected": 1, "deed": first_tick() }).to_string().into_bytes();
    for name in overrides {
        let path = format!("/api/jobs/{job}/events");
        let headers = token(&[(name, "POST"), ("content-type", "application/json")]);
        let asked = Asked { method: "GET", path: &path, headers, body: Vec::new() };
        let answer = fay.send(asked);
        assert_eq!((answer.status, answer.header("allow")), (405, "POST"), "{name}");
        let headers = token(&[(name, "DELETE"), ("content-type", "application/json")]);
        let path = format!("/api/jobs/{job}");
        let asked = Asked { method: "POST", path: &path, headers, body: body.clone() };
        let answer = fay.send(asked);
        assert_eq!((answer.status, answer.header("allow")), (405, "GET,HEAD"), "{name}");
    }
    for method in ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "PROPFIND", "get", "PosT"] {
        for path in ["/jobs", "/api/jobs", "/assets/bench.css", "/nowhere"] {
            let bytes = format!("{method} {path} HTTP/1.1\r\nhost: HOST\r\n\r\n");
            let reply = send(&server, bytes.as_bytes()).unwrap();
            let wanted = if path == "/nowhere" { 404 } else { 405 };
            assert_eq!(reply.status, wanted, "{method} {path}");
            // Nothing of the request comes back, as TRACE would have it.
            assert!(!reply.text().contains("HTTP/1.1"), "{method} {path}");
        }
    }
    assert_eq!(fay.post_form(&format!("/jobs/{job}"), &[("_method", "DELETE")]).status, 405);
    assert_eq!(fay.get(&format!("/api/jobs/{job}")).json()["expected"], 1);
    let head = send(&server, b"HEAD /sign-in HTTP/1.1\r\nhost: HOST\r\nconnection: close\r\n\r\n");
    assert_eq!(head.unwrap().body, b"");
    server.is_well();
}

#[test]
fn addresses_that_are_no_addresses_of_the_bench_lead_nowhere() {
    let mut server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let who = format!("cookie: {}\r\n", fay.cookie);
    for path in [
        "/assets/../../../../etc/passwd",
        "/assets/..%2f..%2f..%2fetc%2fpasswd",
        "/assets/%2e%2e/%2e%2e/text/en.ftl",
        "/assets/..%5c..%5ctext%5cen.ftl",
        "/assets/%00",
        "/assets/bench.css%00.txt",
        "/assets/",
        "/assets",
        "//etc/passwd",
        "/./jobs",
        "/jobs/%ff%fe",
        "/jobs/%",
        "/api/jobs/%ff",
        "/api/jobs/..%2f..",
        "/JOBS",
        "/jobs/JOB/events/one/correct",
        "/jobs/JOB/events/-1/correct",
        "/jobs/JOB/events/99999999999999999999999/correct",
        "/jobs/JOB/files/%2e%2e",
        "/jobs/JOB/steps/make-safe/c",
        "/library/../../record.db",
        "/library/%2e%2e%2frecord.db/file",
        "/record.db",
    ] {
        let reply = send(&server, &get(&path.replace("JOB", &job), &who)).unwrap();
        assert_eq!(reply.status, 404, "{path}: {}", reply.text());
        assert_eq!(reply.header("x-content-type-options"), "nosniff", "{path}");
        let said = reply.text();
        let page = !path.starts_with("/api/")
            && !path.starts_with("/assets/..%")
            && !path.starts_with("/assets/%00")
            && !path.starts_with("/assets/bench");
        assert!(said.contains(if page { "<html" } else { "\"not-found\"" }), "{path}: {said}");
    }
    // Another host's name, two of them, or none.
    for hosts in ["host: elsewhere.example\r\n", "host: HOST\r\nhost: elsewhere.example\r\n", ""] {
        let head = format!("GET /sign-in HTTP/1.1\r\n{hosts}\r\n");
        let reply = send(&server, head.as_bytes()).unwrap();
        assert!(matches!(reply.status, 400 | 421), "{hosts:?}: {}", reply.head);
    }
    let whole = format!("GET http://elsewhere.example/jobs HTTP/1.1\r\nhost: HOST\r\n{who}\r\n");
    assert!(send(&server, whole.as_bytes()).unwrap().status < 500);
    server.is_well();
}

#[test]
fn nobody_who_is_not_signed_in_makes_the_bench_read_a_body() {
    let mut server = Server::with_people();
    let job = Tablet::of(&server, "Fay").open_job();
    for route in super::routes::guarded_writes() {
        let path = route.path.replace("{id}", &job).replace("{step}", "make-safe");
        let path = path.replace("{half}", "a").replace("{event}", "1");
        for more in ["", "expect: 100-continue\r\n", "cookie: ringtrue-session=0\r\n"] {
            // A body is announced and never comes.
            let head = format!(
                "POST {path} HTTP/1.1\r\nhost: HOST\r\n{more}content-type: application/json\r\n\
                 content-length: 4000\r\n\r\n"
            );
            let reply = send(&server, head.as_bytes()).unwrap();
            let wanted = if path.starts_with("/api/") { 401 } else { 303 };
            assert_eq!(reply.status, wanted, "{path} {more:?}: {}", reply.head);
            if wanted == 303 {
                assert!(reply.header("location").starts_with("/sign-in?next="), "{path}");
            }
        }
    }
    server.is_well();
}

#[test]
fn many_who_guess_at_once_are_stopped_like_one_who_guesses_often() {
    let mut server = Server::with_people();
    let guess = json!({ "name": "Fay", "passphrase": "not this one" });
    let mut statuses: Vec<u16> = std::thread::scope(|scope| {
        let server = &server;
        let send = || Tablet::at(server).post_json("/api/session", &guess, &[]).status;
        let sent: Vec<_> = (0..40).map(|_| scope.spawn(send)).collect();
        sent.into_iter().map(|one| one.join().unwrap()).collect()
    });
    statuses.sort_unstable();
    let looked_at = statuses.iter().filter(|status| **status == 401).count();
    assert!((5..=8).contains(&looked_at), "{statuses:?}");
    assert!(statuses.iter().all(|status| matches!(status, 401 | 429)), "{statuses:?}");
    server.is_well();
}

#[test]
fn a_file_that_is_named_like_a_path_is_a_file() {
    let mut server = Server::with_people();
    let kim = Tablet::of(&server, "Kim");
    let text = super::client::example_joint()["files"]["frame-half.toml"].clone();
    let name = "..\\..\\../../x\u{202e}y%0d%0a";
    let body = format!(
        "--b\r\ncontent-disposition: form-data; name=\"csrf\"\r\n\r\n{}\r\n\
         --b\r\ncontent-disposition: form-data; name=\"file\"; filename=\"{name}\"\r\n\r\n{}\r\n\
         --b--\r\n",
        kim.csrf,
        text.as_str().unwrap()
    );
    let kind = ("content-type", "multipart/form-data; boundary=b".to_owned());
    let asked =
        Asked { method: "POST", path: "/library", headers: vec![kind], body: body.into_bytes() };
    let answer = kim.send(asked);
    assert!(matches!(answer.status, 200 | 303 | 422), "{} {}", answer.status, answer.body);
    let beside: Vec<_> = std::fs::read_dir(server.folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| !name.starts_with("record.db") && name != "stderr")
        .collect();
    assert_eq!(beside, [""; 0]);
    // Parts that end nowhere, and more fields than a form has.
    let many = "--b\r\ncontent-disposition: form-data; name=\"x\"\r\n\r\n\r\n".repeat(3000);
    for body in ["--b\r\n".to_owned(), "--c--".to_owned(), many, String::new()] {
        let kind = ("content-type", "multipart/form-data; boundary=b".to_owned());
        let headers = vec![kind];
        let asked = Asked { method: "POST", path: "/library", headers, body: body.into_bytes() };
        assert!(matches!(kim.send(asked).status, 400 | 403), "a body that is no form");
    }
    let reply = raw::send(&server, &get("/library", &format!("cookie: {}\r\n", kim.cookie)));
    assert_eq!(reply.unwrap().status, 200);
    server.is_well();
}
