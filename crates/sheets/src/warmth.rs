//! The heat scale: cold to hot, lightness rising evenly, so that it holds in grey and in print.

use crate::style::Rgb;

/// Eleven even stops, cold to hot.
const STOPS: [u32; 11] = [
    0x19285F, 0x3E3078, 0x643587, 0x8C3B8A, 0xB54280, 0xD7526B, 0xEC6C5E, 0xFC8954, 0xFFAD5C,
    0xFCD078, 0xF6EEAB,
];

/// Colour of a level, 0 coldest to 255 hottest: straight between the stops in OKLab.
pub fn colour(level: u8) -> u32 {
    let along = f64::from(level) / 255.0 * (STOPS.len() - 1) as f64;
    let stop = (along as usize).min(STOPS.len() - 2);
    let share = along - stop as f64;
    let (low, high) = (Lab::of(STOPS[stop]), Lab::of(STOPS[stop + 1]));
    Lab {
        light: low.light + share * (high.light - low.light),
        green_red: low.green_red + share * (high.green_red - low.green_red),
        blue_yellow: low.blue_yellow + share * (high.blue_yellow - low.blue_yellow),
    }
    .rgb()
}

/// Level of a temperature between a picture's ends.
pub fn level(value: f64, lowest: f64, highest: f64) -> u8 {
    if highest <= lowest {
        return 128;
    }
    (255.0 * (value - lowest) / (highest - lowest)).round().clamp(0.0, 255.0) as u8
}

/// A colour in OKLab (Ottosson 2020).
struct Lab {
    light: f64,
    green_red: f64,
    blue_yellow: f64,
}

impl Lab {
    fn of(colour: u32) -> Lab {
        let Rgb { red, green, blue } = Rgb::linear(colour);
        let l = (0.4122214708 * red + 0.5363325363 * green + 0.0514459929 * blue).cbrt();
        let m = (0.2119034982 * red + 0.6806995451 * green + 0.1073969566 * blue).cbrt();
        let s = (0.0883024619 * red + 0.2817188376 * green + 0.6299787005 * blue).cbrt();
        Lab {
            light: 0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
            green_red: 1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
            blue_yellow: 0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s,
        }
    }

    fn rgb(&self) -> u32 {
        let Lab { light, green_red: a, blue_yellow: b } = *self;
        let l = (light + 0.3963377774 * a + 0.2158037573 * b).powi(3);
        let m = (light - 0.1055613458 * a - 0.0638541728 * b).powi(3);
        let s = (light - 0.0894841775 * a - 1.2914855480 * b).powi(3);
        Rgb {
            red: 4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
            green: -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
            blue: -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s,
        }
        .packed()
    }
}

#[cfg(test)]
mod tests {
    use super::{STOPS, colour, level};
    use crate::style::luminance;

    /// Given the eleven stops, the scale meets each of them, and lightness rises at every level:
    /// lighter is hotter, in grey too.
    #[test]
    fn the_scale_meets_its_stops_and_only_rises() {
        for (place, &stop) in STOPS.iter().enumerate() {
            let found = colour((25.5 * place as f64).round() as u8);
            for shift in [16, 8, 0] {
                let part = |colour: u32| ((colour >> shift) & 255) as i32;
                assert!((part(found) - part(stop)).abs() <= 2, "{found:06x} for {stop:06x}");
            }
        }
        assert!((1..=255).all(|at| luminance(colour(at)) > luminance(colour(at - 1))));
    }

    #[test]
    fn levels_run_from_end_to_end() {
        assert_eq!((level(20.0, 20.0, 60.0), level(60.0, 20.0, 60.0)), (0, 255));
        assert_eq!((level(-5.0, 20.0, 60.0), level(40.0, 20.0, 60.0)), (0, 128));
    }
}
