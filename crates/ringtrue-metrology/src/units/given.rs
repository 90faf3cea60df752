//! A quantity together with the text it was typed as.

use std::borrow::Cow;
use std::fmt;

use ringtrue_words::say;
use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::{Serialize, Serializer};

use super::{Quantity, parse};

/// A quantity as it was typed: files and records keep both the text and the SI value.
///
/// In a file it is a string with its unit; a bare number is an error that names the unit to add.
#[derive(Debug, Clone, PartialEq)]
pub struct Given<Q> {
    text: String,
    value: Q,
}

impl<Q: Quantity> Given<Q> {
    /// Reads what was typed.
    ///
    /// # Errors
    /// See [`parse`].
    pub fn new(text: &str) -> Result<Self, super::UnitError> {
        Ok(Self { text: text.trim().to_owned(), value: parse(text)? })
    }

    /// The quantity.
    #[must_use]
    pub fn value(&self) -> Q {
        self.value
    }

    /// The text as typed.
    #[must_use]
    pub fn typed(&self) -> &str {
        &self.text
    }
}

impl<Q> fmt::Display for Given<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl<Q> Serialize for Given<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de, Q: Quantity> Deserialize<'de> for Given<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Typed<Q>(std::marker::PhantomData<Q>);

        impl<Q: Quantity> Visitor<'_> for Typed<Q> {
            type Value = Given<Q>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&say!(
                    "units-with-its-unit",
                    quantity = Q::kind(),
                    example = Q::EXAMPLE
                ))
            }

            fn visit_str<E: de::Error>(self, text: &str) -> Result<Given<Q>, E> {
                Given::new(text).map_err(E::custom)
            }
        }

        deserializer.deserialize_str(Typed(std::marker::PhantomData))
    }
}

impl<Q: Quantity> schemars::JsonSchema for Given<Q> {
    fn schema_name() -> Cow<'static, str> {
        Q::KIND.split_whitespace().skip(1).collect::<Vec<_>>().join("_").into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let units: Vec<_> = Q::UNITS.iter().map(|unit| unit.symbol).collect();
        schemars::json_schema!({
            "type": "string",
            "description": format!("{} with its unit: {}", Q::KIND, units.join(", ")),
            "examples": [Q::EXAMPLE],
            "maxLength": 64,
        })
    }
}
