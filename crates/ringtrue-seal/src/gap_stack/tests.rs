use super::*;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn drawn(sign: Sign, nominal: f64, upper: f64, lower: f64) -> Link {
    let size = Size::Drawn {
        nominal: mm(nominal),
        upper: mm(upper),
        lower: mm(lower),
        spread: Spread::Normal,
    };
    Link { name: format!("{nominal}"), sign, size }
}

fn input(links: Vec<Link>, low: f64, high: f64) -> Input {
    Input {
        links,
        limits: (mm(low), mm(high)),
        shims_on_hand: Vec::new(),
        levels: Levels::DEFAULT,
        draws: DRAWS,
        seed: SEED,
    }
}

/// Bore depth, spacer, ring, shoulder: a public worked example of a stack-up; inputs and nominal
/// read, worst case and root-sum-square from its inputs.
fn housing_bore() -> Vec<Link> {
    use Sign::{Closes, Opens};
    vec![
        drawn(Opens, 40.0, 0.1, -0.1),
        drawn(Closes, 25.0, 0.05, -0.05),
        drawn(Closes, 2.0, 0.03, -0.03),
        drawn(Closes, 10.0, 0.05, -0.05),
    ]
}

#[test]
fn worst_case_and_root_sum_square_of_a_published_stack() {
    let outcome = evaluate(&input(housing_bore(), 2.8, 3.2)).unwrap();
    assert!((outcome.nominal_gap_mm - 3.0).abs() < 1e-12);
    assert!((outcome.worst_max_mm - 3.23).abs() < 1e-12);
    assert!((outcome.worst_min_mm - 2.77).abs() < 1e-12);
    // 0.126 095 rounded in the source to 0.1261.
    assert!((outcome.rss_max_mm - 3.126_095).abs() < 5e-7);
    let shares: f64 = outcome.links.iter().map(|link| link.share).sum();
    assert!((shares - 1.0).abs() < 1e-12);
    assert!((outcome.links[0].share - 0.01 / 0.0159).abs() < 1e-12);
}

#[test]
fn normal_links_sample_to_three_sigma_at_the_root_sum_square() {
    let outcome = evaluate(&input(housing_bore(), 2.874, 3.126)).unwrap();
    // A sum of normals is normal: its 0.135 % point lies 2.999 98 sigma below the middle. A million
    // random draws would find it with a standard error of 0.0083 sigma, sqrt(p / n) over the
    // density there; two and a half of those are left open.
    let sigma = outcome.standard_deviation_mm;
    assert!((outcome.sampled_p0_135_mm - (3.0 - 2.999_977 * sigma)).abs() < 0.02 * sigma);
    assert!((outcome.sampled_p99_865_mm - (3.0 + 2.999_977 * sigma)).abs() < 0.02 * sigma);
    assert!((outcome.outside_limit_fraction - 0.0027).abs() < 1e-4);
    assert_eq!(outcome.verdict, Verdict::Conforms);
}

#[test]
fn unequal_limits_are_taken_about_their_middle() {
    let outcome = evaluate(&input(vec![drawn(Sign::Opens, 10.0, 0.0, -0.2)], 9.0, 11.0)).unwrap();
    assert_eq!(outcome.nominal_gap_mm, 10.0);
    assert!((outcome.mean_gap_mm - 9.9).abs() < 1e-12);
    assert!((outcome.rss_min_mm - 9.8).abs() < 1e-12);
    assert!((outcome.shim_mm - 0.1).abs() < 1e-12);
}

#[test]
fn a_measured_link_replaces_its_tolerance() {
    let mut links = housing_bore();
    links[0].size = Size::Measured { value: mm(40.06), standard_uncertainty: mm(0.005) };
    let outcome = evaluate(&input(links, 2.8, 3.2)).unwrap();
    assert!((outcome.nominal_gap_mm - 3.06).abs() < 1e-12);
    assert!((outcome.worst_max_mm - (3.06 + 0.13 + 0.015)).abs() < 1e-12);
    assert!(outcome.links[0].measured && outcome.links[0].share < 0.05);
}

#[test]
fn shims_on_hand_are_ranked_and_the_one_that_brings_it_in_leads() {
    let mut input = input(housing_bore(), 3.2, 3.6);
    input.shims_on_hand = [0.1, 0.1, 0.2, 0.5].map(mm).to_vec();
    let outcome = evaluate(&input).unwrap();
    assert_eq!(outcome.verdict, Verdict::DoesNotConform);
    assert!((outcome.shim_mm - 0.4).abs() < 1e-12);
    let best = &outcome.shims_on_hand[0];
    assert_eq!((best.pieces_mm.as_slice(), best.verdict), (&[0.5][..], Verdict::Conforms));
    let pair = outcome.shims_on_hand.iter().find(|set| set.pieces_mm.len() == 3).unwrap();
    assert_eq!(pair.pieces_mm, [0.1, 0.1, 0.2]);
}

#[test]
fn the_same_seed_gives_the_same_digits() {
    let once = evaluate(&input(housing_bore(), 2.8, 3.2)).unwrap();
    assert_eq!(once, evaluate(&input(housing_bore(), 2.8, 3.2)).unwrap());
}

#[test]
fn a_chain_without_spread_has_a_gap_and_a_verdict() {
    let fixed = || vec![drawn(Sign::Opens, 3.0, 0.0, 0.0), drawn(Sign::Closes, 5.0, 0.0, 0.0)];
    let outcome = evaluate(&input(fixed(), -2.5, -1.5)).unwrap();
    assert_eq!((outcome.nominal_gap_mm, outcome.verdict), (-2.0, Verdict::Conforms));
    assert_eq!(outcome.links[0].share, 0.0);
    let outside = evaluate(&input(fixed(), 1.0, 2.0)).unwrap();
    assert_eq!((outside.outside_limit_fraction, outside.verdict), (1.0, Verdict::DoesNotConform));
}

#[test]
fn what_is_no_chain_is_refused() {
    assert!(evaluate(&input(Vec::new(), 1.0, 2.0)).is_err());
    assert!(evaluate(&input(housing_bore(), 3.0, 2.0)).is_err());
    assert!(evaluate(&input(vec![drawn(Sign::Opens, 1.0, -0.1, 0.1)], 0.0, 2.0)).is_err());
    let mut no_draws = input(housing_bore(), 2.0, 3.0);
    no_draws.draws = 0;
    assert!(evaluate(&no_draws).is_err());
}
