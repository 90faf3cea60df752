//! How the joint runs, against one half's limits.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Given, Quantity, Velocity, fixed};
use ringtrue_words::say;

use super::Finding;
use super::finding::against;
use crate::definition::joint::Service;
use crate::definition::limit::Limit;
use crate::definition::seal::Seal;
use crate::finding::{shown, system_of};
use crate::geometry;

/// Speed, temperature and pressure, each where the seal states a limit.
pub(super) fn findings(service: &Service, seal: &Seal) -> Vec<Finding> {
    let limits = &seal.limits;
    let mut findings: Vec<_> =
        limits.speed.iter().map(|limit| speed(service, seal, limit)).collect();
    if let Some(limit) = &limits.temperature {
        findings.push(given(
            say!("match-coldest-start-against-limit"),
            &service.temperature_min,
            limit,
        ));
        findings.push(given(
            say!("match-hottest-service-against-limit"),
            &service.temperature_max,
            limit,
        ));
    }
    if let Some(limit) = &limits.pressure_difference {
        let what = say!("match-pressure-difference-against-limit");
        findings.push(match &service.pressure_difference {
            Some(pressure) => given(what, pressure, limit),
            None => {
                let found = say!("match-joint-states-no-pressure-difference");
                let fits = say!("match-pressure-difference-wanted", limit = limit.words());
                Finding::new(what, Verdict::NotProven, found, fits)
            }
        });
    }
    findings
}

fn given<Q: Quantity>(what: &str, given: &Given<Q>, limit: &Limit<Q>) -> Finding {
    let verdict = against(given.value().si(), limit);
    Finding::new(what, verdict, given.typed(), limit.words())
}

/// v = ω D / 2 at the contact band's mean diameter D, in m/s.
fn speed(service: &Service, seal: &Seal, limit: &Limit<Velocity>) -> Finding {
    let diameter = geometry::contact_band_mean_diameter(&seal.ring);
    let sliding = service.speed.value().si() * diameter.si() / 2.0;
    let found = say!(
        "match-speed-at-contact-band",
        speed = service.speed.typed(),
        diameter = shown(diameter, system_of(seal)),
        sliding = fixed(sliding, 2)
    );
    Finding::new(
        say!("match-sliding-speed-against-limit"),
        against(sliding, limit),
        found,
        limit.words(),
    )
}
