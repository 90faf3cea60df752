//! A leak test, as given: readings, bubbles or a soak.

use ringtrue_metrology::units::{
    Given, LeakRate, Length, Pressure, Quantity, TemperatureDifference, Time, UnitError, Volume,
    clip,
};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::leak_test::{BubbleMethod, Bubbles, Input, Pressures, Soak, Trace};
use ringtrue_words::say;

use super::setting::{Setting, Settings, wanted, words_of};
use super::{CheckError, Made, refuse};
use crate::evidence::{self, LeakBasis};
use crate::reading;

const PRESSURES: [(&str, Pressures); 2] =
    [("gauge", Pressures::Gauge), ("absolute", Pressures::Absolute)];
const WAYS: [(&str, BubbleMethod); 2] =
    [("immersion", BubbleMethod::Immersion), ("film", BubbleMethod::Film)];
const TRACES: [(&str, Trace); 2] = [("dry", Trace::Dry), ("wet", Trace::Wet)];

/// What is stated beside readings of the pressure alone.
const OF_READINGS: [&str; 8] = [
    "pressure",
    "volume",
    "volume-uncertainty",
    "atmosphere",
    "pressure-resolution",
    "temperature-resolution",
    "temperature-uncertainty",
    "give",
];

pub(super) const SETTINGS: &[Setting] = &[
    Setting::words("pressure", "check-leak-pressure", || words_of(&PRESSURES)),
    Setting::quantity::<Volume>("volume", "VOLUME", "check-leak-volume"),
    Setting::quantity::<Volume>("volume-uncertainty", "VOLUME", "check-leak-volume-uncertainty"),
    Setting::quantity::<LeakRate>("limit", "RATE", "check-leak-limit"),
    Setting::quantity::<Pressure>("atmosphere", "PRESSURE", "check-leak-atmosphere").in_unit("kPa"),
    Setting::quantity::<Pressure>(
        "pressure-resolution",
        "PRESSURE",
        "check-leak-pressure-resolution",
    )
    .in_unit("kPa"),
    Setting::quantity::<TemperatureDifference>(
        "temperature-resolution",
        "DIFFERENCE",
        "check-leak-temperature-resolution",
    ),
    Setting::quantity::<TemperatureDifference>(
        "temperature-uncertainty",
        "DIFFERENCE",
        "check-leak-temperature-uncertainty",
    ),
    Setting::quantity::<Volume>("give", "VOLUME", "check-leak-give").in_unit("ml"),
    Setting::typed("bubbles", "COUNT", "check-leak-bubbles", |text| count(text).map(|_| ())),
    Setting::words("by", "check-leak-by", || words_of(&WAYS)),
    Setting::quantity::<Length>("bubble-diameter", "LENGTH", "check-leak-bubble-diameter"),
    Setting::words("soak", "check-leak-soak", || words_of(&TRACES)),
    Setting::quantity::<Time>("over", "TIME", "check-leak-over").in_unit("min"),
    Setting::quantity::<Time>("wanted", "TIME", "check-leak-wanted").in_unit("min"),
];

fn count(text: &str) -> Result<u32, UnitError> {
    text.trim().parse().map_err(|_| UnitError {
        found: say!("check-leak-no-count", typed = clip(text)),
        fits: say!("check-leak-whole-number-wanted").to_owned(),
    })
}

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    let settings = Settings::new(SETTINGS, made.stated)?;
    let seen = settings.stated(&["bubbles", "soak"]);
    if made.files.is_empty() {
        let beside = say!("check-leak-belongs-readings-pressure-no-file-them");
        return match seen.as_slice() {
            ["bubbles"] => {
                settings.none_of(&OF_READINGS, beside)?;
                settings.none_of(&["wanted"], say!("check-leak-belongs-soak"))?;
                bubbles(made, &settings)
            }
            ["soak"] => {
                settings.none_of(&OF_READINGS, beside)?;
                let others = ["limit", "by", "bubble-diameter"];
                settings.none_of(&others, say!("check-leak-soak-dry-or-wet-gives-no"))?;
                soak(&settings)
            }
            [] => {
                let next = say!("check-leak-give-file-readings-bubbles-that-were");
                Err(refuse(say!("check-leak-nothing-was-seen"), next).into())
            }
            _ => Err(refuse(
                say!("check-leak-bubbles-soak-both-stated"),
                say!("check-leak-make-two-checks"),
            )
            .into()),
        };
    }
    let others = ["bubbles", "by", "bubble-diameter", "soak", "over", "wanted"];
    settings.none_of(&others, say!("check-leak-file-pressure-readings-given-leave-out"))?;
    pressures(made, &settings)
}

fn pressures(made: &Made<'_>, settings: &Settings<'_>) -> Result<Input, CheckError> {
    let volume: Given<Volume> = settings.given("volume")?.ok_or_else(|| wanted("volume"))?;
    let basis = LeakBasis {
        pressures: settings.word("pressure", &PRESSURES).ok_or_else(|| wanted("pressure"))?,
        atmosphere: settings.quantity("atmosphere")?,
        volume: &volume,
        volume_uncertainty: settings.quantity("volume-uncertainty")?,
        limit: settings.quantity("limit")?.ok_or_else(|| wanted("limit"))?,
        pressure_resolution: settings.quantity("pressure-resolution")?,
        temperature_resolution: settings.quantity("temperature-resolution")?,
        temperature_uncertainty: settings.quantity("temperature-uncertainty")?,
        give: settings.quantity("give")?,
        seal: made.parts.seals().into_iter().reduce(stricter),
    };
    Ok(evidence::leak_test(made.read(reading::leak)?, &basis))
}

/// The seal that takes the smaller pressure difference.
fn stricter<'s>(one: &'s Seal, other: &'s Seal) -> &'s Seal {
    let most = |seal: &Seal| {
        let limit = seal.limits.pressure_difference.as_ref()?.max.as_ref()?;
        Some(limit.value().si())
    };
    match (most(one), most(other)) {
        (Some(one_most), Some(other_most)) if other_most < one_most => other,
        (None, Some(_)) => other,
        (_, _) => one,
    }
}

fn bubbles(made: &Made<'_>, settings: &Settings<'_>) -> Result<Input, CheckError> {
    Ok(Input::Bubbles(Bubbles {
        by: settings.word("by", &WAYS).ok_or_else(|| wanted("by"))?,
        count: settings.read("bubbles", count)?.ok_or_else(|| wanted("bubbles"))?,
        over: settings.quantity("over")?.ok_or_else(|| wanted("over"))?,
        diameter: settings.quantity("bubble-diameter")?,
        limit: settings.quantity("limit")?.ok_or_else(|| wanted("limit"))?,
        levels: made.parts.levels(),
    }))
}

fn soak(settings: &Settings<'_>) -> Result<Input, CheckError> {
    Ok(Input::Soak(Soak {
        seen: settings.word("soak", &TRACES).ok_or_else(|| wanted("soak"))?,
        over: settings.quantity("over")?.ok_or_else(|| wanted("over"))?,
        wanted: settings.quantity("wanted")?,
    }))
}
