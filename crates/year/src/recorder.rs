//! Chosen quantities by the minute.

use physics::climate::MONTH_STARTS_DAY;

/// A quantity that can be recorded each minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Channel {
    /// Light taken up by the sheet \[W/m2\].
    Absorbed,
    /// Hottest part of the sheet \[K\].
    Plate,
    /// Coldest part of the sheet \[K\]. Not among [`Channel::ALL`]: it matters in frost alone.
    PlateColdest,
    /// Fluid leaving the panels while it flows, else the sheet at the outlet \[K\].
    PanelOut,
    /// Top layer of the store \[K\].
    StoreTop,
    /// Bottom layer of the store \[K\].
    StoreBottom,
    /// Mean of the store \[K\].
    StoreMean,
    /// Heat from fluid to store water \[W\].
    CoilHeat,
    /// 1 while the pump runs, else 0.
    Pump,
    /// Flow round the circuit \[kg/s\].
    Flow,
    /// Water drawn in the minute \[l\].
    Draw,
    /// Water let go by the overheat discharge in the minute \[l\].
    Discharge,
    /// Loft air \[K\].
    Loft,
    /// One layer of the store, 0 the lowest \[K\]; beyond the highest, the highest. Not among
    /// [`Channel::ALL`], since every store has its own count of them.
    StoreLayer(u8),
    /// Heat that the water drawn in the minute took out of the store, over the mains \[J\]. Not among
    /// [`Channel::ALL`]: what the sun had to do with it only the twin tells.
    DrawHeat,
}

impl Channel {
    /// Every channel, in the order of the heat.
    pub const ALL: [Channel; 12] = [
        Channel::Absorbed,
        Channel::Plate,
        Channel::PanelOut,
        Channel::CoilHeat,
        Channel::Flow,
        Channel::Pump,
        Channel::StoreTop,
        Channel::StoreMean,
        Channel::StoreBottom,
        Channel::Loft,
        Channel::Draw,
        Channel::Discharge,
    ];

    /// Every channel that pictures show of a store in so many layers.
    pub fn shown(layers: usize) -> Vec<Channel> {
        let last = layers.min(usize::from(u8::MAX)) as u8;
        Channel::ALL
            .into_iter()
            .chain((0..last).map(Channel::StoreLayer))
            .chain([Channel::DrawHeat])
            .collect()
    }
}

/// Least, mean and most of some hours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// The least.
    pub least: f64,
    /// The mean.
    pub mean: f64,
    /// The most.
    pub most: f64,
}

/// The spread of a year's hours, month by month.
pub fn month_spreads(hours: &[f64]) -> [Spread; 12] {
    std::array::from_fn(|month| {
        let of_month = &hours[MONTH_STARTS_DAY[month] * 24..MONTH_STARTS_DAY[month + 1] * 24];
        Spread {
            least: of_month.iter().copied().fold(f64::INFINITY, f64::min),
            mean: of_month.iter().sum::<f64>() / of_month.len() as f64,
            most: of_month.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        }
    })
}

/// Chosen channels by the minute, kept as f32. Recording changes nothing in the year.
#[derive(Clone, Debug, Default)]
pub struct Recorder {
    channels: Vec<(Channel, Vec<f32>)>,
}

impl Recorder {
    /// Records nothing.
    pub fn none() -> Self {
        Recorder::default()
    }

    /// Records these channels, 525 600 values each.
    pub fn of(channels: &[Channel]) -> Self {
        let minutes = crate::MINUTES_PER_YEAR;
        Recorder {
            channels: channels.iter().map(|&channel| (channel, vec![0.0; minutes])).collect(),
        }
    }

    /// The series of a channel, or `None` where it was not chosen.
    pub fn series(&self, channel: Channel) -> Option<&[f32]> {
        self.channels.iter().find(|(have, _)| *have == channel).map(|(_, values)| &values[..])
    }

    /// Means of the hours of a channel, 8760 of them, or `None` where it was not chosen; of water and its heat, sums.
    pub fn hours(&self, channel: Channel) -> Option<Vec<f64>> {
        let over = match channel {
            Channel::Draw | Channel::Discharge | Channel::DrawHeat => 1.0,
            _ => 60.0,
        };
        let sum = |minutes: &[f32]| minutes.iter().map(|&value| f64::from(value)).sum::<f64>();
        self.series(channel)
            .map(|values| values.chunks(60).map(|minutes| sum(minutes) / over).collect())
    }

    /// The channels chosen, in the order asked for.
    pub fn channels(&self) -> impl Iterator<Item = (Channel, &[f32])> {
        self.channels.iter().map(|(channel, values)| (*channel, &values[..]))
    }

    /// True where nothing is recorded.
    pub fn is_idle(&self) -> bool {
        self.channels.is_empty()
    }

    /// Writes one minute, asking `value` for each chosen channel.
    pub(crate) fn write(&mut self, minute: usize, value: impl Fn(Channel) -> f64) {
        for (channel, series) in &mut self.channels {
            series[minute] = value(*channel) as f32;
        }
    }
}
