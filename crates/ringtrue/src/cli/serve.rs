//! `ringtrue bench`: the pages for a tablet.

use std::net::{IpAddr, SocketAddr};
use std::path::PathBuf;
use std::process::ExitCode;
use std::time::Duration;

use clap::Subcommand;

use super::bench::StoreAt;
use super::output;
use crate::files;
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
    #[command(flatten)]
    store: StoreAt,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Make a certificate for the bench, and its key
    Certificate(Certificate),
}

#[derive(Debug, clap::Args)]
struct Certificate {
    /// Names and addresses by which tablets reach the bench: `bench.local`, `192.168.1.20`
    #[arg(required = true)]
    names: Vec<String>,
    /// The certificate to write
    #[arg(long, value_name = "FILE", default_value = "bench.pem")]
    certificate: PathBuf,
    /// The key to write; whoever has it can pass for the bench
    #[arg(long, value_name = "FILE", default_value = "bench-key.pem")]
    key: PathBuf,
}

pub(crate) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    if let Some(Command::Certificate(arguments)) = &arguments.command {
        return certificate(arguments);
    }
    let store = arguments.store.path_to_create()?;
    let options = Options {
        store: store.clone(),
        listen: SocketAddr::new(arguments.listen, arguments.port),
        tls: arguments.certificate.clone().zip(arguments.key.clone()),
        lock_after: Duration::from_secs(60 * arguments.lock_after),
    };
    web::serve(&options, |address| {
        // A bench whose screen is gone serves on.
        let _ = output::print(format_args!("Bench at {address}\n  store {}", store.display()));
    })?;
    Ok(ExitCode::SUCCESS)
}

fn certificate(arguments: &Certificate) -> Result<ExitCode, Problem> {
    let made = web::certificate(&arguments.names)?;
    for path in [&arguments.certificate, &arguments.key] {
        if path.exists() {
            let next = "nothing is overwritten: name another file";
            return Err(Problem::input("this file is there already", next).in_file(path));
        }
    }
    // The key is written so that its owner alone may read it.
    files::write(&arguments.key, made.key.as_bytes())?;
    files::write(&arguments.certificate, made.certificate.as_bytes())?;
    output::print(format_args!(
        "{}\n{}\n  Tablets have to be told once to trust the certificate; keep the key to yourself",
        arguments.certificate.display(),
        arguments.key.display()
    ))?;
    Ok(ExitCode::SUCCESS)
}
