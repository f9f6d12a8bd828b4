//! The circuit of a design file: hoses, fittings, stretches, a measured pump, and what is told
//! where the round as a whole cannot be or should not.
//!
//! Each text is the first sample with a few lines changed.

mod flat;

use crate::flat::flat_climate;
use design::{Reading, Severity, read_design};
use physics::Build;
use physics::circuit::pipe::fitting_multiplied;

const LAST_POINT: &str = "[[circuit.pump.curve]]\nflow = \"6 l/min\"\nhead = \"0.2 m\"\n";
const MIDDLE_POINT: &str = "[[circuit.pump.curve]]\nflow = \"3 l/min\"\nhead = \"1.3 m\"\n";
const FIRST_POINT: &str = "[[circuit.pump.curve]]\nflow = \"0 l/min\"\nhead = \"1.8 m\"\n";

fn changed(changes: &[(&str, &str)], end: &str) -> Reading {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../samples/first-panel.toml");
    let mut text = std::fs::read_to_string(path).expect("the sample stands");
    for (line, instead) in changes {
        assert!(text.contains(line), "{line}");
        text = text.replacen(line, instead, 1);
    }
    read_design("x.toml", format!("{text}\n{end}\n").as_bytes())
}

fn build(reading: Reading) -> Build {
    assert!(reading.problems.is_empty(), "{:?}", reading.problems);
    reading.design.expect("a design").at(&flat_climate(54.605, -5.929, None), "x.toml").build
}

#[track_caller]
fn told(reading: &Reading, code: &str, place: &str, severity: Severity) {
    let one = reading.problems.iter().find(|problem| problem.code == code);
    let one = one.unwrap_or_else(|| panic!("no {code} among {:?}", reading.problems));
    assert_eq!((one.place.as_str(), one.severity), (place, severity), "{one:?}");
    assert!(!one.found.is_empty() && !one.expected.is_empty() && !one.hint.is_empty(), "{one:?}");
}

/// A hose by its name brings bore, wall, material and roughness; listed fittings take the place of
/// the assumed figure, each as the handbook's multiplier gives it; a further stretch stands after
/// the first. Bores as the catalogue has them; six elbows of 30 fT.
#[test]
fn hoses_fittings_and_stretches_are_put_together() {
    let text = "size = \"22 x 0.9\"\nlength = \"1 m\"\nlagging = \"13 mm\"\n\
                fitting = [{ kind = \"elbow\", count = 6 }, { kind = \"angle-valve\" }]\n\
                then = [{ size = \"half-inch-heater-hose\", length = \"5 m\", lagging = \"13 mm\" }]\n";
    let flow_pipe =
        "[circuit.flow-pipe]\nsize = \"15 x 0.7\"\nlength = \"6 m\"\nlagging = \"13 mm\"\n";
    let build = build(changed(&[(flow_pipe, &format!("[circuit.flow-pipe]\n{text}"))], ""));
    let [first, then] = build.circuit.flow_pipe.as_slice() else { panic!("two stretches") };
    assert!((first.tube.bore_m - 0.0202).abs() < 1e-12);
    let expected = 6.0 * fitting_multiplied(30.0, 0.0202).unwrap() + 2.0;
    assert!((first.fittings_loss - expected).abs() < 1e-12, "{}", first.fittings_loss);
    assert!((then.tube.bore_m - 0.0127).abs() < 1e-12);
    assert!((then.tube.outside_m - 0.0197).abs() < 1e-12);
    assert!((then.tube.conductivity_w_m_k - 0.25).abs() < 1e-12, "EPDM by the catalogue");
    assert!((then.tube.roughness_m - 7e-6).abs() < 1e-15);
    assert_eq!(then.fittings_loss, 0.0);
    assert_eq!(build.circuit.return_pipe.len(), 1);
}

/// A pump without a plate: the curve begins at the hose's height and ends at the bucket, and the
/// file is then whole without a curve.
#[test]
fn a_measured_pump_has_a_curve() {
    let measured =
        "[circuit.pump.measured]\nshut-head = \"1.8 m\"\nflow = \"5 l/min\"\nlift = \"0.3 m\"";
    let gone = [(FIRST_POINT, ""), (MIDDLE_POINT, ""), (LAST_POINT, "")];
    let curve = build(changed(&gone, measured)).circuit.pump.expect("a pump").curve;
    assert_eq!((curve[0].flow_m3_s, curve[0].head_m), (0.0, 1.8));
    let last = curve[curve.len() - 1];
    assert!((last.flow_m3_s * 60e3 - 5.0).abs() < 1e-9);
    assert!(last.head_m > 0.3 && last.head_m < 0.6, "{}", last.head_m);

    told(&changed(&[], measured), "two-curves", "circuit.pump.measured", Severity::Fault);
    let high = measured.replace("0.3 m", "2 m");
    told(&changed(&gone, &high), "pump-measurement", "circuit.pump.measured.flow", Severity::Fault);
    let unsaid = measured.replace("shut-head = \"1.8 m\"\n", "");
    let place = "circuit.pump.measured.shut-head";
    told(&changed(&gone, &unsaid), "missing-key", place, Severity::Fault);
    let twice = format!("{measured}\nshut-pressure = \"0.2 bar\"");
    told(&changed(&gone, &twice), "two-heads", place, Severity::Fault);
}

