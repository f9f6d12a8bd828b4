//! The pump, and the flow at which its head is what the round costs.

use super::bank::{bank_path, panel_flows_kg_s, passage_reynolds};
use super::error::CircuitError;
use super::friction::FrictionMethod;
use super::gravity::{BRIGHT_COLD_K, Legs, bright_heat_w, gravity_flow};
use super::network::{Medium, Path};
use super::parts::{Circuit, CurvePoint, Pipe, Pump};
use super::pipe::Run;
use crate::GRAVITY_M_S2;
use crate::balance::crossing;
use crate::matter::fluid::{FluidProperties, properties};
use crate::panel::Bank;
use crate::store::Coil;

/// Where pump and round agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkingPoint {
    /// Flow \[kg/s\].
    pub flow_kg_s: f64,
    /// The pump's head at that flow \[m\] of the fluid.
    pub head_m: f64,
    /// Pressure lost round the circuit \[Pa\].
    pub drop_pa: f64,
    /// Of that, in the panels \[Pa\].
    pub panel_drop_pa: f64,
    /// Least Reynolds number in any panel's tube; 0 without panels.
    pub tube_reynolds: f64,
}

/// Flow that a build's pump drives round its circuit.
///
/// The pump's head against friction in flow pipe, check valve, panels, return pipe and coil, all
/// with fluid of one temperature. What hot and cold legs weigh differently is left out; it is a
/// few hundredths of a metre. Friction by Churchill 1977, the coil by Schmidt 1967.
///
/// Without a pump the flow is what a bright hour's heat keeps up by the fluid's own weight, from a
/// return pipe at [`BRIGHT_COLD_K`], whatever temperature is asked: see [`gravity_flow`].
///
/// - `circuit`: fluid, pipes, pump, valve.
/// - `panels`: the bank; none is legal and loses nothing.
/// - `coil`: its tube and turn.
/// - `temperature_k`: of the fluid, absolute \[K\].
///
/// # Valid range
/// That of [`properties`]: a frozen or overheated fluid is an error, and so is a pump without
/// head, or a flow beyond the last point of the pump's curve, where nobody measured.
/// [`working_point_of`] takes any properties and goes on along the curve's last line.
///
/// # Checked
/// The balance by G-05, G-11, G-15, the division by G-02: see [`balance`].
pub fn working_point(
    circuit: &Circuit,
    panels: &Bank,
    coil: &Coil,
    temperature_k: f64,
) -> Result<WorkingPoint, CircuitError> {
    let fluid = properties(circuit.fluid, temperature_k)?;
    let point = working_point_of(circuit, panels, coil, &fluid)?;
    let flow_m3_s = point.flow_kg_s / fluid.density_kg_m3;
    match circuit.pump.as_ref().and_then(|pump| pump.curve.last()) {
        Some(last) if flow_m3_s > last.flow_m3_s => {
            Err(CircuitError::BeyondCurve { flow_m3_s, last_m3_s: last.flow_m3_s })
        }
        _ => Ok(point),
    }
}

/// As [`working_point`], for a fluid of given properties.
pub fn working_point_of(
    circuit: &Circuit,
    panels: &Bank,
    coil: &Coil,
    fluid: &FluidProperties,
) -> Result<WorkingPoint, CircuitError> {
    let medium = Medium { fluid: *fluid, method: FrictionMethod::Churchill1977 };
    let point = match &circuit.pump {
        Some(pump) => balance(pump, &round_path(circuit, panels, coil)?, &medium)?,
        None => {
            let legs = Legs {
                return_pipe: return_pipe_path(circuit),
                between: Path::Series(vec![coil_path(coil), bank_path(panels)?]),
                flow_pipe: flow_pipe_path(circuit),
            };
            let flow = gravity_flow(circuit, coil, &legs, bright_heat_w(panels), BRIGHT_COLD_K)?;
            Balance {
                flow_kg_s: flow.flow_kg_s,
                head_m: flow.drive_pa / (fluid.density_kg_m3 * GRAVITY_M_S2),
                drop_pa: flow.drive_pa,
            }
        }
    };
    let tube_reynolds = panel_flows_kg_s(panels, point.flow_kg_s, &medium)?
        .into_iter()
        .zip(&panels.panels)
        .map(|(flow_kg_s, panel)| passage_reynolds(panel, flow_kg_s, fluid.viscosity_pa_s))
        .reduce(f64::min)
        .unwrap_or(0.0);
    Ok(WorkingPoint {
        flow_kg_s: point.flow_kg_s,
        head_m: point.head_m,
        drop_pa: point.drop_pa,
        panel_drop_pa: bank_path(panels)?.drop_pa(point.flow_kg_s, &medium)?,
        tube_reynolds,
    })
}

