//! The bank flattened: segments of panel, the pipes between them, and the fluid's way through both.
//!
//! A join is woven into a list of turns that are taken one after the other. Where the flow divides,
//! its stream is copied; where it meets, streams are mixed by what each carries. How the flow divides
//! hangs on temperature and flow, so turns name their part of it by a place in a table of shares.

use std::ops::Range;

use physics::circuit::Pipe;
use physics::circuit::bank::Divided;
use physics::panel::{Bank, HarpConnection, Join, Rungs};

use super::panels::SEGMENTS_PER_PANEL;
use crate::YearError;

/// The share that is all of the flow.
pub const WHOLE: usize = 0;

/// The fluid's way through the bank, in one direction.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Way {
    /// What it meets, in order.
    pub turns: Vec<Turn>,
    /// Streams that run at once at most; the first is that of the circuit.
    pub streams: usize,
}

/// What the fluid meets.
#[derive(Clone, Debug, PartialEq)]
pub enum Turn {
    /// A segment of panel.
    Sheet {
        /// Its place in [`super::Plant::segments`].
        segment: usize,
        /// The stream that passes it.
        stream: usize,
        /// Place of its part of the flow.
        share: usize,
    },
    /// A pipe between panels, or past them.
    Pipe {
        /// Its place in [`super::Plant::links`].
        pipe: usize,
        /// The stream that passes it.
        stream: usize,
        /// Place of its part of the flow.
        share: usize,
    },
    /// A stream divides: from here on there are two as warm.
    Divide {
        /// The stream that was there.
        from: usize,
        /// The one that begins.
        to: usize,
    },
    /// Streams meet and mix.
    Meet {
        /// Those that meet, each with the place of its part of the flow.
        streams: Vec<(usize, usize)>,
        /// The one that goes on.
        into: usize,
    },
}

/// A bank as the plant takes it.
pub(super) struct Network {
    /// Where each panel stands in the row of segments, in the order of the flow.
    pub panels: Vec<PanelPlace>,
    /// Pipes between panels, and how many alike each stands for.
    pub links: Vec<LinkPlace>,
    /// Parts of the flow beside the whole.
    pub shares: usize,
    root: Strand,
}

/// A panel, with the alike ones beside it that it stands for.
pub(super) struct PanelPlace {
    /// Its place in the bank.
    pub panel: usize,
    /// Alike panels side by side.
    pub abreast: f64,
    /// Place of the part of the flow that they share.
    pub share: usize,
    /// How much of the bank's rise lies in it: what fluid in it weighs counts so much \[m/m\].
    pub rise_share: f64,
}

/// A pipe of the bank.
pub(super) struct LinkPlace {
    /// The pipe.
    pub pipe: Pipe,
    /// Alike pipes side by side.
    pub abreast: f64,
}

/// A part of the bank with everything it is made of numbered.
enum Strand {
    Panel { segments: Range<usize>, share: usize },
    Pipe { pipe: usize, share: usize },
    Series(Vec<Strand>),
    Parallel(Vec<(Strand, usize)>),
    Ladder(LadderStrand),
}

struct LadderStrand {
    branches: Vec<(Strand, usize)>,
    /// Pipes of the supply and of the return between one branch and the next, each with its share.
    supply: Vec<(usize, usize)>,
    back: Vec<(usize, usize)>,
    connection: HarpConnection,
}

impl Network {
    /// Numbers everything in a bank.
    ///
    /// # Errors
    /// A join that names a panel or pipe the bank does not have.
    pub fn of(bank: &Bank) -> Result<Network, YearError> {
        let mut network = Network {
            panels: Vec::new(),
            links: Vec::new(),
            shares: 0,
            root: Strand::Series(vec![]),
        };
        let here = Here { abreast: 1, share: WHOLE, rise_share: 1.0 };
        network.root = network.number(bank, &bank.join, here)?;
        Ok(network)
    }

    /// The way through the bank with the pump, or against it.
    pub fn way(&self, direction: Direction) -> Way {
        let mut way = Way { turns: Vec::new(), streams: 1 };
        weave(&self.root, direction, 0, &mut way);
        way
    }

