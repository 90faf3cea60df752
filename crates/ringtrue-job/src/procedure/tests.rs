use proptest::prelude::*;
use ringtrue_seal::definition::joint::{Half, Joint, JointFile, assemble};
use ringtrue_seal::definition::procedure::{
    HoldPoint, LimitKey, LoadRingType, Procedure, Rule, Stage, Step, Times, shipped,
};
use ringtrue_seal::definition::read;
use ringtrue_seal::definition::seal::{Chilling, Seal};

use super::*;

macro_rules! example {
    ($path:literal) => {
        include_str!(concat!("../../../../examples/", $path))
    };
}

fn final_drive() -> Joint {
    let file: JointFile = read(example!("final-drive/joint.toml")).unwrap();
    let seal = |path: &str, _| -> Result<Seal, ()> {
        Ok(match path {
            "frame-half.toml" => read(example!("final-drive/frame-half.toml")).unwrap(),
            "hub-half.toml" => read(example!("final-drive/hub-half.toml")).unwrap(),
            other => panic!("no {other}"),
        })
    };
    assemble(file, seal).unwrap()
}

fn mixer_shaft() -> Joint {
    let file: JointFile = read(example!("mixer-shaft/joint.toml")).unwrap();
    assemble(file, |path, _| -> Result<Seal, ()> { panic!("no {path}") }).unwrap()
}

fn dough_mixer() -> Joint {
    let file: JointFile = read(example!("dough-mixer/joint.toml")).unwrap();
    let seal = |path: &str, _| -> Result<Seal, ()> {
        Ok(match path {
            "bowl-half.toml" => read(example!("dough-mixer/bowl-half.toml")).unwrap(),
            "spindle-half.toml" => read(example!("dough-mixer/spindle-half.toml")).unwrap(),
            other => panic!("no {other}"),
        })
    };
    assemble(file, seal).unwrap()
}

fn of(load_ring: LoadRingType) -> Procedure {
    read(shipped(load_ring)).unwrap()
}

/// One line a step: half, stage, id, hold point; then what fell away, and why.
fn listed(steps: &DueSteps<'_>) -> String {
    let half = |half: Option<Half>| half.map_or("-", Half::name);
    let due = steps.due.iter().map(|due| {
        let hold = due.step.gate.and_then(|gate| gate.hold_point);
        let hold = hold.map_or(String::new(), |point| format!(" [{}]", point.name()));
        format!("{} {} {}{hold}\n", half(due.half), due.step.stage.name(), due.step.id)
    });
    let gone = steps
        .fell_away
        .iter()
        .map(|gone| format!("fell away: {} {}: {}\n", half(gone.half), gone.step.id, gone.because));
    due.chain(gone).collect()
}

#[test]
fn the_demo_joints_need_these_steps() {
    let cases = [
        (final_drive(), "final drive", include_str!("../../tests/data/due_final_drive.txt")),
        (mixer_shaft(), "mixer shaft", include_str!("../../tests/data/due_mixer_shaft.txt")),
        (dough_mixer(), "dough mixer", include_str!("../../tests/data/due_dough_mixer.txt")),
    ];
    for (joint, name, expected) in cases {
        let procedure: Procedure = read(shipped_for(&joint)).unwrap();
        assert_eq!(half_of_other_type(&procedure, &joint), None);
        let found = listed(&due_steps(&procedure, &joint));
        assert_eq!(found, expected, "{name}:\n{found}");
    }
}

#[test]
fn each_step_is_due_or_fell_away_as_often_as_its_stage_is_done() {
    for joint in [final_drive(), mixer_shaft(), dough_mixer()] {
        for procedure in LoadRingType::ALL.map(of) {
            let steps = due_steps(&procedure, &joint);
            for step in &procedure.step {
                let wanted = match step.stage.times() {
                    Times::Once => 1,
                    Times::EachHalf => 2,
                };
                let due = steps.due.iter().filter(|due| due.step.id == step.id).count();
                let gone = steps.fell_away.iter().filter(|gone| gone.step.id == step.id).count();
                assert_eq!(due + gone, wanted, "{}", step.id);
            }
        }
    }
}

