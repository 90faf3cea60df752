//! May this agent touch this toric, and does its vapour stay harmless in this bay?
//!
//! Long immersion and a short wipe are told apart: ratings of material files are for immersion;
//! for a wipe fair is enough. An agent that leaves a film is refused for the toric whatever its
//! rating: the toric must roll on dry ramps.
//!
//! | symbol | meaning |
//! |---|---|
//! | c₀ | vapour of the whole amount, evaporated at once, over the bay's volume |
//! | LEL | lower explosive limit; a quarter of it is the limit here |
//! | n | air changes an hour; the mean over a time t is `c₀ (1 − exp(−n t))/(n t)` |
//! | K | 5: air mixes badly, and vapour heavier than air lies at the floor |
//!
//! Drying: how long the agent takes to leave from behind the toric, and whether that time has
//! passed; see [`Drying`].
//!
//! Below the limit also with K: conforms. Above it even in well-mixed air: does not conform.
//! Between the two nothing is proven.

mod data;
mod drying;
#[cfg(test)]
mod tests;
mod vapour;

use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Length, Quantity, Temperature, Time, Volume, fixed};
use ringtrue_words::say;
use serde::Serialize;

pub use crate::finding::Finding;
pub use data::{Agent, Film, SHIPPED, Sourced, named, named_in, nearest, read_list, shipped};

pub use drying::Drying;

// The published cases run on the room's own parts.
pub(crate) use drying::{through_still_air, vapour_pressure};
pub(crate) use vapour::{air_to_dilute, mg_per_m3, ppm, saturated, vapour_volume, ventilation};

use crate::RoomError;
use crate::definition::material::{FluidRating, Material, Rating};
use crate::finding::worst;
use vapour::mean_left;

/// Where the formulas and rules come from; each figure of an agent names its own source besides.
pub const SOURCES: &[Source] = &[
    Source::Published("NIOSH Pocket Guide to Chemical Hazards (figures named with each agent)"),
    Source::Unverified(
        "25 % of the lower explosive limit: 29 CFR 1910.106, NFPA 30 and 86 (clauses from memory)",
    ),
    Source::Unverified("ACGIH, Industrial Ventilation: general dilution, Q = G K/C"),
    Source::Published("NIOSH Pocket Guide: mg/m³ from ppm with 24.45 l/mol"),
    Source::CommonPractice(
        "toric and ramps are wiped with an agent that evaporates without a film, free of petroleum",
    ),
    Source::CommonPractice("vapour in a shop mixes badly: a factor of 5 on the well-mixed value"),
    Source::Unverified(
        "R. B. Bird, W. E. Stewart, E. N. Lightfoot, Transport Phenomena, 2nd ed., section 18.2: \
         evaporation through a stagnant film of gas",
    ),
    Source::Unverified(
        "E. N. Fuller, P. D. Schettler, J. C. Giddings, Ind. Eng. Chem. 58 (1966): diffusion \
         coefficients of gases go as T^1.75",
    ),
    Source::CommonPractice("how much agent a wipe leaves, and how far its vapour has to go"),
];

/// An agent, a rubber, and where it is used.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The agent.
    pub agent: Box<Agent>,
    /// The toric's material.
    pub material: Material,
    /// Temperature of the shop.
    pub room: Temperature,
    /// Where how much is used; without it no vapour is judged.
    pub use_in: Option<Use>,
    /// Depth of the housing that it dries in; without it a usual one is taken.
    pub depth: Option<Length>,
    /// Time since the last wetting; without it no time is judged.
    pub since: Option<Time>,
    /// Levels of the decision on that time.
    pub levels: Levels,
}

/// Where how much is used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Use {
    /// Volume of the bay.
    pub bay: Volume,
    /// Air changes an hour.
    pub air_changes_per_hour: f64,
    /// Liquid that is used, all of which evaporates.
    pub amount: Volume,
}

