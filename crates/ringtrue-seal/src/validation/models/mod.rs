//! The models that a case may name: each a thin way from a case's inputs to a function of the
//! program and back. No arithmetic of its own beyond what the source's own notation needs.

mod agents;
mod alignment;
mod chilling;
mod closing;
mod decisions;
mod dimensions;
mod face_load;
mod fits;
mod flatness;
mod heights;
mod leak_test;
mod roughness;
mod rubber_law;
mod seating;
mod uncertainty;

use super::ValidationError;
use super::case::Case;
use super::inputs::{Inputs, Quantities};

/// One model.
pub(super) struct Model {
    /// What a case calls it.
    pub(super) name: &'static str,
    /// Runs it.
    pub(super) compute: fn(&Inputs<'_>) -> Result<Quantities, ValidationError>,
}

const fn model(
    name: &'static str,
    compute: fn(&Inputs<'_>) -> Result<Quantities, ValidationError>,
) -> Model {
    Model { name, compute }
}

/// All of them, by room.
pub(super) const MODELS: &[Model] = &[
    model("type-a", uncertainty::type_a),
    model("combined-uncertainty", uncertainty::end_gauge),
    model("trapezoidal-coverage", uncertainty::trapezoidal_coverage),
    model("sampled-sum", uncertainty::sampled_sum),
    model("rayleigh", uncertainty::rayleigh),
    model("range-of-normals", uncertainty::range_of_normals),
    model("range-quantiles", uncertainty::range_quantiles),
    model("probability-within", decisions::probability_within),
    model("decision-limits", decisions::decision_limits),
    model("global-risk", decisions::global_risk),
    model("linear-fit", fits::linear),
    model("straight-line", fits::straight_line),
    model("plane", fits::plane),
    model("second-harmonic", fits::second_harmonic),
    model("second-harmonic-alias", fits::second_harmonic_alias),
    model("assembled-height", heights::assembled_height),
    model("gap-chain", dimensions::gap_chain),
    model("iso-286-grade", dimensions::iso_286_grade),
    model("iso-286-fit", dimensions::iso_286_fit),
    model("mounted-toric", dimensions::mounted_toric),
    model("free-height", dimensions::free_height),
    model("torus-volume", dimensions::torus_volume),
    model("disc-spring", face_load::disc_spring),
    model("modulus-from-hardness", face_load::modulus),
    model("toric-two-ramps", face_load::two_ramps),
    model("rubber-law", rubber_law::fitted),
    model("section-past-a-lip", seating::past_a_lip),
    model("cylinder-series", chilling::series),
    model("cylinder-march", chilling::march),
    model("cylinder-one-term", chilling::one_term),
    model("cylinder-temperatures", chilling::temperatures),
    model("natural-convection", chilling::natural),
    model("moving-air", chilling::forced),
    model("still-air", chilling::still_air),
    model("saturation-pressure", chilling::saturation),
    model("dew-point", chilling::humidity),
    model("leak-two-readings", leak_test::two_readings),
    model("leak-rate-units", leak_test::units),
    model("stored-energy", leak_test::energy),
    model("vapour-ppm", agents::per_mass),
    model("saturated-vapour", agents::over_liquid),
    model("evaporated", agents::evaporated),
    model("dilution-air", agents::dilution_air),
    model("general-dilution", agents::general_dilution),
    model("dilution-explosion", agents::explosion),
    model("shipped-agent", agents::shipped),
    model("through-still-air", agents::still_air),
    model("vapour-pressure-between", agents::pressure_between),
    model("rim-sweep", alignment::rim),
    model("total-readings", alignment::total_readings),
    model("bracket-sag", alignment::sag),
    model("tip-limit", alignment::tip),
    model("rim-and-face-feet", alignment::rim_and_face_feet),
    model("reverse-indicator", alignment::reverse_indicator),
    model("circle-points", alignment::circle_points),
    model("limacon", alignment::limacon),
    model("pipe-sag", alignment::pipe_sag),
    model("pull-down-order", closing::order),
    model("feeler-gap", closing::gap),
    model("profile-shape", roughness::shape),
    model("gaussian-filter", roughness::gaussian),
    model("gaussian-shares", roughness::gaussian_shares),
    model("cut-off-table", roughness::cut_offs),
    model("traced-profile", roughness::traced),
    model("levelled-line", roughness::level),
    model("roughness-rule", roughness::rule),
    model("light-band", flatness::band),
    model("straight-band", flatness::bend),
    model("closed-bands", flatness::closed),
    model("band-orders", flatness::orders),
];

/// The model that a case names.
pub(super) fn find(case: &Case) -> Result<&'static Model, ValidationError> {
    MODELS.iter().find(|model| model.name == case.model).ok_or_else(|| {
        let distance = |model: &&Model| strsim::damerau_levenshtein(model.name, &case.model);
        ValidationError::Model {
            case: case.id.clone(),
            model: case.model.clone(),
            nearest: MODELS.iter().min_by_key(distance).map_or("", |model| model.name),
        }
    })
}
