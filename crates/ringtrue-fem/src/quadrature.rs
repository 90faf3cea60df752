//! Quadrature rules on [-1, 1] and its square.

/// Gauss-Legendre abscissae of three points, exact to degree 5.
const GAUSS_3: [f64; 3] = [-0.774_596_669_241_483_4, 0.0, 0.774_596_669_241_483_4];
const GAUSS_3_WEIGHT: [f64; 3] = [5.0 / 9.0, 8.0 / 9.0, 5.0 / 9.0];

/// Points `(xi, eta, weight)` of the 3 x 3 Gauss rule: integrates the nine-node element's
/// stiffness.
#[must_use]
pub fn gauss_3x3() -> [[f64; 3]; 9] {
    let mut points = [[0.0; 3]; 9];
    for j in 0..3 {
        for i in 0..3 {
            points[3 * j + i] = [GAUSS_3[i], GAUSS_3[j], GAUSS_3_WEIGHT[i] * GAUSS_3_WEIGHT[j]];
        }
    }
    points
}

/// Points `(xi, weight)` of Simpson's rule, exact to degree 3: the nodes of a quadratic edge.
#[must_use]
pub fn simpson() -> [[f64; 2]; 3] {
    [[-1.0, 1.0 / 3.0], [0.0, 4.0 / 3.0], [1.0, 1.0 / 3.0]]
}
