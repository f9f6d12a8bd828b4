//! Heat that leaves the sheet upwards through any stack of covers, some of which may let
//! long-wave light pass.
//!
//! The stack is a chain of faces: sheet, then each cover's inner and outer face (one node where
//! nothing resists between them). Neighbours exchange heat through gaps and walls; long-wave light
//! goes between any two faces, and to the sky, by exchange factors that are worked out once from
//! the grey faces' emittances and the covers' transmittances.

use super::Cover;
use super::error::{PanelError, TEMPERATURES_K, within};
use super::gap::{Gap, gap_film_w_m2_k};
use crate::{Angle, STEFAN_BOLTZMANN_W_M2_K4};

/// Most covers a stack may have.
pub const MOST_COVERS: usize = 2;
/// Sheet and two faces a cover.
const MOST_NODES: usize = 1 + 2 * MOST_COVERS;

/// A sheet under its covers, as far as heat upwards is concerned.
#[derive(Clone, Debug, PartialEq)]
pub struct Glazing {
    tilt: Angle,
    nodes: usize,
    /// Depth of the gap above each node that has one \[m\].
    gap_m: [Option<f64>; MOST_NODES],
    /// Conductance of the wall above each node that is a cover's inner face \[W/(m2 K)\].
    wall_w_m2_k: [Option<f64>; MOST_NODES],
    /// Share of a black body's light that passes between two faces; the sky is the last.
    exchange: [[f64; MOST_NODES + 1]; MOST_NODES + 1],
    /// Inner and outer node of each cover.
    faces: Vec<(usize, usize)>,
}

/// What surrounds the stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outdoors {
    /// Outdoor air \[K\].
    pub ambient_k: f64,
    /// A black sky that radiates as the true one does \[K\].
    pub sky_k: f64,
    /// Film coefficient of the wind on the outermost face \[W/(m2 K)\], usually 5 to 20.
    pub wind_film_w_m2_k: f64,
}

/// What leaves upwards, and how warm every face is.
#[derive(Clone, Debug, PartialEq)]
pub struct Upwards {
    /// Heat from the sheet, positive outwards \[W/m2\].
    pub flux_w_m2: f64,
    /// Inner and outer face of each cover, from the sheet outwards \[K\].
    pub faces_k: Vec<(f64, f64)>,
    /// Natural convection from sheet to the first cover \[W/(m2 K)\]; the wind's film where there
    /// is none.
    pub gap_film_w_m2_k: f64,
    /// Long-wave light from the sheet to whatever it sees, over the difference to the first cover
    /// (or the sky) \[W/(m2 K)\].
    pub radiation_film_w_m2_k: f64,
}

impl Glazing {
    /// The stack of a sheet of some emittance under covers, from the sheet outwards.
    ///
    /// # Valid range
    /// At most [`MOST_COVERS`] covers; emittances 0 to 1, of a cover together with its
    /// transmittance at most 1; gaps 0.5 mm to 1 m; resistances 0 to 10 m2 K/W; tilt 0 to 90
    /// degrees; else an error. A cover that passes long-wave light is taken as one face: it is
    /// thin.
    ///
    /// # Source
    /// Net radiation between grey, diffuse, partly transparent parallel faces: Siegel and Howell,
    /// Thermal Radiation Heat Transfer, chapter on enclosures with partly transparent walls (from
    /// memory). For faces that pass nothing it is `1/(1/e1 + 1/e2 - 1)`.
    ///
    /// # Checked
    /// Opaque pairs against that closed form; one film against the three-resistance form worked by
    /// hand; what every face sends out and takes in adds up.
    pub fn of(covers: &[Cover], sheet_emittance: f64, tilt: Angle) -> Result<Glazing, PanelError> {
        within("number of covers", covers.len() as f64, 0.0..=MOST_COVERS as f64)?;
        within("emittance of the sheet", sheet_emittance, 0.0..=1.0)?;
        within("tilt [deg]", tilt.degrees(), 0.0..=90.0 + 1e-9)?;
        let mut glazing = Glazing {
            tilt,
            nodes: 1,
            gap_m: [None; MOST_NODES],
            wall_w_m2_k: [None; MOST_NODES],
            exchange: [[0.0; MOST_NODES + 1]; MOST_NODES + 1],
            faces: Vec::with_capacity(covers.len()),
        };
        for cover in covers {
            within("gap below a cover [m]", cover.gap_m, 5e-4..=1.0)?;
            within("emittance of a cover", cover.emittance, 0.0..=1.0)?;
            within(
                "long-wave transmittance of a cover",
                cover.longwave_transmittance,
                0.0..=1.0 - cover.emittance + 1e-12,
            )?;
            within("resistance of a cover [m2 K/W]", cover.resistance_m2_k_w, 0.0..=10.0)?;
            glazing.gap_m[glazing.nodes - 1] = Some(cover.gap_m);
            let inner = glazing.nodes;
            let thin = cover.longwave_transmittance > 0.0 || cover.resistance_m2_k_w == 0.0;
            if !thin {
                glazing.wall_w_m2_k[inner] = Some(1.0 / cover.resistance_m2_k_w);
            }
            let outer = if thin { inner } else { inner + 1 };
            glazing.nodes = outer + 1;
            glazing.faces.push((inner, outer));
        }
        glazing.exchange = exchange(covers, sheet_emittance, &glazing.faces);
        Ok(glazing)
    }

