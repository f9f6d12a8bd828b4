//! What a build says of its circuit.

use super::pipe::Run;
use crate::matter::fluid::Fluid;
use crate::panel::Tube;

/// The circuit's part of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    /// What runs round.
    pub fluid: Fluid,
    /// The hot pipe, from the panels to the coil: stretches in the order of the flow, 1 or more.
    pub flow_pipe: Vec<Pipe>,
    /// The cool pipe, from the coil to the panels: stretches in the order of the flow, 1 or more.
    pub return_pipe: Vec<Pipe>,
    /// The pump; `None` where the fluid's own weight moves it.
    pub pump: Option<Pump>,
    /// What keeps the fluid from running backwards.
    pub check_valve: CheckValve,
    /// Heights, and what holds the circuit under pressure.
    pub layout: Layout,
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

impl Pipe {
    /// The pipe as the flow meets it.
    pub fn run(&self) -> Run {
        Run {
            bore_m: self.tube.bore_m,
            length_m: self.length_m,
            roughness_m: self.tube.roughness_m,
            fittings_loss: self.fittings_loss,
        }
    }
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
    /// None: the fluid may run by its own weight either way when the pump stands.
    None,
    /// Fitted, held shut by a spring: it opens for a pump, and for nothing else.
    Fitted {
        /// Loss figure when open, on the flow pipe's velocity.
        open_loss: f64,
    },
    /// A light flap, which the fluid's own weight opens forwards, and nothing backwards.
    Flap {
        /// Loss figure when open, on the flow pipe's velocity.
        open_loss: f64,
    },
}

impl CheckValve {
    /// Loss figure when open; 0 where none is fitted.
    pub fn open_loss(&self) -> f64 {
        match *self {
            CheckValve::None => 0.0,
            CheckValve::Fitted { open_loss } | CheckValve::Flap { open_loss } => open_loss,
        }
    }
}

/// How high each part of the circuit lies over the store's base, and what holds its pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layout {
    /// Where the circuit enters the panels \[m\]; below 0 for panels lower than the store.
    pub panel_bottom_m: f64,
    /// Where it leaves them \[m\].
    pub panel_top_m: f64,
    /// The highest point of the circuit \[m\].
    pub highest_m: f64,
    /// The pump \[m\].
    pub pump_m: f64,
    /// Where in the round the pump stands.
    pub pump_place: PumpPlace,
    /// Where header tank or vessel joins.
    pub joint: Joint,
    /// What takes up the fluid's growth.
    pub holding: Holding,
}

/// Where in the round the pump stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PumpPlace {
    /// In the return pipe, beside the store.
    AfterCoil,
    /// In the return pipe, beside the panels.
    BeforePanel,
    /// In the flow pipe, beside the panels.
    AfterPanel,
    /// In the flow pipe, beside the store.
    BeforeCoil,
}

/// Where a header tank's feed or a sealed vessel joins the circuit: there the pump changes nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// At the pump's inlet.
    PumpInlet,
    /// At the pump's outlet.
    PumpOutlet,
    /// At the panels' outlet.
    PanelOutlet,
}

/// What takes up the fluid's growth and holds the pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Holding {
    /// A header tank, open to the air.
    HeaderTank {
        /// Cold water level over the store's base \[m\].
        level_m: f64,
        /// Room between that level and the overflow \[m3\]; `None` where nobody says.
        room_m3: Option<f64>,
    },
    /// A sealed vessel.
    Vessel {
        /// Volume of the vessel \[m3\].
        volume_m3: f64,
        /// Its gas before any fluid is let in, as a gauge shows it \[Pa\].
        precharge_pa: f64,
        /// The circuit cold and filled, at the joint, as a gauge shows it \[Pa\].
        fill_pa: f64,
        /// Where the relief valve opens, as a gauge shows it \[Pa\].
        relief_pa: f64,
    },
}
