//! Figures as they are today, so that a change in them is seen and meant. They are evidence of
//! nothing: what is true is checked elsewhere.

use crate::program::run;

/// Given the samples, spared heat and panel heat within 0.2 % of what they were when last looked at.
#[test]
fn the_samples_come_to_what_they_came_to() {
    let before = [
        ("first-panel.toml", 117.82, 235.39),
        ("larger-tubes.toml", 116.10, 230.77),
        ("pair-better-back.toml", 271.98, 413.15),
        ("southern-harp.toml", 699.07, 1193.22),
        ("thermostat-shed.toml", 307.89, 684.33),
        ("bought-selective.toml", 685.69, 1016.79),
        ("radiator-pair.toml", 486.11, 712.24),
    ];
    for (build, spared_kwh, panel_kwh) in before {
        let document: serde_json::Value =
            serde_json::from_str(&run(&["year", build, "--json"]).out).expect("a document");
        for (key, was) in [("spared_heat_kwh", spared_kwh), ("panel_heat_kwh", panel_kwh)] {
            let is = document["year"][key].as_f64().expect("a number");
            assert!((is / was - 1.0).abs() < 0.002, "{build}: {key} was {was}, is {is}");
        }
    }
}
