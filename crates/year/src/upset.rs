//! Something going wrong at a time.

use std::ops::Range;

/// What goes wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum UpsetKind {
    /// The pump does not run, whatever the controller says.
    PumpDead,
    /// The pump runs and draws electricity, but nothing moves.
    Blocked,
    /// The panel probe reads this much above the truth \[K\], beside its own offset.
    PanelProbeError {
        /// Reading less truth \[K\].
        offset_difference_k: f64,
    },
    /// Nobody draws water.
    NoDraws,
}

/// Timed events; none for a year in which all goes well.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Upset {
    /// What goes wrong, and in which minutes of the year (0 to 525 600).
    pub events: Vec<(UpsetKind, Range<u32>)>,
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

    /// What the panel probe reads above the truth by upsets at `minute` \[K\].
    pub(crate) fn panel_probe_offset_k(&self, minute: usize) -> f64 {
        self.under_way(minute)
            .map(|kind| match kind {
                UpsetKind::PanelProbeError { offset_difference_k } => offset_difference_k,
                _ => 0.0,
            })
            .sum()
    }

    fn under_way(&self, minute: usize) -> impl Iterator<Item = UpsetKind> {
        self.events
            .iter()
            .filter(move |(_, minutes)| minutes.contains(&(minute as u32)))
            .map(|&(kind, _)| kind)
    }
}
