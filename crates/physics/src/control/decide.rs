//! Whether the pump is to run: the rule's call, what stops it, what keeps it running.

use super::parts::{Control, Rule};

/// What the controller carries from one decision to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Memory {
    /// True while it runs the pump.
    pub running: bool,
    /// True from a start by the rule until the pump stops: the lower threshold counts.
    pub heating: bool,
    /// True from the moment the panel was as cold as the frost action waits for until it is warm
    /// enough again.
    pub frosty: bool,
    /// True from the moment the store passed its limit until it is down by the reset difference.
    pub store_full: bool,
    /// True from the moment the panel passed the temperature that stops the pump until it is down
    /// again.
    pub panel_hot: bool,
    /// Time since it last switched \[s\].
    pub since_switch_s: f64,
    /// Time since nothing calls for the pump any more \[s\]; `None` while something does.
    pub uncalled_s: Option<f64>,
    /// What the panel probe reads, its lag in it, its offset not \[K\].
    pub panel_probe_k: f64,
    /// What the store probe reads, its lag in it, its offset not \[K\].
    pub store_probe_k: f64,
}

impl Memory {
    /// A controller at rest for long, both probes at one temperature \[K\].
    pub fn at_rest(probe_k: f64) -> Self {
        Memory {
            running: false,
            heating: false,
            frosty: false,
            store_full: false,
            panel_hot: false,
            since_switch_s: f64::INFINITY,
            uncalled_s: None,
            panel_probe_k: probe_k,
            store_probe_k: probe_k,
        }
    }

    /// Forgets all but what its probes lie in: as it begins after it was without mains.
    pub fn forget(&mut self) {
        let (panel_probe_k, store_probe_k) = (self.panel_probe_k, self.store_probe_k);
        *self = Memory { panel_probe_k, store_probe_k, ..Memory::at_rest(panel_probe_k) };
    }

    /// Lets time pass without a decision.
    pub fn pass(&mut self, step_s: f64) {
        self.since_switch_s += step_s;
        if let Some(uncalled_s) = &mut self.uncalled_s {
            *uncalled_s += step_s;
        }
    }
}

/// What the controller sees: its probes, offsets in them, and its clock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Panel probe \[K\].
    pub panel_k: f64,
    /// Store probe \[K\].
    pub store_k: f64,
    /// Minute of the day, 0 to 1439, standard time.
    pub minute: u16,
}

