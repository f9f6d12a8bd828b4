//! Sums of the fifth station: draws, mixing, burns.

use design::catalogue::draws::profile;
use design::quantity::Kind;
use physics::tap::household::volume_m3;
use physics::tap::mix::{Mixing, hot_share};
use physics::tap::scald::{Scald, scald};

use super::fault::SumFault;
use super::given::Given;
use super::table::{Example, Form, Reckoned, Station, Sum, expect, key, of, out, plain, reckoned};

const SECONDS: (Kind, &str, &str) = (Kind::Time, "s", "s");

/// The sums.
pub const SUMS: &[Sum] = &[
    Sum {
        name: "draw",
        station: Station::Tap,
        help: "A day's hot water by the European load profiles.",
        keys: &[
            key(
                "profile",
                Form::Choice(&["3XS", "XXS", "XS", "S", "M", "L", "XL", "XXL"]),
                "Which profile; M and L are usual homes.",
            ),
            of("mains", Kind::Temperature, "Cold water.")
                .within("0 C", "40 C")
                .assume("10 C", "the usual test inlet, from memory"),
            of("hot", Kind::Temperature, "Hot water as drawn.")
                .within("20 C", "95 C")
                .assume("60 C", "as the law counts the profiles' litres"),
        ],
        answers: &[
            out("energy_kwh", (Kind::Energy, "kWh", "BTU"), "Useful heat of the day."),
            out("litres", (Kind::Volume, "l", "US gal"), "Hot water that carries it."),
        ],
        formula: "V = Q/(rho cp (Th - Tc))",
        source: "Regulation (EU) 812/2013, Annex VII, Table 3",
        valid_range: "The profiles fix the energy, whatever the mains; the litres follow",
        caution: "",
        examples: &[Example {
            given: &[("profile", "M")],
            source: "the law's reference energy of 5.845 kWh (seen), and the litres at 60 C from \
                     10 C with a round 4.14 kJ/(l K) of its time (from memory); within 0.6 %",
            expected: &[expect("energy_kwh", 5.845, 1e-9), expect("litres", 101.7, 0.61)],
        }],
        reckon: draw,
    },
    Sum {
        name: "mix",
        station: Station::Tap,
        help: "How much hot water a mixing valve takes.",
        keys: &[
            of("hot", Kind::Temperature, "Hot water.").within("0 C", "110 C"),
            of("cold", Kind::Temperature, "Cold water.").within("0 C", "110 C"),
            of("wanted", Kind::Temperature, "What is to come out.").within("0 C", "110 C"),
        ],
        answers: &[plain("hot_share", "Hot water in the mixed, by mass.")],
        formula: "s = (Tw - Tc)/(Th - Tc)",
        source: "Balance of heat",
        valid_range: "Hot above cold, wanted between them; 0.1 % for water's uneven heat capacity",
        caution: "",
        examples: &[Example {
            given: &[("hot", "60 C"), ("cold", "10 C"), ("wanted", "40 C")],
            source: "enthalpies of the steam tables, 42.02, 167.53 and 251.18 kJ/kg (from memory): \
                     0.6001; within 0.2 %",
            expected: &[expect("hot_share", 0.6001, 0.0012)],
        }],
        reckon: mix,
    },
    Sum {
        name: "scald",
        station: Station::Tap,
        help: "How soon hot water burns.",
        keys: &[of("temperature", Kind::Temperature, "Water on the skin.").within("0 C", "100 C")],
        answers: &[
            out("seconds_second_degree_adult", SECONDS, "Until blisters."),
            out("seconds_third_degree_adult", SECONDS, "Until the whole skin is dead."),
            out("seconds_second_degree_child", SECONDS, "A child: thinner skin halves the time."),
            out("seconds_third_degree_child", SECONDS, "A child: the same half."),
        ],
        formula: "straight lines between the logarithms of printed times",
        source: "Moritz and Henriques, Am. J. Pathology 23 (1947) 695, as charts print them; a \
                 child's half after Feldman",
        valid_range: "45 to 68.3 C; just below, burns take longer than the times given, above \
                      sooner. Below 44 C no burn was seen in six hours, and no time is given",
        caution: "Caution  Means over adults' skin: some burn in half the time. Thinner skin halves \
                  a child's times, and the old are often put beside children. These are no times \
                  to stay in such water. Water from a store in the sun can be of any temperature: \
                  a mixing valve belongs before the taps.",
        examples: &[
            Example {
                given: &[("temperature", "55 C")],
                source: "the chart's own row at 55 C (seen); a point of it, to rounding",
                expected: &[
                    expect("seconds_second_degree_adult", 17.0, 0.01),
                    expect("seconds_third_degree_adult", 30.0, 0.01),
                ],
            },
            Example {
                given: &[("temperature", "145 F")],
                source: "the pipe trade's burn chart, 3 s at 145 F (from memory), to its half second",
                expected: &[expect("seconds_third_degree_adult", 3.0, 0.5)],
            },
        ],
        reckon: burns,
    },
];

fn draw(given: &Given) -> Result<Reckoned, SumFault> {
    let name = given.word("profile")?;
    let profile =
        profile(name).ok_or(SumFault::Missing { wanted: "a profile of the catalogue" })?;
    let energy_j = profile.energy_j();
    let litres_m3 = volume_m3(energy_j, given.si("hot")?, given.si("mains")?)?;
    reckoned([("energy_kwh", energy_j), ("litres", litres_m3)])
}

fn mix(given: &Given) -> Result<Reckoned, SumFault> {
    let mixing = Mixing {
        hot_k: given.si("hot")?,
        cold_k: given.si("cold")?,
        wanted_k: given.si("wanted")?,
    };
    reckoned([("hot_share", hot_share(&mixing)?)])
}

fn burns(given: &Given) -> Result<Reckoned, SumFault> {
    let scald = scald(given.si("temperature")?)?;
    let answers = match scald.times() {
        None => Reckoned::default(),
        Some(adult) => {
            let child = adult.of_a_child();
            reckoned([
                ("seconds_second_degree_adult", adult.second_degree_s),
                ("seconds_third_degree_adult", adult.third_degree_s),
                ("seconds_second_degree_child", child.second_degree_s),
                ("seconds_third_degree_child", child.third_degree_s),
            ])?
        }
    };
    Ok(match scald {
        Scald::NoneSeen => answers.noting(
            "no-burn-seen",
            "below 44 C no burn was seen in six hours, so that no time is given; that is no leave \
             to stay in such water",
        ),
        Scald::After(_) => {
            answers.noting("bound", "burns take longer than these times, which are those of 45 C")
        }
        Scald::About(_) => answers,
        Scald::Within(_) => {
            answers.noting("bound", "burns come sooner than these times, which are those of 68.3 C")
        }
    })
}
