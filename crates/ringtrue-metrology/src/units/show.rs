//! Quantities as text, rounded to what is known.

use super::{Length, Quantity};

/// The units a person chose to read lengths and forces in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum System {
    /// mm, degC, N.
    #[default]
    Millimetre,
    /// in, degF, lbf.
    Inch,
}

impl System {
    /// The symbol of this system's length.
    #[must_use]
    pub fn length_symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
        }
    }

    /// A length in mm as a number in this system's unit.
    #[must_use]
    pub fn length_from_mm(self, mm: f64) -> f64 {
        match self {
            Self::Millimetre => mm,
            Self::Inch => mm / 25.4,
        }
    }

    /// The symbol of this system's force.
    #[must_use]
    pub fn force_symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "N",
            Self::Inch => "lbf",
        }
    }

    /// A force in N as a number in this system's unit.
    #[must_use]
    pub fn force_from_n(self, newton: f64) -> f64 {
        match self {
            Self::Millimetre => newton,
            Self::Inch => newton / NEWTON_PER_LBF,
        }
    }

    /// The symbol of this system's force per length.
    #[must_use]
    pub fn line_load_symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "N/mm",
            Self::Inch => "lbf/in",
        }
    }

    /// A force per length in N/mm as a number in this system's unit.
    #[must_use]
    pub fn line_load_from_n_per_mm(self, n_per_mm: f64) -> f64 {
        match self {
            Self::Millimetre => n_per_mm,
            Self::Inch => n_per_mm * 25.4 / NEWTON_PER_LBF,
        }
    }
}

/// One pound-force: 0.453 592 37 kg times 9.806 65 m/s², exact.
const NEWTON_PER_LBF: f64 = 4.448_221_615_260_5;

/// Decimal places that show a value with a standard uncertainty `u` of the same unit: two
/// significant digits of `u` (JCGM 100:2008 7.2.6). `None`, zero or a non-finite `u` gives
/// `otherwise`; never more than 9.
#[must_use]
pub fn decimals_for(u: Option<f64>, otherwise: usize) -> usize {
    match u {
        Some(u) if u.is_finite() && u > 0.0 => {
            // The smallest number of places at which `u` keeps two significant digits.
            (0..=9).find(|places| u * libm::pow(10.0, f64::from(*places)) >= 9.95).unwrap_or(9)
                as usize
        }
        _ => otherwise,
    }
}

/// A number with a fixed number of decimals and a true minus sign; a value that rounds to zero has
/// no sign.
#[must_use]
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|b| matches!(b, b'0' | b'.')) => digits.to_owned(),
        Some(digits) => format!("\u{2212}{digits}"),
        None => text,
    }
}

/// A length in the chosen system, rounded to its uncertainty or to a workshop's last digit
/// (0.01 mm, 0.001 in), with its unit.
#[must_use]
pub fn length_text(length: Length, standard_uncertainty: Option<Length>, system: System) -> String {
    let in_system = |length: Length| system.length_from_mm(length.si() * 1e3);
    let workshop = match system {
        System::Millimetre => 2,
        System::Inch => 3,
    };
    let decimals = decimals_for(standard_uncertainty.map(in_system), workshop);
    format!("{} {}", fixed(in_system(length), decimals), system.length_symbol())
}

/// A force in N in the chosen system with its unit, rounded to its standard uncertainty, N; to
/// three digits where that is not known, whole numbers as they are.
#[must_use]
pub fn force_text(newton: f64, standard_uncertainty_n: Option<f64>, system: System) -> String {
    let shown = system.force_from_n(newton);
    let known = standard_uncertainty_n.filter(|u| *u > 0.0).map(|u| system.force_from_n(u));
    // Three digits of the value are two of its tenth.
    let decimals = decimals_for(known.or(Some(shown.abs() / 10.0)), 0);
    format!("{} {}", fixed(shown, decimals), system.force_symbol())
}

/// A number with so many significant digits: plain down to a millionth, with a power of ten below.
#[must_use]
pub fn significant(value: f64, digits: usize) -> String {
    let size = value.abs();
    let last = digits.max(1) - 1;
    if size == 0.0 {
        return fixed(0.0, 0);
    }
    if size < 1e-6 || !size.is_finite() {
        return format!("{value:.last$e}").replace('-', "\u{2212}");
    }
    // The lead of a number that rounds up to the next power of ten is that of the rounded one.
    let rounded = format!("{size:.last$e}");
    let power = rounded.split_once('e').and_then(|(_, power)| power.parse::<i32>().ok());
    let decimals = last as i32 - power.unwrap_or(0);
    fixed(value, decimals.max(0) as usize)
}

/// A time as a person reads it: `45 s`, `12 min`, `2 h 5 min`.
#[must_use]
pub fn duration_text(seconds: f64) -> String {
    let minutes = libm::round(seconds / 60.0);
    if seconds < 90.0 {
        format!("{} s", fixed(seconds, 0))
    } else if minutes < 120.0 {
        format!("{} min", fixed(minutes, 0))
    } else {
        let hours = libm::floor(minutes / 60.0);
        format!("{} h {} min", fixed(hours, 0), fixed(minutes - 60.0 * hours, 0))
    }
}
