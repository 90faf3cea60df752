//! How long until an agent has gone from behind the toric.
//!
//! What is left after a wipe lies as a film on toric and ramps and in the wedges beside them, and
//! leaves by diffusion through the still air of the housing:
//!
//! ```text
//! N = D P/(R T L) ln(P/(P − p))        mol/(m² s)
//! t = ρ h/(M N)
//! ```
//!
//! | symbol | meaning |
//! |---|---|
//! | D | diffusion coefficient of the vapour in air, m²/s; goes as T^1.75 |
//! | P | standard atmosphere, Pa; the air of the shop holds no vapour |
//! | p | vapour pressure at the wet surface, Pa: ln p over 1/T from 20 degC to the boiling point |
//! | L | way through still air, m: about as long as the housing is deep |
//! | h | liquid over the opening that its vapour leaves by, m |
//! | ρ, M | density of the liquid, kg/m³, and molar mass, kg/mol |
//!
//! Film, way, coefficient and the cold of the wet surface are known as ranges, each even on a
//! logarithmic scale; so is the time, as a median with a factor.

use ringtrue_metrology::conformity::{Levels, Limits, Verdict, judge};
use ringtrue_metrology::distribution::normal_quantile;
use ringtrue_metrology::units::{Quantity, Time, duration_text};
use ringtrue_words::say;
use serde::Serialize;

use super::{Agent, Finding, Input, Sourced};
use crate::constants::{ATMOSPHERE, GAS};
use crate::range::Figure;

/// Where vapour pressures and diffusion coefficients of agents are given, K.
const PRESSURE_AT: f64 = 293.15;
const DIFFUSION_AT: f64 = 298.15;
/// Liquid over the opening, m.
const LIQUID: (f64, f64) = (10e-6, 80e-6);
/// Way through still air over the depth of the housing, and the way itself where that is unknown.
const WAY_OVER_DEPTH: (f64, f64) = (0.5, 1.5);
const WAY: (f64, f64) = (0.010, 0.060);
/// Factor on the diffusion coefficient: handbooks differ by as much.
const SPREAD: (f64, f64) = (0.85, 1.15);
/// Vapour pressure at a surface that evaporation has cooled, over that at the shop's temperature.
const COOLED: (f64, f64) = (0.7, 1.0);

/// How long an agent takes to leave.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Drying {
    /// Even chances that it has left by then.
    pub median_s: f64,
    /// One standard uncertainty either way is this factor on the time.
    pub standard_uncertainty_factor: f64,
    /// It has left by then at the level at which verdicts conform.
    pub dry_by_s: f64,
    /// Vapour pressure at the shop's temperature.
    pub vapour_pressure_pa: f64,
    /// Ranges behind it.
    pub ranges: Vec<Figure>,
}

/// What evaporates, and through what.
#[derive(Debug, Clone, Copy)]
struct Wet {
    /// Temperature of the shop, K.
    kelvin: f64,
    /// Vapour pressure there, Pa.
    pressure: f64,
    /// In air there, m²/s.
    diffusion: f64,
    /// Moles in a cubic metre of the liquid.
    moles: f64,
}

/// The four figures that are known as ranges only.
#[derive(Debug, Clone, Copy)]
struct Unknown {
    liquid: f64,
    way: f64,
    spread: f64,
    cooled: f64,
}

/// Vapour that passes a still layer of air, mol/(m² s), with air that holds none beyond it.
///
/// `diffusion` m²/s, `kelvin` K, `pressures` of the whole and of the vapour at the liquid, Pa,
/// `way` m. Evaporation through a stagnant film (Stefan).
pub(crate) fn through_still_air(
    (diffusion, kelvin): (f64, f64),
    (whole, vapour): (f64, f64),
    way: f64,
) -> f64 {
    diffusion * whole / (GAS * kelvin * way) * libm::log(whole / (whole - vapour))
}

/// Vapour pressure, Pa, on the line of ln p over 1/T through two points, each in K and Pa.
pub(crate) fn vapour_pressure(kelvin: f64, low: (f64, f64), high: (f64, f64)) -> f64 {
    let slope = libm::log(high.1 / low.1) / (1.0 / low.0 - 1.0 / high.0);
    low.1 * libm::exp(slope * (1.0 / low.0 - 1.0 / kelvin))
}

impl Wet {
    /// `None` where a figure of the agent is missing.
    fn of(agent: &Agent, kelvin: f64) -> Option<Self> {
        let value = |sourced: &Option<Sourced>| sourced.as_ref().map(|sourced| sourced.value);
        let boils = value(&agent.boiling_point_degc)? + 273.15;
        let at_20 = value(&agent.vapour_pressure_at_20_degc_pa)?;
        let pressure = vapour_pressure(kelvin, (PRESSURE_AT, at_20), (boils, ATMOSPHERE));
        let diffusion = value(&agent.diffusion_in_air_at_25_degc_m2_per_s)?;
        let mass = value(&agent.molar_mass_g_per_mol)? * 1e-3;
        Some(Self {
            kelvin,
            // Near its boiling point nothing waits for diffusion.
            pressure: pressure.min(0.9 * ATMOSPHERE),
            diffusion: diffusion * libm::pow(kelvin / DIFFUSION_AT, 1.75),
            moles: value(&agent.density_kg_per_m3)? / mass,
        })
    }

