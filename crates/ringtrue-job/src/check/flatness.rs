//! Light bands on a lapped face, as given.

use ringtrue_metrology::units::{Angle, Given, Length};
use ringtrue_seal::flatness::{
    Bend, BendAmount, FlatnessLimit, Input, LightSource, Pressed, ReadingUncertainty, Seen,
};
use ringtrue_words::say;

use super::setting::{Setting, Settings, number, wanted, words_of};
use super::{CheckError, Made, refuse};
use crate::reading;

const SOURCES: [(&str, LightSource); 3] = [
    ("helium", LightSource::Helium),
    ("sodium", LightSource::Sodium),
    ("mercury-green", LightSource::MercuryGreen),
];
const PRESSED: [(&str, Pressed); 2] =
    [("towards", Pressed::TowardsPressure), ("away", Pressed::AwayFromPressure)];

pub(super) const SETTINGS: &[Setting] = &[
    Setting::quantity::<Length>("bend", "LENGTH", "check-flatness-bend"),
    Setting::quantity::<Length>("spacing", "LENGTH", "check-flatness-spacing"),
    Setting::typed("closed", "NUMBER", "check-flatness-closed", number),
    Setting::words("pressed", "check-flatness-pressed", || words_of(&PRESSED)),
    Setting::words("source", "check-flatness-source", || words_of(&SOURCES)).or("helium"),
    Setting::quantity::<Length>("wavelength", "LENGTH", "check-flatness-wavelength").in_unit("nm"),
    Setting::quantity::<Angle>("view", "ANGLE", "check-flatness-view").or("0 deg"),
    Setting::typed("limit", "BANDS or LENGTH", "check-flatness-limit", |text| {
        reading::flatness_limit(text).map(|_| ())
    }),
    Setting::typed("uncertainty", "BANDS or LENGTH", "check-flatness-uncertainty", |text| {
        reading::band_uncertainty(text).map(|_| ())
    }),
];

pub(super) fn evidence(made: &Made<'_>) -> Result<Input, CheckError> {
    let settings = Settings::new(SETTINGS, made.stated)?;
    let of_seal = || {
        let seal = made.parts.seals().first().copied()?;
        let most = seal.limits.face_flatness.as_ref()?.max.as_ref()?;
        Some(FlatnessLimit::Length(Given::value(most)))
    };
    let named = settings.word("source", &SOURCES).unwrap_or(LightSource::Helium);
    Ok(Input {
        seen: seen(made, &settings)?,
        source: settings.quantity("wavelength")?.map_or(named, LightSource::Wavelength),
        view: settings.quantity("view")?.unwrap_or_default(),
        limit: settings.read("limit", reading::flatness_limit)?.or_else(of_seal),
        uncertainty: settings
            .read("uncertainty", reading::band_uncertainty)?
            .unwrap_or(ReadingUncertainty::Unknown),
        levels: made.parts.levels(),
    })
}

fn seen(made: &Made<'_>, settings: &Settings<'_>) -> Result<Seen, CheckError> {
    let stated = settings.stated(&["bend", "closed"]);
    match (made.files.is_empty(), stated.as_slice()) {
        (false, []) => {
            settings.none_of(
                &["spacing", "pressed"],
                say!("check-flatness-file-readings-says-already"),
            )?;
            made.read(reading::bands)
        }
        (true, ["bend"]) => {
            settings.none_of(&["pressed"], say!("check-flatness-belongs-closed-bands"))?;
            let bend = settings.quantity("bend")?.ok_or_else(|| wanted("bend"))?;
            let spacing = settings.quantity("spacing")?.ok_or_else(|| wanted("spacing"))?;
            let amount = BendAmount::Measured { bend, spacing };
            Ok(Seen::Bends(vec![Bend { azimuth: Angle::default(), amount }]))
        }
        (true, ["closed"]) => {
            settings.none_of(&["spacing"], say!("check-flatness-belongs-one-bend"))?;
            Ok(Seen::Closed {
                bands: settings.number("closed")?.ok_or_else(|| wanted("closed"))?,
                pressed: settings.word("pressed", &PRESSED).unwrap_or(Pressed::NotTried),
            })
        }
        (true, []) => Err(refuse(
            say!("check-flatness-nothing-was-read"),
            say!("check-flatness-give-file-bend-or-closed-bands"),
        )
        .into()),
        (_, _) => {
            let found = say!("check-flatness-bands-given-in-two-ways");
            Err(refuse(found, say!("check-flatness-file-or-bend-or-closed-bands")).into())
        }
    }
}
