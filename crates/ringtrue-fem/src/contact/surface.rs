//! Rigid walls: where a point stands relative to a profile of lines and arcs.

use crate::mesh::{Piece, fillet};
use crate::problem::{Extent, Wall};

/// How a point stands to a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Standing {
    /// Distance from the wall, negative inside it, mm.
    pub(crate) gap: f64,
    /// Unit normal towards the rubber and unit tangent along the walk.
    pub(crate) normal: [f64; 2],
    pub(crate) tangent: [f64; 2],
    /// Length along the profile at the nearest point, mm.
    pub(crate) along: f64,
    /// `d along = stretch * tangent . dx`: 1 on lines, radius over distance on arcs.
    pub(crate) stretch: f64,
    /// The gap's second derivative along the tangent, 1/mm.
    pub(crate) curvature: f64,
}

/// A stretch of profile without sharp hollow corners.
#[derive(Debug, Clone)]
struct Chain {
    features: Vec<Feature>,
}

#[derive(Debug, Clone, Copy)]
struct Feature {
    piece: Piece,
    /// Profile length at its start, mm.
    start: f64,
    /// How far it goes on before its start and past its end, mm; only for lines.
    before: f64,
    after: f64,
}

/// A wall's profile, ready for queries. Positions are relative to the wall's own start.
#[derive(Debug, Clone)]
pub(crate) struct Surface {
    chains: Vec<Chain>,
}

impl Surface {
    /// Builds the profile. Sharp corners that protrude into the rubber get a radius of at least
    /// `least_radius`, mm: a normal must exist everywhere.
    pub(crate) fn new(wall: &Wall, least_radius: f64) -> Result<Self, String> {
        let profile = &wall.profile;
        let n = profile.len();
        let mut chains = Vec::new();
        let mut features: Vec<Feature> = Vec::new();
        let (mut start, mut from, mut used) = (0.0, profile[0], 0.0);
        let far = match wall.extent {
            Extent::Bounded => 0.0,
            Extent::Unbounded => f64::INFINITY,
        };
        let mut before = far;
        for k in 1..n {
            let (a, b) = (profile[k - 1], profile[k]);
            let side = (b[0] - a[0]).hypot(b[1] - a[1]);
            let asked = wall.fillets.get(k - 1).copied().unwrap_or(0.0);
            if asked < 0.0 {
                return Err(format!("fillet {k} has a negative radius"));
            }
            let corner = (k + 1 < n).then(|| {
                let c = profile[k + 1];
                let protrudes = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) < 0.0;
                fillet(a, b, c, if protrudes { asked.max(least_radius) } else { asked })
            });
            let setback = corner.map_or(0.0, |c| c.setback);
            let rest = side - used - setback;
            if side <= 0.0 || rest < -1e-9 * side {
                return Err(format!(
                    "the segment from point {k} to point {} is {side:.4} mm long, too short for \
                     its fillets",
                    k + 1
                ));
            }
            let to = corner.map_or(b, |c| c.start);
            let after = if k + 1 < n { 0.0 } else { far };
            features.push(Feature { piece: Piece::Line { from, to }, start, before, after });
            start += rest;
            before = 0.0;
            let Some(corner) = corner else { continue };
            if let Some(arc) = corner.arc {
                features.push(Feature { piece: arc, start, before: 0.0, after: 0.0 });
                start += arc.length();
            } else if is_hollow(a, b, profile[k + 1]) {
                // Both sides of a sharp hollow corner bear at once: each goes on into the other.
                if let Some(last) = features.last_mut() {
                    last.after = rest;
                }
                chains.push(Chain { features: std::mem::take(&mut features) });
                let c = profile[k + 1];
                before = (c[0] - b[0]).hypot(c[1] - b[1]);
            }
            (from, used) = (corner.end, setback);
        }
        chains.push(Chain { features });
        Ok(Self { chains })
    }

    /// Number of chains: a point can bear on each at once.
    pub(crate) fn chains(&self) -> usize {
        self.chains.len()
    }

    /// Where `x` stands to chain `chain`; `None` beyond the ends of a bounded wall.
    #[inline]
    pub(crate) fn standing(&self, chain: usize, x: [f64; 2]) -> Option<Standing> {
        let features = &self.chains[chain].features;
        let mut best: Option<Standing> = None;
        for feature in features {
            if let Some(s) = feature.standing(x)
                && best.is_none_or(|b| s.gap.abs() < b.gap.abs())
            {
                best = Some(s);
            }
        }
        best
    }

    /// Smallest distance from `x` to the wall over its chains, and the direction to it.
    pub(crate) fn nearest(&self, x: [f64; 2]) -> Option<Standing> {
        (0..self.chains.len())
            .filter_map(|c| self.standing(c, x))
            .min_by(|a, b| a.gap.total_cmp(&b.gap))
    }
}

fn is_hollow(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> bool {
    (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > 0.0
}

impl Feature {
    #[inline]
    fn standing(&self, x: [f64; 2]) -> Option<Standing> {
        match self.piece {
            Piece::Line { from, to } => self.on_line(from, to, x),
            Piece::Arc { centre, radius, start, sweep } => {
                self.on_arc((centre, radius), (start, sweep), x)
            }
        }
    }

    #[inline]
    fn on_line(&self, from: [f64; 2], to: [f64; 2], x: [f64; 2]) -> Option<Standing> {
        let d = [to[0] - from[0], to[1] - from[1]];
        let length = (d[0] * d[0] + d[1] * d[1]).sqrt();
        let t = if length > 0.0 { [d[0] / length, d[1] / length] } else { return None };
        let p = [x[0] - from[0], x[1] - from[1]];
        let along = p[0] * t[0] + p[1] * t[1];
        if along < -self.before || along > length + self.after {
            return None;
        }
        let normal = [-t[1], t[0]];
        Some(Standing {
            gap: p[0] * normal[0] + p[1] * normal[1],
            normal,
            tangent: t,
            along: self.start + along,
            stretch: 1.0,
            curvature: 0.0,
        })
    }

    /// A right turn protrudes into the rubber (centre inside the wall), a left turn is hollow.
    #[inline]
    fn on_arc(
        &self,
        (centre, radius): ([f64; 2], f64),
        (start, sweep): (f64, f64),
        x: [f64; 2],
    ) -> Option<Standing> {
        let p = [x[0] - centre[0], x[1] - centre[1]];
        let rho = p[0].hypot(p[1]);
        let turned = sweep.signum() * (p[1].atan2(p[0]) - start);
        let turned = turned.rem_euclid(std::f64::consts::TAU);
        // A hair beyond either end still counts, so that no ray between two features is lost.
        let slack = 1e-9;
        let turned = if turned > std::f64::consts::TAU - slack { 0.0 } else { turned };
        if turned > sweep.abs() + slack || rho <= 0.0 {
            return None;
        }
        let out = [p[0] / rho, p[1] / rho];
        let side = -sweep.signum();
        Some(Standing {
            gap: side * (rho - radius),
            normal: [side * out[0], side * out[1]],
            tangent: [side * out[1], -side * out[0]],
            along: self.start + radius * turned,
            stretch: radius / rho,
            curvature: side / rho,
        })
    }
}
