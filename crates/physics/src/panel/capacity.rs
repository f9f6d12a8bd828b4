//! How much heat a panel holds, and how fast it follows the sun.

use super::error::{PanelError, within};
use super::{Built, Layer, Panel, Passage, Tube, TubePattern};

/// Effective heat capacity of a panel \[J/K\]: the parts weighted by how far they follow the fluid.
///
/// `C = sum(p_i m_i c_i)` with `p` 1 for sheet, tube, headers and fluid, 0.5 for insulation behind
/// and around; `0.01 a1` for the outermost cover and `0.2 a1` for one beneath it, where `a1` is the
/// panel's first loss coefficient: 6 W/(m2 K) is taken for all (a black sheet under one pane has 4
/// to 8, which moves a panel's whole by 2 %). Each header is as long as the risers' spacings
/// together. Of a bought panel what its certificate states, fluid and all.
///
/// `fluid_volume_heat_j_m3_k`: density times heat capacity of the fluid; 4.17e6 water, 0 dry.
///
/// # Valid range
/// Any panel; a volume heat of 0 (dry) to 1e7, else an error.
///
/// # Source
/// Weights: EN 12975-2 and ISO 9806, calculation of the effective thermal capacity (from memory).
///
/// # Checked
/// SY-10: 5 to 20 kJ/(m2 K) for a flat plate, and 4.5 to 7 for 0.5 mm copper made at home.
pub fn capacity_j_k(panel: &Panel, fluid_volume_heat_j_m3_k: f64) -> Result<f64, PanelError> {
    let fluid = within("volume heat of the fluid [J/(m3 K)]", fluid_volume_heat_j_m3_k, 0.0..=1e7)?;
    Ok(match panel {
        Panel::Built(built) => built_j_k(built, fluid),
        Panel::Bought(bought) => bought.capacity_j_m2_k * bought.area_m2,
    })
}

fn built_j_k(panel: &Built, fluid: f64) -> f64 {
    let area_m2 = panel.sheet.area_m2();
    let sheet_j_k = area_m2
        * panel.sheet.thickness_m
        * panel.sheet.density_kg_m3
        * panel.sheet.heat_capacity_j_kg_k;
    let insulation_j_k = panel.back.iter().map(layer_j_m2_k).sum::<f64>() * area_m2
        + layer_j_m2_k(&panel.edge.layer) * panel.edge.area_m2;
    let outwards = panel.covers.iter().rev().zip(COVER_WEIGHTS);
    let covers_j_k: f64 =
        outwards.map(|(cover, weight)| weight * cover.capacity_j_m2_k() * area_m2).sum();
    sheet_j_k
        + passage_j_k(&panel.passage, fluid)
        + INSULATION_WEIGHT * insulation_j_k
        + covers_j_k
        + panel.extra_capacity_j_k
}

/// What a panel's passage holds \[m3\]: tubes and headers, channels, or as the certificate says.
pub fn contents_m3(panel: &Panel) -> f64 {
    match panel {
        Panel::Bought(bought) => bought.contents_m3,
        Panel::Built(built) => match &built.passage {
            Passage::Hollow(hollow) => hollow.contents_m3,
            Passage::Tubes(tubes) => {
                tubes.length_m() * tubes.tube.contents_m2()
                    + tubes.headers_m() * tubes.header().map_or(0.0, Tube::contents_m2)
            }
        },
    }
}

/// Walls and contents of the passage \[J/K\].
fn passage_j_k(passage: &Passage, fluid: f64) -> f64 {
    match passage {
        Passage::Hollow(hollow) => hollow.back_sheet_j_k + hollow.contents_m3 * fluid,
        Passage::Tubes(tubes) => {
            tubes.length_m() * tube_j_m_k(&tubes.tube, fluid)
                + tubes.headers_m() * tubes.header().map_or(0.0, |header| tube_j_m_k(header, fluid))
        }
    }
}

impl super::Tubes {
    /// The headers' tube; `None` where all fluid runs through one tube.
    pub fn header(&self) -> Option<&Tube> {
        match &self.pattern {
            TubePattern::Harp { header, .. } => Some(header),
            TubePattern::Serpentine { .. } | TubePattern::Route { .. } => None,
        }
    }

