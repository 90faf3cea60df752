use proptest::prelude::*;

use super::*;
use crate::definition::{Definition, read};

fn of(load_ring: LoadRingType) -> Procedure {
    read(shipped(load_ring)).unwrap_or_else(|error| panic!("{}: {error}", load_ring.name()))
}

fn both() -> [Procedure; 2] {
    LoadRingType::ALL.map(of)
}

#[test]
fn both_shipped_procedures_are_whole_jobs() {
    for procedure in both() {
        let count = procedure.step.len();
        assert!((25..=60).contains(&count), "{}: {count} steps", procedure.name);
        for stage in Stage::ALL {
            let there = procedure.step.iter().any(|step| step.stage == stage);
            let chill = stage == Stage::Chill && procedure.load_ring == LoadRingType::ConicalWasher;
            assert_eq!(there, !chill, "{}: {}", procedure.name, stage.name());
        }
        for step in &procedure.step {
            let sentences = step.why.matches(". ").count() + 1;
            assert!(sentences <= 2, "{}: {}", step.id, step.why);
            assert!(!step.what.contains('\n') && !step.what.contains("  "), "{}", step.what);
        }
        // Every caution is said somewhere, and names who stands above it.
        for caution in &procedure.caution {
            let used = procedure.step.iter().any(|step| step.hazards.contains(&caution.hazard));
            assert!(used, "{}", caution.hazard.name());
        }
    }
}

#[test]
fn a_washer_is_neither_rolled_nor_chilled_and_a_toric_is() {
    let text_of = |load_ring| shipped(load_ring).split("[[step]]").skip(1).collect::<String>();
    let washer = text_of(LoadRingType::ConicalWasher).to_lowercase();
    for word in ["parting line", "chill", "twist", "toric", "ramp"] {
        assert!(!washer.contains(word), "{word}");
    }
    let toric = text_of(LoadRingType::Toric).to_lowercase();
    for word in ["parting line", "chill", "twist", "split tool", "soft mallet", "ramp angle"] {
        assert!(toric.contains(word), "{word}");
    }
    assert!(!toric.contains("washer"));
}

#[test]
fn cautions_defer_to_sheets_codes_and_licensed_people() {
    for procedure in both() {
        let says = |hazard: Hazard, words: &[&str]| {
            let Some(caution) = procedure.caution.iter().find(|c| c.hazard == hazard) else {
                return assert_eq!(hazard, Hazard::Cold, "{}", procedure.name);
            };
            for word in words {
                assert!(caution.text.contains(word), "{}: {word}", caution.text);
            }
        };
        says(Hazard::MachineEnergy, &["lock out", "site's own rules"]);
        says(Hazard::Pressure, &["relief device", "Local codes"]);
        says(Hazard::HotOil, &["safety data sheet"]);
        says(Hazard::Lifting, &["authorised", "Local rules"]);
        says(Hazard::Flammable, &["safety data sheet", "local codes", "heat gun"]);
        says(Hazard::Cold, &["safety data sheet", "closed room"]);
        says(Hazard::HotResidue, &["300 degC", "hydrofluoric acid", "Do not touch", "medical"]);
        says(Hazard::Dust, &["safety data sheet", "local rules"]);
        says(Hazard::Waste, &["local rules"]);
    }
}

#[test]
fn each_hazard_needs_its_caution() {
    for procedure in both() {
        for hazard in procedure.caution.iter().map(|caution| caution.hazard) {
            let mut without = procedure.clone();
            without.caution.retain(|caution| caution.hazard != hazard);
            let misfit = without.consistent().expect_err(hazard.name());
            assert!(misfit.path.contains(".hazards["), "{misfit:?}");
            assert!(misfit.found.contains(hazard.name()), "{misfit:?}");
        }
    }
}

#[test]
fn cautions_of_a_step_stand_in_the_order_of_its_hazards_and_its_own_last() {
    let procedure = of(LoadRingType::Toric);
    let step = procedure.step("new-or-used").unwrap();
    let said = procedure.cautions(step);
    assert_eq!(said.len(), 2);
    assert!(said[0].starts_with("Dust of lapping"));
    assert_eq!(Some(said[1]), step.caution.as_deref());
}

