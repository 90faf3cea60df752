//! The load ring's material against fluids and temperatures.

use ringtrue_metrology::conformity::Verdict;
use ringtrue_metrology::units::{Given, Quantity, Temperature, clip};
use ringtrue_words::say;

use super::Finding;
use super::finding::proven;
use crate::RoomError;
use crate::definition::joint::Service;
use crate::definition::material::{
    self, FLUIDS, FluidRating, ISO_1629, Material, NO_AGENT, Rating,
};
use crate::definition::seal::Seal;

/// What is known of a load ring's material.
pub(super) enum Stuff<'m> {
    /// A material with figures.
    Known(&'m Material),
    /// Steel: none of the checks concern it.
    Steel,
    /// None, and why.
    Unknown {
        /// As the file names it.
        name: &'m str,
        /// What would help.
        fits: String,
    },
}

/// The material of a seal's load ring: from its file where it names one, else as shipped.
pub(super) fn stuff_of<'m>(
    seal: &'m Seal,
    file: Option<&'m Material>,
) -> Result<Stuff<'m>, RoomError> {
    let name = seal.load_ring.material();
    if let Some(material) = file {
        return Ok(Stuff::Known(material));
    }
    if seal.load_ring.material_file().is_some() {
        let found = say!("match-material-file-named", name = clip(name));
        return Err(RoomError::input(found, say!("match-material-file-wanted")));
    }
    if seal.load_ring.is_steel() {
        return Ok(Stuff::Steel);
    }
    if let Some(material) = material::shipped(name) {
        return Ok(Stuff::Known(material));
    }
    let known = ISO_1629.iter().find(|(code, _)| code.eq_ignore_ascii_case(name.trim()));
    let codes = material::shipped_codes().join(", ");
    let fits = match known {
        Some((code, _)) => {
            say!("match-no-figures-for-code", code, polymer = material::polymer(code), codes)
        }
        None => say!("match-code-with-figures", codes),
    };
    Ok(Stuff::Unknown { name, fits })
}

/// What the seal alone asks of its material: cleaning agent and temperature limits.
pub(super) fn findings(seal: &Seal, stuff: &Stuff<'_>) -> Vec<Finding> {
    let material = match stuff {
        Stuff::Known(material) => material,
        Stuff::Steel => return Vec::new(),
        Stuff::Unknown { name, fits } => {
            let found = say!("match-load-ring-is-of", material = clip(name));
            let what = say!("match-material-against-all");
            return vec![Finding::new(what, Verdict::NotProven, found, fits.as_str())];
        }
    };
    let mut findings = Vec::new();
    let agent = seal.fitting.cleaning_agent.as_str();
    if agent != NO_AGENT {
        findings.push(contact(material, agent, Contact::Wipe));
    }
    if let Some(limit) = &seal.limits.temperature {
        for (given, end) in [(&limit.min, End::Cold), (&limit.max, End::Hot)] {
            let Some(given) = given else { continue };
            let what = end.limit().to_owned();
            findings.push(temperature(material, what, given, end));
        }
    }
    findings
}

/// What the service of a joint asks of a material: oil and temperatures.
pub(super) fn in_service(service: &Service, stuff: &Stuff<'_>) -> Vec<Finding> {
    let material = match stuff {
        Stuff::Known(material) => material,
        // The half's own finding has said that nothing is known.
        Stuff::Steel | Stuff::Unknown { .. } => return Vec::new(),
    };
    let cold = say!("match-coldest-start-against-material").to_owned();
    let hot = say!("match-hottest-service-against-material").to_owned();
    vec![
        contact(material, &service.oil, Contact::Immersion),
        temperature(material, cold, &service.temperature_min, End::Cold),
        temperature(material, hot, &service.temperature_max, End::Hot),
    ]
}

/// How long a fluid meets the rubber.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Contact {
    /// For its whole life.
    Immersion,
    /// While it is wiped and fitted.
    Wipe,
}

impl Contact {
    fn what(self) -> &'static str {
        match self {
            Self::Immersion => say!("match-material-against-oil"),
            Self::Wipe => say!("match-material-against-agent"),
        }
    }

    /// The lowest rating that will do.
    fn enough(self) -> Rating {
        match self {
            Self::Immersion => Rating::Good,
            Self::Wipe => Rating::Fair,
        }
    }

    fn fits(self) -> &'static str {
        match self {
            Self::Immersion => say!("match-good-for-immersion"),
            Self::Wipe => say!("match-fair-for-wipe"),
        }
    }
}

