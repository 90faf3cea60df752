//! How the joint runs, against one half's limits.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Given, Quantity, Velocity, fixed};

use super::Finding;
use super::finding::against;
use crate::definition::joint::Service;
use crate::definition::limit::Limit;
use crate::definition::seal::Seal;
use crate::geometry;

/// Speed, temperature and pressure, each where the seal states a limit.
pub(super) fn findings(service: &Service, seal: &Seal) -> Vec<Finding> {
    let limits = &seal.limits;
    let mut findings: Vec<_> =
        limits.speed.iter().map(|limit| speed(service, seal, limit)).collect();
    if let Some(limit) = &limits.temperature {
        findings.push(given("coldest start against its limit", &service.temperature_min, limit));
        findings.push(given("hottest service against its limit", &service.temperature_max, limit));
    }
    if let Some(limit) = &limits.pressure_difference {
        let what = "pressure difference against its limit";
        findings.push(match &service.pressure_difference {
            Some(pressure) => given(what, pressure, limit),
            None => {
                let found = "the joint states no pressure difference";
                let fits =
                    format!("service.pressure_difference, to be held against {}", limit.words());
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
    let found = format!(
        "{} at the contact band's mean diameter of {} mm: {} m/s",
        service.speed,
        fixed(diameter.si() * 1e3, 1),
        fixed(sliding, 2)
    );
    Finding::new("sliding speed against its limit", against(sliding, limit), found, limit.words())
}
