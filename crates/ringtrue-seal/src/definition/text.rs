//! From the text of a file to a definition, with line and column where it does not fit.

/// A text that can't be read: where, what was found, what would fit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct TextError {
    /// Line, from 1, where there is one.
    pub line: Option<usize>,
    /// Column in characters, from 1, where there is one.
    pub column: Option<usize>,
    /// What was found.
    pub found: String,
    /// What would fit.
    pub fits: String,
}

impl std::fmt::Display for TextError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match (self.line, self.column) {
            (Some(line), Some(column)) => write!(f, "line {line}, column {column}: ")?,
            (Some(line), None) => write!(f, "line {line}: ")?,
            (None, _) => {}
        }
        write!(f, "{}; {}", self.found, self.fits)
    }
}
