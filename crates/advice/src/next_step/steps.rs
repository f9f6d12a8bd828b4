//! The steps that a builder can take, value by value.

use design::catalogue::materials::material;
use design::parameters::{Form, general, parameter_at};
use design::quantity::{Kind, Units, exact, parse, show};
use design::{Edit, EditValue};

use crate::Subject;

/// One practical step of one value.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The value's place, or what a step on several values is called.
    pub place: String,
    /// How it stands.
    pub from: String,
    /// How it would stand.
    pub to: String,
    /// The edits that take the step.
    pub edits: Vec<Edit>,
}

/// How far a figure is stepped.
#[derive(Clone, Copy)]
enum Stride {
    /// By adding so much, one way.
    Add(&'static str),
    /// By so much either way: the better one counts.
    Either(&'static str),
    /// By multiplying.
    Times(f64),
    /// By multiplying or dividing.
    TimesEither(f64),
}

/// Figures that are stepped: what the step is called, the values it moves together, how far. What a step
/// is, the shop decides: the next board, the next lagging, a metre of tube, a turn of a knob.
const FIGURES: [(&str, &[&str], Stride); 26] = [
    ("sun.tilt", &["sun.tilt"], Stride::Either("5 deg")),
    ("sun.facing", &["sun.facing"], Stride::Either("15 deg")),
    ("panel.gap", &["panel.gap"], Stride::Either("5 mm")),
    ("panel.sheet.thickness", &["panel.sheet.thickness"], Stride::Add("0.3 mm")),
    ("panel.tubes.bond", &["panel.tubes.bond"], Stride::Times(2.0)),
    ("panel.back[0].thickness", &["panel.back[0].thickness"], Stride::Add("10 mm")),
    ("panel.back[1].thickness", &["panel.back[1].thickness"], Stride::Add("10 mm")),
    ("panel.edge.thickness", &["panel.edge.thickness"], Stride::Add("10 mm")),
    (
        "circuit lagging",
        &["circuit.flow-pipe.lagging", "circuit.return-pipe.lagging"],
        Stride::Add("6 mm"),
    ),
    ("circuit.flow-pipe.length", &["circuit.flow-pipe.length"], Stride::Add("-1 m")),
    ("circuit.return-pipe.length", &["circuit.return-pipe.length"], Stride::Add("-1 m")),
    (
        "circuit.return-pipe.fittings-k",
        &["circuit.return-pipe.fittings-k"],
        Stride::TimesEither(2.0),
    ),
    ("circuit.share-by-volume", &["circuit.share-by-volume"], Stride::Add("-5 %")),
    ("circuit.share-by-mass", &["circuit.share-by-mass"], Stride::Add("-5 %")),
    ("store.volume", &["store.volume"], Stride::Either("20 l")),
    ("store.wall[0].thickness", &["store.wall[0].thickness"], Stride::Add("20 mm")),
    ("store.lid[0].thickness", &["store.lid[0].thickness"], Stride::Add("20 mm")),
    ("store.outlet-height", &["store.outlet-height"], Stride::Either("50 mm")),
    ("store.entrainment", &["store.entrainment"], Stride::Times(0.5)),
    ("store.coil.length", &["store.coil.length"], Stride::Add("1 m")),
    (
        "store.coil height",
        &["store.coil.bottom-height", "store.coil.top-height"],
        Stride::Either("20 mm"),
    ),
    ("tap.delivery", &["tap.delivery"], Stride::Add("-2 K")),
    ("tap.heater.loss", &["tap.heater.loss"], Stride::Times(0.8)),
    ("control.on", &["control.on"], Stride::Either("1 K")),
    ("control.off", &["control.off"], Stride::Either("1 K")),
    ("control.store-limit", &["control.store-limit"], Stride::Either("5 K")),
];

/// Words that are stepped: place, and what each word becomes.
const WORDS: [(&str, &[(&str, &str)]); 3] = [
    ("store.coil.direction", &[("down", "up"), ("up", "down")]),
    ("panel.joined", &[("parallel", "series"), ("series", "parallel")]),
    (
        "panel.sheet.coating",
        &[
            ("blackboard-paint", "selective-paint"),
            ("stove-paint", "selective-paint"),
            ("bare-rubber", "stove-paint"),
        ],
    ),
];

/// Every step of a design, in the order of the heat; a value that may go either way has two.
pub fn steps(subject: &Subject) -> Vec<Step> {
    let mut all: Vec<Step> = Vec::new();
    for (name, places, stride) in FIGURES {
        all.extend(figure(subject, name, places, stride));
    }
    all.extend(tighter_box(subject));
    all.extend(WORDS.iter().filter_map(|(place, words)| word(subject, place, words)));
    all.extend(one_panel_more(subject));
    all.extend(one_tube_more(subject));
    all.extend(second_cover(subject));
    all.sort_by_key(|step| station(&step.place));
    all
}

fn station(place: &str) -> usize {
    const STATIONS: [&str; 6] = ["sun", "panel", "circuit", "store", "tap", "control"];
    STATIONS.iter().position(|station| place.starts_with(station)).unwrap_or(STATIONS.len())
}

fn figure(subject: &Subject, name: &str, places: &[&str], stride: Stride) -> Vec<Step> {
    if is_a_board(subject, name) {
        return Vec::new();
    }
    let moved: Vec<(&str, Kind, f64)> =
        places.iter().filter_map(|place| now(subject, place)).collect();
    let Some(&(_, kind, first)) = moved.first() else { return Vec::new() };
    let by: Vec<Box<dyn Fn(f64) -> f64>> = match stride {
        Stride::Add(text) => {
            let Some(add) = distance(kind, text) else { return Vec::new() };
            vec![Box::new(move |now| now + add)]
        }
        Stride::Either(text) => {
            let Some(add) = distance(kind, text) else { return Vec::new() };
            vec![Box::new(move |now| now + add), Box::new(move |now| now - add)]
        }
        Stride::Times(factor) => vec![Box::new(move |now| now * factor)],
        Stride::TimesEither(factor) => {
            vec![Box::new(move |now| now * factor), Box::new(move |now| now / factor)]
        }
    };
    by.iter()
        .map(|next| Step {
            place: name.to_owned(),
            from: show(kind, first, Units::Metric),
            to: show(kind, next(first), Units::Metric),
            edits: moved
                .iter()
                .map(|&(place, kind, now)| put(place, &exact(kind, next(now), Units::Metric)))
                .collect(),
        })
        // Bare stays bare, and nothing has less than nothing.
        .filter(|step| step.from != step.to && !step.to.starts_with('-'))
        .collect()
}

/// True for the thickness of a layer that is no insulation: a board is as thick as it is sold.
fn is_a_board(subject: &Subject, name: &str) -> bool {
    let Some(layer) = name.strip_suffix(".thickness").filter(|layer| layer.ends_with(']')) else {
        return false;
    };
    let named = subject.design.origins.at(&format!("{layer}.material"));
    named
        .and_then(|traced| material(&traced.value))
        .is_some_and(|material| material.group != "insulation")
}

/// A figure's value as it stands \[SI\]; none where the design has none, or it is nought.
fn now<'a>(subject: &Subject, place: &'a str) -> Option<(&'a str, Kind, f64)> {
    let traced = subject.design.origins.at(place)?;
    let parameter = parameter_at(&general(place))?;
    let (Form::Quantity(kind) | Form::Worded(kind, _)) = parameter.form else { return None };
    let si = parse(&traced.value, kind).ok()?.si;
    (si != 0.0).then_some((place, kind, si))
}

/// A step's size in the SI of a kind; of a temperature in kelvin.
fn distance(kind: Kind, text: &str) -> Option<f64> {
    let kind = if kind == Kind::Temperature { Kind::Difference } else { kind };
    Some(parse(text, kind).ok()?.si)
}

fn put(place: &str, text: &str) -> Edit {
    Edit { place: place.to_owned(), value: EditValue::Text(text.to_owned()) }
}

fn word(subject: &Subject, place: &str, words: &[(&str, &str)]) -> Option<Step> {
    let from = subject.design.origins.at(place)?.value.clone();
    if place == "panel.joined" && subject.build.panel.panels.len() < 2 {
        return None;
    }
    let &(_, to) = words.iter().find(|(is, _)| *is == from)?;
    let edits = vec![put(place, to)];
    Some(Step { place: place.to_owned(), from, to: to.to_owned(), edits })
}

/// The box's joints one answer tighter.
fn tighter_box(subject: &Subject) -> Option<Step> {
    const PLACE: &str = "panel.box.air-changes";
    let (_, kind, now) = now(subject, PLACE)?;
    let (word, to) = [("usual", "10 1/h"), ("tight", "1 1/h")]
        .into_iter()
        .find(|(_, text)| parse(text, kind).is_ok_and(|read| read.si < now * 0.999))?;
    let (from, to) = (show(kind, now, Units::Metric), format!("{word} ({to})"));
    Some(Step { place: PLACE.to_owned(), from, to, edits: vec![put(PLACE, word)] })
}

fn one_panel_more(subject: &Subject) -> Option<Step> {
    let now = subject.build.panel.panels.len();
    let counted = subject.design.origins.at("panel.count")?.value == now.to_string();
    counted.then(|| Step {
        place: "panel.count".to_owned(),
        from: now.to_string(),
        to: (now + 1).to_string(),
        edits: vec![Edit {
            place: "panel.count".to_owned(),
            value: EditValue::Whole(now as i64 + 1),
        }],
    })
}

/// One leg or riser more on the same sheet, closer together.
fn one_tube_more(subject: &Subject) -> Option<Step> {
    let origins = &subject.design.origins;
    let place = ["panel.tubes.legs", "panel.tubes.risers"]
        .into_iter()
        .find(|place| origins.at(place).is_some())?;
    let count: u32 = origins.at(place)?.value.parse().ok()?;
    let (_, kind, spacing_m) = now(subject, "panel.tubes.spacing")?;
    let closer_m = spacing_m * f64::from(count) / f64::from(count + 1);
    Some(Step {
        place: place.to_owned(),
        from: format!("{count} at {}", show(kind, spacing_m, Units::Metric)),
        to: format!("{} at {}", count + 1, show(kind, closer_m, Units::Metric)),
        edits: vec![
            Edit { place: place.to_owned(), value: EditValue::Whole(i64::from(count) + 1) },
            put("panel.tubes.spacing", &exact(kind, closer_m, Units::Metric)),
        ],
    })
}

/// A second cover like the first, half way down the air.
fn second_cover(subject: &Subject) -> Option<Step> {
    let origins = &subject.design.origins;
    let built = subject.build.panel.panels.first()?.built()?;
    if built.covers.len() != 1 || origins.at("panel.inner-cover.material").is_some() {
        return None;
    }
    let material = &origins.at("panel.cover.material")?.value;
    let (_, kind, thickness_m) = now(subject, "panel.cover.thickness")?;
    let height = exact(Kind::Length, 0.5 * built.gap_m(), Units::Metric);
    Some(Step {
        place: "panel.inner-cover".to_owned(),
        from: "one cover".to_owned(),
        to: format!("a second of {material}"),
        edits: vec![
            put("panel.inner-cover.material", material),
            put("panel.inner-cover.thickness", &exact(kind, thickness_m, Units::Metric)),
            put("panel.inner-cover.height", &height),
        ],
    })
}
