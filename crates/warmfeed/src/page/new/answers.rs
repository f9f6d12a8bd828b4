//! What a builder answers about the house, the people and the material, read off the form.

use std::collections::BTreeMap;

use design::catalogue::{climates, materials, tubes};
use design::parameters::parameter_at;
use design::quantity::{Kind, QuantityFault, Units, parse};
use design::value::{Fault, from_words};
use design::values::Value;

/// Everything answered; `None` for what was not.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answers {
    /// What the cistern feeds.
    pub cistern: Cistern,
    /// What heats the water after it.
    pub heater: Option<Downstream>,
    /// What shall move the fluid.
    pub drive: Drive,
    /// Where things stand.
    pub heights: Heights,
    /// How many people use the water.
    pub people: Option<u32>,
    /// Who of them is harmed sooner.
    pub tender: Tender,
    /// What is at hand.
    pub stock: Stock,
    /// A place of the catalogue.
    pub place: Option<String>,
    /// Slope of the panel, as written.
    pub tilt: Option<String>,
    /// Where it looks to, as written.
    pub facing: Option<String>,
}

/// What the cistern feeds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Cistern {
    /// Nobody looked yet.
    #[default]
    NotSaid,
    /// The hot-water cylinder alone.
    OnlyCylinder,
    /// Other things too.
    Also(Feeds),
}

/// What a cistern feeds beside the cylinder.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Feeds {
    /// Cold taps.
    pub cold_taps: bool,
    /// A shower or mixer.
    pub shower: bool,
    /// A WC or the garden.
    pub wc_or_garden: bool,
}

/// What heats the water after the store.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Downstream {
    /// A cylinder whose whole water is kept at 60 C or more.
    HotCylinder,
    /// A cylinder kept cooler, or heated at its top only.
    CoolCylinder,
    /// A combination boiler that takes warm water.
    CombiWarm,
    /// One that takes cold water only.
    CombiCold,
    /// An instantaneous electric heater or an electric shower.
    Instantaneous,
}

/// What shall move the fluid.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Drive {
    /// A pump.
    #[default]
    Pump,
    /// Its own weight.
    Gravity,
}

/// Who is harmed sooner by hot water and by bacteria.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tender {
    /// Nobody, as far as was said.
    #[default]
    Nobody,
    /// Infants, old or ill people.
    Some,
}

/// Heights over one level that the builder chose \[m\].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Heights {
    /// The panel's lower edge.
    pub panel_bottom_m: Option<f64>,
    /// Its upper edge.
    pub panel_top_m: Option<f64>,
    /// The store's base.
    pub store_base_m: Option<f64>,
    /// Water in the circuit's header tank.
    pub header_m: Option<f64>,
    /// The highest hot tap.
    pub tap_m: Option<f64>,
}

/// Material at hand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// The sheet, longer side first.
    pub sheet: Option<Piece>,
    /// The tube's size, as the design file writes it.
    pub tube_size: Option<String>,
    /// Its length \[m\].
    pub tube_m: Option<f64>,
    /// What the cover is made of, by the catalogue's name.
    pub cover: Option<String>,
    /// Its size, longer side first.
    pub pane: Option<Piece>,
    /// The cistern \[m3\].
    pub cistern_m3: Option<f64>,
}

/// A piece of sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Its longer side.
    pub long_m: f64,
    /// Its shorter one.
    pub short_m: f64,
}

/// Something typed that cannot be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Mistake {
    /// The field.
    pub field: &'static str,
    /// What is wrong and how to mend it, in sentences.
    pub says: String,
}

