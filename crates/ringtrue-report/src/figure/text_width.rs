//! How wide a text will be, so that labels keep clear of each other.

/// Advance widths of the shipped regular face for U+0020 to U+007E, in thousandths of the size.
#[rustfmt::skip]
const ADVANCES: [u16; 95] = [
    280, 286, 301, 651, 592, 919, 731, 160, 299, 299, 485, 606, 210, 362, 210, 387,
    632, 632, 632, 632, 632, 632, 632, 632, 632, 632, 210, 210, 553, 628, 553, 480,
    778, 626, 613, 645, 669, 569, 552, 694, 694, 392, 512, 631, 541, 824, 693, 714,
    592, 724, 614, 592, 558, 690, 593, 856, 623, 575, 607, 317, 387, 344, 552, 372,
    243, 525, 566, 485, 564, 538, 314, 558, 550, 252, 245, 492, 262, 845, 550, 548,
    566, 574, 349, 471, 326, 540, 461, 684, 481, 449, 460, 344, 237, 344, 555,
];

/// The bold face's letters are wider by up to this factor; its digits are as wide.
const BOLD: f64 = 1.07;

/// Width of a text in the unit of `size`. Letters outside ASCII count as 0.65 em, those of wide
/// scripts as 1 em.
pub(crate) fn width(text: &str, size: f64, weight: super::svg::Weight) -> f64 {
    let thousandths: f64 = text.chars().map(advance).sum();
    let factor = match weight {
        super::svg::Weight::Regular => 1.0,
        super::svg::Weight::Bold => BOLD,
    };
    thousandths / 1000.0 * size * factor
}

fn advance(letter: char) -> f64 {
    let code = letter as usize;
    match code {
        0x20..=0x7e => f64::from(ADVANCES[code - 0x20]),
        0x1100.. if !(0x2000..0x2e80).contains(&code) => 1000.0,
        _ => 650.0,
    }
}

/// The text, cut with an ellipsis where it is wider than `most`.
pub(crate) fn cut(text: &str, size: f64, weight: super::svg::Weight, most: f64) -> String {
    if width(text, size, weight) <= most {
        return text.to_owned();
    }
    let mut kept = String::new();
    for letter in text.chars() {
        kept.push(letter);
        if width(&kept, size, weight) + size > most {
            break;
        }
    }
    kept.pop();
    format!("{}\u{2026}", kept.trim_end())
}
