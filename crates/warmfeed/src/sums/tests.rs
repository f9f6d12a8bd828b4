//! What the tables of sums promise of themselves.

use std::collections::BTreeSet;

use proptest::prelude::*;

use super::given::read;
use super::table::{Measure, Need};
use super::{Refusal, RefusedAs, ask, sums};
use design::quantity::in_unit;

/// The sums, keys and answers that other programs were promised: names may be added, never taken.
const PROMISED: &[(&str, &str, &str)] = &[
    ("unroll", "diameter height seam", "sheet_width_mm sheet_height_mm area_m2"),
    ("tube", "outside wall material", "bore_mm contents_l_m mass_kg_m"),
    ("fin", "spacing outside thickness conductivity loss", "fin_efficiency"),
    (
        "collector",
        "spacing outside bore thickness conductivity loss film bond wall_conductivity area \
         capacity_rate",
        "fin_efficiency f_prime f_flow f_r",
    ),
    (
        "top-loss",
        "plate ambient sky wind_film plate_emittance cover_emittance gap tilt covers",
        "top_loss_w_m2_k cover_c gap_film_w_m2_k radiation_film_w_m2_k",
    ),
    ("gap", "tilt rayleigh hot cold gap", "rayleigh nusselt film_w_m2_k"),
    ("cover", "index extinction thickness angle covers", "transmittance reflectance absorptance"),
    ("sky", "ambient dew_point hours_from_midnight", "emissivity sky_c"),
    ("sun", "latitude longitude time", "azimuth_deg zenith_deg apparent_zenith_deg"),
    (
        "tilted",
        "latitude longitude time global diffuse tilt facing albedo sky_model",
        "incidence_deg beam_w_m2 sky_w_m2 ground_w_m2 total_w_m2",
    ),
    (
        "fluid",
        "fluid share_mass share_volume temperature pressure",
        "density_kg_m3 heat_capacity_j_kg_k conductivity_w_m_k viscosity_pa_s freezing_c",
    ),
    ("growth", "fluid share_mass cold hot", "growth_percent"),
    ("boil", "pressure head altitude", "boiling_c pressure_bar_abs"),
    ("friction", "reynolds relative_roughness method", "friction_factor"),
    (
        "pipe",
        "bore length flow fluid share_mass temperature roughness fittings_k method",
        "velocity_m_s reynolds friction_factor pressure_drop_pa head_m",
    ),
    ("film", "bore length reynolds prandtl", "nusselt"),
    (
        "coil",
        "outside bore length flow fluid share_mass inside store wall_conductivity",
        "film_inside_w_m2_k film_outside_w_m2_k ua_w_k effectiveness",
    ),
    ("coil-penalty", "ua capacity_rate frul area", "effectiveness penalty"),
    (
        "harp",
        "risers riser_bore riser_length header_bore pitch connection flow fluid temperature",
        "flow_share_... unevenness pressure_drop_pa",
    ),
    ("vessel", "contents growth_percent steam head_pressure relief", "vessel_l precharge_bar"),
    (
        "thermosiphon",
        "heat cold rise bore hot_leg cold_leg fittings_k risers riser_bore riser_length hot_rise",
        "flow_kg_s rise_k",
    ),
    ("sealed", "outside wall temperature elasticity trapped_air", "bar_per_k"),
    (
        "pressure-trial",
        "start_pressure start_temperature end_pressure end_temperature contents trapped_air",
        "expected_bar_abs expected_bar_gauge lost_ml",
    ),
    (
        "month",
        "frul fr_tau_alpha penalty angle_ratio tilted_day ambient load area days store_per_area \
         mains hot",
        "x y share",
    ),
    ("dry-heat", "measured_plate measured_ambient measured_irradiance", "stagnation_c"),
    ("stretch", "material length warming", "growth_mm"),
    ("cooling", "volume ua start ambient hours", "temperature_c"),
    ("wind", "basic_speed height terrain area net_coefficient", "peak_pressure_pa force_n"),
    ("snow", "ground_load pitch", "roof_load_kn_m2"),
    (
        "screw",
        "diameter embedded timber_density number",
        "pull_out_characteristic_n pull_out_design_n",
    ),
    ("draw", "profile mains hot", "energy_kwh litres"),
    ("mix", "hot cold wanted", "hot_share"),
    ("scald", "temperature", "seconds_second_degree_adult seconds_third_degree_adult"),
];

/// Given what was promised, every sum has its keys and answers.
#[test]
fn every_promised_sum_stands() {
    for (name, keys, answers) in PROMISED {
        let sum = super::sum(name).unwrap_or_else(|| panic!("{name} is gone"));
        for key in keys.split_whitespace() {
            assert!(sum.keys.iter().any(|there| there.name == key), "{name} lost {key}");
        }
        for answer in answers.split_whitespace() {
            assert!(sum.answers.iter().any(|there| there.name == answer), "{name} lost {answer}");
        }
    }
}

