//! What a seal's parts must keep among themselves.

use ringtrue_metrology::units::{Angle, Given, Hardness, HardnessScale, Pressure, Quantity, clip};
use ringtrue_words::say;

use super::misfit::{
    Order, above_zero, in_order, named, not_negative, some_text, some_text_if_given,
};
use super::seal::{
    ConicalWasher, Fitting, Housing, InstallingTool, Limits, LoadRing, Ramp, Ring, Seal, Toric,
};
use super::{Definition, Kind, Misfit, outline};
use crate::rubber::HARDNESS_RANGE;

/// A cone beyond this angle is nearer to a flat than to a ramp.
const STEEPEST_RAMP_DEG: f64 = 80.0;
/// Most tries that a file may allow.
const MOST_TRIES: u32 = 20;

impl Definition for Seal {
    const KIND: Kind = Kind::Seal;

    fn consistent(&self) -> Result<(), Misfit> {
        self.misfits().into_iter().next().map_or(Ok(()), Err)
    }

    fn misfits(&self) -> Vec<Misfit> {
        let identity = &self.identity;
        let load_ring = match &self.load_ring {
            LoadRing::Toric(part) => toric(part).map_err(|m| m.under("load_ring.toric")),
            LoadRing::ConicalWasher(part) => {
                washer(part).map_err(|m| m.under("load_ring.conical_washer"))
            }
        };
        let decision = self.decision.as_ref().map_or(Ok(()), |decision| decision.consistent());
        let parts = [
            schema_line(self.schema.as_deref()),
            some_text("name", &self.name),
            some_text_if_given("identity.drawing", identity.drawing.as_ref()),
            some_text_if_given("identity.ring_batch", identity.ring_batch.as_ref()),
            some_text_if_given("identity.load_ring_batch", identity.load_ring_batch.as_ref()),
            ring(&self.ring).map_err(|misfit| misfit.under("ring")),
            load_ring,
            housing(&self.housing).map_err(|misfit| misfit.under("housing")),
            carried(self),
            limits(&self.limits).map_err(|misfit| misfit.under("limits")),
            fitting(&self.fitting).map_err(|misfit| misfit.under("fitting")),
            decision.map_err(|misfit| misfit.under("decision")),
        ];
        parts.into_iter().filter_map(Result::err).collect()
    }
}

fn schema_line(line: Option<&str>) -> Result<(), Misfit> {
    let wanted = Kind::Seal.schema_line();
    match line {
        Some(line) if line != wanted => {
            let found = say!("definition-seal-schema-is", line = clip(line));
            Err(Misfit::at("schema", found, format!("`{wanted}`")))
        }
        Some(_) | None => Ok(()),
    }
}

/// A toric needs a ramp on each side and a tool with an angle; a washer needs none of them.
fn carried(seal: &Seal) -> Result<(), Misfit> {
    let ramps = [
        ("ring.ramp", "ring", seal.ring.ramp.as_ref()),
        ("housing.ramp", "housing", seal.housing.ramp.as_ref()),
    ];
    for (path, part, ramp) in ramps {
        match (&seal.load_ring, ramp) {
            (LoadRing::Toric(_), None) => {
                let fits = say!("definition-add-ramp", path);
                return Err(Misfit::at(part, say!("definition-toric-needs-ramp", part), fits));
            }
            (LoadRing::ConicalWasher(_), Some(_)) => {
                let found = say!("definition-ramp-with-washer", part);
                return Err(Misfit::at(path, found, say!("definition-leave-ramp-out", path)));
            }
            (LoadRing::Toric(_), Some(_)) | (LoadRing::ConicalWasher(_), None) => {}
        }
    }
    let Some(tool) = &seal.tool else {
        return Ok(());
    };
    installing_tool(tool).map_err(|misfit| misfit.under("tool"))?;
    match (&seal.load_ring, &tool.ramp_angle) {
        (LoadRing::Toric(_), None) => Err(Misfit::at(
            "tool",
            say!("definition-tool-without-angle"),
            say!("definition-add-tool-angle"),
        )),
        (LoadRing::ConicalWasher(_), Some(_)) => Err(Misfit::at(
            "tool.ramp_angle",
            say!("definition-tool-angle-with-washer"),
            say!("definition-leave-tool-angle-out"),
        )),
        (LoadRing::Toric(_), Some(_)) | (LoadRing::ConicalWasher(_), None) => Ok(()),
    }
}

