//! What weather and household impose: light by the minute, air by the hour, draws.

mod clouds;
mod draws;
mod hour_sun;
mod hours;
mod light;
mod optics_table;
mod shading;
mod shape;
mod sums;

pub use draws::{DrawMinute, FeedMinute, draw_minutes, feed_minutes};
pub use hours::{HourForcing, hour_forcing};
pub use light::{MinuteLight, minute_light};
pub use optics_table::OpticsTable;

use physics::panel::walls::WallShadow;
use physics::{Build, Climate};

use crate::YearError;

/// Everything imposed on a build through one year, on the household's standard clock.
///
/// All panels of a build lie in one plane; where their covers differ, the first panel's optics
/// stand for the light taken up.
#[derive(Clone, Debug)]
pub struct Forcing {
    /// Light by the minute and its sums.
    pub light: MinuteLight,
    /// Air, sky, loft and mains by the hour, 8760 of them.
    pub hours: Vec<HourForcing>,
    /// Minutes in which water is drawn, in order.
    pub draws: Vec<DrawMinute>,
    /// What else the store feeds takes, in order.
    pub feeds: Vec<FeedMinute>,
}

impl Forcing {
    /// Makes a year's forcing for a build at a climate.
    ///
    /// # Errors
    /// Weather beyond what the relations of sky, wind and mains cover.
    pub fn of(build: &Build, climate: &Climate) -> Result<Forcing, YearError> {
        let light = light(build, climate)?;
        let hours = hour_forcing(build, climate, &light.plane_w_m2)?;
        Ok(Forcing {
            light,
            hours,
            draws: draw_minutes(&build.tap),
            feeds: feed_minutes(&build.store, &build.tap),
        })
    }

    /// The forcing of a changed build at the same climate: what the change leaves alone is taken over,
    /// to the last bit what [`Forcing::of`] would make.
    ///
    /// `was`: the build that this forcing was made for.
    ///
    /// # Errors
    /// As [`Forcing::of`].
    pub fn again(&self, was: &Build, now: &Build, climate: &Climate) -> Result<Forcing, YearError> {
        let same_panel = was.panel.panels.first() == now.panel.panels.first();
        let same_light = was.sun == now.sun && same_panel;
        let light = if same_light { self.light.clone() } else { light(now, climate)? };
        let same_air =
            same_light && was.store.loft == now.store.loft && was.tap.mains == now.tap.mains;
        let hours = if same_air {
            self.hours.clone()
        } else {
            hour_forcing(now, climate, &light.plane_w_m2)?
        };
        let same_tap = was.tap == now.tap;
        Ok(Forcing {
            light,
            hours,
            draws: if same_tap { self.draws.clone() } else { draw_minutes(&now.tap) },
            feeds: if same_tap && was.store.feeds == now.store.feeds {
                self.feeds.clone()
            } else {
                feed_minutes(&now.store, &now.tap)
            },
        })
    }
}

/// The light a build's first panel takes up.
fn light(build: &Build, climate: &Climate) -> Result<MinuteLight, YearError> {
    let optics = match build.panel.panels.first() {
        Some(panel) => {
            let optics = physics::panel::optics::optics(panel, build.sun.plane.tilt);
            let table =
                OpticsTable::from_fn(|cosine| optics.beam(cosine), optics.sky, optics.ground);
            match panel.built().and_then(WallShadow::of) {
                Some(walls) => table.behind(walls, &build.sun),
                None => table,
            }
        }
        None => OpticsTable::from_fn(|_| 0.0, 0.0, 0.0),
    };
    minute_light(climate, &build.sun, &optics)
        .map_err(|error| YearError::Weather(error.to_string()))
}
