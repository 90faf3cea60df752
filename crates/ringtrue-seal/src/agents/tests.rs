use proptest::prelude::*;
use ringtrue_metrology::units::parse;

use super::*;
use crate::definition::material;

fn typed<Q: Quantity>(text: &str) -> Q {
    parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn input(agent: &str, code: &str) -> Input {
    Input {
        agent: Box::new(named(agent).unwrap_or_else(|| panic!("{agent}")).clone()),
        material: material::shipped(code).unwrap().clone(),
        room: typed("20 degC"),
        use_in: None,
        depth: None,
        since: None,
        levels: Levels::DEFAULT,
    }
}

fn used(bay: &str, air_changes_per_hour: f64, amount: &str) -> Option<Use> {
    Some(Use { bay: typed(bay), air_changes_per_hour, amount: typed(amount) })
}

/// Without figures nothing is known of a vapour, unless the list says that there is none.
#[test]
fn a_vapour_without_figures_conforms_only_where_the_list_says_so() {
    for (agent, verdict) in [
        ("diesel", Verdict::NotProven),
        ("vegetable-oil", Verdict::Conforms),
        ("water", Verdict::Conforms),
    ] {
        let use_in = used("10 m3", 1.0, "100 ml");
        let outcome = evaluate(&Input { use_in, ..input(agent, "FKM") }).unwrap();
        assert_eq!(outcome.verdict_vapour, Some(verdict), "{agent}");
        let vapour = outcome.findings.last().unwrap();
        assert_eq!(vapour.sources.is_empty(), verdict != Verdict::Conforms, "{agent}");
        assert!(outcome.vapour.is_none() && outcome.verdict >= verdict, "{agent}");
    }
    let drawn = evaluate(&input("diesel", "FKM")).unwrap();
    assert_eq!(drawn.ignitable_at_room, Some(false));
    assert!(drawn.refused_for_toric.is_some());
}

#[test]
fn every_shipped_agent_is_read_and_says_where_its_figures_come_from() {
    let agents = shipped();
    assert_eq!(agents.len(), include_str!("../../data/agents.toml").matches("[[agent]]").count());
    let fluids: Vec<_> = material::FLUIDS.iter().map(|(name, _)| *name).collect();
    for agent in agents {
        assert!(agent.fluid.as_deref().is_none_or(|fluid| fluids.contains(&fluid)), "{agent:?}");
        assert!(!agent.film_reason.is_empty() && !agent.disposal.is_empty());
        for figure in figures(agent) {
            assert!(figure.value.is_finite() && figure.source.len() > 5, "{}", agent.name);
        }
        let names = std::iter::once(&agent.name).chain(&agent.also);
        for name in names {
            let found = shipped().iter().filter(|a| a.name == *name || a.also.contains(name));
            assert_eq!(found.count(), 1, "{name}");
        }
        // What evaporates in a shop has what its vapour is judged by.
        let vapour = agent.vapour_pressure_at_20_degc_pa.is_some();
        assert!(!vapour || agent.lower_explosive_limit_percent.is_some(), "{}", agent.name);
        assert!(!vapour || eight_hours_ppm(agent).is_some(), "{}", agent.name);
    }
}

#[test]
fn names_as_people_type_them() {
    assert_eq!(named(" Isopropyl alcohol").unwrap().name, "isopropyl-alcohol");
    assert_eq!(named("2-propanol").unwrap().name, "isopropyl-alcohol");
    assert_eq!(nearest("aceton"), Some("acetone"));
    assert_eq!(nearest("plutonium"), None);
}

#[test]
fn what_leaves_a_film_is_refused_for_the_toric() {
    for agent in ["mineral-oil", "grease", "soapy-water", "silicone-oil", "white-spirit"] {
        let outcome = evaluate(&input(agent, "NBR")).unwrap();
        assert_eq!(outcome.verdict, Verdict::DoesNotConform, "{agent}");
        assert!(outcome.refused_for_toric.is_some(), "{agent}");
    }
    // Oil suits nitrile for its whole life, and still has no place on it while it is fitted.
    let oil = evaluate(&input("mineral-oil", "NBR")).unwrap();
    assert_eq!(oil.verdict_immersion, Verdict::Conforms);
}

#[test]
fn a_wipe_and_an_immersion_are_told_apart() {
    let of = |agent, code| {
        let outcome = evaluate(&input(agent, code)).unwrap();
        (outcome.verdict_wiping, outcome.verdict_immersion)
    };
    // Fair to good: enough for a wipe, not proven for a life in it.
    assert_eq!(of("isopropyl-alcohol", "NBR"), (Verdict::Conforms, Verdict::NotProven));
    assert_eq!(of("isopropyl-alcohol", "VMQ"), (Verdict::Conforms, Verdict::Conforms));
    assert_eq!(of("acetone", "NBR"), (Verdict::DoesNotConform, Verdict::DoesNotConform));
    assert_eq!(of("acetone", "EPDM").0, Verdict::Conforms);
}

#[test]
fn alcohol_in_a_bay() {
    let outcome = |bay, air, amount| {
        let use_in = used(bay, air, amount);
        evaluate(&Input { use_in, ..input("isopropyl-alcohol", "VMQ") }).unwrap()
    };
    // 30 ml make 9.43 l of vapour: half a cubic metre of air at the lower explosive limit.
    let shop = outcome("60 m3", 4.0, "30 ml");
    let vapour = shop.vapour.as_ref().unwrap();
    assert!((vapour.vapour_l - 9.43).abs() < 0.01, "{}", vapour.vapour_l);
    assert!((vapour.concentration_ppm - 157.1).abs() < 0.2);
    assert!(vapour.eight_hour_mean_ppm < vapour.fifteen_minute_mean_ppm);
    assert_eq!(shop.ignitable_at_room, Some(true));
    assert!((shop.saturated_times_lower_explosive_limit.unwrap() - 2.17).abs() < 0.01);
    // Over fifteen minutes 99 ppm, five times as much still below 500; in half the bay above it.
    assert_eq!(shop.verdict, Verdict::Conforms);
    assert_eq!(outcome("30 m3", 4.0, "30 ml").verdict, Verdict::NotProven);
    assert_eq!(outcome("600 m3", 4.0, "30 ml").verdict, Verdict::Conforms);
    assert_eq!(outcome("2 m3", 0.0, "30 ml").verdict, Verdict::DoesNotConform);
}

#[test]
fn what_has_no_vapour_is_not_judged_by_it() {
    let use_in = used("60 m3", 1.0, "1 l");
    let water = evaluate(&Input { use_in, ..input("water", "NBR") }).unwrap();
    assert_eq!(water.verdict, Verdict::Conforms);
}

#[test]
fn no_shop_is_so() {
    for use_in in [
        used("0 m3", 4.0, "30 ml"),
        used("60 m3", -1.0, "30 ml"),
        used("60 m3", f64::NAN, "30 ml"),
        used("60 m3", 4.0, "0 ml"),
        used("1 m3", 4.0, "30 l"),
    ] {
        let input = Input { use_in, ..input("acetone", "EPDM") };
        assert!(evaluate(&input).is_err(), "{input:?}");
    }
    let hot = Input { room: typed("90 degC"), ..input("acetone", "EPDM") };
    assert!(evaluate(&hot).is_err());
}

/// The time since the last wetting, in a housing, at a temperature.
fn waited(agent: &str, since: &str, (depth, room): (&str, &str)) -> Outcome {
    let depth = Some(typed(depth));
    let (since, room) = (Some(typed(since)), typed(room));
    evaluate(&Input { depth, since, room, ..input(agent, "VMQ") }).unwrap()
}

#[test]
fn closed_too_early_an_agent_is_still_behind_the_toric() {
    let here = ("28 mm", "19 degC");
    let of = |since| waited("isopropyl-alcohol", since, here);
    assert_eq!(of("50 min").verdict, Verdict::Conforms);
    assert_eq!(of("15 min").verdict, Verdict::NotProven);
    for since in ["0 s", "1 min"] {
        let early = of(since);
        assert_eq!(early.verdict, Verdict::DoesNotConform, "{since}");
        let finding = early.findings.iter().find(|one| one.what.starts_with("time")).unwrap();
        assert!(finding.fits.contains("wait on"), "{}", finding.fits);
    }
    // By hand: 28.3 um of 13 062 mol/m3 through 24.2 mm of air at 292.15 K, 1.01e-5 m2/s at 25 degC
    // and 3 432 Pa over the cooled wet surface.
    let drying = of("50 min").drying.unwrap();
    assert!((drying.median_s / 620.0 - 1.0).abs() < 0.05, "{}", drying.median_s);
    // The same wait in a cold shop is too short to be sure.
    let cold = waited("isopropyl-alcohol", "50 min", ("28 mm", "2 degC"));
    assert_eq!(cold.verdict, Verdict::NotProven);
    // Nothing is known of how fast water goes: it depends on the day.
    let water = waited("water", "50 min", here);
    assert_eq!(water.verdict, Verdict::NotProven);
    assert!(water.drying.is_none());
}

#[test]
fn no_wait_is_so() {
    for (since, depth) in [("-1 min", "28 mm"), ("90000 h", "28 mm"), ("5 min", "3 m")] {
        let (since, depth) = (Some(typed(since)), Some(typed(depth)));
        assert!(evaluate(&Input { since, depth, ..input("acetone", "EPDM") }).is_err());
    }
}

proptest! {
    #[test]
    fn colder_and_deeper_dry_later_and_waiting_longer_is_never_worse(
        degc in 0.0..40.0f64, by in 0.1..15.0f64, depth in 5.0..80.0f64, min in 0.1..600.0f64,
    ) {
        let of = |degc: f64, depth: f64, min: f64| {
            let here = (&*format!("{depth} mm"), &*format!("{degc} degC"));
            waited("isopropyl-alcohol", &format!("{min} min"), here)
        };
        let time = |outcome: &Outcome| outcome.drying.as_ref().unwrap().median_s;
        let here = of(degc, depth, min);
        prop_assert!(time(&of(degc - by, depth, min)) > time(&here));
        prop_assert!(time(&of(degc, depth + by, min)) > time(&here));
        prop_assert!(of(degc, depth, min * (1.0 + by)).verdict <= here.verdict);
        prop_assert!(of(degc, depth, min).drying == here.drying);
        // In other units the same.
        let us = (&*format!("{} in", depth / 25.4), &*format!("{} degF", degc * 1.8 + 32.0));
        let other = waited("isopropyl-alcohol", &format!("{} s", min * 60.0), us);
        prop_assert!((time(&other) / time(&here) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn more_air_and_less_agent_are_never_worse(
        bay in 1.0..1000.0f64, by in 1.01..5.0f64, air in 0.0..20.0f64, ml in 1.0..10.0f64,
    ) {
        let of = |bay: f64, air, ml: f64| {
            let use_in = used(&format!("{bay} m3"), air, &format!("{ml} ml"));
            evaluate(&Input { use_in, ..input("isopropyl-alcohol", "VMQ") }).unwrap()
        };
        let here = of(bay, air, ml);
        for better in [of(bay * by, air, ml), of(bay, air * by, ml), of(bay, air, ml / by)] {
            prop_assert!(better.verdict <= here.verdict);
            let mean = |outcome: &Outcome| outcome.vapour.as_ref().unwrap().eight_hour_mean_ppm;
            prop_assert!(mean(&better) <= mean(&here));
        }
    }

    #[test]
    fn units_in_are_units_out(bay in 1.0..1000.0f64, ml in 1.0..10.0f64) {
        let of = |bay: String, amount: String| {
            let use_in = used(&bay, 4.0, &amount);
            evaluate(&Input { use_in, ..input("isopropyl-alcohol", "VMQ") }).unwrap()
        };
        let si = of(format!("{bay} m3"), format!("{ml} ml"));
        let us = of(format!("{} ft3", bay / 0.028_316_846_592), format!("{} in3", ml / 16.387_064));
        let ppm = |outcome: &Outcome| outcome.vapour.as_ref().unwrap().concentration_ppm;
        prop_assert!((ppm(&si) - ppm(&us)).abs() < 1e-9 * ppm(&si));
    }
}
