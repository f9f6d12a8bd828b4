//! Pipes one after the other and side by side: what flow costs, and how it divides.

use super::error::CircuitError;
use super::friction::{FrictionMethod, HelixWall, friction_helix};
use super::harp::{Harp, Ladder, harp_flow, ladder_flow};
use super::pipe::{Run, drop_with, pressure_drop};
use crate::balance::{crossing, inverse_power};
use crate::matter::fluid::FluidProperties;

/// A way for the fluid, as a tree.
#[derive(Clone, Debug, PartialEq)]
pub enum Path {
    /// A run of one bore.
    Run(Run),
    /// A run wound to a helix.
    Helix {
        /// Its tube.
        run: Run,
        /// Diameter of a turn, middle to middle \[m\]; infinite for straight legs.
        turn_diameter_m: f64,
    },
    /// Risers between two headers.
    Harp(Harp),
    /// One after the other; empty for no resistance.
    Series(Vec<Path>),
    /// Side by side: the flow divides and meets again.
    Parallel(Vec<Path>),
    /// Side by side, with pipes from one branch to the next.
    Ladder(Box<Ladder>),
}

/// What runs, and how its friction is reckoned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Medium {
    /// The fluid at its temperature.
    pub fluid: FluidProperties,
    /// The friction relation.
    pub method: FrictionMethod,
}

impl Path {
    /// Pressure lost by a flow along the path \[Pa\], its sign that of the flow.
    ///
    /// In parallel branches the flow divides so that all lose the same; see [`divide`].
    ///
    /// # Valid range
    /// Any finite flow; what a run or a helix cannot be is a [`CircuitError`].
    ///
    /// # Checked
    /// G-02, G-04 to 1e-6, G-01 to 1e-9.
    pub fn drop_pa(&self, flow_kg_s: f64, medium: &Medium) -> Result<f64, CircuitError> {
        match self {
            Path::Run(run) => {
                Ok(pressure_drop(run, flow_kg_s, &medium.fluid, medium.method)?.drop_pa)
            }
            Path::Helix { run, turn_diameter_m } => {
                let curvature = run.bore_m / turn_diameter_m;
                let factor = |reynolds, relative_roughness| {
                    let wall = HelixWall { relative_roughness, curvature };
                    friction_helix(medium.method, reynolds, wall)
                };
                Ok(drop_with(run, flow_kg_s, &medium.fluid, factor)?.drop_pa)
            }
            Path::Harp(harp) => Ok(harp_flow(harp, flow_kg_s, medium)?.drop_pa),
            Path::Series(parts) => parts.iter().map(|part| part.drop_pa(flow_kg_s, medium)).sum(),
            Path::Parallel(branches) => Ok(divide(branches, flow_kg_s, medium)?.drop_pa),
            Path::Ladder(ladder) => Ok(ladder_flow(ladder, flow_kg_s, medium)?.drop_pa),
        }
    }

    /// Flow \[kg/s\] that a pressure difference drives along the path, its sign that of the
    /// difference: the inverse of [`Path::drop_pa`].
    ///
    /// # Valid range
    /// A path without any resistance has no answer: [`CircuitError::NoBalance`].
    ///
    /// # Checked
    /// G-13 to 1e-6.
    pub fn flow_kg_s(&self, drop_pa: f64, medium: &Medium) -> Result<f64, CircuitError> {
        CircuitError::unless(drop_pa.is_finite(), "the pressure in Pa", drop_pa, "a number")?;
        if drop_pa == 0.0 {
            return Ok(0.0);
        }
        if let Path::Parallel(branches) = self {
            return branches.iter().map(|branch| branch.flow_kg_s(drop_pa, medium)).sum();
        }
        let flow_kg_s = self.forward_flow_kg_s(drop_pa.abs(), GUESS_KG_S, medium)?;
        Ok(flow_kg_s.copysign(drop_pa))
    }

    /// As [`Path::flow_kg_s`] for a positive difference, looked for first about `guess_kg_s`.
    pub(super) fn forward_flow_kg_s(
        &self,
        drop_pa: f64,
        guess_kg_s: f64,
        medium: &Medium,
    ) -> Result<f64, CircuitError> {
        let law = |flow_kg_s: f64| self.drop_pa(flow_kg_s, medium);
        if let Some(flow_kg_s) = inverse_power(drop_pa, (guess_kg_s, DROP_POWER), law)? {
            return Ok(flow_kg_s);
        }
        let mut enough_kg_s = GUESS_KG_S;
        while self.drop_pa(enough_kg_s, medium)? < drop_pa {
            enough_kg_s *= 4.0;
            // A thousand tonnes a second: no pressure would ever be lost.
            if enough_kg_s > 1e6 {
                return Err(CircuitError::NoBalance { what: "pressure", missing: drop_pa });
            }
        }
        crossing(
            (0.0, enough_kg_s),
            |_, missing| CircuitError::NoBalance { what: "pressure", missing },
            |flow_kg_s| Ok(self.drop_pa(flow_kg_s, medium)? - drop_pa),
        )
    }
}

/// Where a flow is looked for first \[kg/s\]: a litre or so a minute.
const GUESS_KG_S: f64 = 0.02;

/// How a drop grows with the flow: from its first power (laminar) to its second (fittings).
const DROP_POWER: f64 = 1.75;

