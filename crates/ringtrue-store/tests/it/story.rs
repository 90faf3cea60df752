//! The life of a record in a store.

use ringtrue_job::job::Job;
use ringtrue_job::person::Role;
use ringtrue_job::record::read_export;
use ringtrue_store::{
    Access, Against, Attached, Checkpoint, Listing, MIGRATIONS, NEWEST, Place, PlaceError, Store,
    StoreError, TreeHead, Unfit, Which,
};

use crate::fixture::*;

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().unwrap()
}

#[test]
fn what_was_appended_is_there_after_opening_again() {
    let folder = folder();
    let path = folder.path().join("record.db");
    let text = small_store(&path).export_all().unwrap().text();
    // At rest it is one file.
    let names: Vec<_> = std::fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    assert_eq!(names, ["record.db"]);
    let store = Store::open(&path, Access::Read).unwrap();
    assert_eq!(store.export_all().unwrap().text(), text);
    let verified = store.verify_all().unwrap();
    assert_eq!((verified.jobs, verified.events, verified.signatures), (3, 49, 3));
    assert_eq!(store.verify_job("J-2").unwrap().events, 30);
    let lines = store.list().unwrap();
    assert_eq!(lines.len(), 3);
    for line in lines {
        let job = Job::fold(&store.log(&line.id).unwrap()).unwrap();
        assert_eq!((line.events, line.last_hash), (job.events(), job.last_hash));
        assert_eq!(line.state, "signed");
    }
}

#[test]
fn an_export_goes_into_another_store_and_comes_out_the_same() {
    let folder = folder();
    let text = small_store(&folder.path().join("a.db")).export_all().unwrap().text();
    let export = read_export(&text).unwrap();
    let mut other = Store::open(&folder.path().join("b.db"), Access::Create).unwrap();
    assert_eq!(other.import(&export).unwrap().new.len(), 3);
    assert_eq!(other.export_all().unwrap().text(), text);
    assert_eq!(other.import(&export).unwrap().same.len(), 3);
    other.verify_all().unwrap();
}

#[test]
fn a_longer_history_continues_and_another_is_refused() {
    let folder = folder();
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let long = many(2, 20);
    let mut short = long.clone();
    for log in short.jobs.values_mut() {
        log.truncate(8);
    }
    let mut store = Store::open(&folder.path().join("a.db"), Access::Create).unwrap();
    store.import(&short).unwrap();
    assert_eq!(store.import(&long).unwrap().continued.len(), 2);
    assert_eq!(store.import(&short).unwrap().same.len(), 2);
    let before = store.export_all().unwrap().text();
    let mut other = long.clone();
    let mut writer = Writer::open("J-00001", &key);
    writer.add(&key, recorded(77));
    other.jobs.insert("J-00001".to_owned(), writer.log);
    // One of them would fit; all or nothing.
    other.jobs.insert("J-9".to_owned(), Writer::filled("J-9", 5, &key).log);
    let refused = store.import(&other).unwrap_err();
    assert!(matches!(refused, StoreError::OtherHistory { event: 2, .. }), "{refused}");
    assert_eq!(store.export_all().unwrap().text(), before);
}

#[test]
fn two_who_record_at_once_do_not_overwrite_each_other() {
    let folder = folder();
    let path = folder.path().join("record.db");
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let mut one = Store::open(&path, Access::Create).unwrap();
    let mut two = Store::open(&path, Access::Write).unwrap();
    let mut writer = Writer::open("J-1", &key);
    let documents = documents();
    let attached = Attached { documents: &documents, files: &[] };
    one.append((&writer.job, 0), &writer.log, attached).unwrap();
    let again = two.append((&writer.job, 0), &writer.log, attached).unwrap_err();
    assert_eq!(again, StoreError::JobExists("J-1".to_owned()));
    writer.add(&key, recorded(1));
    one.append((&writer.job, 1), &writer.log[1..], Attached::default()).unwrap();
    let late = two.append((&writer.job, 1), &writer.log[1..], Attached::default()).unwrap_err();
    assert!(matches!(late, StoreError::Overtaken { expected: 1, found: 2, .. }), "{late}");
    two.verify_all().unwrap();
}

