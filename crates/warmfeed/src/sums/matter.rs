//! Sums of what things are made of: fluids.

use design::quantity::Kind;
use physics::matter::fluid::{boiling_k, freezing_k, growth, properties};

use super::fault::SumFault;
use super::fluids::{FLUID, SHARE_MASS, SHARE_VOLUME, fluid};
use super::given::Given;
use super::pressure::absolute_pa;
use super::table::{
    Example, Reckoned, Station, Sum, case, expect, of, out, plain, ratio, reckoned,
};

const TEMPERATURE: (Kind, &str, &str) = (Kind::Temperature, "C", "F");

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "fluid",
        station: Station::Matter,
        help: "Water or antifreeze at a temperature.",
        keys: &[
            FLUID,
            SHARE_MASS,
            SHARE_VOLUME,
            of("temperature", Kind::Temperature, "Of the fluid.").within("-60 C", "110 C"),
            of("pressure", Kind::Pressure, "What keeps it from boiling.")
                .within("0.02 bar abs", "20 bar")
                .assume("1 bar", "a circuit under ten metres of water; moves nothing else"),
        ],
        answers: &[
            out("density_kg_m3", (Kind::Density, "kg/m3", "lb/ft3"), "Density."),
            out(
                "heat_capacity_j_kg_k",
                (Kind::SpecificHeat, "J/kg K", "BTU/lb F"),
                "Heat for a kilogram and kelvin.",
            ),
            out("conductivity_w_m_k", (Kind::Conductivity, "W/m K", "BTU/h ft F"), "Conductivity."),
            ratio("viscosity_pa_s", ("Pa s", 1.0), ("lb/ft h", 2_419.088_31), "Dynamic viscosity."),
            plain("prandtl", "Prandtl number."),
            out("freezing_c", TEMPERATURE, "Where the first ice forms; keep 3 K in hand."),
            out("boiling_c", TEMPERATURE, "Where it boils at that pressure."),
        ],
        formula: "water: Kell 1975, Popiel and Wojtkowiak 1998, IAPWS SR6-08;  mixtures: Melinder's \
                  polynomials",
        source: "as named; Melinder 2010, Properties of secondary working fluids",
        valid_range: "From freezing to 110 C (water) or 100 C (mixtures), shares to 60 % by mass; \
                      data sets for the same mixture part by some per cent, in viscosity more",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("fluid", "propylene-glycol"),
                    ("share_mass", "40 %"),
                    ("temperature", "60 C"),
                ],
                source: "a general-purpose property library (A-G-02, A-F-01), to 1e-5",
                expected: &[
                    case("density_kg_m3", (1006.31383, 0.01), "A-G-02", "rho"),
                    case("heat_capacity_j_kg_k", (3833.86629, 0.04), "A-G-02", "cp"),
                    case("conductivity_w_m_k", (0.426510295, 5e-6), "A-G-02", "k"),
                    case("viscosity_pa_s", (0.00128267982, 2e-8), "A-G-02", "mu"),
                    case("freezing_c", (-20.568245, 0.05), "A-F-01", "Tf_40"),
                ],
            },
            Example {
                given: &[("fluid", "water"), ("temperature", "60 C")],
                source: "the same for water at 2 bar abs (A-W-01, A-W-02), within 0.02 and 0.2 %",
                expected: &[
                    case("density_kg_m3", (983.23899, 0.2), "A-W-01", "rho_60C"),
                    case("heat_capacity_j_kg_k", (4184.73419, 8.4), "A-W-02", "cp"),
                    case("conductivity_w_m_k", (0.65105189, 0.0013), "A-W-02", "k"),
                    case("viscosity_pa_s", (0.000466058815, 9.3e-7), "A-W-02", "mu"),
                    expect("freezing_c", 0.0, 1e-9),
                ],
            },
            Example {
                given: &[
                    ("fluid", "propylene-glycol"),
                    ("share_volume", "50 %"),
                    ("temperature", "20 C"),
                    ("pressure", "1.01325 bar abs"),
                ],
                source: "Raoult's law with a general-purpose library's saturation line (A-B-01), \
                         within 0.1 K",
                expected: &[case("boiling_c", (106.249221, 0.1), "A-B-01", "PG50vol")],
            },
        ],
        reckon: fluid_at,
    },
    Sum {
        name: "growth",
        station: Station::Matter,
        help: "By how much a fluid grows when it warms.",
        keys: &[
            FLUID,
            SHARE_MASS,
            SHARE_VOLUME,
            of("cold", Kind::Temperature, "When filled, or at its coldest.")
                .within("-60 C", "110 C"),
            of("hot", Kind::Temperature, "At its hottest.").within("-60 C", "110 C"),
        ],
        answers: &[out("growth_percent", (Kind::Share, "%", "%"), "Of the cold volume.")],
        formula: "e = rho(cold)/rho(hot) - 1",
        source: "densities by Kell 1975 (water) and Melinder 2010 (mixtures)",
        valid_range: "As the sum `fluid`; steam pushes out far more",
        caution: "",
        examples: &[
            Example {
                given: &[("fluid", "water"), ("cold", "10 C"), ("hot", "90 C")],
                source: "a general-purpose property library at 2 bar abs (A-W-04), within 1 %",
                expected: &[case("growth_percent", (3.5629243, 0.036), "A-W-04", "growth")],
            },
            Example {
                given: &[
                    ("fluid", "propylene-glycol"),
                    ("share_mass", "40 %"),
                    ("cold", "10 C"),
                    ("hot", "90 C"),
                ],
                source: "the same (A-X-01), within 2 %",
                expected: &[case("growth_percent", (5.43466766, 0.108), "A-X-01", "growth")],
            },
        ],
        reckon: growth_of,
    },
];

fn fluid_at(given: &Given) -> Result<Reckoned, SumFault> {
    let fluid = fluid(given)?;
    let temperature_k = given.si("temperature")?;
    let boils_k = boiling_k(fluid, absolute_pa(given.si("pressure")?))?;
    let properties = properties(fluid, temperature_k)?;
    if temperature_k > boils_k {
        return Err(SumFault::Clash {
            key: "temperature",
            says: format!(
                "at this pressure the fluid boils at {:.1} C",
                boils_k - physics::ZERO_CELSIUS_K
            ),
            hint: "give a cooler fluid, or a higher pressure",
        });
    }
    reckoned([
        ("density_kg_m3", properties.density_kg_m3),
        ("heat_capacity_j_kg_k", properties.heat_capacity_j_kg_k),
        ("conductivity_w_m_k", properties.conductivity_w_m_k),
        ("viscosity_pa_s", properties.viscosity_pa_s),
        ("prandtl", properties.prandtl()),
        ("freezing_c", freezing_k(fluid)?),
        ("boiling_c", boils_k),
    ])
}

fn growth_of(given: &Given) -> Result<Reckoned, SumFault> {
    reckoned([("growth_percent", growth(fluid(given)?, given.si("cold")?, given.si("hot")?)?)])
}
