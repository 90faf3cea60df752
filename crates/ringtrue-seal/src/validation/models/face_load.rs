//! Face load: the disc-spring formula, the modulus from hardness, and a half between two ramps.

use ringtrue_metrology::units::{Hardness, HardnessScale};

use crate::face_load::disc_spring::DiscSpring;
use crate::face_load::{HalfProblem, SectionOf};
use crate::rubber;
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// Force, nominal stresses and constant of a disc spring.
pub(super) fn disc_spring(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let thickness = inputs.number("thickness_mm")?;
    let spring = DiscSpring {
        outside_diameter_mm: inputs.number("outside_diameter_mm")?,
        inside_diameter_mm: inputs.number("inside_diameter_mm")?,
        thickness_mm: thickness,
        cone_height_mm: inputs.number("free_height_mm")? - thickness,
        young_mpa: inputs.number("young_mpa")?,
        poisson: inputs.number("poisson")?,
    };
    let share = inputs.number("deflection_share_of_cone")?;
    let deflection = share * spring.cone_height_mm;
    Ok(Quantities::default()
        .one("force_n", spring.force_n(deflection))
        .one("stress_om_mpa", spring.stress_om_mpa(deflection))
        .one("stress_i_mpa", spring.stress_i_mpa(deflection))
        .one("k1", spring.k1()))
}

/// Young's modulus from hardness by each relation, and with its uncertainty.
pub(super) fn modulus(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let value = inputs.number("hardness")?;
    let hardness = Hardness { value, scale: HardnessScale::ShoreA };
    let modulus = rubber::modulus_from_hardness(hardness).map_err(|why| inputs.refused(why))?;
    Ok(Quantities::default()
        .one("gent_mpa", rubber::gent(value))
        .one("log_linear_mpa", rubber::log_linear(value))
        .one("irhd_mpa", rubber::from_irhd(value))
        .one("young_mpa", modulus.young_mpa))
}

/// A mounted toric between two ramps, solved: force per mm at the section's mean radius for a shear
/// modulus of 1 MPa, and roll.
pub(super) fn two_ramps(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let mean_radius_mm = inputs.number("mean_radius_mm")?;
    let curve = HalfProblem {
        section: SectionOf::Toric {
            section_mm: inputs.number("section_mm")?,
            mean_radius_mm,
            hoop_stretch: 1.0,
            ring_ramp_deg: inputs.number("ring_ramp_deg")?,
            housing_ramp_deg: inputs.number("housing_ramp_deg")?,
        },
        rubber: None,
        friction: inputs.optional_number("friction")?,
        travel_mm: inputs.number("travel_mm")?,
        steps: inputs.count("steps")? as usize,
    }
    .solve()
    .map_err(|why| inputs.refused(why))?;
    let around = 2.0 * std::f64::consts::PI * mean_radius_mm;
    // The curve is per MPa of Young's modulus, three times the shear modulus.
    let force = curve.points.iter().skip(1).map(|p| 3.0 * p.force_n / around).collect();
    let roll = curve.points.iter().skip(1).map(|p| p.roll_deg).collect();
    Ok(Quantities::default().list("force_n_per_mm", force).list("roll_deg", roll))
}
