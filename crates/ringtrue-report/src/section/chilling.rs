//! What chilling gives, and when the joint may be closed.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{decimals_for, duration_text, fixed};
use ringtrue_seal::chilling::{Course, Moisture, Outcome};
use ringtrue_words::say;

use super::sentence;
use crate::document::{Block, Cell, Section, Set, Start, Table, VerdictLine};
use crate::figure::chilling;
use crate::reader::{COVERAGE_FACTOR, Reader, heat, percent};

/// The verdict on chilling this material so cold.
pub(super) fn line(outcome: &Outcome, reader: Reader) -> VerdictLine {
    let mounted = &outcome.mounted;
    let contraction =
        reader.uncertain(mounted.contraction_mm, Some(mounted.contraction_standard_uncertainty_mm));
    VerdictLine {
        verdict: outcome.verdict,
        question: say!(
            "report-chill-question",
            cold = heat::temperature(outcome.cold_degc, reader.system)
        ),
        sentence: headline(outcome).to_owned(),
        value: say!("report-chill-contraction", contraction),
        limit: say!("report-chill-limit").to_owned(),
        scale: None,
    }
}

/// What the worst of the findings says, in a sentence.
fn headline(outcome: &Outcome) -> &'static str {
    let of = &outcome.judged;
    let worst = outcome.verdict;
    match worst {
        Verdict::Conforms if of.since.is_some() => say!("report-chill-is-warm-again"),
        Verdict::Conforms => say!("report-chill-may-be"),
        Verdict::DoesNotConform if of.forbidden => say!("report-chill-file-forbids"),
        Verdict::DoesNotConform if of.cold == worst => say!("report-chill-may-not"),
        Verdict::NotProven if of.cold == worst => say!("report-chill-not-proven"),
        Verdict::DoesNotConform if of.in_cold == Some(worst) => say!("report-chill-too-short"),
        Verdict::NotProven if of.in_cold == Some(worst) => say!("report-chill-perhaps-too-short"),
        Verdict::DoesNotConform => say!("report-chill-not-warm"),
        Verdict::NotProven => say!("report-chill-perhaps-not-warm"),
    }
}

/// What to do before the joint is closed.
pub(super) fn deeds(outcome: &Outcome) -> Vec<String> {
    let of = &outcome.judged;
    if of.forbidden {
        return vec![say!("report-chill-do-not-by-file").to_owned()];
    }
    if of.cold == Verdict::DoesNotConform {
        return vec![say!("report-chill-do-not").to_owned()];
    }
    let mut deeds = Vec::new();
    if of.cold == Verdict::NotProven {
        deeds.push(say!("report-chill-ask-data-sheet").to_owned());
    }
    let mounted = &outcome.mounted;
    if of.in_cold.is_some_and(|verdict| verdict != Verdict::Conforms) {
        let through =
            time(mounted.time_to_95_percent_s, mounted.time_to_95_percent_standard_uncertainty_s);
        deeds.push(say!("report-chill-leave-in-cold", through));
    }
    match of.since {
        Some(Verdict::Conforms) => {}
        Some(Verdict::NotProven | Verdict::DoesNotConform) => {
            let warm = time(mounted.rewarm_time_s, mounted.rewarm_time_standard_uncertainty_s);
            deeds.push(say!("report-chill-leave-in-room", warm));
        }
        None => {
            deeds.push(say!("report-chill-wait", wait = duration_text(mounted.rewarm_time_s)));
        }
    }
    if outcome.moisture != Moisture::Dry {
        deeds.push(say!("report-chill-in-a-bag").to_owned());
    }
    deeds
}