    /// Both headers together \[m\], each as long as the risers' spacings; 0 where there are none.
    pub fn headers_m(&self) -> f64 {
        match self.pattern {
            TubePattern::Harp { risers, .. } => 2.0 * f64::from(risers) * self.spacing_m,
            TubePattern::Serpentine { .. } | TubePattern::Route { .. } => 0.0,
        }
    }
}

/// Time constant of a panel whose inlet is held and whose sun stops \[s\].
///
/// `C/(A F' U + 2 m cp)`: the balance `C dTm/dt = -(A F' U + 2 m cp)(Tm - Ti)` with `Tm` the mean
/// of inlet and outlet. The fluid's travel through the tube comes on top; measured values of 60
/// to 180 s are usual.
///
/// `capacity_j_k`: from [`capacity_j_k`]; `loss_w_k`: `A F' U`; `capacity_rate_w_k`: `m cp`.
///
/// # Valid range
/// Capacity zero or more, loss and rate not both zero; else an error.
///
/// # Source
/// Lumped balance; 63.2 % of the outlet's step, ISO 9806 and ASHRAE 93.
///
/// # Checked
/// SY-11: 40.7 s within 1 %.
pub fn time_constant_s(
    capacity_j_k: f64,
    loss_w_k: f64,
    capacity_rate_w_k: f64,
) -> Result<f64, PanelError> {
    let held = within("heat capacity of the panel [J/K]", capacity_j_k, 0.0..=f64::MAX)?;
    within("loss of the panel [W/K]", loss_w_k, 0.0..=f64::MAX)?;
    within("capacity rate [W/K]", capacity_rate_w_k, 0.0..=f64::MAX)?;
    let leaving = loss_w_k + 2.0 * capacity_rate_w_k;
    Ok(held / within("loss and flow together [W/K]", leaving, 1e-9..=f64::MAX)?)
}

/// Wall and contents of a metre of tube \[J/(m K)\].
fn tube_j_m_k(tube: &Tube, fluid_volume_heat_j_m3_k: f64) -> f64 {
    tube.wall_m2() * tube.density_kg_m3 * tube.heat_capacity_j_kg_k
        + tube.contents_m2() * fluid_volume_heat_j_m3_k
}

fn layer_j_m2_k(layer: &Layer) -> f64 {
    layer.thickness_m * layer.density_kg_m3 * layer.heat_capacity_j_kg_k
}

/// Insulation stands halfway between sheet and air (ISO 9806, from memory).
const INSULATION_WEIGHT: f64 = 0.5;

/// `0.01 a1` for the outermost cover and `0.2 a1` for the one beneath it, at 6 W/(m2 K) (ISO 9806,
/// from memory).
const COVER_WEIGHTS: [f64; 2] = [0.06, 1.0];

#[cfg(test)]
mod tests {
    use super::super::samples::{harp, serpentine};
    use super::*;

    fn panel(built: Built) -> Panel {
        Panel::Built(Box::new(built))
    }

    /// Given: 1.62 m2 of 0.5 mm copper with 10.8 m of 12 x 1 tube, 50 mm of wool, 4 mm glass.
    /// Expected, by hand: sheet 2788, tube wall 1284, water 3537 (4.17e6), wool behind half of
    /// 3062, around half of 510, glass 0.06 of 12150: 10124 J/K.
    #[test]
    fn adds_up_by_hand() {
        let got = capacity_j_k(&panel(serpentine()), 4.17e6).unwrap();
        assert!((got - 10_124.0).abs() < 3.0, "{got}");
        let dry = capacity_j_k(&panel(serpentine()), 0.0).unwrap();
        assert!((got - dry - 3537.0).abs() < 1.0, "{dry}");
    }

    /// Given: the same as a harp, two headers of 22 x 1 and 0.9 m each. Expected, by hand: 1.8 m
    /// of 227.1 (wall) and 1310 J/(m K) (water) more, 2767 J/K.
    #[test]
    fn headers_count() {
        let headers = capacity_j_k(&panel(harp()), 4.17e6).unwrap()
            - capacity_j_k(&panel(serpentine()), 4.17e6).unwrap();
        assert!((headers - 2767.0).abs() < 2.0, "{headers}");
    }

    /// Given: nothing that leaves; a negative volume heat. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        assert!(time_constant_s(1e4, 0.0, 0.0).is_err());
        assert!(capacity_j_k(&panel(harp()), -1.0).is_err());
    }
}
