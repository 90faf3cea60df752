//! The kinds of quantity and their unit tables.

use super::{Quantity, Unit};

pub use uom::si::f64::{
    Angle, AngularVelocity, Force, Length, Mass, Pressure,
    TemperatureCoefficient as ExpansionCoefficient, ThermodynamicTemperature as Temperature, Time,
    Torque, Velocity, Volume,
};
pub use uom::si::f64::{
    HeatTransfer as HeatTransferCoefficient, MassDensity as Density,
    SpecificHeatCapacity as SpecificHeat, TemperatureInterval as TemperatureDifference,
    ThermalConductivity,
};

/// Force per length of circumference.
pub type LineLoad = uom::si::f64::SurfaceTension;

/// A share of one: a stretch, a probability, a humidity.
pub type Fraction = uom::si::f64::Ratio;

/// A hardness number and the scale it was read on. Scales do not convert exactly, so they are kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hardness {
    /// The number on the scale.
    pub value: f64,
    /// The scale.
    pub scale: HardnessScale,
}

/// Hardness scales met on rubber and on seal rings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HardnessScale {
    /// Durometer type A, ISO 48-4.
    ShoreA,
    /// International rubber hardness degrees, ISO 48-2.
    Irhd,
    /// Rockwell C, ISO 6508-1.
    RockwellC,
    /// Brinell, ISO 6506-1.
    Brinell,
    /// Vickers, ISO 6507-1.
    Vickers,
}

/// A flow of gas, as leak tests state it: a throughput in Pa m³/s, or standard volumes a minute.
///
/// A throughput is stated at the temperature of the gas; a standard volume is an amount of gas, so
/// it keeps the temperature that it is counted at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeakRate {
    throughput: f64,
    counted_at: Option<f64>,
}

impl LeakRate {
    /// The throughput in Pa m³/s of this flow where the gas has the temperature `kelvin`.
    #[must_use]
    pub fn throughput_at(self, kelvin: f64) -> f64 {
        self.counted_at.map_or(self.throughput, |counted| self.throughput * kelvin / counted)
    }
}

const fn unit(symbol: &'static str, aliases: &'static [&'static str], ratio: (f64, f64)) -> Unit {
    Unit { symbol, aliases, numerator: ratio.0, denominator: ratio.1, offset: 0.0 }
}

const fn degree(
    symbol: &'static str,
    aliases: &'static [&'static str],
    (numerator, denominator): (f64, f64),
    offset: f64,
) -> Unit {
    Unit { symbol, aliases, numerator, denominator, offset }
}

/// Implements [`Quantity`] for a uom type with the base unit `$base`.
macro_rules! quantity {
    (
        $type:ty, $base:path, $kind:literal, $example:literal, $range:expr,
        [$($unit:expr),+ $(,)?]
    ) => {
        impl Quantity for $type {
            const KIND: &'static str = $kind;
            const EXAMPLE: &'static str = $example;
            const UNITS: &'static [Unit] = &[$($unit),+];
            const PLAUSIBLE_SI: (f64, f64) = $range;

            fn from_unit(value: f64, unit: &'static Unit) -> Self {
                Self::new::<$base>(unit.to_si(value))
            }

            fn si(self) -> f64 {
                self.value
            }
        }
    };
}

const PI: f64 = std::f64::consts::PI;
/// One pound-force in newton times 1e13: 0.453 592 37 kg × 9.806 65 m/s², exact.
const LBF: (f64, f64) = (44_482_216_152_605.0, 1e13);

