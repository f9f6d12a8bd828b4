//! The library of daily transition matrices.

/// How one day's clearness follows another's, in months of one class of mean clearness.
pub(super) struct Class {
    /// Highest monthly mean of the class.
    pub(super) highest_mean: f64,
    /// Clearness at the lower end of the first of ten even states.
    pub(super) lowest: f64,
    /// Clearness at the upper end of the last.
    pub(super) highest: f64,
    /// Row: state of yesterday; column: state of today; entries in thousandths.
    pub(super) matrix: [[u16; STATES]; STATES],
}

/// Even states between a class's lowest and highest clearness.
pub(super) const STATES: usize = 10;

/// Ten classes by rising mean.
///
/// Aguiar, Collares-Pereira and Conde 1988, Solar Energy 40(3):269, as two public copies print
/// them. Where they part: class 5, row 2, column 9 is 0 (the other copy's 0.530 would lift the row over 1);
/// the never observed rows of classes 9 and 10 lead to the state that follows most often.
#[rustfmt::skip]
pub(super) const CLASSES: [Class; 10] = [
    Class {
        highest_mean: 0.3,
        lowest: 0.031,
        highest: 0.705,
        matrix: [
            [229, 333, 208, 42, 83, 42, 42, 21, 0, 0],
            [167, 319, 194, 139, 97, 28, 42, 0, 14, 0],
            [250, 250, 91, 136, 91, 46, 46, 23, 68, 0],
            [158, 237, 158, 263, 26, 53, 79, 26, 0, 0],
            [211, 53, 211, 158, 53, 53, 158, 105, 0, 0],
            [125, 125, 250, 188, 63, 125, 0, 125, 0, 0],
            [40, 240, 80, 120, 80, 80, 120, 120, 80, 40],
            [0, 250, 0, 125, 0, 125, 125, 250, 63, 63],
            [0, 250, 0, 125, 250, 0, 250, 0, 0, 125],
            [0, 0, 0, 0, 0, 0, 500, 250, 0, 250],
        ],
    },
    Class {
        highest_mean: 0.35,
        lowest: 0.058,
        highest: 0.694,
        matrix: [
            [0, 0, 91, 0, 364, 91, 182, 0, 273, 0],
            [118, 118, 176, 118, 59, 118, 176, 59, 59, 0],
            [67, 267, 67, 200, 67, 0, 133, 133, 0, 67],
            [118, 235, 0, 235, 59, 176, 118, 0, 59, 0],
            [77, 154, 308, 77, 154, 77, 0, 77, 77, 0],
            [83, 0, 167, 250, 83, 167, 0, 83, 167, 0],
            [222, 222, 0, 111, 111, 0, 111, 222, 0, 0],
            [91, 182, 273, 0, 91, 273, 0, 91, 0, 0],
            [111, 111, 111, 222, 0, 0, 0, 222, 111, 111],
            [0, 0, 0, 0, 0, 0, 500, 0, 0, 500],
        ],
    },
    Class {
        highest_mean: 0.4,
        lowest: 0.051,
        highest: 0.753,
        matrix: [
            [206, 88, 176, 176, 88, 29, 176, 29, 29, 0],
            [120, 100, 140, 160, 120, 220, 100, 0, 20, 20],
            [77, 123, 185, 123, 77, 139, 92, 123, 61, 0],
            [48, 111, 95, 206, 206, 190, 95, 48, 0, 0],
            [59, 137, 118, 137, 98, 118, 118, 157, 59, 0],
            [14, 97, 139, 153, 125, 139, 208, 56, 42, 28],
            [73, 101, 116, 145, 87, 159, 203, 87, 29, 0],
            [19, 37, 111, 56, 74, 111, 185, 296, 74, 37],
            [35, 69, 35, 0, 35, 103, 172, 138, 379, 35],
            [0, 167, 167, 0, 167, 0, 0, 333, 0, 167],
        ],
    },
    Class {
        highest_mean: 0.45,
        lowest: 0.052,
        highest: 0.753,
        matrix: [
            [167, 167, 167, 0, 83, 125, 0, 167, 125, 0],
            [117, 117, 150, 117, 83, 117, 200, 67, 17, 17],
            [49, 85, 134, 158, 98, 110, 134, 134, 61, 37],
            [39, 90, 141, 141, 167, 141, 90, 141, 39, 13],
            [9, 139, 74, 93, 194, 139, 167, 93, 74, 19],
            [36, 18, 117, 99, 144, 180, 180, 117, 72, 36],
            [0, 46, 61, 61, 136, 159, 273, 167, 98, 0],
            [16, 56, 80, 128, 104, 80, 160, 208, 136, 32],
            [11, 53, 21, 43, 128, 96, 74, 223, 277, 74],
            [0, 74, 37, 0, 74, 74, 74, 74, 333, 259],
        ],
    },
    Class {
        highest_mean: 0.5,
        lowest: 0.028,
        highest: 0.807,
        matrix: [
            [120, 200, 160, 120, 120, 120, 80, 0, 40, 40],
            [100, 80, 120, 140, 140, 200, 180, 40, 0, 0],
            [46, 114, 68, 171, 125, 171, 80, 159, 57, 11],
            [15, 61, 84, 99, 191, 153, 153, 115, 115, 15],
            [24, 30, 98, 98, 165, 195, 195, 140, 43, 12],
            [15, 26, 62, 124, 144, 170, 170, 222, 62, 5],
            [0, 13, 45, 108, 112, 175, 188, 224, 117, 18],
            [8, 23, 54, 66, 93, 125, 191, 253, 183, 4],
            [6, 22, 61, 33, 67, 83, 139, 222, 322, 44],
            [0, 46, 91, 91, 46, 46, 136, 91, 273, 182],
        ],
    },
    Class {
        highest_mean: 0.55,
        lowest: 0.053,
        highest: 0.856,
        matrix: [
            [250, 179, 107, 107, 143, 71, 107, 36, 0, 0],
            [133, 22, 89, 111, 156, 178, 111, 133, 67, 0],
            [64, 48, 143, 48, 175, 143, 206, 95, 79, 0],
            [0, 22, 78, 111, 156, 156, 244, 167, 44, 22],
            [16, 27, 37, 69, 160, 219, 230, 160, 75, 5],
            [13, 25, 30, 93, 144, 202, 215, 219, 55, 4],
            [6, 41, 35, 64, 90, 180, 337, 192, 49, 6],
            [12, 21, 29, 35, 132, 123, 184, 371, 82, 12],
            [8, 16, 16, 24, 71, 103, 159, 270, 309, 24],
            [0, 0, 0, 0, 59, 0, 59, 294, 412, 176],
        ],
    },
    Class {
        highest_mean: 0.6,
        lowest: 0.044,
        highest: 0.818,
        matrix: [
            [217, 87, 0, 174, 130, 87, 87, 130, 87, 0],
            [26, 79, 132, 79, 26, 158, 158, 132, 158, 53],
            [20, 20, 20, 40, 160, 180, 160, 200, 100, 100],
            [25, 13, 38, 76, 76, 139, 139, 266, 215, 13],
            [30, 30, 50, 20, 91, 131, 162, 283, 131, 71],
            [6, 6, 13, 57, 57, 121, 204, 287, 185, 64],
            [4, 26, 37, 30, 93, 107, 193, 307, 167, 37],
            [11, 9, 14, 42, 41, 71, 152, 418, 203, 41],
            [12, 22, 22, 38, 19, 50, 113, 281, 360, 84],
            [8, 24, 39, 39, 63, 39, 118, 118, 284, 268],
        ],
    },
    Class {
        highest_mean: 0.65,
        lowest: 0.085,
        highest: 0.846,
        matrix: [
            [67, 133, 133, 67, 67, 200, 133, 133, 67, 0],
            [118, 59, 59, 59, 59, 118, 118, 235, 118, 59],
            [0, 24, 24, 49, 146, 73, 195, 244, 195, 49],
            [26, 0, 26, 26, 53, 184, 263, 184, 237, 0],
            [14, 0, 42, 56, 69, 97, 139, 306, 278, 0],
            [9, 9, 52, 69, 52, 112, 215, 285, 138, 60],
            [9, 9, 26, 17, 94, 99, 232, 283, 210, 21],
            [10, 14, 16, 19, 27, 62, 163, 467, 202, 19],
            [4, 7, 31, 17, 33, 50, 86, 252, 469, 50],
            [0, 0, 15, 46, 31, 46, 77, 123, 446, 215],
        ],
    },
    Class {
        highest_mean: 0.7,
        lowest: 0.01,
        highest: 0.842,
        matrix: [
            [0, 0, 0, 0, 0, 0, 0, 0, 1000, 0],
            [0, 0, 0, 0, 0, 0, 0, 0, 1000, 0],
            [0, 0, 0, 0, 0, 0, 250, 250, 500, 0],
            [0, 0, 0, 0, 250, 0, 0, 375, 250, 125],
            [0, 0, 0, 83, 0, 167, 167, 250, 333, 0],
            [0, 0, 42, 42, 42, 83, 83, 292, 292, 125],
            [0, 0, 32, 0, 0, 32, 129, 387, 355, 65],
            [0, 0, 0, 38, 38, 75, 47, 340, 415, 47],
            [4, 4, 7, 7, 11, 30, 52, 141, 654, 89],
            [0, 0, 0, 0, 61, 61, 30, 30, 349, 470],
        ],
    },
    Class {
        highest_mean: 1.0,
        lowest: 0.319,
        highest: 0.865,
        matrix: [
            [0, 0, 0, 0, 0, 0, 0, 0, 1000, 0],
            [100, 100, 100, 100, 100, 100, 100, 100, 100, 100],
            [0, 0, 0, 250, 0, 0, 0, 500, 250, 0],
            [0, 0, 143, 143, 0, 143, 143, 429, 0, 0],
            [0, 0, 0, 200, 0, 0, 200, 400, 200, 0],
            [0, 0, 0, 0, 0, 0, 222, 444, 333, 0],
            [0, 0, 0, 0, 80, 80, 80, 480, 240, 40],
            [0, 0, 27, 9, 27, 18, 135, 523, 252, 9],
            [0, 0, 0, 22, 0, 43, 43, 326, 511, 54],
            [0, 0, 0, 143, 0, 0, 0, 143, 714, 0],
        ],
    },
];

