//! The table of routes, and what the API's description says of them.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde_json::Value;

const TABLE: &str = include_str!("../../../src/web/router.rs");
const DOCUMENT: &str = include_str!("../../../assets/openapi.json");

/// The description.
pub(crate) static DESCRIBED: LazyLock<Value> =
    LazyLock::new(|| serde_json::from_str(DOCUMENT).unwrap());

/// A route as the program's table has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Route {
    pub(crate) method: &'static str,
    pub(crate) path: &'static str,
    /// Anybody may call it.
    pub(crate) open: bool,
    /// It is answered with a page.
    pub(crate) page: bool,
}

impl Route {
    /// Its operation in the description.
    pub(crate) fn described(&self) -> &'static Value {
        &DESCRIBED["paths"][self.path][self.method.to_lowercase()]
    }

    /// Does an address lead to it?
    fn leads(&self, path: &str) -> bool {
        let path = path.split('?').next().unwrap_or_default();
        let (mut ours, mut theirs) = (self.path.split('/'), path.split('/'));
        loop {
            match (ours.next(), theirs.next()) {
                (None, None) => return true,
                (Some(our), Some(their)) if our == their => {}
                (Some(our), Some(their)) if our.starts_with('{') && !their.is_empty() => {}
                _ => return false,
            }
        }
    }
}

/// All of them. Each names a call: none is left out unseen.
pub(crate) static ROUTES: LazyLock<Vec<Route>> = LazyLock::new(|| {
    let table = TABLE.split_once("ROUTES: &[Route] = &[").unwrap().1.split_once("\n];").unwrap().0;
    let read = |(method, rest): (&'static str, &'static str)| {
        let (door, rest) = rest.split_once(", \"").unwrap();
        let (path, rest) = rest.split_once("\"), Call::").unwrap();
        let open = rest.starts_with("Anybody,");
        Route { method, path, open, page: door == "Page" }
    };
    let mut starts: BTreeMap<usize, (&str, &str)> = BTreeMap::new();
    for (word, method) in [("read((", "GET"), ("write((", "POST")] {
        let found = table.match_indices(word);
        starts.extend(found.map(|(at, _)| (at, (method, &table[at + word.len()..]))));
    }
    let routes: Vec<Route> = starts.into_values().map(read).collect();
    assert_eq!(routes.len(), table.matches("Call::").count());
    routes
});

/// Writes for which somebody has to be signed in.
pub(crate) fn guarded_writes() -> impl Iterator<Item = &'static Route> {
    ROUTES.iter().filter(|route| route.method == "POST" && !route.open)
}

/// An answer of the API is one that its description knows.
pub(crate) fn is_described((method, path): (&str, &str), status: u16) {
    if !path.starts_with("/api/") {
        return;
    }
    let read = if method == "HEAD" { "GET" } else { method };
    let leads: Vec<&Route> = ROUTES.iter().filter(|route| route.leads(path)).collect();
    let known = match leads.iter().find(|route| route.method == read) {
        Some(route) => !route.described()["responses"][status.to_string()].is_null(),
        None if leads.is_empty() => matches!(status, 404 | 421),
        None => matches!(status, 405 | 421),
    };
    assert!(known, "{method} {path} is answered by {status}, and that is described nowhere");
}

#[test]
fn the_description_names_what_every_call_may_be_answered() {
    for route in ROUTES.iter().filter(|route| route.path.starts_with("/api/")) {
        let mut wanted = vec![421];
        if route.path != "/api/openapi.json" {
            // The store may be held, full or damaged whenever it is asked.
            wanted.extend([500, 503]);
        }
        if !route.open {
            wanted.push(401);
        }
        if route.method == "POST" {
            wanted.extend([400, 403, 408, 413, 415]);
        }
        if route.path.contains('{') {
            wanted.push(404);
        }
        for status in wanted {
            let said = &route.described()["responses"][status.to_string()];
            assert!(!said.is_null(), "{} {}: {status}", route.method, route.path);
        }
    }
    // What is named is there.
    let text = DESCRIBED.to_string();
    for (at, _) in text.match_indices("\"#/") {
        let pointer = text[at + 2..].split('"').next().unwrap();
        assert!(DESCRIBED.pointer(pointer).is_some(), "{pointer}");
    }
}
