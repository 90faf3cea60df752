//! Both halves in series, and every value of the outcome read from their curves.

use std::f64::consts::PI;

use ringtrue_metrology::conformity::{Limits, Verdict, probability_within};
use ringtrue_metrology::units::{Quantity, fixed};
use ringtrue_words::say;

use super::closing::{Closing, LoadedHalf};
use super::curve::{Shared, Spring, series, steepens_at};
use super::half::{CurvePoint, HalfCurve, HalfProblem, SectionOf};
use super::outcome::{
    AtGap, Drawn, GapLoad, GapPoint, HalfOutcome, JointOutcome, LoadPoint, StretchAtBreak,
};
use super::{Input, Outcome, Seals, disc_spring, mm, strain};
use crate::definition::joint::Half;
use crate::definition::seal::{RetainingLip, Seal};
use crate::finding::{Finding, shown_mm};
use crate::section::{Frame, Stopped};
use crate::{geometry, rubber};

/// Everything that the outcome is read from.
pub(super) struct Joined<'i> {
    pub(super) input: &'i Input,
    pub(super) closing: Closing,
    pub(super) problems: Vec<HalfProblem>,
    pub(super) curves: Vec<HalfCurve>,
    pub(super) halves: [LoadedHalf; 2],
}

impl Joined<'_> {
    pub(super) fn outcome(self) -> Outcome {
        let springs = self.springs([1.0, 1.0]);
        let at = |gap: f64| self.load_at(&springs, gap);
        let at_gap = AtGap {
            min: at(self.closing.gap_min),
            nominal: at(self.closing.gap_nominal),
            max: at(self.closing.gap_max),
        };
        let complete = self.curves.iter().all(|curve| curve.complete);
        let alike = matches!(self.input.seals, Seals::Alike(_));
        let shown = if alike { &Half::BOTH[..1] } else { &Half::BOTH[..] };
        let halves = shown.iter().map(|half| self.half(*half, &at_gap)).collect();
        let (low, high) = self.limits();
        Outcome {
            halves,
            joint: JointOutcome {
                alike,
                curve: self.gap_curve(&springs),
                at_gap,
                band_mean_diameter_mm: self.band_mean_diameter(),
                face_load_min_n_per_mm: low,
                face_load_max_n_per_mm: high,
            },
            closing_force_n: at_gap.nominal.map(|load| load.force_n),
            error_band_percent: self.error_band(),
            verdict: self.verdict(&at_gap, complete),
            complete,
            remarks: self.remarks(&at_gap),
        }
    }

    /// Both halves' springs, each modulus multiplied by a factor.
    fn springs(&self, factor: [f64; 2]) -> [Spring; 2] {
        [0, 1].map(|i| Spring::new(&self.curves[i], self.halves[i].scale * factor[i]))
    }

    fn share(&self, springs: &[Spring; 2], gap: f64) -> Option<Shared> {
        series(&springs[0], &springs[1], self.closing.total(gap))
    }

    /// The band that both rings share; half `a`'s where they do not overlap.
    fn band(&self) -> (f64, f64) {
        let [a, b] = &self.halves;
        let together = (a.band.0.max(b.band.0), a.band.1.min(b.band.1));
        if together.0 < together.1 { together } else { a.band }
    }

    fn band_mean_diameter(&self) -> f64 {
        let (inner, outer) = self.band();
        f64::midpoint(inner, outer)
    }

    fn circumference(&self) -> f64 {
        PI * self.band_mean_diameter()
    }

    fn load_at(&self, springs: &[Spring; 2], gap: f64) -> Option<GapLoad> {
        let shared = self.share(springs, gap)?;
        let face_load = shared.force_n / self.circumference();
        let (inner, outer) = self.band();
        let relative = self.relative_uncertainty(gap, &shared);
        let u = face_load * relative;
        let (low, high) = self.limits();
        let limits = Limits::new(low, high);
        Some(GapLoad {
            gap_mm: gap,
            face_load_n_per_mm: face_load,
            standard_uncertainty_n_per_mm: u,
            error_band_n_per_mm: self.band_at(&shared).map(|share| face_load * share),
            force_n: shared.force_n,
            face_pressure_mpa: shared.force_n / (PI / 4.0 * (outer * outer - inner * inner)),
            travel_a_mm: shared.travel_a_mm,
            travel_b_mm: shared.travel_b_mm,
            probability_conforms: limits.map(|limits| probability_within(face_load, u, limits)),
        })
    }

    /// Share of the force that it is uncertain by. Both moduli are taken as wrong the same way, as
    /// one batch and one relation make them; the band of the computation is a rectangle.
    fn relative_uncertainty(&self, gap: f64, shared: &Shared) -> f64 {
        const STEP: f64 = 1e-3;
        let force = shared.force_n;
        let band = self.band_at(shared).unwrap_or(0.0) / 3f64.sqrt();
        if force <= 0.0 {
            return 0.0;
        }
        let moduli: f64 = [[STEP, 0.0], [0.0, STEP]]
            .into_iter()
            .zip(&self.halves)
            .map(|(step, half)| {
                let springs = self.springs([1.0 + step[0], 1.0 + step[1]]);
                // Beyond the end of a curve the share of two like springs is taken: half each.
                let share = self
                    .share(&springs, gap)
                    .map_or(0.5, |moved| (moved.force_n / force - 1.0) / STEP);
                share * half.relative_uncertainty
            })
            .sum();
        libm::hypot(moduli, band)
    }

    /// The wider of both halves' bands at their travels, as a share of the force.
    fn band_at(&self, shared: &Shared) -> Option<f64> {
        let travels = [shared.travel_a_mm, shared.travel_b_mm];
        let bands = self.curves.iter().zip(travels).filter_map(|(c, x)| strain::band_at(c, x));
        bands.reduce(f64::max).map(|percent| percent / 100.0)
    }

    fn gap_curve(&self, springs: &[Spring; 2]) -> Vec<GapPoint> {
        const POINTS: usize = 48;
        let open = self.closing.free_mm[0] + self.closing.free_mm[1];
        let closed = self.closing.gap_min.min(self.closing.gap_nominal);
        (0..=POINTS)
            .map(|i| open + (closed - open) * i as f64 / POINTS as f64)
            .filter_map(|gap| {
                let shared = self.share(springs, gap)?;
                let force_n = shared.force_n;
                let face_load_n_per_mm = force_n / self.circumference();
                let relative = self.relative_uncertainty(gap, &shared);
                let band = self.band_at(&shared).filter(|_| force_n > 0.0);
                let standard_uncertainty_n_per_mm = face_load_n_per_mm * relative;
                Some(GapPoint {
                    gap_mm: gap,
                    face_load_n_per_mm,
                    standard_uncertainty_n_per_mm,
                    error_band_n_per_mm: band.map(|share| face_load_n_per_mm * share),
                    force_n,
                })
            })
            .collect()
    }

    fn half(&self, half: Half, at_gap: &AtGap) -> HalfOutcome {
        let i = half as usize;
        let (loaded, curve) = (&self.halves[i], &self.curves[i]);
        let seal = self.input.seals.pair()[i];
        let circumference = PI * f64::midpoint(loaded.band.0, loaded.band.1);
        let free = self.closing.free_mm[i];
        let point = |point: &CurvePoint| {
            let force_n = point.force_n * loaded.scale;
            let band = point.error_band_percent.or(curve.error_band_percent).map(|b| b / 100.0);
            let computed = band.unwrap_or(0.0) / 3f64.sqrt();
            let relative = libm::hypot(loaded.relative_uncertainty, computed);
            LoadPoint {
                travel_mm: point.travel_mm,
                height_mm: free - point.travel_mm,
                face_load_n_per_mm: force_n / circumference,
                standard_uncertainty_n_per_mm: force_n / circumference * relative,
                error_band_n_per_mm: band.map(|share| force_n / circumference * share),
                force_n,
                roll_deg: point.roll_deg,
                peak_contact_mpa: point.peak_mpa * loaded.scale,
                max_principal_stretch: point.max_principal_stretch,
            }
        };
        let travel = |load: Option<GapLoad>| load.map(|load| travels(&load)[i]);
        let (from_mm, to_mm) = way(half, at_gap);
        HalfOutcome {
            half,
            free_height_mm: free,
            height_at_nominal_gap_mm: travel(at_gap.nominal).map(|travel| free - travel),
            curve: curve.points.iter().map(point).collect(),
            slip_friction: travel(at_gap.max)
                .and_then(|from| slip_friction(&self.problems[i], curve, from)),
            steepens_at_travel_mm: steepens_at(&curve.points),
            largest_roll_deg: strain::largest(curve, to_mm, |point| point.roll_deg.abs()),
            largest_stretch: strain::largest(curve, to_mm, |point| point.max_principal_stretch),
            lip_clearance_mm: lip_clearance(seal, (curve, free), (from_mm, to_mm)),
            ring_weight_n_per_mm: loaded.weight_n / circumference,
            modulus: loaded.modulus,
            stretch_at_break: self.against_break(half, at_gap),
            stress_at_yield: self.against_yield(half, at_gap),
            slides_from_travel_mm: self.slides_from(half, at_gap),
            peak_over_mm: curve.peak_over_mm,
            disc_spring_n: disc_spring::beside(seal, curve),
            section: Drawn {
                problem: self.problems[i].clone(),
                curve: curve.clone(),
                scale: loaded.scale,
            },
        }
    }

    fn against_break(&self, half: Half, at_gap: &AtGap) -> Option<StretchAtBreak> {
        let i = half as usize;
        let material = self.input.pair_of_materials()[i]?;
        if self.input.seals.pair()[i].load_ring.is_steel() {
            return None;
        }
        let (_, deepest) = way(half, at_gap);
        strain::against_break(half, material, (&self.curves[i], deepest))
    }

    /// Flattened as far as the smallest gap asks for.
    fn against_yield(&self, half: Half, at_gap: &AtGap) -> Option<Finding> {
        let i = half as usize;
        let deepest = travels(&at_gap.min?)[i];
        let mut finding = disc_spring::against_yield(self.input.seals.pair()[i], deepest)?;
        finding.half = Some(half);
        Some(finding)
    }

    fn slides_from(&self, half: Half, at_gap: &AtGap) -> Option<f64> {
        let i = half as usize;
        strain::slides_from(&self.problems[i], &self.curves[i], way(half, at_gap))
    }

    /// Does the band say anything, where there is one?
    fn band_says_nothing(&self) -> Option<f64> {
        self.error_band().filter(|band| *band > strain::BAND_SAYS_NOTHING)
    }

    fn error_band(&self) -> Option<f64> {
        self.curves.iter().filter_map(|curve| curve.error_band_percent).reduce(f64::max)
    }

    /// Face-load limits that both seals leave together, N/mm.
    fn limits(&self) -> (Option<f64>, Option<f64>) {
        let bounds = self.input.seals.pair().map(|seal| {
            let limit = seal.limits.face_load.as_ref();
            // N/m to N/mm.
            limit.map_or((None, None), |limit| {
                let (low, high) = limit.bounds_si();
                (low.map(|x| x / 1e3), high.map(|x| x / 1e3))
            })
        });
        let [(low_a, high_a), (low_b, high_b)] = bounds;
        let tighter = |a: Option<f64>, b: Option<f64>, pick: fn(f64, f64) -> f64| {
            a.zip(b).map(|(a, b)| pick(a, b)).or(a).or(b)
        };
        (tighter(low_a, low_b, f64::max), tighter(high_a, high_b, f64::min))
    }

    /// The worst of the three gaps; nothing is drawn from a curve that was not solved to its end.
    fn verdict(&self, at_gap: &AtGap, complete: bool) -> Verdict {
        let three = [at_gap.min, at_gap.nominal, at_gap.max];
        let slides = Half::BOTH.iter().any(|half| self.slides_from(*half, at_gap).is_some());
        let unknown = slides || self.band_says_nothing().is_some();
        if !complete || unknown || three.iter().any(Option::is_none) {
            return Verdict::NotProven;
        }
        let verdicts = three
            .into_iter()
            .flatten()
            .map(|load| load.probability_conforms.map(|p| self.input.levels.verdict(p)));
        // A load without limits is not proven to be right.
        verdicts
            .map(|verdict| verdict.unwrap_or(Verdict::NotProven))
            .max()
            .unwrap_or(Verdict::NotProven)
    }

    fn remarks(&self, at_gap: &AtGap) -> Vec<String> {
        let mut remarks: Vec<String> =
            self.curves.iter().filter_map(|curve| curve.stopped.map(Stopped::words)).collect();
        remarks.dedup();
        let missing = [at_gap.min, at_gap.nominal, at_gap.max].iter().any(Option::is_none);
        if missing && remarks.is_empty() {
            remarks.push(say!("load-at-gap-within-limits-two-halves").to_owned());
        }
        remarks.extend(self.slides(at_gap));
        remarks.extend(self.beyond_tests(at_gap));
        let hardness = self.halves.iter().any(|half| {
            half.modulus.is_some_and(|modulus| modulus.basis == rubber::ModulusBasis::Hardness)
        });
        if hardness {
            remarks.push(say!("load-modulus-taken-from-hardness-alone-measured").to_owned());
        }
        remarks
    }
}

