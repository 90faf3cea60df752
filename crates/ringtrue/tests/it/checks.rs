//! Alignment, ramp finish and face flatness: whole commands on the shipped example files.

use serde_json::Value;

use crate::bench::{Bench, Ran};

/// A bench with the example files of the checks.
fn bench() -> Bench {
    let bench = Bench::new();
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    for folder in ["checks", "final-drive"] {
        for entry in std::fs::read_dir(root.join(folder)).unwrap() {
            let path = entry.unwrap().path();
            let name = format!("{folder}/{}", path.file_name().unwrap().to_str().unwrap());
            bench.file(&name, std::fs::read(&path).unwrap());
        }
    }
    bench
}

fn number(json: &Value, key: &str) -> f64 {
    json[key].as_f64().unwrap_or_else(|| panic!("`{key}` is no number in {json}"))
}

fn align(bench: &Bench, more: &[&str]) -> Ran {
    let mut arguments = vec!["align", "checks/sweeps.csv", "--sag", "-0.04 mm"];
    arguments.extend(more);
    bench.run(&arguments)
}

#[test]
fn align_gives_every_promised_key() {
    let bench = bench();
    let json = align(&bench, &["--json"]).json();
    let keys = [
        "eccentricity_mm",
        "eccentricity_direction_deg",
        "angle_mrad",
        "angle_direction_deg",
        "out_of_round_mm",
        "tip_limit_deg",
        "verdict",
    ];
    for key in keys {
        assert!(json.get(key).is_some(), "`{key}` is not in {json}");
    }
    // The example was made with 0.21 mm towards 62 deg and 0.33 mm on a radius of 150 mm.
    assert!((number(&json, "eccentricity_mm") - 0.21).abs() < 0.01);
    assert!((number(&json, "eccentricity_direction_deg") - 62.0).abs() < 3.0);
    assert!((number(&json, "angle_mrad") - 2.2).abs() < 0.1);
    assert_eq!((&json["tip_limit_deg"], &json["verdict"]), (&Value::Null, &"not-proven".into()));
}

#[test]
fn align_takes_limits_and_geometry_from_the_joint() {
    let bench = bench();
    let with = ["--joint", "final-drive/joint.toml", "--gauge", "checks/indicator.toml"];
    let json = align(&bench, &[&with[..], &["--json"]].concat()).json();
    assert_eq!(json["verdict"], "conforms");
    assert!((number(&json, "eccentricity_limit_mm") - 0.5).abs() < 1e-9);
    assert!(number(&json, "tip_limit_deg") > 0.5);
    let tight = align(&bench, &[&with[..], &["--limit", "0.1 mm", "--gate"]].concat());
    assert_eq!(tight.code(), 1, "{}", tight.stderr());
    let said = tight.stdout();
    assert!(said.contains("Move half b") && said.contains("towards 242 deg"), "{said}");
    let other = align(&bench, &[&with[..], &["--limit", "0.1 mm", "--moves", "a"]].concat());
    assert!(other.stdout().contains("Move half a"), "{}", other.stdout());
    let narrow = ["--housing-diameter", "400 mm", "--json"];
    let wide = align(&bench, &[&with[..], &narrow[..]].concat()).json();
    assert!(number(&wide, "tip_limit_deg") < number(&json, "tip_limit_deg"));
}

#[test]
fn inches_and_millimetres_are_the_same_sweep() {
    let bench = bench();
    let text = std::fs::read_to_string(bench.path().join("checks/sweeps.csv")).unwrap();
    let inches: Vec<String> = text
        .lines()
        .map(|line| match line.split(',').collect::<Vec<_>>().as_slice() {
            _ if line.starts_with('#') => line.to_owned(),
            ["surface", ..] => "surface,angle_deg,reading_in,diameter_mm".to_owned(),
            [surface, at, reading, diameter] => {
                let inch = reading.parse::<f64>().unwrap() / 25.4;
                format!("{surface},{at},{inch:.12},{diameter}")
            }
            _ => line.to_owned(),
        })
        .collect();
    bench.file("inch.csv", inches.join("\n"));
    let mm = align(&bench, &["--json"]).json();
    let inch = bench.run(&["align", "inch.csv", "--sag", "-0.04 mm", "--json"]).json();
    for key in ["eccentricity_mm", "angle_mrad", "out_of_round_mm", "eccentricity_direction_deg"] {
        assert!((number(&mm, key) - number(&inch, key)).abs() < 1e-6, "{key}");
    }
}

