//! What stands against a layout, in words: each rule by itself, with its number and its source.
//!
//! The rules are those of docs/safety.md. They are the trade's and the law's of one country, told as far
//! as sources were met; the water supplier, building control and licensed trades say what holds.

use design::catalogue::materials;
use design::quantity::{Kind, Units, in_unit, show};
use physics::circuit::pipe::static_pa;

use super::answers::{Answers, Cistern, Downstream, Drive, Tender};
use super::layout::{
    DRY_PANE_C, GOOD_CLEAR_M, LEAST_CLEAR_M, clear_m, day_m3, head_m, is_slow, service_c,
};

/// One thing said of a layout.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// How much it matters.
    pub kind: Matters,
    /// A short stable name.
    pub code: &'static str,
    /// What is so, with the number against its limit.
    pub says: String,
    /// What to do.
    pub mend: String,
    /// Who says so.
    pub source: &'static str,
}

/// How much something matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Matters {
    /// Not to be built so.
    Stop,
    /// Look after it.
    Mind,
    /// Looked at, and as it should be.
    Quiet,
}

const SCHEDULE_20: &str = "Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraphs 1 and 20, with the regulator’s guidance (UK)";
const WHOLE_HOUR: &str =
    "Approved code L8 for warm water and the fittings scheme’s note on preheated water (UK)";

/// All that is said of the answers, the worst first. Figures are in the reader's units.
pub fn verdict(answers: &Answers, units: Units) -> Vec<Said> {
    let mut all = Vec::new();
    all.extend(cistern(answers, units));
    all.extend(heater(answers, units));
    all.extend(turnover(answers, units));
    all.extend(moves(answers, units));
    all.extend(header(answers, units));
    all.extend(pressure(answers, units));
    all.extend(cover(answers, units));
    all.extend(pane(answers, units));
    all.extend(people(answers, units));
    all.push(vent());
    all.push(platform(units));
    all.sort_by_key(|said| said.kind);
    all
}

/// True where nothing forbids the layout that was asked for.
pub fn has_stop(said: &[Said]) -> bool {
    said.iter().any(|said| said.kind == Matters::Stop)
}

fn warm(celsius: f64, units: Units) -> String {
    show(Kind::Temperature, celsius + physics::ZERO_CELSIUS_K, units).replace(' ', "\u{a0}°")
}

fn length(metres: f64, units: Units) -> String {
    show(Kind::Length, metres, units).replace(' ', "\u{a0}")
}

fn litres(volume_m3: f64, units: Units) -> String {
    show(Kind::Volume, volume_m3, units).replace(' ', "\u{a0}")
}

/// What the cistern feeds.
fn cistern(answers: &Answers, units: Units) -> Vec<Said> {
    let (limit, north) = (warm(25.0, units), warm(20.0, units));
    let own = "Leave that cistern cold. Lay the coil in a vessel of its own that feeds the cylinder alone.";
    match answers.cistern {
        Cistern::NotSaid => vec![Said {
            kind: Matters::Stop,
            code: "cistern-not-looked-at",
            says: "Nobody said yet what the cistern feeds; everything else hangs on it".to_owned(),
            mend: "Follow every pipe that leaves it, then answer. Until then the drawing has a vessel of its own: a coil may lie only in one that feeds the cylinder alone.".to_owned(),
            source: SCHEDULE_20,
        }],
        Cistern::OnlyCylinder => vec![Said {
            kind: Matters::Quiet,
            code: "cistern-feeds-cylinder",
            says: "You answered: only the cylinder".to_owned(),
            mend: "Keep it so, fit a close lid, and label it as hot-water plant.".to_owned(),
            source: SCHEDULE_20,
        }],
        Cistern::Also(feeds) => {
            let mut all = Vec::new();
            if feeds.cold_taps {
                all.push(Said {
                    kind: Matters::Stop,
                    code: "cold-taps",
                    says: format!("The cistern feeds cold taps: stored cold water may not be warmed over {limit}, in Scotland and Northern Ireland {north}"),
                    mend: own.to_owned(),
                    source: SCHEDULE_20,
                });
            }
            if feeds.shower {
                all.push(Said {
                    kind: Matters::Stop,
                    code: "spray-before-cylinder",
                    says: format!("A shower or mixer draws from it before the cylinder: spray of water kept between {north} and {}, where legionella grows, and warm water where the mixer counts on cold", warm(45.0, units)),
                    mend: own.to_owned(),
                    source: "Health and safety regulator, guidance on legionella in hot and cold water (UK)",
                });
            }
            if feeds.wc_or_garden {
                all.push(Said {
                    kind: Matters::Stop,
                    code: "wc-or-garden",
                    says: format!("A WC or a garden pipe hangs on it: what is stored for them counts as cold water, {limit} at most, and a hose makes spray"),
                    mend: own.to_owned(),
                    source: SCHEDULE_20,
                });
            }
            all
        }
    }
}

