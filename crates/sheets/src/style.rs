//! How roles look: by daylight, at night, and in grey for print.

use crate::hatch::{Hatch, Material};
use crate::pen::px;
use crate::role::Role;
use crate::warmth;

/// A colour by daylight, at night and in print.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Colour {
    /// By daylight.
    pub light: u32,
    /// At night.
    pub dark: u32,
    /// In grey.
    pub grey: u32,
}

const fn colour(light: u32, dark: u32, grey: u32) -> Colour {
    Colour { light, dark, grey }
}

/// The paper pictures stand on.
pub const PAPER: Colour = colour(0xEEF3F2, 0x0E171C, 0xFFFFFF);
/// Graph grounds and plates.
pub const SHEET: Colour = colour(0xFBFDFC, 0x16222A, 0xFFFFFF);
/// Words and outlines.
pub const INK: Colour = colour(0x0F1E26, 0xEDF2F0, 0x000000);
/// Captions and units.
pub const INK2: Colour = colour(0x3E515B, 0xB3C1C6, 0x333333);
/// Table lines.
pub const RULE: Colour = colour(0xB4C3C5, 0x34464F, 0xBBBBBB);
/// Table heads.
pub const RULE2: Colour = colour(0x6B7D85, 0x8496A0, 0x777777);
/// Heat from the sun.
pub const HEAT: Colour = colour(0xE6A02E, 0xDE9A2C, 0xA6A6A6);
/// Left edge of the heat, plates' edges.
pub const HEAT_LINE: Colour = colour(0x6E3F00, 0xFFDCA0, 0x000000);
/// Month threads.
pub const SEAM: Colour = colour(0xFBE3B4, 0x8A5A10, 0xFFFFFF);
/// Outline of the column.
pub const EDGE: Colour = colour(0x3A2A12, 0xF0DDB8, 0x000000);
/// The circuit's cool pipe.
pub const COOL: Colour = colour(0x35618A, 0x8FB4D6, 0x444444);
/// Stop worries.
pub const STOP: Colour = colour(0x930E24, 0xFF9AA2, 0x000000);

