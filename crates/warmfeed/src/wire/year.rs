//! A year as JSON.

use std::collections::BTreeMap;

use physics::store::Store;
use physics::sun::Clouds;
use physics::{Build, ZERO_CELSIUS_K};
use schemars::JsonSchema;
use serde::Serialize;
use year::ledger::KWH_J;
use year::{Event, EventKind, Forcing, Tally, YearResult, share, spared_heat_j};

use super::band::{BandWire, BesideWire, NextWire, RangeWire};
use super::check::AssumedWire;
use super::circuit::CircuitWire;
use super::panel::StagnationWire;
use super::problem::ProblemWire;

/// What `warmfeed year --json` prints.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct YearWire {
    /// The build's title.
    pub title: String,
    /// Whose weather it was.
    pub climate: ClimateWire,
    /// What the light did within the hours.
    pub clouds: CloudsWire,
    /// How hot the panel's parts get when nothing takes their heat; null without a panel.
    pub stagnation: Option<StagnationWire>,
    /// The whole year.
    pub year: MonthWire,
    /// Each month, January first, with the same keys.
    pub months: Vec<MonthWire>,
    /// Flow, velocities, pressures and growth in the circuit; null without a panel.
    pub circuit: Option<CircuitWire>,
    /// How far stored and crossed heat disagree.
    pub balance: BalanceWire,
    /// Spared heat were the store fully mixed, and were nothing in it to mix by falling cold.
    pub bracket: BracketWire,
    /// The band of spared heat and who makes it; null where it was left out.
    pub band: Option<BandWire>,
    /// The bands of the year's figures, by the keys of `year`; null where they were left out.
    pub bands: Option<BTreeMap<String, RangeWire>>,
    /// What one step of each value is worth; null where it was not asked for.
    pub next: Option<NextWire>,
    /// Another build beside this one; null where none was named.
    pub beside: Option<BesideWire>,
    /// What happened for the first time in the year.
    pub events: Vec<EventWire>,
    /// What was not written and therefore assumed.
    pub assumed: Vec<AssumedWire>,
    /// What is doubtful in the input.
    pub problems: Vec<ProblemWire>,
}

/// What any computing command prints when it could not compute.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct FailedWire {
    /// What stood in the way.
    pub problems: Vec<ProblemWire>,
}

/// Whose weather a year was computed with.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct ClimateWire {
    /// The file's name as the design gives it.
    pub name: String,
    /// Where the data come from, in a few words.
    pub source: String,
    /// Latitude, north positive.
    pub latitude_deg: f64,
    /// Longitude, east positive.
    pub longitude_deg: f64,
    /// `hourly` or `monthly`.
    pub kind: String,
}

/// What the light did within the hours, by which pump starts are to be judged.
#[derive(Clone, Copy, Debug, JsonSchema, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CloudsWire {
    /// It ran smoothly: the heat stands, the starts are those of a sky without passing clouds.
    Smooth,
    /// Clouds passed minute by minute.
    Minutes,
}

impl From<Clouds> for CloudsWire {
    fn from(clouds: Clouds) -> Self {
        match clouds {
            Clouds::Smooth => CloudsWire::Smooth,
            Clouds::Minutes { .. } => CloudsWire::Minutes,
        }
    }
}

