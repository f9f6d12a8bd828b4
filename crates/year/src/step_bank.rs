//! A stage's way through panels and pipes.

use crate::plant::{Direction, PipeRun, Turn};
use crate::step_circuit::{Bench, Step};
use crate::straight::{Straight, mixed};

/// Takes a stream through the bank, turn by turn.
pub(crate) fn through_bank(
    step: &Step,
    pace_1_s: f64,
    stream: Straight,
    bench: &mut Bench,
) -> Straight {
    let plant = step.plant;
    let way = match step.direction {
        Direction::Forwards => &plant.forwards,
        Direction::Backwards => &plant.backwards,
    };
    bench.streams.resize(way.streams, Straight::default());
    bench.streams[0] = stream;
    bench.gained_w = Straight::default();
    for turn in &way.turns {
        match turn {
            Turn::Sheet { segment, stream, share } => {
                let rate_w_k = step.rate_w_k * bench.shares[*share];
                bench.streams[*stream] =
                    past_sheet(step, (*segment, rate_w_k, pace_1_s), bench.streams[*stream], bench);
            }
            Turn::Pipe { pipe, stream, share } => {
                let link = PipeStage {
                    run: &plant.links[*pipe],
                    around_k: step.hour.link_around_k[*pipe],
                    rate_w_k: step.rate_w_k * bench.shares[*share],
                    pace_1_s,
                };
                let at = plant.return_pipe.nodes + plant.segments.len() + pipe;
                bench.streams[*stream] = link.through(bench.streams[*stream], at..=at, bench);
            }
            Turn::Divide { from, to } => bench.streams[*to] = bench.streams[*from],
            Turn::Meet { streams, into } => {
                let parts = streams
                    .iter()
                    .map(|&(stream, share)| (bench.streams[stream], bench.shares[share]));
                bench.streams[*into] = mixed(parts);
            }
        }
    }
    bench.streams[0]
}

/// Takes a stream past a segment, whose place, stream's rate and pace are given; returns the stream.
fn past_sheet(
    step: &Step,
    (place, rate_w_k, pace_1_s): (usize, f64, f64),
    stream: Straight,
    bench: &mut Bench,
) -> Straight {
    let plant = step.plant;
    let segment = &plant.segments[place];
    let node = plant.return_pipe.nodes + place;
    let loss = step.hour.loss(segment.kind);
    let conductances = loss.conductances(bench.last_k[node]);
    let top_w_k = conductances.top_w_m2_k * segment.area_m2;
    let rest_w_k = conductances.rest_w_m2_k * segment.area_m2;
    let share = bench.effectiveness[segment.answers_as];
    let pace_w_k = segment.capacity_j_k * pace_1_s;
    let pull_w_k = rate_w_k * share;
    let over = 1.0 / (pace_w_k + top_w_k + rest_w_k + pull_w_k);
    let gains_w = pace_w_k * bench.base_k[node]
        + (step.absorbed_w_m2 - loss.to_sky_w_m2) * segment.area_m2
        + top_w_k * loss.empty_k
        + rest_w_k * loss.air_k;
    let plate = Straight {
        fixed: (gains_w + pull_w_k * stream.fixed) * over,
        slope: pull_w_k * stream.slope * over,
    };
    bench.node[node] = plate;
    bench.drains_w_k[place] = (top_w_k, rest_w_k);
    bench.gained_w.fixed += pull_w_k * (plate.fixed - stream.fixed);
    bench.gained_w.slope += pull_w_k * (plate.slope - stream.slope);
    stream.towards(plate, share)
}

/// A pipe in one stage.
pub(crate) struct PipeStage<'a> {
    pub run: &'a PipeRun,
    pub around_k: f64,
    pub rate_w_k: f64,
    pub pace_1_s: f64,
}

impl PipeStage<'_> {
    /// Takes a stream through the pipe's nodes, in their order for the fluid.
    pub fn through(
        &self,
        mut stream: Straight,
        nodes: impl Iterator<Item = usize>,
        bench: &mut Bench,
    ) -> Straight {
        let pace_w_k = self.run.capacity_j_k * self.pace_1_s;
        let over = 1.0 / (pace_w_k + self.rate_w_k + self.run.loss_w_k);
        for at in nodes {
            let kept_w = pace_w_k * bench.base_k[at] + self.run.loss_w_k * self.around_k;
            stream = Straight {
                fixed: (kept_w + self.rate_w_k * stream.fixed) * over,
                slope: self.rate_w_k * stream.slope * over,
            };
            bench.node[at] = stream;
        }
        stream
    }
}
