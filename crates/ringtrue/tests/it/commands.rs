//! Whole commands on real files: keys, verdicts, exit codes, and what is left on the disk.

use serde_json::Value;

use crate::bench::Bench;

const LEVEL: &str = "angle_deg,height_mm\n0,4.02\n90,4.05\n180,4.01\n270,3.98\n";
const COCKED: &str = "angle_deg,height_mm\n0,4.0\n90,5.2\n180,4.0\n270,2.8\n";
const CHAIN: &str = "name,sign,nominal_mm,upper_mm,lower_mm\n\
                     bore depth,+,40,0.1,-0.1\nspacer,-,25,0.05,-0.05\n\
                     ring,-,2,0.03,-0.03\nshoulder,-,10,0.05,-0.05\n";

fn number(json: &Value, key: &str) -> f64 {
    json[key].as_f64().unwrap_or_else(|| panic!("`{key}` is no number in {json}"))
}

fn height(bench: &Bench, more: &[&str]) -> crate::bench::Ran {
    let mut arguments = vec!["height", "r.csv", "--limit", "1 mm", "--uncertainty", "0.02 mm"];
    arguments.extend(more);
    bench.run(&arguments)
}

#[test]
fn height_gives_every_promised_key() {
    let bench = Bench::new();
    bench.file("r.csv", LEVEL);
    let json = height(&bench, &["--diameter", "240 mm", "--json"]).json();
    let keys = [
        "mean_height_mm",
        "range_mm",
        "range_standard_uncertainty_mm",
        "tilt_mm",
        "tilt_deg",
        "high_side_deg",
        "second_harmonic_mm",
        "residuals_mm",
        "suspects",
        "probability_conforms",
        "verdict_range",
        "verdict_mean_height",
        "verdict",
        "actions",
        "sources",
    ];
    for key in keys {
        assert!(json.get(key).is_some(), "`{key}` is not in {json}");
    }
    assert!((number(&json, "mean_height_mm") - 4.015).abs() < 1e-9);
    assert!((number(&json, "range_mm") - 0.07).abs() < 1e-9);
    assert_eq!(json["residuals_mm"].as_array().unwrap().len(), 4);
    assert_eq!(json["second_harmonic_mm"], Value::Null);
    assert_eq!(json["verdict_mean_height"], Value::Null);
    assert_eq!(json["verdict"], "conforms");
    assert!(!json["sources"].as_array().unwrap().is_empty());
}

#[test]
fn a_cocked_ring_is_told_what_to_do_and_stops_a_gate() {
    let bench = Bench::new();
    bench.file("r.csv", COCKED);
    let json = height(&bench, &["--json"]).json();
    assert_eq!(json["verdict"], "does-not-conform");
    assert_eq!(json["tilt_deg"], Value::Null);
    let deeds: Vec<&str> =
        json["actions"].as_array().unwrap().iter().map(|a| a["do"].as_str().unwrap()).collect();
    assert_eq!(deeds, ["press", "lift", "measure-again"]);
    assert!((number(&json["actions"][0], "angle_deg") - 90.0).abs() < 1e-6);
    assert!((number(&json["actions"][0], "amount_mm") - 1.2).abs() < 1e-9);
    assert_eq!(height(&bench, &[]).code(), 0);
    assert_eq!(height(&bench, &["--gate"]).code(), 1);
    let text = height(&bench, &[]).stdout();
    assert!(text.contains("does not conform") && text.contains("Press down at 90 deg"), "{text}");
}

#[test]
fn inches_in_are_the_same_ring() {
    let bench = Bench::new();
    bench.file("r.csv", LEVEL);
    let mm = height(&bench, &["--json"]).json();
    let inches: String = LEVEL
        .lines()
        .map(|line| match line.split_once(',') {
            Some(("angle_deg", _)) => "angle_deg,height_in\n".to_owned(),
            Some((angle, height)) => {
                format!("{angle},{}\n", height.parse::<f64>().unwrap() / 25.4)
            }
            None => String::new(),
        })
        .collect();
    bench.file("r.csv", inches);
    let inch = height(&bench, &["--json"]).json();
    for key in ["mean_height_mm", "range_mm", "tilt_mm", "high_side_deg", "probability_conforms"] {
        assert!((number(&mm, key) - number(&inch, key)).abs() < 1e-8, "{key}");
    }
    assert!(height(&bench, &["--units", "inch"]).stdout().contains(" in"));
}

