//! Room for words on a drawing: what is taken, and where words still fit.

use super::plate::cross;
use crate::drawing::{Anchor, Area, Drawing, Point, Run, Text};
use crate::pen::{at, between, px};
use crate::role::Role;

/// What is taken on a paper.
pub(super) struct Room {
    paper: Area,
    taken: Vec<Area>,
    /// Words written so far.
    words: Vec<Area>,
    /// Leaders drawn so far.
    leaders: Vec<(Point, Point)>,
}

/// Words so far from their thing, in pixels, need a leader.
const NEAR: f64 = 15.0;

impl Room {
    /// A bare part of a paper.
    pub(super) fn of(paper: Area) -> Room {
        Room { paper, taken: Vec::new(), words: Vec::new(), leaders: Vec::new() }
    }

    /// Takes a rectangle.
    pub(super) fn take(&mut self, area: Area) {
        self.taken.push(area);
    }

    /// Takes a line with so many pixels on both sides.
    pub(super) fn take_line(&mut self, points: &[Point], beside: f64) {
        const STEP: f64 = 6.0;
        for pair in points.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let long = (to.x_mm - from.x_mm).hypot(to.y_mm - from.y_mm) / px(1.0);
            let steps = (long / STEP).ceil().max(1.0);
            for step in 0..steps as usize {
                let along = |part: f64| Point {
                    x_mm: from.x_mm + part * (to.x_mm - from.x_mm),
                    y_mm: from.y_mm + part * (to.y_mm - from.y_mm),
                };
                let piece = between(along(step as f64 / steps), along((step as f64 + 1.0) / steps));
                self.take(grown(&piece, beside));
            }
        }
    }

    /// Whether a rectangle is free and on the paper.
    pub(super) fn is_free(&self, area: &Area) -> bool {
        let paper = &self.paper;
        area.corner.x_mm >= paper.corner.x_mm
            && area.corner.y_mm >= paper.corner.y_mm
            && area.right_mm() <= paper.right_mm()
            && area.bottom_mm() <= paper.bottom_mm()
            && !self.taken.iter().any(|other| other.meets(area))
    }

    /// Writes words at the first of some places where they fit; false where they fit nowhere.
    pub(super) fn words(
        &mut self,
        drawing: &mut Drawing,
        role: Role,
        words: &str,
        places: &[(Anchor, Point)],
    ) -> bool {
        let found = places.iter().find_map(|&(anchor, at)| {
            let text = Text { at, anchor, run: Run::Along, words: words.to_owned() };
            let room = grown(&text.room(role), 1.0);
            self.is_free(&room).then_some((anchor, at, room))
        });
        let Some((anchor, at, room)) = found else { return false };
        self.take(room);
        self.words.push(room);
        drawing.text(role, anchor, at, words);
        true
    }

    /// Names a thing: words near it, or further off with a leader that crosses no other and no words;
    /// false where there is no such place. `clear`: from the thing's middle to its edge, in pixels.
    pub(super) fn name(
        &mut self,
        drawing: &mut Drawing,
        role: Role,
        words: &str,
        thing: Point,
        clear: f64,
    ) -> bool {
        let (x, y) = (thing.x_mm / px(1.0), thing.y_mm / px(1.0));
        for (anchor, at) in around(x, y, clear) {
            let text = Text { at, anchor, run: Run::Along, words: words.to_owned() };
            let room = grown(&text.room(role), 1.0);
            if !self.is_free(&room) {
                continue;
            }
            let near = Point {
                x_mm: thing.x_mm.clamp(room.corner.x_mm, room.right_mm()),
                y_mm: thing.y_mm.clamp(room.corner.y_mm, room.bottom_mm()),
            };
            let long = (near.x_mm - thing.x_mm).hypot(near.y_mm - thing.y_mm) / px(1.0);
            if long > clear + NEAR {
                let leader = (near, thing);
                if !self.is_clear(leader) {
                    continue;
                }
                let share = (clear - 2.0).max(0.0) / long;
                let end = Point {
                    x_mm: thing.x_mm + share * (near.x_mm - thing.x_mm),
                    y_mm: thing.y_mm + share * (near.y_mm - thing.y_mm),
                };
                drawing.line(Role::Leader, &[near, end]);
                self.leaders.push(leader);
                // Later words keep off it.
                self.take_line(&[near, end], 1.0);
            }
            self.take(room);
            self.words.push(room);
            drawing.text(role, anchor, at, words);
            return true;
        }
        false
    }

    /// Whether a leader crosses no other and no words.
    fn is_clear(&self, leader: (Point, Point)) -> bool {
        let crosses = self.leaders.iter().any(|&other| cross(leader, other));
        let through = self.words.iter().any(|area| {
            let right = Point { x_mm: area.right_mm(), y_mm: area.corner.y_mm };
            let below = Point { x_mm: area.corner.x_mm, y_mm: area.bottom_mm() };
            let last = Point { x_mm: right.x_mm, y_mm: below.y_mm };
            cross(leader, (area.corner, last)) || cross(leader, (right, below))
        });
        !crosses && !through
    }
}

