use super::*;

#[test]
fn verdicts_are_ordered_from_best_to_worst() {
    assert_eq!(
        Verdict::Conforms.max(Verdict::NotProven),
        Verdict::NotProven
    );
    assert_eq!(
        Verdict::NotProven.max(Verdict::DoesNotConform),
        Verdict::DoesNotConform
    );
}

#[test]
fn a_level_itself_decides() {
    let levels = Levels::DEFAULT;
    assert_eq!(levels.verdict(0.975), Verdict::Conforms);
    assert_eq!(levels.verdict(0.025), Verdict::DoesNotConform);
    assert_eq!(levels.verdict(0.5), Verdict::NotProven);
    assert!(Levels::new(0.5, 0.5).is_none() && Levels::new(f64::NAN, 0.1).is_none());
}
