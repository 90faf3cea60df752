//! Cookies: the session's token, and what a tablet keeps for itself.

use axum::http::header::{COOKIE, SET_COOKIE};
use axum::http::{HeaderMap, HeaderValue};

/// How a tablet is to keep a cookie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kept {
    /// Until the browser is closed; scripts don't see it.
    Secret,
    /// For a year: a choice of how pages look, the device's name.
    Choice,
    /// No longer.
    Not,
}

/// How the bench is reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Wire {
    /// Plain, on this machine.
    Plain,
    /// TLS.
    Tls,
}

impl Wire {
    /// Name of the cookie that holds the session's token.
    pub(crate) fn session_cookie(self) -> &'static str {
        match self {
            Self::Plain => "ringtrue-session",
            // The prefix binds it to this host and to TLS.
            Self::Tls => "__Host-ringtrue-session",
        }
    }
}

/// The value of a cookie.
pub(crate) fn read<'h>(headers: &'h HeaderMap, name: &str) -> Option<&'h str> {
    let texts = headers.get_all(COOKIE).into_iter().filter_map(|text| text.to_str().ok());
    texts
        .flat_map(|text| text.split(';'))
        .filter_map(|pair| pair.trim().split_once('='))
        .find(|(known, _)| *known == name)
        .map(|(_, value)| value)
}

/// Sets a cookie; what is no token is written as an address would have it.
pub(crate) fn set(headers: &mut HeaderMap, (name, value): (&str, &str), kept: Kept, wire: Wire) {
    let secure = match wire {
        Wire::Plain => "",
        Wire::Tls => "; Secure",
    };
    let how = match kept {
        Kept::Secret => "; HttpOnly",
        Kept::Choice => "; HttpOnly; Max-Age=31536000",
        Kept::Not => "; HttpOnly; Max-Age=0",
    };
    let value: String = form_urlencoded::byte_serialize(value.as_bytes()).collect();
    let text = format!("{name}={value}; Path=/; SameSite=Strict{how}{secure}");
    if let Ok(text) = HeaderValue::from_str(&text) {
        headers.append(SET_COOKIE, text);
    }
}

/// The value of a cookie that was written by [`set`].
pub(crate) fn read_text(headers: &HeaderMap, name: &str) -> Option<String> {
    let value = read(headers, name)?;
    let pair = format!("v={value}");
    form_urlencoded::parse(pair.as_bytes()).next().map(|(_, text)| text.into_owned())
}
