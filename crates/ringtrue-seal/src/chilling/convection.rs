//! How fast a surface exchanges heat with the air or liquid around it.
//!
//! Still air (Churchill & Chu 1975):
//! `Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))²`
//!
//! Moving air (Churchill & Bernstein 1977):
//! `Nu = 0.3 + 0.62 Re^½ Pr^⅓ (1 + (Re/282000)^(5/8))^(4/5) / (1 + (0.4/Pr)^⅔)^¼`
//!
//! | what | formula | source |
//! |---|---|---|
//! | radiation | `h = ε σ (Tₛ² + T∞²)(Tₛ + T∞)` | Stefan-Boltzmann |
//! | air | viscosity and conductivity at the film temperature | US Standard Atmosphere 1976 |
//!
//! Valid for 1e-5 < Ra < 1e12 and Re Pr > 0.2, both met by any section in a shop.

use libm::{cbrt, pow};

use crate::constants::ATMOSPHERE;

/// Stefan-Boltzmann constant, W/(m² K⁴): SI, 2019.
const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;
/// Standard gravity, m/s².
const GRAVITY: f64 = 9.806_65;
/// Gas constant of dry air, J/(kg K).
const AIR: f64 = 287.05;
/// Specific heat of air at constant pressure, J/(kg K): within 0.2 % from −60 to 60 degC.
const AIR_HEAT: f64 = 1006.0;

/// How a surface exchanges heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Exchange {
    /// With a constant coefficient, W/(m² K).
    Constant(f64),
    /// With air, by a correlation.
    Air(Air),
}

/// A horizontal cylinder in air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Air {
    /// Diameter of the cylinder, m.
    pub(crate) diameter: f64,
    /// Speed of the air across it, m/s; still air where it is zero.
    pub(crate) speed: f64,
    /// Emissivity of the surface; what is around it is taken as black and as warm as the air.
    pub(crate) emissivity: f64,
    /// Correlations scatter: what theirs is multiplied with.
    pub(crate) factor: f64,
}

impl Exchange {
    /// The coefficient in W/(m² K) between a surface and its medium, temperatures in K.
    pub(crate) fn coefficient(self, surface: f64, medium: f64) -> f64 {
        match self {
            Self::Constant(coefficient) => coefficient,
            Self::Air(air) => {
                let (convection, radiation) = air.parts(surface, medium);
                convection * air.factor + radiation
            }
        }
    }
}

impl Air {
    /// Convection and radiation apart, W/(m² K).
    pub(crate) fn parts(self, surface: f64, medium: f64) -> (f64, f64) {
        let film = Film::at(f64::midpoint(surface, medium));
        let natural =
            natural_nusselt(film.rayleigh(self.diameter, (surface - medium).abs()), film.prandtl());
        let forced = if self.speed > 0.0 {
            forced_nusselt(self.speed * self.diameter / film.viscosity, film.prandtl())
        } else {
            0.0
        };
        // The stronger of the two: a faint draught does not stop natural convection.
        let convection = natural.max(forced) * film.conductivity / self.diameter;
        let squares = surface * surface + medium * medium;
        (convection, self.emissivity * STEFAN_BOLTZMANN * squares * (surface + medium))
    }
}

/// Air at the film temperature.
struct Film {
    kelvin: f64,
    /// W/(m K).
    conductivity: f64,
    /// Kinematic, m²/s.
    viscosity: f64,
    /// Thermal diffusivity, m²/s.
    diffusivity: f64,
}

impl Film {
    fn at(kelvin: f64) -> Self {
        // A shop at 1000 m has a tenth less, and natural convection a tenth less.
        let density = ATMOSPHERE / (AIR * kelvin);
        let root = kelvin * kelvin.sqrt();
        // US Standard Atmosphere 1976, equations 51 and 53.
        let dynamic = 1.458e-6 * root / (kelvin + 110.4);
        let conductivity = 2.646_38e-3 * root / (kelvin + 245.4 * pow(10.0, -12.0 / kelvin));
        Self {
            kelvin,
            conductivity,
            viscosity: dynamic / density,
            diffusivity: conductivity / (density * AIR_HEAT),
        }
    }

    fn prandtl(&self) -> f64 {
        self.viscosity / self.diffusivity
    }

    /// `g β ΔT D³ / (ν a)` with β = 1/T of an ideal gas.
    fn rayleigh(&self, diameter: f64, difference: f64) -> f64 {
        let cube = diameter * diameter * diameter;
        GRAVITY * difference * cube / (self.kelvin * self.viscosity * self.diffusivity)
    }
}

/// Mean Nusselt number of a horizontal cylinder in still fluid. Churchill & Chu 1975,
/// doi 10.1016/0017-9310(75)90222-7; 1e-5 < Ra < 1e12.
pub(crate) fn natural_nusselt(rayleigh: f64, prandtl: f64) -> f64 {
    let fluid = pow(1.0 + pow(0.559 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
    let root = 0.60 + 0.387 * pow(rayleigh, 1.0 / 6.0) / fluid;
    root * root
}

/// Mean Nusselt number of a cylinder across a stream. Churchill & Bernstein 1977,
/// doi 10.1115/1.3450685; Re Pr > 0.2.
pub(crate) fn forced_nusselt(reynolds: f64, prandtl: f64) -> f64 {
    let fluid = pow(1.0 + pow(0.4 / prandtl, 2.0 / 3.0), 0.25);
    let high = pow(1.0 + pow(reynolds / 282_000.0, 0.625), 0.8);
    0.3 + 0.62 * reynolds.sqrt() * cbrt(prandtl) / fluid * high
}
