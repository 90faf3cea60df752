use super::*;
use proptest::prelude::*;

fn mm(text: &str) -> f64 {
    parse::<Length>(text).unwrap_or_else(|e| panic!("{text}: {e}")).si() * 1e3
}

#[test]
fn lengths_as_people_type_them() {
    let cases = [
        ("12 mm", 12.0),
        ("12mm", 12.0),
        ("12,5 mm", 12.5),
        ("  12.5\u{a0}mm ", 12.5),
        ("0.472 in", 11.9888),
        ("1/4 in", 6.35),
        ("1 1/4 in", 31.75),
        ("1-1/4 inch", 31.75),
        ("-1/4 in", -6.35),
        ("3/8\"", 9.525),
        ("5 thou", 0.127),
        ("5 mil", 0.127),
        ("0.4 um", 0.0004),
        ("0.4 µm", 0.0004),
        ("0.4 μm", 0.0004),
        ("\u{2212}0.05 mm", -0.05),
        ("+2 cm", 20.0),
        (".5 mm", 0.5),
        ("2e-1 mm", 0.2),
        ("16 uin", 0.000_406_4),
        ("12 MM", 12.0),
    ];
    for (text, expected) in cases {
        // 1e-15: one rounding of the factor and one of the product.
        assert!(
            (mm(text) - expected).abs() <= 4e-16 * expected.abs().max(1.0),
            "{text}: {}",
            mm(text)
        );
    }
}

#[test]
fn leak_rates_and_heat() {
    let rate = |text| parse::<LeakRate>(text).unwrap_or_else(|e| panic!("{text}: {e}"));
    // EN 1330-8 and the definitions of atmosphere and torr: 1 Pa m³/s = 10 mbar l/s
    // = 9.869 232 667 atm cm³/s = 7.500 616 827 torr l/s (1 torr = 101 325/760 Pa).
    for text in ["10 mbar l/s", "9.86923266716 atm cm3/s", "7.50061682704 torr l/s"] {
        assert!((rate(text).throughput_at(293.15) - 1.0).abs() < 1e-9, "{text}");
    }
    // 1 Pa m³/s of gas at 0 degC is 592.153 960 sccm counted there; the same gas at 20 degC has
    // the larger throughput.
    let standard = rate("592.15396003 sccm");
    assert!((standard.throughput_at(273.15) - 1.0).abs() < 1e-9);
    assert!((standard.throughput_at(293.15) - 293.15 / 273.15).abs() < 1e-9);
    assert!((rate("592.15396003 sccm (20 degC)").throughput_at(293.15) - 1.0).abs() < 1e-9);
    assert!((parse::<HeatTransferCoefficient>("10 W/m²K").unwrap().si() - 10.0).abs() < 1e-12);
    assert!((parse::<SpecificHeat>("1.3 kJ/(kg K)").unwrap().si() - 1300.0).abs() < 1e-9);
    assert!((parse::<TemperatureDifference>("0.9 degF").unwrap().si() - 0.5).abs() < 1e-12);
    // NIST SP 811 (2008) B.8: cubic foot 28.316 85 l.
    assert!((parse::<Volume>("1 ft3").unwrap().si() * 1e3 - 28.316_85).abs() < 5e-6);
    assert!(parse::<LeakRate>("1 bar").is_err());
}

#[test]
fn significant_digits_and_times() {
    let cases = [
        (0.0, "0"),
        (134.2, "134"),
        (13_420.0, "13420"),
        (9.999, "10.0"),
        (0.000_131_2, "0.000131"),
        (-0.05, "\u{2212}0.0500"),
        (1.312e-7, "1.31e\u{2212}7"),
    ];
    for (value, text) in cases {
        assert_eq!(significant(value, 3), text);
    }
    let times = [(12.4, "12 s"), (89.0, "89 s"), (91.0, "2 min"), (7500.0, "2 h 5 min")];
    for (seconds, text) in times {
        assert_eq!(duration_text(seconds), text);
    }
}

#[test]
fn the_last_digit_that_was_written() {
    let kpa = unit_of::<Pressure>("kPa");
    let close = |digit: Option<f64>, expected: f64| {
        digit.is_some_and(|digit| (digit - expected).abs() < 1e-12 * expected.max(1.0))
    };
    assert!(close(last_digit::<Pressure>("150.02", kpa), 10.0));
    assert!(close(last_digit::<Pressure>("150", kpa), 1000.0));
    assert!(close(last_digit::<Pressure>("1,5 bar", kpa), 1e4));
    assert!(close(last_digit::<Temperature>("70.1 degF", None), 0.1 / 1.8));
    assert_eq!(last_digit::<Length>("1/4 in", None), None);
    assert_eq!(last_digit::<Pressure>("150", None), None);
}

