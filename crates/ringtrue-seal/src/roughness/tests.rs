use proptest::prelude::*;
use ringtrue_metrology::units::{Quantity, parse};

use super::*;

fn length(text: &str) -> Length {
    parse(text).unwrap()
}

fn input(measured: Measured, limit: &str) -> Input {
    Input {
        measured,
        parameter: Parameter::Ra,
        limits: (None, Some(length(limit))),
        rule: None,
        edition: Edition::Iso4287,
        cut_off: CutOff::ByTable,
        uncertainty: InstrumentUncertainty::Unknown,
        levels: Levels::DEFAULT,
    }
}

fn values(list: &[f64]) -> Measured {
    Measured::Values(list.iter().map(|v| length(&format!("{v} um"))).collect())
}

/// A sine of amplitude `amplitude` um and 0.1 mm wavelength on a slope, 6 mm at 1 um.
fn sine(amplitude: f64) -> Trace {
    let height = |i: u32| {
        let x = f64::from(i) * 1e-3;
        amplitude * libm::sin(std::f64::consts::TAU * x / 0.1) + 4.0 * x
    };
    Trace { step: length("1 um"), heights_um: (0..6000).map(height).collect() }
}

#[test]
fn a_sine_has_its_textbook_roughness() {
    let outcome = evaluate(&input(Measured::Traces(vec![sine(1.0)]), "0.8 um")).unwrap();
    // 2 A/π, less the share that the mean line keeps at λ = λc/8 (below 1e-9).
    assert!((outcome.value_um - std::f64::consts::FRAC_2_PI).abs() < 2e-3, "{}", outcome.value_um);
    assert_eq!(outcome.cut_off_mm, Some(0.8));
    assert_eq!(outcome.cut_off_basis, CutOffBasis::Table);
    assert_eq!(outcome.sampling_lengths.len(), 5);
    assert!((outcome.evaluation_length_mm.unwrap() - 4.0).abs() < 1e-9);
    assert_eq!(outcome.ends, Ends::LeftOut);
    let mut bare = sine(1.0);
    bare.heights_um.truncate(4000);
    let bare = evaluate(&input(Measured::Traces(vec![bare]), "0.8 um")).unwrap();
    assert_eq!((bare.ends, bare.sampling_lengths.len()), (Ends::WeightsRenormalised, 5));
    assert!((bare.value_um - outcome.value_um).abs() < 0.01);
    assert!(outcome.rsk.unwrap().abs() < 0.02 && (outcome.rku.unwrap() - 1.5).abs() < 0.02);
    assert_eq!(outcome.verdict, Verdict::Conforms);
    let rough = evaluate(&input(Measured::Traces(vec![sine(1.0)]), "0.5 um")).unwrap();
    assert_eq!(rough.verdict, Verdict::DoesNotConform);
    assert!(rough.actions[0].contains("too rough"));
}

#[test]
fn the_editions_go_by_value_and_by_limit() {
    let by = |edition| {
        let mut asked = input(Measured::Traces(vec![sine(0.1)]), "0.1 um");
        asked.edition = edition;
        evaluate(&asked).unwrap()
    };
    // Ra 0.064 um and a limit of 0.1 um: 0.25 mm by both tables.
    assert_eq!(by(Edition::Iso4287).cut_off_mm, Some(0.25));
    assert_eq!(by(Edition::Iso21920).cut_off_mm, Some(0.25));
    assert_eq!(by(Edition::Iso21920).rule, Rule::Max);
    let mut asked = input(Measured::Traces(vec![sine(0.1)]), "0.8 um");
    asked.edition = Edition::Iso21920;
    assert_eq!(evaluate(&asked).unwrap().cut_off_mm, Some(0.8));
    asked.edition = Edition::Iso4287;
    assert_eq!(evaluate(&asked).unwrap().cut_off_mm, Some(0.25));
}

#[test]
fn a_short_trace_proves_nothing() {
    let mut short = sine(1.0);
    short.heights_um.truncate(2000);
    let outcome = evaluate(&input(Measured::Traces(vec![short.clone()]), "0.8 um")).unwrap();
    assert_eq!(outcome.cut_off_basis, CutOffBasis::TraceTooShort);
    assert_eq!(outcome.cut_off_mm, Some(0.25));
    assert_eq!(outcome.verdict, Verdict::NotProven);
    short.heights_um.truncate(300);
    let refused = evaluate(&input(Measured::Traces(vec![short]), "0.8 um")).unwrap_err();
    assert!(refused.to_string().contains("4.80 mm"), "{refused}");
}

