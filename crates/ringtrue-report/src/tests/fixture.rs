//! Joints as a shop would have them, judged by the rooms; and the same with odd values.

use std::path::PathBuf;
use std::sync::OnceLock;

use jiff::Timestamp;
use ringtrue_metrology::conformity::Levels;
use ringtrue_metrology::units::{Given, Length, System, parse};
use ringtrue_seal::assembled_height::{
    self, GaugeUncertainty, LoadRingKind, Outcome as Heights, Reading,
};
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::{self, Joint, JointFile};
use ringtrue_seal::definition::seal::Seal;
use ringtrue_seal::definition::{Definition, read};
use ringtrue_seal::face_load::{self, Outcome as Load, Seals};
use ringtrue_seal::gap_stack::{self, Link, Outcome as Gap, Size};
use ringtrue_seal::matching::{self, JointInput, Outcome as Matching};

use crate::{CheckMade, Document, Further, Halves, HeightTry, InputFile, JointReport};

/// Everything that a report borrows.
pub(crate) struct Case {
    pub(crate) joint: Joint,
    pub(crate) matching: Matching,
    pub(crate) a: Vec<(String, Heights)>,
    pub(crate) b: Vec<(String, Heights)>,
    pub(crate) gap: Gap,
    pub(crate) load: Option<&'static Load>,
    pub(crate) gauge: Option<Gauge>,
    pub(crate) system: System,
}

impl Case {
    pub(crate) fn document(&self) -> Document {
        self.document_with(&[])
    }

    /// The report with checks that were made besides.
    pub(crate) fn document_with(&self, checks: &[Further<'_>]) -> Document {
        let further: Vec<CheckMade<'_>> =
            checks.iter().map(|check| CheckMade { place: "", check: *check }).collect();
        self.document_of(&further)
    }

    /// The same, each with where it was made.
    pub(crate) fn document_of(&self, further: &[CheckMade<'_>]) -> Document {
        let a: Vec<_> = self.a.iter().map(|(file, outcome)| HeightTry { file, outcome }).collect();
        let b: Vec<_> = self.b.iter().map(|(file, outcome)| HeightTry { file, outcome }).collect();
        let inputs = [
            InputFile { role: "joint", name: "joint.toml" },
            InputFile { role: "readings, half a", name: "heights-a.csv" },
            InputFile { role: "readings, half b", name: "heights-b-try-2.csv" },
        ];
        crate::document(&JointReport {
            joint: &self.joint,
            matching: &self.matching,
            heights: Halves { a: &a, b: &b },
            gap: &self.gap,
            load: self.load,
            further,
            gauge: self.gauge.as_ref(),
            inputs: &inputs,
            system: self.system,
            made: "2026-11-20T14:05:00Z".parse::<Timestamp>().unwrap(),
            program_version: "0.1.0",
        })
    }
}

fn example(path: &str) -> String {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    std::fs::read_to_string(folder.join(path)).unwrap()
}

fn definition<T: Definition>(path: &str) -> T {
    read(&example(path)).unwrap()
}

pub(crate) fn length(text: &str) -> Length {
    parse(text).unwrap()
}

/// A length of some mm.
pub(crate) fn mm(value: f64) -> Length {
    length(&format!("{value:.9} mm"))
}

pub(crate) fn joint(folder: &str) -> Joint {
    let file: JointFile = definition(&format!("{folder}/joint.toml"));
    joint::assemble(file, |path, _| read::<Seal>(&example(&format!("{folder}/{path}")))).unwrap()
}

pub(crate) fn matching_of(joint: &Joint) -> Matching {
    matching::evaluate(&matching::Input::Joint(Box::new(JointInput {
        joint: joint.clone(),
        material_a: None,
        material_b: None,
    })))
    .unwrap()
}

/// The joint's gap, some links measured.
pub(crate) fn gap_of(joint: &Joint, measured: &[(&str, &str, &str)]) -> Gap {
    let links = joint.file.gap.link.iter().map(|link| {
        let found = measured.iter().find(|(name, _, _)| *name == link.name);
        let size = match found {
            Some((_, value, u)) => {
                Size::Measured { value: length(value), standard_uncertainty: length(u) }
            }
            None => {
                let (upper, lower) = link.deviations().unwrap();
                let nominal = link.nominal.value();
                Size::Drawn { nominal, upper, lower, spread: link.distribution }
            }
        };
        Link { name: link.name.clone(), sign: link.sign, size }
    });
    let limits = joint.gap_limits();
    gap_stack::evaluate(&gap_stack::Input {
        links: links.collect(),
        limits: (limits.min.unwrap(), limits.max.unwrap()),
        shims_on_hand: joint.file.gap.shims_on_hand.iter().map(Given::value).collect(),
        levels: Levels::DEFAULT,
        draws: 20_000,
        seed: 1,
    })
    .unwrap()
}

/// The joint's loads at its nominal gap, solved once a run of the tests.
fn load_of(folder: &str) -> Load {
    let joint = joint(folder);
    let (nominal_gap, limits) = (gap_of(&joint, &[]).nominal_gap_mm, joint.gap_limits());
    face_load::evaluate(&face_load::Input {
        seals: Seals::Joint(Box::new([joint.a, joint.b])),
        materials: [None, None],
        gap_limits: (limits.min.unwrap(), limits.max.unwrap()),
        nominal_gap: Some(mm(nominal_gap)),
        friction: None,
        levels: Levels::DEFAULT,
    })
    .unwrap()
}

pub(crate) fn final_drive_load() -> &'static Load {
    static LOAD: OnceLock<Load> = OnceLock::new();
    LOAD.get_or_init(|| load_of("final-drive"))
}

pub(crate) fn mixer_shaft_load() -> &'static Load {
    static LOAD: OnceLock<Load> = OnceLock::new();
    LOAD.get_or_init(|| load_of("mixer-shaft"))
}