/// Flow, head and loss where a pump and a path agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// Flow \[kg/s\].
    pub flow_kg_s: f64,
    /// Head \[m\].
    pub head_m: f64,
    /// Pressure lost \[Pa\].
    pub drop_pa: f64,
}

/// Flow at which the pump's head is what the path costs.
///
/// ```text
/// rho g H(m/rho) = drop(m)
/// ```
///
/// # Valid range
/// A curve as [`head_m`] wants it, with head at no flow: else [`CircuitError::NoFlow`].
///
/// # Checked
/// G-05, G-11, G-15 to 1e-6, the pump's parabola given as 3001 points.
pub fn balance(pump: &Pump, round: &Path, medium: &Medium) -> Result<Balance, CircuitError> {
    let density_kg_m3 = medium.fluid.density_kg_m3;
    let shutoff_head_m = head_m(pump, 0.0)?;
    if shutoff_head_m <= 0.0 {
        return Err(CircuitError::NoFlow { shutoff_head_m });
    }
    let most_kg_s = runout_m3_s(pump)? * density_kg_m3;
    let flow_kg_s = crossing(
        (0.0, most_kg_s),
        |_, missing| CircuitError::NoBalance { what: "head", missing },
        |flow_kg_s| {
            let given_pa = density_kg_m3 * GRAVITY_M_S2 * head_m(pump, flow_kg_s / density_kg_m3)?;
            Ok(given_pa - round.drop_pa(flow_kg_s, medium)?)
        },
    )?;
    Ok(Balance {
        flow_kg_s,
        head_m: head_m(pump, flow_kg_s / density_kg_m3)?,
        drop_pa: round.drop_pa(flow_kg_s, medium)?,
    })
}

/// Head of a pump at a flow \[m\].
///
/// The curve's points joined by straight lines. Before the first point its head holds; beyond the
/// last the last line goes on to no head and stays there.
///
/// - `flow_m3_s`: 0 or more.
///
/// # Valid range
/// Two points or more, flow rising, head falling, heads not negative; a [`CircuitError`] outside.
///
/// # Example
/// ```
/// use physics::circuit::pump::head_m;
/// use physics::circuit::{CurvePoint, Pump};
/// let point = |litres_min: f64, head_m| CurvePoint { flow_m3_s: litres_min / 60e3, head_m };
/// let pump = Pump { curve: vec![point(0.0, 5.0), point(20.0, 3.0)], power_w: 40.0 };
/// assert!((head_m(&pump, 10.0 / 60e3).unwrap() - 4.0).abs() < 1e-9);
/// assert!((head_m(&pump, 40.0 / 60e3).unwrap() - 1.0).abs() < 1e-9);
/// ```
pub fn head_m(pump: &Pump, flow_m3_s: f64) -> Result<f64, CircuitError> {
    check_curve(&pump.curve)?;
    let good = flow_m3_s >= 0.0 && flow_m3_s.is_finite();
    CircuitError::unless(good, "the flow in m3/s", flow_m3_s, "0 or more")?;
    let curve = &pump.curve;
    if flow_m3_s <= curve[0].flow_m3_s {
        return Ok(curve[0].head_m);
    }
    let after = curve.partition_point(|point| point.flow_m3_s < flow_m3_s).min(curve.len() - 1);
    let (a, b) = (curve[after - 1], curve[after]);
    let share = (flow_m3_s - a.flow_m3_s) / (b.flow_m3_s - a.flow_m3_s);
    Ok((a.head_m + share * (b.head_m - a.head_m)).max(0.0))
}