#[test]
fn a_seal_file_gives_limits_and_a_gauge_file_the_uncertainty() {
    let bench = Bench::new();
    bench.file("seal.toml", bench.run(&["new", "seal"]).stdout());
    bench.file("gauge.toml", bench.run(&["new", "gauge"]).stdout());
    bench.file("r.csv", LEVEL.replace(",4.", ",10.").replace(",3.", ",9."));
    let run = ["height", "r.csv", "--seal", "seal.toml", "--gauge", "gauge.toml", "--json"];
    let json = bench.run(&run).json();
    assert_eq!(json["verdict_range"], "conforms");
    assert_eq!(json["verdict_mean_height"], "conforms");
    assert!(number(&json, "tilt_deg") > 0.0);
    bench.file("r.csv", LEVEL);
    assert_eq!(bench.run(&run).json()["verdict"], "does-not-conform");
}

#[test]
fn a_gap_chain_gives_every_promised_key() {
    let bench = Bench::new();
    bench.file("c.csv", CHAIN);
    let json = bench.run(&["gap", "c.csv", "--limits", "2.8 mm..3.2 mm", "--json"]).json();
    // Worst case and root-sum-square of a public worked example of a stack-up.
    let expected = [
        ("nominal_gap_mm", 3.0, 1e-9),
        ("worst_min_mm", 2.77, 1e-9),
        ("worst_max_mm", 3.23, 1e-9),
        ("rss_min_mm", 3.0 - 0.126_095, 1e-6),
        ("rss_max_mm", 3.0 + 0.126_095, 1e-6),
        ("sampled_p0_135_mm", 3.0 - 0.126_095, 1e-3),
        ("sampled_p99_865_mm", 3.0 + 0.126_095, 1e-3),
        ("shim_mm", 0.0, 1e-9),
    ];
    for (key, value, tolerance) in expected {
        assert!((number(&json, key) - value).abs() <= tolerance, "{key}: {}", json[key]);
    }
    let links = json["links"].as_array().unwrap();
    assert_eq!(links[0]["name"], "bore depth");
    let shares: f64 = links.iter().map(|link| number(link, "share")).sum();
    assert!((shares - 1.0).abs() < 1e-9);
    assert_eq!(json["verdict"], "conforms");
    assert!(number(&json, "outside_limit_fraction") < 1e-4);
}

#[test]
fn gap_limits_may_be_negative_and_may_stop_a_gate() {
    let bench = Bench::new();
    bench.file("c.csv", "name,sign,nominal_mm,upper_mm,lower_mm\na,+,10,0.1,-0.1\nb,-,10,0,0\n");
    let run = |limits: &str| bench.run(&["gap", "c.csv", "--limits", limits, "--gate"]).code();
    assert_eq!(run("-0.2 mm..0.2 mm"), 0);
    assert_eq!(run("-2 mm..-1 mm"), 1);
}

#[test]
fn measured_sizes_replace_tolerances() {
    let bench = Bench::new();
    bench.file("c.csv", CHAIN);
    bench.file("m.csv", "name,value_mm,u_mm\nbore depth,40.06,0.005\n");
    let run = ["gap", "c.csv", "--limits", "2.8 mm..3.2 mm", "--measured", "m.csv", "--json"];
    let json = bench.run(&run).json();
    assert!((number(&json, "nominal_gap_mm") - 3.06).abs() < 1e-9);
    assert_eq!(json["links"][0]["measured"], true);
}

#[test]
fn every_starter_passes_its_own_check_and_schema() {
    let bench = Bench::new();
    for kind in ["seal", "joint", "gauge", "material"] {
        let name = format!("{kind}.toml");
        bench.file(&name, bench.run(&["new", kind]).stdout());
        let checked = bench.run(&["check", &name, "--gate"]);
        assert_eq!(checked.code(), 0, "{kind}: {}{}", checked.stdout(), checked.stderr());
        let schema = bench.run(&["schema", kind]).json();
        assert_eq!(schema["properties"]["schema"]["const"], format!("ringtrue/{kind}/1"));
    }
}

#[test]
fn dropping_the_unit_of_any_starter_line_is_refused_on_that_line() {
    let bench = Bench::new();
    for kind in ["seal", "joint", "gauge", "material"] {
        let starter = bench.run(&["new", kind]).stdout();
        let mut spoilt = 0;
        for (index, line) in starter.lines().enumerate() {
            let Some((key, value)) = line.split_once(" = \"") else { continue };
            let number: String = value
                .chars()
                .take_while(|c| c.is_ascii_digit() || matches!(c, '-' | '.' | 'e'))
                .collect();
            let rest = value[number.len()..].trim_end_matches('"');
            if line.starts_with('#') || number.is_empty() || !rest.starts_with(' ') {
                continue;
            }
            let bare = format!("{key} = \"{number}\"");
            let text: String = starter
                .lines()
                .enumerate()
                .map(|(i, line)| format!("{}\n", if i == index { bare.as_str() } else { line }))
                .collect();
            bench.file("spoilt.toml", text);
            let ran = bench.run(&["check", "spoilt.toml"]);
            let place = format!("spoilt.toml:{}:", index + 1);
            assert_eq!(ran.code(), 2, "{kind} `{bare}`: {}", ran.stdout());
            assert!(ran.stderr().contains(&place), "{kind} `{bare}`: {}", ran.stderr());
            spoilt += 1;
        }
        assert!(spoilt >= 3, "{kind}: only {spoilt} lines carry a unit");
    }
}

