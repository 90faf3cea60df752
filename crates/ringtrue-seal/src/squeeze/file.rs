//! The problem's file, `ringtrue/squeeze/1`.

use std::borrow::Cow;
use std::fmt;

use ringtrue_fem::material::{
    Material, MooneyRivlin, NeoHooke, Ogden, OgdenTerm, SaintVenantKirchhoff, Yeoh,
};
use ringtrue_fem::{Axis, Extent, Friction, Problem, Section, Shape, Symmetry, Wall};
use ringtrue_metrology::units::{Given, Length, Pressure, Quantity};
use ringtrue_words::say;
use schemars::JsonSchema;
use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::{Deserialize as DeriveDeserialize, Serialize};

use crate::definition::Number;

/// A section, its material and its walls, as written.
#[derive(Debug, Clone, PartialEq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SqueezeFile {
    /// `ringtrue/squeeze/1`.
    pub schema: String,
    /// A ring, or a bar without end.
    pub symmetry: SymmetryWord,
    /// Results are given at this many even steps of the motion.
    pub steps: u32,
    /// Directions along which the section's mean displacement is kept zero.
    #[serde(default)]
    pub hold: Vec<AxisWord>,
    /// The undeformed section; its centroid starts at (mean radius, 0), in plane strain at (0, 0).
    pub section: SectionFile,
    /// What it is made of.
    pub material: MaterialFile,
    /// Friction on every wall that says nothing of its own.
    pub friction: FrictionFile,
    /// The rigid walls.
    pub wall: Vec<WallFile>,
}

/// What the section's plane stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SymmetryWord {
    /// A ring about the z axis.
    Axisymmetric,
    /// A bar that can't stretch along itself; forces are per mm of length.
    PlaneStrain,
}

/// A direction in the section's plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum AxisWord {
    /// Away from the axis.
    R,
    /// Along the axis.
    Z,
}

/// The undeformed section.
#[derive(Debug, Clone, PartialEq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SectionFile {
    /// `round` with a diameter, or `polygon` with corners.
    pub shape: ShapeWord,
    /// Diameter of a round section.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub diameter: Option<Given<Length>>,
    /// Corners of a polygon from its centroid as (r, z), counter-clockwise.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub corners: Vec<[Given<Length>; 2]>,
    /// Radius of a polygon's corners; sharp where it is left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner_radius: Option<Given<Length>>,
    /// Radius of the undeformed centroid; left out in plane strain.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mean_radius: Option<Given<Length>>,
}

/// Shapes of a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ShapeWord {
    /// A circle.
    Round,
    /// A polygon with rounded corners.
    Polygon,
}

/// A law and its constants; rubber laws act on the isochoric invariants and add
/// `bulk/2 (J - 1)^2`.
#[derive(Debug, Clone, PartialEq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MaterialFile {
    /// Which law.
    pub law: LawWord,
    /// Neo-Hooke: shear modulus.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mu: Option<Given<Pressure>>,
    /// Mooney-Rivlin, Yeoh.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub c10: Option<Given<Pressure>>,
    /// Mooney-Rivlin.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub c01: Option<Given<Pressure>>,
    /// Yeoh.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub c20: Option<Given<Pressure>>,
    /// Yeoh.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub c30: Option<Given<Pressure>>,
    /// Ogden: W = sum mu/alpha (l1^alpha + l2^alpha + l3^alpha - 3).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub terms: Vec<TermFile>,
    /// Saint Venant-Kirchhoff: Young's modulus.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub young: Option<Given<Pressure>>,
    /// Saint Venant-Kirchhoff: Poisson's ratio.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub poisson: Option<Number>,
    /// Bulk modulus of a rubber law.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bulk: Option<Given<Pressure>>,
}

/// The laws by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LawWord {
    /// `mu`, `bulk`.
    NeoHooke,
    /// `c10`, `c01`, `bulk`.
    MooneyRivlin,
    /// `c10`, `c20`, `c30`, `bulk`.
    Yeoh,
    /// `terms`, `bulk`.
    Ogden,
    /// `young`, `poisson`.
    SaintVenantKirchhoff,
}

