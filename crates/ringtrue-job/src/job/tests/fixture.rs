//! A joint, a procedure of a few steps, and four people.

use jiff::Timestamp;
use ringtrue_metrology::conformity::Verdict;
use ringtrue_seal::definition::joint::Half;
use ringtrue_seal::definition::{Kind, starter};
use zeroize::Zeroizing;

use crate::SolveAnew;
use crate::digest::Digest;
use crate::event::{Answer, Entry, Given, Opened, Place, Readings, Recorded, Value};
use crate::job::deed::{self, Deed, DeedError, Now};
use crate::job::{Documents, Job, Plan};
use crate::person::{Cost, Drawn, Role, Unlocked, enrol, unlock};
use crate::record::{Attachment, Export, Link};

pub(crate) const VERSION: &str = "0.1.0";
/// argon2id at the least that it takes: the tests are not about time.
pub(crate) const CHEAP: Cost = Cost { memory_kib: 8, passes: 1, lanes: 1 };

pub(crate) const PROCEDURE: &str = r#"
schema = "ringtrue/procedure/1"
name = "a few steps"
version = "1"
origin = "common practice, no source"
load_ring = "toric"

[[step]]
id = "make-safe"
stage = "open"
title = "Make safe"
what = "Make the machine safe."
why = "It could start."
evidence = [{ name = "locked", kind = "tick", ask = "Locked and tagged" }]

[[step]]
id = "parts"
stage = "identify"
title = "Parts"
what = "Compare the parts."
why = "Parts that do not belong together leak."
evidence = [{ name = "looked", kind = "tick", ask = "Parts laid out" }]
gate = { decided_by = "matching" }

[[step]]
id = "housing"
stage = "inspect"
title = "Housing"
what = "Measure the ramp."
why = "A rough ramp holds the toric back."
evidence = [
  { name = "finish", kind = "value", ask = "Ra of the ramp", quantity = "length",
    example = "0.8 um", limit = "limits.ramp_finish_ra" },
  { name = "looked-too", kind = "second-person", ask = "Another person looks" },
]
gate = { decided_by = "limits", hold_point = "housing-accepted" }

[[step]]
id = "height"
stage = "level"
title = "Height"
what = "Measure the assembled height."
why = "A cocked ring leaks."
evidence = [
  { name = "heights", kind = "reading-set", ask = "Heights", readings = "assembled-height" },
]
gate = { decided_by = "assembled-height", hold_point = "height" }

[[step]]
id = "gap"
stage = "close"
title = "Gap"
what = "Measure what makes the gap."
why = "The gap sets the face load."
evidence = [{ name = "sizes", kind = "reading-set", ask = "Sizes", readings = "seal-gap" }]
gate = { decided_by = "seal-gap", hold_point = "gap" }

[[step]]
id = "faces"
stage = "close"
title = "Faces"
what = "Wipe the faces."
why = "A hair is thicker than the film."
evidence = [{ name = "clean", kind = "tick", ask = "Clean and dry" }]
gate = { decided_by = "evidence", hold_point = "faces-clean-and-dry" }

[[step]]
id = "leak"
stage = "prove"
title = "Leak test"
what = "Test for leaks."
why = "Found now it costs an hour."
evidence = [{ name = "holds", kind = "tick", ask = "The pressure holds" }]
gate = { decided_by = "evidence", hold_point = "leak-test" }

[[step]]
id = "hand-over"
stage = "sign"
title = "Hand over"
what = "Hand over."
why = "Somebody takes it on."
evidence = [
  { name = "remarks", kind = "text", ask = "Remarks", need = "if-any" },
  { name = "to", kind = "text", ask = "To whom" },
]
"#;

/// The starter's gap chain, with sizes that leave no doubt about it.
pub(crate) const SIZES: &str = "name,value_mm,u_mm\n\
    frame: housing face to bearing seat,62.00,0.005\n\
    \"bearing set, width\",47.95,0.005\n\
    hub: bearing shoulder to housing face,107.35,0.005\n";
pub(crate) const LEVEL: &str = "angle_deg,height_mm\n0,10.02\n90,10.05\n180,10.01\n270,9.98\n";
pub(crate) const COCKED: &str = "angle_deg,height_mm\n0,10.0\n90,11.4\n180,10.0\n270,8.6\n";

/// People of a shop.
pub(crate) struct People {
    pub(crate) fitter: Unlocked,
    pub(crate) checker: Unlocked,
    pub(crate) engineer: Unlocked,
    pub(crate) keeper: Unlocked,
}

pub(crate) fn person(name: &str, role: Role) -> Unlocked {
    let drawn = Drawn {
        secret: Zeroizing::new(*blake3::hash(name.as_bytes()).as_bytes()),
        salt: [7; 16],
        nonce: [9; 24],
    };
    let added = at(0);
    let person = enrol((name, role), "a long enough phrase", &drawn, (CHEAP, added)).unwrap();
    unlock(&person, "a long enough phrase").unwrap()
}

pub(crate) fn people() -> People {
    People {
        fitter: person("Fitter One", Role::Fitter),
        checker: person("Checker Two", Role::Checker),
        engineer: person("Engineer Three", Role::Engineer),
        keeper: person("Keeper Four", Role::Keeper),
    }
}

pub(crate) fn at(second: i64) -> Timestamp {
    Timestamp::from_second(1_764_000_000 + second).unwrap()
}

/// A job while it is worked on.
#[derive(Clone)]
pub(crate) struct Bench {
    pub(crate) job: Job,
    pub(crate) plan: Plan,
    pub(crate) log: Vec<Link>,
    pub(crate) documents: Documents,
    pub(crate) gauge: Digest,
}

