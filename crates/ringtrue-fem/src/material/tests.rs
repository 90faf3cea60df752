//! The hand-written derivatives against dual numbers, and closed forms of simple tests.

use num_dual::{DualNum, HyperDual64, second_partial_derivative};

use super::*;

type Dual = HyperDual64;

/// Energies written once more, in the plainest form, on principal stretches of a diagonal `F`.
fn plain_energy(material: &Material, [s, d, w]: [Dual; 3]) -> Dual {
    let j = d * w;
    let i1 = (s + w * w) * j.powf(-2.0 / 3.0);
    let i2 = (d * d + s * w * w) * j.powf(-4.0 / 3.0);
    match material {
        Material::NeoHooke(law) => (i1 - 3.0) * (0.5 * law.mu),
        Material::MooneyRivlin(law) => (i1 - 3.0) * law.c10 + (i2 - 3.0) * law.c01,
        Material::Yeoh(law) => {
            let x = i1 - 3.0;
            x * law.c10 + x.powi(2) * law.c20 + x.powi(3) * law.c30
        }
        Material::Ogden(law) => {
            let sum = (s + d * 2.0).sqrt();
            let difference = (s - d * 2.0).sqrt();
            let scale = j.powf(-1.0 / 3.0);
            let l1 = (sum + difference) * 0.5 * scale;
            let l2 = (sum - difference) * 0.5 * scale;
            let l3 = w * scale;
            law.terms.iter().fold(Dual::from(0.0), |total, t| {
                total
                    + (l1.powf(t.alpha) + l2.powf(t.alpha) + l3.powf(t.alpha) - 3.0)
                        * (t.mu / t.alpha)
            })
        }
        Material::SaintVenantKirchhoff(law) => {
            let mu = 0.5 * law.young / (1.0 + law.poisson);
            let lambda = 2.0 * mu * law.poisson / (1.0 - 2.0 * law.poisson);
            let trace = (s + w * w - 3.0) * 0.5;
            let hoop = w * w - 1.0;
            let square = (s * s - d * d * 2.0 - s * 2.0 + 2.0 + hoop.powi(2)) * 0.25;
            trace.powi(2) * (0.5 * lambda) + square * mu
        }
    }
}

fn materials() -> Vec<Material> {
    let ogden = |mu: f64, alpha: f64| OgdenTerm { mu, alpha };
    vec![
        Material::NeoHooke(NeoHooke { mu: 0.8, bulk: 2000.0 }),
        Material::MooneyRivlin(MooneyRivlin { c10: 0.3, c01: 0.12, bulk: 2000.0 }),
        Material::Yeoh(Yeoh { c10: 0.4, c20: -0.03, c30: 0.002, bulk: 2000.0 }),
        Material::Ogden(Ogden {
            terms: vec![ogden(0.6178, 1.3), ogden(0.001_177, 5.0), ogden(-0.009_807, -2.0)],
            bulk: 2000.0,
        }),
        Material::SaintVenantKirchhoff(SaintVenantKirchhoff { young: 206e3, poisson: 0.3 }),
    ]
}

#[test]
fn derivatives_agree_with_dual_numbers() {
    for material in materials() {
        // (l1, l2, w): apart, close together, far from the reference state.
        for [l1, l2, w] in [[1.2, 0.9, 0.95], [1.03, 1.0, 0.99], [2.5, 0.7, 0.6], [0.4, 1.9, 1.4]] {
            let at = Invariants { s: l1 * l1 + l2 * l2, d: l1 * l2, w };
            let jet = material.law().jet(at);
            let x = [at.s, at.d, at.w];
            for (k, (i, j)) in
                [(0, 0), (0, 1), (0, 2), (1, 1), (1, 2), (2, 2)].into_iter().enumerate()
            {
                // Both directions start at zero: f(x + a e_i + b e_j).
                let along = |(a, b): (Dual, Dual)| {
                    let mut moved = x.map(Dual::from);
                    moved[i] += a;
                    moved[j] += b;
                    plain_energy(&material, moved)
                };
                let (energy, by_i, by_j, second) = second_partial_derivative(along, (0.0, 0.0));
                let size = 1.0 + second.abs();
                assert!((jet.energy - energy).abs() < 1e-12 * size, "{material:?}");
                assert!((jet.gradient[i] - by_i).abs() < 1e-9 * size, "{material:?} {i}");
                assert!((jet.gradient[j] - by_j).abs() < 1e-9 * size, "{material:?} {j}");
                let miss = (jet.hessian[k] - second).abs();
                assert!(miss < 1e-7 * size, "{material:?} at {at:?}: entry {k} off by {miss:e}");
            }
        }
    }
}

#[test]
fn the_cube_root_of_the_volume_is_the_library_s() {
    for k in -4000..=4000 {
        let j = 1.0 + f64::from(k) * 5e-5;
        let off = super::inverse_cube_root(j) * j.cbrt() - 1.0;
        assert!(off.abs() < 1e-15, "{j}: {off:e}");
    }
}