#[test]
fn both_housings_are_accepted_before_a_ring_is_fitted() {
    let joint = final_drive();
    let procedure = of(LoadRingType::Toric);
    let due = due_steps(&procedure, &joint).due;
    let last_housing = due
        .iter()
        .rposition(|due| {
            due.step.gate.and_then(|gate| gate.hold_point) == Some(HoldPoint::HousingAccepted)
        })
        .unwrap();
    let first_seat = due.iter().position(|due| due.step.stage == Stage::Clean).unwrap();
    assert!(last_housing < first_seat);
    let built: Vec<_> = due
        .iter()
        .filter(|due| due.step.stage >= Stage::Clean && due.step.stage <= Stage::Level)
        .map(|due| due.half.unwrap())
        .collect();
    assert!(built.is_sorted(), "half a is built up before half b: {built:?}");
}

/// What one change of the joint does to the ids that are due.
fn due_ids(joint: &Joint, half: Option<Half>) -> Vec<String> {
    let procedure: Procedure = read(shipped_for(joint)).unwrap();
    let due = due_steps(&procedure, joint).due;
    due.iter().filter(|due| due.half == half).map(|due| due.step.id.clone()).collect()
}

#[test]
fn a_change_of_the_joint_changes_what_is_due_on_that_half_alone() {
    let b = Some(Half::B);
    let differs = |change: &dyn Fn(&mut Joint), gone: &[&str], new: &[&str]| {
        let before = final_drive();
        let mut after = before.clone();
        change(&mut after);
        let (old, found) = (due_ids(&before, b), due_ids(&after, b));
        let lost: Vec<_> = old.iter().filter(|id| !found.contains(id)).collect();
        let gained: Vec<_> = found.iter().filter(|id| !old.contains(id)).collect();
        assert_eq!(lost, gone);
        assert_eq!(gained, new);
        assert_eq!(due_ids(&before, Some(Half::A)), due_ids(&after, Some(Half::A)));
    };
    let given = |text: &str| ringtrue_metrology::units::Given::new(text).unwrap();
    differs(
        &|joint| joint.b.fitting.chilling = Chilling::Allowed,
        &[],
        &["chill-toric", "re-warm"],
    );
    differs(
        &|joint| joint.b.fitting.pressed_up_to = Some(given("265 mm")),
        &["press-in"],
        &["work-in"],
    );
    // The same size in other units is the same size: 266 mm.
    differs(&|joint| joint.b.fitting.pressed_up_to = Some(given("10.47244094488189 in")), &[], &[]);
    differs(&|joint| joint.b.fitting.pressed_up_to = None, &[], &[]);
    differs(
        &|joint| joint.b.fitting.cleaning_agent = "none".into(),
        &["choose-agent", "wet-toric"],
        &[],
    );
    differs(&|joint| joint.b.housing.lip = None, &["check-lip"], &[]);
}

fn made_of(joint: &mut Joint, half: Half, code: &str) {
    let seal = match half {
        Half::A => &mut joint.a,
        Half::B => &mut joint.b,
    };
    match &mut seal.load_ring {
        ringtrue_seal::definition::seal::LoadRing::Toric(toric) => toric.material = code.into(),
        ringtrue_seal::definition::seal::LoadRing::ConicalWasher(washer) => {
            washer.material = code.into();
        }
    }
}

#[test]
fn a_step_of_the_joint_is_due_where_one_half_needs_it() {
    for (code, wanted) in [("FKM", true), ("fkm", true), ("own.toml", true), ("VMQ", false)] {
        let mut joint = final_drive();
        made_of(&mut joint, Half::B, code);
        let due = due_ids(&joint, None).iter().any(|id| id == "keep-heat-away");
        assert_eq!(due, wanted, "{code}");
    }
    let joint = final_drive();
    assert_eq!(
        against(Rule::Fluoroelastomer, &joint, None).as_deref(),
        Some("the load ring is of NBR")
    );
    let mut mixed = joint;
    made_of(&mut mixed, Half::B, "HNBR");
    assert_eq!(
        against(Rule::Fluoroelastomer, &mixed, None).as_deref(),
        Some("half a: the load ring is of NBR; half b: the load ring is of HNBR")
    );
}

