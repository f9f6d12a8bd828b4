//! The picture: temperature of every place, fluid on its way, heat gained and lost.

use physics::panel::route::Place;

use super::assemble::rim_of_cells_m;
use super::error::PlateError;
use super::fluid::under_k;
use super::grid::Grid;
use super::iterate::{Still, still};
use super::question::Question;

/// A sheet at rest in the sun.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// How finely the sheet is cut.
    pub grid: Grid,
    /// Width of a cell, along the eaves \[m\].
    pub cell_width_m: f64,
    /// Height of a cell, up the slope \[m\].
    pub cell_height_m: f64,
    /// Temperature of every cell, row by row from the lower left as the sun sees it \[K\].
    pub sheet_k: Vec<f64>,
    /// Fluid, film and bond along each tube, in the order of the route's pipes and of the flow.
    pub tubes: Vec<Vec<Station>>,
    /// The hottest cell.
    pub hottest: Spot,
    /// The coldest cell.
    pub coldest: Spot,
    /// Mean of the sheet \[K\].
    pub mean_k: f64,
    /// Fluid leaving each tube \[K\].
    pub outlets_k: Vec<f64>,
    /// Fluid leaving, all tubes mixed \[K\]; the inlet's where there is no tube.
    pub outlet_k: f64,
    /// Sunlight taken up \[W\].
    pub absorbed_w: f64,
    /// Heat that the fluid carries away, taken along the tubes \[W\].
    pub useful_w: f64,
    /// Heat lost through the covers \[W\].
    pub top_w: f64,
    /// Heat lost through the back and by leaking air \[W\].
    pub back_w: f64,
    /// Heat lost through the rim \[W\].
    pub rim_w: f64,
    /// What is taken up less what is carried away and lost \[W\]: rounding, and what was left when
    /// the sheet counted as still.
    pub residual_w: f64,
    /// Rounds until it was still.
    pub rounds: usize,
}

impl Picture {
    /// Heat lost every way \[W\].
    pub fn lost_w(&self) -> f64 {
        self.top_w + self.back_w + self.rim_w
    }
}

/// A place on the sheet and how warm it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Middle of the cell.
    pub place: Place,
    /// Its temperature \[K\].
    pub sheet_k: f64,
}

/// A piece of tube over one row or column of cells.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Its middle on the sheet.
    pub place: Place,
    /// Where it begins, along the tube from its inlet \[m\].
    pub from_m: f64,
    /// Where it ends \[m\].
    pub to_m: f64,
    /// Fluid entering it \[K\].
    pub fluid_k: f64,
    /// Sheet under it \[K\].
    pub sheet_k: f64,
    /// Film coefficient in the tube \[W/(m2 K)\].
    pub film_w_m2_k: f64,
    /// Conductance of the bond per metre \[W/(m K)\].
    pub bond_w_m_k: f64,
    /// Heat into the fluid \[W\].
    pub heat_w: f64,
}

/// The plate picture: heat led along the sheet in both directions, with the tube on it.
///
/// The sheet is cut into cells; each balances
///
/// ```text
/// k d sum((Tn - T) h/w) + S A = q(T) A + g(T) rim + sum over tube pieces in it of c (T - Tf)
/// C dTf = c (T - Tf) along each tube from its inlet;   1/c' = 1/Cb + 1/(pi Di h) + ln(Do/Di)/(2 pi k)
/// ```
///
/// with `q` the loss at the cell's own temperature. The tube takes its heat from the strip of its
/// outside diameter, which it keeps at one temperature across, as the fin-and-tube chain has it.
///
/// `question`: see [`Question`].
///
/// Returns heats positive as named: taken up, carried away, lost.
///
/// # Valid range
/// Up to a million cells; tubes on the sheet, a flow above zero in each, stretches that neither
/// overlap nor reach beyond their tube; else an error. A sheet that nothing cools has no answer. Not
/// in it: heat led along the tube's own metal and in the insulation sideways, and the covers' own
/// heat led sideways.
///
/// # Source
/// Fourier's law and a heat balance for each cell (finite volumes: Patankar 1980, chapter 4); strip
/// and tube as Duffie and Beckman 2006, section 6.5.
///
/// # Checked
/// FN-09 within its 0.001; the fin-and-tube chain within 1 % where its assumptions hold; a smooth
/// made-up answer to second order; the sum of all heats to a hundred-millionth.
///
/// # Example
/// ```
/// use physics::panel::{Sheet, Tube, chain::FluidSide, route::{Pipe, Place, Route}};
/// use plate::{Absorbed, FluidInTubes, Grid, Losses, Question, picture};
/// let copper = Sheet {
///     length_m: 1.0, width_m: 0.2, thickness_m: 0.0005, conductivity_w_m_k: 385.0,
///     density_kg_m3: 8940.0, heat_capacity_j_kg_k: 385.0, absorptance: 0.95, emittance: 0.9,
/// };
/// let middle = [Place { across_m: 0.1, up_m: 0.0 }, Place { across_m: 0.1, up_m: 1.0 }];
/// let drawn = picture(&Question {
///     sheet: copper,
///     tube: Tube {
///         outside_m: 0.01, bore_m: 0.0088, conductivity_w_m_k: 340.0, density_kg_m3: 8940.0,
///         heat_capacity_j_kg_k: 385.0, roughness_m: 1.5e-6,
///     },
///     route: Route { pipes: vec![Pipe::through(&middle)], cuts_m: Vec::new() },
///     bond_w_m_k: 30.0,
///     stretches: Vec::new(),
///     shares: vec![1.0],
///     inlet_k: 293.15,
///     flow_kg_s: 0.01,
///     fluid: FluidInTubes::Even(FluidSide { heat_capacity_j_kg_k: 4190.0, film_w_m2_k: 300.0 }),
///     absorbed: Absorbed::Even(800.0),
///     losses: Losses::even(7.0, 293.15),
///     grid: Grid::of(&copper, 0.01)?,
/// })?;
/// assert!(drawn.useful_w > 120.0 && drawn.useful_w < 160.0);
/// assert!(drawn.residual_w.abs() < 1e-4);
/// # Ok::<(), plate::PlateError>(())
/// ```
pub fn picture(question: &Question) -> Result<Picture, PlateError> {
    question.check()?;
    Ok(draw(question, still(question)?))
}

