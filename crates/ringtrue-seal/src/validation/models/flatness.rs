//! Light bands, through the door of their room.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Angle, Length};
use uom::si::angle::degree;
use uom::si::length::{millimeter, nanometer};

use crate::flatness::{
    self, Bend, BendAmount, Input, LightSource, Order, Outcome, Pressed, ReadingUncertainty, Seen,
    band_um,
};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// Height of a band, seen square or at several angles.
pub(super) fn band(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let source = light(inputs)?;
    if inputs.given("theta_deg") {
        let views = inputs.numbers("theta_deg")?;
        let bands = views.into_iter().map(|view| band_um(source, deg(view))).collect();
        return Ok(Quantities::default().list("band_um", bands));
    }
    let band = band_um(source, deg(0.0));
    Ok(Quantities::default().one("band_um", band).one("band_microinch", band / 0.0254))
}

/// The bend of a band over the spacing.
pub(super) fn bend(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let mm = Length::new::<millimeter>;
    let (bend, spacing) = (mm(inputs.number("curve_mm")?), mm(inputs.number("spacing_mm")?));
    let amount = BendAmount::Measured { bend, spacing };
    let outcome = evaluated(inputs, Seen::Bends(vec![Bend { azimuth: deg(0.0), amount }]))?;
    Ok(Quantities::default()
        .one("bands", outcome.flatness_bands)
        .one("flatness_um", outcome.flatness_um))
}

/// Closed bands.
pub(super) fn closed(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let bands = inputs.number("bands")?;
    let outcome = evaluated(inputs, Seen::Closed { bands, pressed: Pressed::NotTried })?;
    Ok(Quantities::default().one("height_um", outcome.flatness_um))
}

/// Band orders round a ring.
pub(super) fn orders(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (angles, orders) = (inputs.numbers("angle_deg")?, inputs.numbers("order")?);
    if angles.len() != orders.len() {
        return Err(inputs.wrong("as many orders as angles are needed"));
    }
    let order = |(at, order): (&f64, &f64)| Order { angle: deg(*at), order: *order };
    let outcome = evaluated(inputs, Seen::Orders(angles.iter().zip(&orders).map(order).collect()))?;
    Ok(Quantities::default()
        .one("residual_pv_bands", outcome.flatness_bands)
        .one("residual_pv_um", outcome.flatness_um))
}

fn evaluated(inputs: &Inputs<'_>, seen: Seen) -> Result<Outcome, ValidationError> {
    flatness::evaluate(&Input {
        seen,
        source: light(inputs)?,
        view: deg(0.0),
        limit: None,
        uncertainty: ReadingUncertainty::Unknown,
        levels: Levels::DEFAULT,
    })
    .map_err(|e| inputs.refused(e))
}

fn light(inputs: &Inputs<'_>) -> Result<LightSource, ValidationError> {
    match inputs.optional_text("source")? {
        None => {
            let wavelength = Length::new::<nanometer>(inputs.number("wavelength_nm")?);
            Ok(LightSource::Wavelength(wavelength))
        }
        Some("helium") => Ok(LightSource::Helium),
        Some("sodium") => Ok(LightSource::Sodium),
        Some("mercury-green") => Ok(LightSource::MercuryGreen),
        Some(other) => Err(inputs.wrong(format!("no light `{other}`"))),
    }
}

fn deg(value: f64) -> Angle {
    Angle::new::<degree>(value)
}