/// Flow \[m3/s\] at which a pump has no head left.
fn runout_m3_s(pump: &Pump) -> Result<f64, CircuitError> {
    check_curve(&pump.curve)?;
    let (a, b) = (pump.curve[pump.curve.len() - 2], pump.curve[pump.curve.len() - 1]);
    Ok(b.flow_m3_s + b.head_m * (b.flow_m3_s - a.flow_m3_s) / (a.head_m - b.head_m))
}

/// All the way round: flow pipe with its check valve, return pipe, coil and panels.
///
/// # Valid range
/// As [`bank_path`].
pub fn round_path(circuit: &Circuit, panels: &Bank, coil: &Coil) -> Result<Path, CircuitError> {
    Ok(Path::Series(vec![
        flow_pipe_path(circuit),
        return_pipe_path(circuit),
        coil_path(coil),
        bank_path(panels)?,
    ]))
}

/// The flow pipe with its check valve, which counts on its first stretch.
pub(super) fn flow_pipe_path(circuit: &Circuit) -> Path {
    pipe_path(&circuit.flow_pipe, circuit.check_valve.open_loss())
}

/// The return pipe.
pub(super) fn return_pipe_path(circuit: &Circuit) -> Path {
    pipe_path(&circuit.return_pipe, 0.0)
}

/// The coil's tube.
pub(super) fn coil_path(coil: &Coil) -> Path {
    Path::Helix {
        run: Run {
            bore_m: coil.tube.bore_m,
            length_m: coil.length_m,
            roughness_m: coil.tube.roughness_m,
            fittings_loss: 0.0,
        },
        turn_diameter_m: coil.turn_diameter_m,
    }
}

/// Stretches one after the other, with a loss figure more on the first.
fn pipe_path(stretches: &[Pipe], more_loss: f64) -> Path {
    let run = |(at, pipe): (usize, &Pipe)| {
        let more_loss = if at == 0 { more_loss } else { 0.0 };
        let run = pipe.run();
        Path::Run(Run { fittings_loss: run.fittings_loss + more_loss, ..run })
    };
    Path::Series(stretches.iter().enumerate().map(run).collect())
}

