//! The closed sets of words that a procedure is written in.

use ringtrue_metrology::units::{
    Angle, AngularVelocity, Fraction, Length, LineLoad, Mass, Pressure, Quantity, Temperature,
    Time, Torque, Unit, UnitError, Velocity, Volume, parse, unit_of,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Declares a closed set, each member with its word in files.
macro_rules! words {
    (
        $(#[$about:meta])*
        $set:ident { $($(#[$doc:meta])* $member:ident = $word:literal,)+ }
    ) => {
        $(#[$about])*
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
        )]
        pub enum $set {
            $($(#[$doc])* #[serde(rename = $word)] $member,)+
        }

        impl $set {
            /// All of them, in order.
            pub const ALL: [Self; [$($word),+].len()] = [$(Self::$member),+];

            /// The word in files.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self { $(Self::$member => $word,)+ }
            }
        }
    };
}

words! {
    /// Kinds of load ring; each has a procedure of its own.
    LoadRingType {
        /// A round-section rubber ring between two ramps.
        Toric = "toric",
        /// A conical washer of rubber or steel between two seats.
        ConicalWasher = "conical-washer",
    }
}

words! {
    /// What can hurt a person in a step.
    Hazard {
        /// A machine that may start, roll or drop.
        MachineEnergy = "machine-energy",
        /// Pressure held in a housing or a test line.
        Pressure = "pressure",
        /// Hot oil and hot parts.
        HotOil = "hot-oil",
        /// A heavy part on a hoist.
        Lifting = "lifting",
        /// Parts that close on a hand or spring apart.
        Pinch = "pinch",
        /// Edges that cut.
        Sharp = "sharp",
        /// A liquid or vapour that burns.
        Flammable = "flammable",
        /// Deep-cold parts, liquids and gas.
        Cold = "cold",
        /// What an overheated fluoroelastomer leaves behind.
        HotResidue = "hot-residue",
        /// Dust of lapping, rust and paint.
        Dust = "dust",
        /// Used oil, wipes and liquids.
        Waste = "waste",
    }
}

words! {
    /// The parts of the job, in their order.
    Stage {
        /// Make safe, drain, read the old seal, lay the kit out.
        Open = "open",
        /// Which parts these are, and whether they belong together.
        Identify = "identify",
        /// Ring, load ring and housing of one half.
        Inspect = "inspect",
        /// Clean and dry.
        Clean = "clean",
        /// The load ring on its ring.
        Mount = "mount",
        /// The load ring chilled, where the seal allows it.
        Chill = "chill",
        /// The ring into its housing.
        Seat = "seat",
        /// The assembled height, and its correction.
        Level = "level",
        /// The two halves together.
        Close = "close",
        /// First turn, leak test, fill.
        Prove = "prove",
        /// The first running.
        RunIn = "run-in",
        /// Signatures and hand-over.
        Sign = "sign",
    }
}

words! {
    /// A rule of the joint by which a step is due or falls away. A rule that is asked of the whole
    /// joint holds where it holds for one of the halves.
    Rule {
        /// The load ring is a toric.
        Toric = "toric",
        /// The load ring is a conical washer.
        ConicalWasher = "conical-washer",
        /// The load ring is of rubber.
        Rubber = "rubber",
        /// The load ring is of steel.
        Steel = "steel",
        /// The load ring is, or may be, a fluoroelastomer.
        Fluoroelastomer = "fluoroelastomer",
        /// The seal allows its load ring to be chilled.
        ChillingAllowed = "chilling-allowed",
        /// The face is no larger than `fitting.pressed_up_to`, or the seal names no such size.
        PressedIn = "pressed-in",
        /// The face is larger than the seal's `fitting.pressed_up_to`.
        WorkedIn = "worked-in",
        /// The seal is cleaned and wetted with an agent.
        AgentUsed = "agent-used",
        /// The housing has a retaining lip.
        RetainingLip = "retaining-lip",
        /// The shaft stands while the joint is closed.
        ShaftVertical = "shaft-vertical",
        /// The shaft lies while the joint is closed.
        ShaftHorizontal = "shaft-horizontal",
        /// A seal of the joint limits the face load.
        FaceLoadLimited = "face-load-limited",
    }
}

words! {
    /// Kinds of evidence.
    EvidenceKind {
        /// Seen and done, yes or no.
        Tick = "tick",
        /// One measured value with its unit.
        Value = "value",
        /// Readings that a question is judged on.
        ReadingSet = "reading-set",
        /// A photo.
        Photo = "photo",
        /// A few words.
        Text = "text",
        /// Another person looks and says so.
        SecondPerson = "second-person",
    }
}

words! {
    /// Whether a step can be done without a piece of evidence.
    #[derive(Default)]
    Need {
        /// It can't.
        #[default]
        Always = "always",
        /// It is given where there is something to give.
        IfAny = "if-any",
    }
}

words! {
    /// Questions that a step's readings are judged on.
    ReadingSet {
        /// Heights round one ring.
        AssembledHeight = "assembled-height",
        /// Measured sizes of the gap's chain.
        SealGap = "seal-gap",
        /// Indicator sweeps of the two housings.
        Alignment = "alignment",
        /// Traces or values of a ramp's finish.
        Roughness = "roughness",
        /// Light bands on a lapped face.
        Flatness = "flatness",
        /// How slippery the load ring is as it goes in; the seal's file holds the rest.
        Seating = "seating",
        /// How a toric is chilled, or how long it has been warming.
        Chilling = "chilling",
        /// Pressure and temperature over time, bubbles or a soak.
        LeakTest = "leak-test",
        /// The agent that wipes or wets, and the bay it is used in.
        Agents = "agents",
        /// Feeler readings round the closed joint.
        Closing = "closing",
    }
}

words! {
    /// What decides a gate.
    DecidedBy {
        /// The comparison of the joint's own definitions.
        Matching = "matching",
        /// The verdict on the step's height readings.
        AssembledHeight = "assembled-height",
        /// The verdict on the step's measured chain.
        SealGap = "seal-gap",
        /// The face load over the gap, from the load rings and the measured chain.
        FaceLoad = "face-load",
        /// Each value of the step that names a limit, against that limit; where the joint states
        /// no such limit the value is recorded and not judged.
        Limits = "limits",
        /// The step's ticks and second persons, all of them given.
        Evidence = "evidence",
        /// The worst verdict on the step's sweeps.
        Alignment = "alignment",
        /// The worst verdict on the step's traces or values of a finish.
        Roughness = "roughness",
        /// The worst verdict on the step's light bands.
        Flatness = "flatness",
        /// The worst verdict on what takes the load ring into its housing.
        Seating = "seating",
        /// The worst verdict on the step's chilling.
        Chilling = "chilling",
        /// The worst verdict on the step's leak tests.
        LeakTest = "leak-test",
        /// The worst verdict on the step's agents.
        Agents = "agents",
        /// The worst verdict on the step's feeler readings.
        Closing = "closing",
    }
}

impl DecidedBy {
    /// The readings that decide; `None` where other things do.
    #[must_use]
    pub fn reading_set(self) -> Option<ReadingSet> {
        match self {
            Self::AssembledHeight => Some(ReadingSet::AssembledHeight),
            Self::SealGap => Some(ReadingSet::SealGap),
            Self::Alignment => Some(ReadingSet::Alignment),
            Self::Roughness => Some(ReadingSet::Roughness),
            Self::Flatness => Some(ReadingSet::Flatness),
            Self::Seating => Some(ReadingSet::Seating),
            Self::Chilling => Some(ReadingSet::Chilling),
            Self::LeakTest => Some(ReadingSet::LeakTest),
            Self::Agents => Some(ReadingSet::Agents),
            Self::Closing => Some(ReadingSet::Closing),
            Self::Matching | Self::FaceLoad | Self::Limits | Self::Evidence => None,
        }
    }
}

words! {
    /// Points of the job that are signed, and that nobody goes past without.
    HoldPoint {
        /// The housing may carry a seal.
        HousingAccepted = "housing-accepted",
        /// The ring is square and at its height.
        Height = "height",
        /// The faces are clean and dry, and only then oiled.
        FacesCleanAndDry = "faces-clean-and-dry",
        /// The seal gap is inside its limits.
        Gap = "gap",
        /// The closed joint holds.
        LeakTest = "leak-test",
        /// One more that the shop wants.
        Own = "own",
    }
}

/// Declares the quantities that a value may be of, each with its word and its type.
macro_rules! quantity_kinds {
    ($($(#[$doc:meta])* $kind:ident = $word:literal of $type:ty,)+) => {
        words! {
            /// Quantities that a step's value may be of.
            QuantityKind { $($(#[$doc])* $kind = $word,)+ }
        }

        impl QuantityKind {
            /// A typed value of this quantity in SI.
            ///
            /// # Errors
            /// See [`parse`].
            pub fn read_si(self, text: &str) -> Result<f64, UnitError> {
                match self { $(Self::$kind => parse::<$type>(text).map(Quantity::si),)+ }
            }

            /// The unit of this quantity with this symbol, where it has one.
            #[must_use]
            pub fn unit(self, symbol: &str) -> Option<&'static Unit> {
                match self { $(Self::$kind => unit_of::<$type>(symbol),)+ }
            }

            /// The units of this quantity.
            #[must_use]
            pub fn units(self) -> &'static [Unit] {
                match self { $(Self::$kind => <$type as Quantity>::UNITS,)+ }
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

/// Declares a closed set of which each member is a quantity: variant, word and quantity.
macro_rules! of_quantities {
    (
        $(#[$about:meta])*
        $set:ident { $($(#[$doc:meta])* $key:ident = $name:literal of $quantity:ident,)+ }
    ) => {
        words! {
            $(#[$about])*
            $set { $($(#[$doc])* $key = $name,)+ }
        }

        impl $set {
            /// What kind of quantity it is.
            #[must_use]
            pub fn quantity(self) -> QuantityKind {
                match self { $(Self::$key => QuantityKind::$quantity,)+ }
            }
        }
    };
}

of_quantities! {
    /// What a step's value measures of the joint: its files say what that is, or could be.
    Measures {
        /// The free section of a toric.
        ToricSection = "toric-section" of Length,
        /// The toric as it lies in the shop.
        ToricTemperature = "toric-temperature" of Temperature,
        /// The height of the free conical washer.
        WasherHeight = "washer-height" of Length,
        /// The width of the contact band on a lapped face.
        ContactBand = "contact-band" of Length,
        /// The depth of a housing's bore.
        HousingDepth = "housing-depth" of Length,
        /// The angle of a housing's ramp to the seal axis.
        RampAngle = "ramp-angle" of Angle,
        /// The diameter of a housing's ramp at its reference plane.
        RampDiameter = "ramp-diameter" of Length,
        /// The height of a housing's retaining lip.
        LipHeight = "lip-height" of Length,
        /// The diameter of a housing's seat for a conical washer.
        SeatDiameter = "seat-diameter" of Length,
        /// The depth of that seat from the housing face.
        SeatDepth = "seat-depth" of Length,
        /// The end play of the bearing, which moves the gap.
        EndPlay = "end-play" of Length,
        /// The radial play of the bearing, which moves the axes apart.
        RadialPlay = "radial-play" of Length,
        /// The run-out of a housing's face, which moves the gap.
        FaceRunOut = "face-run-out" of Length,
    }
}

of_quantities! {
    /// Limits of a joint's own definition that a step's value may be held against, by their keys in
    /// a seal file: `limits.ramp_finish_ra`.
    LimitKey {
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
        /// Flatness deviation of the lapped face.
        FaceFlatness = "limits.face_flatness" of Length,
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
        /// Height of the free conical washer.
        FreeHeight = "limits.free_height" of Length,
        /// How far a ramp angle may be from the one it works with.
        RampAngleDifference = "limits.ramp_angle_difference" of Angle,
        /// How far the installing tool's diameter may be from the diameter it bears on.
        ToolDiameterDifference = "limits.tool_diameter_difference" of Length,
    }
}
