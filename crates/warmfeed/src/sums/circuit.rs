//! Sums of the third station: friction, films, harps, what runs by warmth alone.

use design::quantity::Kind;
use physics::circuit::film::{Heating, TubeFlow, nusselt_tube};
use physics::circuit::friction::{FrictionMethod, friction_factor};
use physics::circuit::harp::{Harp, harp_flow};
use physics::circuit::network::Medium;
use physics::circuit::pipe::{Run, head_m, pressure_drop};
use physics::circuit::thermosiphon::{Thermosiphon, thermosiphon};
use physics::matter::fluid::properties;
use physics::panel::HarpConnection;

use super::fault::SumFault;
use super::fluids::{FLUID, SHARE_MASS, SHARE_VOLUME, fluid};
use super::given::Given;
use super::table::{
    Example, Form, Key, Reckoned, Station, Sum, case, expect, key, of, out, plain, reckoned,
};

const PASCAL: (Kind, &str, &str) = (Kind::Pressure, "Pa", "psi");

const METHOD: Key = key(
    "method",
    Form::Choice(&["churchill", "colebrook"]),
    "Whose friction factor: Churchill 1977, or Colebrook and White 1939.",
)
.assume("churchill", "one smooth curve through every regime, as the year is reckoned");
const ROUGHNESS: Key = of("roughness", Kind::Length, "Height of the wall's unevenness.")
    .within("0 mm", "5 mm")
    .assume("1.5 um", "drawn copper tube, textbook figure, from memory");
