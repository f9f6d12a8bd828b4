//! `panel`: one panel by itself, its heat first.

use ::plate::Inflow;
use anyhow::{Result, anyhow};
use design::quantity::{Kind, Units, show};
use physics::ZERO_CELSIUS_K;
use physics::circuit::bank::{panel_flows_kg_s, panel_path};
use physics::circuit::friction::FrictionMethod;
use physics::circuit::harp::harp_flow;
use physics::circuit::network::{Medium, Path};
use physics::circuit::pipe::head_m;
use physics::circuit::pump::working_point_of;
use physics::matter::fluid::{FluidProperties, properties_held};
use physics::panel::Panel;
use physics::panel::capacity::{capacity_j_k, contents_m3, time_constant_s};
use physics::panel::mass::{dry_mass_kg, gross_area_m2};
use physics::panel::optics::optics;
use physics::panel::standard_test::{
    STANDARD_FLOW_KG_S_M2, STANDARD_WIND_M_S, Stand, fitted_curve, standard_stand, steady,
};
use physics::sun::wind_film_w_m2_k;
use physics::{Angle, Build};
use year::{Forcing, Plant};

use super::check::assumed;
use super::load::{Disk, Loaded, load};
use super::plate::{self, Sitter};
use super::{DONE, WRONG_INPUT, failed_json, json, not_completed};
use crate::arguments::PanelAsked;
use crate::pictures::{self, panel_pictures};
use crate::wire::{
    AngleWire, EfficiencyWire, FlowWire, MassWire, ModifierWire, PanelWire, PlateWire, PointWire,
    ProblemWire,
};
use crate::{hot, print, view};

/// Temperature of the fluid for flow and properties \[K\].
const FLUID_K: f64 = ZERO_CELSIUS_K + 40.0;
/// Mean fluid above air at which the sheet is shown \[K\].
const SHOWN_RISE_K: f64 = 20.0;

/// Runs it.
pub fn run(asked: &PanelAsked) -> i32 {
    let loaded = match load(&asked.build, &Disk) {
        Ok(loaded) => loaded,
        Err(said) => {
            said.tell();
            if asked.json {
                // A closed pipe is no error, and the status tells the rest.
                drop(print::out(&failed_json(&said.problems)));
            }
            return WRONG_INPUT;
        }
    };
    loaded.said.tell();
    let units = if asked.json { Units::Metric } else { asked.units.into() };
    let printed = panel_wire(&loaded, asked, units).and_then(|wire| {
        if let Some(folder) = &asked.out {
            let pictures = panel_pictures(&loaded, &wire, units)?;
            print::talk(&pictures::write_alone(folder, &wire.title, &pictures)?);
        }
        if asked.json {
            return print::out(&json(&wire));
        }
        let paper = view::Paper::of(units);
        let head = view::year_head(&loaded.design.title, &loaded.design.story, paper);
        print::page(&format!(
            "{head}{}\n{}",
            view::panel(&wire, paper),
            view::assumed(&loaded.origins, paper)
        ))
    });
    match printed {
        Ok(()) => DONE,
        Err(error) => not_completed(&error, asked.json),
    }
}

/// A panel's figures without its plate picture's.
///
/// # Errors
/// Where the panel or its circuit cannot be reckoned.
pub fn panel_told(loaded: &Loaded, units: Units) -> Result<PanelWire> {
    let asked = PanelAsked {
        build: std::path::PathBuf::new(),
        plate: false,
        out: None,
        json: false,
        units: crate::arguments::UnitsWord::Metric,
    };
    panel_wire(loaded, &asked, units)
}

