//! The bench as a browser and a program meet it: a real server on a free port.

mod beside;
mod bundle;
mod client;
mod fuzz;
mod hostile;
mod language;
mod matrix;
mod raw;
mod refusals;
mod routes;
mod shop;
mod slow;
mod tls;
mod twice;
mod walk;
