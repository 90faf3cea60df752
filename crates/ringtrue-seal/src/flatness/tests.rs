use proptest::prelude::*;
use uom::si::angle::degree;
use uom::si::length::{micrometer, millimeter};

use super::*;

fn deg(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

fn input(seen: Seen) -> Input {
    Input {
        seen,
        source: LightSource::Helium,
        view: deg(0.0),
        limit: Some(FlatnessLimit::Bands(2.0)),
        uncertainty: ReadingUncertainty::Bands(0.1),
        levels: Levels::DEFAULT,
    }
}

fn bends(list: &[(f64, f64)]) -> Seen {
    let bend =
        |(at, bands): &(f64, f64)| Bend { azimuth: deg(*at), amount: BendAmount::Bands(*bands) };
    Seen::Bends(list.iter().map(bend).collect())
}

fn orders(n: u32, order: impl Fn(f64) -> f64) -> Seen {
    let one = |i: u32| {
        let angle = 360.0 * f64::from(i) / f64::from(n);
        Order { angle: deg(angle), order: order(angle.to_radians()) }
    };
    Seen::Orders((0..n).map(one).collect())
}

#[test]
fn a_measured_bend_is_bands_and_micrometres() {
    let mm = Length::new::<millimeter>;
    let amount = BendAmount::Measured { bend: mm(1.5), spacing: mm(10.0) };
    let mut asked = input(Seen::Bends(vec![Bend { azimuth: deg(0.0), amount }]));
    asked.uncertainty = ReadingUncertainty::Length(mm(0.5));
    let outcome = evaluate(&asked).unwrap();
    assert!((outcome.flatness_bands - 0.15).abs() < 1e-12);
    assert!((outcome.flatness_um - 0.15 * 0.293_780_9).abs() < 1e-9);
    let u = 0.05 * libm::hypot(1.0, 0.15);
    assert!((outcome.standard_uncertainty_bands.unwrap() - u).abs() < 1e-12);
    assert_eq!((outcome.shape, outcome.verdict), (Shape::Crown, Verdict::Conforms));
}

#[test]
fn signs_tell_crown_dish_and_saddle() {
    let shape = |list: &[(f64, f64)]| {
        let outcome = evaluate(&input(bends(list))).unwrap();
        (outcome.shape, outcome.shape_resolved, outcome.flatness_bands)
    };
    assert_eq!(shape(&[(0.0, 1.0), (90.0, 0.8)]), (Shape::Crown, true, 1.0));
    assert_eq!(shape(&[(0.0, -1.0), (90.0, -0.8)]), (Shape::Dish, true, 1.0));
    assert_eq!(shape(&[(0.0, 1.0), (90.0, -0.8)]), (Shape::Saddle, true, 1.8));
    assert_eq!(shape(&[(0.0, 0.1), (90.0, 0.05)]), (Shape::Crown, false, 0.1));
    assert_eq!(shape(&[(0.0, 0.0)]), (Shape::Flat, true, 0.0));
}

#[test]
fn several_azimuths_give_mean_and_second_wave() {
    let at = |azimuth: f64| (azimuth, 1.0 + 0.5 * libm::cos(2.0 * (azimuth - 30.0).to_radians()));
    let outcome = evaluate(&input(bends(&[0.0, 45.0, 90.0, 135.0].map(at)))).unwrap();
    assert!((outcome.mean_bend_bands.unwrap() - 1.0).abs() < 1e-9);
    assert!((outcome.second_harmonic_bands.unwrap() - 0.5).abs() < 1e-9);
    assert!((outcome.second_harmonic_crest_deg.unwrap() - 30.0).abs() < 1e-9);
}

#[test]
fn closed_bands_are_crown_or_dish_until_someone_presses() {
    let seen = |pressed| Seen::Closed { bands: 2.5, pressed };
    let outcome = evaluate(&input(seen(Pressed::NotTried))).unwrap();
    assert_eq!(outcome.shape, Shape::CrownOrDish);
    assert_eq!(outcome.verdict, Verdict::DoesNotConform);
    assert!(outcome.actions[0].contains("press lightly"));
    assert_eq!(evaluate(&input(seen(Pressed::TowardsPressure))).unwrap().shape, Shape::Crown);
    assert_eq!(evaluate(&input(seen(Pressed::AwayFromPressure))).unwrap().shape, Shape::Dish);
}

#[test]
fn a_wedge_round_a_ring_does_not_count() {
    let wedge = evaluate(&input(orders(8, |t| 3.0 + 2.0 * libm::cos(t)))).unwrap();
    assert!(wedge.flatness_bands < 1e-9);
    let saddle = evaluate(&input(orders(12, |t| 2.0 * libm::cos(t) + libm::cos(2.0 * t)))).unwrap();
    assert_eq!((saddle.shape, saddle.shape_resolved), (Shape::Saddle, true));
    // A wider gap is lower: the crests stand where the order is smallest.
    assert!((saddle.second_harmonic_crest_deg.unwrap() - 90.0).abs() < 1e-6);
    assert!((saddle.flatness_bands - 2.0).abs() < 1e-9);
    assert_eq!(saddle.verdict, Verdict::NotProven);
}

#[test]
fn limits_in_bands_and_in_micrometres_are_the_same() {
    let mut asked = input(bends(&[(0.0, 1.0)]));
    asked.limit = Some(FlatnessLimit::Length(Length::new::<micrometer>(0.587_561_8)));
    let outcome = evaluate(&asked).unwrap();
    assert!((outcome.limit_bands.unwrap() - 2.0).abs() < 1e-9);
    asked.uncertainty = ReadingUncertainty::Unknown;
    assert_eq!(evaluate(&asked).unwrap().verdict, Verdict::NotProven);
    asked.limit = None;
    assert!(evaluate(&asked).unwrap().actions[0].contains("no limit"));
}

#[test]
fn what_can_not_be_is_refused() {
    let refused = |asked: Input, said: &str| {
        let error = evaluate(&asked).unwrap_err().to_string();
        assert!(error.contains(said), "{error}");
    };
    refused(input(bends(&[])), "0 readings");
    refused(input(bends(&[(0.0, f64::NAN)])), "NaN bands");
    let mm = Length::new::<millimeter>;
    let amount = BendAmount::Measured { bend: mm(1.0), spacing: mm(0.0) };
    refused(input(Seen::Bends(vec![Bend { azimuth: deg(0.0), amount }])), "a spacing of 0 mm");
    refused(input(orders(3, |_| 0.0)), "3 orders");
    refused(input(Seen::Closed { bands: -1.0, pressed: Pressed::NotTried }), "below zero");
    let mut steep = input(bends(&[(0.0, 1.0)]));
    steep.view = deg(85.0);
    refused(steep, "85 deg");
    let mut dark = input(bends(&[(0.0, 1.0)]));
    dark.source = LightSource::Wavelength(mm(1.0));
    refused(dark, "visible");
    let mut none = input(bends(&[(0.0, 1.0)]));
    none.limit = Some(FlatnessLimit::Bands(0.0));
    refused(none, "above zero");
    let mut other = input(bends(&[(0.0, 1.0)]));
    other.uncertainty = ReadingUncertainty::Length(mm(0.5));
    refused(other, "in bands");
}

proptest! {
    #[test]
    fn turning_the_ring_turns_directions_alone(
        list in prop::collection::vec(-2.0_f64..2.0, 8),
        turn in 0.0_f64..360.0,
    ) {
        let at = |by: f64| {
            let order = |(i, order): (usize, &f64)| {
                Order { angle: deg(45.0 * i as f64 + by), order: *order }
            };
            evaluate(&input(Seen::Orders(list.iter().enumerate().map(order).collect()))).unwrap()
        };
        let (one, other) = (at(0.0), at(turn));
        prop_assert!((one.flatness_bands - other.flatness_bands).abs() < 1e-9);
        let second = |outcome: &Outcome| outcome.second_harmonic_bands.unwrap();
        prop_assert!((second(&one) - second(&other)).abs() < 1e-9);
    }

    #[test]
    fn units_in_are_units_out(bend in 0.1_f64..5.0, spacing in 2.0_f64..12.0) {
        use ringtrue_metrology::units::parse;
        let with = |unit: &str, per_mm: f64| {
            let length = |mm: f64| parse(&format!("{} {unit}", mm * per_mm)).unwrap();
            let amount = BendAmount::Measured { bend: length(bend), spacing: length(spacing) };
            let mut asked = input(Seen::Bends(vec![Bend { azimuth: deg(0.0), amount }]));
            asked.uncertainty = ReadingUncertainty::Length(length(0.3));
            evaluate(&asked).unwrap()
        };
        let (mm, inch) = (with("mm", 1.0), with("in", 1.0 / 25.4));
        prop_assert!((mm.flatness_um - inch.flatness_um).abs() < 1e-9);
        let u = |outcome: &Outcome| outcome.standard_uncertainty_um.unwrap();
        prop_assert!((u(&mm) - u(&inch)).abs() < 1e-9);
    }

    #[test]
    fn a_worse_reader_never_knows_more(bands in -3.0_f64..3.0, u in 0.0_f64..0.5) {
        let with = |u: f64| {
            let mut asked = input(bends(&[(0.0, bands), (90.0, bands / 2.0)]));
            asked.uncertainty = ReadingUncertainty::Bands(u);
            evaluate(&asked).unwrap().standard_uncertainty_bands.unwrap()
        };
        prop_assert!(with(u) <= with(1.5 * u) + 1e-9);
    }

    #[test]
    fn a_wider_bend_is_less_flat(bands in 0.1_f64..3.0, more in 1.05_f64..3.0) {
        let of = |bands: f64| evaluate(&input(bends(&[(0.0, bands)]))).unwrap().flatness_um;
        prop_assert!((of(more * bands) / of(bands) - more).abs() < 1e-9 * more);
    }
}
