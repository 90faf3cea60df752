//! Constants from test data: least squares over all tests together, then a check of stability.

use levenberg_marquardt::{LeastSquaresProblem, LevenbergMarquardt};
use nalgebra_034::{DMatrix, DVector, Dyn, storage::Owned};

use super::stability::{Instability, first_instability};
use super::{Material, Mode, MooneyRivlin, NeoHooke, Ogden, OgdenTerm, Yeoh, nominal_stress};

/// One test: nominal stress against stretch in one mode.
#[derive(Debug, Clone, PartialEq)]
pub struct Test {
    /// How the specimen was loaded.
    pub mode: Mode,
    /// Pairs of stretch and nominal (engineering) stress, MPa; compression is below 1 and negative.
    pub points: Vec<[f64; 2]>,
}

/// Which law is fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// One constant.
    NeoHooke,
    /// Two constants.
    MooneyRivlin,
    /// Three constants.
    Yeoh,
    /// This many terms of two constants each, 1 to 4.
    Ogden {
        /// Number of terms.
        terms: usize,
    },
}

impl Family {
    /// Number of constants.
    #[must_use]
    pub fn constants(self) -> usize {
        match self {
            Self::NeoHooke => 1,
            Self::MooneyRivlin => 2,
            Self::Yeoh => 3,
            Self::Ogden { terms } => 2 * terms,
        }
    }

    fn build(self, c: &[f64], bulk: f64) -> Material {
        match self {
            Self::NeoHooke => Material::NeoHooke(NeoHooke { mu: c[0], bulk }),
            Self::MooneyRivlin => {
                Material::MooneyRivlin(MooneyRivlin { c10: c[0], c01: c[1], bulk })
            }
            Self::Yeoh => Material::Yeoh(Yeoh { c10: c[0], c20: c[1], c30: c[2], bulk }),
            Self::Ogden { .. } => Material::Ogden(Ogden {
                terms: c.chunks_exact(2).map(|t| OgdenTerm { mu: t[0], alpha: t[1] }).collect(),
                bulk,
            }),
        }
    }
}

/// A fitted law and how good it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// Which law was fitted.
    pub family: Family,
    /// The law with its constants.
    pub material: Material,
    /// The constants in the order of the law: moduli in MPa; Ogden's as `mu, alpha` term by term.
    pub constants: Vec<f64>,
    /// Covariance of the constants from the scatter of the residuals, `s^2 (J^T J)^-1` with
    /// `s^2 = sum r^2 / (points - constants)`: residuals taken as independent.
    pub covariance: Vec<Vec<f64>>,
    /// Points that were fitted.
    pub points: usize,
    /// Root mean square of the stress residuals over all tests, MPa.
    pub rms_mpa: f64,
    /// Largest residual over the measured stress, for points beyond 2 % strain.
    pub worst_relative: f64,
    /// First instability met going out from the unstretched state, in any of the three modes, over
    /// the range of stretches that the tests cover and its mirror in compression.
    pub unstable: Option<Instability>,
    /// The same out to [`FAR`], or as far as the tests go: the law's own end.
    pub ends: Option<Instability>,
}

impl Fit {
    /// Standard uncertainty of the law's nominal stress that comes from its constants, MPa.
    #[must_use]
    pub fn stress_uncertainty(&self, mode: Mode, stretch: f64) -> f64 {
        let slope = slopes(self.family, &self.constants, mode, stretch);
        let of = |i: usize, j: usize| slope[i] * self.covariance[i][j] * slope[j];
        let n = slope.len();
        (0..n).flat_map(|i| (0..n).map(move |j| (i, j))).map(|(i, j)| of(i, j)).sum::<f64>().sqrt()
    }

    /// Standard uncertainty of each constant.
    #[must_use]
    pub fn standard_uncertainties(&self) -> Vec<f64> {
        self.covariance.iter().enumerate().map(|(i, row)| row[i].sqrt()).collect()
    }
}

/// Stretch to which a law's end is looked for where the tests do not go further.
pub const FAR: f64 = 10.0;

/// Why no constants were found.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FitError {
    /// A value cannot be a stretch or a stress.
    #[error("point {point} of test {test}: stretch {stretch} and stress {stress} MPa are unusable")]
    Point {
        /// One-based number of the test.
        test: usize,
        /// One-based number of the point.
        point: usize,
        /// The stretch found.
        stretch: f64,
        /// The stress found.
        stress: f64,
    },
    /// More constants than the data can carry and still scatter.
    #[error(
        "{constants} constants need more than {constants} points away from stretch 1; {found} found"
    )]
    TooFew {
        /// Constants wanted.
        constants: usize,
        /// Usable points found.
        found: usize,
    },
    /// The number of Ogden terms is out of range.
    #[error("{0} Ogden terms; ask for 1 to 4")]
    Terms(usize),
    /// The equations did not determine the constants.
    #[error(
        "the tests do not tell the constants apart; add another mode of loading, or take a law of \
         fewer constants"
    )]
    Undetermined,
}

