//! The photos of a job: those that can be printed on pages, the others by name.

use std::collections::BTreeMap;

use ringtrue_job::digest::Digest;
use ringtrue_job::event::{Event, Photo};

use super::record::{moment, who};
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
        blocks.push(Block::Heading("Files that are no pictures".to_owned()));
        blocks.push(Block::Tables(vec![listed(&others)]));
    }
    blocks.push(Block::Small(
        "Photos are made smaller for the page; the attached record holds each file as it was, \
         under the hash of its content."
            .to_owned(),
    ));
    document.sections.push(Section { title: "Photos".to_owned(), start: Start::NewPage, blocks });
    let shown = pages.into_values().flatten();
    document.photos = shown.map(|(name, page)| PagePhoto { name, content: page.jpeg }).collect();
}

fn print(
    event: &Event,
    photo: &Photo,
    ((name, page), record): (&(String, ForPage), &JobRecord<'_>),
) -> PhotoPrint {
    let corrected = record.job.entry(event.sequence).and_then(|entry| entry.corrected_by);
    let struck = corrected.map_or(String::new(), |by| format!(" CORRECTED by event {by}."));
    let place = record.job.entry(event.sequence).and_then(|entry| entry.place.clone());
    let place = place.map_or_else(|| event.payload.kind().to_owned(), |place| place.to_string());
    let hash = photo.content.to_string();
    PhotoPrint {
        name: name.clone(),
        alt: format!("Photo {} of {place}, event {}", photo.name, event.sequence),
        caption: vec![
            format!("{place}, event {}: {}.{struck}", event.sequence, photo.name),
            format!("{}, {}; content {}", who(event), moment(event.at), &hash[..16]),
        ],
        width_mm: (f64::from(page.width) * 25.4 / DOTS).clamp(NARROWEST, WIDEST),
    }
}

fn listed(files: &[(&Event, &Photo)]) -> Table {
    let mut table = Table::new([
        ("Event", Set::Numbers),
        ("File", Set::Prose),
        ("Type", Set::Words),
        ("Bytes", Set::Numbers),
        ("Content", Set::Words),
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
