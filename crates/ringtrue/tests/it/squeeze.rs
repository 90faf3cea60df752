//! The general squeeze problem from outside: every shipped example against the reference curve that
//! it names, within the two error bands added, and what may be left out of a file.

use std::f64::consts::TAU;
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::bench::Bench;

/// A shipped example with a published curve.
struct Example {
    name: &'static str,
    /// The moving wall, and the sense in which the reference counts its force along z.
    wall: (&'static str, f64),
    /// Columns of travel and force in the reference.
    columns: (&'static str, &'static str),
    /// What the reference's force is multiplied by to be per mm: the disc springs give the whole.
    per_mm: f64,
}

const PLATES: (&str, &str) = ("squeeze_mm", "force_N_per_mm");
const RAMPS: (&str, &str) = ("u_mm", "axial_force_ring_N_per_mm");
const SPRINGS: (&str, &str) = ("s_mm", "force_N");
/// One over the circumference at the springs' mean radius, 47.25 mm.
const SPRING_PER_MM: f64 = 1.0 / (TAU * 47.25);

const fn example(
    name: &'static str,
    wall: (&'static str, f64),
    columns: (&'static str, &'static str),
    per_mm: f64,
) -> Example {
    Example { name, wall, columns, per_mm }
}

const EXAMPLES: [Example; 8] = [
    example("plate_plane_strain_frictionless", ("upper", -1.0), PLATES, 1.0),
    example("plate_plane_strain_noslip", ("upper", -1.0), PLATES, 1.0),
    example("plate_axial_ring_frictionless", ("upper", -1.0), PLATES, 1.0),
    example("plate_axial_ring_noslip", ("upper", -1.0), PLATES, 1.0),
    example("ramp_15deg_noslip", ("ring", 1.0), RAMPS, 1.0),
    example("ramp_15deg_coulomb03", ("ring", 1.0), RAMPS, 1.0),
    example("disc_spring_rectangular", ("load", -1.0), SPRINGS, SPRING_PER_MM),
    example("disc_spring_vertical_ends", ("load", -1.0), SPRINGS, SPRING_PER_MM),
];

/// Examples of ours, without a published curve.
const OURS: [&str; 2] = ["rubber_conical_washer", "round_past_a_lip"];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn problem_file(name: &str) -> PathBuf {
    root().join("examples/squeeze").join(format!("{name}.toml"))
}

/// Travel, force and band in percent at each point of a reference curve.
fn reference(example: &Example) -> Vec<[f64; 3]> {
    let name = format!("validation/reference/mechanics/{}.csv", example.name);
    let text = std::fs::read_to_string(root().join(name)).unwrap();
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let names: Vec<&str> = lines.next().unwrap().split(',').collect();
    let [travel, force, band] = [example.columns.0, example.columns.1, "err_pct"]
        .map(|column| names.iter().position(|name| *name == column).unwrap());
    lines
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            [travel, force, band].map(|column| cells[column].parse().unwrap())
        })
        .collect()
}

fn solved(bench: &Bench, name: &str) -> Value {
    bench.run(&["squeeze", problem_file(name).to_str().unwrap(), "--json"]).json()
}

#[test]
fn every_example_meets_its_reference_within_the_two_bands_added() {
    let bench = Bench::new();
    for example in &EXAMPLES {
        let json = solved(&bench, example.name);
        let own = json["error_band_percent"].as_f64().unwrap();
        let steps = json["steps"].as_array().unwrap();
        let points = reference(example);
        assert!(points.len() >= 10, "{}: {} points", example.name, points.len());
        for [travel, force, band] in points {
            let step = steps
                .iter()
                .find(|step| (step["travel_mm"].as_f64().unwrap() - travel).abs() < 1e-6)
                .unwrap_or_else(|| panic!("{}: no step at {travel} mm", example.name));
            let (wall, sense) = example.wall;
            let ours = sense * step["walls"][wall]["force_z_n_per_mm"].as_f64().unwrap();
            let apart = 100.0 * (ours / (force * example.per_mm) - 1.0);
            assert!(
                apart.abs() <= own + band,
                "{} at {travel} mm: {apart:+.2} % apart, bands {own:.2} and {band} %",
                example.name
            );
        }
    }
}