/// Fits `family` to all `tests` together, least squares of the nominal stress in MPa.
///
/// Test machines make incompressible states: the stress follows from the law with `J = 1`, and
/// `bulk` (MPa) is only passed on. The linear laws are solved directly; Ogden's by
/// Levenberg-Marquardt from several fixed starts, the best of which is kept.
///
/// # Errors
/// [`FitError`], with the offending point or what would fit.
pub fn fit(family: Family, tests: &[Test], bulk: f64) -> Result<Fit, FitError> {
    let data = usable(tests)?;
    let constants = family.constants();
    if let Family::Ogden { terms } = family
        && !(1..=4).contains(&terms)
    {
        return Err(FitError::Terms(terms));
    }
    let away = data.iter().filter(|d| (d.1 - 1.0).abs() > 1e-6).count();
    if away <= constants {
        return Err(FitError::TooFew { constants, found: away });
    }
    let best = match family {
        Family::NeoHooke | Family::MooneyRivlin | Family::Yeoh => linear(family, &data)?,
        Family::Ogden { terms } => ogden(terms, &data)?,
    };
    let material = family.build(&best, bulk);
    let miss = |d: &Datum| nominal_stress(material.law(), d.0, d.1) - d.2;
    let rms = (data.iter().map(|d| miss(d).powi(2)).sum::<f64>() / data.len() as f64).sqrt();
    let worst = data
        .iter()
        .filter(|d| (d.1 - 1.0).abs() > 0.02 && d.2 != 0.0)
        .map(|d| (miss(d) / d.2).abs())
        .fold(0.0, f64::max);
    let reach = data.iter().map(|d| d.1.max(1.0 / d.1)).fold(1.0, f64::max);
    let variance =
        data.iter().map(|d| miss(d).powi(2)).sum::<f64>() / (data.len() - constants).max(1) as f64;
    Ok(Fit {
        family,
        covariance: covariance(family, &best, &data, variance)?,
        constants: best,
        points: data.len(),
        rms_mpa: rms,
        worst_relative: worst,
        unstable: first_instability(material.law(), reach),
        ends: first_instability(material.law(), reach.max(FAR)),
        material,
    })
}

/// Derivatives of the nominal stress by the constants.
fn slopes(family: Family, constants: &[f64], mode: Mode, stretch: f64) -> Vec<f64> {
    let n = family.constants();
    (0..n)
        .map(|j| match family {
            // Linear: the derivative is the stress of the unit law.
            Family::NeoHooke | Family::MooneyRivlin | Family::Yeoh => {
                let mut unit = vec![0.0; n];
                unit[j] = 1.0;
                nominal_stress(family.build(&unit, 1.0).law(), mode, stretch)
            }
            Family::Ogden { .. } => {
                let (mu, alpha) = (constants[j / 2 * 2], constants[j / 2 * 2 + 1]);
                let (value, slope) = OgdenProblem::basis(mode, stretch, alpha);
                if j % 2 == 0 { value } else { mu * slope }
            }
        })
        .collect()
}

/// `variance (J^T J)^-1` by the singular values of `J` with its columns scaled to length 1.
fn covariance(
    family: Family,
    constants: &[f64],
    data: &[Datum],
    variance: f64,
) -> Result<Vec<Vec<f64>>, FitError> {
    let n = constants.len();
    let rows: Vec<Vec<f64>> = data.iter().map(|d| slopes(family, constants, d.0, d.1)).collect();
    let jacobian = DMatrix::from_fn(data.len(), n, |i, j| rows[i][j]);
    let scale: Vec<f64> = jacobian.column_iter().map(|c| c.norm()).collect();
    if scale.iter().any(|s| !(*s > 0.0)) {
        return Err(FitError::Undetermined);
    }
    let scaled = DMatrix::from_fn(data.len(), n, |i, j| jacobian[(i, j)] / scale[j]);
    let parts = scaled.svd(false, true);
    let (Some(right), least) = (parts.v_t, parts.singular_values.min()) else {
        return Err(FitError::Undetermined);
    };
    if least < RANK * parts.singular_values.max() {
        return Err(FitError::Undetermined);
    }
    let of = |i: usize, j: usize| -> f64 {
        let sum: f64 =
            (0..n).map(|k| right[(k, i)] * right[(k, j)] / parts.singular_values[k].powi(2)).sum();
        variance * sum / (scale[i] * scale[j])
    };
    Ok((0..n).map(|i| (0..n).map(|j| of(i, j)).collect()).collect())
}

/// Singular values below this share of the largest are none.
const RANK: f64 = 1e-9;

/// Mode, stretch, nominal stress.
type Datum = (Mode, f64, f64);

fn usable(tests: &[Test]) -> Result<Vec<Datum>, FitError> {
    let mut data = Vec::new();
    for (t, test) in tests.iter().enumerate() {
        for (p, &[stretch, stress]) in test.points.iter().enumerate() {
            if !(stretch.is_finite() && stretch > 0.0 && stretch < 100.0 && stress.is_finite()) {
                return Err(FitError::Point { test: t + 1, point: p + 1, stretch, stress });
            }
            data.push((test.mode, stretch, stress));
        }
    }
    Ok(data)
}

