//! The seal: ring, load ring, housing, limits and fitting rules of one half.
//!
//! Axial positions are measured from the lapped face into the ring, and from the housing face into
//! the housing. Both ramps narrow in that direction, so that a ring moving into its housing
//! squeezes the load ring between two cones.

use jiff::civil::Date;
use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{
    Angle, Force, Fraction, Given, Hardness, Length, LineLoad, Mass, Pressure, Temperature,
    Velocity,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::limit::{DecisionLevels, Limit};

/// One half of a joint as its drawing and job sheet describe it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Seal {
    /// `ringtrue/seal/1`. Left out where the seal is held inline in a joint.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub schema: Option<String>,
    /// What the shop calls it.
    pub name: String,
    /// Drawing, batch and age of the parts.
    #[serde(default)]
    pub identity: Identity,
    /// The lapped ring.
    pub ring: Ring,
    /// The toric or conical washer.
    pub load_ring: LoadRing,
    /// The housing that the ring is carried in.
    pub housing: Housing,
    /// What must be kept, each limit with its origin.
    pub limits: Limits,
    /// How it is fitted.
    pub fitting: Fitting,
    /// The installing tool that belongs to it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tool: Option<InstallingTool>,
    /// The probabilities at which verdicts are drawn, where the shop's differ from 97.5 and 2.5 %.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub decision: Option<DecisionLevels>,
}

impl Seal {
    /// The probabilities at which verdicts are drawn: the file's, or 97.5 and 2.5 %.
    #[must_use]
    pub fn levels(&self) -> Levels {
        self.decision.as_ref().and_then(DecisionLevels::levels).unwrap_or(Levels::DEFAULT)
    }
}

/// What tells these parts from others.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Identity {
    /// Drawing number and revision.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drawing: Option<String>,
    /// Batch or heat of the ring.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ring_batch: Option<String>,
    /// Batch of the load ring.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub load_ring_batch: Option<String>,
    /// Day the load ring was cured: rubber ages on the shelf.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub load_ring_cured: Option<Date>,
}

/// The lapped ring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Ring {
    /// The cone that carries the toric; a ring for a conical washer has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ramp: Option<Ramp>,
    /// Outside diameter of the lapped face.
    pub face_outer_diameter: Given<Length>,
    /// Inside diameter of the lapped face.
    pub face_inner_diameter: Given<Length>,
    /// Outside diameter of the contact band.
    pub contact_band_outer_diameter: Given<Length>,
    /// Inside diameter of the contact band.
    pub contact_band_inner_diameter: Given<Length>,
    /// Diameter of the circle on which the assembled height is read; the middle of the lapped face
    /// where it is left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measuring_diameter: Option<Given<Length>>,
    /// Hardness of the lapped face.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub face_hardness: Option<Given<Hardness>>,
    /// Mass of the ring.
    pub mass: Given<Mass>,
}

/// A cone that carries a toric, narrowing from its face into the part.
///
/// The reference plane of a ring's ramp is where the mounted toric touches it: the plane of the
/// toric's seat. The reference plane of a housing's ramp may be anywhere on the cone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Ramp {
    /// Angle of the cone to the seal axis.
    pub angle: Given<Angle>,
    /// Diameter of the cone at its reference plane.
    pub diameter: Given<Length>,
    /// Axial distance of the reference plane from the lapped face (ring) or the housing face
    /// (housing).
    pub plane_from_face: Given<Length>,
}

/// The elastic ring that carries the lapped ring in its housing: `[load_ring.toric]` or
/// `[load_ring.conical_washer]`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LoadRing {
    /// A round-section rubber ring between two ramps.
    Toric(Toric),
    /// A conical washer of rubber or steel between two seats.
    ConicalWasher(ConicalWasher),
}

/// A round-section load ring as delivered, free.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Toric {
    /// Diameter of the free round section.
    pub section_diameter: Given<Length>,
    /// Free inside diameter.
    pub inside_diameter: Given<Length>,
    /// ISO 1629 code of a shipped material, or the path of a material file ending in `.toml`.
    pub material: String,
    /// Hardness on its certificate; give this or `modulus`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hardness: Option<Given<Hardness>>,
    /// Measured Young's modulus at small strain; give this or `hardness`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub modulus: Option<Given<Pressure>>,
    /// Standard uncertainty of the measured modulus.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub modulus_standard_uncertainty: Option<Given<Pressure>>,
}

/// A conical washer as delivered, free.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ConicalWasher {
    /// Corners of the free section in the half-plane, counter-clockwise: each `[radius, axial]`,
    /// axial distance growing into the housing from the edge that sits on the ring.
    pub outline: Vec<[Given<Length>; 2]>,
    /// Radius of the corners; sharp where it is left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner_radius: Option<Given<Length>>,
    /// ISO 1629 code, the path of a material file ending in `.toml`, or `steel`.
    pub material: String,
    /// Hardness on its certificate; give this or `modulus`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hardness: Option<Given<Hardness>>,
    /// Young's modulus; give this or `hardness`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub modulus: Option<Given<Pressure>>,
    /// Standard uncertainty of the modulus.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub modulus_standard_uncertainty: Option<Given<Pressure>>,
    /// Yield strength of steel; without it no yielding is judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub yield_strength: Option<Given<Pressure>>,
    /// Axial distance of the ring's seat from the lapped face.
    pub ring_seat_from_face: Given<Length>,
    /// Axial distance of the housing's seat from the housing face.
    pub housing_seat_from_face: Given<Length>,
}

