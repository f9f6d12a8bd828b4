//! From answers to a design file: the starter with everything answered put in, and everything that nobody
//! answered left to be assumed or called unknown, so that it is marked.

use std::f64::consts::PI;

use anyhow::{Context, Result};
use design::parameters::{Default, parameter_at};
use design::quantity::{Kind, Units, exact};
use design::{Edit, EditValue, Origin, Written, read_design};

use super::answers::{Answers, Drive, Piece};
use super::layout::Layout;

/// The text of a design file for a layout, under a title.
///
/// # Errors
/// A tube too short for two passes of the sheet; a starter that cannot be edited.
pub fn design_text(title: &str, answers: &Answers, layout: &Layout) -> Result<String> {
    let starter = design::template();
    let written = Written::parse("new.toml", &starter).context("the starter")?;
    let mut edits = answered(answers, layout)?;
    edits.extend(unanswered(&starter, &edits));
    let story = "Made from answers about the house. What was not asked is assumed, unknown or the \
                 starter’s: go through it station by station.";
    edits.push(text("title", title));
    edits.push(text("story", story));
    Ok(written.edited(&edits)?.text)
}

fn text(place: &str, value: impl Into<String>) -> Edit {
    Edit { place: place.to_owned(), value: EditValue::Text(value.into()) }
}

fn taken_out(place: &str) -> Edit {
    Edit { place: place.to_owned(), value: EditValue::Remove }
}

/// A length to the millimetre.
fn millimetres(length_m: f64) -> String {
    format!("{} mm", (length_m * 1000.0).round())
}

/// A height to the centimetre.
fn metres(height_m: f64) -> String {
    format!("{:.2} m", (height_m * 100.0).round() / 100.0 + 0.0)
}

fn answered(answers: &Answers, layout: &Layout) -> Result<Vec<Edit>> {
    let mut edits = Vec::new();
    if let Some(place) = &answers.place {
        edits.extend([taken_out("sun.weather"), text("sun.place", place)]);
    }
    edits.extend(answers.tilt.iter().map(|tilt| text("sun.tilt", tilt)));
    edits.extend(answers.facing.iter().map(|facing| text("sun.facing", facing)));
    if let Some(people) = answers.people {
        edits.push(Edit { place: "tap.people".to_owned(), value: EditValue::Whole(people.into()) });
    }
    edits.push(text("tap.heater.kind", "cylinder"));
    if let Some(cover) = &layout.cover {
        edits.push(text("panel.cover.material", cover));
        let is_glass = cover.contains("glass");
        edits.push(text("panel.cover.thickness", if is_glass { "4 mm" } else { "3 mm" }));
    }
    edits.extend(sheet(answers, layout)?);
    edits.extend(store(answers, layout));
    edits.extend(heights(answers, layout));
    if layout.drive == Drive::Gravity {
        edits.extend([
            text("circuit.drive", "gravity"),
            text("circuit.check-valve", "flap"),
            taken_out("circuit.pump"),
            taken_out("control"),
        ]);
    }
    Ok(edits)
}

/// The sheet, and the tube to and fro on it.
fn sheet(answers: &Answers, layout: &Layout) -> Result<Vec<Edit>> {
    let stock = &answers.stock;
    if layout.sheet.is_none() && stock.tube_size.is_none() && stock.tube_m.is_none() {
        return Ok(Vec::new());
    }
    let sheet = layout.sheet.unwrap_or(Piece { long_m: 1.2, short_m: 0.6 });
    let size = stock.tube_size.as_deref().unwrap_or("10 x 0.6");
    let outside_mm: f64 =
        size.split(" x ").next().and_then(|word| word.parse().ok()).unwrap_or(10.0);
    let laid = Laid::of(sheet, outside_mm / 1000.0, stock.tube_m)
        .ok_or_else(|| ShortTube { along: millimetres(sheet.long_m) })?;
    Ok(vec![
        text("panel.sheet.length", millimetres(sheet.long_m)),
        text("panel.sheet.width", millimetres(sheet.short_m)),
        text("panel.tubes.size", size),
        text("panel.tubes.spacing", millimetres(laid.spacing_m)),
        Edit { place: "panel.tubes.legs".to_owned(), value: EditValue::Whole(laid.legs) },
        text("panel.tubes.leg-length", millimetres(laid.leg_m)),
    ])
}

/// The tube makes no two passes of the sheet.
#[derive(Debug)]
pub struct ShortTube {
    along: String,
}

impl std::fmt::Display for ShortTube {
    fn fmt(&self, out: &mut std::fmt::Formatter) -> std::fmt::Result {
        let along = &self.along;
        write!(
            out,
            "the tube is too short or too thick for the sheet: two passes along {along} are the least"
        )
    }
}

