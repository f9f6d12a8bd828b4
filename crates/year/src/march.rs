//! The year, minute by minute.

mod water;

use std::ops::Range;

use physics::ZERO_CELSIUS_K;
use physics::climate::{HOURS_PER_YEAR, month_of_day};
use physics::control::Memory;

use crate::decide::{
    Around, Flow, MINUTE_S, ProbeShares, decide_discharge, decide_pump, follow_probes,
};
use crate::drift::{DriftBench, drift_kg_s};
use crate::forcing::Forcing;
use crate::heater;
use crate::ledger::{Ledger, Stored, Tally};
use crate::plant::{LEAST_FLOW_KG_S, Plant};
use crate::recorder::{Channel, Recorder};
use crate::result::{Event, EventKind};
use crate::skip;
use crate::state::{Flows, State};
use crate::step_circuit::{Bench, Drive, run_step};
use crate::step_idle::{idle_panels, idle_pipes};
use crate::step_store::{self, PassScratch};
use crate::upset::{Upset, UpsetKind};
use crate::weather::Hour;
use crate::{MINUTES_PER_YEAR, YearError};

/// Days marched before 1 January so that the year does not hang on where the store starts.
const RUN_IN_DAYS: usize = 12;
/// Stride of the sheets in an hour too dim for anything to start \[min\].
const DIM_STRIDE_MIN: usize = 20;
/// How often standing fluid is asked in the dark whether it begins to run \[min\].
const DARK_LOOK_MIN: usize = 10;
/// A flow that changed by less than this share from one minute to the next is steady.
const STEADY_SHARE: f64 = 0.005;
/// No node of a house gets hotter; one that does is a fault of the reckoning \[K\].
const RUNAWAY_K: f64 = 700.0;

/// One plant's year: its ledger, and what happened for the first time. Channels go to `recorder`.
///
/// # Errors
/// A forcing of the wrong length; a node that leaves every sensible range.
pub fn march(
    plant: &Plant,
    forcing: &Forcing,
    upset: &Upset,
    recorder: &mut Recorder,
) -> Result<(Ledger, Vec<Event>), YearError> {
    let days = march_days(plant, forcing, upset, recorder, DAYS_PER_YEAR)?;
    let mut months = [Tally::default(); 12];
    for (day, tally) in days.tallies.iter().enumerate() {
        months[month_of_day(day)].add(tally);
    }
    Ok((Ledger { months, start: days.start, end: days.end }, days.events))
}

const DAYS_PER_YEAR: usize = HOURS_PER_YEAR / 24;

/// Some days of a year.
#[derive(Clone, Debug, PartialEq)]
pub struct Days {
    /// What each day brought.
    pub tallies: Vec<Tally>,
    /// Heat stored as they began.
    pub start: Stored,
    /// Heat stored as they ended.
    pub end: Stored,
    /// What happened for the first time.
    pub events: Vec<Event>,
}

/// The first `days` (1 to 365) of a plant's year, each day by itself.
///
/// # Errors
/// As [`march`].
pub fn march_days(
    plant: &Plant,
    forcing: &Forcing,
    upset: &Upset,
    recorder: &mut Recorder,
    days: usize,
) -> Result<Days, YearError> {
    march_spell(plant, forcing, 0..days, upset, recorder)
}

/// Some days of a plant's year (within 0 to 365), each by itself, from the state that the days before
/// them bring; those go undisturbed.
///
/// # Errors
/// As [`march`].
pub fn march_spell(
    plant: &Plant,
    forcing: &Forcing,
    days: Range<usize>,
    upset: &Upset,
    recorder: &mut Recorder,
) -> Result<Days, YearError> {
    let state = state_before(plant, forcing, days.start)?;
    let start = Stored::of(plant, &state);
    let mut march = March::new(plant, forcing, state, 24 * days.start);
    let mut tallies = Vec::with_capacity(days.len());
    for day in days {
        for hour in day * 24..(day + 1) * 24 {
            march.hour(hour, upset, recorder)?;
        }
        tallies.push(std::mem::take(&mut march.tally));
    }
    let end = Stored::of(plant, &march.state);
    Ok(Days { tallies, start, end, events: march.events })
}

