//! The circuit's way between panel and store.

use super::house::{Facts, Flow, Joint, PumpPlace};
use crate::drawing::Point;
use crate::pen::{at, px};

/// The circuit's way.
pub(super) struct Pipes {
    pub flow: Vec<Point>,
    pub back: Vec<Point>,
    pub pump: Option<Point>,
    /// The check valve, and the point it opens towards.
    pub valve: (Point, Point),
    pub joint: Point,
    pub highest: Point,
}

impl Pipes {
    pub(super) fn of(
        facts: &Facts,
        y: &dyn Fn(f64) -> f64,
        panel_out: Point,
        panel_in: Point,
        jacket: f64,
        shell: f64,
    ) -> Pipes {
        let pump = facts.pump;
        let y_pump = pump.map(|pump| y(pump.height_m));
        let is_at = |place: PumpPlace| pump.is_some_and(|pump| pump.place == place);
        let (in_m, out_m) = match facts.coil.flow {
            Flow::Down => (facts.coil.top_m, facts.coil.bottom_m),
            Flow::Up => (facts.coil.bottom_m, facts.coil.top_m),
        };
        let (y_in, y_out) = (y(in_m), y(out_m));
        let (out_x, out_y) = (panel_out.x_mm / px(1.0), panel_out.y_mm / px(1.0));
        let (in_x, in_y) = (panel_in.x_mm / px(1.0), panel_in.y_mm / px(1.0));
        let y_high = y(facts.highest_m).min(out_y);
        // The hot pipe, by way of the highest point.
        let mut flow = vec![(out_x, out_y)];
        let mut pump_at = None;
        let mut riser = out_x + 8.0;
        if let (true, Some(y_pump)) = (is_at(PumpPlace::AfterPanel), y_pump) {
            flow.extend([(riser, out_y), (riser, y_pump), (riser + 34.0, y_pump)]);
            pump_at = Some(at(riser + 17.0, y_pump));
            riser += 34.0;
        }
        let last_x = if is_at(PumpPlace::BeforeCoil) { jacket - 46.0 } else { jacket - 14.0 };
        flow.extend([
            (riser, flow.last().map_or(out_y, |end| end.1)),
            (riser, y_high),
            (last_x, y_high),
        ]);
        if let (true, Some(y_pump)) = (is_at(PumpPlace::BeforeCoil), y_pump) {
            flow.extend([(last_x, y_pump), (last_x + 34.0, y_pump), (last_x + 34.0, y_in)]);
            pump_at = Some(at(last_x + 17.0, y_pump));
        } else {
            flow.push((last_x, y_in));
        }
        flow.push((shell, y_in));
        let highest = at(0.5 * (riser + last_x).max(2.0 * riser), y_high);
        // The cool pipe, by way of the pump.
        let near = last_x - 14.0;
        let mut back = vec![(shell, y_out), (near, y_out)];
        let y_run = match y_pump {
            Some(y_pump) if is_at(PumpPlace::AfterCoil) || is_at(PumpPlace::BeforePanel) => y_pump,
            _ => y_out,
        };
        back.push((near, y_run));
        let far = out_x + 24.0;
        let falls = y_run < in_y - 0.5;
        let end = if falls { far } else { in_x };
        let valve_x = match pump.map(|pump| pump.place) {
            Some(PumpPlace::AfterCoil) => far + 14.0,
            Some(PumpPlace::BeforePanel) => near - 8.0,
            _ => 0.5 * (near + far) + 5.0,
        };
        back.extend([(end, y_run), (end, in_y), (in_x, in_y)]);
        if is_at(PumpPlace::AfterCoil) {
            pump_at = Some(at(near - 16.0, y_run));
        } else if is_at(PumpPlace::BeforePanel) {
            pump_at = Some(at(far + 14.0, y_run));
        }
        let valve = (at(valve_x, y_run), at(valve_x - 10.0, y_run));
        let joint = match (facts.joint, pump_at, pump.map(|pump| pump.place)) {
            (Joint::PanelOutlet, ..) | (_, None, _) | (_, _, None) => {
                at(riser, y_high.max(out_y - 6.0))
            }
            (side, Some(pump), Some(place)) => {
                let on_return = matches!(place, PumpPlace::AfterCoil | PumpPlace::BeforePanel);
                // The return runs to the left, the flow to the right.
                let towards = match (side, on_return) {
                    (Joint::PumpInlet, true) | (Joint::PumpOutlet, false) => 14.0,
                    _ => -14.0,
                };
                Point { x_mm: pump.x_mm + px(towards), y_mm: pump.y_mm }
            }
        };
        Pipes { flow: corners(&flow), back: corners(&back), pump: pump_at, valve, joint, highest }
    }
}

/// Points in pixels, those that stand still left out.
fn corners(points: &[(f64, f64)]) -> Vec<Point> {
    let mut out: Vec<Point> = Vec::new();
    for &(x, y) in points {
        let point = at(x, y);
        let same = |last: &Point| {
            (last.x_mm - point.x_mm).abs() < px(0.1) && (last.y_mm - point.y_mm).abs() < px(0.1)
        };
        if !out.last().is_some_and(same) {
            out.push(point);
        }
    }
    out
}