/// What the controller remembers after a decision: `running` says whether the pump is to run.
///
/// A differential rule calls for the pump once the panel stands at least the switch-on difference
/// above the store, and as long as it stands more than the switch-off difference above it; above
/// the panel's limit it does not begin to call. A thermostat does the same by the panel's
/// temperature alone, a timer by the clock. The frost action calls from its temperature upwards by
/// its rise. A call starts the pump after the minimum rest; without one the pump stops after its
/// minimum time and the time it runs on. A hot panel stops it at once, whatever calls, and a full
/// store whatever but frost calls; both hold until they are down by their differences.
///
/// `control`: the builder's settings. `memory`: as of the last decision, its times kept by
/// [`Memory::pass`]. `reading`: what the probes show now, offsets in it.
///
/// # Valid range
/// Any finite readings; a reading that is not a number never starts the pump by temperature.
///
/// # Source
/// Two-threshold differential control: Duffie and Beckman, Solar Engineering of Thermal Processes,
/// section on controls (from memory); thermostat, timer, limits, frost action, run-on and minimum
/// times: common practice.
///
/// # Example
/// ```
/// use physics::control::{
///     Control, Differential, Memory, PanelProbePlace, Probe, Reading, Rule, StoreProbePlace, decide,
/// };
/// let probe = Probe { offset_k: 0.0, lag_s: 60.0 };
/// let control = Control {
///     rule: Rule::Differential(Differential {
///         on_difference_k: 8.0, off_difference_k: 4.0, panel_limit_k: 393.15,
///     }),
///     min_on_s: 60.0, min_off_s: 60.0, run_on_s: 0.0,
///     store_limit: None, panel_stop: None, frost: None,
///     panel_probe: probe, panel_probe_place: PanelProbePlace::Outlet,
///     store_probe: probe, store_probe_place: StoreProbePlace::Water { height_m: 0.1 },
/// };
/// let noon = Reading { panel_k: 301.0, store_k: 290.0, minute: 720 };
/// assert!(decide(&control, &Memory::at_rest(290.0), noon).running);
/// ```
pub fn decide(control: &Control, memory: &Memory, reading: Reading) -> Memory {
    let mut next = *memory;
    next.store_full = control.store_limit.is_some_and(|limit| {
        if memory.store_full {
            reading.store_k > limit.limit_k - limit.reset_difference_k
        } else {
            reading.store_k >= limit.limit_k
        }
    });
    next.panel_hot = control.panel_stop.is_some_and(|stop| {
        if memory.panel_hot {
            reading.panel_k > stop.above_k - stop.fall_difference_k
        } else {
            reading.panel_k >= stop.above_k
        }
    });
    next.frosty = control.frost.is_some_and(|frost| {
        if memory.frosty {
            reading.panel_k < frost.below_k + frost.rise_difference_k
        } else {
            reading.panel_k <= frost.below_k
        }
    });
    let heat = calls_for_heat(&control.rule, memory.heating, reading);
    let called = heat || next.frosty;
    next.uncalled_s = if called { None } else { Some(memory.uncalled_s.unwrap_or(0.0)) };
    next.running = if next.panel_hot || (next.store_full && !next.frosty) {
        false
    } else if memory.running {
        memory.since_switch_s < control.min_on_s
            || next.uncalled_s.is_none_or(|uncalled_s| uncalled_s < control.run_on_s)
    } else {
        called && memory.since_switch_s >= control.min_off_s
    };
    next.heating = next.running && (heat || memory.heating);
    if next.running != memory.running {
        next.since_switch_s = 0.0;
    }
    next
}

/// Whether the rule itself wants heat moved; `heating`: it did when last asked.
fn calls_for_heat(rule: &Rule, heating: bool, reading: Reading) -> bool {
    match rule {
        Rule::Differential(rule) => {
            let difference_k = reading.panel_k - reading.store_k;
            if heating {
                difference_k > rule.off_difference_k
            } else {
                difference_k >= rule.on_difference_k && reading.panel_k <= rule.panel_limit_k
            }
        }
        Rule::Thermostat(rule) if heating => reading.panel_k > rule.off_k,
        Rule::Thermostat(rule) => reading.panel_k >= rule.on_k,
        Rule::Timer(spans) => spans.iter().any(|span| span.holds(reading.minute)),
    }
}

#[cfg(test)]
mod tests {
    use super::{Memory, Reading, decide};
    use crate::control::{
        ClockSpan, Control, Differential, FrostAction, PanelProbePlace, PanelStop, Probe, Rule,
        StoreLimit, StoreProbePlace, Thermostat,
    };

    const PROBE: Probe = Probe { offset_k: 0.0, lag_s: 60.0 };

    fn control(rule: Rule) -> Control {
        Control {
            rule,
            min_on_s: 120.0,
            min_off_s: 180.0,
            run_on_s: 0.0,
            store_limit: Some(StoreLimit { limit_k: 328.15, reset_difference_k: 5.0 }),
            panel_stop: None,
            frost: None,
            panel_probe: PROBE,
            panel_probe_place: PanelProbePlace::Outlet,
            store_probe: PROBE,
            store_probe_place: StoreProbePlace::Water { height_m: 0.1 },
        }
    }

    fn differential() -> Control {
        control(Rule::Differential(Differential {
            on_difference_k: 8.0,
            off_difference_k: 4.0,
            panel_limit_k: 393.15,
        }))
    }

