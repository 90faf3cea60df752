//! What presses the lapped faces together?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::fixed;
use ringtrue_seal::definition::joint::{Attitude, Half};
use ringtrue_seal::face_load::{self, GapLoad, HalfOutcome, LoadPoint, Outcome, STEEL_FRICTION};
use ringtrue_seal::rubber::{self, ModulusBasis};
use ringtrue_words::say;

use super::reader;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::half_section::installed::{self, Installed};
use crate::figure::limit_scale::{self, Scale, Size, Spread};
use crate::figure::load_curve::{self, Marker, travel_of};
use crate::pictures;
use crate::reader::load::whole_degrees;
use crate::reader::{COVERAGE_FACTOR, Reader, percent, probability};
use crate::{Drawing, JointReport};

/// The verdict on the load, where it was computed.
pub(super) fn line(report: &JointReport) -> Option<VerdictLine> {
    let load = report.load?;
    let loads = reader(report).line_loads();
    let joint = &load.joint;
    let (low, high) = (joint.face_load_min_n_per_mm, joint.face_load_max_n_per_mm);
    let spread = spread(load);
    let value = match (&joint.at_gap.nominal, spread) {
        (Some(nominal), _) => {
            let u = nominal.standard_uncertainty_n_per_mm;
            say!("report-load-value", load = loads.uncertain(nominal.face_load_n_per_mm, Some(u)))
        }
        (None, _) => say!("report-load-not-known-at-nominal-gap").to_owned(),
    };
    let scale = spread.and_then(|(from, to)| {
        let scale = Scale {
            name: "face-load-line".to_owned(),
            quantity: say!("report-load-over-gap-limits").to_owned(),
            value: joint.at_gap.nominal.map_or(f64::midpoint(from, to), |l| l.face_load_n_per_mm),
            spread: Spread::Between(from, to),
            min: low,
            max: high,
        };
        limit_scale::draw(&scale, Size::Line, loads)
    });
    Some(VerdictLine {
        verdict: load.verdict,
        question: say!("report-load-question").to_owned(),
        sentence: sentence(load).to_owned(),
        value,
        limit: loads
            .limits(low, high, 1)
            .unwrap_or_else(|| say!("report-load-no-limit-is-given").to_owned()),
        scale,
    })
}

/// From the least to the most that the load may be between the gap's limits.
fn spread(load: &Outcome) -> Option<(f64, f64)> {
    let at = &load.joint.at_gap;
    let reached = || [at.min, at.nominal, at.max].into_iter().flatten();
    let half = |load: &GapLoad| COVERAGE_FACTOR * load.standard_uncertainty_n_per_mm;
    let least = reached().map(|load| load.face_load_n_per_mm - half(&load)).reduce(f64::min)?;
    let most = reached().map(|load| load.face_load_n_per_mm + half(&load)).reduce(f64::max)?;
    Some((least.max(0.0), most))
}

fn sentence(load: &Outcome) -> &'static str {
    let joint = &load.joint;
    let reached = [joint.at_gap.min, joint.at_gap.nominal, joint.at_gap.max];
    let no_limits =
        joint.face_load_min_n_per_mm.is_none() && joint.face_load_max_n_per_mm.is_none();
    match load.verdict {
        Verdict::Conforms => {
            say!("report-load-inside")
        }
        Verdict::DoesNotConform => {
            say!("report-load-outside")
        }
        Verdict::NotProven if !load.complete => {
            say!("report-load-not-solved")
        }
        Verdict::NotProven if reached.iter().any(Option::is_none) => {
            say!("report-load-not-reached")
        }
        Verdict::NotProven if no_limits => {
            say!("report-load-no-limits")
        }
        Verdict::NotProven => {
            say!("report-load-covers-limit")
        }
    }
}

