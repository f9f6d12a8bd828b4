//! Sums of the third station on pressure: boiling, vessels, shut pipes and their trials.

use design::quantity::Kind;
use physics::circuit::boiling::{boil_at, boil_below};
use physics::circuit::pressure_trial::{PressureTrial, Reading, lost_m3, tight_pressure_pa};
use physics::circuit::sealed::{Filling, PipeMaterial, ShutPipe, pipe_compliance_1_pa, sealed};
use physics::circuit::vessel::{VesselNeed, vessel};
use physics::matter::fluid::Fluid;
use physics::matter::pressed::pressed_water;

use super::fault::SumFault;
use super::fluids::{FLUID, SHARE_MASS, SHARE_VOLUME, fluid};
use super::given::Given;
use super::table::{
    Example, Form, Key, Reckoned, Station, Sum, case, expect, key, of, out, ratio, reckoned,
};

const OUTSIDE: Key =
    of("outside", Kind::Length, "Outside diameter of the pipe.").within("1 mm", "1 m");
const WALL: Key = of("wall", Kind::Length, "Thickness of its wall.").within("0.05 mm", "200 mm");
const MATERIAL: Key =
    key("material", Form::Choice(&["copper", "crosslinked-polyethylene"]), "What it is made of.")
        .assume("copper", "the usual pipe: 120 GPa, 0.34, 16.8e-6 1/K, handbook values");