const BORE: Key = of("bore", Kind::Length, "Inside diameter.").within("0.1 mm", "1 m");
const LENGTH: Key = of("length", Kind::Length, "Length of the pipe.").within("0 m", "10 km");
const FLOW: Key = key("flow", Form::AnyFlow, "What runs, by volume or by mass.");
const WATER_TEMPERATURE: Key =
    of("temperature", Kind::Temperature, "Of the fluid.").within("-60 C", "110 C");

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "friction",
        station: Station::Circuit,
        help: "Darcy's friction factor of a straight round pipe.",
        keys: &[
            of("reynolds", Kind::Number, "Reynolds number on the bore.").within("0.001", "1e9"),
            of("relative_roughness", Kind::Number, "The wall's unevenness over the bore.")
                .within("0", "0.05"),
            METHOD,
        ],
        answers: &[plain("friction_factor", "Darcy's, four times Fanning's.")],
        formula: "f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12),  A = [2.457 ln(1/((7/Re)^0.9 + 0.27 \
                  e/D))]^16,  B = (37530/Re)^16;  or 1/sqrt(f) = -2 log10((e/D)/3.7 + 2.51/(Re sqrt(f)))",
        source: "Churchill 1977; Colebrook 1939 with 64/Re below 2300",
        valid_range: "Between Re 2300 and 4000 flow is not settled: expect anything between both \
                      regimes",
        caution: "",
        examples: &[
            Example {
                given: &[("reynolds", "10000"), ("relative_roughness", "0.00011")],
                source: "a general-purpose fluids library (B-FF-08), to 1e-9",
                expected: &[case(
                    "friction_factor",
                    (0.0311956637, 1e-9),
                    "B-FF-08",
                    "f_churchill1977",
                )],
            },
            Example {
                given: &[
                    ("reynolds", "50000"),
                    ("relative_roughness", "0.00011"),
                    ("method", "colebrook"),
                ],
                source: "the same (B-FF-10)",
                expected: &[case(
                    "friction_factor",
                    (0.0212828641, 1e-9),
                    "B-FF-10",
                    "f_colebrook",
                )],
            },
        ],
        reckon: friction,
    },
    Sum {
        name: "pipe",
        station: Station::Circuit,
        help: "What a flow costs in a pipe: velocity, pressure, head.",
        keys: &[
            BORE,
            LENGTH,
            FLOW,
            FLUID,
            SHARE_MASS,
            SHARE_VOLUME,
            WATER_TEMPERATURE,
            ROUGHNESS,
            of("fittings_k", Kind::Number, "Sum of the fittings' loss figures.")
                .within("0", "100000")
                .assume("0", "a plain pipe"),
            METHOD,
        ],
        answers: &[
            out("velocity_m_s", (Kind::Speed, "m/s", "ft/s"), "Mean velocity."),
            plain("reynolds", "Reynolds number on the bore."),
            plain("friction_factor", "Darcy's."),
            out("pressure_drop_pa", PASCAL, "Pressure lost along the flow."),
            out("head_m", (Kind::Head, "m", "ft"), "The same as metres of the fluid."),
        ],
        formula: "drop = (f L/D + K) rho v^2/2",
        source: "Darcy and Weisbach; the factor as the sum `friction`",
        valid_range: "Full straight pipe; bends and valves by their loss figures",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("bore", "13.6 mm"),
                    ("length", "1 m"),
                    ("flow", "0.05 kg/s"),
                    ("fluid", "water"),
                    ("temperature", "75 C"),
                    ("method", "colebrook"),
                ],
                source: "a general-purpose fluids library (B-CU-01), whose water is 0.02 % thinner \
                         than ours; within 0.1 %",
                expected: &[case("pressure_drop_pa", (131.263159, 0.13), "B-CU-01", "dp_0.05")],
            },
            Example {
                given: &[
                    ("bore", "52.5 mm"),
                    ("length", "10 m"),
                    ("flow", "200 l/min"),
                    ("fluid", "water"),
                    ("temperature", "30 C"),
                    ("roughness", "0 mm"),
                ],
                source: "a printed handbook example (B-CR-01), within 2 %",
                expected: &[
                    case("reynolds", (100_600.0, 2_012.0), "B-CR-01", "Re"),
                    case("friction_factor", (0.0179, 0.00036), "B-CR-01", "f"),
                ],
            },
        ],
        reckon: pipe,
    },
    Sum {
        name: "film",
        station: Station::Circuit,
        help: "Nusselt number between a straight tube's wall and what runs in it.",
        keys: &[
            BORE,
            of("length", Kind::Length, "Length over which heat passes.").within("0.1 mm", "10 km"),
            of("reynolds", Kind::Number, "Reynolds number on the bore.").within("0", "1e6"),
            of("prandtl", Kind::Number, "Prandtl number; water 2 to 13.").within("0.5", "2000"),
            key("heating", Form::Choice(&["even-wall", "even-flux"]), "How heat enters.")
                .assume("even-wall", "a coil in a mixed cistern; even-flux is a tube in the sun"),
        ],
        answers: &[plain("nusselt", "Film coefficient times bore over conductivity.")],
        formula: "laminar: Gnielinski's mean with the entry's help;  Re > 4000: Nu = (f/8)(Re - 1000) \
                  Pr/[1 + 12.7 sqrt(f/8) (Pr^(2/3) - 1)];  a straight line between",
        source: "Gnielinski 1989, 1976 and 2013",
        valid_range: "Re 0 to 1e6, Pr 0.5 to 2000; hot and cold walls are not told apart",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("bore", "13.6 mm"),
                    ("length", "6 m"),
                    ("reynolds", "10000"),
                    ("prandtl", "3"),
                ],
                source: "a general-purpose heat-transfer library (B-NU-04), to 1e-6",
                expected: &[case("nusselt", (57.1063953, 6e-5), "B-NU-04", "Nu")],
            },
            Example {
                given: &[
                    ("bore", "6.8 mm"),
                    ("length", "1.8 m"),
                    ("reynolds", "1000"),
                    ("prandtl", "4"),
                ],
                source: "another author's laminar mean (Hausen, B-NU-07), which lies within 3 %",
                expected: &[case("nusselt", (4.47111445, 0.134), "B-NU-07", "Nu_hausen")],
            },
        ],
        reckon: film,
    },
    Sum {
        name: "harp",
        station: Station::Circuit,
        help: "How evenly the risers between two headers are fed.",
        keys: &[
            key("risers", Form::Count, "How many risers.").within("1", "200"),
            of("riser_bore", Kind::Length, "Inside diameter of a riser.").within("0.1 mm", "1 m"),
            of("riser_length", Kind::Length, "Length of a riser.").within("1 mm", "100 m"),
            of("header_bore", Kind::Length, "Inside diameter of the headers.")
                .within("0.1 mm", "1 m"),
            of("pitch", Kind::Length, "From riser to riser along the headers.")
                .within("1 mm", "10 m"),
            key(
                "connection",
                Form::Choice(&["same-side", "opposite-corner"]),
                "Where the circuit enters and leaves.",
            ),
            FLOW,
            FLUID,
            SHARE_MASS,
            SHARE_VOLUME,
            WATER_TEMPERATURE,
            ROUGHNESS,
            of("riser_k", Kind::Number, "Loss figure of a riser's two ends.")
                .within("0", "1000")
                .assume(RISER_ENDS, "sharp entry 0.5 and the velocity lost 1, as the year reckons"),
        ],
        answers: &[
            plain("flow_share_...", "Part of the flow in each riser, the first next to the inlet."),
            plain("unevenness", "Greatest less least flow in a riser, over the mean."),
            out("pressure_drop_pa", PASCAL, "Pressure lost from port to port."),
        ],
        formula: "round each mesh the losses balance; the risers' flows make up the whole",
        source: "Darcy and Weisbach with Churchill 1977, solved as a network",
        valid_range: "Friction and loss figures; no tees, no recovery of velocity in the headers, \
                      no buoyancy",
        caution: "",
        examples: &[Example {
            given: &[
                ("risers", "8"),
                ("riser_bore", "6.8 mm"),
                ("riser_length", "1.8 m"),
                ("header_bore", "20.2 mm"),
                ("pitch", "140 mm"),
                ("connection", "opposite-corner"),
                ("flow", "0.04 kg/s"),
                ("fluid", "water"),
                ("temperature", "60 C"),
                ("riser_k", "0"),
            ],
            source: "the same network solved by a general-purpose library (B-HP-01: 0.00510606 and \
                     0.00491738 of 0.04 kg/s); within 0.1 %, the fluid's own difference",
            expected: &[
                expect("flow_share_1", 0.127_651_44, 1e-4),
                expect("flow_share_4", 0.122_934_5, 1e-4),
                expect("unevenness", 0.037_735_54, 1e-4),
                case("pressure_drop_pa", (88.0938237, 0.09), "B-HP-01", "dp_total"),
            ],
        }],
        reckon: harp,
    },
    Sum {
        name: "thermosiphon",
        station: Station::Circuit,
        help: "The flow that warmth alone keeps up to a store above the panel.",
        keys: &[
            of("heat", Kind::Power, "What the panel gives to the fluid.").within("1 W", "100 kW"),
            of("cold", Kind::Temperature, "In the cold leg.").within("-60 C", "105 C"),
            of("rise", Kind::Length, "From the panel's inlet up to its outlet.")
                .within("0 m", "20 m"),
            BORE,
            of("hot_leg", Kind::Length, "Length of the hot leg.").within("1 mm", "200 m"),
            of("cold_leg", Kind::Length, "Length of the cold leg.").within("1 mm", "200 m"),
            of("fittings_k", Kind::Number, "Sum of the legs' loss figures.")
                .within("0", "10000")
                .assume("8", "four wide bends and the ports of panel and store; common practice"),
            key("risers", Form::Count, "How many risers side by side.").within("1", "200"),
            of("riser_bore", Kind::Length, "Inside diameter of a riser.").within("0.1 mm", "1 m"),
            of("riser_length", Kind::Length, "Length of a riser.").within("1 mm", "100 m"),
            of("hot_rise", Kind::Length, "From the panel's outlet up to the hot leg's end.")
                .within("0 m", "50 m"),
            ROUGHNESS,
            FLUID.assume("water", "what most such circuits hold"),
            SHARE_MASS,
            SHARE_VOLUME,
        ],
        answers: &[
            out("flow_kg_s", (Kind::MassFlow, "kg/s", "lb/h"), "What runs by itself."),
            out("rise_k", (Kind::Difference, "K", "F diff"), "Hot leg over cold leg."),
            out("drive_pa", PASCAL, "Head of the weights, which friction takes up."),
        ],
        formula: "g [h (rho_c - rho_h) + r (rho_c - rho_m)] = friction;  m = Q/(cp (Th - Tc))",
        source: "Balance of weights and friction: Close 1962, Solar Energy 6:33; friction by \
                 Churchill 1977",
        valid_range: "Steady, lagged legs, headers free of friction; boiling is not looked at, see \
                      the sum `boil`",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("heat", "1200 W"),
                    ("cold", "30 C"),
                    ("rise", "0.9 m"),
                    ("bore", "20.2 mm"),
                    ("hot_leg", "3 m"),
                    ("cold_leg", "4 m"),
                    ("risers", "8"),
                    ("riser_bore", "6.8 mm"),
                    ("riser_length", "1.8 m"),
                    ("hot_rise", "0.6 m"),
                ],
                source: "the balance solved by a general-purpose library (B-TS-01), whose water \
                         has 4180 J/kg K throughout; within 0.5 %",
                expected: &[
                    case("flow_kg_s", (0.0151707536, 7.6e-5), "B-TS-01", "m_dot"),
                    case("rise_k", (18.9233407, 0.095), "B-TS-01", "dT"),
                    case("drive_pa", (70.4205797, 0.35), "B-TS-01", "drive"),
                ],
            },
            Example {
                given: &[
                    ("heat", "1200 W"),
                    ("cold", "30 C"),
                    ("rise", "0.9 m"),
                    ("bore", "13.6 mm"),
                    ("hot_leg", "3 m"),
                    ("cold_leg", "4 m"),
                    ("risers", "8"),
                    ("riser_bore", "6.8 mm"),
                    ("riser_length", "1.8 m"),
                    ("hot_rise", "0.6 m"),
                ],
                source: "the same with narrower legs (B-TS-03), within 0.5 %",
                expected: &[
                    case("flow_kg_s", (0.010538387, 5.3e-5), "B-TS-03", "m_dot"),
                    case("rise_k", (27.2414878, 0.14), "B-TS-03", "dT"),
                ],
            },
        ],
        reckon: by_warmth,
    },
];

