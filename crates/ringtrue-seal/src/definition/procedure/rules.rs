//! What a procedure's steps must keep among themselves.

use ringtrue_metrology::units::clip;
use ringtrue_words::say;

use super::{
    DecidedBy, Evidence, EvidenceKind, Gate, Hazard, HoldPoint, LimitKey, LoadRingType, Need,
    Procedure, ReadingSet, Rule, Stage, Step, Times,
};
use crate::definition::misfit::some_text;
use crate::definition::{Definition, Kind, Misfit};

/// Most steps of a procedure.
const MOST_STEPS: usize = 120;
/// Most things that one step records.
const MOST_EVIDENCE: usize = 20;
/// Longest what, why or caution, in characters: what is still read with gloves on.
const LONGEST_PARAGRAPH: usize = 600;
/// Longest id of a step or name of a piece of evidence, in characters.
const LONGEST_ID: usize = 40;

impl Definition for Procedure {
    const KIND: Kind = Kind::Procedure;

    fn consistent(&self) -> Result<(), Misfit> {
        some_text("name", &self.name)?;
        some_text("version", &self.version)?;
        some_text("origin", &self.origin)?;
        for (index, caution) in self.caution.iter().enumerate() {
            let path = format!("caution[{}]", index + 1);
            paragraph(&format!("{path}.text"), &caution.text)?;
            if self.caution[..index].iter().any(|other| other.hazard == caution.hazard) {
                let found =
                    say!("definition-procedure-second-caution", hazard = caution.hazard.name());
                return Err(Misfit::at(
                    format!("{path}.hazard"),
                    found,
                    say!("definition-procedure-one-caution-wanted"),
                ));
            }
        }
        if !(1..=MOST_STEPS).contains(&self.step.len()) {
            let found = say!("definition-procedure-of-steps", steps = self.step.len());
            return Err(Misfit::at(
                "step",
                found,
                say!("definition-procedure-steps-wanted", most = MOST_STEPS),
            ));
        }
        for (index, step) in self.step.iter().enumerate() {
            let path = format!("step[{}]", index + 1);
            one_step(self, step).map_err(|misfit| misfit.under(&path))?;
            after(&self.step[..index], step).map_err(|misfit| misfit.under(&path))?;
        }
        hold_points(self)
    }
}

/// What a step must keep by itself.
fn one_step(procedure: &Procedure, step: &Step) -> Result<(), Misfit> {
    id("id", &step.id)?;
    some_text("title", &step.title)?;
    paragraph("what", &step.what)?;
    paragraph("why", &step.why)?;
    step.caution.as_ref().map_or(Ok(()), |caution| paragraph("caution", caution))?;
    rules(procedure.load_ring, &step.when)?;
    hazards(procedure, &step.hazards)?;
    if step.evidence.len() > MOST_EVIDENCE {
        let found = say!("definition-procedure-step-of-evidence", evidence = step.evidence.len());
        let fits = say!("definition-procedure-evidence-at-most", most = MOST_EVIDENCE);
        return Err(Misfit::at("evidence", found, fits));
    }
    for (index, one) in step.evidence.iter().enumerate() {
        let path = format!("evidence[{}]", index + 1);
        evidence(one).map_err(|misfit| misfit.under(&path))?;
        if step.evidence[..index].iter().any(|other| other.name == one.name) {
            let found = say!("definition-procedure-evidence-name-twice", name = clip(&one.name));
            return Err(Misfit::at(
                format!("{path}.name"),
                found,
                say!("definition-procedure-own-name-wanted"),
            ));
        }
    }
    judged(step)?;
    match &step.gate {
        Some(one) => gate(step, one).map_err(|misfit| misfit.under("gate")),
        None if step.evidence.iter().all(|one| one.need == Need::IfAny) => Err(Misfit::at(
            "",
            say!("definition-procedure-step-without-proof", step = clip(&step.id)),
            say!("definition-procedure-add-evidence"),
        )),
        None => Ok(()),
    }
}

/// What a step must keep with those before it.
fn after(before: &[Step], step: &Step) -> Result<(), Misfit> {
    if let Some(earlier) = before.iter().position(|other| other.id == step.id) {
        let found = say!("definition-procedure-id-twice", id = clip(&step.id), step = earlier + 1);
        return Err(Misfit::at("id", found, say!("definition-procedure-own-id-wanted")));
    }
    match before.last() {
        Some(last) if last.stage > step.stage => {
            let found = say!(
                "definition-procedure-stage-comes-after",
                stage = step.stage.name(),
                before = last.stage.name()
            );
            let order = Stage::ALL.map(Stage::name).join(", ");
            Err(Misfit::at(
                "stage",
                found,
                say!("definition-procedure-stages-order", stages = order),
            ))
        }
        Some(_) | None => Ok(()),
    }
}

