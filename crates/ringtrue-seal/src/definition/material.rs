//! The material: an elastomer family by its ISO 1629 code, and the families that are shipped.
//!
//! Shipped figures are those of published tables and pages, named in each entry; makers' pages are
//! cited without the maker's name. Where sources differ, `service_temperature` holds the narrowest
//! claim and `service_temperature_widest` the widest.

use std::sync::OnceLock;

use ringtrue_metrology::units::{
    Density, ExpansionCoefficient, Fraction, Given, Quantity, SpecificHeat, Temperature,
    ThermalConductivity, clip,
};
use ringtrue_words::{say, words};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::misfit::{Order, above_zero, in_order, some_text};
use super::stiffness::Stiffness;
use super::{Definition, Kind, Misfit, Number, complaint, read};

/// What a conical washer names as its material where it is no rubber.
pub const STEEL: &str = "steel";
/// What a fitting names as its cleaning agent where the parts go in dry.
pub const NO_AGENT: &str = "none";

/// Fluids that the shipped materials know, and what each stands for.
pub const FLUIDS: [(&str, &str); 9] = [
    ("mineral-oil", "mineral oils at moderate temperature, gear and engine oils on their base"),
    ("hot-mineral-oil", "the same, hot"),
    ("isopropyl-alcohol", "isopropyl alcohol and the alcohols as a class"),
    ("aliphatic-solvent", "aliphatic hydrocarbons: white spirit, naphtha"),
    ("aromatic-solvent", "aromatic hydrocarbons: toluene, xylene"),
    ("ketone", "ketones: acetone, butanone"),
    ("water", "water"),
    ("vegetable-oil", "vegetable and animal oils"),
    ("water-glycol", "water-glycol hydraulic fluid (HFC)"),
];

/// Codes of elastomer families and their polymers: ISO 1629:2013.
///
/// The groups were seen in the standard's contents list, and the names agree with the abstract of
/// ISO/TR 17051.
pub const ISO_1629: [(&str, &str); 9] = [
    ("NR", "natural rubber (isoprene)"),
    ("CR", "chloroprene"),
    ("NBR", "acrylonitrile-butadiene"),
    ("HNBR", "hydrogenated acrylonitrile-butadiene"),
    ("EPDM", "ethylene-propylene-diene"),
    ("FKM", "fluorocarbon"),
    ("VMQ", "methyl-vinyl silicone"),
    ("FVMQ", "fluoro-silicone"),
    ("ACM", "acrylate"),
];

/// The polymer of a code in [`ISO_1629`], in the language that is spoken.
pub(crate) fn polymer(code: &str) -> String {
    words().of("polymer-", code.to_lowercase())
}

/// `did you mean ...? ` with the nearest name in [`FLUIDS`], or nothing.
#[must_use]
pub fn nearest_fluid(name: &str) -> String {
    complaint::nearest(
        &name.to_lowercase().replace(' ', "-"),
        FLUIDS.iter().map(|(fluid, _)| *fluid),
    )
}

/// The shipped families, one file each.
const SHIPPED: [(&str, &str); 7] = [
    ("NR", include_str!("../../data/materials/nr.toml")),
    ("CR", include_str!("../../data/materials/cr.toml")),
    ("NBR", include_str!("../../data/materials/nbr.toml")),
    ("HNBR", include_str!("../../data/materials/hnbr.toml")),
    ("EPDM", include_str!("../../data/materials/epdm.toml")),
    ("FKM", include_str!("../../data/materials/fkm.toml")),
    ("VMQ", include_str!("../../data/materials/vmq.toml")),
];

/// The shipped material with this ISO 1629 code, in capitals or not.
#[must_use]
pub fn shipped(code: &str) -> Option<&'static Material> {
    static PARSED: OnceLock<Vec<Material>> = OnceLock::new();
    // A test reads each shipped file, so none is dropped here.
    let all =
        PARSED.get_or_init(|| SHIPPED.iter().filter_map(|(_, text)| read(text).ok()).collect());
    all.iter().find(|material| material.code.eq_ignore_ascii_case(code.trim()))
}

/// The shipped file of the material with this ISO 1629 code, in capitals or not: what a record
/// keeps of it.
#[must_use]
pub fn shipped_text(code: &str) -> Option<&'static str> {
    let of = |(known, _): &&(&str, &str)| known.eq_ignore_ascii_case(code.trim());
    SHIPPED.iter().find(of).map(|(_, text)| *text)
}

/// Codes of the shipped materials.
#[must_use]
pub fn shipped_codes() -> Vec<&'static str> {
    SHIPPED.iter().map(|(code, _)| *code).collect()
}

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
    /// Service temperatures that every compound of the family stands: the narrowest claim met.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub service_temperature: Option<Span<Temperature>>,
    /// Service temperatures that some compound of the family stands: the widest claim met. Between
    /// the two only the compound's own data sheet can tell.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub service_temperature_widest: Option<Span<Temperature>>,
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
    /// Thermal conductivity.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thermal_conductivity: Option<Span<ThermalConductivity>>,
    /// Density.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub density: Option<Span<Density>>,
    /// Specific heat.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub specific_heat: Option<Span<SpecificHeat>>,
    /// Elongation at break (ISO 37): how much longer a dumb-bell is when it tears, over its first
    /// length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub elongation_at_break: Option<Span<Fraction>>,
    /// Its law and the stretch tests that give the constants. They go before a hardness.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stiffness: Option<Stiffness>,
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
    /// The fluid, as [`FLUIDS`] names it where it is there: `mineral-oil`, `isopropyl-alcohol`.
    pub name: String,
    /// The worst rating met.
    pub worst: Rating,
    /// The best rating met.
    pub best: Rating,
    /// Where it comes from.
    pub source: String,
}

