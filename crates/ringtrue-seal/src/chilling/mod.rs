//! Does chilling help this toric into its housing, for how long, and when may the joint be closed?
//!
//! The toric cools in a medium, is carried into the room and warms again in still air. Two ways:
//! **free**, before it is stretched on to its ring, and **mounted**, where its hoop follows the
//! metal and the metal's heat must go the same way.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | α | linear expansion of the rubber | 1/K |
//! | ΔT | room less mean temperature of the section | K |
//! | contraction, free | α ΔT on the outside diameter | mm |
//! | contraction, mounted | the free toric shrunk by α ΔT, stretched on to the shrunk seat | mm |
//! | Bi, Fo | h r₀/k, α t/r₀² | - |
//!
//! Figures of rubber, ring and air are known as ranges only. Each is a rectangle (JCGM 100:2008
//! 4.3.7) whose effect is found by running the whole computation at plus and minus its standard
//! uncertainty (5.1.3, note 2); the results carry the combined uncertainty.
//!
//! Left out: heat of freezing water, stiffening, the ring's curvature, where the part lies. Latent
//! heat of frost makes the true way back longer.

mod allowed;
mod body;
mod conduction;
mod convection;
mod figures;
mod humid;
mod series;
#[cfg(test)]
mod tests;

use ringtrue_metrology::conformity::{Levels, Limits, Verdict, judge};
use ringtrue_metrology::source::Source;
use ringtrue_metrology::units::{
    Angle, Fraction, HeatTransferCoefficient, Length, Mass, Quantity, Temperature, Time, Velocity,
    duration_text,
};
use ringtrue_words::say;
use serde::Serialize;

pub use crate::finding::Finding;
pub use crate::range::Figure;
pub use humid::Moisture;

// The published cases run on the room's own parts.
pub(crate) use body::at;
pub(crate) use conduction::{Heat, Moment, Ring, Section, course};
pub(crate) use convection::{Air, Exchange, forced_nusselt, natural_nusselt};
pub(crate) use humid::{
    dew_point, frost_point, saturation_over_ice, saturation_over_water, wets_below,
};
pub(crate) use series::Series;

use crate::RoomError;
use crate::definition::material::Material;
use crate::definition::seal::Chilling;
use crate::finding::worst;
use crate::geometry::FreeToric;
use body::{Bodies, Body};
use figures::Figures;
use humid::moisture;

/// Where the formulas come from.
pub const SOURCES: &[Source] = &[
    Source::Unverified(
        "H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., 7.7 (long cylinder \
         that exchanges heat at its surface: Bessel series)",
    ),
    Source::Published(
        "S. W. Churchill and H. H. S. Chu 1975, doi 10.1016/0017-9310(75)90222-7 (natural \
         convection from a horizontal cylinder, 1e-5 < Ra < 1e12)",
    ),
    Source::Published(
        "S. W. Churchill and M. Bernstein 1977, doi 10.1115/1.3450685 (cylinder across a stream, \
         Re Pr > 0.2)",
    ),
    Source::Published("US Standard Atmosphere 1976, equations 51 and 53 (air)"),
    Source::Published(
        "WMO-No. 8, Guide to Instruments and Methods of Observation, annex 4.B (Magnus formula, \
         -45 to 60 degC over water, -65 to 0 degC over ice)",
    ),
    Source::Published("JCGM 100:2008, 4.3.7 and 5.1.3 note 2 (ranges and their effect)"),
    Source::Unverified(
        "ISO 2921 (TR10), glass transition and crystallisation of the families: each material's \
         own sources",
    ),
    Source::CommonPractice("shop rule: 5 minutes at -40 to 0 degF"),
    Source::CommonPractice("warm again: core and ring within 2 K of the room"),
];

/// One toric, its material, where it is cooled and where it is fitted.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// The free toric.
    pub toric: FreeToric,
    /// Its material.
    pub material: Material,
    /// Where it sits on its ring; where nothing is known, on its inside diameter, unstretched.
    pub seat: Option<Seat>,
    /// By how much the mounted toric is wider than the lip, where the housing has one.
    pub lip_interference: Option<Length>,
    /// What the seal's file says of chilling, where there is one.
    pub chilling: Option<Chilling>,
    /// Where it is cooled.
    pub medium: Medium,
    /// A measured or stated coefficient in that medium, in place of the computed one.
    pub coefficient: Option<HeatTransferCoefficient>,
    /// A measured or stated coefficient in the room's air, in place of the computed one.
    pub room_coefficient: Option<HeatTransferCoefficient>,
    /// Temperature of the medium.
    pub cold: Temperature,
    /// Temperature of the room, in which everything starts and ends.
    pub room: Temperature,
    /// Relative humidity of the room's air, 0 to 1.
    pub humidity: Fraction,
    /// How long it lay in the cold, where that is asked: has it shrunk?
    pub in_cold: Option<Time>,
    /// How long ago it came out of the cold, where that is asked: is it warm again?
    pub since: Option<Time>,
    /// Levels of the decisions on those times.
    pub levels: Levels,
}

