//! Metal face seals: the definitions people write, and one room per question of the fitter.
//!
//! A room has one door: `Input`, `Outcome`, `SOURCES` and
//! `evaluate(&Input) -> Result<Outcome, RoomError>`. Rooms are pure and do not import each other,
//! but [`closing`] and [`seating`] read the load curve of [`face_load`]. What rooms share stands
//! beside them ([`definition`], [`geometry`], [`rubber`], ...) and knows no room; [`validation`]
//! alone knows all of them. `cargo xtask tidy` holds both.

pub mod agents;
pub mod alignment;
mod around;
pub mod assembled_height;
pub mod chilling;
pub mod closing;
mod constants;
pub mod definition;
pub mod face_load;
mod finding;
pub mod flatness;
pub mod gap_stack;
pub mod geometry;
pub mod iso286;
pub mod leak_test;
pub mod matching;
mod range;
mod room;
pub mod roughness;
pub mod rubber;
pub mod rubber_law;
pub mod seating;
pub mod section;
pub mod squeeze;
pub mod validation;

pub use room::RoomError;
