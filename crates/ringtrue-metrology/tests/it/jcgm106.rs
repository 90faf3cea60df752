//! JCGM 106:2012 and ISO 14253-1 examples.

use ringtrue_metrology::conformity::risk::{Inspection, global_risk};
use ringtrue_metrology::conformity::{
    Levels, Limits, Verdict, decision_limits_upper, guard_band, judge, probability_within,
};
use ringtrue_metrology::distribution::normal_pdf;

use crate::check;

/// JCGM 106:2012 7.2.2, printed 0.92 (numbers from memory, recomputed with scipy).
#[test]
fn breakdown_voltage_single_upper_limit() {
    let p = probability_within(-5.47, 0.05, Limits::at_most(-5.4).unwrap());
    check("p_c", p, 0.919_243_340_766, (1e-11, 0.0));
}

/// JCGM 106:2012 7.4, printed 0.66 (numbers from memory, recomputed with scipy).
#[test]
fn oil_viscosity_two_limits() {
    let p = probability_within(13.6, 1.8, Limits::new(Some(12.5), Some(16.3)).unwrap());
    check("p_c", p, 0.662_629_786_495, (1e-11, 0.0));
}

/// ISO 14253-1:2017 default rule, 95 % (from memory); arithmetic recomputed with scipy.
#[test]
fn guard_band_of_95_percent() {
    check("g/u", guard_band(1.0, 0.95), 1.644_853_626_95, (1e-11, 0.0));
    let limits = decision_limits_upper(1.0, 0.05, Levels::new(0.95, 0.05).unwrap());
    check("acceptance", limits.acceptance, 0.917_757_318_652, (1e-11, 0.0));
    check("rejection", limits.rejection, 1.082_242_681_35, (1e-11, 0.0));
}

/// One-sided upper limit 1.0 with u = 0.05; p recomputed with scipy.stats.norm.
#[test]
fn three_outcomes_at_an_upper_limit() {
    let cases = [
        (0.8, 0.999_968, Verdict::Conforms),
        (0.92, 0.945_201, Verdict::NotProven),
        (0.9177, 0.950_118, Verdict::Conforms),
        (0.99, 0.579_26, Verdict::NotProven),
        (1.05, 0.158_655, Verdict::NotProven),
        (1.0823, 0.049_882, Verdict::DoesNotConform),
        (1.1, 0.022_75, Verdict::DoesNotConform),
    ];
    let levels = Levels::new(0.95, 0.05).unwrap();
    for (y, p, verdict) in cases {
        let got = judge(y, 0.05, Limits::at_most(1.0).unwrap(), levels);
        check("p_c", got.probability_conforms, p, (0.0, 6e-7));
        assert_eq!(got.verdict, verdict, "at {y}");
    }
}

/// JCGM 106:2012 9.5.4; numbers as in a public notebook (0.042380, 0.0080191, 0.328171): gamma
/// prior of shape 4 and rate 4, u_m = 0.25, upper limit 2.
#[test]
fn ball_bearing_consumer_risk() {
    let prior = |y: f64| 256.0 / 6.0 * y * y * y * (-4.0 * y).exp();
    let risk = |acceptance: f64| {
        let inspection = Inspection {
            tolerance: Limits::at_most(2.0).unwrap(),
            acceptance: Limits::at_most(acceptance).unwrap(),
            standard_uncertainty: 0.25,
        };
        global_risk(prior, 0.0..=12.0, &inspection)
    };
    check("non-conforming", risk(2.0).nonconforming, 0.042_380_1, (0.0, 1e-7));
    check("consumer's risk", risk(2.0).consumer, 0.008_019_1, (0.0, 1e-7));
    check("with guard band", risk(2.0 - 0.328_17).consumer, 0.001, (0.0, 1e-7));
}

/// Deaver's false accept and false reject rates at a test uncertainty ratio of 4 (0.8 % and 1.5 %),
/// recomputed with scipy.
#[test]
fn false_accept_and_reject_at_ratio_four() {
    let limits = Limits::new(Some(-2.0), Some(2.0)).unwrap();
    let inspection =
        Inspection { tolerance: limits, acceptance: limits, standard_uncertainty: 0.25 };
    let risk = global_risk(normal_pdf, -9.0..=9.0, &inspection);
    check("false accept", risk.consumer, 0.008_006_084_834_45, (1e-9, 0.0));
    check("false reject", risk.producer, 0.014_850_884_211_3, (1e-9, 0.0));
}
