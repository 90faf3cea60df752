//! The figures that the computation rests on, each a range with its source.

use std::f64::consts::PI;

use ringtrue_metrology::uncertain::uniform;
use ringtrue_metrology::units::Quantity;
use ringtrue_words::say;

use super::body::Body;
use super::conduction::{Ring, Section};
use super::convection::{Air, Exchange};
use super::{Figure, Input, Medium};
use crate::RoomError;
use crate::definition::material::{Material, Span};

/// Down into the cold, or back into the room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Cooling,
    Warming,
}

/// What is known as a range only.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Key {
    Conductivity,
    Density,
    SpecificHeat,
    Expansion,
    Emissivity,
    Speed,
    Liquid,
    ColdFactor,
    RoomFactor,
    RingMass,
    RingDensity,
    RingHeat,
    RingExpansion,
    RingEmissivity,
    RingSurface,
    ContactShare,
    Contact,
}

/// One range and the value that is used.
#[derive(Debug, Clone, PartialEq)]
struct Range {
    key: Key,
    low: f64,
    high: f64,
    used: f64,
    source: String,
}

/// All of them for one input.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figures {
    ranges: Vec<Range>,
    cold: Option<f64>,
    room: Option<f64>,
    ring_mass: Option<f64>,
    medium: Medium,
}

const NO_SOURCE: &str = "common practice, no source";
const MEMORY: &str = "from memory";
/// Fillers move what a family's one figure says by so much either way.
const FILLER: f64 = 0.3;

impl Key {
    /// Name and unit for a person.
    fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Conductivity => (say!("chill-thermal-conductivity-rubber"), "W/(m K)"),
            Self::Density => (say!("chill-density-rubber"), "kg/m3"),
            Self::SpecificHeat => (say!("chill-specific-heat-rubber"), "J/(kg K)"),
            Self::Expansion => (say!("chill-linear-expansion-rubber"), "1e-6/K"),
            Self::Emissivity => (say!("chill-emissivity-rubber"), "-"),
            Self::Speed => (say!("chill-speed-moving-air"), "m/s"),
            Self::Liquid => (say!("chill-coefficient-in-stirred-liquid"), "W/(m2 K)"),
            Self::ColdFactor => (say!("chill-correlation-in-cold-times"), "-"),
            Self::RoomFactor => (say!("chill-correlation-in-room-times"), "-"),
            Self::RingMass => (say!("chill-mass-ring-over-iron-torics-volume"), "-"),
            Self::RingDensity => (say!("chill-density-ring"), "kg/m3"),
            Self::RingHeat => (say!("chill-specific-heat-ring"), "J/(kg K)"),
            Self::RingExpansion => (say!("chill-linear-expansion-ring"), "1e-6/K"),
            Self::RingEmissivity => (say!("chill-emissivity-ring"), "-"),
            Self::RingSurface => (say!("chill-free-surface-ring-over-square-bars"), "-"),
            Self::ContactShare => (say!("chill-share-section-that-lies-on-ring"), "-"),
            Self::Contact => (say!("chill-coefficient-where-lies-on-ring"), "W/(m2 K)"),
        }
    }

    /// What the listed number is multiplied with for a person.
    fn scale(self) -> f64 {
        if matches!(self, Self::Expansion | Self::RingExpansion) { 1e6 } else { 1.0 }
    }

    fn of_ring(self) -> bool {
        match self {
            Self::RingMass
            | Self::RingDensity
            | Self::RingHeat
            | Self::RingExpansion
            | Self::RingEmissivity
            | Self::RingSurface
            | Self::ContactShare
            | Self::Contact => true,
            Self::Conductivity
            | Self::Density
            | Self::SpecificHeat
            | Self::Expansion
            | Self::Emissivity
            | Self::Speed
            | Self::Liquid
            | Self::ColdFactor
            | Self::RoomFactor => false,
        }
    }
}

