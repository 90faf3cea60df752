//! The agents that are shipped.

use std::sync::OnceLock;

use ringtrue_words::say;
use serde::{Deserialize, Serialize};

use crate::definition::TextError;

/// One cleaning or wetting agent. Figures are left out where no source gives one.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Agent {
    /// Its name: `isopropyl-alcohol`.
    pub name: String,
    /// Other names of the same substance.
    pub also: Vec<String>,
    /// What it is.
    pub what: String,
    /// The fluid under which material files rate it.
    pub fluid: Option<String>,
    /// Does it leave a film?
    pub film: Film,
    /// Why that matters.
    pub film_reason: String,
    /// Where that comes from.
    pub film_source: String,
    /// Is it made from petroleum?
    pub petroleum: bool,
    /// How it and its wipes are thrown away.
    pub disposal: String,
    /// Where it is said that it gives off no vapour that burns or harms; without it and without
    /// figures nothing is known of its vapour.
    pub no_vapour: Option<String>,
    /// Mass of a mole.
    pub molar_mass_g_per_mol: Option<Sourced>,
    /// Density of the liquid near 20 degC.
    pub density_kg_per_m3: Option<Sourced>,
    /// Where it boils.
    pub boiling_point_degc: Option<Sourced>,
    /// Vapour pressure at 20 degC.
    pub vapour_pressure_at_20_degc_pa: Option<Sourced>,
    /// Diffusion coefficient of its vapour in air.
    pub diffusion_in_air_at_25_degc_m2_per_s: Option<Sourced>,
    /// Flash point.
    pub flash_point_degc: Option<Sourced>,
    /// Lower explosive limit in air, by volume.
    pub lower_explosive_limit_percent: Option<Sourced>,
    /// Upper explosive limit in air, by volume.
    pub upper_explosive_limit_percent: Option<Sourced>,
    /// Exposure limit as a mean over eight hours.
    pub exposure_eight_hours_ppm: Option<Sourced>,
    /// The same where it is given by mass.
    pub exposure_eight_hours_mg_per_m3: Option<Sourced>,
    /// Exposure limit as a mean over fifteen minutes.
    pub exposure_short_ppm: Option<Sourced>,
    /// The same where it is given by mass.
    pub exposure_short_mg_per_m3: Option<Sourced>,
    /// Concentration that is immediately dangerous to life or health.
    pub danger_to_life_ppm: Option<Sourced>,
}

/// Does an agent leave a film?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Film {
    /// It evaporates without one.
    #[serde(rename = "none")]
    None,
    /// It leaves one.
    #[serde(rename = "leaves one")]
    Leaves,
}

/// A figure and where it comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sourced {
    /// The number, in the unit of its key.
    pub value: f64,
    /// Where it comes from.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AgentFile {
    agent: Vec<Agent>,
}

/// The shipped list of agents, as text: what a record keeps of it.
pub const SHIPPED: &str = include_str!("../../data/agents.toml");

/// Reads a list of agents.
///
/// # Errors
/// What does not fit.
pub fn read_list(text: &str) -> Result<Vec<Agent>, TextError> {
    let file: Result<AgentFile, _> = toml::from_str(text);
    file.map(|file| file.agent).map_err(|error| TextError {
        line: error.span().map(|span| text[..span.start].matches('\n').count() + 1),
        column: None,
        found: error.message().to_owned(),
        fits: say!("agents-list-agents-as-this-program-ships").to_owned(),
    })
}

/// All agents that are shipped.
#[must_use]
pub fn shipped() -> &'static [Agent] {
    static PARSED: OnceLock<Vec<Agent>> = OnceLock::new();
    // A test reads the shipped file, so none is dropped here.
    PARSED.get_or_init(|| read_list(SHIPPED).unwrap_or_default())
}

/// The agent of this name, or of another name of the same substance.
#[must_use]
pub fn named(name: &str) -> Option<&'static Agent> {
    named_in(shipped(), name)
}

/// The same of another list, such as one that was kept with a record.
#[must_use]
pub fn named_in<'a>(agents: &'a [Agent], name: &str) -> Option<&'a Agent> {
    let wanted = key(name);
    agents.iter().find(|agent| agent.name == wanted || agent.also.contains(&wanted))
}

/// The nearest name, for a message.
#[must_use]
pub fn nearest(name: &str) -> Option<&'static str> {
    let wanted = key(name);
    shipped()
        .iter()
        .flat_map(|agent| std::iter::once(&agent.name).chain(&agent.also))
        .map(|known| (strsim::damerau_levenshtein(known, &wanted), known.as_str()))
        .filter(|(distance, known)| *distance <= 1 + known.len() / 4)
        .min()
        .map(|(_, known)| known)
}

fn key(name: &str) -> String {
    name.trim().to_lowercase().replace([' ', '_'], "-")
}
