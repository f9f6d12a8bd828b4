//! What can go wrong, on paper: the worst first, with its pictures, sources at the foot. Black on white;
//! there is nothing to tick, since no worry goes away by a tick.

use design::quantity::Units;

use crate::page::Picture;
use crate::style;
use crate::svg::{escaped, inline, roles};

/// The paper.
#[derive(Clone, Debug)]
pub struct Facts {
    /// The build's title.
    pub title: String,
    /// Its story; may be empty.
    pub story: String,
    /// What has to be looked after, the worst first.
    pub worries: Vec<Worry>,
    /// What is quiet, a sentence each with its station.
    pub quiet: Vec<String>,
    /// How many stop.
    pub count: String,
    /// What was not looked at.
    pub not_looked_at: String,
    /// The reader's units, on which the size of the paper hangs.
    pub units: Units,
}

/// One worry.
#[derive(Clone, Debug)]
pub struct Worry {
    /// Its kind's word.
    pub kind: &'static str,
    /// Its shape.
    pub mark: Mark,
    /// Its station.
    pub station: &'static str,
    /// What happens.
    pub says: String,
    /// What to do; may be empty.
    pub mend: String,
    /// What each number is, and the number against its limit.
    pub figures: Vec<(String, String)>,
    /// What would help, and what it came to.
    pub remedies: Vec<String>,
    /// Who says so.
    pub sources: Vec<String>,
    /// Its hours.
    pub picture: Option<Picture>,
}

/// The shape of a kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A filled square with a cross.
    CrossedSquare,
    /// An open diamond with a stroke.
    StruckDiamond,
}

/// The document, complete in itself.
pub fn worry_sheet(facts: &Facts) -> String {
    let mut sources: Vec<&str> = Vec::new();
    let mut body = String::new();
    for worry in &facts.worries {
        body.push_str(&drawn(worry, &mut sources));
    }
    let mut met = Vec::new();
    for picture in facts.worries.iter().filter_map(|worry| worry.picture.as_ref()) {
        for role in roles(&picture.wide) {
            if !met.contains(&role) {
                met.push(role);
            }
        }
    }
    let title = escaped(&facts.title);
    let mut text = format!(
        "<!doctype html>\n<html lang=\"en\" class=\"grey\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n\
         <title>What can go wrong: {title}</title>\n<style>\n{}{}</style>\n</head>\n<body>\n<main>\n\
         <h1>What can go wrong</h1>\n<p class=\"build\"><b>{title}.</b> {}</p>\n<p class=\"count\">{}.</p>\n",
        style::css(&met),
        css(facts.units),
        escaped(&facts.story),
        escaped(&facts.count),
    );
    text.push_str(&body);
    if !facts.quiet.is_empty() {
        text.push_str("<section>\n<h2>Looked at and small</h2>\n<ul class=\"quiet\">\n");
        for says in &facts.quiet {
            text.push_str(&format!("<li>{}</li>\n", escaped(says)));
        }
        text.push_str("</ul>\n</section>\n");
    }
    text.push_str(&foot(&sources, &facts.not_looked_at));
    text.push_str("</main>\n</body>\n</html>\n");
    text
}

/// One worry; its sources are told at the foot, each once.
fn drawn<'a>(worry: &'a Worry, sources: &mut Vec<&'a str>) -> String {
    let mut text = format!(
        "<section class=\"worry\">\n<h2>{}<b>{}:</b> {}</h2>\n<p>{}</p>\n",
        shape(worry.mark),
        worry.kind,
        worry.station,
        escaped(&worry.says)
    );
    if !worry.mend.is_empty() {
        text.push_str(&format!("<p><b>Do:</b> {}</p>\n", escaped(&worry.mend)));
    }
    if !worry.figures.is_empty() {
        text.push_str("<table>\n<tbody>\n");
        for (what, number) in &worry.figures {
            text.push_str(&format!(
                "<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n",
                escaped(what),
                escaped(number)
            ));
        }
        text.push_str("</tbody>\n</table>\n");
    }
    if let Some(picture) = &worry.picture {
        text.push_str(&format!("<figure>\n{}</figure>\n", inline(&picture.wide)));
    }
    if !worry.remedies.is_empty() {
        text.push_str("<p><b>What would help</b></p>\n<ul>\n");
        for remedy in &worry.remedies {
            text.push_str(&format!("<li>{}</li>\n", escaped(remedy)));
        }
        text.push_str("</ul>\n");
    }
    let numbers: Vec<String> = worry
        .sources
        .iter()
        .map(|source| {
            let known = sources.iter().position(|known| known == source).unwrap_or_else(|| {
                sources.push(source);
                sources.len() - 1
            });
            (known + 1).to_string()
        })
        .collect();
    if !numbers.is_empty() {
        text.push_str(&format!("<p class=\"by\">Sources {}</p>\n", numbers.join(", ")));
    }
    text.push_str("</section>\n");
    text
}

