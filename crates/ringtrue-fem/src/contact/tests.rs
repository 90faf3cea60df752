//! Where points stand to profiles of lines, fillets and sharp corners.

use super::surface::Surface;
use crate::problem::{Extent, Wall};

fn wall(profile: &[[f64; 2]], fillets: &[f64], extent: Extent) -> Wall {
    Wall {
        name: "wall".to_owned(),
        profile: profile.to_vec(),
        fillets: fillets.to_vec(),
        extent,
        path: Vec::new(),
        friction: None,
    }
}

#[test]
fn rubber_is_on_the_left_of_the_walk() {
    let flat = wall(&[[0.0, 0.0], [1.0, 0.0]], &[], Extent::Unbounded);
    let surface = Surface::new(&flat, 0.0).unwrap();
    let above = surface.standing(0, [50.0, 2.0]).unwrap();
    assert_eq!((above.gap, above.normal, above.along), (2.0, [0.0, 1.0], 50.0));
    assert_eq!(surface.standing(0, [0.5, -0.25]).unwrap().gap, -0.25);
}

#[test]
fn a_bounded_wall_ends() {
    let flat = wall(&[[0.0, 0.0], [1.0, 0.0]], &[], Extent::Bounded);
    let surface = Surface::new(&flat, 0.0).unwrap();
    assert!(surface.standing(0, [1.5, -0.1]).is_none());
    assert!(surface.standing(0, [0.9, -0.1]).is_some());
}

#[test]
fn gap_and_place_are_continuous_round_a_fillet() {
    // A lip that protrudes (right turn) and a groove (left turn), both rounded.
    for (profile, radius) in
        [([[0.0, 0.0], [5.0, 0.0], [5.0, -5.0]], 1.0), ([[0.0, 0.0], [5.0, 0.0], [5.0, 5.0]], 2.0)]
    {
        let w = wall(&profile, &[radius], Extent::Unbounded);
        let surface = Surface::new(&w, 0.0).unwrap();
        assert_eq!(surface.chains(), 1);
        let mut last = None;
        for k in 0..=4000 {
            let t = f64::from(k) / 4000.0;
            // A walk near the profile, on the rubber's side.
            let x = if profile[2][1] < 0.0 {
                let angle = std::f64::consts::FRAC_PI_2 * (1.0 - t);
                [4.0 + 1.3 * angle.cos(), -1.0 + 1.3 * angle.sin()]
            } else {
                let angle = -std::f64::consts::FRAC_PI_2 * (1.0 - t);
                [3.0 + 1.7 * angle.cos(), 2.0 + 1.7 * angle.sin()]
            };
            let s = surface.standing(0, x).unwrap();
            assert!((s.gap - 0.3).abs() < 1e-9, "{s:?}");
            if let Some(before) = last {
                let step: f64 = s.along - before;
                assert!((0.0..2e-3).contains(&step), "{step}");
            }
            last = Some(s.along);
        }
    }
}

#[test]
fn curvature_is_the_second_derivative_of_the_gap() {
    let w = wall(&[[0.0, 0.0], [5.0, 0.0], [9.0, -4.0]], &[3.0], Extent::Unbounded);
    let surface = Surface::new(&w, 0.0).unwrap();
    let x = [5.0, 0.4];
    let at = |d: f64| {
        let s = surface.standing(0, x).unwrap();
        surface.standing(0, [x[0] + d * s.tangent[0], x[1] + d * s.tangent[1]]).unwrap()
    };
    let (h, here) = (1e-4, at(0.0));
    let second = (at(h).gap - 2.0 * here.gap + at(-h).gap) / (h * h);
    assert!((second - here.curvature).abs() < 1e-6 && here.curvature > 0.2, "{second}");
    let first = (at(h).along - at(-h).along) / (2.0 * h);
    assert!((first - here.stretch).abs() < 1e-8);
}

#[test]
fn a_sharp_hollow_corner_bears_on_both_sides() {
    let w = wall(&[[0.0, 0.0], [5.0, 0.0], [5.0, 5.0]], &[], Extent::Unbounded);
    let surface = Surface::new(&w, 0.0).unwrap();
    assert_eq!(surface.chains(), 2);
    let x = [5.1, -0.2];
    assert!((surface.standing(0, x).unwrap().gap + 0.2).abs() < 1e-12);
    assert!((surface.standing(1, x).unwrap().gap + 0.1).abs() < 1e-12);
}

#[test]
fn impossible_fillets_are_refused() {
    let w = wall(&[[0.0, 0.0], [1.0, 0.0], [1.0, 1.0]], &[3.0], Extent::Bounded);
    assert!(Surface::new(&w, 0.0).unwrap_err().contains("too short"));
}
