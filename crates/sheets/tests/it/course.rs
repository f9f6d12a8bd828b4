//! Hours that pictures of worries are drawn from here.

use design::quantity::Units;
use sheets::Drawing;
use sheets::pictures::{Width, course};

/// A pump that died on a bright day: the sheet runs away, two limits close together. With `number` 1, a
/// store that cools for ten days.
pub fn course_of(number: usize, width: Width, units: Units) -> Drawing {
    let sheet = |step: usize| {
        let hour = step as f64 / 6.0 % 24.0;
        20.0 + 131.0 * ((hour - 5.0) / 15.0 * std::f64::consts::PI).sin().max(0.0)
    };
    let facts = if number == 0 {
        course::Facts {
            number,
            title: "The pump dead on the brightest day".to_owned(),
            begins: "16 June".to_owned(),
            step_min: 10,
            lines: vec![
                ("sheet", (0..=288).map(sheet).collect()),
                ("fluid at the outlet", (0..=288).map(|step| sheet(step) - 6.0).collect()),
            ],
            limits: vec![
                ("solder of the tube joints, for hours", 121.0),
                ("the same, for years", 110.0),
            ],
            units,
        }
    } else {
        course::Facts {
            number,
            title: "Nobody draws for ten days".to_owned(),
            begins: "1 February".to_owned(),
            step_min: 60,
            lines: vec![(
                "store, top",
                (0..=240).map(|hour| 41.0 - 0.1 * f64::from(hour)).collect(),
            )],
            limits: Vec::new(),
            units,
        }
    };
    course::draw(&facts, width)
}
