//! The free and the mounted toric on their way down and back.

use ringtrue_metrology::units::{Angle, Length, Quantity};

use super::conduction::{Heat, Moment, course};
use super::figures::{Figures, Way};
use super::humid::wets_below;
use super::{Course, Curve, Input, SHOP_TIME, Seat, WARM_WITHIN, celsius};
use crate::geometry::{self, FreeToric, MountedToric};

/// Points of a curve: readable at 9 cm wide.
const POINTS: usize = 61;

/// Which of the two is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Body {
    /// The toric alone.
    Free,
    /// The toric on its ring.
    Mounted,
}

/// Both bodies' sizes in the room.
pub(super) struct Bodies<'i> {
    input: &'i Input,
    seat: Seat,
    mounted: MountedToric,
}

/// What one set of figures gives.
#[derive(Debug, Clone, Copy, Default)]
struct Results {
    contraction: f64,
    time_to_95: f64,
    working: f64,
    rewarm: f64,
    mean_after: f64,
}

impl Results {
    fn list(self) -> [f64; 5] {
        [self.contraction, self.time_to_95, self.working, self.rewarm, self.mean_after]
    }
}

impl<'i> Bodies<'i> {
    pub(super) fn of(input: &'i Input) -> Self {
        let seat = input.seat.unwrap_or(Seat {
            diameter: input.toric.inside_diameter,
            ramp_angle: Angle::new::<uom::si::angle::radian>(0.0),
            ring_mass: None,
        });
        let mounted = geometry::stretched(input.toric, seat.diameter, seat.ramp_angle);
        Self { input, seat, mounted }
    }

    /// Outside diameter in m at a mean temperature of the section and one of the ring.
    fn outside(&self, figures: &Figures, body: Body, (mean, ring): (f64, f64)) -> f64 {
        let shrunk = |length: Length, expansion: f64, kelvin: f64| {
            length * (1.0 - expansion * (self.input.room.si() - kelvin))
        };
        let toric = FreeToric {
            inside_diameter: shrunk(self.input.toric.inside_diameter, figures.expansion(), mean),
            section_diameter: shrunk(self.input.toric.section_diameter, figures.expansion(), mean),
        };
        match body {
            Body::Free => (toric.inside_diameter + 2.0 * toric.section_diameter).si(),
            Body::Mounted => {
                let seat = shrunk(self.seat.diameter, figures.ring_expansion(), ring);
                geometry::stretched(toric, seat, self.seat.ramp_angle).outside_diameter().si()
            }
        }
    }

    fn heat(&self, figures: &Figures, body: Body, way: Way) -> Heat {
        let (start, medium) = match way {
            Way::Cooling => (self.input.room.si(), self.input.cold.si()),
            Way::Warming => (self.input.cold.si(), self.input.room.si()),
        };
        let section_diameter = match body {
            Body::Free => self.input.toric.section_diameter.si(),
            Body::Mounted => self.mounted.section_diameter.si(),
        };
        let ring = match body {
            Body::Free => None,
            Body::Mounted => {
                Some(figures.ring(way, self.mounted.centroid_diameter.si(), section_diameter))
            }
        };
        Heat {
            section: figures.section(section_diameter / 2.0),
            exchange: figures.exchange(way, section_diameter),
            ring,
            start,
            medium,
        }
    }

    /// Contraction in m at a moment.
    fn contraction(&self, figures: &Figures, body: Body, moment: &Moment) -> f64 {
        let room = self.input.room.si();
        self.outside(figures, body, (room, room))
            - self.outside(figures, body, (moment.mean, moment.ring))
    }

    fn whole(&self, figures: &Figures, body: Body) -> f64 {
        let (room, cold) = (self.input.room.si(), self.input.cold.si());
        self.outside(figures, body, (room, room)) - self.outside(figures, body, (cold, cold))
    }

    fn cooling(&self, figures: &Figures, body: Body) -> Vec<Moment> {
        let whole = self.whole(figures, body);
        course(&self.heat(figures, body, Way::Cooling), |moment| {
            moment.seconds > SHOP_TIME && self.contraction(figures, body, moment) > 0.96 * whole
        })
    }

    /// Until it is warm, dry, and has lost more than half of its contraction: in a cold that is
    /// hardly one, that comes last.
    fn warming(&self, figures: &Figures, body: Body) -> Vec<Moment> {
        let half = 0.49 * self.whole(figures, body);
        let warm = self.input.room.si() - 0.9 * WARM_WITHIN;
        let wets = self.wets_below_k();
        course(&self.heat(figures, body, Way::Warming), |moment| {
            coldest(moment) > warm
                && wets.is_none_or(|point| moment.surface > point)
                && self.contraction(figures, body, moment) <= half
        })
    }

    /// The temperature below which the room's air wets a surface, K.
    fn wets_below_k(&self) -> Option<f64> {
        let room = celsius(self.input.room.si());
        // Air near saturation wets what is as warm as itself: a tenth of a kelvin short of that.
        wets_below(room, self.input.humidity.si())
            .map(|degc| kelvin(degc).min(self.input.room.si() - 0.1))
    }

