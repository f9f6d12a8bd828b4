//! Heat that leaves through back, rim and leaking joints.

use super::error::{PanelError, TEMPERATURES_K, within};
use super::{BoxAir, Built, Edge, Layer};
use crate::ZERO_CELSIUS_K;

/// A stack of layers between two temperatures.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// Heat through the stack over the difference across it \[W/(m2 K)\].
    pub conductance_w_m2_k: f64,
    /// Temperatures from the inner face over every joint to the outer face \[K\]: one more than
    /// there are layers.
    pub interfaces_k: Vec<f64>,
}

/// Conductance of a stack whose two faces are known, and the temperatures of its joints.
///
/// `1/U = sum(L/k)`, each layer's `k = k10 (1 + g (Tm - 10 C))` at its own mean temperature,
/// which for a `k` linear in temperature is exact.
///
/// `layers`: from the inner face outwards, at least one; `inner_k`, `outer_k`: the faces \[K\].
///
/// # Valid range
/// Faces 100 to 1000 K, thicknesses and conductivities above zero also at the layer's
/// temperature; else an error. Joints to 1e-9 K.
///
/// # Source
/// Fourier, layers in series; the growth with mean temperature is how ISO 10456 and makers'
/// sheets state it, linear from 10 C.
///
/// # Checked
/// TL-04 (Duffie and Beckman, example 6.4.3): 0.9 W/(m2 K). Kirchhoff's integral for one layer.
///
/// # Example
/// ```
/// use physics::panel::{Layer, back::stack_conductance_w_m2_k};
/// let wool = Layer {
///     thickness_m: 0.05, conductivity_w_m_k: 0.04, conductivity_growth_1_k: 0.0,
///     density_kg_m3: 45.0, heat_capacity_j_kg_k: 840.0,
/// };
/// let stack = stack_conductance_w_m2_k(&[wool], 373.15, 293.15).unwrap();
/// assert!((stack.conductance_w_m2_k - 0.8).abs() < 1e-12);
/// ```
pub fn stack_conductance_w_m2_k(
    layers: &[Layer],
    inner_k: f64,
    outer_k: f64,
) -> Result<Stack, PanelError> {
    stack_to_air(layers, inner_k, OutsideAir { air_k: outer_k, film_w_m2_k: f64::INFINITY })
}

/// Air on the outer side of a stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutsideAir {
    /// Its temperature \[K\].
    pub air_k: f64,
    /// Film coefficient from the outer face to it, wind and radiation together \[W/(m2 K)\]; 10 to
    /// 25 (ISO 6946 takes 25 outdoors). Infinite where the outer face is as warm as the air.
    pub film_w_m2_k: f64,
}