/// The housing bore that a half sits in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Housing {
    /// The cone that the toric rolls on; a housing for a conical washer has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ramp: Option<Ramp>,
    /// The edge that the toric must pass and that keeps it in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lip: Option<RetainingLip>,
    /// Depth of the bore from the housing face.
    pub depth: Given<Length>,
    /// Outside diameter of the housing face: its edge may touch first when a half is tipped.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub face_outer_diameter: Option<Given<Length>>,
}

/// The retaining lip at the mouth of a housing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RetainingLip {
    /// Smallest diameter that the toric must pass.
    pub diameter: Given<Length>,
    /// Axial height of the lip, from the housing face.
    pub height: Given<Length>,
    /// Radius of the lip's nose; half its height where it is left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge_radius: Option<Given<Length>>,
}

/// What must be kept. A limit that is left out is not judged; one that is stated and can't be
/// compared is not proven.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Limits {
    /// Housing face to housing face, closed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seal_gap: Option<Limit<Length>>,
    /// Face load per length of circumference at the contact band's mean diameter.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub face_load: Option<Limit<LineLoad>>,
    /// Mean assembled height; positive when the lapped face stands proud.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assembled_height: Option<Limit<Length>>,
    /// Highest minus lowest assembled height round the ring.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub height_range: Option<Limit<Length>>,
    /// Roughness Ra of the ramps.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ramp_finish_ra: Option<Limit<Length>>,
    /// Flatness deviation of the lapped face, peak to valley.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub face_flatness: Option<Limit<Length>>,
    /// Distance of the two halves' axes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub eccentricity: Option<Limit<Length>>,
    /// Angle of the two halves' axes: of a half while it is lowered, and of the housings as they
    /// stand when they are lined up.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tip: Option<Limit<Angle>>,
    /// Sliding speed at the contact band's mean diameter.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub speed: Option<Limit<Velocity>>,
    /// Temperature at the seal.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Limit<Temperature>>,
    /// Pressure difference across the seal.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressure_difference: Option<Limit<Pressure>>,
    /// Stretch of the toric's inside diameter on the ring.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub toric_stretch: Option<Limit<Fraction>>,
    /// Height of the free conical washer, on a flat plate.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub free_height: Option<Limit<Length>>,
    /// How far a ramp angle may be from the one it works with.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ramp_angle_difference: Option<Limit<Angle>>,
    /// How far the installing tool's diameter may be from the diameter it bears on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tool_diameter_difference: Option<Limit<Length>>,
}

/// How the half is fitted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Fitting {
    /// Lapped-face outside diameter up to which it is pressed in; above, it is worked in round.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressed_up_to: Option<Given<Length>>,
    /// What two hands give as a push; 200 N where it is left out (common practice, no source).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand_force: Option<Given<Force>>,
    /// What tool and mallet give; 1000 N where it is left out (common practice, no source).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tool_force: Option<Given<Force>>,
    /// May the load ring be chilled?
    pub chilling: Chilling,
    /// Tries before parts are replaced.
    pub most_tries: u32,
    /// What ramps and load ring are cleaned and wetted with, as the material files name fluids:
    /// `isopropyl-alcohol`; `none` where they go in dry.
    pub cleaning_agent: String,
}

/// May a load ring be chilled before it is fitted?
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Chilling {
    /// It may.
    Allowed,
    /// It may not.
    NotAllowed,
}

/// The tool that presses the ring in by its load ring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InstallingTool {
    /// What the shop calls it.
    pub name: String,
    /// Ramp angle it is made for; a tool for a conical washer has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ramp_angle: Option<Given<Angle>>,
    /// Diameter of the circle on which it bears: on the middle of a mounted toric's section, or on
    /// the outer edge of a conical washer.
    pub diameter: Given<Length>,
}

impl LoadRing {
    /// Name of its material: an ISO 1629 code, `steel`, or the path of a material file.
    #[must_use]
    pub fn material(&self) -> &str {
        match self {
            Self::Toric(toric) => &toric.material,
            Self::ConicalWasher(washer) => &washer.material,
        }
    }

    /// Is it of steel? Only a washer can be.
    #[must_use]
    pub fn is_steel(&self) -> bool {
        matches!(self, Self::ConicalWasher(_)) && self.material() == super::material::STEEL
    }

    /// The path of the material file, where it names one.
    #[must_use]
    pub fn material_file(&self) -> Option<&str> {
        Some(self.material()).filter(|name| name.ends_with(".toml"))
    }
}
