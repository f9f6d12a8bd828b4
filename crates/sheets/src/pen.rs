//! Puts shapes on a drawing; pictures are laid out in the pixels of a screen at 96 to the inch.

use crate::drawing::{Anchor, Area, Drawing, Form, Point, Run, Shape, Text};
use crate::role::Role;

/// Pixels as millimetres.
pub const fn px(pixels: f64) -> f64 {
    pixels * 25.4 / 96.0
}

/// A point so many pixels from the left and from above.
pub const fn at(x: f64, y: f64) -> Point {
    Point { x_mm: px(x), y_mm: px(y) }
}

/// A rectangle between two points, in pixels.
pub fn between(from: Point, to: Point) -> Area {
    Area {
        corner: Point { x_mm: from.x_mm.min(to.x_mm), y_mm: from.y_mm.min(to.y_mm) },
        width_mm: (to.x_mm - from.x_mm).abs(),
        height_mm: (to.y_mm - from.y_mm).abs(),
    }
}

impl Drawing {
    /// Adds a shape on top.
    pub fn add(&mut self, role: Role, form: Form) {
        self.shapes.push(Shape { role, form, live: None });
    }

    /// Names the shape added last, so that the page can change its words or its colour as a day plays.
    pub fn named(&mut self, name: impl Into<String>) {
        if let Some(shape) = self.shapes.last_mut() {
            shape.live = Some(name.into());
        }
    }

    /// A line through points.
    pub fn line(&mut self, role: Role, points: &[Point]) {
        self.add(role, Form::Line(points.to_vec()));
    }

    /// A closed outline.
    pub fn outline(&mut self, role: Role, points: &[Point]) {
        self.add(role, Form::Outline(points.to_vec()));
    }

    /// A rectangle between two points.
    pub fn area(&mut self, role: Role, from: Point, to: Point) {
        self.add(role, Form::Area(between(from, to)));
    }

    /// A dot, ring or mark.
    pub fn circle(&mut self, role: Role, middle: Point, radius_px: f64) {
        self.add(role, Form::Circle { middle, radius_mm: px(radius_px) });
    }

    /// Words along the paper.
    pub fn text(&mut self, role: Role, anchor: Anchor, at: Point, words: impl Into<String>) {
        self.add(role, Form::Text(Text { at, anchor, run: Run::Along, words: words.into() }));
    }

    /// Words from below upwards.
    pub fn upright(&mut self, role: Role, anchor: Anchor, at: Point, words: impl Into<String>) {
        self.add(role, Form::Text(Text { at, anchor, run: Run::Upwards, words: words.into() }));
    }

    /// Lines of words under each other.
    pub fn lines(
        &mut self,
        role: Role,
        anchor: Anchor,
        first: Point,
        step_px: f64,
        lines: &[String],
    ) {
        for (place, line) in lines.iter().enumerate() {
            let down_mm = px(step_px) * place as f64;
            let at = Point { x_mm: first.x_mm, y_mm: first.y_mm + down_mm };
            self.text(role, anchor, at, line.clone());
        }
    }

    /// A leader on its own bare ground, with a dot at its far end.
    pub fn leader(&mut self, points: &[Point]) {
        self.line(Role::LeaderGround, points);
        self.line(Role::Leader, points);
        if let Some(&end) = points.last() {
            self.circle(Role::Dot, end, 3.0);
        }
    }

    /// A dimension line between two points with arrowheads.
    pub fn dimension(&mut self, from: Point, to: Point) {
        self.line(Role::Dimension, &[from, to]);
        let (dx, dy) = (to.x_mm - from.x_mm, to.y_mm - from.y_mm);
        let length_mm = dx.hypot(dy);
        if length_mm <= 0.0 {
            return;
        }
        let (ux, uy) = (dx / length_mm, dy / length_mm);
        let (long_mm, half_mm) = (px(9.0).min(0.45 * length_mm), px(3.2));
        for (tip, sign) in [(from, 1.0), (to, -1.0)] {
            let back = |side: f64| Point {
                x_mm: tip.x_mm + sign * ux * long_mm - side * uy * half_mm,
                y_mm: tip.y_mm + sign * uy * long_mm + side * ux * half_mm,
            };
            self.outline(Role::Arrow, &[tip, back(1.0), back(-1.0)]);
        }
    }
}
