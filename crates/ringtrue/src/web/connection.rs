//! Connections: how many there may be at once, and how long one may keep the bench waiting.
//!
//! The limits are common practice, no source. What a page or a program of the shop does stays far
//! below them: a tablet has up to six connections, and a page that listens hears a comment every
//! few seconds.

use std::collections::BTreeMap;
use std::future::Future;
use std::io::{Error, ErrorKind, IoSlice, Result};
use std::net::{IpAddr, Ipv6Addr, SocketAddr};
use std::pin::Pin;
use std::sync::{Arc, Mutex, PoisonError};
use std::task::{Context, Poll};
use std::time::Duration;

use axum_server::Server;
use axum_server::accept::Accept;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::TcpStream;
use tokio::time::{Sleep, sleep, timeout};

use super::cookie::Wire;

/// Most connections at once; below the 1024 files that a program may commonly have open.
const MOST: usize = 600;
/// Most connections of one other machine: several tablets behind one address still fit.
const MOST_OF_ONE: usize = 200;
/// Longest that a new connection takes to send its first request.
const FIRST_REQUEST: Duration = Duration::from_secs(10);
/// Longest that the head of a later request takes, silence before it taken in.
const NEXT_REQUEST: Duration = Duration::from_secs(20);
/// Longest that nothing of an answer is taken.
const NOTHING_TAKEN: Duration = Duration::from_secs(20);
/// Bytes of a request's head from which it is refused by 431, up to one more buffer of that size.
const HEAD: usize = 32 << 10;
/// First byte of a TLS handshake (RFC 8446, section 5.1).
const HANDSHAKE: u8 = 22;

/// What a browser is told that comes without TLS to a port that has it.
const WITHOUT_TLS: &[u8] = b"HTTP/1.1 400 Bad Request\r\ncontent-type: text/plain\r\n\
    cache-control: no-store\r\nconnection: close\r\n\r\n\
    The address of this bench begins with https.\n";

/// A server that waits for nobody longer than the limits say.
pub(super) fn bounded<A>(server: Server<SocketAddr, A>) -> Server<SocketAddr, A> {
    // HTTP/2 is offered to nobody, so nobody need be listened to for it.
    let mut server = server.http1_only().first_request_timeout(FIRST_REQUEST);
    server.http_builder().http1().header_read_timeout(NEXT_REQUEST).max_buf_size(HEAD);
    server
}

/// Lets connections in while there is a place for them.
#[derive(Debug, Clone)]
pub(super) struct Entrance {
    wire: Wire,
    taken: Arc<Mutex<BTreeMap<IpAddr, usize>>>,
}

impl Entrance {
    pub(super) fn new(wire: Wire) -> Self {
        Self { wire, taken: Arc::default() }
    }

    /// A place for one more connection from this address.
    fn place(&self, peer: IpAddr) -> Option<Place> {
        let whose = machine(peer);
        let mut taken = self.taken.lock().unwrap_or_else(PoisonError::into_inner);
        let own = taken.get(&whose).copied().unwrap_or(0);
        // Whatever passes requests on from this machine speaks for many.
        let full = !whose.is_loopback() && own >= MOST_OF_ONE;
        if full || taken.values().sum::<usize>() >= MOST {
            return None;
        }
        taken.insert(whose, own + 1);
        Some(Place { whose, taken: Arc::clone(&self.taken) })
    }
}

/// Whom an address stands for: of IPv6 a whole network, since one machine has all its addresses.
fn machine(peer: IpAddr) -> IpAddr {
    match peer.to_canonical() {
        IpAddr::V6(address) if !address.is_loopback() => {
            let [a, b, c, d, ..] = address.segments();
            IpAddr::V6(Ipv6Addr::new(a, b, c, d, 0, 0, 0, 0))
        }
        address @ (IpAddr::V4(_) | IpAddr::V6(_)) => address,
    }
}

/// A place that is taken until it is dropped.
#[derive(Debug)]
struct Place {
    whose: IpAddr,
    taken: Arc<Mutex<BTreeMap<IpAddr, usize>>>,
}

impl Drop for Place {
    fn drop(&mut self) {
        let mut taken = self.taken.lock().unwrap_or_else(PoisonError::into_inner);
        match taken.get_mut(&self.whose) {
            Some(own) if *own > 1 => *own -= 1,
            _ => drop(taken.remove(&self.whose)),
        }
    }
}

