//! Sums of the workshop and the roof: sheets, tubes, wind, snow, screws.

use design::catalogue::materials::{material, materials};
use design::quantity::Kind;
use physics::Angle;
use physics::making::screw::{Screws, TimberFactors, pull_out};
use physics::making::sheet::{CylinderSide, unroll};
use physics::making::snow::{Sliding, SnowRoof, roof_snow_n_m2};
use physics::making::stretch::growth_m;
use physics::making::tube::{TubeStock, by_metre};
use physics::making::wind::{Terrain, WindSite, peak_wind, wind_force_n};

use super::fault::SumFault;
use super::given::Given;
use super::table::{
    Example, Form, Reckoned, Station, Sum, case, expect, key, of, out, ratio, reckoned,
};

const MILLIMETRES: (Kind, &str, &str) = (Kind::Length, "mm", "in");
const NEWTONS: (Kind, &str, &str) = (Kind::Force, "N", "lbf");

const SCREENING: &str = "Caution  Screening only: the code in force where you live, its national \
                         annex and a licensed engineer decide. Panels that come off a roof kill.";

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "unroll",
        station: Station::Making,
        help: "The flat sheet in the side of an old cylinder.",
        keys: &[
            of("diameter", Kind::Length, "In the middle of the wall: outside less one thickness.")
                .within("1 cm", "5 m"),
            of("height", Kind::Length, "Between the two cuts.").within("1 cm", "10 m"),
            of("seam", Kind::Length, "Strip lost where the seam is cut out.")
                .within("0 mm", "1 m")
                .assume("0 mm", "cut along the seam"),
        ],
        answers: &[
            out("sheet_width_mm", MILLIMETRES, "What was the way round."),
            out("sheet_height_mm", MILLIMETRES, "What was the height."),
            out("area_m2", (Kind::Area, "m2", "ft2"), "Area of one face."),
        ],
        formula: "w = pi D - s",
        source: "Way round a circle; bending leaves the middle of a thin wall as long as it was",
        valid_range: "The straight side, its domed ends cut off",
        caution: "",
        examples: &[Example {
            given: &[("diameter", "450 mm"), ("height", "900 mm"), ("seam", "10 mm")],
            source: "pi times 450 less 10, from a printed table of circles (1413.72)",
            expected: &[
                expect("sheet_width_mm", 1403.72, 0.01),
                expect("sheet_height_mm", 900.0, 1e-9),
                expect("area_m2", 1.26335, 1e-5),
            ],
        }],
        reckon: sheet,
    },
    Sum {
        name: "tube",
        station: Station::Making,
        help: "Bore, contents and mass of a tube.",
        keys: &[
            of("outside", Kind::Length, "Outside diameter.").within("0.1 mm", "2 m"),
            of("wall", Kind::Length, "Thickness of the wall.").within("0.01 mm", "200 mm"),
            key("material", Form::Catalogue(heavy), "What it is made of.")
                .assume("copper", "the usual tube"),
        ],
        answers: &[
            out("bore_mm", MILLIMETRES, "Inside diameter."),
            ratio(
                "contents_l_m",
                ("l/m", 1e3),
                ("US gal/ft", 0.3048 / 3.785_411_784e-3),
                "What it holds.",
            ),
            ratio("mass_kg_m", ("kg/m", 1.0), ("lb/ft", 0.3048 / 0.453_592_37), "Mass, empty."),
        ],
        formula: "d = D - 2 t,  contents = pi d^2/4,  mass = rho pi (D - t) t",
        source: "Geometry of a ring; densities from the catalogue of materials",
        valid_range: "Makers' masses part by 1 %",
        caution: "",
        examples: &[Example {
            given: &[("outside", "15 mm"), ("wall", "0.7 mm")],
            source: "copper tube as EN 1057 lists it, worked apart (B-EN-01); to 1e-4",
            expected: &[
                case("bore_mm", (13.6, 1e-6), "B-EN-01", "bore_of_15x0.7"),
                case("contents_l_m", (0.145267244, 1.5e-5), "B-EN-01", "contents_of_15x0.7"),
                case("mass_kg_m", (0.281139242, 2.8e-5), "B-EN-01", "mass_of_15x0.7"),
            ],
        }],
        reckon: tube,
    },
    Sum {
        name: "stretch",
        station: Station::Making,
        help: "How far a length grows when it warms.",
        keys: &[
            key("material", Form::Catalogue(stretching), "What it is made of."),
            of("length", Kind::Length, "When cold.").within("0 mm", "1000 m"),
            of("warming", Kind::Difference, "From cold to hot; a dry panel may take 150 K.")
                .within("-300 K", "1000 K"),
        ],
        answers: &[out("growth_mm", MILLIMETRES, "What must find room.")],
        formula: "dL = alpha L dT",
        source: "Definition of the linear coefficient; coefficients from the catalogue of materials",
        valid_range: "Means about 20 to 100 C; copper's is 5 % more about 200 C",
        caution: "",
        examples: &[Example {
            given: &[("material", "copper"), ("length", "1 m"), ("warming", "100 K")],
            source: "a printed rule of the pipe trade, 1.7 mm for a metre and 100 K (from memory), \
                     to its last figure",
            expected: &[expect("growth_mm", 1.7, 0.05)],
        }],
        reckon: stretch,
    },
    Sum {
        name: "wind",
        station: Station::Making,
        help: "Wind on a panel, characteristic, by EN 1991-1-4.",
        keys: &[
            of("basic_speed", Kind::Speed, "Of the country's map: ten minutes, once in 50 years.")
                .within("1 m/s", "100 m/s"),
            of("height", Kind::Length, "Of the panel above the ground.").within("0.1 m", "200 m"),
            key(
                "terrain",
                Form::Choice(&["0", "1", "2", "3", "4"]),
                "0 sea, 1 lake or bare land, 2 open country, 3 suburb or wood, 4 town.",
            ),
            of("area", Kind::Area, "Of the panel.")
                .within("0 m2", "1000 m2")
                .optional("with net_coefficient, for the force"),
            of("net_coefficient", Kind::Number, "Upper less lower face, from the national rule.")
                .within("-10", "10")
                .optional("with area; pulling off the roof is negative"),
        ],
        answers: &[
            out(
                "peak_pressure_pa",
                (Kind::Pressure, "Pa", "psi"),
                "Peak velocity pressure, characteristic.",
            ),
            out("force_n", NEWTONS, "On the panel, characteristic; negative pulls it off."),
        ],
        formula: "qp = (1 + 7 Iv) cr^2 rho vb^2/2,  cr = kr ln(z/z0),  Iv = 1/ln(z/z0);  W = qp c A",
        source: "EN 1991-1-4:2005, eq. 4.3 to 4.8 and 5.3, table 4.1",
        valid_range: "Level country, to 200 m. Characteristic: no partial factor is in it. Britain's \
                      annex takes other terrain figures",
        caution: SCREENING,
        examples: &[Example {
            given: &[
                ("basic_speed", "24 m/s"),
                ("height", "8 m"),
                ("terrain", "2"),
                ("area", "2 m2"),
                ("net_coefficient", "-1.3"),
            ],
            source: "the code's equations worked apart (F-03; F-05 gives the uplift, 2070.74853 N), \
                     to 1e-5",
            expected: &[
                case("peak_pressure_pa", (796.441743, 0.008), "F-03", "qp"),
                expect("force_n", -2070.74853, 0.021),
            ],
        }],
        reckon: wind,
    },
    Sum {
        name: "snow",
        station: Station::Making,
        help: "Snow on a pitched roof, characteristic, by EN 1991-1-3.",
        keys: &[
            of("ground_load", Kind::Pressure, "On the ground, from the country's map.")
                .within("0 kN/m2", "30 kN/m2"),
            of("pitch", Kind::Angle, "Slope of the roof.").within("0 deg", "90 deg"),
            key(
                "sliding",
                Form::Choice(&["free", "held"]),
                "Whether snow may slide off, or a guard or frame holds it.",
            )
            .assume("free", "nothing holds it; the lighter case"),
        ],
        answers: &[ratio(
            "roof_load_kn_m2",
            ("kN/m2", 1e-3),
            ("lbf/ft2", 0.3048 * 0.3048 / (0.453_592_37 * 9.806_65)),
            "For each area of plan, characteristic.",
        )],
        formula: "s = mu sk,  mu = 0.8 to 30 degrees, 0.8 (60 - a)/30 to 60, 0 above; held never \
                  under 0.8",
        source: "EN 1991-1-3:2003, eq. 5.1 and table 5.2, exposure and thermal factors 1",
        valid_range: "Single slopes without drifts: valleys and walls gather more. Characteristic: \
                      no partial factor is in it",
        caution: SCREENING,
        examples: &[
            Example {
                given: &[("ground_load", "0.75 kN/m2"), ("pitch", "40 deg")],
                source: "a printed worked example (F-09), to 1e-6",
                expected: &[case("roof_load_kn_m2", (0.4, 1e-6), "F-09", "s")],
            },
            Example {
                given: &[("ground_load", "0.65 kN/m2"), ("pitch", "5.7 deg")],
                source: "another (F-08), to 1e-6",
                expected: &[case("roof_load_kn_m2", (0.52, 1e-6), "F-08", "s")],
            },
        ],
        reckon: snow,
    },
    Sum {
        name: "screw",
        station: Station::Making,
        help: "How hard wood screws hold against being pulled out, by EN 1995-1-1.",
        keys: &[
            of("diameter", Kind::Length, "Outside of the thread.").within("6 mm", "12 mm"),
            of("embedded", Kind::Length, "Thread in the timber that holds, without its point.")
                .within("1 mm", "1 m"),
            of("timber_density", Kind::Density, "Characteristic; 350 kg/m3 usual softwood (C24).")
                .within("100 kg/m3", "1500 kg/m3"),
            key("number", Form::Count, "How many share the pull.")
                .within("1", "1000")
                .assume("1", "one screw"),
        ],
        answers: &[
            out("pull_out_characteristic_n", NEWTONS, "All together, characteristic."),
            out("pull_out_design_n", NEWTONS, "All together, design: kmod 0.9, gammaM 1.3."),
        ],
        formula: "f = 0.52 d^-0.5 lef^-0.1 rho^0.8,  Fk = n^0.9 f d lef min(d/8 mm, 1),  Fd = kmod \
                  Fk/gammaM",
        source: "EN 1995-1-1:2004+A1:2008, eq. 8.38 to 8.41; kmod of wind under a roof, table 3.1; \
                 gammaM, table 2.3",
        valid_range: "Square to the grain, threads of 6 to 12 mm, six diameters deep at least: a \
                      shallower screw does not count. The head, the rafter and the distances to its \
                      edges are checks apart. Compare design with design only",
        caution: SCREENING,
        examples: &[
            Example {
                given: &[
                    ("diameter", "8 mm"),
                    ("embedded", "50 mm"),
                    ("timber_density", "350 kg/m3"),
                ],
                source: "the code's equations worked apart (F-11), to 1e-5",
                expected: &[
                    case("pull_out_characteristic_n", (5393.56326, 0.054), "F-11", "F_Rk"),
                    case("pull_out_design_n", (3734.00533, 0.037), "F-11", "F_Rd"),
                ],
            },
            Example {
                given: &[
                    ("diameter", "8 mm"),
                    ("embedded", "60 mm"),
                    ("timber_density", "350 kg/m3"),
                    ("number", "4"),
                ],
                source: "four of them (F-13), to 1e-5",
                expected: &[
                    case("pull_out_characteristic_n", (22130.5848, 0.22), "F-13", "F_Rk"),
                    case("pull_out_design_n", (15321.1741, 0.15), "F-13", "F_Rd"),
                ],
            },
        ],
        reckon: screw,
    },
];

