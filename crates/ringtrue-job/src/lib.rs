//! From a joint's definition and a fitter's readings to judged assessments.
//!
//! No I/O: texts come in, values go out. Data flows one way: definition and readings become the
//! `Input` of a room of [`ringtrue_seal`], its `Outcome` becomes an [`Assessment`], and page, PDF
//! and JSON are views of that one value.
//!
//! A [`record`] is the log of a job's events, chained and signed; time, ids, salts and keys are
//! arguments too.

pub mod check;
pub mod digest;
pub mod drawn;
pub mod event;
pub mod evidence;
pub mod job;
mod judge;
pub mod person;
pub mod plausible;
pub mod procedure;
mod question;
pub mod reading;
pub mod record;

pub use judge::{Answer, Assessment, Curves, Evidence, SolveAnew, judge, judge_load, judge_with};
pub use question::Question;
