//! From a joint's definition and a fitter's readings to judged assessments.
//!
//! No I/O: texts come in, values go out. Data flows one way: definition and readings become the
//! `Input` of a room of [`ringtrue_seal`], its `Outcome` becomes an [`Assessment`], and page, PDF
//! and JSON are views of that one value.

pub mod evidence;
mod judge;
mod question;
pub mod reading;

pub use judge::{Answer, Assessment, Evidence, judge};
pub use question::Question;