    /// Node that touches the outdoor air.
    fn outermost(&self) -> usize {
        self.nodes - 1
    }

    /// Share of a black body's light that passes between the sheet and the sky through covers.
    ///
    /// 0 where the outermost cover passes no long-wave light, and for a bare sheet, which counts as
    /// its own outermost face.
    pub fn sheet_to_sky(&self) -> f64 {
        if self.faces.is_empty() { 0.0 } else { self.exchange[0][MOST_NODES] }
    }

    /// True where the sky is seen by the outermost face and at most the sheet beside it: then air
    /// and sky come in through [`Glazing::empty_k`] alone, see [`Glazing::flux_from_empty_w_m2`].
    pub fn has_empty_state(&self) -> bool {
        (1..self.outermost()).all(|node| self.exchange[node][MOST_NODES] == 0.0)
    }

    /// Temperature of the outermost face without heat from within \[K\].
    ///
    /// The `T` for which `hw (T - Ta) + F sigma (T^4 - Ts^4) = 0`, `F` the outermost face's
    /// exchange with the sky. It lies between air and sky.
    ///
    /// # Valid range
    /// Temperatures 100 to 1000 K, film 0.01 to 1000 W/(m2 K); else an error.
    ///
    /// # Source
    /// The outer half of Duffie and Beckman 2006, eq. 6.4.1, without heat from below.
    ///
    /// # Checked
    /// Puts the balance back to 1e-6 W/m2.
    pub fn empty_k(&self, around: &Outdoors) -> Result<f64, PanelError> {
        around.check()?;
        let radiation = self.exchange[self.outermost()][MOST_NODES] * STEFAN_BOLTZMANN_W_M2_K4;
        let (air_k, sky_k) = (around.ambient_k, around.sky_k);
        let sky_4 = sky_k.powi(4);
        let mut here_k = air_k;
        // A cubic-like balance that grows everywhere: Newton from the warmer end never overshoots.
        if sky_k > air_k {
            here_k = sky_k;
        }
        for _ in 0..60 {
            let residual =
                around.wind_film_w_m2_k * (here_k - air_k) + radiation * (here_k.powi(4) - sky_4);
            let slope = around.wind_film_w_m2_k + 4.0 * radiation * here_k.powi(3);
            let step_k = residual / slope;
            here_k -= step_k;
            if step_k.abs() < 1e-9 {
                return Ok(here_k);
            }
        }
        Err(PanelError::NoBalance {
            balance: "temperature of the outermost face by itself [K]",
            low: air_k.min(sky_k),
            high: air_k.max(sky_k),
        })
    }

    /// Heat from the sheet \[W/m2\] where air and sky both stand at the empty stack's temperature.
    ///
    /// Where [`Glazing::has_empty_state`] holds, true air and sky come in only through that
    /// temperature `Te`, but for what the sheet sends straight to the sky: the true heat is this
    /// answer plus `F sigma (Te^4 - Ts^4)` with `F` of [`Glazing::sheet_to_sky`]. So it can be
    /// tabled over sheet, empty state and wind.
    ///
    /// # Valid range
    /// As [`Glazing::upwards`].
    ///
    /// # Source
    /// Algebra on the network of [`Glazing::upwards`].
    ///
    /// # Checked
    /// Against [`Glazing::upwards`] for random surroundings, to 1e-6 W/m2.
    pub fn flux_from_empty_w_m2(
        &self,
        sheet_k: f64,
        empty_k: f64,
        wind_film_w_m2_k: f64,
    ) -> Result<f64, PanelError> {
        let around = Outdoors { ambient_k: empty_k, sky_k: empty_k, wind_film_w_m2_k };
        let faces_k = self.solve(sheet_k, &around, &[0.0; MOST_COVERS])?;
        Ok(self.flux(&faces_k, &around)?.flux_w_m2)
    }

