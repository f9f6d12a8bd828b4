//! Sums of a whole panel: a month's share by correlation, and how hot it stands dry.

use design::quantity::Kind;
use physics::panel::dry_heat::{DryTest, dry_heat_k};
use physics::panel::month::{HotWater, Month, month_share};

use super::fault::SumFault;
use super::given::Given;
use super::table::{
    Example, Form, Reckoned, Station, Sum, case, expect, key, of, out, plain, reckoned,
};

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "month",
        station: Station::Panel,
        help: "A month's solar share by correlation, as a second opinion.",
        keys: &[
            of("frul", Kind::Film, "FR UL of the panel; 3 to 8.").within("0 W/m2 K", "100 W/m2 K"),
            of("fr_tau_alpha", Kind::Share, "FR (tau alpha), the sun square on it; 0.6 to 0.8.")
                .within("0", "1"),
            of("penalty", Kind::Share, "Of coil or exchanger; see the sum `coil-penalty`.")
                .within("0", "1"),
            of(
                "angle_ratio",
                Kind::Number,
                "The month's tau alpha over that square on; 0.94 to 0.96.",
            )
            .within("0", "1.1"),
            of("tilted_day", Kind::Irradiation, "Sunlight on the plane in the mean day.")
                .within("0 kWh/m2", "15 kWh/m2"),
            of("ambient", Kind::Temperature, "Outdoor air, day and night.").within("-70 C", "60 C"),
            of("load", Kind::Energy, "Heat wanted in the month.").within("1 J", "1000000000 kWh"),
            of("area", Kind::Area, "Of the panels.").within("0 m2", "1000000 m2"),
            key("days", Form::Count, "Of the month.").within("1", "31"),
            of("store_per_area", Kind::VolumeByArea, "Water in the store by area of panel.")
                .within("37.5 l/m2", "300 l/m2")
                .assume("75 l/m2", "the correlation's own store"),
            of("mains", Kind::Temperature, "Cold water of the month.")
                .within("0 C", "50 C")
                .optional("with hot, where all of the load is hot water"),
            of("hot", Kind::Temperature, "Least temperature at which hot water is good.")
                .within("1 C", "100 C")
                .optional("with mains"),
        ],
        answers: &[
            plain("x", "Loss of a panel at 100 C over the load."),
            plain("y", "Sunlight taken up over the load."),
            plain("share", "Part of the load that the sun meets."),
        ],
        formula: "f = 1.029 Y - 0.065 X - 0.245 Y^2 + 0.0018 X^2 + 0.0215 Y^3",
        source: "Klein, Beckman and Duffie 1976, Solar Energy 18:113; Duffie and Beckman 2006, \
                 sections 20.2 to 20.5",
        valid_range: "X 0 to 18, Y 0 to 3, mixed and lagged stores. A cistern that pre-warms for a \
                      heater behind it is not what it was fitted to: the year is the answer, this \
                      the second opinion",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("frul", "4 W/m2 K"),
                    ("fr_tau_alpha", "0.74"),
                    ("penalty", "0.97"),
                    ("angle_ratio", "0.96"),
                    ("tilted_day", "12.9 MJ/m2"),
                    ("ambient", "-7 C"),
                    ("load", "36000 MJ"),
                    ("area", "50 m2"),
                    ("days", "31"),
                ],
                source: "Duffie and Beckman, Madison in January (MC-01), within their rounding",
                expected: &[
                    case("x", (1.54, 0.01), "MC-01", "x"),
                    case("y", (0.38, 0.005), "MC-01", "y"),
                    case("share", (0.26, 0.006), "MC-01", "f"),
                ],
            },
            Example {
                given: &[
                    ("frul", "4 W/m2 K"),
                    ("fr_tau_alpha", "0.74"),
                    ("penalty", "0.97"),
                    ("angle_ratio", "0.96"),
                    ("tilted_day", "12.9 MJ/m2"),
                    ("ambient", "-7 C"),
                    ("load", "36000 MJ"),
                    ("area", "50 m2"),
                    ("days", "31"),
                    ("mains", "10 C"),
                    ("hot", "60 C"),
                ],
                source: "the same for hot water alone, X 1.28 times as much (MC-05)",
                expected: &[expect("x", 1.971, 0.02)],
            },
        ],
        reckon: month,
    },
    Sum {
        name: "dry-heat",
        station: Station::Panel,
        help: "How hot a panel stands dry in 1000 W/m2 and 30 C, from one measured dry.",
        keys: &[
            of("measured_plate", Kind::Temperature, "The sheet's hottest place.")
                .within("-50 C", "500 C"),
            of("measured_ambient", Kind::Temperature, "Air in the shade.").within("-50 C", "60 C"),
            of("measured_irradiance", Kind::Irradiance, "Sunlight on the panel's plane.")
                .within("500 W/m2", "1400 W/m2"),
        ],
        answers: &[out(
            "stagnation_c",
            (Kind::Temperature, "C", "F"),
            "The sheet in 1000 W/m2 and air of 30 C.",
        )],
        formula: "T = 30 C + (1000 W/m2/G) (Tp - Ta)",
        source: "ISO 9806:2017, standard stagnation temperature (form from memory)",
        valid_range: "After an hour's steady sun without wind, 900 to 1100 W/m2; weaker sun and \
                      colder air make the answer too hot by some kelvin",
        caution: "Caution  A dry panel burns hands and chars wood, foam and hose behind it: measure \
                  with a probe put in place cold. Cold water let into it flashes to steam.",
        examples: &[Example {
            given: &[
                ("measured_plate", "110 C"),
                ("measured_ambient", "20 C"),
                ("measured_irradiance", "900 W/m2"),
            ],
            source: "the rule worked by hand: 30 + 90/0.9",
            expected: &[expect("stagnation_c", 130.0, 1e-9)],
        }],
        reckon: dry_heat,
    },
];

fn month(given: &Given) -> Result<Reckoned, SumFault> {
    let hot_water = match (given.maybe("mains")?, given.maybe("hot")?) {
        (Some(mains_k), Some(hot_k)) => Some(HotWater { mains_k, hot_k }),
        (None, None) => None,
        (Some(_), None) => return Err(SumFault::Missing { wanted: "`hot`, beside `mains`" }),
        (None, Some(_)) => return Err(SumFault::Missing { wanted: "`mains`, beside `hot`" }),
    };
    let answer = month_share(&Month {
        fr_loss_w_m2_k: given.si("frul")?,
        fr_normal_efficiency: given.si("fr_tau_alpha")?,
        exchanger_factor: given.si("penalty")?,
        angle_factor: given.si("angle_ratio")?,
        tilted_day_j_m2: given.si("tilted_day")?,
        ambient_k: given.si("ambient")?,
        load_j: given.si("load")?,
        area_m2: given.si("area")?,
        days: given.count("days")?,
        store_m: given.si("store_per_area")?,
        hot_water,
    })?;
    reckoned([("x", answer.x), ("y", answer.y), ("share", answer.solar_share)])
}

fn dry_heat(given: &Given) -> Result<Reckoned, SumFault> {
    let test = DryTest {
        plate_k: given.si("measured_plate")?,
        ambient_k: given.si("measured_ambient")?,
        irradiance_w_m2: given.si("measured_irradiance")?,
    };
    reckoned([("stagnation_c", dry_heat_k(&test)?)])
}
