//! A cleaning or wetting agent, as given.

use ringtrue_metrology::units::{Length, Quantity, Temperature, Time, UnitError, Volume, clip};
use ringtrue_seal::RoomError;
use ringtrue_seal::agents::{Agent, Input, Use, named_in, nearest, shipped};
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::material::Material;
use ringtrue_seal::definition::seal::Seal;

use super::setting::{Setting, Settings, number, wanted};
use super::{CheckError, Made, Parts, refuse};
use crate::evidence;

pub(super) const SETTINGS: &[Setting] = &[
    Setting::typed("agent", "NAME", "A generic substance, such as isopropyl-alcohol", |text| {
        agent(shipped(), text).map(|_| ())
    }),
    Setting::quantity::<Volume>("bay", "VOLUME", "Volume of the bay, such as \"60 m3\"")
        .in_unit("m3"),
    Setting::typed("air-changes", "NUMBER", "Air changes an hour", number),
    Setting::quantity::<Volume>(
        "amount",
        "VOLUME",
        "Liquid that is used, all of which evaporates, such as \"30 ml\"",
    )
    .in_unit("ml"),
    Setting::quantity::<Temperature>("room", "TEMPERATURE", "Temperature of the shop")
        .or("20 degC"),
    Setting::quantity::<Length>(
        "depth",
        "LENGTH",
        "Depth of the housing that it dries in; without it that of the seal's file, or a usual one",
    ),
    Setting::quantity::<Time>("since", "TIME", "Time since the last wetting: has it gone?")
        .in_unit("min"),
];

fn agent<'a>(agents: &'a [Agent], name: &str) -> Result<&'a Agent, UnitError> {
    named_in(agents, name).ok_or_else(|| {
        let hint = nearest(name).map_or(String::new(), |near| format!("did you mean `{near}`? "));
        let names: Vec<&str> = agents.iter().map(|agent| agent.name.as_str()).collect();
        UnitError {
            found: format!("`{}` is no agent known here", clip(name)),
            fits: format!("{hint}known are {}", names.join(", ")),
        }
    })
}

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    made.no_files("an agent is judged by its figures: leave it out")?;
    let settings = Settings::new(SETTINGS, made.stated)?;
    let agent =
        settings.read("agent", |name| agent(made.agents, name))?.ok_or_else(|| wanted("agent"))?;
    let room: Temperature = settings.quantity("room")?.ok_or_else(|| wanted("room"))?;
    let use_in = use_in(&settings)?;
    let since: Option<Time> = settings.quantity("since")?;
    let depth = settings.quantity("depth")?.or_else(|| depth(&made.parts));
    let input = |material: Material| {
        let agent = Box::new(agent.clone());
        Input { agent, material, room, use_in, depth, since }
    };
    Ok(match made.parts {
        Parts::Material(material) => input(material.clone()),
        Parts::Half(seal, material) => input(of_seal(seal, material)?),
        Parts::Joint(joint, materials) => {
            let halves = Half::BOTH.map(|half| (joint.seal(half), materials[half as usize]));
            let rubber = halves.iter().filter(|(seal, _)| !seal.load_ring.is_steel());
            let both: Vec<Material> =
                rubber.map(|(seal, file)| of_seal(seal, *file)).collect::<Result<_, _>>()?;
            worst(both.into_iter().map(input).collect())?
        }
        Parts::Toric(_, material, _) => input(material.clone()),
        Parts::Unknown => {
            return Err(refuse("the rubber is not named", "name its material").into());
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
    refuse("the load ring is of steel", "an agent is judged against rubber")
}

fn of_seal(seal: &Seal, file: Option<&Material>) -> Result<Material, RoomError> {
    match file {
        Some(material) => Ok(material.clone()),
        None if seal.load_ring.is_steel() => Err(of_steel()),
        None => evidence::material_of(seal.load_ring.material()),
    }
}

fn use_in(settings: &Settings<'_>) -> Result<Option<Use>, RoomError> {
    let (bay, amount) = (settings.quantity("bay")?, settings.quantity("amount")?);
    match (bay, settings.number("air-changes")?, amount) {
        (Some(bay), Some(air_changes_per_hour), Some(amount)) => {
            Ok(Some(Use { bay, air_changes_per_hour, amount }))
        }
        (None, None, None) => Ok(None),
        (_, _, _) => {
            let next = "state `bay`, `air-changes` and `amount`, or none of them";
            Err(refuse("the use is stated in part", next))
        }
    }
}