fn shape(mark: Mark) -> &'static str {
    match mark {
        Mark::CrossedSquare => {
            "<svg class=\"shape\" viewBox=\"0 0 16 16\" aria-hidden=\"true\"><rect x=\"1\" y=\"1\" \
             width=\"14\" height=\"14\" fill=\"#000\"/><path d=\"M4.5 4.5 11.5 11.5M11.5 4.5 4.5 11.5\" \
             stroke=\"#fff\" stroke-width=\"2\"/></svg>"
        }
        Mark::StruckDiamond => {
            "<svg class=\"shape\" viewBox=\"0 0 16 16\" aria-hidden=\"true\"><path d=\"M8 1 15 8 8 15 1 \
             8ZM8 4.6V11.4\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.6\"/></svg>"
        }
    }
}

fn foot(sources: &[&str], not_looked_at: &str) -> String {
    let mut text = format!("<footer>\n<p>{}</p>\n", escaped(not_looked_at));
    if !sources.is_empty() {
        text.push_str("<h2>Sources</h2>\n<ol>\n");
        for source in sources {
            text.push_str(&format!("<li>{}</li>\n", escaped(source)));
        }
        text.push_str("</ol>\n");
    }
    text.push_str("</footer>\n");
    text
}

/// Ten points and more, a margin for punching at the left.
fn css(units: Units) -> String {
    let size = match units {
        Units::Metric => "A4",
        Units::Us => "letter",
    };
    format!(
        "@page{{size:{size};margin:10mm 9mm 10mm 14mm}}
:root{{color-scheme:light}}
body{{margin:0;background:#fff;color:#000;font:400 10.5pt/1.35 'Source Sans 3 Variable','Source Sans 3',Arial,sans-serif}}
main{{max-width:187mm;margin:0 auto;padding:4mm}}
h1{{font:560 8mm/1.1 'Literata Variable',Literata,Georgia,serif;margin:0 0 3mm}}
h2{{font:400 4.6mm/1.2 'Literata Variable',Literata,Georgia,serif;margin:0 0 1.5mm}}
h2 b,p b{{font-weight:700}}
p{{margin:0 0 1.5mm;max-width:150mm}}
.count{{font-weight:600}}
section{{border-top:.6mm solid #000;padding:2.5mm 0 1.5mm}}
.worry h2{{break-after:avoid-page}}
figure,table,li{{break-inside:avoid-page}}
.shape{{width:4.2mm;height:4.2mm;margin-right:2mm;vertical-align:-.5mm}}
table{{border-collapse:collapse;margin:0 0 2mm}}
th,td{{text-align:left;vertical-align:top;padding:.6mm 5mm .6mm 0;border-bottom:.18mm solid #000}}
th{{font-weight:400;max-width:70mm}}
td{{font-weight:600}}
ul,ol{{margin:0 0 2mm;padding-left:5mm}}
ol{{padding-left:8mm}}
li{{margin:0 0 .8mm;max-width:165mm}}
figure{{margin:0 0 2mm}}
figure svg{{display:block;max-width:100%;height:auto}}
figure .paper{{fill:#fff!important}}
.by{{font-style:italic}}
footer{{border-top:.6mm solid #000;padding-top:2.5mm}}
@media print{{main{{padding:0;max-width:none}}}}
"
    )
}
