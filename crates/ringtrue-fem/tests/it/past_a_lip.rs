//! A round section, stretched over a ring's ramp, pressed past a retaining lip by a flat tool: it
//! slides over a line-arc-line wall, snaps behind it and is free. What holds without any other
//! code: energy, the order of the pushes, and that a run finds its way through.
//!
//! ```text
//!    ring \        the lip stands above and outside; ring and tool carry the
//!     ramp \ (  ) <   section up past its nose
//!           \ ====
//!             tool
//! ```

use std::f64::consts::PI;

use ringtrue_fem::reference::round;
use ringtrue_fem::{
    ErrorEstimate, Extent, Friction, Outcome, Prestretch, Problem, Run, Settings, Shape, Wall,
    solve,
};

use crate::robustness::Scatter;

const STEPS: usize = 24;
/// Boundary edges round the section.
const EDGES: f64 = 96.0;

/// Lengths in mm, angle in degrees.
#[derive(Debug, Clone, Copy)]
struct Lip {
    section: f64,
    mean_radius: f64,
    ramp: f64,
    nose: f64,
    /// How much lower the nose stands than the section's outermost point.
    interference: f64,
    hoop_stretch: f64,
    friction: Friction,
    /// Friction of ring and tool.
    carrier: Friction,
}

const USUAL: Lip = Lip {
    section: 12.0,
    mean_radius: 114.0,
    ramp: 15.0,
    nose: 2.0,
    interference: 0.8,
    hoop_stretch: 1.03,
    friction: Friction::Coulomb(0.3),
    carrier: Friction::NoSlip,
};

fn problem(lip: &Lip) -> Problem {
    let (d, mean) = (lip.section, lip.mean_radius);
    let wall = |name: &str, profile: Vec<[f64; 2]>, (fillets, path), friction| Wall {
        name: name.to_owned(),
        profile,
        fillets,
        extent: Extent::Bounded,
        path,
        friction: Some(friction),
    };
    let angle = lip.ramp.to_radians();
    let ramp = |z: f64| mean - 0.5 * d / angle.cos() - z * angle.tan();
    // The nose's centre, where section and nose just touch.
    let across = 0.5 * d - lip.interference + lip.nose;
    let above = ((0.5 * d + lip.nose).powi(2) - across.powi(2)).sqrt();
    let corner = mean + across - lip.nose * 2.0_f64.sqrt();
    let (far, floor, edge) = (2.0 * d, -0.5 * d, mean + 0.33 * d);
    let mut problem = round(
        Some(mean),
        lip.friction,
        vec![
            wall(
                "lip",
                vec![[corner + far, above - far], [corner, above], [corner + far, above + far]],
                (vec![lip.nose], vec![[0.0, -2.2 * above]]),
                lip.friction,
            ),
            wall("ring", vec![[ramp(far), far], [ramp(-far), -far]], (vec![], vec![]), lip.carrier),
            wall(
                "tool",
                vec![[mean - 0.7 * d, floor], [edge, floor], [edge, floor - d]],
                (vec![0.08 * d], vec![]),
                lip.carrier,
            ),
        ],
    );
    problem.section.shape = Shape::Round { diameter: d };
    problem.steps = STEPS;
    problem.prestretch =
        Some(Prestretch { hoop_stretch: lip.hoop_stretch, over: 1.0 / STEPS as f64 });
    problem
}

fn run(lip: &Lip) -> Run {
    let settings = Settings {
        mesh_size: Some(PI * lip.section / EDGES),
        error_estimate: ErrorEstimate::None,
        max_iterations: 4000,
    };
    solve(&problem(lip), &settings).unwrap()
}

/// Push at each step, N per mm.
fn pushes(run: &Run) -> Vec<f64> {
    run.steps.iter().map(|s| -s.walls[0].force_z_n_per_mm).collect()
}

fn most(pushes: &[f64]) -> f64 {
    pushes.iter().copied().fold(0.0, f64::max)
}

#[test]
fn more_friction_takes_more_push_and_all_get_past() {
    let mut before = 0.0;
    for friction in [0.1, 0.3, 0.5] {
        let run = run(&Lip { friction: Friction::Coulomb(friction), ..USUAL });
        assert_eq!(run.outcome, Outcome::Complete, "{friction}");
        let pushes = pushes(&run);
        let push = most(&pushes);
        assert!(push > 1.2 * before, "{friction}: {push} after {before}");
        // Behind the lip nothing pushes any more.
        assert!(pushes[STEPS - 1].abs() < 1e-3 * push, "{pushes:?}");
        before = push;
    }
}

/// Without friction at the lip, and with ring and tool at rest, the lip's work is all that goes in.
#[test]
fn without_friction_the_lip_s_work_is_the_energy() {
    let lip = Lip { friction: Friction::Coulomb(0.0), ..USUAL };
    let mut problem = problem(&lip);
    problem.prestretch = None;
    problem.steps = 96;
    let settings = Settings {
        mesh_size: Some(PI * lip.section / EDGES),
        error_estimate: ErrorEstimate::None,
        max_iterations: 4000,
    };
    let run = solve(&problem, &settings).unwrap();
    // On the way up to the nose nothing snaps, and all work is kept.
    let last = &run.steps[7];
    assert!(run.jumps.iter().all(|jump| *jump > last.fraction));
    let (work, energy) = (last.wall_work_n_mm_per_mm, last.strain_energy_n_mm_per_mm);
    // The trapezoidal rule over the steps.
    assert!((work / energy - 1.0).abs() < 0.005, "{work} {energy}");
    // From then on it may lose some, never gain it.
    for pair in run.steps.windows(2) {
        let put_in = pair[1].wall_work_n_mm_per_mm - pair[0].wall_work_n_mm_per_mm;
        let gained = pair[1].strain_energy_n_mm_per_mm - pair[0].strain_energy_n_mm_per_mm;
        assert!(gained < put_in + 0.01 * energy, "{gained} {put_in} at {}", pair[1].fraction);
    }
    // Behind the lip nothing of it is left.
    let end = run.steps.last().unwrap();
    assert!(end.strain_energy_n_mm_per_mm < 1e-3 * energy);
}

#[test]
fn random_lips_find_their_push() {
    let mut scatter = Scatter(0x5EA1_0000_2026);
    let mut through = 0;
    for k in 0..10 {
        let section = scatter.scaled(5.0, 25.0);
        let friction = Friction::Coulomb(scatter.even(0.1, 0.5));
        let lip = Lip {
            section,
            mean_radius: (0.5 * scatter.scaled(60.0, 900.0)).max(2.0 * section),
            ramp: scatter.even(8.0, 18.0),
            nose: section * scatter.scaled(0.1, 0.4),
            interference: section * scatter.even(0.02, 0.08),
            hoop_stretch: scatter.even(1.01, 1.05),
            friction,
            carrier: if scatter.unit() < 0.5 { Friction::NoSlip } else { friction },
        };
        let run = run(&lip);
        let pushes = pushes(&run);
        let push = most(&pushes);
        let past = pushes.iter().skip_while(|p| **p < push).any(|p| *p < 0.8 * push);
        assert!(push > 0.0 && past, "case {k}: {lip:?}: {:?} {pushes:?}", run.outcome);
        through += usize::from(run.outcome == Outcome::Complete);
    }
    assert!(through >= 8, "{through} of 10 ran to the end");
}
