//! A rubber's law from stretch tests, and the face load that takes it.

use crate::bench::Bench;

const PULL: &str = "stretch,stress_MPa\n1.0,0\n1.1,0.31\n1.2,0.58\n1.4,1.05\n1.6,1.46\n1.8,1.86\n";
const STRIP: &str = "strain_percent;stress_kPa\n10;400\n30;980\n50;1420\n80;2000\n";

#[test]
fn two_tests_give_constants_a_plot_and_a_verdict() {
    let bench = Bench::new();
    bench.file("pull.csv", PULL);
    bench.file("strip.csv", STRIP);
    let files = ["fit", "--uniaxial", "pull.csv", "--planar", "strip.csv", "--law", "neo-hooke"];
    let json = bench.run(&[&files[..], &["--json", "--out", "out"]].concat()).json();
    assert_eq!(json["constants"].as_array().unwrap().len(), 1);
    assert_eq!(json["points"], 10);
    assert_eq!(json["verdict"], "conforms");
    // The second test's strains and kPa are stretches and MPa.
    assert_eq!(json["tests"][1]["points"][0][0], 1.1);
    assert!((json["tests"][1]["points"][0][1].as_f64().unwrap() - 0.4).abs() < 1e-12);
    assert!(bench.path().join("out/rubber-law.svg").exists());
}

#[test]
fn wrong_tests_are_refused_where_they_are_wrong() {
    let bench = Bench::new();
    for (text, line, said) in [
        ("stretch,stress_MPa\n1.1,0.3\n1.3,0.8\n1.2,0.6\n", ":4:", "one way"),
        ("stretch,stress_MPa\n0,0.3\n1.3,0.8\n1.4,0.9\n", ":2:", "unstretched"),
        ("stretch,stress_MPa\n1.2,0.6\n", ":2:", "3 points"),
        ("stretch,stress_MPa\n1.1,0.3\n1.3,-0.8\n1.4,0.9\n", ":3:", "unit"),
        ("stretch,stress\n1.1,0.3\n1.3,0.8\n1.4,0.9\n", ":2:", "unit"),
        ("stress_MPa\n0.3\n0.8\n0.9\n", "", "strain_percent"),
    ] {
        bench.file("wrong.csv", text);
        let run = bench.run(&["fit", "--uniaxial", "wrong.csv", "--law", "neo-hooke"]);
        assert_eq!(run.code(), 2, "{text}");
        let told = run.stderr();
        assert!(told.contains(&format!("wrong.csv{line}")) && told.contains(said), "{told}");
    }
    bench.file("pull.csv", PULL);
    for (law, said) in [("ogden", "terms"), ("hooke", "the laws are")] {
        let run = bench.run(&["fit", "--uniaxial", "pull.csv", "--law", law]);
        assert_eq!(run.code(), 2);
        assert!(run.stderr().contains(said), "{}", run.stderr());
    }
    let wrong = bench.run(&["new", "material"]).stdout().replace("\"uniaxial\"", "\"sideways\"");
    bench.file("wrong.toml", wrong);
    let run = bench.run(&["fit", "wrong.toml"]);
    assert!(run.code() == 2 && run.stderr().contains("sideways"), "{}", run.stderr());
}

