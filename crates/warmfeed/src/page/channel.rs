//! What can be drawn by the minute, in plain words and the reader's units.

use clap::ValueEnum;
use design::quantity::{Kind, Units, in_unit};
use year::Channel;

use crate::arguments::ChannelWord;
use crate::commands::series::channel;

/// A graph of its own: what shares a unit is drawn on one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Graph {
    /// Warmth of panel, store and loft.
    Temperature,
    /// Light on the sheet.
    Light,
    /// Heat into the store.
    Heat,
    /// Flow round the circuit.
    Flow,
    /// Whether the pump runs.
    Pump,
    /// Water drawn or let go.
    Water,
}

impl Graph {
    /// Every graph, in the order down the page.
    pub const ALL: [Graph; 6] =
        [Graph::Temperature, Graph::Light, Graph::Heat, Graph::Flow, Graph::Pump, Graph::Water];

    /// Its head.
    pub fn name(self) -> &'static str {
        match self {
            Graph::Temperature => "Temperature",
            Graph::Light => "Light on the sheet",
            Graph::Heat => "Heat into the store",
            Graph::Flow => "Flow round the circuit",
            Graph::Pump => "Pump",
            Graph::Water => "Water",
        }
    }

    /// Its word in an address and in the markup.
    pub fn word(self) -> &'static str {
        match self {
            Graph::Temperature => "temperature",
            Graph::Light => "light",
            Graph::Heat => "heat",
            Graph::Flow => "flow",
            Graph::Pump => "pump",
            Graph::Water => "water",
        }
    }

    /// The unit as it is written on the page.
    pub fn unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Graph::Temperature, Units::Metric) => "°C",
            (Graph::Temperature, Units::Us) => "°F",
            (Graph::Light, Units::Metric) => "W/m²",
            (Graph::Light, Units::Us) => "BTU/h ft²",
            (Graph::Heat, Units::Metric) => "W",
            (Graph::Heat, Units::Us) => "BTU/h",
            (Graph::Flow, Units::Metric) => "kg/min",
            (Graph::Flow, Units::Us) => "lb/h",
            (Graph::Pump, _) => "% of the time",
            (Graph::Water, Units::Metric) => "l",
            (Graph::Water, Units::Us) => "US gal",
        }
    }

    /// What a minute's value is a value of: water comes in minutes and adds up.
    pub fn by_the_minute(self) -> &'static str {
        if self == Graph::Water { " a minute" } else { "" }
    }

    /// How many decimals a value has that is read off.
    pub fn decimals(self, units: Units) -> usize {
        match (self, units) {
            (Graph::Temperature, _) | (Graph::Flow, Units::Us) => 1,
            (Graph::Flow, Units::Metric) | (Graph::Water, _) => 2,
            (Graph::Light | Graph::Heat | Graph::Pump, _) => 0,
        }
    }

    /// A value as recorded, in the reader's unit.
    pub fn in_units(self, value: f64, units: Units) -> f64 {
        let (kind, si, unit) = match (self, units) {
            (Graph::Temperature, Units::Metric) => (Kind::Temperature, value, "C"),
            (Graph::Temperature, Units::Us) => (Kind::Temperature, value, "F"),
            (Graph::Light, Units::Metric) => (Kind::Irradiance, value, "W/m2"),
            (Graph::Light, Units::Us) => (Kind::Irradiance, value, "BTU/h ft2"),
            (Graph::Heat, Units::Metric) => (Kind::Power, value, "W"),
            (Graph::Heat, Units::Us) => (Kind::Power, value, "BTU/h"),
            (Graph::Flow, Units::Metric) => (Kind::MassFlow, value, "kg/min"),
            (Graph::Flow, Units::Us) => (Kind::MassFlow, value, "lb/h"),
            (Graph::Pump, _) => return value * 100.0,
            // Recorded in litres.
            (Graph::Water, Units::Metric) => (Kind::Volume, value / 1000.0, "l"),
            (Graph::Water, Units::Us) => (Kind::Volume, value / 1000.0, "US gal"),
        };
        in_unit(kind, si, unit)
            .expect("the units of this page are among those the design file reads")
    }
}

