//! The procedure: shown, planned for a joint, compared, begun anew and checked.

use serde_json::Value;

use crate::bench::Bench;

fn example(path: &str) -> String {
    format!("{}/../../examples/{path}", env!("CARGO_MANIFEST_DIR"))
}

fn listed<'v>(json: &'v Value, key: &str) -> &'v Vec<Value> {
    json[key].as_array().unwrap_or_else(|| panic!("`{key}` is no list in {json}"))
}

fn ids(list: &[Value], key: &str) -> Vec<String> {
    list.iter().map(|one| one[key].as_str().expect("it is text").to_owned()).collect()
}

#[test]
fn both_shipped_procedures_are_shown_with_cautions_before_the_work() {
    let bench = Bench::new();
    for kind in ["toric", "conical-washer"] {
        let text = bench.run(&["procedure", "show", kind]).stdout();
        for wanted in ["OPEN (once for the joint)", "LEVEL (once for each half)", "RUN-IN"] {
            assert!(text.contains(wanted), "{kind}: no {wanted}");
        }
        for point in ["housing-accepted", "height", "faces-clean-and-dry", "gap", "leak-test"] {
            assert!(text.contains(&format!("hold point {point}")), "{kind}: no {point}");
        }
        let step = text.split("make-safe: ").nth(1).unwrap();
        let at = |words: &str| step.find(words).unwrap_or_else(|| panic!("no {words}: {step}"));
        assert!(at("CAUTION: ") < at("Stop, block and lock out") && at("Why: ") < at("GATE: "));
        assert!(text.lines().all(|line| line.chars().count() <= 92), "{kind}");
        let json = bench.run(&["procedure", "show", kind, "--json"]).json();
        assert_eq!(json["load_ring"], kind);
        assert!((25..=60).contains(&listed(&json, "steps").len()));
        for step in listed(&json, "steps") {
            let hazards = step["hazards"].as_array().map_or(0, Vec::len);
            assert!(listed(step, "cautions").len() >= hazards, "{step}");
            assert!(step["times"] == "once" || step["times"] == "each-half", "{step}");
        }
        assert!(json.get("due").is_none());
    }
}

#[test]
fn a_joint_says_which_steps_are_due_and_why_others_fall_away() {
    let bench = Bench::new();
    let joint = example("final-drive/joint.toml");
    let json = bench.run(&["procedure", "show", "--joint", &joint, "--json"]).json();
    assert_eq!(json["load_ring"], "toric");
    let due = listed(&json, "due");
    let count = |id: &str| due.iter().filter(|due| due["step"] == id).count();
    assert_eq!((count("press-in"), count("height"), count("leak-test")), (2, 2, 1));
    assert_eq!((count("chill-toric"), count("lower-level")), (0, 0));
    let gone = listed(&json, "fell_away");
    let chill = gone.iter().find(|gone| gone["step"] == "chill-toric").unwrap();
    assert_eq!((&chill["half"], &chill["rule"]), (&"a".into(), &"chilling-allowed".into()));
    assert!(chill["because"].as_str().unwrap().contains("does not allow chilling"));
    assert_eq!(json["limits_without_gate"], serde_json::json!([]));
    let text = bench.run(&["procedure", "show", "--joint", &joint]).stdout();
    assert!(text.contains("half a seat     press-in: Press the ring in"), "{text}");
    assert!(text.contains("half b work-in: the face is 266 mm and is pressed in up to 300 mm"));
    let vertical = example("mixer-shaft/joint.toml");
    let json = bench.run(&["procedure", "show", "--joint", &vertical, "--json"]).json();
    assert_eq!(json["load_ring"], "conical-washer");
    assert!(ids(listed(&json, "due"), "step").contains(&"lower-level".to_owned()));
}

#[test]
fn the_procedure_for_the_other_load_ring_is_refused() {
    let bench = Bench::new();
    let joint = example("mixer-shaft/joint.toml");
    let ran = bench.run(&["procedure", "show", "toric", "--joint", &joint]);
    assert_eq!(ran.code(), 2);
    assert!(ran.stdout().is_empty());
    let said = ran.stderr();
    assert!(
        said.contains("Half a has a conical washer and the procedure is for a toric"),
        "{said}"
    );
}

