//! Element facts: patch states, rigid motion, tangents against differences.

use crate::checks::{forced, patch, rigid_motion, tangent_difference};
use crate::material::{Material, MooneyRivlin, SaintVenantKirchhoff};
use crate::problem::Symmetry;

fn rubber() -> Material {
    Material::MooneyRivlin(MooneyRivlin { c10: 0.4, c01: 0.1, bulk: 2000.0 })
}

fn steel() -> Material {
    Material::SaintVenantKirchhoff(SaintVenantKirchhoff { young: 206e3, poisson: 0.3 })
}

#[test]
fn patch_tests() {
    for (symmetry, share) in [(Symmetry::PlaneStrain, 1e-11), (Symmetry::Axisymmetric, 1e-10)] {
        for material in [rubber(), steel()] {
            let found = patch(symmetry, &material, 1.0).unwrap();
            assert!(found.outline > 1.0, "{found:?}");
            assert!(found.inside < share * found.outline, "{symmetry:?} {material:?}: {found:?}");
        }
    }
}

#[test]
fn a_field_out_of_balance_fails_the_patch_test() {
    // The test can fail: a field that is no equilibrium leaves forces inside.
    let bent = |x: [f64; 2]| [0.01 * x[1] * x[1], 0.0];
    let found = forced(Symmetry::PlaneStrain, &steel(), 0.0, bent).unwrap();
    assert!(found.inside > 1e-3 * found.outline, "{found:?}");
}

#[test]
fn rigid_motion_leaves_no_stress() {
    for material in [rubber(), steel()] {
        let stiffness = material.law().young();
        let found = rigid_motion(&material, 1.1).unwrap();
        let worst = found.inside.max(found.outline);
        assert!(worst < 1e-13 * stiffness.max(2000.0) * 100.0, "{found:?}");
    }
    // A ring can only be moved along its axis.
    let found = forced(Symmetry::Axisymmetric, &rubber(), 0.0, |_| [0.0, 5.0]).unwrap();
    assert!(found.inside.max(found.outline) < 1e-10, "{found:?}");
}

#[test]
fn stiffness_is_the_derivative_of_the_forces() {
    for symmetry in [Symmetry::Axisymmetric, Symmetry::PlaneStrain] {
        let off = tangent_difference(symmetry, 1e-6).unwrap();
        assert!(off < 1e-8, "{symmetry:?}: {off:e}");
    }
}