/// Heights as angle, mm and round; the limits are the seal's.
pub(crate) fn heights(
    readings: &[(f64, f64, u32)],
    seal: &Seal,
    uncertainty: GaugeUncertainty,
) -> Heights {
    let bounds = |limit: &ringtrue_seal::definition::limit::Limit<Length>| {
        (limit.min.as_ref().map(Given::value), limit.max.as_ref().map(Given::value))
    };
    let limits = &seal.limits;
    assembled_height::evaluate(&assembled_height::Input {
        readings: readings
            .iter()
            .map(|(angle, height, round)| Reading {
                angle: parse(&format!("{angle} deg")).unwrap(),
                height: mm(*height),
                round: *round,
            })
            .collect(),
        range_limit: limits.height_range.as_ref().and_then(|limit| bounds(limit).1),
        mean_height_limits: limits.assembled_height.as_ref().map(bounds),
        measuring_diameter: Some(ringtrue_seal::geometry::measuring_diameter(&seal.ring)),
        uncertainty,
        load_ring: LoadRingKind::Toric,
        levels: seal.levels(),
        tries: None,
    })
    .unwrap()
}

/// The uncertainty of a gauge's definition.
pub(crate) fn by(gauge: &Gauge) -> GaugeUncertainty {
    GaugeUncertainty::Gauge {
        repeating: gauge.repeating_uncertainty.value(),
        non_repeating: gauge.non_repeating_uncertainty.value(),
        resolution: gauge.resolution.value(),
    }
}

fn from_csv(path: &str) -> Vec<(f64, f64, u32)> {
    let text = example(path);
    let mut lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    let head: Vec<_> = lines.next().unwrap().split(',').collect();
    let column = |name: &str| head.iter().position(|column| column.starts_with(name));
    let (angle, height, round) = (column("angle").unwrap(), column("height"), column("round"));
    let height = height.unwrap();
    let factor = if head[height] == "height_mm" { 1.0 } else { 25.4 };
    lines
        .map(|line| {
            let cells: Vec<_> = line.split(',').collect();
            let number = cells[height].trim_end_matches(" in").parse::<f64>().unwrap();
            let round = round.map_or(1, |round| cells[round].parse().unwrap());
            (cells[angle].parse().unwrap(), number * factor, round)
        })
        .collect()
}