/// A month or the year.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct MonthWire {
    /// Sun on a horizontal square metre.
    pub horizontal_irradiation_kwh_m2: f64,
    /// Sun on a square metre in the panel's plane.
    pub plane_irradiation_kwh_m2: f64,
    /// Sun on all sheets.
    pub plane_irradiation_kwh: f64,
    /// Light taken up by the sheets.
    pub absorbed_kwh: f64,
    /// Lost by the panels to air, sky and house.
    pub panel_loss_kwh: f64,
    /// Fluid's gain at the panels' ports.
    pub panel_heat_kwh: f64,
    /// Lost by the pipes.
    pub circuit_loss_kwh: f64,
    /// From fluid to store water.
    pub coil_heat_kwh: f64,
    /// Lost by the store to the loft; negative where the loft warms it.
    pub store_loss_kwh: f64,
    /// Carried off by vapour at the lid.
    pub evaporation_kwh: f64,
    /// Let go by the overheat discharge.
    pub dumped_kwh: f64,
    /// Carried out of the store by drawn water, above its mains temperature.
    pub tap_heat_kwh: f64,
    /// The same without a panel.
    pub twin_tap_heat_kwh: f64,
    /// Carried out by what else the store feeds, above its mains temperature; spares nothing.
    pub other_heat_kwh: f64,
    /// What brings all drawn water from mains to delivery temperature.
    pub need_heat_kwh: f64,
    /// What the heater gives.
    pub topup_heat_kwh: f64,
    /// What the heater's cylinder loses by standing; part of what it gives.
    pub heater_loss_kwh: f64,
    /// What an instantaneous heater would not give, its water being warmer than it lets in.
    pub unmet_heat_kwh: f64,
    /// What it gives without a panel.
    pub twin_topup_heat_kwh: f64,
    /// Twin's top-up less the build's, and less what the heater would not give.
    pub spared_heat_kwh: f64,
    /// Spared heat over the twin's top-up.
    pub share: f64,
    /// Electricity of the pump.
    pub pump_kwh: f64,
    /// Time it ran.
    pub pump_hours: f64,
    /// Of that, hours against frost alone, which take heat out of the store.
    pub frost_hours: f64,
    /// Times it started.
    pub pump_starts: u32,
    /// Mean length of a run; null where it never started.
    pub pump_run_min: Option<f64>,
    /// Time the fluid ran to the store by its own weight, no pump moving it.
    pub gravity_hours: f64,
    /// Heat it brought to the store meanwhile.
    pub gravity_heat_kwh: f64,
    /// Time it ran backwards by its own weight.
    pub reverse_hours: f64,
    /// Heat it took out of the store meanwhile.
    pub reverse_heat_kwh: f64,
    /// Hottest the sheet got; null where there is none.
    pub plate_max_c: Option<f64>,
    /// Hottest the fluid outside the panels got; null where there is no panel.
    pub circuit_max_c: Option<f64>,
    /// Hottest the store's water got.
    pub store_max_c: f64,
    /// Mean of the store's water.
    pub store_mean_c: f64,
    /// Hours in which the store's mean stood from 20 to 45 C.
    pub hours_store_20_45_c: f64,
    /// Hours in which the water at the cold taps' outlet stood above 20 C, the limit in Scotland
    /// and Northern Ireland; null where the store feeds none.
    pub hours_cold_tap_above_20_c: Option<f64>,
    /// The same above 25 C, the limit in England and Wales.
    pub hours_cold_tap_above_25_c: Option<f64>,
    /// Water let go by the overheat discharge.
    pub dumped_l: f64,
    /// Water drawn.
    pub drawn_l: f64,
    /// Water taken by what else the store feeds.
    pub other_l: f64,
}

impl MonthWire {
    /// True where the pump starts many times for short runs, over a year: judgement, from what a pump
    /// does on a clear day (one long run) and between clouds (a few an hour).
    pub fn pump_hunts(&self) -> bool {
        const SHORT_RUN_MIN: f64 = 15.0;
        const MANY_STARTS: u32 = 2000;
        self.pump_starts > MANY_STARTS
            && self.pump_run_min.is_some_and(|run_min| run_min < SHORT_RUN_MIN)
    }
}

/// How far stored and crossed heat disagree.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct BalanceWire {
    /// Sum of the stations' disagreements.
    pub residual_kwh: f64,
    /// That over the panel heat, or over one kilowatt-hour where that is more.
    pub residual_share: f64,
}

/// Spared heat between the two ends of what mixing in the store can do.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct BracketWire {
    /// Store of one layer.
    pub mixed_kwh: f64,
    /// Falling cold takes nothing along.
    pub unmixed_kwh: f64,
}

/// Something that happened for the first time in the year.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
pub struct EventWire {
    /// Minute of the year, from 0.
    pub minute: usize,
    /// What happened.
    pub what: EventKindWire,
}

/// What can happen.
#[derive(Clone, Copy, Debug, JsonSchema, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum EventKindWire {
    /// The pump ran.
    PumpStarted,
    /// The store came to its limit.
    StoreFull,
    /// The panel came to the temperature that stops the pump.
    PanelTooHot,
    /// The frost action called for the pump.
    FrostCalled,
    /// The overheat discharge opened.
    Discharged,
    /// Fluid outside the panels passed 100 C.
    CircuitAbove100C,
    /// The store's top passed 60 C.
    StoreAbove60C,
}

impl From<&Event> for EventWire {
    fn from(event: &Event) -> Self {
        EventWire {
            minute: event.minute,
            what: match event.kind {
                EventKind::PumpStarted => EventKindWire::PumpStarted,
                EventKind::StoreFull => EventKindWire::StoreFull,
                EventKind::PanelTooHot => EventKindWire::PanelTooHot,
                EventKind::FrostCalled => EventKindWire::FrostCalled,
                EventKind::Discharged => EventKindWire::Discharged,
                EventKind::CircuitAbove100C => EventKindWire::CircuitAbove100C,
                EventKind::StoreAbove60C => EventKindWire::StoreAbove60C,
            },
        }
    }
}