#[test]
fn rules_count_values() {
    // ISO 4288 5.2: one of twelve may be over, two may not, one of five may not.
    assert_eq!([12, 5, 25, 100].map(|n| Rule::SixteenPercent.allowed(n)), [1, 0, 4, 16]);
    let verdict = |list: &[f64], rule| {
        let mut asked = input(values(list), "0.8 um");
        asked.rule = Some(rule);
        evaluate(&asked).unwrap()
    };
    let mut twelve = vec![0.6; 11];
    twelve.push(0.82);
    assert_eq!(verdict(&twelve, Rule::SixteenPercent).verdict, Verdict::Conforms);
    assert_eq!(verdict(&twelve, Rule::Max).verdict, Verdict::DoesNotConform);
    twelve[0] = 0.82;
    let two = verdict(&twelve, Rule::SixteenPercent);
    assert_eq!((two.values_outside, two.verdict), (2, Verdict::DoesNotConform));
    assert!(two.actions.iter().any(|action| action.contains("2 of 12")), "{:?}", two.actions);
}

#[test]
fn one_value_without_an_instrument_proves_nothing() {
    let mut asked = input(values(&[0.5]), "0.8 um");
    assert_eq!(evaluate(&asked).unwrap().verdict, Verdict::NotProven);
    asked.uncertainty = InstrumentUncertainty::Share(0.05);
    assert_eq!(evaluate(&asked).unwrap().verdict, Verdict::Conforms);
    asked.limits.1 = Some(length("0.52 um"));
    assert_eq!(evaluate(&asked).unwrap().verdict, Verdict::NotProven);
}

#[test]
fn too_smooth_is_said() {
    let mut asked = input(values(&[0.2, 0.22, 0.21]), "3.2 um");
    asked.limits.0 = Some(length("0.8 um"));
    let outcome = evaluate(&asked).unwrap();
    assert_eq!(outcome.verdict, Verdict::DoesNotConform);
    assert!(outcome.actions[0].contains("too smooth"));
}

#[test]
fn what_can_not_be_is_refused() {
    let refused = |asked: Input, said: &str| {
        let error = evaluate(&asked).unwrap_err().to_string();
        assert!(error.contains(said), "{error}");
    };
    refused(input(Measured::Traces(vec![]), "0.8 um"), "0 traces");
    refused(input(values(&[]), "0.8 um"), "0 values");
    refused(input(values(&[-0.1]), "0.8 um"), "value number 1");
    refused(input(values(&[0.1]), "-1 um"), "a limit of -1 um");
    let mut none = input(values(&[0.1]), "1 um");
    none.limits = (None, None);
    refused(none, "no limit");
    let mut coarse = input(Measured::Traces(vec![sine(1.0)]), "1 um");
    coarse.cut_off = CutOff::Given(length("0.01 mm"));
    refused(coarse, "10.0 points");
    let mut below = input(values(&[0.1]), "1 um");
    below.uncertainty = InstrumentUncertainty::Share(-0.1);
    refused(below, "uncertainty");
}

proptest! {
    #[test]
    fn a_worse_instrument_never_knows_more(
        list in prop::collection::vec(0.2_f64..2.0, 1..12),
        shares in (0.0_f64..0.2, 0.0_f64..0.2),
    ) {
        let with = |share: f64| {
            let mut asked = input(values(&list), "0.8 um");
            asked.uncertainty = InstrumentUncertainty::Share(share);
            evaluate(&asked).unwrap().standard_uncertainty_um.unwrap()
        };
        let (low, high) = (shares.0.min(shares.1), shares.0.max(shares.1));
        prop_assert!(with(low) <= with(high) + 1e-15);
    }

    #[test]
    fn units_in_are_units_out(amplitude in 0.2_f64..3.0) {
        let trace = sine(amplitude);
        let inch = Trace {
            step: length(&format!("{} in", trace.step.si() / 0.0254)),
            heights_um: trace.heights_um.clone(),
        };
        let [mm, inch] = [trace, inch]
            .map(|t| evaluate(&input(Measured::Traces(vec![t]), "0.8 um")).unwrap().value_um);
        prop_assert!((mm - inch).abs() < 1e-9);
    }

    #[test]
    fn a_higher_wave_is_rougher(amplitude in 0.2_f64..3.0, more in 1.05_f64..3.0) {
        let of = |amplitude: f64| {
            let traces = Measured::Traces(vec![sine(amplitude)]);
            evaluate(&input(traces, "0.8 um")).unwrap().value_um
        };
        prop_assert!((of(more * amplitude) / of(amplitude) - more).abs() < 1e-6 * more);
    }
}
