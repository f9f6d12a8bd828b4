//! Water on its way: drawn through store and heater, let go, taken by what else the store feeds.

use std::ops::Range;

use physics::tap::Heater;

use super::March;
use crate::heater::{self, Drawn};
use crate::step_store::pass_water;
use crate::upset::{Upset, UpsetKind};

impl March<'_> {
    /// Water drawn in a minute \[m3\].
    pub(super) fn draw_of(&mut self, minute: usize, upset: &Upset) -> f64 {
        match self.forcing.draws.get(self.next_draw) {
            Some(draw) if draw.minute as usize == minute => {
                self.next_draw += 1;
                if upset.any(minute, |kind| kind == UpsetKind::NoDraws) {
                    0.0
                } else {
                    draw.volume_m3
                }
            }
            _ => 0.0,
        }
    }

    /// Places in the forcing's feeds of what is taken in a minute.
    pub(super) fn feeds_of(&mut self, minute: usize, upset: &Upset) -> Range<usize> {
        let first = self.next_feed;
        let feeds = &self.forcing.feeds;
        while feeds.get(self.next_feed).is_some_and(|feed| feed.minute as usize == minute) {
            self.next_feed += 1;
        }
        if first < self.next_feed && upset.any(minute, |kind| kind == UpsetKind::NoDraws) {
            return 0..0;
        }
        first..self.next_feed
    }

    /// Draws water through the store; returns the heat it carries out above the mains \[J\].
    pub(super) fn draw(&mut self, volume_m3: f64) -> f64 {
        if volume_m3 <= 0.0 {
            return 0.0;
        }
        let store = &self.plant.store;
        let share = match &self.plant.heater {
            Heater::Instantaneous(inlet) => {
                inlet.store_share(self.state.layer_k[store.outlet], self.hour.mains_k)
            }
            Heater::Cylinder { .. } => 1.0,
        };
        let heat_j = self.pass(store.outlet, share * volume_m3);
        self.tally.tap_heat_j += heat_j;
        heat_j
    }

    /// Lets the heater top up what a minute drew: once a minute, however the water passed the store, so
    /// that build and twin are served alike.
    pub(super) fn top_up(&mut self, volume_m3: f64, heat_j: f64) {
        if volume_m3 <= 0.0 {
            return;
        }
        let mains_k = self.hour.mains_k;
        let inlet_k = mains_k + heat_j / (volume_m3 * self.plant.store.volume_heat_j_m3_k);
        let drawn = Drawn { volume_m3, inlet_k, mains_k };
        self.state.cylinder_k =
            heater::top_up(self.plant, &drawn, self.state.cylinder_k, &mut self.tally);
    }

    /// Lets hot water go from the top; cold refills.
    pub(super) fn discharge(&mut self, volume_m3: f64) {
        if volume_m3 <= 0.0 {
            return;
        }
        self.tally.dumped_j += self.pass(self.plant.store.layers - 1, volume_m3);
        self.tally.dumped_m3 += volume_m3;
    }

    /// Gives a share of what a minute's feeds take: places in the forcing's feeds.
    pub(super) fn feed(&mut self, feeds: Range<usize>, share: f64) {
        let forcing = self.forcing;
        for feed in &forcing.feeds[feeds] {
            let volume_m3 = share * feed.volume_m3;
            self.tally.other_heat_j += self.pass(self.plant.store.feeds[feed.feed], volume_m3);
            self.tally.other_m3 += volume_m3;
        }
    }

    /// Lets water out of a layer and as much cold in; returns the heat carried out above it \[J\].
    pub(super) fn pass(&mut self, outlet: usize, volume_m3: f64) -> f64 {
        if volume_m3 <= 0.0 {
            return 0.0;
        }
        pass_water(
            &self.plant.store,
            outlet,
            self.hour.mains_k,
            volume_m3,
            &mut self.state.layer_k,
            &mut self.scratch,
        )
    }
}
