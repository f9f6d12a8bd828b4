//! The controller: hunting, probes that lie, a pump that costs more than it brings.

use design::quantity::Kind as Measure;
use physics::control::{PanelProbePlace, Rule, StoreProbePlace};
use physics::sun::Clouds;
use year::ledger::KWH_J;
use year::{Recorder, Tally, Upset, UpsetKind, march, spared_heat_j};

use super::case::{Case, put, writing};
use super::finding::{About, Certainty, Figure, Finding, Kind, Limit, Remedy, Station};
use super::words::{Value, Words, count, kwh, lasting, of, percent, words};
use crate::AdviceError;

/// What a year of some mishap came to.
struct Mishap {
    spared_kwh: f64,
    tally: Tally,
}

impl Mishap {
    /// The build's year with something upset all along; the twin has no controller and stays.
    fn upset(case: &Case, kind: UpsetKind) -> Result<Mishap, AdviceError> {
        let upset = Upset::all_year(kind);
        let mut nothing = Recorder::none();
        let (ledger, _) = march(&case.year.plant, &case.year.forcing, &upset, &mut nothing)?;
        let tally = ledger.year();
        let spared_j = spared_heat_j(&tally, &case.year.result.twin.year());
        Ok(Mishap { spared_kwh: spared_j / KWH_J, tally })
    }

    /// The year of a changed build.
    fn changed(case: &Case, change: impl Fn(&mut physics::Build)) -> Result<Mishap, AdviceError> {
        let mut build = case.year.build.clone();
        change(&mut build);
        let year = case.subject.year_beside(case.year, build)?;
        Ok(Mishap { spared_kwh: year.spared_kwh(), tally: year.result.build.year() })
    }

    fn less_kwh(&self, case: &Case) -> f64 {
        case.year.spared_kwh() - self.spared_kwh
    }
}

/// Heat and starts of a mishap in words.
fn cost(case: &Case, mishap: &Mishap) -> Value {
    let spared_kwh = case.year.spared_kwh();
    let less_kwh = mishap.less_kwh(case);
    let change = if less_kwh >= 0.0 {
        words!(
            "{} a year less spared, {} of it",
            kwh(less_kwh),
            percent(less_kwh / spared_kwh.max(1e-9))
        )
    } else {
        words!("{} a year more spared", kwh(-less_kwh))
    };
    words!(
        "{}; {} starts instead of {}, pump electricity {}",
        change,
        count(f64::from(mishap.tally.pump_starts)),
        count(f64::from(case.year.result.build.year().pump_starts)),
        kwh(mishap.tally.pump_j / KWH_J)
    )
    .into()
}

/// A mishap told: what it costs and how one would see it. The build survives it, so it stands quiet.
fn told(
    case: &Case,
    code: &'static str,
    place: &str,
    mishap: &Mishap,
    says: Words,
    seen: Words,
) -> Finding {
    Finding::new(About::Controller, code, Station::Circuit, Kind::Quiet, says)
        .at(place)
        .mend(seen)
        .figures(vec![Figure::told(
            "spared heat lost a year",
            Measure::Energy,
            mishap.less_kwh(case) * KWH_J,
        )])
        .source("A year with it so from January on, by the same engine", Certainty::CommonPractice)
}

fn has_pump(case: &Case) -> bool {
    case.year.plant.flow.is_some()
}

/// True where the controller heeds probes.
fn compares(case: &Case) -> bool {
    has_pump(case) && matches!(case.year.build.control.rule, Rule::Differential(_))
}

/// The two probes exchanged.
pub(super) fn swapped(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if !compares(case) {
        return Ok(Vec::new());
    }
    let mishap = Mishap::upset(case, UpsetKind::ProbesSwapped)?;
    let says = words!(
        "Probes exchanged at their terminals: the pump runs by night and rests by day: {}",
        cost(case, &mishap)
    );
    let seen = words!("Warm one probe in your hand and see which reading rises");
    Ok(vec![told(case, "probes-swapped", "control", &mishap, says, seen)])
}

