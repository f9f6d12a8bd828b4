//! What other values of one place would bring, as a curve over a rule.

use std::sync::Arc;

use advice::GoOn;
use advice::next_step::spared_at;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use design::EditValue;
use design::parameters::{Form, Parameter, parameter_at};
use design::quantity::{Kind, Units, exact, parse, show};
use maud::{PreEscaped, html};
use sheets::page::Picture;
use sheets::pictures::rule;

use super::House;
use super::answer::{not_done, not_here, worked};
use super::late::Rest;
use super::numbers::field_id;
use super::reader::Reader;
use super::reckoned::Reckoned;
use super::year::picture;
use crate::interrupt;

/// Values on the rule.
const VALUES: usize = 9;
/// From this share of the value to that many times it.
const SPAN: (f64, f64) = (0.4, 2.0);

/// True where a place has a rule: a figure with a unit, or a count.
pub fn has_rule(parameter: &Parameter) -> bool {
    matches!(parameter.form, Form::Quantity(_) | Form::Worded(..) | Form::Count)
}

/// Answers with the curve.
pub async fn show_rule(
    State(house): State<Arc<House>>,
    Path((name, place)): Path<(String, String)>,
    headers: HeaderMap,
) -> Response {
    let units = Reader::of(&headers).units;
    worked(move || {
        let Some(shown) = house.desk(&name).and_then(|desk| desk.look().shown) else {
            return not_here();
        };
        match curve(&shown, &place, units) {
            Some(Ok(drawn)) => {
                // Several rules may stand open on one sheet: each has its own names.
                let own = field_id(&place);
                let text = picture(&drawn).into_string();
                let text = text
                    .replace("rule-", &format!("rule-{own}-"))
                    .replace("\"p-rule\"", &format!("\"p-rule-{own}\""))
                    .replace("\"t-rule\"", &format!("\"t-rule-{own}\""));
                html! { (PreEscaped(text)) }.into_response()
            }
            Some(Err(error)) => not_done(&error),
            None => not_here(),
        }
    })
    .await
}

/// The values of a rule in SI, as they are written into a design, and in the reader's own unit.
fn curve(shown: &Reckoned, place: &str, units: Units) -> Option<anyhow::Result<Picture>> {
    let parameter = parameter_at(place).filter(|parameter| has_rule(parameter))?;
    let traced = shown.loaded.origins.at(place)?;
    let kind = match parameter.form {
        Form::Quantity(kind) | Form::Worded(kind, _) => kind,
        _ => Kind::Number,
    };
    let is_count = matches!(parameter.form, Form::Count);
    let now = parse(&traced.value, kind).ok()?.si;
    let ends = parameter
        .range
        .and_then(|(low, high)| Some((parse(low, kind).ok()?.si, parse(high, kind).ok()?.si)));
    let (least, most) = ends.unwrap_or((f64::MIN, f64::MAX));
    let (low, high) = span(now, (least, most), is_count);
    let mut si: Vec<f64> = (0..VALUES)
        .map(|step| low + (high - low) * step as f64 / (VALUES - 1) as f64)
        .map(|value| if is_count { value.round() } else { value })
        .collect();
    si.dedup();
    let written: Vec<EditValue> = si.iter().map(|&value| written(kind, value, is_count)).collect();
    let _rest = Rest::begin();
    let go_on = |_, _| if interrupt::asked() { GoOn::No } else { GoOn::Yes };
    let spared = match spared_at(&shown.subject, &shown.base, place, &written, &go_on) {
        Ok(spared) => spared,
        Err(error) => return Some(Err(error.into())),
    };
    // One unit for the whole rule: that in which its middle is read.
    let text = show(kind, now, units);
    let unit = text.split_once(' ').map_or("", |(_, unit)| unit).to_owned();
    let read = |value: f64| design::quantity::in_unit(kind, value, &unit).unwrap_or(value);
    let pairs: Vec<(f64, Option<f64>)> =
        si.iter().zip(spared).map(|(&value, kwh)| (read(value), kwh)).collect();
    let facts = rule::Facts {
        value: parameter.help.trim_end_matches('.'),
        unit: &unit,
        curve: &pairs,
        now: (read(now), shown.spared_kwh()),
    };
    Some(Ok(Picture { wide: rule::draw(&facts), narrow: None }))
}

/// From less than the value to more, within what may be written; a kelvin scale knows no share of a value.
fn span(now: f64, (least, most): (f64, f64), is_count: bool) -> (f64, f64) {
    let (mut low, mut high) = if now > 200.0 && now < 400.0 {
        (now - 15.0, now + 15.0)
    } else if now == 0.0 {
        (0.0, 1.0)
    } else {
        (now * SPAN.0, now * SPAN.1)
    };
    if is_count {
        (low, high) = ((now - 2.0).max(1.0), now + 4.0);
    }
    (low.max(least), high.min(most))
}

fn written(kind: Kind, si: f64, is_count: bool) -> EditValue {
    if is_count {
        return EditValue::Whole(si as i64);
    }
    if kind.stands_bare() {
        return EditValue::Number(si);
    }
    EditValue::Text(exact(kind, si, Units::Metric))
}

#[cfg(test)]
mod tests {
    use super::span;

    /// Given 25 mm that may be 5 to 40: from two fifths of it to the most; given 50 C, 15 K either way; by
    /// hand.
    #[test]
    fn a_rule_stays_within_what_may_be_written() {
        let (low, high) = span(0.025, (0.005, 0.04), false);
        assert!((low - 0.01).abs() < 1e-12 && (high - 0.04).abs() < 1e-12);
        assert_eq!(span(323.15, (f64::MIN, f64::MAX), false), (308.15, 338.15));
        assert_eq!(span(2.0, (1.0, 50.0), true), (1.0, 6.0));
    }
}