/// What heats the water after the store.
fn heater(answers: &Answers, units: Units) -> Vec<Said> {
    let hot = warm(60.0, units);
    let cylinder = format!(
        "Put a cylinder between store and taps whose whole water reaches {hot} each day and stays there an hour."
    );
    let said = |code, says: String, source| Said {
        kind: Matters::Stop,
        code,
        says,
        mend: cylinder.clone(),
        source,
    };
    vec![match answers.heater {
        None => Said {
            kind: Matters::Mind,
            code: "heater-not-said",
            says: "Nobody said yet what heats the water after the store".to_owned(),
            mend: format!("The drawing has a cylinder, which must bring its whole water to {hot} each day for an hour."),
            source: WHOLE_HOUR,
        },
        Some(Downstream::HotCylinder) => Said {
            kind: Matters::Mind,
            code: "whole-cylinder",
            says: format!("The cylinder is kept at {hot}. Each day every litre must reach that and stay there an hour, not only its top, before any shower"),
            mend: "Measure at its foot, not at the thermostat, and see to it that no timer or holiday leaves a day out.".to_owned(),
            source: WHOLE_HOUR,
        },
        Some(Downstream::CoolCylinder) => said(
            "cool-cylinder",
            format!("A cylinder kept under {hot}, or hot at its top only, passes on what grew in the warmed store"),
            WHOLE_HOUR,
        ),
        Some(Downstream::CombiWarm) => said(
            "seconds-only",
            format!("A combination boiler holds the water hot for seconds as it passes; it does not keep a warmed store’s water at {hot}"),
            WHOLE_HOUR,
        ),
        Some(Downstream::CombiCold) => said(
            "cold-inlet-only",
            "This boiler takes cold water only: its maker does not allow warmed water in, and it holds water hot for seconds only".to_owned(),
            "The maker’s instructions; fittings scheme’s note on preheated water (UK)",
        ),
        Some(Downstream::Instantaneous) => said(
            "heater-in-passing",
            format!("An instantaneous heater or electric shower warms in passing: water from the warmed store would reach the spray without having been kept at {hot}"),
            WHOLE_HOUR,
        ),
    }]
}

/// Water must not stand in the store for days.
fn turnover(answers: &Answers, units: Units) -> Option<Said> {
    let (day_m3, store_m3) = (day_m3(answers)?, answers.stock.cistern_m3?);
    let (day, whole) = (litres(day_m3, units), litres(store_m3, units));
    let source = "Health and safety regulator: store no more than a day’s use (UK); a day’s water by SAP 2012, 25 litres a person and 36";
    Some(if is_slow(store_m3, day_m3) {
        Said {
            kind: Matters::Stop,
            code: "slow-turnover",
            says: format!(
                "The household draws about {day} a day and the store holds {whole}: warm water would stand in it for more than a day"
            ),
            mend: "Set the ball valve lower, or take a smaller vessel: a day’s water and no more."
                .to_owned(),
            source,
        }
    } else {
        Said {
            kind: Matters::Quiet,
            code: "daily-turnover",
            says: format!(
                "The household draws about {day} a day, which turns {whole} over at least once"
            ),
            mend: "After days away let it run through, hot, before anyone showers.".to_owned(),
            source,
        }
    })
}

