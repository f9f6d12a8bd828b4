//! What runs in the panel held against the coldest night.

use super::Design;
use super::extremes::shown;
use super::facts::Winter;
use crate::problem::{Problem, Severity, Span};
use physics::Build;
use physics::matter::fluid::{Fluid, freezing_k};
use physics::sun::StatedBy;

/// Kept between freezing and the coldest air \[K\]: tables of antifreeze differ by up to 2.7 K, and a
/// panel under a clear sky falls some kelvin below the air.
pub const IN_HAND_K: f64 = 3.0;

/// What freezes, or may.
pub(super) fn check(design: &Design, build: &Build, file: &str) -> Option<Problem> {
    let night = &build.sun.extremes.coldest_night;
    // A share beyond the tables is a fault of its own.
    let freezing_k = freezing_k(build.circuit.fluid).ok()?;
    let (air, freezing) = (shown(night.air_k), shown(freezing_k));
    let whose = match night.stated_by {
        StatedBy::Design => "the coldest night the design reckons with",
        StatedBy::WeatherHeader => "the coldest night in the weather file's header",
        StatedBy::TypicalYear => "the coldest hour of the weather file, which real winters pass",
    };
    let problem = Problem {
        code: "freezes",
        severity: Severity::Warning,
        file: file.to_owned(),
        span: design.spans.fluid,
        place: "circuit.fluid".to_owned(),
        found: format!("freezes at {freezing}, air of {air}"),
        expected: format!("a freezing point {IN_HAND_K} K or more below {air}"),
        says: String::new(),
        hint: "thicker antifreeze; or, where the circuit is drained before frost, write \
               circuit.winter = \"drained\""
            .to_owned(),
    };
    let is_water = matches!(build.circuit.fluid, Fluid::Water);
    if night.air_k >= freezing_k + IN_HAND_K {
        return None;
    }
    Some(match (design.facts.winter, is_water) {
        (Winter::Drained, _) => Problem {
            code: "runs-while-drained",
            severity: Severity::Note,
            span: first(design.spans.winter, problem.span),
            place: "circuit.winter".to_owned(),
            found: "drained".to_owned(),
            expected: "a year that knows when".to_owned(),
            says: "The circuit is drained before frost, and the year is reckoned as if it ran all \
                   winter"
                .to_owned(),
            hint: "leave out of the answer the months in which it stands empty".to_owned(),
            ..problem
        },
        _ if build.control.frost.is_some() => Problem {
            code: "frost-by-pump",
            severity: Severity::Note,
            span: first(design.spans.frost, problem.span),
            place: "control.frost".to_owned(),
            says: format!(
                "The circuit freezes at {freezing} and the air comes down to {air}: {whose}. Only \
                 the pump that runs against frost stands between, and it stops with the mains"
            ),
            hint: "antifreeze, or draining, holds in a power cut too".to_owned(),
            ..problem
        },
        (_, true) => Problem {
            says: format!(
                "Plain water freezes at {freezing} and bursts tubes, and the air comes down to \
                 {air}: {whose}"
            ),
            hint: "is it drained before frost? Then write circuit.winter = \"drained\"; if not, \
                   use antifreeze"
                .to_owned(),
            ..problem
        },
        (_, false) if freezing_k > night.air_k => Problem {
            code: "antifreeze-too-weak",
            severity: Severity::Fault,
            says: format!(
                "The antifreeze freezes at {freezing}, and the air comes down to {air}: {whose}"
            ),
            ..problem
        },
        (_, false) => Problem {
            says: format!(
                "The antifreeze freezes at {freezing}, less than {IN_HAND_K} K below air of {air}: {whose}. \
                 A panel under a clear sky falls below the air"
            ),
            ..problem
        },
    })
}

fn first(span: Span, other: Span) -> Span {
    if span == Span::default() { other } else { span }
}

#[cfg(test)]
mod tests {
    use crate::problem::{Problem, Severity};
    use crate::resolve::trial::{sited, with_one_cold_hour};

    const SHARE: &str = "share-by-volume = \"35 %\"";
    const MIXTURE: &str = "fluid = \"propylene-glycol\"\nshare-by-volume = \"35 %\"";

    /// What is said of the first sample's circuit, its lines exchanged, when the air falls so far.
    fn told(changes: &[(&str, &str)], coldest_c: f64) -> Option<Problem> {
        let codes = ["freezes", "antifreeze-too-weak", "runs-while-drained", "frost-by-pump"];
        let problems = sited(changes, &with_one_cold_hour(10.0, coldest_c)).problems;
        problems.into_iter().find(|problem| codes.contains(&problem.code))
    }

    /// Given propylene glycol of 35 % by volume, which freezes near -17 C (a handbook's table by
    /// volume gives -16.1 C at 35 %, from memory): quiet at -12 C, a warning at -15 C, a fault at
    /// -22 C, each naming both.
    #[test]
    fn antifreeze_is_held_against_the_night() {
        assert_eq!(told(&[], -12.0), None);
        let near = told(&[], -15.0).expect("told");
        assert_eq!((near.code, near.severity), ("freezes", Severity::Warning));
        let weak = told(&[], -22.0).expect("told");
        assert_eq!((weak.code, weak.severity), ("antifreeze-too-weak", Severity::Fault));
        assert!(weak.says.contains("-22 C") && weak.says.contains("freezes at -1"), "{weak:?}");
        assert!(weak.span.line > 0);
    }

    /// Given plain water: quiet at 5 C, a warning that names both at 2 C and at -10 C, and never a
    /// fault, since it may be drained.
    #[test]
    fn water_is_asked_about() {
        let water = [(MIXTURE, "fluid = \"water\"")];
        assert_eq!(told(&water, 5.0), None);
        for coldest_c in [2.0, -10.0] {
            let told = told(&water, coldest_c).expect("told");
            assert_eq!((told.code, told.severity), ("freezes", Severity::Warning));
            assert!(told.says.contains("0 C") && told.says.contains(&format!("{coldest_c} C")));
            assert!(told.hint.contains("drained"));
        }
    }

    /// Given a pump that runs against frost, plain water is noted, not warned of: by the pump alone.
    #[test]
    fn a_frost_action_is_noted() {
        let changes =
            [(MIXTURE, "fluid = \"water\""), ("[control]", "[control.frost]\n\n[control]")];
        let note = told(&changes, -10.0).expect("told");
        assert_eq!((note.code, note.severity), ("frost-by-pump", Severity::Note));
        assert!(note.says.contains("-10 C"), "{note:?}");
    }

    /// Given a circuit that is drained, frost cannot burst it; that the year runs on is said.
    #[test]
    fn a_drained_circuit_is_noted() {
        let drained = [(MIXTURE, "fluid = \"water\"\nwinter = \"drained\"")];
        let note = told(&drained, -10.0).expect("told");
        assert_eq!((note.code, note.severity), ("runs-while-drained", Severity::Note));
        let filled = [(SHARE, "share-by-volume = \"35 %\"\nwinter = \"filled\"")];
        assert_eq!(told(&filled, -22.0).expect("told").code, "antifreeze-too-weak");
    }
}
