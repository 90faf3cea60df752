use proptest::prelude::*;
use ringtrue_metrology::units::Given;
use uom::si::angle::degree;
use uom::si::length::millimeter;

use super::*;
use crate::definition::{Kind, read, starter};

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn in_mm(length: Length) -> f64 {
    length.get::<millimeter>()
}

fn given<Q: Quantity>(value: f64, unit: &str) -> Given<Q> {
    Given::new(&format!("{value} {unit}")).unwrap()
}

#[test]
fn the_starter_hangs_together() {
    let seal: Seal = read(starter(Kind::Seal)).unwrap();
    let interference = in_mm(lip_interference(&seal).unwrap());
    assert!((interference - (239.255_425 - 237.5)).abs() < 1e-5, "{interference}");
    let touch = first_touch_from_housing_face(&seal).unwrap();
    // The circle touches the cone there: the cone's radius is the middle's plus (d'/2) cos α.
    let toric = mounted(&seal).unwrap();
    let cosine = libm::cos(toric.ramp_angle.si());
    let at_touch = in_mm(housing_ramp_diameter_at(&seal.housing, touch).unwrap());
    let of_circle = in_mm(toric.centroid_diameter) + in_mm(toric.section_diameter) * cosine;
    assert!((at_touch - of_circle).abs() < 1e-9, "{at_touch} {of_circle}");
    assert!((in_mm(contact_band_mean_diameter(&seal.ring)) - 225.0).abs() < 1e-9);
    assert!((in_mm(measuring_diameter(&seal.ring)) - 226.0).abs() < 1e-9);
}

#[test]
fn a_washer_has_no_toric() {
    let seal: Seal = read(include_str!("../../tests/data/washer_seal.toml")).unwrap();
    assert!(mounted(&seal).is_none());
    // The ring's seat 9 mm from its face, the washer 9 mm tall, the housing's seat 12 mm deep.
    assert!((in_mm(free_height(&seal).unwrap()) - 6.0).abs() < 1e-9);
    assert!(lip_interference(&seal).is_none() && first_touch_from_housing_face(&seal).is_none());
    assert!((in_mm(measuring_diameter(&seal.ring)) - 214.0).abs() < 1e-9);
}

proptest! {
    #[test]
    fn the_volume_stays(
        inside in 1.0..2000.0f64,
        section in 0.5..80.0f64,
        seat in 0.2..3.0f64,
        angle in 0.0..79.0f64,
    ) {
        let free = FreeToric { inside_diameter: mm(inside), section_diameter: mm(section) };
        let toric = stretched(free, mm(inside * seat), Angle::new::<degree>(angle));
        let before = torus_volume(mm(inside + section), mm(section));
        let after = torus_volume(toric.centroid_diameter, toric.section_diameter);
        prop_assert!((after / before).value - 1.0 < 1e-12 && (after / before).value - 1.0 > -1e-12);
        prop_assert!(toric.section_diameter > mm(0.0));
    }

    #[test]
    fn a_ring_moved_out_stands_as_much_higher(shift in -5.0..5.0f64) {
        let seal: Seal = read(starter(Kind::Seal)).unwrap();
        let mut moved = seal.clone();
        let plane = 18.0 + shift;
        moved.ring.ramp.as_mut().unwrap().plane_from_face = given(plane, "mm");
        let (before, after) = (free_height(&seal).unwrap(), free_height(&moved).unwrap());
        prop_assert!((in_mm(after - before) - shift).abs() < 1e-9);
    }
}
