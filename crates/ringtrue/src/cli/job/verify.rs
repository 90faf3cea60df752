//! `ringtrue job verify [ID|FILE|--all] [--recompute] [--against CHECKPOINT]`

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use ringtrue_job::digest::Digest;
use ringtrue_job::job::{Documents, Job, Plan, recompute};
use ringtrue_job::record::{Export, ExportError, Link, read_export};
use ringtrue_metrology::conformity::Verdict;
use ringtrue_store::{Against, Place, PlaceError, Signer, Store, StoreError, Unfit, Verified};
use serde::Serialize;

use crate::cli::bench::StoreAt;
use crate::cli::{output, refused};
use crate::curves::Curves;
use crate::files;
use crate::problem::Problem;

#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("which").required(true).args(["what", "all"]))]
pub(super) struct Arguments {
    /// A job's id, or an export (.json) or a job's PDF (.pdf), for which no store is opened
    #[arg(value_name = "ID|FILE")]
    what: Option<String>,
    /// All jobs of the store, and the file itself
    #[arg(long)]
    all: bool,
    /// Judge every gate again from its stored inputs
    #[arg(long)]
    recompute: bool,
    /// Compare the store, or the one that a PDF comes from, with a checkpoint that was kept
    /// elsewhere: a file, or `SIZE:ROOT` as a PDF has it
    #[arg(long, value_name = "CHECKPOINT")]
    against: Option<String>,
    #[command(flatten)]
    store: StoreAt,
    /// Print one JSON object
    #[arg(long)]
    json: bool,
}

/// What was found.
#[derive(Serialize)]
struct Found {
    verified: bool,
    jobs: u64,
    events: u64,
    signatures: u64,
    /// Who gave them.
    signers: Vec<Signer>,
    /// The first thing that does not fit.
    misfit: Option<String>,
    /// The job and the event that it is about, where it is about one.
    job: Option<String>,
    event: Option<u64>,
    recomputed: Option<Again>,
}

/// What judging again gave.
#[derive(Default, Serialize)]
struct Again {
    verdicts: u64,
    same: u64,
    /// Verdicts that another version of the program drew otherwise: no sign of a change.
    other_version: Vec<Differs>,
}

#[derive(Serialize)]
struct Differs {
    job: String,
    event: u64,
    stored: Verdict,
    stored_by: String,
    now: Option<Verdict>,
}

/// Why something does not verify.
struct Misfit {
    said: String,
    at: Option<(String, u64)>,
}

type Checked = Result<(Verified, Option<Again>), Misfit>;

pub(super) fn run(arguments: &Arguments) -> Result<ExitCode, Problem> {
    let checked = match &arguments.what {
        Some(what) if is_file(what) => in_file(Path::new(what), arguments)?,
        what => in_store(arguments, what.as_deref())?,
    };
    let found = Found::of(checked);
    if arguments.json {
        output::json(&found)?;
    } else {
        output::print(found.text())?;
    }
    Ok(ExitCode::from(u8::from(!found.verified)))
}

/// A path with an ending that exports and reports have; ids have none.
fn is_file(what: &str) -> bool {
    let ending = Path::new(what).extension().and_then(|ending| ending.to_str());
    matches!(ending, Some("json" | "pdf")) || Path::new(what).is_file()
}

/// An export's text, and what is wrong with the file around it.
pub(super) struct ExportText {
    pub(super) text: String,
    pub(super) around: Option<String>,
    /// The job's place in its store's tree, which a PDF carries.
    place: Option<String>,
}

/// The text of an export: a file of its own, or attached to a PDF.
pub(super) fn export_text(path: &Path) -> Result<ExportText, Problem> {
    let bytes = files::record_bytes(path)?;
    if !bytes.starts_with(b"%PDF-") {
        let text = String::from_utf8(bytes).map_err(|_| {
            Problem::input("this is neither text nor a PDF", "name an export or a job's PDF")
                .in_file(path)
        })?;
        return Ok(ExportText { text, around: None, place: None });
    }
    // What is not as it was written is not taken apart: it may be made to break whoever does.
    if let Err(error) = ringtrue_report::file_is_whole(&bytes) {
        let around = Some(error.to_string());
        return Ok(ExportText { text: String::new(), around, place: None });
    }
    let attached = |name: &str| {
        ringtrue_report::attachment(&bytes, name)
            .map_err(|error| error.to_string())
            .and_then(|bytes| String::from_utf8(bytes).map_err(|error| error.to_string()))
    };
    // The first PDFs carried no place.
    let place = attached(ringtrue_report::PLACE_NAME).ok();
    match attached(ringtrue_report::EXPORT_NAME) {
        Ok(text) => Ok(ExportText { text, around: None, place }),
        Err(said) => Err(Problem::input(said, "name a PDF that `job report` wrote").in_file(path)),
    }
}