fn rules(load_ring: LoadRingType, rules: &[Rule]) -> Result<(), Misfit> {
    for (index, rule) in rules.iter().enumerate() {
        let path = format!("when[{}]", index + 1);
        if rules[..index].contains(rule) {
            let found = say!("definition-procedure-rule-twice", rule = rule.name());
            return Err(Misfit::at(path, found, say!("definition-procedure-rule-once")));
        }
        let against = contrary(*rule).filter(|contrary| rules[..index].contains(contrary));
        if let Some(against) = against {
            let found = say!(
                "definition-procedure-rules-contrary",
                other = against.name(),
                rule = rule.name()
            );
            return Err(Misfit::at(path, found, say!("definition-procedure-make-two-steps")));
        }
        let never = match load_ring {
            LoadRingType::Toric => matches!(rule, Rule::ConicalWasher | Rule::Steel),
            LoadRingType::ConicalWasher => matches!(rule, Rule::Toric),
        };
        if never {
            let found = say!("definition-procedure-rule-never-holds", rule = rule.name());
            let fits = say!("definition-procedure-for-load-ring", load_ring = load_ring.name());
            return Err(Misfit::at(path, found, fits));
        }
    }
    Ok(())
}

/// The rule that can't hold of the same half.
fn contrary(rule: Rule) -> Option<Rule> {
    match rule {
        Rule::Toric => Some(Rule::ConicalWasher),
        Rule::ConicalWasher => Some(Rule::Toric),
        Rule::Rubber => Some(Rule::Steel),
        Rule::Steel => Some(Rule::Rubber),
        Rule::PressedIn => Some(Rule::WorkedIn),
        Rule::WorkedIn => Some(Rule::PressedIn),
        Rule::ShaftVertical => Some(Rule::ShaftHorizontal),
        Rule::ShaftHorizontal => Some(Rule::ShaftVertical),
        Rule::Fluoroelastomer
        | Rule::ChillingAllowed
        | Rule::AgentUsed
        | Rule::RetainingLip
        | Rule::FaceLoadLimited => None,
    }
}

fn hazards(procedure: &Procedure, hazards: &[Hazard]) -> Result<(), Misfit> {
    for (index, hazard) in hazards.iter().enumerate() {
        let path = format!("hazards[{}]", index + 1);
        let word = hazard.name();
        if hazards[..index].contains(hazard) {
            return Err(Misfit::at(
                path,
                say!("definition-procedure-hazard-twice", hazard = word),
                say!("definition-procedure-hazard-once"),
            ));
        }
        if !procedure.caution.iter().any(|caution| caution.hazard == *hazard) {
            let found = say!("definition-procedure-hazard-without-caution", hazard = word);
            let fits = say!("definition-procedure-add-caution", hazard = word);
            return Err(Misfit::at(path, found, fits));
        }
    }
    Ok(())
}

fn evidence(evidence: &Evidence) -> Result<(), Misfit> {
    id("name", &evidence.name)?;
    some_text("ask", &evidence.ask)?;
    let of_value = [
        ("quantity", evidence.quantity.is_some()),
        ("example", evidence.example.is_some()),
        ("measures", evidence.measures.is_some()),
        ("limit", evidence.limit.is_some()),
    ];
    let of_readings =
        [("readings", evidence.readings.is_some()), ("stated", !evidence.stated.is_empty())];
    let kind = evidence.kind.name();
    let stray = match evidence.kind {
        EvidenceKind::Value => of_readings.to_vec(),
        EvidenceKind::ReadingSet => of_value.to_vec(),
        EvidenceKind::Tick
        | EvidenceKind::Photo
        | EvidenceKind::Text
        | EvidenceKind::SecondPerson => of_value.into_iter().chain(of_readings).collect(),
    };
    if let Some((key, _)) = stray.into_iter().find(|(_, given)| *given) {
        let found = say!("definition-procedure-given-for", key, kind);
        return Err(Misfit::at(key, found, say!("definition-procedure-leave-out-or-change-kind")));
    }
    for name in &evidence.stated {
        id("stated", name)?;
    }
    match evidence.kind {
        EvidenceKind::Value => value(evidence),
        EvidenceKind::ReadingSet if evidence.readings.is_none() => {
            let words = ReadingSet::ALL.map(|set| format!("`readings = \"{}\"`", set.name()));
            Err(Misfit::at(
                "",
                say!("definition-procedure-reading-set-has-no-readings"),
                say!("definition-procedure-add", words = one_of(words)),
            ))
        }
        EvidenceKind::ReadingSet
        | EvidenceKind::Tick
        | EvidenceKind::Photo
        | EvidenceKind::Text
        | EvidenceKind::SecondPerson => Ok(()),
    }
}

