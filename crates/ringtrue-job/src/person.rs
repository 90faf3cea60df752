//! People, and the keys that they sign with.
//!
//! A person's Ed25519 key (RFC 8032) is kept locked: argon2id (RFC 9106) makes a key from the
//! passphrase and a salt, and XChaCha20-Poly1305 locks the signing key under it, bound to name,
//! role
//! and public key. Nothing here draws random numbers: secrets, salts and nonces are arguments.

use argon2::{Algorithm, Argon2, Params, Version};
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{XChaCha20Poly1305, XNonce};
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};
use jiff::Timestamp;
use ringtrue_words::say;
use serde::{Deserialize, Serialize};
use zeroize::Zeroizing;

use crate::digest::{PublicKey, SignatureBytes};

/// What a person may do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Does the work: records, corrects, signs.
    Fitter,
    /// Looks over the work: the same, and second person.
    Checker,
    /// Decides where a gate holds: the same, and overrides.
    Engineer,
    /// Keeps the store: people and checkpoints.
    Keeper,
}

impl Role {
    /// All roles.
    pub const ALL: [Self; 4] = [Self::Fitter, Self::Checker, Self::Engineer, Self::Keeper];

    /// The role's name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Fitter => "fitter",
            Self::Checker => "checker",
            Self::Engineer => "engineer",
            Self::Keeper => "keeper",
        }
    }

    /// The role with this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.name() == name)
    }

    /// May this role record, correct and sign?
    #[must_use]
    pub fn works(self) -> bool {
        match self {
            Self::Fitter | Self::Checker | Self::Engineer => true,
            Self::Keeper => false,
        }
    }

    /// May this role override a gate?
    #[must_use]
    pub fn overrides(self) -> bool {
        match self {
            Self::Engineer => true,
            Self::Fitter | Self::Checker | Self::Keeper => false,
        }
    }
}

/// A person of the shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// Name, as it stands in records.
    pub name: String,
    /// What the person may do.
    pub role: Role,
    /// What signatures are checked with.
    pub key: PublicKey,
    /// The signing key, locked; not there where only the public half is known.
    pub sealed: Option<SealedKey>,
    /// When the person was added.
    pub added: Timestamp,
    /// Since when the person records nothing more.
    pub retired: Option<Timestamp>,
}

/// A signing key locked under a passphrase.
#[derive(Clone, PartialEq, Eq)]
pub struct SealedKey {
    /// Salt of argon2id.
    pub salt: [u8; 16],
    /// Nonce of XChaCha20-Poly1305.
    pub nonce: [u8; 24],
    /// The locked key and its tag.
    pub locked: Vec<u8>,
    /// What argon2id costs.
    pub cost: Cost,
}

impl std::fmt::Debug for SealedKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("SealedKey")
    }
}

/// What argon2id costs to run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cost {
    /// Memory in KiB.
    pub memory_kib: u32,
    /// Passes over it.
    pub passes: u32,
    /// Lanes.
    pub lanes: u32,
}

impl Cost {
    /// The second recommended option of RFC 9106, section 4: 64 MiB, 3 passes, 4 lanes.
    pub const RFC_9106: Self = Self { memory_kib: 64 * 1024, passes: 3, lanes: 4 };
    /// Most that is run: a damaged store may ask for anything.
    const MOST: Self = Self { memory_kib: 1024 * 1024, passes: 64, lanes: 64 };
}

/// Random bytes that locking a key needs.
#[derive(Clone)]
pub struct Drawn {
    /// The signing key itself.
    pub secret: Zeroizing<[u8; 32]>,
    /// Salt of argon2id.
    pub salt: [u8; 16],
    /// Nonce of XChaCha20-Poly1305.
    pub nonce: [u8; 24],
}

/// Why a person's key can't be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PersonError {
    /// The name can't stand in a record.
    #[error("{}", say!("refusal-person-name", name = .0))]
    Name(String),
    /// The passphrase is too short to protect anything.
    #[error("{}", say!("refusal-person-short-passphrase", characters = .0))]
    ShortPassphrase(usize),
    /// The passphrase is not this person's, or what is stored was changed.
    #[error("{}", say!("refusal-person-passphrase", name = .0))]
    Passphrase(String),
    /// Only the public half is here.
    #[error("{}", say!("refusal-person-no-key", name = .0))]
    NoKey(String),
    /// The stored cost can't be run.
    #[error("{}", say!("refusal-person-damaged", name = .0))]
    Damaged(String),
}

