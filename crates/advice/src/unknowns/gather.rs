//! The unknowns of one design: from where its values come from, and from the table of what no design says.

use design::catalogue::materials::{Field, material};
use design::origin::Traced;
use design::parameters::{Form, Parameter, Spread, general, parameter_at};
use design::quantity::{Kind, parse};
use design::value::from_words;
use design::values::Value;
use design::{Origin, Origins};

use super::lever::{Lever, Spot};
use super::measures::measure;
use super::table::{LEFT_OUT, extras, maker_of_unsaid};
use super::{Chance, Maker, Reach, Unknown};
use crate::Subject;

/// Everything about a design that is not known, in the order of the heat; the weather stands apart.
///
/// - A catalogue's value may be anything within the catalogue's spread, evenly.
/// - What was answered "unknown", or was not answered although it may be, has the spread that the
///   parameter declares.
/// - What no design can say (how well it is made, which relation is right, what will be drawn) stands in
///   a table, each with its source.
pub fn unknowns(subject: &Subject) -> Vec<Unknown> {
    let origins = &subject.design.origins;
    let mut all: Vec<Unknown> =
        origins.iter().filter_map(|(place, traced)| of_value(place, traced)).collect();
    for cover in ["panel.cover", "panel.inner-cover"] {
        if let Some(unknown) = longwave(origins, cover) {
            // Emittance and what passes share one whole: they move together.
            all.retain(|other| other.place != format!("{cover}.emittance"));
            all.push(unknown);
        }
    }
    let told = extras(subject);
    // The table knows a value's workmanship better than the catalogue's plain spread.
    all.retain(|unknown| told.iter().all(|other| other.place != unknown.place));
    all.extend(told);
    all
}

fn of_value(place: &str, traced: &Traced) -> Option<Unknown> {
    let path = general(place);
    if LEFT_OUT.iter().any(|left_out| path.ends_with(left_out)) {
        return None;
    }
    let parameter = parameter_at(place)?;
    match &traced.origin {
        Origin::Catalogue { spread: (least, most), source, .. } if least < most => {
            let kind = kind_of(parameter)?;
            let middle = parse(&traced.value, kind).ok()?.si;
            // A tenth from either end of an even spread.
            let toward = |end: f64| middle + 0.8 * (end - middle);
            Some(Unknown {
                place: place.to_owned(),
                maker: Maker::Materials,
                measure: measure(&path),
                source: format!("the catalogue's spread: {source}"),
                reach: Reach::Figure { low: toward(*least), middle, high: toward(*most) },
                lever: Lever::Value(Spot { place: place.to_owned(), kind }),
            })
        }
        Origin::Unknown { source, .. } => {
            of_spread(place, parameter, parameter.unknown?, (Maker::Unsaid, source))
        }
        Origin::Assumed { .. } => {
            let spread = parameter.unknown?;
            of_spread(place, parameter, spread, (maker_of_unsaid(&path), spread.source))
        }
        _ => None,
    }
}

/// What a value may be by its parameter's own spread.
fn of_spread(
    place: &str,
    parameter: &Parameter,
    spread: Spread,
    (maker, source): (Maker, &str),
) -> Option<Unknown> {
    let figure = |words: &str| match from_words(parameter, words).ok()?.value {
        Value::Si(si) => Some(si),
        Value::Months(months) => Some(months[0]),
        _ => None,
    };
    let (reach, lever) = match parameter.form {
        Form::Choice(_) => {
            let words = [spread.low, spread.middle, spread.high].map(str::to_owned).to_vec();
            // Fewer than one in ten each has something beyond the ends, and the ends stand for them too.
            let chances = [(0, 0.2), (1, 0.6), (2, 0.2)];
            let chances = chances.map(|(word, chance)| Chance { word, chance }).to_vec();
            (Reach::Words(chances), Lever::Word { place: place.to_owned(), words })
        }
        _ => {
            let (low, high) = (figure(spread.low)?, figure(spread.high)?);
            // The middle is what the year as it stands is reckoned with, be it assumed or the spread's.
            let middle = figure(assumed(parameter).unwrap_or(spread.middle))?;
            let spot = Spot { place: place.to_owned(), kind: kind_of(parameter)? };
            (
                Reach::Figure { low: low.min(middle), middle, high: high.max(middle) },
                Lever::Value(spot),
            )
        }
    };
    let unknown = Unknown {
        place: place.to_owned(),
        maker,
        measure: measure(parameter.path),
        source: source.to_owned(),
        reach,
        lever,
    };
    Some(if place == MONTHS_WIND { as_shares(unknown) } else { unknown })
}

/// What the hours of a made year are made with: no edit of a design moves hours that are made already.
const MONTHS_WIND: &str = "sun.months.wind";

/// An unknown that moves the made hours' wind, by shares of what is reckoned with.
fn as_shares(mut unknown: Unknown) -> Unknown {
    if let Reach::Figure { low, middle, high } = &mut unknown.reach {
        (*low, *high, *middle) = (*low / *middle, *high / *middle, 1.0);
    }
    unknown.lever = Lever::Wind;
    unknown
}

fn assumed(parameter: &Parameter) -> Option<&'static str> {
    match parameter.default {
        design::parameters::Default::Assume { value, .. } => Some(value),
        _ => None,
    }
}

/// A plastic cover's share of heat rays passed: worked out from the catalogue, and hardly known. What does
/// not pass is taken up, but for the little that is thrown back.
fn longwave(origins: &Origins, cover: &str) -> Option<Unknown> {
    let place = format!("{cover}.longwave");
    let Origin::Assumed { .. } = origins.at(&place)?.origin else { return None };
    let known =
        material(&origins.at(&format!("{cover}.material"))?.value)?.value(Field::Longwave)?;
    let emittance = parse(&origins.at(&format!("{cover}.emittance"))?.value, Kind::Share).ok()?.si;
    let spot = |place: String| Spot { place, kind: Kind::Share };
    (known.low < known.high).then(|| Unknown {
        place: place.clone(),
        maker: Maker::Materials,
        measure: measure(&place),
        source: format!("the catalogue's spread: {}", known.source),
        reach: Reach::Figure {
            low: known.middle + 0.8 * (known.low - known.middle),
            middle: known.middle,
            high: known.middle + 0.8 * (known.high - known.middle),
        },
        lever: Lever::Shared {
            one: spot(place),
            other: spot(format!("{cover}.emittance")),
            whole: emittance + known.middle,
        },
    })
}

/// What a parameter's value measures; `None` where it is no figure.
pub(super) fn kind_of(parameter: &Parameter) -> Option<Kind> {
    match parameter.form {
        Form::Quantity(kind) | Form::Worded(kind, _) | Form::Monthly(kind) => Some(kind),
        _ => None,
    }
}
