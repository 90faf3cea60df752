//! The joint: two halves, the dimension chain that makes the gap, and how it runs.

use ringtrue_metrology::conformity::Levels;
pub use ringtrue_metrology::distribution::Shape as Spread;
use ringtrue_metrology::units::{AngularVelocity, Given, Length, Pressure, Temperature};
use ringtrue_words::say;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::limit::Limit;
use super::seal::Seal;
use crate::iso286::{self, ClassError};

/// A joint as its file holds it: a half may still be the name of a seal file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JointFile {
    /// `ringtrue/joint/1`.
    pub schema: String,
    /// What the shop calls it.
    pub name: String,
    /// Whose bench it is on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shop: Option<String>,
    /// The machine it belongs to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub machine: Option<String>,
    /// Which way the shaft lies while it is closed.
    pub attitude: Attitude,
    /// How it runs.
    pub service: Service,
    /// The two halves.
    pub half: HalvesFile,
    /// The dimension chain of the seal gap.
    pub gap: GapChain,
}

/// Which way the shaft lies while the joint is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Attitude {
    /// The shaft lies: the halves are drawn together sideways.
    ShaftHorizontal,
    /// The shaft stands: one half is lowered on the other.
    ShaftVertical,
}

/// How the joint runs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Service {
    /// Speed of one half against the other.
    pub speed: Given<AngularVelocity>,
    /// The fluid it seals, as the material files name fluids: `mineral-oil`.
    pub oil: String,
    /// Viscosity grade or designation of the oil.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub oil_grade: Option<String>,
    /// Coldest start.
    pub temperature_min: Given<Temperature>,
    /// Hottest at the seal.
    pub temperature_max: Given<Temperature>,
    /// Pressure difference across the seal.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressure_difference: Option<Given<Pressure>>,
}

/// The two halves of a joint.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HalvesFile {
    /// Half `a`.
    pub a: HalfFile,
    /// Half `b`.
    pub b: HalfFile,
}

/// One half: the path of a seal file, or the seal itself.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HalfFile {
    /// Path of a seal file, from the joint file's folder. Give this or `seal`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seal_file: Option<String>,
    /// The seal, held inline. Give this or `seal_file`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seal: Option<Box<Seal>>,
}

/// Most links that a chain may have.
pub const MOST_LINKS: usize = 200;

/// The dimensions that make the seal gap.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GapChain {
    /// Gap limits of this joint, where they are narrower than its seals'.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limits: Option<Limit<Length>>,
    /// Thicknesses of the shims on hand, one entry a piece.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shims_on_hand: Vec<Given<Length>>,
    /// The links, in the order of the drawing.
    pub link: Vec<ChainLink>,
}

/// One dimension of the chain.
///
/// Its tolerance is one of: `plus_minus`; `upper` and `lower` (signed deviations); `class`
/// (ISO 286 with letter h, H, js or JS).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChainLink {
    /// What it is.
    pub name: String,
    /// `+` when a longer link opens the gap, `-` when it closes it.
    pub sign: Sign,
    /// Nominal size.
    pub nominal: Given<Length>,
    /// Symmetric tolerance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plus_minus: Option<Given<Length>>,
    /// Upper deviation, signed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub upper: Option<Given<Length>>,
    /// Lower deviation, signed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lower: Option<Given<Length>>,
    /// ISO 286 tolerance class: `h9`, `H8`, `js11`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub class: Option<String>,
    /// How sizes are spread between the limits; normal (limits at ±3 sigma) where it is left out.
    #[serde(default)]
    pub distribution: Spread,
}

/// Direction in which a link acts on the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum Sign {
    /// A longer link opens the gap.
    #[serde(rename = "+")]
    Opens,
    /// A longer link closes the gap.
    #[serde(rename = "-")]
    Closes,
}

/// One half of a joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Half {
    /// Half `a`.
    A,
    /// Half `b`.
    B,
}

impl Half {
    /// Both halves.
    pub const BOTH: [Self; 2] = [Self::A, Self::B];

    /// `a` or `b`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::A => "a",
            Self::B => "b",
        }
    }
}

