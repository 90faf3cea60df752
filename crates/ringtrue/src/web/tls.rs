//! TLS of the bench: the shop's certificate, or one that is made here.

use std::path::PathBuf;

use axum_server::tls_rustls::RustlsConfig;
use rustls::pki_types::pem::PemObject;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};

use crate::files;
use crate::problem::Problem;

/// A certificate and its key, both as PEM.
pub(crate) struct Certificate {
    pub(crate) certificate: String,
    pub(crate) key: String,
}

/// Makes a certificate for these names and addresses of the bench, signed by itself.
pub(crate) fn certificate(names: &[String]) -> Result<Certificate, Problem> {
    let failed = |error: rcgen::Error| {
        Problem::input(
            format!("no certificate can be made for {} ({error})", names.join(", ")),
            "names as in `bench.local` and addresses as in `192.168.1.20` are wanted",
        )
    };
    let made = rcgen::generate_simple_self_signed(names.to_vec()).map_err(failed)?;
    Ok(Certificate { certificate: made.cert.pem(), key: made.signing_key.serialize_pem() })
}

/// What the listener needs, from the two files.
pub(super) fn config((certificate, key): &(PathBuf, PathBuf)) -> Result<RustlsConfig, Problem> {
    let unfit = |path: &PathBuf, what: String| {
        Problem::input(what, "a PEM file is wanted, as `ringtrue bench certificate` writes it")
            .in_file(path)
    };
    let chain = CertificateDer::pem_slice_iter(&files::bytes(certificate)?)
        .collect::<Result<Vec<_>, _>>()
        .map_err(|error| unfit(certificate, format!("no certificate can be read ({error:?})")))?;
    let private = PrivateKeyDer::from_pem_slice(&files::bytes(key)?)
        .map_err(|error| unfit(key, format!("no key can be read ({error:?})")))?;
    let provider = std::sync::Arc::new(rustls::crypto::ring::default_provider());
    let mut config = rustls::ServerConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .and_then(|builder| builder.with_no_client_auth().with_single_cert(chain, private))
        .map_err(|error| unfit(certificate, format!("it does not fit its key ({error})")))?;
    config.alpn_protocols = vec![b"http/1.1".to_vec()];
    Ok(RustlsConfig::from_config(std::sync::Arc::new(config)))
}
