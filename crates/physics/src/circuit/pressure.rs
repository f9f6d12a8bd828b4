//! Pressure at each point of the circuit, running and at rest.

use super::error::CircuitError;
use super::parts::{Joint, Layout, PumpPlace};
use super::pipe::static_pa;

/// What changes the pressure round the circuit at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Round {
    /// Density of the fluid, one all round \[kg/m3\].
    pub density_kg_m3: f64,
    /// What the pump adds \[Pa\]; 0 at rest.
    pub pump_pa: f64,
    /// Lost in the return pipe \[Pa\].
    pub return_pipe_pa: f64,
    /// Lost in the panels \[Pa\].
    pub panel_pa: f64,
    /// Lost in the flow pipe with its check valve \[Pa\].
    pub flow_pipe_pa: f64,
    /// Lost in the coil \[Pa\].
    pub coil_pa: f64,
    /// Height of the coil's inlet and outlet over the store's base \[m\].
    pub coil_m: (f64, f64),
    /// Absolute pressure where header tank or vessel joins \[Pa\]; see [`open_joint_pa`].
    pub joint_pa: f64,
}

/// A point of the circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Point {
    /// Where the fluid enters the pump.
    PumpIn,
    /// Where it leaves the pump.
    PumpOut,
    /// Where it enters the panels.
    PanelIn,
    /// Where it leaves them.
    PanelOut,
    /// The highest point, taken to lie where the flow pipe leaves the panels.
    Highest,
    /// Where it enters the coil.
    CoilIn,
    /// Where it leaves the coil.
    CoilOut,
}

/// Pressure at one point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PointPressure {
    /// Which point.
    pub point: Point,
    /// Its height over the store's base \[m\].
    pub height_m: f64,
    /// Absolute pressure \[Pa\].
    pub pressure_pa: f64,
}

/// Pressure at each point round the circuit, in the order of the flow from the coil's outlet.
///
/// ```text
/// p = pjoint + rho g (zjoint - z) + pumps passed - losses passed
/// ```
///
/// All from the joint onwards along the flow. The change of velocity head from tube to tube is left
/// out: at half a metre a second it is a hundredth of a metre.
///
/// # Valid range
/// Any finite numbers; a [`CircuitError`] else. A pressure may come out below none: no such
/// circuit can be, its fluid column parts before that.
///
/// # Source
/// Bernoulli round a closed loop, any hydraulics text.
///
/// # Checked
/// G-16 to 1e-5.
pub fn pressures(layout: &Layout, round: &Round) -> Result<Vec<PointPressure>, CircuitError> {
    for (what, value) in [
        ("the density in kg/m3", round.density_kg_m3),
        ("the pressure at the joint in Pa", round.joint_pa),
        ("the pump's pressure in Pa", round.pump_pa),
    ] {
        CircuitError::unless(value.is_finite(), what, value, "a number")?;
    }
    let legs = legs(layout, round);
    let start = legs.iter().position(|leg| leg.point == joint_point(layout.joint)).unwrap_or(0);
    let joint_m = legs[start].height_m;
    let mut points: Vec<PointPressure> = Vec::with_capacity(legs.len());
    let mut changed_pa = 0.0;
    for at in 0..legs.len() {
        let leg = &legs[(start + at) % legs.len()];
        points.push(PointPressure {
            point: leg.point,
            height_m: leg.height_m,
            pressure_pa: round.joint_pa
                + static_pa(round.density_kg_m3, joint_m - leg.height_m)
                + changed_pa,
        });
        changed_pa += leg.change_pa;
    }
    points.rotate_right(start);
    Ok(points)
}

/// Absolute pressure where an open header tank's feed joins \[Pa\].
///
/// ```text
/// p = pair + rho g (level - z)
/// ```
///
/// - `air_pa`: of the air over the tank.
/// - `density_kg_m3`: of what stands in the feed pipe.
/// - `level_over_joint_m`: water level over the joint \[m\].
///
/// # Valid range
/// Any finite numbers.
///
/// # Source
/// Hydrostatics.
///
/// # Checked
/// With [`pressures`], G-16.
pub fn open_joint_pa(air_pa: f64, density_kg_m3: f64, level_over_joint_m: f64) -> f64 {
    air_pa + static_pa(density_kg_m3, level_over_joint_m)
}

/// Height of the joint over the store's base \[m\].
pub fn joint_m(layout: &Layout) -> f64 {
    match layout.joint {
        Joint::PumpInlet | Joint::PumpOutlet => layout.pump_m,
        Joint::PanelOutlet => layout.panel_top_m,
    }
}

fn joint_point(joint: Joint) -> Point {
    match joint {
        Joint::PumpInlet => Point::PumpIn,
        Joint::PumpOutlet => Point::PumpOut,
        Joint::PanelOutlet => Point::PanelOut,
    }
}

/// A point, and what changes on the way to the next.
struct Leg {
    point: Point,
    height_m: f64,
    change_pa: f64,
}

