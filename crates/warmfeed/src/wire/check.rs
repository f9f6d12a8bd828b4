//! The answer of `check` as JSON.

use schemars::JsonSchema;
use serde::Serialize;

use super::problem::ProblemWire;

/// What `warmfeed check --json` prints.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub struct CheckWire {
    /// True where the build can be computed.
    pub ok: bool,
    /// What is wrong or doubtful.
    pub problems: Vec<ProblemWire>,
    /// What was not written and therefore assumed.
    pub assumed: Vec<AssumedWire>,
}

/// One assumed value.
#[derive(Clone, Debug, JsonSchema, PartialEq, Serialize)]
pub struct AssumedWire {
    /// Place in the design.
    #[serde(rename = "where")]
    pub place: String,
    /// The value taken, with its unit.
    pub value: String,
    /// Where it comes from.
    pub origin: String,
}
