//! One list of sources from those of several questions: what is cited twice stands once.

use ringtrue_words::say;

/// The sources in their order. One whose citation stands in another with the same standing is left
/// out; of two that cite the same pages of a journal the longer stays.
pub(crate) fn merged(all: impl Iterator<Item = String>) -> Vec<String> {
    let mut kept: Vec<String> = Vec::new();
    for source in all {
        if kept.iter().any(|known| says(known, &source)) {
            continue;
        }
        // The place in the list is that of the first one that is said by this one.
        match kept.iter().position(|known| says(&source, known)) {
            Some(place) => {
                kept[place].clone_from(&source);
                let mut at = 0..;
                kept.retain(|known| at.next() <= Some(place) || !says(&source, known));
            }
            None => kept.push(source),
        }
    }
    kept
}

/// Does the first say all that the second cites?
fn says(long: &str, short: &str) -> bool {
    let ((long_text, long_mark), (short_text, short_mark)) = (parts(long), parts(short));
    if long_mark != short_mark || citation(short_text).is_empty() {
        return false;
    }
    let same_pages = pages(long_text).is_some_and(|place| pages(short_text) == Some(place));
    let cited = |(at, _): (usize, &str)| {
        let after = long_text[at + citation(short_text).len()..].chars().next();
        !after.is_some_and(char::is_alphanumeric)
    };
    (same_pages && long_text.len() >= short_text.len())
        || long_text.match_indices(citation(short_text)).any(cited)
}

/// A source and the mark that says how it is known.
fn parts(source: &str) -> (&str, String) {
    // Marks stand behind what they mark, in whatever language.
    let marks = [say!("source-common-practice", what = ""), say!("source-from-memory", cite = "")];
    let found =
        marks.into_iter().find_map(|mark| Some((source.strip_suffix(mark.as_str())?, mark)));
    found.unwrap_or((source, String::new()))
}

/// What is cited, without the word or two that say for what: `mounted toric: ...`.
fn citation(text: &str) -> &str {
    match text.split_once(": ") {
        Some((lead, rest))
            if lead.split(' ').count() <= 2
                && lead.chars().all(|c| c.is_ascii_lowercase() || c == ' ') =>
        {
            rest
        }
        Some(_) | None => text,
    }
}

/// Volume, year and pages of an article: `34 (1958) 46-57`.
fn pages(text: &str) -> Option<&str> {
    text.match_indices(" (").find_map(|(at, _)| {
        let is_number = |c: char| c.is_ascii_digit();
        let from = text[..at].trim_end_matches(is_number).len();
        let (year, rest) = text[at + 2..].split_once(") ")?;
        let long = rest.find(|c: char| !is_number(c) && c != '-').unwrap_or(rest.len());
        let is_article = from < at
            && year.len() == 4
            && year.chars().all(is_number)
            && rest[..long].contains('-');
        is_article.then(|| &text[from..at + 2 + year.len() + 2 + long])
    })
}

#[cfg(test)]
mod tests {
    use super::merged;

    fn of(all: &[&str]) -> Vec<String> {
        merged(all.iter().map(ToString::to_string))
    }

    #[test]
    fn what_is_cited_twice_stands_once_and_in_full() {
        let ring = "mounted toric: constant volume (Pappus) (common practice, no source)";
        let full = "constant volume (Pappus), as handbooks: d2 kept (common practice, no source)";
        assert_eq!(of(&[ring, full, ring]), [full]);
        assert_eq!(of(&[full, "JCGM 106", ring]), [full, "JCGM 106"]);
        let longer = "A. N. Gent, Trans. 34 (1958) 46-57, and log10 E: modulus from hardness";
        assert_eq!(of(&[longer, "A. N. Gent, Relation, Trans. 34 (1958) 46-57"]), [longer]);
    }

    #[test]
    fn what_differs_stays() {
        let all = [
            "JCGM 106:2012, clause 7",
            "JCGM 106:2012, clause 70",
            "ISO 37 (from memory)",
            "ISO 37: elongation",
            "A. N. Gent, Trans. 34 (1958) 46-57",
            "A. N. Gent, Proc. 173 (1959) 111-122",
            "ISO 4287:1997",
        ];
        assert_eq!(of(&all), all);
    }
}