/// Where the nodes stand on 1 January: after the last days of December, marched undisturbed from a
/// store as warm as its loft.
///
/// # Errors
/// As [`march`].
pub fn start_state(plant: &Plant, forcing: &Forcing) -> Result<State, YearError> {
    state_before(plant, forcing, 0)
}

/// Where the nodes stand as a day (0 to 364) begins: after the days before it, as [`start_state`].
///
/// # Errors
/// As [`march`].
pub(crate) fn state_before(
    plant: &Plant,
    forcing: &Forcing,
    day: usize,
) -> Result<State, YearError> {
    let found = forcing.light.absorbed_w_m2.len();
    if found != MINUTES_PER_YEAR {
        return Err(YearError::ForcingLength { found, expected: MINUTES_PER_YEAR });
    }
    let first = (24 * day + HOURS_PER_YEAR - 24 * RUN_IN_DAYS) % HOURS_PER_YEAR;
    let weather = &forcing.hours[first];
    let store_k = weather.loft_k.max(ZERO_CELSIUS_K + 4.0);
    let state = State {
        plate_k: vec![weather.air_k; plant.segments.len()],
        flow_pipe_k: vec![weather.loft_k; plant.flow_pipe.nodes],
        return_pipe_k: vec![weather.loft_k; plant.return_pipe.nodes],
        link_pipe_k: vec![weather.air_k; plant.links.len()],
        layer_k: vec![store_k; plant.store.layers],
        cylinder_k: plant.delivery_k,
        control: Memory { store_probe_k: store_k, ..Memory::at_rest(weather.air_k) },
        discharging: false,
    };
    let mut march = March::new(plant, forcing, state, first);
    for hour in first..first + 24 * RUN_IN_DAYS {
        let hour = hour % HOURS_PER_YEAR;
        if hour == 0 {
            march.turn_the_year();
        }
        march.hour(hour, &Upset::none(), &mut Recorder::none())?;
    }
    Ok(march.state)
}

/// The state on its way through the year, and what has been booked since it was last taken.
struct March<'a> {
    plant: &'a Plant,
    forcing: &'a Forcing,
    state: State,
    tally: Tally,
    events: Vec<Event>,
    hour: Hour,
    bench: Bench,
    scratch: PassScratch,
    shares: ProbeShares,
    /// Place in the forcing's draws of the next one.
    next_draw: usize,
    /// Place in the forcing's feeds of the next one.
    next_feed: usize,
    /// Time for which pipes, store and heater have stood without being stepped \[s\].
    stood_s: f64,
    /// Fluid at the panels' outlet while it flows, else the sheet there \[K\].
    panel_out_k: f64,
    /// Flow by its own weight in the minute before \[kg/s\].
    drift_kg_s: f64,
    /// Where the nodes would stand a minute on.
    ahead: State,
    drift_bench: DriftBench,
}

/// What one minute did, for the recorder.
#[derive(Clone, Default)]
struct Minute {
    absorbed_w_m2: f64,
    coil_heat_w: f64,
    powered: bool,
    flow_kg_s: f64,
    drawn_m3: f64,
    /// What that took out of the store.
    drawn_heat_j: f64,
    discharged_m3: f64,
    /// Places in the forcing's feeds.
    feeds: Range<usize>,
}

impl<'a> March<'a> {
    fn new(plant: &'a Plant, forcing: &'a Forcing, state: State, first_hour: usize) -> Self {
        let first_minute = first_hour * 60;
        March {
            plant,
            forcing,
            tally: Tally::default(),
            events: Vec::new(),
            hour: Hour::room(plant),
            bench: Bench::default(),
            scratch: PassScratch::default(),
            shares: ProbeShares::of(plant),
            next_draw: forcing.draws.partition_point(|draw| (draw.minute as usize) < first_minute),
            next_feed: forcing.feeds.partition_point(|feed| (feed.minute as usize) < first_minute),
            stood_s: 0.0,
            panel_out_k: state.plate_k.last().copied().unwrap_or(ZERO_CELSIUS_K),
            drift_kg_s: 0.0,
            ahead: state.clone(),
            drift_bench: DriftBench::default(),
            state,
        }
    }

