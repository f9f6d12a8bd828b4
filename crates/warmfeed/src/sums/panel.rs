//! Sums of the second station: sheet and tubes, gap, cover, what leaves upwards.

use design::quantity::Kind;
use physics::panel::Cover;
use physics::panel::fin::{
    FinAndTube, f_prime, fin_efficiency, fin_parameter_1_m, flow_factor, heat_removal_parallel,
};
use physics::panel::gap::{Gap, gap_film_w_m2_k, gap_rayleigh, nusselt};
use physics::panel::optics::transmission;
use physics::panel::top_loss::{TopLoss, top_loss};

use super::fault::SumFault;
use super::given::Given;
use super::table::{
    Example, Form, Key, Reckoned, Station, Sum, case, expect, key, of, out, plain, ratio, reckoned,
};

const FILM: (Kind, &str, &str) = (Kind::Film, "W/m2 K", "BTU/h ft2 F");

const FLUX: (Kind, &str, &str) = (Kind::Irradiance, "W/m2", "BTU/h ft2");

const SPACING: Key = of("spacing", Kind::Length, "Between neighbouring tubes, middle to middle.")
    .within("1 mm", "2 m");
const OUTSIDE: Key =
    of("outside", Kind::Length, "Outside diameter of the tube.").within("0.1 mm", "1 m");
const BORE: Key = of("bore", Kind::Length, "Inside diameter of the tube.").within("0.1 mm", "1 m");
const THICKNESS: Key =
    of("thickness", Kind::Length, "Thickness of the sheet.").within("0.001 mm", "100 mm");
const CONDUCTIVITY: Key =
    of("conductivity", Kind::Conductivity, "Of the sheet; 340 W/m K tube copper, 200 aluminium.")
        .within("0.001 W/m K", "10000 W/m K");
const LOSS: Key =
    of("loss", Kind::Film, "What the sheet loses, all ways; 5 to 9 W/m2 K under one pane.")
        .within("0 W/m2 K", "1000 W/m2 K");
const TILT: Key = of("tilt", Kind::Angle, "Slope of the panel.").within("0 deg", "90 deg");

