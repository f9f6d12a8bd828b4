//! The two ends of what mixing in the store can do, as the page of checks tells them.

use crate::json::document;
use crate::page::{Row, holds};

/// Given the nine samples: spared heat, and what it would be with the store fully mixed and with nothing
/// mixed by falling cold, held as `docs/method/checks.md` tells it. What a sample spares lies between
/// the two.
#[test]
fn the_page_tells_the_bracket_of_each_sample() {
    const SAMPLES: [&str; 9] = [
        "first-panel",
        "larger-tubes",
        "pair-better-back",
        "southern-harp",
        "thermostat-shed",
        "bought-selective",
        "radiator-pair",
        "missed-seams",
        "gravity-lean-to",
    ];
    let rows = SAMPLES.map(|name| {
        let year = document(&["year", &format!("{name}.toml"), "--no-band", "--json"], 0);
        let kwh = |part: &str, key: &str| year[part][key].as_f64().expect("a number");
        let spared = kwh("year", "spared_heat_kwh");
        let ends = [kwh("bracket", "mixed_kwh"), kwh("bracket", "unmixed_kwh")];
        let [low, high] = if ends[0] < ends[1] { ends } else { [ends[1], ends[0]] };
        assert!((low..=high).contains(&spared), "{name}: {spared} kWh, {ends:?}");
        let percent = ends.map(|end| 100.0 * (end / spared - 1.0));
        Row::of(name, &[spared, ends[0], ends[1], percent[0], percent[1]])
    });
    holds("Samples between mixed and unmixed", &rows);
}
