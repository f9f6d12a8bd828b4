//! How hot a panel gets, part by part, when no heat is taken from it.

use super::back::{OutsideAir, rest_loss_w_m2_k, stack_to_air};
use super::error::{PanelError, within};
use super::glazing::{Glazing, Outdoors};
use super::solve::{Bracket, newton_in_bracket};
use super::{Bought, Built};

/// Sunlight that stays in a panel.
#[derive(Clone, Debug, PartialEq)]
pub struct LightKept {
    /// Taken up by the sheet \[W/m2\]; 600 to 900 in full sun.
    pub sheet_w_m2: f64,
    /// Kept by each cover, from the sheet outwards \[W/m2\]; some tens.
    pub covers_w_m2: Vec<f64>,
}

/// Temperature of a dry or idle sheet in steady sun \[K\].
///
/// The `Tp` for which `S = q_top(Tp) + U_rest(Tp) (Tp - Ta)`. A sheet of one temperature: near
/// tubes and rim a real one differs little, since no heat flows along it.
///
/// `rest_w_m2_k`: loss through back, edge and leaking air to the outdoor air, by the sheet's
/// temperature \[W/(m2 K)\].
///
/// # Valid range
/// Light taken up 0 to 1500 W/m2, rest 0 to 50 W/(m2 K), otherwise as [`Glazing::upwards`]; else an
/// error.
///
/// # Source
/// Plate balance, Duffie and Beckman 2006, section 6.2, with the network of section 6.4.
///
/// # Checked
/// ST-03 (single-glazed matt black) within 0.1 K of an independent solution.
pub fn idle_sheet_k(
    glazing: &Glazing,
    around: &Outdoors,
    light: &LightKept,
    rest_w_m2_k: impl Fn(f64) -> Result<f64, PanelError>,
) -> Result<f64, PanelError> {
    let taken_w_m2 = within("absorbed sunlight [W/m2]", light.sheet_w_m2, 0.0..=1500.0)?;
    let lost_w_m2 = |sheet_k: f64| {
        let rest = within("back and edge loss [W/(m2 K)]", rest_w_m2_k(sheet_k)?, 0.0..=50.0)?;
        let up = glazing.upwards(sheet_k, around, &light.covers_w_m2)?.flux_w_m2;
        Ok(up + rest * (sheet_k - around.ambient_k))
    };
    let bracket = Bracket {
        balance: "stagnation temperature [K]",
        // Below the colder end, so that a dark sheet's balance still changes sign.
        low: around.ambient_k.min(around.sky_k) - 0.01,
        high: 900.0,
        width: 1e-5,
    };
    newton_in_bracket(bracket, |sheet_k| {
        // The upper end of the range has no room above it, so the slope looks downwards.
        let lost = lost_w_m2(sheet_k)?;
        let slope = (lost - lost_w_m2(sheet_k - 0.01)?) / 0.01;
        Ok((lost - taken_w_m2, slope))
    })
}

/// Temperatures of a panel's parts at one temperature of its sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct PartTemperatures {
    /// The sheet, with coating, bond and joints on it \[K\].
    pub sheet_k: f64,
    /// Inner and outer face of each cover, from the sheet outwards \[K\].
    pub covers_k: Vec<(f64, f64)>,
    /// Behind the sheet: the first layer's inner face, every joint, the last one's outer face \[K\].
    pub back_k: Vec<f64>,
    /// Inner and outer face of the rim's insulation \[K\].
    pub edge_k: (f64, f64),
}

/// A place in a panel at which a part has to stand the heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// On the sheet.
    Sheet,
    /// Inner face of a cover, counted from the sheet outwards.
    CoverInside(usize),
    /// Outer face of a cover.
    CoverOutside(usize),
    /// Inner face of a layer behind the sheet, counted from the sheet.
    Back(usize),
    /// Inner face of the rim's insulation.
    Rim,
    /// On the pipe from the panel, where metal ends.
    Pipe,
}