/// What to do about the load.
pub(super) fn deeds(report: &JointReport) -> Vec<String> {
    let Some(load) = report.load else { return Vec::new() };
    let from_hardness = load
        .halves
        .iter()
        .any(|half| half.modulus.is_some_and(|modulus| modulus.basis == ModulusBasis::Hardness));
    match load.verdict {
        Verdict::Conforms => Vec::new(),
        Verdict::NotProven if from_hardness => {
            vec![say!("report-load-measure-modulus").to_owned()]
        }
        Verdict::NotProven => vec![say!("report-load-deed", why = sentence(load))],
        Verdict::DoesNotConform => {
            vec![say!("report-load-compare").to_owned()]
        }
    }
}

/// Sources of the loads, where they were computed.
pub(super) fn sources(report: &JointReport) -> Vec<String> {
    let Some(load) = report.load else { return Vec::new() };
    let discs: &[_] = if load.halves.iter().any(|half| !half.disc_spring_n.is_empty()) {
        face_load::disc_spring::SOURCES
    } else {
        &[]
    };
    let rooms = [face_load::SOURCES, rubber::SOURCES, discs];
    rooms.into_iter().flatten().map(ToString::to_string).collect()
}

/// The pages of the load.
pub(super) fn section(report: &JointReport) -> Section {
    let title = say!("report-load-title").to_owned();
    let (Some(load), Some(line)) = (report.load, line(report)) else {
        let said = say!("report-load-not-computed");
        let blocks = vec![Block::Text(said.to_owned())];
        return Section { title, start: Start::Below, blocks };
    };
    let reader = reader(report);
    let mut blocks = vec![Block::Verdict(VerdictLine { scale: None, ..line })];
    blocks.extend(drawings(report, load, reader));
    blocks.push(at_gaps(load, reader));
    blocks.push(Block::Heading(say!("report-load-each-half").to_owned()));
    blocks.push(halves(report, load, reader));
    if load.halves.iter().any(|half| half.slip_friction.is_some()) {
        blocks.push(Block::Caution(say!("report-load-oil-caution").to_owned()));
    }
    blocks.push(Block::Heading(say!("report-load-how-well-load-known").to_owned()));
    blocks.push(Block::List(basis(load)));
    blocks.extend(closing(load, reader));
    let deeds = deeds(report);
    if !deeds.is_empty() {
        blocks.push(Block::Heading(say!("report-what-to-do").to_owned()));
        blocks.push(Block::List(deeds));
    }
    blocks.push(Block::Small(say!(
        "report-load-small-print",
        diameter = reader.exact(load.joint.band_mean_diameter_mm, 1)
    )));
    Section { title, start: Start::NewPage, blocks }
}

/// The curve and the joint as installed, then each half.
fn drawings(report: &JointReport, load: &Outcome, reader: Reader) -> Vec<Block> {
    let joint = &load.joint;
    let measured = report.gap.links.iter().any(|link| link.measured);
    let marker = measured.then_some(Marker {
        gap_mm: report.gap.mean_gap_mm,
        words: say!("report-load-mean-of-gap"),
    });
    let curve = load_curve::gap("face-load", joint, marker.as_slice(), reader);
    let first = [curve, installed(report, load, reader)];
    let sections = load.halves.iter().map(|half| pictures::squeezed(half, joint, reader));
    let row = |drawings: Vec<Drawing>| {
        let columns: Vec<_> = drawings.into_iter().map(|drawing| vec![drawing]).collect();
        (!columns.is_empty()).then_some(Block::Drawings(columns))
    };
    let rows = [first.into_iter().flatten().collect(), sections.flatten().collect()];
    rows.into_iter().filter_map(row).collect()
}

fn installed(report: &JointReport, load: &Outcome, reader: Reader) -> Option<Drawing> {
    let nominal = load.joint.at_gap.nominal?;
    let half = |which: Half| {
        let solved = load.halves.iter().find(|half| half.half == which);
        Some(Installed {
            seal: report.joint.seal(which),
            section: &solved?.section,
            travel_mm: travel_of(which, &nominal),
        })
    };
    let (a, b) = (half(Half::A)?, half(Half::B)?);
    installed::joint("joint-installed", (a, b), nominal.gap_mm, reader)
}

