//! The picture of a worry's hours.

use advice::worry::{Course, Finding, Setting};
use design::quantity::Units;
use physics::ZERO_CELSIUS_K;
use sheets::page::Picture;
use sheets::pictures::course::{self, Facts};

use super::both;
use super::cistern::date;

/// Pictures of some worries in their order, each with a number of its own; `None` for one without hours.
pub fn course_pictures(findings: &[Finding], units: Units) -> Vec<Option<Picture>> {
    let mut numbers = 0..;
    findings
        .iter()
        .map(|finding| {
            let course = finding.course.as_ref()?;
            let number = numbers.next().unwrap_or_default();
            Some(picture(course, number, units))
        })
        .collect()
}

fn picture(course: &Course, number: usize, units: Units) -> Picture {
    let celsius = |values_k: &[f64]| values_k.iter().map(|k| k - ZERO_CELSIUS_K).collect();
    let facts = Facts {
        number,
        title: course.title.told(units, Setting::Typeset),
        begins: date(course.first_day),
        step_min: course.step_min,
        lines: course.lines.iter().map(|(name, values_k)| (*name, celsius(values_k))).collect(),
        limits: course
            .limits
            .iter()
            .map(|(name, kelvin)| (name.as_str(), kelvin - ZERO_CELSIUS_K))
            .collect(),
        units,
    };
    both(|width| course::draw(&facts, width))
}
