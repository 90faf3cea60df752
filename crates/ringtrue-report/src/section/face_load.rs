//! What presses the lapped faces together?

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::fixed;
use ringtrue_seal::definition::joint::{Attitude, Half};
use ringtrue_seal::face_load::{self, GapLoad, HalfOutcome, LoadPoint, Outcome, STEEL_FRICTION};
use ringtrue_seal::rubber::{self, ModulusBasis};

use super::reader;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::half_section::installed::{self, Installed};
use crate::figure::limit_scale::{self, Scale, Size, Spread};
use crate::figure::load_curve::{self, Marker, travel_of};
use crate::pictures;
use crate::reader::load::whole_degrees;
use crate::reader::{COVERAGE_FACTOR, Reader, percent, probability};
use crate::{Drawing, JointReport};

/// Stands with the friction that rolling asks for.
const OIL_CAUTION: &str = "The friction below which a toric would slide instead of roll is no \
                           leave to oil a ramp. It holds for one friction all round, and can't \
                           see a patch of oil, a twist or the entry past the lip. Fit the toric \
                           and the ramps clean and dry unless the seal maker's instruction says \
                           otherwise.";

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
            format!("{} at the nominal gap", loads.uncertain(nominal.face_load_n_per_mm, Some(u)))
        }
        (None, _) => "not known at the nominal gap".to_owned(),
    };
    let scale = spread.and_then(|(from, to)| {
        let scale = Scale {
            name: "face-load-line".to_owned(),
            quantity: "Face load over the gap limits, uncertainty taken in".to_owned(),
            value: joint.at_gap.nominal.map_or(f64::midpoint(from, to), |l| l.face_load_n_per_mm),
            spread: Spread::Between(from, to),
            min: low,
            max: high,
        };
        limit_scale::draw(&scale, Size::Line, loads)
    });
    Some(VerdictLine {
        verdict: load.verdict,
        question: "face load".to_owned(),
        sentence: sentence(load).to_owned(),
        value,
        limit: loads.limits(low, high, 1).unwrap_or_else(|| "no limit is given".to_owned()),
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
            "Inside its limits at every gap that the joint may close to, the uncertainty taken in."
        }
        Verdict::DoesNotConform => {
            "Outside its limits at a gap that the joint may close to, the uncertainty taken in."
        }
        Verdict::NotProven if !load.complete => {
            "The curve was not solved to its end: no verdict is drawn from it."
        }
        Verdict::NotProven if reached.iter().any(Option::is_none) => {
            "The curve does not reach every gap that the joint may close to."
        }
        Verdict::NotProven if no_limits => {
            "The seals' definitions give no limits of the face load."
        }
        Verdict::NotProven => {
            "The uncertainty of the load covers a limit: have the rubber's modulus measured."
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
        Verdict::NotProven if from_hardness => vec![
            "Face load: have the modulus of this batch of load rings measured; hardness alone \
             leaves it too uncertain."
                .to_owned(),
        ],
        Verdict::NotProven => vec![format!("Face load: {}", sentence(load))],
        Verdict::DoesNotConform => vec![
            "Face load: compare load ring, ramps and gap with the drawing before the joint is \
             closed; a shim that opens the gap takes load off, one that closes it adds load."
                .to_owned(),
        ],
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
    let title = "Face load".to_owned();
    let (Some(load), Some(line)) = (report.load, line(report)) else {
        let said = "The face load was not computed for this report: nothing is said about it.";
        let blocks = vec![Block::Text(said.to_owned())];
        return Section { title, start: Start::Below, blocks };
    };
    let reader = reader(report);
    let mut blocks = vec![Block::Verdict(VerdictLine { scale: None, ..line })];
    blocks.extend(drawings(report, load, reader));
    blocks.push(at_gaps(load, reader));
    blocks.push(Block::Heading("Each half".to_owned()));
    blocks.push(halves(report, load, reader));
    if load.halves.iter().any(|half| half.slip_friction.is_some()) {
        blocks.push(Block::Caution(OIL_CAUTION.to_owned()));
    }
    blocks.push(Block::Heading("How well the load is known".to_owned()));
    blocks.push(Block::List(basis(load)));
    blocks.extend(closing(load, reader));
    let deeds = deeds(report);
    if !deeds.is_empty() {
        blocks.push(Block::Heading("What to do".to_owned()));
        blocks.push(Block::List(deeds));
    }
    blocks.push(Block::Small(format!(
        "Face load is the axial force over the circumference at the contact band's mean diameter, \
         {}. Each load ring is solved by finite elements as a squeezed section that sticks or \
         slides on its ramps or seats; both halves then carry one force and share the travel that \
         the gap leaves them. Travel counts from where the load ring just touches both sides. The \
         sections are drawn between two solved steps, each node on a straight line.",
        reader.exact(load.joint.band_mean_diameter_mm, 1)
    )));
    Section { title, start: Start::NewPage, blocks }
}

/// The curve and the joint as installed, then each half.
fn drawings(report: &JointReport, load: &Outcome, reader: Reader) -> Vec<Block> {
    let joint = &load.joint;
    let measured = report.gap.links.iter().any(|link| link.measured);
    let marker =
        measured.then_some(Marker { gap_mm: report.gap.mean_gap_mm, words: "mean of the gap" });
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
        ("", Set::Words),
        (&format!("Gap, {length}"), Set::Numbers),
        (&format!("Load \u{b1} U, {}", loads.unit()), Set::Numbers),
        ("Force all round", Set::Numbers),
        (&format!("Face pressure, {}", reader.pressure_unit()), Set::Numbers),
        (&format!("Travel a, {length}"), Set::Numbers),
        (&format!("Travel b, {length}"), Set::Numbers),
        ("Inside its limits", Set::Numbers),
    ]);
    table.columns[0].head = "At the".to_owned();
    let at = &load.joint.at_gap;
    let decimals = reader.workshop_decimals();
    for (name, load) in
        [("smallest gap", &at.min), ("nominal gap", &at.nominal), ("largest gap", &at.max)]
    {
        let Some(load) = load else {
            let missing = || Cell::text("not reached");
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
        let inside = load.probability_conforms.map_or_else(|| "no limit".to_owned(), probability);
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
    let mut table = Table::new([("", Set::Prose), ("Half a", Set::Words), ("Half b", Set::Words)]);
    table.columns[0].head = "Of the half".to_owned();
    let vertical = match report.joint.file.attitude {
        Attitude::ShaftVertical => ": added above, taken off below, shaft standing",
        Attitude::ShaftHorizontal => ": no part in the load, shaft level",
    };
    let rows = [
        "Assembled height where the load ring just touches",
        "Assembled height at the nominal gap",
        "Roll of the section there",
        "Largest contact pressure there, over a tenth of the section",
        "Largest principal stretch there",
        "Largest stretch, over the least elongation at break",
        "Travel from which the curve is twice as steep as in its middle",
        "Clear of the retaining lip at the end of the curve",
        "Friction that rolling asks for, one all round",
        &format!("Weight of the ring{vertical}"),
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
    let not_reached = "not reached";
    let loads = reader.line_loads();
    [
        length(half.free_height_mm),
        or(half.height_at_nominal_gap_mm.map(length), not_reached),
        or(there(|point| point.roll_deg).map(whole_degrees), not_reached),
        or(there(|point| point.peak_contact_mpa).map(|mpa| reader.pressure(mpa)), not_reached),
        or(there(|point| point.max_principal_stretch).map(|s| fixed(s, 2)), not_reached),
        half.stretch_at_break.as_ref().map_or_else(
            || "no figure".to_owned(),
            |stretch| format!("{}: {}", percent(stretch.share), stretch.finding.verdict),
        ),
        or(half.steepens_at_travel_mm.map(length), "beyond the curve"),
        or(half.lip_clearance_mm.map(length), "no lip"),
        or(half.slip_friction.map(|mu| fixed(mu, 3)), "does not roll"),
        loads.length(half.ring_weight_n_per_mm, loads.workshop_decimals() + 1),
    ]
}

/// Where the modulus comes from, the band of the computation, and what the curve leaves out.
fn basis(load: &Outcome) -> Vec<String> {
    let mut all: Vec<String> = load
        .halves
        .iter()
        .map(|half| {
            let whose = format!("half {}", half.half.name());
            let Some(modulus) = half.modulus else {
                return format!(
                    "{whose}: a steel washer, with the modulus of its definition; its edges slide \
                     with a friction of {} where none is stated (common practice, no source).",
                    fixed(STEEL_FRICTION, 2)
                );
            };
            let u = percent(modulus.relative_standard_uncertainty * COVERAGE_FACTOR);
            let young = fixed(modulus.young_mpa, 2);
            match modulus.basis {
                ModulusBasis::Measured => format!(
                    "{whose}: Young's modulus {young} MPa, measured; U = {u} of it goes into the \
                     load."
                ),
                ModulusBasis::Tests => format!(
                    "{whose}: Young's modulus {young} MPa at zero strain, with the law fitted to \
                     the material's stretch tests; U = {u} of the stress goes into the load."
                ),
                ModulusBasis::Hardness => format!(
                    "{whose}: Young's modulus {young} MPa, from hardness alone. The published \
                     relations differ by up to a factor of 1.6 and compounds scatter about them: \
                     U = {u} of it goes into the load."
                ),
            }
        })
        .collect();
    if let Some(band) = load.error_band_percent {
        all.push(format!(
            "The computed forces lie within {} % for a given modulus past the first tenth of the \
             travel; each point's own band is taken in too, and drawn about the curve.",
            fixed(band, 1)
        ));
    }
    let stretched = load.halves.iter().filter_map(|half| half.stretch_at_break.as_ref());
    let yields = load.halves.iter().filter_map(|half| half.stress_at_yield.as_ref());
    for finding in stretched.map(|stretch| &stretch.finding).chain(yields) {
        let sources = finding.sources.join("; ");
        let whose = finding.half.map_or("", Half::name);
        all.push(format!(
            "half {whose}: {}; {}: {} [{sources}].",
            finding.found, finding.fits, finding.verdict
        ));
    }
    all.push(
        "The curve is that of the first slow loading of a new, dry load ring. One that has been \
         worked is softer, and rubber relaxes with time: neither is in these numbers."
            .to_owned(),
    );
    all.extend(load.remarks.iter().map(|remark| super::sentence(remark)));
    all
}

/// What holds the halves together, and what to mind.
fn closing(load: &Outcome, reader: Reader) -> Vec<Block> {
    let Some(force) = load.closing_force_n else { return Vec::new() };
    let force = reader.force(force);
    vec![
        Block::Heading("Closing the joint".to_owned()),
        Block::Caution(format!(
            "At the nominal gap the load rings push the halves apart with {force}, and with more \
             where the gap is smaller. Draw the halves together and let them go evenly, with long \
             bolts or a press rated for it; undone bolt by bolt they spring apart. Keep hands from \
             between the halves. Follow the seal maker's instruction and the shop's safety rules; \
             where they differ from this page, they stand."
        )),
        Block::Text(format!(
            "Closing force for the whole ring at the nominal gap: {force}. Bolts or a press must \
             supply it besides what the joint itself needs."
        )),
    ]
}
