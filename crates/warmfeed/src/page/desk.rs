//! One open build: its text and history, its last good year, and what is being found out about it.
//!
//! The file is the truth. Each change is written at once; where another program changed the file in the
//! meantime nothing is written, and the person is asked.

use std::path::{Component, Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use anyhow::{Context, Result, bail};
use design::parameters::{Form, parameter_at};
use design::problem::{Problem, Severity, Span};
use design::{Edit, EditValue, Written, read_design};

use super::history::History;
use super::late;
use super::news::News;
use super::reckoned::Reckoned;
use crate::commands::{Disk, Said, Source, load};
use crate::{files, page::clock};

/// One open build.
pub struct Desk {
    /// Its name in the book.
    pub name: String,
    /// Its design file.
    pub path: PathBuf,
    news: News,
    state: Mutex<State>,
    /// Counts the texts that were computed: background work for an earlier one stops.
    turn: AtomicU64,
}

/// What the page is drawn from.
#[derive(Clone, Default)]
pub struct State {
    /// The text as this program last read or wrote it.
    pub text: String,
    /// What may be undone and redone.
    pub history: History,
    /// The last year that could be computed.
    pub shown: Option<Arc<Reckoned>>,
    /// The year before the changes on the slip.
    pub former: Option<Arc<Reckoned>>,
    /// The text before them.
    former_text: String,
    /// The changes since, the same value once.
    pub changes: Vec<Change>,
    /// Problems of the text as it stands.
    pub problems: Vec<Problem>,
    /// What could not be computed, where no problem says it.
    pub failed: Option<String>,
    /// A typed value that was not taken.
    pub refused: Option<Refused>,
    /// The file as another program left it, while nobody has said which shall stand.
    pub outside: Option<String>,
    /// When the file was last written by this program.
    pub kept_at: Option<String>,
    /// Counts every change of what is shown.
    pub version: u64,
}

/// A changed value.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Its place.
    pub place: String,
    /// How it stood.
    pub from: String,
    /// How it stands.
    pub to: String,
}

/// A typed value that was not taken.
#[derive(Clone, Debug)]
pub struct Refused {
    /// Where.
    pub place: String,
    /// What was typed.
    pub typed: String,
    /// Why not.
    pub problems: Vec<Problem>,
}

