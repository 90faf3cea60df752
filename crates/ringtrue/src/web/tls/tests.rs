//! What is said of a certificate as its end comes near.

use jiff::Timestamp;

use super::{SAID_BEFORE, Tls, certificate, days_after, read};
use crate::problem::Problem;

#[test]
fn a_certificate_in_its_last_days_is_spoken_of_and_none_before() {
    let made_at: Timestamp = "2026-03-01T12:00:00Z".parse().unwrap();
    let made = certificate(&["bench.local".to_owned()], made_at).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let paths = (folder.path().join("bench.pem"), folder.path().join("bench-key.pem"));
    std::fs::write(&paths.0, &made.certificate).unwrap();
    std::fs::write(&paths.1, &made.key).unwrap();
    let end: Timestamp = format!("{}T00:00:00Z", made.until).parse().unwrap();
    let at = |days: i64| read(&paths, days_after(end, days)).map(|Tls { remark, .. }| remark);
    for days in [-700, -SAID_BEFORE - 1] {
        assert_eq!(at(days).unwrap(), None, "{days}");
    }
    for days in [1 - SAID_BEFORE, -1] {
        let remark = at(days).unwrap().unwrap();
        assert!(remark.contains(&format!("expires on {}", made.until)), "{remark}");
        assert!(remark.contains("bench certificate"), "{remark}");
    }
    let over = at(1).map(drop).map_err(|problem: Problem| problem.what().to_owned()).unwrap_err();
    assert!(over.contains("expired on"), "{over}");
}
