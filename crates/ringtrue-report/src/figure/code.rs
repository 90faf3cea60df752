//! A text as a QR code (ISO/IEC 18004), for a camera.

use ringtrue_words::say;

use qrcode::{Color, EcLevel, QrCode};

use super::Drawing;
use super::style;
use super::svg::Canvas;

/// Width of a module, mm: a telephone reads it at arm's length.
const MODULE: f64 = 0.5;
/// Light modules that the standard wants round a code.
const QUIET: usize = 4;

/// Draws a text; `None` where it is too long for a code.
pub(crate) fn draw(name: &str, what: &str, text: &str) -> Option<Drawing> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M).ok()?;
    let modules = code.width();
    let side = (modules + 2 * QUIET) as f64 * MODULE;
    let mut canvas = Canvas::new(side, side);
    canvas.rectangle((0.0, 0.0), (side, side), (style::PAPER, None));
    let colours = code.to_colors();
    let dark = |row: usize, column: usize| colours[row * modules + column] == Color::Dark;
    for row in 0..modules {
        // Dark neighbours in a row are one bar: no hairlines between them.
        let mut column = 0;
        while column < modules {
            let length = (column..modules).take_while(|at| dark(row, *at)).count();
            if length > 0 {
                let corner = ((column + QUIET) as f64 * MODULE, (row + QUIET) as f64 * MODULE);
                let size = (length as f64 * MODULE, MODULE);
                canvas.rectangle(corner, size, (CODE, None));
            }
            column += length.max(1);
        }
    }
    let alt = say!("figure-code-alt", what, text);
    Some(Drawing::new(name.to_owned(), say!("figure-code-title", what), alt, (side, canvas)))
}

/// Dark modules: as dark as print can be.
const CODE: &str = "#000000";

#[cfg(test)]
mod tests {
    use super::*;

    /// The modules of a drawing, read back from its bars.
    fn modules(svg: &str) -> Vec<Vec<bool>> {
        let tree = roxmltree::Document::parse(svg).unwrap();
        let at = |mm: &str| (mm.parse::<f64>().unwrap() / MODULE).round() as usize;
        let bars: Vec<_> = tree
            .descendants()
            .filter(|node| node.attribute("fill") == Some(CODE))
            .map(|node| {
                let points = node.attribute("points").unwrap();
                let points: Vec<[usize; 2]> = points
                    .split_whitespace()
                    .map(|point| point.split_once(',').unwrap())
                    .map(|(x, y)| [at(x), at(y)])
                    .collect();
                (points[0][0], points[0][1], points[1][0] - points[0][0])
            })
            .collect();
        let side = bars.iter().map(|(x, _, length)| x + length).max().unwrap() - QUIET;
        let mut grid = vec![vec![false; side]; side];
        for (x, y, length) in bars {
            for column in x..x + length {
                grid[y - QUIET][column - QUIET] = true;
            }
        }
        grid
    }

    #[test]
    fn what_is_drawn_is_read_back_as_the_same_text() {
        let hash = "0123456789abcdef".repeat(4);
        for text in ["a", "20261125-ABCDE 94 events", hash.as_str(), &hash.repeat(3)] {
            let drawing = draw("code", "a text", text).unwrap();
            let grid = modules(&drawing.svg);
            let found = rqrr::SimpleGrid::from_func(grid.len(), |x, y| grid[y][x]);
            let (_, read) = rqrr::Grid::new(found).decode().unwrap();
            assert_eq!(read, text);
            assert!(drawing.alt.contains(text));
        }
        assert!(draw("code", "a text", &"x".repeat(3000)).is_none());
    }
}
