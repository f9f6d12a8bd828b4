//! The facts behind a picture, as a table.

use crate::svg::escaped;

/// A table: read by those who cannot see the picture, and by everyone who wants the figures.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What it holds.
    pub caption: String,
    /// Heads of the columns.
    pub heads: Vec<String>,
    /// Rows, each as long as the heads.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// An empty table.
    pub fn new(caption: impl Into<String>, heads: &[&str]) -> Table {
        Table {
            caption: caption.into(),
            heads: heads.iter().map(|&head| head.to_owned()).collect(),
            rows: Vec::new(),
        }
    }

    /// Adds a row.
    pub fn row<Cell: Into<String>>(&mut self, cells: impl IntoIterator<Item = Cell>) {
        self.rows.push(cells.into_iter().map(Into::into).collect());
    }

    /// As HTML; the first cell of each row heads it.
    pub fn html(&self) -> String {
        let mut text =
            format!("<table>\n<caption>{}</caption>\n<thead><tr>", escaped(&self.caption));
        for head in &self.heads {
            text.push_str(&format!("<th scope=\"col\">{}</th>", escaped(head)));
        }
        text.push_str("</tr></thead>\n<tbody>\n");
        for row in &self.rows {
            text.push_str("<tr>");
            for (place, cell) in row.iter().enumerate() {
                let cell = escaped(cell);
                text.push_str(&match place {
                    0 => format!("<th scope=\"row\">{cell}</th>"),
                    _ => format!("<td>{cell}</td>"),
                });
            }
            text.push_str("</tr>\n");
        }
        text.push_str("</tbody>\n</table>\n");
        text
    }
}
