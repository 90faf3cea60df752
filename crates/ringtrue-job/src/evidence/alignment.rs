//! Sweeps of housings with what they are judged by.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Angle, Given, Length, Quantity};
use ringtrue_seal::alignment::{
    IndicatorSense, IndicatorUncertainty, Input, Reading, Sag, TipGeometry,
};
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::limit::Limit;
use ringtrue_seal::definition::seal::Seal;

/// What sweeps are judged by.
#[derive(Debug, Clone, Copy)]
pub struct AlignmentBasis<'b> {
    /// The parts: limits, levels, and the geometry that limits a tip.
    pub parts: Parts<'b>,
    /// An eccentricity limit that goes before the parts'.
    pub eccentricity_limit: Option<Length>,
    /// A tip limit that goes before the parts'.
    pub tip_limit: Option<Angle>,
    /// Outside diameter of the housing face, whose edge may touch first.
    pub housing_face_diameter: Option<Length>,
    /// Diameter of the face sweep, where the readings do not state it.
    pub face_diameter: Option<Length>,
    /// Which way the indicator counts.
    pub sense: IndicatorSense,
    /// What the bracket sags.
    pub sag: Option<Sag>,
    /// The indicator.
    pub gauge: Option<&'b Gauge>,
    /// A stated standard uncertainty of one reading; goes before the gauge's.
    pub stated_uncertainty: Option<Length>,
    /// Which half can be moved.
    pub moves: Option<Half>,
}

/// The parts whose housings were swept.
#[derive(Debug, Clone, Copy)]
pub enum Parts<'b> {
    /// Both halves.
    Joint(&'b Joint),
    /// One half, the other taken as the same.
    Seal(&'b Seal),
    /// Not known.
    Unknown,
}

/// Sweeps with what they are judged by: of a joint the tighter limit of its two seals.
#[must_use]
pub fn sweeps(readings: Vec<Reading>, basis: AlignmentBasis<'_>) -> Input {
    let (seals, levels) = match basis.parts {
        Parts::Joint(joint) => (Half::BOTH.map(|half| joint.seal(half)).to_vec(), joint.levels()),
        Parts::Seal(seal) => (vec![seal], seal.levels()),
        Parts::Unknown => (Vec::new(), Levels::DEFAULT),
    };
    let face = basis.housing_face_diameter;
    let geometry = match basis.parts {
        Parts::Joint(joint) => TipGeometry::of_joint(joint, face),
        Parts::Seal(seal) => TipGeometry::of_seal(seal, face),
        Parts::Unknown => None,
    };
    let eccentricity = tightest(seals.iter().map(|seal| seal.limits.eccentricity.as_ref()));
    let tip = tightest(seals.iter().map(|seal| seal.limits.tip.as_ref()));
    Input {
        readings,
        sense: basis.sense,
        sag: basis.sag,
        face_diameter: basis.face_diameter,
        eccentricity_limit: basis.eccentricity_limit.or(eccentricity),
        tip_limit: basis.tip_limit.or(tip),
        geometry,
        uncertainty: uncertainty(&basis),
        moves: basis.moves,
        levels,
    }
}

/// The smallest of the upper limits.
fn tightest<'l, Q: Quantity>(limits: impl Iterator<Item = Option<&'l Limit<Q>>>) -> Option<Q> {
    let most = limits.flatten().filter_map(|limit| limit.max.as_ref().map(Given::value));
    most.reduce(|a, b| if a.si() < b.si() { a } else { b })
}

fn uncertainty(basis: &AlignmentBasis<'_>) -> IndicatorUncertainty {
    match (basis.stated_uncertainty, basis.gauge) {
        (Some(stated), _) => IndicatorUncertainty::Stated(stated),
        (None, Some(gauge)) => IndicatorUncertainty::Gauge {
            non_repeating: gauge.non_repeating_uncertainty.value(),
            resolution: gauge.resolution.value(),
        },
        (None, None) => IndicatorUncertainty::Unknown,
    }
}