#[test]
fn other_kinds() {
    let kelvin = |t| parse::<Temperature>(t).unwrap().si();
    for text in ["-20 degF", "-20 °F", "-20 ° F", "-20F"] {
        assert!((kelvin(text) - 244.261_111_111_111_1).abs() < 1e-10, "{text}");
    }
    assert!((kelvin("-28.888888888888889 degC") - kelvin("-20 degF")).abs() < 1e-10);
    // 1 lbf = 4.448 221 615 260 5 N and 1 psi = 6 894.757 293 168 Pa: NIST SP 811 (2008) B.8.
    assert!((parse::<Pressure>("1 psi").unwrap().si() - 6_894.757_293_168_36).abs() < 1e-9);
    assert!((parse::<LineLoad>("1 lbf/in").unwrap().si() - 175.126_835_246_476).abs() < 1e-9);
    assert!((parse::<Angle>("15°").unwrap().si() - 0.261_799_387_799_149_4).abs() < 1e-15);
    assert!(
        (parse::<AngularVelocity>("40 1/min").unwrap().si() - 4.188_790_204_786_391).abs() < 1e-14
    );
    assert!((parse::<ExpansionCoefficient>("185e-6 1/K").unwrap().si() - 185e-6).abs() < 1e-18);
    let hardness = parse::<Hardness>("60 shore a").unwrap();
    assert_eq!((hardness.value, hardness.scale), (60.0, HardnessScale::ShoreA));
    assert!((parse::<Fraction>("97.5 %").unwrap().si() - 0.975).abs() < 1e-15);
    for (text, seconds) in
        [("90 s", 90.0), ("1,5 h", 5400.0), ("45 min", 2700.0), ("2 d", 172_800.0)]
    {
        assert_eq!(parse::<Time>(text).unwrap().si(), seconds, "{text}");
    }
    // NIST SP 811 (2008) B.8: gallon (US) 3.785 412 l, gallon (imperial) 4.546 09 l exactly,
    // cubic inch 16.387 064 ml exactly, lbf ft 1.355 818 N m, lbf in 0.112 984 8 N m.
    for (text, litres) in
        [("1 US gal", 3.785_412), ("1 imp gal", 4.546_09), ("1 in3", 0.016_387_064)]
    {
        assert!((parse::<Volume>(text).unwrap().si() * 1e3 - litres).abs() < 5e-7, "{text}");
    }
    for text in ["4 US qt", "3785.411784 ml"] {
        let difference = parse::<Volume>(text).unwrap().si() - 3.785_411_784e-3;
        assert!(difference.abs() < 1e-15, "{text}");
    }
    for (text, newton_metres) in [("1 ft-lb", 1.355_818), ("1 lbf in", 0.112_984_8), ("3 Nm", 3.0)]
    {
        assert!((parse::<Torque>(text).unwrap().si() - newton_metres).abs() < 5e-7, "{text}");
    }
}

#[test]
fn what_does_not_fit_is_said_with_what_would() {
    let cases = [
        ("12", "`12` has no unit"),
        ("", "does not start with a number"),
        ("mm", "does not start with a number"),
        ("12 mn", "did you mean `mm`?"),
        ("12 N/mm", "is a force per length"),
        ("12 degC", "is a temperature"),
        ("NaN mm", "does not start with a number"),
        ("inf mm", "does not start with a number"),
        ("1e999 mm", "too large"),
        ("1e9 mm", "beyond anything"),
        ("1.234,5 mm", "does not start with a number"),
        ("1/0 in", "does not start with a number"),
        ("12 mm 3", "not a known unit"),
        ("--2 mm", "does not start with a number"),
    ];
    for (text, said) in cases {
        let error = parse::<Length>(text).expect_err(text).to_string();
        assert!(error.contains(said), "{text}: {error}");
        assert!(error.contains("a length is wanted, such as `12 mm`"), "{error}");
    }
}

#[test]
fn numbers_are_shown_to_what_is_known() {
    assert_eq!(decimals_for(Some(0.012), 2), 3);
    assert_eq!(decimals_for(Some(0.0996), 2), 2);
    assert_eq!(decimals_for(Some(2.5), 2), 1);
    assert_eq!(decimals_for(Some(0.0), 2), 2);
    assert_eq!(fixed(-0.001, 2), "0.00");
    assert_eq!(fixed(-1.25, 2), "\u{2212}1.25");
    let gap = parse("2.54 mm").unwrap();
    assert_eq!(length_text(gap, None, System::Inch), "0.100 in");
}

#[test]
fn ranges() {
    let mm = |text| {
        let (low, high) = parse_range::<Length>(text).unwrap_or_else(|e| panic!("{text}: {e}"));
        ((low.si() * 1e6).round() / 1e3, (high.si() * 1e6).round() / 1e3)
    };
    assert_eq!(mm("2.0 mm..3.2 mm"), (2.0, 3.2));
    assert_eq!(mm("-0.1 mm .. 0,2 mm"), (-0.1, 0.2));
    assert_eq!(mm("2..3.2 mm"), (2.0, 3.2));
    assert_eq!(mm("1/4 in..1 in"), (6.35, 25.4));
    assert_eq!(mm("5 thou..1 mm"), (0.127, 1.0));
    for text in ["2 mm", "3 mm..2 mm", "2 mm..", "..2 mm", "2..3", "2 mm..3 N"] {
        assert!(parse_range::<Length>(text).is_err(), "{text}");
    }
}

proptest! {
    #[test]
    fn reading_never_panics(text in "\\PC{0,40}") {
        let _ = parse::<Length>(&text);
        let _ = parse::<Temperature>(&text);
        let _ = parse_number(&text);
    }

    #[test]
    fn a_unit_is_its_own_inverse(value in -1e3..1e3f64, index in 0usize..9) {
        let unit = &Length::UNITS[index];
        let back = unit.of_si(unit.to_si(value));
        prop_assert!((back - value).abs() <= 1e-12 * value.abs().max(1.0));
    }

    #[test]
    fn point_and_comma_read_the_same(whole in 0u32..10_000, part in 0u32..1_000) {
        prop_assert_eq!(mm(&format!("{whole}.{part:03} mm")), mm(&format!("{whole},{part:03} mm")));
    }
}

#[test]
fn every_kind_has_its_name_in_the_language_file() {
    assert_eq!(Length::kind(), Length::KIND);
    for (kind, _) in number::all_kinds() {
        assert!(kind().starts_with("a ") || kind().starts_with("an "), "{}", kind());
    }
}