#[test]
fn parts_that_do_not_fit_are_no_bad_input() {
    let bench = Bench::new();
    let seal = bench.run(&["new", "seal"]).stdout();
    // The first angle is the ring's, so that ring and housing no longer agree.
    bench.file("seal.toml", seal.replacen("angle = \"15 deg\"", "angle = \"20 deg\"", 1));
    let ran = bench.run(&["check", "seal.toml"]);
    assert_eq!(ran.code(), 0, "{}", ran.stderr());
    assert!(ran.stdout().contains("does not conform"), "{}", ran.stdout());
    assert_eq!(bench.run(&["check", "seal.toml", "--gate"]).code(), 1);
}

#[test]
fn the_demo_ends_with_a_pdf_each_and_its_inputs() {
    let bench = Bench::new();
    let ran = bench.run(&["demo", "--out", "here"]);
    assert_eq!(ran.code(), 0, "{}", ran.stderr());
    let names: Vec<String> = bench
        .listing()
        .iter()
        .map(|(path, _)| path.strip_prefix(bench.path()).unwrap().display().to_string())
        .collect();
    for name in ["final-drive", "mixer-shaft"] {
        let pdf = bench.path().join(format!("here/{name}/{name}.pdf"));
        let bytes = std::fs::read(&pdf).unwrap_or_else(|e| panic!("{}: {e}", pdf.display()));
        assert!(bytes.starts_with(b"%PDF-") && bytes.len() > 20_000);
        assert!(names.contains(&format!("here/{name}/joint.toml")), "{names:?}");
    }
    let out = ran.stdout();
    assert!(out.contains("final-drive.pdf") && out.contains("conforms"), "{out}");
    // The whole job: recorded by two people, one store at rest, its PDF beside it.
    assert!(out.contains("1 correction, 1 override") && out.contains(", signed"), "{out}");
    for beside in ["-wal", "-shm", "-journal"] {
        assert!(!names.contains(&format!("here/record.db{beside}")), "{names:?}");
    }
    let verified = |arguments: &[&str]| {
        let json = bench.run(&[&["job", "verify", "--json"], arguments].concat()).json();
        assert_eq!(json["verified"], true, "{json}");
        assert_eq!(json["signers"].as_array().unwrap().len(), 2, "{json}");
        json["events"].as_u64().unwrap()
    };
    let stored = verified(&["--all", "--recompute", "--store", "here/record.db"]);
    assert!(stored > 100, "{stored} events");
    assert_eq!(verified(&["here/job.pdf"]), stored);
    // Again into the same folder: another job in the same record.
    let again = bench.run(&["demo", "--out", "here"]);
    assert_eq!(again.code(), 0, "{}", again.stderr());
    assert_eq!(verified(&["--all", "--store", "here/record.db"]), 2 * stored);
}

#[test]
fn a_report_and_its_drawings_are_written_whole() {
    let bench = Bench::new();
    bench.file("joint.toml", bench.run(&["new", "joint"]).stdout());
    bench.file("a.csv", LEVEL.replace(",4.", ",10.").replace(",3.", ",9."));
    bench.file("b.csv", COCKED);
    let ran = bench.run(&[
        "report",
        "joint.toml",
        "--readings",
        "a=a.csv",
        "b=b.csv",
        "--svg",
        "drawings",
        "-o",
        "out.pdf",
        "--gate",
    ]);
    assert_eq!(ran.code(), 1, "{}", ran.stderr());
    assert!(std::fs::read(bench.path().join("out.pdf")).unwrap().starts_with(b"%PDF-"));
    let drawings = std::fs::read_dir(bench.path().join("drawings")).unwrap().count();
    assert!(drawings >= 4, "{drawings} drawings");
}

#[test]
fn published_values_are_met() {
    let bench = Bench::new();
    let json = bench.run(&["validation", "--json"]).json();
    assert_eq!(json["failed"], 0, "{json}");
    assert!(number(&json, "compared") >= 150.0, "{}", json["compared"]);
    assert_eq!(bench.run(&["validation", "nonsense"]).code(), 2);
    assert_eq!(bench.run(&["validation", "iso286", "--out", "page"]).code(), 2);
}

#[test]
fn the_page_of_the_mechanics_is_fresh() {
    let bench = Bench::new();
    let kept = concat!(env!("CARGO_MANIFEST_DIR"), "/../../validation/mechanics");
    let ran = bench.run(&["validation", "mechanics", "--gate", "--kept", kept]);
    assert_eq!(ran.code(), 0, "{}", ran.stderr());
}