const FIN_ANSWER: super::Answer =
    plain("fin_efficiency", "Heat the sheet brings, over that of an ideal conductor.");

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "fin",
        station: Station::Panel,
        help: "How well the sheet between two tubes hands its heat to them.",
        keys: &[SPACING, OUTSIDE, THICKNESS, CONDUCTIVITY, LOSS],
        answers: &[
            FIN_ANSWER,
            ratio(
                "fin_parameter_1_m",
                ("1/m", 1.0),
                ("1/ft", 0.3048),
                "How fast the sheet's excess fades.",
            ),
        ],
        formula: "F = tanh(x)/x,  x = m (W - D)/2,  m = sqrt(U/(k d))",
        source: "Duffie and Beckman 2006, eq. 6.5.4a and 6.5.12",
        valid_range: "Spacing above the tube's outside, loss 0 to 1000 W/m2 K",
        caution: "",
        examples: &[Example {
            given: &[
                ("spacing", "150 mm"),
                ("outside", "10 mm"),
                ("thickness", "0.5 mm"),
                ("conductivity", "385 W/m K"),
                ("loss", "8 W/m2 K"),
            ],
            source: "Duffie and Beckman, example 6.5.1 (FN-01), to its last figure",
            expected: &[
                case("fin_efficiency", (0.937, 0.001), "FN-01", "fin_eff"),
                case("fin_parameter_1_m", (6.45, 0.01), "FN-01", "m_per_m"),
            ],
        }],
        reckon: fin,
    },
    Sum {
        name: "collector",
        station: Station::Panel,
        help: "What reaches the fluid: efficiency factor F' and heat removal factor FR.",
        keys: &[
            SPACING,
            OUTSIDE,
            BORE,
            THICKNESS,
            CONDUCTIVITY,
            LOSS,
            of("film", Kind::Film, "From tube wall to fluid; 200 to 1500 W/m2 K.")
                .within("0.001 W/m2 K", "1000000 W/m2 K"),
            of("bond", Kind::Conductivity, "Conductance of the bond for a metre of tube.")
                .within("0.001 W/m K", "1000000 W/m K")
                .optional("without it the bond is perfect; solder has 30 W/m K and more"),
            of("wall_conductivity", Kind::Conductivity, "Of the tube's wall.")
                .within("0.001 W/m K", "10000 W/m K")
                .optional("without it the wall is left out"),
            of("area", Kind::Area, "Area of all the sheet.").within("0.001 m2", "10000 m2"),
            of("capacity_rate", Kind::Conductance, "Flow times heat capacity, through all of it.")
                .within("0 W/K", "10000000 W/K"),
        ],
        answers: &[
            FIN_ANSWER,
            plain("f_prime", "Gain over that of a sheet as cool as the fluid."),
            plain("f_flow", "What the fluid's warming along the tubes leaves, FR/F'."),
            plain("f_r", "Gain over that of a sheet as cool as the inlet."),
        ],
        formula: "1/F' = W U [1/(U (D + (W - D) F)) + 1/Cb + 1/(pi Di h) + ln(Do/Di)/(2 pi k)];  \
                  FR = C/(A U) [1 - exp(-A U F'/C)]",
        source: "Duffie and Beckman 2006, eq. 6.5.18, 6.7.4 and 6.7.5; the wall in series",
        valid_range: "Parallel tubes with even flow",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("spacing", "150 mm"),
                    ("outside", "10 mm"),
                    ("bore", "10 mm"),
                    ("thickness", "0.5 mm"),
                    ("conductivity", "385 W/m K"),
                    ("loss", "8 W/m2 K"),
                    ("film", "300 W/m2 K"),
                    ("area", "2 m2"),
                    ("capacity_rate", "125.7 W/K"),
                ],
                source: "Duffie and Beckman, examples 6.5.1 and 6.7.1 (FN-02, FN-03), to their \
                         last figure",
                expected: &[
                    expect("fin_efficiency", 0.937, 0.001),
                    case("f_prime", (0.841, 0.001), "FN-02", "f_prime"),
                    case("f_flow", (0.948, 0.001), "FN-03", "f_dprime"),
                    case("f_r", (0.797, 0.001), "FN-03", "fr"),
                ],
            },
            Example {
                given: &[
                    ("spacing", "150 mm"),
                    ("outside", "10 mm"),
                    ("bore", "10 mm"),
                    ("thickness", "0.5 mm"),
                    ("conductivity", "385 W/m K"),
                    ("loss", "8 W/m2 K"),
                    ("film", "300 W/m2 K"),
                    ("bond", "10 W/m K"),
                    ("area", "2 m2"),
                    ("capacity_rate", "125.7 W/K"),
                ],
                source: "the same with a poor bond (FN-08), within 0.002",
                expected: &[case("f_prime", (0.764, 0.002), "FN-08", "f_prime[1]")],
            },
        ],
        reckon: collector,
    },
    Sum {
        name: "top-loss",
        station: Station::Panel,
        help: "What a hot sheet loses upwards through its covers.",
        keys: &[
            of("plate", Kind::Temperature, "Mean of the sheet.").within("-100 C", "500 C"),
            of("ambient", Kind::Temperature, "Outdoor air.").within("-70 C", "60 C"),
            of("sky", Kind::Temperature, "A black sky that radiates as the true one does.")
                .within("-120 C", "60 C"),
            of("wind_film", Kind::Film, "Film on the cover; see the sum `wind-film`.")
                .within("0.01 W/m2 K", "1000 W/m2 K"),
            of("plate_emittance", Kind::Share, "Of the sheet; 0.95 matt black.").within("0", "1"),
            of("cover_emittance", Kind::Share, "Of the cover; 0.88 glass.").within("0", "1"),
            of("gap", Kind::Length, "Air below each cover.").within("0.5 mm", "1 m"),
            TILT,
            key("covers", Form::Count, "How many covers.")
                .within("1", "2")
                .assume("1", "one cover"),
        ],
        answers: &[
            out("top_loss_w_m2_k", FILM, "Loss for each kelvin of sheet over air."),
            out("top_flux_w_m2", FLUX, "Heat itself, positive outwards."),
            out("cover_c", (Kind::Temperature, "C", "F"), "The cover next to the sheet."),
            out("gap_film_w_m2_k", FILM, "Convection from sheet to that cover."),
            out("radiation_film_w_m2_k", FILM, "Radiation from sheet to that cover."),
        ],
        formula: "h (Tp - Tc) + s (Tp^4 - Tc^4)/(1/ep + 1/ec - 1) = hw (Tc - Ta) + ec s (Tc^4 - Ts^4)",
        source: "Duffie and Beckman 2006, section 6.4, eq. 6.4.1 to 6.4.8",
        valid_range: "A cover that heat rays do not pass; thin plastics lose more",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("plate", "100 C"),
                    ("ambient", "10 C"),
                    ("sky", "10 C"),
                    ("wind_film", "10 W/m2 K"),
                    ("plate_emittance", "0.95"),
                    ("cover_emittance", "0.88"),
                    ("gap", "25 mm"),
                    ("tilt", "45 deg"),
                ],
                source: "Duffie and Beckman, example 6.4.1 (TL-02), within its own rounding",
                expected: &[
                    case("top_loss_w_m2_k", (6.62, 0.05), "TL-02", "ut"),
                    expect("top_flux_w_m2", 6.62 * 90.0, 0.05 * 90.0),
                    case("cover_c", (48.5, 0.6), "TL-02", "t_cover_c"),
                ],
            },
            Example {
                given: &[
                    ("plate", "100 C"),
                    ("ambient", "10 C"),
                    ("sky", "10 C"),
                    ("wind_film", "10 W/m2 K"),
                    ("plate_emittance", "0.95"),
                    ("cover_emittance", "0.88"),
                    ("gap", "25 mm"),
                    ("tilt", "45 deg"),
                    ("covers", "2"),
                ],
                source: "the same under two covers, the network solved apart (a row of TL-05, 3.8872), \
                         within 0.1 %",
                expected: &[expect("top_loss_w_m2_k", 3.8872, 0.0039)],
            },
        ],
        reckon: top,
    },
    Sum {
        name: "gap",
        station: Station::Panel,
        help: "Convection across a sloping layer of air.",
        keys: &[
            of("tilt", Kind::Angle, "Slope of the layer.").within("0 deg", "90 deg"),
            of("rayleigh", Kind::Number, "Rayleigh number on the gap's depth.")
                .within("0", "1e12")
                .optional("this, or hot, cold and gap"),
            of("hot", Kind::Temperature, "Lower face.")
                .within("-170 C", "700 C")
                .optional("with cold and gap"),
            of("cold", Kind::Temperature, "Upper face.")
                .within("-170 C", "700 C")
                .optional("with hot and gap"),
            of("gap", Kind::Length, "Depth of the layer.")
                .within("0.5 mm", "1 m")
                .optional("with hot and cold"),
        ],
        answers: &[
            plain("rayleigh", "Rayleigh number; negative where the upper face is the warmer."),
            plain("nusselt", "Heat over what conduction alone would carry."),
            out("film_w_m2_k", FILM, "Film across the gap, where temperatures are given."),
        ],
        formula: "Nu = 1 + 1.44 [1 - 1708 sin(1.8 b)^1.6/(Ra cos b)] [1 - 1708/(Ra cos b)]+ + \
                  [(Ra cos b/5830)^(1/3) - 1]+",
        source: "Hollands, Unny, Raithby and Konicek 1976, eq. 11; upright Wright 1996 as ISO 15099 \
                 has it; between 75 and 90 degrees the line between both",
        valid_range: "Heated from below; measured to a Rayleigh number of about 1e5. A layer \
                      warmer above only conducts",
        caution: "",
        examples: &[
            Example {
                given: &[("tilt", "45 deg"), ("rayleigh", "20000")],
                source: "Hollands' equation computed apart (NC-02b), within 0.002",
                expected: &[case("nusselt", (2.46, 0.002), "NC-02b", "nusselt[4]")],
            },
            Example {
                given: &[("tilt", "45 deg"), ("hot", "70 C"), ("cold", "50 C"), ("gap", "25 mm")],
                source: "Duffie and Beckman, example 3.11.1 (2.78 W/m2 K with air rounded to two \
                         figures; our air is 1.4 % under it)",
                expected: &[expect("film_w_m2_k", 2.78, 0.05)],
            },
        ],
        reckon: gap,
    },
    Sum {
        name: "cover",
        station: Station::Panel,
        help: "How much light panes let through, throw back and keep.",
        keys: &[
            of("index", Kind::Number, "Index of refraction; 1.526 glass.").within("1", "3"),
            of("extinction", Kind::Extinction, "How fast light is lost in it; 4 to 32 1/m glass.")
                .within("0 1/m", "10000 1/m"),
            of("thickness", Kind::Length, "Thickness of the pane.").within("0 mm", "100 mm"),
            of("angle", Kind::Angle, "Between light and the pane's normal.")
                .within("0 deg", "90 deg"),
            key("covers", Form::Count, "How many panes.").within("1", "4").assume("1", "one pane"),
        ],
        answers: &[
            plain("transmittance", "Share that passes."),
            plain("reflectance", "Share thrown back."),
            plain("absorptance", "Share kept as heat."),
        ],
        formula: "t = a (1 - r)^2/(1 - (r a)^2),  a = exp(-K L/cos t2), for each polarisation",
        source: "Fresnel; Duffie and Beckman 2006, eq. 5.1.1 to 5.1.4 and 5.3.1 to 5.3.3",
        valid_range: "Clear panes; prismatic and twin-wall sheets scatter",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("index", "1.526"),
                    ("extinction", "32 1/m"),
                    ("thickness", "2.3 mm"),
                    ("angle", "60 deg"),
                ],
                source: "Duffie and Beckman, example 5.3.1 (OP-03), within 0.002",
                expected: &[
                    case("transmittance", (0.768, 0.002), "OP-03", "tau"),
                    case("reflectance", (0.147, 0.002), "OP-03", "rho"),
                    case("absorptance", (0.085, 0.002), "OP-03", "alpha"),
                ],
            },
            Example {
                given: &[
                    ("index", "1.526"),
                    ("extinction", "0 1/m"),
                    ("thickness", "4 mm"),
                    ("angle", "0 deg"),
                    ("covers", "2"),
                ],
                source: "two clear panes in closed form, (1 - r)/(1 + 3 r) with r = 0.0433616 (Duffie \
                         and Beckman 2006, section 5.1), worked by hand",
                expected: &[expect("transmittance", 0.84652, 1e-5)],
            },
        ],
        reckon: cover,
    },
];

