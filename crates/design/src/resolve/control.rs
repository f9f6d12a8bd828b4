//! The controller of a build.

use crate::values::Values;
use physics::control::{
    ClockSpan, Control, Differential, FrostAction, PanelProbePlace, PanelStop, Probe, Rule,
    StoreLimit, StoreProbePlace, Thermostat,
};

/// The controller with its probes.
pub(super) fn control(values: &Values) -> Option<Control> {
    let si = |key: &str| values.si(&format!("control.{key}"));
    // Times and probes that mean nothing under a rule have no value there.
    let time_s = |key: &str| si(key).unwrap_or(0.0);
    let probe = |at: &str| Probe {
        offset_k: si(&format!("{at}.offset")).unwrap_or(0.0),
        lag_s: si(&format!("{at}.lag")).unwrap_or(0.0),
    };
    Some(Control {
        rule: match values.word("circuit.drive")? {
            // Nothing to call for: a clock that never does.
            "gravity" => Rule::Timer(Vec::new()),
            _ => rule(values)?,
        },
        min_on_s: time_s("min-on"),
        min_off_s: time_s("min-off"),
        run_on_s: time_s("run-on"),
        store_limit: match si("store-limit") {
            Some(limit_k) => Some(StoreLimit { limit_k, reset_difference_k: si("store-reset")? }),
            None => None,
        },
        panel_stop: match values.table("control.panel-stop") {
            Some(_) => Some(PanelStop {
                above_k: si("panel-stop.above")?,
                fall_difference_k: si("panel-stop.fall")?,
            }),
            None => None,
        },
        frost: match values.table("control.frost") {
            Some(_) => Some(FrostAction {
                below_k: si("frost.below")?,
                rise_difference_k: si("frost.rise")?,
            }),
            None => None,
        },
        panel_probe: probe("panel-probe"),
        panel_probe_place: match values.word("control.panel-probe.place") {
            Some("inlet") => PanelProbePlace::Inlet,
            Some("sheet") => PanelProbePlace::Sheet,
            Some("flow-pipe") => {
                PanelProbePlace::FlowPipe { distance_m: si("panel-probe.distance")? }
            }
            Some("open-air") => PanelProbePlace::OpenAir,
            _ => PanelProbePlace::Outlet,
        },
        store_probe: probe("store-probe"),
        store_probe_place: store_place(values),
    })
}

fn rule(values: &Values) -> Option<Rule> {
    let si = |key: &str| values.si(&format!("control.{key}"));
    Some(match values.word("control.rule")? {
        "thermostat" => Rule::Thermostat(Thermostat {
            on_k: si("on-temperature")?,
            off_k: si("off-temperature")?,
        }),
        "timer" => {
            let spans: Option<Vec<ClockSpan>> = (0..values.members("control.hours"))
                .map(|at| {
                    Some(ClockSpan {
                        from_min: values.minute(&format!("control.hours[{at}].from"))?,
                        to_min: values.minute(&format!("control.hours[{at}].to"))?,
                    })
                })
                .collect();
            Rule::Timer(spans?)
        }
        _ => Rule::Differential(Differential {
            on_difference_k: si("on")?,
            off_difference_k: si("off")?,
            panel_limit_k: si("panel-limit")?,
        }),
    })
}

fn store_place(values: &Values) -> StoreProbePlace {
    // The height has a value wherever the probe is heeded.
    let height_m = values.si("control.store-probe-height").unwrap_or(0.0);
    match values.word("control.store-probe.place") {
        Some("wall") => StoreProbePlace::Wall { height_m },
        Some("loft-air") => StoreProbePlace::LoftAir,
        _ => StoreProbePlace::Water { height_m },
    }
}