#[test]
fn a_new_procedure_is_the_shipped_one_and_checks() {
    let bench = Bench::new();
    bench.file("own.toml", bench.run(&["new", "procedure"]).stdout());
    let washer = bench.run(&["new", "procedure", "--load-ring", "conical-washer"]).stdout();
    bench.file("washer.toml", washer);
    for (file, kind) in [("own.toml", "toric"), ("washer.toml", "conical-washer")] {
        let own = bench.run(&["procedure", "show", file, "--json"]).json();
        let shipped = bench.run(&["procedure", "show", kind, "--json"]).json();
        assert_eq!(own["content_hash"], shipped["content_hash"]);
        assert_eq!(own["content_hash"].as_str().unwrap().len(), 64);
        let json = bench.run(&["check", file, "--gate", "--json"]).json();
        assert_eq!(json["files"][0]["kind"], "procedure");
        assert_eq!(json["files"][0]["findings"].as_array().unwrap().len(), 5);
        assert_eq!(json["verdict"], "conforms");
    }
    let washer = bench.run(&["new", "seal", "--load-ring", "conical-washer"]).stdout();
    bench.file("seal.toml", washer);
    assert_eq!(bench.run(&["check", "seal.toml", "--gate"]).code(), 0);
    let ran = bench.run(&["new", "gauge", "--load-ring", "toric"]);
    assert_eq!((ran.code(), ran.stdout().as_str()), (2, ""));
    assert_eq!(bench.run(&["new", "procedure", "--load-ring", "lip"]).code(), 2);
    let schema = bench.run(&["schema", "procedure"]).json();
    assert_eq!(schema["properties"]["schema"]["const"], "ringtrue/procedure/1");
}

#[test]
fn two_editions_are_compared_step_by_step() {
    let bench = Bench::new();
    let text = bench.run(&["new", "procedure"]).stdout();
    bench.file("old.toml", &text);
    let newer = text
        .replace("version = \"1\"", "version = \"2\"")
        .replace("id = \"oil-faces\"", "id = \"oil-both-faces\"")
        .replace("ask = \"Heights round the ring, with the gauge\"", "ask = \"Six heights\"");
    bench.file("new.toml", &newer);
    let json = bench.run(&["procedure", "diff", "old.toml", "new.toml", "--json"]).json();
    assert_eq!(ids(listed(&json, "added"), "id"), ["oil-both-faces"]);
    assert_eq!(ids(listed(&json, "removed"), "id"), ["oil-faces"]);
    assert_eq!(ids(listed(&json, "head"), "key"), ["version"]);
    assert_eq!(ids(listed(&json, "changed"), "id"), ["height"]);
    assert_eq!(json["changed"][0]["fields"][0]["key"], "evidence.heights.ask");
    assert_eq!(json["changed"][0]["fields"][0]["new"], "Six heights");
    assert!(listed(&json, "moved").is_empty());
    let said = bench.run(&["procedure", "diff", "toric", "new.toml"]).stdout();
    assert!(said.contains("added   oil-both-faces") && said.contains("+ Six heights"), "{said}");
    assert!(
        said.contains("removed oil-faces") && said.contains("(was after wipe-faces)"),
        "{said}"
    );
    let same = bench.run(&["procedure", "diff", "toric", "old.toml"]).stdout();
    assert!(same.contains("The two texts are the same."), "{same}");
    bench.file("remark.toml", format!("# Our own remark.\n{text}"));
    let same = bench.run(&["procedure", "diff", "toric", "remark.toml"]).stdout();
    assert!(same.contains("No step and no word of them differs"), "{same}");
}

#[test]
fn a_wrong_procedure_is_refused_with_its_place_whatever_is_asked_of_it() {
    let bench = Bench::new();
    let text = bench.run(&["new", "procedure"]).stdout();
    let wrong = text.replacen("stage = \"level\"", "stage = \"levl\"", 1);
    let line = wrong.lines().position(|line| line == "stage = \"levl\"").unwrap() + 1;
    bench.file("wrong.toml", &wrong);
    let asked: [&[&str]; 4] = [
        &["check", "wrong.toml"],
        &["procedure", "show", "wrong.toml"],
        &["procedure", "diff", "toric", "wrong.toml"],
        &["procedure", "diff", "wrong.toml", "toric", "--json"],
    ];
    for arguments in asked {
        let ran = bench.run(arguments);
        assert_eq!((ran.code(), ran.stdout().as_str()), (2, ""), "{arguments:?}");
        let said = ran.stderr();
        assert!(said.contains(&format!("wrong.toml:{line}:9: ")), "{said}");
        assert!(said.to_lowercase().contains("did you mean `level`?"), "{said}");
    }
    for name in ["missing.toml", "toric.toml"] {
        let said = bench.run(&["procedure", "show", name]);
        assert_eq!(said.code(), 2);
        assert!(said.stderr().contains(name), "{}", said.stderr());
    }
    bench.file("seal.toml", bench.run(&["new", "seal"]).stdout());
    let said = bench.run(&["procedure", "show", "seal.toml"]).stderr();
    assert!(said.contains("This is a seal file"), "{said}");
}