/// A channel as the page speaks of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shown {
    /// What is recorded.
    pub channel: Channel,
    /// Its name in a sentence.
    pub name: &'static str,
    /// Where it is drawn.
    pub graph: Graph,
}

impl Shown {
    /// Every channel, graph by graph.
    pub const ALL: [Shown; 12] = [
        Shown::of(Channel::Plate, "sheet, hottest part", Graph::Temperature),
        Shown::of(Channel::PanelOut, "leaving the panel", Graph::Temperature),
        Shown::of(Channel::StoreTop, "store, top", Graph::Temperature),
        Shown::of(Channel::StoreMean, "store, mean", Graph::Temperature),
        Shown::of(Channel::StoreBottom, "store, bottom", Graph::Temperature),
        Shown::of(Channel::Loft, "air in the loft", Graph::Temperature),
        Shown::of(Channel::Absorbed, "light taken up by the sheet", Graph::Light),
        Shown::of(Channel::CoilHeat, "heat from coil to store", Graph::Heat),
        Shown::of(Channel::Flow, "flow round the circuit", Graph::Flow),
        Shown::of(Channel::Pump, "pump running", Graph::Pump),
        Shown::of(Channel::Draw, "water drawn", Graph::Water),
        Shown::of(Channel::Discharge, "water let go when too hot", Graph::Water),
    ];

    /// Those drawn where nothing is chosen.
    pub const FIRST: [Channel; 4] =
        [Channel::PanelOut, Channel::StoreTop, Channel::StoreBottom, Channel::Absorbed];

    const fn of(channel: Channel, name: &'static str, graph: Graph) -> Shown {
        Shown { channel, name, graph }
    }

    /// The channel of a word as on the command line, `store-top`.
    pub fn called(word: &str) -> Option<Shown> {
        let channel = channel(ChannelWord::from_str(word, false).ok()?);
        Shown::ALL.into_iter().find(|shown| shown.channel == channel)
    }

    /// Its word, as on the command line.
    pub fn word(self) -> String {
        ChannelWord::value_variants()
            .iter()
            .filter(|word| channel(**word) == self.channel)
            .find_map(ValueEnum::to_possible_value)
            .map(|value| value.get_name().to_owned())
            .expect("each channel has a word")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given any channel, it is shown once, and its word finds it again.
    #[test]
    fn every_channel_has_its_word() {
        for channel in Channel::ALL {
            let shown: Vec<Shown> =
                Shown::ALL.into_iter().filter(|shown| shown.channel == channel).collect();
            assert_eq!(shown.len(), 1, "{channel:?}");
            assert_eq!(Shown::called(&shown[0].word()), Some(shown[0]));
        }
        assert_eq!(Shown::called("store_top"), None);
    }

    /// Given water's boiling point, 1 lb/h, 1 kW/m2 and a US gallon, the figures of the units' own
    /// definitions (NIST SP 811, appendix B.8: pound 0.45359237 kg, US gallon 3.785412 l, BTU(IT) an
    /// hour 0.2930711 W, that on a square foot 3.154591 W/m2).
    #[test]
    fn values_come_in_the_readers_units() {
        let near = |graph: Graph, value: f64, units, want: f64| {
            let got = graph.in_units(value, units);
            assert!(
                (got - want).abs() < 1e-6 * want.abs().max(1.0),
                "{graph:?}: {got}, not {want}"
            );
        };
        near(Graph::Temperature, 373.15, Units::Metric, 100.0);
        near(Graph::Temperature, 373.15, Units::Us, 212.0);
        near(Graph::Flow, 0.453_592_37 / 3600.0, Units::Us, 1.0);
        near(Graph::Flow, 0.05, Units::Metric, 3.0);
        near(Graph::Light, 3.154_591, Units::Us, 1.0);
        near(Graph::Heat, 0.293_071_1, Units::Us, 1.0);
        near(Graph::Water, 3.785_412, Units::Us, 1.0);
        near(Graph::Pump, 0.25, Units::Us, 25.0);
    }
}
