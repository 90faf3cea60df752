//! Quantities as people type them: `12 mm`, `12,5 mm`, `1/4 in`, `5 thou`, `-20 °F`.
//!
//! The only place that parses units. Conversion factors are exact ratios (the inch is 0.0254 m,
//! the pound 0.453 592 37 kg, standard gravity 9.806 65 m/s²: NIST SP 811, 2008 edition, appendix
//! B), so that `25.4 mm` and `1 in` are the same number.

mod given;
mod kinds;
mod number;
mod range;
mod show;

pub use given::Given;
pub use kinds::{
    Angle, AngularVelocity, Density, ExpansionCoefficient, Force, Fraction, Hardness,
    HardnessScale, HeatTransferCoefficient, LeakRate, Length, LineLoad, Mass, Pressure,
    SpecificHeat, Temperature, TemperatureDifference, ThermalConductivity, Time, Torque, Velocity,
    Volume,
};
pub use number::{UnitError, clip, last_digit};
pub use range::parse_range;
pub use show::{System, decimals_for, duration_text, fixed, force_text, length_text, significant};

use ringtrue_words::words;

/// A kind of quantity that can be read from text with its unit.
pub trait Quantity: Copy + PartialEq + std::fmt::Debug + 'static {
    /// What it is in English, with its article: `a length`.
    const KIND: &'static str;
    /// How one is written: `12 mm`.
    const EXAMPLE: &'static str;
    /// The units that are accepted, the usual one first.
    const UNITS: &'static [Unit];
    /// Smallest and largest value that any part, gauge or place of this trade can have, in SI.
    const PLAUSIBLE_SI: (f64, f64);

    /// What it is, in the language that is spoken.
    #[must_use]
    fn kind() -> String {
        words().of("quantity-", Self::KIND)
    }

    /// The quantity from its SI value (for [`Hardness`]: the number on its scale).
    fn from_unit(value: f64, unit: &'static Unit) -> Self;

    /// The value in SI (for [`Hardness`]: the number on its scale).
    fn si(self) -> f64;
}

/// One unit of a kind: `si = (value + offset) * numerator / denominator`.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// How ringtrue writes it.
    pub symbol: &'static str,
    /// How else people write it.
    pub aliases: &'static [&'static str],
    numerator: f64,
    denominator: f64,
    offset: f64,
}

impl Unit {
    /// A value in this unit as SI.
    #[must_use]
    pub fn to_si(&self, value: f64) -> f64 {
        (value + self.offset) * self.numerator / self.denominator
    }

    /// An SI value in this unit.
    #[must_use]
    pub fn of_si(&self, si: f64) -> f64 {
        si * self.denominator / self.numerator - self.offset
    }
}

/// Reads a quantity with its unit.
///
/// # Errors
/// [`UnitError`] says what was found and what would fit: no number, no unit, a unit of another
/// kind, an unknown unit (with the nearest known one), or a value that nothing here can have.
pub fn parse<Q: Quantity>(text: &str) -> Result<Q, UnitError> {
    number::parse_with_unit::<Q>(text)
}

/// Reads a number whose unit stands elsewhere, in the header of its column.
///
/// # Errors
/// As [`parse`]; a unit beside the number is accepted too, since the cell then says more than the
/// header, not less.
pub fn parse_in<Q: Quantity>(text: &str, unit: &'static Unit) -> Result<Q, UnitError> {
    number::parse_in_unit::<Q>(text, unit)
}

/// Reads a plain number as people type it: decimal point or comma, fraction, exponent.
///
/// # Errors
/// [`UnitError`] when there is no number, or it is not finite.
pub fn parse_number(text: &str) -> Result<f64, UnitError> {
    number::parse_bare(text)
}

/// A length in mm, the rounding of metres taken off again: nothing is known to a picometre, and
/// what was typed as `2.55 mm` is 2.55. Lengths up to 1 km.
#[must_use]
pub fn in_mm(length: Length) -> f64 {
    libm::round(length.si() * 1e12) / 1e9
}

/// The unit of `Q` that is written `symbol`, also in its aliases.
#[must_use]
pub fn unit_of<Q: Quantity>(symbol: &str) -> Option<&'static Unit> {
    number::find_unit(Q::UNITS, symbol)
}

#[cfg(test)]
mod tests;
