//! Heat through a round section, alone or lying on the metal ring that carries it.
//!
//! Conduction in the section is radial: what differs round its circumference is averaged. On its
//! ring the share φ of the circumference lies against metal at one temperature (the metal conducts
//! a hundred times better than rubber) through a contact coefficient; the rest faces the medium, as
//! does the ring's own surface. Per metre of circumference:
//!
//! | part | equation |
//! |---|---|
//! | section | `ρ c ∂T/∂t = (1/r) ∂/∂r (r k ∂T/∂r)` |
//! | its surface | `−k ∂T/∂r = (1 − φ) h (Tₛ − T∞) + φ h_c (Tₛ − Tᵣ)` |
//! | ring | `C dTᵣ/dt = G (T∞ − Tᵣ) + φ 2π r₀ h_c (Tₛ − Tᵣ)` |
//!
//! With a constant coefficient and no ring the closed form answers. Otherwise finite volumes in
//! radius and TR-BDF2 in time (R. E. Bank et al. 1985: second order, L-stable) march on, each
//! coefficient taken at the start of its step. Both agree within 2e-4 of the temperature step
//! where both can answer; a ring without mass and one without end give the closed form with
//! another coefficient and another medium, which tests hold the march against.

use std::f64::consts::PI;

use libm::log;

use super::convection::Exchange;
use super::series::Series;

/// Rings of equal width in the section.
const CELLS: usize = 24;
/// A step is this share of the time gone by: fine at the start, coarse where little happens.
const GROWTH: f64 = 0.01;
/// Most steps: at this growth they span more than eighty powers of ten.
const MOST_STEPS: usize = 20_000;

/// A round section of one rubber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Section {
    /// Radius, m.
    pub(crate) radius: f64,
    /// W/(m K).
    pub(crate) conductivity: f64,
    /// kg/m³.
    pub(crate) density: f64,
    /// J/(kg K).
    pub(crate) specific_heat: f64,
}

/// The metal ring that the section lies on, per metre of circumference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Ring {
    /// Heat capacity, J/(K m).
    pub(crate) capacity: f64,
    /// Surface that faces the medium, m²/m.
    pub(crate) surface: f64,
    /// How that surface exchanges heat.
    pub(crate) exchange: Exchange,
    /// Share of the section's circumference that lies against the metal, 0..1.
    pub(crate) contact_share: f64,
    /// Coefficient of that contact, W/(m² K).
    pub(crate) contact_coefficient: f64,
}

/// A step of the temperature around.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Heat {
    pub(crate) section: Section,
    /// How the section's free surface exchanges heat.
    pub(crate) exchange: Exchange,
    pub(crate) ring: Option<Ring>,
    /// Temperature of everything before, K.
    pub(crate) start: f64,
    /// Temperature of the medium from then on, K.
    pub(crate) medium: f64,
}

/// Temperatures at one time, K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Moment {
    pub(crate) seconds: f64,
    pub(crate) mean: f64,
    pub(crate) centre: f64,
    pub(crate) surface: f64,
    /// The metal; the section's mean where there is none.
    pub(crate) ring: f64,
}

/// The course of temperatures until `done`, at most [`MOST_STEPS`] steps.
pub(crate) fn course(heat: &Heat, done: impl Fn(&Moment) -> bool) -> Vec<Moment> {
    let first = Moment {
        seconds: 0.0,
        mean: heat.start,
        centre: heat.start,
        surface: heat.start,
        ring: heat.start,
    };
    let mut moments = vec![first];
    let mut step: Box<dyn FnMut(f64, f64) -> Moment> = match (heat.exchange, heat.ring) {
        (Exchange::Constant(coefficient), None) => Box::new(closed_form(*heat, coefficient)),
        (Exchange::Constant(_) | Exchange::Air(_), _) => {
            let mut march = March::new(*heat);
            Box::new(move |seconds, from| march.step(seconds, seconds - from))
        }
    };
    let least = heat.time_scale() / 2000.0;
    let mut seconds = 0.0;
    for _ in 0..MOST_STEPS {
        let next = seconds + least.max(GROWTH * seconds);
        let moment = step(next, seconds);
        seconds = next;
        moments.push(moment);
        if done(&moment) {
            break;
        }
    }
    moments
}

