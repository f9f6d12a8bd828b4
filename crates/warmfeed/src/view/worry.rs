//! What can go wrong, on a terminal: the worst first, what is quiet in a line each at the end.

use advice::worry::{Figure, Finding, Kind, NOT_LOOKED_AT, Setting};
use design::value::capital;

use super::Paper;
use super::text::hanging;
use crate::worry_words::{Ear, kind_word, sources, stops_counted};

/// Columns of the kind's word.
const WORD: usize = 7;

/// All worries as a page of text, readable without colour.
pub fn worry(findings: &[Finding], paper: Paper) -> String {
    let ear = Ear { units: paper.units, setting: Setting::Plain };
    let width = paper.prose_width();
    let mut text = String::new();
    let (quiet, loud): (Vec<&Finding>, Vec<&Finding>) =
        findings.iter().partition(|finding| finding.kind == Kind::Quiet);
    text.push_str(&hanging("", 0, &format!("{}.", stops_counted(findings)), width));
    text.push('\n');
    for finding in loud {
        text.push_str(&in_full(finding, ear, width));
        text.push('\n');
    }
    for finding in &quiet {
        text.push_str(&hanging(kind_word(finding.kind), WORD, &ear.in_one_line(finding), width));
    }
    if !quiet.is_empty() {
        text.push('\n');
    }
    text.push_str(&hanging("", 0, &format!("{NOT_LOOKED_AT}."), width));
    text
}

fn in_full(finding: &Finding, ear: Ear, width: usize) -> String {
    let mut text =
        hanging(kind_word(finding.kind), WORD, &ear.station_and_sentence(finding), width);
    let mut told = |words: &str| {
        for (place, line) in hanging("", 2, words, width - WORD).lines().enumerate() {
            let line = if place == 0 { line.trim_start() } else { line };
            text.push_str(&format!("{:WORD$}{line}\n", ""));
        }
    };
    if !finding.mend.is_empty() {
        told(&format!("Do: {}.", ear.hears(&finding.mend)));
    }
    let (held, only_told): (Vec<&Figure>, Vec<&Figure>) =
        finding.figures.iter().partition(|figure| figure.limit.is_some());
    for figure in held {
        told(&format!("{}: {}.", capital(figure.what), ear.figure(figure)));
    }
    if !only_told.is_empty() {
        let figures = only_told.iter().map(|one| format!("{} {}", one.what, ear.figure(one)));
        told(&format!("{}.", capital(&figures.collect::<Vec<_>>().join("; "))));
    }
    for remedy in &finding.remedies {
        let edits: Vec<String> = remedy.edits.iter().map(|edit| ear.edit(edit)).collect();
        told(&format!(
            "Tried: {} ({}): {}.",
            ear.hears(&remedy.says),
            edits.join("; "),
            ear.outcome(remedy)
        ));
    }
    let sources = sources(finding);
    if !sources.is_empty() {
        told(&format!("Source: {}.", sources.join("; ")));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use advice::worry::{About, Certainty, Limit, Station, Words};
    use design::quantity::{Kind as Measure, Units};

    /// Given one quiet worry: that nothing stops, in words that claim no more than was computed, its line with
    /// its margin (200 C less 141 C, by hand), then what was not looked at.
    #[test]
    fn without_a_stop_it_claims_no_more_than_was_computed() {
        let limit = Limit::at_most(473.15, "a catalogue", Certainty::Seen);
        let says = Words::of("The sheet comes to 141 C", Vec::new());
        let quiet = Finding::new(About::Boils, "x", Station::Panel, Kind::Quiet, says)
            .figures(vec![Figure::against("sheet", Measure::Temperature, 414.15, limit)]);
        let told = worry(&[quiet], Paper { units: Units::Metric, width: 90 });
        let lines: Vec<&str> = told.lines().collect();
        assert_eq!(lines[0], "No stop worry was found in what is computed here.");
        assert!(lines[2].starts_with("Quiet  Panel: The sheet comes to 141 C. Sheet: 141 C,"));
        assert!(told.replace('\n', " ").contains("at most 200 C: 59 K to spare"), "{told}");
        assert!(lines.last().is_some_and(|line| !line.starts_with("Quiet")));
        assert!(told.contains("\nNot looked at here"), "{told}");
    }
}
