//! Sums of the first station: where the sun stands, what falls on a plane, how cold the sky is.

use design::quantity::Kind;
use physics::sun::{
    Coordinates, DiurnalCosine, Global, Light, Plane, SkyAir, SkyModel, Slope, WindFilm, almanac,
    hour_angle, sky_berdahl_martin_1984, sky_emissivity_berdahl_martin_1984, sky_on_plane, split,
    split_with_diffuse, sun_position, wind_film_w_m2_k,
};

use super::fault::SumFault;
use super::given::Given;
use super::table::{
    Example, Form, Key, Reckoned, Station, Sum, case, expect, key, of, out, plain, reckoned,
};

const DEGREES: (Kind, &str, &str) = (Kind::Angle, "deg", "deg");
const FLUX: (Kind, &str, &str) = (Kind::Irradiance, "W/m2", "BTU/h ft2");
const FILM: (Kind, &str, &str) = (Kind::Film, "W/m2 K", "BTU/h ft2 F");

const LATITUDE: Key =
    of("latitude", Kind::Angle, "Latitude, north positive.").within("-90 deg", "90 deg");
const LONGITUDE: Key =
    of("longitude", Kind::Angle, "Longitude, east positive.").within("-180 deg", "180 deg");
const TIME: Key = key("time", Form::Time, "The instant, with its offset from UTC.");

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "sun",
        station: Station::Sun,
        help: "Where the sun stands at a place and an instant.",
        keys: &[LATITUDE, LONGITUDE, TIME],
        answers: &[
            out("azimuth_deg", DEGREES, "Compass direction, clockwise from true north."),
            out("zenith_deg", DEGREES, "Angle from the vertical; above 90 it is night."),
            out("apparent_zenith_deg", DEGREES, "The same as the eye sees it through the air."),
        ],
        formula: "cos z = sin p sin d + cos p cos d cos w",
        source: "Meeus, Astronomical Algorithms, 2nd ed. 1998, chapters 25 and 28; refraction as \
                 Reda and Andreas 2004, eq. 42",
        valid_range: "Years 1901 to 2099, within 0.02 degrees; refraction at 1013 hPa and 12 C",
        caution: "",
        examples: &[Example {
            given: &[
                ("latitude", "54.605 deg"),
                ("longitude", "-5.929 deg"),
                ("time", "2024-02-29T10:17:00Z"),
            ],
            source: "a general-purpose solar library's own sun (SPA), row 5 of \
                     reference/sun-vectors.csv; tolerance 0.02 degrees",
            expected: &[
                expect("azimuth_deg", 142.6644, 0.02),
                expect("zenith_deg", 68.7659, 0.02),
                expect("apparent_zenith_deg", 68.7231, 0.02),
            ],
        }],
        reckon: sun,
    },
    Sum {
        name: "tilted",
        station: Station::Sun,
        help: "What light falls on a tilted plane, by where it comes from.",
        keys: &[
            LATITUDE,
            LONGITUDE,
            TIME,
            of("global", Kind::Irradiance, "Light on the level ground.")
                .within("0 W/m2", "2000 W/m2"),
            of("diffuse", Kind::Irradiance, "Its diffuse part.")
                .within("0 W/m2", "2000 W/m2")
                .optional("without it, Erbs, Klein and Duffie 1982 part the light"),
            of("tilt", Kind::Angle, "Slope of the plane.").within("0 deg", "90 deg"),
            of("facing", Kind::Angle, "Compass direction it looks to, 180 deg south.")
                .within("-360 deg", "360 deg"),
            of("albedo", Kind::Share, "Share of light that the ground sends back.")
                .within("0", "1")
                .assume("0.2", "grass and bare earth; common practice"),
            key(
                "sky_model",
                Form::Choice(&["perez-1990", "hay-davies-1980", "isotropic"]),
                "How diffuse light is put on the plane.",
            )
            .assume("perez-1990", "as the year is reckoned unless the design file says otherwise"),
        ],
        answers: &[
            out("incidence_deg", DEGREES, "Angle between sun and the plane's normal."),
            out("beam_w_m2", FLUX, "From the sun's disc."),
            out("sky_w_m2", FLUX, "From the sky, the bright part round the sun included."),
            out("ground_w_m2", FLUX, "From the ground."),
            out("total_w_m2", FLUX, "All together."),
        ],
        formula: "G = Gbn max(cos i, 0) + sky + G albedo (1 - cos b)/2",
        source: "Perez and others 1990; Hay and Davies 1980; Liu and Jordan 1960; Erbs, Klein and \
                 Duffie 1982",
        valid_range: "An unshaded plane. The three skies part by a tenth, and by a factor of two \
                      with the sun within 3 degrees of the horizon",
        caution: "",
        examples: &[
            Example {
                given: &[
                    ("latitude", "54.605 deg"),
                    ("longitude", "-5.929 deg"),
                    ("time", "2024-02-29T10:17:00Z"),
                    ("global", "352.9 W/m2"),
                    ("diffuse", "86.119 W/m2"),
                    ("tilt", "30 deg"),
                    ("facing", "180 deg"),
                ],
                source: "a general-purpose solar library, row 5 of reference/sun-vectors.csv; beam \
                         and ground within 0.5 %, the Perez sky within 1 %",
                expected: &[
                    expect("incidence_deg", 46.8261, 0.02),
                    expect("beam_w_m2", 503.992, 2.5),
                    expect("sky_w_m2", 124.877, 1.25),
                    expect("ground_w_m2", 4.728, 0.025),
                    expect("total_w_m2", 633.597, 3.8),
                ],
            },
            Example {
                given: &[
                    ("latitude", "54.605 deg"),
                    ("longitude", "-5.929 deg"),
                    ("time", "2024-02-29T10:17:00Z"),
                    ("global", "352.9 W/m2"),
                    ("diffuse", "86.119 W/m2"),
                    ("tilt", "30 deg"),
                    ("facing", "180 deg"),
                    ("sky_model", "hay-davies-1980"),
                ],
                source: "the same row; within 0.5 %",
                expected: &[expect("sky_w_m2", 123.922, 0.62)],
            },
        ],
        reckon: tilted,
    },
    Sum {
        name: "sky",
        station: Station::Sun,
        help: "How cold a clear sky is, to which a cover radiates.",
        keys: &[
            of("ambient", Kind::Temperature, "Air.").within("-70 C", "60 C"),
            of("dew_point", Kind::Temperature, "Dew point of the air.").within("-70 C", "45 C"),
            of("hours_from_midnight", Kind::Time, "Time since the sun's midnight.")
                .within("0 h", "24 h")
                .assume("6 h", "the day's mean, where the hour's term vanishes"),
        ],
        answers: &[
            plain("emissivity", "Share of a black body's radiation."),
            out("sky_c", (Kind::Temperature, "C", "F"), "A black sky that radiates as it does."),
        ],
        formula: "e = 0.711 + 0.56 (Td/100) + 0.73 (Td/100)^2 + 0.013 cos(15 t);  Ts = Ta e^(1/4)",
        source: "Berdahl and Martin 1984, Solar Energy 32:663 (as Duffie and Beckman eq. 3.9.2)",
        valid_range: "Clear sky, dew points of -20 to 30 C; outside the fit is drawn on, and held \
                      to 0.5 to 1. Cloud warms it",
        caution: "",
        examples: &[Example {
            given: &[("ambient", "20 C"), ("dew_point", "10 C")],
            source: "the source's equation worked by hand: 0.711 + 0.056 + 0.0073",
            expected: &[expect("emissivity", 0.7743, 1e-9), expect("sky_c", 1.840, 0.002)],
        }],
        reckon: sky,
    },
    Sum {
        name: "wind-film",
        station: Station::Sun,
        help: "How strongly wind cools a cover.",
        keys: &[
            of("wind", Kind::Speed, "Wind at the panel, not at the mast.")
                .within("0 m/s", "80 m/s"),
            key(
                "relation",
                Form::Choice(&["watmuff-1977", "mcadams-1954", "mitchell-1976"]),
                "Whose relation; they part by a factor of two.",
            )
            .assume("watmuff-1977", "as McAdams without its radiation; common practice"),
            of("house_length", Kind::Length, "Cube root of the house's volume, for mitchell-1976.")
                .within("1 m", "100 m")
                .optional("without it 8 m, a house of 500 m3; common practice"),
        ],
        answers: &[out("wind_film_w_m2_k", FILM, "Film coefficient on the cover.")],
        formula: "watmuff 2.8 + 3.0 V;  mcadams 5.7 + 3.8 V;  mitchell max(5, 8.6 V^0.6/L^0.4)",
        source: "Watmuff, Charters and Proctor 1977; McAdams 1954; Mitchell 1976",
        valid_range: "McAdams to 5 m/s, Watmuff to 7 m/s, drawn on above",
        caution: "",
        examples: &[
            Example {
                given: &[("wind", "3 m/s")],
                source: "three handbook rules side by side (NC-07), within 0.3 %",
                expected: &[case("wind_film_w_m2_k", (11.8, 0.036), "NC-07", "watmuff[2]")],
            },
            Example {
                given: &[("wind", "3 m/s"), ("relation", "mitchell-1976")],
                source: "the same",
                expected: &[case("wind_film_w_m2_k", (7.24, 0.022), "NC-07", "mitchell[2]")],
            },
        ],
        reckon: wind_film,
    },
];