impl Desk {
    /// Opens a build and computes its year.
    pub fn open(name: &str, path: &Path, news: News) -> Arc<Desk> {
        let desk = Arc::new(Desk {
            name: name.to_owned(),
            path: path.to_path_buf(),
            news,
            state: Mutex::default(),
            turn: AtomicU64::new(0),
        });
        {
            let mut state = desk.state();
            match desk.read() {
                Ok(text) => {
                    state.text = text;
                    desk.compute(&mut state);
                }
                Err(error) => state.failed = Some(format!("{error:#}")),
            }
        }
        desk
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What there is to show, after a look at the file.
    pub fn look(&self) -> State {
        let mut state = self.state();
        self.look_at_file(&mut state);
        state.clone()
    }

    /// Looks whether another program changed the file, and says so to every window.
    pub fn watch(&self) {
        let mut state = self.state();
        self.look_at_file(&mut state);
    }

    fn look_at_file(&self, state: &mut State) {
        // A file that cannot be read just now is asked again at the next look.
        let Ok(found) = self.read() else { return };
        let outside = (found != state.text).then_some(found);
        if outside != state.outside {
            state.outside = outside;
            self.changed(state);
        }
    }

    fn read(&self) -> Result<String> {
        let bytes = files::read(&self.path)?;
        String::from_utf8(bytes).with_context(|| format!("`{}` is not text", self.path.display()))
    }

    /// Changes one value. Words that are no value there are kept beside it, with the reason.
    ///
    /// # Errors
    /// A place that does not exist; a file that another program changed or that cannot be written.
    pub fn edit(self: &Arc<Desk>, place: &str, typed: &str) -> Result<()> {
        if let Some(problem) = outside_book(place, typed, &self.path) {
            let mut state = self.state();
            state.refused = Some(Refused {
                place: place.to_owned(),
                typed: typed.to_owned(),
                problems: vec![problem],
            });
            self.changed(&mut state);
            return Ok(());
        }
        let edit = Edit { place: place.to_owned(), value: edit_value(place, typed)? };
        self.make(&[edit], Some((place, typed)))
    }

    /// Takes a step that was worked out for the build as it is shown.
    ///
    /// # Errors
    /// A step that is no longer known; and as [`Desk::edit`].
    pub fn take_step(self: &Arc<Desk>, name: &str) -> Result<()> {
        let edits = {
            let state = self.state();
            let shown = state.shown.as_ref().context("no year is computed yet")?;
            let late = shown.late();
            let steps = late.next.as_ref().map(|worth| worth.steps.as_slice()).unwrap_or_default();
            let worth = steps.iter().find(|worth| worth.step.place == name);
            worth.context("the build changed since this step was worked out")?.step.edits.clone()
        };
        self.make(&edits, None)
    }

    /// Makes a remedy that was tried for the build as it is shown: the worry's name, which of several
    /// things of that name, and the remedy's place among its own.
    ///
    /// # Errors
    /// A remedy that is no longer known; and as [`Desk::edit`].
    pub fn take_remedy(self: &Arc<Desk>, code: &str, of: &str, place: &str) -> Result<()> {
        let edits = {
            let state = self.state();
            let shown = state.shown.as_ref().context("no year is computed yet")?;
            let late = shown.late();
            let found = late.worries.as_deref().filter(|_| !late.worries_are_former);
            let finding = found
                .unwrap_or_default()
                .iter()
                .find(|finding| finding.code == code && finding.of == of);
            let place: Option<usize> = place.parse().ok();
            let remedy =
                finding.zip(place).and_then(|(finding, place)| finding.remedies.get(place));
            remedy.context("the build changed since this remedy was worked out")?.edits.clone()
        };
        self.make(&edits, None)
    }

    fn make(self: &Arc<Desk>, edits: &[Edit], typed: Option<(&str, &str)>) -> Result<()> {
        let mut state = self.state();
        self.undisturbed(&mut state)?;
        let name = self.path.display().to_string();
        let written = Written::parse(&name, &state.text)
            .context("the file cannot be read as it stands; mend it first")?;
        let edited = written.edited(edits)?;
        if let Some((place, typed)) = typed {
            let here: Vec<Problem> = read_design(&name, edited.text.as_bytes())
                .problems
                .into_iter()
                .filter(|problem| problem.is_fault() && problem.place == place)
                .collect();
            if !here.is_empty() {
                state.refused = Some(Refused {
                    place: place.to_owned(),
                    typed: typed.to_owned(),
                    problems: here,
                });
                self.changed(&mut state);
                return Ok(());
            }
        }
        let before: Vec<String> = edits.iter().map(|edit| shown_at(&state, &edit.place)).collect();
        self.take(&mut state, edited.text)?;
        for (edit, from) in edits.iter().zip(before) {
            let to = shown_at(&state, &edit.place);
            note(&mut state.changes, Change { place: edit.place.clone(), from, to });
        }
        if state.text == state.former_text {
            state.former = None;
            state.changes.clear();
        }
        self.changed(&mut state);
        Ok(())
    }

    /// Goes back by one change.
    ///
    /// # Errors
    /// A file that another program changed or that cannot be written.
    pub fn undo(self: &Arc<Desk>) -> Result<()> {
        self.turn_back(History::undo, History::redo)
    }

    /// Takes back what was undone last.
    ///
    /// # Errors
    /// As [`Desk::undo`].
    pub fn redo(self: &Arc<Desk>) -> Result<()> {
        self.turn_back(History::redo, History::undo)
    }

    fn turn_back(
        self: &Arc<Desk>,
        go: fn(&mut History, String) -> Option<String>,
        come_back: fn(&mut History, String) -> Option<String>,
    ) -> Result<()> {
        let mut state = self.state();
        self.undisturbed(&mut state)?;
        let now = state.text.clone();
        let Some(text) = go(&mut state.history, now.clone()) else { return Ok(()) };
        if let Err(error) = self.write(&mut state, &text) {
            // As if it had not been asked for.
            come_back(&mut state.history, text);
            return Err(error);
        }
        state.text = text;
        state.refused = None;
        let former = state.shown.clone();
        self.compute(&mut state);
        settle(&mut state, former, now);
        self.changed(&mut state);
        Ok(())
    }

    /// The changes on the slip shall stay.
    pub fn keep(&self) {
        let mut state = self.state();
        state.former = None;
        state.changes.clear();
        self.changed(&mut state);
    }

    /// The changes on the slip shall go.
    ///
    /// # Errors
    /// As [`Desk::undo`].
    pub fn put_back(self: &Arc<Desk>) -> Result<()> {
        let mut state = self.state();
        self.undisturbed(&mut state)?;
        if state.former.is_some() {
            let text = state.former_text.clone();
            self.take(&mut state, text)?;
            state.former = None;
            state.changes.clear();
        }
        state.refused = None;
        self.changed(&mut state);
        Ok(())
    }

    /// A typed value that was not taken is forgotten.
    pub fn forget(&self) {
        let mut state = self.state();
        state.refused = None;
        self.changed(&mut state);
    }

    /// The file as another program left it shall stand; the former text can be had back by undoing.
    pub fn take_outside(self: &Arc<Desk>) {
        let mut state = self.state();
        let Some(text) = state.outside.take() else { return };
        let before = std::mem::replace(&mut state.text, text);
        state.history.leave(before.clone());
        let former = state.shown.clone();
        self.compute(&mut state);
        settle(&mut state, former, before);
        self.changed(&mut state);
    }

    /// This page's text shall stand; the other program's can be had back by redoing.
    ///
    /// # Errors
    /// A file that cannot be written.
    pub fn write_mine(self: &Arc<Desk>) -> Result<()> {
        let mut state = self.state();
        let Some(theirs) = state.outside.take() else { return Ok(()) };
        let mine = state.text.clone();
        self.write(&mut state, &mine)?;
        // Undone, this writing gives the other program's text.
        state.history.leave(theirs);
        self.changed(&mut state);
        Ok(())
    }

    /// Nothing is changed while the file is not what this program knows.
    fn undisturbed(&self, state: &mut State) -> Result<()> {
        self.look_at_file(state);
        if state.outside.is_some() {
            bail!(
                "another program changed `{}`; nothing was written. Say first which shall stand",
                self.path.display()
            );
        }
        Ok(())
    }

    /// Writes a text, notes the former one, and computes.
    fn take(self: &Arc<Desk>, state: &mut State, text: String) -> Result<()> {
        state.refused = None;
        if text == state.text {
            return Ok(());
        }
        self.write(state, &text)?;
        let before = std::mem::replace(&mut state.text, text);
        if state.former.is_none() {
            state.former = state.shown.clone();
            state.former_text = before.clone();
        }
        state.history.leave(before);
        self.compute(state);
        Ok(())
    }

    fn write(&self, state: &mut State, text: &str) -> Result<()> {
        files::write_whole(&self.path, |writer| Ok(writer.write_all(text.as_bytes())?))?;
        state.kept_at = Some(clock::now());
        Ok(())
    }

    /// Computes the year of the text as it stands; what cannot be computed leaves the last good year.
    fn compute(self: &Arc<Desk>, state: &mut State) {
        let turn = self.turn.fetch_add(1, Ordering::SeqCst) + 1;
        state.failed = None;
        let _rest = late::Rest::begin();
        match load(&self.path, &Known { path: &self.path, text: &state.text }) {
            Ok(loaded) => {
                state.problems = loaded.said.problems.clone();
                let former = state.shown.clone().or_else(|| state.former.clone());
                match Reckoned::of(loaded, former.as_deref(), clock::now()) {
                    Ok(reckoned) => {
                        let reckoned = Arc::new(reckoned);
                        if let Some(former) = &state.shown {
                            former.forget_minutes();
                        }
                        state.shown = Some(Arc::clone(&reckoned));
                        late::begin(self, reckoned, turn);
                    }
                    Err(error) => state.failed = Some(format!("{error:#}")),
                }
            }
            Err(Said { problems, .. }) => state.problems = problems,
        }
    }

    /// True while the work begun at this turn still matters.
    pub fn is_at(&self, turn: u64) -> bool {
        self.turn.load(Ordering::SeqCst) == turn
    }

    /// Nothing more is to be found out: the build is closed.
    pub fn close(&self) {
        self.turn.fetch_add(1, Ordering::SeqCst);
    }

    /// Tells every window that something more is known.
    pub fn found(&self) {
        let mut state = self.state();
        self.changed(&mut state);
    }

    fn changed(&self, state: &mut State) {
        state.version += 1;
        self.news.tell(&self.name, state.version);
    }
}

/// After a way through the history: the slip is there while the text is not the one before it.
fn settle(state: &mut State, former: Option<Arc<Reckoned>>, before: String) {
    if state.former.is_none() {
        state.former = former;
        state.former_text = before;
    }
    if state.text == state.former_text {
        state.former = None;
        state.changes.clear();
        return;
    }
    let (Some(was), Some(now)) = (&state.former, &state.shown) else { return };
    let mut changes = Vec::new();
    for (place, traced) in now.loaded.origins.iter() {
        let from = was.loaded.origins.at(place).map_or(String::new(), |old| old.value.clone());
        if from != traced.value && parameter_at(place).is_some() {
            changes.push(Change { place: place.to_owned(), from, to: traced.value.clone() });
        }
    }
    state.changes = changes;
}

/// The same value once: from how it stood first to how it stands.
fn note(changes: &mut Vec<Change>, new: Change) {
    match changes.iter_mut().find(|change| change.place == new.place) {
        Some(change) => change.to = new.to,
        None => changes.push(new),
    }
    changes.retain(|change| change.from != change.to);
}

/// A value as it is shown, of the last good year.
fn shown_at(state: &State, place: &str) -> String {
    state
        .shown
        .as_ref()
        .and_then(|shown| shown.loaded.origins.at(place))
        .map_or(String::new(), |traced| traced.value.clone())
}

/// What typed words put at a place; nothing typed takes the value out, so that it is assumed again.
fn edit_value(place: &str, typed: &str) -> Result<EditValue> {
    let parameter = parameter_at(place).with_context(|| format!("there is no value `{place}`"))?;
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(EditValue::Remove);
    }
    Ok(match parameter.form {
        Form::Count => {
            typed.parse().map_or_else(|_| EditValue::Text(typed.to_owned()), EditValue::Whole)
        }
        Form::Quantity(kind) | Form::Worded(kind, _) | Form::Monthly(kind)
            if kind.stands_bare() =>
        {
            typed
                .parse::<f64>()
                .ok()
                .filter(|number| number.is_finite())
                .map_or_else(|| EditValue::Text(typed.to_owned()), EditValue::Number)
        }
        _ => EditValue::Text(typed.to_owned()),
    })
}

/// The page names no file outside the book: whoever is let in from the network could read it so.
fn outside_book(place: &str, typed: &str, file: &Path) -> Option<Problem> {
    let inside = |part| matches!(part, Component::Normal(_) | Component::CurDir);
    if place != "sun.weather" || Path::new(typed.trim()).components().all(inside) {
        return None;
    }
    Some(Problem {
        code: "outside-book",
        severity: Severity::Fault,
        file: file.display().to_string(),
        span: Span::default(),
        place: place.to_owned(),
        found: typed.to_owned(),
        expected: "a weather file inside the job book".to_owned(),
        says: "The page reads no weather file outside the job book".to_owned(),
        hint: "copy the file into the book's folder, or name it in the design file with an editor"
            .to_owned(),
    })
}

/// A design whose text is known, with its weather on disk.
pub struct Known<'a> {
    /// The design's path.
    pub path: &'a Path,
    /// Its text.
    pub text: &'a str,
}

impl Source for Known<'_> {
    fn bytes(&self, path: &Path) -> Result<Vec<u8>> {
        if path == self.path { Ok(self.text.as_bytes().to_vec()) } else { Disk.bytes(path) }
    }
}
