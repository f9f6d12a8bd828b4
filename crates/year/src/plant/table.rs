//! Functions of one or two numbers, tabled once and read by straight lines between the nodes.

/// A function of one number on evenly spaced nodes.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    first: f64,
    /// Nodes in one unit: to multiply is cheaper than to divide.
    nodes_per_unit: f64,
    values: Vec<f64>,
}

impl Line {
    /// Tables `function` at `nodes` (2 or more) evenly spaced points of `range`.
    ///
    /// # Errors
    /// The first error `function` gives.
    pub fn of<E>(
        range: std::ops::RangeInclusive<f64>,
        nodes: usize,
        function: impl FnMut(f64) -> Result<f64, E>,
    ) -> Result<Self, E> {
        let step = (range.end() - range.start()) / (nodes - 1) as f64;
        let values = (0..nodes)
            .map(|node| range.start() + step * node as f64)
            .map(function)
            .collect::<Result<_, E>>()?;
        Ok(Line { first: *range.start(), nodes_per_unit: 1.0 / step, values })
    }

    /// The value at `x`; beyond either end the end's value holds.
    pub fn at(&self, x: f64) -> f64 {
        let place = Place::of(x, self.first, self.nodes_per_unit, self.values.len());
        place.between(self.values[place.node], self.values[place.node + 1])
    }
}

/// A function of two numbers on evenly spaced nodes of both.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    first: (f64, f64),
    nodes_per_unit: (f64, f64),
    /// Nodes of the first and of the second number.
    nodes: (usize, usize),
    values: Vec<f64>,
}

impl Sheet {
    /// Tables `function` at evenly spaced points of two ranges (2 or more nodes each).
    ///
    /// # Errors
    /// The first error `function` gives.
    pub fn of<E>(
        first: (std::ops::RangeInclusive<f64>, usize),
        second: (std::ops::RangeInclusive<f64>, usize),
        mut function: impl FnMut(f64, f64) -> Result<f64, E>,
    ) -> Result<Self, E> {
        let step = (
            (first.0.end() - first.0.start()) / (first.1 - 1) as f64,
            (second.0.end() - second.0.start()) / (second.1 - 1) as f64,
        );
        let start = (*first.0.start(), *second.0.start());
        let mut values = Vec::with_capacity(first.1 * second.1);
        for row in 0..first.1 {
            for column in 0..second.1 {
                values.push(function(
                    start.0 + step.0 * row as f64,
                    start.1 + step.1 * column as f64,
                )?);
            }
        }
        Ok(Sheet {
            first: start,
            nodes_per_unit: (1.0 / step.0, 1.0 / step.1),
            nodes: (first.1, second.1),
            values,
        })
    }

    /// The value at `(x, y)`; beyond an edge the edge's value holds.
    pub fn at(&self, x: f64, y: f64) -> f64 {
        let row = Place::of(x, self.first.0, self.nodes_per_unit.0, self.nodes.0);
        let column = Place::of(y, self.first.1, self.nodes_per_unit.1, self.nodes.1);
        let value = |down: usize, across: usize| {
            self.values[(row.node + down) * self.nodes.1 + column.node + across]
        };
        row.between(
            column.between(value(0, 0), value(0, 1)),
            column.between(value(1, 0), value(1, 1)),
        )
    }
}

/// Between which nodes a number lies, and how far along.
struct Place {
    node: usize,
    share: f64,
}

impl Place {
    fn of(x: f64, first: f64, nodes_per_unit: f64, nodes: usize) -> Place {
        let along = ((x - first) * nodes_per_unit).clamp(0.0, (nodes - 1) as f64);
        let node = (along as usize).min(nodes - 2);
        Place { node, share: along - node as f64 }
    }

    fn between(&self, low: f64, high: f64) -> f64 {
        low + self.share * (high - low)
    }
}

#[cfg(test)]
mod tests {
    use super::{Line, Sheet};

    /// Given a straight function, a table gives it back exactly; beyond the ends the end holds.
    #[test]
    fn a_line_keeps_straight_functions_and_holds_its_ends() {
        let line = Line::of(0.0..=10.0, 6, |x| Ok::<_, ()>(3.0 * x - 1.0)).unwrap();
        assert!((line.at(7.3) - 20.9).abs() < 1e-12);
        assert_eq!((line.at(-5.0), line.at(99.0)), (-1.0, 29.0));
    }

    /// Given a function bilinear in both numbers, a sheet gives it back exactly.
    #[test]
    fn a_sheet_keeps_bilinear_functions() {
        let sheet = Sheet::of((0.0..=4.0, 3), (-1.0..=1.0, 5), |x, y| Ok::<_, ()>(2.0 + x * y - y))
            .unwrap();
        assert!((sheet.at(1.7, 0.3) - (2.0 + 0.51 - 0.3)).abs() < 1e-12);
        assert_eq!(sheet.at(9.0, 9.0), 2.0 + 4.0 - 1.0);
    }
}