/// What is known of the agent here.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// The agent.
    pub agent: String,
    /// What it is.
    pub what: String,
    /// ISO 1629 code of the rubber.
    pub material: String,
    /// Does it leave a film?
    pub film: Film,
    /// Is it refused for the toric, and why?
    pub refused_for_toric: Option<String>,
    /// On a short wipe of the toric.
    pub verdict_wiping: Verdict,
    /// On long immersion of the toric; no part of the verdict on its use as an agent.
    pub verdict_immersion: Verdict,
    /// Each comparison.
    pub findings: Vec<Finding>,
    /// On its vapour, where it was said how much is used where: the worst of its findings.
    #[serde(skip)]
    pub verdict_vapour: Option<Verdict>,
    /// On the time since the last wetting, where it was said: one of the findings.
    #[serde(skip)]
    pub waited: Option<Finding>,
    /// Long immersion, compared beside.
    pub immersion: Finding,
    /// How fast it goes.
    pub evaporation: Evaporation,
    /// How long it takes to leave from behind the toric, where its figures are at hand.
    pub drying: Option<Drying>,
    /// Boiling point.
    pub boiling_point_degc: Option<f64>,
    /// Flash point.
    pub flash_point_degc: Option<f64>,
    /// Can the vapour over a wet wipe be lit at the shop's temperature?
    pub ignitable_at_room: Option<bool>,
    /// Lower explosive limit in air, by volume.
    pub lower_explosive_limit_percent: Option<f64>,
    /// Vapour over a wet wipe at 20 degC, by volume.
    pub saturated_vapour_percent: Option<f64>,
    /// How many times the lower explosive limit that is.
    pub saturated_times_lower_explosive_limit: Option<f64>,
    /// Weight of the vapour against air.
    pub vapour_over_air: Option<f64>,
    /// The vapour in the bay, where it was said how much is used where.
    pub vapour: Option<Vapour>,
    /// How it and its wipes are thrown away.
    pub disposal: String,
    /// Figures that were used, each with its source.
    pub figures: Vec<Figure>,
    /// The worst of the findings.
    pub verdict: Verdict,
}

/// How fast an agent goes, by its vapour pressure at 20 degC. The bounds are common practice, no
/// source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Evaporation {
    /// Above 10 kPa: gone at once, before the toric is in.
    Flashes,
    /// 2 to 10 kPa: a thin wet film is gone within minutes.
    Minutes,
    /// Below: it stays wet.
    Slow,
    /// It does not evaporate, or nothing is known.
    Stays,
}

impl Evaporation {
    /// What the fitter is told.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Flashes => say!("agents-gone-at-once-often-before-load-ring"),
            Self::Minutes => say!("agents-thin-wet-film-gone-within-minutes"),
            Self::Slow => say!("agents-stays-wet-for-long-wait-until"),
            Self::Stays => say!("agents-does-not-evaporate-or-nothing-at"),
        }
    }
}

/// Vapour in a bay. Concentrations by volume of the whole amount, evaporated at once.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Vapour {
    /// Vapour of the whole amount.
    pub vapour_l: f64,
    /// In the well-mixed bay.
    pub concentration_ppm: f64,
    /// That over the lower explosive limit.
    pub fraction_of_lower_explosive_limit: Option<f64>,
    /// Mean over fifteen minutes in the well-mixed bay.
    pub fifteen_minute_mean_ppm: f64,
    /// Mean over eight hours in the well-mixed bay, if it is used once.
    pub eight_hour_mean_ppm: f64,
    /// Exposure limit as a mean over eight hours.
    pub exposure_limit_ppm: Option<f64>,
    /// Factor for air that mixes badly, on every well-mixed value.
    pub mixing_factor: f64,
    /// Air that thins the whole amount to 25 % of the lower explosive limit.
    pub air_to_25_percent_of_lower_explosive_limit_m3: Option<f64>,
    /// Air an hour that holds the eight-hour limit if as much is used every hour, with the factor.
    pub ventilation_to_exposure_limit_m3_per_h: Option<f64>,
}