const ELASTICITY: Key = of("elasticity", Kind::Pressure, "Young's modulus of the pipe.")
    .within("1 MPa", "1000 GPa")
    .optional("without it the material's own; plastics part several-fold by grade and warmth");

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "boil",
        station: Station::Circuit,
        help: "Where the fluid boils, by pressure or below an open water level.",
        keys: &[
            of("pressure", Kind::Pressure, "Pressure there.")
                .within("0.02 bar abs", "100 bar")
                .optional("this, or head"),
            of("head", Kind::Head, "Height of the open water level over the point.")
                .within("-10 m", "500 m")
                .optional("in place of pressure"),
            of("altitude", Kind::Length, "Of the place, with head.")
                .within("-500 m", "9000 m")
                .optional("with head; without it the sea's level"),
            FLUID.assume("water", "plain water boils first"),
            SHARE_MASS,
            SHARE_VOLUME,
        ],
        answers: &[
            out("boiling_c", (Kind::Temperature, "C", "F"), "Where it boils."),
            out(
                "pressure_bar_abs",
                (Kind::Pressure, "bar abs", "psi abs"),
                "Pressure there, from vacuum.",
            ),
        ],
        formula: "p = p_air(altitude) + rho g h,  y p_sat(T) = p",
        source: "IAPWS saturation line; Raoult's law for mixtures; the standard atmosphere",
        valid_range: "Mixtures to 1 K as screening; weather moves the air's pressure by 3 %",
        caution: "Caution  Steam scalds and pushes with all the pressure that stands on it. A panel \
                  without flow passes this temperature on a bright day: let steam out where nobody \
                  stands, and never shut off an open vent.",
        examples: &[
            Example {
                given: &[("head", "2 m")],
                source: "a general-purpose property library (D-08), within 0.05 K",
                expected: &[case("boiling_c", (105.000222, 0.05), "D-08", "T_2m")],
            },
            Example {
                given: &[("head", "1 m"), ("altitude", "2000 m")],
                source: "the same at 2000 m (D-10), within 0.1 K",
                expected: &[case("boiling_c", (96.4682249, 0.1), "D-10", "T_boil")],
            },
            Example {
                given: &[("pressure", "2 bar abs")],
                source: "the same (A-W-05), within 0.05 K",
                expected: &[
                    case("boiling_c", (120.210091, 0.05), "A-W-05", "Tsat_2.0bar"),
                    expect("pressure_bar_abs", 2.0, 1e-12),
                ],
            },
        ],
        reckon: boil,
    },
    Sum {
        name: "vessel",
        station: Station::Circuit,
        help: "The least expansion vessel of a sealed circuit, and its pre-charge.",
        keys: &[
            of("contents", Kind::Volume, "All the fluid, cold.").within("0.1 l", "10000 l"),
            key("growth_percent", Form::Percent, "Growth from cold to hot; see the sum `growth`.")
                .within("0", "30"),
            of(
                "steam",
                Kind::Volume,
                "What steam may push out: panels and pipe it can reach; 0 l.",
            )
            .within("0 l", "1000 l"),
            of("head_pressure", Kind::Pressure, "Of the column up to the highest point, by gauge.")
                .within("0 bar", "20 bar"),
            of("relief", Kind::Pressure, "Where the relief valve opens, by gauge.")
                .within("0.5 bar", "20 bar"),
            of("margin", Kind::Pressure, "Held over the column when cold.")
                .within("0 bar", "5 bar")
                .assume(PRECHARGE_MARGIN, "practice for circuits that may boil, from memory"),
        ],
        answers: &[
            out("vessel_l", (Kind::Volume, "l", "US gal"), "Least volume; take the next larger."),
            out("precharge_bar", (Kind::Pressure, "bar", "psi"), "Gas before any fluid, by gauge."),
            out("end_bar", (Kind::Pressure, "bar", "psi"), "When hot, by gauge."),
            out("growth_l", (Kind::Volume, "l", "US gal"), "What the fluid grows by."),
            out("reserve_l", (Kind::Volume, "l", "US gal"), "Held back for leaks."),
        ],
        formula: "V = (Ve + Vr + Vsteam) (pe + 1 bar)/(pe - p0)",
        source: "the form of EN 12828's annex with the steam term of solar practice; common \
                 practice, from memory",
        valid_range: "A relief valve that opens above the pre-charge by more than its own margin",
        caution: "Caution  A sealed circuit without a working relief valve bursts. Local code and \
                  the valve's maker decide; the valve's outlet must stay open.",
        examples: &[
            Example {
                given: &[
                    ("contents", "20 l"),
                    ("growth_percent", "6.25"),
                    ("steam", "2.5 l"),
                    ("head_pressure", "0.6 bar"),
                    ("relief", "3 bar"),
                ],
                source: "the rule worked apart (D-02), to 1e-6",
                expected: &[
                    case("vessel_l", (16.875, 2e-5), "D-02", "V_nominal"),
                    case("precharge_bar", (1.1, 1e-6), "D-02", "p0"),
                    case("end_bar", (2.5, 1e-6), "D-02", "p_end"),
                    case("growth_l", (1.25, 1e-6), "D-02", "V_expansion"),
                    case("reserve_l", (3.0, 1e-6), "D-02", "V_reserve"),
                ],
            },
            Example {
                given: &[
                    ("contents", "15 l"),
                    ("growth_percent", "6.25 %"),
                    ("steam", "0 l"),
                    ("head_pressure", "0.5 bar"),
                    ("relief", "3 bar"),
                    ("margin", "0.3 bar"),
                ],
                source: "the same without steam (D-04), to 1e-6",
                expected: &[case("vessel_l", (8.10661765, 1e-5), "D-04", "V_nominal")],
            },
        ],
        reckon: sized_vessel,
    },
    Sum {
        name: "sealed",
        station: Station::Circuit,
        help: "How hard a shut, full pipe presses as it warms.",
        keys: &[
            OUTSIDE,
            WALL,
            of("temperature", Kind::Temperature, "Of pipe and water.").within("0 C", "110 C"),
            MATERIAL,
            ELASTICITY,
            of("trapped_air", Kind::Share, "Share of the contents that is air.")
                .within("0", "50 %")
                .assume("0", "vented to the last bubble, the hardest case"),
            of("pressure", Kind::Pressure, "In the pipe.")
                .within("0.1 bar abs", "49 bar")
                .assume("6 bar abs", "about a trial's pressure"),
        ],
        answers: &[ratio(
            "bar_per_k",
            ("bar/K", 1e-5),
            ("psi/F", 5.0 / 9.0 / 6_894.757_293_168_361),
            "Rise for each kelvin; negative where the pipe outgrows the water.",
        )],
        formula: "dp/dT = [(1 - s) beta + s/T - 3 alpha]/[(1 - s) kappa + s/p + c],  c = (d/(t E)) \
                  (5/4 - nu)",
        source: "Balance of volumes; thin pipe with closed ends, as pipeline trials reckon it; water \
                 by Kell 1975",
        valid_range: "Small changes; walls thinner than a tenth of the bore",
        caution: "Caution  A full pipe between two shut valves passes any pipe's limit within a few \
                  kelvin and bursts or pushes its joints apart. Never shut a panel off full: a way \
                  to the relief valve or the open vent must stay open.",
        examples: &[
            Example {
                given: &[("outside", "15 mm"), ("wall", "0.7 mm"), ("temperature", "20 C")],
                source: "the same balance with a general-purpose library's water (D-13), within \
                         0.2 %",
                expected: &[case("bar_per_k", (2.59456565, 0.0052), "D-13", "dp_dT")],
            },
            Example {
                given: &[
                    ("outside", "16 mm"),
                    ("wall", "2 mm"),
                    ("temperature", "20 C"),
                    ("material", "crosslinked-polyethylene"),
                ],
                source: "plastic outgrows cold water (D-15), within 0.2 %",
                expected: &[case("bar_per_k", (-0.286650718, 0.0006), "D-15", "dp_dT")],
            },
        ],
        reckon: shut,
    },
    Sum {
        name: "pressure-trial",
        station: Station::Circuit,
        help: "What a tight loop would show after a change of warmth, and what is gone.",
        keys: &[
            of("start_pressure", Kind::Pressure, "First reading.").within("0.1 bar abs", "49 bar"),
            of("start_temperature", Kind::Temperature, "Of the loop then.").within("0 C", "110 C"),
            of("end_pressure", Kind::Pressure, "Second reading.").within("0.1 bar abs", "49 bar"),
            of("end_temperature", Kind::Temperature, "Of the loop then.").within("0 C", "110 C"),
            of("contents", Kind::Volume, "Water in the loop.").within("1 ml", "10000 l"),
            of("trapped_air", Kind::Volume, "Air in it at the first reading.")
                .within("0 l", "1000 l")
                .assume("0 l", "vented to the last bubble, the hardest case"),
            OUTSIDE.assume("15 mm", "the usual pipe"),
            WALL.assume("0.7 mm", "the usual pipe"),
            MATERIAL,
            ELASTICITY,
        ],
        answers: &[
            out(
                "expected_bar_abs",
                (Kind::Pressure, "bar abs", "psi abs"),
                "A tight loop at the second temperature, from vacuum.",
            ),
            out(
                "expected_bar_gauge",
                (Kind::Pressure, "bar gauge", "psi gauge"),
                "The same by gauge.",
            ),
            ratio(
                "lost_ml",
                ("ml", 1e6),
                ("fl oz", 33_814.022_7),
                "Water gone; negative where more air is in it than was said.",
            ),
        ],
        formula: "Vw (1 + beta dT - kappa dp) + Va (p1/p2) (T2/T1) = (Vw + Va) (1 + 3 alpha dT + c \
                  dp)",
        source: "Balance of volumes, the air an ideal gas; water of the mean temperature by Kell 1975",
        valid_range: "Changes of some ten kelvin, in a loop of one pipe. Half a kelvin of doubt is \
                      worth more than 1 bar in an air-free copper loop",
        caution: "Caution  Try with water, never with air: a joint that lets go under compressed air \
                  throws its parts. Stand clear while pressure rises, keep under the weakest part's \
                  own limit, and let the pressure off before touching a joint.",
        examples: &[Example {
            given: &[
                ("start_pressure", "7 bar abs"),
                ("start_temperature", "20 C"),
                ("end_pressure", "4.70819718 bar abs"),
                ("end_temperature", "10 C"),
                ("contents", "10 l"),
                ("trapped_air", "0.02 l"),
            ],
            source: "the balance solved apart with a general-purpose library's water of the mean \
                     (D-16), within 0.05 %; at that pressure nothing is gone, within 0.02 ml",
            expected: &[
                case("expected_bar_abs", (4.70819718, 0.0024), "D-16", "p2"),
                expect("expected_bar_gauge", 3.69494718, 0.0024),
                expect("lost_ml", 0.0, 0.02),
            ],
        }],
        reckon: trial,
    },
];

