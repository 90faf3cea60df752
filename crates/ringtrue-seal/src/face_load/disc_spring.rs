//! The disc-spring formula for a steel conical washer, beside its finite-element curve.
//!
//! Almen and Laszlo's formula with the constant K1 of EN 16984 (in other texts M, with another
//! definition that is 0.8 % lower at De/Di = 2):
//!
//! `F = 4E/(1-nu²) t⁴/(K1 De²) (s/t) [(h0/t - s/t)(h0/t - s/2t) + 1]`
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | De, Di | outside and inside diameter | mm |
//! | t | thickness | mm |
//! | h0 | free height of the cone, over the thickness | mm |
//! | s | deflection, 0 to h0 | mm |
//! | E, nu | Young's modulus, Poisson's ratio | MPa, 1 |
//!
//! It is 3 to 11 % above the finite-element curve: its 1/(1-nu²) holds for a wide plate and is 8 to
//! 9 % too stiff for a ring, and the shorter lever arm of the real section gives part of that back.
//!
//! The nominal stress that a resting load is held against the yield strength with is that at OM,
//! on the section's upper side where it turns: `4E/(1-nu²) t²/(K1 De²) (s/t) 3/π`, compression. The
//! upper inner corner, point I, bears more: `... (s/t) [K2 (h0/t - s/2t) + K3]`, with
//! `K2 = 6/(π ln d) ((d-1)/ln d - 1)` and `K3 = 3/π (d-1)/ln d`. It is pressed beyond its yield
//! when a spring is set in its making; one that was not takes its set in use.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{Quantity, fixed};
use ringtrue_words::say;

use super::half::{HalfCurve, STEEL_POISSON};
use crate::definition::seal::{LoadRing, Seal};
use crate::finding::{Finding, shown_mm};

/// Where the formula comes from.
pub const SOURCES: &[Source] = &[
    Source::Published("DIN EN 16984 (disc springs: calculation), force with K1"),
    Source::Unverified(
        "J. O. Almen, A. Laszlo, The uniform-section disk spring, Trans. ASME 58 (1936) 305-314",
    ),
    Source::Unverified(
        "EN 16984: nominal stress at OM of a disc spring, held against the yield strength where \
         the load rests",
    ),
];

/// A disc spring of rectangular section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiscSpring {
    /// Outside diameter De, mm.
    pub outside_diameter_mm: f64,
    /// Inside diameter Di, mm, below De.
    pub inside_diameter_mm: f64,
    /// Thickness t, mm.
    pub thickness_mm: f64,
    /// Free cone height h0, mm.
    pub cone_height_mm: f64,
    /// Young's modulus E, MPa.
    pub young_mpa: f64,
    /// Poisson's ratio nu.
    pub poisson: f64,
}

impl DiscSpring {
    /// K1 of EN 16984: `((d-1)/d)² / (π ((d+1)/(d-1) - 2/ln d))`, d = De/Di.
    #[must_use]
    pub fn k1(&self) -> f64 {
        let d = self.outside_diameter_mm / self.inside_diameter_mm;
        let share = (d - 1.0) / d;
        share * share / (std::f64::consts::PI * ((d + 1.0) / (d - 1.0) - 2.0 / libm::log(d)))
    }

    /// Nominal stress at OM for a deflection of 0 to h0, MPa, compression taken as positive.
    #[must_use]
    pub fn stress_om_mpa(&self, deflection_mm: f64) -> f64 {
        self.turned_mpa(deflection_mm) * 3.0 / std::f64::consts::PI
    }

    /// Nominal stress at the upper inner corner, point I, as [`Self::stress_om_mpa`].
    #[must_use]
    pub fn stress_i_mpa(&self, deflection_mm: f64) -> f64 {
        let d = self.outside_diameter_mm / self.inside_diameter_mm;
        let (ln, t) = (libm::log(d), self.thickness_mm);
        let k2 = 6.0 / (std::f64::consts::PI * ln) * ((d - 1.0) / ln - 1.0);
        let k3 = 3.0 / std::f64::consts::PI * (d - 1.0) / ln;
        let lever = (self.cone_height_mm - deflection_mm / 2.0) / t;
        self.turned_mpa(deflection_mm) * (k2 * lever + k3)
    }

    /// What both stresses go with: 4E/(1-nu²) t²/(K1 De²) s/t, MPa.
    fn turned_mpa(&self, deflection_mm: f64) -> f64 {
        let slender = self.thickness_mm / self.outside_diameter_mm;
        let plate = 4.0 * self.young_mpa / (1.0 - self.poisson * self.poisson);
        plate * slender * slender / self.k1() * deflection_mm / self.thickness_mm
    }