/// A figure that was used.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// What it is, with its unit.
    pub what: &'static str,
    /// The number.
    pub value: f64,
    /// Where it comes from.
    pub source: String,
}

/// What stands before the step.
#[must_use]
pub fn caution() -> &'static str {
    say!("agents-caution")
}

/// Share of the lower explosive limit that is kept to.
const EXPLOSIVE_SHARE: f64 = 0.25;
/// Factor for air that mixes badly: 3 to 10 are used (ACGIH, from memory).
const MIXING: f64 = 5.0;
/// Molar mass of air, g/mol.
const AIR: f64 = 28.97;

/// Evaluates an agent against a rubber and a bay.
///
/// # Errors
/// [`RoomError`]: a shop's temperature, a bay, an amount or air changes that can't be.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    check(input)?;
    let agent = &input.agent;
    let (immersion, wiping) = (
        rated(agent, &input.material, Contact::Immersion),
        rated(agent, &input.material, Contact::Wipe),
    );
    let mut findings = vec![film(agent), petroleum(agent), wiping];
    let verdict_wiping = worst(&findings);
    let refused = findings[..2].iter().find(|finding| finding.verdict == Verdict::DoesNotConform);
    let refused_for_toric = refused.map(|finding| finding.found.clone());
    let vapour = input.use_in.and_then(|used| vapour_in(agent, input.room, used));
    let on_vapour = input.use_in.map(|_| match &vapour {
        Some(vapour) => vapour_findings(agent, vapour),
        None => vec![no_figures_of_vapour(agent)],
    });
    let verdict_vapour = on_vapour.as_deref().map(worst);
    findings.extend(on_vapour.into_iter().flatten());
    let drying = drying::drying(agent, input);
    let waited =
        input.since.map(|since| drying::gone((agent, input.levels), since, drying.as_ref()));
    findings.extend(waited.clone());
    let value = |sourced: &Option<Sourced>| sourced.as_ref().map(|sourced| sourced.value);
    let saturated_share = value(&agent.vapour_pressure_at_20_degc_pa).map(saturated);
    let explosive = value(&agent.lower_explosive_limit_percent);
    let flash = value(&agent.flash_point_degc);
    Ok(Outcome {
        agent: agent.name.clone(),
        what: agent.what.clone(),
        material: input.material.code.clone(),
        film: agent.film,
        refused_for_toric,
        verdict_wiping,
        verdict_immersion: immersion.verdict,
        immersion,
        verdict_vapour,
        waited,
        evaporation: evaporation(agent),
        drying,
        boiling_point_degc: value(&agent.boiling_point_degc),
        flash_point_degc: flash,
        ignitable_at_room: flash.map(|flash| flash <= input.room.si() - 273.15),
        lower_explosive_limit_percent: explosive,
        saturated_vapour_percent: saturated_share.map(|share| share * 100.0),
        saturated_times_lower_explosive_limit: saturated_share
            .zip(explosive)
            .map(|(share, limit)| share * 100.0 / limit),
        vapour_over_air: value(&agent.molar_mass_g_per_mol).map(|mass| mass / AIR),
        vapour,
        disposal: agent.disposal.clone(),
        figures: figures(agent),
        verdict: worst(&findings),
        findings,
    })
}

