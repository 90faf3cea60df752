//! The mechanics against what is known of them from elsewhere: each comparison is a study, a plot
//! whose line is a run of the finite elements (or a law's formula) and whose points are the
//! reference.
//!
//! A point passes when it lies within the two error bands added: the reference's and the program's
//! own. Each run brings its own band, from two meshes; where a study has another, its text says so.

mod balance;
mod bands;
mod closed_forms;
mod disc_springs;
mod elements;
mod other_codes;
mod rings;
mod solved;
mod table;
mod treloar;

pub use bands::moved;

use serde::{Deserialize, Serialize};

use super::case::Status;
use super::{Comparison, ValidationError};
use table::Data;

/// One comparison as a plot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Study {
    /// Short name, unique among the studies.
    pub name: String,
    /// What is compared, in one line.
    pub title: String,
    /// The problem, and what the bands are made of.
    pub about: String,
    /// Quantity across.
    pub x: Scale,
    /// Quantity upwards.
    pub y: Scale,
    /// Lines with their reference points, at least one.
    pub series: Vec<Series>,
}

/// A quantity along an axis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Scale {
    /// Its name.
    pub quantity: String,
    /// Its unit; empty for a pure number.
    pub unit: String,
    /// How it is laid out.
    pub kind: ScaleKind,
}

/// How an axis is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ScaleKind {
    /// Equal steps.
    Linear,
    /// Equal factors.
    Logarithmic,
}

/// A line that was computed, and what it is held against.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Series {
    /// What it is; shown beside the line.
    pub name: String,
    /// Where the points come from.
    pub source: String,
    /// How strong that source is.
    pub status: Status,
    /// Computed places `(x, y)`, in order of x; none where another series shows the line.
    pub line: Vec<[f64; 2]>,
    /// Reference points; none for a line that is only shown beside the others.
    pub points: Vec<Point>,
}

/// A reference point. All in the unit of y.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// Where, along x.
    pub at: f64,
    /// What the reference says.
    pub expected: f64,
    /// What the program gives there.
    pub computed: f64,
    /// Half-width of the reference's error band.
    pub theirs: f64,
    /// Half-width of the program's own error band.
    pub ours: f64,
}

impl Study {
    /// Each point as a line of the table.
    #[must_use]
    pub fn comparisons(&self) -> Vec<Comparison> {
        let all = self.series.iter().flat_map(|series| {
            series.points.iter().map(move |point| self.comparison(series, point))
        });
        all.collect()
    }

    fn comparison(&self, series: &Series, point: &Point) -> Comparison {
        let (deviation, tolerance) = (point.computed - point.expected, point.theirs + point.ours);
        let at = super::shown::number(point.at, point.at.abs().max(1e-300) * 0.1);
        let unit = if self.x.unit.is_empty() { "" } else { " " };
        let name = if self.series.len() > 1 { &series.name } else { "" };
        let comma = if name.is_empty() { "" } else { ", " };
        Comparison {
            case: self.name.clone(),
            quantity: format!("{name}{comma}{} {at}{unit}{}", self.x.quantity, self.x.unit),
            expected: point.expected,
            computed: point.computed,
            deviation,
            tolerance,
            bands: Some([point.theirs, point.ours]),
            // A computed NaN is within no tolerance.
            pass: deviation.abs() <= tolerance,
            source: series.source.clone(),
            status: series.status,
        }
    }
}

type Build = fn(&Data<'_>) -> Result<Study, ValidationError>;

/// All studies, in the order of the page: the elements, closed forms, other codes, tests.
const STUDIES: &[(&str, Build)] = &[
    ("patch_tests", elements::patch_tests),
    ("rigid_rotation", elements::rigid_rotation),
    ("tangent_differences", elements::tangents),
    ("lame_tube", closed_forms::lame_tube),
    ("rivlin_tube", closed_forms::rivlin_tube),
    ("tube_convergence", closed_forms::tube_convergence),
    ("line_contact", rings::line_contact),
    ("line_contact_peak", rings::line_contact_peak),
    ("held_section", rings::held_section),
    ("free_ring", rings::free_ring),
    ("free_ring_growth", rings::free_ring_growth),
    ("bonded_disc", rings::bonded_disc),
    ("everting", rings::everting),
    ("plates_bar_frictionless", other_codes::plates_bar_frictionless),
    ("plates_bar_no_slip", other_codes::plates_bar_no_slip),
    ("plates_ring_frictionless", other_codes::plates_ring_frictionless),
    ("plates_ring_no_slip", other_codes::plates_ring_no_slip),
    ("two_cones_no_slip", other_codes::two_cones_no_slip),
    ("two_cones_coulomb", other_codes::two_cones_coulomb),
    ("two_cones_roll", other_codes::two_cones_roll),
    ("disc_spring_turned", disc_springs::turned),
    ("disc_spring_upright_ends", disc_springs::upright_ends),
    ("disc_spring_table", disc_springs::series_table),
    ("treloar", treloar::laws_response),
    ("treloar_fitted", treloar::fitted_law),
    ("energy_balance", balance::energy),
    ("two_cones_convergence", balance::convergence),
];

/// Names of the studies, in the order of the page.
#[must_use]
pub fn study_names() -> Vec<&'static str> {
    STUDIES.iter().map(|(name, _)| *name).collect()
}

/// Runs a study. `data` gives the text of a table by its path below `validation/`.
///
/// # Errors
/// [`ValidationError`]: no study of that name, a table that is missing or does not hold what the
/// study needs, or a run that did not reach its end.
pub fn study<'d>(
    name: &str,
    data: impl Fn(&str) -> Option<&'d str>,
) -> Result<Study, ValidationError> {
    let (name, build) = STUDIES.iter().find(|(known, _)| *known == name).ok_or_else(|| {
        ValidationError::Refused { case: name.to_owned(), why: "there is no such study".to_owned() }
    })?;
    let text = |path: &str| data(path).map(str::to_owned);
    build(&Data { study: name, text: &text })
}

fn linear(quantity: &str, unit: &str) -> Scale {
    Scale { quantity: quantity.to_owned(), unit: unit.to_owned(), kind: ScaleKind::Linear }
}

fn logarithmic(quantity: &str, unit: &str) -> Scale {
    Scale { quantity: quantity.to_owned(), unit: unit.to_owned(), kind: ScaleKind::Logarithmic }
}

/// A line without points of its own.
fn beside(name: &str, source: &str, line: Vec<[f64; 2]>) -> Series {
    Series {
        name: name.to_owned(),
        source: source.to_owned(),
        status: Status::FromMemory,
        line,
        points: Vec::new(),
    }
}
