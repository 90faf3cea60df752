//! Weighted linear least squares.
//!
//! The question: which coefficients β bring `X β` closest to the observations y?
//!
//! `minimise Σ wᵢ (yᵢ − Σⱼ Xᵢⱼ βⱼ)²`, with
//!
//! | symbol | meaning | shape |
//! |---|---|---|
//! | X | design matrix, one column a coefficient | m × n |
//! | y | observations | m |
//! | w | weights, `1/uᵢ²` for known standard uncertainties uᵢ | m |
//! | β | coefficients, in the unit of y over the unit of the column | n |
//! | C | covariance factor `(Xᵀ W X)⁻¹` | n × n |
//!
//! Columns are scaled by powers of two (no rounding), the scaled matrix is decomposed by
//! Householder QR, the rank is judged by the singular values of R, and the solution is refined on
//! the augmented system with residuals in twice the working precision, so that the coefficients are
//! right to the last few digits as long as the columns are independent to working precision.
//!
//! Valid for m ≥ n ≥ 1 and values up to 1e140 (their squares are summed), weights included; the
//! normal equations are never formed.

use ringtrue_words::say;

use nalgebra::{DMatrix, DVector};

use super::FitError;
use super::twofold::Twofold;
use crate::source::Source;

/// Where the method and its checks come from.
pub const SOURCES: &[Source] = &[
    Source::Unverified(
        "Å. Björck, Numerical Methods for Least Squares Problems, SIAM 1996, sections 2.4 (QR) and \
         2.9 (iterative refinement of the augmented system)",
    ),
    Source::Published(
        "NIST/ITL Statistical Reference Datasets, linear regression (Norris, NoInt1, Longley, \
         Wampler1, 2, 4)",
    ),
    Source::Published("JCGM 100:2008, H.3 (straight line with covariance)"),
];

/// Whether the model holds a constant term. It settles what R² is measured against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Intercept {
    /// The first column is 1: R² is about the weighted mean of the observations.
    Fitted,
    /// No constant term: R² is about zero, as NIST does for NoInt1.
    Absent,
}

/// The model: one column for each coefficient, one row for each observation.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    matrix: DMatrix<f64>,
    intercept: Intercept,
}

impl Design {
    /// A model from its columns; with [`Intercept::Fitted`] a column of ones is put before them.
    ///
    /// `rows` is the number of observations (needed when the constant is the only column).
    ///
    /// # Errors
    /// [`FitError::Shape`], [`FitError::NotFinite`], [`FitError::TooFewRows`].
    pub fn new(rows: usize, columns: &[&[f64]], intercept: Intercept) -> Result<Self, FitError> {
        for column in columns {
            check_list(|| say!("fit-column"), column, rows)?;
        }
        let constant = match intercept {
            Intercept::Fitted => 1,
            Intercept::Absent => 0,
        };
        let coefficients = columns.len() + constant;
        if rows < coefficients || coefficients == 0 {
            return Err(FitError::TooFewRows { rows, coefficients });
        }
        let matrix = DMatrix::from_fn(rows, coefficients, |i, j| {
            if j < constant { 1.0 } else { columns[j - constant][i] }
        });
        Ok(Self { matrix, intercept })
    }

    /// The polynomial `β0 + β1 x + … + βd x^d`.
    ///
    /// # Errors
    /// As [`Design::new`].
    pub fn polynomial(x: &[f64], degree: usize) -> Result<Self, FitError> {
        check_list(|| "x", x, x.len())?;
        let mut powers: Vec<Vec<f64>> = Vec::with_capacity(degree);
        for d in 0..degree {
            let next = match d.checked_sub(1) {
                None => x.to_vec(),
                Some(last) => powers[last].iter().zip(x).map(|(p, x)| p * x).collect(),
            };
            powers.push(next);
        }
        let columns: Vec<&[f64]> = powers.iter().map(Vec::as_slice).collect();
        Self::new(x.len(), &columns, Intercept::Fitted)
    }

    /// Number of observations m.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.matrix.nrows()
    }

    /// Number of coefficients n.
    #[must_use]
    pub fn coefficients(&self) -> usize {
        self.matrix.ncols()
    }
}

/// How much each observation counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Weights<'a> {
    /// All alike.
    Equal,
    /// One positive weight each, `1/uᵢ²` for known standard uncertainties.
    Each(&'a [f64]),
}

/// A fitted model.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    coefficients: Vec<f64>,
    covariance_factor: DMatrix<f64>,
    residuals: Vec<f64>,
    leverages: Vec<f64>,
    weighted_sum_of_squares: f64,
    r_squared: Option<f64>,
}

impl Fit {
    /// The coefficients β, in the order of the columns (the constant first).
    #[must_use]
    pub fn coefficients(&self) -> &[f64] {
        &self.coefficients
    }

    /// The covariance factor `(Xᵀ W X)⁻¹`.
    ///
    /// With weights `1/u²` it is the covariance of the coefficients; with equal weights multiply
    /// by the variance of one observation.
    #[must_use]
    pub fn covariance_factor(&self) -> &DMatrix<f64> {
        &self.covariance_factor
    }

