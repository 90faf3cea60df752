//! `ringtrue report JOINT.toml --readings a=FILE b=FILE -o FILE.pdf`

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::check::Parts;
use ringtrue_job::evidence::{self, HeightBasis};
use ringtrue_job::{Assessment, Evidence, Question, judge, judge_with};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_report::{CheckMade, Document, Further, Halves, HeightTry, InputFile, JointReport};
use ringtrue_seal::closing::Load;
use ringtrue_seal::definition::gauge::Gauge;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::gap_stack;

use super::{HalfFile, Units, check, checks, gap, gate, half_file, height, load, output};
use crate::curves::Curves;
use crate::files::{self, JointOnDisk};
use crate::problem::Problem;

pub(super) use given::GivenCheck;

mod given;

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    /// The joint file
    pub(super) joint: PathBuf,
    /// Height readings of each half, in the order in which they were taken: the last of a half is
    /// judged, the earlier ones stand beside it as tries
    #[arg(long, value_name = "HALF=FILE", value_parser = half_file, num_args = 1..)]
    pub(super) readings: Vec<HalfFile>,
    /// The gauge file of the readings
    #[arg(long, value_name = "FILE")]
    pub(super) gauge: Option<PathBuf>,
    /// Measured sizes of the gap's links
    #[arg(long, value_name = "FILE")]
    pub(super) measured: Option<PathBuf>,
    /// A check that was made besides: `CHECK [a|b]: FILE; SETTING=VALUE; ...`, such as
    /// "flatness a: bands.csv; uncertainty=0.3 mm" or "alignment: sweeps.csv; gauge=dial.toml".
    /// Checks and settings are named as in a procedure and in the check's own command
    #[arg(long, value_name = "CHECK", value_parser = given::check)]
    pub(super) check: Vec<GivenCheck>,
    /// The PDF to write
    #[arg(short, long, value_name = "FILE")]
    pub(super) output: PathBuf,
    /// Write the drawings into this folder too
    #[arg(long, value_name = "DIR")]
    pub(super) svg: Option<PathBuf>,
    /// Units of the report
    #[arg(long, value_enum, default_value = "mm")]
    pub(super) units: Units,
    /// Exit with 1 unless every verdict is `conforms`
    #[arg(long)]
    pub(super) gate: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let verdict = write(arguments)?;
    Ok(gate(arguments.gate, verdict))
}

/// Judges, writes and prints; the worst verdict.
pub(super) fn write(arguments: &Arguments) -> Result<Verdict, Problem> {
    let judged = Judged::of(arguments)?;
    let document = judged.document(arguments);
    let bytes = ringtrue_report::pdf(&document).map_err(|error| {
        let next = "this is a fault of the program: please report it";
        Problem::not_completed(error.to_string(), next)
    })?;
    files::write(&arguments.output, &bytes)?;
    if let Some(folder) = &arguments.svg {
        files::make_folder(folder)?;
        for drawing in ringtrue_report::drawings(&document) {
            files::write(&folder.join(format!("{}.svg", drawing.name)), drawing.svg.as_bytes())?;
        }
    }
    output::print(judged.text(arguments))?;
    Ok(judged.verdict())
}

/// One readings file of a half, judged.
struct Try {
    half: Half,
    file: String,
    assessment: Assessment,
}

/// A joint's assessments.
struct Judged {
    joint: JointOnDisk,
    gauge: Option<Gauge>,
    matching: Assessment,
    tries: Vec<Try>,
    gap: Assessment,
    /// The face load, or why it was not computed.
    load: Result<Assessment, Problem>,
    checks: Vec<OfCheck>,
}

/// One check that was made besides.
struct OfCheck {
    /// `half a`; empty on the joint.
    place: String,
    /// Its files.
    files: Vec<String>,
    assessment: Assessment,
}

