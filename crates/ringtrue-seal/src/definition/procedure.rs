//! The procedure: a whole job as steps that a shop may edit and number anew.
//!
//! What is written stands here, beside the other definitions; which steps a joint needs is worked
//! out by `ringtrue_job::procedure`.

use ringtrue_metrology::units::{
    Angle, AngularVelocity, Fraction, Length, LineLoad, Mass, Pressure, Quantity, Temperature,
    Time, Torque, UnitError, Velocity, Volume, parse,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::seal::LoadRing;

/// A whole job, step by step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Procedure {
    /// `ringtrue/procedure/1`.
    pub schema: String,
    /// What the shop calls it.
    pub name: String,
    /// Its edition, as the shop counts: `3`, `2026-11`.
    pub version: String,
    /// Where it comes from: job sheet, seal maker's instruction, `common practice, no source`.
    pub origin: String,
    /// The load ring that it is for.
    pub load_ring: LoadRingType,
    /// What is said before each step that has the hazard.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub caution: Vec<Caution>,
    /// The steps, in the order of the work.
    pub step: Vec<Step>,
}

/// Kinds of load ring; each has a procedure of its own.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum LoadRingType {
    /// A round-section rubber ring between two ramps.
    Toric,
    /// A conical washer of rubber or steel between two seats.
    ConicalWasher,
}

/// A hazard and the words that stand before each step that has it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Caution {
    /// What can hurt.
    pub hazard: Hazard,
    /// What to do about it, deferring to safety data sheet, local codes and licensed practice.
    pub text: String,
}

/// What can hurt a person in a step.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Hazard {
    /// A machine that may start, roll or drop.
    MachineEnergy,
    /// Pressure held in a housing or a test line.
    Pressure,
    /// Hot oil and hot parts.
    HotOil,
    /// A heavy part on a hoist.
    Lifting,
    /// Parts that close on a hand or spring apart.
    Pinch,
    /// Edges that cut.
    Sharp,
    /// A liquid or vapour that burns.
    Flammable,
    /// Deep-cold parts, liquids and gas.
    Cold,
    /// What an overheated fluoroelastomer leaves behind.
    HotResidue,
    /// Dust of lapping, rust and paint.
    Dust,
    /// Used oil, wipes and liquids.
    Waste,
}

/// One step of the work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Its name in the record: small letters, digits and hyphens.
    pub id: String,
    /// The part of the job it belongs to.
    pub stage: Stage,
    /// A short title.
    pub title: String,
    /// What to do.
    pub what: String,
    /// What goes wrong otherwise, and how that shows later.
    pub why: String,
    /// Rules of the joint that must all hold; a step without them is always due.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub when: Vec<Rule>,
    /// Hazards of this step; the text of each is said before it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hazards: Vec<Hazard>,
    /// What else to take care of, said before the step.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
    /// What is recorded.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub evidence: Vec<Evidence>,
    /// What must conform before the work goes on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gate: Option<Gate>,
}

/// The parts of the job, in their order.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// Make safe, drain, read the old seal, lay the kit out.
    Open,
    /// Which parts these are, and whether they belong together.
    Identify,
    /// Ring, load ring and housing of one half.
    Inspect,
    /// Clean and dry.
    Clean,
    /// The load ring on its ring.
    Mount,
    /// The load ring chilled, where the seal allows it.
    Chill,
    /// The ring into its housing.
    Seat,
    /// The assembled height, and its correction.
    Level,
    /// The two halves together.
    Close,
    /// First turn, leak test, fill.
    Prove,
    /// The first running.
    RunIn,
    /// Signatures and hand-over.
    Sign,
}

/// How often the steps of a stage are done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Times {
    /// Once for the joint.
    Once,
    /// Once for each half.
    EachHalf,
}

/// A rule of the joint by which a step is due or falls away. A rule that is asked of the whole
/// joint holds where it holds for one of the halves.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Rule {
    /// The load ring is a toric.
    Toric,
    /// The load ring is a conical washer.
    ConicalWasher,
    /// The load ring is of rubber.
    Rubber,
    /// The load ring is of steel.
    Steel,
    /// The load ring is, or may be, a fluoroelastomer.
    Fluoroelastomer,
    /// The seal allows its load ring to be chilled.
    ChillingAllowed,
    /// The face is no larger than the seal's `fitting.pressed_up_to`, or the seal names no size.
    PressedIn,
    /// The face is larger than the seal's `fitting.pressed_up_to`.
    WorkedIn,
    /// The seal is cleaned and wetted with an agent.
    AgentUsed,
    /// The housing has a retaining lip.
    RetainingLip,
    /// The shaft stands while the joint is closed.
    ShaftVertical,
    /// The shaft lies while the joint is closed.
    ShaftHorizontal,
}

