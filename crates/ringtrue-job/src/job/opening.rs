//! What a job is opened with: everything that its verdicts will rest on, as text.

use ringtrue_seal::agents;
use ringtrue_seal::definition::joint::{Half, Joint};
use ringtrue_seal::definition::material::shipped_text;

use super::plan::{Documents, PlanError, whole_joint};
use crate::digest::Digest;
use crate::event::Opened;

/// The texts that stand behind a job.
#[derive(Debug, Clone)]
pub struct Definitions<'d> {
    /// The joint.
    pub joint: &'d Joint,
    /// Texts of the material files that its seals name, of half a and of half b.
    pub material_files: [Option<String>; 2],
    /// Text of the procedure.
    pub procedure: String,
    /// The program that opens the job.
    pub program_version: &'d str,
}

/// What a job is about, and the texts that are kept with it by their hashes: shipped ones too, so
/// that a later program judges on what this one has judged on.
///
/// # Errors
/// [`PlanError::NotWritten`]
pub fn opening(definitions: Definitions<'_>) -> Result<(Opened, Documents), PlanError> {
    let mut documents = Documents::new();
    let mut keep = |text: String| {
        let digest = Digest::of(text.as_bytes());
        documents.insert(digest, text);
        digest
    };
    let joint = definitions.joint;
    let [file_a, file_b] = definitions.material_files;
    let material = |half: Half, file: Option<String>| {
        let name = joint.seal(half).load_ring.material();
        file.or_else(|| shipped_text(name).map(str::to_owned))
    };
    let opened = Opened {
        title: joint.file.name.clone(),
        joint: keep(whole_joint(joint)?),
        material_a: material(Half::A, file_a).map(&mut keep),
        material_b: material(Half::B, file_b).map(&mut keep),
        procedure: keep(definitions.procedure),
        agents: Some(keep(agents::SHIPPED.to_owned())),
        program_version: definitions.program_version.to_owned(),
    };
    Ok((opened, documents))
}
