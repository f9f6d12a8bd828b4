//! One pipe: what flow costs in it, what heat it loses, what it holds.

use super::error::CircuitError;
use super::friction::{FrictionMethod, friction_factor};
use super::parts::Pipe;
use super::still_air::{BarePipe, WEATHERED_EMITTANCE, bare_film};
use crate::GRAVITY_M_S2;
use crate::matter::fluid::FluidProperties;

/// A run of one bore.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Bore \[m\].
    pub bore_m: f64,
    /// Length \[m\].
    pub length_m: f64,
    /// Height of the wall's unevenness \[m\]; drawn copper 1.5e-6.
    pub roughness_m: f64,
    /// Sum of the fittings' loss figures on this bore's velocity.
    pub fittings_loss: f64,
}

/// What flow does in a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunFlow {
    /// Mean velocity \[m/s\], its sign that of the flow.
    pub velocity_m_s: f64,
    /// Reynolds number on the bore, never negative.
    pub reynolds: f64,
    /// Darcy friction factor; 0 at no flow, where it has no meaning.
    pub friction_factor: f64,
    /// Pressure lost along the flow \[Pa\], its sign that of the flow.
    pub drop_pa: f64,
}

/// Pressure lost by a flow in a run.
///
/// ```text
/// drop = (f L/D + K) rho v^2/2        Darcy and Weisbach
/// ```
///
/// - `run`: bore, length, wall, fittings.
/// - `flow_kg_s`: flow \[kg/s\]; negative runs backwards, and so is the drop.
/// - `fluid`: at the run's temperature.
/// - `method`: see [`friction_factor`].
///
/// # Valid range
/// Positive bore, length and fittings not negative; a [`CircuitError`] outside.
///
/// # Source
/// Any hydraulics text; the factor as [`friction_factor`] says.
///
/// # Checked
/// B-CU-01 and B-CU-03 to 1e-6; a code of practice's pipe table (B-BS) to 25 %, its own rounding;
/// a handbook example (B-CR-01) to 2 %; G-04 to 1e-6; B-K-08 to 1e-9.
///
/// # Example
/// ```
/// use physics::circuit::friction::FrictionMethod;
/// use physics::circuit::pipe::{Run, pressure_drop};
/// use physics::matter::fluid::{Fluid, properties};
/// let run = Run { bore_m: 0.0136, length_m: 10.0, roughness_m: 1.5e-6, fittings_loss: 4.0 };
/// let water = properties(Fluid::Water, 313.15).unwrap();
/// let flow = pressure_drop(&run, 0.05, &water, FrictionMethod::Churchill1977).unwrap();
/// assert!((flow.drop_pa - 1770.0).abs() < 50.0);
/// ```
pub fn pressure_drop(
    run: &Run,
    flow_kg_s: f64,
    fluid: &FluidProperties,
    method: FrictionMethod,
) -> Result<RunFlow, CircuitError> {
    drop_with(run, flow_kg_s, fluid, |reynolds, relative_roughness| {
        friction_factor(method, reynolds, relative_roughness)
    })
}

/// As [`pressure_drop`], with the friction factor from `factor(reynolds, relative_roughness)`.
pub(super) fn drop_with(
    run: &Run,
    flow_kg_s: f64,
    fluid: &FluidProperties,
    factor: impl Fn(f64, f64) -> Result<f64, CircuitError>,
) -> Result<RunFlow, CircuitError> {
    check_run(run)?;
    CircuitError::unless(flow_kg_s.is_finite(), "the flow in kg/s", flow_kg_s, "a number")?;
    let section_m2 = std::f64::consts::FRAC_PI_4 * run.bore_m * run.bore_m;
    let velocity_m_s = flow_kg_s / (fluid.density_kg_m3 * section_m2);
    let reynolds = flow_kg_s.abs() * run.bore_m / (section_m2 * fluid.viscosity_pa_s);
    if reynolds == 0.0 {
        return Ok(RunFlow { velocity_m_s, reynolds, friction_factor: 0.0, drop_pa: 0.0 });
    }
    let friction_factor = factor(reynolds, run.roughness_m / run.bore_m)?;
    let figure = friction_factor * run.length_m / run.bore_m + run.fittings_loss;
    let drop_pa = fitting_drop_pa(figure, fluid.density_kg_m3, velocity_m_s);
    Ok(RunFlow { velocity_m_s, reynolds, friction_factor, drop_pa })
}

/// Pressure \[Pa\] that a loss figure takes from a flow, its sign that of the velocity.
///
/// ```text
/// drop = K rho v^2/2
/// ```
///
/// # Checked
/// B-K-08 to 1e-9.
pub fn fitting_drop_pa(figure: f64, density_kg_m3: f64, velocity_m_s: f64) -> f64 {
    figure * density_kg_m3 * velocity_m_s * velocity_m_s.abs() / 2.0
}

