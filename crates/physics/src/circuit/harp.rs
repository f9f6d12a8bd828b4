//! Risers between two headers: how evenly the flow divides among them.

use super::error::CircuitError;
use super::network::{Medium, Path};
use super::pipe::Run;
use crate::balance::{crossing, inverse_power};
use crate::panel::HarpConnection;

/// A harp, or any row of alike branches between a supply and a return.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Harp {
    /// Risers, 1 or more.
    pub risers: u32,
    /// One riser.
    pub riser: Run,
    /// The header between one riser and the next, the same above and below.
    pub header: Run,
    /// Where the circuit enters and leaves.
    pub connection: HarpConnection,
}

/// Flow in a harp.
#[derive(Clone, Debug, PartialEq)]
pub struct HarpFlow {
    /// Flow in each riser \[kg/s\], the first next to the inlet.
    pub risers_kg_s: Vec<f64>,
    /// Pressure lost from port to port \[Pa\].
    pub drop_pa: f64,
}

impl HarpFlow {
    /// Part of the whole flow in each riser; nothing where nothing runs.
    pub fn shares(&self) -> Vec<f64> {
        let whole_kg_s: f64 = self.risers_kg_s.iter().sum();
        if whole_kg_s == 0.0 {
            return vec![0.0; self.risers_kg_s.len()];
        }
        self.risers_kg_s.iter().map(|riser_kg_s| riser_kg_s / whole_kg_s).collect()
    }

    /// Greatest less least flow in a riser, over the mean; 0 for even flow.
    pub fn unevenness(&self) -> f64 {
        let shares = self.shares();
        let greatest = shares.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let least = shares.iter().copied().fold(f64::INFINITY, f64::min);
        (greatest - least) * shares.len() as f64
    }
}

/// Divides a flow among a harp's risers: see [`ladder_flow`].
///
/// - `flow_kg_s`: the whole flow; negative runs backwards, alike but for the sign.
///
/// # Valid range
/// As [`ladder_flow`].
///
/// # Checked
/// B-HP-01, B-HP-04 to 1e-5, B-HP-05 to 1e-7, B-MF-02, B-MF-04, B-MF-05 to 1e-3, G-08 to 1e-6,
/// all independent solutions of the same network.
pub fn harp_flow(harp: &Harp, flow_kg_s: f64, medium: &Medium) -> Result<HarpFlow, CircuitError> {
    let count = f64::from(harp.risers);
    CircuitError::unless(harp.risers >= 1, "the number of risers", count, "1 or more")?;
    let rungs = vec![Path::Run(harp.riser); harp.risers as usize];
    let link = Path::Run(harp.header);
    ladder_flow(&Ladder { rungs, link, connection: harp.connection }, flow_kg_s, medium)
}

/// Branches between a supply and a return that lead past them one after the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Ladder {
    /// The branches, the first next to the inlet; 1 or more.
    pub rungs: Vec<Path>,
    /// The pipe between one branch and the next, the same on both sides.
    pub link: Path,
    /// Where the circuit leaves: beside the first branch (direct return), or beside the last, so
    /// that every way round is as long (reverse return).
    pub connection: HarpConnection,
}

/// Divides a flow among the branches of a ladder.
///
/// Friction in branches and links, and whatever loss figures their runs carry; no recovery of
/// velocity at the tees and no buoyancy. From branch to branch the difference between the two sides
/// changes by what each of them loses:
///
/// ```text
/// opposite corner: D(k+1) = D(k) - h(M - S) + h(S)
/// same side:       D(k+1) = D(k) - 2 h(M - S)      S: sum of the first k branches' flows
/// ```
///
/// The first branch's flow is sought with which the sum of all is the whole flow M.
///
/// - `flow_kg_s`: the whole flow; negative runs backwards, alike but for the sign.
///
/// # Valid range
/// One branch or more. Where links are so narrow that the search loses the flow by more than a
/// millionth, [`CircuitError::NoBalance`].
///
/// # Source
/// Pressure balance round each mesh, as any network text.
///
/// # Checked
/// Through [`harp_flow`] for like branches. Unlike ones: a direct return against the same ladder
/// written as pipes in series and parallel, and a reverse return of two likewise, to 1e-8.
pub fn ladder_flow(
    ladder: &Ladder,
    flow_kg_s: f64,
    medium: &Medium,
) -> Result<HarpFlow, CircuitError> {
    let count = ladder.rungs.len() as f64;
    let some = !ladder.rungs.is_empty();
    CircuitError::unless(some, "the number of branches", count, "1 or more")?;
    CircuitError::unless(flow_kg_s.is_finite(), "the flow in kg/s", flow_kg_s, "a number")?;
    let search = Search { ladder, whole_kg_s: flow_kg_s.abs(), medium };
    if search.whole_kg_s == 0.0 {
        return Ok(HarpFlow { risers_kg_s: vec![0.0; ladder.rungs.len()], drop_pa: 0.0 });
    }
    let sum_at =
        |first_kg_s: f64| -> Result<f64, CircuitError> { Ok(search.climb(first_kg_s)?.sum_kg_s) };
    let fair_kg_s = search.whole_kg_s / count;
    let first_kg_s = match inverse_power(search.whole_kg_s, (fair_kg_s, 1.0), sum_at)? {
        Some(first_kg_s) => first_kg_s,
        None => crossing(
            (0.0, search.whole_kg_s),
            |_, missing| CircuitError::NoBalance { what: "flow in the harp", missing },
            |first_kg_s| Ok(sum_at(first_kg_s)? - search.whole_kg_s),
        )?,
    };
    let climb = search.climb(first_kg_s)?;
    let missing = search.whole_kg_s - climb.sum_kg_s;
    if climb.risers_kg_s.len() < ladder.rungs.len() || missing.abs() > 1e-6 * search.whole_kg_s {
        return Err(CircuitError::NoBalance { what: "flow in the harp", missing });
    }
    let sign = flow_kg_s.signum();
    Ok(HarpFlow {
        risers_kg_s: climb.risers_kg_s.iter().map(|flow| sign * flow).collect(),
        drop_pa: sign * climb.drop_pa,
    })
}

