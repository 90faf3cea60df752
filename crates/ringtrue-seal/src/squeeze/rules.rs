//! What parsing alone can't refuse in a problem's file.

use ringtrue_words::say;

use super::file::{SectionFile, ShapeWord, SqueezeFile, SymmetryWord};
use crate::definition::{Definition, Kind, Misfit};

/// Most walls, points of a wall and terms of a law.
const MOST_WALLS: usize = 16;
const MOST_POINTS: usize = 64;
const MOST_TERMS: usize = 8;
/// Most steps.
const MOST_STEPS: u32 = 10_000;

impl Definition for SqueezeFile {
    const KIND: Kind = Kind::Squeeze;

    fn consistent(&self) -> Result<(), Misfit> {
        if self.steps == 0 || self.steps > MOST_STEPS {
            let found = say!("squeeze-steps", steps = self.steps);
            return Err(Misfit::at(
                "steps",
                found,
                say!("squeeze-steps-solved", most = MOST_STEPS),
            ));
        }
        section(&self.section, self.symmetry)?;
        material(self)?;
        walls(self)?;
        // What only the solver can tell has no key of its own.
        match self.problem().defect() {
            Some(defect) => Err(Misfit::at("", defect, say!("section-values-wanted"))),
            None => Ok(()),
        }
    }
}

fn section(section: &SectionFile, symmetry: SymmetryWord) -> Result<(), Misfit> {
    let at = |key: &str, found: &str, fits: &str| {
        Err(Misfit::at(format!("section{key}"), found.to_owned(), fits.to_owned()))
    };
    match (section.shape, &section.diameter, section.corners.len()) {
        (ShapeWord::Round, None, _) => {
            return at("", say!("squeeze-round-without-diameter"), say!("squeeze-add"));
        }
        (ShapeWord::Round, Some(_), 1..) => {
            return at(
                ".corners",
                say!("squeeze-round-with-corners"),
                say!("squeeze-leave-them-out"),
            );
        }
        (ShapeWord::Polygon, Some(_), _) => {
            return at(
                ".diameter",
                say!("squeeze-polygon-with-diameter"),
                say!("squeeze-leave-out"),
            );
        }
        (ShapeWord::Polygon, None, count) if !(3..=MOST_POINTS).contains(&count) => {
            let fits = say!("squeeze-corners-wanted", most = MOST_POINTS);
            return at("", &say!("squeeze-polygon-of", count), &fits);
        }
        (ShapeWord::Round, Some(_), 0) | (ShapeWord::Polygon, None, _) => {}
    }
    match (symmetry, &section.mean_radius) {
        (SymmetryWord::Axisymmetric, None) => {
            at("", say!("squeeze-ring-without-mean-radius"), say!("squeeze-add"))
        }
        (SymmetryWord::PlaneStrain, Some(_)) => {
            at(".mean_radius", say!("squeeze-plane-with-mean-radius"), say!("squeeze-leave-out"))
        }
        (SymmetryWord::Axisymmetric, Some(_)) | (SymmetryWord::PlaneStrain, None) => Ok(()),
    }
}

fn material(file: &SqueezeFile) -> Result<(), Misfit> {
    let keys = file.material.keys();
    if let Some((key, _)) = keys.iter().find(|(_, given)| !given) {
        let needed: Vec<&str> = keys.iter().map(|(key, _)| *key).collect();
        let found = say!("squeeze-law-lacks", key);
        return Err(Misfit::at(
            "material",
            found,
            say!("squeeze-law-needs", keys = needed.join(", ")),
        ));
    }
    let surplus = file.material.given().into_iter().find(|key| !keys.iter().any(|(k, _)| k == key));
    if let Some(key) = surplus {
        let found = say!("squeeze-law-has-no-use", key);
        return Err(Misfit::at(format!("material.{key}"), found, say!("squeeze-leave-out")));
    }
    if file.material.terms.len() > MOST_TERMS {
        let found = say!("squeeze-terms", terms = file.material.terms.len());
        return Err(Misfit::at(
            "material.terms",
            found,
            say!("squeeze-at-most", most = MOST_TERMS),
        ));
    }
    Ok(())
}

fn walls(file: &SqueezeFile) -> Result<(), Misfit> {
    if file.wall.is_empty() || file.wall.len() > MOST_WALLS {
        let found = say!("squeeze-walls", walls = file.wall.len());
        return Err(Misfit::at("wall", found, say!("squeeze-walls-wanted", most = MOST_WALLS)));
    }
    for (index, wall) in file.wall.iter().enumerate() {
        // Paths count from 1, as people do.
        let path = format!("wall[{}]", index + 1);
        if !(2..=MOST_POINTS).contains(&wall.profile.len()) {
            let found =
                say!("squeeze-wall-of-points", wall = wall.name, points = wall.profile.len());
            let fits = say!("squeeze-points-wanted", most = MOST_POINTS);
            return Err(Misfit::at(path, found, fits));
        }
        if file.wall[..index].iter().any(|earlier| earlier.name == wall.name) {
            let found = say!("squeeze-wall-name-twice", number = index + 1);
            return Err(Misfit::at(format!("{path}.name"), found, say!("squeeze-own-name-wanted")));
        }
    }
    Ok(())
}
