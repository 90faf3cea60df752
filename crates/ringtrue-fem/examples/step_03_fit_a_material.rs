//! Step 3: constants from test data, and why tension alone is not enough.

use ringtrue_fem::material::fit::{Family, FitError, Test, fit};
use ringtrue_fem::material::{Material, Mode, Yeoh, nominal_stress};

pub(crate) fn main() -> Result<(), FitError> {
    // Made-up data: a Yeoh law read at a few stretches.
    let truth = Yeoh { c10: 0.5, c20: -0.02, c30: 0.001, bulk: 2000.0 };
    let read = |mode: Mode, stretches: &[f64]| Test {
        mode,
        points: stretches.iter().map(|&l| [l, nominal_stress(&truth, mode, l)]).collect(),
    };
    let tests = [
        read(Mode::Uniaxial, &[0.7, 0.85, 1.2, 1.5, 2.0, 2.5]),
        read(Mode::Planar, &[1.2, 1.5, 2.0]),
    ];
    let found = fit(Family::Yeoh, &tests, 2000.0)?;
    assert!(found.rms_mpa < 1e-9 && found.unstable.is_none());
    let Material::Yeoh(law) = found.material else { unreachable!("a Yeoh fit gives a Yeoh law") };
    assert!((law.c20 - truth.c20).abs() < 1e-9);
    Ok(())
}