impl std::error::Error for ShortTube {}

/// A tube to and fro on a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Laid {
    legs: i64,
    leg_m: f64,
    spacing_m: f64,
}

/// Bare sheet at either end of a pass \[m\].
const END_M: f64 = 0.05;
/// What passes lie apart where the tube allows it \[m\] (common practice).
const WANTED_M: f64 = 0.095;
/// The tightest bend of soft copper tube by hand, in its diameters, middle to middle (common practice).
const TIGHTEST: f64 = 6.0;

impl Laid {
    /// As many passes as the sheet wants and the tube makes; `None` for fewer than two.
    fn of(sheet: Piece, outside_m: f64, tube_m: Option<f64>) -> Option<Laid> {
        let leg_m = sheet.long_m - 2.0 * END_M;
        let most = (sheet.short_m / WANTED_M.max(TIGHTEST * outside_m)).floor();
        if leg_m <= 0.0 || most < 2.0 {
            return None;
        }
        (2..=most as i64).rev().find_map(|legs| {
            // A whole millimetre stays one, whatever binary fractions make of it.
            let spacing_m = (sheet.short_m / legs as f64 * 1000.0 + 1e-6).floor() / 1000.0;
            let bends_m = (legs - 1) as f64 * 0.5 * PI * spacing_m;
            let takes_m = legs as f64 * leg_m + bends_m;
            tube_m.is_none_or(|tube_m| takes_m <= tube_m).then_some(Laid { legs, leg_m, spacing_m })
        })
    }
}

/// The store's water, and the coil as it fits in.
fn store(answers: &Answers, layout: &Layout) -> Vec<Edit> {
    if answers.stock.cistern_m3.is_none() && answers.people.is_none() {
        return Vec::new();
    }
    let depth_m = layout.depth_m();
    let times = depth_m / 0.45;
    let width_m = (layout.store_m3 / depth_m).sqrt();
    let turn_m = (0.75 * width_m).min(0.3);
    let (bottom_m, top_m) = (0.06_f64.min(0.15 * depth_m), 0.22_f64.min(0.6 * depth_m));
    vec![
        text("store.volume", exact(Kind::Volume, layout.store_m3, Units::Metric)),
        text("store.water-depth", millimetres(depth_m)),
        text("store.coil.bottom-height", millimetres(bottom_m)),
        text("store.coil.top-height", millimetres(top_m)),
        text("store.coil.turn-diameter", millimetres(turn_m)),
        // As much coil as the starter has for its depth and its turns.
        text("store.coil.length", format!("{:.1} m", 8.0 * (times * times).min(1.0))),
    ]
}

/// Heights over the store's base, where somebody answered them.
fn heights(answers: &Answers, layout: &Layout) -> Vec<Edit> {
    let at = &layout.at;
    let base_m = at.store_base.over_m;
    if answers.heights.store_base_m.is_none() {
        return Vec::new();
    }
    let given = answers.heights;
    let mut edits = Vec::new();
    let mut put = |is_given: Option<f64>, place: &str, over_m: f64| {
        if is_given.is_some() {
            edits.push(text(place, metres(over_m - base_m)));
        }
    };
    put(given.panel_bottom_m, "circuit.heights.panel-bottom", at.panel_bottom.over_m);
    put(given.panel_top_m, "circuit.heights.panel-top", at.panel_top.over_m);
    put(given.header_m, "circuit.filling.water-level", at.header.over_m);
    edits
}

