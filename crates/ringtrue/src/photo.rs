//! Photos and other files that are kept with a job.

use ringtrue_job::digest::Digest;
use ringtrue_job::event::Photo;
use ringtrue_words::say;

use crate::problem::Problem;

/// Largest photo that is kept: beyond what a camera makes of a joint.
const LARGEST: usize = 64 << 20;

/// A file as events name it; its content joins those that are kept with the job.
pub(crate) fn photo(
    name: &str,
    content: Vec<u8>,
    kept: &mut Vec<Vec<u8>>,
) -> Result<Photo, Problem> {
    if content.len() > LARGEST {
        let what = say!("job-photo-too-large", file = name, most = LARGEST >> 20);
        return Err(Problem::input(what, say!("job-photo-too-large-next")));
    }
    let photo = Photo {
        name: name.to_owned(),
        media_type: media_type(&content).to_owned(),
        content: Digest::of(&content),
        length: content.len() as u64,
    };
    kept.push(content);
    Ok(photo)
}

/// What a file is, by its first bytes.
pub(crate) fn media_type(content: &[u8]) -> &'static str {
    match content {
        [0xff, 0xd8, 0xff, ..] => "image/jpeg",
        [0x89, b'P', b'N', b'G', ..] => "image/png",
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => "image/webp",
        [b'%', b'P', b'D', b'F', ..] => "application/pdf",
        _ => "application/octet-stream",
    }
}
