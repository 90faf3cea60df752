//! Values as their reader sees them: the chosen unit, rounded to what is known.

use ringtrue_metrology::units::{System, decimals_for, fixed};
use ringtrue_words::say;

/// Factor from a standard to an expanded uncertainty, about 95 % (JCGM 100:2008 6.2.1, G.6.6).
pub(crate) const COVERAGE_FACTOR: f64 = 2.0;

pub(crate) mod heat;
pub(crate) mod load;

/// The units that one report is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Reader {
    /// The system of units that was chosen.
    pub(crate) system: System,
    /// What its numbers are.
    quantity: Quantity,
}

/// What a reader's numbers are: lengths in mm, unless it was asked for loads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Quantity {
    /// mm.
    Length,
    /// N/mm; see [`Reader::line_loads`].
    LineLoad,
}

impl Reader {
    /// A reader of lengths.
    pub(crate) fn new(system: System) -> Self {
        Self { system, quantity: Quantity::Length }
    }

    /// Symbol of the unit.
    pub(crate) fn unit(self) -> &'static str {
        match self.quantity {
            Quantity::Length => self.system.length_symbol(),
            Quantity::LineLoad => self.system.line_load_symbol(),
        }
    }

    /// A length in mm as a number of the chosen unit.
    pub(crate) fn of_mm(self, mm: f64) -> f64 {
        match self.quantity {
            Quantity::Length => self.system.length_from_mm(mm),
            Quantity::LineLoad => self.system.line_load_from_n_per_mm(mm),
        }
    }

    /// Last digit of a workshop's reading, for values of which no uncertainty is known.
    pub(crate) fn workshop_decimals(self) -> usize {
        match (self.quantity, self.system) {
            (Quantity::Length, System::Inch) => 4,
            (Quantity::LineLoad, System::Inch) => 1,
            (Quantity::Length | Quantity::LineLoad, System::Millimetre) => 2,
        }
    }

    /// One digit finer than a workshop reads, where thousandths still say something.
    pub(crate) fn fine_decimals(self) -> usize {
        match self.system {
            System::Millimetre => 3,
            System::Inch => 4,
        }
    }

    /// Decimals that show a length with this standard uncertainty.
    pub(crate) fn decimals(self, standard_uncertainty_mm: Option<f64>) -> usize {
        decimals_for(standard_uncertainty_mm.map(|u| self.of_mm(u)), self.workshop_decimals())
    }

    /// A length without its unit: `0.42`.
    pub(crate) fn number(self, mm: f64, decimals: usize) -> String {
        fixed(self.of_mm(mm), decimals)
    }

    /// A length: `0.42 mm`.
    pub(crate) fn length(self, mm: f64, decimals: usize) -> String {
        format!("{} {}", self.number(mm, decimals), self.unit())
    }

    /// A length rounded as its uncertainty asks, without showing that: `0.42 mm`.
    pub(crate) fn known(self, mm: f64, standard_uncertainty_mm: Option<f64>) -> String {
        self.length(mm, self.decimals(standard_uncertainty_mm))
    }

    /// How far to move something: no finer than a workshop can.
    pub(crate) fn about(self, mm: f64) -> String {
        let decimals = match self.system {
            System::Millimetre => 2,
            System::Inch => 3,
        };
        self.length(mm, decimals)
    }

    /// A length with its expanded uncertainty: `0.42 ± 0.05 mm`, or with the reason why not.
    pub(crate) fn uncertain(self, mm: f64, standard_uncertainty_mm: Option<f64>) -> String {
        let decimals = self.decimals(standard_uncertainty_mm);
        match standard_uncertainty_mm {
            Some(u) => format!(
                "{} ± {} {}",
                self.number(mm, decimals),
                self.number(u * COVERAGE_FACTOR, decimals),
                self.unit()
            ),
            None => say!("report-u-not-known", value = self.length(mm, decimals)),
        }
    }

    /// A number that is exact by definition, with the decimals that it needs and no fewer than
    /// `least`: `1.00`.
    pub(crate) fn exact_number(self, mm: f64, least: usize) -> String {
        let value = self.of_mm(mm);
        let most = least.max(self.fine_decimals());
        let needed = (0..=most).find(|places| {
            let shown = fixed(value, *places).replace('\u{2212}', "-");
            shown.parse::<f64>().is_ok_and(|shown| (shown - value).abs() < 1e-9)
        });
        fixed(value, needed.unwrap_or(most).max(least))
    }

    /// The same with its unit: `1.00 mm`.
    pub(crate) fn exact(self, mm: f64, least: usize) -> String {
        format!("{} {}", self.exact_number(mm, least), self.unit())
    }

    /// Limits in words: `at most 1.00 mm`, `2.00 to 3.20 mm`.
    pub(crate) fn limits(self, min: Option<f64>, max: Option<f64>, least: usize) -> Option<String> {
        match (min, max) {
            (None, None) => None,
            (Some(min), None) => Some(say!("report-at-least", limit = self.exact(min, least))),
            (None, Some(max)) => Some(say!("report-at-most", limit = self.exact(max, least))),
            (Some(min), Some(max)) => Some(say!(
                "report-range",
                from = self.exact_number(min, least),
                to = self.exact(max, least)
            )),
        }
    }
}

/// A share as per cent, with the digits that tell it from 0 and from all.
pub(crate) fn percent(fraction: f64) -> String {
    let value = fraction * 100.0;
    if !value.is_finite() {
        return say!("report-not-known").to_owned();
    }
    if value <= 0.0 {
        "0 %".to_owned()
    } else if value >= 100.0 {
        "100 %".to_owned()
    } else if value < 0.0001 {
        say!("report-under", percent = "0.0001 %")
    } else if value > 99.99 {
        say!("report-over", percent = "99.99 %")
    } else if value < 0.1 {
        format!("{} %", fixed(value, 4).trim_end_matches('0'))
    } else if !(1.0..=99.0).contains(&value) {
        format!("{} %", fixed(value, 2))
    } else {
        format!("{} %", fixed(value, 1))
    }
}

/// A probability: never quite 0 or 1, however it was rounded.
pub(crate) fn probability(value: f64) -> String {
    if value > 0.9999 {
        say!("report-over", percent = "99.99 %")
    } else if value < 0.0001 {
        say!("report-under", percent = "0.01 %")
    } else {
        percent(value)
    }
}

/// A direction round the ring in whole degrees or, where known better, tenths: `143°`.
pub(crate) fn degrees(value: f64) -> String {
    let tenths = (value * 10.0).round() / 10.0;
    let decimals = usize::from((tenths - tenths.round()).abs() > 1e-9);
    format!("{}°", fixed(tenths, decimals))
}

/// A fitted direction: `143° ± 6°`, rounded to whole degrees.
pub(crate) fn direction(value: f64, standard_uncertainty: Option<f64>) -> String {
    let rounded = fixed(value.rem_euclid(360.0).round() % 360.0, 0);
    match standard_uncertainty {
        Some(u) => format!("{rounded}° ± {}°", fixed((u * COVERAGE_FACTOR).max(1.0), 0)),
        None => format!("{rounded}°"),
    }
}

/// A whole number with thin spaces between the thousands: `1 000 000`.
pub(crate) fn count(value: u64) -> String {
    let digits = value.to_string();
    let mut out = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push('\u{2009}');
        }
        out.push(digit);
    }
    out
}
