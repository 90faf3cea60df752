//! Incompressible neo-Hookean tube at large strain, plane strain along the axis.
//!
//! Inner less outer pressure `p = mu (ln(la/lb) + (lb^-2 - la^-2)/2)`, `la = a/A`, `lb = b/B`,
//! `b^2 = B^2 + a^2 - A^2`. Source: R.S. Rivlin, Phil. Trans. R. Soc. A 242 (1949) 173 (from
//! memory),
//! rows `nh-cyl-*` of `validation/reference/mechanics/solid_mechanics_fe.csv`, which check the
//! formula;
//! the elements are checked by narrowing the rim, where the end plates press.

use ringtrue_fem::material::{Material, NeoHooke};
use ringtrue_fem::reference::{rim_of_tube, rivlin, tube};

use crate::curve::{cases, meets, run};

#[test]
fn rim_pressure() {
    for case in cases("solid_mechanics_fe.csv", "nh-cyl-") {
        let [inner, outer, blown] = ["A", "B", "a"].map(|k| case.input(k));
        meets(&case.id, rivlin([inner, outer], blown), case.expected, 1e-4);
        // Bore shrunk to three quarters.
        let now = 0.75 * inner;
        let rim = rim_of_tube([inner, outer], now);
        let material = Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 1e5 });
        let problem = tube(material, [10.0 * inner, 10.0 * outer, 4.0, 10.0 * (outer - rim)]);
        let run = run(&problem, Some(10.0 * (outer - inner) / 16.0));
        let pressure = run.steps.last().unwrap().walls[0].mean_mpa;
        // Bulk modulus 1e5 mu stands for incompressible: 1e-5 of strain.
        meets(&case.id, pressure, -rivlin([inner, outer], now), 0.02);
    }
}