/// A value says what it measures and how it is typed, and its limit limits the same.
fn value(evidence: &Evidence) -> Result<(), Misfit> {
    let Some(quantity) = evidence.quantity else {
        return Err(Misfit::at(
            "",
            say!("definition-procedure-value-has-no-quantity"),
            say!("definition-procedure-add-quantity"),
        ));
    };
    let Some(example) = &evidence.example else {
        return Err(Misfit::at(
            "",
            say!("definition-procedure-value-has-no-example"),
            say!("definition-procedure-add-example"),
        ));
    };
    quantity.read_si(example).map_err(|error| Misfit::at("example", error.found, error.fits))?;
    if let Some(measures) = evidence.measures.filter(|one| one.quantity() != quantity) {
        let found = say!(
            "definition-procedure-measures-of-quantity",
            measures = measures.name(),
            quantity = measures.quantity().name()
        );
        let fits = say!("definition-procedure-value-of-quantity", quantity = quantity.name());
        return Err(Misfit::at("measures", found, fits));
    }
    match evidence.limit {
        Some(limit) if limit.quantity() != quantity => {
            let found = say!(
                "definition-procedure-limit-of-quantity",
                limit = limit.name(),
                quantity = limit.quantity().name()
            );
            let fits = say!("definition-procedure-other-limit-wanted", quantity = quantity.name());
            Err(Misfit::at("limit", found, fits))
        }
        Some(_) | None => Ok(()),
    }
}

/// A limit that no gate of the step looks at would only seem to be kept.
fn judged(step: &Step) -> Result<(), Misfit> {
    let limited = step.evidence.iter().position(|one| one.limit.is_some());
    let decided_by = step.gate.map(|gate| gate.decided_by);
    match limited {
        Some(index) if decided_by != Some(DecidedBy::Limits) => Err(Misfit::at(
            format!("evidence[{}].limit", index + 1),
            say!("definition-procedure-limit-not-judged"),
            say!("definition-procedure-add-limits-gate"),
        )),
        Some(_) | None => Ok(()),
    }
}

fn gate(step: &Step, gate: &Gate) -> Result<(), Misfit> {
    let refuse = |found: String, fits: &str| Err(Misfit::at("decided_by", found, fits));
    let word = gate.decided_by.name();
    let always = |kind: EvidenceKind| {
        step.evidence.iter().filter(move |one| one.kind == kind && one.need == Need::Always)
    };
    let set = gate.decided_by.reading_set();
    let sets = always(EvidenceKind::ReadingSet)
        .filter(|one| one.readings.is_some() && one.readings == set)
        .count();
    let (wanted, times) = match gate.decided_by {
        DecidedBy::Matching | DecidedBy::FaceLoad => (1, Times::Once),
        DecidedBy::AssembledHeight => (sets, Times::EachHalf),
        DecidedBy::SealGap => (sets, Times::Once),
        // Of these a step may ask for several: a trace on each ramp.
        DecidedBy::Alignment | DecidedBy::LeakTest | DecidedBy::Closing => {
            (sets.min(1), Times::Once)
        }
        DecidedBy::Roughness | DecidedBy::Flatness | DecidedBy::Seating | DecidedBy::Chilling => {
            (sets.min(1), Times::EachHalf)
        }
        DecidedBy::Agents => (sets.min(1), step.stage.times()),
        DecidedBy::Limits => {
            let limited = always(EvidenceKind::Value).filter(|one| one.limit.is_some()).count();
            (limited.min(1), step.stage.times())
        }
        DecidedBy::Evidence => {
            let said = always(EvidenceKind::Tick).chain(always(EvidenceKind::SecondPerson));
            (said.count().min(1), step.stage.times())
        }
    };
    if step.stage.times() != times {
        let found = say!(
            "definition-procedure-decides-in-stage",
            decides = word,
            stage = step.stage.name()
        );
        return refuse(
            found,
            match times {
                Times::Once => say!("definition-procedure-once-for-joint"),
                Times::EachHalf => say!("definition-procedure-for-each-half"),
            },
        );
    }
    if wanted != 1 {
        let found =
            say!("definition-procedure-nothing-decides", step = clip(&step.id), decides = word);
        return refuse(found, wanted_to_decide(gate.decided_by));
    }
    gate.hold_point.map_or(Ok(()), |point| hold_point(step, gate.decided_by, point))
}

