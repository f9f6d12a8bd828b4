//! The store's own steps: standing with its losses, and water passing through it.

use crate::mix;
use crate::plant::{Plant, StorePlant};
use crate::state::Flows;
use crate::step_circuit::{Bench, GAMMA};
use crate::weather::Hour;

/// How fast each layer warms by loss, vapour and conduction alone \[K/s\], bottom first.
pub(crate) fn water_rates_k_s(
    plant: &Plant,
    hour: &Hour,
    layer_k: &[f64],
    rate_k_s: &mut Vec<f64>,
) {
    let store = &plant.store;
    let top = layer_k.len() - 1;
    rate_k_s.clear();
    for layer in 0..layer_k.len() {
        let mut gain_w = store.loss_w_k[layer] * (hour.loft_k - layer_k[layer]);
        if layer > 0 {
            gain_w += store.conduction_w_k * (layer_k[layer - 1] - layer_k[layer]);
        }
        if layer < top {
            gain_w += store.conduction_w_k * (layer_k[layer + 1] - layer_k[layer]);
        } else {
            let vapour = store.evaporation(layer_k[layer], hour.loft_k, hour.dew_point_k);
            gain_w -= vapour.fixed_w + vapour.growth_w_k * layer_k[layer];
        }
        rate_k_s.push(gain_w / store.layer_j_k);
    }
}

/// Moves a standing store by `step_s`, up to an hour; returns what crossed.
///
/// Layers that cool from above sink and mix. Each group of layers that move as one takes two
/// stages of the implicit rule of [`crate::step_circuit`]; conduction between groups is taken as
/// of the start, being slow against an hour.
pub(crate) fn stand(
    plant: &Plant,
    hour: &Hour,
    step_s: f64,
    layer_k: &mut [f64],
    bench: &mut Bench,
) -> Flows {
    let store = &plant.store;
    let mut flows = Flows::default();
    water_rates_k_s(plant, hour, layer_k, &mut bench.rate_k_s);
    mix::group(layer_k, &bench.rate_k_s, &mut bench.groups, &mut bench.ends);
    // Conduction must see every layer as it stood, so it goes into the rates' room first.
    for layer in 0..store.layers {
        let here_k = layer_k[layer];
        let mut conduction_w = 0.0;
        if layer > 0 {
            conduction_w += store.conduction_w_k * (layer_k[layer - 1] - here_k);
        }
        if layer + 1 < store.layers {
            conduction_w += store.conduction_w_k * (layer_k[layer + 1] - here_k);
        }
        bench.rate_k_s[layer] = conduction_w;
    }
    let mut first = 0;
    for &end in &bench.ends {
        let layers = &mut layer_k[first..end];
        let start_k = layers.iter().sum::<f64>() / layers.len() as f64;
        let conduction_w: f64 = bench.rate_k_s[first..end].iter().sum();
        let capacity_j_k = store.layer_j_k * layers.len() as f64;
        let loss_w_k: f64 = store.loss_w_k[first..end].iter().sum();
        let vapour = if end == store.layers {
            store.evaporation(start_k, hour.loft_k, hour.dew_point_k)
        } else {
            Default::default()
        };
        let pace_w_k = capacity_j_k / (GAMMA * step_s);
        let solve = |base_k: f64| {
            (pace_w_k * base_k + loss_w_k * hour.loft_k + conduction_w - vapour.fixed_w)
                / (pace_w_k + loss_w_k + vapour.growth_w_k)
        };
        let first_k = solve(start_k);
        let second_k = solve(start_k + (1.0 - GAMMA) / GAMMA * (first_k - start_k));
        for (share, water_k) in [(1.0 - GAMMA, first_k), (GAMMA, second_k)] {
            flows.store_loss_j += share * step_s * loss_w_k * (water_k - hour.loft_k);
            flows.evaporation_j += share * step_s * (vapour.fixed_w + vapour.growth_w_k * water_k);
        }
        layers.fill(second_k);
        first = end;
    }
    mix::settle(layer_k, &mut bench.groups);
    flows
}