/// One term of Ogden's sum.
#[derive(Debug, Clone, PartialEq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TermFile {
    /// Modulus.
    pub mu: Given<Pressure>,
    /// Power.
    pub alpha: Number,
}

/// Friction on every wall.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FrictionFile {
    /// Coulomb's coefficient, 0 for none, or `no-slip`.
    pub coefficient: Coefficient,
}

/// A rigid wall.
#[derive(Debug, Clone, PartialEq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WallFile {
    /// Name in the results.
    pub name: String,
    /// Points (r, z), walked with the rubber on the left (r to the right, z up).
    pub profile: Vec<[Given<Length>; 2]>,
    /// Radii at the inner points; sharp where they are left out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fillets: Vec<Given<Length>>,
    /// Do the first and last segments go on for ever?
    #[serde(default)]
    pub unbounded: bool,
    /// How far it moves over all steps together; it stands still where this is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub motion: Option<MotionFile>,
    /// Friction on this wall, where it is not the problem's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub friction: Option<FrictionFile>,
}

/// A motion.
#[derive(Debug, Clone, PartialEq, Serialize, DeriveDeserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MotionFile {
    /// Along r.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub r: Option<Given<Length>>,
    /// Along z.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub z: Option<Given<Length>>,
}

/// Coulomb's coefficient, or no slip at all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Coefficient {
    /// Points stick where they first touch.
    NoSlip,
    /// Coulomb's coefficient; 0 is frictionless.
    Coulomb(f64),
}

impl SqueezeFile {
    /// The problem in the kernel's units.
    #[must_use]
    pub fn problem(&self) -> Problem {
        let axis = |word: &AxisWord| match word {
            AxisWord::R => Axis::R,
            AxisWord::Z => Axis::Z,
        };
        Problem {
            symmetry: match self.symmetry {
                SymmetryWord::Axisymmetric => Symmetry::Axisymmetric,
                SymmetryWord::PlaneStrain => Symmetry::PlaneStrain,
            },
            steps: self.steps as usize,
            hold: self.hold.iter().map(axis).collect(),
            section: Section {
                shape: self.section.shape(),
                mean_radius: self.section.mean_radius.as_ref().map(mm),
            },
            prestretch: None,
            material: self.material.law(),
            friction: self.friction.law(),
            walls: self.wall.iter().map(WallFile::wall).collect(),
        }
    }
}

impl SectionFile {
    fn shape(&self) -> Shape {
        match self.shape {
            ShapeWord::Round => Shape::Round { diameter: self.diameter.as_ref().map_or(0.0, mm) },
            ShapeWord::Polygon => Shape::Polygon {
                corners: self.corners.iter().map(point).collect(),
                corner_radius: self.corner_radius.as_ref().map_or(0.0, mm),
            },
        }
    }
}

impl MaterialFile {
    /// The keys that its law needs, and whether each is there.
    pub(super) fn keys(&self) -> Vec<(&'static str, bool)> {
        let bulk = ("bulk", self.bulk.is_some());
        match self.law {
            LawWord::NeoHooke => vec![("mu", self.mu.is_some()), bulk],
            LawWord::MooneyRivlin => {
                vec![("c10", self.c10.is_some()), ("c01", self.c01.is_some()), bulk]
            }
            LawWord::Yeoh => vec![
                ("c10", self.c10.is_some()),
                ("c20", self.c20.is_some()),
                ("c30", self.c30.is_some()),
                bulk,
            ],
            LawWord::Ogden => vec![("terms", !self.terms.is_empty()), bulk],
            LawWord::SaintVenantKirchhoff => {
                vec![("young", self.young.is_some()), ("poisson", self.poisson.is_some())]
            }
        }
    }

