//! How the panels of a build are joined.

use super::parts::tube;
use crate::values::Values;
use physics::circuit::Pipe;
use physics::panel::{HarpConnection, Join, Rungs};

/// The join of `panel.count` panels, and the pipes between them.
pub(super) fn joined(values: &Values, count: usize) -> Option<(Join, Vec<Pipe>)> {
    let mut links = Vec::new();
    if values.table("panel.link").is_some() {
        links.push(pipe(values, "panel.link", 0.0)?);
    }
    let between = |join: Join| {
        let link = (!links.is_empty()).then_some(Join::Pipe(0));
        [link, Some(join)].into_iter().flatten()
    };
    let ones = (0..count).map(Join::One);
    let join = match values.word("panel.joined")? {
        _ if count == 1 && values.word("panel.joined")? != "branches" => Join::One(0),
        "series" => Join::Series(ones.flat_map(between).skip(links.len()).collect()),
        "branches" => {
            let branches = branches(values, count, &mut links)?;
            side_by_side(values, branches)?
        }
        _ => side_by_side(values, ones.collect())?,
    };
    Some((join, links))
}

fn side_by_side(values: &Values, branches: Vec<Join>) -> Option<Join> {
    if values.table("panel.link").is_none() {
        return Some(Join::Parallel(branches));
    }
    let connection = match values.word("panel.link.return")? {
        "reverse" => HarpConnection::OppositeCorner,
        _ => HarpConnection::SameSide,
    };
    Some(Join::Ladder(Rungs { branches, link: 0, connection }))
}

fn branches(values: &Values, count: usize, links: &mut Vec<Pipe>) -> Option<Vec<Join>> {
    let mut next = 0;
    let mut branches = Vec::new();
    for member in 0..values.members("panel.branch") {
        let at = format!("panel.branch[{member}]");
        let mut parts = Vec::new();
        if values.word(&format!("{at}.pipe"))? == "own" {
            parts.push(Join::Pipe(links.len()));
            links.push(pipe(values, &at, values.si(&format!("{at}.valve-k"))?)?);
        }
        let panels = values.count(&format!("{at}.panels"))? as usize;
        parts.extend((next..next + panels).map(Join::One));
        next += panels;
        branches.push(Join::Series(parts));
    }
    // Panels that no branch has are a fault by themselves; see `fit`.
    (next == count).then_some(branches)
}

fn pipe(values: &Values, at: &str, more_loss: f64) -> Option<Pipe> {
    let si = |key: &str| values.si(&format!("{at}.{key}"));
    Some(Pipe {
        tube: tube(values, at)?,
        length_m: si("length")?,
        fittings_loss: si("fittings-k")? + more_loss,
        lagging_m: si("lagging")?,
        lagging_conductivity_w_m_k: si("lagging-conductivity")?,
        outdoor_share: si("outdoor-share")?,
    })
}
