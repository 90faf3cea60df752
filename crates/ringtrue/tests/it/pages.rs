//! The bench as a browser and a program meet it: a real server on a free port.

mod bundle;
mod client;
mod matrix;
mod refusals;
mod shop;
mod twice;
mod walk;