#[test]
fn finish_reads_csv_and_x3p_together() {
    let bench = bench();
    let run = |more: &[&str]| {
        let mut arguments = vec!["finish", "checks/ramp-trace.csv", "checks/ramp-trace.x3p"];
        arguments.extend(more);
        bench.run(&arguments)
    };
    let json = run(&["--limit", "Ra 0.8 um", "--json"]).json();
    assert_eq!(json["sampling_lengths"].as_array().unwrap().len(), 10);
    assert_eq!((&json["cut_off_mm"], &json["cut_off_basis"]), (&0.8.into(), &"table".into()));
    assert_eq!(json["verdict"], "conforms");
    assert!(number(&json, "ra_um") < number(&json, "rq_um"));
    assert!(number(&json, "rq_um") < number(&json, "rz_um"));
    assert!(json.get("profiles").is_none());
    let tight = ["--limit", "Ra max 0.72 um", "--uncertainty", "1 %", "--gate"];
    assert_eq!(run(&tight).code(), 1);
    let new = run(&["--limit", "Rz 6.3 um", "--edition", "iso-21920", "--json"]).json();
    assert_eq!(
        (&new["rule"], &new["edition"]),
        (&"max".into(), &"ISO 21920:2021, parts 2 and 3".into())
    );
    let by_seal = bench.run(&[
        "finish",
        "checks/ramp-trace.csv",
        "--seal",
        "final-drive/hub-half.toml",
        "--json",
    ]);
    assert!((number(&by_seal.json(), "limit_max_um") - 3.2).abs() < 1e-9);
}

#[test]
fn typed_values_are_judged_by_the_rule() {
    let bench = bench();
    let run = |limit: &str, rule: &str| {
        let arguments =
            ["finish", "checks/ramp-values.csv", "--limit", limit, "--rule", rule, "--json"];
        bench.run(&arguments).json()
    };
    // Twelve values, one of them 2.61 um.
    assert_eq!(run("Ra 2.6 um", "16-percent")["verdict_rule"], "conforms");
    assert_eq!(run("Ra 2.6 um", "max")["verdict_rule"], "does-not-conform");
    assert_eq!(run("Ra 2.6 um", "max")["ra_um"], Value::Null);
}

#[test]
fn flat_tells_bands_shape_and_verdict() {
    let bench = bench();
    let run = |arguments: &[&str]| bench.run(arguments).json();
    let file = ["flat", "checks/bands.csv", "--limit", "1 band", "--uncertainty", "0.3 mm"];
    let json = run(&[&file[..], &["--json"]].concat());
    assert_eq!((&json["shape"], &json["verdict"]), (&"crown".into(), &"conforms".into()));
    assert!((number(&json, "flatness_bands") - 3.1 / 6.5).abs() < 1e-9);
    let orders = ["flat", "checks/band-orders.csv", "--limit", "0.6 um"];
    let json = run(&[&orders[..], &["--uncertainty", "0.1 bands", "--json"]].concat());
    assert_eq!(json["shape"], "saddle");
    let closed = ["flat", "--closed", "2.5", "--limit", "2 bands", "--uncertainty", "0.1 bands"];
    assert_eq!(bench.run(&[&closed[..], &["--gate"]].concat()).code(), 1);
    let one = ["flat", "--bend=-1.5 mm", "--spacing", "10 mm", "--limit", "1 band"];
    let json = run(&[&one[..], &["--source", "sodium", "--json"]].concat());
    assert_eq!((&json["shape"], &json["verdict"]), (&"dish".into(), &"not-proven".into()));
}

#[test]
fn drawings_are_written_on_request() {
    let bench = bench();
    let runs: [&[&str]; 3] = [
        &["align", "checks/sweeps.csv", "--svg", "drawn"],
        &["finish", "checks/ramp-trace.csv", "--limit", "Ra 0.8 um", "--svg", "drawn"],
        &["flat", "checks/bands.csv", "--svg", "drawn"],
    ];
    for arguments in runs {
        let ran = bench.run(arguments);
        assert_eq!(ran.code(), 0, "{}", ran.stderr());
    }
    for name in ["alignment", "ramp-finish-1", "face-flatness"] {
        let path = bench.path().join(format!("drawn/{name}.svg"));
        assert!(std::fs::read_to_string(&path).unwrap().contains("</svg>"), "{}", path.display());
    }
}

/// Curves that are solved once for all runs of the tests.
fn kept() -> &'static std::path::Path {
    std::path::Path::new(env!("CARGO_TARGET_TMPDIR"))
}

