//! A folder of its own for each test, and the program run in it.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A temporary folder; gone with the test.
pub(crate) struct Bench {
    folder: tempfile::TempDir,
    /// Kept curves: apart, so that a listing shows what a command left.
    cache: tempfile::TempDir,
}

impl Bench {
    pub(crate) fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap(), cache: tempfile::tempdir().unwrap() }
    }

    pub(crate) fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Writes a file and gives its path.
    pub(crate) fn file(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, content).unwrap();
        path
    }

    /// Runs the program in the folder.
    pub(crate) fn run(&self, arguments: &[&str]) -> Ran {
        self.run_in_cache(arguments, self.cache.path())
    }

    /// Runs the program with another cache folder for solved curves.
    pub(crate) fn run_in_cache(&self, arguments: &[&str], cache: &Path) -> Ran {
        let output = Command::new(env!("CARGO_BIN_EXE_ringtrue"))
            .args(arguments)
            .current_dir(self.path())
            .env("XDG_CACHE_HOME", cache)
            .output()
            .unwrap();
        Ran { output, arguments: arguments.join(" ") }
    }

    /// Runs the program with these variables, and without those of whoever runs the tests.
    pub(crate) fn run_with(&self, arguments: &[&str], variables: &[(&str, &str)]) -> Ran {
        let mut command = Command::new(env!("CARGO_BIN_EXE_ringtrue"));
        command.args(arguments).current_dir(self.path());
        for name in ["STORE", "PERSON", "PASSPHRASE", "NEW_PASSPHRASE", "DEVICE"] {
            command.env_remove(format!("RINGTRUE_{name}"));
        }
        command.env("XDG_CACHE_HOME", self.cache.path()).envs(variables.iter().copied());
        Ran { output: command.output().unwrap(), arguments: arguments.join(" ") }
    }

    /// Runs the program at a terminal of its own, with lines typed there.
    pub(crate) fn at_a_terminal(
        &self,
        (arguments, typed): (&[&str], &[&str]),
        variables: &[(&str, &str)],
    ) -> Ran {
        let quoted = |word: &&str| format!("'{}'", word.replace('\'', "'\\''"));
        let words: Vec<String> = arguments.iter().map(quoted).collect();
        let line = format!("'{}' {}", env!("CARGO_BIN_EXE_ringtrue"), words.join(" "));
        let mut command = Command::new("script");
        command.args(["-qec", &line, "/dev/null"]).current_dir(self.path());
        for name in ["STORE", "PERSON", "PASSPHRASE", "NEW_PASSPHRASE", "DEVICE"] {
            command.env_remove(format!("RINGTRUE_{name}"));
        }
        command.env("XDG_CACHE_HOME", self.cache.path()).envs(variables.iter().copied());
        let piped = std::process::Stdio::piped;
        let mut child = command.stdin(piped()).stdout(piped()).stderr(piped()).spawn().unwrap();
        let mut keyboard = child.stdin.take().unwrap();
        for line in typed {
            writeln!(keyboard, "{line}").unwrap();
        }
        drop(keyboard);
        Ran { output: child.wait_with_output().unwrap(), arguments: arguments.join(" ") }
    }

    /// Every file below the folder with its size, sorted.
    pub(crate) fn listing(&self) -> Vec<(PathBuf, u64)> {
        fn walk(folder: &Path, found: &mut Vec<(PathBuf, u64)>) {
            for entry in std::fs::read_dir(folder).unwrap() {
                let entry = entry.unwrap();
                if entry.file_type().unwrap().is_dir() {
                    walk(&entry.path(), found);
                } else {
                    found.push((entry.path(), entry.metadata().unwrap().len()));
                }
            }
        }
        let mut found = Vec::new();
        walk(self.path(), &mut found);
        found.sort();
        found
    }
}

/// What a run gave.
pub(crate) struct Ran {
    output: Output,
    arguments: String,
}

impl Ran {
    pub(crate) fn code(&self) -> i32 {
        self.output.status.code().unwrap_or(-1)
    }

    pub(crate) fn stdout(&self) -> String {
        String::from_utf8(self.output.stdout.clone()).unwrap()
    }

    pub(crate) fn stderr(&self) -> String {
        String::from_utf8(self.output.stderr.clone()).unwrap()
    }

    /// The JSON object that a run printed; it must have ended well.
    pub(crate) fn json(&self) -> serde_json::Value {
        assert_eq!(self.code(), 0, "{}: {}", self.arguments, self.stderr());
        serde_json::from_str(&self.stdout()).unwrap_or_else(|e| panic!("{}: {e}", self.arguments))
    }
}