    /// Observed minus fitted, unweighted, in the unit of the observations.
    #[must_use]
    pub fn residuals(&self) -> &[f64] {
        &self.residuals
    }

    /// The diagonal of the hat matrix, each in 0..=1: how far an observation fixes its own fit.
    #[must_use]
    pub fn leverages(&self) -> &[f64] {
        &self.leverages
    }

    /// Observations less coefficients.
    #[must_use]
    pub fn degrees_of_freedom(&self) -> usize {
        self.residuals.len() - self.coefficients.len()
    }

    /// `Σ wᵢ eᵢ²`; with weights `1/u²` it is the observed chi-square.
    #[must_use]
    pub fn weighted_sum_of_squares(&self) -> f64 {
        self.weighted_sum_of_squares
    }

    /// `sqrt(Σ wᵢ eᵢ² / (m − n))`; `None` where there are no degrees of freedom.
    #[must_use]
    pub fn residual_standard_deviation(&self) -> Option<f64> {
        let dof = self.degrees_of_freedom();
        (dof > 0).then(|| (self.weighted_sum_of_squares / dof as f64).sqrt())
    }

    /// Standard error of coefficient `j` from the scatter of the residuals, `s sqrt(Cⱼⱼ)`.
    ///
    /// `None` where there are no degrees of freedom or no such coefficient.
    #[must_use]
    pub fn standard_error(&self, j: usize) -> Option<f64> {
        Some(self.residual_standard_deviation()? * self.unit_standard_error(j)?)
    }

    /// `sqrt(Cⱼⱼ)`: the standard uncertainty of coefficient `j` when the weights are `1/u²`, or for
    /// observations of unit standard uncertainty when they are equal.
    #[must_use]
    pub fn unit_standard_error(&self, j: usize) -> Option<f64> {
        (j < self.coefficients.len()).then(|| self.covariance_factor[(j, j)].max(0.0).sqrt())
    }

    /// Coefficient of determination, about the mean or about zero as [`Intercept`] says.
    ///
    /// `None` when the observations do not vary.
    #[must_use]
    pub fn r_squared(&self) -> Option<f64> {
        self.r_squared
    }

    /// The value of the model for one row of the design and the square root of `xᵀ C x`.
    ///
    /// # Errors
    /// [`FitError::Shape`] when the row has not one value for each coefficient.
    pub fn predict(&self, row: &[f64]) -> Result<(f64, f64), FitError> {
        check_list(|| say!("fit-row"), row, self.coefficients.len())?;
        let x = DVector::from_column_slice(row);
        let variance = x.dot(&(&self.covariance_factor * &x));
        let value = dot(row, &self.coefficients);
        Ok((value, variance.max(0.0).sqrt()))
    }
}

/// Fits the model to the observations.
///
/// # Errors
/// [`FitError`]: lists of different length, values that are not finite, weights that are not
/// positive, columns that depend on each other.
pub fn fit(design: &Design, y: &[f64], weights: Weights<'_>) -> Result<Fit, FitError> {
    let m = design.rows();
    check_list(|| say!("fit-observations"), y, m)?;
    let root_weights = root_weights(weights, m)?;
    let system = System::new(design, y, &root_weights)?;
    let beta = system.solve();
    let residuals: Vec<f64> = (0..m)
        .map(|i| {
            let mut sum = Twofold::default();
            sum.add(y[i]);
            for (j, b) in beta.iter().enumerate() {
                sum.add_product(-design.matrix[(i, j)], *b);
            }
            sum.value()
        })
        .collect();
    let squares = |values: &mut dyn Iterator<Item = f64>| {
        let mut sum = Twofold::default();
        values.for_each(|v| sum.add_product(v, v));
        sum.value()
    };
    let weighted_sum_of_squares =
        squares(&mut residuals.iter().zip(&root_weights).map(|(e, w)| e * w));
    let reference = match design.intercept {
        Intercept::Fitted => weighted_mean(y, &root_weights),
        Intercept::Absent => 0.0,
    };
    let total = squares(&mut y.iter().zip(&root_weights).map(|(y, w)| (y - reference) * w));
    Ok(Fit {
        covariance_factor: system.covariance_factor(),
        leverages: system.leverages(),
        coefficients: beta,
        residuals,
        weighted_sum_of_squares,
        r_squared: (total > 0.0).then(|| 1.0 - weighted_sum_of_squares / total),
    })
}

fn check_list(
    what: impl FnOnce() -> &'static str,
    values: &[f64],
    expected: usize,
) -> Result<(), FitError> {
    if values.len() != expected {
        return Err(FitError::Shape { what: what(), found: values.len(), expected });
    }
    // Squares are summed: beyond this they overflow.
    match values.iter().position(|v| !v.is_finite() || v.abs() > 1e140) {
        Some(row) => Err(FitError::NotFinite { what: what(), row: row + 1 }),
        None => Ok(()),
    }
}

