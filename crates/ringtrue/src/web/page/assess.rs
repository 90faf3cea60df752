//! What a step's form would come to if it were saved as it stands: drawn while it is filled in.

use std::sync::Arc;

use askama::Template;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use ringtrue_job::Curves;
use ringtrue_job::event::Place;
use ringtrue_job::job::StepState;
use ringtrue_report::{Block, Cell, Section};
use ringtrue_seal::definition::joint::Half;
use ringtrue_store::Store;

use super::frame::{Frame, units_of};
use super::step::Judged;
use super::{Shown, judged, step_form};
use crate::web::Shared;
use crate::web::act;
use crate::web::compute;
use crate::web::deed::SentDeed;
use crate::web::fields::Form;
use crate::web::session::Visitor;
use crate::web::trouble::Trouble;

#[derive(Template)]
#[template(path = "assessed.html")]
pub(crate) struct Assessed {
    frame: Frame,
    verdict: Option<Judged>,
    sections: Vec<Section>,
}

/// The fields are those of the step's own form, and `step` and `half` beside them.
pub(crate) async fn post(
    State(shared): State<Shared>,
    visitor: Visitor,
    headers: HeaderMap,
    (Path(id), Form(fields)): (Path<String>, Form),
) -> Result<Shown<Assessed>, Trouble> {
    let frame = Frame::of(&shared, Some(&visitor), &headers);
    let half = match fields.some("half") {
        Some(name) => {
            let half = Half::BOTH.into_iter().find(|known| known.name() == name);
            Some(half.ok_or_else(Trouble::not_found)?)
        }
        None => None,
    };
    let place = Place { step: fields.text("step").to_owned(), half };
    let (stores, units) = (Arc::clone(&shared.stores), frame.units);
    let assessed = move |store: &mut Store, curves: &dyn Curves| {
        let kept = stores.kept_here(store, &id)?;
        let step = kept.plan.step(&place).ok_or_else(Trouble::not_found)?;
        let given = step_form::given(step, &fields, units_of(&fields))?;
        let deed = SentDeed::Record { step: place.step.clone(), half, given };
        let would = act::would_be((store, curves), &kept, (&visitor, &deed))?;
        let last = would.job.steps.get(&place).and_then(StepState::verdict);
        let verdict = last.map(|last| Judged::of(last.verdict, last.summary.clone()));
        let sections = judged::of_step(&would, &place, (units, curves)).unwrap_or_default();
        Ok((verdict, sections))
    };
    let (verdict, sections) = compute::solved(&shared, None, assessed).await?;
    Ok(Shown(Assessed { frame, verdict, sections }))
}

#[cfg(test)]
mod tests {
    use ringtrue_metrology::conformity::Verdict;
    use ringtrue_metrology::units::System;
    use ringtrue_report::{Start, VerdictLine};

    use super::*;
    use crate::web::page::frame::Theme;
    use ringtrue_words::Words;

    /// No number of a page's sentences, lists, cautions and values keeps another language's sign.
    #[test]
    fn every_number_follows_the_language_file() {
        let said = || "It is 0.42 mm.".to_owned();
        let line = VerdictLine {
            verdict: Verdict::Conforms,
            question: said(),
            sentence: said(),
            value: "0.42 ± 0.05 mm".to_owned(),
            limit: "at most 0.42 mm".to_owned(),
            scale: None,
        };
        let blocks = vec![
            Block::Verdict(line),
            Block::Heading(said()),
            Block::Text(said()),
            Block::Small(said()),
            Block::List(vec![said()]),
            Block::Caution(said()),
            Block::Columns(vec![said()]),
        ];
        let comma = Words::of_file("language-tag = pl\ndecimal-sign = ,\n").unwrap();
        let frame = Frame {
            t: Box::leak(Box::new(comma)),
            who: None,
            keeps_people: false,
            csrf: String::new(),
            theme: Theme::System,
            units: System::Millimetre,
            idle_seconds: 0,
            here: String::new(),
            back: String::new(),
        };
        let verdict = Some(Judged::of(Verdict::Conforms, said()));
        let sections = vec![Section { title: String::new(), start: Start::NewPage, blocks }];
        let page = Assessed { frame, verdict, sections }.render().unwrap();
        assert!(!page.contains("0.42") && !page.contains("0.05"), "{page}");
        assert_eq!(page.matches("0,42").count(), 10, "{page}");
    }
}