fn sheet(given: &Given) -> Result<FinAndTube, SumFault> {
    Ok(FinAndTube {
        spacing_m: given.si("spacing")?,
        outside_m: given.si("outside")?,
        // The sheet alone: what lies between it and the fluid takes no part in the fin.
        bore_m: given.si("outside")?,
        thickness_m: given.si("thickness")?,
        conductivity_w_m_k: given.si("conductivity")?,
        loss_w_m2_k: given.si("loss")?,
        film_w_m2_k: f64::INFINITY,
        bond_w_m_k: f64::INFINITY,
        wall_conductivity_w_m_k: f64::INFINITY,
    })
}

fn fin(given: &Given) -> Result<Reckoned, SumFault> {
    let sheet = sheet(given)?;
    reckoned([
        ("fin_efficiency", fin_efficiency(&sheet)?),
        ("fin_parameter_1_m", fin_parameter_1_m(&sheet)?),
    ])
}

fn collector(given: &Given) -> Result<Reckoned, SumFault> {
    let fin = FinAndTube {
        bore_m: given.si("bore")?,
        film_w_m2_k: given.si("film")?,
        bond_w_m_k: given.maybe("bond")?.unwrap_or(f64::INFINITY),
        wall_conductivity_w_m_k: given.maybe("wall_conductivity")?.unwrap_or(f64::INFINITY),
        ..sheet(given)?
    };
    let (area_m2, rate_w_k) = (given.si("area")?, given.si("capacity_rate")?);
    let factor = f_prime(&fin)?;
    let loss_w_k = area_m2 * fin.loss_w_m2_k;
    // Without loss nothing is lost along the tubes either.
    let along = if loss_w_k > 0.0 { flow_factor(rate_w_k / (loss_w_k * factor))? } else { 1.0 };
    reckoned([
        ("fin_efficiency", fin_efficiency(&fin)?),
        ("f_prime", factor),
        ("f_flow", along),
        ("f_r", heat_removal_parallel(factor, loss_w_k, rate_w_k)?),
    ])
}

