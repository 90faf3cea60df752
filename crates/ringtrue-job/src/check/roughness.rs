//! Traces or values of a ramp's finish, as given.

use ringtrue_metrology::units::Length;
use ringtrue_seal::roughness::{CutOff, Edition, Input, InstrumentUncertainty, Rule};

use super::setting::{Setting, Settings, words_of};
use super::{CheckError, Made, refuse};
use crate::event::{Content, ReadingFile};
use crate::evidence::{self, FinishBasis};
use crate::reading::{self, Finish};

const EDITIONS: [(&str, Edition); 2] =
    [("iso-4287", Edition::Iso4287), ("iso-21920", Edition::Iso21920)];
const RULES: [(&str, Rule); 2] = [("16-percent", Rule::SixteenPercent), ("max", Rule::Max)];

pub(super) const SETTINGS: &[Setting] = &[
    Setting::typed(
        "limit",
        "LIMIT",
        "The limit as the drawing writes it: \"Ra 0.8 um\", \"Rz max 6.3 um\", \
         \"Ra 0.4 um..3.2 um\"",
        |text| reading::finish_limit(text).map(|_| ()),
    ),
    Setting::words("edition", "By which standards: ISO 4287 and 4288, or ISO 21920", || {
        words_of(&EDITIONS)
    })
    .or("iso-4287"),
    Setting::words(
        "rule",
        "How many values may break the limit; the edition's own rule where it is left out",
        || words_of(&RULES),
    ),
    Setting::quantity::<Length>(
        "cut-off",
        "LENGTH",
        "Cut-off of the filter, in place of the table's",
    ),
    Setting::quantity::<Length>(
        "feed",
        "LENGTH",
        "Feed of a turned surface: the cut-off by the table of periodic profiles",
    ),
    Setting::flag("filtered", "The trace is a roughness profile already: no filter"),
    Setting::quantity::<Length>(
        "step",
        "LENGTH",
        "Distance from point to point, where the file has no column x",
    )
    .in_unit("um"),
    Setting::typed(
        "uncertainty",
        "SHARE or LENGTH",
        "Standard uncertainty of the instrument: \"3 %\" of the value, or \"0.02 um\"",
        |text| reading::instrument_uncertainty(text).map(|_| ()),
    ),
];

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    let settings = Settings::new(SETTINGS, made.stated)?;
    if made.files.is_empty() {
        return Err(refuse("no trace and no values are given", "name a file of them").into());
    }
    let step = settings.quantity("step")?;
    let read = made.files.iter().map(|file| finish(file, step)).collect::<Result<_, _>>()?;
    let basis = FinishBasis {
        limit: settings.read("limit", reading::finish_limit)?,
        seal: made.parts.seals().first().copied(),
        rule: settings.word("rule", &RULES),
        edition: settings.word("edition", &EDITIONS).unwrap_or(Edition::Iso4287),
        cut_off: cut_off(&settings)?,
        uncertainty: settings
            .read("uncertainty", reading::instrument_uncertainty)?
            .unwrap_or(InstrumentUncertainty::Unknown),
    };
    Ok(evidence::finish(read, basis)?)
}

/// A trace or values, told apart by the file's own first bytes.
fn finish(file: &ReadingFile, step: Option<Length>) -> Result<Finish, CheckError> {
    match &file.content {
        Content::Text(text) => reading::finish(text, step),
        Content::Bytes(bytes) => reading::x3p(bytes).map(Finish::Trace),
    }
    .map_err(|error| CheckError::Text { origin: file.origin.clone(), error })
}

fn cut_off(settings: &Settings<'_>) -> Result<CutOff, CheckError> {
    let filter = settings.stated(&["cut-off", "feed", "filtered"]);
    if let [one, other, ..] = filter.as_slice() {
        let found = format!("`{one}` and `{other}` are both stated");
        return Err(refuse(found, "one of them decides the filter").into());
    }
    Ok(match (settings.quantity("cut-off")?, settings.quantity("feed")?) {
        (Some(length), _) => CutOff::Given(length),
        (None, Some(feed)) => CutOff::ByFeed(feed),
        (None, None) if filter.is_empty() => CutOff::ByTable,
        (None, None) => CutOff::AlreadyFiltered,
    })
}
