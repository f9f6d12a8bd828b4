//! Ctrl-C: a flag that long work looks at, so that nothing is left half-written.

use std::sync::atomic::{AtomicBool, Ordering};

use anyhow::{Result, bail};

static ASKED: AtomicBool = AtomicBool::new(false);

/// Exit status after an interrupt: 128 and the number of the signal, as shells have it.
pub const STATUS: i32 = 130;

/// Starts listening.
///
/// A second Ctrl-C ends the program at once.
pub fn listen() {
    let heard = ctrlc::set_handler(|| {
        if ASKED.swap(true, Ordering::SeqCst) {
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
