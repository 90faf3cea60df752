//! Numbers to the digits that their tolerance can tell apart.

/// Most digits behind the point or after the first one: an `f64` has no more.
const MOST_DIGITS: i32 = 15;

/// A number rounded to a hundredth of the tolerance, as `12.3456` or, far from 1, as `1.23e-9`.
pub(super) fn number(value: f64, tolerance: f64) -> String {
    if !value.is_finite() {
        return value.to_string();
    }
    let step = order(tolerance).saturating_sub(2);
    if value == 0.0 || order(value) < step {
        return "0".to_owned();
    }
    let size = order(value);
    if (-4..9).contains(&size) {
        let decimals = (-step).clamp(0, MOST_DIGITS - size.max(0));
        let text = format!("{value:.0$}", decimals as usize);
        return if text.contains('.') { trimmed(&text).to_owned() } else { text };
    }
    let text = format!("{value:.0$e}", (size - step).clamp(0, MOST_DIGITS) as usize);
    match text.split_once('e') {
        Some((digits, power)) if digits.contains('.') => format!("{}e{power}", trimmed(digits)),
        _ => text,
    }
}

/// Power of ten of the first digit.
fn order(value: f64) -> i32 {
    libm::floor(libm::log10(value.abs())) as i32
}

fn trimmed(text: &str) -> &str {
    text.trim_end_matches('0').trim_end_matches('.')
}

#[cfg(test)]
mod tests {
    use super::number;

    #[test]
    fn the_tolerance_decides_the_digits() {
        assert_eq!(number(0.123_456_789, 1e-3), "0.12346");
        assert_eq!(number(0.123_456_789, 1e-9), "0.123456789");
        assert_eq!(number(-3_482_258.634_6, 0.03), "-3482258.6346");
        assert_eq!(number(50_000_838.0, 600_000.0), "50000838");
        assert_eq!(number(12.0, 1e-6), "12");
    }

    #[test]
    fn what_is_only_rounding_is_zero() {
        assert_eq!(number(1.3e-15, 1e-12), "0");
        assert_eq!(number(0.0, 1e-12), "0");
        assert_eq!(number(3e-12, 1e-12), "3e-12");
    }

    #[test]
    fn far_from_one_it_has_a_power() {
        assert_eq!(number(9.279_431_083_94e-10, 1e-18), "9.2794310839e-10");
        assert_eq!(number(6.022e23, 1e21), "6.022e23");
        assert_eq!(number(f64::NAN, 1.0), "NaN");
    }
}
