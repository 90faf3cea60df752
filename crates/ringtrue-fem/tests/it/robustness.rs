//! Random seals' ramps: every run reaches its end unaided, in bounded time, without a false jump.
//!
//! Ranges: ramp 5 to 30 degrees (a third of them unequal), section 5 to 25 mm, ring 40 to 900 mm,
//! modulus 1 to 8 MPa, friction 0.05 to infinite, up to 35 % squeeze. The seed is fixed.

use std::f64::consts::PI;

use ringtrue_fem::material::{Material, MooneyRivlin, NeoHooke, Yeoh};
use ringtrue_fem::{
    ErrorEstimate, Extent, Friction, Outcome, Problem, Section, Settings, Shape, Symmetry, Wall,
    solve,
};

/// G. Marsaglia's xorshift, J. Stat. Softw. 8 (2003) no. 14 (from memory): enough to scatter cases.
pub(crate) struct Scatter(pub(crate) u64);

impl Scatter {
    pub(crate) fn unit(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn even(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.unit()
    }

    /// Even in the logarithm.
    pub(crate) fn scaled(&mut self, from: f64, to: f64) -> f64 {
        self.even(from.ln(), to.ln()).exp()
    }
}

fn material(which: f64, mu: f64) -> Material {
    let bulk = 2000.0;
    if which < 1.0 / 3.0 {
        Material::NeoHooke(NeoHooke { mu, bulk })
    } else if which < 2.0 / 3.0 {
        Material::MooneyRivlin(MooneyRivlin { c10: 0.4 * mu, c01: 0.1 * mu, bulk })
    } else {
        Material::Yeoh(Yeoh { c10: 0.5 * mu, c20: -0.03 * mu, c30: 0.003 * mu, bulk })
    }
}

fn random(scatter: &mut Scatter) -> Problem {
    let alpha = scatter.even(5.0, 30.0);
    let unequal = scatter.unit() < 1.0 / 3.0;
    let other = (alpha + scatter.even(-5.0, 5.0)).clamp(5.0, 30.0);
    let beta = if unequal { other } else { alpha };
    let diameter = scatter.scaled(5.0, 25.0);
    let radius = (0.5 * scatter.scaled(40.0, 900.0)).max(1.5 * diameter);
    let modulus = scatter.scaled(1.0, 8.0);
    let coefficient = scatter.scaled(0.05, 2.0);
    let friction =
        if coefficient > 1.0 { Friction::NoSlip } else { Friction::Coulomb(coefficient) };
    let squeeze = scatter.even(0.1, 0.35);
    let (a, b) = (alpha.to_radians(), beta.to_radians());
    let travel = 2.0 * squeeze * diameter / (a.sin() + b.sin());
    let wall = |name: &str, side: f64, angle: f64, path: Vec<[f64; 2]>| {
        let touch = radius + side * 0.5 * diameter / angle.cos();
        Wall {
            name: name.to_owned(),
            profile: vec![[touch, 0.0], [touch - side * 10.0 * angle.tan(), side * 10.0]],
            fillets: Vec::new(),
            extent: Extent::Unbounded,
            path,
            friction: None,
        }
    };
    Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 36,
        hold: Vec::new(),
        section: Section { shape: Shape::Round { diameter }, mean_radius: Some(radius) },
        prestretch: None,
        material: material(scatter.unit(), modulus / 3.0),
        friction,
        walls: vec![
            wall("housing", 1.0, a, Vec::new()),
            wall("ring", -1.0, b, vec![[0.0, travel]]),
        ],
    }
}

#[test]
fn random_ramps_run_to_the_end() {
    let mut scatter = Scatter(0x5EA1_0000_2025);
    for k in 0..16 {
        let problem = random(&mut scatter);
        let Shape::Round { diameter } = problem.section.shape else { panic!("not round") };
        let settings = Settings {
            mesh_size: Some(PI * diameter / 96.0),
            error_estimate: ErrorEstimate::None,
            max_iterations: 1500,
        };
        let run = solve(&problem, &settings).unwrap();
        assert_eq!(run.outcome, Outcome::Complete, "case {k}: {problem:?}");
        assert!(run.jumps.is_empty(), "case {k} jumps at {:?}: {problem:?}", run.jumps);
        let force: Vec<f64> = run.steps.iter().map(|s| s.walls[1].force_z_n_per_mm).collect();
        let end = force[force.len() - 1];
        for w in force.windows(4) {
            // Eight times the ripple of a step, at worst.
            let third = w[3] - 3.0 * w[2] + 3.0 * w[1] - w[0];
            assert!(third.abs() < 0.03 * end, "case {k}: a kink, {w:?} of {end}: {problem:?}");
        }
    }
}
