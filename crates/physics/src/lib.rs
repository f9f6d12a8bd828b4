//! The heat's path in SI units: sun, panel, circuit, store, tap, with control beside them.
//!
//! Pure functions and plain structs. No file, clock, environment or output is known here, and
//! nothing is depended on. A published relation carries its author and year; the quantity it
//! answers has one front door that chooses. Temperatures ending in `_k` are absolute, those
//! ending in `rise_k` or `difference_k` are differences; names without a unit have no dimension.

pub mod angle;
mod balance;
pub mod build;
pub mod chance;
pub mod circuit;
pub mod climate;
pub mod control;
pub mod making;
pub mod matter;
pub mod panel;
pub mod store;
pub mod sun;
pub mod tap;

pub use angle::Angle;
pub use build::Build;
pub use climate::Climate;

/// Zero degrees Celsius \[K\] (exact by definition of the Celsius scale).
pub const ZERO_CELSIUS_K: f64 = 273.15;

/// Stefan-Boltzmann constant \[W/(m2 K4)\] (CODATA 2018, exact in the SI of 2019).
pub const STEFAN_BOLTZMANN_W_M2_K4: f64 = 5.670_374_419e-8;

/// Standard gravity \[m/s2\] (3rd CGPM 1901, exact by definition).
pub const GRAVITY_M_S2: f64 = 9.806_65;