quantity!(
    Length,
    uom::si::length::meter,
    "a length",
    "12 mm",
    (-100.0, 100.0),
    [
        unit("mm", &["millimetre", "millimetres", "millimeter", "millimeters"], (1.0, 1e3)),
        unit("um", &["micron", "microns", "micrometre", "micrometer"], (1.0, 1e6)),
        unit("nm", &["nanometre", "nanometer"], (1.0, 1e9)),
        unit("cm", &["centimetre", "centimeter"], (1.0, 1e2)),
        unit("m", &["metre", "meter"], (1.0, 1.0)),
        unit("in", &["inch", "inches", "\"", "″", "''"], (254.0, 1e4)),
        unit("thou", &["mil", "mils", "thous"], (254.0, 1e7)),
        unit("uin", &["microinch", "microinches"], (254.0, 1e10)),
        unit("ft", &["foot", "feet"], (3048.0, 1e4)),
    ]
);
quantity!(
    Angle,
    uom::si::angle::radian,
    "an angle",
    "15 deg",
    (-100.0 * PI, 100.0 * PI),
    [
        unit("deg", &["degree", "degrees"], (PI, 180.0)),
        unit("rad", &["radian", "radians"], (1.0, 1.0)),
        unit("mrad", &["milliradian", "milliradians"], (1.0, 1e3)),
        unit("arcmin", &["'"], (PI, 10_800.0)),
    ]
);
quantity!(
    Temperature,
    uom::si::thermodynamic_temperature::kelvin,
    "a temperature",
    "-20 degC",
    (0.0, 3000.0),
    [
        degree("degC", &["C", "celsius", "deg C"], (1.0, 1.0), 273.15),
        degree("degF", &["F", "fahrenheit", "deg F"], (5.0, 9.0), 459.67),
        unit("K", &["kelvin"], (1.0, 1.0)),
    ]
);
quantity!(
    Pressure,
    uom::si::pressure::pascal,
    "a pressure",
    "3.6 MPa",
    (-1e12, 1e12),
    [
        unit("MPa", &["N/mm2", "N/mm^2"], (1e6, 1.0)),
        unit("kPa", &[], (1e3, 1.0)),
        unit("Pa", &["pascal"], (1.0, 1.0)),
        unit("GPa", &[], (1e9, 1.0)),
        unit("bar", &["bars"], (1e5, 1.0)),
        unit("mbar", &["millibar", "hPa"], (1e2, 1.0)),
        unit("psi", &["lbf/in2", "lbf/in^2"], (44_482_216_152_605.0, 6_451_600_000.0)),
        unit("ksi", &[], (44_482_216_152_605.0, 6_451_600.0)),
    ]
);
quantity!(
    LineLoad,
    uom::si::surface_tension::newton_per_meter,
    "a force per length",
    "2.5 N/mm",
    (-1e9, 1e9),
    [
        unit("N/mm", &["kN/m"], (1e3, 1.0)),
        unit("N/m", &[], (1.0, 1.0)),
        unit("lbf/in", &["lb/in"], (LBF.0, LBF.1 * 0.0254)),
    ]
);
quantity!(
    Force,
    uom::si::force::newton,
    "a force",
    "200 N",
    (-1e9, 1e9),
    [
        unit("N", &["newton", "newtons"], (1.0, 1.0)),
        unit("kN", &[], (1e3, 1.0)),
        unit("lbf", &[], (LBF.0, LBF.1)),
    ]
);
quantity!(
    Mass,
    uom::si::mass::kilogram,
    "a mass",
    "1.9 kg",
    (0.0, 1e6),
    [
        unit("kg", &["kilogram", "kilograms"], (1.0, 1.0)),
        unit("g", &["gram", "grams"], (1.0, 1e3)),
        unit("lb", &["lbs", "lbm", "pound", "pounds"], (45_359_237.0, 1e8)),
        unit("oz", &["ounce", "ounces"], (45_359_237.0, 16e8)),
    ]
);
quantity!(
    Velocity,
    uom::si::velocity::meter_per_second,
    "a speed",
    "1.5 m/s",
    (-1e4, 1e4),
    [
        unit("m/s", &[], (1.0, 1.0)),
        unit("mm/s", &[], (1.0, 1e3)),
        unit("m/min", &[], (1.0, 60.0)),
        unit("ft/s", &["fps"], (3048.0, 1e4)),
        unit("ft/min", &["fpm"], (3048.0, 60e4)),
        unit("in/s", &[], (254.0, 1e4)),
    ]
);
quantity!(
    AngularVelocity,
    uom::si::angular_velocity::radian_per_second,
    "a speed of rotation",
    "40 rpm",
    (-1e5, 1e5),
    [
        unit("rpm", &["r/min", "rev/min", "1/min", "min-1"], (PI, 30.0)),
        unit("rad/s", &[], (1.0, 1.0)),
        unit("rps", &["r/s", "rev/s"], (2.0 * PI, 1.0)),
    ]
);
quantity!(
    ExpansionCoefficient,
    uom::si::temperature_coefficient::per_kelvin,
    "a thermal expansion",
    "185e-6 1/K",
    (-1.0, 1.0),
    [
        unit("1/K", &["/K", "K-1", "1/degC", "/degC"], (1.0, 1.0)),
        unit("um/m/K", &["um/(m K)", "ppm/K"], (1.0, 1e6)),
        unit("1/degF", &["/degF", "in/in/degF"], (9.0, 5.0)),
    ]
);
quantity!(
    Fraction,
    uom::si::ratio::ratio,
    "a share",
    "3 %",
    (-1e6, 1e6),
    [unit("%", &["percent", "per cent"], (1.0, 1e2)),]
);
quantity!(
    Time,
    uom::si::time::second,
    "a time",
    "30 min",
    (-1e10, 1e10),
    [
        unit("s", &["sec", "second", "seconds"], (1.0, 1.0)),
        unit("min", &["minute", "minutes"], (60.0, 1.0)),
        unit("h", &["hr", "hrs", "hour", "hours"], (3600.0, 1.0)),
        unit("d", &["day", "days"], (86_400.0, 1.0)),
    ]
);
quantity!(
    Volume,
    uom::si::volume::cubic_meter,
    "a volume",
    "4.5 l",
    (0.0, 1e6),
    [
        unit("l", &["litre", "litres", "liter", "liters", "dm3"], (1.0, 1e3)),
        unit("ml", &["cm3", "cc", "millilitre", "milliliter"], (1.0, 1e6)),
        unit("m3", &[], (1.0, 1.0)),
        // 231 cubic inches and a quarter of that; the imperial gallon is 4.546 09 l: exact.
        unit("US gal", &["gal (US)"], (3_785_411_784.0, 1e12)),
        unit("US qt", &["qt (US)"], (946_352_946.0, 1e12)),
        unit("imp gal", &["gal (UK)"], (454_609.0, 1e8)),
        unit("in3", &["cu in"], (16_387_064.0, 1e12)),
        unit("ft3", &["cu ft"], (28_316_846_592.0, 1e12)),
    ]
);
quantity!(
    Torque,
    uom::si::torque::newton_meter,
    "a torque",
    "120 N m",
    (-1e8, 1e8),
    [
        unit("N m", &["Nm", "N.m"], (1.0, 1.0)),
        unit("kN m", &["kNm"], (1e3, 1.0)),
        unit("lbf ft", &["ft lbf", "lb ft", "ft lb", "ft-lb", "lb-ft"], (LBF.0 * 0.3048, LBF.1)),
        unit("lbf in", &["in lbf", "lb in", "in lb", "in-lb", "lb-in"], (LBF.0 * 0.0254, LBF.1)),
    ]
);
quantity!(
    TemperatureDifference,
    uom::si::temperature_interval::kelvin,
    "a temperature difference",
    "0.2 K",
    (-3000.0, 3000.0),
    [
        unit("K", &["kelvin", "degC", "C"], (1.0, 1.0)),
        unit("degF", &["F", "R"], (5.0, 9.0)),
        unit("mK", &[], (1.0, 1e3)),
    ]
);
quantity!(
    HeatTransferCoefficient,
    uom::si::heat_transfer::watt_per_square_meter_kelvin,
    "a heat transfer coefficient",
    "10 W/(m2 K)",
    (0.0, 1e6),
    [unit("W/(m2 K)", &["W/m2K", "W/m2/K", "W/(m2K)", "W/m^2K", "W/(m^2 K)"], (1.0, 1.0))]
);
quantity!(
    ThermalConductivity,
    uom::si::thermal_conductivity::watt_per_meter_kelvin,
    "a thermal conductivity",
    "0.23 W/(m K)",
    (0.0, 1e5),
    [unit("W/(m K)", &["W/mK", "W/m/K", "W/(mK)"], (1.0, 1.0))]
);
quantity!(
    SpecificHeat,
    uom::si::specific_heat_capacity::joule_per_kilogram_kelvin,
    "a specific heat",
    "1300 J/(kg K)",
    (0.0, 1e5),
    [
        unit("J/(kg K)", &["J/kgK", "J/kg/K", "J/(kgK)"], (1.0, 1.0)),
        unit("kJ/(kg K)", &["kJ/kgK", "J/(g K)", "J/gK"], (1e3, 1.0)),
    ]
);
quantity!(
    Density,
    uom::si::mass_density::kilogram_per_cubic_meter,
    "a density",
    "1150 kg/m3",
    (0.0, 1e5),
    [
        unit("kg/m3", &["kg/m^3", "g/l"], (1.0, 1.0)),
        unit("g/cm3", &["g/cm^3", "g/ml", "kg/l"], (1e3, 1.0)),
    ]
);

