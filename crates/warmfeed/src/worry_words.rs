//! A worry's numbers and remedies in words: the same on terminal, page and paper.

use advice::worry::{
    Bad, Certainty, Figure, Finding, Kind, Limit, Remedy, Setting, Station, Tried, Value, Words,
};
use design::quantity::{Kind as Measure, Units};
use design::value::{capital, in_units};
use design::{Edit, EditValue};
use year::ledger::KWH_J;

/// Who reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ear {
    /// In which units.
    pub units: Units,
    /// In which signs.
    pub setting: Setting,
}

/// A difference of spared heat smaller than this is within what a year trembles by \[kWh\].
const TREMOR_KWH: f64 = 0.5;

impl Ear {
    /// A sentence.
    pub fn hears(self, words: &Words) -> String {
        words.told(self.units, self.setting)
    }

    /// A quantity, as sentences have it.
    pub fn quantity(self, measure: Measure, si: f64) -> String {
        let value = match measure {
            Measure::Time => Value::Span(si),
            Measure::Energy => Value::Kwh(si / KWH_J),
            Measure::Share => Value::Text(format!("{:.0} %", 100.0 * si)),
            _ => Value::Quantity(measure, si),
        };
        self.hears(&Words::of("{}", vec![value]))
    }

    /// A number against its limit: `128 C, at most 121 C: 7 K beyond`.
    pub fn figure(self, figure: &Figure) -> String {
        let number = self.quantity(figure.measure, figure.computed_si);
        let (Some(limit), Some(margin)) = (&figure.limit, self.margin(figure)) else {
            return number;
        };
        let side = match limit.bad {
            Bad::Above => "at most",
            Bad::Below => "at least",
        };
        format!("{number}, {side} {}: {margin}", self.quantity(figure.measure, limit.si))
    }

    /// How far a number is from its limit: `7 K beyond`, `14 K to spare`.
    fn margin(self, figure: &Figure) -> Option<String> {
        let margin_si = figure.margin_si()?;
        let measure = match figure.measure {
            Measure::Temperature => Measure::Difference,
            other => other,
        };
        // So near that the two numbers are told alike.
        let limit_si = figure.limit.as_ref()?.si;
        if self.quantity(figure.measure, figure.computed_si)
            == self.quantity(figure.measure, limit_si)
        {
            return Some("right at it".to_owned());
        }
        let size = self.quantity(measure, self.rounded(measure, margin_si.abs()));
        Some(format!("{size} {}", if margin_si < 0.0 { "beyond" } else { "to spare" }))
    }

    /// Differences to whole degrees of the reader's, as the temperatures beside them are; else two figures.
    fn rounded(self, measure: Measure, si: f64) -> f64 {
        let step = match (measure, self.units) {
            (Measure::Difference, Units::Metric) if si >= 1.0 => 1.0,
            (Measure::Difference, Units::Us) if si >= 1.0 => 5.0 / 9.0,
            _ if si == 0.0 || !si.is_finite() => return si,
            _ => 10_f64.powf(si.abs().log10().floor() - 1.0),
        };
        (si / step).round() * step
    }

    /// The station and the sentence.
    pub fn station_and_sentence(self, finding: &Finding) -> String {
        format!("{}: {}.", station_word(finding.station), self.hears(&finding.says))
    }

    /// The same with the margin of its first number, and what to do.
    pub fn in_one_line(self, finding: &Finding) -> String {
        let first = finding.figures.first().filter(|figure| figure.limit.is_some());
        let margin = first
            .filter(|figure| !is_passed(figure))
            .map(|figure| format!(" {}: {}.", capital(figure.what), self.figure(figure)));
        let mend = (!finding.mend.is_empty()).then(|| format!(" {}.", self.hears(&finding.mend)));
        self.station_and_sentence(finding) + &margin.unwrap_or_default() + &mend.unwrap_or_default()
    }

    /// What a remedy came to: what the worry then is, its number, and what it costs.
    pub fn outcome(self, remedy: &Remedy) -> String {
        match &remedy.tried {
            None => "not worked out".to_owned(),
            Some(Tried::Refused(says)) => {
                format!("no such build can be made: {}", says.trim_end_matches('.'))
            }
            Some(Tried::Worked { kind, figure, spared_kwh }) => {
                let then = kind.map_or("no worry any more", kind_word).to_lowercase();
                // What is quiet though its number is passed is so for another reason than the number.
                let decides = |figure: &&Figure| *kind != Some(Kind::Quiet) || !is_passed(figure);
                let number = figure
                    .as_ref()
                    .filter(decides)
                    .map(|figure| format!(" ({})", self.figure(figure)))
                    .unwrap_or_default();
                format!("then {then}{number}; {}", self.spared(*spared_kwh))
            }
        }
    }

    fn spared(self, more_kwh: f64) -> String {
        if more_kwh.abs() < TREMOR_KWH {
            return "no difference to the heat spared".to_owned();
        }
        let word = if more_kwh < 0.0 { "less" } else { "more" };
        let size = self.hears(&Words::of("{}", vec![Value::Kwh(more_kwh.abs())]));
        format!("{size} a year {word} spared")
    }