/// What moves the fluid, and what it does at night.
fn moves(answers: &Answers, units: Units) -> Option<Said> {
    let clear_m = clear_m(answers)?;
    let clear = length(clear_m.abs(), units);
    let (least, good) = (length(LEAST_CLEAR_M, units), length(GOOD_CLEAR_M, units));
    const LIFT: &str = "A trade page asks for 0.3 m, a solar energy laboratory for 0.6 m (2 ft)";
    Some(match answers.drive {
        Drive::Gravity if clear_m < LEAST_CLEAR_M => Said {
            kind: Matters::Stop,
            code: "store-too-low",
            says: if clear_m < 0.0 {
                format!("Without a pump hot fluid must rise to the store, and the store’s base lies {clear} under the panel’s top: nothing runs by day, and at night the store heats the panel")
            } else {
                format!("Without a pump the store’s base must lie {least} over the panel’s top at least, better {good}; here it is {clear}")
            },
            mend: "Set the panel lower, or take a pump and a check valve.".to_owned(),
            source: LIFT,
        },
        Drive::Gravity if clear_m < GOOD_CLEAR_M => Said {
            kind: Matters::Mind,
            code: "store-rather-low",
            says: format!("The store’s base lies {clear} over the panel’s top; {good} keeps it from running backwards at night"),
            mend: "Fit a light flap in the cool pipe, and let both pipes rise all the way.".to_owned(),
            source: LIFT,
        },
        Drive::Gravity => Said {
            kind: Matters::Quiet,
            code: "store-high",
            says: format!("The store’s base lies {clear} over the panel’s top: the fluid’s own weight moves it, and hardly backwards"),
            mend: "Let both pipes rise all the way.".to_owned(),
            source: LIFT,
        },
        Drive::Pump if clear_m < LEAST_CLEAR_M => Said {
            kind: Matters::Mind,
            code: "runs-backwards",
            says: "The panel reaches as high as the store: at night warm fluid rises to the cold panel and cools the store".to_owned(),
            mend: "Fit a check valve that a spring holds shut, and feel both pipes three hours after dusk.".to_owned(),
            source: "The American certification rules for solar water heaters ask for a means against it",
        },
        Drive::Pump => Said {
            kind: Matters::Quiet,
            code: "store-over-panel",
            says: format!("The store’s base lies {clear} over the panel’s top: at night little runs backwards"),
            mend: "A check valve still belongs in.".to_owned(),
            source: LIFT,
        },
    })
}

/// The header tank keeps the circuit full.
fn header(answers: &Answers, units: Units) -> Option<Said> {
    let (header_m, top_m) = (answers.heights.header_m?, answers.heights.panel_top_m?);
    let over_m = header_m - top_m;
    let source = "Common practice of open circuits: the feed vessel stands over the highest point";
    Some(if over_m <= 0.0 {
        Said {
            kind: Matters::Stop,
            code: "header-too-low",
            says: format!(
                "The header tank’s water stands {} under the panel’s top, which would stay empty and dry",
                length(-over_m, units)
            ),
            mend: "Raise it over the circuit’s highest point, by half a metre or so.".to_owned(),
            source,
        }
    } else {
        Said {
            kind: Matters::Quiet,
            code: "header-high",
            says: format!(
                "The header tank’s water stands {} over the panel’s top",
                length(over_m, units)
            ),
            mend: "No valve that can be shut may stand between panel and tank.".to_owned(),
            source,
        }
    })
}

/// What a loft cistern gives at the tap.
fn pressure(answers: &Answers, units: Units) -> Option<Said> {
    let head_m = head_m(answers)?;
    // A mixing valve's least pressure, by the scope of EN 1287.
    const LEAST_PA: f64 = 0.1e5;
    let gauge_pa = static_pa(1000.0, head_m);
    let bar = match units {
        Units::Metric => format!("{:.2}\u{a0}bar", gauge_pa / 1e5),
        Units::Us => {
            format!("{:.1}\u{a0}psi", in_unit(Kind::Pressure, gauge_pa, "psi").unwrap_or(f64::NAN))
        }
    };
    let source = "Weight of the water column; scope of EN 1287 for low-pressure mixing valves, 0.1 to 1 bar, as trade pages state it";
    Some(if head_m <= 0.0 {
        Said {
            kind: Matters::Stop,
            code: "tap-over-store",
            says: format!(
                "The highest hot tap lies {} over the store’s base: no water comes out of it",
                length(-head_m, units)
            ),
            mend: "Set the store higher. No layout is drawn for these heights.".to_owned(),
            source,
        }
    } else if gauge_pa < LEAST_PA {
        Said {
            kind: Matters::Mind,
            code: "little-pressure",
            says: format!(
                "The store’s base stands {} over the highest hot tap: {bar}, less than any mixing valve is made for",
                length(head_m, units)
            ),
            mend: "Set the store higher, or keep that tap off the hot supply.".to_owned(),
            source,
        }
    } else {
        Said {
            kind: Matters::Mind,
            code: "mixing-valve",
            says: format!(
                "The sun has no thermostat: water hotter than the cylinder’s setting can reach the taps, at {bar}"
            ),
            mend: format!(
                "Fit a mixing valve of the low-pressure kind, bath {}, basin and shower {}, and try it yearly by shutting the cold.",
                warm(44.0, units),
                warm(41.0, units)
            ),
            source: "Settings of the thermostatic valve scheme, EN 1287 (UK), as a valve handbook states them",
        }
    })
}

