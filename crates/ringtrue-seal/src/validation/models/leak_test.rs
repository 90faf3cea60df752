//! Leak rates, their units, and stored energy.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{LeakRate, Pressure, Quantity, parse};
use uom::si::f64::{TemperatureInterval, ThermodynamicTemperature, Time, Volume};
use uom::si::pressure::pascal;
use uom::si::temperature_interval::kelvin as kelvin_apart;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second;
use uom::si::volume::cubic_meter;

use crate::leak_test::{
    Gauge, Input, PressureChange, Pressures, Reading, counted, evaluate, molar, stored_energy,
};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// Readings taken between the two of a source, p/T on a straight line, through the door of the
/// room. The source's throughput is at the first temperature, the room's at the mean one.
pub(super) fn two_readings(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    const BETWEEN: usize = 8;
    let [p1, p2, t1, t2, time] =
        ["p1_abs_Pa", "p2_abs_Pa", "T1_K", "T2_K", "dt_s"].map(|key| inputs.number(key));
    let (p1, p2, t1, t2, time) = (p1?, p2?, t1?, t2?, time?);
    let readings = (0..=BETWEEN).map(|index| {
        let share = index as f64 / BETWEEN as f64;
        let warm = t1 + share * (t2 - t1);
        Reading {
            time: Time::new::<second>(share * time),
            pressure: Pressure::new::<pascal>(warm * (p1 / t1 + share * (p2 / t2 - p1 / t1))),
            temperature: ThermodynamicTemperature::new::<kelvin>(warm),
        }
    });
    let outcome = evaluate(&Input::PressureChange(Box::new(PressureChange {
        readings: readings.collect(),
        pressures: Pressures::Absolute,
        atmosphere: None,
        volume: Volume::new::<cubic_meter>(inputs.number("V_m3")?),
        volume_standard_uncertainty: Volume::new::<cubic_meter>(0.0),
        limit: parse::<LeakRate>("1 Pa m3/s").map_err(|error| inputs.refused(error))?,
        gauge: Gauge {
            pressure_written: Pressure::new::<pascal>(1.0),
            pressure_resolution: None,
            temperature_written: TemperatureInterval::new::<kelvin_apart>(0.01),
            temperature_resolution: None,
            temperature_standard_uncertainty: None,
        },
        give: None,
        pressure_limit: None,
        levels: Levels::DEFAULT,
    })))
    .map_err(|error| inputs.refused(error))?;
    let missing = || inputs.refused("the room gave no rate");
    let rate = outcome.leak_rate_pa_m3_per_s.ok_or_else(missing)?;
    let reference = outcome.reference_temperature_degc.ok_or_else(missing)? + 273.15;
    let at_first = rate * t1 / reference;
    Ok(Quantities::default()
        .one("q_Pa_m3_s", at_first)
        .one("q_mbar_l_s", 10.0 * at_first)
        .one("q_sccm_0C", outcome.leak_rate_sccm_0_degc.ok_or_else(missing)?)
        .one("n_mol_s", outcome.leak_rate_mol_per_s.ok_or_else(missing)?))
}

/// One throughput in other units: what a typed rate of each unit is, turned round.
pub(super) fn units(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let rate = inputs.number("q_Pa_m3_s")?;
    let per = |symbol: &str| {
        let one = parse::<LeakRate>(&format!("1 {symbol}"));
        one.map(|one| rate / one.si()).map_err(|error| inputs.refused(error))
    };
    Ok(Quantities::default()
        .one("mbar_l_s", per("mbar l/s")?)
        .one("atm_cm3_s", per("atm cm3/s")?)
        .one("torr_l_s", per("torr l/s")?)
        .one("sccm_0C_101325", counted(rate, 273.15, 273.15))
        .one("mol_s_at_0C", molar(rate, 273.15))
        .one("mol_s_at_20C", molar(rate, 293.15)))
}

/// Energy of the compressed gas.
pub(super) fn energy(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let [pressure, volume, atmosphere] =
        ["p_test_abs_Pa", "V_m3", "p_atm_Pa"].map(|key| inputs.number(key));
    Ok(Quantities::default().one("E_J", stored_energy(pressure?, volume?, atmosphere?)))
}
