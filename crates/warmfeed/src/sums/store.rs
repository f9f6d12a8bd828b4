//! Sums of the fourth station: the coil, what it costs, how a cistern cools.

use design::quantity::Kind;
use physics::matter::fluid::properties;
use physics::panel::Tube;
use physics::panel::array::{ExchangerLoop, exchanger_factor_de_winter_1975};
use physics::store::coil::{coil_conductance, effectiveness};
use physics::store::cooling::{Cooling, cooled_k, water_capacity_j_k};
use physics::store::{Coil, CoilDirection};

use super::fault::SumFault;
use super::fluids::{FLUID, SHARE_MASS, SHARE_VOLUME, fluid};
use super::given::Given;
use super::table::{Example, Form, Reckoned, Station, Sum, case, key, of, out, plain, reckoned};

const FILM: (Kind, &str, &str) = (Kind::Film, "W/m2 K", "BTU/h ft2 F");

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "coil",
        station: Station::Store,
        help: "What a coil in still water passes on.",
        keys: &[
            of("outside", Kind::Length, "Outside diameter of the tube.").within("1 mm", "200 mm"),
            of("bore", Kind::Length, "Inside diameter.").within("1 mm", "200 mm"),
            of("length", Kind::Length, "Length under water.").within("1 cm", "1000 m"),
            key("flow", Form::AnyFlow, "What runs, by volume or by mass."),
            FLUID,
            SHARE_MASS,
            SHARE_VOLUME,
            of("inside", Kind::Temperature, "Mean of the fluid in the coil.")
                .within("-60 C", "110 C"),
            of("store", Kind::Temperature, "Water around the coil.").within("0 C", "110 C"),
            of("wall_conductivity", Kind::Conductivity, "Of the tube's wall.")
                .within("0.01 W/m K", "1000 W/m K")
                .assume("340 W/m K", "phosphorus-deoxidised copper, handbook figure, from memory"),
            of("turn", Kind::Length, "Diameter of a turn, middle to middle.")
                .within("20 mm", "10 m")
                .optional("without it the tube lies straight"),
        ],
        answers: &[
            out("film_inside_w_m2_k", FILM, "From fluid to wall, on the bore."),
            out("film_outside_w_m2_k", FILM, "From wall to water, on the outside."),
            out("ua_w_k", (Kind::Conductance, "W/K", "BTU/h F"), "The whole coil."),
            plain("effectiveness", "Heat passed on over the most that could be."),
        ],
        formula: "1/UA = 1/(hi pi Di L) + ln(Do/Di)/(2 pi k L) + 1/(ho pi Do L);  e = 1 - exp(-UA/C)",
        source: "inside Gnielinski, wound Schmidt 1967; outside Churchill and Chu 1975",
        valid_range: "Smooth tube lying alone in still water: published films outside part by a \
                      factor of two, tight turns get 10 to 25 % less",
        caution: "",
        examples: &[Example {
            given: &[
                ("outside", "15 mm"),
                ("bore", "13.6 mm"),
                ("length", "6 m"),
                ("flow", "0.04 kg/s"),
                ("fluid", "water"),
                ("inside", "55 C"),
                ("store", "30 C"),
            ],
            source: "a general-purpose heat-transfer library with its own properties (C-01), \
                     within 1 %",
            expected: &[
                case("film_inside_w_m2_k", (2138.67205, 21.0), "C-01", "h_in"),
                case("film_outside_w_m2_k", (896.626542, 8.9), "C-01", "h_out"),
                case("ua_w_k", (173.125907, 1.7), "C-01", "UA"),
                case("effectiveness", (0.644690225, 0.0064), "C-01", "effectiveness"),
            ],
        }],
        reckon: coil,
    },
    Sum {
        name: "coil-penalty",
        station: Station::Store,
        help: "What a coil between panel and store costs.",
        keys: &[
            of("ua", Kind::Conductance, "The coil.").within("0.001 W/K", "1000000 W/K"),
            of("capacity_rate", Kind::Conductance, "Flow times heat capacity in the circuit.")
                .within("0.001 W/K", "10000000 W/K"),
            of("frul", Kind::Film, "FR U of the panels.").within("0 W/m2 K", "100 W/m2 K"),
            of("area", Kind::Area, "Area of the panels.").within("0.001 m2", "10000 m2"),
        ],
        answers: &[
            plain("effectiveness", "Heat passed on over the most that could be."),
            plain("penalty", "Gain with the coil over gain without one, FR'/FR."),
        ],
        formula: "FR'/FR = 1/[1 + (A FR U/C) (1/e - 1)],  e = 1 - exp(-UA/C)",
        source: "de Winter 1975, Solar Energy 17:335; Duffie and Beckman 2006, eq. 10.2.3",
        valid_range: "A mixed store, which is the larger side of the exchanger",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("ua", "80 W/K"),
                    ("capacity_rate", "114 W/K"),
                    ("frul", "5 W/m2 K"),
                    ("area", "2 m2"),
                ],
                source: "the equation worked apart (C-12), to 1e-6",
                expected: &[
                    case("effectiveness", (0.504285135, 5e-7), "C-12", "effectiveness"),
                    case("penalty", (0.920616595, 9e-7), "C-12", "FRp_over_FR"),
                ],
            },
            Example {
                given: &[
                    ("ua", "300 W/K"),
                    ("capacity_rate", "114 W/K"),
                    ("frul", "5 W/m2 K"),
                    ("area", "2 m2"),
                ],
                source: "the same with a larger coil (C-14), to 1e-6",
                expected: &[case("penalty", (0.993243741, 1e-6), "C-14", "FRp_over_FR")],
            },
        ],
        reckon: coil_penalty,
    },
    Sum {
        name: "cooling",
        station: Station::Store,
        help: "How far a store left alone cools.",
        keys: &[
            of("volume", Kind::Volume, "Water in it.").within("0.1 l", "100000 l"),
            of("ua", Kind::Conductance, "What it loses for each kelvin.")
                .within("0 W/K", "10000 W/K"),
            of("start", Kind::Temperature, "Where it begins.").within("0 C", "110 C"),
            of("ambient", Kind::Temperature, "Air around it.").within("-60 C", "110 C"),
            of("hours", Kind::Time, "How long.").within("0 h", "100 d"),
        ],
        answers: &[out("temperature_c", (Kind::Temperature, "C", "F"), "After that time.")],
        formula: "T = Ts + (T0 - Ts) exp(-UA t/C)",
        source: "Newton's law of cooling, exact for one even temperature",
        valid_range: "A mixed store with a close lid; layers lose a little more, vapour much more",
        caution: "Caution  Water between 20 and 45 C grows bacteria.",
        examples: &[Example {
            given: &[
                ("volume", "203.28 l"),
                ("ua", "2 W/K"),
                ("start", "60 C"),
                ("ambient", "10 C"),
                ("hours", "24 h"),
            ],
            source: "the law worked apart for 200 kg and 4180 J/kg K (ST-04); our water of 60 C \
                     holds 0.1 to 0.2 % more heat, hence 0.02 K",
            expected: &[case("temperature_c", (50.663, 0.02), "ST-04", "t_c")],
        }],
        reckon: cooling,
    },
];