/// A toric joint in mm: half a good, half b cocked and corrected; three links measured.
pub(crate) fn final_drive() -> Case {
    let joint = joint("final-drive");
    let gauge: Gauge = definition("final-drive/depth-gauge.toml");
    let of = |file: &str, seal: &Seal| {
        let readings = from_csv(&format!("final-drive/{file}"));
        (file.to_owned(), heights(&readings, seal, by(&gauge)))
    };
    let a = vec![of("heights-a.csv", &joint.a)];
    let b = vec![of("heights-b-try-1.csv", &joint.b), of("heights-b-try-2.csv", &joint.b)];
    let measured = [
        ("frame housing face to bearing seat", "71.56 mm", "0.012 mm"),
        ("bearing pair width", "53.91 mm", "0.008 mm"),
        ("spacer", "3.51 mm", "0.004 mm"),
    ];
    let gap = gap_of(&joint, &measured);
    let (matching, gauge) = (matching_of(&joint), Some(gauge));
    let load = Some(final_drive_load());
    Case { joint, matching, a, b, gap, load, gauge, system: System::Millimetre }
}

/// The same joint with half b still cocked and nothing measured of its chain.
pub(crate) fn cocked() -> Case {
    let mut case = final_drive();
    case.b.truncate(1);
    case.gap = gap_of(&case.joint, &[]);
    case
}

/// A washer joint in inches.
pub(crate) fn mixer_shaft() -> Case {
    let joint = joint("mixer-shaft");
    let gauge: Gauge = definition("mixer-shaft/caliper.toml");
    let of = |file: &str, seal: &Seal| {
        let readings = from_csv(&format!("mixer-shaft/{file}"));
        vec![(file.to_owned(), heights(&readings, seal, by(&gauge)))]
    };
    let (a, b) = (of("heights-a.csv", &joint.a), of("heights-b.csv", &joint.b));
    let gap = gap_of(&joint, &[]);
    let (matching, gauge) = (matching_of(&joint), Some(gauge));
    let load = Some(mixer_shaft_load());
    Case { joint, matching, a, b, gap, load, gauge, system: System::Inch }
}

/// Places round a ring with a tilt, an oval and a bulge.
pub(crate) fn ring(
    count: u32,
    tilt: f64,
    oval: f64,
    bulge_at: Option<u32>,
) -> Vec<(f64, f64, u32)> {
    (0..count)
        .map(|i| {
            let angle = 360.0 * f64::from(i) / f64::from(count);
            let theta = angle.to_radians();
            let bulge = if bulge_at == Some(i) { 0.35 } else { 0.0 };
            let height = 8.0 + tilt / 2.0 * (theta - 2.0).cos() + oval * (2.0 * theta - 1.0).cos();
            (angle, height + bulge, 1)
        })
        .collect()
}

/// Everything odd at once that a definition can hold: markup in names, long names, other scripts.
pub(crate) fn odd_names() -> Case {
    let mut case = final_drive();
    case.joint.file.name =
        format!("#set $x$ <b>& *bold* _it_ `raw` \\ @ref {}", "long name ".repeat(16));
    case.joint.file.shop = Some("Łódź Werkstatt №7 \u{2014} Привет \u{4e2d}\u{6587}".to_owned());
    case.joint.file.machine = None;
    case.joint.file.gap.link[0].name = "<&\"' ".repeat(40);
    case.gap.links[0].name = "<&\"' ".repeat(40);
    case.a[0].0 = format!("{}.csv", "x".repeat(200));
    case.joint.a.name = "W".repeat(200);
    case
}