    fn thermostat() -> Control {
        control(Rule::Thermostat(Thermostat { on_k: 313.15, off_k: 305.15 }))
    }

    fn reading(panel_k: f64, store_k: f64) -> Reading {
        Reading { panel_k, store_k, minute: 720 }
    }

    fn running(since_switch_s: f64) -> Memory {
        Memory { running: true, heating: true, since_switch_s, ..Memory::at_rest(300.0) }
    }

    fn runs(control: &Control, memory: &Memory, reading: Reading) -> bool {
        decide(control, memory, reading).running
    }

    /// Given a resting controller, the start needs the full switch-on difference (common practice:
    /// 8 K on, 4 K off).
    #[test]
    fn it_starts_at_the_switch_on_difference_and_not_below() {
        let rest = Memory::at_rest(300.0);
        assert!(runs(&differential(), &rest, reading(308.0, 300.0)));
        assert!(!runs(&differential(), &rest, reading(307.9, 300.0)));
    }

    /// Given a running controller, it goes on between the two differences and stops at the lower.
    #[test]
    fn it_goes_on_between_the_differences() {
        assert!(runs(&differential(), &running(999.0), reading(305.0, 300.0)));
        assert!(!runs(&differential(), &running(999.0), reading(304.0, 300.0)));
    }

    /// Given a fresh start or a fresh stop, the minimum times hold, for frost too.
    #[test]
    fn minimum_times_hold() {
        assert!(runs(&differential(), &running(60.0), reading(300.0, 300.0)));
        let stopped = Memory { since_switch_s: 60.0, ..Memory::at_rest(300.0) };
        assert!(!runs(&differential(), &stopped, reading(330.0, 300.0)));
        let mut control = differential();
        control.frost = Some(FrostAction { below_k: 277.15, rise_difference_k: 3.0 });
        assert!(!runs(&control, &stopped, reading(270.0, 290.0)));
    }

    /// Given a pump within its minimum time that no longer has its difference, it comes back to
    /// life between the differences: it never stopped.
    #[test]
    fn a_minimum_time_keeps_the_lower_threshold() {
        let held = decide(&differential(), &running(60.0), reading(300.0, 300.0));
        let later = Memory { since_switch_s: 999.0, ..held };
        assert!(runs(&differential(), &later, reading(305.0, 300.0)));
    }

    /// Given a store at its limit, the pump stops even within its minimum time and stays off until
    /// the store is down by the reset difference; then it wants the full switch-on difference.
    #[test]
    fn the_store_limit_stops_at_once_and_holds_until_reset() {
        let stopped = decide(&differential(), &running(10.0), reading(350.0, 328.2));
        assert!(!stopped.running && stopped.store_full);
        let waiting = Memory { store_full: true, ..Memory::at_rest(300.0) };
        let still = decide(&differential(), &waiting, reading(350.0, 325.0));
        assert!(!still.running && still.store_full);
        let again = decide(&differential(), &waiting, reading(350.0, 323.0));
        assert!(again.running && !again.store_full);
        assert!(!runs(&differential(), &waiting, reading(328.0, 323.0)));
    }

    /// Given a panel above its limit, no start; given a broken reading, no start and a stop.
    #[test]
    fn steam_and_broken_probes_do_not_start_it() {
        let rest = Memory::at_rest(300.0);
        assert!(!runs(&differential(), &rest, reading(394.0, 300.0)));
        for control in [differential(), thermostat()] {
            assert!(!runs(&control, &rest, reading(f64::NAN, 300.0)));
            assert!(!runs(&control, &running(999.0), reading(f64::NAN, 300.0)));
        }
    }