fn root_weights(weights: Weights<'_>, rows: usize) -> Result<Vec<f64>, FitError> {
    match weights {
        Weights::Equal => Ok(vec![1.0; rows]),
        Weights::Each(w) => {
            check_list(|| say!("fit-weights"), w, rows)?;
            match w.iter().position(|w| *w <= 0.0) {
                Some(row) => Err(FitError::Weight { row: row + 1 }),
                None => Ok(w.iter().map(|w| w.sqrt()).collect()),
            }
        }
    }
}

fn weighted_mean(y: &[f64], root_weights: &[f64]) -> f64 {
    let (mut sum, mut weight) = (Twofold::default(), Twofold::default());
    for (y, r) in y.iter().zip(root_weights) {
        sum.add_product(r * r, *y);
        weight.add_product(*r, *r);
    }
    sum.value() / weight.value()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut sum = Twofold::default();
    a.iter().zip(b).for_each(|(a, b)| sum.add_product(*a, *b));
    sum.value()
}

/// The weighted, column-scaled problem and its decomposition: `W^½ X D⁻¹ = Q R`.
struct System {
    a: DMatrix<f64>,
    b: DVector<f64>,
    scale: Vec<f64>,
    q: DMatrix<f64>,
    inverse: DMatrix<f64>,
}

impl System {
    fn new(design: &Design, y: &[f64], root_weights: &[f64]) -> Result<Self, FitError> {
        let mut a = design.matrix.clone();
        for (i, w) in root_weights.iter().enumerate() {
            a.row_mut(i).iter_mut().for_each(|x| *x *= w);
        }
        check_list(|| say!("fit-weighted-model"), a.as_slice(), a.len())?;
        let n = a.ncols();
        let mut scale = Vec::with_capacity(n);
        for mut column in a.column_iter_mut() {
            let (_, exponent) = libm::frexp(column.norm());
            let power = libm::ldexp(1.0, exponent);
            column.iter_mut().for_each(|x| *x /= power);
            scale.push(power);
        }
        let b = DVector::from_iterator(y.len(), y.iter().zip(root_weights).map(|(y, w)| y * w));
        check_list(|| say!("fit-weighted-observations"), b.as_slice(), b.len())?;
        let (q, r) = a.clone().qr().unpack();
        let rank = rank(&r, a.nrows());
        let deficient = FitError::RankDeficient { rank, coefficients: n };
        if rank < n {
            return Err(deficient);
        }
        let inverse = r.solve_upper_triangular(&DMatrix::identity(n, n)).ok_or(deficient)?;
        Ok(Self { a, b, scale, q, inverse })
    }

    /// Björck's refinement of the augmented system: each pass solves for the error of x and of the
    /// residual from defects in twice the working precision. Stops when nothing moves any more.
    fn solve(&self) -> Vec<f64> {
        const PASSES: usize = 12;
        let (m, n) = self.a.shape();
        let (mut x, mut rest) = (DVector::zeros(n), DVector::zeros(m));
        let mut last_step = f64::INFINITY;
        for _ in 0..PASSES {
            let f = DVector::from_fn(m, |i, _| self.observation_defect(i, &x, &rest));
            let g = DVector::from_fn(n, |j, _| {
                let mut sum = Twofold::default();
                (0..m).for_each(|i| sum.add_product(-self.a[(i, j)], rest[i]));
                sum.value()
            });
            let h = self.inverse.transpose() * g;
            let projected = self.q.transpose() * &f;
            let step = &self.inverse * (&projected - &h);
            let rest_step = &f - &self.q * (projected - h);
            let size = step.amax();
            if size.is_nan() || size >= last_step {
                break;
            }
            last_step = size;
            x += &step;
            rest += rest_step;
            if size <= f64::EPSILON * x.amax() * 0.25 {
                break;
            }
        }
        x.iter().zip(&self.scale).map(|(x, s)| x / s).collect()
    }

    fn observation_defect(&self, i: usize, x: &DVector<f64>, rest: &DVector<f64>) -> f64 {
        let mut sum = Twofold::default();
        sum.add(self.b[i]);
        sum.add(-rest[i]);
        x.iter().enumerate().for_each(|(j, x)| sum.add_product(-self.a[(i, j)], *x));
        sum.value()
    }

    fn covariance_factor(&self) -> DMatrix<f64> {
        let factor = &self.inverse * self.inverse.transpose();
        DMatrix::from_fn(factor.nrows(), factor.ncols(), |i, j| {
            factor[(i, j)] / self.scale[i] / self.scale[j]
        })
    }

    fn leverages(&self) -> Vec<f64> {
        self.q.row_iter().map(|row| row.norm_squared().min(1.0)).collect()
    }
}

/// Number of singular values of R above `max(m, n) ε` times the largest.
fn rank(r: &DMatrix<f64>, rows: usize) -> usize {
    // A few sweeps do; the bound is against values that never settle.
    const SWEEPS: usize = 1_000;
    let Some(svd) = r.clone().try_svd(false, false, f64::EPSILON, SWEEPS) else {
        return 0;
    };
    let largest = svd.singular_values.max();
    let least = largest * f64::EPSILON * rows.max(r.ncols()) as f64;
    svd.singular_values.iter().filter(|s| **s > least).count()
}
