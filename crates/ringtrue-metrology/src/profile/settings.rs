//! Cut-off and evaluation length by the standards' tables.

/// The standards that name parameters and settings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edition {
    /// ISO 4287:1997 with ISO 4288:1996: cut-off by the measured value; Ra and Rq are means of the
    /// sampling lengths; the 16 % rule unless `max` is written.
    Iso4287,
    /// ISO 21920:2021, parts 2 and 3: cut-off by the limit; Ra and Rq over the evaluation length;
    /// the max rule unless another is written (from memory).
    Iso21920,
}

impl Edition {
    /// The standards by number and year.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Iso4287 => "ISO 4287:1997 and ISO 4288:1996",
            Self::Iso21920 => "ISO 21920:2021, parts 2 and 3",
        }
    }
}

/// What a table is entered with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum By {
    /// Ra or Rq, um.
    Ra(f64),
    /// Rz or Rt, um.
    Rz(f64),
    /// Mean width of the profile elements RSm, mm: a periodic profile's feed. ISO 4288 table 3.
    Spacing(f64),
}

/// A row's settings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    /// Cut-off λc and sampling length, mm.
    pub cut_off_mm: f64,
    /// Evaluation length: five sampling lengths, mm.
    pub evaluation_length_mm: f64,
    /// Did the value lie within the table, or is this its nearest row?
    pub within_table: bool,
}

/// Sampling lengths of an evaluation length where nothing else is stated (ISO 4288:1996 clause 4.4,
/// from memory).
pub const SAMPLING_LENGTHS: usize = 5;

/// The cut-offs of the tables, mm.
pub const CUT_OFFS_MM: [f64; 5] = [0.08, 0.25, 0.8, 2.5, 8.0];

/// Upper ends of the rows (over the one before, up to and including this), ISO 4288:1996 table 1:
/// Ra in um. The lowest and highest bound are from memory; ISO 21920-3:2021 has the same inner
/// bounds.
const RA_UM: [f64; 4] = [0.02, 0.1, 2.0, 10.0];
/// ISO 4288:1996 table 2: Rz in um.
const RZ_UM_4288: [f64; 4] = [0.1, 0.5, 10.0, 50.0];
/// ISO 21920-3:2021: Rz in um.
const RZ_UM_21920: [f64; 4] = [0.16, 0.8, 16.0, 80.0];
/// ISO 4288:1996 table 3: RSm in mm; the inner bounds beyond 0.4 mm from memory.
const SPACING_MM: [f64; 4] = [0.04, 0.13, 0.4, 1.3];

/// The settings that a standard gives for a value. Infinite and NaN values take the last row.
#[must_use]
pub fn setting(edition: Edition, by: By) -> Setting {
    let (value, bounds, table) = match (edition, by) {
        (Edition::Iso4287, By::Ra(ra)) => (ra, RA_UM, (0.006, 80.0)),
        (Edition::Iso21920, By::Ra(ra)) => (ra, RA_UM, (0.0, f64::INFINITY)),
        (Edition::Iso4287, By::Rz(rz)) => (rz, RZ_UM_4288, (0.025, 200.0)),
        (Edition::Iso21920, By::Rz(rz)) => (rz, RZ_UM_21920, (0.0, f64::INFINITY)),
        (Edition::Iso4287 | Edition::Iso21920, By::Spacing(mm)) => (mm, SPACING_MM, (0.013, 4.0)),
    };
    let row = bounds.iter().position(|bound| value <= *bound).unwrap_or(bounds.len());
    let cut_off_mm = CUT_OFFS_MM[row];
    Setting {
        cut_off_mm,
        evaluation_length_mm: SAMPLING_LENGTHS as f64 * cut_off_mm,
        within_table: value > table.0 && value <= table.1,
    }
}