fn at_gaps(load: &Outcome, reader: Reader) -> Block {
    let (length, loads) = (reader.unit(), reader.line_loads());
    let mut table = Table::new([
        (say!("report-load-at-the"), Set::Words),
        (&say!("report-load-gap", length), Set::Numbers),
        (&say!("report-load-load-and-u", unit = loads.unit()), Set::Numbers),
        (say!("report-load-force-all-round"), Set::Numbers),
        (&say!("report-load-face-pressure", unit = reader.pressure_unit()), Set::Numbers),
        (&say!("report-load-travel-a", length), Set::Numbers),
        (&say!("report-load-travel-b", length), Set::Numbers),
        (say!("report-load-inside-limits"), Set::Numbers),
    ]);
    let at = &load.joint.at_gap;
    let decimals = reader.workshop_decimals();
    for (name, load) in [
        (say!("report-load-smallest-gap"), &at.min),
        (say!("report-load-nominal-gap"), &at.nominal),
        (say!("report-load-largest-gap"), &at.max),
    ] {
        let Some(load) = load else {
            let missing = || Cell::text(say!("report-not-reached"));
            table.row([
                Cell::text(name),
                missing(),
                missing(),
                missing(),
                missing(),
                missing(),
                missing(),
                missing(),
            ]);
            continue;
        };
        let u = load.standard_uncertainty_n_per_mm;
        let places = loads.decimals(Some(u));
        let uncertain = format!(
            "{} \u{b1} {}",
            loads.number(load.face_load_n_per_mm, places),
            loads.number(u * COVERAGE_FACTOR, places)
        );
        let inside = load
            .probability_conforms
            .map_or_else(|| say!("report-load-no-limit").to_owned(), probability);
        table.row([
            Cell::text(name),
            Cell::Text(reader.number(load.gap_mm, decimals)),
            Cell::Text(uncertain),
            Cell::Text(reader.force(load.force_n)),
            Cell::Text(reader.pressure_number(load.face_pressure_mpa)),
            Cell::Text(reader.number(load.travel_a_mm, decimals)),
            Cell::Text(reader.number(load.travel_b_mm, decimals)),
            Cell::Text(inside),
        ]);
    }
    Block::Tables(vec![table])
}

fn halves(report: &JointReport, load: &Outcome, reader: Reader) -> Block {
    let mut table = Table::new([
        (say!("report-load-of-the-half"), Set::Prose),
        (say!("report-half-a"), Set::Words),
        (say!("report-half-b"), Set::Words),
    ]);
    let weight = match report.joint.file.attitude {
        Attitude::ShaftVertical => say!("report-load-weight-shaft-standing"),
        Attitude::ShaftHorizontal => say!("report-load-weight-shaft-level"),
    };
    let rows = [
        say!("report-load-assembled-height-where-load-ring-just"),
        say!("report-load-assembled-height-at-nominal-gap"),
        say!("report-load-roll-section-there"),
        say!("report-load-largest-contact-pressure-there-over-tenth"),
        say!("report-load-largest-principal-stretch-there"),
        say!("report-load-largest-stretch-over-least-elongation-at"),
        say!("report-load-travel-from-which-curve-twice-as"),
        say!("report-load-clear-retaining-lip"),
        say!("report-load-friction-that-rolling-asks-for-one"),
        weight,
    ];
    let of = |half: Half| {
        let found = load.halves.iter().find(|outcome| outcome.half == half);
        // One seal against its like has one outcome for both.
        found.or(load.halves.first()).map(|half| values(half, load, reader))
    };
    let (a, b) = (of(Half::A).unwrap_or_default(), of(Half::B).unwrap_or_default());
    for ((what, a), b) in rows.into_iter().zip(a).zip(b) {
        table.row([Cell::text(what), Cell::Text(a), Cell::Text(b)]);
    }
    Block::Tables(vec![table])
}

