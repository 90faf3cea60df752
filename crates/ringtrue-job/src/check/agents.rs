//! A cleaning or wetting agent, as given.

use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Length, Quantity, Temperature, Time, UnitError, Volume, clip};
use ringtrue_seal::RoomError;
use ringtrue_seal::agents::{Agent, Input, Use, named_in, nearest, shipped};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::seal::Seal;
use ringtrue_words::say;

use super::setting::{Setting, Settings, number, wanted};
use super::{CheckError, Made, Parts, refuse};
use crate::evidence;

pub(super) const SETTINGS: &[Setting] = &[
    Setting::typed("agent", "NAME", "check-agents-agent", |text| {
        agent(shipped(), text).map(|_| ())
    }),
    Setting::quantity::<Volume>("bay", "VOLUME", "check-agents-bay").in_unit("m3"),
    Setting::typed("air-changes", "NUMBER", "check-agents-air-changes", number),
    Setting::quantity::<Volume>("amount", "VOLUME", "check-agents-amount").in_unit("ml"),
    Setting::quantity::<Temperature>("room", "TEMPERATURE", "check-agents-room").or("20 degC"),
    Setting::quantity::<Length>("depth", "LENGTH", "check-agents-depth"),
    Setting::quantity::<Time>("since", "TIME", "check-agents-since").in_unit("min"),
];

fn agent<'a>(agents: &'a [Agent], name: &str) -> Result<&'a Agent, UnitError> {
    named_in(agents, name).ok_or_else(|| {
        let names: Vec<&str> = agents.iter().map(|agent| agent.name.as_str()).collect();
        let names = names.join(", ");
        UnitError {
            found: say!("check-agents-no-agent-known-here", typed = clip(name)),
            fits: match nearest(name) {
                Some(near) => say!("check-agents-known-and-near", near, names),
                None => say!("check-agents-known", names),
            },
        }
    })
}

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    made.no_files(say!("check-agents-no-files"))?;
    let settings = Settings::new(SETTINGS, made.stated)?;
    let agent =
        settings.read("agent", |name| agent(made.agents, name))?.ok_or_else(|| wanted("agent"))?;
    let room: Temperature = settings.quantity("room")?.ok_or_else(|| wanted("room"))?;
    let use_in = use_in(&settings)?;
    let since: Option<Time> = settings.quantity("since")?;
    let depth = settings.quantity("depth")?.or_else(|| depth(&made.parts));
    let input = |(material, levels): (Material, Levels)| {
        let agent = Box::new(agent.clone());
        Input { agent, material, room, use_in, depth, since, levels }
    };
    Ok(match made.parts {
        Parts::Material(material) => input((material.clone(), Levels::DEFAULT)),
        Parts::Half(seal, material) => input(of_seal(seal, material)?),
        Parts::Joint(joint, materials) => {
            let halves = Half::BOTH.map(|half| (joint.seal(half), materials[half as usize]));
            let rubber = halves.iter().filter(|(seal, _)| !seal.load_ring.is_steel());
            let both: Vec<(Material, Levels)> =
                rubber.map(|(seal, file)| of_seal(seal, *file)).collect::<Result<_, _>>()?;
            worst(both.into_iter().map(input).collect())?
        }
        Parts::Toric(_, material, _) => input((material.clone(), Levels::DEFAULT)),
        Parts::Unknown => {
            return Err(refuse(
                say!("check-agents-rubber-not-named"),
                say!("check-agents-name-material"),
            )
            .into());
        }
    })
}

/// Depth of the housing, of two the deeper: it dries last.
fn depth(parts: &Parts<'_>) -> Option<Length> {
    let of = |seal: &Seal| seal.housing.depth.value();
    match parts {
        Parts::Joint(joint, _) => {
            let [a, b] = Half::BOTH.map(|half| of(joint.seal(half)));
            Some(if a.si() < b.si() { b } else { a })
        }
        Parts::Half(seal, _) => Some(of(seal)),
        Parts::Toric(..) | Parts::Material(_) | Parts::Unknown => None,
    }
}

/// Of the halves' rubber the one that the agent suits least.
fn worst(inputs: Vec<Input>) -> Result<Input, RoomError> {
    let mut worst = None;
    for input in inputs {
        let verdict = ringtrue_seal::agents::evaluate(&input)?.verdict;
        if worst.as_ref().is_none_or(|(_, known)| verdict > *known) {
            worst = Some((input, verdict));
        }
    }
    worst.map(|(input, _)| input).ok_or_else(of_steel)
}

fn of_steel() -> RoomError {
    refuse(say!("check-agents-load-ring-steel"), say!("check-agents-agent-judged-against-rubber"))
}

/// The rubber of a seal, and the levels that its verdicts are given at.
fn of_seal(seal: &Seal, file: Option<&Material>) -> Result<(Material, Levels), RoomError> {
    let material = match file {
        Some(material) => material.clone(),
        None if seal.load_ring.is_steel() => return Err(of_steel()),
        None => evidence::material_of(seal.load_ring.material())?,
    };
    Ok((material, seal.levels()))
}

fn use_in(settings: &Settings<'_>) -> Result<Option<Use>, RoomError> {
    let (bay, amount) = (settings.quantity("bay")?, settings.quantity("amount")?);
    match (bay, settings.number("air-changes")?, amount) {
        (Some(bay), Some(air_changes_per_hour), Some(amount)) => {
            Ok(Some(Use { bay, air_changes_per_hour, amount }))
        }
        (None, None, None) => Ok(None),
        (_, _, _) => {
            let next = say!("check-agents-state-bay-air-changes-amount-or");
            Err(refuse(say!("check-agents-use-stated-in-part"), next))
        }
    }
}