/// What a dry panel does to its pane.
fn cover(answers: &Answers, units: Units) -> Option<Said> {
    let cover = answers.stock.cover.as_deref()?;
    let stands_c = service_c(cover)?;
    let name = materials::material(cover)?.name.to_lowercase();
    let [low, high] = DRY_PANE_C;
    let comes = format!(
        "A panel dry in full sun passes {}; its pane comes to {} to {}, and {name} stands {}",
        warm(120.0, units),
        low,
        warm(high, units),
        warm(stands_c, units)
    );
    let source = "The catalogue’s own sources for the material; the pane’s warmth is an estimate, half-way from sheet to air";
    if stands_c < low {
        Some(Said {
            kind: Matters::Stop,
            code: "cover-melts",
            says: comes,
            mend: "Take toughened glass, or a sheet of polycarbonate.".to_owned(),
            source,
        })
    } else if stands_c < high {
        Some(Said {
            kind: Matters::Mind,
            code: "cover-sags",
            says: comes,
            mend: "Never leave it dry in the sun; the build’s own sheet reckons it for your place."
                .to_owned(),
            source,
        })
    } else if cover.contains("glass") && cover != "toughened-glass" {
        Some(Said {
            kind: Matters::Mind,
            code: "glass-overhead",
            says:
                "Glass that is not toughened breaks in blades, and by a hot middle and a cold edge"
                    .to_owned(),
            mend:
                "Keep people out from below it, or use toughened glass: look for the etched mark."
                    .to_owned(),
            source: "Common practice; glass trade lexicon on partial shading",
        })
    } else {
        None
    }
}

/// A pane smaller than the sheet.
fn pane(answers: &Answers, units: Units) -> Option<Said> {
    let (sheet, pane) = (answers.stock.sheet?, answers.stock.pane?);
    let is_covered = pane.long_m >= sheet.long_m && pane.short_m >= sheet.short_m;
    (!is_covered).then(|| Said {
        kind: Matters::Mind,
        code: "pane-too-small",
        says: format!(
            "The pane is {} by {}, the sheet {} by {}",
            length(pane.long_m, units),
            length(pane.short_m, units),
            length(sheet.long_m, units),
            length(sheet.short_m, units)
        ),
        mend: "The build takes no more of the sheet than the pane covers.".to_owned(),
        source: "Measure for measure",
    })
}

/// Who is harmed sooner.
fn people(answers: &Answers, units: Units) -> Option<Said> {
    (answers.tender == Tender::Some).then(|| Said {
        kind: Matters::Mind,
        code: "tender-people",
        says: format!("Infants, old or ill people use the water: {} burns an adult’s skin in seconds, a child’s in about half of that, and lungs that are weak take harm from what a warmed store breeds", warm(60.0, units)),
        mend: "Ask their doctor before you build, and fit a mixing valve at every bath, basin and shower.".to_owned(),
        source: "Moritz and Henriques 1947, from charts that rest on it; health and safety regulator on who is at risk (from memory)",
    })
}

/// Where the circuit's own water goes when it boils.
fn vent() -> Said {
    Said {
        kind: Matters::Mind,
        code: "vent-of-its-own",
        says: "The circuit’s vent may not end over the cistern: what it spits is not fit to drink".to_owned(),
        mend: "Give the circuit a small feed vessel of its own, and let the vent rise all the way to it.".to_owned(),
        source: "Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraph 20 (UK)",
    }
}

/// A plastic cistern that gets hot.
fn platform(units: Units) -> Said {
    Said {
        kind: Matters::Mind,
        code: "platform-and-limit",
        says: "A plastic cistern whose base overhung its board gave way when it became hot, and people died".to_owned(),
        mend: format!("Set it on a flat, rigid board that reaches {} beyond it all round, and put a separate heat limit in series with the pump.", length(0.15, units)),
        source: "Health and safety regulator’s alert of 2008; Approved Document G (UK)",
    }
}

#[cfg(test)]
mod tests;
