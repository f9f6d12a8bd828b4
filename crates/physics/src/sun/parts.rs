//! What a build says of its sun.

use crate::Angle;

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
