//! Scale on the coil, and what it costs by year.

use design::quantity::Kind as Measure;
use design::{Edit, EditValue, Hardness};
use physics::ZERO_CELSIUS_K;
use physics::store::scale::{SCALE_W_M_K, scaled_w_m_k};
use year::ledger::KWH_J;

use super::{YEARS, lost_by_year, of_spared};
use crate::AdviceError;
use crate::worry::case::Case;
use crate::worry::finding::{About, Certainty, Figure, Finding, Kind, Limit, Station};
use crate::worry::words::{kwh, of, warm, words};

/// What of a year's heat scale may cost in the tenth year before it is worth a word: judgement.
const WORTH_A_WORD: f64 = 0.05;

/// Above this lime falls out fast \[K\] (60 to 65 C is the trade's limit in hard water; common practice).
const FAST_K: f64 = ZERO_CELSIUS_K + 60.0;

/// Thickness that a year adds \[m\]: the resistance that heat exchangers are given between two cleanings
/// (TEMA, water below 52 C: 0.0005, 0.001 and 0.003 h ft2 F/BTU; from memory), taken as a year's, times
/// [`SCALE_W_M_K`]; very hard water twice hard (judgement).
fn by_year_m(hardness: Hardness) -> f64 {
    const M2_K_W_IN_H_FT2_F_BTU: f64 = 0.176_11;
    let resistance = match hardness {
        Hardness::Soft => 0.0005,
        Hardness::Moderate => 0.001,
        Hardness::Hard => 0.003,
        Hardness::VeryHard => 0.006,
    };
    resistance * M2_K_W_IN_H_FT2_F_BTU * SCALE_W_M_K
}

/// The coil by year.
pub(in crate::worry) fn look(case: &Case) -> Result<Vec<Finding>, AdviceError> {
    if case.panel().is_none() {
        return Ok(Vec::new());
    }
    let said = case.subject.design.hardness;
    // Nobody said: what hard water would cost is told.
    let by_year_m = by_year_m(said.unwrap_or(Hardness::Hard));
    let tube = case.year.build.store.coil.tube;
    let lost = lost_by_year(case, |years| {
        let scaled = scaled_w_m_k(&tube, f64::from(years) * by_year_m);
        Ok(vec![Edit {
            place: "store.coil.conductivity".to_owned(),
            value: EditValue::Text(format!("{} W/m K", scaled.map_err(AdviceError::circuit)?)),
        }])
    })?;
    let ten_m = f64::from(YEARS[2]) * by_year_m;
    let share = of_spared(case, lost[2]);
    let kind = match said {
        None => Kind::Mind,
        Some(_) if share > WORTH_A_WORD => Kind::Mind,
        Some(_) => Kind::Quiet,
    };
    let figures = vec![
        Figure::against(
            "spared heat lost in the tenth year",
            Measure::Share,
            share,
            Limit::at_most(WORTH_A_WORD, "a twentieth of the heat", Certainty::Judgement),
        ),
        Figure::told("scale after ten years", Measure::Length, ten_m),
        Figure::told("lost in the first year", Measure::Energy, lost[0] * KWH_J),
        Figure::told("lost in the fifth year", Measure::Energy, lost[1] * KWH_J),
        Figure::told("lost in the tenth year", Measure::Energy, lost[2] * KWH_J),
    ];
    let fins = match case.year.build.store.coil.fins {
        Some(_) => words!("; between fins it costs more than that"),
        None => words!(""),
    };
    let grown = words!(
        "{} of scale on the coil a year, the cautious end, would cost {} in the first year, {} in the fifth, {} in the tenth{}",
        of(Measure::Length, by_year_m),
        kwh(lost[0]),
        kwh(lost[1]),
        kwh(lost[2]),
        fins
    );
    let says = match said {
        None => words!("Nobody said how hard the water is; if it is hard, {}", grown),
        Some(_) => grown,
    };
    let mend = match (said, kind) {
        (None, _) => {
            words!("Ask your water supplier how hard the water is, and write tap.hardness")
        }
        (_, Kind::Quiet) => words!(""),
        _ => words!(
            "Coil it so that it can be lifted out and brushed or laid in citric acid; keep the store below {}, above which lime falls out fast (common practice)",
            warm(FAST_K)
        ),
    };
    Ok(vec![
        Finding::new(About::Ages, "coil-scales", Station::Store, kind, says)
            .at(if said.is_none() { "tap.hardness" } else { "store.coil" })
            .mend(mend)
            .figures(figures)
            .source(
                "Fouling resistances of the heat-exchanger trade, taken as a year’s growth of lime; a lukewarm store grows less",
                Certainty::FromMemory,
            ),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given hard water. Expected: the resistance of 0.003 h ft2 F/BTU, printed in metric handbooks as
    /// 0.00053 m2 K/W, through scale of 1 W/m K: half a millimetre a year, to the figures printed.
    #[test]
    fn hard_water_lays_half_a_millimetre_a_year() {
        assert!((by_year_m(Hardness::Hard) - 0.53e-3).abs() < 0.005e-3);
        assert!(by_year_m(Hardness::Soft) < by_year_m(Hardness::Moderate));
        assert!(by_year_m(Hardness::Hard) < by_year_m(Hardness::VeryHard));
    }
}
