//! How stiff is the rubber of a load ring, and how well is that known?
//!
//! Young's modulus E at small strain, from a measured value, from stretch tests with the law
//! that they give, or from a hardness alone. The published
//! relations between hardness and modulus differ by up to a factor 1.7 at 60 Shore A, so the spread
//! between them is carried as uncertainty.

mod fitted;

pub use fitted::{FittedRubber, Form, fitted};

use ringtrue_metrology::distribution::normal_quantile;
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Hardness, HardnessScale};
use ringtrue_words::say;
use serde::Serialize;

/// Where the relations come from.
pub const SOURCES: &[Source] = &[
    Source::Published(
        "A. N. Gent, On the relation between indentation hardness and Young's modulus, Trans. \
         Inst. Rubber Ind. 34 (1958) 46-57",
    ),
    Source::Published("log10 E = 0.0235 S - 0.6403 (S Shore A), as quoted in two public pages"),
    Source::Unverified(
        "ISO 48-2, normal curve in log10 E with its middle at 2.31 MPa, 57 IRHD a decade",
    ),
    Source::CommonPractice(
        "a filled compound's modulus differs from its hardness's by 15 to 30 %; 20 % is taken",
    ),
];

/// Smallest and largest hardness at which the relations are used, Shore A or IRHD.
pub const HARDNESS_RANGE: (f64, f64) = (20.0, 80.0);

/// Bulk over shear modulus of a rubber; half of it lowers a load ring's loads by about 0.1 %.
pub(crate) const BULK_OVER_SHEAR: f64 = 2000.0;

/// Scatter of compounds about any relation, as a share of E (see [`SOURCES`]).
const COMPOUND_SCATTER: f64 = 0.20;

/// Young's modulus with its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Modulus {
    /// E at small strain, MPa.
    pub young_mpa: f64,
    /// Standard uncertainty as a share of E.
    pub relative_standard_uncertainty: f64,
    /// What it was taken from.
    pub basis: ModulusBasis,
}

/// What a modulus was taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ModulusBasis {
    /// Measured, as the file states it.
    Measured,
    /// From the material's stretch tests, with the form of the law that was fitted to them.
    Tests,
    /// From hardness alone: the spread of the relations is in the uncertainty.
    Hardness,
}

/// Why a hardness gives no modulus.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum HardnessError {
    /// Outside the range of the relations.
    #[error("{}", say!("rubber-hardness-out-of-range", hardness = .0.to_string(),
        low = HARDNESS_RANGE.0.to_string(), high = HARDNESS_RANGE.1.to_string()))]
    Range(f64),
    /// A scale for metals.
    #[error("{}", say!("rubber-hardness-of-metals"))]
    Scale,
}

/// Gent 1958: E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S)) MPa, S Shore A.
#[must_use]
pub fn gent(shore_a: f64) -> f64 {
    0.0981 * (56.0 + 7.623_36 * shore_a) / (0.137_505 * (254.0 - 2.54 * shore_a))
}

/// log10 E = 0.0235 S - 0.6403, E in MPa, S Shore A.
#[must_use]
pub fn log_linear(shore_a: f64) -> f64 {
    libm::pow(10.0, 0.0235 * shore_a - 0.6403)
}

/// ISO 48-2 (constants from memory): hardness = 100 Φ((log10 E - 0.364) / 0.699 90), E in MPa.
#[must_use]
pub fn from_irhd(irhd: f64) -> f64 {
    libm::pow(10.0, 0.364 + 0.699_90 * normal_quantile(irhd / 100.0))
}

/// E from a hardness alone: the geometric mean of the lowest and the highest relation. Any value
/// between them is equally likely on a logarithmic scale (JCGM 100:2008 4.3.7), and the compounds'
/// scatter about a relation is added.
///
/// Shore A and IRHD are taken as one between 40 and 70, where they are close (ISO 48 series, from
/// memory); outside that each scale uses its own relations.
///
/// # Errors
/// [`HardnessError`] outside 20 to 80, or on a scale for metals.
pub fn modulus_from_hardness(hardness: Hardness) -> Result<Modulus, HardnessError> {
    let value = hardness.value;
    if !(HARDNESS_RANGE.0..=HARDNESS_RANGE.1).contains(&value) {
        return Err(HardnessError::Range(value));
    }
    let alike = (40.0..=70.0).contains(&value);
    let relations = match hardness.scale {
        HardnessScale::ShoreA if alike => vec![gent(value), log_linear(value), from_irhd(value)],
        HardnessScale::ShoreA => vec![gent(value), log_linear(value)],
        HardnessScale::Irhd if alike => vec![gent(value), log_linear(value), from_irhd(value)],
        HardnessScale::Irhd => vec![from_irhd(value)],
        HardnessScale::RockwellC | HardnessScale::Brinell | HardnessScale::Vickers => {
            return Err(HardnessError::Scale);
        }
    };
    let lowest = relations.iter().copied().fold(f64::INFINITY, f64::min);
    let highest = relations.iter().copied().fold(0.0, f64::max);
    let spread = libm::log(highest / lowest) / 2.0 / 3f64.sqrt();
    Ok(Modulus {
        young_mpa: (lowest * highest).sqrt(),
        relative_standard_uncertainty: libm::hypot(spread, COMPOUND_SCATTER),
        basis: ModulusBasis::Hardness,
    })
}

/// E as measured by the shop. Without an uncertainty nothing is known of it, so the compounds'
/// scatter is taken.
#[must_use]
pub fn measured_modulus(young_mpa: f64, standard_uncertainty_mpa: Option<f64>) -> Modulus {
    Modulus {
        young_mpa,
        relative_standard_uncertainty: standard_uncertainty_mpa
            .map_or(COMPOUND_SCATTER, |u| u / young_mpa),
        basis: ModulusBasis::Measured,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_relations_give_their_published_values() {
        // Recomputed from the published formulas; the last row's constants are from memory.
        assert!((gent(60.0) - 3.605_072_7).abs() < 1e-6);
        assert!((log_linear(60.0) - 5.884_370_4).abs() < 1e-6);
        assert!((from_irhd(49.977_886) - 2.31).abs() < 1e-4);
    }

    #[test]
    fn a_hardness_alone_leaves_the_spread_of_the_relations() {
        let hardness = Hardness { value: 60.0, scale: HardnessScale::ShoreA };
        let modulus = modulus_from_hardness(hardness).unwrap();
        assert!(modulus.young_mpa > 3.605 && modulus.young_mpa < 5.885);
        // Factor 1.69 between the ends (3.478 and 5.884 MPa): 15 % of a rectangle, with 20 % of the
        // compounds.
        assert!((modulus.relative_standard_uncertainty - 0.251).abs() < 0.001);
    }

    #[test]
    fn what_the_relations_do_not_cover_is_refused() {
        let at = |value, scale| modulus_from_hardness(Hardness { value, scale });
        assert!(matches!(at(95.0, HardnessScale::ShoreA), Err(HardnessError::Range(_))));
        assert!(matches!(at(60.0, HardnessScale::RockwellC), Err(HardnessError::Scale)));
    }
}
