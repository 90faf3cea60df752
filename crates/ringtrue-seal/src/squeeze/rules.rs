//! What parsing alone can't refuse in a problem's file.

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
            let found = format!("{} steps", self.steps);
            return Err(Misfit::at("steps", found, format!("1 to {MOST_STEPS} steps are solved")));
        }
        section(&self.section, self.symmetry)?;
        material(self)?;
        walls(self)?;
        // What only the solver can tell has no key of its own.
        match self.problem().defect() {
            Some(defect) => Err(Misfit::at("", defect, "values that a section can have")),
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
            return at("", "a round section has no `diameter`", "add it");
        }
        (ShapeWord::Round, Some(_), 1..) => {
            return at(".corners", "a round section has corners", "leave them out");
        }
        (ShapeWord::Polygon, Some(_), _) => {
            return at(".diameter", "a polygon has a diameter", "leave it out");
        }
        (ShapeWord::Polygon, None, count) if !(3..=MOST_POINTS).contains(&count) => {
            let fits = format!("3 to {MOST_POINTS} corners make a polygon");
            return at("", &format!("a polygon of {count} corners"), &fits);
        }
        (ShapeWord::Round, Some(_), 0) | (ShapeWord::Polygon, None, _) => {}
    }
    match (symmetry, &section.mean_radius) {
        (SymmetryWord::Axisymmetric, None) => at("", "a ring has no `mean_radius`", "add it"),
        (SymmetryWord::PlaneStrain, Some(_)) => {
            at(".mean_radius", "plane strain has a mean radius", "leave it out")
        }
        (SymmetryWord::Axisymmetric, Some(_)) | (SymmetryWord::PlaneStrain, None) => Ok(()),
    }
}

fn material(file: &SqueezeFile) -> Result<(), Misfit> {
    let keys = file.material.keys();
    if let Some((key, _)) = keys.iter().find(|(_, given)| !given) {
        let needed: Vec<&str> = keys.iter().map(|(key, _)| *key).collect();
        let found = format!("this law has no `{key}`");
        return Err(Misfit::at("material", found, format!("it needs {}", needed.join(", "))));
    }
    let surplus = file.material.given().into_iter().find(|key| !keys.iter().any(|(k, _)| k == key));
    if let Some(key) = surplus {
        let found = format!("this law has no use for `{key}`");
        return Err(Misfit::at(format!("material.{key}"), found, "leave it out"));
    }
    if file.material.terms.len() > MOST_TERMS {
        let found = format!("{} terms", file.material.terms.len());
        return Err(Misfit::at("material.terms", found, format!("{MOST_TERMS} at most")));
    }
    Ok(())
}

fn walls(file: &SqueezeFile) -> Result<(), Misfit> {
    if file.wall.is_empty() || file.wall.len() > MOST_WALLS {
        let found = format!("{} walls", file.wall.len());
        return Err(Misfit::at(
            "wall",
            found,
            format!("1 to {MOST_WALLS} walls squeeze a section"),
        ));
    }
    for (index, wall) in file.wall.iter().enumerate() {
        // Paths count from 1, as people do.
        let path = format!("wall[{}]", index + 1);
        if !(2..=MOST_POINTS).contains(&wall.profile.len()) {
            let found = format!("wall `{}` has {} points", wall.name, wall.profile.len());
            let fits = format!("a profile of 2 to {MOST_POINTS} points is wanted");
            return Err(Misfit::at(path, found, fits));
        }
        if file.wall[..index].iter().any(|earlier| earlier.name == wall.name) {
            let found = format!("wall {} has the name of another", index + 1);
            return Err(Misfit::at(format!("{path}.name"), found, "each has a name of its own"));
        }
    }
    Ok(())
}