fn contact(material: &Material, fluid: &str, contact: Contact) -> Finding {
    let Some(rating) = material.fluid.iter().find(|rating| rating.name == fluid) else {
        return unrated(material, fluid, contact);
    };
    let FluidRating { worst, best, source, .. } = rating;
    let verdict = if *worst >= contact.enough() {
        Verdict::Conforms
    } else if *best < contact.enough() {
        Verdict::DoesNotConform
    } else {
        Verdict::NotProven
    };
    let span = if worst == best {
        rated(*worst).to_owned()
    } else {
        say!("match-rated-between", worst = rated(*worst), best = rated(*best))
    };
    let found = say!("match-rating", code = material.code, fluid = clip(fluid), rating = span);
    let fits = match verdict {
        Verdict::Conforms | Verdict::DoesNotConform => contact.fits().to_owned(),
        Verdict::NotProven => say!("match-ratings-differ", wanted = contact.fits()),
    };
    Finding::new(contact.what(), verdict, found, fits).with_sources(vec![source.clone()])
}

/// A rating, as a person reads it.
fn rated(rating: Rating) -> &'static str {
    match rating {
        Rating::Poor => say!("match-rated-poor"),
        Rating::Fair => say!("match-rated-fair"),
        Rating::Good => say!("match-rated-good"),
        Rating::Excellent => say!("match-rated-excellent"),
    }
}

fn unrated(material: &Material, fluid: &str, contact: Contact) -> Finding {
    let known = FLUIDS.iter().any(|(name, _)| *name == fluid);
    let (found, fits) = if known {
        let found = say!("match-fluid-not-rated", code = material.code, fluid);
        (found, say!("match-take-from-data-sheet").to_owned())
    } else {
        let names: Vec<_> = FLUIDS.iter().map(|(name, _)| *name).collect();
        let hint = material::nearest_fluid(fluid);
        let found = say!("match-fluid-not-known", fluid = clip(fluid), code = material.code);
        (found, say!("match-fluids-known", hint, fluids = names.join(", ")))
    };
    Finding::new(contact.what(), Verdict::NotProven, found, fits)
}

/// An end of a range of temperatures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Cold,
    Hot,
}

impl End {
    /// The comparison of the seal's own limit at this end.
    fn limit(self) -> &'static str {
        match self {
            Self::Cold => say!("match-lower-limit-against-material"),
            Self::Hot => say!("match-upper-limit-against-material"),
        }
    }

    /// What compounds claim at this end, and what some of them claim.
    fn claim(self, inner: &str, outer: Option<&str>) -> String {
        match (self, outer) {
            (Self::Cold, None) => say!("match-down-to", inner),
            (Self::Hot, None) => say!("match-up-to", inner),
            (Self::Cold, Some(outer)) => say!("match-down-to-some", inner, outer),
            (Self::Hot, Some(outer)) => say!("match-up-to-some", inner, outer),
        }
    }

    /// Is the temperature no further out than this end?
    fn keeps(self, value: f64, end: f64) -> bool {
        match self {
            Self::Cold => value >= end - 1e-9,
            Self::Hot => value <= end + 1e-9,
        }
    }
}

/// Within the narrowest claim it conforms, outside the widest it does not; between the two the
/// family's figures prove nothing of this compound.
fn temperature(material: &Material, what: String, given: &Given<Temperature>, end: End) -> Finding {
    let found =
        say!("match-temperature-of-material", temperature = given.typed(), code = material.code);
    let Some(narrowest) = &material.service_temperature else {
        let fits = say!("match-no-temperatures", code = material.code);
        return Finding::new(what, Verdict::NotProven, found, fits);
    };
    let value = given.value().si();
    let at = |span: &material::Span<Temperature>| match end {
        End::Cold => span.min.clone(),
        End::Hot => span.max.clone(),
    };
    let inner = at(narrowest);
    let mut sources = vec![narrowest.source.clone()];
    let widest = material.service_temperature_widest.as_ref();
    let (verdict, fits) = match (end.keeps(value, inner.value().si()), widest) {
        (true, _) => (Verdict::Conforms, end.claim(inner.typed(), None)),
        (false, None) => (proven(false), end.claim(inner.typed(), None)),
        (false, Some(widest)) => {
            sources.push(widest.source.clone());
            let outer = at(widest);
            let fits = end.claim(inner.typed(), Some(outer.typed()));
            if end.keeps(value, outer.value().si()) {
                (Verdict::NotProven, say!("match-claims-differ", claims = fits))
            } else {
                (Verdict::DoesNotConform, fits)
            }
        }
    };
    Finding::new(what, verdict, found, fits).with_sources(sources)
}
