//! A change that is tried on paper: the joint with other sizes, and nothing of the job touched.

use ringtrue_job::evidence;
use ringtrue_metrology::units::{Angle, Given, Hardness, Length, System, UnitError, parse};
use ringtrue_report::load_at;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::seal::{LoadRing, Seal};
use ringtrue_seal::face_load::{Input, Outcome};
use ringtrue_seal::gap_stack;

use super::frame::units_name;
use super::step_form::with_unit;
use crate::kept::Kept;
use crate::problem::Problem;
use crate::web::fields::Fields;
use crate::web::trouble::Trouble;
use ringtrue_words::words;

/// What is changed, as typed; an empty field stays as the joint has it.
pub(crate) struct Trial {
    pub(crate) fields: Vec<Change>,
}

/// One field of the form.
pub(crate) struct Change {
    pub(crate) name: &'static str,
    pub(crate) typed: String,
    /// The unit of a bare number.
    pub(crate) unit: &'static str,
    /// As the joint has it, half a and half b.
    pub(crate) now: String,
}

/// A value beside the changed one.
pub(crate) struct Row {
    pub(crate) name: String,
    pub(crate) own: String,
    pub(crate) changed: String,
}

fn toric_values(seal: &Seal) -> [String; 3] {
    let ramp = seal.ring.ramp.as_ref().map(|ramp| ramp.angle.to_string()).unwrap_or_default();
    match &seal.load_ring {
        LoadRing::Toric(toric) => [
            toric.hardness.as_ref().map(ToString::to_string).unwrap_or_default(),
            toric.section_diameter.to_string(),
            ramp,
        ],
        LoadRing::ConicalWasher(washer) => {
            let hardness = washer.hardness.as_ref().map(ToString::to_string);
            [hardness.unwrap_or_default(), String::new(), ramp]
        }
    }
}

impl Trial {
    /// The form, with what was typed.
    pub(crate) fn of(kept: &Kept, asked: &Fields, system: System) -> Self {
        let joint = &kept.plan.joint;
        let (a, b) = (toric_values(&joint.a), toric_values(&joint.b));
        let is_toric = Half::BOTH
            .into_iter()
            .all(|half| matches!(joint.seal(half).load_ring, LoadRing::Toric(_)));
        let both = |at: usize| {
            let (a, b) = (&a[at], &b[at]);
            if a == b { a.clone() } else { format!("{a}, {b}") }
        };
        let t = words();
        // Steel has no hardness that its stiffness would come from.
        let is_rubber = !Half::BOTH.into_iter().all(|half| joint.seal(half).load_ring.is_steel());
        let mut fields = Vec::new();
        if is_rubber {
            fields.push(("hardness", both(0)));
        }
        if is_toric {
            fields.push(("section", both(1)));
            fields.push(("ramp", both(2)));
        }
        fields.push(("friction", t.say("try-no-slip")));
        fields.push(("gap", t.say("try-gap-now")));
        let change = |(name, now): (&'static str, String)| Change {
            name,
            typed: asked.text(name).trim().to_owned(),
            unit: match name {
                "hardness" => "Shore A",
                "ramp" => "deg",
                "section" | "gap" => units_name(system),
                _ => "",
            },
            now,
        };
        Self { fields: fields.into_iter().map(change).collect() }
    }

    /// Is nothing changed?
    pub(crate) fn is_empty(&self) -> bool {
        self.fields.iter().all(|field| field.typed.is_empty())
    }

    /// What was typed, with the unit beside its field where it has none of its own.
    fn typed(&self, name: &str) -> Option<String> {
        let field = self.fields.iter().find(|field| field.name == name)?;
        Some(with_unit(&field.typed, field.unit)).filter(|typed| !typed.is_empty())
    }

    /// The changed joint's load.
    pub(crate) fn input(&self, kept: &Kept) -> Result<Input, Trouble> {
        let unfit = |error: UnitError| Trouble::input(error.found, error.fits);
        let room = |error| Trouble::from(Problem::room(error));
        let mut joint = kept.plan.joint.clone();
        for seal in [&mut joint.a, &mut joint.b] {
            self.change(seal).map_err(unfit)?;
        }
        let chain = evidence::joint_gap(&kept.plan.joint, None).map_err(room)?;
        let nominal = match self.typed("gap") {
            Some(gap) => parse::<Length>(&gap).map_err(unfit)?,
            None => gap_stack::nominal(&chain).map_err(room)?,
        };
        let friction = match self.typed("friction") {
            Some(text) => Some(friction(&text)?),
            None => None,
        };
        evidence::joint_load(&joint, self.materials(kept), nominal, friction).map_err(room)
    }

    /// What is known of the rubbers: another hardness is another rubber, with no tests known.
    fn materials<'k>(&self, kept: &'k Kept) -> [Option<&'k Material>; 2] {
        match self.typed("hardness") {
            Some(_) => [None, None],
            None => kept.plan.materials(),
        }
    }

    fn change(&self, seal: &mut Seal) -> Result<(), UnitError> {
        if let Some(hardness) = self.typed("hardness") {
            let hardness = Some(Given::<Hardness>::new(&hardness)?);
            match &mut seal.load_ring {
                LoadRing::Toric(toric) => (toric.hardness, toric.modulus) = (hardness, None),
                LoadRing::ConicalWasher(washer) => {
                    (washer.hardness, washer.modulus) = (hardness, None);
                }
            }
        }
        if let (Some(section), LoadRing::Toric(toric)) =
            (self.typed("section"), &mut seal.load_ring)
        {
            toric.section_diameter = Given::new(&section)?;
        }
        if let Some(angle) = self.typed("ramp") {
            let angle = Given::<Angle>::new(&angle)?;
            for ramp in [&mut seal.ring.ramp, &mut seal.housing.ramp].into_iter().flatten() {
                ramp.angle = angle.clone();
            }
        }
        Ok(())
    }
}

fn friction(text: &str) -> Result<f64, Trouble> {
    let number = ringtrue_metrology::units::parse_number(text).ok();
    number.filter(|mu| (0.0..=10.0).contains(mu)).ok_or_else(|| {
        let t = words();
        Trouble::input(
            t.with("try-friction-unfit", &[("typed", text)]),
            t.say("try-friction-unfit-next"),
        )
    })
}

/// The verdicts, and the loads at the three gaps, side by side.
pub(crate) fn rows([own, changed]: [&Outcome; 2], system: System) -> Vec<Row> {
    let t = words();
    let gaps = [
        ("try-smallest", own.joint.at_gap.min, changed.joint.at_gap.min),
        ("try-nominal", own.joint.at_gap.nominal, changed.joint.at_gap.nominal),
        ("try-largest", own.joint.at_gap.max, changed.joint.at_gap.max),
    ];
    let said = |load: Option<_>, of: &Outcome| {
        load.map_or_else(|| t.say("try-not-reached"), |load| load_at(&load, &of.joint, system))
    };
    let verdict = Row {
        name: t.say("try-verdict"),
        own: own.verdict.words().to_owned(),
        changed: changed.verdict.words().to_owned(),
    };
    let at = |(key, of_own, of_changed): (&str, _, _)| Row {
        name: t.say(key),
        own: said(of_own, own),
        changed: said(of_changed, changed),
    };
    std::iter::once(verdict).chain(gaps.into_iter().map(at)).collect()
}
