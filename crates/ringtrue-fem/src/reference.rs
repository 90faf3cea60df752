//! Problems whose answer is known from elsewhere, and the closed forms of some of them: what tests,
//! benches and the validation page solve. Rubber is the reference's: neo-Hooke, `mu` 1 MPa, `bulk`
//! 2000 MPa, a section of 12 mm, unless said otherwise.

use crate::material::{Material, NeoHooke, SaintVenantKirchhoff};
use crate::problem::{Axis, Extent, Friction, Problem, Section, Shape, Symmetry, Wall};

/// Diameter of the reference's round section, mm.
pub const SECTION: f64 = 12.0;
/// Mean radius of the reference's ring, mm.
pub const RADIUS: f64 = 120.0;

/// A wall through two points, without end; the rubber is on the left of the way from `from` to
/// `to`.
#[must_use]
pub fn line(name: &str, from: [f64; 2], to: [f64; 2], motion: [f64; 2]) -> Wall {
    Wall {
        name: name.to_owned(),
        profile: vec![from, to],
        fillets: Vec::new(),
        extent: Extent::Unbounded,
        path: vec![motion],
        friction: None,
    }
}

/// The reference's round section between `walls`: a ring of this mean radius in mm, or, where there
/// is none, a bar that cannot wander sideways.
#[must_use]
pub fn round(mean_radius: Option<f64>, friction: Friction, walls: Vec<Wall>) -> Problem {
    Problem {
        symmetry: match mean_radius {
            Some(_) => Symmetry::Axisymmetric,
            None => Symmetry::PlaneStrain,
        },
        steps: 36,
        hold: match mean_radius {
            Some(_) => Vec::new(),
            None => vec![Axis::R],
        },
        section: Section { shape: Shape::Round { diameter: SECTION }, mean_radius },
        prestretch: None,
        material: Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 2000.0 }),
        friction,
        walls,
    }
}

/// The round section between two flat plates that come closer by `approach` mm.
#[must_use]
pub fn plates(mean_radius: Option<f64>, friction: Friction, approach: f64) -> Problem {
    let half = 0.5 * SECTION;
    let walls = vec![
        line("lower", [0.0, -half], [1.0, -half], [0.0, 0.0]),
        line("upper", [1.0, half], [0.0, half], [0.0, -approach]),
    ];
    round(mean_radius, friction, walls)
}

/// The ring between two cone ramps, 15 degrees to the axis; the inner one moves by 9 mm.
///
/// ```text
///        \  ( )\      housing ramp fixed, outside; ring ramp inside moves up:
///         \     \     the section is squeezed and rolls
/// ```
#[must_use]
pub fn two_cones(friction: Friction) -> Problem {
    let (sin, cos) = 15.0_f64.to_radians().sin_cos();
    let half = 0.5 * SECTION;
    let (housing, ring, slope) = (RADIUS + half / cos, RADIUS - half / cos, 10.0 * sin / cos);
    let walls = vec![
        line("housing", [housing, 0.0], [housing - slope, 10.0], [0.0, 0.0]),
        line("ring", [ring, 0.0], [ring + slope, -10.0], [0.0, 9.0]),
    ];
    round(Some(RADIUS), friction, walls)
}

/// A tube from `inner` to `outer` radius, its length `height`, all mm: smooth end plates hold its
/// length, a smooth wall narrows its rim by `shrinkage`.
#[must_use]
pub fn tube(material: Material, [inner, outer, height, shrinkage]: [f64; 4]) -> Problem {
    let half = 0.5 * height;
    let walls = vec![
        line("rim", [outer, 0.0], [outer, 1.0], [-shrinkage, 0.0]),
        line("lower", [0.0, -half], [1.0, -half], [0.0, 0.0]),
        line("upper", [1.0, half], [0.0, half], [0.0, 0.0]),
    ];
    upright([inner, outer, height], (material, Friction::Coulomb(0.0)), walls)
}

/// A disc of `radius` and `height` mm bonded between plates that come closer by the share `strain`
/// of its height; incompressible rubber of `mu` 1 MPa.
#[must_use]
pub fn bonded_disc([radius, height]: [f64; 2], strain: f64) -> Problem {
    let half = 0.5 * height;
    let walls = vec![
        line("lower", [0.0, -half], [1.0, -half], [0.0, 0.0]),
        line("upper", [1.0, half], [0.0, half], [0.0, -strain * height]),
    ];
    let material = Material::NeoHooke(NeoHooke { mu: 1.0, bulk: 1e6 });
    Problem { steps: 2, ..upright([0.0, radius, height], (material, Friction::NoSlip), walls) }
}