#[test]
fn a_store_of_the_first_version_is_brought_up_to_date() {
    let folder = folder();
    let path = folder.path().join("old.db");
    let old = rusqlite::Connection::open(&path).unwrap();
    old.execute_batch(MIGRATIONS[0]).unwrap();
    old.pragma_update(None, "application_id", 0x5254_7275).unwrap();
    old.pragma_update(None, "user_version", 1).unwrap();
    // Events as the first released form wrote them.
    let released = read_export(include_str!("released/form-1.json")).unwrap();
    let log = &released.jobs["J-1"];
    let job = Job::fold(log).unwrap();
    for text in released.documents.values() {
        let hash = ringtrue_job::digest::Digest::of(text.as_bytes()).0;
        old.execute("INSERT INTO document VALUES (?1, ?2)", rusqlite::params![hash, text]).unwrap();
    }
    for (hash, file) in &released.attachments {
        let content = rusqlite::params![hash.0, file.0];
        old.execute("INSERT INTO attachment VALUES (?1, ?2)", content).unwrap();
    }
    old.execute(
        "INSERT INTO job VALUES (1, 'J-1', ?1, 'signed', ?2, ?3, ?4, ?5)",
        rusqlite::params![
            job.opened.title,
            at(1).to_string(),
            at(log.len() as u64).to_string(),
            log.len() as i64,
            job.last_hash.0
        ],
    )
    .unwrap();
    for link in log {
        old.execute(
            "INSERT INTO event (job, sequence, hash, bytes) VALUES (1, ?1, ?2, ?3)",
            rusqlite::params![link.event.sequence as i64, link.hash.0, link.bytes],
        )
        .unwrap();
    }
    drop(old);
    let store = Store::open(&path, Access::Read).unwrap();
    assert_eq!(store.verify_all().unwrap().events, log.len() as u64);
    assert_eq!(store.export_all().unwrap().text(), include_str!("released/form-1.json"));
    assert!(store.checkpoints().unwrap().is_empty());
    drop(store);
    let version: i64 = rusqlite::Connection::open(&path)
        .unwrap()
        .pragma_query_value(None, "user_version", |row| row.get(0))
        .unwrap();
    assert_eq!(version, NEWEST);
}

#[test]
fn a_store_of_the_third_version_is_searched_like_a_new_one() {
    let folder = folder();
    let path = folder.path().join("old.db");
    let text = small_store(&path).export_all().unwrap().text();
    as_version_three(&path);
    let store = Store::open(&path, Access::Write).unwrap();
    assert_eq!(store.export_all().unwrap().text(), text);
    store.verify_all().unwrap();
    let found = |search: &str| {
        let listing = Listing { which: Which::All, search, skip: 0, most: 10 };
        let lines = store.page(listing).unwrap().lines;
        lines.into_iter().map(|line| line.id).collect::<Vec<_>>()
    };
    assert_eq!(found("j-2"), ["J-2"]);
    let all = store.list().unwrap();
    let all: Vec<&str> = all.iter().map(|line| line.id.as_str()).collect();
    assert_eq!(found(""), all);
    assert_eq!(found("JOINT OF").len(), 3);
    assert!(found("%").is_empty() && found("J-2\0").is_empty());
    assert_eq!(store.counts().unwrap().done, 3);
}

#[test]
fn jobs_are_found_without_case_in_any_script_and_by_what_is_new() {
    let folder = folder();
    let path = folder.path().join("a.db");
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let mut store = Store::open(&path, Access::Create).unwrap();
    for (id, title) in [("J-1", "ÖLPUMPE links"), ("J-2", "Редуктор"), ("J-3", "plain")] {
        let writer = Writer::titled((id, title), &key);
        let documents = documents();
        let attached = Attached { documents: &documents, files: &[] };
        store.append((&writer.job, 0), &writer.log, attached).unwrap();
    }
    let found = |search: &str| {
        let listing = Listing { which: Which::All, search, skip: 0, most: 10 };
        store.page(listing).unwrap().lines.into_iter().map(|line| line.id).collect::<Vec<_>>()
    };
    assert_eq!(found("ölpumpe"), ["J-1"]);
    assert_eq!(found(" РЕДУКТОР "), ["J-2"]);
    assert_eq!(found("j-3"), ["J-3"]);
    store.verify_all().unwrap();
    // What is looked for was changed: a job would no longer be found, and that is noticed.
    let slip = "UPDATE job SET folded = 'other' WHERE id = 'J-3'";
    rusqlite::Connection::open(&path).unwrap().execute(slip, []).unwrap();
    assert_eq!(store.verify_all().unwrap_err(), Unfit::Head("J-3".to_owned()));
}

