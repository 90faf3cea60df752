//! What chilling gives, and when the joint may be closed.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, duration_text, fixed};
use ringtrue_seal::chilling::{Course, Moisture, Outcome};

use super::sentence;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::chilling;
use crate::reader::{COVERAGE_FACTOR, Reader, heat, percent};

/// Stands before the step.
pub(super) const CAUTION: &str = "Deep cold burns skin on touch: insulating gloves and eye shield. \
    Dry ice and cold gases drive out the air: never in a closed room, car or sealed box. The seal \
    maker's instruction and the safety data sheet of a cold liquid stand before this page.";

/// The verdict on chilling this material so far.
pub(super) fn line(outcome: &Outcome, reader: Reader) -> VerdictLine {
    let said = match outcome.verdict {
        Verdict::Conforms => "This toric may be chilled so far.",
        Verdict::NotProven => "The family's figures do not prove it: the data sheet decides.",
        Verdict::DoesNotConform => "This toric may not be chilled so far.",
    };
    let mounted = &outcome.mounted;
    let contraction =
        reader.uncertain(mounted.contraction_mm, Some(mounted.contraction_standard_uncertainty_mm));
    VerdictLine {
        verdict: outcome.verdict,
        question: format!("chilling to {}", heat::temperature(outcome.cold_degc, reader.system)),
        sentence: said.to_owned(),
        value: format!("{contraction} at the lip, on its ring"),
        limit: "seal's instruction and material".to_owned(),
        scale: None,
    }
}

/// What to do before the joint is closed.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    if outcome.verdict == Verdict::DoesNotConform {
        return vec!["Do not chill this toric so far.".to_owned()];
    }
    let mut deeds = vec![format!(
        "Do not close before core and ring are within 2 K of the room: about {} after a toric cold \
         all through.",
        duration_text(outcome.mounted.rewarm_time_s)
    )];
    if outcome.moisture != Moisture::Dry {
        deeds.push(
            "Chill it in a closed bag; wipe toric and ramps dry before they meet.".to_owned(),
        );
    }
    deeds
}

/// The pages of chilling.
pub(super) fn section(outcome: &Outcome, reader: Reader) -> Section {
    let rule = &outcome.shop_rule;
    let blocks = vec![
        Block::Caution(CAUTION.to_owned()),
        Block::Verdict(line(outcome, reader)),
        Block::Drawings(vec![vec![chilling::draw("chilling", outcome, reader)]]),
        Block::Tables(vec![courses(outcome, reader)]),
        Block::Small(if outcome.ring_assumed {
            "No ring was given: the toric is taken to sit unstretched on one of two to five times \
             its volume."
                .to_owned()
        } else {
            "On its ring: the hoop follows the metal, and the metal's heat goes the same way."
                .to_owned()
        }),
        Block::Text(moisture(outcome, reader)),
        Block::Text(format!(
            "Shop rule: {} ({}). Here five minutes reach {} of the contraction alone and {} on the \
             ring; the mean of the toric alone is then {} ± {} K.",
            rule.words,
            rule.source,
            percent(rule.share_free),
            percent(rule.share_mounted),
            heat::temperature(outcome.mean_temperature_degc_after_5_min, reader.system),
            fixed(COVERAGE_FACTOR * outcome.mean_temperature_standard_uncertainty_k, 1)
        )),
        Block::Heading("What to do".to_owned()),
        Block::List(deeds(outcome)),
        Block::Heading("May it be chilled?".to_owned()),
        Block::Tables(vec![findings(outcome)]),
        Block::Heading("Ranges behind the uncertainty".to_owned()),
        Block::Tables(vec![figures(outcome)]),
    ];
    Section { title: "Chilling".to_owned(), start: Start::NewPage, blocks }
}

fn courses(outcome: &Outcome, reader: Reader) -> Table {
    let mut table = Table::new([
        ("", Set::Words),
        ("toric alone", Set::Numbers),
        ("on its ring", Set::Numbers),
    ]);
    let both = [&outcome.free, &outcome.mounted];
    let mut row = |name: &str, of: &dyn Fn(&Course) -> String| {
        let [free, mounted] = both.map(of);
        table.row([Cell::text(name), Cell::text(free), Cell::text(mounted)]);
    };
    row("smaller at the lip by", &|course| {
        reader.uncertain(course.contraction_mm, Some(course.contraction_standard_uncertainty_mm))
    });
    row("95 % of it after", &|course| {
        time(course.time_to_95_percent_s, course.time_to_95_percent_standard_uncertainty_s)
    });
    row("in the room, half of it lost after", &|course| {
        time(course.working_time_s, course.working_time_standard_uncertainty_s)
    });
    row("in the room, core and ring within 2 K after", &|course| {
        time(course.rewarm_time_s, course.rewarm_time_standard_uncertainty_s)
    });
    row("in the room, takes up water for", &|course| {
        course.dew_until_s.map_or("no time".to_owned(), duration_text)
    });
    if let Some(lip) = outcome.lip {
        let [room, cold] = [lip.interference_mm, lip.interference_cold_mm]
            .map(|mm| reader.length(mm, reader.workshop_decimals()));
        let cell = format!("{room}, cold {cold}");
        table.row([Cell::text("wider than the lip by"), Cell::text(""), Cell::text(cell)]);
    }
    table
}

fn time(seconds: f64, standard_uncertainty: f64) -> String {
    let minutes = seconds / 60.0;
    let u = standard_uncertainty / 60.0;
    let decimals = decimals_for(Some(u), 0);
    format!("{} ± {} min", fixed(minutes, decimals), fixed(COVERAGE_FACTOR * u, decimals))
}

fn moisture(outcome: &Outcome, reader: Reader) -> String {
    let point = outcome.dew_point_degc.map_or("it holds no water".to_owned(), |point| {
        format!("its dew point is {}", heat::temperature(point, reader.system))
    });
    let words = match outcome.moisture {
        Moisture::Dry => "nothing forms on the cold toric",
        Moisture::Marginal => "the cold toric is within a kelvin of it and may be wet",
        Moisture::Dew => "dew forms on the cold toric",
        Moisture::Frost => "frost forms on the cold toric and melts to water",
    };
    format!(
        "The room's air has {} and {} of humidity; {point}: {words}.",
        heat::temperature(outcome.room_degc, reader.system),
        percent(outcome.humidity_fraction)
    )
}

fn findings(outcome: &Outcome) -> Table {
    let mut table = Table::new([
        ("Verdict", Set::Words),
        ("Compared", Set::Prose),
        ("Found", Set::Prose),
        ("What fits", Set::Prose),
    ]);
    for finding in &outcome.findings {
        table.row([
            Cell::Verdict(finding.verdict),
            Cell::text(finding.what.clone()),
            Cell::text(finding.found.clone()),
            Cell::text(sentence(&finding.fits)),
        ]);
    }
    table
}

fn figures(outcome: &Outcome) -> Table {
    let mut table = Table::new([
        ("Figure", Set::Words),
        ("from", Set::Numbers),
        ("to", Set::Numbers),
        ("unit", Set::Words),
        ("source", Set::Prose),
    ]);
    for figure in &outcome.figures {
        table.row([
            Cell::text(figure.what),
            Cell::text(figure.low.to_string()),
            Cell::text(figure.high.to_string()),
            Cell::text(figure.unit),
            Cell::text(figure.source.clone()),
        ]);
    }
    table
}
