//! Steel conical disc spring loaded at its diagonal corner circles, against other codes' curves.
//! Source: `validation/reference/mechanics/README.md`: De 125, Di 64, t 5, h0 3.5 mm.

use ringtrue_fem::Problem;
use ringtrue_fem::reference::{DISC, DiscSection, disc_spring};

use crate::curve::{Curve, meets, run};

fn compare(problem: &Problem, file: &str) {
    let run = run(problem, Some(1.0));
    let curve = Curve::read(file);
    let [s, force, band] = ["s_mm", "force_N", "err_pct"].map(|c| curve.column(c));
    for row in curve.rows() {
        let step = run.steps.iter().find(|k| (k.travel_mm - row[s]).abs() < 1e-9).unwrap();
        let total = -step.walls[1].force_z_n_per_mm
            * std::f64::consts::TAU
            * problem.section.mean_radius.unwrap();
        // Ours: the load at a sharp corner sinks in with a weak, logarithmic mesh dependence.
        meets(&format!("{file} at {}", row[s]), total, row[force], row[band] + 0.2);
    }
}

#[test]
fn rectangle_turned_by_the_cone_angle() {
    compare(&disc_spring(DiscSection::Turned, DISC), "disc_spring_rectangular.csv");
}

#[test]
fn parallelogram_with_upright_ends() {
    compare(&disc_spring(DiscSection::UprightEnds, DISC), "disc_spring_vertical_ends.csv");
}
