//! What a build says of its circuit.

use crate::matter::fluid::Fluid;
use crate::panel::Tube;

/// The circuit's part of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    /// What runs round.
    pub fluid: Fluid,
    /// The hot pipe, from the panels to the coil.
    pub flow_pipe: Pipe,
    /// The cool pipe, from the coil to the panels.
    pub return_pipe: Pipe,
    /// The pump.
    pub pump: Pump,
    /// What keeps the fluid from running backwards.
    pub check_valve: CheckValve,
}

/// One pipe or hose run with its fittings and lagging.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pipe {
    /// The tube or hose.
    pub tube: Tube,
    /// Length \[m\], more than 0.
    pub length_m: f64,
    /// Sum of the fittings' loss figures, on the velocity in this pipe.
    pub fittings_loss: f64,
    /// Thickness of the lagging \[m\]; 0 for bare pipe.
    pub lagging_m: f64,
    /// Conductivity of the lagging \[W/(m K)\].
    pub lagging_conductivity_w_m_k: f64,
    /// Share of the length that lies outdoors, 0 to 1; the rest lies in the loft.
    pub outdoor_share: f64,
}

/// The pump's curve and its draw of electricity.
#[derive(Clone, Debug, PartialEq)]
pub struct Pump {
    /// Points of the curve, by rising flow and falling head; at least two.
    pub curve: Vec<CurvePoint>,
    /// Electricity while running \[W\].
    pub power_w: f64,
}

/// One point of a pump's curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// Flow \[m3/s\].
    pub flow_m3_s: f64,
    /// Head at that flow, in metres of the fluid pumped \[m\].
    pub head_m: f64,
}

/// What keeps the fluid from running backwards at night.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CheckValve {
    /// None: the fluid may run by its own weight when the pump stands.
    None,
    /// Fitted, with its loss figure on the flow pipe's velocity.
    Fitted {
        /// Loss figure when open.
        open_loss: f64,
    },
}