/// A ring of rectangular section from `inner` to `outer` radius.
fn upright(
    [inner, outer, height]: [f64; 3],
    (material, friction): (Material, Friction),
    walls: Vec<Wall>,
) -> Problem {
    let (half, rim) = (0.5 * height, 0.5 * (outer - inner));
    Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 10,
        hold: Vec::new(),
        section: Section {
            shape: Shape::Polygon {
                corners: vec![[-rim, -half], [rim, -half], [rim, half], [-rim, half]],
                corner_radius: 0.0,
            },
            mean_radius: Some(0.5 * (inner + outer)),
        },
        prestretch: None,
        material,
        friction,
        walls,
    }
}

/// The ring of mean radius 90 mm turned inside out between two sticking cylinders, a light grip
/// (0.12 mm) and then a motion of 24 mm: about 115 degrees.
#[must_use]
pub fn everting() -> Problem {
    let (radius, half) = (90.0, 0.5 * SECTION);
    let mut walls = vec![
        line("outer", [radius + half, 0.0], [radius + half, 1.0], [0.0, 0.0]),
        line("inner", [radius - half, 1.0], [radius - half, 0.0], [0.0, 0.0]),
    ];
    walls[1].path = vec![[EVERTING_GRIP, 0.0], [EVERTING_GRIP, 24.0]];
    Problem { steps: 80, ..round(Some(radius), Friction::NoSlip, walls) }
}

/// Grip of [`everting`], mm.
pub const EVERTING_GRIP: f64 = 0.12;

/// Outline of a steel disc spring.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DiscSection {
    /// The rectangle turned by the cone angle, as real ones are.
    Turned,
    /// The parallelogram with upright ends.
    UprightEnds,
}

/// Sizes of a disc spring, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiscSize {
    /// Outside diameter De: of the upper outer corner.
    pub outside: f64,
    /// Inside diameter Di: of the lower inner corner.
    pub inside: f64,
    /// Thickness t.
    pub thickness: f64,
    /// Height h0 of the free cone.
    pub cone: f64,
}

/// The reference's disc spring.
pub const DISC: DiscSize = DiscSize { outside: 125.0, inside: 64.0, thickness: 5.0, cone: 3.5 };

/// A disc spring pressed flat at its diagonal corner circles, without friction.
///
/// The walls are narrow lands under and over the two corners: on wide flats the bent section would
/// touch beside the corners before it is flat, and the lever arm would shrink.
#[must_use]
pub fn disc_spring(section: DiscSection, size: DiscSize) -> Problem {
    let DiscSize { outside, inside, thickness, cone } = size;
    let (low, high) = (0.5 * inside, 0.5 * outside);
    let corners = match section {
        DiscSection::Turned => turned_corners(size),
        DiscSection::UprightEnds => {
            [[low, cone], [high, 0.0], [high, thickness], [low, cone + thickness]]
        }
    };
    let centre = [0, 1].map(|c| corners.iter().map(|x| x[c]).sum::<f64>() / 4.0);
    let shape = Shape::Polygon {
        corners: corners.iter().map(|x| [x[0] - centre[0], x[1] - centre[1]]).collect(),
        corner_radius: 0.0,
    };
    let support = [corners[1][0], corners[1][1] - centre[1]];
    let load = [corners[3][0], corners[3][1] - centre[1]];
    Problem {
        symmetry: Symmetry::Axisymmetric,
        steps: 14,
        hold: Vec::new(),
        section: Section { shape, mean_radius: Some(centre[0]) },
        prestretch: None,
        material: Material::SaintVenantKirchhoff(SaintVenantKirchhoff {
            young: 206e3,
            poisson: 0.3,
        }),
        friction: Friction::Coulomb(0.0),
        walls: vec![
            land("support", support, thickness, [0.0, 0.0]),
            land("load", load, thickness, [0.0, -cone]),
        ],
    }
}

/// Corners `(r, z)`: lower inner, lower outer, upper outer, upper inner; the inner side stands
/// high. With `L` the length of the section: `L cos + t sin = (De - Di)/2`, `L sin + t cos = h0 +
/// t`.
fn turned_corners(DiscSize { outside, inside, thickness, cone }: DiscSize) -> [[f64; 2]; 4] {
    let (width, height) = (0.5 * (outside - inside), cone + thickness);
    let length = |angle: f64| (width - thickness * angle.sin()) / angle.cos();
    let (mut low, mut high) = (0.0_f64, 0.5_f64);
    for _ in 0..60 {
        let angle = 0.5 * (low + high);
        let reached = length(angle) * angle.sin() + thickness * angle.cos();
        if reached < height { low = angle } else { high = angle }
    }
    let (sin, cos) = low.sin_cos();
    let length = length(low);
    let (inner, outer) = ([0.5 * inside, length * sin], [0.5 * inside + length * cos, 0.0]);
    let up = |x: [f64; 2]| [x[0] + thickness * sin, x[1] + thickness * cos];
    [inner, outer, up(outer), up(inner)]
}