    /// Force at a deflection, N.
    #[must_use]
    pub fn force_n(&self, deflection_mm: f64) -> f64 {
        let t = self.thickness_mm;
        let (h, s) = (self.cone_height_mm / t, deflection_mm / t);
        let plate = 4.0 * self.young_mpa / (1.0 - self.poisson * self.poisson);
        let size =
            t * t * t * t / (self.k1() * self.outside_diameter_mm * self.outside_diameter_mm);
        plate * size * s * ((h - s) * (h - s / 2.0) + 1.0)
    }
}

/// The formula at the points of a steel washer's curve: deflection in mm and force in N. Empty for
/// rubber, and for an outline that is not the four corners of a disc spring.
pub(crate) fn beside(seal: &Seal, curve: &HalfCurve) -> Vec<(f64, f64)> {
    let Some(spring) = of_washer(seal) else { return Vec::new() };
    let within = curve.points.iter().filter(|point| point.travel_mm <= spring.cone_height_mm);
    within.map(|point| (point.travel_mm, spring.force_n(point.travel_mm))).collect()
}

/// The nominal stresses of a steel washer against its yield strength; `None` for rubber and where
/// the seal's file gives no yield strength.
///
/// The formula's 1/(1-nu²) holds for a wide plate; in a narrow ring the stress is less by it. It
/// conforms where even the corner I stays below the strength by the wide plate, and does not where
/// OM is above it by the narrow ring; what lies between, widened by two standard uncertainties of
/// the modulus, is not proven.
pub(crate) fn against_yield(seal: &Seal, deflection_mm: f64) -> Option<Finding> {
    let LoadRing::ConicalWasher(washer) = &seal.load_ring else { return None };
    let strength = washer.yield_strength.as_ref().filter(|_| seal.load_ring.is_steel())?;
    let fits = say!("load-at-most-yield-strength-seals-file", strength = strength.to_string());
    let spring = of_washer(seal).filter(|spring| deflection_mm <= spring.cone_height_mm);
    let Some(spring) = spring else {
        let found = say!("load-formula-en-16984-holds-for-section");
        return Some(Finding::new(of_yield(), Verdict::NotProven, found, fits));
    };
    let (om, corner) = (spring.stress_om_mpa(deflection_mm), spring.stress_i_mpa(deflection_mm));
    let least = om * (1.0 - spring.poisson * spring.poisson);
    let u = washer.modulus_standard_uncertainty.as_ref().zip(washer.modulus.as_ref());
    let apart = u.map_or(0.0, |(u, young)| 2.0 * u.value().si() / young.value().si());
    let yields = strength.value().si() / 1e6;
    let verdict = if corner.max(om) * (1.0 + apart) <= yields {
        Verdict::Conforms
    } else if least * (1.0 - apart) <= yields {
        Verdict::NotProven
    } else {
        Verdict::DoesNotConform
    };
    let found = say!(
        "load-mpa-at-om-up-mpa-at",
        least = fixed(least, 0),
        most = fixed(om, 0),
        corner = fixed(corner, 0),
        deflection = shown_mm(deflection_mm, seal)
    );
    let sources = SOURCES.iter().map(ToString::to_string).collect();
    Some(Finding::new(of_yield(), verdict, found, fits).with_sources(sources))
}

/// What [`against_yield`] compares.
fn of_yield() -> &'static str {
    say!("load-against-yield-strength")
}

/// A steel washer of four corners as a disc spring: the load acts at the innermost corner of the
/// ring's side and the outermost of the housing's.
fn of_washer(seal: &Seal) -> Option<DiscSpring> {
    let LoadRing::ConicalWasher(washer) = &seal.load_ring else { return None };
    if !seal.load_ring.is_steel() || washer.outline.len() != 4 {
        return None;
    }
    let corners: Vec<[f64; 2]> =
        washer.outline.iter().map(|[r, z]| [r.value().si() * 1e3, z.value().si() * 1e3]).collect();
    let radius =
        |pick: fn(f64, f64) -> f64, start| corners.iter().map(|corner| corner[0]).fold(start, pick);
    let (inner, outer) = (radius(f64::min, f64::INFINITY), radius(f64::max, 0.0));
    let tall = corners.iter().map(|corner| corner[1]).fold(0.0, f64::max);
    // Thickness of a parallelogram or turned rectangle: its area over its longer side.
    let sides: Vec<f64> = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(a, b)| libm::hypot(b[0] - a[0], b[1] - a[1]))
        .collect();
    let longest = sides.iter().copied().fold(0.0, f64::max);
    let area: f64 = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(a, b)| (a[0] * b[1] - b[0] * a[1]) / 2.0)
        .sum();
    let thickness = area / longest;
    Some(DiscSpring {
        outside_diameter_mm: 2.0 * outer,
        inside_diameter_mm: 2.0 * inner,
        thickness_mm: thickness,
        cone_height_mm: tall - thickness,
        young_mpa: washer.modulus.as_ref()?.value().si() / 1e6,
        poisson: STEEL_POISSON,
    })
}