impl From<year::Balance> for BalanceWire {
    fn from(balance: year::Balance) -> Self {
        BalanceWire {
            residual_kwh: balance.residual_j / KWH_J,
            residual_share: balance.residual_share,
        }
    }
}

/// Sun of a span, from the forcing.
struct Sunlight {
    horizontal_kwh_m2: f64,
    plane_kwh_m2: f64,
    area_m2: f64,
}

/// A month of a result, 0 January to 11 December.
pub fn month(result: &YearResult, forcing: &Forcing, build: &Build, month: usize) -> MonthWire {
    span(
        &result.build.months[month],
        &result.twin.months[month],
        &Sunlight {
            horizontal_kwh_m2: forcing.light.horizontal_kwh_m2[month],
            plane_kwh_m2: forcing.light.plane_kwh_m2[month],
            area_m2: build.panel.area_m2(),
        },
        &build.store,
    )
}

/// The whole year of a result.
pub fn whole(result: &YearResult, forcing: &Forcing, build: &Build) -> MonthWire {
    span(
        &result.build.year(),
        &result.twin.year(),
        &Sunlight {
            horizontal_kwh_m2: forcing.light.horizontal_kwh_m2.iter().sum(),
            plane_kwh_m2: forcing.light.plane_kwh_m2.iter().sum(),
            area_m2: build.panel.area_m2(),
        },
        &build.store,
    )
}

fn span(build: &Tally, twin: &Tally, sun: &Sunlight, store: &Store) -> MonthWire {
    let kwh = |joules: f64| joules / KWH_J;
    let celsius = |kelvin: f64| kelvin - ZERO_CELSIUS_K;
    let hottest_c = |kelvin: f64| (kelvin > 0.0).then(|| celsius(kelvin));
    let of_taps = |seconds: f64| store.feeds_cold_taps().then_some(seconds / 3600.0);
    let flows = build.flows();
    MonthWire {
        horizontal_irradiation_kwh_m2: sun.horizontal_kwh_m2,
        plane_irradiation_kwh_m2: sun.plane_kwh_m2,
        plane_irradiation_kwh: sun.plane_kwh_m2 * sun.area_m2,
        absorbed_kwh: kwh(flows.absorbed_j),
        panel_loss_kwh: kwh(flows.panel_loss_j()),
        panel_heat_kwh: kwh(flows.panel_heat_j),
        circuit_loss_kwh: kwh(flows.circuit_loss_j),
        coil_heat_kwh: kwh(flows.coil_heat_j),
        store_loss_kwh: kwh(flows.store_loss_j),
        evaporation_kwh: kwh(flows.evaporation_j),
        dumped_kwh: kwh(build.dumped_j),
        tap_heat_kwh: kwh(build.tap_heat_j),
        twin_tap_heat_kwh: kwh(twin.tap_heat_j),
        other_heat_kwh: kwh(build.other_heat_j),
        need_heat_kwh: kwh(build.need_heat_j),
        topup_heat_kwh: kwh(build.topup_heat_j),
        heater_loss_kwh: kwh(build.heater_loss_j),
        unmet_heat_kwh: kwh(build.unmet_heat_j),
        twin_topup_heat_kwh: kwh(twin.topup_heat_j),
        spared_heat_kwh: kwh(spared_heat_j(build, twin)),
        share: share(build, twin),
        pump_kwh: kwh(build.pump_j),
        pump_hours: build.pump_s / 3600.0,
        frost_hours: build.frost_s / 3600.0,
        pump_starts: build.pump_starts,
        pump_run_min: (build.pump_starts > 0)
            .then(|| build.pump_s / 60.0 / f64::from(build.pump_starts)),
        gravity_hours: build.gravity_s / 3600.0,
        gravity_heat_kwh: kwh(build.gravity_heat_j),
        reverse_hours: build.reverse_s / 3600.0,
        reverse_heat_kwh: kwh(build.reverse_heat_j),
        plate_max_c: hottest_c(build.plate_max_k),
        circuit_max_c: hottest_c(build.circuit_max_k),
        store_max_c: celsius(build.store_max_k),
        store_mean_c: celsius(build.store_mean_k()),
        hours_store_20_45_c: build.store_warm_s / 3600.0,
        hours_cold_tap_above_20_c: of_taps(build.cold_tap_above_20_c_s),
        hours_cold_tap_above_25_c: of_taps(build.cold_tap_above_25_c_s),
        dumped_l: build.dumped_m3 * 1000.0,
        drawn_l: build.drawn_m3 * 1000.0,
        other_l: build.other_m3 * 1000.0,
    }
}