    /// New Year: the draws begin again.
    fn turn_the_year(&mut self) {
        self.next_draw = 0;
        self.next_feed = 0;
    }

    fn hour(
        &mut self,
        hour: usize,
        upset: &Upset,
        recorder: &mut Recorder,
    ) -> Result<(), YearError> {
        self.hour.fill(self.plant, &self.forcing.hours[hour])?;
        let first = hour * 60;
        let light = &self.forcing.light.absorbed_w_m2[first..first + 60];
        let brightest_w_m2 = f64::from(light.iter().copied().fold(0.0, f32::max));
        if upset.events.is_empty()
            && self.plant.gravity.is_none()
            && skip::cannot_start(self.plant, &self.hour, brightest_w_m2, hour % 24, &self.state)
            && skip::cannot_discharge(self.plant, &self.hour, &self.state)
        {
            self.quiet_hour(first, recorder);
        } else {
            for minute in first..first + 60 {
                self.minute(minute, upset, recorder);
            }
        }
        self.settle_standing();
        self.check(first)
    }

    /// An hour in which nothing but draws can happen.
    fn quiet_hour(&mut self, first: usize, recorder: &mut Recorder) {
        if !self.plant.segments.is_empty() {
            let light = &self.forcing.light.absorbed_w_m2[first..first + 60];
            for minutes in light.chunks(DIM_STRIDE_MIN) {
                let sum_w_m2: f64 = minutes.iter().map(|&flux| f64::from(flux)).sum();
                let absorbed_w_m2 = sum_w_m2 / minutes.len() as f64;
                let step_s = MINUTE_S * minutes.len() as f64;
                let flows =
                    idle_panels(self.plant, &self.hour, absorbed_w_m2, step_s, &mut self.state);
                self.at_rest().add(&flows);
            }
            self.note_extremes(first, false);
            self.panel_out_k = self.state.plate_k[self.state.plate_k.len() - 1];
        }
        for minute in first..first + 60 {
            let drawn_m3 = self.draw_of(minute, &Upset::none());
            let feeds = self.feeds_of(minute, &Upset::none());
            let mut drawn_heat_j = 0.0;
            if drawn_m3 > 0.0 || !feeds.is_empty() {
                self.settle_standing();
                drawn_heat_j = self.draw(drawn_m3);
                self.top_up(drawn_m3, drawn_heat_j);
                self.feed(feeds, 1.0);
            }
            self.stood_s += MINUTE_S;
            if !recorder.is_idle() {
                let absorbed_w_m2 = f64::from(self.forcing.light.absorbed_w_m2[minute]);
                self.record(
                    minute,
                    &Minute { absorbed_w_m2, drawn_m3, drawn_heat_j, ..Minute::default() },
                    recorder,
                );
            }
        }
        self.state.control.pass(60.0 * MINUTE_S);
        self.follow(ProbeShares::SETTLED, Flow::Resting);
    }

