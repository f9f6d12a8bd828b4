//! The worries of a build on paper.

use advice::worry::{Finding, Kind, NOT_LOOKED_AT, Setting};
use design::quantity::Units;
use design::value::capital;
use sheets::worry_sheet::{Facts, Mark, Worry, worry_sheet};

use super::course_pictures;
use crate::commands::Loaded;
use crate::worry_words::{Ear, kind_word, sources, station_word, stops_counted};

/// The document, complete in itself.
pub fn worries_on_paper(loaded: &Loaded, findings: &[Finding], units: Units) -> String {
    let ear = Ear { units, setting: Setting::Typeset };
    let mut worries = Vec::new();
    let mut quiet = Vec::new();
    for (finding, picture) in findings.iter().zip(course_pictures(findings, units)) {
        let mark = match finding.kind {
            Kind::Stop => Mark::CrossedSquare,
            Kind::Mind => Mark::StruckDiamond,
            Kind::Quiet => {
                quiet.push(ear.in_one_line(finding));
                continue;
            }
        };
        let sentence = |text: String| if text.is_empty() { text } else { text + "." };
        worries.push(Worry {
            kind: kind_word(finding.kind),
            mark,
            station: station_word(finding.station),
            says: sentence(ear.hears(&finding.says)),
            mend: sentence(ear.hears(&finding.mend)),
            figures: finding
                .figures
                .iter()
                .map(|figure| (capital(figure.what), ear.figure(figure)))
                .collect(),
            remedies: finding
                .remedies
                .iter()
                .map(|one| format!("{}: {}.", ear.hears(&one.says), ear.outcome(one)))
                .collect(),
            sources: sources(finding).iter().map(|source| capital(source)).collect(),
            picture,
        });
    }
    worry_sheet(&Facts {
        title: loaded.design.title.clone(),
        story: loaded.design.story.clone(),
        worries,
        quiet,
        count: stops_counted(findings),
        not_looked_at: format!("{NOT_LOOKED_AT}."),
        units,
    })
}
