//! `new`: a job book to start from, or one design file.

use std::path::Path;

use anyhow::{Context, Result, bail};

use super::{DONE, not_completed};
use crate::arguments::New;
use crate::{files, print, sample};

/// Runs it.
pub fn run(asked: &New) -> i32 {
    let one_file = asked.path.extension().is_some_and(|ending| ending == "toml");
    let made = if one_file { design_file(&asked.path) } else { job_book(&asked.path) };
    match made.and_then(|words| print::out(&words)) {
        Ok(()) => DONE,
        Err(error) => not_completed(&error, false),
    }
}

/// A starter design with the weather it names beside it.
fn design_file(path: &Path) -> Result<String> {
    refuse_existing(path)?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let weather = folder.join(sample::STARTER_WEATHER);
    if !files::exists(&weather) {
        write(&weather, sample::bytes(sample::STARTER_WEATHER).context("the starter's weather")?)?;
    }
    write(path, design::template().as_bytes())?;
    let shown = path.display();
    Ok(format!(
        "Made `{shown}` and the weather it names.\n\
         Next: read it, change what is yours, then `warmfeed check {shown}`\n"
    ))
}

/// The sample job book, whole.
fn job_book(path: &Path) -> Result<String> {
    refuse_existing(path)?;
    for (name, bytes) in sample::files() {
        write(&path.join(name), bytes)?;
    }
    let shown = path.display();
    Ok(format!(
        "Made the job book `{shown}` with {} builds and their weather.\n\
         Next: `warmfeed year {shown}/{}`\n",
        sample::builds().count(),
        sample::FIRST_BUILD
    ))
}

fn refuse_existing(path: &Path) -> Result<()> {
    if files::exists(path) {
        bail!("`{}` is there already; nothing was changed. Choose another name", path.display());
    }
    Ok(())
}

fn write(path: &Path, bytes: &[u8]) -> Result<()> {
    if let Some(folder) = path.parent().filter(|folder| !folder.as_os_str().is_empty()) {
        files::make_folder(folder)?;
    }
    files::write_whole(path, |writer| Ok(writer.write_all(bytes)?))
}