/// Every range and default is one that its own key reads, in range; help ends in a stop; names
/// stand once; units are known; every sum has an example with an expected answer, each of a
/// declared name, and a source.
#[test]
fn the_tables_hold_together() {
    let mut names = BTreeSet::new();
    for sum in sums() {
        let name = sum.name;
        assert!(names.insert(name), "{name} stands twice");
        assert!(sum.help.ends_with('.'), "{name}");
        assert!(!sum.formula.is_empty() && !sum.source.is_empty() && !sum.valid_range.is_empty());
        assert!(sum.caution.is_empty() || sum.caution.starts_with("Caution  "), "{name}");
        let mut keys = BTreeSet::new();
        for key in sum.keys {
            assert!(keys.insert(key.name), "{name}: {} stands twice", key.name);
            assert!(key.help.ends_with('.'), "{name}: {}", key.name);
            for text in key.range.map_or(Vec::new(), |(low, high)| vec![low, high]) {
                assert!(read(key, text).is_ok(), "{name}: {} in {}", text, key.name);
            }
            if let Need::Assumed { value, origin } = key.need {
                assert!(read(key, value).is_ok(), "{name}: {value} for {}", key.name);
                assert!(!origin.is_empty(), "{name}: {}", key.name);
            }
        }
        for answer in sum.answers {
            assert!(answer.help.ends_with('.'), "{name}: {}", answer.name);
            if let Measure::Of { kind, unit, us } = answer.measure {
                for unit in [unit, us] {
                    assert!(in_unit(kind, 1.0, unit).is_some(), "{name}: {unit}");
                }
            }
        }
        assert!(!sum.examples.is_empty(), "{name} has no example");
        for example in sum.examples {
            assert!(!example.expected.is_empty() && !example.source.is_empty(), "{name}");
            for expected in example.expected {
                let declared = sum.answers.iter().any(|answer| answer.declares(expected.answer));
                assert!(declared, "{name}: {}", expected.answer);
            }
        }
    }
}

/// Given an answer with a unit, its words are without it; every unit stands in its answer's name,
/// but for seconds and litres, which begin theirs.
#[test]
fn every_unit_stands_in_the_answer_s_name() {
    for answer in sums().flat_map(|sum| sum.answers) {
        let bare = answer.label(answer.name).replace(' ', "_");
        let begins = ["seconds_", "litres"].iter().any(|front| answer.name.starts_with(front));
        let plain = matches!(answer.measure, Measure::Plain);
        assert_eq!(bare == answer.name, plain || begins, "{}", answer.name);
    }
}

/// Every sum gives every answer that it declares in some example: none is promised in vain.
#[test]
fn every_answer_comes_in_some_example() {
    for sum in sums() {
        let came: BTreeSet<String> = sum
            .examples
            .iter()
            .flat_map(|example| {
                let written: Vec<String> =
                    example.given.iter().map(|(key, value)| format!("{key}={value}")).collect();
                let asked = ask(sum.name, &written).unwrap_or_else(|refusal| {
                    panic!("{}: {:?}", sum.name, refusal.problems);
                });
                asked.answers.into_iter().map(|result| result.name)
            })
            .collect();
        for answer in sum.answers {
            assert!(
                came.iter().any(|name| answer.declares(name)),
                "{}: no example gives {}",
                sum.name,
                answer.name
            );
        }
    }
}

/// A value, more or less like one that a key takes.
fn any_value() -> impl Strategy<Value = String> {
    prop_oneof![
        "\\PC{0,12}",
        "-?[0-9]{1,4}(\\.[0-9]{1,3})?(e-?[0-9]{1,3})? ?(mm|m|C|F|K|W/m2 K|W/K|bar|l|kg/s|%|deg|h)?",
        "(water|propylene-glycol|churchill|M|copper|same-side|2)",
        "[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(Z|[+-][0-9]{2}:[0-9]{2})",
    ]
}

proptest! {
    /// Given any sum with any values, an answer of finite numbers or words on what is wrong; never
    /// a panic.
    #[test]
    fn no_value_panics(
        place in 0..1000_usize,
        values in prop::collection::vec(any_value(), 13),
        change in 0..4_usize,
    ) {
        let all: Vec<_> = sums().collect();
        let sum = all[place % all.len()];
        let example = &sum.examples[0];
        let mut written: Vec<String> = Vec::new();
        for (at, (key, value)) in sum.keys.iter().zip(&values).enumerate() {
            let sound = example.given.iter().find(|(name, _)| *name == key.name);
            match sound {
                // Mostly sound values with a few strange ones get furthest.
                Some((_, sound)) if (at + place) % 4 != change => {
                    written.push(format!("{}={sound}", key.name));
                }
                _ => written.push(format!("{}={value}", key.name)),
            }
        }
        match ask(sum.name, &written) {
            Ok(asked) => prop_assert!(asked.answers.iter().all(|result| result.si.is_finite())),
            Err(Refusal { problems, .. }) => prop_assert!(!problems.is_empty()),
        }
    }

    /// Given any words at all, the same.
    #[test]
    fn no_line_panics(name in "\\PC{0,10}", words in prop::collection::vec(".{0,20}", 0..5)) {
        match ask(&name, &words) {
            Ok(_) => {}
            Err(refusal) => prop_assert_eq!(refusal.refused_as, RefusedAs::Usage),
        }
        let refusal = ask("tube", &words).err();
        for problem in refusal.map_or(Vec::new(), |refusal| refusal.problems) {
            prop_assert!(!problem.says.is_empty() && !problem.expected.is_empty());
        }
    }
}
