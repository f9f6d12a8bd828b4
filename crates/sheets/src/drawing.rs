//! One drawing model: shapes in millimetres with roles, from which every kind of file is made.

use crate::role::Role;
use crate::table::Table;

/// A picture, and the facts it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Its name among the pictures of a build, from which file names are made.
    pub name: &'static str,
    /// One sentence that names it.
    pub title: String,
    /// What it shows, for someone who cannot see it.
    pub description: String,
    /// Width of the paper \[mm\].
    pub width_mm: f64,
    /// Height of the paper \[mm\].
    pub height_mm: f64,
    /// Size of the strata's hatches, 1 for a page and less for a phone.
    pub hatch_scale: f64,
    /// What is drawn, the lowest first.
    pub shapes: Vec<Shape>,
    /// The facts behind the picture.
    pub table: Table,
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// What it stands for: the look hangs on this alone.
    pub role: Role,
    /// Where and how.
    pub form: Form,
    /// The name under which the page finds it while a day plays; `None` for what never changes.
    pub live: Option<String>,
}

/// A place on the paper, from the upper left corner.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// To the right \[mm\].
    pub x_mm: f64,
    /// Downwards \[mm\].
    pub y_mm: f64,
}

/// A level strip of a drawing, over its whole width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Its upper side \[mm\].
    pub top_mm: f64,
    /// Its height \[mm\].
    pub height_mm: f64,
}

/// A rectangle that stands upright.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Area {
    /// Upper left corner.
    pub corner: Point,
    /// Width \[mm\].
    pub width_mm: f64,
    /// Height \[mm\].
    pub height_mm: f64,
}

impl Area {
    /// Right end \[mm\].
    pub fn right_mm(&self) -> f64 {
        self.corner.x_mm + self.width_mm
    }

    /// Lower end \[mm\].
    pub fn bottom_mm(&self) -> f64 {
        self.corner.y_mm + self.height_mm
    }

    /// True where the two share more than an edge.
    pub fn meets(&self, other: &Area) -> bool {
        self.corner.x_mm < other.right_mm()
            && other.corner.x_mm < self.right_mm()
            && self.corner.y_mm < other.bottom_mm()
            && other.corner.y_mm < self.bottom_mm()
    }
}

/// Outline of a thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// Straight pieces end to end.
    Line(Vec<Point>),
    /// A closed outline.
    Outline(Vec<Point>),
    /// A rectangle.
    Area(Area),
    /// Many rectangles of one role: cells of a map.
    Cells(Vec<Area>),
    /// A circle.
    Circle {
        /// Middle.
        middle: Point,
        /// Radius \[mm\].
        radius_mm: f64,
    },
    /// Words.
    Text(Text),
}

/// Words at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Where their base line begins, has its middle, or ends.
    pub at: Point,
    /// Which of these.
    pub anchor: Anchor,
    /// Along the paper, or from below upwards.
    pub run: Run,
    /// What they say.
    pub words: String,
}

/// Which part of a line of words stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// Which way words run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// To the right.
    Along,
    /// From below upwards.
    Upwards,
}

impl Text {
    /// The room that words of a role take, on the generous side \[mm\].
    pub fn room(&self, role: Role) -> Area {
        let size_mm = role.text_size_mm();
        let length_mm = crate::measure::length_mm(&self.words, role);
        let before_mm = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5 * length_mm,
            Anchor::End => length_mm,
        };
        let (above_mm, below_mm) = (0.76 * size_mm, 0.22 * size_mm);
        match self.run {
            Run::Along => Area {
                corner: Point { x_mm: self.at.x_mm - before_mm, y_mm: self.at.y_mm - above_mm },
                width_mm: length_mm,
                height_mm: above_mm + below_mm,
            },
            Run::Upwards => Area {
                corner: Point {
                    x_mm: self.at.x_mm - above_mm,
                    y_mm: self.at.y_mm + before_mm - length_mm,
                },
                width_mm: above_mm + below_mm,
                height_mm: length_mm,
            },
        }
    }
}