/// `PRECHARGE_MARGIN_PA` of the physics as a user would write it; a test holds both together.
const PRECHARGE_MARGIN: &str = "0.5 bar";

fn boil(given: &Given) -> Result<Reckoned, SumFault> {
    let fluid: Fluid = fluid(given)?;
    let boil = match (given.maybe("pressure")?, given.maybe("head")?) {
        // Kept apart, so that nobody takes a gauge's reading on a mountain for one at the sea.
        (Some(_), None) if given.has("altitude") => {
            return Err(SumFault::Clash {
                key: "altitude",
                says: "the altitude goes with `head`; a pressure is taken over 101325 Pa"
                    .to_owned(),
                hint: "leave it out, and give the pressure as `bar abs` on high ground",
            });
        }
        (Some(gauge_pa), None) => boil_at(fluid, absolute_pa(gauge_pa))?,
        (None, Some(head_m)) => boil_below(fluid, head_m, given.maybe("altitude")?.unwrap_or(0.0))?,
        (Some(_), Some(_)) => {
            return Err(SumFault::Clash {
                key: "head",
                says: "`head` and `pressure` say the same thing twice".to_owned(),
                hint: "leave one of them out",
            });
        }
        (None, None) => return Err(SumFault::Missing { wanted: "`pressure`, or `head`" }),
    };
    reckoned([("boiling_c", boil.boils_k), ("pressure_bar_abs", gauge_pa(boil.pressure_pa))])
}

