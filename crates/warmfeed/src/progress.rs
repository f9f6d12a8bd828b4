//! Progress of work that may take longer than a second, on standard error.

use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// Steps of one piece of work. Nothing is shown in the first second, nor where standard error is
/// no terminal.
pub struct Progress {
    bar: ProgressBar,
    shown_after: std::time::Instant,
}

impl Progress {
    /// Work of so many steps.
    pub fn of(steps: u64) -> Self {
        let bar = ProgressBar::with_draw_target(Some(steps), ProgressDrawTarget::hidden());
        if let Ok(style) = ProgressStyle::with_template("{pos} of {len}: {msg}") {
            bar.set_style(style);
        }
        Progress { bar, shown_after: std::time::Instant::now() + Duration::from_secs(1) }
    }

    /// Begins the next step.
    pub fn step(&self, words: &'static str) {
        if std::time::Instant::now() >= self.shown_after {
            self.bar.set_draw_target(ProgressDrawTarget::stderr());
        }
        self.bar.set_message(words);
        self.bar.inc(1);
    }
}

impl Progress {
    /// Says how far a step is.
    pub fn count(&self, words: &str, done: usize, all: usize) {
        self.bar.set_message(format!("{words}: {done} of {all}"));
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}