#[cfg(test)]
mod tests {
    use super::CLASSES;

    /// Every row is a distribution: its thousandths add up to one within the printed rounding (half a
    /// thousandth an entry). A slip of a digit would show.
    #[test]
    fn rows_are_distributions() {
        for (at, class) in CLASSES.iter().enumerate() {
            for (state, row) in class.matrix.iter().enumerate() {
                let sum: u16 = row.iter().sum();
                assert!(sum.abs_diff(1000) <= 5, "class {}, row {}: {sum}", at + 1, state + 1);
            }
        }
    }

    /// Given the stationary mean of each chain as computed apart from the same matrices (eigenvector,
    /// states at their middles): within 0.0006, its rounding and that of the thousandths.
    #[test]
    fn chains_have_their_means() {
        let apart =
            [0.2414, 0.3339, 0.3745, 0.4288, 0.4760, 0.5262, 0.5749, 0.6204, 0.6684, 0.7281];
        for (class, want) in CLASSES.iter().zip(apart) {
            let mut shares = [0.1; 10];
            for _ in 0..500 {
                let mut next = [0.0; 10];
                for (share, row) in shares.iter().zip(&class.matrix) {
                    let sum: f64 = row.iter().map(|&entry| f64::from(entry)).sum();
                    for (to, &entry) in next.iter_mut().zip(row) {
                        *to += share * f64::from(entry) / sum;
                    }
                }
                shares = next;
            }
            let width = (class.highest - class.lowest) / 10.0;
            let mean: f64 = shares
                .iter()
                .enumerate()
                .map(|(at, share)| share * (class.lowest + width * (at as f64 + 0.5)))
                .sum();
            assert!((mean - want).abs() < 6e-4, "{mean} for {want}");
        }
    }
}