    fn results(
        &self,
        figures: &Figures,
        body: Body,
        (down, up): (&[Moment], &[Moment]),
    ) -> Results {
        let whole = self.whole(figures, body);
        let shrink = |moment: &Moment| self.contraction(figures, body, moment);
        let end = |moments: &[Moment]| moments.last().map_or(0.0, |moment| moment.seconds);
        let warm = self.input.room.si() - WARM_WITHIN;
        Results {
            contraction: whole,
            time_to_95: reaches(down, shrink, 0.95 * whole).unwrap_or(end(down)),
            working: reaches(up, |m| -shrink(m), -0.5 * whole).unwrap_or(end(up)),
            rewarm: reaches(up, coldest, warm).unwrap_or(end(up)),
            mean_after: at(down, SHOP_TIME, |moment| moment.mean),
        }
    }

    /// The course of one body, and the mean temperature after the shop's time with its uncertainty.
    pub(super) fn course(&self, figures: &Figures, body: Body) -> (Course, (f64, f64)) {
        let (down, up) = (self.cooling(figures, body), self.warming(figures, body));
        let best = self.results(figures, body, (&down, &up));
        let mut variance = [0.0; 5];
        for [less, more] in figures.varied(body) {
            let [less, more] = [less, more].map(|figures| {
                let (down, up) = (self.cooling(&figures, body), self.warming(&figures, body));
                self.results(&figures, body, (&down, &up)).list()
            });
            for (variance, (less, more)) in variance.iter_mut().zip(less.iter().zip(more)) {
                let half = (more - less) / 2.0;
                *variance += half * half;
            }
        }
        let [contraction_u, time_u, working_u, rewarm_u, mean_u] = variance.map(f64::sqrt);
        let room = self.input.room.si();
        let until = |moments: &[Moment], point: f64| reaches(moments, |m| m.surface, point);
        let wets = self.wets_below_k().filter(|point| self.input.cold.si() < *point);
        let freezes = wets.filter(|_| self.input.cold.si() < 273.15);
        let shrink = |moment: &Moment| self.contraction(figures, body, moment) * 1e3;
        let course = Course {
            outside_diameter_mm: self.outside(figures, body, (room, room)) * 1e3,
            contraction_mm: best.contraction * 1e3,
            contraction_standard_uncertainty_mm: contraction_u * 1e3,
            time_to_95_percent_s: best.time_to_95,
            time_to_95_percent_standard_uncertainty_s: time_u,
            working_time_s: best.working,
            working_time_standard_uncertainty_s: working_u,
            rewarm_time_s: best.rewarm,
            rewarm_time_standard_uncertainty_s: rewarm_u,
            frost_until_s: freezes.and_then(|_| until(&up, 273.15)),
            dew_until_s: wets.and_then(|point| until(&up, point)),
            coefficient_w_per_m2_k: {
                let heat = self.heat(figures, body, Way::Cooling);
                heat.exchange.coefficient(heat.start, heat.medium)
            },
            share_after_5_min: at(&down, SHOP_TIME, shrink) / (best.contraction * 1e3),
            cooling: curve(&down, shrink),
            warming: curve(&up, shrink),
        };
        (course, (celsius(best.mean_after), mean_u))
    }
}

/// The coldest of core and ring.
fn coldest(moment: &Moment) -> f64 {
    moment.centre.min(moment.ring)
}

/// When a rising quantity first reaches a level.
fn reaches(moments: &[Moment], of: impl Fn(&Moment) -> f64, level: f64) -> Option<f64> {
    let mut before: Option<(f64, f64)> = None;
    for moment in moments {
        let value = of(moment);
        if value >= level {
            return Some(match before {
                Some((seconds, last)) if value > last => {
                    seconds + (moment.seconds - seconds) * (level - last) / (value - last)
                }
                Some(_) | None => moment.seconds,
            });
        }
        before = Some((moment.seconds, value));
    }
    None
}

/// A quantity at a time, between two moments on the straight line; the last one's beyond the end.
pub(crate) fn at(moments: &[Moment], seconds: f64, of: impl Fn(&Moment) -> f64) -> f64 {
    let next = moments.partition_point(|moment| moment.seconds < seconds);
    let after = moments.get(next).or_else(|| moments.last());
    let before = next.checked_sub(1).and_then(|index| moments.get(index));
    match (before, after) {
        (Some(before), Some(after)) if after.seconds > before.seconds => {
            let share = (seconds - before.seconds) / (after.seconds - before.seconds);
            of(before) + share.min(1.0) * (of(after) - of(before))
        }
        (_, Some(after)) => of(after),
        (_, None) => 0.0,
    }
}

fn curve(moments: &[Moment], contraction_mm: impl Fn(&Moment) -> f64) -> Curve {
    let end = moments.last().map_or(0.0, |moment| moment.seconds);
    let seconds: Vec<f64> = (0..POINTS).map(|i| end * i as f64 / (POINTS - 1) as f64).collect();
    let along = |of: &dyn Fn(&Moment) -> f64| -> Vec<f64> {
        seconds.iter().map(|seconds| at(moments, *seconds, of)).collect()
    };
    Curve {
        mean_degc: along(&|moment| celsius(moment.mean)),
        core_degc: along(&|moment| celsius(moment.centre)),
        contraction_mm: along(&contraction_mm),
        seconds,
    }
}

fn kelvin(celsius: f64) -> f64 {
    celsius + 273.15
}