/// A check that was made besides, judged on the parts of the joint.
fn of_check(
    given: &GivenCheck,
    on_disk: &JointOnDisk,
    load: &Result<Assessment, Problem>,
) -> Result<OfCheck, Problem> {
    let gauge = given.gauge.as_deref().map(files::definition::<Gauge>).transpose()?;
    let materials = on_disk.materials();
    let parts = match given.half {
        Some(half) => Parts::Half(on_disk.joint.seal(half), materials[half as usize]),
        None => Parts::Joint(&on_disk.joint, materials),
    };
    let made = (&given.files[..], &given.stated[..]);
    let mut evidence = checks::evidence(given.check, made, (gauge.as_ref(), parts))?;
    if let (Evidence::Closing(input), Ok(load)) = (&mut evidence, load) {
        input.load = Some(Load::of(&load::outcome(load).joint));
    }
    let assessment = match given.files.first() {
        Some(path) => checks::judged(&evidence, path)?,
        None => judge_with(&evidence, &Curves::kept()).map_err(Problem::room)?,
    };
    Ok(OfCheck {
        place: given.half.map_or(String::new(), |half| format!("half {}", half.name())),
        files: given.files.iter().map(|path| path.display().to_string()).collect(),
        assessment,
    })
}

impl Judged {
    fn of(arguments: &Arguments) -> Result<Self, Problem> {
        let path = &arguments.joint;
        let joint = files::joint(path)?;
        let gauge = arguments.gauge.as_deref().map(files::definition::<Gauge>).transpose()?;
        let matching = check::assess_joint(joint.clone(), path)?;
        let mut tries: Vec<Try> = Vec::new();
        for HalfFile { half, path } in &arguments.readings {
            let earlier = tries.iter().filter(|earlier| earlier.half == *half).count();
            let basis = HeightBasis {
                seal: Some(joint.joint.seal(*half)),
                gauge: gauge.as_ref(),
                this_try: u32::try_from(earlier + 1).ok(),
                ..HeightBasis::default()
            };
            let assessment = height::assess(path, basis)?;
            tries.push(Try { half: *half, file: path.display().to_string(), assessment });
        }
        let room = |error| Problem::room(error).in_file(path);
        let mut chain = evidence::joint_gap(&joint.joint, None).map_err(room)?;
        if let Some(measured) = &arguments.measured {
            gap::put_measured(&mut chain, measured)?;
        }
        let nominal = gap_stack::nominal(&chain).map_err(room)?;
        let gap = judge(&Evidence::SealGap(chain)).map_err(room)?;
        let load = evidence::joint_load(&joint.joint, joint.materials(), nominal, None)
            .map_err(room)
            .and_then(|input| load::assess(input, &Curves::kept(), path));
        let checks = arguments.check.iter().map(|given| of_check(given, &joint, &load));
        let checks = checks.collect::<Result<_, Problem>>()?;
        Ok(Self { joint, gauge, matching, tries, gap, load, checks })
    }

    fn tries(&self, half: Half) -> impl DoubleEndedIterator<Item = &Try> {
        self.tries.iter().filter(move |one| one.half == half)
    }

    /// The verdicts that count: parts, the last try of each half, gap.
    fn verdicts(&self) -> Vec<(String, Verdict)> {
        let mut verdicts =
            vec![(self.matching.question.title().to_owned(), self.matching.verdict())];
        for half in Half::BOTH {
            let name = format!("Assembled height, half {}", half.name());
            // A half that was not read is not proven.
            let last = self.tries(half).next_back();
            let verdict = last.map_or(Verdict::NotProven, |one| one.assessment.verdict());
            verdicts.push((name, verdict));
        }
        verdicts.push((self.gap.question.title().to_owned(), self.gap.verdict()));
        let load = self.load.as_ref().map_or(Verdict::NotProven, Assessment::verdict);
        verdicts.push((Question::FaceLoad.title().to_owned(), load));
        verdicts.extend(self.checks.iter().map(|one| {
            let title = one.assessment.question.title();
            let place = if one.place.is_empty() { "" } else { ", " };
            (format!("{title}{place}{}", one.place), one.assessment.verdict())
        }));
        verdicts
    }

