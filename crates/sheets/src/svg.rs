//! A drawing as SVG: text stays text, and nothing outside the file is referred to.

use std::collections::BTreeSet;

use crate::drawing::{Anchor, Area, Drawing, Form, Point, Run, Shape, Strip, Text};
use crate::hatch::{Hatch, Material};
use crate::pen::px;
use crate::role::Role;
use crate::style;

/// Narrower than this a stratum is filled whole, without its hatch \[mm\].
const SOLID_BELOW_MM: f64 = px(2.5);

/// A drawing as a file of its own, its style in it.
pub fn file(drawing: &Drawing) -> String {
    let css = style::css(&roles(drawing));
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{}", element(drawing, &css))
}

/// The same, its size in the page's own unit, 16 pixels of a screen, so that it grows with the type.
pub fn on_page(drawing: &Drawing) -> String {
    let rem = |mm: f64| number(mm / px(16.0));
    let (wide, high) = (rem(drawing.width_mm), rem(drawing.height_mm));
    sized(drawing, "", (&format!("{wide}rem"), &format!("{high}rem")))
}

/// A drawing as an element of a page that holds the style for all its pictures.
pub fn inline(drawing: &Drawing) -> String {
    element(drawing, "")
}

/// A level strip of a drawing as an element of a page; `with_tiles` for the strip whose tiles the
/// drawing's other strips use too. Its size is in the page's own unit, 16 pixels of a screen.
///
/// Hidden from readers that cannot see it: the page tells the whole drawing's facts once.
pub fn strip(drawing: &Drawing, strip: Strip, with_tiles: Tiles) -> String {
    let (top_mm, bottom_mm) = (strip.top_mm, strip.top_mm + strip.height_mm);
    let mut text = format!(
        "<svg aria-hidden=\"true\" focusable=\"false\" width=\"{}rem\" height=\"{}rem\" viewBox=\"0 {} {} {}\">\n",
        number(drawing.width_mm / px(16.0)),
        number(strip.height_mm / px(16.0)),
        number(top_mm),
        number(drawing.width_mm),
        number(strip.height_mm),
    );
    if with_tiles == Tiles::Own {
        text.push_str(&patterns(drawing));
    }
    for (place, shape) in drawing.shapes.iter().enumerate() {
        let (highest_mm, lowest_mm) = reach_mm(shape);
        if highest_mm <= bottom_mm && lowest_mm >= top_mm {
            text.push_str(&one(drawing, place, shape));
        }
    }
    text.push_str("</svg>\n");
    text
}

/// Whether a strip brings the tiles of its hatches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tiles {
    /// It does.
    Own,
    /// Another strip of the same drawing does.
    Shared,
}

/// The tiles of every hatch under a drawing's name, as an element that takes no room: for a page that
/// shows many drawings of that name, now or later.
pub fn all_tiles(name: &str, hatch_scale: f64) -> String {
    let mut text = String::from(
        "<svg aria-hidden=\"true\" focusable=\"false\" width=\"0\" height=\"0\"><defs>\n",
    );
    for hatch in Hatch::ALL {
        text.push_str(&hatch_pattern(name, hatch, hatch_scale));
    }
    text.push_str("</defs></svg>\n");
    text
}

/// How high and how low a shape reaches, on the generous side.
fn reach_mm(shape: &Shape) -> (f64, f64) {
    let span = |points: &mut dyn Iterator<Item = f64>| {
        points.fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
    };
    match &shape.form {
        Form::Line(points) | Form::Outline(points) => {
            span(&mut points.iter().map(|point| point.y_mm))
        }
        Form::Area(area) => (area.corner.y_mm, area.bottom_mm()),
        Form::Cells(cells) => {
            span(&mut cells.iter().flat_map(|area| [area.corner.y_mm, area.bottom_mm()]))
        }
        Form::Circle { middle, radius_mm } => (middle.y_mm - radius_mm, middle.y_mm + radius_mm),
        Form::Text(text) => {
            let room = text.room(shape.role);
            (room.corner.y_mm, room.bottom_mm())
        }
    }
}

/// Roles a drawing uses, each once.
pub fn roles(drawing: &Drawing) -> Vec<Role> {
    let mut met = BTreeSet::new();
    let mut roles = Vec::new();
    for shape in &drawing.shapes {
        if met.insert(shape.role.class()) {
            roles.push(shape.role);
        }
    }
    roles
}