    /// One change of the design file: `panel.gap: 30 mm`.
    pub fn edit(self, edit: &Edit) -> String {
        let value = match &edit.value {
            EditValue::Text(text) => in_units(&edit.place, text, self.units),
            EditValue::Number(number) => number.to_string(),
            EditValue::Whole(whole) => whole.to_string(),
            EditValue::Remove => "taken out".to_owned(),
        };
        format!("{}: {value}", edit.place)
    }
}

/// True where a number is on the bad side of its limit.
fn is_passed(figure: &Figure) -> bool {
    figure.margin_si().is_some_and(|margin_si| margin_si < 0.0)
}

/// A kind in one word, with a capital.
pub fn kind_word(kind: Kind) -> &'static str {
    match kind {
        Kind::Stop => "Stop",
        Kind::Mind => "Mind",
        Kind::Quiet => "Quiet",
    }
}

/// A station's name.
pub fn station_word(station: Station) -> &'static str {
    match station {
        Station::Sun => "Sun",
        Station::Panel => "Panel",
        Station::Circuit => "Circuit",
        Station::Store => "Store",
        Station::Tap => "Tap",
    }
}

/// How far a source is to be trusted.
pub fn certainty_words(certainty: Certainty) -> &'static str {
    match certainty {
        Certainty::Seen => "seen in the source",
        Certainty::FromMemory => "from memory",
        Certainty::CommonPractice => "common practice",
        Certainty::Judgement => "set by judgement, at the cautious end",
    }
}

/// Every source of a worry once, each with how far it is to be trusted: its own, then its limits'.
pub fn sources(finding: &Finding) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let limits = finding
        .figures
        .iter()
        .filter_map(|figure| figure.limit.as_ref().map(|limit| (figure.what, limit)))
        .filter(|(_, limit)| limit.source != finding.source);
    let own = (!finding.source.is_empty()).then(|| told_source(finding.source, finding.certainty));
    let other =
        |limit: &Limit| limit.source != finding.source || limit.certainty != finding.certainty;
    let of_limits = limits.filter(|(_, limit)| other(limit)).map(|(what, limit)| {
        format!("limit ({what}): {}", told_source(&limit.source, limit.certainty))
    });
    for source in own.into_iter().chain(of_limits) {
        if !all.contains(&source) {
            all.push(source);
        }
    }
    all
}

fn told_source(source: &str, certainty: Certainty) -> String {
    format!("{} ({})", source.trim_end_matches('.'), certainty_words(certainty))
}

/// How many worries are of kind stop, in words.
pub fn stops_counted(findings: &[Finding]) -> String {
    match findings.iter().filter(|finding| finding.kind == Kind::Stop).count() {
        0 => "No stop worry was found in what is computed here".to_owned(),
        1 => "One stop worry stands against it".to_owned(),
        many => format!("{many} stop worries stand against it"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRIC: Ear = Ear { units: Units::Metric, setting: Setting::Plain };
    const US: Ear = Ear { units: Units::Us, setting: Setting::Plain };

    fn hot(kelvin: f64) -> Figure {
        let limit = Limit::at_most(394.15, "a catalogue", Certainty::FromMemory);
        Figure::against("seam", Measure::Temperature, kelvin, limit)
    }

    /// Given 128 C against at most 121 C, and 107 C: 7 K beyond and 14 K to spare; 121 C is 250 F and 7 K are
    /// 12.6 F of difference, told in whole degrees (definitions of the scales).
    #[test]
    fn a_figure_says_its_margin() {
        assert_eq!(METRIC.figure(&hot(401.15)), "128 C, at most 121 C: 7 K beyond");
        assert_eq!(METRIC.figure(&hot(380.15)), "107 C, at most 121 C: 14 K to spare");
        assert_eq!(US.figure(&hot(401.15)), "262 F, at most 250 F: 13 degrees F beyond");
        assert_eq!(METRIC.figure(&hot(394.2)), "121 C, at most 121 C: right at it");
    }

    /// Given what a remedy came to, in words: by hand.
    #[test]
    fn a_remedy_says_what_it_brings() {
        let mut remedy = Remedy::new(Words::of("Braze it", Vec::new()), Vec::new());
        assert_eq!(METRIC.outcome(&remedy), "not worked out");
        remedy.tried = Some(Tried::Worked {
            kind: Some(Kind::Quiet),
            figure: Some(hot(380.15)),
            spared_kwh: -12.3,
        });
        assert_eq!(
            METRIC.outcome(&remedy),
            "then quiet (107 C, at most 121 C: 14 K to spare); 12 kWh a year less spared"
        );
        remedy.tried = Some(Tried::Worked {
            kind: Some(Kind::Quiet),
            figure: Some(hot(401.15)),
            spared_kwh: 3.4,
        });
        assert_eq!(METRIC.outcome(&remedy), "then quiet; 3.4 kWh a year more spared");
        remedy.tried = Some(Tried::Worked { kind: None, figure: None, spared_kwh: 0.1 });
        assert_eq!(
            METRIC.outcome(&remedy),
            "then no worry any more; no difference to the heat spared"
        );
    }
}