/// A toric's place on its ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    /// Diameter of the ring's ramp where the mounted toric touches it.
    pub diameter: Length,
    /// Angle of that ramp to the axis.
    pub ramp_angle: Angle,
    /// Mass of the ring; two to five times the toric's volume of iron where it is not known.
    pub ring_mass: Option<Mass>,
}

/// What a toric is cooled in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Medium {
    /// Air that nothing stirs: a closed freezer.
    StillAir,
    /// Air that a fan moves.
    MovingAir {
        /// Its speed at the toric; 1 to 3 m/s where it is not known.
        speed: Option<Velocity>,
    },
    /// A stirred cold liquid that the rubber stands.
    Liquid,
}

/// What cooling and warming give. Lengths in mm, times in s, temperatures in degC.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outcome {
    /// The toric alone.
    pub free: Course,
    /// The toric on its ring.
    pub mounted: Course,
    /// Was no ring given? Then the toric is taken to sit unstretched on one of two to five times
    /// its volume.
    pub ring_assumed: bool,
    /// Mean temperature of the free section after five minutes.
    pub mean_temperature_degc_after_5_min: f64,
    /// Its standard uncertainty.
    pub mean_temperature_standard_uncertainty_k: f64,
    /// Dew point of the room's air, over water; null for air without water.
    pub dew_point_degc: Option<f64>,
    /// Frost point of the room's air, over ice, where it is below 0.
    pub frost_point_degc: Option<f64>,
    /// What the cold surface draws from the room's air.
    pub moisture: Moisture,
    /// Does frost form?
    pub frost: bool,
    /// The shop rule, and what it reaches here.
    pub shop_rule: ShopRule,
    /// What the mounted toric must pass, where it is known.
    pub lip: Option<Lip>,
    /// Whether this material may be chilled so cold.
    pub findings: Vec<Finding>,
    /// Ranges of figures that the computation rests on.
    pub figures: Vec<Figure>,
    /// Temperature of the medium.
    pub cold_degc: f64,
    /// Temperature of the room.
    pub room_degc: f64,
    /// Relative humidity of the room's air, 0 to 1.
    pub humidity_fraction: f64,
    /// What the findings come to, each kind by itself: what is to be done goes by it.
    #[serde(skip)]
    pub judged: Judged,
    /// The worst of the findings.
    pub verdict: Verdict,
}

/// The findings of each kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Judged {
    /// Does the seal's file forbid chilling?
    pub forbidden: bool,
    /// May it be chilled so cold, by its file and its material? The worst of them.
    pub cold: Verdict,
    /// Was it in the cold for long enough, where that is asked?
    pub in_cold: Option<Verdict>,
    /// Is it warm again, where that is asked?
    pub since: Option<Verdict>,
}

/// Cooling and warming of one body.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Course {
    /// Outside diameter in the room.
    pub outside_diameter_mm: f64,
    /// By how much it is smaller when everything is as cold as the medium.
    pub contraction_mm: f64,
    /// Its standard uncertainty.
    pub contraction_standard_uncertainty_mm: f64,
    /// Until 95 % of that is reached.
    pub time_to_95_percent_s: f64,
    /// Its standard uncertainty.
    pub time_to_95_percent_standard_uncertainty_s: f64,
    /// In the room, until half of the contraction is lost; from cold all through.
    pub working_time_s: f64,
    /// Its standard uncertainty.
    pub working_time_standard_uncertainty_s: f64,
    /// In the room, until core and ring are within 2 K of it: the joint is not closed before.
    pub rewarm_time_s: f64,
    /// Its standard uncertainty.
    pub rewarm_time_standard_uncertainty_s: f64,
    /// In the room, until the surface is above 0 degC and frost on it melts; null without frost.
    pub frost_until_s: Option<f64>,
    /// In the room, until the surface is above the dew point; null where it is from the start.
    /// Water
    /// on it dries later.
    pub dew_until_s: Option<f64>,
    /// Coefficient at the free surface when it comes into the cold, W/(m² K).
    pub coefficient_w_per_m2_k: f64,
    /// Contraction after five minutes, as a share of the whole.
    pub share_after_5_min: f64,
    /// The way down.
    pub cooling: Curve,
    /// The way back, from cold all through.
    pub warming: Curve,
}

/// Temperatures and contraction at even times.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Curve {
    /// Times.
    pub seconds: Vec<f64>,
    /// Mean temperature of the section.
    pub mean_degc: Vec<f64>,
    /// Temperature in the middle of the section.
    pub core_degc: Vec<f64>,
    /// How much smaller the outside diameter is than in the room.
    pub contraction_mm: Vec<f64>,
}

