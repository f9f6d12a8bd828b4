//! The material at hand.

use crate::values::Values;

/// Everything at hand, list by list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// Metal sheets.
    pub sheets: Vec<Piece>,
    /// Lengths of tube: the width is the outside, the thickness the wall.
    pub tubes: Vec<Piece>,
    /// Panes.
    pub glazing: Vec<Piece>,
    /// Boards and insulation.
    pub boards: Vec<Piece>,
    /// Lengths of metal angle.
    pub angles: Vec<Piece>,
}

/// One sort of piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What it is made of, by the catalogue's name.
    pub material: String,
    /// Length \[m\].
    pub length_m: f64,
    /// Width \[m\].
    pub width_m: f64,
    /// Thickness \[m\].
    pub thickness_m: f64,
    /// How many there are.
    pub count: u32,
}

/// The material at hand; `Some(None)` where the file lists none.
pub(super) fn stock(values: &Values) -> Option<Option<Stock>> {
    if values.table("stock").is_none() {
        return Some(None);
    }
    Some(Some(Stock {
        sheets: pieces(values, "stock.sheet")?,
        tubes: pieces(values, "stock.tube")?,
        glazing: pieces(values, "stock.glazing")?,
        boards: pieces(values, "stock.board")?,
        angles: pieces(values, "stock.angle")?,
    }))
}

fn pieces(values: &Values, list: &str) -> Option<Vec<Piece>> {
    (0..values.members(list))
        .map(|at| {
            let si = |key: &str| values.si(&format!("{list}[{at}].{key}"));
            Some(Piece {
                material: values.word(&format!("{list}[{at}].material"))?.to_owned(),
                length_m: si("length")?,
                width_m: si("width")?,
                thickness_m: si("thickness")?,
                count: values.count(&format!("{list}[{at}].count"))?,
            })
        })
        .collect()
}
