//! The program from outside: whole commands, their output and their exit codes.

mod bench;
mod checks;
mod procedure;
mod wrong_files;

mod commands;
mod load;
