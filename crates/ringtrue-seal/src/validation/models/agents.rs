//! Vapour of cleaning agents.

use crate::agents::{
    Sourced, air_to_dilute, mg_per_m3, named, saturated, through_still_air, vapour_pressure,
    vapour_volume, ventilation,
};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// Pascals in a millimetre of mercury, the torr: 101 325/760.
const MMHG: f64 = 101_325.0 / 760.0;
/// A US liquid pint, m³, and a cubic foot, m³: exact.
const PINT: f64 = 473.176_473e-6;
const CUBIC_FOOT: f64 = 0.028_316_846_592;

/// mg/m³ at several concentrations in ppm.
pub(super) fn per_mass(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let mass = inputs.number("M")?;
    let list = inputs.numbers("ppm")?.into_iter().map(|ppm| mg_per_m3(ppm, mass)).collect();
    Ok(Quantities::default().list("mg_m3", list))
}

/// Vapour over a wet surface.
pub(super) fn over_liquid(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let percent = 100.0 * saturated(inputs.number("vp_mmHg")? * MMHG);
    Ok(Quantities::default()
        .one("conc_pct", percent)
        .one("times_LEL", percent / inputs.number("LEL_pct")?))
}

fn vapour(inputs: &Inputs<'_>, volume_key: &str) -> Result<f64, ValidationError> {
    let amount = inputs.number(volume_key)? * 1e-6;
    let density = inputs.number("rho_g_ml")? * 1e3;
    Ok(vapour_volume(amount, density, inputs.number("M")?, inputs.number("T_K")?))
}

/// A whole amount evaporated in a space.
pub(super) fn evaporated(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let share = vapour(inputs, "volume_ml")? / inputs.number("space_m3")?;
    Ok(Quantities::default()
        .one("ppm", share * 1e6)
        .one("fraction_LEL", share * 100.0 / inputs.number("LEL_pct")?))
}

/// Air to a share of the lower explosive limit.
pub(super) fn dilution_air(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let vapour = vapour(inputs, "volume_ml")?;
    let share = inputs.number("fraction")? * inputs.number("LEL_pct")? / 100.0;
    Ok(Quantities::default().one("vapour_m3", vapour).one("air_m3", air_to_dilute(vapour, share)))
}

/// Air a minute to an exposure limit.
pub(super) fn general_dilution(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let rate = vapour(inputs, "volume_ml_min")?;
    let air = ventilation(rate, inputs.number("K")?, inputs.number("ppm")? * 1e-6);
    Ok(Quantities::default().one("Q_m3_min", air))
}

/// Air a minute against explosion, in the source's own units: vapour at 70 degF.
pub(super) fn explosion(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let amount = inputs.number("ER_pint_min")? * PINT;
    let vapour =
        vapour_volume(amount, inputs.number("SG")? * 1e3, inputs.number("MW")?, 294.261_111);
    let factor = inputs.number("C")? / inputs.number("B")?;
    let air = ventilation(vapour, factor, inputs.number("LEL_pct")? / 100.0);
    Ok(Quantities::default().one("Q_cfm", air / CUBIC_FOOT))
}

/// Vapour that passes still air.
pub(super) fn still_air(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let pressures = (inputs.number("p_mmHg")? * MMHG, inputs.number("vp_mmHg")? * MMHG);
    let air = (inputs.number("D_cm2_s")? * 1e-4, inputs.number("T_K")?);
    let flux = through_still_air(air, pressures, inputs.number("way_cm")? * 1e-2);
    Ok(Quantities::default().one("mol_cm2_s", flux * 1e-4))
}

/// Vapour pressure between a figure and the boiling point.
pub(super) fn pressure_between(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let low = (inputs.number("low_K")?, inputs.number("low_pa")?);
    let boils = (inputs.number("boils_K")?, 101_325.0);
    Ok(Quantities::default().one("pa", vapour_pressure(inputs.number("at_K")?, low, boils)))
}

/// The figures that are shipped for an agent.
pub(super) fn shipped(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let name = inputs.text("name")?;
    let agent = named(name).ok_or_else(|| inputs.wrong(format!("no agent `{name}`")))?;
    let figures = [
        ("molar_mass", &agent.molar_mass_g_per_mol),
        ("flash_point_degc", &agent.flash_point_degc),
        ("boiling_point_degc", &agent.boiling_point_degc),
        ("vapour_pressure_pa", &agent.vapour_pressure_at_20_degc_pa),
        ("lower_explosive_limit_percent", &agent.lower_explosive_limit_percent),
        ("exposure_eight_hours_ppm", &agent.exposure_eight_hours_ppm),
        ("exposure_short_ppm", &agent.exposure_short_ppm),
        ("danger_to_life_ppm", &agent.danger_to_life_ppm),
    ];
    let value = |figure: &Option<Sourced>| figure.as_ref().map(|figure| figure.value);
    let known = figures.into_iter().filter_map(|(name, figure)| Some((name, value(figure)?)));
    Ok(known.fold(Quantities::default(), |all, (name, value)| all.one(name, value)))
}