/// Lets `volume_m3` of cold in at the inlet and as much out of the layer `outlet`.
///
/// Cold falls from the inlet through every layer warmer than itself, taking some of each along, and
/// comes to rest in the first it does not outweigh, or at the base; what it displaces moves towards
/// the outlet. Returns the heat carried out above that of the cold that came in \[J\]. Two-stage explicit steps (Heun), each moving at most a quarter of a layer.
pub(crate) fn pass_water(
    store: &StorePlant,
    outlet: usize,
    mains_k: f64,
    volume_m3: f64,
    layer_k: &mut [f64],
    scratch: &mut PassScratch,
) -> f64 {
    let mut heat_j = 0.0;
    let busiest = 1.0 + store.entrained_per_layer * store.layers as f64;
    let steps = (busiest * volume_m3 / (0.25 * store.layer_m3)).ceil().max(1.0);
    let part = volume_m3 / steps / store.layer_m3;
    scratch.before_k.resize(layer_k.len(), 0.0);
    scratch.change_k.resize(layer_k.len(), 0.0);
    scratch.more_k.resize(layer_k.len(), 0.0);
    for _ in 0..steps as usize {
        scratch.before_k.copy_from_slice(layer_k);
        passing_rates(store, outlet, mains_k, layer_k, &mut scratch.change_k);
        let out_first_k = layer_k[outlet];
        for (here_k, change_k) in layer_k.iter_mut().zip(&scratch.change_k) {
            *here_k += part * change_k;
        }
        passing_rates(store, outlet, mains_k, layer_k, &mut scratch.more_k);
        let out_second_k = layer_k[outlet];
        let changes = scratch.change_k.iter().zip(&scratch.more_k);
        for ((here_k, before_k), (first_k, second_k)) in
            layer_k.iter_mut().zip(&scratch.before_k).zip(changes)
        {
            *here_k = before_k + 0.5 * part * (first_k + second_k);
        }
        let out_k = 0.5 * (out_first_k + out_second_k);
        heat_j += part * store.layer_j_k * (out_k - mains_k);
        mix::settle(layer_k, &mut scratch.groups);
    }
    heat_j
}

/// Room for passing water.
#[derive(Clone, Debug, Default)]
pub(crate) struct PassScratch {
    before_k: Vec<f64>,
    change_k: Vec<f64>,
    more_k: Vec<f64>,
    pub groups: Vec<(f64, usize)>,
}