    /// The keys that are there.
    pub(super) fn given(&self) -> Vec<&'static str> {
        [
            ("mu", self.mu.is_some()),
            ("c10", self.c10.is_some()),
            ("c01", self.c01.is_some()),
            ("c20", self.c20.is_some()),
            ("c30", self.c30.is_some()),
            ("terms", !self.terms.is_empty()),
            ("young", self.young.is_some()),
            ("poisson", self.poisson.is_some()),
            ("bulk", self.bulk.is_some()),
        ]
        .into_iter()
        .filter_map(|(key, given)| given.then_some(key))
        .collect()
    }

    /// A key that is missing, which reading the file refuses, counts as zero, which the solver
    /// refuses.
    fn law(&self) -> Material {
        let of = |given: &Option<Given<Pressure>>| given.as_ref().map_or(0.0, mpa);
        let bulk = of(&self.bulk);
        match self.law {
            LawWord::NeoHooke => Material::NeoHooke(NeoHooke { mu: of(&self.mu), bulk }),
            LawWord::MooneyRivlin => Material::MooneyRivlin(MooneyRivlin {
                c10: of(&self.c10),
                c01: of(&self.c01),
                bulk,
            }),
            LawWord::Yeoh => Material::Yeoh(Yeoh {
                c10: of(&self.c10),
                c20: of(&self.c20),
                c30: of(&self.c30),
                bulk,
            }),
            LawWord::Ogden => Material::Ogden(Ogden {
                terms: self
                    .terms
                    .iter()
                    .map(|term| OgdenTerm { mu: mpa(&term.mu), alpha: term.alpha.0 })
                    .collect(),
                bulk,
            }),
            LawWord::SaintVenantKirchhoff => Material::SaintVenantKirchhoff(SaintVenantKirchhoff {
                young: of(&self.young),
                poisson: self.poisson.map_or(0.0, |number| number.0),
            }),
        }
    }
}

impl FrictionFile {
    fn law(self) -> Friction {
        match self.coefficient {
            Coefficient::NoSlip => Friction::NoSlip,
            Coefficient::Coulomb(mu) => Friction::Coulomb(mu),
        }
    }
}

impl WallFile {
    fn wall(&self) -> Wall {
        let motion = self.motion.as_ref().map(|motion| {
            let along = |given: &Option<Given<Length>>| given.as_ref().map_or(0.0, mm);
            [along(&motion.r), along(&motion.z)]
        });
        Wall {
            name: self.name.clone(),
            profile: self.profile.iter().map(point).collect(),
            fillets: self.fillets.iter().map(mm).collect(),
            extent: if self.unbounded { Extent::Unbounded } else { Extent::Bounded },
            path: motion.into_iter().collect(),
            friction: self.friction.map(FrictionFile::law),
        }
    }
}

fn mm(given: &Given<Length>) -> f64 {
    given.value().si() * 1e3
}

fn mpa(given: &Given<Pressure>) -> f64 {
    given.value().si() / 1e6
}

fn point([r, z]: &[Given<Length>; 2]) -> [f64; 2] {
    [mm(r), mm(z)]
}

impl<'de> Deserialize<'de> for Coefficient {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Word;

        impl Visitor<'_> for Word {
            type Value = Coefficient;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(say!("squeeze-friction-wanted"))
            }

            fn visit_f64<E: de::Error>(self, value: f64) -> Result<Coefficient, E> {
                if value.is_finite() && value >= 0.0 {
                    return Ok(Coefficient::Coulomb(value));
                }
                Err(E::invalid_value(de::Unexpected::Float(value), &self))
            }

            fn visit_i64<E: de::Error>(self, value: i64) -> Result<Coefficient, E> {
                self.visit_f64(value as f64)
            }

            fn visit_str<E: de::Error>(self, text: &str) -> Result<Coefficient, E> {
                match text {
                    "no-slip" => Ok(Coefficient::NoSlip),
                    other => Err(E::invalid_value(de::Unexpected::Str(other), &self)),
                }
            }
        }

        deserializer.deserialize_any(Word)
    }
}

impl Serialize for Coefficient {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::NoSlip => serializer.serialize_str("no-slip"),
            Self::Coulomb(mu) => serializer.serialize_f64(*mu),
        }
    }
}

impl JsonSchema for Coefficient {
    fn schema_name() -> Cow<'static, str> {
        "friction_coefficient".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "oneOf": [{ "const": "no-slip" }, { "type": "number", "minimum": 0 }],
        })
    }
}