    fn number(&mut self, bank: &Bank, join: &Join, here: Here) -> Result<Strand, YearError> {
        match join {
            Join::One(panel) => {
                known(*panel, bank.panels.len(), "panel")?;
                let first = self.panels.len() * SEGMENTS_PER_PANEL;
                self.panels.push(PanelPlace {
                    panel: *panel,
                    abreast: here.abreast as f64,
                    share: here.share,
                    rise_share: here.rise_share,
                });
                Ok(Strand::Panel { segments: first..first + SEGMENTS_PER_PANEL, share: here.share })
            }
            Join::Pipe(link) => {
                let (pipe, share) = self.link(bank, *link, here)?;
                Ok(Strand::Pipe { pipe, share })
            }
            Join::Series(parts) => {
                let rising = parts.iter().filter(|part| has_panel(part)).count().max(1) as f64;
                let each = Here { rise_share: here.rise_share / rising, ..here };
                let strands = parts.iter().map(|part| self.number(bank, part, each));
                Ok(Strand::Series(strands.collect::<Result<_, _>>()?))
            }
            Join::Parallel(branches) if all_alike(bank, branches) => match branches.first() {
                Some(first) => self.number(
                    bank,
                    first,
                    Here { abreast: here.abreast * branches.len(), ..here },
                ),
                None => Ok(Strand::Series(Vec::new())),
            },
            Join::Parallel(branches) => Ok(Strand::Parallel(self.branches(bank, branches, here)?)),
            Join::Ladder(rungs) => {
                let branches = self.branches(bank, &rungs.branches, here)?;
                let between = branches.len().saturating_sub(1);
                let mut side = || -> Result<Vec<(usize, usize)>, YearError> {
                    (0..between)
                        .map(|_| {
                            let share = self.new_share();
                            self.link(bank, rungs.link, Here { share, ..here })
                        })
                        .collect()
                };
                let (supply, back) = (side()?, side()?);
                Ok(Strand::Ladder(LadderStrand {
                    branches,
                    supply,
                    back,
                    connection: rungs.connection,
                }))
            }
        }
    }

    fn branches(
        &mut self,
        bank: &Bank,
        branches: &[Join],
        here: Here,
    ) -> Result<Vec<(Strand, usize)>, YearError> {
        let rising = branches.iter().filter(|branch| has_panel(branch)).count().max(1) as f64;
        branches
            .iter()
            .map(|branch| {
                let share = self.new_share();
                let inside = Here { share, rise_share: here.rise_share / rising, ..here };
                Ok((self.number(bank, branch, inside)?, share))
            })
            .collect()
    }

    fn new_share(&mut self) -> usize {
        self.shares += 1;
        self.shares
    }

    fn link(&mut self, bank: &Bank, link: usize, here: Here) -> Result<(usize, usize), YearError> {
        known(link, bank.links.len(), "pipe")?;
        self.links.push(LinkPlace { pipe: bank.links[link], abreast: here.abreast as f64 });
        Ok((self.links.len() - 1, here.share))
    }
}

/// The shares of the flow that a network's turns name, the whole one first, as a bank's flow divides.
pub(super) fn shares(bank: &Bank, divided: &Divided) -> Vec<f64> {
    let mut flows_kg_s = vec![divided.flow_kg_s];
    list(bank, &bank.join, (divided, 1.0), &mut flows_kg_s);
    flows_kg_s.iter().map(|flow_kg_s| flow_kg_s / divided.flow_kg_s).collect()
}

/// Lists the parts of the flow in the order in which [`Network::of`] numbers them.
fn list(bank: &Bank, join: &Join, (divided, abreast): (&Divided, f64), out: &mut Vec<f64>) {
    let each = |joins: &[Join], out: &mut Vec<f64>| {
        for (join, part) in joins.iter().zip(&divided.parts) {
            out.push(abreast * part.flow_kg_s);
            list(bank, join, (part, abreast), out);
        }
    };
    match join {
        Join::One(_) | Join::Pipe(_) => {}
        Join::Series(joins) => {
            for (join, part) in joins.iter().zip(&divided.parts) {
                list(bank, join, (part, abreast), out);
            }
        }
        Join::Parallel(joins) if all_alike(bank, joins) => {
            if let (Some(first), Some(part)) = (joins.first(), divided.parts.first()) {
                list(bank, first, (part, abreast * joins.len() as f64), out);
            }
        }
        Join::Parallel(joins) => each(joins, out),
        Join::Ladder(Rungs { branches, connection, .. }) => {
            each(branches, out);
            let flows_kg_s: Vec<f64> =
                divided.parts.iter().map(|part| abreast * part.flow_kg_s).collect();
            let between = 1..flows_kg_s.len();
            let beyond = |at: usize| flows_kg_s[at..].iter().sum::<f64>();
            let before = |at: usize| flows_kg_s[..at].iter().sum::<f64>();
            out.extend(between.clone().map(beyond));
            match connection {
                HarpConnection::SameSide => out.extend(between.map(beyond)),
                HarpConnection::OppositeCorner => out.extend(between.map(before)),
            }
        }
    }
}

/// Where in the bank the numbering is.
#[derive(Clone, Copy)]
struct Here {
    abreast: usize,
    share: usize,
    rise_share: f64,
}

/// Which way the fluid runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// As the pump drives it: from the coil through the return pipe to the panels.
    Forwards,
    /// Against that.
    Backwards,
}