/// What the starter states and nobody answered: unknown where that is an answer, left out where
/// something is assumed then. What must stand stays the starter's.
fn unanswered(starter: &str, answered: &[Edit]) -> Vec<Edit> {
    let reading = read_design("new.toml", starter.as_bytes());
    let Some(design) = reading.design else { return Vec::new() };
    let is_answered = |place: &str| {
        answered.iter().any(|edit| {
            place == edit.place
                || place.strip_prefix(&edit.place).is_some_and(|rest| rest.starts_with(['.', '[']))
        })
    };
    design
        .origins
        .iter()
        .filter(|(place, traced)| traced.origin == Origin::Written && !is_answered(place))
        .filter_map(|(place, _)| {
            let parameter = parameter_at(place)?;
            if parameter.unknown.is_some() {
                return Some(text(place, "unknown"));
            }
            matches!(parameter.default, Default::Assume { .. } | Default::Worked { .. })
                .then(|| taken_out(place))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::answers::{Cistern, Downstream, Heights, Stock};
    use super::*;
    use crate::commands::{Loaded, Source, load, subject};
    use crate::sample::JobBook;
    use std::path::Path;

    /// A design beside the sample's weather.
    struct Beside(String);

    impl Source for Beside {
        fn bytes(&self, path: &Path) -> Result<Vec<u8>> {
            if path == Path::new("new.toml") {
                return Ok(self.0.clone().into_bytes());
            }
            JobBook.bytes(path)
        }
    }

    fn made(answers: &Answers) -> Loaded {
        let layout = Layout::of(answers).expect("a layout");
        let text = design_text("Made here", answers, &layout).expect("a design file");
        load(Path::new("new.toml"), &Beside(text.clone()))
            .unwrap_or_else(|said| panic!("{:?}\n{text}", said.problems))
    }

    fn full() -> Answers {
        Answers {
            cistern: Cistern::OnlyCylinder,
            heater: Some(Downstream::HotCylinder),
            heights: Heights {
                panel_bottom_m: Some(5.6),
                panel_top_m: Some(6.3),
                store_base_m: Some(5.2),
                header_m: Some(6.9),
                tap_m: Some(1.0),
            },
            people: Some(4),
            stock: Stock {
                sheet: Some(Piece { long_m: 1.5, short_m: 0.7 }),
                tube_size: Some("12 x 0.6".to_owned()),
                tube_m: Some(9.0),
                cover: Some("toughened-glass".to_owned()),
                pane: None,
                cistern_m3: Some(0.1),
            },
            place: Some("thames".to_owned()),
            tilt: Some("40 deg".to_owned()),
            facing: Some("south-west".to_owned()),
            ..Answers::default()
        }
    }

    /// Given nothing answered: a build that is read without a fault, and whose year is computed.
    #[test]
    fn a_build_of_no_answers_can_be_computed() {
        let loaded = made(&Answers::default());
        let year = subject(&loaded).year().expect("a year");
        assert!(year.spared_kwh() > 0.0);
    }

    /// Given everything answered: it stands in the file as answered, and the year is computed. 9 m of tube
    /// on a sheet of 1.5 m make 5 passes of 1.4 m with 4 half circles of 140 mm across: 7.9 m; 6 would take
    /// 9.3 m (by hand).
    #[test]
    fn answers_stand_in_the_file() {
        let loaded = made(&full());
        let build = &loaded.build;
        let value = |place: &str| loaded.origins.at(place).map(|traced| traced.value.clone());
        assert_eq!(value("panel.tubes.legs").as_deref(), Some("5"));
        assert_eq!(value("panel.tubes.spacing").as_deref(), Some("140 mm"));
        assert_eq!(value("circuit.heights.panel-bottom").as_deref(), Some("400 mm"));
        assert_eq!(value("circuit.filling.water-level").as_deref(), Some("1.7 m"));
        assert_eq!(value("sun.facing").as_deref(), Some("225 deg"));
        assert!((build.sun.place.latitude.degrees() - 51.5).abs() < 1.0);
        assert!(subject(&loaded).year().expect("a year").spared_kwh() > 0.0);
    }

    /// Given what nobody answered, it is assumed or unknown, not written, wherever something else can be:
    /// the switch-on difference and the delivery temperature are assumed, the heater's loss too.
    #[test]
    fn what_was_not_answered_is_marked() {
        let loaded = made(&full());
        for place in ["control.on", "control.off", "tap.delivery", "sun.shelter"] {
            let origin = loaded.origins.at(place).map(|traced| traced.origin.clone());
            assert!(origin.is_some_and(|origin| origin != Origin::Written), "{place}");
        }
    }

    /// Given cisterns from a bucket to a tank: in each the coil fits, by the design file's own checks.
    #[test]
    fn a_coil_fits_every_store() {
        for litres in [20.0, 61.0, 115.0, 227.0, 500.0] {
            let mut answers = full();
            answers.people = Some(30);
            answers.stock.cistern_m3 = Some(litres / 1000.0);
            let loaded = made(&answers);
            assert!((loaded.build.store.volume_m3 - litres / 1000.0).abs() < 1e-6);
        }
    }

    /// Given gravity with the store high over the panel: no pump, no controller, a flap, and a year.
    #[test]
    fn without_a_pump_there_is_none() {
        let mut answers = full();
        answers.drive = Drive::Gravity;
        answers.heights.panel_bottom_m = Some(2.0);
        answers.heights.panel_top_m = Some(2.9);
        let loaded = made(&answers);
        assert!(loaded.build.circuit.pump.is_none());
        assert!(subject(&loaded).year().is_ok());
    }

    /// Given 2 m of tube for a sheet of 1.5 m, no build, and the reason.
    #[test]
    fn a_tube_too_short_is_told() {
        let mut answers = full();
        answers.stock.tube_m = Some(2.0);
        let layout = Layout::of(&answers).expect("a layout");
        let error = design_text("x", &answers, &layout).expect_err("too short");
        assert!(error.is::<ShortTube>() && error.to_string().contains("1500 mm"), "{error}");
    }
}
