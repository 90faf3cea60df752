//! `ringtrue bench`: the pages for a tablet.

use std::net::{IpAddr, SocketAddr};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use clap::Subcommand;
use ringtrue_words::{Faults, Words};

use super::bench::StoreAt;
use super::output;
use crate::files;
use crate::moment::now;
use crate::problem::Problem;
use crate::web::{self, Options};

/// Longest time that an untouched session may stay open, in minutes.
const LONGEST_IDLE: u64 = 12 * 60;

#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
    /// The port; 0 takes a free one
    #[arg(long, default_value_t = 7420)]
    port: u16,
    /// The address to listen on; off this machine only with a certificate
    #[arg(long, default_value = "127.0.0.1", value_name = "ADDRESS")]
    listen: IpAddr,
    /// The certificate, and those it rests on (.pem)
    #[arg(long, value_name = "FILE", requires = "key")]
    certificate: Option<PathBuf>,
    /// The certificate's key (.pem)
    #[arg(long, value_name = "FILE", requires = "certificate")]
    key: Option<PathBuf>,
    /// Minutes after which an untouched session locks
    #[arg(long, value_name = "MINUTES", default_value_t = 10,
          value_parser = clap::value_parser!(u64).range(1..=LONGEST_IDLE))]
    lock_after: u64,
    /// The language that the bench speaks: a file such as `ringtrue bench words` writes out (.ftl)
    #[arg(long, value_name = "FILE")]
    words: Option<PathBuf>,
    #[command(flatten)]
    store: StoreAt,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Write out all that the bench says, in English, or check a file in another language
    Words {
        /// The file to check: what it lacks, or what is wrong with it
        file: Option<PathBuf>,
    },
    /// Make a certificate for the bench, and its key
    Certificate(Certificate),
}

#[derive(Debug, clap::Args)]
struct Certificate {
    /// Names and addresses by which tablets reach the bench: `bench.local`, `192.168.1.20`
    #[arg(required = true)]
    names: Vec<String>,
    /// The certificate to write, for the bench
    #[arg(long, value_name = "FILE", default_value = "bench.pem")]
    certificate: PathBuf,
    /// The key to write; whoever has it can pass for the bench
    #[arg(long, value_name = "FILE", default_value = "bench-key.pem")]
    key: PathBuf,
    /// What to write for the tablets: the authority that they are told to trust
    #[arg(long, value_name = "FILE", default_value = "bench-trust.pem")]
    trust: PathBuf,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    match &arguments.command {
        Some(Command::Certificate(arguments)) => return certificate(arguments),
        Some(Command::Words { file }) => return words(file.as_deref()),
        None => {}
    }
    if let Some(file) = &arguments.words {
        ringtrue_words::speak(language(file)?);
    }
    let store = arguments.store.path_to_create()?;
    let options = Options {
        store: store.clone(),
        listen: SocketAddr::new(arguments.listen, arguments.port),
        tls: arguments.certificate.clone().zip(arguments.key.clone()),
        lock_after: Duration::from_secs(60 * arguments.lock_after),
    };
    web::serve(&options, |ready| {
        let remarks: String = ready.remarks.iter().map(|remark| format!("\n  {remark}")).collect();
        let said = format!("Bench at {}\n  store {}{remarks}", ready.address, store.display());
        // A bench whose screen is gone serves on.
        let _ = output::print(said);
    })?;
    Ok(ExitCode::SUCCESS)
}

/// A language, read from its file.
fn language(file: &Path) -> Result<Words, Problem> {
    Words::of_file(&files::text(file)?).map_err(|Faults(faults)| {
        let (first, others) = faults.split_first().expect("faults are what was found");
        let fits = match others.len() {
            0 => first.fits.clone(),
            1 => format!("{}; one more line is wrong", first.fits),
            more => format!("{}; {more} more lines are wrong", first.fits),
        };
        Problem::input(&first.found, fits).in_line(file, first.line)
    })
}

/// English to start another language from, or what another language lacks.
fn words(file: Option<&Path>) -> Result<ExitCode, Problem> {
    let Some(file) = file else {
        output::print(ringtrue_words::ENGLISH.trim_end())?;
        return Ok(ExitCode::SUCCESS);
    };
    let words = language(file)?;
    let (all, lacks) = (ringtrue_words::english().keys().count(), words.lacks());
    let list: String = lacks.iter().map(|key| format!("\n  {key}")).collect();
    let lead = if lacks.is_empty() { "" } else { "; what it lacks is said in English:" };
    output::print(format_args!(
        "{}: {} of {all} texts in `{}`{lead}{list}",
        file.display(),
        all - lacks.len(),
        words.language()
    ))?;
    Ok(ExitCode::SUCCESS)
}

fn certificate(arguments: &Certificate) -> Result<ExitCode, Problem> {
    let made = web::certificate(&arguments.names, now())?;
    // The key is written so that its owner alone may read it.
    let files = [
        (&arguments.key, made.key),
        (&arguments.certificate, made.certificate),
        (&arguments.trust, made.trust),
    ];
    for (number, (path, _)) in files.iter().enumerate() {
        let named_twice = files[..number].iter().any(|(other, _)| other == path);
        if named_twice || path.exists() {
            let what =
                if named_twice { "this file is named twice" } else { "this file is there already" };
            let next = "nothing is overwritten: name another file";
            return Err(Problem::input(what, next).in_file(path));
        }
    }
    for (path, text) in &files {
        if *path == &arguments.key {
            files::write_private(path, text.as_bytes())?;
        } else {
            files::write(path, text.as_bytes())?;
        }
    }
    output::print(format_args!(
        "{}\n{}\n{}\n  Valid until {}. Each tablet has to be told once to trust {}; \
         keep the key to yourself",
        arguments.certificate.display(),
        arguments.key.display(),
        arguments.trust.display(),
        made.until,
        arguments.trust.display()
    ))?;
    Ok(ExitCode::SUCCESS)
}