impl PartTemperatures {
    /// Temperature at a spot \[K\]; `None` where the panel has no such spot.
    ///
    /// `pipe_share`: share of the sheet's excess over the air that is left on the pipe, see
    /// [`conducted_share`](crate::circuit::pipe::conducted_share); `air_k`: that air \[K\].
    pub fn at(&self, spot: Spot, pipe_share: f64, air_k: f64) -> Option<f64> {
        match spot {
            Spot::Sheet => Some(self.sheet_k),
            Spot::CoverInside(cover) => self.covers_k.get(cover).map(|faces| faces.0),
            Spot::CoverOutside(cover) => self.covers_k.get(cover).map(|faces| faces.1),
            Spot::Back(layer) => self.back_k.get(layer).copied(),
            Spot::Rim => Some(self.edge_k.0),
            Spot::Pipe => Some(air_k + pipe_share * (self.sheet_k - air_k)),
        }
    }
}

/// Temperatures of all parts of a panel whose sheet stands at `sheet_k` \[K\].
///
/// The rim's inner face counts as warm as the sheet, which is a few kelvin too much. Back and rim
/// give off to slow air outside, [`SLOW_AIR_FILM_W_M2_K`].
///
/// # Valid range
/// As [`Glazing::upwards`] and [`stack_to_air`].
///
/// # Source
/// As those.
///
/// # Checked
/// Through its parts.
pub fn part_temperatures(
    panel: &Built,
    glazing: &Glazing,
    around: &Outdoors,
    light: &LightKept,
    sheet_k: f64,
) -> Result<PartTemperatures, PanelError> {
    let outside = OutsideAir { air_k: around.ambient_k, film_w_m2_k: SLOW_AIR_FILM_W_M2_K };
    let edge = stack_to_air(&[panel.edge.layer], sheet_k, outside)?.interfaces_k;
    Ok(PartTemperatures {
        sheet_k,
        covers_k: glazing.upwards(sheet_k, around, &light.covers_w_m2)?.faces_k,
        back_k: stack_to_air(&panel.back, sheet_k, outside)?.interfaces_k,
        edge_k: (edge[0], edge[1]),
    })
}

/// Temperatures of all parts of an idle panel in steady sun.
///
/// # Valid range
/// As [`idle_sheet_k`].
///
/// # Source
/// As [`idle_sheet_k`], with [`rest_loss_w_m2_k`].
///
/// # Checked
/// As [`idle_sheet_k`].
pub fn idle_parts(
    panel: &Built,
    glazing: &Glazing,
    around: &Outdoors,
    light: &LightKept,
) -> Result<PartTemperatures, PanelError> {
    let rest = |sheet_k: f64| rest_loss_w_m2_k(panel, sheet_k, around.ambient_k);
    let sheet_k = idle_sheet_k(glazing, around, light, rest)?;
    part_temperatures(panel, glazing, around, light, sheet_k)
}

/// Temperature of an idle bought panel \[K\].
///
/// From its certificate's own stagnation temperature where it states one, `Ta + (Ts - 30 C)
/// (G/1000)`; else from its curve, which is tens of kelvin too cold (ST-01).
///
/// `irradiance_w_m2`: on its plane; `ambient_k`: outdoor air \[K\].
///
/// # Valid range
/// Irradiance 0 to 1500; else an error.
///
/// # Source
/// ISO 9806:2017, stagnation temperature: the rise taken in proportion to the irradiance (from
/// memory).
///
/// # Checked
/// ST-01: 158.2 C by the curve; the certified 189.4 C at its own conditions.
pub fn idle_bought_k(
    panel: &Bought,
    irradiance_w_m2: f64,
    ambient_k: f64,
) -> Result<f64, PanelError> {
    let sun_w_m2 = within("irradiance [W/m2]", irradiance_w_m2, 0.0..=1500.0)?;
    Ok(match panel.idle_k {
        Some(idle_k) => ambient_k + (idle_k - STANDARD_AIR_K) * sun_w_m2 / STANDARD_SUN_W_M2,
        None => ambient_k + panel.hemispherical_curve().idle_rise_k(sun_w_m2)?,
    })
}