#[test]
fn close_orders_the_bolts_and_judges_the_gap_all_round() {
    let bench = bench();
    let run = |more: &[&str]| {
        let base = ["close", "final-drive/joint.toml", "--feeler", "checks/feeler.csv"];
        bench.run_in_cache(&[&base[..], more].concat(), kept())
    };
    let all = ["--bolts", "12", "--uncertainty", "0.02 mm"];
    let json = run(&[&all[..], &["--svg", "drawn", "--json"]].concat()).json();
    assert_eq!(json["verdict"], "conforms");
    let order: Vec<u64> = json["pull_down"]["order"]
        .as_array()
        .unwrap()
        .iter()
        .map(|bolt| bolt.as_u64().unwrap())
        .collect();
    assert_eq!(order, [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12]);
    let gap = &json["gap"];
    assert!((number(gap, "mean_mm") - 2.616).abs() < 0.001, "{gap}");
    assert!((number(gap, "out_of_parallel_mm") - 0.1).abs() < 0.03, "{gap}");
    // The narrower side carries more.
    let load = |side: &str| number(&gap[side], "face_load_n_per_mm");
    assert!(load("narrowest") > load("widest") && load("widest") > 1.0);
    let forces = json["closing_force"].as_array().unwrap();
    assert!(forces.len() > 10);
    assert!(number(&forces[0], "force_n") < number(&forces[forces.len() - 1], "force_n"));
    let last = &json["pull_down"]["steps"][3];
    assert!((12.0 * number(last, "force_per_bolt_n") - number(last, "force_n")).abs() < 1e-6);
    let said = run(&all).stdout();
    assert!(said.starts_with("Caution: ") && said.contains("1 7 4 10"), "{said}");
    let svg = std::fs::read_to_string(bench.path().join("drawn/closing.svg")).unwrap();
    assert!(svg.contains("</svg>"));
    let tight = ["--limit", "2.60 mm..2.65 mm", "--uncertainty", "0.01 mm", "--gate"];
    assert_eq!(run(&[&tight[..], &["--without-load"]].concat()).code(), 1);
    let bare = run(&["--without-load", "--json"]).json();
    assert_eq!((&bare["verdict"], &bare["pull_down"]), (&"not-proven".into(), &Value::Null));
    assert_eq!(bare["gap"]["widest"]["face_load_n_per_mm"], Value::Null);
}

#[test]
fn a_report_takes_the_checks_that_were_made_besides() {
    let bench = bench();
    let checks = [
        "flatness a: checks/bands.csv; uncertainty=0.3 mm",
        "flatness b: checks/bands.csv; uncertainty=0.3 mm",
        "roughness a: checks/ramp-trace.csv; checks/ramp-trace.x3p; uncertainty=3 %",
        "alignment: checks/sweeps.csv; sag=-0.04 mm; gauge=checks/indicator.toml",
        "agents: agent=isopropyl-alcohol; bay=60 m3; air-changes=4; amount=30 ml",
        "leak-test: checks/leak-readings.csv; pressure=gauge; volume=3.20 l; limit=1 sccm",
        "closing: checks/feeler.csv; uncertainty=0.02 mm; bolts=12",
    ];
    let mut arguments = vec!["report", "final-drive/joint.toml", "-o", "r.pdf", "--svg", "drawn"];
    arguments.extend(checks.iter().flat_map(|check| ["--check", check]));
    let ran = bench.run_in_cache(&arguments, kept());
    assert_eq!(ran.code(), 0, "{}", ran.stderr());
    let said = ran.stdout();
    for line in
        ["Face flatness, half a", "Ramp finish, half a", "Alignment ", "Leak test ", "Closing "]
    {
        assert!(said.contains(line), "{line}: {said}");
    }
    let drawn = ["face-flatness-half-a", "face-flatness-half-b", "ramp-finish-2-half-a", "closing"];
    for name in drawn.into_iter().chain(["alignment", "leak-test"]) {
        assert!(bench.path().join(format!("drawn/{name}.svg")).is_file(), "{name}");
    }
}

#[test]
fn seat_gives_the_keys_of_each_kind_of_load_ring() {
    let bench = bench();
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let washer = std::fs::read(root.join("../ringtrue-seal/tests/data/washer_seal.toml")).unwrap();
    bench.file("washer.toml", washer);
    bench.file("seal.toml", bench.run(&["new", "seal"]).stdout());
    let both = ["push_force_n", "method", "max_principal_stretch", "verdict", "sources"];
    let uncertain = ["standard_uncertainty_parts_n", "friction_standard_uncertainty"];
    let toric = ["stretch_percent", "section_mm", "interference_mm", "pushes"];
    let edges = ["free_height_mm", "rests_at_height_mm", "sits_at_height_mm", "pressed"];
    for (file, own) in [("seal.toml", &toric), ("washer.toml", &edges)] {
        let json = bench.run(&["seat", file, "--json"]).json();
        for key in both.iter().chain(&uncertain).chain(own) {
            assert!(json.get(key).is_some(), "`{key}` is not in {json}");
        }
    }
    let height = ["--free-height", "9.05 mm"];
    let ran = bench.run(&[&["seat", "washer.toml", "--svg", "drawn"][..], &height].concat());
    let said = ran.stdout();
    for part in [
        "free height",
        "washer, measured      9.05 mm (9.00 mm drawn)",
        "free height of the washer: 9.0500 mm measured (u 0.0029 mm); the drawn 9.00 mm",
        "edges sit at",
        "force, dry",
        "force, wetted",
        "by hand",
        "friction",
    ] {
        assert!(said.contains(part), "`{part}` is not in:\n{said}");
    }
    assert!(bench.path().join("drawn/seating.svg").exists());
}
