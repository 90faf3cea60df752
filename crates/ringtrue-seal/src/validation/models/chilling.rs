//! Heat, air and humidity of the chilled toric.

use crate::chilling::{
    Air, Exchange, Heat, Section, Series, course, dew_point, forced_nusselt, frost_point,
    natural_nusselt, saturation_over_ice, saturation_over_water, wets_below,
};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// Shares of the temperature step left in a long cylinder, by the closed form.
pub(super) fn series(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let left = Series::new(inputs.number("Bi")?).left(inputs.number("Fo")?);
    Ok(Quantities::default()
        .one("theta_centre", left.centre)
        .one("theta_surface", left.surface)
        .one("theta_mean", left.mean))
}

/// The same by the march, which a coefficient that is not constant asks for: a ring of metal
/// that nothing touches leaves the section alone.
pub(super) fn march(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (biot, fourier) = (inputs.number("Bi")?, inputs.number("Fo")?);
    let section = Section { radius: 1.0, conductivity: 1.0, density: 1.0, specific_heat: 1.0 };
    let heat = Heat {
        section,
        exchange: Exchange::Constant(biot),
        ring: Some(crate::chilling::Ring {
            capacity: 1.0,
            surface: 1.0,
            exchange: Exchange::Constant(1.0),
            contact_share: 0.0,
            contact_coefficient: 0.0,
        }),
        start: 1.0,
        medium: 0.0,
    };
    let moments = course(&heat, |moment| moment.seconds > fourier);
    let at = |of: fn(&crate::chilling::Moment) -> f64| crate::chilling::at(&moments, fourier, of);
    Ok(Quantities::default()
        .one("theta_centre", at(|moment| moment.centre))
        .one("theta_surface", at(|moment| moment.surface))
        .one("theta_mean", at(|moment| moment.mean)))
}

/// First root and weight at several Biot numbers.
pub(super) fn one_term(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let terms: Vec<(f64, f64)> =
        inputs.numbers("Bi")?.into_iter().map(|biot| Series::new(biot).first_term()).collect();
    Ok(Quantities::default()
        .list("zeta1", terms.iter().map(|(root, _)| *root).collect())
        .list("C1", terms.iter().map(|(_, weight)| *weight).collect()))
}

/// Temperatures in a cylinder of stated properties after a time.
pub(super) fn temperatures(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let radius = match inputs.optional_number("r0")? {
        Some(radius) => radius,
        None => inputs.number("d_m")? / 2.0,
    };
    let (conductivity, density) = (inputs.number("k")?, inputs.number("rho")?);
    // A source that gives the diffusivity rounds it apart from the rest.
    let specific_heat = match inputs.optional_number("alpha")? {
        Some(alpha) => {
            inputs.ignore("cp");
            conductivity / (density * alpha)
        }
        None => inputs.number("cp")?,
    };
    let section = Section { radius, conductivity, density, specific_heat };
    let biot = inputs.number("h")? * radius / conductivity;
    let fourier = section.fourier(inputs.number("t_s")?);
    let left = Series::new(biot).left(fourier);
    let (start, medium) = (inputs.number("Ti")?, inputs.number("Tinf")?);
    let at = |share: f64| medium + share * (start - medium);
    Ok(Quantities::default()
        .one("Bi", biot)
        .one("Fo", fourier)
        .one("T_centre", at(left.centre))
        .one("T_surface", at(left.surface))
        .one("T_mean", at(left.mean)))
}

/// Mean Nusselt number of a horizontal cylinder in still fluid.
pub(super) fn natural(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let prandtl = inputs.number("Pr")?;
    let rayleigh = match inputs.optional_number("Ra")? {
        Some(rayleigh) => rayleigh,
        None => inputs.number("Gr")? * prandtl,
    };
    Ok(Quantities::default().one("Nu", natural_nusselt(rayleigh, prandtl)))
}

/// Mean Nusselt number of a cylinder across a stream.
pub(super) fn forced(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let nusselt = forced_nusselt(inputs.number("Re")?, inputs.number("Pr")?);
    Ok(Quantities::default().one("Nu", nusselt))
}

/// Coefficients of a section in still air.
pub(super) fn still_air(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let air = Air {
        diameter: inputs.number("D_m")?,
        speed: 0.0,
        emissivity: inputs.number("emissivity")?,
        factor: 1.0,
    };
    let kelvin = |key: &str| inputs.number(key).map(|celsius| celsius + 273.15);
    let (convection, radiation) = air.parts(kelvin("T_surface_C")?, kelvin("T_air_C")?);
    Ok(Quantities::default().one("h_conv", convection).one("h_rad", radiation))
}

/// Saturation pressures over water or ice.
pub(super) fn saturation(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let over = match inputs.text("over")? {
        "water" => saturation_over_water,
        "ice" => saturation_over_ice,
        other => return Err(inputs.wrong(format!("nothing is saturated over `{other}` here"))),
    };
    let pressures = inputs.numbers("T_C")?.into_iter().map(over).collect();
    Ok(Quantities::default().list("pressure_pa", pressures))
}

/// Dew point, frost point, and the temperature below which a surface is wetted.
pub(super) fn humidity(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (degc, share) = (inputs.number("T_C")?, inputs.number("RH")?);
    let given = [
        ("dew_point_degc", dew_point(degc, share)),
        ("frost_point_degc", frost_point(degc, share)),
        ("wets_below_degc", wets_below(degc, share)),
    ];
    let known = given.into_iter().filter_map(|(name, value)| Some((name, value?)));
    Ok(known.fold(Quantities::default(), |all, (name, value)| all.one(name, value)))
}
