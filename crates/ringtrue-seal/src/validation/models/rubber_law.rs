//! Constants of a rubber's law from its tests.

use crate::definition::Number;
use crate::definition::stiffness::{Law, Stiffness, StretchTest, TestMode};
use crate::rubber_law::{Input, evaluate};
use crate::validation::ValidationError;
use crate::validation::inputs::{Inputs, Quantities};

/// The room's own answer; Ogden's terms by falling power.
pub(super) fn fitted(inputs: &Inputs<'_>) -> Result<Quantities, ValidationError> {
    let word = inputs.text("law")?;
    let law = Law::ALL.into_iter().find(|law| law.word() == word);
    let law = law.ok_or_else(|| inputs.wrong(format!("`{word}` is no law")))?;
    let terms = if inputs.given("terms") { Some(inputs.count("terms")?) } else { None };
    let mut tests = Vec::new();
    for mode in TestMode::ALL {
        let [stretch, stress] = ["stretch", "mpa"].map(|key| format!("{}_{key}", mode.word()));
        if !inputs.given(&stretch) {
            continue;
        }
        let both = inputs.numbers(&stretch)?.into_iter().zip(inputs.numbers(&stress)?);
        let points_mpa = both.map(|(l, p)| [Number(l), Number(p)]).collect();
        tests.push(StretchTest { mode, file: None, points_mpa });
    }
    let stiffness = Stiffness {
        law,
        terms,
        largest_stretch: None,
        batch_standard_uncertainty: None,
        source: "the case".to_owned(),
        tests,
    };
    let outcome = evaluate(&Input { name: "the case".to_owned(), stiffness })
        .map_err(|why| inputs.refused(why))?;
    let mut quantities = Quantities::default().one("shear_mpa", outcome.young_mpa / 3.0);
    let names: &[&'static str] = match law {
        Law::NeoHooke => &["mu_mpa"],
        Law::MooneyRivlin => &["c10_mpa", "c01_mpa"],
        Law::Yeoh => &["c10_mpa", "c20_mpa", "c30_mpa"],
        Law::Ogden => {
            let pairs = outcome.constants.chunks_exact(2);
            let mut pairs: Vec<[f64; 2]> = pairs.map(|p| [p[0].value, p[1].value]).collect();
            pairs.sort_by(|a, b| b[1].total_cmp(&a[1]));
            let column = |k: usize| pairs.iter().map(|pair| pair[k]).collect();
            return Ok(quantities.list("mu_mpa", column(0)).list("alpha", column(1)));
        }
    };
    for (name, constant) in names.iter().zip(&outcome.constants) {
        quantities = quantities.one(name, constant.value);
    }
    Ok(quantities)
}