impl Joined<'_> {
    /// What sliding, or a band that says nothing, does to the answer.
    fn slides(&self, at_gap: &AtGap) -> Vec<String> {
        let shown = match self.input.seals {
            Seals::Alike(_) => &Half::BOTH[..1],
            Seals::Joint(_) => &Half::BOTH[..],
        };
        let slides = shown.iter().filter_map(|half| {
            let travel = self.slides_from(*half, at_gap)?;
            Some(say!(
                "load-half-whole-section-slides-on-ramp",
                half = half.name(),
                travel = shown_mm(travel, self.input.seals.pair()[*half as usize])
            ))
        });
        let mut said: Vec<String> = slides.collect();
        if let Some(band) = self.band_says_nothing() {
            let band = fixed(band, 0);
            said.push(if said.is_empty() {
                say!("load-meshes-differ", band)
            } else {
                say!("load-meshes-differ-while-sliding", band)
            });
        }
        said
    }

    /// Where the rubber is stretched further than its tests went.
    fn beyond_tests(&self, at_gap: &AtGap) -> Option<String> {
        let beyond = |half: &Half| {
            let i = *half as usize;
            let tested = self.halves[i].tested_to?;
            let deepest = at_gap.min.map_or(f64::INFINITY, |load| travels(&load)[i]);
            let stretch = strain::at(&self.curves[i], deepest, |p| p.max_principal_stretch);
            (stretch > tested).then_some((stretch, tested))
        };
        let (stretch, tested) = Half::BOTH.iter().find_map(beyond)?;
        Some(say!(
            "load-rubber-stretched-at-most-tests-end",
            stretch = fixed(stretch, 2),
            tested = fixed(tested, 2)
        ))
    }
}