    /// Heat from the sheet through its covers to air and sky, with every face's temperature.
    ///
    /// Each face balances: `sum F sigma (T^4 - Tj^4) + h (T - T_next) + ... = sunlight it keeps`;
    /// neighbours across a gap exchange by natural convection ([`gap_film_w_m2_k`]), the outermost
    /// face by the wind's film. Works for a sheet colder than its surroundings too: the flux is
    /// then negative.
    ///
    /// `sheet_k`: mean temperature of the absorber \[K\]; `kept_w_m2`: sunlight each cover keeps,
    /// from the sheet outwards \[W/m2\]; missing ones are 0.
    ///
    /// # Valid range
    /// Temperatures 100 to 1000 K, wind film 0.01 to 1000 W/(m2 K), light 0 to 1500; else an
    /// error. Faces to 1e-8 K.
    ///
    /// # Source
    /// Duffie and Beckman 2006, section 6.4, eq. 6.4.1 to 6.4.8, for any number of covers; with
    /// covers that pass long-wave light as Hollands and Wright, Solar Energy 30 (1983) 211 treat
    /// them.
    ///
    /// # Checked
    /// TL-02, and TL-05 for one and for two covers within 0.1 % of an independent solution; ST-03
    /// within 0.1 K.
    pub fn upwards(
        &self,
        sheet_k: f64,
        around: &Outdoors,
        kept_w_m2: &[f64],
    ) -> Result<Upwards, PanelError> {
        around.check()?;
        let mut kept = [0.0; MOST_COVERS];
        for (slot, &light) in kept.iter_mut().zip(kept_w_m2) {
            *slot = within("sunlight kept by a cover [W/m2]", light, 0.0..=1500.0)?;
        }
        let nodes_k = self.solve(sheet_k, around, &kept)?;
        self.flux(&nodes_k, around)
    }

    fn flux(&self, nodes_k: &[f64; MOST_NODES], around: &Outdoors) -> Result<Upwards, PanelError> {
        let sheet_k = nodes_k[0];
        let mut radiated_w_m2 = 0.0;
        let sheet_4 = sheet_k.powi(4);
        for (node, &node_k) in nodes_k.iter().enumerate().take(self.nodes).skip(1) {
            radiated_w_m2 += self.exchange[0][node] * (sheet_4 - node_k.powi(4));
        }
        radiated_w_m2 += self.exchange[0][MOST_NODES] * (sheet_4 - around.sky_k.powi(4));
        radiated_w_m2 *= STEFAN_BOLTZMANN_W_M2_K4;
        let (film_w_m2_k, next_k, seen_k) = if self.nodes > 1 {
            (self.gap_film(0, sheet_k, nodes_k[1])?, nodes_k[1], nodes_k[1])
        } else {
            (around.wind_film_w_m2_k, around.ambient_k, around.sky_k)
        };
        // As both grow alike the quotient keeps its sense; at no difference its limit is taken.
        let difference_k = sheet_k - seen_k;
        let radiation_film_w_m2_k = if difference_k.abs() > 1e-6 {
            radiated_w_m2 / difference_k
        } else {
            let all: f64 = self.exchange[0].iter().sum();
            4.0 * all * STEFAN_BOLTZMANN_W_M2_K4 * sheet_k.powi(3)
        };
        Ok(Upwards {
            flux_w_m2: radiated_w_m2 + film_w_m2_k * (sheet_k - next_k),
            faces_k: self
                .faces
                .iter()
                .map(|&(inner, outer)| (nodes_k[inner], nodes_k[outer]))
                .collect(),
            gap_film_w_m2_k: film_w_m2_k,
            radiation_film_w_m2_k,
        })
    }

    fn gap_film(&self, node: usize, below_k: f64, above_k: f64) -> Result<f64, PanelError> {
        gap_film_w_m2_k(&Gap {
            tilt: self.tilt,
            depth_m: self.gap_m[node].unwrap_or(1.0),
            hot_k: below_k,
            cold_k: above_k,
        })
    }

