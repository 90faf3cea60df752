//! What one band is worth.

use ringtrue_metrology::units::{Angle, Length, Quantity};
use ringtrue_words::say;
use uom::si::angle::radian;

use super::{FlatnessLimit, Input, ReadingUncertainty};
use crate::RoomError;

/// A monochromatic light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LightSource {
    /// Helium, 587.5618 nm (d line, ISO 7944).
    Helium,
    /// Sodium, 589.2937 nm (mean of the D lines, from memory).
    Sodium,
    /// Mercury behind a green filter, 546.074 nm (e line, ISO 7944).
    MercuryGreen,
    /// A stated wavelength.
    Wavelength(Length),
}

impl LightSource {
    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Helium => "helium",
            Self::Sodium => "sodium",
            Self::MercuryGreen => "mercury-green",
            Self::Wavelength(_) => "stated wavelength",
        }
    }

    /// Its wavelength in nm.
    #[must_use]
    pub fn wavelength_nm(self) -> f64 {
        match self {
            Self::Helium => 587.561_8,
            Self::Sodium => 589.293_7,
            Self::MercuryGreen => 546.074,
            Self::Wavelength(length) => length.si() * 1e9,
        }
    }
}

/// Steepest view that is judged, deg: beyond it the bands are too wide and faint to read.
const STEEPEST_DEG: f64 = 80.0;

/// Height of the air gap from one band to the next, um: `λ/(2 cos θ)`.
#[must_use]
pub fn band_um(source: LightSource, view: Angle) -> f64 {
    source.wavelength_nm() * 1e-3 / (2.0 * libm::cos(view.si()))
}

/// The band's height, where light, view, limit and uncertainty are of this world.
pub(super) fn checked_band_um(input: &Input) -> Result<f64, RoomError> {
    let refuse = |found: String, fits: &str| Err(RoomError::input(found, fits));
    let wavelength = input.source.wavelength_nm();
    if !(380.0..=780.0).contains(&wavelength) {
        return refuse(
            say!("flat-wavelength-nm", wavelength = format!("{wavelength:.1}")),
            say!("flat-visible-light-wanted"),
        );
    }
    let view = input.view.get::<radian>().to_degrees();
    if !(0.0..STEEPEST_DEG).contains(&view) {
        let found = say!("flat-view-at-deg-from-normal", angle = format!("{view:.0}"));
        return refuse(found, say!("flat-look-at-face-from-above-0"));
    }
    let band = band_um(input.source, input.view);
    let limit = match input.limit {
        Some(FlatnessLimit::Bands(bands)) => bands,
        Some(FlatnessLimit::Length(length)) => length.si() * 1e6 / band,
        None => 1.0,
    };
    if !(limit > 0.0 && limit < 1e6) {
        return refuse(
            say!("flat-limit-bands", limit = limit.to_string()),
            say!("flat-limit-above-zero-wanted"),
        );
    }
    let u = match input.uncertainty {
        ReadingUncertainty::Bands(bands) => bands,
        ReadingUncertainty::Length(length) => length.si(),
        ReadingUncertainty::Unknown => 0.0,
    };
    if !(0.0..1e6).contains(&u) {
        let found = say!("flat-standard-uncertainty-below-zero").to_owned();
        return refuse(found, say!("flat-standard-uncertainty-zero-or-more-wanted"));
    }
    Ok(band)
}
