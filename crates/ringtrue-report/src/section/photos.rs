//! The photos of a job: those that can be printed on pages, the others by name.

use std::collections::BTreeMap;

use ringtrue_job::digest::Digest;
use ringtrue_job::event::{Event, Photo};
use ringtrue_words::say;

use super::record::{kind, moment, who};
use crate::JobRecord;
use crate::document::{Block, Cell, Document, PagePhoto, PhotoPrint, Section, Set, Start, Table};
use crate::photo::{ForPage, for_page};

/// Width of a photo in a row of two, mm.
const WIDEST: f64 = 84.0;
/// Narrowest that still shows where it is, mm.
const NARROWEST: f64 = 20.0;
/// Dots to the inch at which a small photo is printed: larger it would only be coarse.
const DOTS: f64 = 110.0;

/// Adds the pages of the photos; none where there are no files.
pub(super) fn add(document: &mut Document, record: &JobRecord<'_>) {
    let taken = record.log.iter().flat_map(|link| {
        let event = &link.event;
        event.photos().into_iter().map(move |photo| (event, photo))
    });
    let mut pages: BTreeMap<Digest, Option<(String, ForPage)>> = BTreeMap::new();
    let (mut shown, mut others) = (Vec::new(), Vec::new());
    for (event, photo) in taken {
        let name = format!("photo-{}.jpg", pages.len() + 1);
        let page = pages.entry(photo.content).or_insert_with(|| {
            let file = record.files.get(&photo.content)?;
            for_page(&file.0).map(|page| (name, page))
        });
        match page {
            Some(page) => shown.push(print(event, photo, (page, record))),
            None => others.push((event, photo)),
        }
    }
    if shown.is_empty() && others.is_empty() {
        return;
    }
    let mut blocks = Vec::new();
    if !shown.is_empty() {
        blocks.push(Block::Photos(shown));
    }
    if !others.is_empty() {
        blocks.push(Block::Heading(say!("report-photos-no-pictures").to_owned()));
        blocks.push(Block::Tables(vec![listed(&others)]));
    }
    blocks.push(Block::Small(say!("report-photos-made-smaller").to_owned()));
    document.sections.push(Section {
        title: say!("report-photos-title").to_owned(),
        start: Start::Below,
        blocks,
    });
    let shown = pages.into_values().flatten();
    document.photos = shown.map(|(name, page)| PagePhoto { name, content: page.jpeg }).collect();
}

fn print(
    event: &Event,
    photo: &Photo,
    ((name, page), record): (&(String, ForPage), &JobRecord<'_>),
) -> PhotoPrint {
    let corrected = record.job.entry(event.sequence).and_then(|entry| entry.corrected_by);

    let place = record.job.entry(event.sequence).and_then(|entry| entry.place.clone());
    let place = place.map_or_else(|| kind(&event.payload).to_owned(), |place| place.to_string());
    let hash = photo.content.to_string();
    let told = say!("report-photos-caption", place, event = event.sequence, photo = photo.name);
    let told = match corrected {
        Some(by) => format!("{told} {}", say!("report-record-corrected-by", event = by)),
        None => told,
    };
    PhotoPrint {
        name: name.clone(),
        alt: say!("report-photos-alt", photo = photo.name, place, event = event.sequence),
        caption: vec![
            told,
            say!(
                "report-photos-by",
                who = who(event),
                moment = moment(event.at),
                hash = hash[..16]
            ),
        ],
        width_mm: (f64::from(page.width) * 25.4 / DOTS).clamp(NARROWEST, WIDEST),
    }
}

fn listed(files: &[(&Event, &Photo)]) -> Table {
    let mut table = Table::new([
        (say!("report-common-event"), Set::Numbers),
        (say!("report-photos-file"), Set::Prose),
        (say!("report-photos-type"), Set::Words),
        (say!("report-photos-bytes"), Set::Numbers),
        (say!("report-photos-content"), Set::Words),
    ]);
    for (event, photo) in files {
        table.row([
            Cell::Text(event.sequence.to_string()),
            Cell::text(&photo.name),
            Cell::text(&photo.media_type),
            Cell::Text(photo.length.to_string()),
            Cell::Text(photo.content.to_string()[..16].to_owned()),
        ]);
    }
    table
}