#[test]
fn a_steel_washer_goes_in_dry() {
    let mut joint = mixer_shaft();
    made_of(&mut joint, Half::A, "steel");
    joint.a.fitting.cleaning_agent = "none".into();
    let ids = due_ids(&joint, Some(Half::A));
    let has = |id: &str| ids.iter().any(|due| due == id);
    assert!(has("look-at-steel-washer") && has("seat-steel"));
    assert!(!has("look-at-rubber-washer") && !has("wet-edges") && !has("seat-rubber"));
}

#[test]
fn every_rule_holds_of_one_joint_and_fails_of_another() {
    let mut other = mixer_shaft();
    made_of(&mut other, Half::A, "steel");
    made_of(&mut other, Half::B, "steel");
    other.a.fitting.cleaning_agent = "none".into();
    other.b.fitting.cleaning_agent = "none".into();
    let mut large = final_drive();
    for seal in [&mut large.a, &mut large.b] {
        seal.fitting.pressed_up_to = Some(ringtrue_metrology::units::Given::new("100 mm").unwrap());
        seal.fitting.chilling = Chilling::Allowed;
    }
    made_of(&mut large, Half::A, "FKM");
    large.a.limits.face_load = None;
    large.b.limits.face_load = None;
    let joints = [final_drive(), mixer_shaft(), other, large];
    for rule in Rule::ALL {
        let reasons: Vec<_> = joints.iter().map(|joint| against(rule, joint, None)).collect();
        assert!(reasons.iter().any(Option::is_none), "{}", rule.name());
        assert!(reasons.iter().any(Option::is_some), "{}", rule.name());
    }
}

#[test]
fn the_wrong_procedure_is_noticed_by_the_half() {
    let washer = of(LoadRingType::ConicalWasher);
    assert_eq!(half_of_other_type(&washer, &final_drive()), Some(Half::A));
    let mut mixed = mixer_shaft();
    mixed.b = final_drive().b;
    assert_eq!(half_of_other_type(&washer, &mixed), Some(Half::B));
}

#[test]
fn limits_of_a_joint_are_found_and_those_without_a_gate_are_named() {
    let joint = final_drive();
    let ra = stated_limit(&joint, Some(Half::B), LimitKey::RampFinishRa).unwrap();
    assert!((ra.max_si.unwrap() - 3.2e-6).abs() < 1e-18 && ra.min_si.is_none());
    assert_eq!(ra.stated, ["half b: at most 3.2 um (drawing HL-2207, example)"]);
    let gap = stated_limit(&joint, None, LimitKey::SealGap).unwrap();
    assert_eq!(gap.stated.len(), 3);
    assert!((gap.min_si.unwrap() - 2.1e-3).abs() < 1e-15);
    let load = stated_limit(&joint, None, LimitKey::FaceLoad).unwrap();
    assert_eq!(load.stated.len(), 2);
    assert_eq!(stated_limit(&mixer_shaft(), None, LimitKey::RampFinishRa), None);
    // The sweeps of the housings judge the tip as well.
    let mut procedure = of(LoadRingType::Toric);
    assert_eq!(limits_without_gate(&procedure, &joint), []);
    procedure.step.retain(|step| step.id != "line-up" && step.id != "face-load");
    let open = [LimitKey::FaceLoad, LimitKey::Eccentricity, LimitKey::Tip];
    assert_eq!(limits_without_gate(&procedure, &joint), open);
    procedure.step.retain(|step| step.id != "face-flatness" && step.id != "ramp-finish");
    assert!(limits_without_gate(&procedure, &joint).contains(&LimitKey::FaceFlatness));
    let mut standing = joint;
    standing.file.attitude = ringtrue_seal::definition::joint::Attitude::ShaftVertical;
    assert!(!limits_without_gate(&procedure, &standing).contains(&LimitKey::Tip));
}

