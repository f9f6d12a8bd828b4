//! The controller and its pump.

use physics::control::{Memory, Reading, Rule, decide};
use year::ledger::KWH_J;
use year::{Channel, Recorder, Upset, UpsetKind, march};

use super::super::{Kind, controller};
use super::{figure_si, first_panel, plain};

/// Given a pump of 6 W that never stops: 8760 h of it are 52.56 kWh (by hand).
#[test]
fn a_pump_that_never_stops_draws_all_year() {
    let case = first_panel().case();
    let upset = Upset::all_year(UpsetKind::PumpStuckOn);
    let (ledger, _) =
        march(&case.year.plant, &case.year.forcing, &upset, &mut Recorder::none()).unwrap();
    let year = ledger.year();
    assert!((year.pump_j / KWH_J - 52.56).abs() < 1e-9, "{}", year.pump_j / KWH_J);
    assert_eq!(year.pump_starts, 0);
    let told = first_panel().found(controller::stuck_on, "pump-never-stops");
    assert_eq!(told.kind, Kind::Quiet);
    assert!(figure_si(&told, "spared heat lost a year") > 0.0);
}

/// Given probes exchanged: the controller runs the pump when the store is warmer than the panel, so the
/// pump carries heat out of the store, and less is spared than by no panel at all.
#[test]
fn exchanged_probes_cool_the_store() {
    let case = first_panel().case();
    let upset = Upset::all_year(UpsetKind::ProbesSwapped);
    let mut minutes = Recorder::of(&[Channel::CoilHeat, Channel::Pump]);
    march(&case.year.plant, &case.year.forcing, &upset, &mut minutes).unwrap();
    let pump = minutes.series(Channel::Pump).unwrap();
    let heat = minutes.series(Channel::CoilHeat).unwrap();
    let carried_j: f64 = heat.iter().zip(pump).map(|(&w, &on)| 60.0 * f64::from(w * on)).sum();
    assert!(carried_j < 0.0, "{carried_j}");
    let told = first_panel().found(controller::swapped, "probes-swapped");
    let lost_kwh = figure_si(&told, "spared heat lost a year") / KWH_J;
    assert!(lost_kwh > first_panel().year.spared_kwh(), "{lost_kwh}");
}

/// Law on a fixed trace, the year's own sheet and store by the minute: with the switch-on difference held,
/// a lower switch-off difference never starts the pump more often (a wider band holds every narrower
/// one's rests).
#[test]
fn a_wider_band_never_starts_more_often() {
    let case = first_panel().case();
    let sheet_k = case.minutes.series(Channel::Plate).unwrap();
    let store_k = case.minutes.series(Channel::StoreMean).unwrap();
    let starts = |off_k: f64| {
        let mut control = case.year.build.control.clone();
        control.min_on_s = 0.0;
        control.min_off_s = 0.0;
        let Rule::Differential(rule) = &mut control.rule else { panic!("it compares") };
        rule.off_difference_k = off_k;
        let mut memory = Memory::at_rest(280.0);
        let mut starts = 0_u32;
        for (minute, (&panel_k, &store_k)) in sheet_k.iter().zip(store_k).enumerate() {
            let reading = Reading {
                panel_k: f64::from(panel_k),
                store_k: f64::from(store_k),
                minute: (minute % 1440) as u16,
            };
            let next = decide(&control, &memory, reading);
            starts += u32::from(next.running && !memory.running);
            memory = next;
            memory.pass(60.0);
        }
        starts
    };
    let sweep: Vec<u32> = [6.0, 5.0, 4.0, 3.0, 2.0, 1.0].into_iter().map(starts).collect();
    assert!(sweep.windows(2).all(|pair| pair[1] <= pair[0]), "{sweep:?}");
    assert!(sweep[0] > sweep[5], "{sweep:?}");
}

/// Given a scrap pump of 150 W in the place of the fountain's 6 W: 25 times the electricity, more than the
/// heat it brings, and a stop (by hand from the year's own pump hours).
#[test]
fn a_pump_that_costs_more_than_it_brings_is_a_stop() {
    let scrap = first_panel().written(&[("circuit.pump.power", "150 W")]);
    let finding = scrap.found(controller::electricity, "pump-electricity");
    assert_eq!(finding.kind, Kind::Stop, "{}", plain(&finding));
    let hours = first_panel().year.result.build.year().pump_s / 3600.0;
    let told_kwh = figure_si(&finding, "pump electricity a year") / KWH_J;
    assert!((told_kwh / (0.150 * hours) - 1.0).abs() < 1e-9, "{told_kwh} {hours}");
}

/// Given the panel's probe 3 K low or high: the controller starts 3 K later or earlier, which is the same
/// year as one whose design says that offset (the engine's other way to it).
#[test]
fn a_misread_probe_is_an_offset() {
    let case = first_panel().case();
    let upset = Upset::all_year(UpsetKind::PanelProbeError { offset_difference_k: -3.0 });
    let (ledger, _) =
        march(&case.year.plant, &case.year.forcing, &upset, &mut Recorder::none()).unwrap();
    let off = first_panel().written(&[("control.panel-probe.offset", "-3 K")]);
    let designed_j = off.year.result.build.year().topup_heat_j;
    let upset_j = ledger.year().topup_heat_j;
    // An upset year marches every minute, a designed one takes dark hours in strides; the two agree as
    // engines do.
    assert!((designed_j / upset_j - 1.0).abs() < 1e-3, "{designed_j} {upset_j}");
}
