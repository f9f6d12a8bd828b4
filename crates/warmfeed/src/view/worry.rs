//! What can go wrong, on a terminal: the worst first, what is quiet in a line each at the end.

use advice::worry::{Figure, Finding, Kind, NOT_LOOKED_AT, Setting};
use design::value::capital;

use super::Paper;
use super::text::hanging;
use crate::worry_words::{Ear, kind_word, sources, station_word, stops_counted};

/// Columns of the kind's word.
const WORD: usize = 7;

/// All worries as a page of text, readable without colour.
pub fn worry(findings: &[Finding], paper: Paper) -> String {
    let ear = Ear { units: paper.units, setting: Setting::Plain };
    let width = paper.prose_width();
    let mut text = String::new();
    let (quiet, loud): (Vec<&Finding>, Vec<&Finding>) =
        findings.iter().partition(|finding| finding.kind == Kind::Quiet);
    for finding in loud {
        text.push_str(&in_full(finding, ear, width));
        text.push('\n');
    }
    for finding in &quiet {
        let margin = finding.figures.first().and_then(|figure| ear.margin(figure));
        let margin = margin.map(|margin| format!(" {}.", capital(&margin))).unwrap_or_default();
        let line = head(finding, ear) + &margin;
        text.push_str(&hanging(kind_word(finding.kind), WORD, &line, width));
    }
    if !quiet.is_empty() {
        text.push('\n');
    }
    text.push_str(&hanging("", 0, &format!("{}.", stops_counted(findings)), width));
    text.push_str(&hanging("", 0, &format!("{NOT_LOOKED_AT}."), width));
    text
}

/// The station and the sentence.
fn head(finding: &Finding, ear: Ear) -> String {
    format!("{}: {}.", station_word(finding.station), ear.hears(&finding.says))
}

fn in_full(finding: &Finding, ear: Ear, width: usize) -> String {
    let mut text = hanging(kind_word(finding.kind), WORD, &head(finding, ear), width);
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
