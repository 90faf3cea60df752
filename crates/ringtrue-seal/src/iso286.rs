//! Deviations of the ISO 286 classes whose position needs no table: h, H, js and JS.
//!
//! The table rules: its values are rounded, so they are not computed from the standard's formula.
//! ISO 286-1:2010 table 1, IT6 to IT11 up to 500 mm as in two public tables, IT12 to IT14 up to
//! 315 mm as in one; IT5, IT12 to IT14 above 315 mm and everything above 500 mm from memory.

use ringtrue_metrology::units::{Length, Quantity};
use ringtrue_words::say;
use uom::si::length::micrometer;

/// Why a class has no deviations here.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ClassError {
    /// The class is not one letter and a grade.
    #[error("{}", say!("fits-class-form", class = .0))]
    Form(String),
    /// The letter is one whose position needs another table.
    #[error("{}", say!("fits-class-letter", class = .0))]
    Letter(String),
    /// The grade is outside the table.
    #[error("{}", say!("fits-class-grade", grade = .0, first = FIRST_GRADE, last = LAST_GRADE))]
    Grade(u32),
    /// The size is outside the table.
    #[error("{}", say!("fits-class-size", largest = LARGEST_MM.to_string()))]
    Size,
}

/// Where a tolerance zone lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Position {
    /// h: at and below the nominal size.
    Below,
    /// H: at and above the nominal size.
    Above,
    /// js, JS: half on each side.
    Astride,
}

const FIRST_GRADE: u32 = 5;
const LAST_GRADE: u32 = 14;
const LARGEST_MM: f64 = 1250.0;

/// Upper end of each size step in mm, and IT5 to IT14 in it in micrometres.
const GRADES: [(f64, [f64; 10]); 17] = [
    (3.0, [4.0, 6.0, 10.0, 14.0, 25.0, 40.0, 60.0, 100.0, 140.0, 250.0]),
    (6.0, [5.0, 8.0, 12.0, 18.0, 30.0, 48.0, 75.0, 120.0, 180.0, 300.0]),
    (10.0, [6.0, 9.0, 15.0, 22.0, 36.0, 58.0, 90.0, 150.0, 220.0, 360.0]),
    (18.0, [8.0, 11.0, 18.0, 27.0, 43.0, 70.0, 110.0, 180.0, 270.0, 430.0]),
    (30.0, [9.0, 13.0, 21.0, 33.0, 52.0, 84.0, 130.0, 210.0, 330.0, 520.0]),
    (50.0, [11.0, 16.0, 25.0, 39.0, 62.0, 100.0, 160.0, 250.0, 390.0, 620.0]),
    (80.0, [13.0, 19.0, 30.0, 46.0, 74.0, 120.0, 190.0, 300.0, 460.0, 740.0]),
    (120.0, [15.0, 22.0, 35.0, 54.0, 87.0, 140.0, 220.0, 350.0, 540.0, 870.0]),
    (180.0, [18.0, 25.0, 40.0, 63.0, 100.0, 160.0, 250.0, 400.0, 630.0, 1000.0]),
    (250.0, [20.0, 29.0, 46.0, 72.0, 115.0, 185.0, 290.0, 460.0, 720.0, 1150.0]),
    (315.0, [23.0, 32.0, 52.0, 81.0, 130.0, 210.0, 320.0, 520.0, 810.0, 1300.0]),
    (400.0, [25.0, 36.0, 57.0, 89.0, 140.0, 230.0, 360.0, 570.0, 890.0, 1400.0]),
    (500.0, [27.0, 40.0, 63.0, 97.0, 155.0, 250.0, 400.0, 630.0, 970.0, 1550.0]),
    (630.0, [32.0, 44.0, 70.0, 110.0, 175.0, 280.0, 440.0, 700.0, 1100.0, 1750.0]),
    (800.0, [36.0, 50.0, 80.0, 125.0, 200.0, 320.0, 500.0, 800.0, 1250.0, 2000.0]),
    (1000.0, [40.0, 56.0, 90.0, 140.0, 230.0, 360.0, 560.0, 900.0, 1400.0, 2300.0]),
    (LARGEST_MM, [47.0, 66.0, 105.0, 165.0, 260.0, 420.0, 660.0, 1050.0, 1650.0, 2600.0]),
];

