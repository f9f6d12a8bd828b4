//! Figures as they are today, so that a change in them is seen and meant. They are evidence of
//! nothing: what is true is checked elsewhere.

use crate::program::run;

/// Given the samples, spared heat and panel heat within 0.2 % of what they were when last looked at.
#[test]
fn the_samples_come_to_what_they_came_to() {
    let before = [
        ("first-panel.toml", 125.54, 252.63),
        ("larger-tubes.toml", 123.75, 247.52),
        ("pair-better-back.toml", 291.12, 443.80),
        ("southern-harp.toml", 699.40, 1193.39),
        ("thermostat-shed.toml", 308.83, 686.55),
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
