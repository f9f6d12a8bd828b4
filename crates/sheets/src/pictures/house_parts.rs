//! The house's parts as they are drawn: what carries the panel, the store, the round.

use super::house::{AirVent, CheckValve, Facts, Holding};
use super::house_plan::{Carrier, FLOOR_M, Plan};
use super::room::Room;
use crate::drawing::{Area, Drawing, Form, Point};
use crate::hatch::Material;
use crate::pen::{at, between, px};
use crate::role::Role;

/// Roof or frame, with the floor under the store and the ground under all.
pub(super) fn carrier(drawing: &mut Drawing, plan: &Plan, room: &mut Room) {
    let floor = plan.y(-FLOOR_M);
    let ground = plan.y(plan.lowest_m - FLOOR_M);
    let mut line = |role: Role, points: &[Point]| {
        drawing.line(role, points);
        room.take_line(points, 3.0);
    };
    match &plan.carrier {
        Carrier::Roof(points) => {
            line(Role::Cut, points);
            line(Role::InView, &[at(plan.left, floor), at(plan.right, floor)]);
        }
        Carrier::Frame(legs) => {
            for leg in legs {
                line(Role::InView, leg);
            }
            if ground > floor + 12.0 {
                line(Role::InView, &[at(plan.wall, floor), at(plan.right, floor)]);
                line(Role::Hidden, &[at(plan.wall, floor), at(plan.wall, ground)]);
                line(Role::InView, &[at(plan.left, ground), at(plan.right, ground)]);
            } else {
                line(Role::InView, &[at(plan.left, ground), at(plan.right, ground)]);
            }
        }
    }
}

pub(super) fn store(drawing: &mut Drawing, facts: &Facts, plan: &Plan, room: &mut Room) {
    let corner = |area: &Area, x: f64, y: f64| Point {
        x_mm: area.corner.x_mm + x * area.width_mm,
        y_mm: area.corner.y_mm + y * area.height_mm,
    };
    let around = |area: &Area| {
        [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0), (0.0, 0.0)]
            .map(|(x, y)| corner(area, x, y))
    };
    // Its platform, on the floor.
    let base = plan.jacket.bottom_mm();
    let floor_mm = px(plan.y(-FLOOR_M));
    for part in [0.12, 0.5, 0.88] {
        let x_mm = plan.jacket.corner.x_mm + part * plan.jacket.width_mm;
        drawing.line(Role::InView, &[Point { x_mm, y_mm: base }, Point { x_mm, y_mm: floor_mm }]);
    }
    drawing.add(Role::Ground, Form::Area(plan.jacket));
    drawing.add(Role::Water, Form::Area(plan.water));
    drawing.named("store.water");
    if facts.store.wall_m > 0.0 || facts.store.lid_m > 0.0 {
        drawing.line(Role::Leader, &around(&plan.jacket));
    }
    let shell = &plan.shell;
    drawing.line(
        Role::Cut,
        &[(0.0, 0.0), (0.0, 1.0), (1.0, 1.0), (1.0, 0.0)].map(|(x, y)| corner(shell, x, y)),
    );
    room.take(between(plan.jacket.corner, Point { x_mm: plan.jacket.right_mm(), y_mm: floor_mm }));
}