/// Sun of standard stagnation conditions \[W/m2\] (ISO 9806:2017).
pub const STANDARD_SUN_W_M2: f64 = 1000.0;
/// Air of standard stagnation conditions \[K\] (ISO 9806:2017).
pub const STANDARD_AIR_K: f64 = crate::ZERO_CELSIUS_K + 30.0;
/// Film on the cover in wind below 1 m/s \[W/(m2 K)\]: the floor that Mitchell 1976 sets.
pub const STILL_WIND_FILM_W_M2_K: f64 = 5.0;
/// Film outside back and rim in slow air, wind and radiation together \[W/(m2 K)\] (common
/// practice; ISO 6946 takes 25 in wind).
pub const SLOW_AIR_FILM_W_M2_K: f64 = 10.0;

/// Standard surroundings: air of 30 C, hardly any wind, and the sky as warm as the air, which is
/// the hot side.
pub const fn standard_outdoors() -> Outdoors {
    Outdoors {
        ambient_k: STANDARD_AIR_K,
        sky_k: STANDARD_AIR_K,
        wind_film_w_m2_k: STILL_WIND_FILM_W_M2_K,
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::{glass, harp};
    use super::*;
    use crate::Angle;
    use crate::ZERO_CELSIUS_K;

    fn glazing() -> Glazing {
        Glazing::of(&[glass()], 0.95, Angle::from_degrees(45.0)).unwrap()
    }

    fn noon() -> Outdoors {
        Outdoors { ambient_k: 298.15, sky_k: 283.15, wind_film_w_m2_k: 10.0 }
    }

    fn light(sheet_w_m2: f64) -> LightKept {
        LightKept { sheet_w_m2, covers_w_m2: vec![] }
    }

    /// Given: a clear night. Expected: the sheet between sky and air. And in the sun: what it
    /// loses at that temperature is what it takes up (the balance itself), to 1e-3 W/m2.
    #[test]
    fn balances_by_night_and_day() {
        let night = idle_sheet_k(&glazing(), &noon(), &light(0.0), |_| Ok(1.0)).unwrap();
        assert!(night > 283.15 && night < 298.15, "{night}");
        let day_k = idle_sheet_k(&glazing(), &noon(), &light(800.0), |_| Ok(1.0)).unwrap();
        let lost_w_m2 =
            glazing().upwards(day_k, &noon(), &[]).unwrap().flux_w_m2 + (day_k - 298.15);
        assert!((lost_w_m2 - 800.0).abs() < 1e-3, "{lost_w_m2}");
    }

    /// Given: a panel of the trade, matt black under glass, in full sun. Expected: its sheet within
    /// the 110 to 140 C that handbooks give for such panels (Peuser and others 2002, from memory;
    /// up to 20 K more here, for still air and a sky as warm as the air), every part cooler the
    /// farther out it lies, and the light the pane keeps warming it.
    #[test]
    fn parts_of_an_idle_panel() {
        let panel = harp();
        let glazing = Glazing::of(&panel.covers, panel.sheet.emittance, Angle::from_degrees(45.0));
        let glazing = glazing.unwrap();
        let around = standard_outdoors();
        let hot = idle_parts(&panel, &glazing, &around, &light(830.0)).unwrap();
        let sheet_c = hot.sheet_k - ZERO_CELSIUS_K;
        assert!((110.0..160.0).contains(&sheet_c), "{sheet_c}");
        assert!(hot.back_k.windows(2).all(|faces| faces[0] > faces[1]));
        assert!(hot.edge_k.0 > hot.edge_k.1 && hot.covers_k[0].0 < hot.sheet_k);
        let kept = LightKept { covers_w_m2: vec![60.0], ..light(830.0) };
        let with_light = idle_parts(&panel, &glazing, &around, &kept).unwrap();
        assert!(with_light.covers_k[0].0 > hot.covers_k[0].0 + 1.0);
        assert!(with_light.sheet_k > hot.sheet_k);
    }

    /// Given: numbers that mean nothing. Expected: errors.
    #[test]
    fn refuses_nonsense() {
        let rest = |value: f64| move |_: f64| Ok(value);
        assert!(idle_sheet_k(&glazing(), &noon(), &light(-1.0), rest(1.0)).is_err());
        assert!(idle_sheet_k(&glazing(), &noon(), &light(800.0), rest(f64::NAN)).is_err());
        let frozen = Outdoors { ambient_k: 0.0, ..noon() };
        assert!(idle_sheet_k(&glazing(), &frozen, &light(800.0), rest(1.0)).is_err());
    }
}