/// `RISER_ENDS_K` of the physics as a user would write it; a test holds both together.
const RISER_ENDS: &str = "1.5";

fn method(given: &Given) -> Result<FrictionMethod, SumFault> {
    Ok(match given.word("method")? {
        "colebrook" => FrictionMethod::Colebrook1939,
        _ => FrictionMethod::Churchill1977,
    })
}

fn friction(given: &Given) -> Result<Reckoned, SumFault> {
    let (reynolds, roughness) = (given.si("reynolds")?, given.si("relative_roughness")?);
    reckoned([("friction_factor", friction_factor(method(given)?, reynolds, roughness)?)])
}

fn pipe(given: &Given) -> Result<Reckoned, SumFault> {
    let fluid = properties(fluid(given)?, given.si("temperature")?)?;
    let run = Run {
        bore_m: given.si("bore")?,
        length_m: given.si("length")?,
        roughness_m: given.si("roughness")?,
        fittings_loss: given.si("fittings_k")?,
    };
    let flow_kg_s = given.flow_kg_s("flow", fluid.density_kg_m3)?;
    let flow = pressure_drop(&run, flow_kg_s, &fluid, method(given)?)?;
    reckoned([
        ("velocity_m_s", flow.velocity_m_s),
        ("reynolds", flow.reynolds),
        ("friction_factor", flow.friction_factor),
        ("pressure_drop_pa", flow.drop_pa),
        ("head_m", head_m(fluid.density_kg_m3, flow.drop_pa)),
    ])
}

