//! How much vapour, in how much air.

use crate::constants::{ATMOSPHERE, GAS};

/// Molar volume at which exposure limits turn from ppm to mg/m³, l/mol: 25 degC and 101.325 kPa.
const LIMIT_MOLAR_VOLUME: f64 = 24.45;

/// Vapour that a liquid makes when all of it evaporates, m³ at a temperature and 101.325 kPa.
///
/// `amount` m³ of liquid, `density` kg/m³, `molar_mass` g/mol. Ideal gas.
pub(crate) fn vapour_volume(amount: f64, density: f64, molar_mass: f64, kelvin: f64) -> f64 {
    amount * density / (molar_mass * 1e-3) * GAS * kelvin / ATMOSPHERE
}

/// Air that thins a vapour to a share by volume, m³: the vapour's own volume is part of the
/// mixture.
pub(crate) fn air_to_dilute(vapour: f64, share: f64) -> f64 {
    vapour / share - vapour
}

/// Air that must pass to hold a share by volume while vapour comes at a rate, in the rate's unit:
/// `Q = G K/C`, with K for air that mixes badly. ACGIH, Industrial Ventilation, general dilution.
pub(crate) fn ventilation(vapour_rate: f64, mixing: f64, share: f64) -> f64 {
    vapour_rate * mixing / share
}

/// Mean over a time of a concentration that starts at 1 and is thinned by air changes, both in
/// hours:
/// `(1 − exp(−n t))/(n t)`.
pub(crate) fn mean_left(air_changes: f64, hours: f64) -> f64 {
    let exponent = air_changes * hours;
    if exponent < 1e-9 { 1.0 } else { -libm::expm1(-exponent) / exponent }
}

/// A concentration in ppm as mg/m³, at the 25 degC of exposure limits.
pub(crate) fn mg_per_m3(ppm: f64, molar_mass: f64) -> f64 {
    ppm * molar_mass / LIMIT_MOLAR_VOLUME
}

/// A concentration in mg/m³ as ppm, at the 25 degC of exposure limits.
pub(crate) fn ppm(mg_per_m3: f64, molar_mass: f64) -> f64 {
    mg_per_m3 * LIMIT_MOLAR_VOLUME / molar_mass
}

/// Share by volume of the vapour in air that stands over the liquid.
pub(crate) fn saturated(vapour_pressure: f64) -> f64 {
    vapour_pressure / ATMOSPHERE
}