    /// Given a thermostat of 40 C on and 32 C off, the store is not asked: it runs with a store
    /// hotter than the panel (common practice names this its fault).
    #[test]
    fn a_thermostat_does_not_ask_the_store() {
        let mut control = thermostat();
        control.store_limit = None;
        let rest = Memory::at_rest(300.0);
        assert!(runs(&control, &rest, reading(313.15, 360.0)));
        assert!(!runs(&control, &rest, reading(313.1, 280.0)));
        assert!(runs(&control, &running(999.0), reading(306.0, 360.0)));
        assert!(!runs(&control, &running(999.0), reading(305.15, 280.0)));
    }

    /// Given hours from 10:00 to 15:00, it runs from the first minute to the last and not beyond;
    /// given hours over midnight, on both sides of it.
    #[test]
    fn a_timer_asks_the_clock_alone() {
        let mut control = control(Rule::Timer(vec![ClockSpan { from_min: 600, to_min: 900 }]));
        (control.min_on_s, control.min_off_s, control.store_limit) = (0.0, 0.0, None);
        let at = |minute: u16| Reading { panel_k: 250.0, store_k: 350.0, minute };
        let rest = Memory::at_rest(300.0);
        let told: Vec<bool> =
            [599, 600, 899, 900].map(|minute| runs(&control, &rest, at(minute))).to_vec();
        assert_eq!(told, [false, true, true, false]);
        let night = ClockSpan { from_min: 1380, to_min: 60 };
        assert_eq!(
            [1379, 1380, 0, 59, 60].map(|m| night.holds(m)),
            [false, true, true, true, false]
        );
    }

    /// Given frost action at 4 C with 3 K of rise, it starts at 4 C, goes on below 7 C and stops
    /// there; a full store does not hold it back.
    #[test]
    fn frost_runs_the_pump_until_a_few_kelvin_above() {
        let mut control = differential();
        control.frost = Some(FrostAction { below_k: 277.15, rise_difference_k: 3.0 });
        let rest = Memory::at_rest(300.0);
        assert!(!runs(&control, &rest, reading(277.2, 290.0)));
        let started = decide(&control, &rest, reading(277.15, 290.0));
        assert!(started.running && started.frosty && !started.heating);
        let going = Memory { since_switch_s: 999.0, ..started };
        assert!(runs(&control, &going, reading(280.0, 290.0)));
        assert!(!runs(&control, &going, reading(280.15, 290.0)));
        let full = Memory { store_full: true, ..going };
        assert!(runs(&control, &full, reading(279.0, 330.0)));
    }

    /// Given a panel that passes 120 C while the pump runs, it stops at once and holds off until
    /// the panel is 20 K down.
    #[test]
    fn a_hot_panel_stops_at_once_and_holds_off() {
        let mut control = differential();
        control.panel_stop = Some(PanelStop { above_k: 393.15, fall_difference_k: 20.0 });
        let stopped = decide(&control, &running(10.0), reading(393.15, 300.0));
        assert!(!stopped.running && stopped.panel_hot);
        let waiting = Memory { since_switch_s: 999.0, ..stopped };
        assert!(!runs(&control, &waiting, reading(373.2, 300.0)));
        assert!(runs(&control, &waiting, reading(373.1, 300.0)));
    }

    /// Given five minutes of running on, the pump stops five minutes after the first decision in
    /// which nothing called, and a call in between begins them anew.
    #[test]
    fn it_runs_on_for_its_time() {
        let mut control = differential();
        control.run_on_s = 300.0;
        let run_until_stop = |mut memory: Memory| {
            let mut minutes = 0;
            loop {
                memory = decide(&control, &memory, reading(303.0, 300.0));
                if !memory.running {
                    return minutes;
                }
                memory.pass(60.0);
                minutes += 1;
            }
        };
        assert_eq!(run_until_stop(running(999.0)), 5);
        let mut nearly = running(999.0);
        nearly.uncalled_s = Some(240.0);
        assert_eq!(run_until_stop(nearly), 1);
        let called = decide(&control, &nearly, reading(305.0, 300.0));
        assert_eq!(run_until_stop(called), 5);
    }
}
