//! Dimension chains, tolerance classes and the mounted toric.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Angle, Length, Quantity};
use uom::si::angle::degree;
use uom::si::length::millimeter;
use uom::si::volume::cubic_millimeter;

use crate::definition::joint::{Sign, Spread};
use crate::gap_stack::{self, DRAWS, Input, Link, SEED, Size};
use crate::geometry::{self, Cone, FreeToric, MountedToric};
use crate::iso286;
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// A chain of dimensions, through the door of its room.
///
/// Its lengths may be in any one unit: the chain is linear, so they are taken as millimetres.
pub(super) fn gap_chain(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    // Without limits of its own a case asks for nothing that depends on them.
    let limit = |key: &str, open: f64| {
        Ok::<_, ValidationError>(mm(inputs.optional_number(key)?.unwrap_or(open)))
    };
    let outcome = gap_stack::evaluate(&Input {
        links: links(inputs)?,
        limits: (limit("limit_min", -1e3)?, limit("limit_max", 1e3)?),
        shims_on_hand: Vec::new(),
        levels: Levels::DEFAULT,
        draws: DRAWS,
        seed: SEED,
    })
    .map_err(|e| inputs.refused(e))?;
    let half = |least: f64, most: f64| 0.5 * (most - least);
    Ok(Quantities::default()
        .one("nominal", outcome.nominal_gap_mm)
        .one("mid", 0.5 * (outcome.worst_min_mm + outcome.worst_max_mm))
        .one("worst_case", half(outcome.worst_min_mm, outcome.worst_max_mm))
        .one("lower_wc", outcome.worst_min_mm)
        .one("upper_wc", outcome.worst_max_mm)
        .one("rss", half(outcome.rss_min_mm, outcome.rss_max_mm))
        .one("mean", outcome.mean_gap_mm)
        .one("standard_deviation", outcome.standard_deviation_mm)
        .one("sampled_p0_135", outcome.sampled_p0_135_mm)
        .one("sampled_p99_865", outcome.sampled_p99_865_mm)
        .one("outside_limit_fraction", outcome.outside_limit_fraction)
        .list("shares", outcome.links.iter().map(|link| link.share).collect()))
}

fn links(inputs: &Inputs<'_>) -> Result<Vec<Link>, ValidationError> {
    let signs = inputs.texts("sign")?;
    let [nominal, upper, lower] = ["nominal", "upper", "lower"].map(|key| inputs.numbers(key));
    let (nominal, upper, lower) = (nominal?, upper?, lower?);
    if [nominal.len(), upper.len(), lower.len()].iter().any(|length| *length != signs.len()) {
        return Err(inputs.wrong("sign, nominal, upper and lower must be of one length"));
    }
    let spread = match inputs.optional_text("distribution")? {
        None | Some("normal") => Spread::Normal,
        Some("uniform") => Spread::Uniform,
        Some("triangular") => Spread::Triangular,
        Some(other) => return Err(inputs.wrong(format!("no distribution `{other}`"))),
    };
    let link = |i: usize| {
        let sign = match signs[i] {
            "+" => Sign::Opens,
            "-" => Sign::Closes,
            other => return Err(inputs.wrong(format!("no sign `{other}`; `+` and `-` are"))),
        };
        Ok(Link {
            name: format!("link {}", i + 1),
            sign,
            size: Size::Drawn {
                nominal: mm(nominal[i]),
                upper: mm(upper[i]),
                lower: mm(lower[i]),
                spread,
            },
        })
    };
    (0..signs.len()).map(link).collect()
}

/// The standard tolerance of one grade at several sizes.
pub(super) fn iso_286_grade(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let grade = inputs.count("grade")?;
    let width =
        |size: f64| iso286::grade_width(grade, mm(size)).map(um).map_err(|e| inputs.refused(e));
    let widths = inputs.numbers("nominal_mm")?.into_iter().map(width).collect::<Result<_, _>>();
    Ok(Quantities::default().list("tolerance_um", widths?))
}

/// Clearance of a hole and a shaft of one size.
pub(super) fn iso_286_fit(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let size = mm(inputs.number("nominal_mm")?);
    let limits = |key: &str| {
        let (upper, lower) =
            iso286::deviations(inputs.text(key)?, size).map_err(|e| inputs.refused(e))?;
        Ok::<_, ValidationError>((um(upper), um(lower)))
    };
    let (hole_upper, hole_lower) = limits("hole")?;
    let (shaft_upper, shaft_lower) = limits("shaft")?;
    Ok(Quantities::default()
        .one("hole_upper_um", hole_upper)
        .one("hole_lower_um", hole_lower)
        .one("shaft_upper_um", shaft_upper)
        .one("shaft_lower_um", shaft_lower)
        .one("min_clearance_um", hole_lower - shaft_upper)
        .one("max_clearance_um", hole_upper - shaft_lower))
}

/// A toric stretched on its ring's ramp (a cylinder where no angle is given), its volume unchanged.
pub(super) fn mounted_toric(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let mounted = on_its_ring(inputs, inputs.optional_number("ramp_angle_deg")?.unwrap_or(0.0))?;
    Ok(Quantities::default()
        .one("section_diameter_mm", mounted.section_diameter.si() * 1e3)
        .one("centroid_diameter_mm", mounted.centroid_diameter.si() * 1e3)
        .one("stretch", mounted.stretch)
        .one("hoop_stretch", mounted.hoop_stretch))
}

/// The assembled height at which a mounted toric just touches the housing's ramp.
pub(super) fn free_height(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let mounted = on_its_ring(inputs, inputs.number("ramp_angle_deg")?)?;
    let housing = Cone {
        angle: Angle::new::<degree>(inputs.number("housing_ramp_angle_deg")?),
        diameter: mm(inputs.number("housing_ramp_diameter_mm")?),
        plane_from_face: mm(inputs.number("housing_plane_from_face_mm")?),
    };
    let plane = mm(inputs.number("ring_plane_from_face_mm")?);
    let height = geometry::free_height_between(&mounted, plane, housing);
    Ok(Quantities::default()
        .one("free_height_mm", height.si() * 1e3)
        .one("outside_diameter_mm", mounted.outside_diameter().si() * 1e3))
}

fn on_its_ring(inputs: &Inputs<'_>, angle_deg: f64) -> Result<MountedToric, ValidationError> {
    let free = FreeToric {
        inside_diameter: mm(inputs.number("inside_diameter_mm")?),
        section_diameter: mm(inputs.number("section_diameter_mm")?),
    };
    let seat = mm(inputs.number("seat_diameter_mm")?);
    Ok(geometry::stretched(free, seat, Angle::new::<degree>(angle_deg)))
}

/// The volume of a ring of round section.
pub(super) fn torus_volume(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let (ring, section) = (inputs.number("ring_radius_mm")?, inputs.number("section_radius_mm")?);
    let volume = geometry::torus_volume(mm(2.0 * ring), mm(2.0 * section));
    Ok(Quantities::default().one("volume_mm3", volume.get::<cubic_millimeter>()))
}

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn um(length: Length) -> f64 {
    length.si() * 1e6
}
