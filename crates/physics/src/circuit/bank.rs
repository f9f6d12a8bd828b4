//! The panels as the fluid meets them.

use super::error::CircuitError;
use super::harp::{Harp, Ladder, ladder_flow};
use super::network::{Medium, Path, divide};
use super::parts::Pipe;
use super::pipe::Run;
use crate::panel::route::Place;
use crate::panel::{Bank, Join, Panel, Passage, Rungs, TubePattern, Tubes};

/// Loss figure of one return bend of a serpentine, its own length included.
///
/// 1.5: textbook set for a threaded return bend; the fitting multipliers give a close one 50 fT,
/// 1.35 in half-inch pipe. A wide bend made by hand has less. Sets differ by a factor of two.
pub const RETURN_BEND_K: f64 = 1.5;

/// Loss figure of a riser's ends: 0.5 for the sharp entry and 1 for the velocity lost at the exit.
pub const RISER_ENDS_K: f64 = 1.5;

/// One panel's path, from port to port.
///
/// A serpentine is one tube with a return bend ([`RETURN_BEND_K`]) between each two legs; a harp
/// is risers with [`RISER_ENDS_K`] between headers of one spacing's length each; a tube laid at will
/// has its share of a return bend for each turn. A hollow sheet and
/// a bought panel cost what their loss figure says, on the velocity in a port.
pub fn panel_path(panel: &Panel) -> Path {
    match panel {
        Panel::Built(built) => match &built.passage {
            Passage::Tubes(tubes) => tubes_path(tubes),
            Passage::Hollow(hollow) => ports_path(hollow.port_bore_m, hollow.port_loss),
        },
        Panel::Bought(bought) => ports_path(bought.port_bore_m, bought.port_loss),
    }
}

/// The risers and headers of a harp; `None` for any other pattern.
pub fn harp_of(tubes: &Tubes) -> Option<Harp> {
    let TubePattern::Harp { risers, riser_length_m, header, connection } = &tubes.pattern else {
        return None;
    };
    Some(Harp {
        risers: *risers,
        riser: Run {
            bore_m: tubes.tube.bore_m,
            length_m: *riser_length_m,
            roughness_m: tubes.tube.roughness_m,
            fittings_loss: RISER_ENDS_K,
        },
        header: Run {
            bore_m: header.bore_m,
            length_m: tubes.spacing_m,
            roughness_m: header.roughness_m,
            fittings_loss: 0.0,
        },
        connection: *connection,
    })
}

fn ports_path(bore_m: f64, fittings_loss: f64) -> Path {
    Path::Run(Run { bore_m, length_m: 0.0, roughness_m: 0.0, fittings_loss })
}

fn tubes_path(tubes: &Tubes) -> Path {
    let run = |length_m: f64, fittings_loss: f64| Run {
        bore_m: tubes.tube.bore_m,
        length_m,
        roughness_m: tubes.tube.roughness_m,
        fittings_loss,
    };
    match tubes.pattern {
        TubePattern::Serpentine { legs, leg_length_m } => {
            let bends = f64::from(legs.saturating_sub(1));
            Path::Run(run(f64::from(legs) * leg_length_m, bends * RETURN_BEND_K))
        }
        TubePattern::Harp { .. } => harp_of(tubes).map_or(Path::Series(Vec::new()), Path::Harp),
        TubePattern::Route { ref points } => Path::Run(run(tubes.length_m(), turns_loss(points))),
    }
}

/// Loss figure of all turns of a tube through places: [`RETURN_BEND_K`] for each half turn, and in
/// proportion for less.
///
/// # Source
/// In proportion to the angle: common practice for wide bends; a curve drawn with many short legs
/// then costs what its whole turn does.
///
/// # Checked
/// Two right angles cost one return bend.
fn turns_loss(points: &[Place]) -> f64 {
    let course_rad =
        |ends: &[Place]| (ends[1].up_m - ends[0].up_m).atan2(ends[1].across_m - ends[0].across_m);
    let courses_rad: Vec<f64> = points.windows(2).map(course_rad).collect();
    let half_turns: f64 = courses_rad
        .windows(2)
        .map(|courses_rad| {
            let turn_rad = (courses_rad[1] - courses_rad[0]).abs();
            turn_rad.min(std::f64::consts::TAU - turn_rad) / std::f64::consts::PI
        })
        .sum();
    half_turns * RETURN_BEND_K
}

/// All panels' path, as they are joined.
///
/// # Valid range
/// A join that names a panel the bank does not have is a [`CircuitError`].
pub fn bank_path(bank: &Bank) -> Result<Path, CircuitError> {
    join_path(bank, &bank.join)
}

/// How a flow divides in a bank: a tree of the same shape as its [`Join`].
#[derive(Clone, Debug, PartialEq)]
pub struct Divided {
    /// Flow through this part, its sign that of the whole \[kg/s\].
    pub flow_kg_s: f64,
    /// The flow through the parts it is made of, in their order.
    pub parts: Vec<Divided>,
}

/// Divides a flow through all of a bank.
///
/// - `flow_kg_s`: through the whole bank; negative runs backwards.
///
/// # Valid range
/// A join that names a panel or pipe the bank does not have, a branch without any resistance beside
/// others, and links too narrow to be solved are each a [`CircuitError`].
///
/// # Source
/// Each branching by [`divide`] or [`ladder_flow`].
///
/// # Checked
/// G-02 (two panels beside each other), G-08 (direct return) to 1e-6.
pub fn divided(bank: &Bank, flow_kg_s: f64, medium: &Medium) -> Result<Divided, CircuitError> {
    share(bank, &bank.join, flow_kg_s, medium)
}