fn legs(layout: &Layout, round: &Round) -> Vec<Leg> {
    let leg = |point, height_m, change_pa| Leg { point, height_m, change_pa };
    let mut legs = vec![
        leg(Point::CoilOut, round.coil_m.1, -round.return_pipe_pa),
        leg(Point::PanelIn, layout.panel_bottom_m, -round.panel_pa),
        leg(Point::PanelOut, layout.panel_top_m, 0.0),
        leg(Point::Highest, layout.highest_m, -round.flow_pipe_pa),
        leg(Point::CoilIn, round.coil_m.0, -round.coil_pa),
    ];
    // The pump stands between two points; where a pipe lies between them too, it lies before the
    // pump or after it.
    let (at, before_pump_pa, after_pump_pa) = match layout.pump_place {
        PumpPlace::AfterCoil => (1, 0.0, -round.return_pipe_pa),
        PumpPlace::BeforePanel => (1, -round.return_pipe_pa, 0.0),
        PumpPlace::AfterPanel => (3, 0.0, 0.0),
        PumpPlace::BeforeCoil => (4, -round.flow_pipe_pa, 0.0),
    };
    legs[at - 1].change_pa = before_pump_pa;
    legs.insert(at, leg(Point::PumpIn, layout.pump_m, round.pump_pa));
    legs.insert(at + 1, leg(Point::PumpOut, layout.pump_m, after_pump_pa));
    legs
}

#[cfg(test)]
mod tests {
    use super::*;

    const LAYOUT: Layout = Layout {
        panel_bottom_m: 1.0,
        panel_top_m: 2.0,
        highest_m: 2.2,
        pump_m: 0.3,
        pump_place: PumpPlace::AfterCoil,
        joint: Joint::PumpInlet,
        holding: super::super::parts::Holding::HeaderTank { level_m: 2.7, room_m3: None },
    };
    const ROUND: Round = Round {
        density_kg_m3: 1000.0,
        pump_pa: 12e3,
        return_pipe_pa: 5e3,
        panel_pa: 4e3,
        flow_pipe_pa: 2e3,
        coil_pa: 1e3,
        coil_m: (0.3, 0.1),
        joint_pa: 125e3,
    };

    fn at(points: &[PointPressure], point: Point) -> f64 {
        points.iter().find(|one| one.point == point).unwrap().pressure_pa
    }

    /// Wherever the pump stands and the feed joins: the joint has its pressure, the pump adds what
    /// it adds, each part takes what it takes, and at rest only heights count.
    #[test]
    fn pressures_add_up_round_the_loop() {
        for pump_place in [
            PumpPlace::AfterCoil,
            PumpPlace::BeforePanel,
            PumpPlace::AfterPanel,
            PumpPlace::BeforeCoil,
        ] {
            for joint in [Joint::PumpInlet, Joint::PumpOutlet, Joint::PanelOutlet] {
                let layout = Layout { pump_place, joint, ..LAYOUT };
                let points = pressures(&layout, &ROUND).unwrap();
                assert_eq!(points.len(), 7);
                let level = |point: Point| {
                    let one = points.iter().find(|one| one.point == point).unwrap();
                    one.pressure_pa + static_pa(1000.0, one.height_m)
                };
                let near = |got: f64, want: f64| assert!((got - want).abs() < 1e-6, "{got}");
                near(at(&points, joint_point(joint)), 125e3);
                near(level(Point::PumpOut) - level(Point::PumpIn), 12e3);
                near(level(Point::PanelIn) - level(Point::PanelOut), 4e3);
                near(level(Point::CoilIn) - level(Point::CoilOut), 1e3);
                let rest = Round {
                    pump_pa: 0.0,
                    return_pipe_pa: 0.0,
                    panel_pa: 0.0,
                    flow_pipe_pa: 0.0,
                    coil_pa: 0.0,
                    ..ROUND
                };
                let still = pressures(&layout, &rest).unwrap();
                let column_pa = at(&still, Point::PanelIn) - at(&still, Point::Highest);
                near(column_pa, static_pa(1000.0, 1.2));
            }
        }
        assert!(pressures(&LAYOUT, &Round { joint_pa: f64::NAN, ..ROUND }).is_err());
    }

    /// With the feed at the pump's inlet the whole circuit is under more pressure while it runs;
    /// with the feed at its outlet the pump draws the rest of the circuit down.
    #[test]
    fn where_the_feed_joins_decides_what_the_pump_does() {
        let points = |joint| {
            let joint_pa = 125e3;
            pressures(&Layout { joint, ..LAYOUT }, &Round { joint_pa, ..ROUND }).unwrap()
        };
        let (inlet, outlet) = (points(Joint::PumpInlet), points(Joint::PumpOutlet));
        assert!(at(&inlet, Point::PanelIn) > at(&outlet, Point::PanelIn) + 11.9e3);
        assert!(at(&outlet, Point::PumpIn) < 125e3 - 11.9e3);
    }
}
