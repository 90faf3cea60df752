//! The bench: the whole job as pages for a tablet, from this one program.
//!
//! Pages are rendered here and can be used without script; `data-` attributes are the hooks of
//! the scripts that make them live. What a page does goes the way of the command line: the same
//! calls of `job` and `store`.

mod act;
mod api;
mod asset;
mod attempts;
mod body;
mod compute;
mod connection;
mod cookie;
mod deed;
mod enter;
mod fields;
mod live;
mod page;
mod permission;
mod refusal;
mod router;
mod said;
mod session;
mod start;
mod stores;
mod tls;
mod trouble;

use std::net::{IpAddr, SocketAddr, TcpListener};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use axum::http::HeaderMap;
use axum::http::header::HOST;
use axum_server::Handle;
use axum_server::tls_rustls::{RustlsAcceptor, RustlsConfig};
use tokio::sync::Semaphore;

use crate::moment::now;
use crate::problem::Problem;
use crate::refused;
use connection::{Entrance, bounded};
use cookie::Wire;

pub(crate) use tls::certificate;

/// What a bench is started with.
pub(crate) struct Options {
    /// The store.
    pub(crate) store: PathBuf,
    /// Where to listen; port 0 takes a free one.
    pub(crate) listen: SocketAddr,
    /// Certificate and key files, both PEM.
    pub(crate) tls: Option<(PathBuf, PathBuf)>,
    /// After how long an untouched session locks.
    pub(crate) lock_after: Duration,
}

/// What all requests share.
pub(crate) struct Bench {
    stores: Arc<stores::Stores>,
    sessions: session::Sessions,
    attempts: attempts::Attempts,
    /// One passphrase at a time: each takes 64 MiB.
    at_the_lock: Semaphore,
    live: live::Live,
    compute: compute::Compute,
    shown: page::judged::Shown,
    wire: Wire,
    address: IpAddr,
}

/// The same, for every request.
pub(crate) type Shared = Arc<Bench>;

impl Bench {
    /// Is this request meant for us? On this machine alone we answer to its own names only, so
    /// that no other site's name can be made to point here.
    fn answers_to(&self, headers: &HeaderMap) -> bool {
        let mut named = headers.get_all(HOST).iter();
        // Two names are none.
        let (Some(host), None) = (named.next().and_then(|host| host.to_str().ok()), named.next())
        else {
            return false;
        };
        if !self.address.is_loopback() {
            return true;
        }
        let name = match host.rsplit_once(':') {
            Some((name, port)) if port.bytes().all(|b| b.is_ascii_digit()) => name,
            _ => host,
        };
        let name = name.trim_start_matches('[').trim_end_matches(']');
        name.eq_ignore_ascii_case("localhost")
            || name.parse::<IpAddr>().is_ok_and(|address| address.is_loopback())
    }
}

/// What is said when the bench is ready.
pub(crate) struct Ready {
    /// Where it is.
    pub(crate) address: String,
    /// What somebody should see to.
    pub(crate) remarks: Vec<String>,
}

/// Serves the bench until it is told to stop; `ready` is told where.
pub(crate) fn serve(options: &Options, ready: impl FnOnce(&Ready)) -> Result<(), Problem> {
    let wire = if options.tls.is_some() { Wire::Tls } else { Wire::Plain };
    if wire == Wire::Plain && !options.listen.ip().is_loopback() {
        return Err(Problem::input(
            format!("{} is reached from other machines, and nothing protects it", options.listen),
            "give `--certificate FILE --key FILE`; `ringtrue bench certificate` makes both",
        ));
    }
    let tls = options.tls.as_ref().map(|files| tls::read(files, now())).transpose()?;
    let stores = stores::Stores::open(&options.store)
        .map_err(|error| refused::store(error).in_file(&options.store))?;
    let nobody = stores.here(|store| Ok(!store.has_people()?)).unwrap_or(false);
    let listener = TcpListener::bind(options.listen).map_err(|error| {
        let what = format!("{} can't be listened on ({error})", options.listen);
        Problem::input(what, "choose another `--port`; 0 takes a free one")
    })?;
    let address = listener.local_addr().map_err(|error| broken(&error))?;
    let shared: Shared = Arc::new(Bench {
        stores: Arc::new(stores),
        sessions: session::Sessions::new(options.lock_after),
        attempts: attempts::Attempts::default(),
        at_the_lock: Semaphore::new(1),
        live: live::Live::default(),
        shown: page::judged::Shown::default(),
        compute: compute::Compute::start().map_err(|error| broken(&error))?,
        wire,
        address: address.ip(),
    });
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        // Store calls and passphrases; a burst waits its turn.
        .max_blocking_threads(16)
        .build()
        .map_err(|error| broken(&error))?;
    let scheme = if wire == Wire::Tls { "https" } else { "http" };
    let (config, remark) = tls.map_or((None, None), |tls| (Some(tls.config), tls.remark));
    let first = nobody.then(|| "Nobody is in it yet: its first page makes the first person".into());
    let remarks: Vec<String> = first.into_iter().chain(remark).collect();
    ready(&Ready { address: format!("{scheme}://{address}"), remarks });
    runtime.block_on(run(shared, listener, config)).map_err(|error| broken(&error))
}

async fn run(
    shared: Shared,
    listener: TcpListener,
    tls: Option<RustlsConfig>,
) -> std::io::Result<()> {
    let handle = Handle::new();
    tokio::spawn(stop_when_told(handle.clone(), Arc::clone(&shared)));
    tokio::spawn(live::watch(Arc::clone(&shared)));
    let service = router::router(&shared).into_make_service_with_connect_info::<SocketAddr>();
    let entrance = Entrance::new(shared.wire);
    let server = bounded(axum_server::from_tcp(listener)?).handle(handle);
    match tls {
        Some(config) => {
            let handshake = RustlsAcceptor::new(config).acceptor(entrance);
            server.acceptor(handshake).serve(service).await
        }
        None => server.acceptor(entrance).serve(service).await,
    }
}

/// Requests that run are answered, then the program ends.
async fn stop_when_told(handle: Handle<SocketAddr>, shared: Shared) {
    let interrupted = tokio::signal::ctrl_c();
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        match signal(SignalKind::terminate()) {
            Ok(mut told) => {
                tokio::select! { _ = interrupted => {}, _ = told.recv() => {} }
            }
            Err(_) => {
                let _ = interrupted.await;
            }
        }
    }
    #[cfg(not(unix))]
    {
        let _ = interrupted.await;
    }
    shared.live.close();
    handle.graceful_shutdown(Some(Duration::from_secs(5)));
}

fn broken(error: &std::io::Error) -> Problem {
    Problem::not_completed(
        format!("the bench stopped ({error})"),
        "start it again; what was saved is in the store",
    )
}