/// A bounded land at a corner `(r, z)`: 0.004 thicknesses under the section, 0.3 beside it, where
/// the corner goes. The support faces up under the outer corner, the moving land down over the
/// inner one.
fn land(name: &str, [r, z]: [f64; 2], thickness: f64, motion: [f64; 2]) -> Wall {
    let (under, beside) = (0.004 * thickness, 0.3 * thickness);
    let (from, to) =
        if motion[1] < 0.0 { (r + under, r - beside) } else { (r - under, r + beside) };
    Wall { extent: Extent::Bounded, ..line(name, [from, z], [to, z], motion) }
}

/// Radial displacement at `r`, mm, of an elastic tube `[inner, outer]` held in its length, under
/// inner and outer pressure, MPa; `[young, poisson]`.
///
/// G. Lame's solution, S.P. Timoshenko, J.N. Goodier, Theory of Elasticity (from memory).
#[must_use]
pub fn lame([a, b]: [f64; 2], [pi, po]: [f64; 2], [young, nu]: [f64; 2], r: f64) -> f64 {
    let (a2, b2) = (a * a, b * b);
    let uniform = (1.0 - 2.0 * nu) * (pi * a2 - po * b2) * r;
    (1.0 + nu) / (young * (b2 - a2)) * (uniform + (pi - po) * a2 * b2 / r)
}

/// Inner less outer pressure over `mu` of an incompressible neo-Hookean tube `[inner, outer]`, held
/// in its length, when its bore goes to `now`:
/// `p = ln(la/lb) + (lb^-2 - la^-2)/2`, `la = a/A`, `lb = b/B`, `b^2 = B^2 + a^2 - A^2`.
///
/// R.S. Rivlin, Phil. Trans. R. Soc. A 242 (1949) 173 (from memory).
#[must_use]
pub fn rivlin([inner, outer]: [f64; 2], now: f64) -> f64 {
    let la = now / inner;
    let lb = rim_of_tube([inner, outer], now) / outer;
    (la / lb).ln() + 0.5 * (lb.powi(-2) - la.powi(-2))
}

/// Outer radius of an incompressible tube held in its length when its bore goes to `now`, mm.
#[must_use]
pub fn rim_of_tube([inner, outer]: [f64; 2], now: f64) -> f64 {
    (outer * outer + now * now - inner * inner).sqrt()
}

/// Approach of two smooth flats, mm, that squeeze a long cylinder of radius `radius` mm with
/// `force` N/mm; `modulus` is `E/(1 - nu^2)`, MPa. For contacts small beside the radius.
///
/// `(4 F / (pi E*)) (ln(4 R/b) - 1/2)`, `b^2 = 4 F R / (pi E*)`: K.L. Johnson, Contact Mechanics
/// (1985), sections 4.2 and 5.6 (from memory).
#[must_use]
pub fn johnson_approach(force: f64, radius: f64, modulus: f64) -> f64 {
    let b = hertz_half_width(force, radius, modulus);
    4.0 * force / (std::f64::consts::PI * modulus) * ((4.0 * radius / b).ln() - 0.5)
}

/// Half width of a line contact, mm; see [`johnson_approach`].
#[must_use]
pub fn hertz_half_width(force: f64, radius: f64, modulus: f64) -> f64 {
    (4.0 * force * radius / (std::f64::consts::PI * modulus)).sqrt()
}

/// Force over `E d` and length of a round-section ring squeezed by the share `c` of its diameter
/// between smooth flats, free to grow: `1.25 c^1.5 + 50 c^6`, for 10 to 30 % squeeze.
///
/// P.B. Lindley, J. IRI 1 (1967) 209 (from memory).
#[must_use]
pub fn lindley(c: f64) -> f64 {
    1.25 * c.powf(1.5) + 50.0 * c.powi(6)
}

/// Moment per mm of circumference, N, that holds a thin ring of round section turned by `angle`
/// rad: `E I / R^2 sin(angle)`, `I = pi d^4 / 64`.
///
/// For small angles `theta = M a^2 / (E I)`: S.P. Timoshenko, Strength of Materials II, ring
/// twisted by uniform couples (from memory). For large ones the hoop strain at a point turned by
/// `phi` is `rho (sin(a + phi) - sin a)/R`, whose energy gives `sin(phi)`.
#[must_use]
pub fn everting_moment(young: f64, diameter: f64, radius: f64, angle: f64) -> f64 {
    let inertia = std::f64::consts::PI * diameter.powi(4) / 64.0;
    young * inertia / (radius * radius) * angle.sin()
}