    /// Temperatures of all nodes, the sheet's given.
    fn solve(
        &self,
        sheet_k: f64,
        around: &Outdoors,
        kept_w_m2: &[f64; MOST_COVERS],
    ) -> Result<[f64; MOST_NODES], PanelError> {
        within("sheet temperature [K]", sheet_k, TEMPERATURES_K)?;
        around.check()?;
        let mut here_k = [sheet_k; MOST_NODES];
        let unknowns = self.nodes - 1;
        if unknowns == 0 {
            return Ok(here_k);
        }
        let outside_k = around.ambient_k;
        for (node, node_k) in here_k.iter_mut().enumerate().take(self.nodes).skip(1) {
            *node_k = sheet_k + (outside_k - sheet_k) * node as f64 / self.nodes as f64;
        }
        let mut last_step_k = f64::INFINITY;
        for _ in 0..200 {
            let (mut slope, mut residual) = self.balance(&here_k, around, kept_w_m2)?;
            eliminate(&mut slope, &mut residual, unknowns)?;
            let mut step_k = residual[..unknowns].iter().fold(0.0_f64, |a, &b| a.max(b.abs()));
            // A gap's film bends where convection sets in: there whole steps may swing to and fro.
            let share = if step_k > 0.5 * last_step_k { 0.5 } else { 1.0 };
            for node in 1..self.nodes {
                here_k[node] = (here_k[node] - share * residual[node - 1])
                    .clamp(*TEMPERATURES_K.start(), *TEMPERATURES_K.end());
            }
            if step_k < 1e-8 {
                return Ok(here_k);
            }
            if share < 1.0 {
                step_k *= share;
            }
            last_step_k = step_k;
        }
        Err(PanelError::NoBalance {
            balance: "temperatures of the covers [K]",
            low: sheet_k.min(around.ambient_k.min(around.sky_k)),
            high: sheet_k.max(around.ambient_k.max(around.sky_k)),
        })
    }

    /// Heat each unknown face is short of, and how it grows with every unknown.
    fn balance(
        &self,
        nodes_k: &[f64; MOST_NODES],
        around: &Outdoors,
        kept_w_m2: &[f64; MOST_COVERS],
    ) -> Result<(Slopes, [f64; MOST_NODES]), PanelError> {
        let mut slope = [[0.0; MOST_NODES]; MOST_NODES];
        let mut lost = [0.0; MOST_NODES];
        // Unknown `node` stands in row and column `node - 1`.
        let radiation = STEFAN_BOLTZMANN_W_M2_K4;
        for node in 1..self.nodes {
            let here_4 = nodes_k[node].powi(4);
            let here_3 = 4.0 * radiation * nodes_k[node].powi(3);
            for other in 0..self.nodes {
                let share = self.exchange[node][other];
                if other == node || share == 0.0 {
                    continue;
                }
                lost[node - 1] += share * radiation * (here_4 - nodes_k[other].powi(4));
                slope[node - 1][node - 1] += share * here_3;
                if other > 0 {
                    slope[node - 1][other - 1] -= share * 4.0 * radiation * nodes_k[other].powi(3);
                }
            }
            let sky = self.exchange[node][MOST_NODES];
            lost[node - 1] += sky * radiation * (here_4 - around.sky_k.powi(4));
            slope[node - 1][node - 1] += sky * here_3;
        }
        for node in 0..self.nodes - 1 {
            let (below_k, above_k) = (nodes_k[node], nodes_k[node + 1]);
            let (flux, by_below, by_above) = match self.wall_w_m2_k[node] {
                Some(wall) => (wall * (below_k - above_k), wall, -wall),
                None => self.convection(node, below_k, above_k)?,
            };
            lost[node] -= flux;
            slope[node][node] -= by_above;
            if node > 0 {
                lost[node - 1] += flux;
                slope[node - 1][node - 1] += by_below;
                slope[node - 1][node] += by_above;
                slope[node][node - 1] -= by_below;
            }
        }
        let outermost = self.outermost();
        lost[outermost - 1] += around.wind_film_w_m2_k * (nodes_k[outermost] - around.ambient_k);
        slope[outermost - 1][outermost - 1] += around.wind_film_w_m2_k;
        for (&(inner, outer), light) in self.faces.iter().zip(kept_w_m2) {
            lost[inner - 1] -= 0.5 * light;
            lost[outer - 1] -= 0.5 * light;
        }
        Ok((slope, lost))
    }

