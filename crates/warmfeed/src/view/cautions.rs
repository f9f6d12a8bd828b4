//! What must be said wherever a build is computed, looked at or begun.

use physics::ZERO_CELSIUS_K;
use physics::tap::scald::{Scald, scald as burn};

use super::Paper;
use super::rulers::{Rulers, whole};
use super::text::hanging;

/// Beneath the answer of a command, in full.
pub fn cautions(paper: Paper) -> String {
    let rulers = Rulers::of(paper.units);
    let [grows_from, grows_to, kills, burns, dry] =
        [20.0, 45.0, 60.0, 50.0, 120.0].map(|celsius| rulers.temperature_text(celsius));
    let words = format!(
        "Water kept between {grows_from} and {grows_to} grows bacteria: all of it must reach and \
         hold {kills} in the heater before anyone showers in it, and a warmed cistern must feed \
         nothing but the heater. Water from a store in the sun can scald: {kills} burns skin in \
         seconds and {burns} in minutes, so a mixing valve belongs before the taps. A dry panel \
         passes {dry}. Wiring, gas and work on the roof are for licensed trades; your water \
         supplier and local codes decide what may be built. More stands in docs/safety.md."
    );
    hanging("Caution", 9, &words, paper.prose_width())
}

/// Where a build is only begun.
pub fn short_caution() -> String {
    let words = "Before you cut or buy: a dry panel passes 120 C, warm stored water breeds bacteria, \
                 hot water scalds; roofs, wiring, gas and drinking water are for licensed trades. \
                 docs/safety.md has the usual cautions, and so has every year that is computed.";
    hanging("Caution", 9, words, 88)
}

/// What is true of water as hot as this; none where no burn is to be told of.
pub fn scald(celsius: f64, rulers: &Rulers) -> Option<String> {
    let times = match burn(celsius + ZERO_CELSIUS_K).ok()? {
        Scald::NoneSeen | Scald::After(_) => return None,
        Scald::About(times) | Scald::Within(times) => times,
    };
    let seconds = times.second_degree_s;
    let time = if seconds < 90.0 {
        format!("{} s", whole(seconds.max(1.0)))
    } else if seconds < 5400.0 {
        format!("{} min", whole(seconds / 60.0))
    } else {
        format!("{} h", whole(seconds / 3600.0))
    };
    Some(format!(
        "water of {} burns an adult's skin in about {time}, a child's in half of that",
        rulers.temperature_text(celsius)
    ))
}

#[cfg(test)]
mod tests {
    use super::{Rulers, scald};
    use design::quantity::Units;

    /// Given rows of the chart that rests on Moritz and Henriques 1947 (3 s at 60 C, 8 min at 49 C, 2 h
    /// at 45 C), its words; given 44.5 C, none.
    #[test]
    fn what_is_said_of_scalding_is_the_charts() {
        let rulers = Rulers::of(Units::Metric);
        let said = |celsius: f64| scald(celsius, &rulers).unwrap_or_default();
        assert!(said(60.0).contains("60 C burns an adult's skin in about 3 s"), "{}", said(60.0));
        assert!(said(49.0).contains("about 8 min"), "{}", said(49.0));
        assert!(said(45.0).contains("about 2 h"), "{}", said(45.0));
        assert_eq!(scald(44.5, &rulers), None);
        let us = scald(60.0, &Rulers::of(Units::Us)).unwrap_or_default();
        assert!(us.contains("140 F"), "{us}");
    }
}