/// Upper and lower deviation of a class such as `h9`, `H8` or `js11` on a nominal size.
///
/// # Errors
/// [`ClassError`] when the class has another letter, or grade or size are outside the table.
pub fn deviations(class: &str, nominal: Length) -> Result<(Length, Length), ClassError> {
    let (position, grade) = parse(class)?;
    let width = grade_width(grade, nominal)?;
    let zero = Length::new::<micrometer>(0.0);
    Ok(match position {
        Position::Below => (zero, -width),
        Position::Above => (width, zero),
        Position::Astride => (width / 2.0, -width / 2.0),
    })
}

/// Is this the form of a class in the table (letter and grade), whatever the size?
///
/// # Errors
/// [`ClassError`] when it is not.
pub fn check_form(class: &str) -> Result<(), ClassError> {
    parse(class).map(|_| ())
}

/// The standard tolerance ITn of a nominal size.
///
/// # Errors
/// [`ClassError::Grade`] or [`ClassError::Size`] outside the table.
pub fn grade_width(grade: u32, nominal: Length) -> Result<Length, ClassError> {
    let column = grade.checked_sub(FIRST_GRADE).filter(|_| grade <= LAST_GRADE);
    let column = column.ok_or(ClassError::Grade(grade))? as usize;
    let mm = nominal.si() * 1e3;
    if mm <= 0.0 {
        return Err(ClassError::Size);
    }
    // A size that is a step's end in mm may miss it by a rounding of metres.
    let step = GRADES.iter().find(|(end, _)| mm <= end * (1.0 + 1e-12));
    let (_, widths) = step.ok_or(ClassError::Size)?;
    Ok(Length::new::<micrometer>(widths[column]))
}

fn parse(class: &str) -> Result<(Position, u32), ClassError> {
    let class = class.trim();
    let form = || ClassError::Form(class.chars().take(16).collect());
    let digits = class.find(|c: char| c.is_ascii_digit()).ok_or_else(form)?;
    let (letter, grade) = class.split_at(digits);
    let grade = grade.trim().parse::<u32>().map_err(|_| form())?;
    let position = match letter.trim() {
        "h" => Position::Below,
        "H" => Position::Above,
        "js" | "JS" => Position::Astride,
        "" => return Err(form()),
        _ => return Err(ClassError::Letter(class.chars().take(16).collect())),
    };
    if !(FIRST_GRADE..=LAST_GRADE).contains(&grade) {
        return Err(ClassError::Grade(grade));
    }
    Ok((position, grade))
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::length::millimeter;

    fn um(class: &str, mm: f64) -> (f64, f64) {
        let (upper, lower) = deviations(class, Length::new::<millimeter>(mm)).unwrap();
        ((upper.si() * 1e6).round(), (lower.si() * 1e6).round())
    }

    #[test]
    fn zones_lie_where_their_letter_says() {
        // ISO 286-2 limits, as in public tables: 120 H7 +35/0; 400 h6 0/-36.
        assert_eq!(um("H7", 120.0), (35.0, 0.0));
        assert_eq!(um("h6", 400.0), (0.0, -36.0));
        assert_eq!(um("js11", 250.0), (145.0, -145.0));
        assert_eq!(um("JS 10", 18.0), (35.0, -35.0));
    }

    #[test]
    fn a_step_includes_its_upper_end() {
        assert_eq!(um("H7", 80.0), (30.0, 0.0));
        assert_eq!(um("H7", 80.001), (35.0, 0.0));
    }

    #[test]
    fn what_is_not_in_the_table_is_refused() {
        let at = |class: &str, mm: f64| deviations(class, Length::new::<millimeter>(mm));
        assert!(matches!(at("g6", 50.0), Err(ClassError::Letter(_))));
        assert!(matches!(at("7", 50.0), Err(ClassError::Form(_))));
        assert!(matches!(at("h", 50.0), Err(ClassError::Form(_))));
        assert!(matches!(at("H99999999999", 50.0), Err(ClassError::Form(_))));
        assert!(matches!(at("H4", 50.0), Err(ClassError::Grade(4))));
        assert!(matches!(at("H7", 1250.1), Err(ClassError::Size)));
        assert!(matches!(at("H7", 0.0), Err(ClassError::Size)));
    }
}
