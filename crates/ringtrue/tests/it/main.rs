//! The program from outside: whole commands, their output and their exit codes.

mod bench;
mod procedure;
mod wrong_files;

mod commands;
mod load;
