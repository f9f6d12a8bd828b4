//! From values to the whole system in SI.

pub(crate) mod circuit;
mod control;
mod extremes;
mod facts;
mod frost;
mod hot_parts;
mod mount;
mod network;
pub(crate) mod panel;
mod parts;
mod site;
mod stock;
pub(crate) mod store;
mod tap;
#[cfg(test)]
mod trial;
pub(crate) mod weather;

pub use facts::{Facts, Heats, MixingValve, Winter};
pub use frost::IN_HAND_K as FROST_IN_HAND_K;
pub use hot_parts::HotPart;
pub use mount::{CoverWear, Hardness, Mount, MountedOn};
pub(crate) use panel::{clear_transmittance, stretches};
pub use site::Sited;
pub use stock::{Piece, Stock};
pub(crate) use tap::note_demand;
pub use weather::{MadeWeather, Weather, WeatherFile};

use crate::catalogue::materials::Material;
use crate::origin::Origins;
use crate::values::Values;
use physics::sun::{
    Clouds, Horizon, HorizonPoint, NearShade, Place, Plane, ShadeSpell, Shelter, SkyModel,
    SkyTemperature, Sun, WindFilm,
};
use physics::{Angle, Build};
use std::collections::BTreeMap;

/// A design that is read and resolved: what it is called, its weather, its build.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// What the build is called.
    pub title: String,
    /// Who builds it, and why; may be empty.
    pub story: String,
    /// The weather it names.
    pub weather: Weather,
    /// Where each value comes from.
    pub origins: Origins,
    /// The material at hand; `None` where the file lists none.
    pub stock: Option<Stock>,
    /// What of the panel has to stand its heat.
    pub hot_parts: Vec<HotPart>,
    /// Metal pipe between the panel and what follows on the pipe \[m\].
    pub outlet_metal_m: f64,
    /// Which area the panel's test figures count by: gross, or aperture where a certificate says so.
    pub area_kind: &'static str,
    /// Dry mass of a bought panel, where its certificate states it \[kg\].
    pub certified_mass_kg: Option<f64>,
    /// How the panel is held; `None` where the file does not say.
    pub mount: Option<Mount>,
    /// How hard the water is; `None` where the file does not say.
    pub hardness: Option<Hardness>,
    /// Light that the cover has lost already; `None` where there is no cover.
    pub cover_wear: Option<CoverWear>,
    /// What every part is made of, by its place in the file.
    materials: BTreeMap<String, &'static Material>,
    /// Place and clock as the file states them.
    pub place: WrittenPlace,
    /// Extremes of the weather as the file states them.
    extremes: extremes::WrittenExtremes,
    /// What changes nothing in the year, and worries ask for.
    pub facts: Facts,
    /// Where what meets the weather is written.
    spans: site::Spans,
    /// The system, its place still that of [`WrittenPlace`]: [`Design::at`] finishes it.
    draft: Build,
}

/// Place and clock, each only where the design file states it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct WrittenPlace {
    /// Latitude, north positive.
    pub latitude: Option<Angle>,
    /// Longitude, east positive.
    pub longitude: Option<Angle>,
    /// Height above the sea \[m\].
    pub elevation_m: Option<f64>,
    /// Standard time ahead of UTC \[h\].
    pub clock_ahead_h: Option<f64>,
}

impl Design {
    /// What the part at a place is made of, `panel.sheet.material`; `None` where there is no such part, or
    /// its material is the builder's own.
    pub fn material(&self, place: &str) -> Option<&'static Material> {
        self.materials.get(place).copied()
    }

    /// Every part's place and material, in the order of the places.
    pub fn materials(&self) -> impl Iterator<Item = (&str, &'static Material)> {
        self.materials.iter().map(|(place, material)| (place.as_str(), *material))
    }
}

