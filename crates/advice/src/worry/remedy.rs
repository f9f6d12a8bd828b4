//! Remedies tried: the design edited, its year computed anew, the same look taken at it.

use year::Recorder;

use super::Look;
use super::case::{CHANNELS, Case};
use super::finding::{Finding, Kind, Remedy, Tried};
use crate::AdviceError;

/// A finding with its remedies tried. What is quiet needs none.
pub(super) fn tried(
    case: &Case,
    look: Look,
    mut finding: Finding,
    told: &(dyn Fn() -> Result<(), AdviceError> + Sync),
) -> Result<Finding, AdviceError> {
    if finding.kind == Kind::Quiet {
        finding.remedies.clear();
    }
    let mut remedies = std::mem::take(&mut finding.remedies);
    for remedy in &mut remedies {
        remedy.tried = Some(try_one(case, look, &finding, remedy)?);
        told()?;
    }
    finding.remedies = remedies;
    Ok(finding)
}

fn try_one(
    case: &Case,
    look: Look,
    finding: &Finding,
    remedy: &Remedy,
) -> Result<Tried, AdviceError> {
    let subject = match case.subject.edited(&remedy.edits) {
        Ok(subject) => subject,
        Err(AdviceError::NoBuild { says, .. }) => return Ok(Tried::Refused(says)),
        Err(error) => return Err(error),
    };
    // What changes nothing that is reckoned, a cistern's board or a joint's solder, has the same year.
    if subject.build == case.year.build {
        return worked(&Case { subject: &subject, ..*case }.deciding(), look, finding, 0.0);
    }
    let mut minutes = Recorder::of(&CHANNELS);
    let year = subject.recorded_beside(case.year, subject.build.clone(), &mut minutes)?;
    let more_kwh = year.spared_kwh() - case.year.spared_kwh();
    worked(&Case::of(&subject, &year, &minutes).deciding(), look, finding, more_kwh)
}

/// The same look at the changed build.
fn worked(
    changed: &Case,
    look: Look,
    finding: &Finding,
    spared_kwh: f64,
) -> Result<Tried, AdviceError> {
    let then = look(changed)?.into_iter().find(|other| other.is_same(finding));
    Ok(Tried::Worked {
        kind: then.as_ref().map(|then| then.kind),
        figure: then.and_then(|then| then.figures.into_iter().next()),
        spared_kwh,
    })
}
