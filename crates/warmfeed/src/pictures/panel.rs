//! Pictures of a panel.

use anyhow::{Result, anyhow};
use design::HotPart;
use design::quantity::{Kind, Units, show};
use physics::circuit::friction::FrictionMethod;
use physics::circuit::network::Medium;
use physics::circuit::pipe::head_m;
use physics::circuit::pump::{head_m as pump_head_m, round_path, working_point_of};
use physics::matter::fluid::properties_held;
use physics::panel::curve::HeatCurve;
use physics::panel::glazing::Glazing;
use physics::panel::optics::{kept_by_covers, optics};
use physics::panel::stagnation::{LightKept, PartTemperatures, Spot, part_temperatures};
use physics::panel::standard_test::{STANDARD_WIND_M_S, Stand, Steady, standard_stand, steady};
use physics::panel::{Built, Panel, TubePattern, Tubes};
use physics::sun::wind_film_w_m2_k;
use physics::{Angle, Build, ZERO_CELSIUS_K};
use plate::{Inflow, Question, picture};
use sheets::hatch::Material;
use sheets::page::Picture;
use sheets::pictures::box_section::{self, Place, Worry};
use sheets::pictures::{efficiency, plate as plate_picture, pump};

use super::both;
use super::materials::material;
use crate::commands::Loaded;
use crate::wire::{KindWire, PanelWire, PartWire};

/// Size of a cell of the plate picture \[m\]: it shows every seam.
const CELL_M: f64 = 0.005;
/// Mean fluid above the air at which the panel is shown in use \[K\], as in its table.
const SHOWN_RISE_K: f64 = 20.0;
/// Fluid of the pump's two rounds \[C\]: as the panel's flow is stated, and on a cold morning.
const ROUNDS_C: [f64; 2] = [40.0, 5.0];

/// All pictures of a build's first panel, in the order of the heat.
///
/// # Errors
/// Where the panel or its circuit cannot be reckoned.
pub fn panel_pictures(loaded: &Loaded, wire: &PanelWire, units: Units) -> Result<Vec<Picture>> {
    let build = &loaded.build;
    let panel = build.panel.panels.first().ok_or_else(|| anyhow!("the build has no panel"))?;
    let film = wind_film_w_m2_k(build.sun.wind_film, STANDARD_WIND_M_S)?;
    let stand = Stand { tilt: build.sun.plane.tilt, ..standard_stand(film) };
    let shown = Shown { loaded, wire, units, stand };
    let mut pictures = Vec::new();
    if let Panel::Built(built) = panel {
        pictures.push(shown.section(built)?);
    }
    // As drawn, its missed seams where they are.
    if let Some(drawn @ Panel::Built(built)) = loaded.drawn.panel.panels.first() {
        pictures.extend(shown.plate(drawn, built)?);
    }
    pictures.push(shown.efficiency());
    pictures.extend(shown.pump(build)?);
    Ok(pictures)
}

/// What the pictures are drawn from.
struct Shown<'a> {
    loaded: &'a Loaded,
    wire: &'a PanelWire,
    units: Units,
    stand: Stand,
}

