//! The error band that comes with a curve holds a much finer run.

use ringtrue_fem::reference::{plates, two_cones};
use ringtrue_fem::{Friction, Settings, solve};

#[test]
fn it_holds_a_fine_run() {
    let cases = [
        two_cones(Friction::NoSlip),
        two_cones(Friction::Coulomb(0.3)),
        plates(Some(60.0), Friction::Coulomb(0.5), 3.6),
    ];
    for (k, problem) in cases.iter().enumerate() {
        let size = 12.0 * std::f64::consts::PI / 240.0;
        let fine = crate::curve::run(problem, Some(size));
        for edges in [60.0, 96.0] {
            let settings = Settings {
                mesh_size: Some(12.0 * std::f64::consts::PI / edges),
                ..Settings::default()
            };
            let run = solve(problem, &settings).unwrap();
            let band = run.error_band_percent.unwrap();
            let worst = run
                .steps
                .iter()
                .zip(&fine.steps)
                .filter(|(s, _)| s.fraction > 0.1)
                .map(|(a, b)| {
                    let ratio = a.walls[1].force_z_n_per_mm / b.walls[1].force_z_n_per_mm;
                    100.0 * (ratio - 1.0).abs()
                })
                .fold(0.0, f64::max);
            assert!(worst <= band, "case {k}, {edges} edges: {worst:.3} % outside {band:.3} %");
            // A band that is always wide is no news.
            assert!(band < 3.0, "case {k}, {edges} edges: {band:.3} %");
        }
    }
}