/// A job that was opened in the first form goes on in the newest; what was written stays as it was.
#[test]
fn a_job_of_the_first_form_goes_on_in_the_newest() {
    let folder = folder();
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let text = include_str!("released/form-1.json");
    let mut store = Store::open(&folder.path().join("a.db"), Access::Create).unwrap();
    store.import(&read_export(text).unwrap()).unwrap();
    assert_eq!(store.export_all().unwrap().text(), text);
    let log = store.log("J-1").unwrap();
    let mut writer = Writer { job: Job::fold(&log).unwrap(), log };
    let before = writer.job.events();
    writer.add(&key, followed_up());
    writer.sign(&key);
    let new = &writer.log[before as usize..];
    store.append((&writer.job, before), new, Attached::default()).unwrap();
    let all = store.verify_all().unwrap();
    assert_eq!((all.events, all.signatures), (before + 2, 3));
    let forms: Vec<u8> = store.log("J-1").unwrap().iter().map(|link| link.bytes[0]).collect();
    assert!(forms[..before as usize].iter().all(|form| *form == 1), "{forms:?}");
    assert_eq!(forms[before as usize..], [2, 2]);
    // Both forms stand in one export, and come in again as they are.
    let mixed = store.export_all().unwrap().text();
    assert_eq!(mixed.matches("\"form-1\"").count() as u64, before);
    assert_eq!(mixed.matches("\"form-2\"").count(), 2);
    let mut other = Store::open(&folder.path().join("b.db"), Access::Create).unwrap();
    other.import(&read_export(&mixed).unwrap()).unwrap();
    assert_eq!(other.export_all().unwrap().text(), mixed);
    // The store that has the old part continues with the new one.
    let mut older = Store::open(&folder.path().join("c.db"), Access::Create).unwrap();
    older.import(&read_export(text).unwrap()).unwrap();
    assert_eq!(older.import(&read_export(&mixed).unwrap()).unwrap().continued, ["J-1"]);
    assert_eq!(older.export_all().unwrap().text(), mixed);
}

#[test]
fn a_newer_store_and_what_is_no_store_are_refused() {
    let folder = folder();
    let newer = folder.path().join("newer.db");
    drop(small_store(&newer));
    rusqlite::Connection::open(&newer)
        .unwrap()
        .pragma_update(None, "user_version", NEWEST + 1)
        .unwrap();
    let refused = Store::open(&newer, Access::Write).unwrap_err();
    assert_eq!(refused, StoreError::Newer { found: NEWEST + 1, newest: NEWEST });
    let missing = folder.path().join("missing.db");
    assert_eq!(Store::open(&missing, Access::Read).unwrap_err(), StoreError::Missing(missing));
    let other = folder.path().join("other.db");
    std::fs::write(&other, "a text of some length that is no store at all, said twice".repeat(40))
        .unwrap();
    assert_eq!(Store::open(&other, Access::Create).unwrap_err(), StoreError::NotAStore(other));
    let foreign = folder.path().join("foreign.db");
    let connection = rusqlite::Connection::open(&foreign).unwrap();
    connection.execute_batch("CREATE TABLE mine (a)").unwrap();
    drop(connection);
    assert_eq!(Store::open(&foreign, Access::Create).unwrap_err(), StoreError::NotAStore(foreign));
}

#[test]
fn a_checkpoint_shows_a_rewritten_and_a_shortened_history() {
    let folder = folder();
    let (_, keeper) = person("Karl Keeper", Role::Keeper);
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let mut store = small_store(&folder.path().join("a.db"));
    let head = store.tree_head().unwrap();
    let kept = Checkpoint::sign(head, at(5), &keeper).text();
    let against = Against::read(&kept).unwrap();
    store.compare(&against).unwrap();
    // More may come after it.
    let later = Writer::filled("J-4", 9, &key);
    let documents = documents();
    let attached = Attached { documents: &documents, files: &[] };
    store.append((&later.job, 0), &later.log, attached).unwrap();
    store.compare(&against).unwrap();
    // The bare head, as it stands on paper.
    let paper = head.to_string();
    let spaced = format!("{} {}", &paper[..20], &paper[20..]);
    store.compare(&Against::read(&spaced).unwrap()).unwrap();
    // The same keys write another history: it verifies, and is not the one that was covered.
    let mut forged = Store::open(&folder.path().join("b.db"), Access::Create).unwrap();
    forged.import(&many(3, 30)).unwrap();
    forged.verify_all().unwrap();
    assert!(matches!(forged.compare(&against), Err(Unfit::OtherHistory(_))));
    let mut short = Store::open(&folder.path().join("c.db"), Access::Create).unwrap();
    short.import(&many(1, 10)).unwrap();
    assert!(matches!(short.compare(&against), Err(Unfit::Shorter { covered: 49, found: 10 })));
    // A checkpoint that was changed is no checkpoint.
    for at in 0..kept.len() {
        let mut bytes = kept.clone().into_bytes();
        bytes[at] ^= 1;
        let found = String::from_utf8(bytes).map(|text| Against::read(&text));
        let same = matches!(&found, Ok(Ok(other)) if *other == against);
        assert!(same || !matches!(found, Ok(Ok(_))), "byte {at}");
    }
}