fn top(given: &Given) -> Result<Reckoned, SumFault> {
    let answer = top_loss(&TopLoss {
        plate_k: given.si("plate")?,
        ambient_k: given.si("ambient")?,
        sky_k: given.si("sky")?,
        wind_film_w_m2_k: given.si("wind_film")?,
        plate_emittance: given.si("plate_emittance")?,
        cover_emittance: given.si("cover_emittance")?,
        gap_m: given.si("gap")?,
        tilt: given.angle("tilt")?,
        covers: given.count("covers")?,
    })?;
    let answers = reckoned([
        ("top_loss_w_m2_k", answer.loss_w_m2_k),
        ("top_flux_w_m2", answer.flux_w_m2),
        ("cover_c", answer.cover_k),
        ("gap_film_w_m2_k", answer.gap_film_w_m2_k),
        ("radiation_film_w_m2_k", answer.radiation_film_w_m2_k),
    ])?;
    // Under a sky colder than the air a sheet at ambient loses heat without a difference.
    Ok(if (given.si("plate")? - given.si("ambient")?).abs() < 5.0 {
        answers.noting(
            "near-ambient",
            "so near the air's temperature the loss for each kelvin hangs on the sky and means \
             little: take the heat itself",
        )
    } else {
        answers
    })
}

fn gap(given: &Given) -> Result<Reckoned, SumFault> {
    let tilt = given.angle("tilt")?;
    let faces = ["hot", "cold", "gap"];
    if let Some(rayleigh) = given.maybe("rayleigh")? {
        if let Some(key) = faces.into_iter().find(|&face| given.has(face)) {
            let says = format!("`{key}` and `rayleigh` say the same thing twice");
            return Err(SumFault::Clash { key, says, hint: "leave one of them out" });
        }
        return reckoned([("rayleigh", rayleigh), ("nusselt", nusselt(rayleigh, tilt)?)]);
    }
    if !faces.into_iter().any(|face| given.has(face)) {
        return Err(SumFault::Missing { wanted: "`rayleigh`, or `hot`, `cold` and `gap`" });
    }
    let gap =
        Gap { tilt, depth_m: given.si("gap")?, hot_k: given.si("hot")?, cold_k: given.si("cold")? };
    let rayleigh = gap_rayleigh(&gap)?;
    reckoned([
        ("rayleigh", rayleigh),
        // A layer that is warmer above is as still as one without a difference.
        ("nusselt", nusselt(rayleigh.max(0.0), tilt)?),
        ("film_w_m2_k", gap_film_w_m2_k(&gap)?),
    ])
}

fn cover(given: &Given) -> Result<Reckoned, SumFault> {
    let pane = Cover::of_light(given.si("index")?, given.si("extinction")?, given.si("thickness")?);
    let panes = vec![pane; given.count("covers")? as usize];
    let light = transmission(&panes, given.angle("angle")?);
    reckoned([
        ("transmittance", light.transmittance),
        ("reflectance", light.reflectance),
        ("absorptance", light.absorptance),
    ])
}