/// A fitting's two figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoK {
    /// Figure times Reynolds number in slow flow; 800 for a threaded elbow.
    pub at_one: f64,
    /// Figure of a large fitting in fast flow; 0.4 for a threaded elbow.
    pub at_infinity: f64,
}

/// A fitting's loss figure in slow flow and small bores.
///
/// ```text
/// K = K1/Re + Kinf (1 + 1/d)      d: bore in inches
/// ```
///
/// # Valid range
/// Positive Reynolds number and bore; a [`CircuitError`] outside.
///
/// # Source
/// Hooper, Chemical Engineering 88(17) (1981) 96.
///
/// # Checked
/// B-K-05 and B-K-07 to 1e-6.
pub fn fitting_hooper_1981(fitting: TwoK, reynolds: f64, bore_m: f64) -> Result<f64, CircuitError> {
    CircuitError::unless(reynolds > 0.0, "the Reynolds number", reynolds, "more than 0")?;
    CircuitError::unless(bore_m > 0.0, "the bore in m", bore_m, "more than 0")?;
    const INCH_M: f64 = 0.0254;
    Ok(fitting.at_one / reynolds + fitting.at_infinity * (1.0 + INCH_M / bore_m))
}

/// Loss figure of a fitting from its multiplier.
///
/// ```text
/// K = n fT        fT = [2 log10(3.7 D/e)]^-2,  e = 0.0457 mm
/// ```
///
/// fT is the friction factor of fully rough flow in steel pipe of the fitting's bore: the handbook's
/// way to say that small fittings lose more.
///
/// - `multiplier`: n; 30 for a standard elbow, 60 for a tee's branch.
/// - `bore_m`: D.
///
/// # Valid range
/// A multiplier of 0 or more, a bore of 1 mm and more: a [`CircuitError`] outside. Turbulent flow;
/// for thick fluid in slow flow see [`fitting_hooper_1981`]. Published sets part by a factor of two.
///
/// # Source
/// Crane TP-410; fT by Nikuradse's law for rough pipe.
///
/// # Checked
/// The handbook's own fT for half-inch to inch-and-a-quarter steel pipe, from memory, to 5 %; the
/// bends of B-CR-03; the lengths of copper fittings of B-K-04 and B-K-09 to the spread of the sets.
pub fn fitting_multiplied(multiplier: f64, bore_m: f64) -> Result<f64, CircuitError> {
    let good = multiplier >= 0.0 && multiplier.is_finite();
    CircuitError::unless(good, "the fitting's multiplier", multiplier, "0 or more")?;
    let good = bore_m >= 0.001 && bore_m.is_finite();
    CircuitError::unless(good, "the bore in m", bore_m, "0.001 or more")?;
    const STEEL_M: f64 = 4.57e-5;
    Ok(multiplier / (2.0 * (3.7 * bore_m / STEEL_M).log10()).powi(2))
}

/// Pressure \[Pa\] of a standing column.
///
/// ```text
/// p = rho g h
/// ```
///
/// # Checked
/// B-ST-01 to 0.05 %.
pub fn static_pa(density_kg_m3: f64, height_m: f64) -> f64 {
    density_kg_m3 * GRAVITY_M_S2 * height_m
}

/// Column \[m\] that stands on a pressure: the same as head, metres of the fluid itself.
///
/// ```text
/// h = p/(rho g)
/// ```
///
/// # Checked
/// As [`static_pa`], which it undoes.
pub fn head_m(density_kg_m3: f64, pressure_pa: f64) -> f64 {
    pressure_pa / (density_kg_m3 * GRAVITY_M_S2)
}

/// Film on the outside of a pipe in still air, convection and radiation together \[W/(m2 K)\].
///
/// Common practice. The standard's short rule for a dull pipe surface indoors, 8.5 + 0.05 times
/// the difference (ISO 12241, from memory), gives 10 at 30 K.
pub const STILL_AIR_FILM_W_M2_K: f64 = 10.0;

/// Film on the outside of a pipe outdoors \[W/(m2 K)\].
///
/// The surface resistance that building codes take outdoors, 0.04 m2 K/W (ISO 6946).
pub const OUTDOOR_FILM_W_M2_K: f64 = 25.0;

