use typst::World as _;
use typst::layout::{Frame, FrameItem};
use typst::syntax::{RootedPath, VirtualPath, VirtualRoot};
use typst::text::FontVariations;

use super::*;
use crate::document::{Block, EntryMark, Section, Stands, Start, StepEntry, StepRecord};
use crate::tests::fixture;

fn text_of(frame: &Frame, out: &mut String) {
    for (_, item) in frame.items() {
        match item {
            FrameItem::Group(group) => text_of(&group.frame, out),
            FrameItem::Text(text) => out.push_str(&text.text),
            FrameItem::Shape(..)
            | FrameItem::Image(..)
            | FrameItem::Link(..)
            | FrameItem::Tag(_) => {}
        }
    }
}

/// The text of all pages without its spaces: lines are broken anywhere.
fn text(pages: &PagedDocument) -> String {
    let mut out = String::new();
    for page in pages.pages() {
        text_of(&page.frame, &mut out);
    }
    squeezed(&out)
}

fn squeezed(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}').collect()
}

#[test]
fn the_same_document_gives_the_same_bytes() {
    let document = fixture::final_drive().document();
    let first = pdf(&document).unwrap();
    assert!(first.starts_with(b"%PDF-1.7") && first.len() > 20_000);
    assert_eq!(first, pdf(&document).unwrap());
    let later = Document { made: "2026-11-20T14:06:00Z".parse().unwrap(), ..document };
    assert_ne!(first, pdf(&later).unwrap());
}

#[test]
fn every_case_is_set_on_a_fair_number_of_pages_and_passes_the_standards() {
    for (name, case) in fixture::all() {
        let document = case.document();
        let pages = pages(&document).unwrap();
        assert!((6..=14).contains(&pages.pages().len()), "{name}: {}", pages.pages().len());
        // The export checks PDF/A-2a and PDF/UA-1 and refuses what breaks them.
        let pdf = typst_pdf::pdf(&pages, &options(&document).unwrap());
        assert!(pdf.is_ok(), "{name}: {:?}", pdf.err());
    }
}

#[test]
fn paper_follows_the_units() {
    let width =
        |case: fixture::Case| pages(&case.document()).unwrap().pages()[0].frame.width().to_mm();
    assert!((width(fixture::final_drive()) - 210.0).abs() < 0.1);
    assert!((width(fixture::mixer_shaft()) - 215.9).abs() < 0.1);
}

#[test]
fn names_stay_names_whatever_letters_they_hold() {
    let case = fixture::odd_names();
    let text = text(&pages(&case.document()).unwrap());
    for name in [&case.joint.file.name, &case.gap.links[0].name, &case.a[0].0] {
        assert!(text.contains(&squeezed(name)), "{name} is not on the pages");
    }
    // What the type does not hold stands as its number.
    assert!(text.contains("ŁódźWerkstatt№7\u{2014}Привет[U+4E2D][U+6587]"));
}

#[test]
fn words_to_be_typed_are_set_apart_and_their_backticks_are_gone() {
    let mut document = fixture::final_drive().document();
    document.cover.to_do.push("write `level at once` where none was needed".to_owned());
    let text = text(&pages(&document).unwrap());
    let wanted = squeezed("Write level at once where none was needed");
    assert!(text.contains(&wanted) && !text.contains('`'), "{text}");
}

#[test]
fn the_type_holds_every_letter_of_our_own_words() {
    for (name, case) in fixture::all() {
        if name != "odd-names" {
            let told = json!(case.document()).to_string();
            let fonts = world::fonts().unwrap();
            let missing: String =
                told.chars().filter(|letter| !world::has(fonts, *letter)).collect();
            assert_eq!(missing, "", "{name}");
        }
    }
}

#[test]
fn the_template_says_what_the_language_file_says() {
    let entry = |event, says: &str, mark| StepEntry {
        event,
        says: vec![says.to_owned()],
        who: "somebody".to_owned(),
        mark,
    };
    let step = |standing: &str, stands, entries| StepRecord {
        title: "Wipe".to_owned(),
        whose: "half a".to_owned(),
        standing: standing.to_owned(),
        stands,
        cautions: vec!["1".to_owned(), "2".to_owned()],
        entries,
    };
    let mut document = fixture::final_drive().document();
    let blocks = vec![Block::Steps(vec![
        step("done", Stands::Done, vec![entry(7, "wiped", EntryMark::Corrected(9))]),
        step("OVERRIDDEN", Stands::Overridden, vec![entry(8, "so be it", EntryMark::Override)]),
        step("not done", Stands::Open, vec![entry(9, "wiped dry", EntryMark::Correction)]),
    ])];
    document.sections.push(Section { title: "Steps".to_owned(), start: Start::NewPage, blocks });
    let pages = pages(&document).unwrap();
    let (text, count) = (text(&pages), pages.pages().len());
    for said in [
        "Wipe, half a (cautions 1, 2)",
        "CORRECTED by event 9",
        "OVERRIDDEN So be it",
        "CORRECTION Wiped dry",
        "Caution.",
        "Nothing to correct in what was measured and compared.",
        &format!("page 2 of {count}"),
    ] {
        assert!(text.contains(&squeezed(said)), "{said}: {text}");
    }
}

/// What a language with a decimal comma prints; names stay.
#[test]
fn numbers_of_the_paper_follow_the_language() {
    let language =
        "language-tag = pl\ndecimal-sign = ,\nreport-page = strona { $page } z { $pages }\n";
    let other = Box::leak(Box::new(ringtrue_words::Words::of_file(language).unwrap()));
    let mut document = fixture::final_drive().document();
    document.cover.name = "gearbox 1.5".to_owned();
    let text = ringtrue_words::speaking(other, || text(&pages(&document).unwrap()));
    assert!(text.contains("strona2z"), "{text}");
    assert!(text.contains("gearbox1.5"), "{text}");
    assert!(text.contains("0,00") && !text.contains("0.00"), "{text}");
}

#[test]
fn digits_are_tabular_and_look_alikes_are_distinct_letters() {
    for font in world::fonts().unwrap() {
        let size = typst::layout::Abs::pt(10.0);
        let face = font.clone().instantiate(font.info().variant, size, &FontVariations::default());
        let glyph = |letter: char| face.ttf().glyph_index(letter).unwrap();
        let advance = |letter: char| face.ttf().glyph_hor_advance(glyph(letter)).unwrap();
        assert!(('0'..='9').all(|digit| advance(digit) == advance('0')));
        let outline = |letter: char| face.ttf().glyph_bounding_box(glyph(letter)).unwrap();
        for (a, b) in [('1', 'l'), ('l', 'I'), ('1', 'I'), ('0', 'O')] {
            assert_ne!(outline(a), outline(b), "{a} and {b}");
        }
    }
}

#[test]
fn nothing_but_template_and_data_can_be_read() {
    let world = World::new(world::fonts().unwrap(), b"{}".to_vec(), (&[], &[])).unwrap();
    let other = RootedPath::new(VirtualRoot::Project, VirtualPath::new("/etc/passwd").unwrap());
    assert!(world.file(other.clone().intern()).is_err());
    assert!(world.source(other.intern()).is_err());
    assert!(world.today(None).is_none());
}

#[test]
fn a_long_word_may_break_and_a_drawing_is_left_alone() {
    let mut value = json!({ "name": "x".repeat(50), "svg": "y".repeat(50) });
    legible(&mut value, &|_| true);
    assert_eq!(value["name"].as_str().unwrap().matches('\u{200b}').count(), 2);
    assert_eq!(value["svg"].as_str().unwrap(), "y".repeat(50));
}
