//! What a build says of its controller.

/// The control's part of a build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Control {
    /// The switching rule.
    pub rule: Differential,
    /// The probe on the panel, at its outlet.
    pub panel_probe: Probe,
    /// The probe in the store.
    pub store_probe: Probe,
    /// Height of the store's probe above the base \[m\].
    pub store_probe_height_m: f64,
}

/// Two temperatures compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Differential {
    /// Panel over store at which the pump starts \[K\].
    pub on_difference_k: f64,
    /// Panel over store at which it stops \[K\].
    pub off_difference_k: f64,
    /// Once started it runs at least this long \[s\].
    pub min_on_s: f64,
    /// Once stopped it rests at least this long \[s\].
    pub min_off_s: f64,
    /// Store probe at which it stops whatever the panel says \[K\].
    pub store_limit_k: f64,
    /// How far the store must cool below its limit before a new start \[K\].
    pub store_reset_difference_k: f64,
    /// Panel probe above which it does not start \[K\]: the panel may hold steam.
    pub panel_limit_k: f64,
}

/// One probe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Probe {
    /// What it reads above the truth, always \[K\].
    pub offset_k: f64,
    /// Time in which it closes 63 % of a step \[s\].
    pub lag_s: f64,
}
