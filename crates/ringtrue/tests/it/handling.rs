//! `chill`, `leak` and `agent` from outside, on the inputs that ship and on made-up ones.

use serde_json::Value;

use crate::bench::Bench;

fn number(json: &Value, key: &str) -> f64 {
    json[key].as_f64().unwrap_or_else(|| panic!("`{key}` is no number in {json}"))
}

/// A file of `examples/checks`.
fn example(name: &str) -> String {
    format!("{}/../../examples/checks/{name}", env!("CARGO_MANIFEST_DIR"))
}

const COLD: [&str; 8] =
    ["--medium", "still-air", "--cold", "-25 degC", "--room", "22 degC", "--humidity", "60 %"];
const SIZES: [&str; 6] = ["--section", "12 mm", "--inside-diameter", "230 mm", "--material", "VMQ"];

#[test]
fn chilling_gives_every_promised_key() {
    let bench = Bench::new();
    let run = [&["chill"], &SIZES[..], &COLD[..], &["--json"]].concat();
    let json = bench.run(&run).json();
    let keys = ["contraction_mm", "time_to_95_percent_s", "working_time_s", "rewarm_time_s"];
    for body in ["free", "mounted"] {
        for key in keys {
            assert!(number(&json[body], key) > 0.0, "{body} {key}");
        }
    }
    // Magnus formula, WMO-No. 8: 22 degC and 60 %.
    assert!((number(&json, "dew_point_degc") - 13.87).abs() < 0.05);
    assert!(number(&json, "mean_temperature_degc_after_5_min") < 10.0);
    assert_eq!((&json["frost"], &json["verdict"]), (&Value::Bool(true), &"conforms".into()));
    assert_eq!(json["ring_assumed"], true);
    assert!(json["sources"].as_array().unwrap().len() > 5);
}

#[test]
fn a_caution_stands_before_each_result() {
    let bench = Bench::new();
    let chill = [&["chill"], &SIZES[..], &COLD[..]].concat();
    let readings = example("leak-readings.csv");
    let leak =
        ["leak", &readings, "--pressure", "gauge", "--volume", "3.20 l", "--limit", "1 sccm"];
    for run in [&chill[..], &leak[..], &["agent", "acetone", "--material", "EPDM"][..]] {
        let out = bench.run(run).stdout();
        assert!(out.starts_with("Caution: "), "{out}");
        assert!(out.lines().all(|line| line.chars().count() <= 140), "{out}");
    }
}

#[test]
fn a_seal_file_brings_ring_lip_and_instruction() {
    let bench = Bench::new();
    let seal = example("silicone-half.toml");
    let run = |seal: &str, more: &[&str]| bench.run(&[&["chill", seal], &COLD[..], more].concat());
    let json = run(&seal, &["--json"]).json();
    assert!(number(&json["lip"], "interference_cold_mm") < number(&json["lip"], "interference_mm"));
    assert_eq!(json["verdict"], "conforms");
    // The starter's seal is of nitrile and says no.
    let starter = bench.run(&["new", "seal"]).stdout();
    bench.file("seal.toml", starter);
    assert_eq!(run("seal.toml", &["--json"]).json()["verdict"], "does-not-conform");
    assert_eq!(run("seal.toml", &["--gate"]).code(), 1);
}

#[test]
fn inches_and_fahrenheit_in_are_the_same_toric() {
    let bench = Bench::new();
    let si = bench.run(&[&["chill"], &SIZES[..], &COLD[..], &["--json"]].concat()).json();
    let us = bench.run(&[
        "chill",
        "--section",
        "0.472440944881889764 in",
        "--inside-diameter",
        "9.05511811023622 in",
        "--material",
        "vmq",
        "--medium",
        "still-air",
        "--cold",
        "-13 degF",
        "--room",
        "71.6 degF",
        "--humidity",
        "60 %",
        "--json",
    ]);
    let us = us.json();
    for key in ["contraction_mm", "time_to_95_percent_s", "rewarm_time_s"] {
        let (a, b) = (number(&si["mounted"], key), number(&us["mounted"], key));
        assert!((a - b).abs() < 1e-6 * a, "{key}: {a} {b}");
    }
}

fn decay() -> String {
    let mut text = "seconds,pressure_kpa,temperature_degc\n".to_owned();
    for index in 0..=60 {
        // 0.36 kPa an hour out of 2 l: 2e-4 Pa m3/s, while the gas warms by 0.6 K an hour.
        let hours = f64::from(index) / 120.0;
        let kelvin = 293.15 + 0.6 * hours;
        let kpa = (150.0 - 0.36 * hours) * kelvin / 293.15;
        text += &format!("{},{kpa:.3},{:.2}\n", index * 30, kelvin - 273.15);
    }
    text
}

