//! What a build says of its sun.

use super::horizon::Horizon;
use super::near_shade::NearShade;
use crate::{Angle, ZERO_CELSIUS_K};

/// The sun's part of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct Sun {
    /// Where the house stands.
    pub place: Place,
    /// The plane of the panel.
    pub plane: Plane,
    /// Share of sunlight the ground before the panel sends back, by month, January first (0 to 1).
    pub albedo: [f64; 12],
    /// How diffuse light is put on the tilted plane.
    pub sky_model: SkyModel,
    /// How much of the open-field wind reaches the panel.
    pub shelter: Shelter,
    /// How wind cools the cover.
    pub wind_film: WindFilm,
    /// How cold the sky is.
    pub sky_temperature: SkyTemperature,
    /// What the beam does within an hour.
    pub clouds: Clouds,
    /// How high hills and far roofs stand.
    pub horizon: Horizon,
    /// What shades the panel from nearby.
    pub near_shade: NearShade,
    /// The worst the weather is reckoned to do, which a typical year leaves out.
    pub extremes: Extremes,
}

impl Sun {
    /// A plane in the open on bare ground, by the usual relations: what most trials start from.
    ///
    /// Its extremes are those of the standard stagnation trial and of freezing water, for want of a
    /// weather file.
    pub fn in_the_open(place: Place, plane: Plane) -> Self {
        let at = |air_k| AirExtreme { air_k, stated_by: StatedBy::TypicalYear };
        Sun {
            place,
            plane,
            albedo: [0.2; 12],
            sky_model: SkyModel::Perez1990,
            shelter: Shelter::Open,
            wind_film: WindFilm::Watmuff1977,
            sky_temperature: SkyTemperature::FromFile,
            clouds: Clouds::Smooth,
            horizon: Horizon::open(),
            near_shade: NearShade::default(),
            extremes: Extremes {
                coldest_night: at(ZERO_CELSIUS_K),
                hottest_spell: at(ZERO_CELSIUS_K + 30.0),
                gust_m_s: None,
                ground_snow_pa: None,
            },
        }
    }
}

/// The worst that a place's weather is reckoned to do to the parts: for frost, stagnation and loads,
/// never for the year's heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extremes {
    /// The coldest night.
    pub coldest_night: AirExtreme,
    /// The hottest spell.
    pub hottest_spell: AirExtreme,
    /// Strongest gust at the panel \[m/s\], 20 to 60; `None` where nobody states one.
    pub gust_m_s: Option<f64>,
    /// Characteristic load of snow on the ground \[Pa\], 200 to 5000; `None` where nobody states one.
    pub ground_snow_pa: Option<f64>,
}

/// Air at its coldest or hottest, and who says so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirExtreme {
    /// Air in the shade \[K\].
    pub air_k: f64,
    /// Who says so.
    pub stated_by: StatedBy,
}

/// Who states an extreme of the air, the best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StatedBy {
    /// The design file.
    Design,
    /// The weather file's header, from many years.
    WeatherHeader,
    /// Nobody: the extreme hour of the weather file's own typical year stands in, and real years
    /// pass it.
    TypicalYear,
}

/// Where the house stands, and the clock it lives by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Latitude, north positive, -90 to 90 degrees.
    pub latitude: Angle,
    /// Longitude, east positive, -180 to 180 degrees.
    pub longitude: Angle,
    /// Height above the sea \[m\].
    pub elevation_m: f64,
    /// The household's standard time ahead of UTC \[h\], -12 to 14. Draws and days follow it.
    pub clock_ahead_h: f64,
}

/// The plane of the panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Slope from the horizontal, 0 to 90 degrees.
    pub tilt: Angle,
    /// Compass direction the plane looks to, clockwise from true north (180 degrees is south).
    pub facing: Angle,
}

/// What the beam does within an hour of weather.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clouds {
    /// It runs as smoothly as the hours allow.
    Smooth,
    /// Clouds pass, drawn by lot; the hour's beam stays.
    Minutes {
        /// The same seed draws the same clouds.
        seed: u32,
    },
}

/// Which model puts diffuse light on the tilted plane.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SkyModel {
    /// Perez and others 1990, all-sites coefficients.
    Perez1990,
    /// Hay and Davies 1980.
    HayDavies1980,
    /// Equally bright over the whole sky (Liu and Jordan 1960).
    Isotropic,
}

/// The builder's answer on how the panel stands to the wind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shelter {
    /// Open country or shore, nothing near as high as the roof.
    Open,
    /// Houses and gardens around.
    Suburban,
    /// In a hollow, or among higher houses and trees.
    Hollow,
}

/// Which relation gives the cover's outside film coefficient from the wind at the panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WindFilm {
    /// McAdams 1954.
    McAdams1954,
    /// Watmuff, Charters and Proctor 1977.
    Watmuff1977,
    /// Mitchell 1976, by the size of the house; free convection sets the floor.
    Mitchell1976 {
        /// Cube root of the house's volume \[m\], 3 to 30; usually 8.
        house_length_m: f64,
    },
}

/// Where the sky's temperature comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SkyTemperature {
    /// The weather file's infrared; where it carries none, Berdahl and Martin.
    FromFile,
    /// Berdahl and Martin 1984 from the dew point, with cloud from the clearness of the day.
    BerdahlMartin1984,
    /// Swinbank 1963 from the air alone: a clear sky at all times.
    Swinbank1963,
}
