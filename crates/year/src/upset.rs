//! Something going wrong at a time.

use std::ops::Range;

/// What goes wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum UpsetKind {
    /// The pump does not run, whatever the controller says.
    PumpDead,
    /// No mains: neither pump nor controller runs, and the controller begins anew when it comes back.
    PowerCut,
    /// The pump runs and draws electricity, but nothing moves.
    Blocked,
    /// The panel probe reads this much above the truth \[K\], beside its own offset.
    PanelProbeError {
        /// Reading less truth \[K\].
        offset_difference_k: f64,
    },
    /// The two probes are exchanged: each place reads what the other one is.
    ProbesSwapped,
    /// The pump runs, whatever the controller says.
    PumpStuckOn,
    /// The overheat discharge stays shut.
    DischargeShut,
    /// The overheat discharge stays open.
    DischargeOpen,
    /// Nobody draws water.
    NoDraws,
}

/// Timed events; none for a year in which all goes well.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Upset {
    /// What goes wrong, and in which minutes of the year (0 to 525 600).
    pub events: Vec<(UpsetKind, Range<u32>)>,
}

/// What a controller reads other than what its probes lie in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Misreading {
    /// The panel probe reads so much above the truth, beside its own offset \[K\].
    pub panel_offset_k: f64,
    /// Each probe's reading is taken for the other's.
    pub swapped: bool,
}

impl Upset {
    /// A year in which all goes well.
    pub fn none() -> Self {
        Upset::default()
    }

    /// True while `matches` some event under way at `minute`.
    pub(crate) fn any(&self, minute: usize, matches: impl Fn(UpsetKind) -> bool) -> bool {
        self.under_way(minute).any(matches)
    }

    /// One thing wrong through the whole year.
    pub fn all_year(kind: UpsetKind) -> Self {
        Upset { events: vec![(kind, 0..crate::MINUTES_PER_YEAR as u32)] }
    }

    /// How the controller misreads its probes at `minute`.
    pub(crate) fn misreading(&self, minute: usize) -> Misreading {
        let mut misreading = Misreading::default();
        for kind in self.under_way(minute) {
            match kind {
                UpsetKind::PanelProbeError { offset_difference_k } => {
                    misreading.panel_offset_k += offset_difference_k;
                }
                UpsetKind::ProbesSwapped => misreading.swapped = true,
                _ => {}
            }
        }
        misreading
    }

    fn under_way(&self, minute: usize) -> impl Iterator<Item = UpsetKind> {
        self.events
            .iter()
            .filter(move |(_, minutes)| minutes.contains(&(minute as u32)))
            .map(|&(kind, _)| kind)
    }
}