fn in_file(path: &Path, arguments: &Arguments) -> Result<Checked, Problem> {
    let against = arguments.against.as_deref().map(checkpoint).transpose()?;
    let again = arguments.recompute;
    let ExportText { text, around, place } = export_text(path)?;
    if let Some(said) = around {
        return Ok(Err(Misfit { said, at: None }));
    }
    let export = match read_export(&text) {
        Ok(export) => export,
        Err(ExportError::Misfit(misfit)) => {
            let at = Some((misfit.job.clone(), misfit.event));
            return Ok(Err(Misfit { said: misfit.to_string(), at }));
        }
        Err(
            error @ (ExportError::Text { .. }
            | ExportError::Schema(_)
            | ExportError::NotAsWritten(_)
            | ExportError::Content(_)),
        ) => return Ok(Err(Misfit { said: error.to_string(), at: None })),
    };
    match placed(&export, place.as_deref(), against.as_ref()) {
        Ok(()) => {}
        Err(error @ (PlaceError::NotComparable { .. } | PlaceError::Without(_))) => {
            let next = "verify its store against it: `job verify --all --against CHECKPOINT`";
            return Err(Problem::input(error.to_string(), next).in_file(path));
        }
        Err(error) => return Ok(Err(Misfit { said: error.to_string(), at: None })),
    }
    let chains = export.verify().unwrap_or_default();
    let verified = Verified::of(&chains);
    let mut all = Again::default();
    for log in export.jobs.values() {
        if let Err(misfit) = judge_again(log, &export.documents, (again, &mut all)) {
            return Ok(Err(misfit));
        }
    }
    Ok(Ok((verified, again.then_some(all))))
}

/// Does the place that a PDF carries stand, and fit a checkpoint? An export by itself has none.
fn placed(
    export: &Export,
    place: Option<&str>,
    against: Option<&Against>,
) -> Result<(), PlaceError> {
    let Some(place) = place else {
        return match against {
            Some(against) => Err(PlaceError::Without(against.head().size)),
            None => Ok(()),
        };
    };
    let place = Place::read(place)?;
    let last = export.jobs.values().next().and_then(|log| log.last());
    place.stands(&last.map_or(Digest::NONE, |link| link.hash))?;
    against.map_or(Ok(()), |against| place.compare(against))
}

fn in_store(arguments: &Arguments, id: Option<&str>) -> Result<Checked, Problem> {
    let against = arguments.against.as_deref().map(checkpoint).transpose()?;
    let store = match arguments.store.open_to_check()? {
        Ok(store) => store,
        Err(unfit) => return misfit(unfit).map(Err),
    };
    let checked = match id {
        Some(id) => store.verify_job(id),
        None => store.verify_all(),
    };
    let compared = |verified| match &against {
        Some(against) => store.compare(against).map(|()| verified),
        None => Ok(verified),
    };
    let verified = match checked.and_then(compared) {
        Ok(verified) => verified,
        Err(unfit) => return misfit(unfit).map(Err),
    };
    if !arguments.recompute {
        return Ok(Ok((verified, None)));
    }
    let mut all = Again::default();
    let logs = match logs(&store, id) {
        Ok(logs) => logs,
        Err(error) => return misfit(error.into()).map(Err),
    };
    for (log, documents) in logs {
        if let Err(misfit) = judge_again(&log, &documents, (true, &mut all)) {
            return Ok(Err(misfit));
        }
    }
    Ok(Ok((verified, Some(all))))
}

/// The jobs that are judged again, each with its texts.
fn logs(store: &Store, id: Option<&str>) -> Result<Vec<(Vec<Link>, Documents)>, StoreError> {
    let ids = match id {
        Some(id) => vec![id.to_owned()],
        None => store.list()?.into_iter().map(|line| line.id).collect(),
    };
    let one = |id: &String| {
        let log = store.log(id)?;
        let documents = store.documents(&log)?;
        Ok((log, documents))
    };
    ids.iter().map(one).collect()
}

