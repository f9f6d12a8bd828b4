//! The laws of the section through the store.

use design::quantity::Units;
use sheets::drawing::{Area, Drawing, Form, Shape};
use sheets::pictures::Width;
use sheets::role::Role;

use crate::facts::cistern_of;

/// Areas whose live name begins so, in the order drawn.
fn named<'a>(drawing: &'a Drawing, start: &str) -> Vec<(&'a Shape, Area)> {
    drawing
        .shapes
        .iter()
        .filter(|shape| shape.live.as_ref().is_some_and(|name| name.starts_with(start)))
        .filter_map(|shape| match &shape.form {
            Form::Area(area) => Some((shape, *area)),
            _ => None,
        })
        .collect()
}

/// Scale told in the caption.
fn one_to(drawing: &Drawing) -> f64 {
    let words: String = drawing
        .shapes
        .iter()
        .filter_map(|shape| match (&shape.role, &shape.form) {
            (Role::Caption, Form::Text(text)) => Some(format!("{} ", text.words)),
            _ => None,
        })
        .collect();
    let words = words.replace('\u{a0}', " ");
    words.split("1 to ").nth(1).and_then(|rest| rest.trim().parse().ok()).expect("a scale")
}

/// Given 450 mm of water in eight layers, 505.5 mm across: at the scale the caption tells, the layers
/// are as wide and together as high as the water, alike, one on the other, warmer ones lighter.
#[test]
fn the_water_is_drawn_to_the_scale_told() {
    for width in [Width::Page, Width::Phone] {
        let drawing = cistern_of(width, Units::Metric);
        let layers = named(&drawing, "store.layer.");
        let scale = 1.0 / one_to(&drawing);
        assert_eq!(layers.len(), 8);
        for pair in layers.windows(2) {
            let ((low, under), (high, over)) = (&pair[0], &pair[1]);
            assert!((over.bottom_mm() - under.corner.y_mm).abs() < 1e-9);
            assert!((over.height_mm - under.height_mm).abs() < 1e-9);
            let (Role::Warmth(low), Role::Warmth(high)) = (low.role, high.role) else {
                panic!("water has a warmth")
            };
            assert!(high >= low);
        }
        let whole_mm: f64 = layers.iter().map(|(_, area)| area.height_mm).sum();
        assert!((whole_mm - 450.0 * scale).abs() < 1e-6, "{whole_mm}");
        assert!((layers[0].1.width_mm - 505.5 * scale).abs() < 1e-6);
    }
}

/// Given 8 m of coil in turns of 350 mm between 60 and 200 mm: 7.3 turns (by hand, 8/(0.35 pi)), so 15
/// cuts, all between those heights, the outermost 350 mm apart.
#[test]
fn the_coil_is_cut_twice_a_turn_at_its_heights() {
    let drawing = cistern_of(Width::Page, Units::Metric);
    let scale = 1.0 / one_to(&drawing);
    let bottom = named(&drawing, "store.layer.0")[0].1.bottom_mm();
    let cuts: Vec<(f64, f64)> = drawing
        .shapes
        .iter()
        .filter_map(|shape| match (&shape.role, &shape.form) {
            (Role::Bore, Form::Circle { middle, .. }) => {
                Some((middle.x_mm / scale, (bottom - middle.y_mm) / scale))
            }
            _ => None,
        })
        .collect();
    assert_eq!(cuts.len(), 15);
    let most = |pick: fn(&(f64, f64)) -> f64| cuts.iter().map(pick).fold(f64::MIN, f64::max);
    let least = |pick: fn(&(f64, f64)) -> f64| cuts.iter().map(pick).fold(f64::MAX, f64::min);
    assert!((most(|cut| cut.0) - least(|cut| cut.0) - 350.0).abs() < 1e-6);
    assert!((least(|cut| cut.1) - 60.0).abs() < 1e-6 && (most(|cut| cut.1) - 200.0).abs() < 1e-6);
}

/// Given the same: every figure in the water has its live name, and the name of its layer's colour is
/// the same without its last part.
#[test]
fn figures_in_the_water_can_be_played() {
    let drawing = cistern_of(Width::Page, Units::Metric);
    let names: Vec<&String> =
        drawing.shapes.iter().filter_map(|shape| shape.live.as_ref()).collect();
    let figures: Vec<&&String> = names.iter().filter(|name| name.ends_with(".c")).collect();
    assert!(figures.len() >= 4);
    for figure in figures {
        let layer = figure.trim_end_matches(".c");
        assert_eq!(names.iter().filter(|name| name.as_str() == layer).count(), 1);
    }
    assert!(names.iter().any(|name| name.as_str() == "store.ball-valve"));
    let text = sheets::svg::inline(&drawing);
    assert!(text.contains("data-live=\"store.layer.0\""));
}