/// One thing that a step records.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    /// Its name within the step: small letters, digits and hyphens.
    pub name: String,
    /// What it is.
    pub kind: EvidenceKind,
    /// What is asked for, in a few words.
    pub ask: String,
    /// Whether the step can be done without it.
    #[serde(default, skip_serializing_if = "Need::is_always")]
    pub need: Need,
    /// What a value measures; with `kind = "value"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub quantity: Option<QuantityKind>,
    /// How a value may be typed; with `kind = "value"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub example: Option<String>,
    /// The limit of the joint's own definition that a value must keep; with `kind = "value"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limit: Option<LimitKey>,
    /// What the readings answer; with `kind = "reading-set"` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub readings: Option<ReadingSet>,
}

/// Kinds of evidence.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum EvidenceKind {
    /// Seen and done, yes or no.
    Tick,
    /// One measured value with its unit.
    Value,
    /// Readings that a question is judged on.
    ReadingSet,
    /// A photo.
    Photo,
    /// A few words.
    Text,
    /// Another person looks and says so.
    SecondPerson,
}

/// Whether a step can be done without a piece of evidence.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Need {
    /// It can't.
    #[default]
    Always,
    /// It is given where there is something to give.
    IfAny,
}

/// Questions that a step's readings are judged on.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum ReadingSet {
    /// Heights round one ring.
    AssembledHeight,
    /// Measured sizes of the gap's chain.
    SealGap,
}

/// What must conform before the work goes on. A gate that does not conform, or is not proven,
/// holds the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Gate {
    /// What decides.
    pub decided_by: DecidedBy,
    /// The hold point that it keeps: the fitter signs there, and nobody goes past it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hold_point: Option<HoldPoint>,
}

/// What decides a gate.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum DecidedBy {
    /// The comparison of the joint's own definitions.
    Matching,
    /// The verdict on the step's height readings.
    AssembledHeight,
    /// The verdict on the step's measured chain.
    SealGap,
    /// Each value of the step that names a limit, against that limit.
    Limits,
    /// The step's ticks and second persons, all of them given.
    Evidence,
}

/// Points of the job that are signed, and that nobody goes past without.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum HoldPoint {
    /// The housing may carry a seal.
    HousingAccepted,
    /// The ring is square and at its height.
    Height,
    /// The faces are clean and dry, and only then oiled.
    FacesCleanAndDry,
    /// The seal gap is inside its limits.
    Gap,
    /// The closed joint holds.
    LeakTest,
    /// One more that the shop wants.
    Own,
}

impl LoadRingType {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Toric, Self::ConicalWasher];

    /// The word in files and on the command line.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Toric => "toric",
            Self::ConicalWasher => "conical-washer",
        }
    }

    /// The type of a seal's load ring.
    #[must_use]
    pub fn of(load_ring: &LoadRing) -> Self {
        match load_ring {
            LoadRing::Toric(_) => Self::Toric,
            LoadRing::ConicalWasher(_) => Self::ConicalWasher,
        }
    }
}

/// The shipped procedure for a type of load ring, as text: a shop's own begins as a copy of it.
#[must_use]
pub fn shipped(load_ring: LoadRingType) -> &'static str {
    match load_ring {
        LoadRingType::Toric => include_str!("../../data/procedure/toric.toml"),
        LoadRingType::ConicalWasher => include_str!("../../data/procedure/conical-washer.toml"),
    }
}

impl Procedure {
    /// The step with this id.
    #[must_use]
    pub fn step(&self, id: &str) -> Option<&Step> {
        self.step.iter().find(|step| step.id == id)
    }

    /// What is said before a step: the text of each of its hazards, then its own.
    #[must_use]
    pub fn cautions<'p>(&'p self, step: &'p Step) -> Vec<&'p str> {
        let of_hazards = step.hazards.iter().filter_map(|hazard| {
            self.caution.iter().find(|caution| caution.hazard == *hazard).map(|c| c.text.as_str())
        });
        of_hazards.chain(step.caution.as_deref()).collect()
    }
}

impl Step {
    /// The evidence with this name.
    #[must_use]
    pub fn evidence(&self, name: &str) -> Option<&Evidence> {
        self.evidence.iter().find(|evidence| evidence.name == name)
    }
}

impl Stage {
    /// All stages, in order.
    pub const ALL: [Self; 12] = [
        Self::Open,
        Self::Identify,
        Self::Inspect,
        Self::Clean,
        Self::Mount,
        Self::Chill,
        Self::Seat,
        Self::Level,
        Self::Close,
        Self::Prove,
        Self::RunIn,
        Self::Sign,
    ];