/// Text as it may stand in an element or an attribute; letters that XML does not know are left out.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{fffe}' | '\u{ffff}' => {}
            _ if letter.is_control() => {}
            _ => out.push(letter),
        }
    }
    out
}

fn element(drawing: &Drawing, css: &str) -> String {
    let (wide, high) = (number(drawing.width_mm), number(drawing.height_mm));
    sized(drawing, css, (&format!("{wide}mm"), &format!("{high}mm")))
}

fn sized(drawing: &Drawing, css: &str, (wide, high): (&str, &str)) -> String {
    let name = drawing.name;
    let (width, height) = (number(drawing.width_mm), number(drawing.height_mm));
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby=\"{name}-title \
         {name}-desc\" width=\"{wide}\" height=\"{high}\" viewBox=\"0 0 {width} {height}\">\n\
         <title id=\"{name}-title\">{}</title>\n<desc id=\"{name}-desc\">{}</desc>\n",
        escaped(&drawing.title),
        escaped(&drawing.description),
    );
    if !css.is_empty() {
        text.push_str(&format!("<style>{css}</style>\n"));
    }
    text.push_str(&patterns(drawing));
    text.push_str(&format!("<rect class=\"paper\" width=\"{width}\" height=\"{height}\"/>\n"));
    for (place, shape) in drawing.shapes.iter().enumerate() {
        text.push_str(&one(drawing, place, shape));
    }
    text.push_str("</svg>\n");
    text
}

/// A number of millimetres, to a thousandth, without idle noughts.
fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// The tiles of every hatch in use. Those of materials are as deep as their layer, so each shape has
/// its own.
fn patterns(drawing: &Drawing) -> String {
    let name = drawing.name;
    let scale = drawing.hatch_scale;
    let mut text = String::from("<defs>\n");
    for hatch in Hatch::ALL {
        if drawing.shapes.iter().any(|shape| shape.role == Role::Stratum(hatch)) {
            text.push_str(&hatch_pattern(name, hatch, scale));
        }
    }
    for (place, shape) in drawing.shapes.iter().enumerate() {
        if let (Role::Material(material), Form::Area(area)) = (shape.role, &shape.form) {
            text.push_str(&material_pattern(name, place, material, area));
        }
    }
    text.push_str("</defs>\n");
    text
}

/// The tile of a hatch; nothing where it has none.
fn hatch_pattern(name: &str, hatch: Hatch, scale: f64) -> String {
    let Some(tile) = hatch.tile() else { return String::new() };
    let class = hatch.class();
    let (wide, high) = (number(tile.width_mm), number(tile.height_mm));
    format!(
        "<pattern id=\"{name}-{class}\" class=\"h-{class}\" width=\"{wide}\" height=\"{high}\" \
         patternUnits=\"userSpaceOnUse\" patternTransform=\"scale({})\"><rect width=\"{wide}\" \
         height=\"{high}\"/><path transform=\"scale({})\" d=\"{}\"/>\
         </pattern>\n",
        number(scale),
        number(px(1.0)),
        tile.marks,
    )
}

fn material_pattern(name: &str, place: usize, material: Material, area: &Area) -> String {
    // A layer that stands is the same layer turned: its hatch runs up the wall.
    let stands = material.is_layered() && area.height_mm > area.width_mm;
    let depth_mm = if stands { area.width_mm } else { area.height_mm };
    let Some((width_px, height_px, marks)) = material.tile(depth_mm / px(1.0)) else {
        return String::new();
    };
    let (wide, high) = (number(px(width_px)), number(px(height_px)));
    let (x, y) = (number(area.corner.x_mm), number(area.corner.y_mm));
    let place_words = if stands {
        format!("patternTransform=\"translate({} {y}) rotate(90)\"", number(area.right_mm()))
    } else {
        format!("x=\"{x}\" y=\"{y}\"")
    };
    format!(
        "<pattern id=\"{name}-m{place}\" class=\"m-{}\" {place_words} width=\"{wide}\" \
         height=\"{high}\" patternUnits=\"userSpaceOnUse\"><rect width=\"{wide}\" height=\"{high}\"/>\
         <path transform=\"scale({})\" d=\"{marks}\"/></pattern>\n",
        material.class(),
        number(px(1.0)),
    )
}