#[test]
fn a_law_that_holds_nowhere_is_a_verdict_and_no_error() {
    let bench = Bench::new();
    // Exact stresses of a law with c10 = 1 and c01 = -1.05 MPa: above stretch 1.05 all is well.
    let pull = "stretch,stress_MPa\n1.1,0.0249\n1.3,0.2724\n1.5,0.6333\n1.8,1.2428\n";
    bench.file("pull.csv", pull);
    let fit = ["fit", "--uniaxial", "pull.csv", "--law", "mooney-rivlin"];
    let run = bench.run(&[&fit[..], &["--json"]].concat());
    assert_eq!(run.code(), 0, "{}", run.stderr());
    let json = run.json();
    assert_eq!(json["verdict"], "does-not-conform");
    assert!((json["young_mpa"].as_f64().unwrap() + 0.3).abs() < 0.02, "{}", json["young_mpa"]);
    let run = bench.run(&[&fit[..], &["--gate"]].concat());
    assert_eq!(run.code(), 1);
    assert!(run.stdout().contains("the law holds nowhere"), "{}", run.stdout());
    // A face load is not worked out with it.
    let material = bench.run(&["new", "material"]).stdout();
    let (head, rest) = material.split_once("[stiffness]").unwrap();
    let (_, tail) = rest.split_once("\n]\n").unwrap();
    let law = "law = \"mooney-rivlin\"\nsource = \"example\"";
    let tests = "tests = [{ mode = \"uniaxial\", file = \"pull.csv\" }]";
    bench.file("rubber.toml", format!("{head}[stiffness]\n{law}\n{tests}\n{tail}"));
    let seal = bench.run(&["new", "seal"]).stdout();
    let of_file = seal.replace("material = \"NBR\"", "material = \"rubber.toml\"");
    bench.file("seal.toml", of_file.replace("hardness = \"60 Shore A\"\n", ""));
    let run = bench.run(&["load", "seal.toml", "--fresh"]);
    assert_eq!(run.code(), 2);
    assert!(run.stderr().contains("unstable at a stretch of 1.00"), "{}", run.stderr());
}

#[test]
fn the_example_of_three_published_tests_gives_a_stable_law() {
    let bench = Bench::new();
    let gum = format!("{}/../../examples/stretch-tests/gum.toml", env!("CARGO_MANIFEST_DIR"));
    let json = bench.run(&["fit", &gum, "--json"]).json();
    assert_eq!(json["verdict"], "conforms");
    assert_eq!(json["points"], 53);
    assert_eq!(json["constants"].as_array().unwrap().len(), 6);
    // Another least-squares program gives 0.354 MPa; R. W. Ogden's own constants (1972), fitted by
    // hand, have 0.414 MPa.
    let shear = json["young_mpa"].as_f64().unwrap() / 3.0;
    assert!((0.34..0.42).contains(&shear), "{shear}");
}

#[test]
fn the_face_load_takes_the_tests_of_a_materials_file() {
    let bench = Bench::new();
    bench.file("pull.csv", PULL);
    let material = bench.run(&["new", "material"]).stdout();
    let (head, rest) = material.split_once("tests = [").unwrap();
    let (_, tail) = rest.split_once("\n]\n").unwrap();
    let named = "tests = [{ mode = \"uniaxial\", file = \"pull.csv\" }]\n";
    bench.file("rubber.toml", format!("{head}{named}{tail}"));
    let seal = bench.run(&["new", "seal"]).stdout();
    let of_file = seal.replace("material = \"NBR\"", "material = \"rubber.toml\"");
    assert_ne!(of_file, seal);
    bench.file("seal.toml", of_file.replace("hardness = \"60 Shore A\"\n", ""));
    let json = bench.run(&["load", "seal.toml", "--fresh", "--json"]).json();
    let half = &json["halves"][0];
    assert_eq!(half["modulus"]["basis"], "tests");
    let u = half["modulus"]["relative_standard_uncertainty"].as_f64().unwrap();
    // The batch's 10 % of the starter, and the tests' own scatter.
    assert!(u > 0.1 && u < 0.14, "{u}");
    assert_eq!(half["stretch_at_break"]["elongation_at_break_percent"][0], 250.0);
    assert!(half["curve"][5]["error_band_n_per_mm"].as_f64().unwrap() > 0.0);
    // The material that stands alone gives the same.
    bench.run(&["fit", "rubber.toml", "--out", "whole", "--json"]).json();
    std::fs::rename(bench.path().join("whole/material.toml"), bench.path().join("rubber.toml"))
        .unwrap();
    std::fs::remove_file(bench.path().join("pull.csv")).unwrap();
    let again = bench.run(&["load", "seal.toml", "--fresh", "--json"]).json();
    assert_eq!(again["halves"][0]["modulus"], half["modulus"]);
}
