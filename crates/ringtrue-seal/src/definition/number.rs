//! A number without a unit.

use std::fmt;

use ringtrue_words::say;
use schemars::JsonSchema;
use serde::Serialize;
use serde::de::{self, Deserialize, Deserializer, Visitor};

/// A plain number; whole ones may be written without a point.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(transparent)]
pub struct Number(pub f64);

impl<'de> Deserialize<'de> for Number {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Plain;

        impl Visitor<'_> for Plain {
            type Value = Number;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(say!("definition-plain-number-wanted"))
            }

            fn visit_f64<E: de::Error>(self, value: f64) -> Result<Number, E> {
                if value.is_finite() {
                    return Ok(Number(value));
                }
                Err(E::invalid_value(de::Unexpected::Float(value), &self))
            }

            fn visit_i64<E: de::Error>(self, value: i64) -> Result<Number, E> {
                self.visit_f64(value as f64)
            }
        }

        deserializer.deserialize_any(Plain)
    }
}
