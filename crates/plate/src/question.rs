//! What the plate picture is asked.

use physics::circuit::bank::panel_path;
use physics::circuit::friction::FrictionMethod;
use physics::circuit::harp::harp_flow;
use physics::circuit::network::{Medium, Path};
use physics::matter::fluid::{Fluid, properties_held};
use physics::panel::chain::FluidSide;
use physics::panel::optics::optics;
use physics::panel::route::{Route, Stretch, route};
use physics::panel::standard_test::Stand;
use physics::panel::{Built, Panel, Sheet, Tube};

use super::error::{PlateError, within};
use super::grid::Grid;
use super::losses::Losses;

/// A sheet in the sun with its tubes, and the fluid that enters them.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The sheet.
    pub sheet: Sheet,
    /// The tube on it.
    pub tube: Tube,
    /// Where the tubes lie and where the sheet is cut; no pipe at all for a bare sheet.
    pub route: Route,
    /// Conductance from sheet to tube wall per metre \[W/(m K)\], outside the stretches; infinite
    /// for a perfect bond.
    pub bond_w_m_k: f64,
    /// Stretches with another bond.
    pub stretches: Vec<Stretch>,
    /// Share of the flow in each pipe of the route, 1 together.
    pub shares: Vec<f64>,
    /// Fluid entering \[K\].
    pub inlet_k: f64,
    /// Flow through all pipes together \[kg/s\].
    pub flow_kg_s: f64,
    /// The fluid.
    pub fluid: FluidInTubes,
    /// Sunlight the sheet takes up.
    pub absorbed: Absorbed,
    /// What the sheet loses.
    pub losses: Losses,
    /// How finely it is cut.
    pub grid: Grid,
}

/// How the fluid's properties are taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FluidInTubes {
    /// A real fluid: the film follows its temperature and the tube's entry at every place.
    Real(Fluid),
    /// One film coefficient and one heat capacity everywhere, as the fin-and-tube chain takes them.
    Even(FluidSide),
}

/// Sunlight that the sheet takes up.
#[derive(Clone, Debug, PartialEq)]
pub enum Absorbed {
    /// Everywhere alike \[W/m2\].
    Even(f64),
    /// Cell by cell, row by row from the lower left \[W/m2\].
    ByCell(Vec<f64>),
}

impl Absorbed {
    /// In one cell \[W/m2\].
    pub(crate) fn at_w_m2(&self, cell: usize) -> f64 {
        match self {
            Absorbed::Even(value) => *value,
            Absorbed::ByCell(values) => values[cell],
        }
    }
}

/// What runs through a panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inflow {
    /// Which fluid.
    pub fluid: Fluid,
    /// How warm it enters \[K\].
    pub inlet_k: f64,
    /// How much \[kg/s\], above zero.
    pub flow_kg_s: f64,
}

impl Question {
    /// The picture of a panel of a build on a stand; `None` where its sheet carries no tubes.
    ///
    /// A harp's flow is divided by [`harp_flow`] at the inlet's temperature. `cell_m`: about the
    /// size of a cell; 0.005 shows every seam.
    ///
    /// # Valid range
    /// As the functions it calls; else an error.
    pub fn of_panel(
        built: &Built,
        stand: &Stand,
        inflow: Inflow,
        cell_m: f64,
    ) -> Result<Option<Question>, PlateError> {
        let (Some(route), Some(tubes)) = (route(built), built.tubes()) else {
            return Ok(None);
        };
        let panel = Panel::Built(Box::new(built.clone()));
        let light = optics(&panel, stand.tilt);
        let share = stand.diffuse_share;
        let strips = route.cuts_m.len() + 1;
        let absorbed_w_m2 = stand.sun_w_m2 * ((1.0 - share) * light.beam(1.0) + share * light.sky);
        Ok(Some(Question {
            sheet: built.sheet,
            tube: tubes.tube,
            bond_w_m_k: tubes.bond_w_m_k,
            stretches: tubes.stretches.clone(),
            shares: shares(&panel, route.pipes.len(), &inflow)?,
            route,
            inlet_k: inflow.inlet_k,
            flow_kg_s: inflow.flow_kg_s,
            fluid: FluidInTubes::Real(inflow.fluid),
            absorbed: Absorbed::Even(absorbed_w_m2),
            losses: Losses::of(built, stand, inflow.inlet_k, absorbed_w_m2)?,
            grid: Grid::of(&built.sheet, cell_m)?.for_strips(strips),
        }))
    }

    pub(crate) fn check(&self) -> Result<(), PlateError> {
        self.grid.check()?;
        within("width of the sheet [m]", self.sheet.width_m, 1e-3..=100.0)?;
        within("length of the sheet [m]", self.sheet.length_m, 1e-3..=100.0)?;
        within("thickness of the sheet [m]", self.sheet.thickness_m, 1e-6..=0.1)?;
        within("conductivity of the sheet [W/(m K)]", self.sheet.conductivity_w_m_k, 1e-3..=1e5)?;
        if let Absorbed::ByCell(values) = &self.absorbed {
            lengths("light in the cells", values.len(), self.grid.cells())?;
            for &value in values {
                within("light a cell takes up [W/m2]", value, -1e6..=1e6)?;
            }
        } else {
            within("light the sheet takes up [W/m2]", self.absorbed.at_w_m2(0), -1e6..=1e6)?;
        }
        lengths("shares of the flow", self.shares.len(), self.route.pipes.len())?;
        if self.route.pipes.is_empty() {
            return Ok(());
        }
        let mut whole = 0.0;
        for &share in &self.shares {
            whole += within("a tube's share of the flow", share, 1e-9..=1.0 + 1e-9)?;
        }
        within("shares of the flow together", whole, 1.0 - 1e-6..=1.0 + 1e-6)?;
        within("inlet temperature [K]", self.inlet_k, 150.0..=700.0)?;
        within("flow through the panel [kg/s]", self.flow_kg_s, 1e-7..=1e4)?;
        within("bond of the tube [W/(m K)]", self.bond_w_m_k, 0.0..=f64::INFINITY)?;
        let bore_m = within("bore of the tube [m]", self.tube.bore_m, 1e-4..=1.0)?;
        within("outside of the tube [m]", self.tube.outside_m, bore_m..=1.0)?;
        for pipe in &self.route.pipes {
            within("length of a tube on the sheet [m]", pipe.length_m(), 1e-3..=1e4)?;
            for leg in &pipe.legs {
                for place in [leg.from, leg.to] {
                    let (wide_m, long_m) = (self.sheet.width_m, self.sheet.length_m);
                    within("place of the tube across [m]", place.across_m, -1e-9..=wide_m + 1e-9)?;
                    within("place of the tube up [m]", place.up_m, -1e-9..=long_m + 1e-9)?;
                }
            }
        }
        Ok(())
    }
}

fn lengths(what: &'static str, found: usize, expected: usize) -> Result<(), PlateError> {
    if found == expected { Ok(()) } else { Err(PlateError::Lengths { what, found, expected }) }
}

/// Shares of the flow in a panel's tubes.
fn shares(panel: &Panel, pipes: usize, inflow: &Inflow) -> Result<Vec<f64>, PlateError> {
    let fluid = properties_held(inflow.fluid, inflow.inlet_k)?;
    let medium = Medium { fluid, method: FrictionMethod::Churchill1977 };
    Ok(match panel_path(panel) {
        Path::Harp(harp) => harp_flow(&harp, inflow.flow_kg_s, &medium)?.shares(),
        _ => vec![1.0 / pipes as f64; pipes],
    })
}
