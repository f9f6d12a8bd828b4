//! Reading and writing, each call naming the path it failed at. Nothing else touches files.

use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use anyhow::{Context, Result, bail};
use tempfile::{Builder, NamedTempFile};

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

/// The names of what lies in a folder.
///
/// # Errors
/// Where it cannot be read.
pub fn names_in(folder: &Path) -> Result<Vec<String>> {
    let at = || format!("cannot look into the folder `{}`", folder.display());
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).with_context(at)? {
        let name = entry.with_context(at)?.file_name();
        names.extend(name.into_string());
    }
    Ok(names)
}

/// Gives a file another name.
///
/// # Errors
/// Where it cannot have it.
pub fn rename(from: &Path, to: &Path) -> Result<()> {
    fs::rename(from, to)
        .with_context(|| format!("cannot move `{}` to `{}`", from.display(), to.display()))
}

/// True where a file, and no folder and no link, stands at the path.
pub fn is_plain_file(path: &Path) -> bool {
    path.symlink_metadata().is_ok_and(|found| found.is_file())
}

/// True where a folder stands at the path.
pub fn is_folder(path: &Path) -> bool {
    path.is_dir()
}

/// True where something stands at the path.
pub fn exists(path: &Path) -> bool {
    path.exists()
}

/// Writes a file so that it is either whole or not there; see [`Batch`].
///
/// # Errors
/// Where it cannot be written, or the user interrupts.
pub fn write_whole(path: &Path, fill: impl FnOnce(&mut dyn Write) -> Result<()>) -> Result<()> {
    let mut batch = Batch::default();
    batch.write(path, fill)?;
    batch.put_in_place()
}

/// Files that belong together: each is written whole under another name, and all get their own names
/// at the end, so that no mixture of an earlier and a later writing is left. An interrupt before that
/// leaves everything as it was.
#[derive(Default)]
pub struct Batch {
    files: Vec<(NamedTempFile, PathBuf)>,
}

/// The names under which files are being written. An interrupt that will not wait takes them away.
static UNDER_WAY: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

fn under_way() -> MutexGuard<'static, Vec<PathBuf>> {
    UNDER_WAY.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Batch {
    /// Writes one more file.
    ///
    /// # Errors
    /// Where it cannot be written, or the user interrupts.
    pub fn write(
        &mut self,
        path: &Path,
        fill: impl FnOnce(&mut dyn Write) -> Result<()>,
    ) -> Result<()> {
        let at = || format!("cannot write `{}`", path.display());
        if path.is_dir() {
            bail!("cannot write `{}`: a folder stands there", path.display());
        }
        let folder = match path.parent() {
            Some(folder) if !folder.as_os_str().is_empty() => folder.to_path_buf(),
            _ => PathBuf::from("."),
        };
        let mut file = {
            // Made and noted in one go, so that an interrupt finds either both or neither.
            let mut noted = under_way();
            let file = new_file(&folder).with_context(at)?;
            noted.push(file.path().to_path_buf());
            file
        };
        let mut paced = Paced { inner: std::io::BufWriter::new(file.as_file_mut()) };
        let filled = fill(&mut paced).and_then(|()| Ok(paced.flush()?));
        drop(paced);
        // On the disk before it gets its name: a power cut must not leave the name with nothing behind it.
        let filled = filled.and_then(|()| Ok(file.as_file().sync_all()?));
        self.files.push((file, path.to_path_buf()));
        filled.with_context(at)
    }

    /// Gives every file its own name.
    ///
    /// # Errors
    /// Where one cannot have it, or the user interrupted before.
    pub fn put_in_place(mut self) -> Result<()> {
        // While this is held, an interrupt that will not wait waits after all.
        let mut noted = under_way();
        interrupt::check()?;
        for (file, path) in self.files.drain(..) {
            noted.retain(|name| name != file.path());
            file.persist(&path).with_context(|| format!("cannot write `{}`", path.display()))?;
        }
        Ok(())
    }
}

impl Drop for Batch {
    fn drop(&mut self) {
        // Files that never got their names take themselves away; none is under way any more.
        for (file, _) in self.files.drain(..) {
            let name = file.path().to_path_buf();
            drop(file);
            under_way().retain(|noted| *noted != name);
        }
    }
}

/// Takes away what is half-written, and lets nothing more be written: for the end of the program.
pub fn give_up() -> MutexGuard<'static, Vec<PathBuf>> {
    let mut noted = under_way();
    for name in noted.drain(..) {
        // What cannot be taken away is no reason to stay.
        drop(fs::remove_file(name));
    }
    noted
}

/// A new file under a name of its own, readable as the user's mask allows; a temporary file is
/// otherwise its owner's alone.
fn new_file(folder: &Path) -> std::io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(".warmfeed-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder)
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
