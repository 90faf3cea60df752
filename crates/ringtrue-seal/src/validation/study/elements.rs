//! What must hold exactly of the elements.

use ringtrue_fem::Symmetry;
use ringtrue_fem::checks::{OutOfBalance, patch, rigid_motion, tangent_difference};
use ringtrue_fem::material::{Material, MooneyRivlin, SaintVenantKirchhoff};

use super::table::Data;
use super::{Point, Series, Study, ValidationError, linear, logarithmic};
use crate::validation::Status;

fn rubber() -> Material {
    Material::MooneyRivlin(MooneyRivlin { c10: 0.4, c01: 0.1, bulk: 2000.0 })
}

fn steel() -> Material {
    Material::SaintVenantKirchhoff(SaintVenantKirchhoff { young: 206e3, poisson: 0.3 })
}

/// A quantity that must vanish: its size, which has no business below the machine's own rounding,
/// at each place, and the places that count.
fn vanishing(
    (name, source): (&str, &str),
    places: &[f64],
    (size, allowed): (impl Fn(f64) -> Result<f64, ValidationError>, f64),
) -> Result<Series, ValidationError> {
    let mut line = Vec::new();
    for at in places {
        line.push([*at, size(*at)?.max(1e-18)]);
    }
    let points = line.iter().map(|[at, computed]| Point {
        at: *at,
        expected: 0.0,
        computed: *computed,
        theirs: 0.0,
        ours: allowed,
    });
    Ok(Series {
        name: name.to_owned(),
        source: source.to_owned(),
        status: Status::Recomputed,
        points: points.collect(),
        line,
    })
}

pub(super) fn patch_tests(data: &Data<'_>) -> Result<Study, ValidationError> {
    const SOURCE: &str = "B. M. Irons's patch test (from memory): nothing may be left inside";
    let share = |symmetry: Symmetry, material: Material| {
        move |amount: f64| {
            let OutOfBalance { inside, outline } =
                patch(symmetry, &material, amount).map_err(|why| data.refused(why))?;
            Ok(inside / outline)
        }
    };
    let places = [0.05, 0.1, 0.2, 0.5, 1.0, 1.5];
    let allowed = 1e-10;
    let series = [
        ("bar, rubber", Symmetry::PlaneStrain, rubber()),
        ("bar, steel", Symmetry::PlaneStrain, steel()),
        ("ring, rubber", Symmetry::Axisymmetric, rubber()),
    ]
    .map(|(name, symmetry, material)| {
        vanishing((name, SOURCE), &places, (share(symmetry, material), allowed))
    });
    Ok(Study {
        name: data.study.to_owned(),
        title: "Patch test: a homogeneous strain leaves no force inside".to_owned(),
        about: "A homogeneous deformation is forced on a distorted mesh; the largest force at an \
                inner node over the largest on the outline. Amount 1 is a stretch of 20 % with a \
                shear of 40 % in the bar, 8 % across and 10 % along the axis in the ring. Allowed: \
                1e-10, rounding."
            .to_owned(),
        x: linear("amount of strain", ""),
        y: logarithmic("inner force over outer force", ""),
        series: series.into_iter().collect::<Result<_, _>>()?,
    })
}

pub(super) fn rigid_rotation(data: &Data<'_>) -> Result<Study, ValidationError> {
    const SOURCE: &str = "objectivity: a rigid motion strains nothing";
    let force = |material: Material| {
        // Forces of a strain of 1 are of the order of the stiffest modulus times the mesh size.
        let scale = material.law().young().max(2000.0);
        move |degrees: f64| {
            let OutOfBalance { inside, outline } =
                rigid_motion(&material, degrees.to_radians()).map_err(|why| data.refused(why))?;
            Ok(inside.max(outline) / scale)
        }
    };
    let places = [15.0, 30.0, 45.0, 60.0, 90.0, 120.0, 150.0, 180.0];
    let series = [("rubber", rubber()), ("steel", steel())]
        .map(|(name, material)| vanishing((name, SOURCE), &places, (force(material), 1e-11)));
    Ok(Study {
        name: data.study.to_owned(),
        title: "A rigid rotation leaves no stress".to_owned(),
        about: "A section is turned and carried off by some mm; the largest nodal force over \
                modulus x 1 mm (the bulk modulus for rubber, Young's for steel). Allowed: 1e-11, \
                rounding."
            .to_owned(),
        x: linear("rotation", "deg"),
        y: logarithmic("nodal force over modulus x mm", ""),
        series: series.into_iter().collect::<Result<_, _>>()?,
    })
}

pub(super) fn tangents(data: &Data<'_>) -> Result<Study, ValidationError> {
    const LAW: [f64; 2] = [1e-3, 1e-4];
    let difference = |symmetry: Symmetry, step: f64| {
        tangent_difference(symmetry, step).map_err(|why| data.refused(why))
    };
    let steps = [1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2];
    let one = |name: &str, symmetry: Symmetry| -> Result<Series, ValidationError> {
        let mut line = Vec::new();
        for step in steps {
            line.push([step, difference(symmetry, step)?]);
        }
        let from = difference(symmetry, 1e-2)?;
        let mut points = Vec::new();
        for at in LAW {
            // A tangent that is off by 1 in 10^7 shows here.
            let expected = from * (at / 1e-2) * (at / 1e-2);
            let computed = difference(symmetry, at)?;
            points.push(Point { at, expected, computed, theirs: 0.1 * expected, ours: 0.0 });
        }
        let computed = difference(symmetry, 1e-6)?;
        points.push(Point { at: 1e-6, expected: 0.0, computed, theirs: 0.0, ours: 1e-8 });
        Ok(Series {
            name: name.to_owned(),
            source: "central differences: the error falls with the square of the step".to_owned(),
            status: Status::Recomputed,
            line,
            points,
        })
    };
    Ok(Study {
        name: data.study.to_owned(),
        title: "Tangents against difference quotients of the forces".to_owned(),
        about: "The stiffness of a strained, prestretched element less the central difference \
                quotient of its forces, over the largest stiffness. A consistent tangent leaves \
                the quotient's own error: it falls with the square of the step (points, from the \
                value at 0.01 mm, 10 %) down to rounding (allowed at 1e-6 mm: 1e-8)."
            .to_owned(),
        x: logarithmic("step of the difference", "mm"),
        y: logarithmic("difference over stiffness", ""),
        series: vec![one("ring", Symmetry::Axisymmetric)?, one("bar", Symmetry::PlaneStrain)?],
    })
}
