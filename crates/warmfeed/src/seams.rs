//! Stretches of tube with another bond: what the year takes in their place, and what they cost.

use anyhow::Result;
use physics::matter::fluid::properties_held;
use physics::panel::mass::gross_area_m2;
use physics::panel::route::Stretch;
use physics::panel::standard_test::{
    STANDARD_FLOW_KG_S_M2, STANDARD_WIND_M_S, Stand, standard_stand, steady,
};
use physics::panel::{Built, Panel, Passage};
use physics::sun::wind_film_w_m2_k;
use physics::{Build, ZERO_CELSIUS_K};
use plate::{Inflow, Question, even_bond_w_m_k};
use year::ledger::KWH_J;
use year::{Forcing, Plant, Recorder, Upset, march, spared_heat_j};

/// Temperature of the fluid for its properties in the chain \[K\].
const FLUID_K: f64 = ZERO_CELSIUS_K + 40.0;

/// Under which circumstances an even bond is sought.
#[derive(Clone, Copy)]
struct Setting {
    /// Mean fluid above air \[K\].
    rise_k: f64,
    /// Size of a cell \[m\].
    cell_m: f64,
}

/// What the year goes by: half way up the curve of a home-made panel, two cells to a tube.
const USUAL: Setting = Setting { rise_k: 20.0, cell_m: 0.01 };
/// The same on cells twice as large, and with fluid twice as far above the air: what their bond
/// differs by is what the usual one may be off.
const OTHERS: [Setting; 2] = [Setting { cell_m: 0.02, ..USUAL }, Setting { rise_k: 40.0, ..USUAL }];

/// The build with one even bond in the place of each panel's stretches, and the first panel's
/// \[W/(m K)\]; `None` where no panel has any.
///
/// The even bond is the one with which the plate picture gains the same heat in standard sun, the
/// fluid 20 K above the air.
pub fn evened(build: &Build) -> Result<Option<(Build, f64)>> {
    let mut evened = build.clone();
    let mut known: Option<(&Built, f64)> = None;
    for (panel, other) in build.panel.panels.iter().zip(&mut evened.panel.panels) {
        let Some(built) = panel.built().filter(|built| has_stretches(built)) else { continue };
        let bond_w_m_k = match known {
            Some((like, bond_w_m_k)) if like == built => bond_w_m_k,
            _ => even_bond(build, built, USUAL)?,
        };
        known = known.or(Some((built, bond_w_m_k)));
        if let Some(built) = other.built_mut() {
            put_bond(built, bond_w_m_k);
        }
    }
    Ok(known.map(|(_, bond_w_m_k)| (evened, bond_w_m_k)))
}

fn has_stretches(built: &Built) -> bool {
    built.tubes().is_some_and(|tubes| !tubes.stretches.is_empty())
}

fn put_bond(built: &mut Built, bond_w_m_k: f64) {
    if let Passage::Tubes(tubes) = &mut built.passage {
        tubes.bond_w_m_k = bond_w_m_k;
        tubes.stretches.clear();
    }
}

/// The even bond of a panel made at home, in some setting \[W/(m K)\].
fn even_bond(build: &Build, built: &Built, setting: Setting) -> Result<f64> {
    let film = wind_film_w_m2_k(build.sun.wind_film, STANDARD_WIND_M_S)?;
    let stand = Stand { tilt: build.sun.plane.tilt, ..standard_stand(film) };
    let panel = Panel::Built(Box::new(built.clone()));
    let flow_kg_s = STANDARD_FLOW_KG_S_M2 * gross_area_m2(&panel);
    let fluid = properties_held(build.circuit.fluid, FLUID_K)?;
    let mean_k = stand.around.ambient_k + setting.rise_k;
    let guess = steady(&panel, &stand, flow_kg_s, &fluid, mean_k)?;
    let inlet_k = mean_k - 0.5 * (guess.outlet_k - guess.inlet_k);
    let inflow = Inflow { fluid: build.circuit.fluid, inlet_k, flow_kg_s };
    match Question::of_panel(built, &stand, inflow, setting.cell_m)? {
        Some(question) => Ok(even_bond_w_m_k(&question)?),
        None => Ok(f64::INFINITY),
    }
}

/// A year's heat, and how closely it is known.
#[derive(Clone, Copy)]
pub struct Spared {
    /// Spared heat that is missing by a stretch \[kWh/a\].
    pub cost_kwh: f64,
    /// How closely that is known \[kWh/a\].
    pub tolerance_kwh: f64,
}

/// What each stretch of the build's panels costs in a year of the same sun and draws: the year with
/// the stretch bonded like the rest, less the year as it is.
///
/// Its tolerance is what the answer changes by on cells twice as large, and in another setting.
pub fn years(build: &Build, forcing: &Forcing) -> Result<Vec<Spared>> {
    let in_setting = |setting: Setting| costs_kwh(build, forcing, setting);
    let (usual, others) = std::thread::scope(|scope| {
        let others = OTHERS.map(|setting| scope.spawn(move || in_setting(setting)));
        let usual = in_setting(USUAL);
        let joined = others
            .map(|thread| thread.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        (usual, joined)
    });
    let usual = usual?;
    let [coarse, hot] = others;
    let (coarse, hot) = (coarse?, hot?);
    Ok(usual
        .iter()
        .zip(coarse.iter().zip(&hot))
        .map(|(&cost_kwh, (coarse_kwh, hot_kwh))| Spared {
            cost_kwh,
            tolerance_kwh: (cost_kwh - coarse_kwh).abs() + (cost_kwh - hot_kwh).abs(),
        })
        .collect())
}

fn costs_kwh(build: &Build, forcing: &Forcing, setting: Setting) -> Result<Vec<f64>> {
    let stretches = build
        .panel
        .panels
        .first()
        .and_then(Panel::built)
        .and_then(Built::tubes)
        .map_or(0, |tubes| tubes.stretches.len());
    let year_of = |left_out: Option<usize>| -> Result<_> {
        let mut changed = build.clone();
        let bond_w_m_k = {
            let Some(first) = changed.panel.panels.first_mut().and_then(Panel::built_mut) else {
                anyhow::bail!("the build has no panel made at home");
            };
            if let (Some(at), Passage::Tubes(tubes)) = (left_out, &mut first.passage) {
                let _: Stretch = tubes.stretches.remove(at);
            }
            even_bond(build, first, setting)?
        };
        for panel in &mut changed.panel.panels {
            if let Some(built) = panel.built_mut() {
                put_bond(built, bond_w_m_k);
            }
        }
        let plant = Plant::compile(&changed)?;
        let (ledger, _) = march(&plant, forcing, &Upset::none(), &mut Recorder::none())?;
        Ok(ledger.year())
    };
    let as_it_is = year_of(None)?;
    (0..stretches).map(|at| Ok(spared_heat_j(&year_of(Some(at))?, &as_it_is) / KWH_J)).collect()
}