    /// The word in files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Identify => "identify",
            Self::Inspect => "inspect",
            Self::Clean => "clean",
            Self::Mount => "mount",
            Self::Chill => "chill",
            Self::Seat => "seat",
            Self::Level => "level",
            Self::Close => "close",
            Self::Prove => "prove",
            Self::RunIn => "run-in",
            Self::Sign => "sign",
        }
    }

    /// Once, or once for each half: from *inspect* to *level* each half has its own.
    #[must_use]
    pub fn times(self) -> Times {
        match self {
            Self::Inspect | Self::Clean | Self::Mount | Self::Chill | Self::Seat | Self::Level => {
                Times::EachHalf
            }
            Self::Open | Self::Identify | Self::Close | Self::Prove | Self::RunIn | Self::Sign => {
                Times::Once
            }
        }
    }
}

impl Need {
    fn is_always(&self) -> bool {
        *self == Self::Always
    }
}

/// Declares the quantities that a value may be of, each with its word and its type.
macro_rules! quantity_kinds {
    ($($(#[$doc:meta])* $kind:ident = $word:literal of $type:ty,)+) => {
        /// Quantities that a step's value may be of.
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
        )]
        pub enum QuantityKind {
            $($(#[$doc])* #[serde(rename = $word)] $kind,)+
        }

        impl QuantityKind {
            /// All quantities.
            pub const ALL: &'static [Self] = &[$(Self::$kind),+];

            /// The word in files.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self { $(Self::$kind => $word,)+ }
            }

            /// A typed value of this quantity in SI.
            ///
            /// # Errors
            /// See [`parse`].
            pub fn read_si(self, text: &str) -> Result<f64, UnitError> {
                match self { $(Self::$kind => parse::<$type>(text).map(Quantity::si),)+ }
            }
        }
    };
}

quantity_kinds! {
    /// A length.
    Length = "length" of Length,
    /// An angle.
    Angle = "angle" of Angle,
    /// A mass.
    Mass = "mass" of Mass,
    /// A volume.
    Volume = "volume" of Volume,
    /// A temperature.
    Temperature = "temperature" of Temperature,
    /// A pressure.
    Pressure = "pressure" of Pressure,
    /// A torque.
    Torque = "torque" of Torque,
    /// A time.
    Time = "time" of Time,
    /// A speed.
    Speed = "speed" of Velocity,
    /// A speed of rotation.
    RotationSpeed = "rotation-speed" of AngularVelocity,
    /// A face load: force per length of circumference at the contact band's mean diameter.
    FaceLoad = "face-load" of LineLoad,
    /// A share of one.
    Share = "share" of Fraction,
}

/// Declares the limits that a value may be held against: variant, key and quantity.
macro_rules! limit_keys {
    ($($(#[$doc:meta])* $key:ident = $name:literal of $quantity:ident,)+) => {
        /// Limits of a joint's own definition that a step's value may be held against.
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
        )]
        pub enum LimitKey {
            $($(#[$doc])* #[serde(rename = $name)] $key,)+
        }

        impl LimitKey {
            /// All limits.
            pub const ALL: &'static [Self] = &[$(Self::$key),+];

            /// The limit's key as a seal file has it: `limits.ramp_finish_ra`.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self { $(Self::$key => $name,)+ }
            }

            /// What it limits.
            #[must_use]
            pub fn quantity(self) -> QuantityKind {
                match self { $(Self::$key => QuantityKind::$quantity,)+ }
            }
        }
    };
}

limit_keys! {
    /// Housing face to housing face, closed: what both seals and the joint leave together.
    SealGap = "limits.seal_gap" of Length,
    /// Face load at the contact band's mean diameter.
    FaceLoad = "limits.face_load" of FaceLoad,
    /// Mean assembled height.
    AssembledHeight = "limits.assembled_height" of Length,
    /// Highest minus lowest assembled height.
    HeightRange = "limits.height_range" of Length,
    /// Roughness Ra of the ramps.
    RampFinishRa = "limits.ramp_finish_ra" of Length,
    /// Distance of the two halves' axes.
    Eccentricity = "limits.eccentricity" of Length,
    /// Tip of a half while it is lowered.
    Tip = "limits.tip" of Angle,
    /// Sliding speed at the contact band's mean diameter.
    Speed = "limits.speed" of Speed,
    /// Temperature at the seal.
    Temperature = "limits.temperature" of Temperature,
    /// Pressure difference across the seal.
    PressureDifference = "limits.pressure_difference" of Pressure,
    /// Stretch of the toric's inside diameter on the ring.
    ToricStretch = "limits.toric_stretch" of Share,
    /// How far a ramp angle may be from the one it works with.
    RampAngleDifference = "limits.ramp_angle_difference" of Angle,
    /// How far the installing tool's diameter may be from the diameter it bears on.
    ToolDiameterDifference = "limits.tool_diameter_difference" of Length,
}
