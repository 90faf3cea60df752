use super::super::{Level, errors, sample};
use super::check;

fn found(path: &str, text: &str) -> Vec<String> {
    errors(&check(&sample(&[(path, text)])))
}

const SEAL: &str = "crates/ringtrue-seal/src/gap_stack/chain.rs";

#[test]
fn a_long_function_is_found_and_a_short_one_is_not() {
    let function = |lines: usize| {
        let body = "    f(\"}\"); // }\n".repeat(lines - 2);
        format!("fn g() -> [u8; 3] {{\n{body}}}\nfn after() {{}}\n")
    };
    assert!(found(SEAL, &function(70)).is_empty());
    let long = found(SEAL, &function(71));
    assert_eq!(long.len(), 1);
    assert!(long[0].contains("chain.rs:1: `g` has 71 lines"), "{long:?}");
}

#[test]
fn a_long_signature_counts_and_a_function_type_does_not() {
    let arguments = "    a: u8,\n".repeat(70);
    assert_eq!(found(SEAL, &format!("fn g(\n{arguments}) {{}}\n")).len(), 1);
    let rest = "const X: u8 = 1;\n".repeat(80);
    assert!(found(SEAL, &format!("type F = fn(u8) -> u8;\n{rest}")).is_empty());
    assert!(found(SEAL, &format!("trait T {{ fn g(&self); }}\n{rest}")).is_empty());
}

#[test]
fn a_function_in_a_tests_module_is_measured_too() {
    let body = "    f();\n".repeat(80);
    let text = format!("#[cfg(test)]\nmod tests {{\n    #[test]\n    fn g() {{\n{body}}}\n}}\n");
    assert_eq!(found(SEAL, &text).len(), 1);
}

#[test]
fn a_wide_line_is_found_by_its_characters() {
    assert!(found(SEAL, &format!("// {}\n", "é".repeat(97))).is_empty());
    assert_eq!(found(SEAL, &format!("// {}\n", "e".repeat(98))).len(), 1);
    assert_eq!(found("test", &"#".repeat(101)).len(), 1);
    assert!(found("docs/handbook/gap.md", &"#".repeat(101)).is_empty());
}

#[test]
fn a_big_file_warns_then_fails_unless_it_is_a_table() {
    let lines = |count: usize| "// x\n".repeat(count);
    assert!(check(&sample(&[(SEAL, &lines(600))])).is_empty());
    let warned = check(&sample(&[(SEAL, &lines(601))]));
    assert_eq!(warned.len(), 1);
    assert_eq!(warned[0].level, Level::Warning);
    assert_eq!(found(SEAL, &lines(1001)).len(), 1);
    assert!(found(SEAL, &format!("//! Table of grades.\n{}", lines(1001))).is_empty());
}

#[test]
fn a_name_that_says_nothing_is_found() {
    assert_eq!(found("crates/ringtrue-job/src/utils.rs", "").len(), 1);
    assert_eq!(found("crates/ringtrue-job/src/misc/mod.rs", "").len(), 1);
    assert!(found("crates/ringtrue-job/src/common_mode.rs", "").is_empty());
}

#[test]
fn unwrap_is_found_outside_tests_only() {
    assert_eq!(found(SEAL, "fn f() { g().unwrap(); }").len(), 1);
    assert!(found(SEAL, "fn f() { g().unwrap_or(1); }").is_empty());
    assert!(found(SEAL, "fn f() { g(\".unwrap()\"); } // .unwrap()").is_empty());
    let mixed = "#[cfg(test)]\nmod tests { fn f() { g().unwrap(); } }\nfn h() { g().unwrap(); }\n";
    let places = found(SEAL, mixed);
    assert_eq!(places.len(), 1);
    assert!(places[0].contains("chain.rs:3"), "{places:?}");
    assert!(found("crates/ringtrue-seal/src/gap_stack/tests.rs", "g().unwrap()").is_empty());
    assert!(found("crates/ringtrue-seal/tests/it/main.rs", "g().unwrap()").is_empty());
}

#[test]
fn a_tests_module_in_its_own_file_hides_nothing_behind_it() {
    let text = "#[cfg(test)]\nmod tests;\nfn h() { g().unwrap(); }\n";
    assert_eq!(found(SEAL, text).len(), 1);
}

#[test]
fn unsafe_is_found_everywhere() {
    assert_eq!(found("crates/ringtrue-seal/tests/it/main.rs", "unsafe { f() }").len(), 1);
    assert!(found(SEAL, "#![forbid(unsafe_code)]").is_empty());
}

#[test]
fn printing_is_found_outside_the_doors() {
    for print in ["println!(\"x\")", "eprintln!()", "print!(\"x\")", "eprint!(\"x\")"] {
        assert_eq!(found(SEAL, &format!("fn f() {{ {print}; }}")).len(), 1, "{print}");
        let door = found("crates/ringtrue/src/cli/gap.rs", &format!("fn f() {{ {print}; }}"));
        assert!(door.is_empty());
    }
    assert_eq!(found("crates/ringtrue-job/src/lib.rs", "fn f() { println!(); }").len(), 1);
}

#[test]
fn digits_that_would_not_repeat_are_found_where_they_must() {
    assert_eq!(found(SEAL, "fn f(x: f64) -> f64 { x.sin() }").len(), 1);
    assert_eq!(found(SEAL, "fn f() { v.map(f64::ln) }").len(), 1);
    assert_eq!(found(SEAL, "use std::collections::HashMap;").len(), 1);
    assert!(found(SEAL, "fn f(x: f64) -> f64 { libm::sin(x).sqrt() }").is_empty());
    assert!(found(SEAL, "fn f(x: &D) -> f64 { x.ln_pdf(1.0) }").is_empty());
    assert!(found("crates/ringtrue-report/src/lib.rs", "fn f() { x.sin() }").is_empty());
}

#[test]
fn words_that_stop_the_program_are_found() {
    assert_eq!(found(SEAL, "fn f() { todo!() }").len(), 1);
    assert_eq!(found(SEAL, "fn f() { unimplemented!() }").len(), 1);
    assert_eq!(found(SEAL, "fn f() { dbg!(x); }").len(), 1);
}
