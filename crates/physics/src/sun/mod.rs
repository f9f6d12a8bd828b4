//! The first station: where the sun stands, what reaches the plane, what sky and wind do.

mod almanac;
mod axes;
mod clear_beam;
mod day;
mod dome;
mod error;
mod horizon;
mod humidity;
mod incidence;
pub mod made;
mod near_shade;
mod parts;
mod position;
mod sky;
mod split;
mod tilted;
mod wind;

pub use almanac::{Almanac, Instant, SOLAR_CONSTANT_W_M2, almanac, hour_angle};
pub use axes::{Direction, PanelAxes, PanelDirection};
pub use clear_beam::clear_beam_meinel_1976_w_m2;
pub use day::{day_above_air_j_m2, sunset};
pub use dome::{DomeShares, dome_shares};
pub use error::SunError;
pub use horizon::{Horizon, HorizonPoint};
pub use humidity::dew_point_alduchov_1996;
pub use incidence::DiurnalCosine;
pub use near_shade::{KeptLight, NearShade, ShadeSpell};
pub use parts::{
    AirExtreme, Clouds, Extremes, Place, Plane, Shelter, SkyModel, SkyTemperature, StatedBy, Sun,
    WindFilm,
};
pub use position::{Air, Coordinates, SunPosition, refraction, sun_position};
pub use sky::{
    SkyAir, cloud_crawford_duchon_1999, sky_berdahl_martin_1984,
    sky_emissivity_berdahl_martin_1984, sky_from_infrared, sky_swinbank_1963, sky_temperature,
};
pub use split::{
    Global, Split, clearness, daily_diffuse_share_erbs_1982, diffuse_share_erbs_1982, split,
    split_with_diffuse,
};
pub use tilted::{Light, PlaneLight, Slope, air_mass_young_1994, sky_on_plane};
pub use wind::{
    PANEL_HEIGHT_M, film_mcadams_1954, film_mitchell_1976, film_watmuff_1977, shelter_factor,
    wind_film_w_m2_k,
};
