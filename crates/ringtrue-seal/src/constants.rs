//! Constants of nature, and the standard states that figures are counted at.

/// Molar gas constant, J/(mol K): SI, 2019, exact to its last digit here (8.314 462 618 153 24).
pub(crate) const GAS: f64 = 8.314_462_618;
/// Standard atmosphere, Pa: 10th CGPM, 1954, resolution 4.
pub(crate) const ATMOSPHERE: f64 = 101_325.0;