fn travels(load: &GapLoad) -> [f64; 2] {
    [load.travel_a_mm, load.travel_b_mm]
}

/// Travels of a half at the largest gap that the joint has, from which on its load rings bear, and
/// at the smallest; from the first touch or to the end of its curve where that is not known.
fn way(half: Half, at_gap: &AtGap) -> (f64, f64) {
    let travel = |load: Option<GapLoad>| load.map(|load| travels(&load)[half as usize]);
    let [least, nominal, most] = [at_gap.max, at_gap.nominal, at_gap.min].map(travel);
    // A measured gap may lie beyond its limits.
    let from = least.map_or(0.0, |least| nominal.map_or(least, |nominal| nominal.min(least)));
    let to = most.map_or(f64::INFINITY, |most| nominal.map_or(most, |nominal| nominal.max(most)));
    (from, to)
}

/// The most friction that either ramp asks for from the largest gap on; null for a washer, which
/// does not roll, and where sliding was already allowed. Before the load rings bear, the mounted
/// toric's own hoop tension asks for more, and the ring's tail stop holds it.
fn slip_friction(problem: &HalfProblem, curve: &HalfCurve, from_travel_mm: f64) -> Option<f64> {
    let rolls = matches!(problem.section, SectionOf::Toric { .. }) && problem.friction.is_none();
    let asked = curve.points.iter().filter(|point| point.travel_mm >= from_travel_mm);
    asked.map(|point| point.friction_asked).reduce(f64::max).filter(|_| rolls)
}