fn one(drawing: &Drawing, place: usize, shape: &Shape) -> String {
    let look = attributes(drawing, place, shape);
    match &shape.form {
        Form::Line(points) => format!("<polyline{look} points=\"{}\"/>\n", listed(points)),
        Form::Outline(points) => format!("<polygon{look} points=\"{}\"/>\n", listed(points)),
        Form::Area(area) => format!(
            "<rect{look} x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
            number(area.corner.x_mm),
            number(area.corner.y_mm),
            number(area.width_mm),
            number(area.height_mm),
        ),
        Form::Cells(cells) => format!("<path{look} d=\"{}\"/>\n", cells_path(cells)),
        Form::Circle { middle, radius_mm } => format!(
            "<circle{look} cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n",
            number(middle.x_mm),
            number(middle.y_mm),
            number(*radius_mm),
        ),
        Form::Text(words) => text(&look, words),
    }
}

/// Class, the tile where there is one, and the name of what changes as a day plays.
fn attributes(drawing: &Drawing, place: usize, shape: &Shape) -> String {
    let mut look = look_of(drawing, place, shape);
    if let Some(live) = &shape.live {
        look.push_str(&format!(" data-live=\"{}\"", escaped(live)));
    }
    look
}

fn look_of(drawing: &Drawing, place: usize, shape: &Shape) -> String {
    let name = drawing.name;
    match shape.role {
        Role::Stratum(hatch) if hatch.tile().is_some() => {
            if is_thin(&shape.form) {
                format!(" class=\"stratum solid-{}\"", hatch.class())
            } else {
                let class = hatch.class();
                format!(" class=\"stratum {class}\" fill=\"url(#{name}-{class})\"")
            }
        }
        Role::Material(material) if material.tile(10.0).is_some() => {
            format!(" class=\"material {}\" fill=\"url(#{name}-m{place})\"", material.class())
        }
        role => format!(" class=\"{}\"", role.class()),
    }
}

/// Whether a stratum is too narrow, at its widest, to show a hatch.
fn is_thin(form: &Form) -> bool {
    let Form::Outline(points) = form else { return false };
    let span = |pick: fn(&Point) -> f64| {
        let (low, high) = points
            .iter()
            .map(pick)
            .fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)));
        high - low
    };
    // A wedge's right side runs obliquely: its width is the foot's.
    let foot_mm = points.iter().map(|point| point.y_mm).fold(f64::MIN, f64::max);
    let at_foot = points.iter().filter(|point| point.y_mm == foot_mm).map(|point| point.x_mm);
    let (low, high) =
        at_foot.fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)));
    // What stands on one corner has no foot.
    let foot_mm = if high > low { high - low } else { f64::MAX };
    foot_mm.min(span(|point| point.x_mm)) < SOLID_BELOW_MM
}

fn listed(points: &[Point]) -> String {
    let pairs: Vec<String> =
        points.iter().map(|at| format!("{},{}", number(at.x_mm), number(at.y_mm))).collect();
    pairs.join(" ")
}

/// Cells as one path: each a step to its corner and once round.
fn cells_path(cells: &[Area]) -> String {
    let mut path = String::new();
    for Area { corner, width_mm, height_mm } in cells {
        let (wide, high) = (number(*width_mm), number(*height_mm));
        path.push_str(&format!(
            "M{} {}h{wide}v{high}h-{wide}z",
            number(corner.x_mm),
            number(corner.y_mm)
        ));
    }
    path
}

fn text(look: &str, words: &Text) -> String {
    let anchor = match words.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let (x, y) = (number(words.at.x_mm), number(words.at.y_mm));
    let turn = match words.run {
        Run::Along => String::new(),
        Run::Upwards => format!(" transform=\"rotate(-90 {x} {y})\""),
    };
    format!("<text{look} x=\"{x}\" y=\"{y}\"{anchor}{turn}>{}</text>\n", escaped(&words.words))
}

#[cfg(test)]
mod tests {
    use super::{escaped, number};

    #[test]
    fn numbers_are_short() {
        let found = [12.5, -0.0001, -3.0, 0.0011].map(number);
        assert_eq!(found, ["12.5", "0", "-3", "0.001"]);
    }

    #[test]
    fn hostile_text_stays_text() {
        assert_eq!(
            escaped("</title><script>\u{0}alert('a\"b')&\n"),
            "&lt;/title&gt;&lt;script&gt;alert(&#39;a&quot;b&#39;)&amp; "
        );
    }
}
