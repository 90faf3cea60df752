//! The examples and validation cases are built in: a changed one is a changed program.

fn main() {
    for folder in ["../../examples", "../../validation/cases", "../../validation/reference"] {
        println!("cargo:rerun-if-changed={folder}");
    }
}
