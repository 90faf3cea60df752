//! The table of routes against the API's description, and the roles against the calls.

use std::collections::BTreeSet;

use ringtrue_job::person::Role;
use serde_json::Value;

use super::{ROUTES, Verb};
use crate::web::permission::Call;

const DOCUMENT: &str = include_str!("../../../assets/openapi.json");

#[test]
fn the_description_names_every_route_of_the_api_and_no_other() {
    let document: Value = serde_json::from_str(DOCUMENT).unwrap();
    assert_eq!(document["info"]["version"], env!("CARGO_PKG_VERSION"));
    let described: BTreeSet<(String, String)> = document["paths"]
        .as_object()
        .unwrap()
        .iter()
        .flat_map(|(path, methods)| {
            let methods = methods.as_object().unwrap().keys();
            methods.map(move |method| (path.clone(), method.clone()))
        })
        .collect();
    let routed: BTreeSet<(String, String)> = ROUTES
        .iter()
        .filter(|route| route.path.starts_with("/api/"))
        .map(|route| {
            let method = if route.method == Verb::Get { "get" } else { "post" };
            (route.path.to_owned(), method.to_owned())
        })
        .collect();
    assert_eq!(described, routed);
}

#[test]
fn what_needs_no_sign_in_is_described_so() {
    let document: Value = serde_json::from_str(DOCUMENT).unwrap();
    for route in ROUTES.iter().filter(|route| route.path.starts_with("/api/")) {
        let method = if route.method == Verb::Get { "get" } else { "post" };
        let open = document["paths"][route.path][method]["security"] == serde_json::json!([]);
        assert_eq!(open, route.call == Call::Anybody, "{}", route.path);
    }
}

/// Role by role: fitter, checker, engineer, keeper.
#[test]
fn roles_may_what_the_shop_means_them_to() {
    let table: &[(Call, [bool; 4])] = &[
        (Call::Anybody, [true, true, true, true]),
        (Call::Look, [true, true, true, true]),
        (Call::Work, [true, true, true, false]),
        (Call::OpenJob, [true, true, true, false]),
        (Call::Record, [true, true, true, false]),
        (Call::Confirm, [true, true, true, false]),
        (Call::Correct, [true, true, true, false]),
        (Call::Override, [false, false, true, false]),
        (Call::Sign, [true, true, true, false]),
        (Call::FollowUp, [true, true, true, false]),
        (Call::BringIn, [false, false, true, true]),
        (Call::KeepPeople, [false, false, false, true]),
    ];
    for (call, allowed) in table {
        for (role, allowed) in Role::ALL.into_iter().zip(allowed) {
            assert_eq!(call.is_allowed(role), *allowed, "{role:?} {call:?}");
        }
    }
}
