//! The command line: one module a command, each parses, calls and prints.

mod agent;
mod align;
mod bench;
mod check;
mod checkpoint;
mod checks;
mod chill;
mod close;
mod demo;
mod finish;
mod fit;
mod flat;
mod gap;
mod height;
mod job;
mod leak;
mod load;
mod new;
mod output;
mod person;
mod procedure;
mod report;
mod schema;
mod seat;
mod serve;
mod squeeze;
mod store;
mod validation;

use std::ffi::OsString;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{CommandFactory, FromArgMatches, Parser, Subcommand, ValueEnum};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{
    Length, Quantity, System, UnitError, parse, parse_number, parse_range,
};

use crate::problem::Problem;
// Commands name it as theirs: what the record refuses is said alike at every door.
use crate::refused;

/// Metal face seals on the bench: from a joint's definition and a fitter's readings to a verdict.
#[derive(Debug, Parser)]
#[command(name = "ringtrue", version, propagate_version = true, arg_required_else_help = true)]
#[command(after_help = "Exit codes: 0 done, whatever the verdict; 1 a verdict is not `conforms` \
                        and --gate was given, or a record does not verify; 2 bad input; \
                        3 not completed; 4 the store could not be used.")]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Read definition files and say whether their parts belong together
    Check(check::Arguments),
    /// Print a commented starter file of a kind
    New(new::Arguments),
    /// Print the JSON Schema of a kind of file
    Schema(schema::Arguments),
    /// Show the procedure of a job, or what changed between two
    Procedure(procedure::Arguments),
    /// Work out the seal gap of a joint or of a bare dimension chain
    Gap(gap::Arguments),
    /// Compute the face load over the gap from the mechanics of the squeezed load rings
    Load(load::Arguments),
    /// Solve a section squeezed between rigid walls: the general problem
    Squeeze(squeeze::Arguments),
    /// Fit a rubber's law to its stretch tests: constants, uncertainty, and where the law ends
    Fit(fit::Arguments),
    /// Judge assembled heights round a ring: range, tilt, mean height, and what to correct
    Height(height::Arguments),
    /// Work out what it takes to get a toric past its retaining lip
    Seat(seat::Arguments),
    /// Work out what chilling a toric gives, for how long, and when the joint may be closed
    Chill(chill::Arguments),
    /// Judge a leak test: compensated slope, what it could have seen, and its stored energy
    Leak(leak::Arguments),
    /// Say whether a cleaning or wetting agent may touch a toric, and what its vapour does
    Agent(agent::Arguments),
    /// Judge rim and face sweeps of the housings: eccentricity, angle, and which way to move
    Align(align::Arguments),
    /// Order the bolts of a joint, and judge the gap round it once it is closed
    Close(close::Arguments),
    /// Judge a ramp's finish from a traced profile or from values
    Finish(finish::Arguments),
    /// Judge a lapped face by its light bands: crown, dish or saddle
    Flat(flat::Arguments),
    /// Write a joint's verdicts and evidence as a PDF
    Report(report::Arguments),
    /// Guide a job, record it, sign it, show that nothing was changed
    Job(job::Arguments),
    /// Say who works here, each with a key of their own
    Person(person::Arguments),
    /// Sign a head over everything recorded, to be kept elsewhere
    Checkpoint(checkpoint::Arguments),
    /// Copy, restore and look after the store
    Store(store::Arguments),
    /// Serve the whole job as pages for a tablet
    Bench(serve::Arguments),
    /// Do the whole job on two invented joints that ship with the program
    Demo(demo::Arguments),
    /// Print expected against computed values of published cases
    Validation(validation::Arguments),
}