    fn minute(&mut self, minute: usize, upset: &Upset, recorder: &mut Recorder) {
        let plant = self.plant;
        let is = |wrong: UpsetKind| upset.any(minute, |kind| kind == wrong);
        let cut = is(UpsetKind::PowerCut);
        // A twin has no pump to decide on.
        if cut {
            self.state.control.forget();
        } else if plant.flow.is_some() {
            self.decide(minute, upset);
        }
        decide_discharge(plant, &mut self.state);
        let (dead, blocked) = (cut || is(UpsetKind::PumpDead), is(UpsetKind::Blocked));
        let called = self.state.control.running || is(UpsetKind::PumpStuckOn);
        let powered = called && !dead && plant.flow.is_some();
        // A valve that sticks does so where there is one.
        if plant.overheat.is_some() {
            let held_open = is(UpsetKind::DischargeOpen);
            let lets = held_open || (self.state.discharging && !is(UpsetKind::DischargeShut));
            self.state.discharging = lets;
        }
        let mut did = Minute {
            absorbed_w_m2: f64::from(self.forcing.light.absorbed_w_m2[minute]),
            powered,
            drawn_m3: self.draw_of(minute, upset),
            feeds: self.feeds_of(minute, upset),
            ..Minute::default()
        };
        if self.state.discharging {
            self.note(minute, EventKind::Discharged);
            did.discharged_m3 = plant.overheat.map_or(0.0, |valve| valve.flow_m3_s * MINUTE_S);
        }
        if powered {
            self.tally.pump_s += MINUTE_S;
            self.tally.pump_j += plant.flow.as_ref().map_or(0.0, |flow| flow.pump_w) * MINUTE_S;
            if self.state.control.running && !self.state.control.heating {
                self.tally.frost_s += MINUTE_S;
            }
        }
        let drive = match (powered, blocked) {
            (_, true) => None,
            (true, false) => Some(Drive::Pump),
            (false, false) => self.drift(minute, did.absorbed_w_m2),
        };
        self.drift_kg_s = 0.0;
        match drive {
            Some(drive) => self.running_minute(drive, &mut did),
            None => self.resting_minute(&mut did),
        }
        self.follow(self.shares, Flow::of(did.flow_kg_s));
        self.state.control.pass(MINUTE_S);
        self.note_extremes(minute, did.flow_kg_s != 0.0);
        if !recorder.is_idle() {
            self.record(minute, &did, recorder);
        }
    }

    /// Lets the controller decide on the pump.
    fn decide(&mut self, minute: usize, upset: &Upset) {
        let minute_of_day = (minute % 1440) as u16;
        let misreading = upset.misreading(minute);
        let starts = decide_pump(self.plant, misreading, minute_of_day, &mut self.state);
        // A pump that cannot stop cannot start either.
        if starts && !upset.any(minute, |kind| kind == UpsetKind::PumpStuckOn) {
            self.tally.pump_starts += 1;
            self.note(minute, EventKind::PumpStarted);
        }
        let control = self.state.control;
        if control.store_full {
            self.note(minute, EventKind::StoreFull);
        }
        if control.panel_hot {
            self.note(minute, EventKind::PanelTooHot);
        }
        if control.frosty {
            self.note(minute, EventKind::FrostCalled);
        }
    }

    /// Lets the probes follow what they lie in.
    fn follow(&mut self, shares: ProbeShares, flow: Flow) {
        let around = Around {
            hour: &self.hour,
            panel_out_k: self.panel_out_k,
            flow,
            pipes_stood_s: self.stood_s,
        };
        follow_probes(self.plant, shares, &around, &mut self.state);
    }

    /// Whether the fluid's own weight moves it through the minute that begins, and how much: the mean
    /// of what it does at the start and would do at the end, were it to go on so. Where it runs as it
    /// did, the start's will do; in the dark standing fluid is asked every few minutes.
    fn drift(&mut self, minute: usize, absorbed_w_m2: f64) -> Option<Drive> {
        let plant = self.plant;
        let gravity = plant.gravity.as_ref()?;
        if self.drift_kg_s == 0.0 && absorbed_w_m2 == 0.0 && !minute.is_multiple_of(DARK_LOOK_MIN) {
            return None;
        }
        self.settle_standing();
        let bench = &mut self.drift_bench;
        let first_kg_s = drift_kg_s(plant, gravity, &self.state, self.drift_kg_s, bench);
        if first_kg_s.abs() < LEAST_FLOW_KG_S {
            return None;
        }
        let change_kg_s = first_kg_s - self.drift_kg_s;
        if change_kg_s.abs() < STEADY_SHARE * first_kg_s.abs() {
            return Some(Drive::Weight(first_kg_s));
        }
        self.ahead.copy_from(&self.state);
        let step = (MINUTE_S, Drive::Weight(first_kg_s));
        run_step(plant, &self.hour, absorbed_w_m2, step, &mut self.ahead, &mut self.bench);
        let second_kg_s = drift_kg_s(plant, gravity, &self.ahead, first_kg_s, bench);
        let flow_kg_s = 0.5 * (first_kg_s + second_kg_s);
        (flow_kg_s.abs() >= LEAST_FLOW_KG_S).then_some(Drive::Weight(flow_kg_s))
    }

