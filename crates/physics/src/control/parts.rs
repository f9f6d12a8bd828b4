//! What a build says of its controller.

/// The control's part of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct Control {
    /// What calls for the pump.
    pub rule: Rule,
    /// Once started the pump runs at least this long \[s\].
    pub min_on_s: f64,
    /// Once stopped it rests at least this long \[s\].
    pub min_off_s: f64,
    /// It runs on for this long after nothing calls for it any more \[s\].
    pub run_on_s: f64,
    /// Stops the pump on a hot store; `None` where nothing does.
    pub store_limit: Option<StoreLimit>,
    /// Stops the pump on a hot panel; `None` where nothing does.
    pub panel_stop: Option<PanelStop>,
    /// Runs the pump against frost; `None` where nothing does.
    pub frost: Option<FrostAction>,
    /// The probe on the panel.
    pub panel_probe: Probe,
    /// Where it sits.
    pub panel_probe_place: PanelProbePlace,
    /// The probe in the store.
    pub store_probe: Probe,
    /// Where it sits.
    pub store_probe_place: StoreProbePlace,
}

/// What calls for the pump.
#[derive(Clone, Debug, PartialEq)]
pub enum Rule {
    /// Two temperatures compared.
    Differential(Differential),
    /// The panel's temperature alone.
    Thermostat(Thermostat),
    /// The clock alone: the pump runs in these hours of the day.
    Timer(Vec<ClockSpan>),
}

/// Two temperatures compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Differential {
    /// Panel over store at which the pump starts \[K\].
    pub on_difference_k: f64,
    /// Panel over store at which it stops \[K\].
    pub off_difference_k: f64,
    /// Panel probe above which it does not start \[K\]: the panel may hold steam.
    pub panel_limit_k: f64,
}

/// The panel's temperature alone: nobody asks how warm the store is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thermostat {
    /// Panel probe at which the pump starts \[K\].
    pub on_k: f64,
    /// Panel probe at which it stops \[K\].
    pub off_k: f64,
}

/// Part of a day, standard time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClockSpan {
    /// First minute of the day in it, 0 to 1439.
    pub from_min: u16,
    /// First minute no more in it; before `from_min` where the span runs over midnight.
    pub to_min: u16,
}

impl ClockSpan {
    /// Whether a minute of the day (0 to 1439) lies in it.
    pub fn holds(&self, minute: u16) -> bool {
        if self.from_min <= self.to_min {
            (self.from_min..self.to_min).contains(&minute)
        } else {
            minute >= self.from_min || minute < self.to_min
        }
    }
}

/// A store that is hot enough.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StoreLimit {
    /// Store probe at which the pump stops, whatever calls for it \[K\].
    pub limit_k: f64,
    /// How far the store must cool below its limit before a new start \[K\].
    pub reset_difference_k: f64,
}

/// A panel too hot to be pumped through: its fluid boils, or the pipes would not bear it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelStop {
    /// Panel probe at which the pump stops, whatever calls for it \[K\].
    pub above_k: f64,
    /// How far the panel must cool below that before a new start \[K\].
    pub fall_difference_k: f64,
}

/// The pump against frost: it warms the panel with the store's heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrostAction {
    /// Panel probe at which the pump starts \[K\].
    pub below_k: f64,
    /// How far the panel must warm above that before it stops \[K\].
    pub rise_difference_k: f64,
}

/// One probe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Probe {
    /// What it reads above the truth, always \[K\].
    pub offset_k: f64,
    /// Time in which it closes 63 % of a step \[s\].
    pub lag_s: f64,
}

/// Where the panel's probe sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PanelProbePlace {
    /// On the outlet stub, inside the box.
    Outlet,
    /// On the inlet stub, inside the box.
    Inlet,
    /// On the middle of the last panel's sheet.
    Sheet,
    /// On the hot pipe, so far from the panels \[m\].
    FlowPipe {
        /// Length of pipe between panel and probe \[m\].
        distance_m: f64,
    },
    /// Outside the box, in the shade.
    OpenAir,
}

/// Where the store's probe sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StoreProbePlace {
    /// In the water, or in a pocket in it, at a height above the base \[m\].
    Water {
        /// Height above the base \[m\].
        height_m: f64,
    },
    /// Strapped to the outside of the wall, under the jacket.
    Wall {
        /// Height above the base \[m\].
        height_m: f64,
    },
    /// Beside the store, in the loft's air.
    LoftAir,
}
