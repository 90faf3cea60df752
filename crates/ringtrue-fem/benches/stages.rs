//! Speed of the stages and of whole curves, on the 15-degree ramp of the reference.
//!
//! `cargo bench -p ringtrue-fem`. One thread; the mesh has about 1,800 nodes, like the one whose
//! time
//! with other codes `validation/reference/mechanics/README.md` gives.

// A bench that cannot be set up stops, as it should.
#![allow(clippy::unwrap_used)]

use divan::Bencher;
use ringtrue_fem::mesh::{Mesh, mesh_section};
use ringtrue_fem::reference::two_cones;
use ringtrue_fem::stages::Stages;
use ringtrue_fem::{ErrorEstimate, Friction, Problem, Settings, solve};

fn main() {
    divan::main();
}

/// Boundary edges of 12 mm x pi / 120.
const SIZE: f64 = 0.314;

/// The reference problem with the 30 steps that the other codes' times are for.
fn ramp(friction: Friction) -> Problem {
    Problem { steps: 30, ..two_cones(friction) }
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
