//! The rules by which a step falls away.

use ringtrue_metrology::units::Quantity;
use ringtrue_seal::definition::joint::{Attitude, Half, Joint};
use ringtrue_seal::definition::material::{NO_AGENT, STEEL};
use ringtrue_seal::definition::procedure::{LoadRingType, Rule};
use ringtrue_seal::definition::seal::{Chilling, Seal};
use ringtrue_words::say;

/// ISO 1629 codes of rubbers with fluorine in them: overheated, all leave acid residue.
const FLUORINE_RUBBERS: [&str; 4] = ["FKM", "FFKM", "FEPM", "FVMQ"];

/// Why a rule does not hold, in words; `None` where it holds. Without a half it is asked of the
/// whole joint, and holds where it holds for one of the halves. What the definition leaves open
/// holds: a step is rather done than left out.
#[must_use]
pub fn against(rule: Rule, joint: &Joint, half: Option<Half>) -> Option<String> {
    let Some(half) = half else {
        let reasons = Half::BOTH.map(|half| against_half(rule, joint, half));
        let [Some(a), Some(b)] = reasons else { return None };
        return Some(if a == b { a } else { say!("procedure-rule-each-half", of_a = a, of_b = b) });
    };
    against_half(rule, joint, half)
}

fn against_half(rule: Rule, joint: &Joint, half: Half) -> Option<String> {
    let seal = joint.seal(half);
    let material = seal.load_ring.material();
    let unless = |holds: bool, why: &dyn Fn() -> String| (!holds).then(why);
    let of_type = |wanted| LoadRingType::of(&seal.load_ring) == wanted;
    let made_of = || match seal.load_ring.material_file() {
        Some(_) => say!("procedure-rule-load-ring-rubber").to_owned(),
        None => say!("procedure-rule-load-ring-material", material),
    };
    match rule {
        Rule::Toric => unless(of_type(LoadRingType::Toric), &|| {
            say!("procedure-rule-load-ring-is-conical-washer").to_owned()
        }),
        Rule::ConicalWasher => unless(of_type(LoadRingType::ConicalWasher), &|| {
            say!("procedure-rule-load-ring-is-toric").to_owned()
        }),
        Rule::Rubber => unless(material != STEEL, &made_of),
        Rule::Steel => unless(material == STEEL, &made_of),
        Rule::Fluoroelastomer => {
            let code = material.trim();
            let named = FLUORINE_RUBBERS.iter().any(|rubber| rubber.eq_ignore_ascii_case(code));
            unless(named || seal.load_ring.material_file().is_some(), &made_of)
        }
        Rule::ChillingAllowed => unless(seal.fitting.chilling == Chilling::Allowed, &|| {
            say!("procedure-rule-seals-file-does-not-allow-chilling").to_owned()
        }),
        Rule::PressedIn => worked_in(seal),
        Rule::WorkedIn => unless(worked_in(seal).is_some(), &|| pressed_in(seal)),
        Rule::AgentUsed => unless(seal.fitting.cleaning_agent.trim() != NO_AGENT, &|| {
            say!("procedure-rule-seal-goes-in-dry-without-agent").to_owned()
        }),
        Rule::RetainingLip => unless(seal.housing.lip.is_some(), &|| {
            say!("procedure-rule-no-retaining-lip").to_owned()
        }),
        Rule::ShaftVertical => unless(joint.file.attitude == Attitude::ShaftVertical, &|| {
            say!("procedure-rule-shaft-lies-while-joint-closed").to_owned()
        }),
        Rule::ShaftHorizontal => unless(joint.file.attitude == Attitude::ShaftHorizontal, &|| {
            say!("procedure-rule-shaft-stands-while-joint-closed").to_owned()
        }),
        Rule::FaceLoadLimited => unless(seal.limits.face_load.is_some(), &|| {
            say!("procedure-rule-no-limit-of-face-load").to_owned()
        }),
    }
}

/// Why a ring is worked in round; `None` where it is pressed in.
fn worked_in(seal: &Seal) -> Option<String> {
    let size = seal.fitting.pressed_up_to.as_ref()?;
    let face = &seal.ring.face_outer_diameter;
    // `10.5 in` and `266.7 mm` are one size, though not always one number.
    let larger = face.value().si() > size.value().si() * (1.0 + 1e-9);
    larger.then(|| {
        say!(
            "procedure-rule-face-pressed-in-up-only",
            face = face.to_string(),
            size = size.to_string()
        )
    })
}

fn pressed_in(seal: &Seal) -> String {
    let face = &seal.ring.face_outer_diameter;
    match &seal.fitting.pressed_up_to {
        Some(size) => say!(
            "procedure-rule-face-pressed-in-up",
            face = face.to_string(),
            size = size.to_string()
        ),
        None => say!("procedure-rule-seals-file-names-no-size-above").to_owned(),
    }
}