impl<S: Send + 'static> Accept<TcpStream, S> for Entrance {
    type Stream = Held;
    type Service = S;
    type Future = Pin<Box<dyn Future<Output = Result<(Held, S)>> + Send>>;

    fn accept(&self, stream: TcpStream, service: S) -> Self::Future {
        let place = stream.peer_addr().map(|peer| self.place(peer.ip()));
        let wire = self.wire;
        Box::pin(async move {
            let place = place?.ok_or(ErrorKind::QuotaExceeded)?;
            stream.set_nodelay(true)?;
            if wire == Wire::Tls && !begins_tls(&stream).await? {
                // What is left unread would break the line before the answer is taken. Whether it
                // is taken or not, the connection ends here.
                let _ = stream.try_read(&mut [0; 4096]);
                let _ = stream.try_write(WITHOUT_TLS);
                return Err(ErrorKind::InvalidData.into());
            }
            Ok((Held { stream, nothing_taken: None, _place: place }, service))
        })
    }
}

/// Does whoever connected begin a TLS handshake?
async fn begins_tls(stream: &TcpStream) -> Result<bool> {
    let mut first = [0];
    let seen = timeout(FIRST_REQUEST, stream.peek(&mut first)).await;
    let seen = seen.map_err(|_| Error::from(ErrorKind::TimedOut))??;
    Ok(seen == 1 && first[0] == HANDSHAKE)
}

/// A connection with its place. It ends when nothing of an answer is taken for too long.
#[derive(Debug)]
pub(super) struct Held {
    stream: TcpStream,
    nothing_taken: Option<Pin<Box<Sleep>>>,
    _place: Place,
}

impl Held {
    fn taken<T>(&mut self, cx: &mut Context<'_>, polled: Poll<Result<T>>) -> Poll<Result<T>> {
        if polled.is_ready() {
            self.nothing_taken = None;
            return polled;
        }
        let late = self.nothing_taken.get_or_insert_with(|| Box::pin(sleep(NOTHING_TAKEN)));
        late.as_mut().poll(cx).map(|()| Err(ErrorKind::TimedOut.into()))
    }
}

impl AsyncRead for Held {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<Result<()>> {
        Pin::new(&mut self.stream).poll_read(cx, into)
    }
}

impl AsyncWrite for Held {
    fn poll_write(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<Result<usize>> {
        let polled = Pin::new(&mut self.stream).poll_write(cx, bytes);
        self.taken(cx, polled)
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        parts: &[IoSlice<'_>],
    ) -> Poll<Result<usize>> {
        let polled = Pin::new(&mut self.stream).poll_write_vectored(cx, parts);
        self.taken(cx, polled)
    }

    fn is_write_vectored(&self) -> bool {
        self.stream.is_write_vectored()
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Result<()>> {
        Pin::new(&mut self.stream).poll_flush(cx)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(cx)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn places(entrance: &Entrance, peer: &str, most: usize) -> Vec<Place> {
        let peer = peer.parse().unwrap();
        std::iter::from_fn(|| entrance.place(peer)).take(most).collect()
    }

    #[test]
    fn one_machine_takes_only_its_share_and_places_come_back() {
        let entrance = Entrance::new(Wire::Tls);
        let greedy = places(&entrance, "192.0.2.1", 1000);
        assert_eq!(greedy.len(), MOST_OF_ONE);
        let other = places(&entrance, "192.0.2.2", 1);
        assert_eq!(other.len(), 1);
        drop(greedy);
        assert_eq!(places(&entrance, "192.0.2.1", 1000).len(), MOST_OF_ONE);
        drop(other);
        assert!(entrance.taken.lock().unwrap().is_empty());
    }

    #[test]
    fn addresses_of_one_network_are_one_machine_and_there_is_an_end() {
        let entrance = Entrance::new(Wire::Tls);
        let mut all = places(&entrance, "2001:db8::1", 150);
        all.extend(places(&entrance, "2001:db8::2", 1000));
        assert_eq!(all.len(), MOST_OF_ONE);
        all.extend(places(&entrance, "::ffff:192.0.2.1", 150));
        all.extend(places(&entrance, "192.0.2.1", 1000));
        assert_eq!(all.len(), 2 * MOST_OF_ONE);
        all.extend(places(&entrance, "127.0.0.1", 1000));
        assert_eq!(all.len(), MOST);
        assert!(entrance.place("192.0.2.9".parse().unwrap()).is_none());
    }
}
