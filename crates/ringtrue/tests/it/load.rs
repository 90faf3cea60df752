//! Face load and the general squeeze problem from outside.

use serde_json::Value;

use crate::bench::Bench;

fn number(json: &Value, key: &str) -> f64 {
    json[key].as_f64().unwrap_or_else(|| panic!("`{key}` is no number in {json}"))
}

#[test]
fn a_seal_gives_every_promised_key() {
    let bench = Bench::new();
    bench.file("seal.toml", bench.run(&["new", "seal"]).stdout());
    let json = bench.run(&["load", "seal.toml", "--fresh", "--json"]).json();
    for key in ["halves", "joint", "closing_force_n", "error_band_percent", "verdict", "sources"] {
        assert!(json.get(key).is_some(), "`{key}` is not in {json}");
    }
    let half = &json["halves"][0];
    for key in ["half", "free_height_mm", "curve", "slip_friction"] {
        assert!(half.get(key).is_some(), "`{key}` is not in {half}");
    }
    let point = &half["curve"][5];
    let keys = [
        "travel_mm",
        "height_mm",
        "face_load_n_per_mm",
        "standard_uncertainty_n_per_mm",
        "roll_deg",
        "peak_contact_mpa",
        "max_principal_stretch",
    ];
    for key in keys {
        number(point, key);
    }
    let at = &json["joint"]["at_gap"];
    for gap in ["min", "nominal", "max"] {
        for key in
            ["gap_mm", "face_load_n_per_mm", "standard_uncertainty_n_per_mm", "face_pressure_mpa"]
        {
            number(&at[gap], key);
        }
    }
    let point = &json["joint"]["curve"][10];
    for key in ["gap_mm", "force_n"] {
        number(point, key);
    }
    // Hardness alone leaves the load uncertain by a quarter, at each gap.
    let u = number(point, "standard_uncertainty_n_per_mm") / number(point, "face_load_n_per_mm");
    assert!((u - 0.251).abs() < 0.01, "{u}");
    // The starter's gap limits, and loads that rise as the gap closes.
    assert!((number(&at["min"], "gap_mm") - 2.0).abs() < 1e-9);
    let load = |gap: &str| number(&at[gap], "face_load_n_per_mm");
    assert!(load("min") > load("nominal") && load("nominal") > load("max"));
    // N/mm at the contact band's mean diameter, 225 mm, is force over circumference.
    let around = std::f64::consts::PI * 225.0;
    assert!((number(&at["nominal"], "force_n") / around / load("nominal") - 1.0).abs() < 1e-9);
}

#[test]
fn a_squeeze_problem_gives_every_promised_key_and_the_published_force() {
    let bench = Bench::new();
    bench.file("p.toml", bench.run(&["new", "squeeze"]).stdout());
    let json = bench.run(&["squeeze", "p.toml", "--json"]).json();
    for key in ["nodes", "elements", "newton_iterations", "seconds", "error_band_percent"] {
        number(&json, key);
    }
    let steps = json["steps"].as_array().unwrap();
    assert_eq!(steps.len(), 36);
    let last = &steps[35];
    for key in [
        "fraction",
        "travel_mm",
        "roll_deg",
        "centroid_dr_mm",
        "centroid_dz_mm",
        "max_principal_stretch",
        "strain_energy_n_mm_per_mm",
    ] {
        number(last, key);
    }
    for wall in ["housing", "ring"] {
        for key in [
            "force_r_n_per_mm",
            "force_z_n_per_mm",
            "normal_n_per_mm",
            "width_mm",
            "peak_mpa",
            "slip_share",
        ] {
            number(&last["walls"][wall], key);
        }
    }
    assert!((number(last, "fraction") - 1.0).abs() < 1e-12);
    // Another code's curve of this case (FElupe 11.3.0, 0.5 %), the two bands added.
    let band = number(&json, "error_band_percent") / 100.0 + 0.005;
    let force = number(&last["walls"]["ring"], "force_z_n_per_mm");
    assert!((force / 1.3583 - 1.0).abs() <= band, "{force}, band {band}");
}

#[test]
fn a_kept_curve_gives_the_same_answer_and_a_damaged_one_is_solved_again() {
    let bench = Bench::new();
    bench.file("seal.toml", bench.run(&["new", "seal"]).stdout());
    let cache = bench.path().join("cache");
    let run = || {
        let mut json = bench.run_in_cache(&["load", "seal.toml", "--json"], &cache).json();
        json.as_object_mut().unwrap().remove("program_version");
        json
    };
    let solved = run();
    let kept = cache.join("ringtrue/curves");
    let file = std::fs::read_dir(&kept).unwrap().next().unwrap().unwrap().path();
    assert!(run() == solved, "the kept curve gives another answer");
    let mut bytes = std::fs::read(&file).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    std::fs::write(&file, &bytes).unwrap();
    assert!(run() == solved, "the damaged curve was used");
    assert_ne!(std::fs::read(&file).unwrap(), bytes, "the damaged curve was kept");
}

#[test]
fn what_is_no_load_problem_is_refused() {
    let bench = Bench::new();
    bench.file("gauge.toml", bench.run(&["new", "gauge"]).stdout());
    let ran = bench.run(&["load", "gauge.toml"]);
    assert_eq!(ran.code(), 2);
    assert!(ran.stderr().contains("gauge file"), "{}", ran.stderr());
    let problem = bench.run(&["new", "squeeze"]).stdout();
    let spoilt = [
        ("steps = 36", "steps = 0", "0 steps"),
        ("mu = \"1.0 MPa\"", "", "`mu`"),
        ("mu = \"1.0 MPa\"", "mu = \"-1.0 MPa\"", "shear modulus"),
        ("diameter = \"12 mm\"", "diameter = 12", "a length"),
        ("coefficient = \"no-slip\"", "coefficient = -0.2", "friction coefficient"),
        ("name = \"ring\"", "name = \"housing\"", "name of another"),
        ("law = \"neo-hooke\"", "law = \"hooke\"", "neo-hooke"),
        ("mean_radius = \"120 mm\"", "", "mean_radius"),
        ("mean_radius = \"120 mm\"", "mean_radius = \"3 mm\"", "axis"),
        ("symmetry = \"axisymmetric\"", "symmetry = \"round\"", "axisymmetric"),
    ];
    for (from, to, said) in spoilt {
        assert!(problem.contains(from), "{from}");
        bench.file("p.toml", problem.replacen(from, to, 1));
        let ran = bench.run(&["squeeze", "p.toml"]);
        assert_eq!(ran.code(), 2, "{to}: {}", ran.stdout());
        assert!(ran.stderr().to_lowercase().contains(said), "{to}: {}", ran.stderr());
        assert_eq!(ran.stdout(), "");
    }
}