/// As [`stack_conductance_w_m2_k`], with an outside film between the outer face and the air.
///
/// The conductance is from the inner face to the air; the last of the temperatures is the outer
/// face's, which the film keeps above the air's.
///
/// # Valid range
/// As there; film above zero.
///
/// # Source
/// As there.
///
/// # Checked
/// Faces of 25 mm polystyrene foam behind 13, 25 and 50 mm of mineral wool.
pub fn stack_to_air(
    layers: &[Layer],
    inner_k: f64,
    outside: OutsideAir,
) -> Result<Stack, PanelError> {
    let air_k = within("temperature of the outer side [K]", outside.air_k, TEMPERATURES_K)?;
    let film = within("outside film [W/(m2 K)]", outside.film_w_m2_k, 1e-3..=f64::INFINITY)?;
    within("temperature of the inner side [K]", inner_k, TEMPERATURES_K)?;
    within("number of layers", layers.len() as f64, 1.0..=1000.0)?;
    for layer in layers {
        within("thickness of a layer [m]", layer.thickness_m, 1e-6..=10.0)?;
        within("conductivity of a layer [W/(m K)]", layer.conductivity_w_m_k, 1e-4..=1e4)?;
        within("growth of a conductivity [1/K]", layer.conductivity_growth_1_k, -0.1..=0.1)?;
    }
    let mut interfaces_k: Vec<f64> = (0..=layers.len())
        .map(|at| inner_k + (air_k - inner_k) * at as f64 / layers.len() as f64)
        .collect();
    // Conductivities from temperatures, temperatures from conductivities; with growths of a
    // hundredth a kelvin and less each round brings several times more closeness.
    for _ in 0..200 {
        let mut resistances = Vec::with_capacity(layers.len());
        for (layer, faces_k) in layers.iter().zip(interfaces_k.windows(2)) {
            let conductivity = conductivity_w_m_k(layer, 0.5 * (faces_k[0] + faces_k[1]));
            within("conductivity of a layer when so warm or cold", conductivity, 1e-5..=1e5)?;
            resistances.push(layer.thickness_m / conductivity);
        }
        let conductance_w_m2_k = 1.0 / (resistances.iter().sum::<f64>() + 1.0 / film);
        let flux_w_m2 = conductance_w_m2_k * (inner_k - air_k);
        let mut change_k = 0.0_f64;
        let mut here_k = inner_k;
        for (resistance, place_k) in resistances.iter().zip(&mut interfaces_k[1..]) {
            here_k -= flux_w_m2 * resistance;
            change_k = change_k.max((here_k - *place_k).abs());
            *place_k = here_k;
        }
        if change_k < 1e-9 {
            return Ok(Stack { conductance_w_m2_k, interfaces_k });
        }
    }
    Err(PanelError::NoBalance {
        balance: "temperatures of the joints [K]",
        low: inner_k.min(air_k),
        high: inner_k.max(air_k),
    })
}

/// Heat through the insulation around the sheet's rim, over the difference to the air \[W/K\].
///
/// `U A` with the rim's layer at its mean temperature. As in the source no outside film is
/// counted; it would take some five to ten per cent off.
///
/// `inner_k`: inside of the rim, about the plate \[K\]; `outer_k`: outdoor air \[K\].
///
/// # Valid range
/// As [`stack_conductance_w_m2_k`]; an area of zero or more.
///
/// # Source
/// Duffie and Beckman 2006, eq. 6.4.11 (heat through the rim as through a plane wall).
///
/// # Checked
/// TL-04: 0.12 W/(m2 K) of panel within 0.06.
pub fn edge_loss_w_k(edge: &Edge, inner_k: f64, outer_k: f64) -> Result<f64, PanelError> {
    let area_m2 = within("area of the rim [m2]", edge.area_m2, 0.0..=1e4)?;
    let stack = stack_conductance_w_m2_k(&[edge.layer], inner_k, outer_k)?;
    Ok(stack.conductance_w_m2_k * area_m2)
}

/// Loss by outdoor air passing through the gap, per area of sheet \[W/(m2 K)\].
///
/// `n rho cp L / 3600 / 2`: every change warms the gap's volume from outdoors to the gap's own
/// temperature, which stands about halfway between plate and outdoors; hence the half, so that
/// the answer multiplies plate less outdoors. Air at 10 C, 1 atm.
///
/// `gap_m`: depth of the gap \[m\].
///
/// # Valid range
/// 0 to 10 000 changes an hour, gap 0.5 mm to 1 m; else an error. The half is rough: with a
/// cold cover it is less, with the leak along the plate more.
///
/// # Source
/// Heat of exchanged air, ISO 13789 (`H = rho cp V'`); halfway: common practice.
///
/// # Checked
/// ISO 13789's 0.33 to 0.34 Wh/(m3 K) for outdoor air.
pub fn leakage_w_m2_k(box_air: &BoxAir, gap_m: f64) -> Result<f64, PanelError> {
    let changes_1_h = within("changes of air [1/h]", box_air.changes_1_h, 0.0..=1e4)?;
    let gap_m = within("gap [m]", gap_m, 5e-4..=1.0)?;
    let air = crate::matter::air::air_properties(TEN_CELSIUS_K);
    let volume_heat_j_m3_k = air.density_kg_m3 * air.heat_capacity_j_kg_k;
    Ok(0.5 * changes_1_h / 3600.0 * volume_heat_j_m3_k * gap_m)
}