/// Reads the form.
pub fn read(typed: &BTreeMap<String, String>, units: Units) -> (Answers, Vec<Mistake>) {
    let mut form = Form { typed, units, mistakes: Vec::new() };
    let side = |form: &mut Form, field, place| form.length(field, place, Bare::Small);
    let sheet = [
        side(&mut form, "sheet-length", "panel.sheet.length"),
        side(&mut form, "sheet-width", "panel.sheet.width"),
    ];
    let pane = [
        side(&mut form, "pane-length", "panel.sheet.length"),
        side(&mut form, "pane-width", "panel.sheet.width"),
    ];
    let height =
        |form: &mut Form, field| form.length(field, "circuit.heights.panel-bottom", Bare::Large);
    let heights = Heights {
        panel_bottom_m: height(&mut form, "panel-bottom"),
        panel_top_m: height(&mut form, "panel-top"),
        store_base_m: height(&mut form, "store-base"),
        header_m: height(&mut form, "header-tank"),
        tap_m: height(&mut form, "hot-tap"),
    };
    if let (Some(bottom), Some(top)) = (heights.panel_bottom_m, heights.panel_top_m)
        && top <= bottom
    {
        form.mistake("panel-top", "The panel’s upper edge must lie over its lower one.".to_owned());
    }
    let answers = Answers {
        cistern: form.cistern(),
        heater: form.heater(),
        drive: if form.word("drive") == "gravity" { Drive::Gravity } else { Drive::Pump },
        heights,
        people: form.people(),
        tender: if form.is_ticked("tender") { Tender::Some } else { Tender::Nobody },
        stock: Stock {
            sheet: form.piece(sheet, "sheet-width"),
            tube_size: form.tube_size(),
            tube_m: form.length("tube-length", "store.coil.length", Bare::Large),
            cover: form.cover(),
            pane: form.piece(pane, "pane-width"),
            cistern_m3: form.quantity("cistern", "store.volume", Bare::Volume),
        },
        place: form.place(),
        tilt: form.written("tilt", "sun.tilt", Some("deg")),
        facing: form.written("facing", "sun.facing", Some("deg")),
    };
    (answers, form.mistakes)
}

/// In which unit a bare figure counts.
#[derive(Clone, Copy)]
enum Bare {
    Small,
    Large,
    Volume,
}

/// The unit in which a bare figure counts.
fn bare_units(units: Units) -> [&'static str; 3] {
    match units {
        Units::Metric => ["mm", "m", "l"],
        Units::Us => ["in", "ft", "US gal"],
    }
}

struct Form<'a> {
    typed: &'a BTreeMap<String, String>,
    units: Units,
    mistakes: Vec<Mistake>,
}

impl Form<'_> {
    fn word(&self, field: &str) -> &str {
        self.typed.get(field).map_or("", |typed| typed.trim())
    }

    fn is_ticked(&self, field: &str) -> bool {
        !self.word(field).is_empty()
    }

    fn mistake(&mut self, field: &'static str, says: String) {
        self.mistakes.push(Mistake { field, says });
    }

    fn fault(&mut self, field: &'static str, fault: &Fault) {
        let says = format!(
            "{}. Expected: {}. Hint: {}.",
            design::value::capital(&fault.says),
            fault.expected,
            fault.hint
        );
        self.mistake(field, says);
    }

    /// Words as the design file would hold them: a bare figure gets its unit.
    fn with_unit(&self, field: &str, unit: &str) -> Option<String> {
        let word = self.word(field);
        if word.is_empty() {
            return None;
        }
        let is_bare = parse(word, Kind::Length) == Err(QuantityFault::NoUnit);
        Some(if is_bare { format!("{word} {unit}") } else { word.to_owned() })
    }

    /// A value as written, if the parameter at that place takes it.
    fn written(
        &mut self,
        field: &'static str,
        place: &str,
        bare_unit: Option<&str>,
    ) -> Option<String> {
        let text = self.with_unit(field, bare_unit.unwrap_or_default())?;
        let parameter = parameter_at(place)?;
        match from_words(parameter, &text) {
            Ok(_) => Some(text),
            Err(fault) => {
                self.fault(field, &fault);
                None
            }
        }
    }

    fn quantity(&mut self, field: &'static str, place: &str, bare: Bare) -> Option<f64> {
        let [small, large, volume] = bare_units(self.units);
        let unit = match bare {
            Bare::Small => small,
            Bare::Large => large,
            Bare::Volume => volume,
        };
        let text = self.with_unit(field, unit)?;
        match from_words(parameter_at(place)?, &text).map(|read| read.value) {
            Ok(Value::Si(si)) => Some(si),
            Ok(_) => None,
            Err(fault) => {
                self.fault(field, &fault);
                None
            }
        }
    }

    fn length(&mut self, field: &'static str, place: &str, bare: Bare) -> Option<f64> {
        self.quantity(field, place, bare)
    }

    /// Two sides make a piece; one alone does not.
    fn piece(&mut self, sides: [Option<f64>; 2], field: &'static str) -> Option<Piece> {
        match sides {
            [Some(one), Some(other)] => {
                Some(Piece { long_m: one.max(other), short_m: one.min(other) })
            }
            [Some(_), None] | [None, Some(_)] => {
                if !self.mistakes.iter().any(|mistake| mistake.field.starts_with(&field[..4])) {
                    self.mistake(field, "Both sides of the piece are wanted.".to_owned());
                }
                None
            }
            [None, None] => None,
        }
    }

    fn cistern(&self) -> Cistern {
        let feeds = Feeds {
            cold_taps: self.is_ticked("feeds-cold-taps"),
            shower: self.is_ticked("feeds-shower"),
            wc_or_garden: self.is_ticked("feeds-wc"),
        };
        // Of two answers that gainsay each other the stricter counts.
        if feeds != Feeds::default() {
            Cistern::Also(feeds)
        } else if self.is_ticked("feeds-only") {
            Cistern::OnlyCylinder
        } else {
            Cistern::NotSaid
        }
    }

    fn heater(&self) -> Option<Downstream> {
        Some(match self.word("heater") {
            "hot-cylinder" => Downstream::HotCylinder,
            "cool-cylinder" => Downstream::CoolCylinder,
            "combi-warm" => Downstream::CombiWarm,
            "combi-cold" => Downstream::CombiCold,
            "instantaneous" => Downstream::Instantaneous,
            _ => return None,
        })
    }

    fn people(&mut self) -> Option<u32> {
        let word = self.word("people").to_owned();
        if word.is_empty() {
            return None;
        }
        match word.parse::<u32>() {
            Ok(people) if (1..=30).contains(&people) => Some(people),
            _ => {
                self.mistake("people", "A whole number from 1 to 30 belongs here.".to_owned());
                None
            }
        }
    }

    fn tube_size(&self) -> Option<String> {
        let word = self.word("tube-size");
        let known = tubes::sizes().iter().any(|size| tube_word(size) == word);
        known.then(|| word.to_owned())
    }

    fn cover(&self) -> Option<String> {
        let word = self.word("cover");
        let known = materials::names(materials::Group::Glazing).contains(&word);
        known.then(|| word.to_owned())
    }

    fn place(&self) -> Option<String> {
        let word = self.word("place");
        climates::spots().any(|spot| spot.key == word).then(|| word.to_owned())
    }
}

