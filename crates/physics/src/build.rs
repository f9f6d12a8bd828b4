//! The whole system in SI: what a design file becomes once it is read and resolved.

use crate::circuit::Circuit;
use crate::control::Control;
use crate::panel::Bank;
use crate::store::Store;
use crate::sun::Sun;
use crate::tap::Tap;

/// One version of the whole system, station by station in the order of the heat.
///
/// A twin (the same house without a panel) is a build whose bank is empty.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// Where the sun comes from: place, plane, ground, and how sky and wind are reckoned.
    pub sun: Sun,
    /// The panels and how they are joined.
    pub panel: Bank,
    /// Pipes, pump, valve and fluid between panel and coil.
    pub circuit: Circuit,
    /// The pre-warmed cistern with its coil, and the loft around it.
    pub store: Store,
    /// The household's draws, its mains, and the heater that tops up.
    pub tap: Tap,
    /// The controller and its probes.
    pub control: Control,
}

impl Build {
    /// The same house, cistern, loft and draws without a panel: what this build is credited against.
    pub fn twin(&self) -> Build {
        let mut twin = self.clone();
        twin.panel = Bank::none();
        twin
    }
}