/// What a probe may err by between two of a pair with their cables \[K\].
const OFF_BY_K: f64 = 3.0;

/// The panel's probe wrong by 3 K either way.
pub(super) fn misread(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if !has_pump(case) || matches!(case.year.build.control.rule, Rule::Timer(_)) {
        return Ok(Vec::new());
    }
    // The same year as with the probe upset, by the offset that a design may state; it goes in strides.
    let off = |by_k: f64| Mishap::changed(case, |build| build.control.panel_probe.offset_k += by_k);
    let (low, high) = (off(-OFF_BY_K)?, off(OFF_BY_K)?);
    let worse = if low.less_kwh(case) > high.less_kwh(case) { &low } else { &high };
    let says = words!(
        "The panel’s probe reading {} too low: {}. Too high by as much: {}",
        of(Measure::Difference, OFF_BY_K),
        cost(case, &low),
        cost(case, &high)
    );
    let seen = words!(
        "Put both probes into one bucket of ice water, then into one of hot, and write the difference down"
    );
    Ok(vec![told(case, "probe-misreads", "control.panel-probe.offset", worse, says, seen)])
}

/// A probe that fell off and hangs in the air.
pub(super) fn fallen(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if !compares(case) {
        return Ok(Vec::new());
    }
    let panel = Mishap::changed(case, |build| {
        build.control.panel_probe_place = PanelProbePlace::OpenAir;
    })?;
    let store = Mishap::changed(case, |build| {
        build.control.store_probe_place = StoreProbePlace::LoftAir;
    })?;
    let worse = if panel.less_kwh(case) > store.less_kwh(case) { &panel } else { &store };
    let says = words!(
        "The panel’s probe fallen off into the open air: {}. The store’s probe hanging in the loft: {}",
        cost(case, &panel),
        cost(case, &store)
    );
    let seen = words!(
        "Clamp the panel’s probe on the outlet stub inside the box, under the insulation, and tie the store’s at the coil’s height; a panel reading that follows the air is not on the panel"
    );
    Ok(vec![told(case, "probe-fallen", "control.panel-probe.place", worse, says, seen)])
}

/// A switch-on difference that is never come to on most days \[K\].
const TOO_WIDE_K: f64 = 20.0;

/// Set too wide to start.
pub(super) fn wide(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if !compares(case) {
        return Ok(Vec::new());
    }
    let wide = Mishap::changed(case, |build| {
        if let Rule::Differential(rule) = &mut build.control.rule {
            rule.on_difference_k = rule.on_difference_k.max(TOO_WIDE_K);
        }
    })?;
    let says = words!(
        "Set to start only at {} over the store: {}",
        of(Measure::Difference, TOO_WIDE_K),
        cost(case, &wide)
    );
    let seen = words!(
        "Common settings start at {} and stop at {}",
        of(Measure::Difference, 8.0),
        of(Measure::Difference, 4.0)
    );
    Ok(vec![told(case, "set-too-wide", "control.on", &wide, says, seen)])
}

/// A pump that never stops.
pub(super) fn stuck_on(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if !has_pump(case) {
        return Ok(Vec::new());
    }
    let mishap = Mishap::upset(case, UpsetKind::PumpStuckOn)?;
    let says = words!("A pump that never stops cools the store by night: {}", cost(case, &mishap));
    let seen = words!("Listen in the evening; give the pump a switch of its own with a lamp");
    Ok(vec![told(case, "pump-never-stops", "circuit.pump", &mishap, says, seen)])
}

/// Runs shorter than this on the mean are hunting \[s\] (judgement: no source was met).
const SHORT_RUN_S: f64 = 15.0 * 60.0;