fn place(given: &Given) -> Result<Coordinates, SumFault> {
    Ok(Coordinates { latitude: given.angle("latitude")?, longitude: given.angle("longitude")? })
}

fn sun(given: &Given) -> Result<Reckoned, SumFault> {
    let sun = sun_position(&place(given)?, given.si("time")?)?;
    reckoned([
        ("azimuth_deg", sun.azimuth.radians()),
        ("zenith_deg", sun.zenith.radians()),
        ("apparent_zenith_deg", sun.apparent_zenith.radians()),
    ])
}

fn tilted(given: &Given) -> Result<Reckoned, SumFault> {
    let Coordinates { latitude, longitude } = place(given)?;
    let days = given.si("time")?;
    let plane = Plane { tilt: given.angle("tilt")?, facing: given.angle("facing")? };
    let slow = almanac(days)?;
    let w = hour_angle(&slow, longitude, days);
    let cos_zenith = DiurnalCosine::zenith(latitude, slow.declination).at_hour_angle(w);
    let cos_incidence = DiurnalCosine::plane(&plane, latitude, slow.declination).at_hour_angle(w);
    // The last bit of a product of cosines may pass one.
    let (cos_zenith, cos_incidence) = (cos_zenith.clamp(-1.0, 1.0), cos_incidence.clamp(-1.0, 1.0));
    let global = Global {
        global_w_m2: given.si("global")?,
        extraterrestrial_normal_w_m2: slow.extraterrestrial_normal_w_m2,
        cos_zenith,
    };
    let parted = match given.maybe("diffuse")? {
        Some(diffuse_w_m2) => split_with_diffuse(&global, diffuse_w_m2)?,
        None => split(&global)?,
    };
    let light = Light {
        global_w_m2: global.global_w_m2,
        diffuse_w_m2: parted.diffuse_w_m2,
        beam_normal_w_m2: parted.beam_normal_w_m2,
        extraterrestrial_normal_w_m2: global.extraterrestrial_normal_w_m2,
        cos_zenith,
        cos_incidence,
        slope: Slope::of(plane.tilt),
        albedo: given.si("albedo")?,
    };
    let model = match given.word("sky_model")? {
        "hay-davies-1980" => SkyModel::HayDavies1980,
        "isotropic" => SkyModel::Isotropic,
        _ => SkyModel::Perez1990,
    };
    let on_plane = sky_on_plane(model, &light.checked()?);
    let answers = reckoned([
        ("incidence_deg", cos_incidence.acos()),
        ("beam_w_m2", on_plane.beam_w_m2),
        ("sky_w_m2", on_plane.sky_w_m2()),
        ("ground_w_m2", on_plane.ground_w_m2),
        ("total_w_m2", on_plane.total_w_m2()),
    ])?;
    Ok(if cos_zenith < 0.0 {
        answers.noting("sun-is-down", "the sun is below the horizon: all light is taken as diffuse")
    } else {
        answers
    })
}

