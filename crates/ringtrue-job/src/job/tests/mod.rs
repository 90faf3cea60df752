//! A job from its opening to its follow-up, and what is refused on the way.

mod checks;
pub(crate) mod fixture;
mod language;
mod load;
mod model;
mod seating;
mod story;