    /// Convection through the gap above a node \[W/m2\], and its growth with both faces.
    fn convection(
        &self,
        node: usize,
        below_k: f64,
        above_k: f64,
    ) -> Result<(f64, f64, f64), PanelError> {
        let flux = |below_k: f64, above_k: f64| {
            Ok::<f64, PanelError>(self.gap_film(node, below_k, above_k)? * (below_k - above_k))
        };
        let here = flux(below_k, above_k)?;
        // Towards each other, so that the two never leave the range that can be answered.
        let step_k = if above_k > below_k { NEARBY_K } else { -NEARBY_K };
        let by_below = (flux(below_k + step_k, above_k)? - here) / step_k;
        let by_above = (flux(below_k, above_k - step_k)? - here) / -step_k;
        Ok((here, by_below, by_above))
    }
}

impl Outdoors {
    fn check(&self) -> Result<(), PanelError> {
        within("ambient temperature [K]", self.ambient_k, TEMPERATURES_K)?;
        within("sky temperature [K]", self.sky_k, TEMPERATURES_K)?;
        within("wind film [W/(m2 K)]", self.wind_film_w_m2_k, 0.01..=1000.0)?;
        Ok(())
    }
}

type Slopes = [[f64; MOST_NODES]; MOST_NODES];

/// Share of a black body's light at one face that ends in another, between all faces and the sky.
///
/// One face shines with the strength of one, all else is cold; what goes up and down in every gap
/// is followed until nothing changes.
fn exchange(
    covers: &[Cover],
    sheet_emittance: f64,
    faces: &[(usize, usize)],
) -> [[f64; MOST_NODES + 1]; MOST_NODES + 1] {
    let gaps = covers.len() + 1;
    let mut factors = [[0.0; MOST_NODES + 1]; MOST_NODES + 1];
    let nodes = faces.last().map_or(1, |&(_, outer)| outer + 1);
    let shines = |yes: bool| if yes { 1.0 } else { 0.0 };
    for source in (0..nodes).chain([MOST_NODES]) {
        let (mut up, mut down) = ([0.0; MOST_COVERS + 1], [0.0; MOST_COVERS + 1]);
        for _ in 0..10_000 {
            let before = (up, down);
            up[0] = sheet_emittance * shines(source == 0) + (1.0 - sheet_emittance) * down[0];
            down[gaps - 1] = shines(source == MOST_NODES);
            for (at, (cover, &(inner, outer))) in covers.iter().zip(faces).enumerate() {
                let passed = cover.longwave_transmittance;
                let thrown = 1.0 - cover.emittance - passed;
                up[at + 1] = cover.emittance * shines(source == outer)
                    + passed * up[at]
                    + thrown * down[at + 1];
                down[at] = cover.emittance * shines(source == inner)
                    + passed * down[at + 1]
                    + thrown * up[at];
            }
            if (up, down) == before {
                break;
            }
        }
        factors[0][source] = sheet_emittance * down[0];
        for (at, (cover, &(inner, outer))) in covers.iter().zip(faces).enumerate() {
            factors[inner][source] += cover.emittance * up[at];
            factors[outer][source] += cover.emittance * down[at + 1];
        }
        factors[MOST_NODES][source] = up[gaps - 1];
        factors[source][source] = 0.0;
    }
    factors
}

/// Solves `slope x = residual` in place by Gauss with the diagonal as pivot, which a balance of
/// conductances always allows.
fn eliminate(
    slope: &mut Slopes,
    residual: &mut [f64; MOST_NODES],
    unknowns: usize,
) -> Result<(), PanelError> {
    for pivot in 0..unknowns {
        let diagonal = slope[pivot][pivot];
        if diagonal.is_nan() || diagonal.abs() < 1e-12 {
            return Err(PanelError::Singular { unknowns });
        }
        for row in pivot + 1..unknowns {
            let share = slope[row][pivot] / diagonal;
            if share == 0.0 {
                continue;
            }
            let above = slope[pivot];
            let columns = slope[row].iter_mut().zip(above).take(unknowns).skip(pivot);
            columns.for_each(|(here, above)| *here -= share * above);
            residual[row] -= share * residual[pivot];
        }
    }
    for row in (0..unknowns).rev() {
        for column in row + 1..unknowns {
            residual[row] -= slope[row][column] * residual[column];
        }
        residual[row] /= slope[row][row];
    }
    Ok(())
}

/// Step for the slope of a gap's flux \[K\].
const NEARBY_K: f64 = 5e-4;

#[cfg(test)]
mod tests;
