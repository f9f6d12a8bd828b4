//! The bank flattened: kinds of panel, and segments in the order of the flow.

use physics::Build;
use physics::panel::capacity::capacity_j_k;
use physics::panel::{Bank, Join, Panel};

use super::loss::PanelLoss;
use crate::YearError;

/// Segments a panel is cut into along the flow. The plate is uniform within one; the stream
/// through it warms exponentially, scaled so that the whole panel answers as the fin chain does.
pub const SEGMENTS_PER_PANEL: usize = 2;

/// One kind of panel: what all alike panels share.
#[derive(Clone, Debug)]
pub struct PanelKind {
    /// The panel described.
    pub panel: Panel,
    /// Losses of one square metre of its area.
    pub loss: PanelLoss,
}

/// A stretch of one panel, or of several alike ones side by side, along the flow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// Place of its kind in [`super::Plant::kinds`].
    pub kind: usize,
    /// Alike panels side by side that it stands for; each carries this part of the flow.
    pub abreast: f64,
    /// Sheet in it, all abreast together \[m2\].
    pub area_m2: f64,
    /// Heat capacity of sheet, tubes, contents and half the insulation, all abreast \[J/K\].
    pub capacity_j_k: f64,
}

pub(super) fn compile(build: &Build) -> Result<(Vec<PanelKind>, Vec<Segment>), YearError> {
    let bank = &build.panel;
    let mut kinds = Vec::new();
    let mut kind_of = Vec::with_capacity(bank.panels.len());
    for panel in &bank.panels {
        let known = kinds.iter().position(|kind: &PanelKind| kind.panel == *panel);
        kind_of.push(match known {
            Some(kind) => kind,
            None => {
                kinds.push(PanelKind {
                    panel: panel.clone(),
                    loss: PanelLoss::of(panel, build.sun.plane.tilt)?,
                });
                kinds.len() - 1
            }
        });
    }
    let mut segments = Vec::new();
    for run in abreast_runs(bank, &bank.join, 1)? {
        let panel = &bank.panels[run.panel];
        let volume_heat = super::circuit::reference_fluid(build)?.volume_heat_j_m3_k();
        let capacity_j_k = capacity_j_k(panel, volume_heat)
            .map_err(|error| YearError::Panel(error.to_string()))?;
        let parts = run.abreast / SEGMENTS_PER_PANEL as f64;
        for _ in 0..SEGMENTS_PER_PANEL {
            segments.push(Segment {
                kind: kind_of[run.panel],
                abreast: run.abreast,
                area_m2: panel.area_m2() * parts,
                capacity_j_k: capacity_j_k * parts,
            });
        }
    }
    Ok((kinds, segments))
}

/// Gives segments the heat capacity of their dry panels.
pub(super) fn drain(kinds: &[PanelKind], segments: &mut [Segment]) -> Result<(), YearError> {
    for segment in segments {
        let dry_j_k = capacity_j_k(&kinds[segment.kind].panel, 0.0)
            .map_err(|error| YearError::Panel(error.to_string()))?;
        segment.capacity_j_k = dry_j_k * segment.abreast / SEGMENTS_PER_PANEL as f64;
    }
    Ok(())
}

/// A panel in the order of the flow, and how many like it stand beside it.
struct Run {
    panel: usize,
    abreast: f64,
}

/// The join as one row of panels, alike neighbours side by side taken together.
fn abreast_runs(bank: &Bank, join: &Join, abreast: usize) -> Result<Vec<Run>, YearError> {
    match join {
        Join::One(panel) => Ok(vec![Run { panel: *panel, abreast: abreast as f64 }]),
        Join::Series(parts) => {
            let mut runs = Vec::new();
            for part in parts {
                runs.extend(abreast_runs(bank, part, abreast)?);
            }
            Ok(runs)
        }
        Join::Parallel(branches) => {
            let Some(first) = branches.first() else { return Ok(Vec::new()) };
            let runs = abreast_runs(bank, first, abreast * branches.len())?;
            for branch in &branches[1..] {
                let other = abreast_runs(bank, branch, abreast * branches.len())?;
                for (a, b) in runs.iter().zip(&other) {
                    if bank.panels[a.panel] != bank.panels[b.panel] {
                        return Err(YearError::UnlikePanels { first: a.panel, second: b.panel });
                    }
                }
                if let (Some(a), Some(b), false) =
                    (runs.last(), other.last(), runs.len() == other.len())
                {
                    return Err(YearError::UnlikePanels { first: a.panel, second: b.panel });
                }
            }
            Ok(runs)
        }
    }
}