#[test]
fn what_a_bench_can_not_read_or_prove_is_refused() {
    let refused = |spoil: &dyn Fn(&mut Procedure), wanted: &str| {
        let mut procedure = of(LoadRingType::Toric);
        spoil(&mut procedure);
        let misfit = procedure.consistent().expect_err(wanted);
        assert!(misfit.found.contains(wanted), "{misfit:?}");
    };
    refused(&|p| p.step[3].why = "x".repeat(601), "`why` has 601 characters");
    refused(&|p| p.step[3].what = "\n".into(), "`what` is empty");
    refused(&|p| p.caution[0].text = "x".repeat(601), "`text` has 601 characters");
    refused(&|p| p.step.clear(), "0 steps");
    let angle = |p: &mut Procedure| {
        let values = p.step.iter_mut().flat_map(|step| &mut step.evidence);
        let mut of_depth = values.filter(|one| one.measures == Some(Measures::HousingDepth));
        of_depth.next().unwrap().measures = Some(Measures::RampAngle);
    };
    refused(&angle, "`ramp-angle` is of `angle`");
    refused(&|p| p.step[0].evidence[0].measures = Some(Measures::EndPlay), "given for a tick");
    refused(&|p| p.step[0].id = "x".repeat(41), "`id` is");
    refused(&|p| p.step[1].evidence.clear(), "nothing shows that step `first-photo` was done");
    let many = |p: &mut Procedure| {
        let tick = p.step[0].evidence[0].clone();
        let named = |n: usize| Evidence { name: format!("tick-{n}"), ..tick.clone() };
        p.step[0].evidence = (0..21).map(named).collect();
    };
    refused(&many, "wants 21 pieces of evidence");
    let long = |p: &mut Procedure| {
        let first = p.step[0].clone();
        p.step = (0..121).map(|n| Step { id: format!("step-{n}"), ..first.clone() }).collect();
    };
    refused(&long, "121 steps");
    let gap_by_tick = |p: &mut Procedure| {
        let step = p.step.iter_mut().find(|step| step.id == "wipe-faces").unwrap();
        step.gate =
            Some(Gate { decided_by: DecidedBy::Evidence, hold_point: Some(HoldPoint::Gap) });
    };
    refused(&gap_by_tick, "hold point `gap` is decided by `evidence`");
    let sometimes = |p: &mut Procedure| {
        let step = p.step.iter_mut().find(|step| step.id == "height").unwrap();
        step.when = vec![Rule::Rubber];
    };
    refused(&sometimes, "no step keeps the hold point `height`");
}

/// The keys of a seal's limits come from the seal's own type.
#[test]
fn every_limit_of_a_seal_can_be_named() {
    let schema = crate::definition::schema(crate::definition::Kind::Seal);
    let keys = schema["$defs"]["Limits"]["properties"].as_object().unwrap();
    let known: Vec<_> = LimitKey::ALL.iter().map(|key| key.name()).collect();
    let stated: Vec<_> = keys.keys().map(|key| format!("limits.{key}")).collect();
    assert_eq!(known, stated);
}

#[test]
fn every_measure_of_the_joint_is_asked_for_by_a_shipped_procedure() {
    let procedures = LoadRingType::ALL.map(of);
    let steps = procedures.iter().flat_map(|procedure| &procedure.step);
    let asked: Vec<_> =
        steps.flat_map(|step| &step.evidence).filter_map(|one| one.measures).collect();
    for what in Measures::ALL {
        assert!(asked.contains(&what), "{}", what.name());
    }
}

#[test]
fn words_in_files_are_the_names() {
    for stage in Stage::ALL {
        let word = serde_json::to_value(stage).unwrap();
        assert_eq!(word, stage.name());
    }
    for key in LimitKey::ALL {
        assert_eq!(serde_json::to_value(key).unwrap(), key.name());
    }
}

const SMALL: &str = include_str!("../../../tests/data/small_procedure.toml");

#[test]
fn a_small_procedure_is_enough_and_cut_at_any_byte_is_no_panic() {
    let procedure: Procedure = read(SMALL).unwrap();
    assert_eq!(procedure.step.len(), 6);
    for end in 0..SMALL.len() {
        let Some(cut) = SMALL.get(..end) else { continue };
        if let Err(error) = read::<Procedure>(cut) {
            assert!(!error.found.is_empty() && !error.fits.is_empty());
        }
    }
}

#[test]
fn the_washer_procedure_cut_anywhere_is_refused_or_read_but_never_a_panic() {
    let text = shipped(LoadRingType::ConicalWasher);
    // The steps repeat themselves: every eleventh byte.
    for end in (0..text.len()).step_by(11) {
        let Some(cut) = text.get(..end) else { continue };
        if let Err(error) = read::<Procedure>(cut) {
            assert!(!error.found.is_empty() && !error.fits.is_empty());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn any_bytes_of_a_small_procedure_exchanged_never_panic(
        at in 0..SMALL.len(),
        with in "\\PC{0,4}",
        length in 0usize..12,
    ) {
        let Some((before, rest)) = SMALL.split_at_checked(at) else { return Ok(()) };
        let rest = rest.get(length..).unwrap_or_default();
        let _ = read::<Procedure>(&format!("{before}{with}{rest}"));
    }

    #[test]
    fn steps_taken_out_are_refused_or_still_keep_every_hold_point(
        keep in proptest::collection::vec(any::<bool>(), 45),
    ) {
        let mut procedure = of(LoadRingType::Toric);
        let mut keep = keep.iter().copied().cycle();
        procedure.step.retain(|_| keep.next().unwrap_or(true));
        if procedure.consistent().is_ok() {
            for point in HoldPoint::ALL.into_iter().filter(|point| *point != HoldPoint::Own) {
                prop_assert!(!procedure.keepers(point).is_empty());
            }
        }
    }
}