fn check(input: &Input) -> Result<(), RoomError> {
    let room = input.room.si() - 273.15;
    if !(-30.0..=60.0).contains(&room) {
        let found = say!("agents-shop-at-degc", room = fixed(room, 1));
        return Err(RoomError::input(found, say!("agents-30-60-degc-would-fit")));
    }
    if let Some(since) = input.since.filter(|since| !(0.0..=1e8).contains(&since.si())) {
        let found = say!("agents-time-since-last-wetting-s", time = since.si().to_string());
        return Err(RoomError::input(found, say!("agents-time-zero-or-more-would-fit")));
    }
    if let Some(depth) = input.depth.filter(|depth| !(1e-4..=1.0).contains(&depth.si())) {
        let found = say!("agents-housing-mm-deep", depth = (depth.si() * 1e3).to_string());
        return Err(RoomError::input(found, say!("agents-0-1-1000-mm-would-fit")));
    }
    let Some(used) = input.use_in else { return Ok(()) };
    if !(0.1..=1e6).contains(&used.bay.si()) {
        let found = say!("agents-bay-m3", volume = used.bay.si().to_string());
        return Err(RoomError::input(found, say!("agents-0-1-1000000-m3-would-fit")));
    }
    if !(0.0..=1000.0).contains(&used.air_changes_per_hour) {
        let found =
            say!("agents-air-changes-hour", changes = used.air_changes_per_hour.to_string());
        return Err(RoomError::input(found, say!("agents-0-1000-hour-would-fit")));
    }
    if used.amount.si() <= 0.0 || used.amount.si() > 0.01 * used.bay.si() {
        let found = say!("agents-amount-ml", amount = (used.amount.si() * 1e6).to_string());
        return Err(RoomError::input(found, say!("agents-above-zero-below-hundredth-bay")));
    }
    Ok(())
}

fn film(agent: &Agent) -> Finding {
    let verdict = match agent.film {
        Film::None => Verdict::Conforms,
        Film::Leaves => Verdict::DoesNotConform,
    };
    Finding::new(
        say!("agents-film-on-load-ring"),
        verdict,
        agent.film_reason.clone(),
        say!("agents-no-film-may-stay"),
    )
    .with_sources(vec![agent.film_source.clone()])
}

fn petroleum(agent: &Agent) -> Finding {
    let (verdict, found) = if agent.petroleum {
        (Verdict::DoesNotConform, say!("agents-is-made-from-petroleum"))
    } else {
        (Verdict::Conforms, say!("agents-is-free-of-petroleum"))
    };
    Finding::new(
        say!("agents-petroleum-on-load-ring"),
        verdict,
        found,
        say!("agents-fits-free-of-petroleum"),
    )
    .with_sources(vec!["common practice, no source".to_owned()])
}

/// How long the rubber meets the agent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Contact {
    Immersion,
    Wipe,
}

impl Contact {
    fn words(self) -> (&'static str, &'static str, Rating) {
        match self {
            Self::Immersion => (
                say!("agents-long-immersion"),
                say!("agents-good-or-excellent-where-lies-in"),
                Rating::Good,
            ),
            Self::Wipe => (
                say!("agents-short-wipe"),
                say!("agents-fair-or-better-for-short-contact"),
                Rating::Fair,
            ),
        }
    }
}

fn rated(agent: &Agent, material: &Material, contact: Contact) -> Finding {
    let (what, fits, enough) = contact.words();
    let fluid = agent.fluid.as_deref();
    let rating = fluid.and_then(|fluid| material.fluid.iter().find(|rating| rating.name == fluid));
    let Some(FluidRating { worst, best, source, .. }) = rating else {
        let found =
            say!("agents-nothing-at-hand-on-in", material = material.code, agent = agent.name);
        let fits = say!("agents-compounds-data-sheet-decides");
        return Finding::new(what, Verdict::NotProven, found, fits);
    };
    let verdict = if *worst >= enough {
        Verdict::Conforms
    } else if *best < enough {
        Verdict::DoesNotConform
    } else {
        Verdict::NotProven
    };
    let span = if worst == best {
        worst.word().to_owned()
    } else {
        say!("agents-rated-from-to", worst = worst.word(), best = best.word())
    };
    let found = say!(
        "agents-in-under-long-immersion",
        material = material.code,
        agent = agent.name,
        rating = span
    );
    Finding::new(what, verdict, found, fits).with_sources(vec![source.clone()])
}

fn evaporation(agent: &Agent) -> Evaporation {
    let boils = agent.boiling_point_degc.is_some() || agent.fluid.as_deref() == Some("water");
    match agent.vapour_pressure_at_20_degc_pa.as_ref().map(|pressure| pressure.value) {
        Some(pressure) if pressure > 10_000.0 => Evaporation::Flashes,
        Some(pressure) if pressure >= 2_000.0 => Evaporation::Minutes,
        Some(_) => Evaporation::Slow,
        None if boils => Evaporation::Slow,
        None => Evaporation::Stays,
    }
}