/// Starts and stops in passing clouds.
pub(super) fn hunts(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if !compares(case) {
        return Ok(Vec::new());
    }
    let clouded = Mishap::changed(case, |build| {
        if build.sun.clouds == Clouds::Smooth {
            build.sun.clouds = Clouds::Minutes { seed: 1 };
        }
    })?;
    let starts = f64::from(clouded.tally.pump_starts);
    let run_s = clouded.tally.pump_s / starts.max(1.0);
    let kind = if run_s < SHORT_RUN_S { Kind::Mind } else { Kind::Quiet };
    let says = words!(
        "In passing clouds the pump starts {} times a year and runs {} on the mean; under {} it hunts",
        count(starts),
        lasting(run_s),
        lasting(SHORT_RUN_S)
    );
    Ok(vec![
        Finding::new(About::Controller, "hunts", Station::Circuit, kind, says)
            .at("control.off")
            .mend(words!("Stop later, start later, or pump less: at the light that just starts it, the running panel must stay warmer than the switch-off difference"))
            .figures(vec![
                Figure::against(
                    "mean run",
                    Measure::Time,
                    run_s,
                    Limit::at_least(SHORT_RUN_S, "no source was met", Certainty::Judgement),
                ),
                Figure::told("starts a year", Measure::Number, starts),
            ])
            .remedies(calmer(case))
            .source("Rule of the running rise (Duffie and Beckman, controls)", Certainty::FromMemory),
    ])
}

fn calmer(case: &Case) -> Vec<Remedy> {
    let Rule::Differential(rule) = &case.year.build.control.rule else { return Vec::new() };
    let off_k = (0.5 * rule.off_difference_k).max(1.0);
    let on_k = rule.on_difference_k + 3.0;
    vec![
        Remedy::new(
            words!("Stop at {}", of(Measure::Difference, off_k)),
            vec![put("control.off", format!("{off_k} K"))],
        ),
        Remedy::new(
            words!("Start at {}", of(Measure::Difference, on_k)),
            vec![put("control.on", format!("{on_k} K"))],
        ),
    ]
}

/// Pump electricity over spared heat that plants are expected to keep to.
const PUMP_SHARE: f64 = 0.05;

/// A pump that costs more than it brings.
pub(super) fn electricity(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if !has_pump(case) {
        return Ok(Vec::new());
    }
    let spared_kwh = case.year.spared_kwh();
    let pump_kwh = case.year.result.build.year().pump_j / KWH_J;
    let kind = match pump_kwh {
        pump_kwh if pump_kwh >= spared_kwh => Kind::Stop,
        pump_kwh if pump_kwh > PUMP_SHARE * spared_kwh => Kind::Mind,
        _ => Kind::Quiet,
    };
    let says = words!(
        "The pump takes {} of electricity a year for {} of heat spared, {}; {} is usual",
        kwh(pump_kwh),
        kwh(spared_kwh),
        percent(pump_kwh / spared_kwh.max(1e-9)),
        percent(PUMP_SHARE)
    );
    let power_w = case.year.build.circuit.pump.as_ref().map_or(0.0, |pump| pump.power_w);
    let small_w = (PUMP_SHARE * spared_kwh / pump_kwh.max(1e-9) * power_w).floor();
    let remedies = if small_w >= 1.0 {
        vec![writing(
            words!("Take a pump of {}", of(Measure::Power, small_w)),
            "circuit.pump.power",
            format!("{small_w} W"),
        )]
    } else {
        Vec::new()
    };
    let limit = Limit::at_most(
        PUMP_SHARE * spared_kwh.max(0.0) * KWH_J,
        "a twentieth of the heat, a check of plausibility",
        Certainty::Judgement,
    );
    Ok(vec![
        Finding::new(About::Controller, "pump-electricity", Station::Circuit, kind, says)
            .at("circuit.pump.power")
            .mend(words!("Take a small pump, or stop it earlier; a kilowatt-hour of electricity costs more than one of heat"))
            .figures(vec![Figure::against("pump electricity a year", Measure::Energy, pump_kwh * KWH_J, limit)])
            .remedies(remedies)
            .source("Mains pumps undid about a fifth of the carbon saved in a test of eight systems (UK 2001)", Certainty::FromMemory),
    ])
}