/// Heat that one metre of a pipe loses for each kelvin over its surroundings \[W/(m K)\].
///
/// ```text
/// 1/U' = ln(Do/Di)/(2 pi kt) + ln(Dl/Do)/(2 pi kl) + 1/(pi Dl h)
/// ```
///
/// Di bore, Do outside, Dl over the lagging (Do for bare pipe). The film inside is left out: it is
/// 50 times the outside one and more.
///
/// - `pipe`: tube and lagging.
/// - `film_w_m2_k`: outside film, [`STILL_AIR_FILM_W_M2_K`] or [`OUTDOOR_FILM_W_M2_K`].
///
/// # Valid range
/// Bore under outside, positive conductivities and film; a [`CircuitError`] outside.
///
/// # Source
/// Conduction through cylinder shells, any heat-transfer text.
///
/// # Checked
/// Against the greatest loss that British guidance lets a 15 mm pipe at 60 C in still air of 15 C
/// have, 7.89 W/m, which is 15 mm of 0.035 W/(m K) (from memory), to 0.5 %.
pub fn loss_w_m_k(pipe: &Pipe, film_w_m2_k: f64) -> Result<f64, CircuitError> {
    let tube = &pipe.tube;
    let good = tube.bore_m > 0.0 && tube.bore_m < tube.outside_m && tube.outside_m.is_finite();
    CircuitError::unless(good, "the bore in m", tube.bore_m, "more than 0, under the outside")?;
    let good = tube.conductivity_w_m_k > 0.0;
    let must = "more than 0";
    CircuitError::unless(good, "the wall's conductivity", tube.conductivity_w_m_k, must)?;
    CircuitError::unless(film_w_m2_k > 0.0, "the outside film in W/(m2 K)", film_w_m2_k, must)?;
    let lagging = pipe.lagging_m >= 0.0 && pipe.lagging_m.is_finite();
    CircuitError::unless(lagging, "the lagging in m", pipe.lagging_m, "0 or more")?;
    let over_lagging_m = tube.outside_m + 2.0 * pipe.lagging_m;
    let mut resistance_m_k_w = shell_m_k_w(tube.bore_m, tube.outside_m, tube.conductivity_w_m_k)
        + 1.0 / (std::f64::consts::PI * over_lagging_m * film_w_m2_k);
    if pipe.lagging_m > 0.0 {
        let conductivity_w_m_k = pipe.lagging_conductivity_w_m_k;
        let good = conductivity_w_m_k > 0.0;
        CircuitError::unless(good, "the lagging's conductivity", conductivity_w_m_k, must)?;
        resistance_m_k_w += shell_m_k_w(tube.outside_m, over_lagging_m, conductivity_w_m_k);
    }
    Ok(1.0 / resistance_m_k_w)
}

/// A pipe's whole loss, parted by where it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeLoss {
    /// To outdoor air \[W/K\].
    pub outdoor_w_k: f64,
    /// To the loft \[W/K\].
    pub loft_w_k: f64,
}

/// A pipe's loss to outdoors and to the loft, each with its own film.
///
/// # Valid range
/// As [`loss_w_m_k`]; an outdoor share of 0 to 1.
pub fn pipe_loss(pipe: &Pipe) -> Result<PipeLoss, CircuitError> {
    let share = pipe.outdoor_share;
    CircuitError::unless((0.0..=1.0).contains(&share), "the share outdoors", share, "0 to 1")?;
    Ok(PipeLoss {
        outdoor_w_k: loss_w_m_k(pipe, OUTDOOR_FILM_W_M2_K)? * (pipe.length_m * share),
        loft_w_k: loss_w_m_k(pipe, loft_film_w_m2_k(pipe)?)? * (pipe.length_m * (1.0 - share)),
    })
}

/// Film on the outside of a pipe in the loft \[W/(m2 K)\].
///
/// Lagged pipes have [`STILL_AIR_FILM_W_M2_K`], which hardly matters behind the lagging. A bare one
/// has what [`bare_film`] says of it at 50 C in air of 20 C, weathered: its own diameter counts.
///
/// # Valid range
/// As [`bare_film`].
pub fn loft_film_w_m2_k(pipe: &Pipe) -> Result<f64, CircuitError> {
    if pipe.lagging_m > 0.0 {
        return Ok(STILL_AIR_FILM_W_M2_K);
    }
    let bare = BarePipe {
        outside_m: pipe.tube.outside_m,
        emittance: WEATHERED_EMITTANCE,
        surface_k: 323.15,
        air_k: 293.15,
    };
    Ok(bare_film(&bare)?.whole_w_m2_k())
}

/// What a pipe holds \[m3\].
pub fn contents_m3(pipe: &Pipe) -> f64 {
    pipe.tube.contents_m2() * pipe.length_m
}

/// Heat that one metre of pipe takes up for one kelvin, contents and wall \[J/(m K)\].
///
/// The lagging is left out: foam weighs little and its outside stays cold.
pub fn capacity_j_m_k(pipe: &Pipe, fluid: &FluidProperties) -> f64 {
    let tube = &pipe.tube;
    tube.contents_m2() * fluid.volume_heat_j_m3_k()
        + tube.wall_m2() * tube.density_kg_m3 * tube.heat_capacity_j_kg_k
}

