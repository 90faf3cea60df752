//! Every study of the mechanics: each point within the two error bands.

use std::path::Path;

use ringtrue_seal::validation::study::{ScaleKind, Study, study, study_names};

fn file(path: &str) -> Option<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../validation");
    std::fs::read_to_string(root.join(path)).ok()
}

fn run(name: &str) -> Study {
    let mut texts: Vec<(String, String)> = Vec::new();
    for folder in ["reference/mechanics", "cases/face_load"] {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../validation").join(folder);
        for entry in std::fs::read_dir(root).unwrap() {
            let path = format!("{folder}/{}", entry.unwrap().file_name().to_str().unwrap());
            texts.push((path.clone(), file(&path).unwrap()));
        }
    }
    let data = |path: &str| texts.iter().find(|(p, _)| p == path).map(|(_, t)| t.as_str());
    study(name, data).unwrap_or_else(|why| panic!("{name}: {why}"))
}

fn holds(name: &str) {
    let study = run(name);
    assert_eq!(study.name, name);
    let compared = study.comparisons();
    assert!(!compared.is_empty(), "{name} compares nothing");
    for (scale, axis) in [(&study.x, 0), (&study.y, 1)] {
        if scale.kind == ScaleKind::Logarithmic {
            let low =
                study.series.iter().flat_map(|s| &s.line).map(|p| p[axis]).fold(1.0, f64::min);
            assert!(low > 0.0, "{name}: {low} on a logarithmic axis");
        }
    }
    let failed: Vec<String> = compared
        .iter()
        .filter(|one| !one.pass)
        .map(|one| {
            format!(
                "{}: expected {}, computed {}, deviation {}, bands {}",
                one.quantity,
                one.expected_text(),
                one.computed_text(),
                one.deviation_text(),
                one.bands_text().unwrap()
            )
        })
        .collect();
    assert!(failed.is_empty(), "{name}:\n{}", failed.join("\n"));
}

macro_rules! studies {
    ($($name:ident),* $(,)?) => {
        $(#[test] fn $name() { holds(stringify!($name)); })*

        #[test]
        fn no_study_is_left_out() {
            assert_eq!(study_names(), [$(stringify!($name)),*]);
        }
    };
}

studies!(
    patch_tests,
    rigid_rotation,
    tangent_differences,
    lame_tube,
    rivlin_tube,
    tube_convergence,
    line_contact,
    line_contact_peak,
    held_section,
    free_ring,
    free_ring_growth,
    bonded_disc,
    everting,
    plates_bar_frictionless,
    plates_bar_no_slip,
    plates_ring_frictionless,
    plates_ring_no_slip,
    two_cones_no_slip,
    two_cones_coulomb,
    two_cones_roll,
    disc_spring_turned,
    disc_spring_upright_ends,
    disc_spring_table,
    treloar,
    treloar_fitted,
    energy_balance,
    two_cones_convergence,
);