fn check_curve(curve: &[CurvePoint]) -> Result<(), CircuitError> {
    let count = curve.len() as f64;
    CircuitError::unless(
        curve.len() >= 2,
        "the number of points on the curve",
        count,
        "2 or more",
    )?;
    for point in curve {
        let good = point.flow_m3_s >= 0.0 && point.flow_m3_s.is_finite();
        CircuitError::unless(good, "the curve's flow in m3/s", point.flow_m3_s, "0 or more")?;
        let good = point.head_m >= 0.0 && point.head_m.is_finite();
        CircuitError::unless(good, "the curve's head in m", point.head_m, "0 or more")?;
    }
    for pair in curve.windows(2) {
        let rising = pair[1].flow_m3_s > pair[0].flow_m3_s;
        let must = "more than the point's before";
        CircuitError::unless(rising, "the curve's flow in m3/s", pair[1].flow_m3_s, must)?;
        let falling = pair[1].head_m < pair[0].head_m;
        let must = "less than the point's before";
        CircuitError::unless(falling, "the curve's head in m", pair[1].head_m, must)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::parts::{CheckValve, Holding, Joint, Layout, PumpPlace};
    use crate::matter::fluid::{Fluid, FluidError};
    use crate::panel::{
        BoxAir, Built, DiffuseAngle, Edge, Fins, HarpConnection, Join, Layer, Panel, Passage,
        Sheet, Tube, TubePattern, Tubes,
    };
    use crate::store::CoilDirection;

    const PIPE: Tube = Tube {
        outside_m: 0.015,
        bore_m: 0.0136,
        conductivity_w_m_k: 340.0,
        density_kg_m3: 8940.0,
        heat_capacity_j_kg_k: 385.0,
        roughness_m: 1.5e-6,
    };
    const RISER: Tube = Tube { outside_m: 0.008, bore_m: 0.0068, ..PIPE };
    const BOARD: Layer = Layer {
        thickness_m: 0.05,
        conductivity_w_m_k: 0.035,
        conductivity_growth_1_k: 0.0,
        density_kg_m3: 30.0,
        heat_capacity_j_kg_k: 1000.0,
    };

    fn panel(tube: Tube, pattern: TubePattern) -> Panel {
        Panel::Built(Box::new(Built {
            covers: vec![],
            diffuse_angle: DiffuseAngle::SixtyDegrees,
            sheet: Sheet {
                length_m: 2.0,
                width_m: 1.0,
                thickness_m: 0.0007,
                conductivity_w_m_k: 340.0,
                density_kg_m3: 8940.0,
                heat_capacity_j_kg_k: 385.0,
                absorptance: 0.95,
                emittance: 0.9,
            },
            passage: Passage::Tubes(Tubes {
                tube,
                spacing_m: 0.125,
                bond_w_m_k: 50.0,
                stretches: Vec::new(),
                pattern,
                fins: Fins::OneSheet,
            }),
            back: vec![BOARD],
            edge: Edge { layer: BOARD, area_m2: 0.6 },
            walls: None,
            box_air: BoxAir { changes_1_h: 1.0 },
            extra_capacity_j_k: 0.0,
        }))
    }

    fn serpentine(legs: u32) -> Panel {
        panel(PIPE, TubePattern::Serpentine { legs, leg_length_m: 1.9 })
    }

    fn harp(connection: HarpConnection) -> Panel {
        let pattern =
            TubePattern::Harp { risers: 8, riser_length_m: 1.8, header: PIPE, connection };
        panel(RISER, pattern)
    }

    fn circuit(fluid: Fluid) -> Circuit {
        let pipe = Pipe {
            tube: PIPE,
            length_m: 8.0,
            fittings_loss: 6.0,
            lagging_m: 0.013,
            lagging_conductivity_w_m_k: 0.04,
            outdoor_share: 0.3,
        };
        let point = |litres_min: f64, head_m| CurvePoint { flow_m3_s: litres_min / 60e3, head_m };
        Circuit {
            fluid,
            flow_pipe: vec![pipe],
            return_pipe: vec![pipe],
            pump: Some(Pump {
                curve: vec![point(0.0, 6.0), point(20.0, 4.5), point(40.0, 1.0)],
                power_w: 45.0,
            }),
            check_valve: CheckValve::Fitted { open_loss: 2.0 },
            layout: Layout {
                panel_bottom_m: 0.5,
                panel_top_m: 1.5,
                highest_m: 1.5,
                pump_m: 0.0,
                pump_place: PumpPlace::AfterCoil,
                joint: Joint::PumpInlet,
                holding: Holding::HeaderTank { level_m: 2.0, room_m3: None },
            },
        }
    }

    const COIL: Coil = Coil {
        tube: PIPE,
        length_m: 8.0,
        bottom_height_m: 0.05,
        top_height_m: 0.3,
        turn_diameter_m: 0.35,
        direction: CoilDirection::Down,
        fins: None,
    };

    fn bank(panels: Vec<Panel>, join: Join) -> Bank {
        Bank { panels, join, links: Vec::new() }
    }

    /// At the working point the pump gives what the round takes; thicker fluid, more legs and
    /// panels in a row run slower; a second panel beside the first runs faster.
    #[test]
    fn the_working_point_keeps_the_laws() {
        let water = circuit(Fluid::Water);
        let at = |circuit: &Circuit, bank: &Bank| {
            let point = working_point(circuit, bank, &COIL, 323.15).unwrap();
            let density_kg_m3 = properties(circuit.fluid, 323.15).unwrap().density_kg_m3;
            let given_pa = point.head_m * density_kg_m3 * GRAVITY_M_S2;
            assert!((given_pa / point.drop_pa - 1.0).abs() < 1e-6);
            assert!(point.panel_drop_pa < point.drop_pa);
            point
        };
        let one = at(&water, &bank(vec![serpentine(8)], Join::One(0)));
        let more_legs = at(&water, &bank(vec![serpentine(12)], Join::One(0)));
        let two = vec![serpentine(8), serpentine(8)];
        let both = || vec![Join::One(0), Join::One(1)];
        let row = at(&water, &bank(two.clone(), Join::Series(both())));
        let beside = at(&water, &bank(two, Join::Parallel(both())));
        let glycol = circuit(Fluid::PropyleneGlycol { mass_share: 0.4 });
        let thick = at(&glycol, &bank(vec![serpentine(8)], Join::One(0)));
        assert!(more_legs.flow_kg_s < one.flow_kg_s);
        assert!(row.flow_kg_s < one.flow_kg_s && beside.flow_kg_s > one.flow_kg_s);
        assert!(beside.tube_reynolds < one.tube_reynolds);
        assert!(thick.flow_kg_s < one.flow_kg_s);
        let none = at(&water, &Bank::none());
        assert!(none.flow_kg_s > one.flow_kg_s && none.tube_reynolds == 0.0);
    }

    /// Unequal panels side by side: the whole flow is shared, the easier one has more.
    #[test]
    fn unequal_panels_share_the_flow() {
        let water = properties(Fluid::Water, 323.15).unwrap();
        let medium = Medium { fluid: water, method: FrictionMethod::Churchill1977 };
        let join =
            Join::Parallel(vec![Join::One(0), Join::Series(vec![Join::One(1), Join::One(2)])]);
        let panels = vec![
            serpentine(8),
            harp(HarpConnection::OppositeCorner),
            harp(HarpConnection::SameSide),
        ];
        let flows = panel_flows_kg_s(&bank(panels, join), 0.1, &medium).unwrap();
        assert_eq!(flows[1], flows[2]);
        assert!((flows[0] + flows[1] - 0.1).abs() < 1e-9);
        assert!(flows[1] > flows[0], "eight risers are easier than one tube: {flows:?}");
    }

    #[test]
    fn what_cannot_run_is_said() {
        let one = bank(vec![serpentine(8)], Join::One(0));
        let frozen = working_point(&circuit(Fluid::Water), &one, &COIL, 270.0);
        assert!(matches!(frozen, Err(CircuitError::Fluid(FluidError::Frozen { .. }))));

        let lost = bank(vec![serpentine(8)], Join::One(1));
        assert!(working_point(&circuit(Fluid::Water), &lost, &COIL, 323.15).is_err());

        let with_curve = |curve: &[(f64, f64)]| {
            let mut circuit = circuit(Fluid::Water);
            let points = curve.iter().map(|&(flow_m3_s, head_m)| CurvePoint { flow_m3_s, head_m });
            circuit.pump.as_mut().unwrap().curve = points.collect();
            working_point(&circuit, &one, &COIL, 323.15)
        };
        assert!(with_curve(&[(0.0, 5.0)]).is_err());
        assert!(with_curve(&[(0.0, 5.0), (1e-3, 6.0)]).is_err());
        assert!(with_curve(&[(1e-3, 5.0), (0.0, 6.0)]).is_err());
        assert!(with_curve(&[(0.0, f64::NAN), (1e-3, 0.0)]).is_err());
        assert!(with_curve(&[(0.0, 0.0), (1e-3, -1.0)]).is_err());
        assert!(with_curve(&[(0.0, 0.01), (1e-3, 0.0)]).unwrap().flow_kg_s > 0.0);
    }

    /// Nobody measured a pump beyond its last point, so no answer is given there: a curve that ends
    /// at one litre a minute, and a round that would take more.
    #[test]
    fn the_curve_is_not_drawn_on_beyond_its_end() {
        let one = bank(vec![serpentine(8)], Join::One(0));
        let mut circuit = circuit(Fluid::Water);
        let curve = &mut circuit.pump.as_mut().unwrap().curve;
        curve.truncate(1);
        curve.push(CurvePoint { flow_m3_s: 1.0 / 60e3, head_m: 5.9 });
        let got = working_point(&circuit, &one, &COIL, 323.15);
        assert!(matches!(got, Err(CircuitError::BeyondCurve { .. })), "{got:?}");
    }

    /// Given: a circuit without pump and panel, its coil level, so that its legs are those of a plain
    /// thermosiphon whose riser is 1 m of the same pipe. Expected: that thermosiphon's flow.
    /// Tolerance: 1e-6, what both searches leave.
    #[test]
    fn a_circuit_without_pump_is_a_thermosiphon() {
        use crate::circuit::gravity::gravity_flow;
        use crate::circuit::thermosiphon::{Thermosiphon, thermosiphon};
        let mut circuit = circuit(Fluid::Water);
        circuit.pump = None;
        circuit.check_valve = CheckValve::None;
        for pipe in circuit.flow_pipe.iter_mut().chain(&mut circuit.return_pipe) {
            pipe.fittings_loss = 0.0;
            pipe.tube = PIPE;
        }
        let layout = &mut circuit.layout;
        (layout.panel_bottom_m, layout.panel_top_m, layout.highest_m) = (-2.0, -1.0, 0.2);
        let coil = Coil { bottom_height_m: 0.2, top_height_m: 0.2, ..COIL };
        let length_m = |pipes: &[Pipe]| pipes.iter().map(|pipe| pipe.length_m).sum::<f64>();
        let riser = Run { bore_m: 0.0136, length_m: 1.0, roughness_m: 1.5e-6, fittings_loss: 0.0 };
        let round = Legs {
            return_pipe: return_pipe_path(&circuit),
            between: Path::Run(riser),
            flow_pipe: flow_pipe_path(&circuit),
        };
        let got = gravity_flow(&circuit, &coil, &round, 600.0, 303.15).unwrap();
        let legs = Thermosiphon {
            heat_w: 600.0,
            cold_k: 303.15,
            panel_rise_m: 1.0,
            hot_rise_m: 1.2,
            bore_m: 0.0136,
            roughness_m: 1.5e-6,
            hot_leg_m: length_m(&circuit.flow_pipe),
            cold_leg_m: length_m(&circuit.return_pipe),
            fittings_loss: 0.0,
            risers: 1,
            riser_bore_m: 0.0136,
            riser_length_m: 1.0,
        };
        let want = thermosiphon(&legs, Fluid::Water).unwrap();
        assert!((got.flow_kg_s / want.flow_kg_s - 1.0).abs() < 1e-6, "{got:?} {want:?}");
        assert!((got.drive_pa / want.drive_pa - 1.0).abs() < 1e-6, "{got:?} {want:?}");

        // The store below the panel: no heat drives hot fluid down.
        let layout = &mut circuit.layout;
        (layout.panel_bottom_m, layout.panel_top_m, layout.highest_m) = (3.0, 3.5, 3.5);
        let none = gravity_flow(&circuit, &coil, &round, 600.0, 303.15).unwrap();
        assert_eq!(none.flow_kg_s, 0.0);
    }
}