fn closed_form(heat: Heat, coefficient: f64) -> impl FnMut(f64, f64) -> Moment {
    let section = heat.section;
    let series = Series::new(coefficient * section.radius / section.conductivity);
    move |seconds, _| {
        let left = series.left(section.fourier(seconds));
        let at = |share: f64| heat.medium + share * (heat.start - heat.medium);
        let mean = at(left.mean);
        Moment { seconds, mean, centre: at(left.centre), surface: at(left.surface), ring: mean }
    }
}

impl Section {
    /// `α t / r₀²`.
    pub(crate) fn fourier(&self, seconds: f64) -> f64 {
        let diffusivity = self.conductivity / (self.density * self.specific_heat);
        diffusivity * seconds / (self.radius * self.radius)
    }
}

impl Heat {
    /// Roughly the time in which the section's temperature step falls to a third.
    fn time_scale(&self) -> f64 {
        let section = &self.section;
        let coefficient = self.exchange.coefficient(self.start, self.medium);
        let resistance = 1.0 / coefficient + section.radius / (4.0 * section.conductivity);
        section.density * section.specific_heat * section.radius / 2.0 * resistance
    }
}

/// The march: temperatures of the cells, then of the ring where there is one.
struct March {
    heat: Heat,
    temperatures: Vec<f64>,
    surface: f64,
}

/// `du/dt = A u + b` with a tridiagonal A, row by row.
struct System {
    lower: Vec<f64>,
    diagonal: Vec<f64>,
    upper: Vec<f64>,
    constant: Vec<f64>,
}

/// Conductances at the section's surface, W/(K m).
struct Border {
    from_cell: f64,
    to_medium: f64,
    to_ring: f64,
}

impl March {
    fn new(heat: Heat) -> Self {
        let unknowns = CELLS + usize::from(heat.ring.is_some());
        Self { heat, temperatures: vec![heat.start; unknowns], surface: heat.start }
    }

    fn ring(&self) -> Option<(Ring, f64)> {
        self.heat.ring.zip(self.temperatures.get(CELLS).copied())
    }

    fn border(&self) -> Border {
        let Section { radius, conductivity, .. } = self.heat.section;
        let round = 2.0 * PI * radius;
        let last_middle = 1.0 - 0.5 / CELLS as f64;
        let coefficient = self.heat.exchange.coefficient(self.surface, self.heat.medium);
        let (share, contact) = self
            .heat
            .ring
            .map_or((0.0, 0.0), |ring| (ring.contact_share, ring.contact_coefficient));
        Border {
            from_cell: -2.0 * PI * conductivity / log(last_middle),
            to_medium: (1.0 - share) * round * coefficient,
            to_ring: share * round * contact,
        }
    }

    /// The surface takes what the last cell gives: it has no heat of its own.
    fn surface_from(&self, border: &Border) -> f64 {
        let ring = self.ring().map_or(0.0, |(_, kelvin)| border.to_ring * kelvin);
        let cell = border.from_cell * self.temperatures[CELLS - 1];
        let sum = border.from_cell + border.to_medium + border.to_ring;
        (cell + border.to_medium * self.heat.medium + ring) / sum
    }

    fn system(&self, border: &Border) -> System {
        let n = self.temperatures.len();
        let Section { radius, conductivity, density, specific_heat } = self.heat.section;
        let width = radius / CELLS as f64;
        let mut system = System {
            lower: vec![0.0; n],
            diagonal: vec![0.0; n],
            upper: vec![0.0; n],
            constant: vec![0.0; n],
        };
        let capacity = |i: usize| {
            let (inner, outer) = (i as f64 * width, (i + 1) as f64 * width);
            density * specific_heat * PI * (outer * outer - inner * inner)
        };
        for i in 0..CELLS - 1 {
            let conductance = 2.0 * PI * conductivity * (i + 1) as f64;
            system.join(i, conductance, (capacity(i), capacity(i + 1)));
        }
        let sum = border.from_cell + border.to_medium + border.to_ring;
        let share = border.from_cell / capacity(CELLS - 1);
        system.diagonal[CELLS - 1] -= share * (1.0 - border.from_cell / sum);
        system.constant[CELLS - 1] += share * border.to_medium * self.heat.medium / sum;
        if let Some((ring, kelvin)) = self.ring() {
            system.upper[CELLS - 1] += share * border.to_ring / sum;
            let own = ring.surface * ring.exchange.coefficient(kelvin, self.heat.medium);
            let through = border.to_ring / ring.capacity;
            system.lower[CELLS] += through * border.from_cell / sum;
            system.diagonal[CELLS] -= own / ring.capacity + through * (1.0 - border.to_ring / sum);
            system.constant[CELLS] +=
                (own / ring.capacity + through * border.to_medium / sum) * self.heat.medium;
        }
        system
    }

