//! TLS of the bench: the shop's certificate, or one that is made here.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use axum_server::tls_rustls::RustlsConfig;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use rcgen::{
    BasicConstraints, CertificateParams, CertifiedIssuer, DistinguishedName, DnType,
    ExtendedKeyUsagePurpose, IsCa, KeyPair, KeyUsagePurpose, date_time_ymd,
};
use rustls::client::verify_server_cert_signed_by_trust_anchor;
use rustls::crypto::{CryptoProvider, ring};
use rustls::pki_types::pem::{Error as PemError, PemObject};
use rustls::pki_types::{CertificateDer, PrivateKeyDer, UnixTime};
use rustls::server::ParsedCertificate;
use rustls::{CertificateError, Error, InconsistentKeys, RootCertStore, ServerConfig};

use crate::files;
use crate::moment::day;
use crate::problem::Problem;

/// Days that a certificate made here is valid. Some tablets believe none that is valid for more
/// than 825 days (support.apple.com/103769, which also asks for the key usage of a server).
const VALID: i64 = 730;
/// Days before its end from which the bench says so at each start (common practice, no source).
const SAID_BEFORE: i64 = 30;

/// A certificate and its key, and what tablets are to trust, all as PEM.
pub(crate) struct Certificate {
    /// For the bench: the certificate and the one that signed it.
    pub(crate) certificate: String,
    pub(crate) key: String,
    /// For the tablets: the one that signed it.
    pub(crate) trust: String,
    /// The day on which it is no longer valid.
    pub(crate) until: String,
}

/// Makes a certificate for these names and addresses of the bench.
///
/// Tablets install no server's certificate as trusted, only that of an authority. So one is made
/// that signs this certificate, and its key is dropped at once: it never signs another one.
pub(crate) fn certificate(names: &[String], now: Timestamp) -> Result<Certificate, Problem> {
    let failed = |error: rcgen::Error| {
        Problem::input(
            format!("no certificate can be made for {} ({error})", names.join(", ")),
            "names as in `bench.local` and addresses as in `192.168.1.20` are wanted",
        )
    };
    let name = names.first().map_or("bench", String::as_str);
    let mut authority = CertificateParams::default();
    authority.is_ca = IsCa::Ca(BasicConstraints::Constrained(0));
    authority.key_usages = vec![KeyUsagePurpose::KeyCertSign];
    let until = dated(&mut authority, (&format!("ringtrue bench {name}"), now));
    let key = KeyPair::generate().map_err(failed)?;
    let authority = CertifiedIssuer::self_signed(authority, key).map_err(failed)?;

    let mut own = CertificateParams::new(names.to_vec()).map_err(failed)?;
    own.key_usages = vec![KeyUsagePurpose::DigitalSignature];
    own.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
    own.use_authority_key_identifier_extension = true;
    dated(&mut own, (name, now));
    let key = KeyPair::generate().map_err(failed)?;
    let made = own.signed_by(&key, &authority).map_err(failed)?;
    let trust = authority.pem();
    let certificate = format!("{}{trust}", made.pem());
    Ok(Certificate { certificate, key: key.serialize_pem(), trust, until })
}

/// Names whom it is for, and how long it is valid: the day on which it is so no longer.
fn dated(params: &mut CertificateParams, (name, now): (&str, Timestamp)) -> String {
    params.distinguished_name = DistinguishedName::new();
    params.distinguished_name.push(DnType::CommonName, name);
    // Clocks of tablets may be behind.
    let first = days_after(now, -1).to_zoned_datetime(TimeZone::UTC).date();
    let end = days_after(now, VALID).to_zoned_datetime(TimeZone::UTC).date();
    let at = |day: Date| {
        let (month, of_month) = (day.month().unsigned_abs(), day.day().unsigned_abs());
        date_time_ymd(day.year().into(), month, of_month)
    };
    (params.not_before, params.not_after) = (at(first), at(end));
    end.to_string()
}

fn days_after(now: Timestamp, days: i64) -> Timestamp {
    now.saturating_add(SignedDuration::from_hours(24 * days)).unwrap_or(now)
}

/// What the listener needs, from the two files; and what is to be said of it.
pub(super) struct Tls {
    pub(super) config: RustlsConfig,
    pub(super) remark: Option<String>,
}