/// Materials whose density the catalogue knows.
fn heavy() -> Vec<&'static str> {
    materials().iter().filter(|m| m.rho_kg_m3.is_some()).map(|m| m.id.as_str()).collect()
}

/// Materials whose growth the catalogue knows.
fn stretching() -> Vec<&'static str> {
    materials().iter().filter(|m| m.cte_1e6_per_k.is_some()).map(|m| m.id.as_str()).collect()
}

/// A value of the material given.
fn of_material(
    given: &Given,
    value: impl Fn(&design::catalogue::materials::Material) -> Option<f64>,
) -> Result<f64, SumFault> {
    let found = material(given.word("material")?).and_then(value);
    found.ok_or(SumFault::Missing { wanted: "a material of the catalogue" })
}

fn sheet(given: &Given) -> Result<Reckoned, SumFault> {
    let sheet = unroll(&CylinderSide {
        diameter_m: given.si("diameter")?,
        height_m: given.si("height")?,
        seam_m: given.si("seam")?,
    })?;
    reckoned([
        ("sheet_width_mm", sheet.width_m),
        ("sheet_height_mm", sheet.height_m),
        ("area_m2", sheet.area_m2()),
    ])
}

fn tube(given: &Given) -> Result<Reckoned, SumFault> {
    let tube = by_metre(&TubeStock {
        outside_m: given.si("outside")?,
        wall_m: given.si("wall")?,
        density_kg_m3: of_material(given, |material| material.rho_kg_m3)?,
    })?;
    reckoned([
        ("bore_mm", tube.bore_m),
        ("contents_l_m", tube.contents_m2),
        ("mass_kg_m", tube.mass_kg_m),
    ])
}