/// One role's look: what holds always, and what is painted by the theme.
struct Look {
    fixed: String,
    paints: Vec<(&'static str, Colour)>,
}

fn look(fixed: impl Into<String>, paints: &[(&'static str, Colour)]) -> Look {
    Look { fixed: fixed.into(), paints: paints.to_vec() }
}

fn stroked(width_px: f64, colour: Colour) -> Look {
    look(format!("fill:none;stroke-width:{:.3}", px(width_px)), &[("stroke", colour)])
}

fn dashed(width_px: f64, dashes: &[f64], colour: Colour) -> Look {
    let dashes: Vec<String> = dashes.iter().map(|&dash| format!("{:.3}", px(dash))).collect();
    let Look { fixed, paints } = stroked(width_px, colour);
    Look { fixed: format!("{fixed};stroke-dasharray:{}", dashes.join(" ")), paints }
}

fn words(role: Role, weight: u32, colour: Colour) -> Look {
    look(
        format!("font-size:{:.3}px;font-weight:{weight}", role.text_size_mm()),
        &[("fill", colour)],
    )
}

const SANS: &str = "'Source Sans 3 Variable','Source Sans 3',Arial,sans-serif";
const SERIF: &str = "'Literata Variable',Literata,Georgia,serif";

/// The look of a role under the class it is known by; hatches have their own.
fn look_of(role: Role) -> Option<Look> {
    Some(match role {
        Role::Stratum(_) | Role::Material(_) => return None,
        Role::Warmth(level) => {
            look(format!("fill:#{:06x};shape-rendering:crispEdges", warmth::colour(level)), &[])
        }
        Role::Ground | Role::Plate => look(
            format!("stroke-width:{:.3}", px(1.2)),
            &[("fill", SHEET), ("stroke", if role == Role::Plate { HEAT_LINE } else { SHEET })],
        ),
        Role::Cut => stroked(2.7, INK),
        Role::InView => stroked(1.7, INK),
        Role::Hidden => dashed(1.6, &[7.0, 5.0], INK),
        Role::Dimension | Role::Leader => stroked(1.1, INK),
        Role::LeaderGround => stroked(4.0, SHEET),
        Role::Arrow | Role::Dot => look("stroke:none", &[("fill", INK)]),
        Role::Grid => stroked(0.7, RULE),
        Role::Rule => stroked(1.0, RULE),
        Role::Frame => stroked(1.6, INK),
        Role::Heat => look("stroke:none", &[("fill", HEAT)]),
        Role::HeatEdge => stroked(1.8, HEAT_LINE),
        Role::Seam => stroked(1.0, SEAM),
        Role::Column => stroked(2.2, EDGE),
        Role::Boundary => stroked(1.2, EDGE),
        Role::Ghost => dashed(1.9, &[3.0, 4.0], INK),
        Role::GhostGround => look(
            format!("fill:none;stroke-width:{:.3};stroke-opacity:0.5", px(3.4)),
            &[("stroke", SHEET)],
        ),
        Role::FootThick => stroked(3.0, INK),
        Role::FootThin => stroked(1.0, INK),
        Role::IsothermOnDark => {
            look(format!("fill:none;stroke:#fff;stroke-width:{:.3}", px(1.0)), &[])
        }
        Role::IsothermOnLight => {
            look(format!("fill:none;stroke:#0f1e26;stroke-width:{:.3}", px(1.0)), &[])
        }
        Role::Route => look(
            format!(
                "fill:none;stroke:#fff;stroke-width:{:.3};stroke-dasharray:{:.3} {:.3}",
                px(1.8),
                px(7.0),
                px(5.0)
            ),
            &[],
        ),
        Role::CurveMain => stroked(2.6, INK),
        Role::CurveThin => stroked(1.6, INK),
        Role::CurveDashed => dashed(1.8, &[7.0, 5.0], INK),
        Role::CurveDotted => dashed(1.9, &[3.0, 4.0], INK),
        Role::Sun => {
            look(format!("stroke-width:{:.3}", px(1.6)), &[("fill", HEAT), ("stroke", HEAT_LINE)])
        }
        Role::Water => {
            look(format!("stroke-width:{:.3}", px(1.2)), &[("fill", RULE2), ("stroke", INK)])
        }
        Role::Mark => {
            look(format!("stroke-width:{:.3}", px(2.0)), &[("fill", SHEET), ("stroke", HEAT_LINE)])
        }
        Role::Blank => look("stroke:none", &[("fill", PAPER)]),
        Role::Bore => look("stroke:none", &[("fill", SHEET)]),
        Role::CutTube => look(format!("fill:#8e3b12;stroke:#fff;stroke-width:{:.3}", px(1.2)), &[]),
        Role::Ring => {
            look(format!("stroke-width:{:.3}", px(1.1)), &[("fill", SHEET), ("stroke", INK)])
        }
        Role::Stop => stroked(2.4, STOP),
        Role::Pipe => stroked(5.0, INK),
        Role::FlowPipe => stroked(3.4, HEAT_LINE),
        Role::ReturnPipe => stroked(2.2, COOL),
        Role::FeedPipe => dashed(1.3, &[6.0, 4.0], INK),
        Role::Vent => stroked(1.3, INK),
        Role::SunPath => stroked(2.0, HEAT_LINE),
        Role::Label => words(role, 400, INK),
        Role::Quiet => words(role, 400, INK2),
        Role::Value => words(role, 600, INK),
        Role::OnDark => look(format!("font-size:{:.3}px;font-weight:600;fill:#fff", px(16.0)), &[]),
        Role::Caption => {
            let Look { fixed, paints } = words(role, 400, INK2);
            Look { fixed: format!("{fixed};font-style:italic"), paints }
        }
        Role::LossNumber => words(role, 600, INK),
        Role::PlateNumber => words(role, 650, INK),
        Role::PlateWords => {
            let Look { fixed, paints } = words(role, 400, INK);
            Look { fixed: format!("{fixed};font-style:italic"), paints }
        }
        Role::Station => {
            let Look { fixed, paints } = words(role, 560, INK);
            Look { fixed: format!("{fixed};font-family:{SERIF}"), paints }
        }
        Role::Lead => {
            let Look { fixed, paints } = words(role, 400, INK);
            Look { fixed: format!("{fixed};font-family:{SERIF}"), paints }
        }
        Role::StopWords => words(role, 700, STOP),
    })
}

/// Rules for some roles, in all themes: daylight unless the reader's system is set to night; classes
/// `light`, `dark` and `grey` on the outermost element decide it; print is grey.
pub fn css(roles: &[Role]) -> String {
    let mut fixed = format!("svg text{{font-family:{SANS}}}\n");
    let mut paints: Vec<(String, &'static str, Colour)> =
        vec![(".paper".to_owned(), "fill", PAPER)];
    for &role in roles {
        match role {
            Role::Stratum(hatch) => hatch_rules(hatch, &mut fixed, &mut paints),
            Role::Material(material) => {
                let inks = material.inks();
                let class = material.class();
                fixed.push_str(&format!(
                    ".m-{class} path{{fill:none;stroke-width:.9;stroke-opacity:.72}}\n"
                ));
                paints.push((format!(".m-{class} rect"), "fill", inks.ground));
                paints.push((format!(".m-{class} path"), "stroke", inks.line));
                paints.push((format!(".material.{class}"), "stroke", INK));
                fixed.push_str(&format!(".material{{stroke-width:{:.3}}}\n", px(1.2)));
                if material.tile(10.0).is_none() {
                    paints.push((format!(".material.{class}"), "fill", inks.ground));
                }
            }
            other => {
                let Some(look) = look_of(other) else { continue };
                let selector = format!(".{}", other.class().replace(' ', "."));
                if !look.fixed.is_empty() {
                    fixed.push_str(&format!("{selector}{{{}}}\n", look.fixed));
                }
                for (property, colour) in look.paints {
                    paints.push((selector.clone(), property, colour));
                }
            }
        }
    }
    themed(&fixed, &paints)
}

fn hatch_rules(hatch: Hatch, fixed: &mut String, paints: &mut Vec<(String, &'static str, Colour)>) {
    let (inks, class) = (hatch.inks(), hatch.class());
    if hatch.tile().is_some() {
        paints.push((format!(".h-{class} rect"), "fill", inks.ground));
        if hatch.is_dotted() {
            paints.push((format!(".h-{class} path"), "fill", inks.line));
        } else {
            // A tile is drawn in pixels.
            fixed.push_str(&format!(".h-{class} path{{fill:none;stroke-width:1.1}}\n"));
            paints.push((format!(".h-{class} path"), "stroke", inks.line));
        }
    } else {
        paints.push((format!(".stratum.{class}"), "fill", inks.ground));
    }
    // What is too narrow for a hatch is filled with its line's colour.
    paints.push((format!(".solid-{class}"), "fill", inks.line));
}

/// The rules in every theme. Colours are written out, so that a reader of drawings that knows neither
/// media nor variables still shows daylight.
fn themed(fixed: &str, paints: &[(String, &'static str, Colour)]) -> String {
    let block = |before: &str, pick: fn(&Colour) -> u32| {
        let mut text = String::new();
        for (selector, property, colour) in paints {
            text.push_str(&format!("{before}{selector}{{{property}:#{:06x}}}\n", pick(colour)));
        }
        text
    };
    let grey = block("", |colour| colour.grey);
    format!(
        "{fixed}{}@media (prefers-color-scheme:dark){{\n{}}}\n{}{}@media print{{\n{grey}}}\n",
        block("", |colour| colour.light),
        block(":root:not(.light):not(.grey) ", |colour| colour.dark),
        block(".dark ", |colour| colour.dark),
        block(".grey ", |colour| colour.grey),
    )
}

/// What a page of pictures needs beside the roles.
pub fn page_css() -> String {
    let fixed = format!(
        "body{{margin:0;font:400 1.15rem/1.4 {SANS}}}
main{{max-width:73rem;margin:0 auto;padding:1.5rem 1rem}}
h1{{font:560 2.2rem/1.15 {SERIF};margin:.5rem 0 1.5rem}}
figure{{margin:0 0 3.5rem}}
figure>div{{overflow-x:auto}}
figure svg{{display:block}}
.on-phone{{display:none}}
figcaption{{font-style:italic;margin:.6rem 0}}
.facts{{overflow-x:auto}}
table{{border-collapse:collapse;font-feature-settings:'tnum'}}
caption{{text-align:left;padding:.3rem 0}}
th,td{{padding:.2rem .6rem;text-align:right;white-space:nowrap}}
th:first-child{{text-align:left;font-weight:400}}
thead th{{border-bottom-width:2px;border-bottom-style:solid;font-weight:600}}
tbody tr{{border-bottom-width:1px;border-bottom-style:solid}}
:focus-visible{{outline:3px solid;outline-offset:2px}}
@media (max-width:719px){{.on-page{{display:none}}.on-phone{{display:block}}\
main{{padding:1rem 0}}h1,figcaption,summary,.facts{{margin-left:1rem;margin-right:1rem}}}}
@media print{{figure{{break-inside:avoid-page}}main{{max-width:none}}summary{{display:none}}}}
"
    );
    let paint = |selector: &str, property, colour| (selector.to_owned(), property, colour);
    themed(
        &fixed,
        &[
            paint("body", "background", PAPER),
            paint("body", "color", INK),
            paint("figcaption", "color", INK2),
            paint("caption", "color", INK2),
            paint("thead th", "border-color", RULE2),
            paint("tbody tr", "border-color", RULE),
        ],
    )
}

/// Every role whose look does not hang on a level of warmth.
pub fn all_roles() -> Vec<Role> {
    let mut roles = vec![
        Role::Ground,
        Role::Cut,
        Role::InView,
        Role::Hidden,
        Role::Dimension,
        Role::Arrow,
        Role::Leader,
        Role::LeaderGround,
        Role::Dot,
        Role::Grid,
        Role::Frame,
        Role::Rule,
        Role::Heat,
        Role::HeatEdge,
        Role::Seam,
        Role::Column,
        Role::Boundary,
        Role::Ghost,
        Role::GhostGround,
        Role::Plate,
        Role::FootThick,
        Role::FootThin,
        Role::IsothermOnDark,
        Role::IsothermOnLight,
        Role::Route,
        Role::CurveMain,
        Role::CurveThin,
        Role::CurveDashed,
        Role::CurveDotted,
        Role::Sun,
        Role::Water,
        Role::Mark,
        Role::Blank,
        Role::Bore,
        Role::CutTube,
        Role::Ring,
        Role::Stop,
        Role::Pipe,
        Role::FlowPipe,
        Role::ReturnPipe,
        Role::FeedPipe,
        Role::Vent,
        Role::SunPath,
        Role::Label,
        Role::Quiet,
        Role::Value,
        Role::OnDark,
        Role::Caption,
        Role::LossNumber,
        Role::PlateNumber,
        Role::PlateWords,
        Role::Station,
        Role::Lead,
        Role::StopWords,
    ];
    roles.extend(Hatch::ALL.map(Role::Stratum));
    roles.extend(Material::ALL.map(Role::Material));
    roles
}

/// Every level of warmth: what a page needs on which temperatures change as a day plays.
pub fn warmth_roles() -> Vec<Role> {
    (0..=255).map(Role::Warmth).collect()
}

/// Red, green and blue, linear in light.
pub(crate) struct Rgb {
    pub red: f64,
    pub green: f64,
    pub blue: f64,
}

impl Rgb {
    pub(crate) fn linear(colour: u32) -> Rgb {
        let part = |shift: u32| {
            let value = f64::from((colour >> shift) & 255) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        };
        Rgb { red: part(16), green: part(8), blue: part(0) }
    }

    pub(crate) fn packed(&self) -> u32 {
        let part = |value: f64| {
            let value = value.clamp(0.0, 1.0);
            let coded = if value <= 0.0031308 {
                12.92 * value
            } else {
                1.055 * value.powf(1.0 / 2.4) - 0.055
            };
            (255.0 * coded).round() as u32
        };
        (part(self.red) << 16) | (part(self.green) << 8) | part(self.blue)
    }
}

/// Relative luminance (WCAG 2.2).
#[cfg(test)]
pub(crate) fn luminance(colour: u32) -> f64 {
    let Rgb { red, green, blue } = Rgb::linear(colour);
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

#[cfg(test)]
mod tests {
    use super::{Colour, INK, INK2, PAPER, SHEET, STOP, luminance};
    use crate::hatch::Hatch;

    fn contrast(one: u32, other: u32) -> f64 {
        let (a, b) = (luminance(one), luminance(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// Contrast by the formula of WCAG 2.2: words at least 7 to 1 on paper and on sheets, in every
    /// theme.
    #[test]
    fn words_can_be_read() {
        let picks: [fn(&Colour) -> u32; 3] = [|c| c.light, |c| c.dark, |c| c.grey];
        for pick in picks {
            for ground in [PAPER, SHEET] {
                for ink in [INK, INK2, STOP] {
                    let found = contrast(pick(&ink), pick(&ground));
                    assert!(found >= 7.0, "{:06x}: {found}", pick(&ink));
                }
            }
        }
    }

    /// Every hatch on its ground at least 4.5 to 1, as words; bought heat's level lines, which stand
    /// alone, at least the 3 to 1 that graphics need (WCAG 2.2, 1.4.11).
    #[test]
    fn hatches_can_be_told() {
        let hatched = Hatch::ALL.into_iter().filter(|hatch| hatch.tile().is_some());
        for hatch in hatched {
            let inks = hatch.inks();
            let picks: [fn(&Colour) -> u32; 3] = [|c| c.light, |c| c.dark, |c| c.grey];
            for pick in picks {
                let found = contrast(pick(&inks.line), pick(&inks.ground));
                let least = if hatch == Hatch::Bought { 3.0 } else { 4.5 };
                assert!(found >= least, "{hatch:?}: {found}");
            }
        }
    }
}