/// A tube's size as the design file writes it.
pub fn tube_word(size: &tubes::TubeSize) -> String {
    format!("{} x {}", size.outside_mm, size.wall_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(fields: &[(&str, &str)]) -> BTreeMap<String, String> {
        fields.iter().map(|&(field, word)| (field.to_owned(), word.to_owned())).collect()
    }

    /// Given bare figures, they count in the unit that stands at the field; given units, in those
    /// (a foot is 0.3048 m and a US gallon 3.785411784 l by definition).
    #[test]
    fn bare_figures_count_in_the_unit_of_their_field() {
        let fields = typed(&[
            ("panel-bottom", "6.2"),
            ("store-base", "18 ft"),
            ("sheet-length", "1200"),
            ("sheet-width", "60 cm"),
            ("cistern", "115"),
            ("tube-length", "7.5"),
        ]);
        let (answers, mistakes) = read(&fields, Units::Metric);
        assert_eq!(mistakes, []);
        assert_eq!(answers.heights.panel_bottom_m, Some(6.2));
        assert_eq!(answers.heights.store_base_m, Some(18.0 * 0.3048));
        assert_eq!(answers.stock.sheet, Some(Piece { long_m: 1.2, short_m: 0.6 }));
        assert!((answers.stock.cistern_m3.unwrap() - 0.115).abs() < 1e-12);
        let (answers, _) = read(&typed(&[("store-base", "18"), ("cistern", "30")]), Units::Us);
        assert_eq!(answers.heights.store_base_m, Some(18.0 * 0.3048));
        assert!((answers.stock.cistern_m3.unwrap() - 30.0 * 3.785_411_784e-3).abs() < 1e-12);
    }

    /// Given words that are no value, a sentence for their own field, and nothing read.
    #[test]
    fn what_cannot_be_read_is_told_at_its_field() {
        let fields = typed(&[
            ("panel-bottom", "3 l"),
            ("people", "two"),
            ("sheet-length", "1.2 m"),
            ("tilt", "95"),
        ]);
        let (answers, mistakes) = read(&fields, Units::Metric);
        let fields: Vec<&str> = mistakes.iter().map(|mistake| mistake.field).collect();
        assert_eq!(fields, ["panel-bottom", "people", "sheet-width", "tilt"]);
        assert_eq!((answers.heights.panel_bottom_m, answers.people), (None, None));
    }

    /// Given that the cistern feeds the cylinder alone and cold taps too, the stricter of the two.
    #[test]
    fn of_two_answers_the_stricter_counts() {
        let (answers, _) =
            read(&typed(&[("feeds-only", "yes"), ("feeds-cold-taps", "yes")]), Units::Metric);
        assert!(matches!(answers.cistern, Cistern::Also(feeds) if feeds.cold_taps));
        assert_eq!(read(&typed(&[]), Units::Metric).0.cistern, Cistern::NotSaid);
    }
}