/// Temperature at which fluid leaves a pipe whose surroundings are all at one temperature \[K\].
///
/// ```text
/// Tout = Ts + (Tin - Ts) exp(-UA/C)
/// ```
///
/// - `inlet_k`, `surroundings_k`: absolute \[K\].
/// - `loss_over_rate`: UA \[W/K\] over capacity rate \[W/K\], 0 or more.
///
/// # Checked
/// SY-04, whose net gain with two pipes is to 0.2 % theirs.
pub fn outlet_k(inlet_k: f64, surroundings_k: f64, loss_over_rate: f64) -> f64 {
    surroundings_k + (inlet_k - surroundings_k) * (-loss_over_rate).exp()
}

/// Resistance of one metre of a cylinder's shell \[m K/W\].
fn shell_m_k_w(inside_m: f64, outside_m: f64, conductivity_w_m_k: f64) -> f64 {
    (outside_m / inside_m).ln() / (2.0 * std::f64::consts::PI * conductivity_w_m_k)
}

fn check_run(run: &Run) -> Result<(), CircuitError> {
    let good = run.bore_m > 0.0 && run.bore_m.is_finite();
    CircuitError::unless(good, "the bore in m", run.bore_m, "more than 0")?;
    let good = run.length_m >= 0.0 && run.length_m.is_finite();
    CircuitError::unless(good, "the length in m", run.length_m, "0 or more")?;
    let good = run.fittings_loss >= 0.0 && run.fittings_loss.is_finite();
    CircuitError::unless(good, "the fittings' loss figure", run.fittings_loss, "0 or more")?;
    Ok(())
}

/// Share of its hot end's excess over the air that is left some way along an empty pipe.
///
/// Heat runs along the wall and is lost on the way, `exp(-x sqrt(U/(k A)))`, `U` the pipe's loss by
/// the metre and `k A` its wall's conductance: a long rod.
///
/// - `pipes`: stretches from the hot end on; the last goes on for ever, and each is taken as a long
///   rod by itself, as though the next were like it.
/// - `along_m`: from the hot end, zero or more \[m\].
/// - `film_w_m2_k`: as of [`loss_w_m_k`].
///
/// # Valid range
/// As [`loss_w_m_k`]. Steam that a boiling panel blows out carries its own heat farther.
///
/// # Source
/// Fin of one long rod, Incropera and DeWitt, table 3.4, case D.
///
/// # Checked
/// Their example 3.9 (a rod of copper of 5 mm, 398 W/(m K), 100 W/(m2 K); from memory): `m` is
/// 14.2 1/m.
pub fn conducted_share(
    pipes: &[Pipe],
    along_m: f64,
    film_w_m2_k: f64,
) -> Result<f64, CircuitError> {
    let good = along_m >= 0.0 && along_m.is_finite();
    CircuitError::unless(good, "the way along the pipe in m", along_m, "0 or more")?;
    let (mut left_m, mut decay) = (along_m, 0.0);
    for (at, pipe) in pipes.iter().enumerate() {
        let last = at + 1 == pipes.len();
        let here_m = if last { left_m } else { left_m.min(pipe.length_m) };
        let loss_w_m_k = loss_w_m_k(pipe, film_w_m2_k)?;
        let wall_w_m_k = pipe.tube.conductivity_w_m_k * pipe.tube.wall_m2();
        decay += here_m * (loss_w_m_k / wall_w_m_k).sqrt();
        left_m -= here_m;
    }
    Ok((-decay).exp())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::panel::Tube;

    /// Given: a copper rod of 5 mm with a bore of half a millimetre (Incropera and DeWitt, example
    /// 3.9, has none). Expected: `m` 14.2 1/m, their printed figure; 1 % for the bore and the last
    /// digit.
    #[test]
    fn a_long_rod() {
        let pipe = Pipe {
            tube: Tube {
                outside_m: 0.005,
                bore_m: 0.0005,
                conductivity_w_m_k: 398.0,
                density_kg_m3: 8930.0,
                heat_capacity_j_kg_k: 385.0,
                roughness_m: 0.0,
            },
            length_m: 1.0,
            fittings_loss: 0.0,
            lagging_m: 0.0,
            lagging_conductivity_w_m_k: 0.04,
            outdoor_share: 0.0,
        };
        let share = conducted_share(std::slice::from_ref(&pipe), 0.1, 100.0).unwrap();
        assert!((-share.ln() / 0.1 / 14.2 - 1.0).abs() < 0.01, "{share}");
        assert!(conducted_share(std::slice::from_ref(&pipe), -0.1, 100.0).is_err());
    }
}
