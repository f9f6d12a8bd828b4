//! Reading and writing, each call naming the path it failed at. Nothing else touches files.

use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use tempfile::NamedTempFile;

use crate::interrupt;

/// Files longer than this are not read at all \[bytes\]: no design or weather file comes near.
const LONGEST: u64 = 64 << 20;

/// Reads a file whole.
///
/// # Errors
/// Where it cannot be read, or is longer than any weather file.
pub fn read(path: &Path) -> Result<Vec<u8>> {
    let about =
        fs::metadata(path).with_context(|| format!("cannot look at `{}`", path.display()))?;
    if about.is_dir() {
        bail!("`{}` is a folder, not a file", path.display());
    }
    if about.len() > LONGEST {
        bail!(
            "`{}` holds {} bytes; files above {LONGEST} bytes are not read",
            path.display(),
            about.len()
        );
    }
    // A pipe or device tells no length beforehand: what it gives is cut off behind the longest.
    let mut bytes = Vec::new();
    fs::File::open(path)
        .and_then(|file| file.take(LONGEST + 1).read_to_end(&mut bytes))
        .with_context(|| format!("cannot read `{}`", path.display()))?;
    if bytes.len() as u64 > LONGEST {
        bail!("`{}` gives more than {LONGEST} bytes; so much is not read", path.display());
    }
    Ok(bytes)
}

/// Makes a folder and those above it.
///
/// # Errors
/// Where it cannot be made.
pub fn make_folder(path: &Path) -> Result<()> {
    fs::create_dir_all(path).with_context(|| format!("cannot make the folder `{}`", path.display()))
}

/// True where something stands at the path.
pub fn exists(path: &Path) -> bool {
    path.exists()
}

/// Writes a file so that it is either whole or not there: under another name first, renamed when
/// complete. An interrupt in between leaves nothing behind.
///
/// # Errors
/// Where it cannot be written, or the user interrupts.
pub fn write_whole(path: &Path, fill: impl FnOnce(&mut dyn Write) -> Result<()>) -> Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_path_buf(),
        _ => PathBuf::from("."),
    };
    let at = || format!("cannot write `{}`", path.display());
    let mut under_way = NamedTempFile::with_prefix_in(".warmfeed-", &folder).with_context(at)?;
    {
        let mut paced = Paced { inner: std::io::BufWriter::new(under_way.as_file_mut()) };
        fill(&mut paced).with_context(at)?;
        paced.flush().with_context(at)?;
    }
    interrupt::check()?;
    let file = under_way.persist(path).with_context(at)?;
    open_to_all(&file).with_context(at)
}

/// A new file is readable as the user's mask allows, not only by its owner as a temporary one is.
#[cfg(unix)]
fn open_to_all(file: &fs::File) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn open_to_all(_file: &fs::File) -> std::io::Result<()> {
    Ok(())
}

/// A writer that stops soon after an interrupt.
struct Paced<W: Write> {
    inner: W,
}

impl<W: Write> Write for Paced<W> {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        if interrupt::asked() {
            return Err(std::io::Error::other("interrupted"));
        }
        self.inner.write(bytes)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        self.inner.flush()
    }
}