/// The stress is linear in the constants: its columns are the stresses of the unit laws.
fn linear(family: Family, data: &[Datum]) -> Result<Vec<f64>, FitError> {
    let n = family.constants();
    let rows: Vec<Vec<f64>> = data.iter().map(|d| slopes(family, &[], d.0, d.1)).collect();
    let columns = DMatrix::from_fn(data.len(), n, |i, j| rows[i][j]);
    let wanted = DVector::from_iterator(data.len(), data.iter().map(|d| d.2));
    // Column scaling keeps Yeoh's cubic column from hiding the linear one in the rank test.
    let scale: Vec<f64> = columns.column_iter().map(|c| c.norm()).collect();
    if scale.contains(&0.0) {
        return Err(FitError::Undetermined);
    }
    let scaled = DMatrix::from_fn(data.len(), n, |i, j| columns[(i, j)] / scale[j]);
    let parts = scaled.svd(true, true);
    if parts.singular_values.min() < RANK * parts.singular_values.max() {
        return Err(FitError::Undetermined);
    }
    let solution = parts.solve(&wanted, 0.0).map_err(|_| FitError::Undetermined)?;
    Ok(solution.iter().zip(&scale).map(|(x, s)| x / s).collect())
}

/// Powers to start from, for one to four terms.
const STARTS: [[f64; 4]; 4] =
    [[2.0, -2.0, 5.0, 1.0], [1.3, 5.0, -2.0, 8.0], [3.0, -1.0, 8.0, 0.5], [0.8, 4.0, -3.0, 10.0]];

fn ogden(terms: usize, data: &[Datum]) -> Result<Vec<f64>, FitError> {
    let mut best: Option<(f64, Vec<f64>)> = None;
    for start in STARTS {
        let mut constants = Vec::with_capacity(2 * terms);
        for (k, &alpha) in start[..terms].iter().enumerate() {
            constants.extend([if k == 0 { 0.5 } else { 0.01 } * alpha.signum(), alpha]);
        }
        let problem = OgdenProblem { constants: DVector::from_vec(constants), data };
        let (problem, report) = LevenbergMarquardt::new().with_patience(200).minimize(problem);
        let value = report.objective_function;
        if value.is_finite() && best.as_ref().is_none_or(|b| value < b.0) {
            best = Some((value, problem.constants.iter().copied().collect()));
        }
    }
    match best {
        Some((_, constants)) if constants.iter().all(|c| c.is_finite()) => Ok(constants),
        Some(_) | None => Err(FitError::Undetermined),
    }
}

struct OgdenProblem<'a> {
    constants: DVector<f64>,
    data: &'a [Datum],
}

impl OgdenProblem<'_> {
    fn terms(&self) -> usize {
        self.constants.len() / 2
    }

    /// Nominal stress over `mu` of a term with power `alpha`: `l^(alpha - 1)` less the share of the
    /// free direction, and its derivative by `alpha`.
    fn basis(mode: Mode, l: f64, alpha: f64) -> (f64, f64) {
        let free: f64 = match mode {
            Mode::Uniaxial => -0.5,
            Mode::Equibiaxial => -2.0,
            Mode::Planar => -1.0,
        };
        // l_free = l^free; P = (l^alpha - l^(free alpha)) / l.
        let (up, down) = (l.powf(alpha) / l, l.powf(free * alpha) / l);
        (up - down, l.ln() * (up - free * down))
    }
}

impl LeastSquaresProblem<f64, Dyn, Dyn> for OgdenProblem<'_> {
    type ParameterStorage = Owned<f64, Dyn>;
    type ResidualStorage = Owned<f64, Dyn>;
    type JacobianStorage = Owned<f64, Dyn, Dyn>;

    fn set_params(&mut self, x: &DVector<f64>) {
        self.constants.copy_from(x);
    }

    fn params(&self) -> DVector<f64> {
        self.constants.clone()
    }

    fn residuals(&self) -> Option<DVector<f64>> {
        let value = |&(mode, l, stress): &Datum| -> f64 {
            let sum: f64 = (0..self.terms())
                .map(|t| self.constants[2 * t] * Self::basis(mode, l, self.constants[2 * t + 1]).0)
                .sum();
            sum - stress
        };
        Some(DVector::from_iterator(self.data.len(), self.data.iter().map(value)))
    }

    fn jacobian(&self) -> Option<DMatrix<f64>> {
        let family = Family::Ogden { terms: self.terms() };
        let constants = self.constants.as_slice();
        let rows: Vec<Vec<f64>> =
            self.data.iter().map(|d| slopes(family, constants, d.0, d.1)).collect();
        Some(DMatrix::from_fn(rows.len(), constants.len(), |i, j| rows[i][j]))
    }
}