/// The vapour of the whole amount; `None` where the agent's figures are not at hand.
fn vapour_in(agent: &Agent, room: Temperature, used: Use) -> Option<Vapour> {
    let value = |sourced: &Option<Sourced>| sourced.as_ref().map(|sourced| sourced.value);
    let mass = value(&agent.molar_mass_g_per_mol)?;
    let density = value(&agent.density_kg_per_m3)?;
    let volume = vapour_volume(used.amount.si(), density, mass, room.si());
    let share = volume / used.bay.si();
    let explosive = value(&agent.lower_explosive_limit_percent).map(|percent| percent / 100.0);
    let limit = eight_hours_ppm(agent);
    let mean = |hours: f64| share * 1e6 * mean_left(used.air_changes_per_hour, hours);
    let air = |limit: f64| air_to_dilute(volume, EXPLOSIVE_SHARE * limit);
    Some(Vapour {
        vapour_l: volume * 1e3,
        concentration_ppm: share * 1e6,
        fraction_of_lower_explosive_limit: explosive.map(|limit| share / limit),
        fifteen_minute_mean_ppm: mean(0.25),
        eight_hour_mean_ppm: mean(8.0),
        exposure_limit_ppm: limit,
        mixing_factor: MIXING,
        air_to_25_percent_of_lower_explosive_limit_m3: explosive.map(air),
        ventilation_to_exposure_limit_m3_per_h: limit
            .map(|limit| ventilation(volume, MIXING, limit * 1e-6)),
    })
}

fn eight_hours_ppm(agent: &Agent) -> Option<f64> {
    in_ppm(agent, &agent.exposure_eight_hours_ppm, &agent.exposure_eight_hours_mg_per_m3)
}

fn short_ppm(agent: &Agent) -> Option<f64> {
    in_ppm(agent, &agent.exposure_short_ppm, &agent.exposure_short_mg_per_m3)
}

fn in_ppm(agent: &Agent, by_volume: &Option<Sourced>, by_mass: &Option<Sourced>) -> Option<f64> {
    by_volume.as_ref().map(|limit| limit.value).or_else(|| {
        let mass = agent.molar_mass_g_per_mol.as_ref()?;
        Some(ppm(by_mass.as_ref()?.value, mass.value))
    })
}

/// On the vapour of an agent without figures: it has none to speak of, or nothing is known of it.
fn no_figures_of_vapour(agent: &Agent) -> Finding {
    let what = say!("agents-vapour-in-bay");
    let Some(source) = &agent.no_vapour else {
        let found = say!("agents-no-figures-of-vapour", agent = agent.name);
        return Finding::new(what, Verdict::NotProven, found, say!("agents-data-sheet-says"));
    };
    let found = say!("agents-gives-off-no-vapour", agent = agent.name);
    let fits = say!("agents-nothing-to-keep-to");
    Finding::new(what, Verdict::Conforms, found, fits).with_sources(vec![source.clone()])
}

