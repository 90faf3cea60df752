//! The two-cone problem for other codes: its mesh, and our own curve and times on it.
//!
//! `bench/peers/run.sh` calls it. One JSON object: nodes `[r, z]` without the elements' centres,
//! elements of eight nodes (corners counter-clockwise, then the middles of the sides), boundary
//! edges, each step's axial force on the ring in N/mm, and the wall-clock seconds of five runs.

// An example talks to whoever runs it, and stops where it can't go on.
#![allow(clippy::print_stdout, clippy::unwrap_used)]

use std::fmt::Debug;
use std::time::Instant;

use ringtrue_fem::reference::two_cones;
use ringtrue_fem::{ErrorEstimate, Friction, Outcome, Problem, Settings, solve};

fn main() {
    let problem = Problem { steps: 30, ..two_cones(Friction::NoSlip) };
    let settings = Settings { error_estimate: ErrorEstimate::None, ..Settings::default() };
    let mut seconds = Vec::new();
    let mut last = None;
    for _ in 0..5 {
        let started = Instant::now();
        let run = solve(&problem, &settings).unwrap();
        seconds.push(started.elapsed().as_secs_f64());
        assert_eq!(run.outcome, Outcome::Complete);
        last = Some(run);
    }
    let run = last.unwrap();
    let shared = run.mesh.shared_nodes();
    let eight: Vec<&[usize]> = run.mesh.elements.iter().map(|element| &element[..8]).collect();
    let curve: Vec<[f64; 2]> =
        run.steps.iter().map(|s| [s.travel_mm, s.walls[1].force_z_n_per_mm]).collect();
    println!("{{");
    entry("nodes", &run.mesh.nodes[..shared], ",");
    entry("elements", &eight, ",");
    entry("boundary", &run.mesh.boundary, ",");
    entry("curve", &curve, ",");
    entry("newton_iterations", &run.newton_iterations, ",");
    entry("seconds", &seconds, "");
    println!("}}");
}

fn entry(name: &str, value: &(impl Debug + ?Sized), end: &str) {
    println!("\"{name}\": {value:?}{end}");
}