    /// A minute with the circuit flowing. Water passes the store half before and half after the
    /// circuit's step, so that taking the two one after the other costs only in second order
    /// (Strang 1968).
    fn running_minute(&mut self, drive: Drive, did: &mut Minute) {
        self.settle_standing();
        let first_j = self.draw(0.5 * did.drawn_m3);
        self.feed(did.feeds.clone(), 0.5);
        self.discharge(0.5 * did.discharged_m3);
        let before_k = self.state.store_mean_k();
        let (flows, moved) = run_step(
            self.plant,
            &self.hour,
            did.absorbed_w_m2,
            (MINUTE_S, drive),
            &mut self.state,
            &mut self.bench,
        );
        self.tally.moving.add(&flows);
        if let Drive::Weight(flow_kg_s) = drive {
            self.drift_kg_s = flow_kg_s;
            self.tally.book_drift(flow_kg_s, flows.coil_heat_j, MINUTE_S);
        }
        self.cover_time(MINUTE_S, before_k);
        let second_j = self.draw(0.5 * did.drawn_m3);
        did.drawn_heat_j = first_j + second_j;
        self.top_up(did.drawn_m3, did.drawn_heat_j);
        self.state.cylinder_k =
            heater::stand(self.plant, MINUTE_S, self.state.cylinder_k, &mut self.tally);
        self.feed(did.feeds.clone(), 0.5);
        self.discharge(0.5 * did.discharged_m3);
        // Running backwards, the fluid comes in at the outlet.
        self.panel_out_k =
            if moved.flow_kg_s < 0.0 { self.state.flow_pipe_k[0] } else { moved.panel_out_k };
        did.flow_kg_s = moved.flow_kg_s;
        did.coil_heat_w = flows.coil_heat_j / MINUTE_S;
    }

    fn resting_minute(&mut self, did: &mut Minute) {
        if did.drawn_m3 > 0.0 || did.discharged_m3 > 0.0 || !did.feeds.is_empty() {
            self.settle_standing();
            did.drawn_heat_j = self.draw(did.drawn_m3);
            self.top_up(did.drawn_m3, did.drawn_heat_j);
            self.feed(did.feeds.clone(), 1.0);
            self.discharge(did.discharged_m3);
        }
        let flows =
            idle_panels(self.plant, &self.hour, did.absorbed_w_m2, MINUTE_S, &mut self.state);
        self.at_rest().add(&flows);
        self.stood_s += MINUTE_S;
        if let Some(&outlet_k) = self.state.plate_k.last() {
            self.panel_out_k = outlet_k;
        }
    }

    /// Where panels that rest are booked: by whether a limit holds the pump.
    fn at_rest(&mut self) -> &mut Flows {
        let control = &self.state.control;
        if control.store_full || control.panel_hot {
            &mut self.tally.barred
        } else {
            &mut self.tally.resting
        }
    }

    /// Steps whatever has stood: pipes, store, heater.
    fn settle_standing(&mut self) {
        let step_s = std::mem::take(&mut self.stood_s);
        if step_s <= 0.0 {
            return;
        }
        let before_k = self.state.store_mean_k();
        if !self.plant.segments.is_empty() {
            self.tally.resting.circuit_loss_j +=
                idle_pipes(self.plant, &self.hour, step_s, &mut self.state);
        }
        let flows = step_store::stand(
            self.plant,
            &self.hour,
            step_s,
            &mut self.state.layer_k,
            &mut self.bench,
        );
        self.tally.resting.add(&flows);
        self.state.cylinder_k =
            heater::stand(self.plant, step_s, self.state.cylinder_k, &mut self.tally);
        self.cover_time(step_s, before_k);
    }