/// Parses and runs a command line.
pub(crate) fn run(arguments: impl IntoIterator<Item = OsString>) -> Result<ExitCode, Problem> {
    // Deviations and limits may be negative, so no option that takes one value may take `-0.1 mm`
    // for a flag.
    let command = Arguments::command().mut_subcommands(|subcommand| {
        subcommand.mut_args(|argument| {
            let several = argument.get_num_args().is_some_and(|range| range.max_values() > 1);
            let one_value = argument.get_action().takes_values() && !several;
            let option = one_value && !argument.is_positional();
            argument.allow_hyphen_values(option)
        })
    });
    let matches = command.get_matches_from(arguments);
    let arguments = Arguments::from_arg_matches(&matches).unwrap_or_else(|error| error.exit());
    match arguments.command {
        Command::Check(arguments) => check::run(&arguments),
        Command::New(arguments) => new::run(&arguments),
        Command::Schema(arguments) => schema::run(&arguments),
        Command::Procedure(arguments) => procedure::run(&arguments),
        Command::Gap(arguments) => gap::run(&arguments),
        Command::Fit(arguments) => fit::run(&arguments),
        Command::Height(arguments) => height::run(&arguments),
        Command::Load(arguments) => load::run(&arguments),
        Command::Squeeze(arguments) => squeeze::run(&arguments),
        Command::Seat(arguments) => seat::run(&arguments),
        Command::Chill(arguments) => chill::run(&arguments),
        Command::Leak(arguments) => leak::run(&arguments),
        Command::Agent(arguments) => agent::run(&arguments),
        Command::Align(arguments) => align::run(&arguments),
        Command::Close(arguments) => close::run(&arguments),
        Command::Finish(arguments) => finish::run(&arguments),
        Command::Flat(arguments) => flat::run(&arguments),
        Command::Report(arguments) => report::run(&arguments),
        Command::Job(arguments) => job::run(&arguments),
        Command::Person(arguments) => person::run(&arguments),
        Command::Checkpoint(arguments) => checkpoint::run(&arguments),
        Command::Store(arguments) => store::run(&arguments),
        Command::Bench(arguments) => serve::run(&arguments),
        Command::Demo(arguments) => demo::run(&arguments),
        Command::Validation(arguments) => validation::run(&arguments),
    }
}

/// How an assessment is shown and whether it decides the exit code.
#[derive(Debug, clap::Args)]
struct Shown {
    /// Print one JSON object
    #[arg(long)]
    json: bool,
    /// Exit with 1 unless the verdict is `conforms`
    #[arg(long)]
    gate: bool,
    /// Units of printed lengths
    #[arg(long, value_enum, default_value = "mm")]
    units: Units,
}

impl Shown {
    /// The exit code that a verdict asks for.
    fn exit(&self, verdict: Verdict) -> ExitCode {
        gate(self.gate, verdict)
    }
}

/// The exit code that a verdict asks for where `--gate` was given.
fn gate(given: bool, verdict: Verdict) -> ExitCode {
    ExitCode::from(u8::from(given && verdict != Verdict::Conforms))
}

/// Units that a person reads in.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Units {
    Mm,
    Inch,
}

impl Units {
    fn system(self) -> System {
        match self {
            Self::Mm => System::Millimetre,
            Self::Inch => System::Inch,
        }
    }
}

/// The kind of a definition file, by name.
#[derive(Debug, Clone, Copy)]
struct KindName(ringtrue_seal::definition::Kind);

fn kind(name: &str) -> Result<KindName, String> {
    use ringtrue_seal::definition::Kind;
    Kind::named(name).map(KindName).ok_or_else(|| {
        let names: Vec<&str> = Kind::ALL.iter().map(|kind| kind.name()).collect();
        format!("the kinds are {}", names.join(", "))
    })
}

/// Friction as an option: `None` sticks where it first touches.
#[derive(Debug, Clone, Copy)]
struct Friction(Option<f64>);

fn friction(text: &str) -> Result<Friction, String> {
    let wanted = || "a coefficient of 0 to 10, or `no-slip`".to_owned();
    match text.trim() {
        "no-slip" => Ok(Friction(None)),
        number => parse_number(number)
            .ok()
            .filter(|mu| (0.0..=10.0).contains(mu))
            .map(|mu| Friction(Some(mu)))
            .ok_or_else(wanted),
    }
}

fn length(text: &str) -> Result<Length, UnitError> {
    parse(text)
}

/// Any quantity with its unit.
fn quantity<Q: Quantity>(text: &str) -> Result<Q, UnitError> {
    parse(text)
}

fn length_range(text: &str) -> Result<(Length, Length), UnitError> {
    parse_range(text)
}

/// A file that belongs to one half: `a=heights.csv`.
#[derive(Debug, Clone)]
struct HalfFile {
    half: ringtrue_seal::definition::joint::Half,
    path: PathBuf,
}

fn half_file(text: &str) -> Result<HalfFile, String> {
    use ringtrue_seal::definition::joint::Half;
    let wanted = || "`a=FILE` or `b=FILE` is wanted".to_owned();
    let (name, path) = text.split_once('=').ok_or_else(wanted)?;
    let half = Half::BOTH.into_iter().find(|half| half.name() == name).ok_or_else(wanted)?;
    if path.is_empty() { Err(wanted()) } else { Ok(HalfFile { half, path: path.into() }) }
}
