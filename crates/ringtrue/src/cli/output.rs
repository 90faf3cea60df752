//! Printing to standard output.

use std::fmt::Display;
use std::io::{ErrorKind, Write};

use ringtrue_metrology::units::{System, decimals_for, duration_text, fixed};
use serde::Serialize;

use crate::problem::{Problem, shown};

/// Prints a text with a line end. A reader that has gone away is no problem of ours.
pub(crate) fn print(text: impl Display) -> Result<(), Problem> {
    match writeln!(std::io::stdout().lock(), "{}", shown(&text.to_string())) {
        Ok(()) => Ok(()),
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        Err(error) => Err(Problem::not_completed(
            format!("the result can't be printed ({error})"),
            "give it somewhere to be printed to",
        )),
    }
}

/// Prints one JSON object.
pub(crate) fn json(value: &impl Serialize) -> Result<(), Problem> {
    match serde_json::to_string_pretty(value) {
        Ok(text) => print(text),
        Err(error) => Err(Problem::not_completed(
            format!("the result can't be written as JSON ({error})"),
            "this is a fault of the program: please report it",
        )),
    }
}

/// A length in mm as a person reads it: in the chosen unit, rounded to its uncertainty.
pub(crate) fn length(mm: f64, standard_uncertainty_mm: Option<f64>, system: System) -> String {
    let workshop = match system {
        System::Millimetre => 2,
        System::Inch => 3,
    };
    let decimals =
        decimals_for(standard_uncertainty_mm.map(|u| system.length_from_mm(u)), workshop);
    format!("{} {}", fixed(system.length_from_mm(mm), decimals), system.length_symbol())
}

/// The uncertainty of a length, where it is known: ` (u 0.012 mm)`.
pub(crate) fn uncertainty(standard_uncertainty_mm: Option<f64>, system: System) -> String {
    match standard_uncertainty_mm {
        Some(u) => format!(" (u {})", length(u, Some(u), system)),
        None => String::new(),
    }
}

/// A force per length in the chosen system.
pub(crate) fn line_load(n_per_mm: f64, u: Option<f64>, system: System) -> String {
    let decimals = decimals_for(u.map(|u| system.line_load_from_n_per_mm(u)), 2);
    let value = fixed(system.line_load_from_n_per_mm(n_per_mm), decimals);
    format!("{value} {}", system.line_load_symbol())
}

/// A share as a percentage that never rounds to a certainty: no sample and no model gives one.
pub(crate) fn percent(share: f64) -> String {
    match share {
        s if s < 0.0001 => "under 0.01 %".to_owned(),
        s if s > 0.9999 => "over 99.99 %".to_owned(),
        s => format!("{} %", fixed(100.0 * s, 2)),
    }
}

/// A temperature in degC as a person reads it, in the chosen system.
pub(crate) fn temperature(degc: f64, system: System) -> String {
    match system {
        System::Millimetre => format!("{} degC", fixed(degc, 1)),
        System::Inch => format!("{} degF", fixed(degc * 1.8 + 32.0, 1)),
    }
}

/// A time with its standard uncertainty: `12 min (u 3 min)`.
pub(crate) fn duration_u(seconds: f64, standard_uncertainty: f64) -> String {
    format!("{} (u {})", duration_text(seconds), duration_text(standard_uncertainty))
}

/// `1 job`, `2 jobs`.
pub(crate) fn counted(number: u64, what: &str) -> String {
    let more = if number == 1 { "" } else { "s" };
    format!("{number} {what}{more}")
}

/// A paragraph behind a lead, broken at 100 columns, its further lines indented; with a line end.
pub(crate) fn wrapped(lead: &str, words: &str) -> String {
    const WIDTH: usize = 100;
    let indent = lead.chars().take_while(|c| *c == ' ').count() + 2;
    let mut text = lead.to_owned();
    let mut column = lead.chars().count();
    for (index, word) in words.split_whitespace().enumerate() {
        let length = word.chars().count();
        if index > 0 && column + 1 + length > WIDTH {
            text.push('\n');
            text.push_str(&" ".repeat(indent));
            column = indent;
        } else if index > 0 {
            text.push(' ');
            column += 1;
        }
        text.push_str(word);
        column += length;
    }
    text.push('\n');
    text
}