fn weave(strand: &Strand, direction: Direction, stream: usize, way: &mut Way) {
    match strand {
        Strand::Panel { segments, share } => {
            let push = |segment| way.turns.push(Turn::Sheet { segment, stream, share: *share });
            match direction {
                Direction::Forwards => segments.clone().for_each(push),
                Direction::Backwards => segments.clone().rev().for_each(push),
            }
        }
        Strand::Pipe { pipe, share } => {
            way.turns.push(Turn::Pipe { pipe: *pipe, stream, share: *share });
        }
        Strand::Series(parts) => match direction {
            Direction::Forwards => {
                parts.iter().for_each(|part| weave(part, direction, stream, way))
            }
            Direction::Backwards => {
                parts.iter().rev().for_each(|part| weave(part, direction, stream, way));
            }
        },
        Strand::Parallel(branches) => {
            let streams = divide(branches.len(), stream, way);
            for ((branch, _), &stream) in branches.iter().zip(&streams) {
                weave(branch, direction, stream, way);
            }
            let shares = branches.iter().map(|(_, share)| *share);
            way.turns.push(Turn::Meet {
                streams: streams.into_iter().zip(shares).collect(),
                into: stream,
            });
        }
        Strand::Ladder(ladder) => weave_ladder(ladder, direction, stream, way),
    }
}

/// As many streams as there are branches, the first of them the one that divides.
fn divide(branches: usize, stream: usize, way: &mut Way) -> Vec<usize> {
    let mut streams = vec![stream];
    for _ in 1..branches {
        way.turns.push(Turn::Divide { from: stream, to: way.streams });
        streams.push(way.streams);
        way.streams += 1;
    }
    streams
}

/// A ladder run backwards is a ladder again: its two sides change places, and where the circuit
/// leaves at the far end that end comes first.
fn weave_ladder(ladder: &LadderStrand, direction: Direction, stream: usize, way: &mut Way) {
    let mut branches: Vec<&(Strand, usize)> = ladder.branches.iter().collect();
    let (mut supply, mut back) = (ladder.supply.clone(), ladder.back.clone());
    if direction == Direction::Backwards {
        std::mem::swap(&mut supply, &mut back);
        if ladder.connection == HarpConnection::OppositeCorner {
            branches.reverse();
            supply.reverse();
            back.reverse();
        }
    }
    // The supply: at each branch a part leaves, the rest goes on through the next pipe.
    let mut streams = Vec::new();
    for at in 0..branches.len() {
        way.turns.push(Turn::Divide { from: stream, to: way.streams });
        streams.push(way.streams);
        way.streams += 1;
        if let Some(&(pipe, share)) = supply.get(at) {
            way.turns.push(Turn::Pipe { pipe, stream, share });
        }
    }
    for ((branch, _), &stream) in branches.iter().zip(&streams) {
        weave(branch, direction, stream, way);
    }
    // The return gathers them one by one, towards the end at which the circuit leaves.
    let order: Vec<usize> = match ladder.connection {
        HarpConnection::OppositeCorner => (0..branches.len()).collect(),
        HarpConnection::SameSide => (0..branches.len()).rev().collect(),
    };
    let Some(&first) = order.first() else { return };
    way.turns.push(Turn::Divide { from: streams[first], to: stream });
    for pair in order.windows(2) {
        let (pipe, share) = back[pair[0].min(pair[1])];
        way.turns.push(Turn::Pipe { pipe, stream, share });
        let joining = (streams[pair[1]], branches[pair[1]].1);
        way.turns.push(Turn::Meet { streams: vec![(stream, share), joining], into: stream });
    }
}

fn known(place: usize, count: usize, what: &'static str) -> Result<(), YearError> {
    if place < count { Ok(()) } else { Err(YearError::UnknownPlace { what, place, count }) }
}

fn has_panel(join: &Join) -> bool {
    match join {
        Join::One(_) => true,
        Join::Pipe(_) => false,
        Join::Series(joins)
        | Join::Parallel(joins)
        | Join::Ladder(Rungs { branches: joins, .. }) => joins.iter().any(has_panel),
    }
}

/// True where all branches are made of alike panels and pipes: then they share the flow evenly and
/// one stands for all.
fn all_alike(bank: &Bank, branches: &[Join]) -> bool {
    branches.iter().all(|branch| alike(bank, &branches[0], branch))
}

fn alike(bank: &Bank, one: &Join, other: &Join) -> bool {
    let all = |ones: &[Join], others: &[Join]| {
        ones.len() == others.len()
            && ones.iter().zip(others).all(|(one, other)| alike(bank, one, other))
    };
    match (one, other) {
        (Join::One(one), Join::One(other)) => bank.panels.get(*one) == bank.panels.get(*other),
        (Join::Pipe(one), Join::Pipe(other)) => bank.links.get(*one) == bank.links.get(*other),
        (Join::Series(one), Join::Series(other)) | (Join::Parallel(one), Join::Parallel(other)) => {
            all(one, other)
        }
        (Join::Ladder(one), Join::Ladder(other)) => {
            one.connection == other.connection
                && bank.links.get(one.link) == bank.links.get(other.link)
                && all(&one.branches, &other.branches)
        }
        _ => false,
    }
}
