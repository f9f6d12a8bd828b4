//! A changed build's plant, taken over from the one before.

use physics::Build;
use physics::control::{PanelProbePlace, Rule, StoreProbePlace};
use year::{Forcing, Plant, Recorder, Upset, march};

use crate::houses::house;

/// Given builds that differ in controller, delivery, probes, the light of their panels, or in something
/// that the plant is made of: the year of the plant taken over is that of the plant compiled, to the last
/// bit (the same numbers go into both).
#[test]
fn a_plant_taken_over_is_the_plant_compiled() {
    type Change = fn(&mut Build);
    let changes: [Change; 7] = [
        |build| {
            if let Rule::Differential(rule) = &mut build.control.rule {
                rule.on_difference_k += 3.0;
            }
        },
        |build| build.control.store_probe_place = StoreProbePlace::LoftAir,
        |build| build.control.panel_probe_place = PanelProbePlace::OpenAir,
        |build| build.tap.delivery_k += 5.0,
        |build| {
            for built in build.panel.panels.iter_mut().filter_map(|panel| panel.built_mut()) {
                built.sheet.absorptance -= 0.1;
                built.covers[0].clean_share -= 0.1;
            }
        },
        |build| build.store.coil.tube.conductivity_w_m_k = 5.0,
        |build| build.store.volume_m3 *= 0.8,
    ];
    let sample = house("pair-better-back.toml");
    let was = Plant::compile(&sample.build).expect("it compiles");
    for (place, change) in changes.iter().enumerate() {
        let mut now = sample.build.clone();
        change(&mut now);
        assert_ne!(now, sample.build, "change {place} changes something");
        let forcing = Forcing::of(&now, &sample.climate).expect("its forcing");
        let year = |plant: &Plant| {
            march(plant, &forcing, &Upset::none(), &mut Recorder::none()).expect("it computes").0
        };
        let taken_over = year(&was.again(&sample.build, &now).expect("it compiles"));
        let compiled = year(&Plant::compile(&now).expect("it compiles"));
        assert_eq!(taken_over, compiled, "change {place}");
    }
}
