//! The settings of every check as options of `job record`.

use std::collections::BTreeMap;

use clap::{Arg, ArgAction, ArgMatches, Command};
use ringtrue_job::check::{Check, Read};
use ringtrue_job::event::Stated;

/// The settings of every check, as options with the names that its own command has.
#[derive(Debug, Default)]
pub(super) struct OfChecks {
    pub(super) stated: Vec<Stated>,
}

/// Their names, and what each is of which check.
fn settings() -> BTreeMap<&'static str, (Vec<String>, Read)> {
    let mut all: BTreeMap<&'static str, (Vec<String>, Read)> = BTreeMap::new();
    for check in Check::ALL {
        // What readings are good to is an option of its own here.
        for setting in check.settings().iter().filter(|setting| setting.name != "uncertainty") {
            let help = format!("{}: {}", check.question().title(), setting.help());
            all.entry(setting.name).or_insert((Vec::new(), setting.read)).0.push(help);
        }
    }
    all
}

impl clap::Args for OfChecks {
    fn augment_args(command: Command) -> Command {
        let arguments = settings().into_iter().map(|(name, (help, read))| {
            let argument = Arg::new(name)
                .long(name)
                .help(help.join(". "))
                .help_heading("Settings of a check, as its own command has them");
            match read {
                Read::Flag => argument.action(ArgAction::SetTrue),
                Read::Typed(_) | Read::Words(_) => argument.allow_hyphen_values(true),
            }
        });
        command.args(arguments)
    }

    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

impl clap::FromArgMatches for OfChecks {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, clap::Error> {
        let typed = |(name, (_, read)): (&str, (Vec<String>, Read))| {
            let typed = match read {
                Read::Flag => matches.get_flag(name).then(|| "yes".to_owned()),
                Read::Typed(_) | Read::Words(_) => matches.get_one::<String>(name).cloned(),
            };
            typed.map(|typed| Stated { name: name.to_owned(), typed })
        };
        Ok(Self { stated: settings().into_iter().filter_map(typed).collect() })
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
        *self = Self::from_arg_matches(matches)?;
        Ok(())
    }
}
