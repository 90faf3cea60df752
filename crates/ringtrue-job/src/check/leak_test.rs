//! A leak test, as given: readings, bubbles or a soak.

use ringtrue_metrology::units::{
    Given, LeakRate, Length, Pressure, Quantity, TemperatureDifference, Time, UnitError, Volume,
    clip,
};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::leak_test::{BubbleMethod, Bubbles, Input, Pressures, Soak, Trace};

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
    Setting::words(
        "pressure",
        "What the pressures are measured from: the atmosphere (gauge), or nothing (absolute)",
        || words_of(&PRESSURES),
    ),
    Setting::quantity::<Volume>("volume", "VOLUME", "Volume of the test space, such as \"3.2 l\""),
    Setting::quantity::<Volume>(
        "volume-uncertainty",
        "VOLUME",
        "Standard uncertainty of that volume; its last digit where it is left out",
    ),
    Setting::quantity::<LeakRate>(
        "limit",
        "RATE",
        "Largest leak rate that conforms, such as \"0.001 Pa m3/s\" or \"0.5 sccm\"",
    ),
    Setting::quantity::<Pressure>(
        "atmosphere",
        "PRESSURE",
        "The atmosphere, read on a barometer that is not reduced to sea level",
    )
    .in_unit("kPa"),
    Setting::quantity::<Pressure>(
        "pressure-resolution",
        "PRESSURE",
        "Resolution of the pressure gauge; the last digit written down where it is left out",
    )
    .in_unit("kPa"),
    Setting::quantity::<TemperatureDifference>(
        "temperature-resolution",
        "DIFFERENCE",
        "Resolution of the thermometer; the last digit written down where it is left out",
    ),
    Setting::quantity::<TemperatureDifference>(
        "temperature-uncertainty",
        "DIFFERENCE",
        "Standard uncertainty of how well the thermometer follows the gas",
    ),
    Setting::quantity::<Volume>(
        "give",
        "VOLUME",
        "Volume by which the load rings may still give while the test runs",
    )
    .in_unit("ml"),
    Setting::typed("bubbles", "COUNT", "Bubbles that were counted, 0 for none", |text| {
        count(text).map(|_| ())
    }),
    Setting::words(
        "by",
        "How the bubbles were looked for: the part under water, or a film of bubble liquid",
        || words_of(&WAYS),
    ),
    Setting::quantity::<Length>(
        "bubble-diameter",
        "LENGTH",
        "Diameter of the bubbles; 2 to 4 mm where it is left out",
    ),
    Setting::words("soak", "What a soak with oil showed: no wet trace, or one", || {
        words_of(&TRACES)
    }),
    Setting::quantity::<Time>("over", "TIME", "How long bubbles were counted, or a soak was left")
        .in_unit("min"),
    Setting::quantity::<Time>("wanted", "TIME", "How long the shop asks for a soak to stay dry")
        .in_unit("min"),
];

fn count(text: &str) -> Result<u32, UnitError> {
    text.trim().parse().map_err(|_| UnitError {
        found: format!("`{}` is no count", clip(text)),
        fits: "a whole number is wanted, 0 for none".to_owned(),
    })
}

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    let settings = Settings::new(SETTINGS, made.stated)?;
    let seen = settings.stated(&["bubbles", "soak"]);
    if made.files.is_empty() {
        let beside = "it belongs to readings of the pressure, and no file of them is given";
        return match seen.as_slice() {
            ["bubbles"] => {
                settings.none_of(&OF_READINGS, beside)?;
                settings.none_of(&["wanted"], "it belongs to a soak")?;
                bubbles(made, &settings)
            }
            ["soak"] => {
                settings.none_of(&OF_READINGS, beside)?;
                let others = ["limit", "by", "bubble-diameter"];
                settings.none_of(&others, "a soak is dry or wet and gives no rate")?;
                soak(&settings)
            }
            [] => {
                let next = "give a file of readings, bubbles that were counted, or a soak";
                Err(refuse("nothing was seen", next).into())
            }
            _ => Err(refuse("`bubbles` and `soak` are both stated", "make two checks").into()),
        };
    }
    let others = ["bubbles", "by", "bubble-diameter", "soak", "over", "wanted"];
    settings.none_of(&others, "a file of pressure readings is given: leave it out")?;
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