/// What shops do without computing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShopRule {
    /// The rule in words.
    pub words: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// Is the medium's temperature within it?
    pub temperature_within: bool,
    /// Share of the free toric's contraction that five minutes reach here.
    pub share_free: f64,
    /// Share of the mounted toric's contraction that five minutes reach here.
    pub share_mounted: f64,
}

/// The retaining lip against the mounted toric.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Lip {
    /// By how much the mounted toric is wider in the room.
    pub interference_mm: f64,
    /// By how much it is wider when it is as cold as the medium; it drops in below 0.
    pub interference_cold_mm: f64,
}

/// The shop rule's time, s.
const SHOP_TIME: f64 = 300.0;
/// The shop rule's temperatures: −40 and 0 degF, K.
const SHOP_TEMPERATURES: (f64, f64) = (233.15, 255.372_222_222_222_2);
/// How near the room's temperature the core must be, K: common practice, no source.
const WARM_WITHIN: f64 = 2.0;

/// Evaluates cooling and warming of one toric.
///
/// # Errors
/// [`RoomError`]: sizes, temperatures or a humidity that no shop has, a medium that is not colder
/// than the room, a coefficient of zero, a material whose expansion is not known.
pub fn evaluate(input: &Input) -> Result<Outcome, RoomError> {
    check(input)?;
    let figures = Figures::of(input)?;
    let bodies = Bodies::of(input);
    let [free, mounted] = [Body::Free, Body::Mounted].map(|body| bodies.course(&figures, body));
    let (free, after) = free;
    let (mounted, _) = mounted;
    let room = celsius(input.room.si());
    let cold = celsius(input.cold.si());
    let humidity = input.humidity.si();
    let state = moisture(cold, wets_below(room, humidity));
    let mut findings = allowed::findings(&input.material, input.cold, input.chilling);
    let in_cold = input.in_cold.map(|in_cold| cold_through((in_cold, input.levels), &mounted));
    let since = input.since.map(|since| warm_again((since, input.levels), &mounted));
    let judged = Judged {
        forbidden: input.chilling == Some(Chilling::NotAllowed),
        cold: worst(&findings),
        in_cold: in_cold.as_ref().map(|finding| finding.verdict),
        since: since.as_ref().map(|finding| finding.verdict),
    };
    findings.extend(in_cold.into_iter().chain(since));
    let verdict = worst(&findings);
    let rule = ShopRule {
        words: say!("chill-five-minutes-at-40-0-degf"),
        source: "common practice, no source",
        temperature_within: (SHOP_TEMPERATURES.0 - 0.01..=SHOP_TEMPERATURES.1 + 0.01)
            .contains(&input.cold.si()),
        share_free: free.share_after_5_min,
        share_mounted: mounted.share_after_5_min,
    };
    let lip = input.lip_interference.map(|interference| Lip {
        interference_mm: interference.si() * 1e3,
        interference_cold_mm: interference.si() * 1e3 - mounted.contraction_mm,
    });
    Ok(Outcome {
        free,
        mounted,
        ring_assumed: input.seat.is_none(),
        mean_temperature_degc_after_5_min: after.0,
        mean_temperature_standard_uncertainty_k: after.1,
        dew_point_degc: dew_point(room, humidity),
        frost_point_degc: frost_point(room, humidity).filter(|point| *point < 0.0),
        moisture: state,
        frost: state == Moisture::Frost,
        shop_rule: rule,
        lip,
        findings,
        figures: figures.listed(),
        cold_degc: cold,
        room_degc: room,
        humidity_fraction: humidity,
        judged,
        verdict,
    })
}

/// Has the mounted toric shrunk by 95 % after this time?
fn cold_through((in_cold, levels): (Time, Levels), mounted: &Course) -> Finding {
    let computed =
        (mounted.time_to_95_percent_s, mounted.time_to_95_percent_standard_uncertainty_s);
    let (verdict, [had, wanted, u]) = at_least((in_cold, levels), computed);
    Finding::new(
        say!("chill-time-in-cold"),
        verdict,
        say!("chill-on-ring-95-contraction-reached-after", time = had, after = wanted, u),
        say!("chill-not-taken-out-before-that"),
    )
}

/// Is the mounted toric warm again after this time?
fn warm_again((since, levels): (Time, Levels), mounted: &Course) -> Finding {
    let computed = (mounted.rewarm_time_s, mounted.rewarm_time_standard_uncertainty_s);
    let (verdict, [had, wanted, u]) = at_least((since, levels), computed);
    Finding::new(
        say!("chill-time-since-came-out-cold"),
        verdict,
        say!("chill-core-ring-within-2-k-room", time = had, after = wanted, u),
        say!("chill-joint-not-closed-nor-height-read"),
    )
}