fn film(given: &Given) -> Result<Reckoned, SumFault> {
    let heating = match given.word("heating")? {
        "even-flux" => Heating::EvenFlux,
        _ => Heating::EvenWall,
    };
    let flow = TubeFlow {
        reynolds: given.si("reynolds")?,
        prandtl: given.si("prandtl")?,
        bore_m: given.si("bore")?,
        length_m: given.si("length")?,
        heating,
    };
    reckoned([("nusselt", nusselt_tube(&flow)?)])
}

fn harp(given: &Given) -> Result<Reckoned, SumFault> {
    let fluid = properties(fluid(given)?, given.si("temperature")?)?;
    let roughness_m = given.si("roughness")?;
    let harp = Harp {
        risers: given.count("risers")?,
        riser: Run {
            bore_m: given.si("riser_bore")?,
            length_m: given.si("riser_length")?,
            roughness_m,
            fittings_loss: given.si("riser_k")?,
        },
        header: Run {
            bore_m: given.si("header_bore")?,
            length_m: given.si("pitch")?,
            roughness_m,
            fittings_loss: 0.0,
        },
        connection: match given.word("connection")? {
            "same-side" => HarpConnection::SameSide,
            _ => HarpConnection::OppositeCorner,
        },
    };
    let flow_kg_s = given.flow_kg_s("flow", fluid.density_kg_m3)?;
    if flow_kg_s <= 0.0 {
        return Err(SumFault::Clash {
            key: "flow",
            says: "a harp that nothing runs through has no shares".to_owned(),
            hint: "give a flow of more than 0",
        });
    }
    let medium = Medium { fluid, method: FrictionMethod::Churchill1977 };
    let flow = harp_flow(&harp, flow_kg_s, &medium)?;
    let mut shares = Reckoned::default();
    for (riser, share) in flow.shares().into_iter().enumerate() {
        shares = shares.and(&format!("flow_share_{}", riser + 1), share);
    }
    Ok(shares.and("unevenness", flow.unevenness()).and("pressure_drop_pa", flow.drop_pa))
}

fn by_warmth(given: &Given) -> Result<Reckoned, SumFault> {
    let legs = Thermosiphon {
        heat_w: given.si("heat")?,
        cold_k: given.si("cold")?,
        panel_rise_m: given.si("rise")?,
        hot_rise_m: given.si("hot_rise")?,
        bore_m: given.si("bore")?,
        roughness_m: given.si("roughness")?,
        hot_leg_m: given.si("hot_leg")?,
        cold_leg_m: given.si("cold_leg")?,
        fittings_loss: given.si("fittings_k")?,
        risers: given.count("risers")?,
        riser_bore_m: given.si("riser_bore")?,
        riser_length_m: given.si("riser_length")?,
    };
    let flow = thermosiphon(&legs, fluid(given)?)?;
    reckoned([("flow_kg_s", flow.flow_kg_s), ("rise_k", flow.rise_k), ("drive_pa", flow.drive_pa)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use design::quantity::parse;
    use physics::circuit::bank::RISER_ENDS_K;

    /// The default as written is the one that the physics names.
    #[test]
    fn the_written_default_is_the_physics_own() {
        assert_eq!(parse(RISER_ENDS, Kind::Number).unwrap().si, RISER_ENDS_K);
    }
}