/// A rectangle with so many pixels more on every side.
fn grown(area: &Area, by: f64) -> Area {
    Area {
        corner: Point { x_mm: area.corner.x_mm - px(by), y_mm: area.corner.y_mm - px(by) },
        width_mm: area.width_mm + 2.0 * px(by),
        height_mm: area.height_mm + 2.0 * px(by),
    }
}

/// Places round a point for words, the nearest first: right, left, above and below, then further away.
pub(super) fn around(x: f64, y: f64, near: f64) -> Vec<(Anchor, Point)> {
    let mut places = Vec::new();
    for off in [0.0, 10.0, 22.0, 36.0, 52.0, 70.0] {
        let far = near + off;
        places.extend([
            (Anchor::Start, at(x + far, y + 5.5)),
            (Anchor::End, at(x - far, y + 5.5)),
            (Anchor::Middle, at(x, y - far)),
            (Anchor::Middle, at(x, y + far + 12.0)),
            (Anchor::Start, at(x + 0.6 * far, y - far)),
            (Anchor::End, at(x - 0.6 * far, y - far)),
            (Anchor::Start, at(x + 0.6 * far, y + far + 12.0)),
            (Anchor::End, at(x - 0.6 * far, y + far + 12.0)),
        ]);
    }
    places
}

/// Heights near those wanted, in their order, each so far below the one before, none above the upper
/// end, and none below the lower where that can be.
///
/// `wanted`: rising, in pixels from above; `needs`: room that each takes below its own height.
pub(super) fn apart(wanted: &[f64], needs: &[f64], [highest, lowest]: [f64; 2]) -> Vec<f64> {
    let mut heights = wanted.to_vec();
    for place in 1..heights.len() {
        heights[place] = heights[place].max(heights[place - 1] + needs[place - 1]);
    }
    let mut most = lowest;
    for place in (0..heights.len()).rev() {
        heights[place] = heights[place].min(most - needs[place]);
        most = heights[place];
    }
    // Where there are too many for the room, they begin at its upper end and run on.
    if let Some(first) = heights.first_mut() {
        *first = first.max(highest);
    }
    for place in 1..heights.len() {
        heights[place] = heights[place].max(heights[place - 1] + needs[place - 1]);
    }
    heights
}

#[cfg(test)]
mod tests {
    use super::{Room, apart};
    use crate::pen::{at, between};

    /// Given four heights too close together at the foot: all are kept apart, in order, above it.
    #[test]
    fn heights_are_kept_apart_and_in_order() {
        let heights = apart(&[10.0, 90.0, 92.0, 95.0], &[20.0; 4], [0.0, 120.0]);
        assert!(heights.windows(2).all(|pair| pair[1] - pair[0] >= 20.0), "{heights:?}");
        assert!(heights[3] <= 100.0 && heights[0] == 10.0);
        // No room at all: still apart.
        let heights = apart(&[0.0, 0.0, 0.0], &[20.0; 3], [0.0, 30.0]);
        assert!(heights.windows(2).all(|pair| pair[1] - pair[0] >= 20.0), "{heights:?}");
        assert_eq!(heights[0], 0.0);
    }

    /// Given an oblique line, what lies on it is taken and what lies in its corner is free.
    #[test]
    fn an_oblique_line_takes_its_own_room_only() {
        let mut room = Room::of(between(at(0.0, 0.0), at(100.0, 100.0)));
        room.take_line(&[at(0.0, 0.0), at(100.0, 100.0)], 2.0);
        assert!(!room.is_free(&between(at(45.0, 45.0), at(55.0, 55.0))));
        assert!(room.is_free(&between(at(60.0, 5.0), at(95.0, 30.0))));
        assert!(!room.is_free(&between(at(90.0, 5.0), at(101.0, 30.0))));
    }
}
