//! The first station: where the sun stands, what reaches the plane, what sky and wind do.

mod parts;

pub use parts::{Place, Plane, Shelter, SkyModel, SkyTemperature, Sun, WindFilm};
