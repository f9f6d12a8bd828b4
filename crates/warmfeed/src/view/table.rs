//! Columns that line up without lines or colour.

use super::text::broken;

/// Columns that a table's last words keep, however narrow the terminal.
const NARROWEST_WORDS: usize = 32;

/// How a column's cells stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// Rows of cells under headings of one or two lines.
#[derive(Clone, Debug, Default)]
pub struct Table {
    columns: Vec<(String, Align)>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table with these headings; a heading may hold a line break.
    pub fn new(columns: &[(&str, Align)]) -> Self {
        Table {
            columns: columns.iter().map(|&(head, align)| (head.to_owned(), align)).collect(),
            rows: Vec::new(),
        }
    }

    /// Adds a row; an empty one leaves a blank line.
    pub fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// The table as text, the words of its last column folded so that it takes at most `width`
    /// columns; they keep [`NARROWEST_WORDS`] all the same.
    pub fn folded(mut self, width: usize) -> String {
        let last = self.columns.len().saturating_sub(1);
        let cells =
            |row: &Vec<String>| row.iter().take(last).map(|cell| cell.chars().count()).collect();
        let heads = self.columns.iter().take(last).map(|(head, _)| head.chars().count()).collect();
        let before =
            self.rows.iter().map(cells).fold(heads, |widest: Vec<usize>, row: Vec<usize>| {
                widest.iter().zip(row).map(|(&a, b)| a.max(b)).collect()
            });
        let used: usize = before.iter().map(|width| width + 2).sum();
        let words = width.saturating_sub(used).max(NARROWEST_WORDS);
        let rows = std::mem::take(&mut self.rows);
        for mut row in rows {
            let text = row.pop().unwrap_or_default();
            for (place, part) in broken(&text, words).into_iter().enumerate() {
                let left = if place == 0 { row.clone() } else { vec![String::new(); row.len()] };
                self.rows.push(left.into_iter().chain(std::iter::once(part)).collect());
            }
        }
        self.text("")
    }

    /// The table as text, each line ending in a line break.
    pub fn text(&self, indent: &str) -> String {
        let heads: Vec<Vec<&str>> =
            self.columns.iter().map(|(head, _)| head.split('\n').collect()).collect();
        let depth = heads.iter().map(Vec::len).max().unwrap_or(0);
        let width = |column: usize| {
            let cells = self.rows.iter().filter_map(|row| row.get(column)).map(String::as_str);
            cells.chain(heads[column].iter().copied()).map(|cell| cell.chars().count()).max()
        };
        let widths: Vec<usize> =
            (0..self.columns.len()).map(|column| width(column).unwrap_or(0)).collect();
        let mut text = String::new();
        for line in 0..depth {
            // Short headings stand at the bottom, next to their numbers.
            let cells = heads
                .iter()
                .map(|head| (line + head.len()).checked_sub(depth).map_or("", |part| head[part]));
            self.line(&mut text, indent, &widths, cells);
        }
        for row in &self.rows {
            self.line(&mut text, indent, &widths, row.iter().map(String::as_str));
        }
        text
    }

    fn line<'a>(
        &self,
        text: &mut String,
        indent: &str,
        widths: &[usize],
        cells: impl Iterator<Item = &'a str>,
    ) {
        let mut line = indent.to_owned();
        for (column, cell) in cells.enumerate() {
            if column > 0 {
                line.push_str("  ");
            }
            let width = widths[column];
            match self.columns[column].1 {
                Align::Left => line.push_str(&format!("{cell:<width$}")),
                Align::Right => line.push_str(&format!("{cell:>width$}")),
            }
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
}

#[cfg(test)]
mod tests {
    use super::{Align, Table};

    /// Given words and numbers, words stand left and numbers right under their headings.
    #[test]
    fn columns_line_up() {
        let mut table = Table::new(&[("month", Align::Left), ("panel\nkWh", Align::Right)]);
        table.row(vec!["January".into(), "3".into()]);
        table.row(vec!["July".into(), "120".into()]);
        assert_eq!(
            table.text(""),
            "         panel\nmonth      kWh\nJanuary      3\nJuly       120\n"
        );
    }

    /// Given words wider than the page, they fold in their own column and no further than it allows.
    #[test]
    fn the_last_column_folds() {
        let mut table = Table::new(&[("what", Align::Left), ("why", Align::Left)]);
        table.row(vec![
            "lid".into(),
            "a lid that fits lets next to no vapour by at any time".into(),
        ]);
        assert_eq!(
            table.folded(20),
            "what  why\nlid   a lid that fits lets next to no\n      vapour by at any time\n"
        );
    }
}
