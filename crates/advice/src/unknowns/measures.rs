//! What a builder can measure, and with what.

/// What would tell a value, by the path of its parameter; `None` where a builder cannot measure it.
pub(super) fn measure(path: &str) -> Option<&'static str> {
    MEASURES.iter().find(|(begins, _)| path.starts_with(begins)).map(|&(_, how)| how)
}

/// All common practice; the tools are a tape, a thermometer, a stopwatch, a bucket and a meter.
const MEASURES: [(&str, &str); 24] = [
    ("the water drawn", "a water meter, or a bucket at the taps, through a fortnight"),
    ("the cold water", "a thermometer in the cold jet, once a month"),
    ("tap.delivery", "a thermometer in the hot jet"),
    ("tap.heater.loss", "the heater's electricity or gas over a day on which nothing is drawn"),
    ("panel.tubes.bond", "the sheet's temperature beside a tube and between two, in full sun"),
    ("panel.box.air-changes", "smoke at the joints; a dry-heat trial in wind and in calm"),
    ("panel.sheet.absorptance", "a dry-heat trial in full sun"),
    ("panel.sheet.emittance", "a dry-heat trial in full sun"),
    ("panel.cover.extinction", "a light meter with and without the pane, at noon"),
    ("panel.cover.longwave", "a dry-heat trial under this pane and under glass"),
    ("panel.cover.dirt", "a light meter under the pane before and after washing it"),
    ("panel.certificate", "a ground trial against the certificate's curve"),
    ("the back's fit", "a dry-heat trial in full sun"),
    ("panel.back", "a dry-heat trial in full sun"),
    ("store.coil", "thermometers on both ends of the coil, and the flow by bucket"),
    ("store.wall", "the warm cistern left a night, thermometer and clock"),
    ("store.lid-gap", "a tape round the lid"),
    ("the cistern's jacket", "the warm cistern left a night, thermometer and clock"),
    ("store.entrainment", "two thermometers, high and low in the cistern, while a bath is drawn"),
    ("store.loft", "a thermometer in the loft, morning and afternoon, summer and winter"),
    ("the coil's films", "thermometers on both ends of the coil, and the flow by bucket"),
    ("the pipes' lagging", "thermometers on both ends of the hot pipe, and the flow by bucket"),
    ("circuit", "the flow by bucket and stopwatch"),
    ("control", "both probes in one glass of water"),
];