/// Ratings of fluid resistance, from worst to best.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
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

impl Rating {
    /// The word, as files write it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Poor => "poor",
            Self::Fair => "fair",
            Self::Good => "good",
            Self::Excellent => "excellent",
        }
    }
}

impl Definition for Material {
    const KIND: Kind = Kind::Material;

    fn consistent(&self) -> Result<(), Misfit> {
        some_text("code", &self.code)?;
        some_text("name", &self.name)?;
        span("service_temperature", self.service_temperature.as_ref())?;
        span("service_temperature_widest", self.service_temperature_widest.as_ref())?;
        span("glass_transition", self.glass_transition.as_ref())?;
        span("tr10", self.tr10.as_ref())?;
        span("crystallises_near", self.crystallises_near.as_ref())?;
        span("linear_expansion", self.linear_expansion.as_ref())?;
        span("thermal_conductivity", self.thermal_conductivity.as_ref())?;
        span("density", self.density.as_ref())?;
        span("specific_heat", self.specific_heat.as_ref())?;
        span("elongation_at_break", self.elongation_at_break.as_ref())?;
        self.heat_above_zero()?;
        if let Some(elongation) = &self.elongation_at_break {
            above_zero("elongation_at_break.min", &elongation.min)?;
        }
        if let Some(stiffness) = &self.stiffness {
            stiffness.consistent().map_err(|misfit| misfit.under("stiffness"))?;
        }
        self.widest_is_wider()?;
        for (index, rating) in self.fluid.iter().enumerate() {
            fluid(rating).map_err(|misfit| misfit.under(&format!("fluid[{}]", index + 1)))?;
            if self.fluid[..index].iter().any(|other| other.name == rating.name) {
                let found = say!("definition-fluid-rated-twice", fluid = clip(&rating.name));
                let path = format!("fluid[{}].name", index + 1);
                return Err(Misfit::at(path, found, say!("definition-one-entry-a-fluid")));
            }
        }
        Ok(())
    }
}

impl Material {
    /// Puts the points of each test's file in the file's place: the material then stands by itself.
    /// `read` gives the points of a file by its name, as stretch and MPa.
    ///
    /// # Errors
    /// That of `read`.
    pub fn with_points<E>(
        mut self,
        mut read: impl FnMut(&str) -> Result<Vec<[f64; 2]>, E>,
    ) -> Result<Self, E> {
        for test in self.stiffness.iter_mut().flat_map(|stiffness| &mut stiffness.tests) {
            if let Some(file) = test.file.take() {
                test.points_mpa = read(&file)?.into_iter().map(|point| point.map(Number)).collect();
            }
        }
        Ok(self)
    }

    /// Names of the files that hold its tests.
    pub fn test_files(&self) -> impl Iterator<Item = &str> {
        let tests = self.stiffness.iter().flat_map(|stiffness| &stiffness.tests);
        tests.filter_map(|test| test.file.as_deref())
    }

    /// A conductivity, density or heat of zero would let nothing cool or everything at once.
    fn heat_above_zero(&self) -> Result<(), Misfit> {
        let least = |key: &str| format!("{key}.min");
        if let Some(span) = &self.thermal_conductivity {
            above_zero(&least("thermal_conductivity"), &span.min)?;
        }
        if let Some(span) = &self.density {
            above_zero(&least("density"), &span.min)?;
        }
        self.specific_heat
            .as_ref()
            .map_or(Ok(()), |span| above_zero(&least("specific_heat"), &span.min))
    }

    fn widest_is_wider(&self) -> Result<(), Misfit> {
        let Some(widest) = &self.service_temperature_widest else {
            return Ok(());
        };
        let Some(narrowest) = &self.service_temperature else {
            return Err(Misfit::at(
                "service_temperature_widest",
                say!("definition-widest-without-narrowest"),
                say!("definition-add", line = "`[service_temperature]`"),
            ));
        };
        in_order(
            ("service_temperature_widest.min", &widest.min),
            Order::BelowOrEqual,
            ("service_temperature.min", &narrowest.min),
        )?;
        in_order(
            ("service_temperature.max", &narrowest.max),
            Order::BelowOrEqual,
            ("service_temperature_widest.max", &widest.max),
        )
    }
}

fn span<Q: Quantity>(key: &str, span: Option<&Span<Q>>) -> Result<(), Misfit> {
    let Some(span) = span else { return Ok(()) };
    in_order(("min", &span.min), Order::BelowOrEqual, ("max", &span.max))
        .and_then(|()| some_text("source", &span.source))
        .map_err(|misfit| misfit.under(key))
}

fn fluid(rating: &FluidRating) -> Result<(), Misfit> {
    some_text("name", &rating.name)?;
    some_text("source", &rating.source)?;
    if rating.worst > rating.best {
        return Err(Misfit::at(
            "worst",
            say!("definition-worst-above-best"),
            say!("definition-exchange-two"),
        ));
    }
    Ok(())
}
