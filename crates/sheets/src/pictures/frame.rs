//! What small pictures share: their paper, their title and their caption.

use crate::drawing::{Anchor, Drawing};
use crate::measure::broken;
use crate::pen::{at, px};
use crate::role::Role;
use crate::table::Table;
use crate::words::set;

/// Names under which a picture goes: for a page, and for a phone.
pub(super) struct Names {
    pub page: &'static str,
    pub phone: &'static str,
}

impl Names {
    pub(super) fn of(&self, width: super::Width) -> &'static str {
        match width {
            super::Width::Page => self.page,
            super::Width::Phone => self.phone,
        }
    }
}

/// An empty drawing so wide, in pixels; its height is set when it is done.
pub(super) fn paper(name: &'static str, title: String, wide: f64, table: Table) -> Drawing {
    Drawing {
        name,
        title,
        description: String::new(),
        width_mm: px(wide),
        height_mm: 0.0,
        hatch_scale: 1.0,
        shapes: Vec::new(),
        table,
    }
}

/// A caption above a drawing; returns how far down it reaches, in pixels.
pub(super) fn caption(drawing: &mut Drawing, left: f64, words: &str) -> f64 {
    let wide_mm = drawing.width_mm - 2.0 * px(left);
    let lines = broken(&set(words), Role::Caption, wide_mm);
    drawing.lines(Role::Caption, Anchor::Start, at(left, 24.0), 20.0, &lines);
    24.0 + 20.0 * (lines.len() as f64 - 1.0)
}

/// Words under a drawing; returns how far down they reach, in pixels.
pub(super) fn below(drawing: &mut Drawing, left: f64, top: f64, words: &str) -> f64 {
    let wide_mm = drawing.width_mm - 2.0 * px(left);
    let lines = broken(&set(words), Role::Quiet, wide_mm);
    drawing.lines(Role::Quiet, Anchor::Start, at(left, top), 20.0, &lines);
    top + 20.0 * (lines.len() as f64 - 1.0)
}

/// Paper so wide for a picture that fits a phone as it is.
pub(super) fn wide_of(width: super::Width) -> f64 {
    match width {
        super::Width::Page => 600.0,
        super::Width::Phone => 374.0,
    }
}
