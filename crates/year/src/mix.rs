//! Water that is warmer than the water above it rises and mixes until it is not.

/// Mixes neighbouring layers (bottom first, all of one volume) until no layer is warmer than the
/// one above it, keeping their heat: the nearest such profile in the sense of least squares.
///
/// `scratch` holds the groups being built; it is cleared, and never grows beyond the layers once
/// it has their capacity.
pub(crate) fn settle(layer_k: &mut [f64], scratch: &mut Vec<(f64, usize)>) {
    if layer_k.windows(2).all(|pair| pair[0] <= pair[1]) {
        return;
    }
    scratch.clear();
    for &temperature_k in layer_k.iter() {
        let mut group = (temperature_k, 1);
        while let Some(&(below_k, count)) = scratch.last() {
            if below_k <= group.0 {
                break;
            }
            scratch.pop();
            let together = count + group.1;
            group =
                ((below_k * count as f64 + group.0 * group.1 as f64) / together as f64, together);
        }
        scratch.push(group);
    }
    let mut layer = 0;
    for &(mean_k, count) in scratch.iter() {
        layer_k[layer..layer + count].fill(mean_k);
        layer += count;
    }
}

/// Layers that will move as one through a step: runs of equal temperature whose lower part would
/// overtake its upper part at the rates given.
///
/// `ends` receives one past the last layer of each group, bottom first.
pub(crate) fn group(
    layer_k: &[f64],
    rate_k_s: &[f64],
    scratch: &mut Vec<(f64, usize)>,
    ends: &mut Vec<usize>,
) {
    scratch.clear();
    ends.clear();
    for (layer, &rate) in rate_k_s.iter().enumerate() {
        let mut group = (rate, 1);
        let mut first = layer;
        while let Some(&(rate, count)) = scratch.last() {
            let touching = layer_k[first] - layer_k[first - 1] <= TOUCHING_K;
            if !touching || rate <= group.0 {
                break;
            }
            scratch.pop();
            let together = count + group.1;
            group = ((rate * count as f64 + group.0 * group.1 as f64) / together as f64, together);
            first -= count;
        }
        scratch.push(group);
    }
    let mut end = 0;
    for &(_, count) in scratch.iter() {
        end += count;
        ends.push(end);
    }
}

/// Layers nearer than this count as equally warm \[K\]: far below what a minute changes, far above
/// rounding.
const TOUCHING_K: f64 = 1e-7;

#[cfg(test)]
mod tests {
    use super::{group, settle};
    use proptest::prelude::*;

    /// Given a warm layer under two cold ones, all three take their mean (worked by hand).
    #[test]
    fn a_warm_bottom_mixes_to_the_top() {
        let mut layer_k = [320.0, 310.0, 300.0, 330.0];
        settle(&mut layer_k, &mut Vec::new());
        assert_eq!(layer_k, [310.0, 310.0, 310.0, 330.0]);
    }

    /// Given equal layers heated at the bottom, they move as one; given a colder one below them,
    /// it stays by itself.
    #[test]
    fn equal_layers_heated_from_below_form_one_group() {
        let mut ends = Vec::new();
        group(&[290.0, 300.0, 300.0, 300.0], &[0.0, 3.0, 0.0, 0.0], &mut Vec::new(), &mut ends);
        assert_eq!(ends, [1, 4]);
        group(&[300.0, 300.0], &[0.0, 1.0], &mut Vec::new(), &mut ends);
        assert_eq!(ends, [1, 2]);
    }

    proptest! {
        /// For any profile: heat is kept, no layer stays warmer than the one above, and nothing
        /// leaves the range it came from.
        #[test]
        fn mixing_keeps_heat_and_orders_layers(
            mut layer_k in proptest::collection::vec(273.0_f64..373.0, 1..40)
        ) {
            let before: f64 = layer_k.iter().sum();
            let (low, high) = layer_k
                .iter()
                .fold((f64::MAX, f64::MIN), |(low, high), &k| (low.min(k), high.max(k)));
            settle(&mut layer_k, &mut Vec::new());
            let after: f64 = layer_k.iter().sum();
            prop_assert!((after - before).abs() < 1e-9 * before);
            prop_assert!(layer_k.windows(2).all(|pair| pair[0] <= pair[1]));
            prop_assert!(layer_k.iter().all(|&k| k >= low - 1e-9 && k <= high + 1e-9));
        }
    }
}