fn stretch(given: &Given) -> Result<Reckoned, SumFault> {
    let expansion_1_k = 1e-6 * of_material(given, |material| material.cte_1e6_per_k)?;
    let growth_m = growth_m(expansion_1_k, given.si("length")?, given.si("warming")?)?;
    reckoned([("growth_mm", growth_m)])
}

fn wind(given: &Given) -> Result<Reckoned, SumFault> {
    let terrain = match given.word("terrain")? {
        "0" => Terrain::Sea,
        "1" => Terrain::Lake,
        "2" => Terrain::Open,
        "3" => Terrain::Suburb,
        _ => Terrain::Town,
    };
    let site = WindSite {
        basic_speed_m_s: given.si("basic_speed")?,
        height_m: given.si("height")?,
        terrain,
    };
    let pressure_pa = peak_wind(&site)?.peak_pressure_pa;
    let answers = reckoned([("peak_pressure_pa", pressure_pa)])?;
    match (given.maybe("net_coefficient")?, given.maybe("area")?) {
        (Some(coefficient), Some(area_m2)) => {
            Ok(answers.and("force_n", wind_force_n(pressure_pa, coefficient, area_m2)?))
        }
        (Some(_), None) => Err(SumFault::Missing { wanted: "`area`, for the force" }),
        (None, Some(_)) => Err(SumFault::Missing { wanted: "`net_coefficient`, for the force" }),
        (None, None) => Ok(answers),
    }
}

fn snow(given: &Given) -> Result<Reckoned, SumFault> {
    let load_n_m2 = roof_snow_n_m2(&SnowRoof {
        ground_n_m2: given.si("ground_load")?,
        pitch: given.angle("pitch")?,
        sliding: if given.word("sliding")? == "held" { Sliding::Held } else { Sliding::Free },
        exposure_factor: 1.0,
        thermal_factor: 1.0,
    })?;
    reckoned([("roof_load_kn_m2", load_n_m2)])
}

fn screw(given: &Given) -> Result<Reckoned, SumFault> {
    let screws = Screws {
        diameter_m: given.si("diameter")?,
        embedded_m: given.si("embedded")?,
        timber_kg_m3: given.si("timber_density")?,
        to_grain: Angle::from_degrees(90.0),
        number: given.count("number")?,
    };
    if !screws.deep_enough() {
        return Err(SumFault::Clash {
            key: "embedded",
            says: "under six diameters of thread the code does not count a screw".to_owned(),
            hint: "take a longer screw, or a thinner one",
        });
    }
    let holds = pull_out(&screws, &TimberFactors::WIND)?;
    reckoned([
        ("pull_out_characteristic_n", holds.characteristic_n),
        ("pull_out_design_n", holds.design_n),
    ])
}