#[test]
fn a_leak_test_gives_every_promised_key() {
    let bench = Bench::new();
    bench.file("r.csv", decay());
    let run = |limit: &str| {
        bench.run(&[
            "leak",
            "r.csv",
            "--pressure",
            "absolute",
            "--volume",
            "2.00 l",
            "--limit",
            limit,
            "--json",
        ])
    };
    let json = run("0.001 Pa m3/s").json();
    let (rate, u) =
        (number(&json, "leak_rate_pa_m3_per_s"), number(&json, "standard_uncertainty_pa_m3_per_s"));
    assert!((rate - 2e-4).abs() < 2.5 * u && u < 2e-5, "{rate} {u}");
    assert!(number(&json, "detectable_leak_pa_m3_per_s") > u);
    assert_eq!(number(&json, "settling_s"), 0.0);
    // 2.5 p V (1 - (pa/p)^0.286) at 150 kPa and the standard atmosphere.
    assert!((number(&json, "stored_energy_j") - 79.58).abs() < 0.2, "{}", json["stored_energy_j"]);
    assert_eq!(json["verdict"], "conforms");
    assert_eq!(run("0.00001 Pa m3/s").json()["verdict"], "does-not-conform");
    assert_eq!(run("0.0002 Pa m3/s").json()["verdict"], "not-proven");
}

#[test]
fn units_in_the_cells_and_other_times_are_the_same_test() {
    let bench = Bench::new();
    bench.file("r.csv", decay());
    let mut cells = "time;pressure;temperature\n".to_owned();
    for line in decay().lines().skip(1) {
        let parts: Vec<&str> = line.split(',').collect();
        let minutes = parts[0].parse::<f64>().unwrap() / 60.0;
        cells += &format!("{minutes} min;{} kPa;{} degC\n", parts[1].replace('.', ","), parts[2]);
    }
    bench.file("cells.csv", cells);
    let run = |file: &str| {
        let limit = "0.001 Pa m3/s";
        let more = ["--pressure", "absolute", "--volume", "2.00 l", "--limit", limit, "--json"];
        bench.run(&[&["leak", file], &more[..]].concat()).json()
    };
    let (one, other) = (run("r.csv"), run("cells.csv"));
    for key in ["leak_rate_pa_m3_per_s", "standard_uncertainty_pa_m3_per_s"] {
        assert!((number(&one, key) - number(&other, key)).abs() < 1e-12, "{key}");
    }
}

#[test]
fn the_shipped_leak_readings_settle_first() {
    let bench = Bench::new();
    let readings = example("leak-readings.csv");
    let json = bench
        .run(&[
            "leak",
            &readings,
            "--pressure",
            "gauge",
            "--volume",
            "3.20 l",
            "--limit",
            "0.001 Pa m3/s",
            "--atmosphere",
            "101.3 kPa",
            "--json",
        ])
        .json();
    assert!(number(&json, "settling_s") > 60.0);
    // They were made with 1.1e-4 Pa m3/s.
    let off = (number(&json, "leak_rate_pa_m3_per_s") - 1.1e-4).abs();
    assert!(off < 2.0 * number(&json, "standard_uncertainty_pa_m3_per_s"));
    assert_eq!(json["verdict"], "conforms");
}

#[test]
fn bubbles_and_soaks_are_evidence_too() {
    let bench = Bench::new();
    let film = ["leak", "--bubbles", "0", "--by", "film", "--over", "5 min", "--json", "--limit"];
    let verdict = |limit: &str| {
        let json = bench.run(&[&film[..], &[limit]].concat()).json();
        json["verdict"].as_str().unwrap().to_owned()
    };
    assert_eq!(verdict("0.01 Pa m3/s"), "conforms");
    assert_eq!(verdict("1e-5 Pa m3/s"), "not-proven");
    let soak = bench.run(&["leak", "--soak", "wet", "--over", "1 h", "--gate"]);
    assert_eq!(soak.code(), 1, "{}", soak.stderr());
}

#[test]
fn agents_are_judged_by_film_rubber_and_vapour() {
    let bench = Bench::new();
    let run = |name: &str, code: &str, more: &[&str]| {
        bench.run(&[&["agent", name, "--material", code, "--json"], more].concat()).json()
    };
    let bay = ["--bay", "60 m3", "--air-changes", "4", "--amount", "30 ml"];
    let alcohol = run("isopropyl-alcohol", "VMQ", &bay);
    assert_eq!(alcohol["verdict"], "conforms");
    assert!((number(&alcohol["vapour"], "concentration_ppm") - 157.0).abs() < 1.0);
    assert_eq!(run("isopropyl alcohol", "NBR", &[])["verdict"], "conforms");
    let oil = run("mineral-oil", "NBR", &[]);
    assert_eq!(oil["verdict"], "does-not-conform");
    assert!(oil["refused_for_toric"].as_str().unwrap().contains("slides"));
    assert_eq!(oil["verdict_immersion"], "conforms");
    assert_eq!(run("acetone", "FKM", &[])["verdict"], "does-not-conform");
}

#[test]
fn drawings_are_written_where_they_are_asked_for() {
    let bench = Bench::new();
    let readings = example("leak-readings.csv");
    let leak =
        ["leak", &readings, "--pressure", "gauge", "--volume", "3.20 l", "--limit", "1 sccm"];
    let chill = [&["chill"], &SIZES[..], &COLD[..]].concat();
    for (run, name) in [(&leak[..], "leak-test.svg"), (&chill[..], "chilling.svg")] {
        let ran = bench.run(&[run, &["--svg", "drawings"]].concat());
        assert_eq!(ran.code(), 0, "{}", ran.stderr());
        let svg = std::fs::read_to_string(bench.path().join("drawings").join(name)).unwrap();
        assert!(svg.starts_with("<svg") && svg.contains("<polyline"), "{name}");
    }
}
