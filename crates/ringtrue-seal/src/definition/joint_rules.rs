//! What a joint's parts must keep among themselves.

use ringtrue_metrology::units::clip;
use ringtrue_words::say;

use super::joint::{ChainLink, GapChain, HalfFile, JointFile, MOST_LINKS, Service};
use super::misfit::{Order, above_zero, in_order, not_negative, some_text, some_text_if_given};
use super::{Definition, Kind, Misfit};
use crate::iso286;

/// Most shims on hand: the sets of them are tried out.
const MOST_SHIMS: usize = 24;

impl Definition for JointFile {
    const KIND: Kind = Kind::Joint;

    fn consistent(&self) -> Result<(), Misfit> {
        self.misfits().into_iter().next().map_or(Ok(()), Err)
    }

    fn misfits(&self) -> Vec<Misfit> {
        let of_half = |path: &str, one: &HalfFile| match &one.seal {
            Some(seal) if one.seal_file.is_none() => {
                seal.misfits().into_iter().map(|m| m.under("seal").under(path)).collect()
            }
            _ => Vec::from_iter(half(one).map_err(|misfit| misfit.under(path)).err()),
        };
        [
            some_text("name", &self.name).err(),
            some_text_if_given("shop", self.shop.as_ref()).err(),
            some_text_if_given("machine", self.machine.as_ref()).err(),
            service(&self.service).map_err(|misfit| misfit.under("service")).err(),
        ]
        .into_iter()
        .flatten()
        .chain(of_half("half.a", &self.half.a))
        .chain(of_half("half.b", &self.half.b))
        .chain(chain(&self.gap).into_iter().map(|misfit| misfit.under("gap")))
        .collect()
    }
}

fn service(service: &Service) -> Result<(), Misfit> {
    not_negative("speed", &service.speed)?;
    some_text("oil", &service.oil)?;
    some_text_if_given("oil_grade", service.oil_grade.as_ref())?;
    in_order(
        ("temperature_min", &service.temperature_min),
        Order::BelowOrEqual,
        ("temperature_max", &service.temperature_max),
    )?;
    service.pressure_difference.as_ref().map_or(Ok(()), |p| not_negative("pressure_difference", p))
}

fn half(half: &HalfFile) -> Result<(), Misfit> {
    match (&half.seal_file, &half.seal) {
        (Some(path), None) => some_text("seal_file", path),
        (None, Some(seal)) => seal.consistent().map_err(|misfit| misfit.under("seal")),
        (Some(_), Some(_)) => {
            let found = say!("definition-seal-and-its-file");
            Err(Misfit::at("seal_file", found, say!("definition-keep-one-two")))
        }
        (None, None) => Err(Misfit::at(
            "",
            say!("definition-half-has-no-seal"),
            say!("definition-name-seal-file"),
        )),
    }
}

/// The first misfit of the limits, of the shims, of the number of links and of each link.
fn chain(chain: &GapChain) -> Vec<Misfit> {
    let limits = chain.limits.as_ref().and_then(|limits| limits.consistent_from_zero().err());
    let mut misfits: Vec<_> =
        limits.map(|misfit| misfit.under("limits")).into_iter().chain(shims(chain).err()).collect();
    if !(1..=MOST_LINKS).contains(&chain.link.len()) {
        let found = say!("definition-chain-of-links", links = chain.link.len());
        misfits.push(Misfit::at("link", found, say!("definition-links-wanted", most = MOST_LINKS)));
        return misfits;
    }
    let links = chain.link.iter().enumerate();
    misfits.extend(links.filter_map(|(index, one)| {
        let path = format!("link[{}]", index + 1);
        let own = link(one).map_err(|misfit| misfit.under(&path));
        own.and_then(|()| own_name(&chain.link[..=index], &path)).err()
    }));
    misfits
}

fn shims(chain: &GapChain) -> Result<(), Misfit> {
    if chain.shims_on_hand.len() > MOST_SHIMS {
        let found = say!("definition-shims-on-hand", shims = chain.shims_on_hand.len());
        let fits = say!("definition-shims-wanted", most = MOST_SHIMS);
        return Err(Misfit::at("shims_on_hand", found, fits));
    }
    for (index, shim) in chain.shims_on_hand.iter().enumerate() {
        above_zero(&format!("shims_on_hand[{}]", index + 1), shim)?;
    }
    Ok(())
}

/// No link has the name of an earlier one: the last of these is asked.
fn own_name(links: &[ChainLink], path: &str) -> Result<(), Misfit> {
    let Some((last, before)) = links.split_last() else { return Ok(()) };
    let Some(earlier) = before.iter().position(|other| other.name == last.name) else {
        return Ok(());
    };
    let found = say!("definition-link-name-twice", link = links.len(), earlier = earlier + 1);
    Err(Misfit::at(format!("{path}.name"), found, say!("definition-own-name-wanted")))
}

fn link(link: &ChainLink) -> Result<(), Misfit> {
    some_text("name", &link.name)?;
    // A link such as a run-out has no size of its own, only deviations.
    not_negative("nominal", &link.nominal)?;
    match (&link.plus_minus, (&link.upper, &link.lower), &link.class) {
        (Some(tolerance), (None, None), None) => not_negative("plus_minus", tolerance),
        (None, (Some(upper), Some(lower)), None) => {
            in_order(("lower", lower), Order::BelowOrEqual, ("upper", upper))
        }
        (None, (None, None), Some(class)) => {
            iso286::deviations(class, link.nominal.value()).map(|_| ()).map_err(|error| {
                let found = say!(
                    "definition-class-without-limits",
                    class = clip(class),
                    nominal = link.nominal.typed()
                );
                Misfit::at("class", found, error.to_string())
            })
        }
        (None, (Some(_), None), None) => Err(Misfit::at(
            "upper",
            say!("definition-upper-without-lower"),
            say!("definition-both-deviations-wanted"),
        )),
        (None, (None, Some(_)), None) => Err(Misfit::at(
            "lower",
            say!("definition-lower-without-upper"),
            say!("definition-both-deviations-wanted"),
        )),
        (None, (None, None), None) => Err(Misfit::at(
            "plus_minus",
            say!("definition-link-without-tolerance", link = clip(&link.name)),
            say!("definition-add-tolerance"),
        )),
        (_, _, _) => Err(Misfit::at(
            "plus_minus",
            say!("definition-link-with-tolerances", link = clip(&link.name)),
            say!("definition-keep-one-tolerance"),
        )),
    }
}
