//! Figures as they are today, so that a change in them is seen and meant. They are evidence of
//! nothing: what is true is checked elsewhere.

use crate::program::run;

/// Given the samples, spared heat and panel heat within 0.2 % of what they were when last looked at.
#[test]
fn the_samples_come_to_what_they_came_to() {
    let before = [
        ("first-panel.toml", 115.79, 229.19),
        ("larger-tubes.toml", 114.05, 224.59),
        ("pair-better-back.toml", 266.32, 402.79),
        ("southern-harp.toml", 692.51, 1179.74),
        ("thermostat-shed.toml", 302.31, 669.68),
        ("bought-selective.toml", 686.30, 1016.80),
        ("radiator-pair.toml", 474.30, 692.15),
        ("gravity-lean-to.toml", 271.94, 544.20),
    ];
    for (build, spared_kwh, panel_kwh) in before {
        let document: serde_json::Value =
            serde_json::from_str(&run(&["year", build, "--json", "--no-band"]).out)
                .expect("a document");
        for (key, was) in [("spared_heat_kwh", spared_kwh), ("panel_heat_kwh", panel_kwh)] {
            let is = document["year"][key].as_f64().expect("a number");
            assert!((is / was - 1.0).abs() < 0.002, "{build}: {key} was {was}, is {is}");
        }
    }
}