/// Flow through each panel \[kg/s\], in the order of [`Bank::panels`].
///
/// - `flow_kg_s`: through the whole bank.
///
/// Panels the join leaves out get 0.
///
/// # Valid range
/// As [`divided`].
pub fn panel_flows_kg_s(
    bank: &Bank,
    flow_kg_s: f64,
    medium: &Medium,
) -> Result<Vec<f64>, CircuitError> {
    let mut flows_kg_s = vec![0.0; bank.panels.len()];
    gather(&bank.join, &divided(bank, flow_kg_s, medium)?, &mut flows_kg_s);
    Ok(flows_kg_s)
}

fn gather(join: &Join, divided: &Divided, flows_kg_s: &mut [f64]) {
    match join {
        Join::One(place) => flows_kg_s[*place] += divided.flow_kg_s,
        Join::Pipe(_) => {}
        Join::Series(joins)
        | Join::Parallel(joins)
        | Join::Ladder(Rungs { branches: joins, .. }) => {
            for (join, part) in joins.iter().zip(&divided.parts) {
                gather(join, part, flows_kg_s);
            }
        }
    }
}

/// Bore of one tube of a panel through which `flow_kg_s` runs, and the flow in it (a harp's mean
/// riser); of a port for a hollow sheet or a bought panel.
pub fn passage_flow(panel: &Panel, flow_kg_s: f64) -> (f64, f64) {
    match panel {
        Panel::Built(built) => match &built.passage {
            Passage::Tubes(tubes) => {
                (tubes.tube.bore_m, crate::panel::chain::tube_flow_kg_s(built, flow_kg_s))
            }
            Passage::Hollow(hollow) => (hollow.port_bore_m, flow_kg_s),
        },
        Panel::Bought(bought) => (bought.port_bore_m, flow_kg_s),
    }
}

/// Reynolds number in the passage of [`passage_flow`].
pub fn passage_reynolds(panel: &Panel, flow_kg_s: f64, viscosity_pa_s: f64) -> f64 {
    let (bore_m, each_kg_s) = passage_flow(panel, flow_kg_s);
    4.0 * each_kg_s / (std::f64::consts::PI * bore_m * viscosity_pa_s)
}

fn join_path(bank: &Bank, join: &Join) -> Result<Path, CircuitError> {
    match join {
        Join::One(place) => Ok(panel_path(panel_at(bank, *place)?)),
        Join::Pipe(place) => Ok(Path::Run(link_at(bank, *place)?.run())),
        Join::Series(joins) => Ok(Path::Series(join_paths(bank, joins)?)),
        Join::Parallel(joins) => Ok(Path::Parallel(join_paths(bank, joins)?)),
        Join::Ladder(rungs) => Ok(Path::Ladder(Box::new(ladder(bank, rungs)?))),
    }
}

fn join_paths(bank: &Bank, joins: &[Join]) -> Result<Vec<Path>, CircuitError> {
    joins.iter().map(|join| join_path(bank, join)).collect()
}

fn ladder(bank: &Bank, rungs: &Rungs) -> Result<Ladder, CircuitError> {
    Ok(Ladder {
        rungs: join_paths(bank, &rungs.branches)?,
        link: Path::Run(link_at(bank, rungs.link)?.run()),
        connection: rungs.connection,
    })
}

fn share(
    bank: &Bank,
    join: &Join,
    flow_kg_s: f64,
    medium: &Medium,
) -> Result<Divided, CircuitError> {
    let each = |joins: &[Join], flows_kg_s: &[f64]| -> Result<Vec<Divided>, CircuitError> {
        let pairs = joins.iter().zip(flows_kg_s);
        pairs.map(|(join, &flow_kg_s)| share(bank, join, flow_kg_s, medium)).collect()
    };
    let parts = match join {
        Join::One(place) => {
            panel_at(bank, *place)?;
            Vec::new()
        }
        Join::Pipe(place) => {
            link_at(bank, *place)?;
            Vec::new()
        }
        Join::Series(joins) => each(joins, &vec![flow_kg_s; joins.len()])?,
        Join::Parallel(joins) => {
            each(joins, &divide(&join_paths(bank, joins)?, flow_kg_s, medium)?.flows_kg_s)?
        }
        Join::Ladder(rungs) => {
            let flow = ladder_flow(&ladder(bank, rungs)?, flow_kg_s, medium)?;
            each(&rungs.branches, &flow.risers_kg_s)?
        }
    };
    Ok(Divided { flow_kg_s, parts })
}

fn panel_at(bank: &Bank, place: usize) -> Result<&Panel, CircuitError> {
    bank.panels.get(place).ok_or(CircuitError::Impossible {
        what: "the place of a panel in the join",
        value: place as f64,
        must: "one of the bank's panels, counted from 0",
    })
}

fn link_at(bank: &Bank, place: usize) -> Result<&Pipe, CircuitError> {
    bank.links.get(place).ok_or(CircuitError::Impossible {
        what: "the place of a pipe in the join",
        value: place as f64,
        must: "one of the bank's links, counted from 0",
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given: up, across, and down again. Expected: one return bend, 1.5 (by hand); the same turn
    /// drawn with a corner cut off: the same.
    #[test]
    fn two_right_angles_are_one_return_bend() {
        let place = |across_m: f64, up_m: f64| Place { across_m, up_m };
        let square = [place(0.1, 0.1), place(0.1, 1.0), place(0.2, 1.0), place(0.2, 0.1)];
        assert!((turns_loss(&square) - 1.5).abs() < 1e-12);
        let cut =
            [place(0.1, 0.1), place(0.1, 0.95), place(0.15, 1.0), place(0.2, 1.0), place(0.2, 0.1)];
        assert!((turns_loss(&cut) - 1.5).abs() < 1e-12);
        assert_eq!(turns_loss(&square[..2]), 0.0);
    }
}