/// Something that does not fit, or a store that could not be used.
fn misfit(unfit: Unfit) -> Result<Misfit, Problem> {
    let said = unfit.to_string();
    match unfit {
        Unfit::Misfit(misfit) => Ok(Misfit { said, at: Some((misfit.job, misfit.event)) }),
        Unfit::File(_)
        | Unfit::Head(_)
        | Unfit::Checkpoint(_)
        | Unfit::OtherHistory(_)
        | Unfit::Shorter { .. } => Ok(Misfit { said, at: None }),
        Unfit::Store(error) => Err(refused::store(error)),
    }
}

/// A checkpoint from a file, or as it stands on paper.
fn checkpoint(given: &str) -> Result<Against, Problem> {
    let path = PathBuf::from(given);
    let text = if path.is_file() { files::text(&path)? } else { given.to_owned() };
    Against::read(&text)
        .map_err(|error| Problem::input(error.to_string(), "name the checkpoint that you kept"))
}

/// Checks that a log adds up, and judges its gates again where that is asked for.
fn judge_again(
    log: &[Link],
    documents: &Documents,
    (again, all): (bool, &mut Again),
) -> Result<(), Misfit> {
    let job = Job::fold(log).map_err(|(event, refusal)| {
        let id = log.first().map(|link| link.event.job.clone()).unwrap_or_default();
        let said =
            format!("job {id}, event {event}: it can't follow what stands before it: {refusal}");
        Misfit { said, at: Some((id, event)) }
    })?;
    if !again {
        return Ok(());
    }
    let at = |event: u64| Some((job.id.clone(), event));
    let plan = Plan::of(&job.opened, documents)
        .map_err(|error| Misfit { said: format!("job {}: {error}", job.id), at: at(1) })?;
    let verdicts = recompute(&plan, log, &Curves::kept()).map_err(|(event, refusal)| Misfit {
        said: format!("job {}, event {event}: {refusal}", job.id),
        at: at(event),
    })?;
    for one in verdicts {
        all.verdicts += 1;
        if one.same {
            all.same += 1;
        } else if one.stored_by == env!("CARGO_PKG_VERSION") {
            let said = format!(
                "job {}, event {}: its inputs give another outcome with the same program version",
                job.id, one.event
            );
            return Err(Misfit { said, at: at(one.event) });
        } else {
            all.other_version.push(Differs {
                job: job.id.clone(),
                event: one.event,
                stored: one.stored,
                stored_by: one.stored_by,
                now: one.now,
            });
        }
    }
    Ok(())
}

impl Found {
    fn of(checked: Checked) -> Self {
        match checked {
            Ok((Verified { jobs, events, signatures, signers }, recomputed)) => Self {
                verified: true,
                jobs,
                events,
                signatures,
                signers,
                misfit: None,
                job: None,
                event: None,
                recomputed,
            },
            Err(Misfit { said, at }) => {
                let (job, event) = at.unzip();
                Self {
                    verified: false,
                    jobs: 0,
                    events: 0,
                    signatures: 0,
                    signers: Vec::new(),
                    misfit: Some(said),
                    job,
                    event,
                    recomputed: None,
                }
            }
        }
    }

    fn text(&self) -> String {
        if let Some(said) = &self.misfit {
            return format!("Does not verify. {said}");
        }
        let counts = [(self.jobs, "job"), (self.events, "event"), (self.signatures, "signature")];
        let counts = counts.map(|(number, what)| output::counted(number, what));
        let mut text = format!("Verified: {}", counts.join(", "));
        for signer in &self.signers {
            let Signer { name, key, signatures } = signer;
            text.push_str(&format!("\n  {name}, key {}: {signatures}", key.fingerprint()));
        }
        if let Some(again) = &self.recomputed {
            text.push_str(&format!(
                "\n  {} of {} verdicts the same again",
                again.same, again.verdicts
            ));
            for one in &again.other_version {
                let now = one.now.map_or("not judged", Verdict::words);
                text.push_str(&format!(
                    "\n  job {}, event {}: {} by version {}, {now} by this one: another program, \
                     not a changed record",
                    one.job, one.event, one.stored, one.stored_by
                ));
            }
        }
        text
    }
}
