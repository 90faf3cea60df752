//! Rust source with comments and the insides of strings blanked, so that a rule looks at code only.

use std::ops::Range;

/// The source with every comment and every string's inside replaced by spaces.
///
/// Lines and columns (in characters) stay where they were.
pub(crate) fn code_only(source: &str) -> Vec<char> {
    let text: Vec<char> = source.chars().collect();
    let mut out = text.clone();
    let mut at = 0;
    while at < text.len() {
        let end = match text[at] {
            '/' if text.get(at + 1) == Some(&'/') => line_end(&text, at),
            '/' if text.get(at + 1) == Some(&'*') => block_comment_end(&text, at),
            '"' => string_end(&text, at),
            'r' | 'b' | 'c' if !is_word_before(&text, at) => literal_end(&text, at),
            '\'' => char_end(&text, at),
            _ => at + 1,
        };
        if end > at + 1 {
            blank(&mut out, at..end);
        }
        at = end;
    }
    out
}

/// Is this a character of an identifier?
pub(crate) fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

fn blank(out: &mut [char], range: Range<usize>) {
    for c in &mut out[range] {
        if *c != '\n' {
            *c = ' ';
        }
    }
}

fn is_word_before(text: &[char], at: usize) -> bool {
    at > 0 && is_word(text[at - 1])
}

fn line_end(text: &[char], at: usize) -> usize {
    text[at..].iter().position(|&c| c == '\n').map_or(text.len(), |length| at + length)
}

fn block_comment_end(text: &[char], at: usize) -> usize {
    let (mut depth, mut i) = (0_usize, at);
    while i < text.len() {
        match (text[i], text.get(i + 1)) {
            ('/', Some('*')) => {
                depth += 1;
                i += 2;
            }
            ('*', Some('/')) => {
                depth -= 1;
                i += 2;
                if depth == 0 {
                    return i;
                }
            }
            _ => i += 1,
        }
    }
    text.len()
}

/// From an opening quote to behind the closing one.
fn string_end(text: &[char], at: usize) -> usize {
    let mut i = at + 1;
    while i < text.len() {
        match text[i] {
            '\\' => i += 2,
            '"' => return i + 1,
            _ => i += 1,
        }
    }
    text.len()
}

/// Raw, byte and C strings and byte characters; any other word gives its first character back.
fn literal_end(text: &[char], at: usize) -> usize {
    let mut i = at;
    if matches!(text[i], 'b' | 'c') {
        i += 1;
    }
    if text.get(i) == Some(&'r') {
        let hashes = text[i + 1..].iter().take_while(|&&c| c == '#').count();
        if text.get(i + 1 + hashes) == Some(&'"') {
            return raw_string_end(text, i + 2 + hashes, hashes);
        }
        return at + 1;
    }
    match text.get(i) {
        Some('"') if i > at => string_end(text, i),
        Some('\'') if i > at => char_end(text, i),
        _ => at + 1,
    }
}

fn raw_string_end(text: &[char], from: usize, hashes: usize) -> usize {
    let closes = |i: usize| {
        text[i] == '"' && text[i + 1..].iter().take_while(|&&c| c == '#').count() >= hashes
    };
    (from..text.len()).find(|&i| closes(i)).map_or(text.len(), |i| i + 1 + hashes)
}

/// A character literal; a lifetime gives its tick back.
fn char_end(text: &[char], at: usize) -> usize {
    match (text.get(at + 1), text.get(at + 2)) {
        (Some('\\'), _) => {
            let rest = text.get(at + 3..).unwrap_or_default();
            let closing = rest.iter().position(|&c| c == '\'');
            closing.map_or(text.len(), |length| at + 4 + length)
        }
        (Some(_), Some('\'')) => at + 3,
        _ => at + 1,
    }
}

#[cfg(test)]
mod tests {
    use super::code_only;

    fn masked(source: &str) -> String {
        code_only(source).into_iter().collect()
    }

    #[test]
    fn comments_and_strings_go_and_code_stays() {
        assert_eq!(masked("a // unsafe\nb"), "a          \nb");
        assert_eq!(masked("a /* x /* y */ z */ b").replace(' ', ""), "ab");
        assert_eq!(masked(r#"f("un\"wrap()", g)"#).replace(' ', ""), "f(,g)");
        assert_eq!(masked(r##"f(r#"a "quoted" {"#, g)"##).replace(' ', ""), "f(,g)");
        assert_eq!(masked(r#"f(b"{", c"{", br"{", b'{')"#).replace(' ', ""), "f(,,,)");
    }

    #[test]
    fn characters_go_and_lifetimes_stay() {
        assert_eq!(masked("m('{', '\\'', '\\u{7b}')").replace(' ', ""), "m(,,)");
        assert_eq!(masked("fn f<'a>(x: &'a str) {}"), "fn f<'a>(x: &'a str) {}");
        assert_eq!(masked("'outer: loop { break 'outer; }"), "'outer: loop { break 'outer; }");
    }

    #[test]
    fn lines_and_columns_stay() {
        let source = "a(\"é\nü\") /* ö\n */ b";
        let masked = masked(source);
        assert_eq!(masked.chars().count(), source.chars().count());
        assert_eq!(masked.lines().count(), source.lines().count());
        assert!(masked.ends_with('b'));
    }

    #[test]
    fn an_open_end_is_no_trouble() {
        for source in ["\"", "r#\"", "/*", "'\\", "b'", "r", "'"] {
            assert_eq!(code_only(source).len(), source.chars().count());
        }
    }
}
