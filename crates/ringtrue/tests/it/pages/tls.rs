//! Off this machine: real handshakes with certificates made by the program, and what is refused.

use std::io::Write;
use std::net::TcpStream;
use std::sync::Arc;
use std::time::{Duration, Instant};

use rcgen::{CertificateParams, ExtendedKeyUsagePurpose, KeyPair, date_time_ymd};
use rustls::pki_types::pem::PemObject;
use rustls::pki_types::{CertificateDer, ServerName};
use rustls::{
    ClientConfig, ClientConnection, RootCertStore, StreamOwned, SupportedProtocolVersion,
};
use serde_json::Value;

use super::client::{PASSPHRASE, Server};
use super::raw::{self, Reply};
use crate::bench::Bench;

/// Certificate, key and trust in a folder of their own.
fn made(names: &[&str]) -> Bench {
    let bench = Bench::new();
    let made = bench.run(&[&["bench", "certificate"], names].concat());
    assert_eq!(made.code(), 0, "{}", made.stderr());
    bench
}

fn served(made: &Bench) -> Server {
    let path = |name: &str| made.path().join(name).to_str().unwrap().to_owned();
    let (certificate, key) = (path("bench.pem"), path("bench-key.pem"));
    Server::with_people_and(&["--listen", "0.0.0.0", "--certificate", &certificate, "--key", &key])
}

