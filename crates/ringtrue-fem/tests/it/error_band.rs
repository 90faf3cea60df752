//! The error band that comes with a curve holds a much finer run, and a peak pressure means the
//! same on two meshes.

use ringtrue_fem::reference::{line, plates, two_cones};
use ringtrue_fem::{Friction, Problem, Section, Settings, Shape, Symmetry, solve};

#[test]
fn it_holds_a_fine_run() {
    let cases = [
        two_cones(Friction::NoSlip),
        two_cones(Friction::Coulomb(0.3)),
        plates(Some(60.0), Friction::Coulomb(0.5), 3.6),
    ];
    let (mut narrowest, mut widest) = (f64::MAX, 0.0_f64);
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
            // Each step's own band holds it too, from the first step on.
            for (a, b) in run.steps.iter().zip(&fine.steps) {
                let own = a.error_band_percent.unwrap();
                let (now, exact) = (a.walls[1].force_z_n_per_mm, b.walls[1].force_z_n_per_mm);
                let off = 100.0 * (now / exact - 1.0).abs();
                let at = a.travel_mm;
                assert!(off <= own, "case {k}, {edges} edges, {at} mm: {off:.3} % of {own:.3} %");
                widest = widest.max(own);
                narrowest = narrowest.min(own);
            }
            // A band that is always wide is no news.
            assert!(band < 3.0, "case {k}, {edges} edges: {band:.3} %");
        }
    }
    // One number for all steps would be no band of each.
    assert!(widest > 5.0 * narrowest, "{narrowest} to {widest}");
}

/// The mean over a stated length comes to a value where the pressure at a corner does not.
#[test]
fn the_peak_over_a_length_does_not_hang_on_the_mesh() {
    let washer = conical_washer();
    let size = ringtrue_fem::default_size(&washer);
    let of = |size: f64| {
        let run = crate::curve::run(&washer, Some(size));
        let wall = &run.steps.last().unwrap().walls[1];
        (wall.peak_mean_mpa, wall.peak_mpa)
    };
    let (coarse, fine) = (of(size), of(0.5 * size));
    let off = |a: f64, b: f64| 100.0 * (a / b - 1.0).abs();
    let (mean, sample) = (off(coarse.0, fine.0), off(coarse.1, fine.1));
    assert!(mean < 3.0, "mean {mean:.2} %, sample {sample:.2} %: {coarse:?} {fine:?}");
    assert!(sample > 2.0 * mean, "mean {mean:.2} %, sample {sample:.2} %");
}

/// A leaning block of rubber whose corners bear on flat seats.
fn conical_washer() -> Problem {
    let corners = vec![[-6.0, -5.0], [0.0, -5.0], [6.0, 5.0], [0.0, 5.0]];
    Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 12,
        section: Section {
            shape: Shape::Polygon { corners, corner_radius: 0.8 },
            mean_radius: Some(120.0),
        },
        walls: vec![
            line("housing", [121.0, 5.0], [120.0, 5.0], [0.0, 0.0]),
            line("ring", [120.0, -5.0], [121.0, -5.0], [0.0, 2.0]),
        ],
        ..plates(Some(120.0), Friction::NoSlip, 1.0)
    }
}