impl Shown<'_> {
    fn efficiency(&self) -> Picture {
        let told = &self.wire.efficiency;
        let curve =
            HeatCurve { eta0: told.eta0, a1_w_m2_k: told.a1_w_m2_k, a2_w_m2_k2: told.a2_w_m2_k2 };
        let sun_w_m2 = self.stand.sun_w_m2;
        let furthest_k = curve.idle_rise_k(sun_w_m2).unwrap_or(80.0).min(120.0);
        let rises_k = (0..=24).map(|step| furthest_k * f64::from(step) / 24.0);
        let facts = efficiency::Facts {
            title: &self.wire.title,
            curve: rises_k
                .map(|rise_k| (rise_k, curve.power_w_m2(sun_w_m2, rise_k) / sun_w_m2))
                .collect(),
            points: self
                .wire
                .points
                .iter()
                .map(|point| (point.reduced_temperature_m2k_w * sun_w_m2, point.efficiency))
                .collect(),
            sun_w_m2,
            area: format!(
                "the {} area, {}",
                told.area_kind,
                sheets::words::area(told.area_m2, self.units)
            ),
            conditions: &told.conditions,
            units: self.units,
        };
        both(|width| efficiency::draw(&facts, width))
    }

    /// `None` where the fluid's own weight moves it.
    fn pump(&self, build: &Build) -> Result<Option<Picture>> {
        let circuit = &build.circuit;
        let Some(driven_by) = &circuit.pump else { return Ok(None) };
        let path = round_path(circuit, &build.panel, &build.store.coil)?;
        let middle = properties_held(circuit.fluid, ROUNDS_C[0] + ZERO_CELSIUS_K)?;
        let warm = working_point_of(circuit, &build.panel, &build.store.coil, &middle)?;
        // What matters is where they cross: the pump's far end is left out.
        let last_m3_s = driven_by.curve.last().map_or(0.0, |point| point.flow_m3_s);
        let furthest_m3_s = last_m3_s.min(2.4 * warm.flow_kg_s / middle.density_kg_m3);
        let steps = (0..=24).map(|step| furthest_m3_s * f64::from(step) / 24.0);
        const L_MIN: f64 = 60_000.0;
        let round = |fluid_c: f64| -> Result<pump::Round> {
            let fluid = properties_held(circuit.fluid, fluid_c + ZERO_CELSIUS_K)?;
            let medium = Medium { fluid, method: FrictionMethod::Churchill1977 };
            let point = working_point_of(circuit, &build.panel, &build.store.coil, &fluid)?;
            let curve = steps
                .clone()
                .map(|flow_m3_s| {
                    let drop_pa = path.drop_pa(flow_m3_s * fluid.density_kg_m3, &medium)?;
                    Ok((flow_m3_s * L_MIN, head_m(fluid.density_kg_m3, drop_pa)))
                })
                .collect::<Result<Vec<_>>>()?;
            let flow_l_min = point.flow_kg_s / fluid.density_kg_m3 * L_MIN;
            Ok(pump::Round { fluid_c, curve, point: (flow_l_min, point.head_m) })
        };
        let facts = pump::Facts {
            title: &self.wire.title,
            pump: steps
                .clone()
                .map(|flow_m3_s| Ok((flow_m3_s * L_MIN, pump_head_m(driven_by, flow_m3_s)?)))
                .collect::<Result<Vec<_>>>()?,
            warm: round(ROUNDS_C[0])?,
            cold: round(ROUNDS_C[1])?,
            units: self.units,
        };
        Ok(Some(both(|width| pump::draw(&facts, width))))
    }

    /// The panel on the stand, its mean fluid so far above the air.
    fn in_use(&self, panel: &Panel) -> Result<(Steady, f64)> {
        let flow_kg_s = self.wire.efficiency.flow_kg_s;
        let fluid = properties_held(self.loaded.build.circuit.fluid, ROUNDS_C[0] + ZERO_CELSIUS_K)?;
        let mean_k = self.stand.around.ambient_k + SHOWN_RISE_K;
        let guess = steady(panel, &self.stand, flow_kg_s, &fluid, mean_k)?;
        let inlet_k = mean_k - 0.5 * (guess.outlet_k - guess.inlet_k);
        Ok((steady(panel, &self.stand, flow_kg_s, &fluid, inlet_k)?, flow_kg_s))
    }

    /// `None` where the sheet carries no tubes.
    fn plate(&self, panel: &Panel, built: &Built) -> Result<Option<Picture>> {
        let (steady, flow_kg_s) = self.in_use(panel)?;
        let inflow =
            Inflow { fluid: self.loaded.build.circuit.fluid, inlet_k: steady.inlet_k, flow_kg_s };
        let Some(question) = Question::of_panel(built, &self.stand, inflow, CELL_M)? else {
            return Ok(None);
        };
        let drawn = picture(&question)?;
        let celsius = |kelvin: f64| kelvin - ZERO_CELSIUS_K;
        let ends = |place: &physics::panel::route::Place| (place.across_m, place.up_m);
        let facts = plate_picture::Facts {
            title: &self.wire.title,
            width_m: built.sheet.width_m,
            length_m: built.sheet.length_m,
            columns: drawn.grid.columns,
            sheet_c: drawn.sheet_k.iter().map(|&k| celsius(k)).collect(),
            tubes: question
                .route
                .pipes
                .iter()
                .map(|pipe| pipe.legs.iter().map(|leg| [ends(&leg.from), ends(&leg.to)]).collect())
                .collect(),
            hottest_m: ends(&drawn.hottest.place),
            coldest_m: ends(&drawn.coldest.place),
            inlet_c: celsius(question.inlet_k),
            outlet_c: celsius(drawn.outlet_k),
            conditions: format!(
                "Mean fluid {} above the air; {}",
                show(Kind::Difference, SHOWN_RISE_K, self.units),
                self.wire.efficiency.conditions
            ),
            units: self.units,
        };
        Ok(Some(Picture { wide: plate_picture::draw(&facts), narrow: None }))
    }

    fn section(&self, built: &Built) -> Result<Picture> {
        let (steady, _) = self.in_use(&Panel::Built(Box::new(built.clone())))?;
        let glazing = Glazing::of(&built.covers, built.sheet.emittance, self.stand.tilt)?;
        let kept = kept_by_covers(&built.covers, Angle::ZERO);
        let light = LightKept {
            sheet_w_m2: self.stand.sun_w_m2
                * optics(&Panel::Built(Box::new(built.clone())), self.stand.tilt).beam(1.0),
            covers_w_m2: kept.iter().map(|share| share * self.stand.sun_w_m2).collect(),
        };
        let in_use =
            part_temperatures(built, &glazing, &self.stand.around, &light, steady.plate_mean_k)?;
        let parts = self.wire.stagnation.parts.iter().filter_map(|part| {
            let known = self
                .loaded
                .design
                .hot_parts
                .iter()
                .find(|known| known.part == part.part && known.place == part.place)?;
            Some(self.part(part, known, &in_use))
        });
        let layer = |thickness_m: f64, place: &str| {
            let id = self.material_at(place);
            box_section::Layer {
                thickness_m,
                material: material(id),
                name: id.unwrap_or("layer").replace('-', " "),
            }
        };
        let covers = built.covers.len();
        let facts = box_section::Facts {
            title: &self.wire.title,
            covers: built
                .covers
                .iter()
                .enumerate()
                .map(|(place, cover)| box_section::Cover {
                    thickness_m: cover.thickness_m,
                    gap_m: cover.gap_m,
                    material: if place + 1 == covers {
                        Material::Glass
                    } else {
                        material(self.material_at("panel.inner-cover.material"))
                    },
                })
                .collect(),
            sheet_width_m: built.sheet.width_m,
            tubes: built.tubes().and_then(tubes_cut),
            back: built
                .back
                .iter()
                .enumerate()
                .map(|(place, one)| {
                    layer(one.thickness_m, &format!("panel.back[{place}].material"))
                })
                .collect(),
            edge: layer(built.edge.layer.thickness_m, "panel.edge.material"),
            rim_gap_m: built.walls.map_or(0.0, |walls| walls.rim_gap_m),
            parts: parts.collect(),
            conditions: format!(
                "In use: {}, mean fluid {} above the air. Idle: the hotter of standard sun ({}, air of {}) \
                 and the place's worst ({}). Stands: what the material bears year after year.",
                show(Kind::Irradiance, self.stand.sun_w_m2, self.units),
                show(Kind::Difference, SHOWN_RISE_K, self.units),
                show(Kind::Irradiance, 1000.0, self.units),
                show(Kind::Temperature, 30.0 + ZERO_CELSIUS_K, self.units),
                self.wire.stagnation.extreme_conditions
            ),
            units: self.units,
        };
        Ok(both(|width| box_section::draw(&facts, width)))
    }

    /// Name of the material a place of the design file speaks of; `None` where it has no limit known.
    fn material_at(&self, place: &str) -> Option<&'static str> {
        let parts = &self.loaded.design.hot_parts;
        parts.iter().find(|part| part.place == place).map(|part| part.material)
    }

    fn part(
        &self,
        part: &PartWire,
        known: &HotPart,
        in_use: &PartTemperatures,
    ) -> box_section::Part {
        let in_use_k = match known.spot {
            Spot::Pipe => None,
            spot => in_use.at(spot, 0.0, self.stand.around.ambient_k),
        };
        box_section::Part {
            name: part.part.clone(),
            material: part.material.replace('-', " "),
            place: match known.spot {
                Spot::Sheet => Place::Sheet,
                Spot::CoverInside(cover) => Place::CoverInside(cover),
                Spot::CoverOutside(cover) => Place::CoverOutside(cover),
                Spot::Back(layer) => Place::Back(layer),
                Spot::Rim => Place::Rim,
                Spot::Pipe => Place::Pipe,
            },
            in_use_c: in_use_k.map(|kelvin| kelvin - ZERO_CELSIUS_K),
            idle_c: part.standard_c.max(part.extreme_c),
            years_c: part.limit_c,
            hours_c: part.short_limit_c,
            worry: match part.kind {
                KindWire::Stop => Worry::Stop,
                KindWire::Mind => Worry::Mind,
                KindWire::Quiet => Worry::Quiet,
            },
        }
    }
}

/// Tubes as the section cuts them; a tube laid at will crosses it anyhow, and is left to the plate
/// picture.
fn tubes_cut(tubes: &Tubes) -> Option<box_section::Tubes> {
    let count = match tubes.pattern {
        TubePattern::Serpentine { legs, .. } => legs,
        TubePattern::Harp { risers, .. } => risers,
        TubePattern::Route { .. } => return None,
    };
    Some(box_section::Tubes {
        outside_m: tubes.tube.outside_m,
        spacing_m: tubes.spacing_m,
        count: count as usize,
    })
}
