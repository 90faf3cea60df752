//! Chilling, leak tests and agents, judged on the shipped examples and on odd inputs.

use ringtrue_job::evidence::{self, Cold, LeakBasis};
use ringtrue_job::{Assessment, Evidence, judge, reading};
use ringtrue_metrology::conformity::{Levels, Verdict};
use ringtrue_metrology::units::{Given, Quantity, System, parse};
use ringtrue_seal::agents::{self, Use};
use ringtrue_seal::chilling::{self, Medium};
use ringtrue_seal::definition::{read, seal::Seal};
use ringtrue_seal::leak_test::{self, BubbleMethod, Bubbles, Pressures, Soak, Trace};

use super::checks::{further, text};
use super::fixture;
use crate::Further;
use crate::document::Block;

fn typed<Q: Quantity>(text: &str) -> Q {
    parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn chilled(medium: Medium, cold: &str, humidity: &str) -> Assessment {
    let seal: Seal = read(&text("silicone-half.toml")).unwrap();
    let cold = Cold {
        medium,
        coefficient: None,
        room_coefficient: None,
        cold: typed(cold),
        room: typed("22 degC"),
        humidity: typed(humidity),
    };
    judge(&Evidence::Chilling(evidence::chilled_seal(&seal, None, cold).unwrap())).unwrap()
}

fn leak(limit: &str) -> Assessment {
    let volume = Given::new("3.20 l").unwrap();
    let basis = LeakBasis {
        pressures: Pressures::Gauge,
        atmosphere: Some(typed("101.3 kPa")),
        volume: &volume,
        volume_uncertainty: None,
        limit: typed(limit),
        pressure_resolution: None,
        temperature_resolution: None,
        temperature_uncertainty: None,
        give: None,
        seal: None,
    };
    let readings = reading::leak(&text("leak-readings.csv")).unwrap();
    judge(&Evidence::LeakTest(evidence::leak_test(readings, &basis))).unwrap()
}

fn agent(name: &str, code: &str, amount: Option<&str>) -> Assessment {
    let use_in = amount.map(|amount| Use {
        bay: typed("60 m3"),
        air_changes_per_hour: 4.0,
        amount: typed(amount),
    });
    judge(&Evidence::Agents(agents::Input {
        agent: Box::new(agents::named(name).unwrap().clone()),
        material: evidence::material_of(code).unwrap(),
        room: typed("20 degC"),
        use_in,
        depth: None,
        since: None,
        levels: Levels::DEFAULT,
    }))
    .unwrap()
}

/// Headline and first deed of a chilling.
fn told(change: &dyn Fn(&mut chilling::Input)) -> (String, String) {
    let seal: Seal = read(&text("silicone-half.toml")).unwrap();
    let cold = Cold {
        medium: Medium::StillAir,
        coefficient: None,
        room_coefficient: None,
        cold: typed("-25 degC"),
        room: typed("22 degC"),
        humidity: typed("45 %"),
    };
    let mut input = evidence::chilled_seal(&seal, None, cold).unwrap();
    change(&mut input);
    let made = judge(&Evidence::Chilling(input)).unwrap();
    let section = crate::check_section(&Further::of(&made.answer).unwrap(), System::Millimetre);
    let headline = section.blocks.iter().find_map(|block| {
        let Block::Verdict(line) = block else { return None };
        Some(line.sentence.clone())
    });
    let deeds = section.blocks.iter().find_map(|block| {
        let Block::List(deeds) = block else { return None };
        deeds.first().cloned()
    });
    (headline.unwrap(), deeds.unwrap_or_default())
}

/// A time that was too short is no cold that the toric may not have.
#[test]
fn what_to_do_about_the_cold_follows_from_what_fails() {
    let short = told(&|input| input.in_cold = Some(typed("5 min")));
    assert_eq!(short.0, "It was not in the cold for long enough.");
    assert!(short.1.starts_with("Leave it in the cold: "), "{}", short.1);
    let early = told(&|input| input.since = Some(typed("10 min")));
    assert_eq!(early.0, "It is not warm again yet.");
    assert!(early.1.starts_with("Leave it in the room "), "{}", early.1);
    let warm = told(&|input| input.since = Some(typed("9 h")));
    assert_eq!(warm.0, "Core and ring are warm again.");
    let forbidden = told(&|input| {
        input.chilling = Some(ringtrue_seal::definition::seal::Chilling::NotAllowed);
        input.in_cold = Some(typed("5 min"));
    });
    assert_eq!(forbidden.0, "The seal's file does not allow chilling.");
    assert!(forbidden.1.starts_with("Do not chill this toric: "), "{}", forbidden.1);
    let deep = told(&|input| {
        input.material = evidence::material_of("NBR").unwrap();
        input.cold = typed("-70 degC");
    });
    assert_eq!(deep.0, "This toric may not be chilled so cold.");
    assert_eq!(deep.1, "Do not chill this toric so cold.");
    let fine = told(&|input| input.in_cold = Some(typed("9 h")));
    assert_eq!(fine.0, "This toric may be chilled so cold.");
}

/// Checks by name.
pub(super) fn all() -> Vec<(&'static str, Assessment)> {
    let over = typed("5 min");
    let limit = typed("0.01 Pa m3/s");
    let levels = ringtrue_metrology::conformity::Levels::DEFAULT;
    let by = BubbleMethod::Film;
    let bubbles = Bubbles { by, count: 7, over, diameter: None, limit, levels };
    let soak = Soak { seen: Trace::Wet, over, wanted: None };
    let seen = |input| judge(&Evidence::LeakTest(input)).unwrap();
    vec![
        ("chilled", chilled(Medium::StillAir, "-25 degC", "60 %")),
        ("chilled fast", chilled(Medium::Liquid, "-40 degC", "0 %")),
        ("hardly chilled", chilled(Medium::MovingAir { speed: None }, "20 degC", "95 %")),
        ("leak", leak("0.001 Pa m3/s")),
        ("leak not seen", leak("0.0001 Pa m3/s")),
        ("bubbles", seen(leak_test::Input::Bubbles(bubbles))),
        ("soak", seen(leak_test::Input::Soak(soak))),
        ("alcohol", agent("isopropyl-alcohol", "NBR", Some("30 ml"))),
        ("too much acetone", agent("acetone", "EPDM", Some("0.5 l"))),
        ("grease", agent("grease", "NBR", None)),
    ]
}

#[test]
fn handling_stands_in_the_report_with_caution_verdict_and_deeds() {
    let checks = all();
    let chosen: Vec<Further<'_>> =
        checks.iter().map(|(_, assessment)| further(assessment)).collect();
    let document = fixture::final_drive().document_with(&chosen);
    let of = |title: &str| {
        let sections = document.sections.iter().filter(|section| section.title == title);
        sections.collect::<Vec<_>>()
    };
    assert_eq!(of("Chilling").len(), 3);
    assert_eq!(of("Cleaning and wetting agent").len(), 3);
    for section in of("Chilling").into_iter().chain(of("Cleaning and wetting agent")) {
        assert!(matches!(section.blocks[0], Block::Caution(_)), "{}", section.title);
    }
    let leaks = of("Leak test");
    let drawn = |blocks: &[Block]| blocks.iter().any(|b| matches!(b, Block::Drawings(_)));
    assert_eq!(leaks.iter().filter(|section| drawn(&section.blocks)).count(), 2);
    assert_eq!(document.cover.verdict, Verdict::DoesNotConform);
    assert!(document.cover.to_do.iter().any(|deed| deed.contains("without a film")));
    assert!(crate::pdf(&document).unwrap().starts_with(b"%PDF-"));
}