impl Figures {
    /// Ranges of the material, the ring, the medium and the room.
    ///
    /// # Errors
    /// [`RoomError`] where the material's expansion is not known: without it nothing contracts.
    pub(super) fn of(input: &Input) -> Result<Self, RoomError> {
        let mut ranges = rubber(&input.material)?;
        ranges.push(range(Key::Emissivity, (0.86, 0.95), MEMORY));
        let cold = input.coefficient.map(Quantity::si);
        let room = input.room_coefficient.map(Quantity::si);
        match (cold, input.medium) {
            (Some(_), _) => {}
            (None, Medium::StillAir | Medium::MovingAir { speed: Some(_) }) => {
                ranges.push(range(Key::ColdFactor, (0.8, 1.2), MEMORY));
            }
            (None, Medium::MovingAir { speed: None }) => {
                ranges.push(range(Key::ColdFactor, (0.8, 1.2), MEMORY));
                ranges.push(range(Key::Speed, (1.0, 3.0), NO_SOURCE));
            }
            (None, Medium::Liquid) => ranges.push(range(Key::Liquid, (100.0, 400.0), NO_SOURCE)),
        }
        if room.is_none() {
            ranges.push(range(Key::RoomFactor, (0.8, 1.2), MEMORY));
        }
        let ring_mass = input.seat.and_then(|seat| seat.ring_mass).map(Quantity::si);
        if ring_mass.is_none() {
            ranges.push(range(Key::RingMass, (2.0, 5.0), NO_SOURCE));
        }
        ranges.extend([
            range(Key::RingDensity, (7100.0, 7700.0), MEMORY),
            range(Key::RingHeat, (450.0, 550.0), MEMORY),
            range(Key::RingExpansion, (9e-6, 13e-6), MEMORY),
            range(Key::RingEmissivity, (0.2, 0.6), MEMORY),
            range(Key::RingSurface, (0.6, 1.0), NO_SOURCE),
            range(Key::ContactShare, (0.05, 0.25), NO_SOURCE),
            range(Key::Contact, (100.0, 1000.0), NO_SOURCE),
        ]);
        Ok(Self { ranges, cold, room, ring_mass, medium: input.medium })
    }

    fn used(&self, key: Key) -> Option<f64> {
        self.ranges.iter().find(|range| range.key == key).map(|range| range.used)
    }

    /// A figure that is always listed; one that is not would be a fault, and counts as nothing.
    fn listed_one(&self, key: Key) -> f64 {
        let found = self.used(key);
        debug_assert!(found.is_some(), "{key:?} is not listed");
        found.unwrap_or(1.0)
    }

    pub(super) fn expansion(&self) -> f64 {
        self.listed_one(Key::Expansion)
    }

    pub(super) fn ring_expansion(&self) -> f64 {
        self.listed_one(Key::RingExpansion)
    }

    pub(super) fn section(&self, radius: f64) -> Section {
        Section {
            radius,
            conductivity: self.listed_one(Key::Conductivity),
            density: self.listed_one(Key::Density),
            specific_heat: self.listed_one(Key::SpecificHeat),
        }
    }

    pub(super) fn exchange(&self, way: Way, diameter: f64) -> Exchange {
        self.exchange_of(way, diameter, Key::Emissivity)
    }

    fn exchange_of(&self, way: Way, diameter: f64, emissivity: Key) -> Exchange {
        let stated = match way {
            Way::Cooling => self.cold.or_else(|| self.used(Key::Liquid)),
            Way::Warming => self.room,
        };
        if let Some(coefficient) = stated {
            return Exchange::Constant(coefficient);
        }
        let (speed, factor) = match (way, self.medium) {
            (Way::Warming, _) => (0.0, Key::RoomFactor),
            (Way::Cooling, Medium::MovingAir { speed: Some(speed) }) => {
                (speed.si(), Key::ColdFactor)
            }
            (Way::Cooling, Medium::MovingAir { speed: None }) => {
                (self.listed_one(Key::Speed), Key::ColdFactor)
            }
            (Way::Cooling, Medium::StillAir | Medium::Liquid) => (0.0, Key::ColdFactor),
        };
        Exchange::Air(Air {
            diameter,
            speed,
            emissivity: self.listed_one(emissivity),
            factor: self.listed_one(factor),
        })
    }