/// What a step must hold so that this can decide.
fn wanted_to_decide(decided_by: DecidedBy) -> &'static str {
    match decided_by {
        DecidedBy::AssembledHeight | DecidedBy::SealGap => {
            say!("definition-procedure-one-reading-set-wanted")
        }
        DecidedBy::Alignment
        | DecidedBy::Roughness
        | DecidedBy::Flatness
        | DecidedBy::Seating
        | DecidedBy::Chilling
        | DecidedBy::LeakTest
        | DecidedBy::Agents
        | DecidedBy::Closing => say!("definition-procedure-reading-set-wanted"),
        DecidedBy::Limits => say!("definition-procedure-limited-value-wanted"),
        DecidedBy::Evidence => say!("definition-procedure-tick-wanted"),
        DecidedBy::Matching | DecidedBy::FaceLoad => {
            say!("definition-procedure-definition-decides")
        }
    }
}

/// A hold point stands where the work it holds is done, and what decides it is of its kind.
fn hold_point(step: &Step, decided_by: DecidedBy, point: HoldPoint) -> Result<(), Misfit> {
    let stages: &[Stage] = match point {
        HoldPoint::HousingAccepted => &[Stage::Inspect],
        HoldPoint::Height => &[Stage::Level],
        HoldPoint::FacesCleanAndDry | HoldPoint::Gap => &[Stage::Close],
        HoldPoint::LeakTest => &[Stage::Prove],
        HoldPoint::Own => &Stage::ALL,
    };
    if !stages.contains(&step.stage) {
        let names: Vec<_> = stages.iter().map(|stage| stage.name()).collect();
        let found = say!(
            "definition-procedure-hold-point-in-stage",
            point = point.name(),
            stage = step.stage.name()
        );
        let fits = say!("definition-procedure-stage-wanted", stages = one_of(names));
        return Err(Misfit::at("hold_point", found, fits));
    }
    let decides = match point {
        HoldPoint::Height => decided_by == DecidedBy::AssembledHeight,
        HoldPoint::Gap => {
            matches!(decided_by, DecidedBy::SealGap | DecidedBy::Closing)
                || decided_by == DecidedBy::Limits
                    && step.evidence.iter().any(|one| one.limit == Some(LimitKey::SealGap))
        }
        HoldPoint::HousingAccepted
        | HoldPoint::FacesCleanAndDry
        | HoldPoint::LeakTest
        | HoldPoint::Own => true,
    };
    if decides {
        return Ok(());
    }
    let found = say!(
        "definition-procedure-hold-point-decided-by",
        point = point.name(),
        decided_by = decided_by.name()
    );
    let fits = match point {
        HoldPoint::Height => say!("definition-procedure-height-decided-by"),
        HoldPoint::Gap
        | HoldPoint::HousingAccepted
        | HoldPoint::FacesCleanAndDry
        | HoldPoint::LeakTest
        | HoldPoint::Own => say!("definition-procedure-gap-decided-by"),
    };
    Err(Misfit::at("decided_by", found, fits))
}

/// Each hold point of the trade is kept by a step that never falls away.
fn hold_points(procedure: &Procedure) -> Result<(), Misfit> {
    for point in HoldPoint::ALL.into_iter().filter(|point| *point != HoldPoint::Own) {
        if procedure.keepers(point).is_empty() {
            let word = point.name();
            let found = say!("definition-procedure-hold-point-not-kept", point = word);
            let fits = say!("definition-procedure-add-hold-point", point = word);
            return Err(Misfit::at("step", found, fits));
        }
    }
    Ok(())
}

/// A text of one or a few sentences.
fn paragraph(key: &str, text: &str) -> Result<(), Misfit> {
    let short = key.rsplit('.').next().unwrap_or(key);
    if text.trim().is_empty() {
        return Err(Misfit::at(
            key,
            say!("definition-procedure-empty", key = short),
            say!("definition-procedure-sentence-wanted"),
        ));
    }
    let length = text.chars().count();
    if length > LONGEST_PARAGRAPH {
        let found = say!("definition-procedure-has-characters", key = short, length);
        let fits = say!("definition-procedure-characters-at-most", most = LONGEST_PARAGRAPH);
        return Err(Misfit::at(key, found, fits));
    }
    Ok(())
}

/// Small letters and digits, in parts joined by hyphens.
fn id(key: &str, text: &str) -> Result<(), Misfit> {
    let part = |part: &str| {
        !part.is_empty() && part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
    };
    if text.len() <= LONGEST_ID && text.split('-').all(part) {
        return Ok(());
    }
    let found = say!("definition-procedure-id-is", key, id = clip(text));
    let fits = say!("definition-procedure-id-wanted", longest = LONGEST_ID);
    Err(Misfit::at(key, found, fits))
}

/// All of them, as a choice.
fn one_of(words: impl IntoIterator<Item = impl Into<String>>) -> String {
    let words = words.into_iter().map(Into::into);
    words.reduce(|one, other| say!("definition-procedure-or", one, other)).unwrap_or_default()
}