fn sky(given: &Given) -> Result<Reckoned, SumFault> {
    let sky = SkyAir {
        air_k: given.si("ambient")?,
        dew_point_k: given.si("dew_point")?,
        after_midnight_h: given.si("hours_from_midnight")? / 3600.0,
        cloud: 0.0,
        infrared_w_m2: None,
    };
    if sky.dew_point_k > sky.air_k {
        return Err(SumFault::Clash {
            key: "dew_point",
            says: "the dew point lies above the air's own temperature".to_owned(),
            hint: "give a dew point at or below `ambient`",
        });
    }
    reckoned([
        ("emissivity", sky_emissivity_berdahl_martin_1984(&sky)?),
        ("sky_c", sky_berdahl_martin_1984(&sky)?),
    ])
}

fn wind_film(given: &Given) -> Result<Reckoned, SumFault> {
    let film = match given.word("relation")? {
        "mcadams-1954" => WindFilm::McAdams1954,
        "mitchell-1976" => {
            WindFilm::Mitchell1976 { house_length_m: given.maybe("house_length")?.unwrap_or(8.0) }
        }
        _ => WindFilm::Watmuff1977,
    };
    reckoned([("wind_film_w_m2_k", wind_film_w_m2_k(film, given.si("wind")?)?)])
}
