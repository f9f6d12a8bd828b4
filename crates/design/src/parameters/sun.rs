//! The first station's parameters.

use super::*;

pub(super) const SECTIONS: &[Section] = &[
    Section {
        path: "sun",
        presence: Presence::Required,
        help: "Place, weather and the panel's plane.",
    },
    Section {
        path: "sun.months",
        presence: Presence::Optional,
        help: "Twelve monthly means of a place without a weather file.",
    },
    Section {
        path: "sun.horizon[]",
        presence: Presence::List(0),
        help: "The far horizon, point by point round the compass; level where none is written.",
    },
    Section {
        path: "sun.shade[]",
        presence: Presence::List(0),
        help: "What shades the panel from nearby; shades that meet multiply.",
    },
    Section {
        path: "sun.extremes",
        presence: Presence::Assumed,
        help: "The worst the weather does, which a typical year leaves out.",
    },
];

const COMPASS: &[Word] = &[
    Word { word: "north", value: "0 deg", source: "compass", certainty: "exact" },
    Word { word: "north-east", value: "45 deg", source: "compass", certainty: "exact" },
    Word { word: "east", value: "90 deg", source: "compass", certainty: "exact" },
    Word { word: "south-east", value: "135 deg", source: "compass", certainty: "exact" },
    Word { word: "south", value: "180 deg", source: "compass", certainty: "exact" },
    Word { word: "south-west", value: "225 deg", source: "compass", certainty: "exact" },
    Word { word: "west", value: "270 deg", source: "compass", certainty: "exact" },
    Word { word: "north-west", value: "315 deg", source: "compass", certainty: "exact" },
];

pub(super) const PARAMETERS: &[Parameter] = super::parts::joined![SITE, MONTHS, SHADE, EXTREMES];

const SITE: &[Parameter] = &[
    parameter(
        "sun.weather",
        Form::Text,
        "The weather file, beside this file or by a path from it; else a place or [sun.months].",
    )
    .absent(),
    parameter(
        "sun.place",
        Form::Text,
        "A place of the catalogue whose monthly means the year is made from, or \"nearest\".",
    )
    .absent(),
    parameter("sun.tilt", Form::Quantity(Kind::Angle), "Slope of the panel from the horizontal.")
        .within("0 deg", "90 deg"),
    parameter(
        "sun.facing",
        Form::Worded(Kind::Angle, COMPASS),
        "Compass direction the panel looks to, clockwise from true north; 180 deg is south.",
    )
    .within("0 deg", "360 deg"),
    parameter(
        "sun.latitude",
        Form::Quantity(Kind::Angle),
        "Latitude, north positive; the weather file's unless written.",
    )
    .within("-90 deg", "90 deg")
    .absent(),
    parameter(
        "sun.longitude",
        Form::Quantity(Kind::Angle),
        "Longitude, east positive; the weather file's unless written.",
    )
    .within("-180 deg", "180 deg")
    .absent(),
    parameter(
        "sun.elevation",
        Form::Quantity(Kind::Length),
        "Height above the sea; the weather file's unless written.",
    )
    .within("-430 m", "6000 m")
    .absent(),
    parameter(
        "sun.clock",
        Form::Quantity(Kind::Time),
        "Standard time ahead of UTC; from the longitude unless written.",
    )
    .within("-12 h", "14 h")
    .absent(),
    parameter(
        "sun.shelter",
        Form::Choice(&["open", "suburban", "hollow"]),
        "How the panel stands to the wind.",
    )
    .assume("suburban", "houses and gardens around, as most roofs stand", "common practice")
    .unknown(Spread {
        low: "hollow",
        middle: "suburban",
        high: "open",
        source: "the three answers themselves",
    }),
    parameter(
        "sun.wind-film",
        Form::Choice(&["mcadams-1954", "watmuff-1977", "mitchell-1976"]),
        "Which relation gives the cover's outside film from the wind.",
    )
    .assume(
        "watmuff-1977",
        "keeps the cover's radiation apart, which is reckoned by itself",
        "from memory",
    ),
    parameter(
        "sun.house-length",
        Form::Quantity(Kind::Length),
        "Cube root of the house's volume, for that relation.",
    )
    .within("3 m", "30 m")
    .assume("8 m", "Mitchell 1976 as textbooks quote it", "from memory")
    .only("wind-film", &["mitchell-1976"]),
    parameter(
        "sun.sky-temperature",
        Form::Choice(&["from-file", "berdahl-martin-1984", "swinbank-1963"]),
        "Where the sky's temperature comes from.",
    )
    .assume(
        "from-file",
        "the weather file's infrared; Berdahl and Martin 1984 where it has none",
        "common practice",
    ),
    parameter(
        "sun.sky-model",
        Form::Choice(&["perez-1990", "hay-davies-1980", "isotropic"]),
        "How diffuse light is put on the tilted plane.",
    )
    .assume(
        "perez-1990",
        "Perez and others 1990, the most compared of the three",
        "common practice",
    ),
    parameter(
        "sun.clouds",
        Form::Choice(&["smooth", "minutes"]),
        "What the sun does within an hour: shine evenly, or come and go with clouds drawn by lot.",
    )
    .assume(
        "smooth",
        "the heat hardly differs by it; how often the pump starts does",
        "common practice",
    ),
    parameter(
        "sun.seed",
        Form::Count,
        "Which clouds, and which days of a made year, are drawn: the same number, the same ones.",
    )
    .within("0", "1000000")
    .assume("1", "any number will do", "arbitrary"),
    parameter(
        "sun.albedo",
        Form::Monthly(Kind::Share),
        "What the ground before the panel sends back, once or by month.",
    )
    .within("0", "1")
    .assume("0.2", "grass and bare ground, Liu and Jordan 1963", "from memory")
    .unknown(Spread {
        low: "0.15",
        middle: "0.2",
        high: "0.3",
        source: "grass, paving, light gravel",
    }),
];