    /// ln of the time in s.
    fn log_time(&self, at: Unknown) -> f64 {
        let flux = through_still_air(
            (self.diffusion * at.spread, self.kelvin),
            (ATMOSPHERE, self.pressure * at.cooled),
            at.way,
        );
        libm::log(at.liquid * self.moles / flux)
    }
}

/// How long an agent takes in a housing of this depth; `None` where its figures are not at hand.
pub(super) fn drying(agent: &Agent, input: &Input) -> Option<Drying> {
    let (wet, depth) = (Wet::of(agent, input.room.si())?, input.depth);
    let way =
        depth.map_or(WAY, |depth| (WAY_OVER_DEPTH.0 * depth.si(), WAY_OVER_DEPTH.1 * depth.si()));
    let middle = |(low, high): (f64, f64)| (low * high).sqrt();
    let at = Unknown {
        liquid: middle(LIQUID),
        way: middle(way),
        spread: middle(SPREAD),
        cooled: middle(COOLED),
    };
    let across = |low: Unknown, high: Unknown| wet.log_time(high) - wet.log_time(low);
    let widths = [
        across(Unknown { liquid: LIQUID.0, ..at }, Unknown { liquid: LIQUID.1, ..at }),
        across(Unknown { way: way.0, ..at }, Unknown { way: way.1, ..at }),
        across(Unknown { spread: SPREAD.0, ..at }, Unknown { spread: SPREAD.1, ..at }),
        across(Unknown { cooled: COOLED.0, ..at }, Unknown { cooled: COOLED.1, ..at }),
    ];
    let u = (widths.iter().map(|width| width * width).sum::<f64>() / 12.0).sqrt();
    let log = wet.log_time(at);
    Some(Drying {
        median_s: libm::exp(log),
        standard_uncertainty_factor: libm::exp(u),
        dry_by_s: libm::exp(log + u * normal_quantile(input.levels.accept())),
        vapour_pressure_pa: wet.pressure,
        ranges: ranges(way, depth.is_some()),
    })
}

fn ranges(way: (f64, f64), known: bool) -> Vec<Figure> {
    let assumed = |what, (low, high): (f64, f64), unit, source: &str| {
        let source = source.to_owned();
        Figure { what, low, high, unit, source }
    };
    let practice = "common practice, no source";
    let way_source = if known {
        "half to one and a half times the housing's depth (common practice, no source)"
    } else {
        "no depth is at hand (common practice, no source)"
    };
    vec![
        assumed(
            say!("agents-liquid-over-opening"),
            (LIQUID.0 * 1e6, LIQUID.1 * 1e6),
            "um",
            practice,
        ),
        assumed(say!("agents-way-through-still-air"), (way.0 * 1e3, way.1 * 1e3), "mm", way_source),
        assumed(
            say!("agents-diffusion-coefficient-times"),
            SPREAD,
            "",
            "from memory: handbooks differ so",
        ),
        assumed(say!("agents-vapour-pressure-at-cooled-surface-times"), COOLED, "", practice),
    ]
}

/// Has it left after this time?
pub(super) fn gone(
    (agent, levels): (&Agent, Levels),
    since: Time,
    drying: Option<&Drying>,
) -> Finding {
    let what = say!("agents-time-since-last-wetting");
    let waited = duration_text(since.si());
    let Some(drying) = drying else {
        let found = say!("agents-no-figures-at-hand-on-how", waited, agent = agent.name);
        let fits = say!("agents-look-feel-that-ring-seats-dry");
        return Finding::new(what, Verdict::NotProven, found, fits);
    };
    let u = libm::log(drying.standard_uncertainty_factor);
    // Of the two times the computed one is uncertain, on a logarithmic scale.
    let verdict = if since.si() <= 0.0 {
        Verdict::DoesNotConform
    } else {
        Limits::at_most(libm::log(since.si())).map_or(Verdict::NotProven, |limits| {
            judge(libm::log(drying.median_s), u, limits, levels).verdict
        })
    };
    let by = duration_text(drying.dry_by_s);
    let found = say!(
        "agents-as-likely-as-not-has-left",
        waited,
        likely = duration_text(drying.median_s),
        surely = by
    );
    let fits = match verdict {
        Verdict::Conforms => say!("agents-at-least", time = by),
        Verdict::NotProven | Verdict::DoesNotConform => {
            say!("agents-at-least-leave-open-wait-on", time = by)
        }
    };
    Finding::new(what, verdict, found, fits)
}
