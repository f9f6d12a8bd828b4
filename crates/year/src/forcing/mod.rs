//! What weather and household impose.

mod hour_sun;
mod light;
mod optics_table;
mod shape;

pub use light::{MinuteLight, minute_light};
pub use optics_table::OpticsTable;