    fn verdict(&self) -> Verdict {
        self.verdicts().into_iter().map(|(_, verdict)| verdict).max().unwrap_or(Verdict::NotProven)
    }

    fn document(&self, arguments: &Arguments) -> Document {
        let heights = |half: Half| -> Vec<HeightTry<'_>> {
            self.tries(half)
                .map(|one| HeightTry { file: &one.file, outcome: height::outcome(&one.assessment) })
                .collect()
        };
        let (a, b) = (heights(Half::A), heights(Half::B));
        let checks: Vec<CheckMade<'_>> = self
            .checks
            .iter()
            .filter_map(|one| {
                let check = Further::of(&one.assessment.answer)?;
                Some(CheckMade { place: &one.place, check })
            })
            .collect();
        let inputs = self.inputs(arguments);
        let inputs: Vec<InputFile<'_>> =
            inputs.iter().map(|(role, name)| InputFile { role, name }).collect();
        ringtrue_report::document(&JointReport {
            joint: &self.joint.joint,
            matching: check::outcome(&self.matching),
            heights: Halves { a: &a, b: &b },
            gap: gap::outcome(&self.gap),
            load: self.load.as_ref().ok().map(load::outcome),
            further: &checks,
            gauge: self.gauge.as_ref(),
            inputs: &inputs,
            system: arguments.units.system(),
            made: jiff::Timestamp::now(),
            program_version: self.gap.program_version,
        })
    }

    /// What was read, in the order in which it is listed.
    fn inputs(&self, arguments: &Arguments) -> Vec<(String, String)> {
        let shown = |path: &Path| path.display().to_string();
        let mut inputs: Vec<(String, String)> =
            self.joint.read.iter().map(|(role, path)| (role.clone(), shown(path))).collect();
        inputs.extend(arguments.gauge.iter().map(|path| ("gauge".to_owned(), shown(path))));
        for one in &self.tries {
            inputs.push((format!("readings, half {}", one.half.name()), one.file.clone()));
        }
        inputs.extend(
            arguments.measured.iter().map(|path| ("measured sizes".to_owned(), shown(path))),
        );
        for one in &self.checks {
            let title = one.assessment.question.title();
            inputs.extend(one.files.iter().map(|file| (title.to_lowercase(), file.clone())));
        }
        inputs
    }

    /// The verdicts and where the files are, as lines for a person.
    fn text(&self, arguments: &Arguments) -> String {
        let mut text = format!("{}\n", self.joint.joint.file.name);
        for (name, verdict) in self.verdicts() {
            let _ = writeln!(text, "  {name:<28}{verdict}");
        }
        for half in Half::BOTH {
            let tries: Vec<String> = self
                .tries(half)
                .enumerate()
                .map(|(index, one)| format!("try {}: {}", index + 1, one.assessment.verdict()))
                .collect();
            if tries.len() > 1 {
                let _ = writeln!(text, "    half {}, {}", half.name(), tries.join(", "));
            }
        }
        if let Err(problem) = &self.load {
            let _ = writeln!(text, "  Face load not computed. {problem}");
        }
        if let Some(first) = self.first_action(arguments.units.system()) {
            let _ = writeln!(text, "  Next: {first}");
        }
        let _ = writeln!(text, "  {:<28}{}", "PDF", arguments.output.display());
        if let Some(folder) = &arguments.svg {
            let _ = writeln!(text, "  {:<28}{}", "Drawings", folder.display());
        }
        text.trim_end().to_owned()
    }

    /// The first thing to do on the last try of a half.
    fn first_action(&self, system: ringtrue_metrology::units::System) -> Option<String> {
        Half::BOTH.into_iter().find_map(|half| {
            let last = self.tries(half).next_back()?;
            let action = height::outcome(&last.assessment).actions.first()?;
            Some(format!("half {}: {}", half.name(), height::action_text(action, system)))
        })
    }
}
