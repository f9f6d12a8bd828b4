//! What a panel weighs, and the area its box takes.

use super::{Built, Layer, Panel, Passage, Tube};

/// Mass of one empty panel \[kg\]; `None` for a bought one, whose certificate states it.
///
/// Sheet, tubes and headers, or the back sheet of a hollow one (as heavy as its heat capacity says,
/// the front sheet's metal); covers; layers behind and the rim's, a square metre each. Screws,
/// glazing bars and flashings are not in it.
///
/// # Valid range
/// Any panel.
///
/// # Source
/// Volume times density.
///
/// # Checked
/// A copper panel added up by hand.
pub fn dry_mass_kg(panel: &Panel) -> Option<f64> {
    let built = panel.built()?;
    let sheet = &built.sheet;
    let area_m2 = sheet.area_m2();
    let layer_kg_m2 = |layer: &Layer| layer.thickness_m * layer.density_kg_m3;
    let passage_kg = match &built.passage {
        Passage::Tubes(tubes) => {
            let metre_kg = |tube: &Tube| tube.wall_m2() * tube.density_kg_m3;
            tubes.length_m() * metre_kg(&tubes.tube)
                + tubes.headers_m() * tubes.header().map_or(0.0, metre_kg)
        }
        Passage::Hollow(hollow) => hollow.back_sheet_j_k / sheet.heat_capacity_j_kg_k,
    };
    let covers_kg_m2: f64 = built.covers.iter().map(super::Cover::mass_kg_m2).sum();
    let back_kg_m2: f64 = built.back.iter().map(layer_kg_m2).sum();
    let sheet_kg_m2 = sheet.thickness_m * sheet.density_kg_m3;
    Some(
        (sheet_kg_m2 + covers_kg_m2 + back_kg_m2) * area_m2
            + passage_kg
            + layer_kg_m2(&built.edge.layer) * built.edge.area_m2,
    )
}

/// Area of one panel's outside \[m2\], which test reports count by: sheet and rim of a box, the mat
/// itself, or what the certificate states.
///
/// # Valid range
/// Any panel.
///
/// # Source
/// ISO 9806:2017, gross area.
///
/// # Checked
/// A box added up by hand.
pub fn gross_area_m2(panel: &Panel) -> f64 {
    match panel {
        Panel::Bought(bought) => bought.area_m2,
        Panel::Built(built) => boxed_area_m2(built),
    }
}

fn boxed_area_m2(built: &Built) -> f64 {
    let rim_m = if built.covers.is_empty() { 0.0 } else { built.edge.layer.thickness_m };
    (built.sheet.length_m + 2.0 * rim_m) * (built.sheet.width_m + 2.0 * rim_m)
}

#[cfg(test)]
mod tests {
    use super::super::samples::{harp, serpentine};
    use super::*;

    /// Given: 1.8 m by 0.9 m of 0.5 mm copper with 10.8 m of 12 x 1 tube, 4 mm glass, 50 mm wool
    /// behind and 25 mm on 0.54 m2 of rim. Expected, by hand: 7.241 + 3.336 + 16.2 + 3.645 + 0.608
    /// = 31.03 kg, and a box of 1.85 m by 0.95 m. The harp's headers, 1.8 m of 22 x 1, weigh 1.062
    /// kg more.
    #[test]
    fn adds_up_by_hand() {
        let panel = Panel::Built(Box::new(serpentine()));
        let kg = dry_mass_kg(&panel).unwrap();
        assert!((kg - 31.03).abs() < 0.01, "{kg}");
        assert!((gross_area_m2(&panel) - 1.85 * 0.95).abs() < 1e-12);
        let more = dry_mass_kg(&Panel::Built(Box::new(harp()))).unwrap() - kg;
        assert!((more - 1.062).abs() < 0.005, "{more}");
    }
}
