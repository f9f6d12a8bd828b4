//! The tables of `docs/method/checks.md`, held against what is reckoned now.

use std::fmt::Write;
use std::path::Path;

/// A row of figures with its name.
pub struct Row {
    pub name: String,
    pub figures: Vec<f64>,
}

impl Row {
    pub fn of(name: &str, figures: &[f64]) -> Row {
        Row { name: name.to_owned(), figures: figures.to_vec() }
    }
}

/// Fails unless the page's table under this heading has just these rows, each figure within one of
/// the last digit that the page prints. What it fails with is the table as it should read.
#[track_caller]
pub fn holds(heading: &str, rows: &[Row]) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/method/checks.md");
    let text = std::fs::read_to_string(&path).unwrap_or_default();
    let printed = table(&text, heading);
    let same = printed.len() == rows.len()
        && printed.iter().zip(rows).all(|(cells, row)| row_holds(cells, row));
    assert!(same, "docs/method/checks.md: {heading}: it should read\n{}", as_table(rows, &printed));
}

/// The cells of the rows of the first table after a line that holds the heading; names and rules left
/// out.
fn table<'a>(text: &'a str, heading: &str) -> Vec<Vec<&'a str>> {
    text.lines()
        .skip_while(|line| !line.contains(heading))
        .skip_while(|line| !line.starts_with('|'))
        .take_while(|line| line.starts_with('|'))
        .skip(2)
        .map(|line| line.trim_matches('|').split('|').map(str::trim).collect())
        .collect()
}

fn row_holds(cells: &[&str], row: &Row) -> bool {
    cells.len() == row.figures.len() + 1
        && cells[0] == row.name
        && cells[1..].iter().zip(&row.figures).all(|(cell, figure)| figure_holds(cell, *figure))
}

/// Whether a printed figure is the reckoned one within one of its last digit.
fn figure_holds(cell: &str, figure: f64) -> bool {
    let printed: f64 = match cell.parse() {
        Ok(printed) => printed,
        Err(_) => return false,
    };
    // A hair more, for what decimal fractions are in binary.
    (printed - figure).abs() <= 10f64.powi(-(decimals(cell) as i32)) * (1.0 + 1e-9)
}

fn decimals(cell: &str) -> usize {
    cell.split_once('.').map_or(0, |(_, after)| after.len())
}

/// The rows as the page would print them, each figure with the digits it has there, or one.
fn as_table(rows: &[Row], printed: &[Vec<&str>]) -> String {
    let mut text = String::new();
    for (at, row) in rows.iter().enumerate() {
        write!(text, "| {} |", row.name).expect("a string takes all");
        for (column, figure) in row.figures.iter().enumerate() {
            let cell = printed.get(at).and_then(|cells| cells.get(column + 1));
            let digits = cell.map_or(1, |cell| decimals(cell));
            write!(text, " {figure:.digits$} |").expect("a string takes all");
        }
        text.push('\n');
    }
    text
}

/// Given a page with two tables: the one under the heading is read, a figure one off in its last digit
/// holds, two off does not, nor does another name or a row too many.
#[test]
fn a_table_is_read_and_held() {
    let text = "# One\n| a | b |\n|---|---|\n| x | 1 |\n\n# Two\nwords\n\n| a | b | c |\n|---|--:|--:|\n| y | 2.0 | -3 |\n";
    let rows = table(text, "# Two");
    assert_eq!(rows, [["y", "2.0", "-3"]]);
    assert!(row_holds(&rows[0], &Row::of("y", &[2.09, -3.9])));
    assert!(!row_holds(&rows[0], &Row::of("y", &[2.11, -3.0])));
    assert!(!row_holds(&rows[0], &Row::of("z", &[2.0, -3.0])));
    assert!(!row_holds(&rows[0], &Row::of("y", &[2.0])));
    assert!(table(text, "# Three").is_empty());
}