/// A tablet that trusts what is in these files.
fn trusting(files: &[&str], versions: &[&'static SupportedProtocolVersion]) -> Arc<ClientConfig> {
    let mut roots = RootCertStore::empty();
    for file in files {
        roots.add(CertificateDer::from_pem_slice(file.as_bytes()).unwrap()).unwrap();
    }
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let config = ClientConfig::builder_with_provider(provider)
        .with_protocol_versions(versions)
        .unwrap()
        .with_root_certificates(roots)
        .with_no_client_auth();
    Arc::new(config)
}

type Line = StreamOwned<ClientConnection, TcpStream>;

fn connect(server: &Server, tablet: &Arc<ClientConfig>, name: &'static str) -> Line {
    let (stream, _) = raw::line(server);
    let name = ServerName::try_from(name).unwrap();
    StreamOwned::new(ClientConnection::new(Arc::clone(tablet), name).unwrap(), stream)
}

fn ask(line: &mut Line, request: &str) -> std::io::Result<Reply> {
    line.write_all(request.as_bytes())?;
    line.flush()?;
    raw::reply(line).ok_or_else(|| std::io::Error::other("closed"))
}

const BOTH: &[&SupportedProtocolVersion] = &[&rustls::version::TLS13, &rustls::version::TLS12];

#[test]
fn a_tablet_that_trusts_the_authority_signs_in_and_everything_says_tls_alone() {
    let made = made(&["bench.local", "127.0.0.1"]);
    let trust = std::fs::read_to_string(made.path().join("bench-trust.pem")).unwrap();
    let server = served(&made);
    assert!(server.url.starts_with("https://0.0.0.0:"), "{}", server.url);
    for version in BOTH {
        let tablet = trusting(&[&trust], &[version]);
        for name in ["bench.local", "127.0.0.1"] {
            let mut line = connect(&server, &tablet, name);
            let get = "GET /sign-in HTTP/1.1\r\nhost: bench.local\r\n\r\n";
            let page = ask(&mut line, get).unwrap();
            assert_eq!(page.status, 200);
            assert!(page.text().contains("name=\"passphrase\""), "{}", page.text());
            assert_eq!(page.header("strict-transport-security"), "max-age=31536000");
        }
    }
    let tablet = trusting(&[&trust], BOTH);
    let mut line = connect(&server, &tablet, "bench.local");
    let body = format!("{{\"name\":\"Fay\",\"passphrase\":\"{PASSPHRASE}\"}}");
    let post = format!(
        "POST /api/session HTTP/1.1\r\nhost: bench.local\r\ncontent-type: application/json\r\n\
         content-length: {}\r\n\r\n{body}",
        body.len()
    );
    let entered = ask(&mut line, &post).unwrap();
    assert_eq!(entered.status, 200, "{}", entered.text());
    let cookie = entered.header("set-cookie").to_owned();
    assert!(cookie.starts_with("__Host-ringtrue-session="), "{cookie}");
    for flag in ["; Secure", "; HttpOnly", "; SameSite=Strict", "; Path=/"] {
        assert!(cookie.contains(flag), "{cookie}");
    }
    assert!(!cookie.to_lowercase().contains("domain"), "{cookie}");
    // On the same connection, as a page of that session.
    let cookie = cookie.split(';').next().unwrap();
    let get = |path: &str| {
        format!("GET {path} HTTP/1.1\r\nhost: bench.local\r\ncookie: {cookie}\r\n\r\n")
    };
    assert_eq!(ask(&mut line, &get("/jobs")).unwrap().status, 200);
    // The name that the cookie has without TLS opens nothing here.
    let other = get("/api/jobs").replace("__Host-", "");
    assert_eq!(ask(&mut line, &other).unwrap().status, 401);
    // Choices go over TLS alone, too.
    let csrf: Value = serde_json::from_slice(&entered.body).unwrap();
    let body = format!("csrf={}&theme=dark", csrf["csrf_token"].as_str().unwrap());
    let look = format!(
        "POST /look HTTP/1.1\r\nhost: bench.local\r\ncookie: {cookie}\r\n\
         content-type: application/x-www-form-urlencoded\r\ncontent-length: {}\r\n\r\n{body}",
        body.len()
    );
    let looked = ask(&mut line, &look).unwrap();
    assert_eq!(looked.status, 303, "{}", looked.text());
    assert!(looked.headers("set-cookie").all(|cookie| cookie.contains("; Secure")));
    assert_eq!(looked.headers("set-cookie").count(), 1);
}

#[test]
fn who_does_not_trust_it_or_wants_another_name_shakes_no_hands() {
    let made = made(&["bench.local"]);
    let server = served(&made);
    let text = |name: &str| std::fs::read_to_string(made.path().join(name)).unwrap();
    let trust = text("bench-trust.pem");
    let other = {
        let other = Bench::new();
        assert_eq!(other.run(&["bench", "certificate", "bench.local"]).code(), 0);
        std::fs::read_to_string(other.path().join("bench-trust.pem")).unwrap()
    };
    let get = "GET /sign-in HTTP/1.1\r\nhost: bench.local\r\n\r\n";
    let refused = |tablet: &Arc<ClientConfig>, name| {
        let mut line = connect(&server, tablet, name);
        ask(&mut line, get).unwrap_err().to_string()
    };
    let said = refused(&trusting(&[&other], BOTH), "bench.local");
    assert!(said.contains("UnknownIssuer") || said.contains("BadSignature"), "{said}");
    let said = refused(&trusting(&[&trust], BOTH), "elsewhere.example");
    assert!(said.contains("not valid for name"), "{said}");
    // The bench's own certificate is no authority: it vouches for nobody.
    let chain: Vec<_> = CertificateDer::pem_slice_iter(text("bench.pem").as_bytes())
        .collect::<Result<_, _>>()
        .unwrap();
    assert_eq!(chain.len(), 2);
    assert_eq!(chain[1], CertificateDer::from_pem_slice(trust.as_bytes()).unwrap());
}

#[test]
fn whoever_comes_without_tls_is_told_and_nobody_hangs() {
    let server = served(&made(&["bench.local"]));
    let begun = Instant::now();
    let plain = raw::send(&server, b"GET /jobs HTTP/1.1\r\nhost: HOST\r\n\r\n").unwrap();
    assert_eq!(plain.status, 400);
    assert!(plain.text().contains("https"), "{}", plain.text());
    // A handshake that is none, and one that breaks off.
    for odd in [b"\x16\x03\x01\x00\x05hello".as_slice(), b"\x16\x03\x01", b"\x00\x00\x00", b"\x15"]
    {
        let (mut stream, _) = raw::line(&server);
        stream.write_all(odd).unwrap();
        // It may be closed from the other side by now.
        let _ = stream.shutdown(std::net::Shutdown::Write);
        let seen = raw::until_closed(&mut stream);
        assert!(!seen.starts_with(b"HTTP/1.1 2"), "{odd:?}");
    }
    assert!(begun.elapsed() < Duration::from_secs(9), "{:?}", begun.elapsed());
    // Whoever says nothing is sent away; whoever does it properly is served meanwhile.
    let mut silent: Vec<_> = (0..20).map(|_| raw::line(&server).0).collect();
    silent.iter_mut().skip(10).for_each(|line| line.write_all(b"\x16").unwrap());
    for line in &mut silent {
        assert_eq!(raw::until_closed(line), b"");
    }
    assert!(begun.elapsed() < Duration::from_secs(45), "{:?}", begun.elapsed());
}

/// A certificate with a key of its own, valid between these years.
fn dated(bench: &Bench, name: &str, (from, to): (i32, i32), usage: ExtendedKeyUsagePurpose) {
    let mut params = CertificateParams::new(vec!["bench.local".to_owned()]).unwrap();
    (params.not_before, params.not_after) = (date_time_ymd(from, 1, 1), date_time_ymd(to, 1, 1));
    params.extended_key_usages = vec![usage];
    let key = KeyPair::generate().unwrap();
    bench.file(&format!("{name}.pem"), params.self_signed(&key).unwrap().pem());
    bench.file(&format!("{name}-key.pem"), key.serialize_pem());
}

#[test]
fn certificates_and_keys_that_do_not_serve_are_refused_before_anything_listens() {
    use ExtendedKeyUsagePurpose::{ClientAuth, ServerAuth};
    let bench = made(&["bench.local"]);
    dated(&bench, "expired", (2020, 2021), ServerAuth);
    dated(&bench, "future", (2090, 2091), ServerAuth);
    dated(&bench, "client", (2020, 2090), ClientAuth);
    let own = std::fs::read_to_string(bench.path().join("bench.pem")).unwrap();
    bench.file("cut.pem", &own[..own.len() / 3]);
    bench.file("not-base64.pem", own.replacen("MII", "!!!", 1));
    bench.file("empty.pem", "");
    bench.file("text.pem", "no certificate at all\n");
    let table = [
        ("expired.pem", "expired-key.pem", "expired on 2021-01-01"),
        ("future.pem", "future-key.pem", "valid from 2090-01-01"),
        ("client.pem", "client-key.pem", "no server's certificate"),
        ("bench.pem", "expired-key.pem", "not the key of bench.pem"),
        ("bench.pem", "bench.pem", "no key is in it"),
        ("bench-key.pem", "bench-key.pem", "no certificate is in it"),
        ("cut.pem", "bench-key.pem", "has no end"),
        ("not-base64.pem", "bench-key.pem", "can't be read"),
        ("empty.pem", "bench-key.pem", "no certificate is in it"),
        ("text.pem", "bench-key.pem", "no certificate is in it"),
        ("bench.pem", "empty.pem", "no key is in it"),
        ("nowhere.pem", "bench-key.pem", "no such file"),
        ("bench.pem", ".", "a folder"),
    ];
    for (certificate, key, said) in table {
        let files = ["--certificate", certificate, "--key", key];
        let port = ["bench", "--listen", "0.0.0.0", "--port", "0", "--store", "s.db"];
        let ran = bench.run(&[&port[..], &files].concat());
        assert_eq!(ran.code(), 2, "{certificate} {key}: {}", ran.stderr());
        assert!(
            ran.stderr().to_lowercase().contains(said),
            "{certificate} {key}: {}",
            ran.stderr()
        );
        // No store is left behind by a bench that never was.
        assert!(!bench.path().join("s.db").exists(), "{certificate} {key}");
    }
    // Without TLS nothing listens off this machine, whatever the address is written like.
    for address in ["0.0.0.0", "::", "192.0.2.1"] {
        let ran = bench.run(&["bench", "--listen", address, "--port", "0", "--store", "s.db"]);
        assert_eq!(ran.code(), 2, "{address}");
        assert!(ran.stderr().contains("--certificate FILE --key FILE"), "{}", ran.stderr());
    }
}

#[test]
fn a_changed_certificate_shakes_no_hands() {
    let bench = made(&["bench.local"]);
    let own = std::fs::read(bench.path().join("bench.pem")).unwrap();
    let trust = std::fs::read_to_string(bench.path().join("bench-trust.pem")).unwrap();
    // The last letters of the first certificate are its signature.
    let end = own.windows(9).position(|window| window == b"-----END ").unwrap();
    let mut changed = own.clone();
    changed[end - 9] = if changed[end - 9] == b'A' { b'B' } else { b'A' };
    bench.file("bench.pem", changed);
    let server = served(&bench);
    let mut line = connect(&server, &trusting(&[&trust], BOTH), "bench.local");
    let said = ask(&mut line, "GET / HTTP/1.1\r\nhost: bench.local\r\n\r\n").unwrap_err();
    assert!(said.to_string().contains("invalid peer certificate"), "{said}");
}
