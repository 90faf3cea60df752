//! Light bands on a lapped face, as given.

use ringtrue_metrology::units::{Angle, Given, Length};
use ringtrue_seal::flatness::{
    Bend, BendAmount, FlatnessLimit, Input, LightSource, Pressed, ReadingUncertainty, Seen,
};

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
    Setting::quantity::<Length>(
        "bend",
        "LENGTH",
        "One bend, without a file; positive where the band's ends bend towards the line of contact",
    ),
    Setting::quantity::<Length>("spacing", "LENGTH", "Spacing of the bands, beside one bend"),
    Setting::typed(
        "closed",
        "NUMBER",
        "Number of closed bands from the middle to the edge, without a file",
        number,
    ),
    Setting::words("pressed", "Where closed bands moved when the edge was pressed", || {
        words_of(&PRESSED)
    }),
    Setting::words("source", "The light", || words_of(&SOURCES)).or("helium"),
    Setting::quantity::<Length>(
        "wavelength",
        "LENGTH",
        "Its wavelength, in place of a named light",
    )
    .in_unit("nm"),
    Setting::quantity::<Angle>("view", "ANGLE", "Angle of view from the normal").or("0 deg"),
    Setting::typed(
        "limit",
        "BANDS or LENGTH",
        "Largest flatness deviation: \"2 bands\" or \"0.6 um\"; the seal file's where it is left \
         out",
        |text| reading::flatness_limit(text).map(|_| ()),
    ),
    Setting::typed(
        "uncertainty",
        "BANDS or LENGTH",
        "Standard uncertainty of one reading: \"0.1 bands\", or of a measured bend \"0.5 mm\"",
        |text| reading::band_uncertainty(text).map(|_| ()),
    ),
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
            settings.none_of(&["spacing", "pressed"], "a file of readings says it already")?;
            made.read(reading::bands)
        }
        (true, ["bend"]) => {
            settings.none_of(&["pressed"], "it belongs to closed bands")?;
            let bend = settings.quantity("bend")?.ok_or_else(|| wanted("bend"))?;
            let spacing = settings.quantity("spacing")?.ok_or_else(|| wanted("spacing"))?;
            let amount = BendAmount::Measured { bend, spacing };
            Ok(Seen::Bends(vec![Bend { azimuth: Angle::default(), amount }]))
        }
        (true, ["closed"]) => {
            settings.none_of(&["spacing"], "it belongs to one bend")?;
            Ok(Seen::Closed {
                bands: settings.number("closed")?.ok_or_else(|| wanted("closed"))?,
                pressed: settings.word("pressed", &PRESSED).unwrap_or(Pressed::NotTried),
            })
        }
        (true, []) => Err(refuse("nothing was read", "give a file, a bend or closed bands").into()),
        (_, _) => {
            let found = "the bands are given in two ways";
            Err(refuse(found, "a file, or a bend, or closed bands").into())
        }
    }
}