impl Bench {
    pub(crate) fn new(people: &People) -> Self {
        Self::by(people, PROCEDURE)
    }

    /// A job by another procedure.
    pub(crate) fn by(people: &People, procedure: &str) -> Self {
        Self::on(people, starter(Kind::Joint), procedure)
    }

    /// A job on another joint.
    pub(crate) fn on(people: &People, joint: &str, procedure: &str) -> Self {
        let mut documents = Documents::new();
        let mut keep = |text: &str| {
            let digest = Digest::of(text.as_bytes());
            documents.insert(digest, text.to_owned());
            digest
        };
        let joint = keep(joint);
        let procedure = keep(procedure);
        let gauge = keep(starter(Kind::Gauge));
        let opened = Opened {
            title: "example joint".to_owned(),
            joint,
            material_a: None,
            material_b: None,
            procedure,
            agents: None,
            program_version: VERSION.to_owned(),
        };
        let plan = Plan::of(&opened, &documents).unwrap();
        let (job, link) = deed::open("J-1", opened, &documents, &now(&people.fitter, 0)).unwrap();
        Self { job, plan, log: vec![link], documents, gauge }
    }

    pub(crate) fn submit(&mut self, who: &Unlocked, deed: Deed) -> Result<(), DeedError> {
        let second = i64::try_from(self.log.len()).unwrap();
        let (job, links) = deed::submit(&self.job, &self.plan, deed, &now(who, second))?;
        self.job = job;
        self.log.extend(links);
        Ok(())
    }

    pub(crate) fn record(
        &mut self,
        who: &Unlocked,
        place: Place,
        given: &[(&str, Entry)],
    ) -> Result<(), DeedError> {
        self.submit(who, Deed::Record(Recorded { place, given: all(given) }))
    }

    pub(crate) fn heights(&self, text: &str) -> Entry {
        let gauge = Some(self.gauge);
        Entry::Readings(Readings::of_text(text.to_owned(), "typed".to_owned(), gauge))
    }

    /// Everything up to the housings.
    pub(crate) fn up_to_the_housings(&mut self, people: &People) {
        let fitter = &people.fitter;
        self.record(fitter, once("make-safe"), &[("locked", YES)]).unwrap();
        self.record(fitter, once("parts"), &[("looked", YES)]).unwrap();
        for half in Half::BOTH {
            self.record(fitter, on("housing", half), &[("finish", ra("0.8 um", "0.1 um"))])
                .unwrap();
            let second = [("looked-too", Entry::SecondPerson)];
            self.record(&people.checker, on("housing", half), &second).unwrap();
            self.submit(fitter, Deed::Sign(None)).unwrap();
        }
    }

    /// Everything up to the signature on the whole job.
    pub(crate) fn through(&mut self, people: &People) {
        self.up_to_the_housings(people);
        for half in Half::BOTH {
            let heights = self.heights(LEVEL);
            self.record(&people.fitter, on("height", half), &[("heights", heights)]).unwrap();
            self.submit(&people.fitter, Deed::Sign(None)).unwrap();
        }
        let sizes = self.heights(SIZES);
        self.record(&people.fitter, once("gap"), &[("sizes", sizes)]).unwrap();
        self.submit(&people.fitter, Deed::Sign(None)).unwrap();
        for (step, name) in [("faces", "clean"), ("leak", "holds")] {
            self.record(&people.fitter, once(step), &[(name, YES)]).unwrap();
            self.submit(&people.fitter, Deed::Sign(None)).unwrap();
        }
        let to = [("to", Entry::Text("the yard".to_owned()))];
        self.record(&people.fitter, once("hand-over"), &to).unwrap();
        self.submit(&people.fitter, Deed::Sign(None)).unwrap();
    }

    /// The last verdict at a place.
    pub(crate) fn verdict(&self, place: &Place) -> Option<Verdict> {
        self.job.steps.get(place)?.verdict().map(|verdict| verdict.verdict)
    }

    pub(crate) fn export(&self) -> Export {
        let mut export = Export::default();
        let named: Vec<Digest> = self.log.iter().flat_map(|link| link.event.documents()).collect();
        export.documents.extend(
            self.documents
                .iter()
                .filter(|(hash, _)| named.contains(hash))
                .map(|(hash, text)| (*hash, text.clone())),
        );
        for photo in self.log.iter().flat_map(|link| link.event.photos()) {
            export.attachments.insert(photo.content, Attachment(b"a photo".to_vec()));
        }
        export.jobs.insert(self.job.id.clone(), self.log.clone());
        export
    }
}

pub(crate) const YES: Entry = Entry::Tick(Answer::Yes);
pub(crate) const NO: Entry = Entry::Tick(Answer::No);

pub(crate) fn ra(typed: &str, uncertainty: &str) -> Entry {
    Entry::Value(Value {
        typed: typed.to_owned(),
        uncertainty: Some(uncertainty.to_owned()),
        gauge: None,
    })
}

pub(crate) fn once(step: &str) -> Place {
    Place { step: step.to_owned(), half: None }
}

pub(crate) fn on(step: &str, half: Half) -> Place {
    Place { step: step.to_owned(), half: Some(half) }
}

pub(crate) fn all(given: &[(&str, Entry)]) -> Vec<Given> {
    given
        .iter()
        .map(|(name, entry)| Given { name: (*name).to_owned(), entry: entry.clone() })
        .collect()
}

pub(crate) fn now(person: &Unlocked, second: i64) -> Now<'_> {
    Now { at: at(second), person, device: "bench 3", program_version: VERSION, curves: &SolveAnew }
}
