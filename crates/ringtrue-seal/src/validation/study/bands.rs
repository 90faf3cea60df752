//! Has a study moved against the one that was kept?

use super::Study;

/// Where a fresh run differs from a kept one by more than a tenth of a point's tolerance, or in
/// what is compared; `None` where the kept plot still tells the truth.
///
/// Finite-element results are not compared byte for byte: another processor sums in another order,
/// and an iteration stops one step sooner.
#[must_use]
pub fn moved(kept: &Study, fresh: &Study) -> Option<String> {
    let words = |study: &Study| {
        let series = study.series.iter();
        let names: Vec<String> = series.map(|s| format!("{} {:?}", s.name, s.source)).collect();
        (names, study.x.clone(), study.y.clone())
    };
    if words(kept) != words(fresh) {
        return Some("its axes, series or sources have changed".to_owned());
    }
    for (old, new) in kept.series.iter().zip(&fresh.series) {
        if old.points.len() != new.points.len() || old.line.len() != new.line.len() {
            return Some(format!("{}: another number of points", new.name));
        }
        for (was, is) in old.points.iter().zip(&new.points) {
            let tolerance = is.theirs + is.ours;
            let near = |was: f64, is: f64, allowed: f64| (was - is).abs() <= allowed;
            // A NaN is near nothing.
            let same = near(was.at, is.at, 1e-6 * is.at.abs())
                && near(was.computed, is.computed, 0.1 * tolerance)
                && near(was.expected, is.expected, 0.1 * tolerance);
            if !same {
                return Some(format!(
                    "{} at {}: kept {} for {}, fresh {} for {}",
                    new.name, is.at, was.computed, was.expected, is.computed, is.expected
                ));
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::super::{Point, ScaleKind, Series, Study, linear};
    use super::moved;
    use crate::validation::Status;

    fn study(computed: f64) -> Study {
        let point = Point { at: 1.0, expected: 2.0, computed, theirs: 0.1, ours: 0.1 };
        Study {
            name: "one".to_owned(),
            title: "One point".to_owned(),
            about: String::new(),
            x: linear("travel", "mm"),
            y: linear("force", "N"),
            series: vec![Series {
                name: "force".to_owned(),
                source: "made up".to_owned(),
                status: Status::Recomputed,
                line: vec![[1.0, computed]],
                points: vec![point],
            }],
        }
    }

    #[test]
    fn a_tenth_of_the_tolerance_is_let_pass() {
        assert_eq!(moved(&study(2.0), &study(2.019)), None);
        assert!(moved(&study(2.0), &study(2.021)).is_some());
        assert!(moved(&study(2.0), &study(f64::NAN)).is_some());
    }

    #[test]
    fn another_axis_or_a_lost_point_is_seen() {
        let mut other = study(2.0);
        other.y.kind = ScaleKind::Logarithmic;
        assert!(moved(&study(2.0), &other).is_some());
        let mut lost = study(2.0);
        lost.series[0].points.clear();
        assert!(moved(&study(2.0), &lost).is_some());
    }

    #[test]
    fn the_tolerance_is_the_sum_of_the_bands() {
        let compared = study(2.15).comparisons();
        assert!(compared[0].pass && compared[0].bands == Some([0.1, 0.1]));
        assert!(!study(2.25).comparisons()[0].pass);
        assert!(!study(f64::NAN).comparisons()[0].pass);
    }
}