impl Quantity for LeakRate {
    const KIND: &'static str = "a leak rate";
    const EXAMPLE: &'static str = "0.001 Pa m3/s";
    // A standard cubic centimetre is counted at 101 325 Pa; the temperature is part of the unit.
    const UNITS: &'static [Unit] = &[
        unit("Pa m3/s", &["Pa*m3/s", "Pa.m3/s", "Pa m^3/s", "Pam3/s"], (1.0, 1.0)),
        unit("mbar l/s", &["mbar*l/s", "mbar.l/s", "mbarl/s"], (1.0, 10.0)),
        unit("sccm", &["sccm (0 degC)", "scc/min"], (101_325.0, 60e6)),
        unit("sccm (20 degC)", &["sccm20"], (101_325.0, 60e6)),
        unit("atm cm3/s", &["atm cc/s", "std cm3/s", "std cc/s"], (101_325.0, 1e6)),
        unit("torr l/s", &["Torr l/s", "torr*l/s"], (101_325.0, 760e3)),
    ];
    const PLAUSIBLE_SI: (f64, f64) = (0.0, 1e6);

    fn from_unit(value: f64, unit: &'static Unit) -> Self {
        let counted_at = match unit.symbol {
            "sccm" => Some(273.15),
            "sccm (20 degC)" => Some(293.15),
            _ => None,
        };
        Self { throughput: unit.to_si(value), counted_at }
    }

    fn si(self) -> f64 {
        self.throughput
    }
}

impl Quantity for Hardness {
    const KIND: &'static str = "a hardness";
    const EXAMPLE: &'static str = "60 Shore A";
    const UNITS: &'static [Unit] = &[
        unit("Shore A", &["ShA", "durometer A", "Duro A"], (1.0, 1.0)),
        unit("IRHD", &[], (1.0, 1.0)),
        unit("HRC", &["Rockwell C"], (1.0, 1.0)),
        unit("HB", &["HBW", "Brinell"], (1.0, 1.0)),
        unit("HV", &["Vickers"], (1.0, 1.0)),
    ];
    const PLAUSIBLE_SI: (f64, f64) = (0.0, 5000.0);

    fn from_unit(value: f64, unit: &'static Unit) -> Self {
        let scale = match unit.symbol {
            "Shore A" => HardnessScale::ShoreA,
            "IRHD" => HardnessScale::Irhd,
            "HRC" => HardnessScale::RockwellC,
            "HB" => HardnessScale::Brinell,
            "HV" => HardnessScale::Vickers,
            other => unreachable!("`{other}` is not in the table of hardness scales"),
        };
        Self { value, scale }
    }

    fn si(self) -> f64 {
        self.value
    }
}