const MONTHS: &[Parameter] = &[
    parameter(
        "sun.months.light",
        Form::Monthly(Kind::DailyIrradiation),
        "Mean daily irradiation of the level ground, twelve values, January first.",
    )
    .within("0 W/m2", "500 W/m2"),
    parameter(
        "sun.months.air",
        Form::Monthly(Kind::Temperature),
        "Mean air over day and night, twelve values.",
    )
    .within("-50 C", "45 C"),
    parameter(
        "sun.months.swing",
        Form::Monthly(Kind::Difference),
        "Mean of the day's warmest less its coldest hour; by the clearness unless written.",
    )
    .within("0 K", "40 K")
    .absent(),
    parameter("sun.months.wind", Form::Monthly(Kind::Speed), "Mean wind 10 m above open ground.")
        .within("0 m/s", "20 m/s")
        .assume(
            "4 m/s",
            "what lowland stations of temperate places have on the mean",
            "from memory",
        )
        .unknown(Spread {
            low: "2.5 m/s",
            middle: "4 m/s",
            high: "5.5 m/s",
            source: "sheltered inland to open coast, from memory",
        }),
];

const SHADE: &[Parameter] = &[
    parameter(
        "sun.horizon[].azimuth",
        Form::Worded(Kind::Angle, COMPASS),
        "Compass direction of the point, clockwise from true north.",
    )
    .within("0 deg", "360 deg"),
    parameter(
        "sun.horizon[].height",
        Form::Quantity(Kind::Angle),
        "How high the horizon stands there, over the level.",
    )
    .within("0 deg", "80 deg"),
    parameter(
        "sun.shade[].days",
        Form::DaySpans,
        "Days on which it falls, month and day from and to, both counted; all unless written.",
    )
    .absent(),
    parameter("sun.shade[].from", Form::Clock, "When it begins, standard time."),
    parameter("sun.shade[].to", Form::Clock, "When it ends, standard time."),
    parameter(
        "sun.shade[].beam",
        Form::Quantity(Kind::Share),
        "Share of the sun's beam it leaves.",
    )
    .within("0", "100 %"),
    parameter(
        "sun.shade[].sky",
        Form::Quantity(Kind::Share),
        "Share of the sky's other light it leaves.",
    )
    .within("0", "100 %")
    .assume("100 %", "a slender thing hides little of the sky", "judgement"),
];

macro_rules! extreme {
    ($key:literal, $kind:expr, $low:literal, $high:literal, $help:literal) => {
        [
            parameter(concat!("sun.extremes.", $key), Form::Quantity($kind), $help)
                .within($low, $high)
                .absent(),
            parameter(
                concat!("sun.extremes.", $key, "-source"),
                Form::Text,
                concat!("Who says so, of `", $key, "`."),
            )
            .absent(),
        ]
    };
}

const COLDEST: &[Parameter] = &extreme!(
    "coldest-night",
    Kind::Temperature,
    "-70 C",
    "25 C",
    "Coldest air to be reckoned with; the weather file's unless written."
);
const HOTTEST: &[Parameter] = &extreme!(
    "hottest-spell",
    Kind::Temperature,
    "5 C",
    "60 C",
    "Hottest air in the shade to be reckoned with; the weather file's unless written."
);
const GUST: &[Parameter] = &extreme!(
    "gust",
    Kind::Speed,
    "5 m/s",
    "120 m/s",
    "Strongest gust to be reckoned with at the panel."
);
const SNOW: &[Parameter] = &extreme!(
    "ground-snow",
    Kind::Pressure,
    "0 kN/m2",
    "50 kN/m2",
    "Characteristic load of snow on the ground."
);

const EXTREMES: &[Parameter] = super::parts::joined![COLDEST, HOTTEST, GUST, SNOW];