fn sized_vessel(given: &Given) -> Result<Reckoned, SumFault> {
    let need = VesselNeed {
        contents_m3: given.si("contents")?,
        growth_share: given.si("growth_percent")?,
        steam_m3: given.si("steam")?,
        column_pa: given.si("head_pressure")?,
        margin_pa: given.si("margin")?,
        relief_pa: given.si("relief")?,
    };
    let vessel = vessel(&need)?;
    reckoned([
        ("vessel_l", vessel.vessel_m3),
        ("precharge_bar", vessel.precharge_pa),
        ("end_bar", vessel.end_pa),
        ("growth_l", vessel.growth_m3),
        ("reserve_l", vessel.reserve_m3),
    ])
}

fn pipe(given: &Given) -> Result<ShutPipe, SumFault> {
    let named = match given.word("material")? {
        "crosslinked-polyethylene" => PipeMaterial::CROSSLINKED_POLYETHYLENE,
        _ => PipeMaterial::COPPER,
    };
    let elasticity_pa = given.maybe("elasticity")?.unwrap_or(named.elasticity_pa);
    Ok(ShutPipe {
        outside_m: given.si("outside")?,
        wall_m: given.si("wall")?,
        material: PipeMaterial { elasticity_pa, ..named },
    })
}

fn shut(given: &Given) -> Result<Reckoned, SumFault> {
    let temperature_k = given.si("temperature")?;
    let pressure_pa = absolute_pa(given.si("pressure")?);
    let filling = Filling {
        water: pressed_water(temperature_k, pressure_pa)?,
        air_share: given.si("trapped_air")?,
        pressure_pa,
        temperature_k,
    };
    reckoned([("bar_per_k", sealed(&pipe(given)?, &filling)?.rise_pa_k)])
}

fn trial(given: &Given) -> Result<Reckoned, SumFault> {
    let pipe = pipe(given)?;
    let reading = |pressure, temperature| -> Result<Reading, SumFault> {
        Ok(Reading {
            pressure_pa: absolute_pa(given.si(pressure)?),
            temperature_k: given.si(temperature)?,
        })
    };
    let start = reading("start_pressure", "start_temperature")?;
    let end = reading("end_pressure", "end_temperature")?;
    let mean_k = 0.5 * (start.temperature_k + end.temperature_k);
    let trial = PressureTrial {
        water_m3: given.si("contents")?,
        air_m3: given.si("trapped_air")?,
        water: pressed_water(mean_k, 0.5 * (start.pressure_pa + end.pressure_pa))?,
        pipe_expansion_1_k: pipe.material.expansion_1_k,
        pipe_compliance_1_pa: pipe_compliance_1_pa(&pipe)?,
        start,
    };
    let expected_pa = gauge_pa(tight_pressure_pa(&trial, end.temperature_k)?);
    reckoned([
        ("expected_bar_abs", expected_pa),
        ("expected_bar_gauge", expected_pa),
        ("lost_ml", lost_m3(&trial, &end)?),
    ])
}

/// The atmosphere over which a gauge's pressure is counted \[Pa\].
const ATMOSPHERE_PA: f64 = 101_325.0;

/// A gauge's pressure counted from vacuum \[Pa\].
pub fn absolute_pa(gauge_pa: f64) -> f64 {
    gauge_pa + ATMOSPHERE_PA
}

/// A pressure from vacuum as a gauge shows it \[Pa\].
pub fn gauge_pa(absolute_pa: f64) -> f64 {
    absolute_pa - ATMOSPHERE_PA
}

#[cfg(test)]
mod tests {
    use super::*;
    use design::quantity::parse;
    use physics::circuit::vessel::PRECHARGE_MARGIN_PA;

    /// The default as written is the one that the physics names.
    #[test]
    fn the_written_default_is_the_physics_own() {
        assert_eq!(parse(PRECHARGE_MARGIN, Kind::Pressure).unwrap().si, PRECHARGE_MARGIN_PA);
    }
}
