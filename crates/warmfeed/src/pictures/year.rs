//! Pictures of a year.

use physics::panel::Panel;
use physics::tap::Heater;
use sheets::page::Picture;
use sheets::pictures::Width;
use sheets::pictures::heat_section::{self, HeaterKind, PanelMade};
use year::section::HeatSection;
use year::{Forcing, YearResult};

use crate::commands::Loaded;

/// All pictures of a build's year, in the order of the heat.
pub fn year_pictures(loaded: &Loaded, forcing: &Forcing, result: &YearResult) -> Vec<Picture> {
    let build = &loaded.build;
    let mut pictures = Vec::new();
    let Some(panel) = build.panel.panels.first() else { return pictures };
    let section = HeatSection::of(result, forcing, build.panel.area_m2());
    let facts = heat_section::Facts {
        title: &loaded.design.title,
        section: &section,
        panel: match panel {
            Panel::Built(_) => PanelMade::AtHome,
            Panel::Bought(_) => PanelMade::Bought,
        },
        heater: match build.tap.heater {
            Heater::Cylinder { .. } => HeaterKind::Cylinder,
            Heater::Instantaneous(_) => HeaterKind::Instantaneous,
        },
    };
    pictures.push(Picture {
        wide: heat_section::draw(&facts, Width::Page),
        narrow: Some(heat_section::draw(&facts, Width::Phone)),
    });
    pictures
}
