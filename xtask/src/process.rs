//! Other programs: cargo and git, started in the workspace's folder.

use std::path::Path;
use std::process::{Command, Stdio};

/// Runs a program that talks to the terminal itself.
///
/// # Errors
/// It could not be started, or it failed.
pub(crate) fn show(root: &Path, program: &str, arguments: &[&str]) -> Result<(), String> {
    let line = format!("{program} {}", arguments.join(" "));
    let status = Command::new(program)
        .args(arguments)
        .current_dir(root)
        .stdin(Stdio::null())
        .status()
        .map_err(|error| format!("`{line}` could not be started: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("`{line}` failed ({status})")) }
}

/// Runs a program and gives what it wrote to standard output.
///
/// # Errors
/// It could not be started, it failed, or its output is not UTF-8.
pub(crate) fn output(root: &Path, program: &str, arguments: &[&str]) -> Result<String, String> {
    let line = format!("{program} {}", arguments.join(" "));
    let output = Command::new(program)
        .args(arguments)
        .current_dir(root)
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .map_err(|error| format!("`{line}` could not be started: {error}"))?;
    if !output.status.success() {
        return Err(format!("`{line}` failed ({})", output.status));
    }
    String::from_utf8(output.stdout).map_err(|_| format!("`{line}` did not write UTF-8"))
}