/// A time that it had against the computed one, which is the uncertain one of the two; both and the
/// uncertainty in words.
fn at_least((had, levels): (Time, Levels), (wanted, u): (f64, f64)) -> (Verdict, [String; 3]) {
    let verdict = Limits::at_most(had.si())
        .map_or(Verdict::NotProven, |limits| judge(wanted, u, limits, levels).verdict);
    (verdict, [had.si(), wanted, u].map(duration_text))
}

fn check(input: &Input) -> Result<(), RoomError> {
    let wrong = |time: Option<Time>| {
        let time = time.map(Quantity::si).filter(|time| time.is_nan() || *time < 0.0);
        time.map(|time| time.to_string())
    };
    let in_cold = wrong(input.in_cold).map(|time| say!("chill-time-in-cold-is", time));
    let since = || wrong(input.since).map(|time| say!("chill-time-since-cold-is", time));
    if let Some(found) = in_cold.or_else(since) {
        return Err(RoomError::input(found, say!("chill-time-zero-or-more-would-fit")));
    }
    let within =
        |is: &dyn Fn(String) -> String, value: f64, (low, high): (f64, f64), unit: &str| {
            if (low..=high).contains(&value) {
                return Ok(());
            }
            let found = is(((value * 1e6).round() / 1e6).to_string());
            Err(RoomError::input(
                found,
                say!("chill-range-would-fit", low = low.to_string(), high = high.to_string(), unit),
            ))
        };
    let (section, inside) = (input.toric.section_diameter.si(), input.toric.inside_diameter.si());
    within(&|value| say!("chill-section-is", value), section * 1e3, (1.0, 100.0), "mm")?;
    within(&|value| say!("chill-inside-diameter-is", value), inside * 1e3, (5.0, 5000.0), "mm")?;
    if inside < 3.0 * section {
        let found = say!("chill-inside-diameter-less-than-three-times");
        return Err(RoomError::input(found, say!("chill-section-computed-as-long-straight-one")));
    }
    within(
        &|value| say!("chill-rooms-temperature-is", value),
        celsius(input.room.si()),
        (-30.0, 60.0),
        "degC",
    )?;
    within(
        &|value| say!("chill-cold-is", value),
        celsius(input.cold.si()),
        (-100.0, 59.0),
        "degC",
    )?;
    within(
        &|value| say!("chill-humidity-is", value),
        input.humidity.si() * 100.0,
        (0.0, 100.0),
        "%",
    )?;
    if input.cold.si() > input.room.si() - 1.0 {
        let found = say!(
            "chill-cold-degc-in-room-degc",
            cold = format!("{:.1}", celsius(input.cold.si())),
            room = format!("{:.1}", celsius(input.room.si()))
        );
        return Err(RoomError::input(found, say!("chill-cold-lies-at-least-1-k")));
    }
    let (fits, unit) = ((0.1, 100_000.0), "W/(m2 K)");
    if let Some(cold) = input.coefficient {
        within(&|value| say!("chill-coefficient-is", value), cold.si(), fits, unit)?;
    }
    if let Some(room) = input.room_coefficient {
        within(&|value| say!("chill-rooms-coefficient-is", value), room.si(), fits, unit)?;
    }
    if let Medium::MovingAir { speed: Some(speed) } = input.medium {
        within(&|value| say!("chill-airs-speed-is", value), speed.si(), (0.01, 100.0), "m/s")?;
    }
    check_seat(input, within)
}

fn check_seat(
    input: &Input,
    within: impl Fn(&dyn Fn(String) -> String, f64, (f64, f64), &str) -> Result<(), RoomError>,
) -> Result<(), RoomError> {
    let Some(seat) = input.seat else { return Ok(()) };
    let inside = input.toric.inside_diameter.si();
    within(
        &|value| say!("chill-ramp-angle-is", value),
        seat.ramp_angle.si().to_degrees(),
        (0.0, 60.0),
        "deg",
    )?;
    if let Some(mass) = seat.ring_mass {
        within(&|value| say!("chill-rings-mass-is", value), mass.si(), (0.001, 10_000.0), "kg")?;
    }
    let stretch = seat.diameter.si() / inside;
    if (0.8..=1.5).contains(&stretch) {
        return Ok(());
    }
    let found = say!(
        "chill-toric-mm-inside-diameter-on-seat",
        inside = format!("{:.1}", inside * 1e3),
        seat = format!("{:.1}", seat.diameter.si() * 1e3)
    );
    Err(RoomError::input(found, say!("chill-seat-0-8-1-5-times")))
}

fn celsius(kelvin: f64) -> f64 {
    kelvin - 273.15
}