#[test]
fn every_file_among_the_examples_is_one_that_is_run() {
    let mut shipped: Vec<String> = std::fs::read_dir(root().join("examples/squeeze"))
        .unwrap()
        .map(|entry| entry.unwrap().path().file_stem().unwrap().to_str().unwrap().to_owned())
        .collect();
    shipped.sort();
    let mut run: Vec<&str> = EXAMPLES.iter().map(|example| example.name).chain(OURS).collect();
    run.sort_unstable();
    assert_eq!(shipped, run);
    for name in OURS {
        assert_eq!(solved(&Bench::new(), name)["complete"], true, "{name}");
    }
}

/// The least that a file may hold: no `hold`, no `fillets`, a wall without `motion`, a motion
/// without `r`, whole numbers for a coefficient and a ratio.
const LEAST: &str = r#"
schema = "ringtrue/squeeze/1"
symmetry = "plane-strain"
steps = 2
section = { shape = "round", diameter = "12 mm" }
material = { law = "ogden", terms = [{ mu = "0.5 MPa", alpha = 2 }], bulk = "1000 MPa" }
friction = { coefficient = 1 }
[[wall]]
name = "lower"
profile = [["-10 mm", "-6 mm"], ["10 mm", "-6 mm"]]
[[wall]]
name = "upper"
profile = [["10 mm", "6 mm"], ["-10 mm", "6 mm"]]
motion = { z = "-1 mm" }
"#;

#[test]
fn hold_fillets_and_motion_may_be_left_out_and_whole_numbers_are_numbers() {
    let bench = Bench::new();
    bench.file("least.toml", LEAST);
    let least = bench.run(&["squeeze", "least.toml", "--json"]).json();
    let spelt = LEAST
        .replace("steps = 2", "steps = 2\nhold = []")
        .replace("alpha = 2", "alpha = 2.0")
        .replace("coefficient = 1 ", "coefficient = 1.0 ")
        .replace("motion = { z =", "fillets = []\nunbounded = false\nmotion = { r = \"0 mm\", z =")
        .replace(
            "[\"10 mm\", \"-6 mm\"]]",
            "[\"10 mm\", \"-6 mm\"]]\nmotion = { r = \"0 mm\", z = \"0 mm\" }",
        );
    for part in ["hold", "alpha = 2.0", "coefficient = 1.0", "fillets", "r = \"0 mm\", z = \"0"] {
        assert!(spelt.contains(part), "{part}");
    }
    bench.file("spelt.toml", spelt);
    let spelt = bench.run(&["squeeze", "spelt.toml", "--json"]).json();
    assert_eq!(least["steps"], spelt["steps"]);
    assert_eq!(least["steps"][1]["fraction"], 1.0);
    // A wall that moves counts the travel; one that stands still feels the same force.
    assert!((least["steps"][1]["travel_mm"].as_f64().unwrap() - 1.0).abs() < 1e-12);
}

/// A block of Saint Venant-Kirchhoff material: its law softens under compression until no more
/// load can be carried, far from the end of this motion (J. Bonet, R. D. Wood, Nonlinear Continuum
/// Mechanics for Finite Element Analysis, 2008, from memory).
const TOO_FAR: &str = r#"
schema = "ringtrue/squeeze/1"
symmetry = "plane-strain"
steps = 10
[section]
shape = "polygon"
corners = [["-5 mm", "-5 mm"], ["5 mm", "-5 mm"], ["5 mm", "5 mm"], ["-5 mm", "5 mm"]]
[material]
law = "saint-venant-kirchhoff"
young = "1 MPa"
poisson = 0.3
[friction]
coefficient = "no-slip"
[[wall]]
name = "lower"
profile = [["-10 mm", "-5 mm"], ["10 mm", "-5 mm"]]
[[wall]]
name = "upper"
profile = [["10 mm", "5 mm"], ["-10 mm", "5 mm"]]
motion = { z = "-9 mm" }
"#;

#[test]
fn a_run_that_cannot_go_on_gives_what_it_has_and_why() {
    let bench = Bench::new();
    bench.file("far.toml", TOO_FAR);
    let ran = bench.run(&["squeeze", "far.toml", "--json"]);
    assert_eq!(ran.code(), 3, "{}", ran.stderr());
    let json: Value = serde_json::from_str(&ran.stdout()).unwrap();
    assert_eq!(json["complete"], false);
    let reason = json["reason"].as_str().unwrap();
    assert!(reason.contains("% of the motion"), "{reason}");
    assert!(ran.stderr().to_lowercase().contains(reason), "{} {reason}", ran.stderr());
    let steps = json["steps"].as_array().unwrap();
    assert!((1..10).contains(&steps.len()), "{} steps", steps.len());
    assert!(json.get("verdict").is_none(), "{json}");
}