fn coil(given: &Given) -> Result<Reckoned, SumFault> {
    let fluid = fluid(given)?;
    let inside_k = given.si("inside")?;
    let inside = properties(fluid, inside_k)?;
    let flow_kg_s = given.flow_kg_s("flow", inside.density_kg_m3)?;
    let coil = Coil {
        tube: Tube {
            outside_m: given.si("outside")?,
            bore_m: given.si("bore")?,
            conductivity_w_m_k: given.si("wall_conductivity")?,
            // What a steady film does not ask for.
            density_kg_m3: 0.0,
            heat_capacity_j_kg_k: 0.0,
            roughness_m: 0.0,
        },
        length_m: given.si("length")?,
        bottom_height_m: 0.0,
        top_height_m: 0.0,
        turn_diameter_m: given.maybe("turn")?.unwrap_or(f64::INFINITY),
        direction: CoilDirection::Down,
        fins: None,
    };
    let film = coil_conductance(&coil, fluid, flow_kg_s, inside_k, given.si("store")?)?;
    let rate_w_k = flow_kg_s * inside.heat_capacity_j_kg_k;
    reckoned([
        ("film_inside_w_m2_k", film.inside_w_m2_k),
        ("film_outside_w_m2_k", film.outside_w_m2_k),
        ("ua_w_k", film.ua_w_k),
        ("effectiveness", effectiveness(film.ua_w_k, rate_w_k)?),
    ])
}

fn coil_penalty(given: &Given) -> Result<Reckoned, SumFault> {
    let rate_w_k = given.si("capacity_rate")?;
    let effectiveness = effectiveness(given.si("ua")?, rate_w_k)?;
    let penalty = exchanger_factor_de_winter_1975(&ExchangerLoop {
        panel_loss_w_k: given.si("frul")? * given.si("area")?,
        panel_rate_w_k: rate_w_k,
        store_rate_w_k: f64::INFINITY,
        effectiveness,
    })?;
    reckoned([("effectiveness", effectiveness), ("penalty", penalty)])
}

fn cooling(given: &Given) -> Result<Reckoned, SumFault> {
    let start_k = given.si("start")?;
    let store = Cooling {
        capacity_j_k: water_capacity_j_k(given.si("volume")?, start_k)?,
        loss_w_k: given.si("ua")?,
        start_k,
        surroundings_k: given.si("ambient")?,
    };
    reckoned([("temperature_c", cooled_k(&store, given.si("hours")?)?)])
}