    /// One step of TR-BDF2 with γ = 2 − √2, which gives both stages one matrix.
    fn step(&mut self, seconds: f64, step: f64) -> Moment {
        let border = self.border();
        let system = self.system(&border);
        let gamma = 2.0 - 2f64.sqrt();
        let weight = gamma / 2.0 * step;
        let before = self.temperatures.clone();
        let slope = system.slope(&before);
        let trapezoid: Vec<f64> = (0..before.len())
            .map(|i| before[i] + weight * (slope[i] + system.constant[i]))
            .collect();
        let between = system.solve(weight, &trapezoid);
        let (new, old) = (
            1.0 / (gamma * (2.0 - gamma)),
            (1.0 - gamma) * (1.0 - gamma) / (gamma * (2.0 - gamma)),
        );
        let backward: Vec<f64> = (0..before.len())
            .map(|i| new * between[i] - old * before[i] + weight * system.constant[i])
            .collect();
        self.temperatures = system.solve(weight, &backward);
        self.surface = self.surface_from(&border);
        self.moment(seconds)
    }

    fn moment(&self, seconds: f64) -> Moment {
        // Cells of one width count with their middle radius.
        let weights: f64 = (0..CELLS).map(|i| (2 * i + 1) as f64).sum();
        let cells = self.temperatures.iter().take(CELLS).enumerate();
        let mean = cells.map(|(i, kelvin)| (2 * i + 1) as f64 * kelvin).sum::<f64>() / weights;
        // T = a + b r² near the middle: the means of the first two cells tell a.
        let centre = self.temperatures[0] - (self.temperatures[1] - self.temperatures[0]) / 4.0;
        let ring = self.ring().map_or(mean, |(_, kelvin)| kelvin);
        Moment { seconds, mean, centre, surface: self.surface, ring }
    }
}

impl System {
    /// Joins an unknown to the next by a conductance; each has its capacity.
    fn join(&mut self, i: usize, conductance: f64, (own, next): (f64, f64)) {
        self.diagonal[i] -= conductance / own;
        self.upper[i] += conductance / own;
        self.diagonal[i + 1] -= conductance / next;
        self.lower[i + 1] += conductance / next;
    }

    /// `A u + b`.
    fn slope(&self, u: &[f64]) -> Vec<f64> {
        (0..u.len())
            .map(|i| {
                let below = i.checked_sub(1).map_or(0.0, |j| self.lower[i] * u[j]);
                let above = u.get(i + 1).map_or(0.0, |value| self.upper[i] * value);
                below + self.diagonal[i] * u[i] + above + self.constant[i]
            })
            .collect()
    }

    /// `(1 − w A) u = right` by elimination: the matrix is diagonally dominant, so no pivot fails.
    fn solve(&self, weight: f64, right: &[f64]) -> Vec<f64> {
        let n = right.len();
        let (mut upper, mut u) = (vec![0.0; n], right.to_vec());
        for i in 0..n {
            let lower = -weight * self.lower[i];
            let (above, value) = i.checked_sub(1).map_or((0.0, 0.0), |j| (upper[j], u[j]));
            let pivot = 1.0 - weight * self.diagonal[i] - lower * above;
            upper[i] = -weight * self.upper[i] / pivot;
            u[i] = (u[i] - lower * value) / pivot;
        }
        for i in (0..n.saturating_sub(1)).rev() {
            u[i] -= upper[i] * u[i + 1];
        }
        u
    }
}