/// The figures; sentences in them in the units asked for, keys always in their own.
fn panel_wire(loaded: &Loaded, asked: &PanelAsked, units: Units) -> Result<PanelWire> {
    let build = &loaded.build;
    let panel = build.panel.panels.first().ok_or_else(|| anyhow!("the build has no panel"))?;
    // A harp's table of flows takes as long as a year of light: both at once.
    let (forcing, plant) = std::thread::scope(|scope| {
        let plant = scope.spawn(|| Plant::compile(build));
        let forcing = Forcing::of(build, &loaded.climate);
        (forcing, plant.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
    });
    let (forcing, plant) = (forcing?, plant?);
    let stagnation = hot::stagnation(loaded, &plant, &forcing, units)?
        .ok_or_else(|| anyhow!("the build has no panel"))?;
    let fluid = properties_held(build.circuit.fluid, FLUID_K)?;
    let film = wind_film_w_m2_k(build.sun.wind_film, STANDARD_WIND_M_S)?;
    let stand = Stand { tilt: build.sun.plane.tilt, ..standard_stand(film) };
    let gross_m2 = gross_area_m2(panel);
    let flow_kg_s = STANDARD_FLOW_KG_S_M2 * gross_m2;
    let fitted = fitted_curve(panel, &stand, flow_kg_s, &fluid)?;
    // The curve counts by the panel's own area; a test report counts by the gross one.
    let by_gross = panel.area_m2() / gross_m2;
    let shown = {
        let mean_k = stand.around.ambient_k + SHOWN_RISE_K;
        let guess = steady(panel, &stand, flow_kg_s, &fluid, mean_k)?;
        let inlet_k = mean_k - 0.5 * (guess.outlet_k - guess.inlet_k);
        steady(panel, &stand, flow_kg_s, &fluid, inlet_k)?
    };
    let conditions = conditions(&stand, units);
    let picture = asked
        .plate
        .then(|| {
            let fluid = build.circuit.fluid;
            plate::picture(&Sitter {
                drawn: &loaded.drawn,
                forcing: &forcing,
                stand: &stand,
                inflow: Inflow { fluid, inlet_k: shown.inlet_k, flow_kg_s },
                chain: &shown,
                even_bond_w_m_k: loaded.even_bond_w_m_k,
                conditions: conditions.clone(),
            })
        })
        .transpose()?;
    let capacity_j_k = capacity_j_k(panel, fluid.volume_heat_j_m3_k())?;
    let loss_w_k = panel.area_m2() * fitted.curve.a1_w_m2_k;
    let rate_w_k = flow_kg_s * fluid.heat_capacity_j_kg_k;
    Ok(PanelWire {
        title: loaded.design.title.clone(),
        stagnation,
        efficiency: EfficiencyWire {
            eta0: fitted.curve.eta0 * by_gross,
            a1_w_m2_k: fitted.curve.a1_w_m2_k * by_gross,
            a2_w_m2_k2: fitted.curve.a2_w_m2_k2 * by_gross,
            area_m2: gross_m2,
            area_kind: loaded.design.area_kind.to_owned(),
            flow_kg_s,
            conditions,
        },
        points: fitted
            .points
            .iter()
            .map(|point| PointWire {
                reduced_temperature_m2k_w: point.rise_k / stand.sun_w_m2,
                efficiency: point.efficiency * by_gross,
            })
            .collect(),
        modifier: modifier(panel, stand.tilt),
        plate: PlateWire {
            fin_efficiency: shown.removal.fin_efficiency,
            f_prime: shown.removal.f_prime,
            f_r: shown.removal.f_r,
            top_loss_w_m2_k: shown.top_loss_w_m2_k,
            back_loss_w_m2_k: shown.back_loss_w_m2_k,
            edge_loss_w_m2_k: shown.edge_loss_w_m2_k,
            plate_mean_c: shown.plate_mean_k - ZERO_CELSIUS_K,
            picture,
        },
        capacity_kj_k: capacity_j_k / 1000.0,
        time_constant_min: time_constant_s(capacity_j_k, loss_w_k, rate_w_k)? / 60.0,
        flow: flow(build, panel, &fluid)?,
        mass: mass(loaded, panel, &fluid),
        assumed: assumed(&loaded.origins),
        problems: loaded.said.problems.iter().map(ProblemWire::from).collect(),
    })
}

fn conditions(stand: &Stand, units: Units) -> String {
    let show = |kind: Kind, si: f64| show(kind, si, units);
    format!(
        "{}, {:.0} % of it diffuse; air {}, sky {}; wind {}; tilt {:.0} deg; the build's own fluid at {}, {} for each {}",
        show(Kind::Irradiance, stand.sun_w_m2),
        100.0 * stand.diffuse_share,
        show(Kind::Temperature, stand.around.ambient_k),
        show(Kind::Temperature, stand.around.sky_k),
        show(Kind::Speed, STANDARD_WIND_M_S),
        stand.tilt.degrees(),
        show(Kind::Temperature, FLUID_K),
        show(Kind::MassFlow, STANDARD_FLOW_KG_S_M2),
        show(Kind::Area, 1.0)
    )
}

fn modifier(panel: &Panel, tilt: Angle) -> ModifierWire {
    let light = optics(panel, tilt);
    let straight = light.beam(1.0);
    let beam = (1..=8)
        .map(|tens| {
            let angle_deg = 10.0 * f64::from(tens);
            let share = light.beam(Angle::from_degrees(angle_deg).cos()) / straight;
            AngleWire { angle_deg, share }
        })
        .collect();
    ModifierWire { beam, diffuse: light.sky / straight }
}

fn flow(build: &Build, panel: &Panel, fluid: &FluidProperties) -> Result<FlowWire> {
    let medium = Medium { fluid: *fluid, method: FrictionMethod::Churchill1977 };
    let point = working_point_of(&build.circuit, &build.panel, &build.store.coil, fluid)?;
    let flows_kg_s = panel_flows_kg_s(&build.panel, point.flow_kg_s, &medium)?;
    let flow_kg_s = flows_kg_s.first().copied().unwrap_or_default();
    let path = panel_path(panel);
    let l_min = |kg_s: f64| kg_s / fluid.density_kg_m3 * 60_000.0;
    let (tubes_kg_s, unevenness) = match &path {
        Path::Harp(harp) => {
            let divided = harp_flow(harp, flow_kg_s, &medium)?;
            let unevenness = divided.unevenness();
            (divided.risers_kg_s, unevenness)
        }
        _ => (vec![flow_kg_s], 0.0),
    };
    let drop_pa = path.drop_pa(flow_kg_s, &medium)?;
    Ok(FlowWire {
        l_min: l_min(flow_kg_s),
        per_panel_l_min: flows_kg_s.iter().copied().map(l_min).collect(),
        bank_l_min: l_min(point.flow_kg_s),
        pressure_drop_pa: drop_pa,
        head_m: head_m(fluid.density_kg_m3, drop_pa),
        per_tube_l_min: tubes_kg_s.into_iter().map(l_min).collect(),
        unevenness,
    })
}

fn mass(loaded: &Loaded, panel: &Panel, fluid: &FluidProperties) -> MassWire {
    let dry_kg = dry_mass_kg(panel).or(loaded.design.certified_mass_kg);
    let contents_m3 = contents_m3(panel);
    MassWire {
        dry_kg,
        filled_kg: dry_kg.map(|dry_kg| dry_kg + contents_m3 * fluid.density_kg_m3),
        contents_l: contents_m3 * 1000.0,
    }
}
