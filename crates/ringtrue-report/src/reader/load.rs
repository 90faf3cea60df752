//! Loads, forces and pressures as their reader sees them.

use ringtrue_metrology::units::{decimals_for, fixed, force_text};

use super::{Quantity, Reader};

impl Reader {
    /// The same reader for loads per length: what its methods take in mm is then N/mm.
    pub(crate) fn line_loads(self) -> Self {
        Self { quantity: Quantity::LineLoad, ..self }
    }

    /// A force in N, to three digits.
    pub(crate) fn force(self, newton: f64) -> String {
        force_text(newton, None, self.system)
    }

    /// A force in N, rounded as its standard uncertainty asks; to three digits where none is known.
    pub(crate) fn known_force(self, newton: f64, standard_uncertainty_n: Option<f64>) -> String {
        force_text(newton, standard_uncertainty_n, self.system)
    }

    /// A pressure in MPa, to three digits; where forces are read in lbf and lengths in inches, in
    /// psi.
    pub(crate) fn pressure(self, mpa: f64) -> String {
        format!("{} {}", digits(self.of_mpa(mpa)), self.pressure_unit())
    }

    /// A pressure in MPa as a number of the chosen unit, to three digits.
    pub(crate) fn pressure_number(self, mpa: f64) -> String {
        digits(self.of_mpa(mpa))
    }

    /// Symbol of the unit of pressure.
    pub(crate) fn pressure_unit(self) -> &'static str {
        match self.system {
            super::System::Millimetre => "MPa",
            super::System::Inch => "psi",
        }
    }

    /// 1 MPa is 1 N/mm², and 1 psi is 1 lbf/in².
    fn of_mpa(self, mpa: f64) -> f64 {
        let length = self.system.length_from_mm(1.0);
        mpa * self.system.force_from_n(1.0) / (length * length)
    }
}

/// A number to three digits, whole numbers as they are.
fn digits(value: f64) -> String {
    // Three digits of the value are two of its tenth.
    fixed(value, decimals_for(Some(value.abs() / 10.0), 0))
}

/// An angle in whole degrees: `31°`.
pub(crate) fn whole_degrees(value: f64) -> String {
    format!("{}°", fixed(value, 0))
}

#[cfg(test)]
mod tests {
    use ringtrue_metrology::units::System;

    use super::*;

    #[test]
    fn loads_are_read_in_the_chosen_units() {
        let (mm, inch) = (Reader::new(System::Millimetre), Reader::new(System::Inch));
        // 1 N/mm is 5.710 lbf/in, 1 MPa is 145.04 psi, 1 N is 0.22481 lbf (from their definitions).
        assert_eq!(mm.line_loads().uncertain(2.5, Some(0.125)), "2.50 ± 0.25 N/mm");
        assert_eq!(inch.line_loads().uncertain(2.5, Some(0.2)), "14.3 ± 2.3 lbf/in");
        assert_eq!(inch.pressure(1.0), "145 psi");
        assert_eq!(mm.pressure(0.123_4), "0.123 MPa");
        assert_eq!(inch.force(1000.0), "225 lbf");
        assert_eq!(mm.force(2781.4), "2781 N");
        assert_eq!(mm.force(0.0), "0 N");
        // Decimals follow the uncertainty, however small the force is.
        let small = |reader: Reader| [1.23456, 0.0789].map(|n| reader.known_force(n, Some(0.0789)));
        assert_eq!(small(mm), ["1.235 N", "0.079 N"]);
        assert_eq!(small(inch), ["0.278 lbf", "0.018 lbf"]);
        assert_eq!(mm.known_force(912.3, Some(140.0)), "912 N");
        assert_eq!(inch.known_force(200.0, None), inch.force(200.0));
    }
}
