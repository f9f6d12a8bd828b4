//! `new`: a job book to start from, or one design file.

use std::path::Path;

use anyhow::{Context, Result, bail};

use super::{DONE, WRONG_USAGE, not_completed};
use crate::arguments::New;
use crate::{files, print, sample, view};

/// Runs it.
pub fn run(asked: &New) -> i32 {
    let made = match asked.path.extension() {
        Some(ending) if ending == "toml" => design_file(&asked.path),
        Some(_) if !files::exists(&asked.path) => {
            print::talk(&format!(
                "fault: `{}` is neither: a design file ends in .toml, a job book is a folder whose \
                 name has no ending\nhint: write for instance `warmfeed new {}`",
                asked.path.display(),
                quoted(&asked.path.with_extension("toml"))
            ));
            return WRONG_USAGE;
        }
        _ => job_book(&asked.path),
    };
    match made.and_then(|words| print::page(&words)) {
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
    Ok(format!(
        "Made `{}` and the weather it names.\n\
         Next: read it, change what is yours, then `warmfeed check {}`\n\n{}",
        path.display(),
        quoted(path),
        view::short_caution()
    ))
}

/// The sample job book, whole.
fn job_book(path: &Path) -> Result<String> {
    refuse_existing(path)?;
    for (name, bytes) in sample::files() {
        write(&path.join(name), bytes)?;
    }
    Ok(format!(
        "Made the job book `{}` with {} builds and their weather.\n\
         Next: `warmfeed year {}`\n\n{}",
        path.display(),
        sample::builds().count(),
        quoted(&path.join(sample::FIRST_BUILD)),
        view::short_caution()
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

/// A path as a shell takes it for one word.
fn quoted(path: &Path) -> String {
    let text = path.display().to_string();
    let plain = |sign: char| sign.is_alphanumeric() || "-_./:\\".contains(sign);
    if cfg!(windows) {
        return if text.chars().all(plain) { text } else { format!("\"{text}\"") };
    }
    if !text.is_empty() && text.chars().all(|sign| plain(sign) && sign != '\\') {
        return text;
    }
    format!("'{}'", text.replace('\'', "'\\''"))
}

#[cfg(all(test, unix))]
mod tests {
    use super::quoted;
    use std::path::Path;

    /// Given names with blanks, quotes and dollars, one word for a shell of the POSIX kind, whose
    /// single quotes keep everything but themselves.
    #[test]
    fn a_name_with_blanks_stays_one_word() {
        assert_eq!(quoted(Path::new("my-panel.toml")), "my-panel.toml");
        assert_eq!(quoted(Path::new("my panel")), "'my panel'");
        assert_eq!(quoted(Path::new("Maud's $1")), "'Maud'\\''s $1'");
    }
}
