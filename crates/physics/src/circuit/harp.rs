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

/// Divides a flow among a harp's risers.
///
/// Friction in risers and headers, and whatever loss figures their runs carry; no recovery of
/// velocity in the headers and no buoyancy. From riser to riser the difference between the headers
/// changes by what each of them loses:
///
/// ```text
/// opposite corner: D(k+1) = D(k) - h(M - S) + h(S)
/// same side:       D(k+1) = D(k) - 2 h(M - S)      S: sum of the first k risers' flows
/// ```
///
/// The first riser's flow is sought with which the sum of all is the whole flow M.
///
/// - `flow_kg_s`: the whole flow; negative runs backwards, alike but for the sign.
///
/// # Valid range
/// One riser or more. Where headers are so narrow that the search loses the flow by more than a
/// millionth, [`CircuitError::NoBalance`].
///
/// # Source
/// Pressure balance round each mesh, as any network text.
///
/// # Checked
/// B-HP-01, B-HP-04 to 1e-5, B-HP-05 to 1e-7, B-MF-02, B-MF-04, B-MF-05 to 1e-3, G-08 to 1e-6,
/// all independent solutions of the same network.
pub fn harp_flow(harp: &Harp, flow_kg_s: f64, medium: &Medium) -> Result<HarpFlow, CircuitError> {
    let count = f64::from(harp.risers);
    CircuitError::unless(harp.risers >= 1, "the number of risers", count, "1 or more")?;
    CircuitError::unless(flow_kg_s.is_finite(), "the flow in kg/s", flow_kg_s, "a number")?;
    let ladder = Ladder {
        harp,
        riser: Path::Run(harp.riser),
        header: Path::Run(harp.header),
        whole_kg_s: flow_kg_s.abs(),
        medium,
    };
    if ladder.whole_kg_s == 0.0 {
        return Ok(HarpFlow { risers_kg_s: vec![0.0; harp.risers as usize], drop_pa: 0.0 });
    }
    let sum_at =
        |first_kg_s: f64| -> Result<f64, CircuitError> { Ok(ladder.climb(first_kg_s)?.sum_kg_s) };
    let fair_kg_s = ladder.whole_kg_s / count;
    let first_kg_s = match inverse_power(ladder.whole_kg_s, (fair_kg_s, 1.0), sum_at)? {
        Some(first_kg_s) => first_kg_s,
        None => crossing(
            (0.0, ladder.whole_kg_s),
            |_, missing| CircuitError::NoBalance { what: "flow in the harp", missing },
            |first_kg_s| Ok(sum_at(first_kg_s)? - ladder.whole_kg_s),
        )?,
    };
    let climb = ladder.climb(first_kg_s)?;
    let missing = ladder.whole_kg_s - climb.sum_kg_s;
    if climb.risers_kg_s.len() < harp.risers as usize || missing.abs() > 1e-6 * ladder.whole_kg_s {
        return Err(CircuitError::NoBalance { what: "flow in the harp", missing });
    }
    let sign = flow_kg_s.signum();
    Ok(HarpFlow {
        risers_kg_s: climb.risers_kg_s.iter().map(|flow| sign * flow).collect(),
        drop_pa: sign * climb.drop_pa,
    })
}

/// One search's fixed things.
struct Ladder<'a> {
    harp: &'a Harp,
    riser: Path,
    header: Path,
    whole_kg_s: f64,
    medium: &'a Medium,
}

/// One trial: the flows met on the way, their sum, and the drop from port to port.
struct Climb {
    risers_kg_s: Vec<f64>,
    sum_kg_s: f64,
    drop_pa: f64,
}

impl Ladder<'_> {
    /// Goes from riser to riser with a trial flow in the first.
    ///
    /// A trial whose sum leaves 0 to twice the whole flow only runs further away, so it ends
    /// there: its sum has the right side already.
    fn climb(&self, first_kg_s: f64) -> Result<Climb, CircuitError> {
        let first_pa = self.riser.drop_pa(first_kg_s, self.medium)?;
        let mut climb =
            Climb { risers_kg_s: vec![first_kg_s], sum_kg_s: first_kg_s, drop_pa: first_pa };
        let mut between_pa = first_pa;
        for _ in 1..self.harp.risers {
            if !(0.0..=2.0 * self.whole_kg_s).contains(&climb.sum_kg_s) {
                break;
            }
            let ahead_kg_s = self.whole_kg_s - climb.sum_kg_s;
            let supply_pa = self.header.drop_pa(ahead_kg_s, self.medium)?;
            match self.harp.connection {
                HarpConnection::OppositeCorner => {
                    let back_pa = self.header.drop_pa(climb.sum_kg_s, self.medium)?;
                    between_pa += back_pa - supply_pa;
                    climb.drop_pa += back_pa;
                }
                HarpConnection::SameSide => between_pa -= 2.0 * supply_pa,
            }
            // The riser before is the best guess of the next one.
            let before_kg_s = climb.risers_kg_s[climb.risers_kg_s.len() - 1].abs();
            let flow_kg_s = if between_pa == 0.0 || before_kg_s == 0.0 {
                self.riser.flow_kg_s(between_pa, self.medium)?
            } else {
                let forward_pa = between_pa.abs();
                self.riser
                    .forward_flow_kg_s(forward_pa, before_kg_s, self.medium)?
                    .copysign(between_pa)
            };
            climb.risers_kg_s.push(flow_kg_s);
            climb.sum_kg_s += flow_kg_s;
        }
        Ok(climb)
    }
}
