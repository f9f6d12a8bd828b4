//! Why a sum has no answer.

use physics::circuit::CircuitError;
use physics::making::MakingError;
use physics::matter::fluid::FluidError;
use physics::panel::PanelError;
use physics::store::StoreError;
use physics::sun::SunError;
use physics::tap::TapError;

/// Why the physics gave no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum SumFault {
    /// A key that may stand away in other company does not stand here.
    Missing {
        /// What is wanted, in words.
        wanted: &'static str,
    },
    /// A key stands beside another that rules it out.
    Clash {
        /// The key.
        key: &'static str,
        /// What is wrong with it here.
        says: String,
        /// How to mend it.
        hint: &'static str,
    },
    /// The physics refuses a number, and says which.
    Refused(String),
    /// The physics was not able to finish.
    NotCompleted(String),
}

impl From<PanelError> for SumFault {
    fn from(error: PanelError) -> Self {
        match error {
            PanelError::OutOfRange { .. } => SumFault::Refused(error.to_string()),
            PanelError::NoBalance { .. }
            | PanelError::UnevenFlow { .. }
            | PanelError::Singular { .. } => SumFault::NotCompleted(error.to_string()),
        }
    }
}

impl From<CircuitError> for SumFault {
    fn from(error: CircuitError) -> Self {
        match error {
            CircuitError::NoBalance { .. } => SumFault::NotCompleted(error.to_string()),
            _ => SumFault::Refused(error.to_string()),
        }
    }
}

impl From<StoreError> for SumFault {
    fn from(error: StoreError) -> Self {
        match error {
            StoreError::NoWallBalance { .. } => SumFault::NotCompleted(error.to_string()),
            _ => SumFault::Refused(error.to_string()),
        }
    }
}

/// Errors that only ever refuse a number.
macro_rules! refused {
    ($($error:ty),*) => {
        $(impl From<$error> for SumFault {
            fn from(error: $error) -> Self {
                SumFault::Refused(error.to_string())
            }
        })*
    };
}

refused!(SunError, TapError, FluidError, MakingError);
