//! The year's sun told apart, and the typical day.

use physics::climate::month_of_day;
use year::section::{HeatSection, Loss, typical_day};
use year::{Recorder, Upset};

use crate::houses::{BUILDS, house};

/// Given every sample: strata and spared heat make up the year's sun to a billionth, and the last of
/// them, which is what the others leave, is the heat that the ledgers' own nodes hold more at the end
/// than at the start, panel, circuit and store less the twin's store. Conservation.
#[test]
fn the_years_sun_is_accounted_for() {
    for name in BUILDS {
        let house = house(name);
        let result = year::run(&house.build, &house.forcing, &Upset::none(), &mut Recorder::none())
            .expect("the samples compute");
        let section = HeatSection::of(&result, &house.forcing, house.build.panel.area_m2());
        let sum_j = section.strata.iter().map(|stratum| stratum.year_j).sum::<f64>();
        assert!((sum_j + section.spared_j - section.sun_j).abs() < 1e-9 * section.sun_j, "{name}");
        let grown_j = |ledger: &year::Ledger| {
            let (start, end) = (ledger.start, ledger.end);
            end.panel_j - start.panel_j + end.circuit_j - start.circuit_j + end.store_j
                - start.store_j
        };
        let held_j = grown_j(&result.build) - grown_j(&result.twin);
        let found_j = section.lost_j(Loss::Held);
        assert!((found_j - held_j).abs() < 1e-8 * section.sun_j, "{name}: {found_j} {held_j}");
        let (widths_j, spared_j) = section.widths_j();
        assert!(widths_j.iter().all(|&width_j| width_j >= 0.0) && spared_j >= 0.0, "{name}");
        let whole_j = widths_j.iter().sum::<f64>() + spared_j;
        assert!((whole_j - section.sun_j).abs() < 1e-9 * section.sun_j, "{name}: {whole_j}");
        for losses in 0..=section.strata.len() {
            let sum: f64 = section.month_shares(losses).iter().sum();
            assert!((sum - 1.0).abs() < 1e-12, "{name}: {losses} {sum}");
        }
        let twin_j = result.twin.year().topup_heat_j + result.twin.year().tap_heat_j;
        assert!((section.need_j() - twin_j).abs() < 1e-9 * twin_j, "{name}");
    }
}

/// Given June and July, half of their 61 days are no brighter than the typical one and half no
/// dimmer. Definition of a median.
#[test]
fn a_typical_day_has_as_many_brighter_as_dimmer() {
    let house = house("first-panel.toml");
    let light = &house.forcing.light.plane_w_m2;
    let day_kwh_m2 = |day: usize| {
        light[day * 24..(day + 1) * 24].iter().map(|&w_m2| f64::from(w_m2)).sum::<f64>() / 1000.0
    };
    let (day, found_kwh_m2) = typical_day(&house.forcing, &[5, 6]).expect("months were asked for");
    assert!((day_kwh_m2(day) - found_kwh_m2).abs() < 1e-12);
    let days = (0..365).filter(|&day| [5, 6].contains(&month_of_day(day)));
    let (brighter, dimmer) = days.fold((0, 0), |(brighter, dimmer), other| {
        let other_kwh_m2 = day_kwh_m2(other);
        (
            brighter + usize::from(other_kwh_m2 > found_kwh_m2),
            dimmer + usize::from(other_kwh_m2 < found_kwh_m2),
        )
    });
    assert_eq!((brighter, dimmer), (30, 30));
    assert_eq!(typical_day(&house.forcing, &[]), None);
}