fn vapour_findings(agent: &Agent, vapour: &Vapour) -> Vec<Finding> {
    let danger = agent.danger_to_life_ppm.as_ref();
    let explosive = agent.lower_explosive_limit_percent.as_ref();
    let source = |sourced: Option<&Sourced>| sourced.map(|sourced| sourced.source.clone());
    let eight =
        agent.exposure_eight_hours_ppm.as_ref().or(agent.exposure_eight_hours_mg_per_m3.as_ref());
    let short = agent.exposure_short_ppm.as_ref().or(agent.exposure_short_mg_per_m3.as_ref());
    let compared = [
        (
            say!("agents-vapour-against-25-lower-explosive-limit"),
            vapour.concentration_ppm,
            explosive.map(|limit| EXPLOSIVE_SHARE * limit.value * 1e4),
            source(explosive),
        ),
        (
            say!("agents-vapour-against-eight-hour-exposure-limit"),
            vapour.eight_hour_mean_ppm,
            vapour.exposure_limit_ppm,
            source(eight),
        ),
    ];
    let mut findings: Vec<Finding> = compared
        .into_iter()
        .map(|(what, value, limit, source)| against(what, value, limit, source))
        .collect();
    let optional = [
        (
            say!("agents-vapour-against-fifteen-minute-exposure-limit"),
            vapour.fifteen_minute_mean_ppm,
            short_ppm(agent),
            source(short),
        ),
        (
            say!("agents-vapour-against-danger-life-or-health"),
            vapour.concentration_ppm,
            danger.map(|limit| limit.value),
            source(danger),
        ),
    ];
    let stated = optional.into_iter().filter(|(_, _, limit, _)| limit.is_some());
    findings.extend(stated.map(|(what, value, limit, source)| against(what, value, limit, source)));
    findings
}

/// A well-mixed concentration against a limit, both in ppm; with and without the mixing factor.
fn against(what: &str, value: f64, limit: Option<f64>, source: Option<String>) -> Finding {
    let Some(limit) = limit else {
        let fits = say!("agents-take-from-safety-data-sheet");
        return Finding::new(what, Verdict::NotProven, say!("agents-no-limit-at-hand"), fits);
    };
    let verdict = if value > limit {
        Verdict::DoesNotConform
    } else if value * MIXING > limit {
        Verdict::NotProven
    } else {
        Verdict::Conforms
    };
    let found = say!(
        "agents-ppm-mixed-well-and-badly",
        mixed = round(value),
        worst = round(value * MIXING)
    );
    let fits = match verdict {
        Verdict::Conforms => say!("agents-at-most-ppm", limit = round(limit)),
        Verdict::NotProven | Verdict::DoesNotConform => {
            say!("agents-at-most-ppm-use-less-or", limit = round(limit))
        }
    };
    Finding::new(what, verdict, found, fits).with_sources(source.into_iter().collect())
}

/// Three digits or whole numbers.
fn round(ppm: f64) -> String {
    let decimals = if ppm >= 100.0 {
        0
    } else if ppm >= 1.0 {
        1
    } else {
        3
    };
    fixed(ppm, decimals)
}

fn figures(agent: &Agent) -> Vec<Figure> {
    let known = [
        (say!("agents-molar-mass-g-mol"), &agent.molar_mass_g_per_mol),
        (say!("agents-density-kg-m3"), &agent.density_kg_per_m3),
        (say!("agents-boiling-point-degc"), &agent.boiling_point_degc),
        (say!("agents-vapour-pressure-at-20-degc-pa"), &agent.vapour_pressure_at_20_degc_pa),
        (say!("agents-diffusion-in-air-at-25-degc"), &agent.diffusion_in_air_at_25_degc_m2_per_s),
        (say!("agents-flash-point-degc"), &agent.flash_point_degc),
        (say!("agents-lower-explosive-limit"), &agent.lower_explosive_limit_percent),
        (say!("agents-upper-explosive-limit"), &agent.upper_explosive_limit_percent),
        (say!("agents-eight-hour-exposure-limit-ppm"), &agent.exposure_eight_hours_ppm),
        (say!("agents-eight-hour-exposure-limit-mg-m3"), &agent.exposure_eight_hours_mg_per_m3),
        (say!("agents-fifteen-minute-exposure-limit-ppm"), &agent.exposure_short_ppm),
        (say!("agents-fifteen-minute-exposure-limit-mg-m3"), &agent.exposure_short_mg_per_m3),
        (say!("agents-danger-life-or-health-ppm"), &agent.danger_to_life_ppm),
    ];
    known
        .into_iter()
        .filter_map(|(what, sourced)| {
            let Sourced { value, source } = sourced.as_ref()?;
            Some(Figure { what, value: *value, source: source.clone() })
        })
        .collect()
}