pub(super) fn pipes(drawing: &mut Drawing, facts: &Facts, plan: &Plan, room: &mut Room) {
    let mut line = |role: Role, points: &[Point], beside: f64| {
        drawing.line(role, points);
        room.take_line(points, beside);
    };
    // The coil: to and fro in the water, between its heights.
    let (left_mm, right_mm) = (plan.shell.corner.x_mm, plan.shell.right_mm());
    let (top, bottom) = (plan.y(facts.coil.top_m), plan.y(facts.coil.bottom_m));
    let turns = 5;
    let mut coil = vec![Point { x_mm: left_mm, y_mm: px(top) }];
    for turn in 0..=turns {
        let y_mm = px(top + (bottom - top) * f64::from(turn) / f64::from(turns));
        let near_mm = left_mm + 0.2 * (right_mm - left_mm);
        let far_mm = left_mm + 0.8 * (right_mm - left_mm);
        let ends = if turn % 2 == 0 { [near_mm, far_mm] } else { [far_mm, near_mm] };
        coil.extend(ends.map(|x_mm| Point { x_mm, y_mm }));
    }
    coil.push(Point { x_mm: left_mm, y_mm: px(bottom) });
    line(Role::Vent, &coil, 0.0);
    if !plan.feed.is_empty() {
        line(Role::FeedPipe, &plan.feed, 3.0);
    }
    line(Role::ReturnPipe, &plan.back, 4.0);
    line(Role::FlowPipe, &plan.flow, 4.0);
    line(Role::Vent, &plan.outlet, 4.0);
    if facts.air_vent == AirVent::Fitted {
        let top = Point { x_mm: plan.highest.x_mm, y_mm: plan.highest.y_mm - px(11.0) };
        line(Role::Vent, &[plan.highest, top], 3.0);
        drawing.circle(Role::Ring, top, 2.6);
    }
    drawing.outline(Role::Material(Material::Metal), &plan.panel);
    room.take_line(&[plan.panel[0], plan.panel[1]], 8.0);
    room.take_line(&[plan.panel[3], plan.panel[2]], 4.0);
    if facts.check_valve != CheckValve::None {
        valve(drawing, plan.valve);
        room.take_line(&[plan.valve.0, plan.valve.1], 7.0);
    }
    if let Some(tank) = plan.tank {
        let level_mm = match facts.holding {
            Holding::Tank { level_m } => px(plan.y(level_m)),
            Holding::Vessel { .. } => tank.corner.y_mm,
        };
        drawing.area(
            Role::Water,
            Point { x_mm: tank.corner.x_mm, y_mm: level_mm },
            Point { x_mm: tank.right_mm(), y_mm: tank.bottom_mm() },
        );
        let (top, bottom) = (tank.corner.y_mm, tank.bottom_mm());
        let sides = [
            (tank.corner.x_mm, top),
            (tank.corner.x_mm, bottom),
            (tank.right_mm(), bottom),
            (tank.right_mm(), top),
        ];
        drawing.line(Role::InView, &sides.map(|(x_mm, y_mm)| Point { x_mm, y_mm }));
        room.take(tank);
    }
    if let Some(vessel) = plan.vessel {
        drawing.circle(Role::Ring, vessel, 11.0);
        drawing.line(
            Role::Vent,
            &[
                Point { x_mm: vessel.x_mm - px(11.0), y_mm: vessel.y_mm },
                Point { x_mm: vessel.x_mm + px(11.0), y_mm: vessel.y_mm },
            ],
        );
        room.take_line(&[vessel, vessel], 12.0);
    }
    if let Some(pump) = plan.pump {
        drawing.circle(Role::Ring, pump, 7.5);
        drawing.named("circuit.pump");
        room.take_line(&[pump, pump], 8.0);
    }
}

/// A check valve: a bar that the fluid lifts one way, from the first point to the second.
fn valve(drawing: &mut Drawing, (from, to): (Point, Point)) {
    let sign = (to.x_mm - from.x_mm).signum();
    let (y, half) = (from.y_mm, px(5.5));
    drawing.outline(
        Role::Arrow,
        &[
            Point { x_mm: from.x_mm - sign * px(1.0), y_mm: y - half },
            Point { x_mm: from.x_mm - sign * px(1.0), y_mm: y + half },
            Point { x_mm: to.x_mm, y_mm: y },
        ],
    );
    drawing.line(
        Role::InView,
        &[Point { x_mm: to.x_mm, y_mm: y - half }, Point { x_mm: to.x_mm, y_mm: y + half }],
    );
}
