//! The clock and the random numbers of this machine: what nothing below the doors has.

use jiff::Timestamp;
use zeroize::Zeroizing;

use crate::problem::Problem;

/// Now, to the millisecond: what a person can mean.
pub(crate) fn now() -> Timestamp {
    let now = Timestamp::now();
    Timestamp::from_millisecond(now.as_millisecond()).unwrap_or(now)
}

/// The day of a moment, UTC.
pub(crate) fn day(at: Timestamp) -> String {
    at.strftime("%Y-%m-%d").to_string()
}

/// A moment as people read it, UTC.
pub(crate) fn moment(at: Timestamp) -> String {
    at.strftime("%Y-%m-%d %H:%M:%S UTC").to_string()
}

/// Random bytes of the machine.
pub(crate) fn random<const N: usize>() -> Result<Zeroizing<[u8; N]>, Problem> {
    let mut bytes = Zeroizing::new([0; N]);
    getrandom::fill(bytes.as_mut_slice()).map_err(|error| {
        Problem::not_completed(
            format!("this machine gives no random numbers ({error})"),
            "nothing was written; try again",
        )
    })?;
    Ok(bytes)
}
