//! What must fit in the glazing: covers that have room, and whose light and heat add up.

use super::super::{Misfit, length, metric, report};
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::resolve::clear_transmittance;
use crate::values::Values;
use crate::walk::Desk;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    if let Some(misfit) = close_covers(values) {
        report(desk, values, misfit);
    }
    for at in ["panel.cover", "panel.inner-cover"] {
        if values.table(at).is_none() {
            continue;
        }
        for misfit in [too_clear(values, at), too_much_heat_light(values, at)].into_iter().flatten()
        {
            report(desk, values, misfit);
        }
    }
}

/// Least air between two covers \[m\].
const LEAST_GAP_M: f64 = 0.005;

fn close_covers(values: &Values) -> Option<Misfit> {
    values.table("panel.inner-cover")?;
    let gap_m = values.si("panel.gap")?;
    let height_m = values.si("panel.inner-cover.height")?;
    let top_m = height_m + values.si("panel.inner-cover.thickness")?;
    (gap_m - top_m < LEAST_GAP_M - 1e-9).then(|| Misfit {
        code: "covers-too-close",
        severity: Severity::Fault,
        place: "panel.inner-cover.height".to_owned(),
        found: length(height_m),
        expected: format!("its upper face at least {} below the glazing at {}", length(LEAST_GAP_M), length(gap_m)),
        says: format!(
            "The second cover's upper face lies {} above the sheet, and the glazing {}: no air is left between them",
            length(top_m),
            length(gap_m)
        ),
        hint: "gap counts from the sheet to the glazing, height from the sheet to the second cover; raise the one or lower the other",
    })
}

fn too_clear(values: &Values, at: &str) -> Option<Misfit> {
    let claimed = values.si(&format!("{at}.transmittance"))?;
    let most = clear_transmittance(values, at)?;
    let percent = |share: f64| metric(Kind::Share, share);
    (claimed > most).then(|| Misfit {
        code: "too-clear",
        severity: Severity::Fault,
        place: format!("{at}.transmittance"),
        found: percent(claimed),
        expected: format!("at most {}", percent(most)),
        says: format!(
            "A cover of index {} and {} wall(s) passes {} at most, were it quite clear, and {} is written",
            metric(Kind::Number, values.si(&format!("{at}.index")).unwrap_or_default()),
            metric(Kind::Number, values.si(&format!("{at}.walls")).unwrap_or_default()),
            percent(most),
            percent(claimed)
        ),
        hint: "its surfaces throw the rest back; check the certificate, the index and the number of walls",
    })
}

fn too_much_heat_light(values: &Values, at: &str) -> Option<Misfit> {
    let (emits, passes) =
        (values.si(&format!("{at}.emittance"))?, values.si(&format!("{at}.longwave"))?);
    let show = |share: f64| metric(Kind::Share, share);
    (emits + passes > 1.0 + 1e-9).then(|| Misfit {
        code: "longwave-over-one",
        severity: Severity::Fault,
        place: format!("{at}.longwave"),
        found: show(passes),
        expected: format!("at most {}", show(1.0 - emits)),
        says: format!(
            "The cover takes up {} of long-wave light and passes {}: together more than there is",
            show(emits),
            show(passes)
        ),
        hint: "what a cover takes up, passes and throws back makes one; lower emittance or longwave",
    })
}
