use super::*;

#[test]
fn places_between_lie_on_straight_lines_and_stop_at_the_ends() {
    // Halves and quarters are exact.
    let place = |x: f64, load: f64| Place { x, load, expanded: load / 8.0, computed: 0.0 };
    let curve = [place(1.0, 4.0), place(2.0, 2.0), place(4.0, 0.0)];
    assert_eq!(between(&curve, 3.0), Some(place(3.0, 1.0)));
    assert_eq!(between(&curve, 9.0), Some(place(9.0, 0.0)));
    assert_eq!(between(&[], 1.0), None);
    assert_eq!(cut(&curve, 1.5), [place(1.0, 4.0), place(1.5, 3.0)]);
    assert_eq!(cut(&curve, 5.0), curve);
}