    /// Books the store's mean over a step that has been taken.
    fn cover_time(&mut self, step_s: f64, before_k: f64) {
        let mean_k = 0.5 * (before_k + self.state.store_mean_k());
        self.tally.store_k_s += mean_k * step_s;
        self.tally.span_s += step_s;
        if (ZERO_CELSIUS_K + 20.0..=ZERO_CELSIUS_K + 45.0).contains(&mean_k) {
            self.tally.store_warm_s += step_s;
        }
        if let Some(layer) = self.plant.store.cold_tap {
            let tap_k = self.state.layer_k[layer];
            if tap_k > ZERO_CELSIUS_K + 20.0 {
                self.tally.cold_tap_above_20_c_s += step_s;
            }
            if tap_k > ZERO_CELSIUS_K + 25.0 {
                self.tally.cold_tap_above_25_c_s += step_s;
            }
        }
        let top_k = self.state.layer_k[self.plant.store.layers - 1];
        self.tally.store_max_k = self.tally.store_max_k.max(top_k);
    }

    fn note_extremes(&mut self, minute: usize, flowing: bool) {
        let plate_k = self.state.plate_max_k();
        self.tally.plate_max_k = self.tally.plate_max_k.max(plate_k);
        let mut circuit_k = self.state.pipes_k().fold(0.0, f64::max);
        if flowing {
            circuit_k = circuit_k.max(self.panel_out_k);
        }
        self.tally.circuit_max_k = self.tally.circuit_max_k.max(circuit_k);
        if circuit_k > ZERO_CELSIUS_K + 100.0 {
            self.note(minute, EventKind::CircuitAbove100C);
        }
        if self.state.layer_k[self.plant.store.layers - 1] > ZERO_CELSIUS_K + 60.0 {
            self.note(minute, EventKind::StoreAbove60C);
        }
    }

    /// Keeps the first time of each kind.
    fn note(&mut self, minute: usize, kind: EventKind) {
        if !self.events.iter().any(|event| event.kind == kind) {
            self.events.push(Event { minute, kind });
        }
    }

    fn record(&self, minute: usize, did: &Minute, recorder: &mut Recorder) {
        let state = &self.state;
        recorder.write(minute, |channel| match channel {
            Channel::Absorbed => did.absorbed_w_m2,
            Channel::Plate => state.plate_max_k(),
            Channel::PlateColdest => state.plate_k.iter().copied().fold(f64::INFINITY, f64::min),
            Channel::PanelOut => self.panel_out_k,
            Channel::CoilHeat => did.coil_heat_w,
            Channel::Flow => did.flow_kg_s,
            Channel::Pump => f64::from(u8::from(did.powered)),
            Channel::StoreTop => state.layer_k[state.layer_k.len() - 1],
            Channel::StoreMean => state.store_mean_k(),
            Channel::StoreBottom => state.layer_k[0],
            Channel::Loft => self.hour.loft_k,
            Channel::StoreLayer(layer) => {
                state.layer_k[usize::from(layer).min(state.layer_k.len() - 1)]
            }
            Channel::Draw => did.drawn_m3 * 1000.0,
            Channel::Discharge => did.discharged_m3 * 1000.0,
            Channel::DrawHeat => did.drawn_heat_j,
        });
    }

    fn check(&self, minute: usize) -> Result<(), YearError> {
        let state = &self.state;
        let nodes = state.plate_k.iter().chain(&state.layer_k).copied().chain(state.pipes_k());
        for node_k in nodes {
            if !(0.0..RUNAWAY_K).contains(&node_k) {
                return Err(YearError::Runaway { minute, node_k });
            }
        }
        Ok(())
    }
}