/// Fewest characters of a passphrase (common practice, no source).
pub const SHORTEST_PASSPHRASE: usize = 8;
/// Longest name.
pub const LONGEST_NAME: usize = 80;

/// Characters that nobody sees: two names that differ by them alone look the same (the zero-width
/// and direction marks of Unicode, from memory).
fn is_unseen(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// A new person with a key locked under a passphrase.
///
/// # Errors
/// [`PersonError::Name`] and [`PersonError::ShortPassphrase`].
pub fn enrol(
    (name, role): (&str, Role),
    passphrase: &str,
    drawn: &Drawn,
    (cost, added): (Cost, Timestamp),
) -> Result<Person, PersonError> {
    let name = name.trim();
    let readable = !name.is_empty()
        && name.chars().count() <= LONGEST_NAME
        && !name.chars().any(|c| c.is_control() || is_unseen(c));
    if !readable {
        return Err(PersonError::Name(name.chars().take(LONGEST_NAME).collect()));
    }
    let length = passphrase.chars().count();
    if length < SHORTEST_PASSPHRASE {
        return Err(PersonError::ShortPassphrase(length));
    }
    let signing = SigningKey::from_bytes(&drawn.secret);
    let key = PublicKey(signing.verifying_key().to_bytes());
    let damaged = || PersonError::Damaged(name.to_owned());
    let cipher = cipher(passphrase, &drawn.salt, cost).ok_or_else(damaged)?;
    let bound = bound_to(name, role, &key);
    let payload = Payload { msg: drawn.secret.as_slice(), aad: &bound };
    let locked = cipher.encrypt(&XNonce::from(drawn.nonce), payload).map_err(|_| damaged())?;
    let sealed = SealedKey { salt: drawn.salt, nonce: drawn.nonce, locked, cost };
    Ok(Person { name: name.to_owned(), role, key, sealed: Some(sealed), added, retired: None })
}

/// A person whose passphrase was right: what may write events and sign.
pub struct Unlocked {
    author: crate::event::Author,
    signing: SigningKey,
}

impl std::fmt::Debug for Unlocked {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Unlocked").field("author", &self.author).finish_non_exhaustive()
    }
}

/// Opens a person's key.
///
/// # Errors
/// [`PersonError::Passphrase`] when it does not open, [`PersonError::NoKey`] when only the public
/// half is there, [`PersonError::Damaged`] when the entry can't be used.
pub fn unlock(person: &Person, passphrase: &str) -> Result<Unlocked, PersonError> {
    let named = || person.name.clone();
    let sealed = person.sealed.as_ref().ok_or_else(|| PersonError::NoKey(named()))?;
    let cipher = cipher(passphrase, &sealed.salt, sealed.cost)
        .ok_or_else(|| PersonError::Damaged(named()))?;
    let bound = bound_to(&person.name, person.role, &person.key);
    let payload = Payload { msg: &sealed.locked, aad: &bound };
    let opened = cipher
        .decrypt(&XNonce::from(sealed.nonce), payload)
        .map(Zeroizing::new)
        .map_err(|_| PersonError::Passphrase(named()))?;
    let secret: &[u8; 32] =
        opened.as_slice().try_into().map_err(|_| PersonError::Damaged(named()))?;
    let signing = SigningKey::from_bytes(secret);
    if signing.verifying_key().to_bytes() != person.key.0 {
        return Err(PersonError::Damaged(named()));
    }
    let author =
        crate::event::Author { name: person.name.clone(), role: person.role, key: person.key };
    Ok(Unlocked { author, signing })
}

impl Unlocked {
    /// The person as events name them.
    #[must_use]
    pub fn author(&self) -> &crate::event::Author {
        &self.author
    }

    /// Signs bytes.
    #[must_use]
    pub fn sign(&self, message: &[u8]) -> SignatureBytes {
        SignatureBytes(self.signing.sign(message).to_bytes())
    }
}

/// Is this the key's signature on the message? Strict: keys of small order and encodings that are
/// not the one of RFC 8032 are refused.
#[must_use]
pub fn is_signed(message: &[u8], key: &PublicKey, signature: &SignatureBytes) -> bool {
    VerifyingKey::from_bytes(&key.0).is_ok_and(|verifying| {
        verifying.verify_strict(message, &Signature::from_bytes(&signature.0)).is_ok()
    })
}

