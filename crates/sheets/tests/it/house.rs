//! The laws of the elevation.

use design::quantity::Units;
use sheets::drawing::{Drawing, Form, Point};
use sheets::pictures::Width;
use sheets::pictures::house::{self, Holding};
use sheets::role::Role;

use crate::facts::{house_facts, houses};

fn line(drawing: &Drawing, wanted: Role) -> &Vec<Point> {
    let found = drawing.shapes.iter().find_map(|shape| match &shape.form {
        Form::Line(points) if shape.role == wanted => Some(points),
        _ => None,
    });
    found.expect("a line")
}

/// Given a panel of 1.2 m from 0.5 to 1.188 m and a coil from 0.06 to 0.2 m: at one scale for all
/// heights, the flow pipe runs from the panel's upper end to the coil's highest turn and the return
/// pipe from its lowest to the panel's lower end; the panel has its slope and its length.
#[test]
fn pipes_run_between_the_heights_of_the_build() {
    for width in [Width::Page, Width::Phone] {
        let drawing = house::draw(&house_facts(Units::Metric), width);
        let flow = line(&drawing, Role::FlowPipe);
        let back = line(&drawing, Role::ReturnPipe);
        let (top, coil_in) = (flow[0].y_mm, flow[flow.len() - 1].y_mm);
        let (coil_out, bottom) = (back[0].y_mm, back[back.len() - 1].y_mm);
        // Two heights give the scale; the other two have to follow it.
        let mm_a_m = (bottom - top) / (1.188 - 0.5);
        assert!((coil_in - top - mm_a_m * (1.188 - 0.2)).abs() < 1e-6);
        assert!((coil_out - top - mm_a_m * (1.188 - 0.06)).abs() < 1e-6);
        let panel = drawing.shapes.iter().find_map(|shape| match (&shape.role, &shape.form) {
            (Role::Material(_), Form::Outline(points)) => Some(points),
            _ => None,
        });
        let panel = panel.expect("a panel");
        let (run, rise) = (panel[1].x_mm - panel[0].x_mm, panel[0].y_mm - panel[1].y_mm);
        assert!((rise / run - 35_f64.to_radians().tan()).abs() < 1e-6);
        // 1.188 m is rounded to a millimetre: 1.2 sin 35 degrees is 0.6883.
        assert!((run.hypot(rise) - 1.2 * mm_a_m).abs() < 1e-3 * mm_a_m);
    }
}

/// Given houses of many kinds: every flow pipe reaches the circuit's highest point and no higher, and
/// the water in a header tank stands at its level, by the scale of panel and coil.
#[test]
fn every_kind_of_house_keeps_its_heights() {
    for facts in houses(Units::Metric) {
        let drawing = house::draw(&facts, Width::Page);
        let flow = line(&drawing, Role::FlowPipe);
        let (out, coil_in) = (flow[0].y_mm, flow[flow.len() - 1].y_mm);
        let in_m = match facts.coil.flow {
            house::Flow::Down => facts.coil.top_m,
            house::Flow::Up => facts.coil.bottom_m,
        };
        let mm_a_m = (coil_in - out) / (facts.panel.top_m - in_m);
        let highest = flow.iter().map(|point| point.y_mm).fold(f64::MAX, f64::min);
        let wanted = coil_in - mm_a_m * (facts.highest_m.max(facts.panel.top_m) - in_m);
        assert!((highest - wanted).abs() < 1e-6, "{highest} for {wanted}");
        if let Holding::Tank { level_m } = facts.holding {
            let waters =
                drawing.shapes.iter().filter_map(|shape| match (shape.role, &shape.form) {
                    (Role::Water, Form::Area(area)) => Some(area.corner.y_mm),
                    _ => None,
                });
            let wanted = coil_in - mm_a_m * (level_m - in_m);
            assert!(waters.into_iter().any(|y_mm| (y_mm - wanted).abs() < 1e-6));
        }
    }
}

/// Given heights that were assumed, their names bear a mark that is explained, and the table says so.
#[test]
fn assumed_heights_are_marked() {
    let drawing = house::draw(&house_facts(Units::Metric), Width::Page);
    let has = |start: &str| {
        drawing.shapes.iter().any(|shape| match &shape.form {
            Form::Text(text) => text.words.starts_with(start),
            _ => false,
        })
    };
    assert!(has("pump*") && has("* height assumed") && !has("2 panels*"));
    let heads: Vec<&str> = drawing.table.rows.iter().map(|row| row[0].as_str()).collect();
    assert!(heads.contains(&"pump (assumed)") && heads.contains(&"panel, lower end"));
}
