//! The bank flattened: kinds of panel, and segments in the order of the flow.

use physics::Build;
use physics::panel::Panel;
use physics::panel::capacity::capacity_j_k;

use super::loss::PanelLoss;
use super::network::Network;
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
    /// Place of the part of the flow that they share.
    pub share: usize,
    /// Place of how it answers to the flow: segments of alike panels with the same part of the flow
    /// answer alike.
    pub answers_as: usize,
    /// How far it rises along the flow \[m\]; in branches, by its part of them.
    pub rise_m: f64,
}

pub(super) fn compile(
    build: &Build,
    network: &Network,
    rise_m: f64,
) -> Result<(Vec<PanelKind>, Vec<Segment>), YearError> {
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
    let mut answers: Vec<(usize, f64, usize)> = Vec::new();
    for run in &network.panels {
        let panel = &bank.panels[run.panel];
        let volume_heat = super::circuit::reference_fluid(build)?.volume_heat_j_m3_k();
        let capacity_j_k = capacity_j_k(panel, volume_heat)
            .map_err(|error| YearError::Panel(error.to_string()))?;
        let answer = (kind_of[run.panel], run.abreast, run.share);
        let answers_as = answers.iter().position(|have| *have == answer).unwrap_or_else(|| {
            answers.push(answer);
            answers.len() - 1
        });
        let parts = run.abreast / SEGMENTS_PER_PANEL as f64;
        for _ in 0..SEGMENTS_PER_PANEL {
            segments.push(Segment {
                kind: kind_of[run.panel],
                abreast: run.abreast,
                area_m2: panel.area_m2() * parts,
                capacity_j_k: capacity_j_k * parts,
                share: run.share,
                answers_as,
                rise_m: rise_m * run.rise_share / SEGMENTS_PER_PANEL as f64,
            });
        }
    }
    Ok((kinds, segments))
}

/// One segment of each that answers in its own way, in the order of [`Segment::answers_as`].
pub(super) fn answers(segments: &[Segment]) -> Vec<&Segment> {
    let mut each: Vec<&Segment> = Vec::new();
    for segment in segments {
        if segment.answers_as == each.len() {
            each.push(segment);
        }
    }
    each
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
