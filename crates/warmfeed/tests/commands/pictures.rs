//! `panel --out` and `year --out`: every picture whole, sound, and of the figures that are told.

use std::path::Path;

use crate::program::run;

/// What `year --out` draws.
pub const PICTURES: [&str; 14] = [
    "heat-section.svg",
    "sky.svg",
    "light-year.svg",
    "panel-year.svg",
    "house.svg",
    "running-year.svg",
    "cistern.svg",
    "store-year.svg",
    "draws.svg",
    "months.svg",
    "day-summer.svg",
    "day-winter.svg",
    "strip.svg",
    "pictures.html",
];

fn read(folder: &Path, name: &str) -> String {
    std::fs::read_to_string(folder.join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

fn written(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("the folder was made")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// Every drawing is XML with a name, and every figure of a table that bears one is a figure.
fn is_sound(folder: &Path) {
    for name in written(folder).iter().filter(|name| name.ends_with(".svg")) {
        let text = read(folder, name);
        let document =
            roxmltree::Document::parse(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert!(document.descendants().any(|node| node.has_tag_name("title")), "{name}");
        assert!(!text.contains("NaN") && !text.contains("inf"), "{name}");
    }
    let page = read(folder, "pictures.html").to_lowercase();
    assert!(
        !page.contains("nan")
            && !page.split(|c: char| !c.is_alphabetic()).any(|word| word == "safe")
    );
}

/// Given each kind of panel, `panel --out` draws what it has: a bought one and a hollow one carry no
/// tubes to draw on a sheet, a bought one has no section.
#[test]
fn a_panel_is_drawn_as_far_as_it_is_known() {
    for (build, want) in [
        ("first-panel.toml", &["box-section.svg", "efficiency.svg", "plate.svg", "pump.svg"][..]),
        ("southern-harp.toml", &["box-section.svg", "efficiency.svg", "plate.svg", "pump.svg"]),
        ("radiator-pair.toml", &["box-section.svg", "efficiency.svg", "pump.svg"]),
        ("bought-selective.toml", &["efficiency.svg", "pump.svg"]),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let run = run(&["panel", build, "--out", folder.path().to_str().unwrap()]);
        assert_eq!(run.status, 0, "{build}: {}", run.talk);
        let mut want: Vec<&str> = want.to_vec();
        want.push("pictures.html");
        want.sort_unstable();
        assert_eq!(written(folder.path()), want, "{build}");
        is_sound(folder.path());
    }
}

/// Given a year drawn beside its document: the page's table has the document's spared heat, heater's
/// work and months, to the whole kilowatt-hour; and asked in US units, the days' temperatures are in
/// Fahrenheit.
#[test]
fn a_year_is_drawn_from_the_figures_it_tells() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().to_str().unwrap().to_owned();
    let run = run(&["year", "pair-better-back.toml", "--json", "--out", &out, "--no-band"]);
    assert_eq!(run.status, 0, "{}", run.talk);
    let mut names = written(folder.path());
    names.retain(|name| !name.ends_with(".csv"));
    let mut want = PICTURES.map(str::to_owned);
    want.sort();
    assert_eq!(names, want);
    is_sound(folder.path());
    let document: serde_json::Value = serde_json::from_str(&run.out).expect("a document");
    let page = read(folder.path(), "pictures.html");
    let row = |head: &str| -> Vec<f64> {
        let start = page.find(&format!("<th scope=\"row\">{head}</th>")).expect("a row");
        let rest = &page[start..];
        let line = &rest[..rest.find("</tr>").expect("its end")];
        let cells = line.split("<td>").skip(1);
        cells
            .map(|cell| {
                cell.trim_end_matches("</td>").replace('\u{a0}', "").replace('\u{2212}', "-")
            })
            .filter_map(|cell| cell.parse().ok())
            .collect()
    };
    let told = |key: &str| document["year"][key].as_f64().expect("a figure");
    // The year stands first in the section's table, last in the months'.
    let spared = row("spared to the heater");
    assert_eq!(spared[0], told("spared_heat_kwh").round());
    let months = row("spared, kWh");
    assert_eq!(months[12], told("spared_heat_kwh").round());
    for month in 0..12 {
        let told = document["months"][month]["spared_heat_kwh"].as_f64().expect("a figure");
        assert_eq!((spared[month + 1], months[month]), (told.round(), told.round()));
    }
    assert_eq!(row("without a panel, kWh")[12], told("twin_topup_heat_kwh").round());
    assert_eq!(row("still bought")[0], told("topup_heat_kwh").round());
    assert!(page.contains("\u{b0}C") && !page.contains("\u{b0}F"));
}

/// Given US units, no Celsius is left on any picture of a panel or a year.
#[test]
fn us_units_hold_on_every_picture() {
    let folder = tempfile::tempdir().unwrap();
    for command in ["panel", "year"] {
        let out = folder.path().join(command);
        let out_text = out.to_str().unwrap();
        let run = run(&[command, "first-panel.toml", "--units", "us", "--out", out_text]);
        assert_eq!(run.status, 0, "{}", run.talk);
        let page = read(&out, "pictures.html");
        assert!(!page.contains("\u{b0}C") && page.contains("\u{b0}F"), "{command}");
        assert!(
            !page.contains("\u{a0}mm") && !page.replace("gal/min", "").contains("l/min"),
            "{command}"
        );
    }
}

/// Given the same build twice, every picture is the same to the last byte.
#[test]
fn the_same_build_gives_the_same_pictures() {
    let folder = tempfile::tempdir().unwrap();
    let page = |name: &str| {
        let out = folder.path().join(name);
        let run = run(&["panel", "first-panel.toml", "--out", out.to_str().unwrap()]);
        assert_eq!(run.status, 0, "{}", run.talk);
        read(&out, "pictures.html")
    };
    assert_eq!(page("one"), page("other"));
}

/// Given a folder that cannot be made (a file stands there): status 3, and its name.
#[test]
fn a_folder_that_cannot_be_made_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("taken");
    std::fs::write(&file, "").unwrap();
    let run = run(&["panel", "first-panel.toml", "--out", file.to_str().unwrap()]);
    assert_eq!(run.status, 3);
    assert!(run.talk.contains("taken"), "{}", run.talk);
}
