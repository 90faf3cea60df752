use super::{Comparison, Status, ValidationError, cases, models, run};

const CASE: &str = r#"
[[case]]
id = "three-readings"
title = "Mean of three readings"
model = "type-a"
source = "arithmetic"
status = "recomputed"
verified_by = "by hand"
tol_rel = 1e-9
[case.inputs]
readings = [1.0, 2.0, 3]
[case.expected]
mean = 2.0
s = 1.0
"#;

fn compared(text: &str) -> Result<Vec<Comparison>, ValidationError> {
    run(&cases(text)?[0], |_| None)
}

fn said(text: &str) -> String {
    compared(text).expect_err("the case must be refused").to_string()
}

#[test]
fn a_right_number_passes() {
    let found = compared(CASE).unwrap();
    assert_eq!(found.len(), 2);
    assert!(found.iter().all(|c| c.pass && c.status == Status::Recomputed));
    assert_eq!((found[0].quantity.as_str(), found[0].computed), ("mean", 2.0));
}

#[test]
fn a_wrong_number_does_not_pass() {
    let found = compared(&CASE.replace("mean = 2.0", "mean = 2.1")).unwrap();
    assert!(!found[0].pass && found[1].pass);
    assert!((found[0].deviation + 0.1).abs() < 1e-12);
    assert_eq!(found[0].deviation_text(), "-0.1");
}

#[test]
fn the_larger_tolerance_holds() {
    let loose = CASE.replace("mean = 2.0", "mean = 2.1").replace("1e-9", "1e-9\ntol_abs = 0.2");
    let found = compared(&loose).unwrap();
    assert!(found[0].pass);
    assert!((found[0].tolerance - 0.2).abs() < 1e-15);
}

#[test]
fn a_case_that_could_not_fail_is_refused() {
    assert!(said(&CASE.replace("tol_rel = 1e-9", "")).contains("no tolerance"));
    assert!(said(&CASE.replace("1e-9", "1.0")).contains("between 0 and 1"));
    assert!(said(&CASE.replace("1e-9", "inf")).contains("between 0 and 1"));
    assert!(said(&CASE.replace("1e-9", "1e-9\ntol_abs = nan")).contains("above 0"));
    assert!(said(&CASE.replace("mean = 2.0\ns = 1.0", "")).contains("expects nothing"));
    assert!(said(&CASE.replace("mean = 2.0", "mean = []")).contains("expects nothing"));
    assert!(said(&CASE.replace("mean = 2.0", "mean = nan")).contains("no number"));
    assert!(said(&CASE.replace("mean = 2.0", "mean = 0.0")).contains("allows nothing"));
}

#[test]
fn a_check_does_not_skip_itself() {
    assert!(said(&CASE.replace("type-a", "type-b")).contains("the nearest is `type-a`"));
    assert!(said(&CASE.replace("mean =", "median =")).contains("gives no `median`, only mean, s"));
    assert!(said(&CASE.replace("mean = 2.0", "mean = [2.0]")).contains("a list of 1"));
    assert!(said(&CASE.replace("readings =", "reading =")).contains("`readings` is missing"));
    assert!(said(&CASE.replace("readings =", "spare = 1\nreadings =")).contains("takes no input"));
}

#[test]
fn a_refusal_of_the_calculation_is_passed_on() {
    assert!(matches!(
        compared(&CASE.replace("[1.0, 2.0, 3]", "[1.0]")),
        Err(ValidationError::Refused { .. })
    ));
}

#[test]
fn a_file_that_is_none_is_refused() {
    for text in ["", "[[case]]", "case = []", "x = 1", "[[case", &CASE.replace("title", "titel")] {
        assert!(matches!(cases(text), Err(ValidationError::File(_))), "{text}");
    }
    let twice = format!("{CASE}{CASE}");
    assert!(cases(&twice).unwrap_err().to_string().contains("same id"));
    assert!(cases(&CASE.replace("\"arithmetic\"", "\" \"")).is_err());
    assert!(cases(&CASE.replace("recomputed", "guessed")).is_err());
}

#[test]
fn a_table_is_found_by_its_name() {
    let text = CASE
        .replace("type-a", "linear-fit")
        .replace("readings = [1.0, 2.0, 3]", "data = \"t.csv\"\nterms = [\"1\", \"x\"]")
        .replace("mean = 2.0\ns = 1.0", "beta = [1.0, 2.0]");
    let case = &cases(&text).unwrap()[0];
    let with = |table: &'static str| run(case, |name| (name == "t.csv").then_some(table));
    let found = with("# a comment\ny, x\n1, 0\n3, 1\n5, 2\n").unwrap();
    assert!(found.iter().all(|c| c.pass));
    assert_eq!(found[1].quantity, "beta[1]");
    assert!(run(case, |_| None).unwrap_err().to_string().contains("no table `t.csv`"));
    assert!(with("y,x\n1,zero\n").unwrap_err().to_string().contains("no finite number"));
    assert!(with("y,x\n1\n").is_err());
    assert!(with("y,z\n1,0\n").unwrap_err().to_string().contains("no column `x`"));
}

#[test]
fn models_have_names_of_their_own() {
    let mut names = models();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), models().len());
}
