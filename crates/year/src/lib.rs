//! A year of a build, minute by minute, beside its twin.
//!
//! Data and one function: [`run`]. Nothing here reads a file, a clock or the environment; the same
//! build, forcing and upset give the same result to the last bit.

mod decide;
mod draw_day;
mod drift;
mod error;
pub mod forcing;
pub mod heat_of_parts;
mod heater;
pub mod ledger;
mod march;
mod mix;
pub mod plant;
mod recorder;
mod result;
pub mod section;
mod skip;
mod state;
mod step_bank;
mod step_circuit;
mod step_idle;
mod step_store;
mod straight;
mod upset;
mod weather;

pub use draw_day::{DrawDay, draw_day};
pub use error::YearError;
pub use forcing::Forcing;
pub use ledger::{Balance, Ledger, Stored, Tally};
pub use march::{Days, march, march_days, march_spell, start_state};
pub use plant::Plant;
pub use recorder::{Channel, Recorder, Spread, month_spreads};
pub use result::{Event, EventKind, YearResult, share, spared_heat_j};
pub use state::{Flows, State};
pub use upset::{Upset, UpsetKind};
pub use weather::Hour;

use physics::Build;

/// Minutes in the year the program marches.
pub const MINUTES_PER_YEAR: usize = 525_600;

/// Computes a build's year and its twin's.
///
/// `forcing`: made for this build by [`Forcing::of`]; the twin sees the same air, loft, mains and
/// draws. `upset`: what goes wrong, in both. `recorder`: receives the build's chosen channels.
///
/// # Errors
/// A build that cannot be compiled, a forcing of the wrong length, a node out of every range.
pub fn run(
    build: &Build,
    forcing: &Forcing,
    upset: &Upset,
    recorder: &mut Recorder,
) -> Result<YearResult, YearError> {
    run_plant(&Plant::compile(build)?, build, forcing, upset, recorder)
}

/// The same for a build that is compiled.
///
/// `plant`: the build's own.
///
/// # Errors
/// As [`run`].
pub fn run_plant(
    plant: &Plant,
    build: &Build,
    forcing: &Forcing,
    upset: &Upset,
    recorder: &mut Recorder,
) -> Result<YearResult, YearError> {
    let (ledger, events) = march(plant, forcing, upset, recorder)?;
    let twin = Plant::compile(&build.twin())?;
    let (twin_ledger, _) = march(&twin, forcing, upset, &mut Recorder::none())?;
    Ok(YearResult { build: ledger, twin: twin_ledger, events })
}
