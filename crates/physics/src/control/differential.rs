//! The switching rule: panel against store, with limits and minimum times.

use super::parts::Differential;

/// What the controller carries from one decision to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Memory {
    /// True while it calls for the pump.
    pub running: bool,
    /// Time since it last switched \[s\].
    pub since_switch_s: f64,
    /// True from the moment the store passed its limit until it is down by the reset difference.
    pub store_full: bool,
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
            since_switch_s: f64::INFINITY,
            store_full: false,
            panel_probe_k: probe_k,
            store_probe_k: probe_k,
        }
    }
}

/// What the two probes show, offsets in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Panel probe \[K\].
    pub panel_k: f64,
    /// Store probe \[K\].
    pub store_k: f64,
}

/// Whether the pump is to run, from what the probes show and what is remembered.
///
/// It starts when the panel stands at least the switch-on difference above the store, and stops
/// when it stands no more than the switch-off difference above it. Minimum times hold against
/// both. The store's limit stops it at once, whatever the minimum time says, and holds until the
/// store is down by the reset difference; above the panel's limit it does not start.
///
/// `rule`: the builder's settings. `memory`: as of the last decision; its `running` and
/// `store_full` tell which threshold counts. `reading`: what the probes show now, offsets in it.
/// Returns the new `running` and `store_full`; timers are the caller's.
///
/// # Valid range
/// Any finite readings; a reading that is not a number never starts the pump and stops it.
///
/// # Source
/// Two-threshold differential control: Duffie and Beckman, Solar Engineering of Thermal Processes,
/// section on controls (from memory); limits and minimum times: common practice.
///
/// # Example
/// ```
/// use physics::control::{Differential, Memory, Reading, decide};
/// let rule = Differential {
///     on_difference_k: 8.0, off_difference_k: 4.0, min_on_s: 60.0, min_off_s: 60.0,
///     store_limit_k: 328.15, store_reset_difference_k: 5.0, panel_limit_k: 393.15,
/// };
/// let (running, _) = decide(&rule, &Memory::at_rest(290.0), Reading { panel_k: 301.0, store_k: 290.0 });
/// assert!(running);
/// ```
pub fn decide(rule: &Differential, memory: &Memory, reading: Reading) -> (bool, bool) {
    let reset_k = rule.store_limit_k - rule.store_reset_difference_k;
    let full = if memory.store_full {
        reading.store_k > reset_k
    } else {
        reading.store_k >= rule.store_limit_k
    };
    let difference_k = reading.panel_k - reading.store_k;
    let running = if full {
        false
    } else if memory.running {
        difference_k > rule.off_difference_k || memory.since_switch_s < rule.min_on_s
    } else {
        difference_k >= rule.on_difference_k
            && memory.since_switch_s >= rule.min_off_s
            && reading.panel_k <= rule.panel_limit_k
    };
    (running, full)
}

#[cfg(test)]
mod tests {
    use super::{Memory, Reading, decide};
    use crate::control::Differential;

    const RULE: Differential = Differential {
        on_difference_k: 8.0,
        off_difference_k: 4.0,
        min_on_s: 120.0,
        min_off_s: 180.0,
        store_limit_k: 328.15,
        store_reset_difference_k: 5.0,
        panel_limit_k: 393.15,
    };

    fn reading(panel_k: f64, store_k: f64) -> Reading {
        Reading { panel_k, store_k }
    }

    fn running(since_switch_s: f64) -> Memory {
        Memory { running: true, since_switch_s, ..Memory::at_rest(300.0) }
    }

    /// Given a resting controller, the start needs the full switch-on difference (common practice:
    /// 8 K on, 4 K off).
    #[test]
    fn it_starts_at_the_switch_on_difference_and_not_below() {
        let rest = Memory::at_rest(300.0);
        assert!(decide(&RULE, &rest, reading(308.0, 300.0)).0);
        assert!(!decide(&RULE, &rest, reading(307.9, 300.0)).0);
    }

    /// Given a running controller, it goes on between the two differences and stops at the lower.
    #[test]
    fn it_runs_on_between_the_differences() {
        assert!(decide(&RULE, &running(999.0), reading(305.0, 300.0)).0);
        assert!(!decide(&RULE, &running(999.0), reading(304.0, 300.0)).0);
    }

    /// Given a fresh start or a fresh stop, the minimum times hold.
    #[test]
    fn minimum_times_hold() {
        assert!(decide(&RULE, &running(60.0), reading(300.0, 300.0)).0);
        let stopped = Memory { since_switch_s: 60.0, ..Memory::at_rest(300.0) };
        assert!(!decide(&RULE, &stopped, reading(330.0, 300.0)).0);
    }

    /// Given a store at its limit, the pump stops even within its minimum time and stays off until
    /// the store is down by the reset difference.
    #[test]
    fn the_store_limit_stops_at_once_and_holds_until_reset() {
        let (on, full) = decide(&RULE, &running(10.0), reading(350.0, 328.2));
        assert!(!on && full);
        let waiting = Memory { store_full: true, ..Memory::at_rest(300.0) };
        assert_eq!(decide(&RULE, &waiting, reading(350.0, 325.0)), (false, true));
        assert_eq!(decide(&RULE, &waiting, reading(350.0, 323.0)), (true, false));
    }

    /// Given a panel above its limit, no start; given a broken reading, no start and a stop.
    #[test]
    fn steam_and_broken_probes_do_not_start_it() {
        let rest = Memory::at_rest(300.0);
        assert!(!decide(&RULE, &rest, reading(394.0, 300.0)).0);
        assert!(!decide(&RULE, &rest, reading(f64::NAN, 300.0)).0);
        assert!(!decide(&RULE, &running(999.0), reading(f64::NAN, 300.0)).0);
    }
}
