//! What must fit the kind of panel: strips, channels, certificates.

use super::super::{Misfit, length, metric, report};
use crate::problem::Severity;
use crate::quantity::Kind;
use crate::values::Values;
use crate::walk::Desk;

pub(super) fn check(desk: &mut Desk, values: &Values) {
    let misfits = [radiator_with_tubes(values), wide_strips(values), wide_channels(values)];
    for misfit in misfits.into_iter().flatten() {
        report(desk, values, misfit);
    }
    for at in 1..values.members("panel.certificate.modifier") {
        if let Some(misfit) = angles_that_do_not_rise(values, at) {
            report(desk, values, misfit);
        }
    }
}

/// A radiator has channels; whoever writes a spacing of tubes means another panel.
fn radiator_with_tubes(values: &Values) -> Option<Misfit> {
    if values.word("panel.kind")? != "radiator" {
        return None;
    }
    let spacing_m = values.si("panel.tubes.spacing")?;
    Some(Misfit {
        code: "radiator-with-tubes",
        severity: Severity::Fault,
        place: "panel.tubes.spacing".to_owned(),
        found: length(spacing_m),
        expected: "no [panel.tubes], or another panel.kind".to_owned(),
        says: format!(
            "The panel is a \"radiator\", whose fluid runs in channels, and tubes {} apart are written",
            length(spacing_m)
        ),
        hint: "describe a radiator by [panel.channels]; for tubes on a sheet write kind = \"sheet-and-tube\"",
    })
}

fn wide_strips(values: &Values) -> Option<Misfit> {
    if values.word("panel.kind")? != "fins" {
        return None;
    }
    let (width_m, spacing_m) = (values.si("panel.fin-width")?, values.si("panel.tubes.spacing")?);
    let outside_m = values.si("panel.tubes.outside")?;
    let (code, found, says) = if width_m > spacing_m + 1e-9 {
        let says = format!(
            "Strips {} wide lie on tubes {} apart, so they overlap",
            length(width_m),
            length(spacing_m)
        );
        ("strips-overlap", width_m, says)
    } else if width_m < outside_m {
        let says = format!(
            "Strips {} wide are narrower than their tubes of {}",
            length(width_m),
            length(outside_m)
        );
        ("strips-narrow", width_m, says)
    } else {
        return None;
    };
    Some(Misfit {
        code,
        severity: Severity::Fault,
        place: "panel.fin-width".to_owned(),
        found: length(found),
        expected: format!("from {} to {}", length(outside_m), length(spacing_m)),
        says,
        hint: "fin-width is the whole width of the strip on one tube, spacing the distance of the tubes' middles",
    })
}

fn wide_channels(values: &Values) -> Option<Misfit> {
    if values.word("panel.kind")? != "radiator" {
        return None;
    }
    let count = values.count("panel.channels.count")?;
    let wetted_m = values.si("panel.channels.wetted")?;
    let width_m = values.si("panel.sheet.width")?.max(values.si("panel.sheet.length")?);
    let all_m = f64::from(count) * wetted_m;
    (all_m > width_m + 1e-9).then(|| Misfit {
        code: "channels-off-sheet",
        severity: Severity::Fault,
        place: "panel.channels.wetted".to_owned(),
        found: format!("{count} channels of {} take {}", length(wetted_m), length(all_m)),
        expected: format!("at most {}", length(width_m)),
        says: format!(
            "{count} channels of {} take {} side by side, and the sheet is {}",
            length(wetted_m),
            length(all_m),
            length(width_m)
        ),
        hint: "count the channels across the radiator and measure what one of them wets",
    })
}

fn angles_that_do_not_rise(values: &Values, at: usize) -> Option<Misfit> {
    let place = |at: usize| format!("panel.certificate.modifier[{at}].angle");
    let (before, here) = (values.si(&place(at - 1))?, values.si(&place(at))?);
    let show = |angle_rad: f64| metric(Kind::Angle, angle_rad);
    (here <= before).then(|| Misfit {
        code: "angles-not-rising",
        severity: Severity::Fault,
        place: place(at),
        found: show(here),
        expected: format!("more than {}", show(before)),
        says: format!(
            "The modifier's angles do not rise: {} stands after {}",
            show(here),
            show(before)
        ),
        hint: "list the certificate's angles from small to large",
    })
}
