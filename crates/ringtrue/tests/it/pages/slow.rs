//! Whoever keeps the bench waiting: slow heads, slow bodies, lines that say or take nothing, and
//! more lines than there are places for.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

use super::client::{Server, Tablet};
use super::raw::{line, reply, until_closed};

/// Sends a piece of this every second until the line is closed, for at most so many seconds.
fn drip((stream, _): (TcpStream, String), piece: &str, most: u32) -> (Duration, Vec<u8>) {
    let begun = Instant::now();
    let mut writer = stream.try_clone().unwrap();
    let mut reader = stream;
    let piece = piece.to_owned();
    std::thread::spawn(move || {
        for _ in 0..most {
            std::thread::sleep(Duration::from_secs(1));
            if writer.write_all(piece.as_bytes()).is_err() {
                return;
            }
        }
    });
    let seen = until_closed(&mut reader);
    (begun.elapsed(), seen)
}

fn begun(server: &Server, text: &str) -> (TcpStream, String) {
    let (mut stream, host) = line(server);
    stream.write_all(text.replace("HOST", &host).as_bytes()).unwrap();
    (stream, host)
}

/// Asks for a font over and over and takes nothing of it.
fn takes_nothing(server: &Server) -> Duration {
    let (mut stream, host) = line(server);
    let get = format!("GET /assets/ringtrue-sans-bold.ttf HTTP/1.1\r\nhost: {host}\r\n\r\n");
    let since = Instant::now();
    // More than what the buffers on the way hold.
    stream.set_write_timeout(Some(Duration::from_secs(1))).unwrap();
    for _ in 0..500 {
        if stream.write_all(get.as_bytes()).is_err() {
            break;
        }
    }
    // The line is closed from the other side while nothing is read here: only a write shows it.
    while since.elapsed() < Duration::from_secs(40) {
        std::thread::sleep(Duration::from_millis(500));
        match stream.write(b"x") {
            Ok(_) => {}
            Err(error) if error.kind() == std::io::ErrorKind::WouldBlock => {}
            Err(_) => return since.elapsed(),
        }
    }
    panic!("whoever takes nothing is served for ever")
}

/// What is begun, what drips after it; the least and the most seconds after which it is over (a
/// loaded machine is late), and what is said then.
type Case = (&'static str, String, &'static str, (u64, u64), &'static str);

fn cases(fay: &Tablet, job: &str) -> Vec<Case> {
    let post = format!(
        "POST /api/jobs/{job}/events HTTP/1.1\r\nhost: HOST\r\ncookie: {}\r\nx-csrf-token: {}\r\n\
         content-type: application/json\r\n",
        fay.cookie, fay.csrf
    );
    let sign_in = "POST /api/session HTTP/1.1\r\nhost: HOST\r\n\
                   content-type: application/json\r\n";
    let of_length = |head: &str| format!("{head}content-length: 90\r\n\r\n");
    let in_pieces = format!("{sign_in}transfer-encoding: chunked\r\n\r\n");
    vec![
        ("silence", String::new(), "", (9, 25), ""),
        ("a head", "GET / HTTP/1.1\r\n".to_owned(), "x-one-more: 1\r\n", (9, 25), ""),
        ("a first line", "GET /".to_owned(), "a", (9, 25), ""),
        ("a body", of_length(sign_in), "{", (14, 30), "408"),
        ("pieces without end", in_pieces, "1\r\n{\r\n", (14, 30), "408"),
        ("a body of somebody", of_length(&post), " ", (14, 30), "408"),
    ]
}

/// A line that was of use once and is silent since: how long it stays.
fn idle(server: &Server) -> Duration {
    let (mut stream, _) = begun(server, "GET /sign-in HTTP/1.1\r\nhost: HOST\r\n\r\n");
    assert_eq!(reply(&mut stream).unwrap().status, 200);
    let since = Instant::now();
    assert_eq!(until_closed(&mut stream), b"");
    since.elapsed()
}

#[test]
fn whoever_keeps_the_bench_waiting_is_sent_away_and_nobody_else_waits() {
    let mut server = Server::with_people();
    let fay = Tablet::of(&server, "Fay");
    let job = fay.open_job();
    let s = Duration::from_secs;
    std::thread::scope(|scope| {
        let server = &server;
        let waiting: Vec<_> = cases(&fay, &job)
            .into_iter()
            .map(|(name, head, piece, within, said)| {
                let line = begun(server, &head);
                (name, within, said, scope.spawn(move || drip(line, piece, 40)))
            })
            .collect();
        let idle = scope.spawn(|| idle(server));
        let nothing = scope.spawn(|| takes_nothing(server));
        // Two hundred more who say nothing; and a tablet that works all the while.
        let crowd: Vec<_> = (0..200).map(|_| line(server).0).collect();
        let since = Instant::now();
        while since.elapsed() < s(10) {
            let asked = Instant::now();
            assert_eq!(fay.get(&format!("/jobs/{job}")).status, 200);
            assert!(asked.elapsed() < s(5), "{:?}", asked.elapsed());
            std::thread::sleep(Duration::from_millis(100));
        }
        drop(crowd);
        for (name, (least, most), said, ended) in waiting {
            let (after, seen) = ended.join().unwrap();
            assert!(after >= s(least) && after <= s(most), "{name}: {after:?}");
            let seen = String::from_utf8_lossy(&seen).into_owned();
            assert!(seen.contains(said), "{name}: {seen}");
        }
        let idle = idle.join().unwrap();
        assert!(idle >= s(18) && idle <= s(40), "idle: {idle:?}");
        let nothing = nothing.join().unwrap();
        assert!(nothing >= s(15), "takes nothing: {nothing:?}");
    });
    // Nothing of all that was recorded.
    assert_eq!(fay.get(&format!("/api/jobs/{job}")).json()["expected"], 1);
    server.is_well();
}

#[test]
fn where_every_place_is_taken_one_more_is_sent_away_and_places_come_back() {
    let mut server = Server::with_people();
    let mut lines: Vec<TcpStream> = (0..600).map(|_| line(&server).0).collect();
    // The bench takes a moment to see them all.
    let since = Instant::now();
    loop {
        let (mut one_more, host) = line(&server);
        let get = format!("GET /sign-in HTTP/1.1\r\nhost: {host}\r\nconnection: close\r\n\r\n");
        let _ = one_more.write_all(get.as_bytes());
        if until_closed(&mut one_more).is_empty() {
            break;
        }
        assert!(since.elapsed() < Duration::from_secs(5), "there is a place for everybody");
    }
    lines.truncate(500);
    let since = Instant::now();
    loop {
        let (mut next, host) = line(&server);
        let get = format!("GET /sign-in HTTP/1.1\r\nhost: {host}\r\n\r\n");
        let _ = next.write_all(get.as_bytes());
        let mut first = [0; 12];
        if next.read_exact(&mut first).is_ok() {
            assert_eq!(&first, b"HTTP/1.1 200");
            break;
        }
        assert!(since.elapsed() < Duration::from_secs(5), "places don't come back");
    }
    server.is_well();
}
