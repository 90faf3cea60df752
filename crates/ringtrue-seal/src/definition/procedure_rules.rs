//! What a procedure's steps must keep among themselves.

use super::misfit::some_text;
use super::procedure::Procedure;
use super::{Definition, Kind, Misfit};

impl Definition for Procedure {
    const KIND: Kind = Kind::Procedure;

    fn consistent(&self) -> Result<(), Misfit> {
        some_text("name", &self.name)?;
        some_text("version", &self.version)?;
        some_text("origin", &self.origin)
    }
}