#[test]
fn one_byte_more_is_another_procedure() {
    let text = shipped(LoadRingType::Toric);
    assert_eq!(content_hash(text), content_hash(text));
    assert_ne!(content_hash(text), content_hash(&format!("{text} ")));
    assert_ne!(content_hash(text), content_hash(&text.replace('\n', "\r\n")));
    // BLAKE3 of nothing, from the algorithm's published test vectors.
    assert_eq!(
        content_hash("").to_string(),
        "af1349b9f5f9a1a6a0404dea36dcc9499bcb25c9adc112b7cc9a93cae41f3262"
    );
}

#[test]
fn what_changed_is_said_step_by_step_and_key_by_key() {
    let old = of(LoadRingType::Toric);
    assert!(difference(&old, &old).is_empty());
    let mut new = old.clone();
    new.version = "2".into();
    new.caution[0].text = "Lock it out.".into();
    let gone = new.step.remove(2);
    let height = new.step.iter_mut().find(|step| step.id == "height").unwrap();
    height.why = "A cocked ring leaks.".into();
    height.evidence[0].ask = "Six heights".into();
    let photo = height.evidence[0].clone();
    height
        .evidence
        .push(ringtrue_seal::definition::procedure::Evidence { name: "more".into(), ..photo });
    let at = new.step.iter().position(|step| step.id == "lay-out-kit").unwrap();
    let kit = new.step.remove(at);
    new.step.insert(0, kit);
    let own = Step { id: "own-step".into(), ..new.step[1].clone() };
    new.step.push(own);
    let difference = difference(&old, &new);
    let keys = |fields: &[Field]| fields.iter().map(|f| f.key.clone()).collect::<Vec<_>>();
    let ids = |places: &[Place]| places.iter().map(|p| p.id.clone()).collect::<Vec<_>>();
    assert_eq!(keys(&difference.head), ["caution.machine-energy", "version"]);
    assert_eq!(ids(&difference.removed), [gone.id]);
    assert_eq!(ids(&difference.added), ["own-step"]);
    assert_eq!(difference.added[0].new_after.as_deref(), Some("hand-over"));
    assert_eq!(ids(&difference.moved), ["lay-out-kit"]);
    assert_eq!(difference.moved[0].old_after.as_deref(), Some("read-old-seal"));
    assert_eq!(difference.moved[0].new_after, None);
    let [changed] = difference.changed.as_slice() else { panic!("{:?}", difference.changed) };
    assert_eq!(changed.id, "height");
    assert_eq!(
        keys(&changed.fields),
        [
            "evidence",
            "evidence.heights.ask",
            "evidence.more.ask",
            "evidence.more.kind",
            "evidence.more.need",
            "evidence.more.readings",
            "why"
        ]
    );
    assert_eq!(changed.fields[6].new.as_deref(), Some("A cocked ring leaks."));
}

proptest! {
    #[test]
    fn any_steps_left_out_or_exchanged_never_panic(
        keep in proptest::collection::vec(any::<bool>(), 45),
        exchanged in proptest::collection::vec((0usize..45, 0usize..45), 0..6),
        which in 0usize..2,
    ) {
        let old = of(LoadRingType::ALL[which]);
        let mut new = old.clone();
        let mut keep = keep.iter().copied().cycle();
        new.step.retain(|_| keep.next().unwrap_or(true));
        let count = new.step.len();
        for (one, other) in exchanged {
            if count > 0 {
                new.step.swap(one % count, other % count);
            }
        }
        for joint in [final_drive(), mixer_shaft()] {
            let steps = due_steps(&new, &joint);
            let halves: usize = new.step.iter().map(|step| match step.stage.times() {
                Times::Once => 1,
                Times::EachHalf => 2,
            }).sum();
            prop_assert_eq!(steps.due.len() + steps.fell_away.len(), halves);
            let _ = limits_without_gate(&new, &joint);
        }
        // What is removed one way is added the other, and moved steps are in both.
        let there = difference(&old, &new);
        let back = difference(&new, &old);
        prop_assert_eq!(there.removed.len(), back.added.len());
        prop_assert_eq!(there.removed.len(), old.step.len() - new.step.len());
        prop_assert_eq!(there.moved.len(), back.moved.len());
        prop_assert!(there.changed.is_empty());
    }
}
