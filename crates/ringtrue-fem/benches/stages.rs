//! Speed of the stages and of whole curves, on the 15-degree ramp of the reference.
//!
//! `cargo bench -p ringtrue-fem`. One thread; the mesh has about 1,800 nodes, like the one whose
//! time
//! with other codes `validation/reference/mechanics/README.md` gives.

// A bench that cannot be set up stops, as it should.
#![allow(clippy::unwrap_used)]

use divan::Bencher;
use ringtrue_fem::material::{Material, NeoHooke};
use ringtrue_fem::mesh::{Mesh, mesh_section};
use ringtrue_fem::stages::Stages;
use ringtrue_fem::{
    ErrorEstimate, Extent, Friction, Problem, Section, Settings, Shape, Symmetry, Wall, solve,
};

fn main() {
    divan::main();
}

/// Boundary edges of 12 mm x pi / 120.
const SIZE: f64 = 0.314;

fn ramp(friction: Friction) -> Problem {
    let (sin, cos) = 15.0_f64.to_radians().sin_cos();
    let (housing, ring, slope) = (120.0 + 6.0 / cos, 120.0 - 6.0 / cos, 10.0 * sin / cos);
    let wall = |name: &str, profile: Vec<[f64; 2]>, path: Vec<[f64; 2]>| Wall {
        name: name.to_owned(),
        profile,
        fillets: Vec::new(),
        extent: Extent::Unbounded,
        path,
    };
    Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 30,
        hold: Vec::new(),
        section: Section { shape: Shape::Round { diameter: 12.0 }, mean_radius: Some(120.0) },
        prestretch: None,
        material: Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 2000.0 }),
        friction,
        walls: vec![
            wall("housing", vec![[housing, 0.0], [housing - slope, 10.0]], Vec::new()),
            wall("ring", vec![[ring, 0.0], [ring + slope, -10.0]], vec![[0.0, 9.0]]),
        ],
    }
}

fn at_the_end<'a>(problem: &'a Problem, mesh: &'a Mesh) -> Stages<'a> {
    Stages::at_the_end(problem, mesh).unwrap()
}

#[divan::bench]
fn assemble(bencher: Bencher<'_, '_>) {
    let problem = ramp(Friction::NoSlip);
    let mesh = mesh_section(&problem.section, SIZE, &[]).unwrap();
    let mut stages = at_the_end(&problem, &mesh);
    bencher.bench_local(move || stages.assemble());
}

#[divan::bench]
fn factorise(bencher: Bencher<'_, '_>) {
    let problem = ramp(Friction::NoSlip);
    let mesh = mesh_section(&problem.section, SIZE, &[]).unwrap();
    let mut stages = at_the_end(&problem, &mesh);
    stages.assemble();
    bencher.bench_local(move || stages.factorise().unwrap());
}

#[divan::bench]
fn newton_step(bencher: Bencher<'_, '_>) {
    let problem = ramp(Friction::NoSlip);
    let mesh = mesh_section(&problem.section, SIZE, &[]).unwrap();
    let mut stages = at_the_end(&problem, &mesh);
    bencher.bench_local(move || stages.newton_step().unwrap());
}

#[divan::bench(args = ["no slip", "coulomb 0.3"], sample_count = 5, sample_size = 1)]
fn whole_curve(bencher: Bencher<'_, '_>, friction: &str) {
    let friction = if friction == "no slip" { Friction::NoSlip } else { Friction::Coulomb(0.3) };
    let problem = ramp(friction);
    let settings = Settings {
        mesh_size: Some(SIZE),
        error_estimate: ErrorEstimate::None,
        ..Settings::default()
    };
    bencher.bench_local(move || solve(&problem, &settings).unwrap().newton_iterations);
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn whole_curve_with_error_band(bencher: Bencher<'_, '_>) {
    let problem = ramp(Friction::Coulomb(0.3));
    bencher.bench_local(move || solve(&problem, &Settings::default()).unwrap().error_band_percent);
}
