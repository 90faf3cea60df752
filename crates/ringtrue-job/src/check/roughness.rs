//! Traces or values of a ramp's finish, as given.

use ringtrue_metrology::units::Length;
use ringtrue_seal::roughness::{CutOff, Edition, Input, InstrumentUncertainty, Rule};
use ringtrue_words::say;

use super::setting::{Setting, Settings, words_of};
use super::{CheckError, Made, refuse};
use crate::event::{Content, ReadingFile};
use crate::evidence::{self, FinishBasis};
use crate::reading::{self, Finish};

const EDITIONS: [(&str, Edition); 2] =
    [("iso-4287", Edition::Iso4287), ("iso-21920", Edition::Iso21920)];
const RULES: [(&str, Rule); 2] = [("16-percent", Rule::SixteenPercent), ("max", Rule::Max)];

pub(super) const SETTINGS: &[Setting] = &[
    Setting::typed("limit", "LIMIT", "check-roughness-limit", |text| {
        reading::finish_limit(text).map(|_| ())
    }),
    Setting::words("edition", "check-roughness-edition", || words_of(&EDITIONS)).or("iso-4287"),
    Setting::words("rule", "check-roughness-rule", || words_of(&RULES)),
    Setting::quantity::<Length>("cut-off", "LENGTH", "check-roughness-cut-off"),
    Setting::quantity::<Length>("feed", "LENGTH", "check-roughness-feed"),
    Setting::flag("filtered", "check-roughness-filtered"),
    Setting::quantity::<Length>("step", "LENGTH", "check-roughness-step").in_unit("um"),
    Setting::typed("uncertainty", "SHARE or LENGTH", "check-roughness-uncertainty", |text| {
        reading::instrument_uncertainty(text).map(|_| ())
    }),
];

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    let settings = Settings::new(SETTINGS, made.stated)?;
    if made.files.is_empty() {
        return Err(refuse(
            say!("check-roughness-no-trace-no-values-given"),
            say!("check-roughness-name-file-them"),
        )
        .into());
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
        let found = say!("check-roughness-both-stated", one, other);
        return Err(refuse(found, say!("check-roughness-one-them-decides-filter")).into());
    }
    Ok(match (settings.quantity("cut-off")?, settings.quantity("feed")?) {
        (Some(length), _) => CutOff::Given(length),
        (None, Some(feed)) => CutOff::ByFeed(feed),
        (None, None) if filter.is_empty() => CutOff::ByTable,
        (None, None) => CutOff::AlreadyFiltered,
    })
}