/// RFC 9162, section 2.1.1: the head of an empty tree, of one leaf and of two.
#[test]
fn tree_heads_are_those_of_rfc_9162() {
    use sha2::{Digest as _, Sha256};
    let folder = folder();
    let mut store = Store::open(&folder.path().join("a.db"), Access::Create).unwrap();
    let head = |store: &Store| store.tree_head().unwrap();
    let hash = |parts: &[&[u8]]| -> [u8; 32] {
        let mut sha = Sha256::new();
        parts.iter().for_each(|part| sha.update(part));
        sha.finalize().into()
    };
    assert_eq!(head(&store).root.0, hash(&[]));
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let writer = Writer::filled("J-1", 2, &key);
    let documents = documents();
    let attached = Attached { documents: &documents, files: &[] };
    store.append((&writer.job, 0), &writer.log, attached).unwrap();
    let leaves: Vec<[u8; 32]> = writer.log.iter().map(|link| hash(&[&[0], &link.hash.0])).collect();
    let (heads, _) = store.tree_heads(&[0, 1, 3].into()).unwrap();
    assert_eq!((heads[&0].root.0, heads[&1].root.0), (hash(&[]), leaves[0]));
    assert!(!heads.contains_key(&3));
    assert_eq!(head(&store).root.0, hash(&[&[1], &leaves[0], &leaves[1]]));
}

#[test]
fn a_backup_is_whole_and_nothing_is_overwritten() {
    let folder = folder();
    let at = |name: &str| folder.path().join(name);
    let store = small_store(&at("a.db"));
    store.backup(&at("copy.db")).unwrap();
    assert!(matches!(store.backup(&at("copy.db")), Err(StoreError::Exists(_))));
    ringtrue_store::restore(&at("copy.db"), &at("b.db")).unwrap();
    let again = Store::open(&at("b.db"), Access::Write).unwrap();
    again.verify_all().unwrap();
    assert_eq!(again.export_all().unwrap().text(), store.export_all().unwrap().text());
    assert_eq!(again.people().unwrap(), store.people().unwrap());
    assert_eq!(again.checkpoints().unwrap(), store.checkpoints().unwrap());
    assert!(matches!(
        ringtrue_store::restore(&at("copy.db"), &at("b.db")),
        Err(StoreError::Exists(_))
    ));
}

#[test]
fn people_stay_who_they_were() {
    let folder = folder();
    let mut store = small_store(&folder.path().join("a.db"));
    let (other, _) = person("Anna Fitter", Role::Engineer);
    assert!(matches!(store.add_person(&other), Err(StoreError::PersonExists(_))));
    store.retire_person("Anna Fitter", at(7)).unwrap();
    assert_eq!(store.person("Anna Fitter").unwrap().retired, Some(at(7)));
    assert!(matches!(store.retire_person("Anna Fitter", at(8)), Err(StoreError::NoPerson(_))));
    assert!(matches!(store.person("Nobody"), Err(StoreError::NoPerson(_))));
    store.verify_all().unwrap();
}

#[test]
fn of_many_first_people_at_once_one_is_the_first() {
    let folder = folder();
    let path = folder.path().join("a.db");
    for round in 0..20 {
        drop(Store::open(&path, Access::Create).unwrap());
        let names = ["Anna", "Ben", "Cleo", "Dan"].map(|name| format!("{name} {round}"));
        let gate = std::sync::Barrier::new(names.len());
        let come = |name: &str| {
            let (one, _) = person(name, Role::Keeper);
            let mut store = Store::open(&path, Access::Write).unwrap();
            gate.wait();
            store.add_first_person(&one)
        };
        let added: Vec<Result<(), StoreError>> = std::thread::scope(|scope| {
            let all = names.each_ref().map(|name| scope.spawn(|| come(name)));
            all.into_iter().map(|one| one.join().unwrap()).collect()
        });
        assert_eq!(added.iter().filter(|one| one.is_ok()).count(), 1);
        let late = |one: &&Result<(), StoreError>| matches!(one, Err(StoreError::NotFirst));
        assert_eq!(added.iter().filter(late).count(), names.len() - 1);
        assert_eq!(Store::open(&path, Access::Read).unwrap().people().unwrap().len(), 1);
        std::fs::remove_file(&path).unwrap();
    }
}