/// 4 places on one half and 48 on the other, with a suspect; no shop, no gauge.
pub(crate) fn few_and_many() -> Case {
    let mut case = final_drive();
    let stated = GaugeUncertainty::Stated(mm(0.02));
    let four = ring(4, 0.4, 0.0, None);
    let many = ring(48, 0.8, 0.0, Some(7));
    case.a = vec![("four.csv".to_owned(), heights(&four, &case.joint.a, stated))];
    case.b = vec![("many.csv".to_owned(), heights(&many, &case.joint.b, stated))];
    case.gauge = None;
    case.joint.file.shop = None;
    case
}

/// Uneven places, an oval, no uncertainty, one half not measured, no limits of the heights.
pub(crate) fn little_known() -> Case {
    let mut case = final_drive();
    let mut uneven = ring(9, 0.5, 0.15, None);
    for (i, reading) in uneven.iter_mut().enumerate() {
        reading.0 += [0.0, -37.0, 2.0, -30.0, 5.0, -31.0, 0.0, -30.0, 9.0][i];
    }
    let mut outcome = heights(&uneven, &case.joint.a, GaugeUncertainty::Unknown);
    outcome.range_limit_mm = None;
    outcome.probability_conforms = None;
    outcome.verdict_range = None;
    outcome.tilt_deg = None;
    case.a = vec![("a.csv".to_owned(), outcome)];
    case.joint.a.limits.height_range = None;
    case.b = Vec::new();
    case.load = None;
    case.gauge = None;
    case.joint.file.shop = None;
    case.joint.file.machine = None;
    case
}

/// A flat ring, a gap without spread, and one below zero.
pub(crate) fn nothing_spreads() -> Case {
    let mut case = final_drive();
    let flat = ring(8, 0.0, 0.0, None);
    let stated = GaugeUncertainty::Stated(mm(0.0));
    case.a = vec![("flat.csv".to_owned(), heights(&flat, &case.joint.a, stated))];
    let gap = &mut case.gap;
    for value in [
        &mut gap.nominal_gap_mm,
        &mut gap.worst_min_mm,
        &mut gap.worst_max_mm,
        &mut gap.rss_min_mm,
        &mut gap.rss_max_mm,
        &mut gap.sampled_p0_135_mm,
        &mut gap.sampled_p99_865_mm,
        &mut gap.mean_gap_mm,
    ] {
        *value = -0.4;
    }
    gap.standard_deviation_mm = 0.0;
    gap.verdict = ringtrue_metrology::conformity::Verdict::DoesNotConform;
    gap.histogram = gap_stack::Histogram { from_mm: -0.4, bin_mm: 0.0, counts: vec![20_000] };
    gap.outside_limit_fraction = 1.0;
    gap.below_limit_fraction = 1.0;
    gap.above_limit_fraction = 0.0;
    case
}

/// Many tries, and a chain of many links.
pub(crate) fn long_history() -> Case {
    let mut case = final_drive();
    let stated = GaugeUncertainty::Stated(mm(0.02));
    case.b = (0..7)
        .map(|i| {
            let readings = ring(12, 2.0 - 0.3 * f64::from(i), 0.0, None);
            (format!("try-{}.csv", i + 1), heights(&readings, &case.joint.b, stated))
        })
        .collect();
    let link = case.joint.file.gap.link[0].clone();
    case.joint.file.gap.link = (0..60)
        .map(|i| {
            let mut link = link.clone();
            link.name = format!("plate {i} of the long stack");
            link.nominal = Given::new("0.05 mm").unwrap();
            link.plus_minus = Some(Given::new(&format!("0.0{} mm", i % 9 + 1)).unwrap());
            link
        })
        .collect();
    case.gap = gap_of(&case.joint, &[]);
    case
}

/// All of them by name.
pub(crate) fn all() -> Vec<(&'static str, Case)> {
    vec![
        ("final-drive", final_drive()),
        ("cocked", cocked()),
        ("mixer-shaft", mixer_shaft()),
        ("odd-names", odd_names()),
        ("few-and-many", few_and_many()),
        ("little-known", little_known()),
        ("nothing-spreads", nothing_spreads()),
        ("long-history", long_history()),
    ]
}