/// A curve that ends at a third of a litre a minute, and a round that takes more: refused.
#[test]
fn a_pump_is_not_reckoned_beyond_its_curve() {
    let short = MIDDLE_POINT.replace("3 l/min", "0.3 l/min");
    let reading = changed(&[(MIDDLE_POINT, &short), (LAST_POINT, "")], "");
    told(&reading, "pump-beyond-curve", "circuit.pump", Severity::Fault);
    assert!(reading.design.is_none());
}

/// Each thing a builder should hear of the round, from one change of the sample that brings it.
#[test]
fn what_should_not_be_is_told() {
    let warning = Severity::Warning;
    let valve = "check-valve = \"fitted\"";
    let none = "check-valve = \"fitted\"\nair-vent = \"none\"";
    told(&changed(&[(valve, none)], ""), "air-not-carried", "circuit.air-vent", warning);

    let strong = [
        (FIRST_POINT, "[[circuit.pump.curve]]\nflow = \"0 l/min\"\nhead = \"90 m\"\n"),
        (MIDDLE_POINT, "[[circuit.pump.curve]]\nflow = \"10 l/min\"\nhead = \"80 m\"\n"),
        (LAST_POINT, "[[circuit.pump.curve]]\nflow = \"60 l/min\"\nhead = \"20 m\"\n"),
        ("fittings-k = 2000", "fittings-k = 0"),
    ];
    told(&changed(&strong, ""), "fast-in-copper", "panel.tubes", warning);

    let hose = [(
        "[circuit.flow-pipe]\nsize = \"15 x 0.7\"",
        "[circuit.flow-pipe]\nsize = \"half-inch-hose\"",
    )];
    told(&changed(&hose, ""), "hose-too-hot", "circuit.flow-pipe.material", warning);
    let further = "[[circuit.flow-pipe.then]]\nsize = \"half-inch-hose\"\nlength = \"2 m\"\nlagging = \"0 mm\"";
    told(&changed(&[], further), "hose-too-hot", "circuit.flow-pipe.then[0].material", warning);

    let filling = |lines: &str| changed(&[], &format!("[circuit.filling]\n{lines}"));
    let low = filling("water-level = \"0.2 m\"");
    told(&low, "header-tank-low", "circuit.filling.water-level", warning);
    told(&filling("joins = \"pump-outlet\""), "draws-air", "circuit.filling.joins", warning);
    told(&filling("room = \"0.1 l\""), "header-tank-small", "circuit.filling.room", warning);
    let sealed = filling("kind = \"sealed\"\nvessel = \"2 l\"");
    told(&sealed, "vessel-small", "circuit.filling.vessel", warning);

    let high = "[circuit.filling]\njoins = \"pump-outlet\"\n[circuit.heights]\npump = \"3 m\"";
    told(&changed(&[], high), "suction-low", "circuit.heights.pump", warning);
    let short = [("length = \"8 m\"", "length = \"1 m\"")];
    told(&changed(&short, ""), "coil-small", "store.coil.length", Severity::Note);
}

/// A sealed circuit with room enough, and a tank with room enough: nothing is told, and a key of
/// the other kind of filling is said to mean nothing.
#[test]
fn what_is_right_is_not_told() {
    for lines in [
        "kind = \"sealed\"\nvessel = \"18 l\"",
        "kind = \"header-tank\"\nroom = \"4 l\"",
        "water-level = \"3 m\"\njoins = \"panel-outlet\"",
    ] {
        let reading = changed(&[], &format!("[circuit.filling]\n{lines}"));
        assert!(reading.problems.is_empty(), "{lines}: {:?}", reading.problems);
    }
    let reading = changed(&[], "[circuit.filling]\nvessel = \"18 l\"");
    told(&reading, "not-used", "circuit.filling.vessel", Severity::Warning);
}