/// Loss through back, rim and leaking joints together, to the outdoor air, per area of sheet
/// \[W/(m2 K)\].
///
/// A panel without cover has no gap for air to leak through: the wind reaches its sheet itself.
///
/// `sheet_k`, `air_k`: sheet and outdoor air \[K\].
///
/// # Valid range
/// As [`stack_conductance_w_m2_k`], [`edge_loss_w_k`], [`leakage_w_m2_k`].
///
/// # Source
/// Duffie and Beckman 2006, section 6.4: back and edge side by side.
///
/// # Checked
/// TL-04 through its parts.
pub fn rest_loss_w_m2_k(panel: &Built, sheet_k: f64, air_k: f64) -> Result<f64, PanelError> {
    let back = stack_conductance_w_m2_k(&panel.back, sheet_k, air_k)?;
    let edge_w_k = edge_loss_w_k(&panel.edge, sheet_k, air_k)?;
    let leakage_w_m2_k = match panel.covers.first() {
        Some(cover) => leakage_w_m2_k(&panel.box_air, cover.gap_m)?,
        None => 0.0,
    };
    Ok(back.conductance_w_m2_k + edge_w_k / panel.sheet.area_m2() + leakage_w_m2_k)
}

fn conductivity_w_m_k(layer: &Layer, mean_k: f64) -> f64 {
    layer.conductivity_w_m_k * (1.0 + layer.conductivity_growth_1_k * (mean_k - TEN_CELSIUS_K))
}

