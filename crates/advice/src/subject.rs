//! A design that is changed and computed again and again.

use design::{Design, Edit, EditValue, Weather, Written, read_design};
use physics::panel::Passage;
use physics::{Build, Climate};
use year::{Forcing, Plant, Recorder, Upset, YearResult, march, run_plant};

use crate::AdviceError;

/// A design file's text with its weather, from which changed builds are made.
#[derive(Clone, Debug)]
pub struct Subject {
    written: Written,
    /// The design as it stands.
    pub design: Design,
    /// Its weather as it stands.
    pub climate: Climate,
    /// Its build as it stands.
    pub build: Build,
    /// Even bond over the written one, where stretches were evened.
    evened_share: Option<f64>,
}

/// One computed year.
pub struct OneYear {
    /// The build it was computed for.
    pub build: Build,
    /// What was imposed on it.
    pub forcing: Forcing,
    /// The build compiled.
    pub plant: Plant,
    /// What it came to.
    pub result: YearResult,
}

impl OneYear {
    /// Heat spared \[kWh\].
    pub fn spared_kwh(&self) -> f64 {
        self.result.spared_heat_j() / year::ledger::KWH_J
    }
}

impl Subject {
    /// A design as it was read, at its climate.
    ///
    /// `even_bond_w_m_k`: the bond that stands for stretches \[W/(m K)\]; `None` where there are none.
    pub fn new(
        written: Written,
        design: Design,
        climate: Climate,
        even_bond_w_m_k: Option<f64>,
    ) -> Subject {
        let build = design.at(&climate, &written.file).build;
        let bond_w_m_k = build
            .panel
            .panels
            .first()
            .and_then(|panel| panel.built())
            .and_then(|built| built.tubes().map(|tubes| tubes.bond_w_m_k));
        let evened_share = even_bond_w_m_k.zip(bond_w_m_k).map(|(even, bond)| even / bond);
        let mut subject = Subject { written, design, climate, build, evened_share };
        subject.build = subject.evened(subject.build.clone());
        subject
    }

    /// The build with some values of the design changed.
    ///
    /// # Errors
    /// A place that cannot be reached; a design that the reader refuses.
    pub fn changed(&self, edits: &[Edit]) -> Result<Build, AdviceError> {
        let written = self.written.edited(edits)?;
        let design = read_again(&written, edits)?;
        Ok(self.evened(design.at(&self.climate, &written.file).build))
    }

    /// The design with some of its values changed, at the same weather; a change of the weather itself is
    /// not taken.
    ///
    /// # Errors
    /// As [`Subject::changed`].
    pub fn edited(&self, edits: &[Edit]) -> Result<Subject, AdviceError> {
        let written = self.written.edited(edits)?;
        let design = read_again(&written, edits)?;
        let build = self.evened(design.at(&self.climate, &written.file).build);
        let (climate, evened_share) = (self.climate.clone(), self.evened_share);
        Ok(Subject { written, design, climate, build, evened_share })
    }

    /// Stretches have one even bond: that of the design as it stands, changed with the written one.
    fn evened(&self, mut build: Build) -> Build {
        let Some(share) = self.evened_share else { return build };
        for panel in &mut build.panel.panels {
            if let Some(built) = panel.built_mut()
                && let Passage::Tubes(tubes) = &mut built.passage
            {
                tubes.bond_w_m_k *= share;
                tubes.stretches.clear();
            }
        }
        build
    }

    /// The monthly means its weather is made from; `None` where it is a file's.
    pub(crate) fn monthly(&self) -> Option<&design::MadeWeather> {
        match &self.design.weather {
            Weather::Made(made) => Some(made),
            Weather::File(_) => None,
        }
    }

    /// The year as it stands.
    ///
    /// # Errors
    /// A year that cannot be computed.
    pub fn year(&self) -> Result<OneYear, AdviceError> {
        self.recorded(&mut Recorder::none())
    }

    /// The same, with chosen channels by the minute.
    ///
    /// # Errors
    /// A year that cannot be computed.
    pub fn recorded(&self, recorder: &mut Recorder) -> Result<OneYear, AdviceError> {
        let plant = Plant::compile(&self.build)?;
        year_of((self.build.clone(), plant), Forcing::of(&self.build, &self.climate)?, recorder)
    }

    /// The year of a changed build in the same weather; `base` is that of the build as it stands.
    ///
    /// # Errors
    /// A year that cannot be computed.
    pub fn year_beside(&self, base: &OneYear, build: Build) -> Result<OneYear, AdviceError> {
        self.recorded_beside(base, build, &mut Recorder::none())
    }

    /// The same, with the build's chosen channels by the minute.
    ///
    /// # Errors
    /// A year that cannot be computed.
    pub fn recorded_beside(
        &self,
        base: &OneYear,
        build: Build,
        recorder: &mut Recorder,
    ) -> Result<OneYear, AdviceError> {
        let forcing = base.forcing.again(&base.build, &build, &self.climate)?;
        let plant = base.plant.again(&base.build, &build)?;
        if !has_the_same_twin(&build, &forcing, base) {
            return year_of((build, plant), forcing, recorder);
        }
        let (ledger, events) = march(&plant, &forcing, &Upset::none(), recorder)?;
        let result = YearResult { build: ledger, twin: base.result.twin.clone(), events };
        Ok(OneYear { build, forcing, plant, result })
    }

    /// The year of the build as it stands in other weather.
    ///
    /// # Errors
    /// A year that cannot be computed.
    pub fn year_in(&self, build: &Build, climate: &Climate) -> Result<OneYear, AdviceError> {
        let plant = Plant::compile(build)?;
        year_of((build.clone(), plant), Forcing::of(build, climate)?, &mut Recorder::none())
    }
}

/// A changed text read as a design.
fn read_again(written: &Written, edits: &[Edit]) -> Result<Design, AdviceError> {
    let reading = read_design(&written.file, written.text.as_bytes());
    reading.design.ok_or_else(|| {
        let fault = reading.problems.iter().find(|problem| problem.is_fault());
        let says = fault.map_or_else(String::new, |problem| problem.says.clone());
        AdviceError::NoBuild { change: words(edits), says }
    })
}

/// True where the house without a panel is the same: cistern, loft, water and draws are.
fn has_the_same_twin(build: &Build, forcing: &Forcing, base: &OneYear) -> bool {
    build.store == base.build.store
        && build.tap == base.build.tap
        && forcing.hours.iter().zip(&base.forcing.hours).all(|(now, was)| {
            (now.loft_k, now.mains_k, now.dew_point_k) == (was.loft_k, was.mains_k, was.dew_point_k)
        })
}

fn year_of(
    (build, plant): (Build, Plant),
    forcing: Forcing,
    recorder: &mut Recorder,
) -> Result<OneYear, AdviceError> {
    let result = run_plant(&plant, &build, &forcing, &Upset::none(), recorder)?;
    Ok(OneYear { build, forcing, plant, result })
}

/// Edits in words: `panel.gap 30 mm`.
fn words(edits: &[Edit]) -> String {
    let all: Vec<String> = edits
        .iter()
        .map(|edit| match &edit.value {
            EditValue::Text(text) => format!("{} {text}", edit.place),
            EditValue::Number(number) => format!("{} {number}", edit.place),
            EditValue::Whole(whole) => format!("{} {whole}", edit.place),
            EditValue::Remove => format!("no {}", edit.place),
        })
        .collect();
    all.join(" and ")
}