/// Smallest distance of the deformed load ring from the lip from one travel to another, straight
/// between two pictures: the lip is the metal outside its diameter, from the housing face to its
/// height.
fn lip_clearance(
    seal: &Seal,
    (curve, free_height_mm): (&HalfCurve, f64),
    (from_mm, to_mm): (f64, f64),
) -> Option<f64> {
    let RetainingLip { diameter, height, .. } = seal.housing.lip.as_ref()?;
    let toric = geometry::mounted(seal)?;
    let ramp = seal.ring.ramp.as_ref()?;
    let behind = mm(toric.section_diameter) / 2.0 * libm::sin(ramp.angle.value().si());
    // The picture's z starts at the centroid; the centroid starts here behind the housing face.
    let centroid = mm(ramp.plane_from_face.value()) + behind - free_height_mm;
    let (radius, deep) = (mm(diameter.value()) / 2.0, mm(height.value()));
    let of = |frame: &Frame| {
        let nodes = curve.picture.boundary.iter().flat_map(|edge| edge.iter());
        let distances = nodes.map(|node| {
            let [r, z] = frame.nodes[*node as usize].map(f64::from);
            let (inside, behind) = ((radius - r).max(0.0), (z + centroid - deep).max(0.0));
            libm::hypot(inside, behind)
        });
        distances.reduce(f64::min).map(|distance| (f64::from(frame.travel_mm), distance))
    };
    let known: Vec<(f64, f64)> = curve.picture.frames.iter().filter_map(of).collect();
    let within = known.iter().filter(|(travel, _)| (from_mm..=to_mm).contains(travel));
    let ends = [from_mm, to_mm].into_iter().filter_map(|travel| strain::straight(&known, travel));
    within.map(|(_, distance)| *distance).chain(ends).reduce(f64::min)
}