    /// The ring of a mounted toric per metre of the circle through the middle of the section.
    pub(super) fn ring(&self, way: Way, centroid_diameter: f64, section_diameter: f64) -> Ring {
        let metal = self.listed_one(Key::RingDensity);
        let section_area = PI / 4.0 * section_diameter * section_diameter;
        let around = PI * centroid_diameter;
        let mass = match self.ring_mass {
            Some(mass) => mass / around,
            None => self.listed_one(Key::RingMass) * section_area * metal,
        };
        let area = mass / metal;
        let side = area.sqrt();
        Ring {
            capacity: mass * self.listed_one(Key::RingHeat),
            surface: 4.0 * side * self.listed_one(Key::RingSurface),
            exchange: self.exchange_of(way, 2.0 * (area / PI).sqrt(), Key::RingEmissivity),
            contact_share: self.listed_one(Key::ContactShare),
            contact_coefficient: self.listed_one(Key::Contact),
        }
    }

    /// For each range that a body depends on: the figures with it one standard uncertainty down
    /// and up, all others as used.
    pub(super) fn varied(&self, body: Body) -> impl Iterator<Item = [Self; 2]> + '_ {
        let concerns = move |range: &Range| body == Body::Mounted || !range.key.of_ring();
        let ranges = self.ranges.iter().enumerate();
        ranges.filter(move |(_, range)| range.high > range.low && concerns(range)).map(
            |(index, range)| {
                let u = uniform((range.high - range.low) / 2.0);
                [-u, u].map(|shift| {
                    let mut figures = self.clone();
                    figures.ranges[index].used += shift;
                    figures
                })
            },
        )
    }

    pub(super) fn listed(&self) -> Vec<Figure> {
        let figure = |range: &Range| {
            let ((what, unit), scale) = (range.key.words(), range.key.scale());
            let (low, high) = (tidy(range.low * scale), tidy(range.high * scale));
            Figure { what, low, high, unit, source: range.source.clone() }
        };
        self.ranges.iter().map(figure).collect()
    }
}

fn range(key: Key, (low, high): (f64, f64), source: impl Into<String>) -> Range {
    Range { key, low, high, used: f64::midpoint(low, high), source: source.into() }
}

/// The material's ranges. A family without figures of heat gets the span over all families that
/// have some; a single figure is widened by what fillers do.
fn rubber(material: &Material) -> Result<Vec<Range>, RoomError> {
    let Some(expansion) = &material.linear_expansion else {
        let found = say!("chill-no-thermal-expansion-at-hand-for", material = material.code);
        let fits = say!("chill-name-material-file-that-gives-linear");
        return Err(RoomError::input(found, fits));
    };
    Ok(vec![
        widened(Key::Expansion, expansion, 0.1),
        heat(Key::Conductivity, material.thermal_conductivity.as_ref(), (0.13, 0.35)),
        heat(Key::Density, material.density.as_ref(), (910.0, 1900.0)),
        heat(Key::SpecificHeat, material.specific_heat.as_ref(), (950.0, 2140.0)),
    ])
}

fn heat<Q: Quantity>(key: Key, span: Option<&Span<Q>>, families: (f64, f64)) -> Range {
    let share = if key == Key::Density { 0.1 } else { FILLER };
    match span {
        Some(span) => widened(key, span, share),
        None => range(key, families, "span over the families that have figures, from memory"),
    }
}

fn widened<Q: Quantity>(key: Key, span: &Span<Q>, share: f64) -> Range {
    let (low, high) = (span.min.value().si(), span.max.value().si());
    if low < high {
        return range(key, (low, high), span.source.clone());
    }
    let source = format!(
        "{}; {:.0} % either way for fillers (common practice, no source)",
        span.source,
        share * 100.0
    );
    range(key, (low * (1.0 - share), high * (1.0 + share)), source)
}

fn tidy(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6
}