/// The design of whole values; `None` where one that every build has is absent.
pub(crate) fn design(values: &Values, origins: Origins) -> Option<Design> {
    Some(Design {
        title: values.word("title")?.to_owned(),
        story: values.word("story").unwrap_or_default().to_owned(),
        weather: weather::weather(values)?,
        stock: stock::stock(values)?,
        hot_parts: hot_parts::hot_parts(values),
        outlet_metal_m: values.si("panel.outlet-metal")?,
        area_kind: match values.word("panel.certificate.area-kind") {
            Some("aperture") => "aperture",
            _ => "gross",
        },
        certified_mass_kg: values.si("panel.certificate.mass"),
        mount: mount::mount(values)?,
        hardness: mount::hardness(values),
        cover_wear: mount::cover_wear(values),
        materials: mount::materials(values),
        place: WrittenPlace {
            latitude: values.si("sun.latitude").map(Angle::from_radians),
            longitude: values.si("sun.longitude").map(Angle::from_radians),
            elevation_m: values.si("sun.elevation"),
            clock_ahead_h: values.si("sun.clock").map(|clock_s| clock_s / 3600.0),
        },
        extremes: extremes::written(values),
        facts: facts::facts(values),
        spans: site::Spans::of(values),
        draft: Build {
            sun: sun(values)?,
            panel: panel::bank(values)?,
            circuit: circuit::circuit(values)?,
            store: store::store(values)?,
            tap: tap::tap(values)?,
            control: control::control(values)?,
        },
        origins,
    })
}

fn sun(values: &Values) -> Option<Sun> {
    let wind_film = match values.word("sun.wind-film")? {
        "mcadams-1954" => WindFilm::McAdams1954,
        "mitchell-1976" => {
            WindFilm::Mitchell1976 { house_length_m: values.si("sun.house-length")? }
        }
        _ => WindFilm::Watmuff1977,
    };
    // The weather file gives the place and its extremes; see `site`.
    let place = Place {
        latitude: Angle::ZERO,
        longitude: Angle::ZERO,
        elevation_m: 0.0,
        clock_ahead_h: 0.0,
    };
    let plane = Plane {
        tilt: Angle::from_radians(values.si("sun.tilt")?),
        facing: Angle::from_radians(values.si("sun.facing")?),
    };
    Some(Sun {
        albedo: values.months("sun.albedo")?,
        sky_model: match values.word("sun.sky-model")? {
            "hay-davies-1980" => SkyModel::HayDavies1980,
            "isotropic" => SkyModel::Isotropic,
            _ => SkyModel::Perez1990,
        },
        shelter: match values.word("sun.shelter")? {
            "open" => Shelter::Open,
            "hollow" => Shelter::Hollow,
            _ => Shelter::Suburban,
        },
        wind_film,
        sky_temperature: match values.word("sun.sky-temperature")? {
            "berdahl-martin-1984" => SkyTemperature::BerdahlMartin1984,
            "swinbank-1963" => SkyTemperature::Swinbank1963,
            _ => SkyTemperature::FromFile,
        },
        clouds: match values.word("sun.clouds")? {
            "minutes" => Clouds::Minutes { seed: values.count("sun.seed")? },
            _ => Clouds::Smooth,
        },
        horizon: horizon(values)?,
        near_shade: near_shade(values)?,
        ..Sun::in_the_open(place, plane)
    })
}

fn horizon(values: &Values) -> Option<Horizon> {
    let point = |at: usize| {
        let angle = |key: &str| values.si(&format!("sun.horizon[{at}].{key}"));
        Some(HorizonPoint {
            azimuth: Angle::from_radians(angle("azimuth")?),
            height: Angle::from_radians(angle("height")?),
        })
    };
    let points: Option<Vec<_>> = (0..values.members("sun.horizon")).map(point).collect();
    // Points out of range have been told of already.
    Horizon::through(&points?).ok()
}

fn near_shade(values: &Values) -> Option<NearShade> {
    let spell = |at: usize| {
        let place = |key: &str| format!("sun.shade[{at}].{key}");
        Some(ShadeSpell {
            days: values.days(&place("days")).unwrap_or_default().to_vec(),
            from_min: values.minute(&place("from"))?,
            to_min: values.minute(&place("to"))?,
            beam_share: values.si(&place("beam"))?,
            diffuse_share: values.si(&place("sky"))?,
        })
    };
    let spells: Option<Vec<_>> = (0..values.members("sun.shade")).map(spell).collect();
    Some(NearShade { spells: spells? })
}