fn draw(question: &Question, still: Still) -> Picture {
    let cells = still.cells;
    let place = |cell: usize| Place {
        across_m: ((cell % cells.columns) as f64 + 0.5) * cells.width_m,
        up_m: ((cell / cells.columns) as f64 + 0.5) * cells.height_m,
    };
    let spot = |cell: usize| Spot { place: place(cell), sheet_k: still.sheet_k[cell] };
    let (mut hottest, mut coldest) = (0, 0);
    let (mut absorbed_w, mut top_w, mut back_w, mut rim_w) = (0.0, 0.0, 0.0, 0.0);
    let rim_m = rim_of_cells_m(&cells);
    for (cell, &sheet_k) in still.sheet_k.iter().enumerate() {
        if sheet_k > still.sheet_k[hottest] {
            hottest = cell;
        }
        if sheet_k < still.sheet_k[coldest] {
            coldest = cell;
        }
        let area_m2 = cells.area_m2();
        let through_top_w = area_m2 * question.losses.top_w_m2(sheet_k);
        absorbed_w += area_m2 * question.absorbed.at_w_m2(cell);
        top_w += through_top_w;
        back_w += area_m2 * question.losses.face(sheet_k).0 - through_top_w;
        rim_w += rim_m[cell] * question.losses.rim(sheet_k).0;
    }
    let mut tubes: Vec<Vec<Station>> = Vec::with_capacity(still.streams.len());
    for (stream, along) in still.streams.iter().zip(&still.alongs) {
        let stations = stream.pieces.iter().zip(&along.steps).map(|(piece, step)| Station {
            place: piece.place,
            from_m: piece.from_m,
            to_m: piece.to_m,
            fluid_k: step.fluid_k,
            sheet_k: under_k(piece, &still.sheet_k),
            film_w_m2_k: step.film_w_m2_k,
            bond_w_m_k: piece.bond_w_m_k,
            heat_w: step.heat_w,
        });
        tubes.push(stations.collect());
    }
    let useful_w = tubes.iter().flatten().map(|station| station.heat_w).sum::<f64>();
    let outlets_k: Vec<f64> = still.alongs.iter().map(|along| along.outlet_k).collect();
    Picture {
        grid: question.grid,
        cell_width_m: cells.width_m,
        cell_height_m: cells.height_m,
        tubes,
        hottest: spot(hottest),
        coldest: spot(coldest),
        mean_k: still.sheet_k.iter().sum::<f64>() / cells.count() as f64,
        outlet_k: mixed_k(&outlets_k, question),
        outlets_k,
        absorbed_w,
        useful_w,
        top_w,
        back_w,
        rim_w,
        residual_w: absorbed_w - useful_w - top_w - back_w - rim_w,
        rounds: still.rounds,
        sheet_k: still.sheet_k,
    }
}

/// Fluid from all tubes mixed by their shares of the flow \[K\]; the inlet's where there is no tube.
fn mixed_k(outlets_k: &[f64], question: &Question) -> f64 {
    let leaving = outlets_k.iter().zip(&question.shares);
    let (whole, sum_k) = leaving
        .fold((0.0, 0.0), |(whole, sum_k), (out_k, share)| (whole + share, sum_k + share * out_k));
    if whole > 0.0 { sum_k / whole } else { question.inlet_k }
}