fn cipher(passphrase: &str, salt: &[u8; 16], cost: Cost) -> Option<XChaCha20Poly1305> {
    let most = Cost::MOST;
    if cost.memory_kib > most.memory_kib || cost.passes > most.passes || cost.lanes > most.lanes {
        return None;
    }
    let params = Params::new(cost.memory_kib, cost.passes, cost.lanes, Some(32)).ok()?;
    let mut key = Zeroizing::new([0u8; 32]);
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
        .hash_password_into(passphrase.as_bytes(), salt, key.as_mut_slice())
        .ok()?;
    Some(XChaCha20Poly1305::new(key.as_slice().try_into().ok()?))
}

/// Name, role and key, so that a stored key can't be handed to another person.
fn bound_to(name: &str, role: Role, key: &PublicKey) -> Vec<u8> {
    let mut bytes = b"ringtrue key 1\0".to_vec();
    bytes.extend(u32::try_from(name.len()).unwrap_or(u32::MAX).to_le_bytes());
    bytes.extend(name.as_bytes());
    bytes.extend(role.name().as_bytes());
    bytes.push(0);
    bytes.extend(key.0);
    bytes
}

#[cfg(test)]
mod tests {
    use super::*;

    const CHEAP: Cost = Cost { memory_kib: 8, passes: 1, lanes: 1 };

    fn drawn() -> Drawn {
        Drawn { secret: Zeroizing::new([3; 32]), salt: [1; 16], nonce: [2; 24] }
    }

    fn enrolled() -> Person {
        let added = Timestamp::UNIX_EPOCH;
        enrol(("Anna", Role::Fitter), "correct horse", &drawn(), (CHEAP, added)).unwrap()
    }

    #[test]
    fn the_passphrase_opens_the_key_and_another_does_not() {
        let person = enrolled();
        let unlocked = unlock(&person, "correct horse").unwrap();
        let signature = unlocked.sign(b"what stands here");
        assert!(is_signed(b"what stands here", &person.key, &signature));
        assert!(!is_signed(b"what stood here", &person.key, &signature));
        let wrong = unlock(&person, "correct horsf").unwrap_err();
        assert_eq!(wrong, PersonError::Passphrase("Anna".to_owned()));
        assert!(!format!("{person:?} {unlocked:?} {wrong}").contains("horse"));
    }

    #[test]
    fn a_stored_key_is_bound_to_its_person() {
        let opens = |change: &dyn Fn(&mut Person)| {
            let mut person = enrolled();
            change(&mut person);
            unlock(&person, "correct horse").is_ok()
        };
        assert!(opens(&|_| {}));
        assert!(!opens(&|person| person.role = Role::Engineer));
        assert!(!opens(&|person| person.name = "Berta".to_owned()));
        assert!(!opens(&|person| person.key.0[0] ^= 1));
        assert!(!opens(&|person| person.sealed.as_mut().unwrap().locked[0] ^= 1));
        assert!(!opens(&|person| person.sealed.as_mut().unwrap().cost.memory_kib = u32::MAX));
        assert!(!opens(&|person| person.sealed = None));
    }

    #[test]
    fn short_passphrases_and_unreadable_names_are_refused() {
        let refuse = |name: &str, passphrase: &str| {
            enrol((name, Role::Fitter), passphrase, &drawn(), (CHEAP, Timestamp::UNIX_EPOCH))
                .unwrap_err()
        };
        assert_eq!(refuse("Anna", "seven77"), PersonError::ShortPassphrase(7));
        assert!(matches!(refuse(" ", "long enough"), PersonError::Name(_)));
        assert!(matches!(refuse("An\nna", "long enough"), PersonError::Name(_)));
        assert!(matches!(refuse("Anna\u{200b}", "long enough"), PersonError::Name(_)));
    }

    /// RFC 8032, section 7.1, test 2: key, message and signature.
    #[test]
    fn signatures_are_those_of_rfc_8032() {
        let hex = |text: &str| PublicKey::from_hex(text).unwrap().0;
        let secret = hex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb");
        let signing = SigningKey::from_bytes(&secret);
        let key = PublicKey(signing.verifying_key().to_bytes());
        assert_eq!(
            key.to_string(),
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c"
        );
        let signature = SignatureBytes(signing.sign(&[0x72]).to_bytes());
        assert_eq!(
            signature.to_string(),
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da\
             085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"
        );
        assert!(is_signed(&[0x72], &key, &signature));
    }
}