/// Reads the two files.
pub(super) fn read(
    (certificate, key): &(PathBuf, PathBuf),
    now: Timestamp,
) -> Result<Tls, Problem> {
    let chain = CertificateDer::pem_slice_iter(&files::bytes(certificate)?)
        .collect::<Result<Vec<_>, _>>()
        .and_then(|chain| if chain.is_empty() { Err(PemError::NoItemsFound) } else { Ok(chain) })
        .map_err(|error| no_pem(certificate, ("certificate", &error)))?;
    let private = PrivateKeyDer::from_pem_slice(&files::bytes(key)?)
        .map_err(|error| no_pem(key, ("key", &error)))?;
    let provider = Arc::new(ring::default_provider());
    let remark = until(&chain, &provider, now).map_err(|problem| problem.in_file(certificate))?;
    let mut config = ServerConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .and_then(|builder| builder.with_no_client_auth().with_single_cert(chain, private))
        .map_err(|error| unfit((certificate, key), &error))?;
    config.alpn_protocols = vec![b"http/1.1".to_vec()];
    Ok(Tls { config: RustlsConfig::from_config(Arc::new(config)), remark })
}

fn no_pem(path: &Path, (wanted, error): (&str, &PemError)) -> Problem {
    let what = if matches!(error, PemError::NoItemsFound) {
        format!("no {wanted} is in it")
    } else if matches!(error, PemError::MissingSectionEnd { .. }) {
        format!("the {wanted} in it has no end")
    } else {
        format!("the {wanted} in it can't be read ({error})")
    };
    let next = "a PEM file is wanted, as `ringtrue bench certificate` writes it";
    Problem::input(what, next).in_file(path)
}

fn unfit((certificate, key): (&Path, &Path), error: &Error) -> Problem {
    if *error == Error::InconsistentKeys(InconsistentKeys::KeyMismatch) {
        let what = format!("this is not the key of {}", certificate.display());
        return Problem::input(what, "name the key that was made with it").in_file(key);
    }
    let what = format!("it can't be used with {} ({error})", key.display());
    Problem::input(what, NEW_ONE).in_file(certificate)
}

/// Is every certificate valid today, and the first one a server's? Says how long where that is not
/// long any more.
fn until(
    chain: &[CertificateDer<'_>],
    provider: &CryptoProvider,
    now: Timestamp,
) -> Result<Option<String>, Problem> {
    let damaged = |error: &Error| Problem::input(format!("it is damaged ({error})"), NEW_ONE);
    let soon = days_after(now, SAID_BEFORE);
    let mut remark = None;
    for (number, certificate) in chain.iter().enumerate() {
        let parsed = ParsedCertificate::try_from(certificate).map_err(|error| damaged(&error))?;
        let mut roots = RootCertStore::empty();
        roots.add(certificate.clone()).map_err(|error| damaged(&error))?;
        // Who vouches for whom is the tablets' business. Dates and purpose are looked at first.
        let seen = |at: Timestamp| {
            let at = Duration::from_secs(at.as_second().unsigned_abs());
            let known = provider.signature_verification_algorithms.all;
            let at = UnixTime::since_unix_epoch(at);
            match verify_server_cert_signed_by_trust_anchor(&parsed, &roots, &[], at, known) {
                Err(Error::InvalidCertificate(error)) => Some(error),
                Ok(()) | Err(_) => None,
            }
        };
        match seen(now) {
            Some(CertificateError::ExpiredContext { not_after, .. }) => {
                let what = format!("it expired on {}", day_of(not_after));
                return Err(Problem::input(what, NEW_ONE));
            }
            Some(CertificateError::NotValidYetContext { not_before, .. }) => {
                let what = format!("it is valid from {} on only", day_of(not_before));
                let next = "look at this machine's clock, or wait for that day";
                return Err(Problem::input(what, next));
            }
            Some(CertificateError::InvalidPurposeContext { .. }) if number == 0 => {
                return Err(Problem::input("it is no server's certificate", NEW_ONE));
            }
            _ => {}
        }
        if let Some(CertificateError::ExpiredContext { not_after, .. }) = seen(soon) {
            remark.get_or_insert_with(|| {
                format!("The certificate expires on {}; {NEW_ONE}", day_of(not_after))
            });
        }
    }
    Ok(remark)
}

fn day_of(time: UnixTime) -> String {
    let second = i64::try_from(time.as_secs()).unwrap_or(i64::MAX);
    day(Timestamp::from_second(second).unwrap_or(Timestamp::MAX))
}

const NEW_ONE: &str = "`ringtrue bench certificate` makes a new one; ask whoever gave you the \
                       shop's own for another";

#[cfg(test)]
mod tests;
