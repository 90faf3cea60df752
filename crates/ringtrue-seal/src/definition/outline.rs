//! The section outline of a conical washer: a simple polygon, counter-clockwise.

use ringtrue_metrology::units::{Given, Length, Quantity};
use ringtrue_words::say;

use super::Misfit;

/// Most corners of an outline.
const MOST_CORNERS: usize = 200;

type Corner = [f64; 2];

/// At least three corners at positive radius, counter-clockwise, no side crossing another.
pub(super) fn consistent(outline: &[[Given<Length>; 2]]) -> Result<(), Misfit> {
    let misfit = |found: String, fits: &str| Err(Misfit::at("outline", found, fits));
    if !(3..=MOST_CORNERS).contains(&outline.len()) {
        let found = say!("definition-outline-of-corners", corners = outline.len());
        return misfit(found, &say!("definition-corners-wanted", most = MOST_CORNERS));
    }
    let corners: Vec<Corner> =
        outline.iter().map(|[r, z]| [r.value().si(), z.value().si()]).collect();
    if let Some(index) = corners.iter().position(|[radius, _]| *radius <= 0.0) {
        let path = format!("outline[{}]", index + 1);
        let found = say!(
            "definition-corner-at-radius",
            number = index + 1,
            radius = outline[index][0].typed()
        );
        return Err(Misfit::at(path, found, say!("definition-corner-wanted")));
    }
    if let Some((first, second)) = crossing_sides(&corners) {
        let found = say!("definition-sides-cross", first, second);
        return misfit(found, say!("definition-corners-in-turn"));
    }
    if signed_area(&corners) <= 0.0 {
        let fits = say!("definition-counter-clockwise-wanted");
        return misfit(say!("definition-clockwise").to_owned(), fits);
    }
    Ok(())
}

/// Shoelace formula; positive when the corners run counter-clockwise.
fn signed_area(corners: &[Corner]) -> f64 {
    sides(corners).map(|([r1, z1], [r2, z2])| r1 * z2 - r2 * z1).sum::<f64>() / 2.0
}

fn sides(corners: &[Corner]) -> impl Iterator<Item = (Corner, Corner)> + '_ {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

/// The first two sides that meet elsewhere than in the corner between them, counted from 1.
fn crossing_sides(corners: &[Corner]) -> Option<(usize, usize)> {
    let sides: Vec<_> = sides(corners).collect();
    let count = sides.len();
    for (first, one) in sides.iter().enumerate() {
        if one.0 == one.1 {
            return Some((first + 1, (first + 1) % count + 1));
        }
        for (second, other) in sides.iter().enumerate().skip(first + 1) {
            let neighbours = second == first + 1 || (first == 0 && second == count - 1);
            let meet = if neighbours { fold_back(*one, *other) } else { touch(*one, *other) };
            if meet {
                return Some((first + 1, second + 1));
            }
        }
    }
    None
}

/// Twice the signed area of a triangle: which side of the line `a b` the point `c` is on.
fn turn(a: Corner, b: Corner, c: Corner) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

fn touch((a, b): (Corner, Corner), (c, d): (Corner, Corner)) -> bool {
    let within = |p: Corner, q: Corner, x: Corner| {
        (0..2).all(|i| x[i] >= p[i].min(q[i]) && x[i] <= p[i].max(q[i]))
    };
    let (c_side, d_side) = (turn(a, b, c), turn(a, b, d));
    let (a_side, b_side) = (turn(c, d, a), turn(c, d, b));
    if c_side * d_side < 0.0 && a_side * b_side < 0.0 {
        return true;
    }
    (c_side == 0.0 && within(a, b, c))
        || (d_side == 0.0 && within(a, b, d))
        || (a_side == 0.0 && within(c, d, a))
        || (b_side == 0.0 && within(c, d, b))
}

/// Do two sides with a common corner lie on each other?
fn fold_back((a, b): (Corner, Corner), (c, d): (Corner, Corner)) -> bool {
    let (shared, before, after) = if b == c { (b, a, d) } else { (a, b, c) };
    let along = (before[0] - shared[0]) * (after[0] - shared[0])
        + (before[1] - shared[1]) * (after[1] - shared[1]);
    turn(before, shared, after) == 0.0 && along > 0.0
}
