//! Figures as they are today, so that a change in them is seen and meant. They are evidence of
//! nothing: what is true is checked elsewhere.

use crate::program::run;

/// Given the samples, spared heat and panel heat within 0.2 % of what they were when last looked at.
#[test]
fn the_samples_come_to_what_they_came_to() {
    let before = [
        ("first-panel.toml", 115.12, 229.20),
        ("larger-tubes.toml", 113.43, 224.60),
        ("pair-better-back.toml", 265.69, 402.77),
        ("southern-harp.toml", 692.46, 1179.68),
        ("thermostat-shed.toml", 302.31, 669.68),
        ("bought-selective.toml", 685.69, 1016.79),
        ("radiator-pair.toml", 473.75, 692.13),
        ("gravity-lean-to.toml", 268.33, 543.83),
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
