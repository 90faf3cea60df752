//! What every room shares: how it says that its input can't be judged.

/// Why a room gives no outcome. Nothing was judged.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RoomError {
    /// The input can't be what a person measured or drew.
    #[error("{found}; {fits}")]
    Input {
        /// What was found.
        found: String,
        /// What would fit.
        fits: String,
    },
}

impl RoomError {
    /// An input that does not fit.
    pub(crate) fn input(found: impl Into<String>, fits: impl Into<String>) -> Self {
        Self::Input { found: found.into(), fits: fits.into() }
    }
}