#[test]
fn what_was_written_is_folded_in_beside_the_writes_and_nothing_is_lost_without() {
    let folder = folder();
    let path = folder.path().join("a.db");
    let store = small_store(&path);
    let listed = store.list().unwrap();
    store.fold_in_apart().unwrap();
    drop(store);
    let mut store = Store::open(&path, Access::Write).unwrap();
    store.fold_in_apart().unwrap();
    let before = std::fs::metadata(&path).unwrap().len();
    for number in 0..300 {
        store.add_person(&person(&format!("Anna {number}"), Role::Fitter).0).unwrap();
    }
    // The writes are in the log: the file itself is as it was.
    assert_eq!(std::fs::metadata(&path).unwrap().len(), before);
    let reader = Store::open(&path, Access::Read).unwrap();
    assert!(reader.people().unwrap().len() >= 300);
    store.fold_in().unwrap();
    assert!(std::fs::metadata(&path).unwrap().len() > before);
    assert_eq!(reader.list().unwrap(), listed);
    assert_eq!(reader.people().unwrap().len(), store.people().unwrap().len());
    store.verify_all().unwrap();
}

#[test]
fn somebody_with_another_key_under_a_known_name_is_found() {
    let folder = folder();
    let mut store = small_store(&folder.path().join("a.db"));
    let name = "Anna Fitter";
    let secret = zeroize::Zeroizing::new([9; 32]);
    let drawn = ringtrue_job::person::Drawn { secret, salt: [1; 16], nonce: [2; 24] };
    let cost = ringtrue_job::person::Cost { memory_kib: 8, passes: 1, lanes: 1 };
    let forger =
        ringtrue_job::person::enrol((name, Role::Fitter), PASSPHRASE, &drawn, (cost, at(0)));
    let forger = ringtrue_job::person::unlock(&forger.unwrap(), PASSPHRASE).unwrap();
    let writer = Writer::filled("J-7", 4, &forger);
    let documents = documents();
    let attached = Attached { documents: &documents, files: &[] };
    store.append((&writer.job, 0), &writer.log, attached).unwrap();
    let unfit = store.verify_all().unwrap_err();
    assert!(matches!(&unfit, Unfit::Misfit(misfit) if misfit.job == "J-7" && misfit.event == 1));
}

/// The place of a job in its store's tree, as its PDF carries it.
#[test]
fn the_place_of_a_job_is_proven_and_compared_with_checkpoints() {
    let folder = folder();
    let (_, keeper) = person("Karl Keeper", Role::Keeper);
    let (_, key) = person("Anna Fitter", Role::Fitter);
    let mut store = small_store(&folder.path().join("a.db"));
    // A checkpoint over all 49 events was signed; then a job more.
    let first = store.tree_head().unwrap();
    let later = Writer::filled("J-4", 9, &key);
    let documents = documents();
    let attached = Attached { documents: &documents, files: &[] };
    store.append((&later.job, 0), &later.log, attached).unwrap();
    let now = store.tree_head().unwrap();
    for id in ["J-1", "J-2", "J-3", "J-4"] {
        let last = store.log(id).unwrap().last().unwrap().hash;
        let text = store.place(id).unwrap().text();
        let place = Place::read(&text).unwrap();
        place.stands(&last).unwrap();
        for head in [first, now] {
            let signed = Checkpoint::sign(head, at(5), &keeper).text();
            place.compare(&Against::read(&signed).unwrap()).unwrap();
            place.compare(&Against::Head(head)).unwrap();
        }
        // Another event, another history, another size.
        let other = store.log("J-2").unwrap()[3].hash;
        assert_eq!(place.stands(&other), Err(PlaceError::Inclusion));
        let rewritten = TreeHead { root: now.root, ..first };
        let compared = place.compare(&Against::Head(rewritten));
        assert_eq!(compared, Err(PlaceError::OtherHistory(rewritten)));
        let unknown = TreeHead { size: 7, root: now.root };
        let compared = place.compare(&Against::Head(unknown));
        assert!(matches!(compared, Err(PlaceError::NotComparable { size: 7, .. })));
        // A changed byte is no proof any more.
        for at in 0..text.len() {
            let mut bytes = text.clone().into_bytes();
            bytes[at] ^= 1;
            let Ok(changed) = String::from_utf8(bytes) else { continue };
            let Ok(changed) = Place::read(&changed) else { continue };
            // A root does not say over how many leaves it is: that shows when it is compared.
            let compares = [first, now].map(Against::Head).map(|head| changed.compare(&head));
            let stands = changed.stands(&last).is_ok() && compares.iter().all(Result::is_ok);
            assert!(changed == place || !stands, "{id}, byte {at}");
        }
    }
}
