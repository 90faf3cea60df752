//! Reading reference curves and comparing with them.

use std::path::Path;

use ringtrue_fem::{ErrorEstimate, Outcome, Problem, Run, Settings, solve};

/// Rows of a reference curve as (column name, value) tables.
pub(crate) struct Curve {
    names: Vec<String>,
    rows: Vec<Vec<f64>>,
}

impl Curve {
    pub(crate) fn read(name: &str) -> Self {
        let path = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../validation/reference/mechanics")
            .join(name);
        let text = std::fs::read_to_string(&path).unwrap();
        let mut lines = text.lines().filter(|l| !l.starts_with('#'));
        let names = lines.next().unwrap().split(',').map(str::to_owned).collect();
        // An empty cell is a value the other code did not give.
        let rows =
            lines.map(|l| l.split(',').map(|v| v.parse().unwrap_or(f64::NAN)).collect()).collect();
        Self { names, rows }
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = &[f64]> {
        self.rows.iter().map(Vec::as_slice)
    }

    pub(crate) fn column(&self, name: &str) -> usize {
        self.names.iter().position(|n| n == name).unwrap()
    }
}

/// One line of a table of check values.
pub(crate) struct Case {
    pub(crate) id: String,
    inputs: String,
    pub(crate) expected: f64,
    pub(crate) rel_tol: f64,
}

impl Case {
    /// The value of `key` among `k=v` pairs; lists are cut at commas.
    pub(crate) fn inputs(&self, key: &str) -> Vec<f64> {
        let pair = self.inputs.split(';').find_map(|p| p.strip_prefix(key)?.strip_prefix('='));
        pair.unwrap().split(',').map(|v| v.parse().unwrap()).collect()
    }

    pub(crate) fn input(&self, key: &str) -> f64 {
        self.inputs(key)[0]
    }

    pub(crate) fn has(&self, pair: &str) -> bool {
        self.inputs.split(';').any(|p| p == pair)
    }
}

/// The cases of a table whose identity starts with `prefix`; never none.
pub(crate) fn cases(table: &str, prefix: &str) -> Vec<Case> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../validation/reference/mechanics")
        .join(table);
    let text = std::fs::read_to_string(&path).unwrap();
    let list: Vec<Case> = text
        .lines()
        .skip(1)
        .filter(|l| l.starts_with(prefix))
        .map(|l| {
            let cells = split_csv(l);
            Case {
                id: cells[0].clone(),
                inputs: cells[2].clone(),
                expected: cells[4].parse().unwrap(),
                rel_tol: cells[6].parse().unwrap(),
            }
        })
        .collect();
    assert!(!list.is_empty(), "{table}: no case {prefix}");
    list
}

/// Cells of a CSV line with quoted cells.
fn split_csv(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            _ => cells.last_mut().unwrap().push(c),
        }
    }
    cells
}

/// Solves and insists on a complete run.
pub(crate) fn run(problem: &Problem, mesh_size: Option<f64>) -> Run {
    let settings =
        Settings { mesh_size, error_estimate: ErrorEstimate::None, ..Settings::default() };
    let run = solve(problem, &settings).unwrap();
    assert_eq!(run.outcome, Outcome::Complete);
    run
}

/// Asserts that `ours` meets `theirs` within `percent`.
pub(crate) fn meets(what: &str, ours: f64, theirs: f64, percent: f64) {
    let deviation = 100.0 * (ours / theirs - 1.0);
    assert!(
        deviation.abs() <= percent,
        "{what}: {ours:.5} against {theirs:.5}, {deviation:+.2} % with {percent} % allowed"
    );
}