fn ring(ring: &Ring) -> Result<(), Misfit> {
    let face_inner = ("face_inner_diameter", &ring.face_inner_diameter);
    let band_inner = ("contact_band_inner_diameter", &ring.contact_band_inner_diameter);
    let band_outer = ("contact_band_outer_diameter", &ring.contact_band_outer_diameter);
    let face_outer = ("face_outer_diameter", &ring.face_outer_diameter);
    for (key, diameter) in [face_inner, band_inner, band_outer, face_outer] {
        above_zero(key, diameter)?;
    }
    in_order(face_inner, Order::Below, face_outer)?;
    in_order(face_inner, Order::Below, band_inner)?;
    in_order(band_inner, Order::Below, band_outer)?;
    in_order(band_outer, Order::BelowOrEqual, face_outer)?;
    if let Some(measuring) = &ring.measuring_diameter {
        in_order(face_inner, Order::BelowOrEqual, ("measuring_diameter", measuring))?;
        in_order(("measuring_diameter", measuring), Order::BelowOrEqual, face_outer)?;
    }
    if let Some(hardness) = &ring.face_hardness {
        metal_hardness("face_hardness", hardness)?;
    }
    above_zero("mass", &ring.mass)?;
    let Some(cone) = &ring.ramp else {
        return Ok(());
    };
    ramp(cone).map_err(|misfit| misfit.under("ramp"))?;
    in_order(("ramp.diameter", &cone.diameter), Order::Below, face_outer)
}

fn ramp(ramp: &Ramp) -> Result<(), Misfit> {
    ramp_angle("angle", &ramp.angle)?;
    above_zero("diameter", &ramp.diameter)?;
    not_negative("plane_from_face", &ramp.plane_from_face)
}

fn ramp_angle(key: &str, angle: &Given<Angle>) -> Result<(), Misfit> {
    let degrees = angle.value().si().to_degrees();
    if degrees > 0.0 && degrees < STEEPEST_RAMP_DEG {
        return Ok(());
    }
    let found = say!("definition-key-is", key = named(key), typed = angle.typed());
    let fits = say!("definition-ramp-angle-wanted", steepest = STEEPEST_RAMP_DEG.to_string());
    Err(Misfit::at(key, found, fits))
}

fn toric(toric: &Toric) -> Result<(), Misfit> {
    above_zero("section_diameter", &toric.section_diameter)?;
    above_zero("inside_diameter", &toric.inside_diameter)?;
    in_order(
        ("section_diameter", &toric.section_diameter),
        Order::Below,
        ("inside_diameter", &toric.inside_diameter),
    )?;
    some_text("material", &toric.material)?;
    stiffness(&Stiffness {
        hardness: toric.hardness.as_ref(),
        modulus: toric.modulus.as_ref(),
        uncertainty: toric.modulus_standard_uncertainty.as_ref(),
        of: Stuff::of(&toric.material),
    })
}

fn washer(washer: &ConicalWasher) -> Result<(), Misfit> {
    outline::consistent(&washer.outline)?;
    if let Some(radius) = &washer.corner_radius {
        not_negative("corner_radius", radius)?;
    }
    some_text("material", &washer.material)?;
    not_negative("ring_seat_from_face", &washer.ring_seat_from_face)?;
    not_negative("housing_seat_from_face", &washer.housing_seat_from_face)?;
    if let Some(strength) = &washer.yield_strength {
        above_zero("yield_strength", strength)?;
        if !matches!(Stuff::of(&washer.material), Stuff::Metal) {
            let found = say!("definition-yield-strength-of-rubber");
            return Err(Misfit::at(
                "yield_strength",
                found,
                say!("definition-leave-yield-strength-out"),
            ));
        }
    }
    stiffness(&Stiffness {
        hardness: washer.hardness.as_ref(),
        modulus: washer.modulus.as_ref(),
        uncertainty: washer.modulus_standard_uncertainty.as_ref(),
        of: Stuff::of(&washer.material),
    })
}

#[derive(Debug, Clone, Copy)]
enum Stuff {
    Rubber,
    /// Its file may hold the tests that say how stiff it is.
    RubberOfFile,
    Metal,
}

impl Stuff {
    fn of(material: &str) -> Self {
        match material {
            super::material::STEEL => Self::Metal,
            file if file.ends_with(".toml") => Self::RubberOfFile,
            _ => Self::Rubber,
        }
    }
}

struct Stiffness<'s> {
    hardness: Option<&'s Given<Hardness>>,
    modulus: Option<&'s Given<Pressure>>,
    uncertainty: Option<&'s Given<Pressure>>,
    of: Stuff,
}

fn stiffness(stiffness: &Stiffness<'_>) -> Result<(), Misfit> {
    match (stiffness.hardness, stiffness.modulus) {
        (Some(_), Some(_)) => {
            let found = say!("definition-hardness-and-modulus");
            return Err(Misfit::at("modulus", found, say!("definition-keep-measured")));
        }
        (None, None) if matches!(stiffness.of, Stuff::RubberOfFile) => {}
        (None, None) => {
            let found = say!("definition-neither-hardness-nor-modulus");
            let fits = say!("definition-add-hardness-or-modulus");
            return Err(Misfit::at("hardness", found, fits));
        }
        (Some(hardness), None) => match stiffness.of {
            Stuff::Rubber | Stuff::RubberOfFile => rubber_hardness("hardness", hardness)?,
            Stuff::Metal => metal_hardness("hardness", hardness)?,
        },
        (None, Some(modulus)) => above_zero("modulus", modulus)?,
    }
    match (stiffness.uncertainty, stiffness.modulus) {
        (Some(uncertainty), Some(_)) => not_negative("modulus_standard_uncertainty", uncertainty),
        (Some(_), None) => Err(Misfit::at(
            "modulus_standard_uncertainty",
            say!("definition-uncertainty-without-modulus"),
            say!("definition-add-modulus"),
        )),
        (None, _) => Ok(()),
    }
}

