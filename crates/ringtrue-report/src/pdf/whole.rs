//! A PDF that tells whether it is as it was written: a comment before its last lines holds the hash
//! of all the rest, so that a change of any byte is found, in the pages as in what is attached.

use super::ReportError;

/// Opens the comment; what follows is 64 hexadecimal digits and a line end.
const MARK: &[u8] = b"%ringtrue-blake3 ";
/// The comment stands before these, where it moves no object.
const BEFORE: &[u8] = b"startxref";

/// Why a PDF is not as it was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum FileChanged {
    /// There is no mark.
    #[error(
        "the PDF carries no mark of ringtrue: it was changed, or saved again by another program"
    )]
    NoMark,
    /// The mark is there, and the rest is not what it was made for.
    #[error("the PDF was changed after it was written")]
    Changed,
}

/// Puts the mark in.
pub(super) fn marked(pdf: Vec<u8>) -> Result<Vec<u8>, ReportError> {
    let at = rfind(&pdf, BEFORE)
        .ok_or_else(|| ReportError::Setting("the PDF has no table of contents".to_owned()))?;
    let hash = blake3::hash(&pdf).to_hex();
    let mut out = Vec::with_capacity(pdf.len() + MARK.len() + hash.len() + 1);
    out.extend_from_slice(&pdf[..at]);
    out.extend_from_slice(MARK);
    out.extend_from_slice(hash.as_bytes());
    out.push(b'\n');
    out.extend_from_slice(&pdf[at..]);
    Ok(out)
}

/// Is a PDF, as [`super::pdf`] makes one with files attached, as it was written?
///
/// # Errors
/// [`FileChanged`]
pub fn file_is_whole(pdf: &[u8]) -> Result<(), FileChanged> {
    let at = rfind(pdf, MARK).ok_or(FileChanged::NoMark)?;
    let rest = &pdf[at + MARK.len()..];
    let (hash, rest) = rest.split_at_checked(65).ok_or(FileChanged::NoMark)?;
    if !rest.starts_with(BEFORE) {
        return Err(FileChanged::NoMark);
    }
    let now = blake3::Hasher::new().update(&pdf[..at]).update(rest).finalize().to_hex();
    let same = hash[..64] == *now.as_bytes() && hash[64] == b'\n';
    if same { Ok(()) } else { Err(FileChanged::Changed) }
}

fn rfind(bytes: &[u8], wanted: &[u8]) -> Option<usize> {
    bytes.windows(wanted.len()).rposition(|window| window == wanted)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_of_any_byte_is_found() {
        let pdf = b"%PDF-1.7\n1 0 obj<<>>endobj\ntrailer<<>>\nstartxref\n27\n%%EOF".to_vec();
        assert_eq!(file_is_whole(&pdf), Err(FileChanged::NoMark));
        let marked = marked(pdf).unwrap();
        assert_eq!(file_is_whole(&marked), Ok(()));
        for at in 0..marked.len() {
            for bit in 0..8 {
                let mut changed = marked.clone();
                changed[at] ^= 1 << bit;
                assert!(file_is_whole(&changed).is_err(), "byte {at}, bit {bit}");
            }
            assert!(file_is_whole(&marked[..at]).is_err(), "cut at {at}");
        }
        let mut longer = marked;
        longer.push(b'\n');
        assert_eq!(file_is_whole(&longer), Err(FileChanged::Changed));
    }
}