/// The mean temperature at which makers state conductivities \[K\].
const TEN_CELSIUS_K: f64 = ZERO_CELSIUS_K + 10.0;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn layer(thickness_m: f64, conductivity_w_m_k: f64, conductivity_growth_1_k: f64) -> Layer {
        Layer {
            thickness_m,
            conductivity_w_m_k,
            conductivity_growth_1_k,
            density_kg_m3: 40.0,
            heat_capacity_j_kg_k: 900.0,
        }
    }

    /// Given: plate 140 C, air 25 C, 25 mm of expanded polystyrene (0.036 W/(m K)) behind 13, 25,
    /// 50 mm of mineral wool (0.040). Expected: the foam's warm face at 106, 89, 69 C, series
    /// resistances worked by hand elsewhere. That sum does not say its outside film; the three
    /// answers fit only if 0.076 to 0.095 m2K/W lies outside, so 12 W/(m2 K) is given here.
    /// Tolerance 0.5 K: whole degrees.
    #[test]
    fn foam_behind_mineral_wool() {
        for (wool_m, face_c) in [(0.013, 106.0), (0.025, 89.0), (0.050, 69.0)] {
            let layers = [layer(wool_m, 0.040, 0.0), layer(0.025, 0.036, 0.0)];
            let outside = OutsideAir { air_k: 298.15, film_w_m2_k: 12.0 };
            let stack = stack_to_air(&layers, 413.15, outside).unwrap();
            let got_c = stack.interfaces_k[1] - ZERO_CELSIUS_K;
            assert!((got_c - face_c).abs() <= 0.5, "{wool_m} m: {got_c} against {face_c}");
        }
    }

    /// Given: one layer, k = 0.036 (1 + 0.005 (T - 10 C)), faces 110 and 10 C. Expected:
    /// Kirchhoff's integral, exact: mean k = 0.036 (1 + 0.005 * 50) = 0.045; 0.45 W/(m2 K).
    #[test]
    fn conductivity_grows_with_temperature() {
        let stack = stack_conductance_w_m2_k(&[layer(0.1, 0.036, 0.005)], 383.15, 283.15).unwrap();
        assert!((stack.conductance_w_m2_k - 0.45).abs() < 1e-12);
    }

    /// Given: two layers of one material with growth. Expected: the joint where one layer of the
    /// whole thickness has that temperature, by Kirchhoff: `T + g (T - 10)^2/2` is linear across
    /// it (exact). Faces 140 and 10 C, g = 0.006.
    #[test]
    fn a_joint_inside_one_material_changes_nothing() {
        let half = layer(0.02, 0.035, 0.006);
        let split = stack_conductance_w_m2_k(&[half, half], 413.15, 283.15).unwrap();
        let whole = stack_conductance_w_m2_k(&[layer(0.04, 0.035, 0.006)], 413.15, 283.15).unwrap();
        let difference = split.conductance_w_m2_k / whole.conductance_w_m2_k - 1.0;
        assert!(difference.abs() < 1e-9);
        let potential = |rise_k: f64| rise_k + 0.006 * rise_k * rise_k / 2.0;
        let joint = potential(split.interfaces_k[1] - 283.15);
        assert!((joint - 0.5 * potential(130.0)).abs() < 1e-6);
    }

    /// Given: 100 changes an hour in a 25 mm gap. Expected: 0.34 Wh/(m3 K) (ISO 13789, handbook
    /// round value 0.33 to 0.34) times 2.5 m3/(m2 h), halved: 0.425. Tolerance 4 %.
    #[test]
    fn leaking_air_carries_heat() {
        let loss = leakage_w_m2_k(&BoxAir { changes_1_h: 100.0 }, 0.025).unwrap();
        assert!((loss / 0.425 - 1.0).abs() < 0.04, "{loss}");
    }

    /// Given: numbers that mean nothing. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        let sound = layer(0.05, 0.04, 0.0);
        assert!(stack_conductance_w_m2_k(&[], 300.0, 290.0).is_err());
        assert!(stack_conductance_w_m2_k(&[layer(0.0, 0.04, 0.0)], 300.0, 290.0).is_err());
        assert!(stack_conductance_w_m2_k(&[layer(0.05, f64::NAN, 0.0)], 300.0, 290.0).is_err());
        assert!(stack_conductance_w_m2_k(&[sound], f64::NAN, 290.0).is_err());
        // So much growth that the conductivity would turn negative in the cold.
        assert!(stack_conductance_w_m2_k(&[layer(0.05, 0.04, 0.1)], 270.0, 250.0).is_err());
        assert!(leakage_w_m2_k(&BoxAir { changes_1_h: -1.0 }, 0.025).is_err());
    }

    proptest! {
        /// Temperatures fall from inside to outside, and more insulation never loses more.
        #[test]
        fn thicker_never_loses_more(
            thicknesses_m in proptest::collection::vec(0.002..0.1_f64, 1..5),
            growth_1_k in 0.0..0.01_f64,
            extra_m in 0.001..0.1_f64,
            plate_c in 20.0..200.0_f64,
        ) {
            let outside = OutsideAir { air_k: 283.15, film_w_m2_k: 15.0 };
            let plate_k = plate_c + ZERO_CELSIUS_K;
            let mut layers: Vec<Layer> =
                thicknesses_m.iter().map(|&thick_m| layer(thick_m, 0.04, growth_1_k)).collect();
            let before = stack_to_air(&layers, plate_k, outside).unwrap();
            prop_assert!(before.interfaces_k.windows(2).all(|faces_k| faces_k[0] > faces_k[1]));
            layers[0].thickness_m += extra_m;
            let after = stack_to_air(&layers, plate_k, outside).unwrap();
            prop_assert!(after.conductance_w_m2_k < before.conductance_w_m2_k);

            let edge = |thick_m| Edge { layer: layer(thick_m, 0.04, growth_1_k), area_m2: 0.4 };
            let thin = edge_loss_w_k(&edge(thicknesses_m[0]), plate_k, 283.15).unwrap();
            let thick = edge_loss_w_k(&edge(thicknesses_m[0] + extra_m), plate_k, 283.15).unwrap();
            prop_assert!(thick < thin);
        }
    }
}
