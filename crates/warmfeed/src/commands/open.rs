//! `open`: a job book as a page in the browser.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use qrcode::QrCode;
use qrcode::render::unicode;

use super::{DONE, WRONG_INPUT, not_completed, year};
use crate::arguments::Open;
use crate::page::{self, Addresses, Book, Pairing, Settings};
use crate::{files, interrupt, print, sample};

/// Opens a book of one's own.
pub fn run(asked: &Open) -> i32 {
    let (book, first) = match found(&asked.book) {
        Ok(found) => found,
        Err(error) => {
            print::talk(&format!("fault: {error:#}"));
            return WRONG_INPUT;
        }
    };
    let served = pairing(asked.lan).and_then(|pairing| {
        let settings = Settings { book, is_sample: false, first, port: asked.port, pairing };
        serve(settings, !asked.no_browser)
    });
    ended(served)
}

/// Prints the year of the sample's first build, then opens the page on a copy of the sample.
pub fn run_sample() -> i32 {
    let status = year::run_sample();
    if status != DONE {
        return status;
    }
    let served = sample_copy().and_then(|folder| {
        print::talk(&format!(
            "The page works on a copy of the sample job book: {}",
            folder.path().display()
        ));
        let settings = Settings {
            book: Book { folder: folder.path().to_path_buf() },
            is_sample: true,
            first: sample::FIRST_BUILD.strip_suffix(".toml").map(str::to_owned),
            port: 0,
            pairing: None,
        };
        serve(settings, true)
    });
    ended(served)
}

fn ended(served: Result<()>) -> i32 {
    match served {
        // Ctrl-C is how one ends it.
        Ok(()) => DONE,
        Err(error) => not_completed(&error, false),
    }
}

/// The book's folder, and the build to show first where a design file was named.
fn found(path: &Path) -> Result<(Book, Option<String>)> {
    if files::is_folder(path) {
        return Ok((Book { folder: path.to_path_buf() }, None));
    }
    if !files::exists(path) {
        bail!(
            "there is no `{0}`\nhint: `warmfeed new {0}` makes a job book to start from",
            path.display()
        );
    }
    let name = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
    if path.extension().is_none_or(|ending| ending != "toml") || !page::is_name(name) {
        bail!("`{}` is neither a job book's folder nor a design file", path.display());
    }
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_path_buf(),
        _ => PathBuf::from("."),
    };
    Ok((Book { folder }, Some(name.to_owned())))
}

fn sample_copy() -> Result<tempfile::TempDir> {
    let folder = tempfile::Builder::new()
        .prefix("warmfeed-sample-")
        .tempdir()
        .context("no folder can be made for the sample")?;
    for (name, bytes) in sample::files() {
        let path = folder.path().join(name);
        if let Some(above) = path.parent() {
            files::make_folder(above)?;
        }
        files::write_whole(&path, |writer| Ok(writer.write_all(bytes)?))?;
    }
    Ok(folder)
}

fn pairing(is_shared: bool) -> Result<Option<Pairing>> {
    if !is_shared {
        return Ok(None);
    }
    Ok(Some(Pairing::new().context("the system gives nothing random")?))
}

fn serve(settings: Settings, opens_browser: bool) -> Result<()> {
    interrupt::check()?;
    page::serve(settings, |addresses, pairing| {
        // A closed pipe is no reason to stop serving.
        drop(print::out(&format!("{}\n", addresses.here)));
        if let Some(pairing) = pairing {
            print::talk(&network_words(addresses, pairing));
        }
        print::talk("Ctrl-C ends it.");
        if opens_browser && has_desktop() && open::that_detached(&addresses.here).is_err() {
            print::talk("No browser could be opened: open the address yourself.");
        }
    })
}

/// True where a browser could show itself.
fn has_desktop() -> bool {
    cfg!(not(target_os = "linux"))
        || ["DISPLAY", "WAYLAND_DISPLAY"]
            .iter()
            .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
}

/// What must be said before a device of the local network is served.
fn network_words(addresses: &Addresses, pairing: &Pairing) -> String {
    let Some(network) = &addresses.network else {
        return "This computer has no address on a local network: only it is served.".to_owned();
    };
    let target = format!("{network}pair#{}", pairing.code);
    let drawn = QrCode::new(target.as_bytes())
        .map(|code| code.render::<unicode::Dense1x2>().quiet_zone(true).build())
        .unwrap_or_default();
    format!(
        "{drawn}\nOn the local network: {network}\nPairing code: {} {}\n\
         Caution: whoever is on this network and has the code can change the builds in this job book. What \
         passes is not encrypted. Use it on a network of your own, and end it with Ctrl-C.",
        &pairing.code[..4],
        &pairing.code[4..]
    )
}