/// How a flow divides.
#[derive(Clone, Debug, PartialEq)]
pub struct Division {
    /// Flow in each branch \[kg/s\].
    pub flows_kg_s: Vec<f64>,
    /// Pressure that each loses \[Pa\].
    pub drop_pa: f64,
}

/// Divides a flow among branches side by side, so that all lose the same pressure.
///
/// Branches all alike share equally. Else the common drop is sought for which the branches' flows
/// make up the whole.
///
/// - `branches`: at least one, each with some resistance.
/// - `flow_kg_s`: the whole flow; negative runs backwards.
///
/// # Valid range
/// No branch, or one without resistance, is a [`CircuitError`].
///
/// # Checked
/// G-01 to 1e-9, G-02 to 1e-6 against an independent root finder.
pub fn divide(
    branches: &[Path],
    flow_kg_s: f64,
    medium: &Medium,
) -> Result<Division, CircuitError> {
    let count = branches.len() as f64;
    let Some(first) = branches.first() else {
        let must = "1 or more";
        return Err(CircuitError::Impossible { what: "the number of branches", value: 0.0, must });
    };
    let share_kg_s = flow_kg_s / count;
    if branches.iter().all(|branch| branch == first) || flow_kg_s == 0.0 {
        let drop_pa = first.drop_pa(share_kg_s, medium)?;
        return Ok(Division { flows_kg_s: vec![share_kg_s; branches.len()], drop_pa });
    }
    let whole_kg_s = flow_kg_s.abs();
    let flows_at = |drop_pa: f64| -> Result<Vec<f64>, CircuitError> {
        branches.iter().map(|branch| branch.flow_kg_s(drop_pa, medium)).collect()
    };
    let sum_at =
        |drop_pa: f64| -> Result<f64, CircuitError> { Ok(flows_at(drop_pa)?.iter().sum()) };
    // With its fair share in the easiest branch no branch has more than that; with the whole flow
    // in it there is enough.
    let (mut low_pa, mut high_pa) = (f64::INFINITY, f64::INFINITY);
    for branch in branches {
        low_pa = low_pa.min(branch.drop_pa(share_kg_s.abs(), medium)?);
        high_pa = high_pa.min(branch.drop_pa(whole_kg_s, medium)?);
    }
    let guess_pa = (low_pa * high_pa).sqrt();
    let drop_pa = match inverse_power(whole_kg_s, (guess_pa, 1.0 / DROP_POWER), sum_at)? {
        Some(drop_pa) => drop_pa,
        None => crossing(
            (low_pa, high_pa),
            |_, missing| CircuitError::NoBalance { what: "flow", missing },
            |drop_pa| Ok(sum_at(drop_pa)? - whole_kg_s),
        )?,
    };
    let flows_kg_s = flows_at(drop_pa)?.into_iter().map(|flow| flow.copysign(flow_kg_s)).collect();
    Ok(Division { flows_kg_s, drop_pa: drop_pa.copysign(flow_kg_s) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matter::fluid::{Fluid, properties};
    use proptest::prelude::*;

    fn water() -> Medium {
        let fluid = properties(Fluid::Water, 323.15).unwrap();
        Medium { fluid, method: FrictionMethod::Churchill1977 }
    }

    fn run(bore_m: f64, length_m: f64) -> Path {
        Path::Run(Run { bore_m, length_m, roughness_m: 1.5e-6, fittings_loss: 2.0 })
    }

    proptest! {
        /// Laws: the drop rises with the flow and turns its sign with it; the flow at that drop
        /// is the flow; branches share the whole and lose the same.
        #[test]
        fn a_network_keeps_the_laws(
            bore_m in 0.006f64..0.03,
            length_m in 1f64..40.0,
            other_m in 1f64..40.0,
            flow_kg_s in 0.001f64..0.5,
        ) {
            let medium = water();
            let branches = vec![
                run(bore_m, length_m),
                Path::Series(vec![run(0.0136, other_m), run(0.0202, 3.0)]),
                Path::Helix {
                    run: Run { bore_m: 0.0136, length_m: 6.0, roughness_m: 1.5e-6, fittings_loss: 0.0 },
                    turn_diameter_m: 0.3,
                },
            ];
            let division = divide(&branches, flow_kg_s, &medium).unwrap();
            let sum: f64 = division.flows_kg_s.iter().sum();
            prop_assert!((sum / flow_kg_s - 1.0).abs() < 1e-9);
            for (branch, flow) in branches.iter().zip(&division.flows_kg_s) {
                let drop_pa = branch.drop_pa(*flow, &medium).unwrap();
                prop_assert!((drop_pa / division.drop_pa - 1.0).abs() < 1e-6);
            }
            let whole = Path::Parallel(branches);
            let here = whole.drop_pa(flow_kg_s, &medium).unwrap();
            prop_assert!(whole.drop_pa(flow_kg_s * 1.01, &medium).unwrap() > here);
            prop_assert!((whole.drop_pa(-flow_kg_s, &medium).unwrap() / here + 1.0).abs() < 1e-9);
            prop_assert!((whole.flow_kg_s(here, &medium).unwrap() / flow_kg_s - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn what_cannot_be_is_said() {
        let medium = water();
        assert!(divide(&[], 0.1, &medium).is_err());
        let open = Path::Parallel(vec![run(0.01, 5.0), Path::Series(Vec::new())]);
        assert!(open.flow_kg_s(100.0, &medium).is_err());
        assert!(run(0.01, 5.0).flow_kg_s(f64::NAN, &medium).is_err());
    }
}