/// The rows' values for a half.
fn values(half: &HalfOutcome, load: &Outcome, reader: Reader) -> [String; 10] {
    let length = |mm: f64| reader.length(mm, reader.workshop_decimals());
    let or = |value: Option<String>, otherwise: &str| value.unwrap_or_else(|| otherwise.to_owned());
    let nominal = load.joint.at_gap.nominal.as_ref();
    let there = |of: fn(&LoadPoint) -> f64| {
        nominal.map(|load| pictures::between(&half.curve, travel_of(half.half, load), of))
    };
    let not_reached = say!("report-not-reached");
    let loads = reader.line_loads();
    [
        length(half.free_height_mm),
        or(half.height_at_nominal_gap_mm.map(length), not_reached),
        or(there(|point| point.roll_deg).map(whole_degrees), not_reached),
        or(there(|point| point.peak_contact_mpa).map(|mpa| reader.pressure(mpa)), not_reached),
        or(there(|point| point.max_principal_stretch).map(|s| fixed(s, 2)), not_reached),
        half.stretch_at_break.as_ref().map_or_else(
            || say!("report-load-no-figure").to_owned(),
            |stretch| format!("{}: {}", percent(stretch.share), stretch.finding.verdict),
        ),
        or(half.steepens_at_travel_mm.map(length), say!("report-load-beyond-curve")),
        or(half.lip_clearance_mm.map(length), say!("report-load-no-lip")),
        or(half.slip_friction.map(|mu| fixed(mu, 3)), say!("report-load-does-not-roll")),
        loads.length(half.ring_weight_n_per_mm, loads.workshop_decimals() + 1),
    ]
}

/// Where the modulus comes from, the band of the computation, and what the curve leaves out.
fn basis(load: &Outcome) -> Vec<String> {
    let mut all: Vec<String> = load
        .halves
        .iter()
        .map(|half| {
            let whose = say!("report-half", half = half.half.name());
            let Some(modulus) = half.modulus else {
                return say!("report-load-steel", whose, friction = fixed(STEEL_FRICTION, 2));
            };
            let u = percent(modulus.relative_standard_uncertainty * COVERAGE_FACTOR);
            let young = fixed(modulus.young_mpa, 2);
            match modulus.basis {
                ModulusBasis::Measured => {
                    say!("report-load-modulus-measured", whose, young, u)
                }
                ModulusBasis::Tests => {
                    say!("report-load-modulus-tests", whose, young, u)
                }
                ModulusBasis::Hardness => {
                    say!("report-load-modulus-hardness", whose, young, u)
                }
            }
        })
        .collect();
    if let Some(band) = load.error_band_percent {
        all.push(say!("report-load-error-band", band = fixed(band, 1)));
    }
    let stretched = load.halves.iter().filter_map(|half| half.stretch_at_break.as_ref());
    let yields = load.halves.iter().filter_map(|half| half.stress_at_yield.as_ref());
    for finding in stretched.map(|stretch| &stretch.finding).chain(yields) {
        let sources = finding.sources.join("; ");
        let half = finding.half.map_or("", Half::name);
        all.push(say!(
            "report-load-finding",
            half,
            found = finding.found,
            fits = finding.fits,
            verdict = finding.verdict.words(),
            sources
        ));
    }
    all.push(say!("report-load-first-loading").to_owned());
    all.extend(load.remarks.iter().map(|remark| super::sentence(remark)));
    all
}

/// What holds the halves together, and what to mind.
fn closing(load: &Outcome, reader: Reader) -> Vec<Block> {
    let Some(force) = load.closing_force_n else { return Vec::new() };
    let force = reader.force(force);
    vec![
        Block::Heading(say!("report-load-closing-joint").to_owned()),
        Block::Caution(say!("report-load-closing-caution", force)),
        Block::Text(say!("report-load-closing-force", force)),
    ]
}
