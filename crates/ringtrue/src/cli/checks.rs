//! What the commands of the checks share: their settings as options, the way from files to an
//! assessment, and how it is handed out.

use std::marker::PhantomData;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::builder::PossibleValuesParser;
use clap::{Arg, ArgAction, ArgMatches, Command};
use ringtrue_job::check::{Check, CheckError, Made, Parts, Read, Setting};
use ringtrue_job::event::{Content, ReadingFile, Stated};
use ringtrue_job::{Answer, Assessment, Evidence, judge_with, reading};
use ringtrue_metrology::units::System;
use ringtrue_report::{Further, check_drawings};
use ringtrue_seal::definition::gauge::Gauge;

use super::{Shown, Units, agent, align, chill, close, finish, fit, flat, leak, output, seat};
use crate::curves::Curves;
use crate::files;
use crate::problem::Problem;

/// A check whose settings are options of a command.
pub(crate) trait Of {
    const CHECK: Check;

    /// The option of one setting.
    fn argument(setting: &'static Setting) -> Arg {
        option(setting)
    }
}

/// The settings of a check as options: declared where the check is, taken as typed.
#[derive(Debug)]
pub(crate) struct Settings<C> {
    pub(crate) stated: Vec<Stated>,
    of: PhantomData<C>,
}

impl<C: Of> clap::Args for Settings<C> {
    fn augment_args(command: Command) -> Command {
        command.args(C::CHECK.settings().iter().map(C::argument))
    }

    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

impl<C: Of> clap::FromArgMatches for Settings<C> {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, clap::Error> {
        let stated = C::CHECK.settings().iter().filter_map(|setting| typed(setting, matches));
        Ok(Self { stated: stated.collect(), of: PhantomData })
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
        *self = Self::from_arg_matches(matches)?;
        Ok(())
    }
}

/// A setting as an option that is read when it is parsed.
pub(crate) fn option(setting: &'static Setting) -> Arg {
    let help = match setting.default {
        Some(default) => format!("{} [default: {default}]", setting.help()),
        None => setting.help().to_owned(),
    };
    let option = Arg::new(setting.name).long(setting.name).help(help);
    match setting.read {
        Read::Flag => option.action(ArgAction::SetTrue),
        Read::Words(words) => {
            option.value_name(setting.value).value_parser(PossibleValuesParser::new(words()))
        }
        Read::Typed(_) => option
            .value_name(setting.value)
            .allow_hyphen_values(true)
            .value_parser(move |text: &str| setting.check(text).map(|()| text.to_owned())),
    }
}

/// What was typed for a setting.
fn typed(setting: &Setting, matches: &ArgMatches) -> Option<Stated> {
    let typed = match setting.read {
        Read::Flag => matches.get_flag(setting.name).then(|| "yes".to_owned()),
        Read::Words(_) | Read::Typed(_) => matches.get_one::<String>(setting.name).cloned(),
    };
    typed.map(|typed| Stated { name: setting.name.to_owned(), typed })
}

/// How an assessment without lengths is handed out.
#[derive(Debug, clap::Args)]
pub(crate) struct Plainly {
    /// Write the drawings as SVG into this folder
    #[arg(long, value_name = "DIR")]
    pub(crate) svg: Option<PathBuf>,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
    /// Exit with 1 unless the verdict is `conforms`
    #[arg(long)]
    gate: bool,
}

impl Plainly {
    /// In millimetres.
    pub(crate) fn shown(&self) -> Shown {
        Shown { json: self.json, gate: self.gate, units: Units::Mm }
    }
}

/// Judges a check on files and settings.
pub(crate) fn assess(
    check: Check,
    given: (&[PathBuf], &[Stated]),
    on: (Option<&Gauge>, Parts<'_>),
) -> Result<Assessment, Problem> {
    let evidence = evidence(check, given, on)?;
    match given.0.first() {
        Some(path) => judged(&evidence, path),
        None => judge_with(&evidence, &Curves::kept()).map_err(Problem::room),
    }
}

/// What files and settings of a check come to.
pub(crate) fn evidence(
    check: Check,
    (paths, stated): (&[PathBuf], &[Stated]),
    (gauge, parts): (Option<&Gauge>, Parts<'_>),
) -> Result<Evidence, Problem> {
    let files = paths.iter().map(|path| read(path, path.display().to_string()));
    let files: Vec<ReadingFile> = files.collect::<Result<_, _>>()?;
    let agents = ringtrue_seal::agents::shipped();
    let made = Made { files: &files, stated, gauge, parts, agents };
    check.evidence(&made).map_err(|error| match (error, paths.first()) {
        (CheckError::Text { origin, error }, _) => Problem::text(Path::new(&origin), error),
        (CheckError::Room(error), Some(path)) => Problem::room(error).in_file(path),
        (CheckError::Room(error), None) => Problem::room(error),
    })
}

/// Judges evidence that came from this file.
pub(crate) fn judged(evidence: &Evidence, path: &Path) -> Result<Assessment, Problem> {
    judge_with(evidence, &Curves::kept()).map_err(|error| Problem::room(error).in_file(path))
}

/// A readings file: a trace in X3P by its ending or its own first bytes, else a text.
pub(crate) fn read(path: &Path, origin: String) -> Result<ReadingFile, Problem> {
    let bytes = files::bytes(path)?;
    let named = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("x3p"));
    let content = if named || reading::looks_like_x3p(&bytes) {
        Content::Bytes(bytes)
    } else {
        Content::Text(files::utf8(path, bytes)?)
    };
    Ok(ReadingFile { origin, content })
}

/// Draws, prints and says how to exit.
pub(crate) fn hand_out(
    assessment: &Assessment,
    svg: Option<&Path>,
    shown: &Shown,
) -> Result<ExitCode, Problem> {
    let system = shown.units.system();
    if let (Some(folder), Some(further)) = (svg, Further::of(&assessment.answer)) {
        files::write_drawings(folder, &check_drawings(&further, system))?;
    }
    if shown.json {
        output::json(assessment)?;
    } else {
        output::print(text(&assessment.answer, system))?;
    }
    Ok(shown.exit(assessment.verdict()))
}

/// A check as lines for a person.
fn text(answer: &Answer, system: System) -> String {
    match answer {
        Answer::Alignment(outcome) => align::text(outcome, system),
        Answer::Roughness(outcome) => finish::text(outcome),
        Answer::Flatness(outcome) => flat::text(outcome),
        Answer::Seating(outcome) => seat::text(outcome, system),
        Answer::Chilling(outcome) => chill::text(outcome, system),
        Answer::LeakTest(outcome) => leak::text(outcome),
        Answer::Agents(outcome) => agent::text(outcome, system),
        Answer::Closing(outcome) => close::text(outcome, system),
        Answer::RubberLaw(outcome) => fit::text(outcome),
        Answer::Matching(_)
        | Answer::AssembledHeight(_)
        | Answer::SealGap(_)
        | Answer::FaceLoad(_) => unreachable!("a check is answered by its own room"),
    }
}