/// One search's fixed things.
struct Search<'a> {
    ladder: &'a Ladder,
    whole_kg_s: f64,
    medium: &'a Medium,
}

/// One trial: the flows met on the way, their sum, and the drop from port to port.
struct Climb {
    risers_kg_s: Vec<f64>,
    sum_kg_s: f64,
    drop_pa: f64,
}

impl Search<'_> {
    /// Goes from branch to branch with a trial flow in the first.
    ///
    /// A trial whose sum leaves 0 to twice the whole flow only runs further away, so it ends
    /// there: its sum has the right side already.
    fn climb(&self, first_kg_s: f64) -> Result<Climb, CircuitError> {
        let Ladder { rungs, link, connection } = self.ladder;
        let first_pa = rungs[0].drop_pa(first_kg_s, self.medium)?;
        let mut climb =
            Climb { risers_kg_s: vec![first_kg_s], sum_kg_s: first_kg_s, drop_pa: first_pa };
        let mut between_pa = first_pa;
        for rung in &rungs[1..] {
            if !(0.0..=2.0 * self.whole_kg_s).contains(&climb.sum_kg_s) {
                break;
            }
            let ahead_kg_s = self.whole_kg_s - climb.sum_kg_s;
            let supply_pa = link.drop_pa(ahead_kg_s, self.medium)?;
            match connection {
                HarpConnection::OppositeCorner => {
                    let back_pa = link.drop_pa(climb.sum_kg_s, self.medium)?;
                    between_pa += back_pa - supply_pa;
                    climb.drop_pa += back_pa;
                }
                HarpConnection::SameSide => between_pa -= 2.0 * supply_pa,
            }
            // The branch before is the best guess of the next one.
            let before_kg_s = climb.risers_kg_s[climb.risers_kg_s.len() - 1].abs();
            let flow_kg_s = if between_pa == 0.0 || before_kg_s == 0.0 {
                rung.flow_kg_s(between_pa, self.medium)?
            } else {
                let forward_pa = between_pa.abs();
                rung.forward_flow_kg_s(forward_pa, before_kg_s, self.medium)?.copysign(between_pa)
            };
            climb.risers_kg_s.push(flow_kg_s);
            climb.sum_kg_s += flow_kg_s;
        }
        Ok(climb)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::friction::FrictionMethod;
    use crate::circuit::network::divide;
    use crate::matter::fluid::{Fluid, properties};

    /// Given: three unlike branches behind links, with the way back the shortest. Expected: the same
    /// network written as pipes in series and parallel, which a direct return is. Tolerance: 1e-8,
    /// what both searches leave. And a reverse return of two, which can be written so as well.
    #[test]
    fn unlike_branches_agree_with_series_and_parallel() {
        let fluid = properties(Fluid::Water, 323.15).unwrap();
        let medium = Medium { fluid, method: FrictionMethod::Churchill1977 };
        let pipe = |bore_m: f64, length_m: f64, fittings_loss: f64| {
            Path::Run(Run { bore_m, length_m, roughness_m: 1.5e-6, fittings_loss })
        };
        let rungs = [pipe(0.0136, 14.0, 12.0), pipe(0.0088, 20.0, 3.0), pipe(0.0136, 9.0, 60.0)];
        let link = pipe(0.0136, 3.0, 1.5);
        let ladder = |connection, rungs: &[Path]| Ladder {
            rungs: rungs.to_vec(),
            link: link.clone(),
            connection,
        };
        let direct = ladder_flow(&ladder(HarpConnection::SameSide, &rungs), 0.09, &medium).unwrap();
        let last = Path::Series(vec![link.clone(), rungs[2].clone(), link.clone()]);
        let beyond = Path::Series(vec![
            link.clone(),
            Path::Parallel(vec![rungs[1].clone(), last]),
            link.clone(),
        ]);
        let tree = divide(&[rungs[0].clone(), beyond], 0.09, &medium).unwrap();
        assert!((direct.drop_pa / tree.drop_pa - 1.0).abs() < 1e-8);
        assert!((direct.risers_kg_s[0] / tree.flows_kg_s[0] - 1.0).abs() < 1e-8);

        let two = &rungs[..2];
        let reverse =
            ladder_flow(&ladder(HarpConnection::OppositeCorner, two), 0.09, &medium).unwrap();
        let first = Path::Series(vec![rungs[0].clone(), link.clone()]);
        let second = Path::Series(vec![link.clone(), rungs[1].clone()]);
        let tree = divide(&[first, second], 0.09, &medium).unwrap();
        assert!((reverse.drop_pa / tree.drop_pa - 1.0).abs() < 1e-8);
        assert!((reverse.risers_kg_s[1] / tree.flows_kg_s[1] - 1.0).abs() < 1e-8);
    }
}