/// The pages of chilling.
pub(super) fn section(outcome: &Outcome, reader: Reader) -> Section {
    let rule = &outcome.shop_rule;
    let blocks = vec![
        Block::Caution(say!("report-chill-caution").to_owned()),
        Block::Verdict(line(outcome, reader)),
        Block::Drawings(vec![vec![chilling::draw("chilling", outcome, reader)]]),
        Block::Tables(vec![courses(outcome, reader)]),
        Block::Small(if outcome.ring_assumed {
            say!("report-chill-ring-assumed").to_owned()
        } else {
            say!("report-chill-ring-given").to_owned()
        }),
        Block::Text(moisture(outcome, reader)),
        Block::Text(say!(
            "report-chill-shop-rule",
            rule = rule.words,
            source = rule.source,
            alone = percent(rule.share_free),
            on_ring = percent(rule.share_mounted),
            mean = heat::temperature(outcome.mean_temperature_degc_after_5_min, reader.system),
            expanded = fixed(COVERAGE_FACTOR * outcome.mean_temperature_standard_uncertainty_k, 1)
        )),
        Block::Heading(say!("report-what-to-do").to_owned()),
        Block::List(deeds(outcome)),
        Block::Heading(say!("report-chill-may-it-be-chilled").to_owned()),
        Block::Tables(vec![findings(outcome)]),
        Block::Heading(say!("report-chill-ranges-behind-uncertainty").to_owned()),
        Block::Tables(vec![figures(outcome)]),
    ];
    Section { title: say!("report-chill-title").to_owned(), start: Start::NewPage, blocks }
}

fn courses(outcome: &Outcome, reader: Reader) -> Table {
    let mut table = Table::new([
        ("", Set::Words),
        (say!("report-chill-toric-alone"), Set::Numbers),
        (say!("report-chill-on-ring"), Set::Numbers),
    ]);
    let both = [&outcome.free, &outcome.mounted];
    let mut row = |name: &str, of: &dyn Fn(&Course) -> String| {
        let [free, mounted] = both.map(of);
        table.row([Cell::text(name), Cell::text(free), Cell::text(mounted)]);
    };
    row(say!("report-chill-smaller-at-lip-by"), &|course| {
        reader.uncertain(course.contraction_mm, Some(course.contraction_standard_uncertainty_mm))
    });
    row(say!("report-chill-95-after"), &|course| {
        time(course.time_to_95_percent_s, course.time_to_95_percent_standard_uncertainty_s)
    });
    row(say!("report-chill-in-room-half-lost-after"), &|course| {
        time(course.working_time_s, course.working_time_standard_uncertainty_s)
    });
    row(say!("report-chill-in-room-within-2-k"), &|course| {
        time(course.rewarm_time_s, course.rewarm_time_standard_uncertainty_s)
    });
    row(say!("report-chill-in-room-takes-up-water-for"), &|course| {
        course.dew_until_s.map_or(say!("report-chill-no-time").to_owned(), duration_text)
    });
    if let Some(lip) = outcome.lip {
        let [room, cold] = [lip.interference_mm, lip.interference_cold_mm]
            .map(|mm| reader.length(mm, reader.workshop_decimals()));
        let cell = say!("report-chill-cold", room, cold);
        table.row([
            Cell::text(say!("report-chill-wider-than-lip-by")),
            Cell::text(""),
            Cell::text(cell),
        ]);
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
    let room = heat::temperature(outcome.room_degc, reader.system);
    let humidity = percent(outcome.humidity_fraction);
    let air = match outcome.dew_point_degc {
        Some(point) => {
            let point = heat::temperature(point, reader.system);
            say!("report-chill-air", room, humidity, point)
        }
        None => say!("report-chill-air-without-water", room, humidity),
    };
    let forms = match outcome.moisture {
        Moisture::Dry => say!("report-chill-nothing-forms"),
        Moisture::Marginal => say!("report-chill-may-be-wet"),
        Moisture::Dew => say!("report-chill-dew-forms"),
        Moisture::Frost => say!("report-chill-frost-forms"),
    };
    say!("report-chill-air-and-toric", air, forms)
}

fn findings(outcome: &Outcome) -> Table {
    let mut table = Table::new([
        (say!("report-verdict"), Set::Words),
        (say!("report-compared"), Set::Prose),
        (say!("report-found"), Set::Prose),
        (say!("report-what-fits"), Set::Prose),
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
        (say!("report-figure"), Set::Words),
        (say!("report-chill-from"), Set::Numbers),
        (say!("report-chill-to"), Set::Numbers),
        (say!("report-chill-unit"), Set::Words),
        (say!("report-source"), Set::Prose),
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