/// A joint whose halves are at hand.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint {
    /// The file as read.
    pub file: JointFile,
    /// The seal of half `a`.
    pub a: Seal,
    /// The seal of half `b`.
    pub b: Seal,
}

impl Joint {
    /// The seal of a half.
    #[must_use]
    pub fn seal(&self, half: Half) -> &Seal {
        match half {
            Half::A => &self.a,
            Half::B => &self.b,
        }
    }
}

impl HalvesFile {
    /// The file's entry for a half.
    #[must_use]
    pub fn half(&self, half: Half) -> &HalfFile {
        match half {
            Half::A => &self.a,
            Half::B => &self.b,
        }
    }
}

/// The joint with both seals at hand; a half that names a file is resolved by the caller, so that
/// nothing here reads files. A half with neither file nor seal, which [`read`](super::read)
/// refuses, is asked for as the empty path.
///
/// # Errors
/// The first that `resolve` returns.
pub fn assemble<E>(
    file: JointFile,
    mut resolve: impl FnMut(&str, Half) -> Result<Seal, E>,
) -> Result<Joint, E> {
    let mut seal_of = |half: Half| {
        let entry = file.half.half(half);
        match &entry.seal {
            Some(seal) => Ok(Seal::clone(seal)),
            None => resolve(entry.seal_file.as_deref().unwrap_or_default(), half),
        }
    };
    let (a, b) = (seal_of(Half::A)?, seal_of(Half::B)?);
    Ok(Joint { file, a, b })
}

/// The gap limits that hold for a joint, and where they come from.
#[derive(Debug, Clone, PartialEq)]
pub struct GapLimits {
    /// The largest of the lower limits.
    pub min: Option<Length>,
    /// The smallest of the upper limits.
    pub max: Option<Length>,
    /// What each statement says, with its origin.
    pub stated: Vec<String>,
}

impl Joint {
    /// What the limits of both seals and of the joint itself leave together; `min` may be above
    /// `max` where they contradict each other.
    #[must_use]
    pub fn gap_limits(&self) -> GapLimits {
        let seals = Half::BOTH.map(|half| {
            (say!("definition-half", half = half.name()), self.seal(half).limits.seal_gap.as_ref())
        });
        let own = (say!("definition-joint").to_owned(), self.file.gap.limits.as_ref());
        let mut together = GapLimits { min: None, max: None, stated: Vec::new() };
        for (who, limit) in seals.into_iter().chain([own]) {
            let Some(limit) = limit else { continue };
            let value = |given: &Option<Given<Length>>| given.as_ref().map(Given::value);
            let tighter =
                |a: Option<Length>, b: Option<Length>, pick: fn(Length, Length) -> Length| {
                    a.zip(b).map(|(a, b)| pick(a, b)).or(a).or(b)
                };
            together.min =
                tighter(together.min, value(&limit.min), |a, b| if a > b { a } else { b });
            together.max =
                tighter(together.max, value(&limit.max), |a, b| if a < b { a } else { b });
            together.stated.push(format!("{who}: {}", limit.words()));
        }
        together
    }

    /// The probabilities at which verdicts on the whole joint are drawn: the stricter of its
    /// halves'.
    #[must_use]
    pub fn levels(&self) -> Levels {
        let (a, b) = (self.a.levels(), self.b.levels());
        let accept = a.accept().max(b.accept());
        let reject = a.reject().min(b.reject());
        Levels::new(accept, reject).unwrap_or(Levels::DEFAULT)
    }
}

impl ChainLink {
    /// Upper and lower deviation, whichever way the tolerance is written; both zero where none is,
    /// which [`read`](super::read) refuses.
    ///
    /// # Errors
    /// [`ClassError`] when the class is not in the table for this size.
    pub fn deviations(&self) -> Result<(Length, Length), ClassError> {
        let value = |given: &Option<Given<Length>>| given.as_ref().map(Given::value);
        if let Some(class) = &self.class {
            return iso286::deviations(class, self.nominal.value());
        }
        if let Some(tolerance) = value(&self.plus_minus) {
            return Ok((tolerance, -tolerance));
        }
        Ok((value(&self.upper).unwrap_or_default(), value(&self.lower).unwrap_or_default()))
    }
}
