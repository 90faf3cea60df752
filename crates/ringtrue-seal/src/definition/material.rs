//! The material: an elastomer family by its ISO 1629 code.

use ringtrue_metrology::units::{ExpansionCoefficient, Given, Quantity, Temperature};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// An elastomer family. Ranges span compounds; a compound's own data sheet goes before them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// `ringtrue/material/1`.
    pub schema: String,
    /// ISO 1629 code: `NBR`.
    pub code: String,
    /// Polymer: `acrylonitrile-butadiene`.
    pub name: String,
    /// Service temperatures.
    pub service_temperature: Span<Temperature>,
    /// Glass transition.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub glass_transition: Option<Span<Temperature>>,
    /// Temperature retraction TR10 (ISO 2921).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tr10: Option<Span<Temperature>>,
    /// Temperature near which it crystallises, where it does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub crystallises_near: Option<Span<Temperature>>,
    /// Linear thermal expansion of filled compounds.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub linear_expansion: Option<Span<ExpansionCoefficient>>,
    /// How it stands fluids.
    #[serde(default)]
    pub fluid: Vec<FluidRating>,
}

/// A range of a property over compounds, and where it comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, bound = "")]
#[schemars(bound = "")]
pub struct Span<Q: Quantity> {
    /// Smallest value.
    pub min: Given<Q>,
    /// Largest value.
    pub max: Given<Q>,
    /// Where it comes from.
    pub source: String,
}

/// How a material stands one fluid under long immersion.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FluidRating {
    /// The fluid: `mineral-oil`, `isopropyl-alcohol`.
    pub name: String,
    /// The worst rating met.
    pub worst: Rating,
    /// The best rating met.
    pub best: Rating,
    /// Where it comes from.
    pub source: String,
}

/// Ratings of fluid resistance, from worst to best.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Rating {
    /// Not for this fluid.
    Poor,
    /// Short contact at most.
    Fair,
    /// Usable.
    Good,
    /// Little or no effect.
    Excellent,
}
