//! Fixed-length byte strings of a record: content hashes, public keys and signatures.
//!
//! In text they are lower-case hexadecimal; in an event's canonical bytes they are the bytes
//! themselves.

use std::fmt;

use serde::de::{self, Deserialize, Deserializer};
use serde::ser::{Serialize, Serializer};

macro_rules! fixed_bytes {
    ($(#[$doc:meta])* $name:ident, $length:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub [u8; $length]);

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{self}")
            }
        }

        impl $name {
            /// The value whose lower-case hexadecimal text this is.
            #[must_use]
            pub fn from_hex(text: &str) -> Option<Self> {
                bytes_of(text).map(Self)
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                if serializer.is_human_readable() {
                    serializer.collect_str(self)
                } else {
                    serialize_bytes(&self.0, serializer)
                }
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                if deserializer.is_human_readable() {
                    let text = std::borrow::Cow::<str>::deserialize(deserializer)?;
                    Self::from_hex(&text).ok_or_else(|| {
                        de::Error::custom(concat!(
                            "lower-case hexadecimal of ",
                            stringify!($length),
                            " bytes is wanted"
                        ))
                    })
                } else {
                    deserializer.deserialize_tuple($length, Fixed::<$length>).map(Self)
                }
            }
        }
    };
}

fixed_bytes!(
    /// A BLAKE3 hash, 32 bytes.
    Digest,
    32
);
fixed_bytes!(
    /// The public half of an Ed25519 key (RFC 8032), 32 bytes.
    PublicKey,
    32
);
fixed_bytes!(
    /// An Ed25519 signature (RFC 8032), 64 bytes.
    SignatureBytes,
    64
);

impl Digest {
    /// What stands before the first event of a job.
    pub const NONE: Self = Self([0; 32]);

    /// The hash of a content.
    #[must_use]
    pub fn of(content: &[u8]) -> Self {
        Self(*blake3::hash(content).as_bytes())
    }
}

impl PublicKey {
    /// The first eight bytes, in groups of four digits: enough to tell keys apart by eye.
    #[must_use]
    pub fn fingerprint(&self) -> String {
        let text: Vec<String> =
            self.0[..8].chunks(2).map(|pair| format!("{:02x}{:02x}", pair[0], pair[1])).collect();
        text.join(" ")
    }
}

fn bytes_of<const N: usize>(text: &str) -> Option<[u8; N]> {
    let digits = text.as_bytes();
    if digits.len() != 2 * N {
        return None;
    }
    let mut bytes = [0; N];
    for (byte, pair) in bytes.iter_mut().zip(digits.chunks(2)) {
        *byte = digit(pair[0])? << 4 | digit(pair[1])?;
    }
    Some(bytes)
}

/// Capitals are refused, so that one value has one text.
fn digit(letter: u8) -> Option<u8> {
    match letter {
        b'0'..=b'9' => Some(letter - b'0'),
        b'a'..=b'f' => Some(letter - b'a' + 10),
        _ => None,
    }
}

fn serialize_bytes<const N: usize, S: Serializer>(
    bytes: &[u8; N],
    serializer: S,
) -> Result<S::Ok, S::Error> {
    use serde::ser::SerializeTuple;
    let mut tuple = serializer.serialize_tuple(N)?;
    bytes.iter().try_for_each(|byte| tuple.serialize_element(byte))?;
    tuple.end()
}

struct Fixed<const N: usize>;

impl<'de, const N: usize> de::Visitor<'de> for Fixed<N> {
    type Value = [u8; N];

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{N} bytes")
    }

    fn visit_seq<A: de::SeqAccess<'de>>(self, mut seq: A) -> Result<[u8; N], A::Error> {
        let mut bytes = [0; N];
        for (index, byte) in bytes.iter_mut().enumerate() {
            *byte = seq.next_element()?.ok_or_else(|| de::Error::invalid_length(index, &self))?;
        }
        Ok(bytes)
    }
}
