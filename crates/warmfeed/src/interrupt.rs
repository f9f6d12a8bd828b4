//! Ctrl-C, and a polite request to end: a flag that long work looks at, so that nothing is left
//! half-written.

use std::sync::atomic::{AtomicBool, Ordering};

use anyhow::{Result, bail};

static ASKED: AtomicBool = AtomicBool::new(false);

/// Exit status after an interrupt: 128 and the number of Ctrl-C's signal, as shells have it.
pub const STATUS: i32 = 130;

/// Starts listening to Ctrl-C, and to what a system sends that shuts down or closes the terminal.
///
/// A second one ends the program at once, after taking away what is half-written.
pub fn listen() {
    let heard = ctrlc::set_handler(|| {
        if ASKED.swap(true, Ordering::SeqCst) {
            let _nothing_more_is_written = crate::files::give_up();
            std::process::exit(STATUS);
        }
    });
    // Without a handler Ctrl-C ends the program as it always does; that is no reason to stop.
    drop(heard);
}

/// True once the user asked to stop.
pub fn asked() -> bool {
    ASKED.load(Ordering::SeqCst)
}

/// # Errors
/// Once the user asked to stop.
pub fn check() -> Result<()> {
    if asked() {
        bail!("interrupted");
    }
    Ok(())
}