fn rubber_hardness(key: &str, hardness: &Given<Hardness>) -> Result<(), Misfit> {
    let (low, high) = HARDNESS_RANGE;
    let Hardness { value, scale } = hardness.value();
    let rubber = match scale {
        HardnessScale::ShoreA | HardnessScale::Irhd => true,
        HardnessScale::RockwellC | HardnessScale::Brinell | HardnessScale::Vickers => false,
    };
    if rubber && (low..=high).contains(&value) {
        return Ok(());
    }
    let found = say!("definition-key-is", key = named(key), typed = hardness.typed());
    Err(Misfit::at(
        key,
        found,
        say!("definition-rubber-hardness-wanted", low = low.to_string(), high = high.to_string()),
    ))
}

fn metal_hardness(key: &str, hardness: &Given<Hardness>) -> Result<(), Misfit> {
    let Hardness { value, scale } = hardness.value();
    let metal = match scale {
        HardnessScale::RockwellC | HardnessScale::Brinell | HardnessScale::Vickers => true,
        HardnessScale::ShoreA | HardnessScale::Irhd => false,
    };
    if metal && value > 0.0 {
        return Ok(());
    }
    let found = say!("definition-key-is", key = named(key), typed = hardness.typed());
    Err(Misfit::at(key, found, say!("definition-metal-hardness-wanted")))
}

fn housing(housing: &Housing) -> Result<(), Misfit> {
    above_zero("depth", &housing.depth)?;
    if let Some(lip) = &housing.lip {
        above_zero("lip.diameter", &lip.diameter)?;
        above_zero("lip.height", &lip.height)?;
        if let Some(radius) = &lip.edge_radius {
            above_zero("lip.edge_radius", radius)?;
        }
        in_order(("lip.height", &lip.height), Order::Below, ("depth", &housing.depth))?;
    }
    if let Some(outside) = &housing.face_outer_diameter {
        above_zero("face_outer_diameter", outside)?;
        if let Some(lip) = &housing.lip {
            let lip = ("lip.diameter", &lip.diameter);
            in_order(lip, Order::Below, ("face_outer_diameter", outside))?;
        }
    }
    let Some(cone) = &housing.ramp else {
        return Ok(());
    };
    ramp(cone).map_err(|misfit| misfit.under("ramp"))?;
    let plane = ("ramp.plane_from_face", &cone.plane_from_face);
    in_order(plane, Order::BelowOrEqual, ("depth", &housing.depth))
}

fn limits(limits: &Limits) -> Result<(), Misfit> {
    /// A limit of something that has no sign.
    macro_rules! from_zero {
        ($($key:ident),+) => {$(
            if let Some(limit) = &limits.$key {
                limit.consistent_from_zero().map_err(|misfit| misfit.under(stringify!($key)))?;
            }
        )+};
    }
    /// A limit of something that may be negative.
    macro_rules! signed {
        ($($key:ident),+) => {$(
            if let Some(limit) = &limits.$key {
                limit.consistent().map_err(|misfit| misfit.under(stringify!($key)))?;
            }
        )+};
    }
    from_zero!(
        seal_gap,
        face_load,
        height_range,
        ramp_finish_ra,
        face_flatness,
        eccentricity,
        tip,
        speed,
        pressure_difference,
        free_height,
        ramp_angle_difference,
        tool_diameter_difference
    );
    signed!(assembled_height, temperature, toric_stretch);
    Ok(())
}

fn fitting(fitting: &Fitting) -> Result<(), Misfit> {
    if let Some(size) = &fitting.pressed_up_to {
        above_zero("pressed_up_to", size)?;
    }
    if let Some(force) = &fitting.hand_force {
        above_zero("hand_force", force)?;
    }
    if let Some(force) = &fitting.tool_force {
        above_zero("tool_force", force)?;
    }
    if !(1..=MOST_TRIES).contains(&fitting.most_tries) {
        let found = say!("definition-most-tries-is", tries = fitting.most_tries);
        return Err(Misfit::at(
            "most_tries",
            found,
            say!("definition-tries-wanted", most = MOST_TRIES),
        ));
    }
    some_text("cleaning_agent", &fitting.cleaning_agent)
}

fn installing_tool(tool: &InstallingTool) -> Result<(), Misfit> {
    some_text("name", &tool.name)?;
    if let Some(angle) = &tool.ramp_angle {
        ramp_angle("ramp_angle", angle)?;
    }
    above_zero("diameter", &tool.diameter)
}