/// How much each layer changes for every layer's volume of cold that passes \[K\].
///
/// Every layer stays full: what the plume brings to its resting place, less what it took from the
/// layers it passed and what leaves at the outlet, moves between neighbours, carrying the
/// temperature of the layer it comes from.
fn passing_rates(
    store: &StorePlant,
    outlet: usize,
    mains_k: f64,
    layer_k: &[f64],
    change_k: &mut [f64],
) {
    let taken = store.entrained_per_layer;
    let mut rest = store.inlet;
    let mut plume_k = mains_k;
    let mut plume = 1.0;
    while rest > 0 && plume_k < layer_k[rest - 1] {
        plume_k = (plume * plume_k + taken * layer_k[rest]) / (plume + taken);
        plume += taken;
        rest -= 1;
    }
    change_k.fill(0.0);
    change_k[rest] = plume * (plume_k - layer_k[rest]);
    let mut up = 0.0;
    for below in 0..layer_k.len() - 1 {
        if below == rest {
            up += plume;
        } else if below > rest && below <= store.inlet {
            up -= taken;
        }
        if below == outlet {
            up -= 1.0;
        }
        let step_k = layer_k[below] - layer_k[below + 1];
        if up > 0.0 {
            change_k[below + 1] += up * step_k;
        } else {
            change_k[below] += up * step_k;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{PassScratch, pass_water, stand};
    use crate::plant::Plant;
    use crate::step_circuit::Bench;
    use crate::weather::Hour;
    use physics::ZERO_CELSIUS_K;
    use physics::store::Store;
    use toml::{Table, Value};

    /// A case of the reference file.
    fn case(id: &str) -> Table {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../reference/thermal-checks.toml");
        let file: Table = std::fs::read_to_string(path).expect("it stands").parse().expect("TOML");
        let cases = file["case"].as_array().expect("cases");
        let found = cases.iter().find(|case| case["id"].as_str() == Some(id));
        found.and_then(Value::as_table).expect("the case").clone()
    }

    fn number(value: &Value) -> f64 {
        value.as_float().or(value.as_integer().map(|whole| whole as f64)).expect("a number")
    }

    fn numbers(value: &Value) -> Vec<f64> {
        value.as_array().expect("a list").iter().map(number).collect()
    }

    /// The plant of a sample build with another store: only the store's part of it is asked.
    fn plant(change: impl FnOnce(&mut Store)) -> Plant {
        let name = "first-panel.toml";
        let path = format!("{}/../../samples", env!("CARGO_MANIFEST_DIR"));
        let read = |file: &str| std::fs::read(format!("{path}/{file}")).expect("it is there");
        let design = design::read_design(name, &read(name)).design.expect("a sound build");
        let weather = design.weather.name().to_owned();
        let climate = design::weather::read_weather(&weather, &read(&weather)).0.expect("sound");
        let mut build = design.at(&climate, name).build;
        change(&mut build.store);
        Plant::compile(&build).expect("a store that compiles")
    }

    /// ST-05, a printed example: ten hours of gain and load on a mixed store. Its table takes
    /// hourly forward steps; ours go by the minute, so its last hour must end where the case's
    /// exact integration does, within the case's tolerance, and every hour within the 0.5 K by
    /// which the case says that the forward steps lead.
    #[test]
    fn st_05_ten_hours_of_gain_and_load() {
        let case = case("ST-05");
        let given = |key: &str| number(&case["inputs"][key]);
        let mut plant = plant(|store| {
            store.layers = 1;
            store.lid_gap_m2 = 0.0;
        });
        plant.store.layer_j_k = given("mass_kg") * given("cp_j_kgk");
        plant.store.loss_w_k = vec![given("ua_w_k")];
        let mut hour = Hour::room(&plant);
        hour.loft_k = given("t_room_c") + ZERO_CELSIUS_K;
        let mut layer_k = [given("t0_c") + ZERO_CELSIUS_K];
        let mut bench = Bench::default();
        let (gains, loads) =
            (numbers(&case["inputs"]["gain_mj"]), numbers(&case["inputs"]["load_mj"]));
        let expected_c = numbers(&case["expected"]["t_c"]);
        for ((gain_mj, load_mj), expected_c) in gains.iter().zip(&loads).zip(&expected_c) {
            let a_minute_k = (gain_mj - load_mj) * 1e6 / 60.0 / plant.store.layer_j_k;
            for _ in 0..60 {
                // Half of the minute's heat before its loss and half after: the mean minute.
                layer_k[0] += 0.5 * a_minute_k;
                stand(&plant, &hour, 60.0, &mut layer_k, &mut bench);
                layer_k[0] += 0.5 * a_minute_k;
            }
            let got_c = layer_k[0] - ZERO_CELSIUS_K;
            assert!((got_c - expected_c).abs() < 0.5, "{got_c} is not near {expected_c}");
        }
        let exact_c = number(&case["recomputed"]["final_if_integrated_exactly_within_hour"]);
        let got_c = layer_k[0] - ZERO_CELSIUS_K;
        let allowed_k = number(&case["tol"]["abs"]);
        assert!((got_c - exact_c).abs() < allowed_k, "{got_c} is not {exact_c}");
    }

    /// ST-06: what leaves at the top of N mixed layers while cold sinks unmixed to the base, by the
    /// exact answer of tanks in a row. Drawn in fiftieths of the tank, a bath from a cistern being
    /// a third: one draw of the whole tank at once would be 0.006 off, twice the tolerance.
    #[test]
    fn st_06_hot_share_after_draws() {
        let case = case("ST-06");
        let allowed = number(&case["tol"]["abs"]);
        let thetas = numbers(&case["inputs"]["theta"]);
        let rows = case["expected"]["hot_fraction"].as_array().expect("rows");
        let segments = numbers(&case["inputs"]["segments"]);
        for (segments, row) in segments.iter().zip(rows) {
            let layers = *segments as usize;
            let plant = plant(|store| {
                store.layers = layers;
                store.entrainment = 0.0;
                store.inlet_height_m = 0.0;
                store.outlet_height_m = store.water_depth_m;
            });
            let store = &plant.store;
            assert_eq!((store.layers, store.inlet, store.outlet), (layers, 0, layers - 1));
            let (cold_k, hot_k) = (283.15, 333.15);
            let whole_m3 = store.layer_m3 * layers as f64;
            for (theta, expected) in thetas.iter().zip(numbers(row)) {
                let mut layer_k = vec![hot_k; layers];
                let mut scratch = PassScratch::default();
                let outlet = store.outlet;
                for _ in 0..(50.0 * theta).round() as usize {
                    let part_m3 = whole_m3 / 50.0;
                    pass_water(store, outlet, cold_k, part_m3, &mut layer_k, &mut scratch);
                }
                let share = (layer_k[outlet] - cold_k) / (hot_k - cold_k);
                assert!((share - expected).abs() < allowed, "{layers}, {theta}: {share}");
            }
        }
    }
}
