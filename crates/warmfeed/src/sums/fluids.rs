//! The keys by which sums are told a fluid.

use design::quantity::Kind;
use physics::matter::fluid::{Fluid, Glycol, mass_share_from_volume_share};

use super::fault::SumFault;
use super::given::Given;
use super::table::{Form, Key, key, of};

/// What runs.
pub const FLUID: Key = key(
    "fluid",
    Form::Choice(&["water", "propylene-glycol", "ethylene-glycol"]),
    "What runs: water, or which antifreeze (ethylene glycol is poison).",
);

/// Strength by mass.
pub const SHARE_MASS: Key = of("share_mass", Kind::Share, "Antifreeze in the mixture, by mass.")
    .within("0", "60 %")
    .optional("wanted with an antifreeze, unless share_volume stands");

/// Strength by volume.
pub const SHARE_VOLUME: Key =
    of("share_volume", Kind::Share, "The same by volume, measured before mixing at 20 C.")
        .within("0", "60 %")
        .optional("in place of share_mass");

/// The fluid that is given.
///
/// # Errors
/// Water with a strength, an antifreeze without one or with two.
pub fn fluid(given: &Given) -> Result<Fluid, SumFault> {
    let clash = |key, says: &str, hint| SumFault::Clash { key, says: says.to_owned(), hint };
    let kind = match given.word("fluid")? {
        "propylene-glycol" => Some(Glycol::Propylene),
        "ethylene-glycol" => Some(Glycol::Ethylene),
        _ => None,
    };
    let shares = (given.maybe("share_mass")?, given.maybe("share_volume")?);
    let Some(kind) = kind else {
        let key = match shares {
            (None, None) => return Ok(Fluid::Water),
            (Some(_), _) => "share_mass",
            (None, Some(_)) => "share_volume",
        };
        return Err(clash(
            key,
            "water holds no antifreeze",
            "leave it out, or name the antifreeze",
        ));
    };
    let mass_share = match shares {
        (Some(mass_share), None) => mass_share,
        (None, Some(volume_share)) => mass_share_from_volume_share(kind, volume_share)?,
        (Some(_), Some(_)) => {
            let says = "the strength stands twice, by mass and by volume";
            return Err(clash("share_volume", says, "leave one of them out"));
        }
        (None, None) => {
            return Err(SumFault::Missing {
                wanted: "`share_mass` or `share_volume`: a share between 0 and 1, or one in %",
            });
        }
    };
    Ok(match kind {
        Glycol::Propylene => Fluid::PropyleneGlycol { mass_share },
        Glycol::Ethylene => Fluid::EthyleneGlycol { mass_share },
    })
}
