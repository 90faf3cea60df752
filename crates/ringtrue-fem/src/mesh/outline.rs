//! Outlines of straight sides and round corners.

/// One piece of an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Piece {
    Line {
        from: [f64; 2],
        to: [f64; 2],
    },
    /// Arc about `centre` from angle `start` by `sweep` (radians, counter-clockwise positive).
    Arc {
        centre: [f64; 2],
        radius: f64,
        start: f64,
        sweep: f64,
    },
}

impl Piece {
    pub(crate) fn length(&self) -> f64 {
        match *self {
            Self::Line { from, to } => (to[0] - from[0]).hypot(to[1] - from[1]),
            Self::Arc { radius, sweep, .. } => radius * sweep.abs(),
        }
    }

    /// Point at `share` of the length, 0 to 1.
    pub(crate) fn at(&self, share: f64) -> [f64; 2] {
        match *self {
            Self::Line { from, to } => [0, 1].map(|i| from[i] + share * (to[i] - from[i])),
            Self::Arc { centre, radius, start, sweep } => {
                let angle = start + share * sweep;
                [centre[0] + radius * angle.cos(), centre[1] + radius * angle.sin()]
            }
        }
    }
}

/// A closed outline, counter-clockwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    pub(crate) pieces: Vec<Piece>,
}

impl Outline {
    /// The polygon through `corners` (counter-clockwise, mm) with each corner rounded to `radius`.
    ///
    /// # Errors
    /// Says in words which corner has no room for the radius, or that the walk is clockwise.
    pub fn rounded(corners: &[[f64; 2]], radius: f64) -> Result<Self, String> {
        let n = corners.len();
        if n < 3 {
            return Err(format!("{n} corners do not make a section; it takes at least 3"));
        }
        if signed_area(corners) <= 0.0 {
            return Err("walk the corners counter-clockwise (r to the right, z up)".to_owned());
        }
        let mut cuts = Vec::with_capacity(n);
        for i in 0..n {
            let (a, b, c) = (corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]);
            cuts.push(fillet(a, b, c, radius));
        }
        let mut pieces = Vec::with_capacity(2 * n);
        for i in 0..n {
            let j = (i + 1) % n;
            let side = (corners[j][0] - corners[i][0]).hypot(corners[j][1] - corners[i][1]);
            let rest = side - cuts[i].setback - cuts[j].setback;
            if side <= 0.0 || rest < -1e-9 * side {
                return Err(format!(
                    "the side from corner {} to corner {} is {side:.4} mm long, too short for \
                     corner radii of {radius} mm",
                    i + 1,
                    j + 1
                ));
            }
            pieces.extend(cuts[i].arc);
            if rest > 1e-9 * side {
                pieces.push(Piece::Line { from: cuts[i].end, to: cuts[j].start });
            }
        }
        Ok(Self { pieces })
    }
}

/// Twice-signed area halved: positive when counter-clockwise, mm^2.
pub(crate) fn signed_area(corners: &[[f64; 2]]) -> f64 {
    let n = corners.len();
    (0..n)
        .map(|i| {
            let (a, b) = (corners[i], corners[(i + 1) % n]);
            0.5 * (a[0] * b[1] - a[1] * b[0])
        })
        .sum()
}

/// A rounded corner.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Fillet {
    /// Where the arc starts and ends; the corner itself when it is sharp or straight.
    pub(crate) start: [f64; 2],
    pub(crate) end: [f64; 2],
    /// Length taken from each of the two sides, mm.
    pub(crate) setback: f64,
    pub(crate) arc: Option<Piece>,
}

/// Rounds the corner `b` between `a` and `c` with `radius`.
pub(crate) fn fillet(a: [f64; 2], b: [f64; 2], c: [f64; 2], radius: f64) -> Fillet {
    let unit = |p: [f64; 2], q: [f64; 2]| {
        let (x, y) = (q[0] - p[0], q[1] - p[1]);
        let l = x.hypot(y).max(f64::MIN_POSITIVE);
        [x / l, y / l]
    };
    let (u, v) = (unit(a, b), unit(b, c));
    let turn = (u[0] * v[1] - u[1] * v[0]).atan2(u[0] * v[0] + u[1] * v[1]);
    if radius <= 0.0 || turn.abs() < 1e-9 {
        return Fillet { start: b, end: b, setback: 0.0, arc: None };
    }
    let setback = radius * (0.5 * turn).abs().tan();
    let start = [b[0] - setback * u[0], b[1] - setback * u[1]];
    let end = [b[0] + setback * v[0], b[1] + setback * v[1]];
    // The centre lies to the left of the walk for a left turn, to the right for a right turn.
    let side = turn.signum();
    let centre = [start[0] - side * radius * u[1], start[1] + side * radius * u[0]];
    let angle = (start[1] - centre[1]).atan2(start[0] - centre[0]);
    Fillet {
        start,
        end,
        setback,
        arc: Some(Piece::Arc { centre, radius, start: angle, sweep: turn }),
    }
}
