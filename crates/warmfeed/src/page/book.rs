//! A job book: the folder that holds builds. Nothing outside it is read or written here.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::files;

/// Where builds lie that were thrown away, inside the book.
pub const BIN: &str = "bin";

/// The longest name of a build \[letters\].
const LONGEST_NAME: usize = 80;

/// A job book's folder.
#[derive(Clone, Debug)]
pub struct Book {
    /// The folder.
    pub folder: PathBuf,
}

impl Book {
    /// The builds in it, by name without their ending, in the order of the alphabet.
    ///
    /// # Errors
    /// Where the folder cannot be read.
    pub fn builds(&self) -> Result<Vec<String>> {
        let mut names: Vec<String> = files::names_in(&self.folder)?
            .into_iter()
            .filter_map(|name| name.strip_suffix(".toml").map(str::to_owned))
            .filter(|name| self.holds(name))
            .collect();
        names.sort_by_key(|name| name.to_lowercase());
        Ok(names)
    }

    /// The design file of a build; `None` for a name that could lead out of the book.
    pub fn path(&self, name: &str) -> Option<PathBuf> {
        is_name(name).then(|| self.folder.join(format!("{name}.toml")))
    }

    /// True where the book holds the build.
    pub fn holds(&self, name: &str) -> bool {
        self.path(name).is_some_and(|path| files::is_plain_file(&path))
    }

    /// A new build with this text.
    ///
    /// # Errors
    /// A name that cannot be one, or is taken; a file that cannot be written.
    pub fn add(&self, name: &str, text: &str) -> Result<()> {
        let path = self.free(name)?;
        files::write_whole(&path, |writer| Ok(writer.write_all(text.as_bytes())?))
    }

    /// A name like this one that no build has: with a number behind it, or the next number.
    pub fn proposed(&self, like: &str) -> String {
        let digits =
            |text: &str| !text.is_empty() && text.bytes().all(|sign| sign.is_ascii_digit());
        let stem = match like.rsplit_once('-') {
            Some((stem, number)) if digits(number) && !stem.is_empty() => stem,
            _ => like,
        };
        let stem: String = stem.chars().take(LONGEST_NAME - 4).collect();
        (2..1000)
            .map(|number| format!("{}-{number}", stem.trim_end()))
            .find(|name| self.path(name).is_some_and(|path| !files::exists(&path)))
            .unwrap_or_default()
    }

    /// Copies a build to try a change.
    ///
    /// # Errors
    /// As [`Book::add`].
    pub fn copy(&self, name: &str, to: &str) -> Result<()> {
        let from = self.path(name).context("there is no such build")?;
        let bytes = files::read(&from)?;
        let path = self.free(to)?;
        files::write_whole(&path, |writer| Ok(writer.write_all(&bytes)?))
    }

    /// Gives a build another name.
    ///
    /// # Errors
    /// As [`Book::add`].
    pub fn rename(&self, name: &str, to: &str) -> Result<()> {
        let from = self.path(name).context("there is no such build")?;
        files::rename(&from, &self.free(to)?)
    }

    /// Moves a build into the bin; returns the name it has there.
    ///
    /// # Errors
    /// Where it cannot be moved.
    pub fn throw_away(&self, name: &str) -> Result<String> {
        let from = self.path(name).context("there is no such build")?;
        let bin = self.folder.join(BIN);
        files::make_folder(&bin)?;
        let thrown = unused(&bin, name)?;
        files::rename(&from, &bin.join(format!("{thrown}.toml")))?;
        Ok(thrown)
    }

    /// What lies in the bin.
    pub fn thrown_away(&self) -> Vec<String> {
        Book { folder: self.folder.join(BIN) }.builds().unwrap_or_default()
    }

    /// Takes a build out of the bin; returns its name.
    ///
    /// # Errors
    /// Where it is not there, or cannot be moved.
    pub fn take_back(&self, name: &str) -> Result<String> {
        let bin = Book { folder: self.folder.join(BIN) };
        let from = bin.path(name).filter(|path| files::is_plain_file(path));
        let from = from.context("the bin holds no such build")?;
        let back = unused(&self.folder, name)?;
        files::rename(&from, &self.folder.join(format!("{back}.toml")))?;
        Ok(back)
    }

    /// The path of a build that is not there yet.
    fn free(&self, name: &str) -> Result<PathBuf> {
        let Some(path) = self.path(name) else {
            bail!(
                "`{name}` cannot be a build's name: letters, digits, blanks, `-` and `_`, at most \
                 {LONGEST_NAME} of them, beginning with a letter or digit"
            )
        };
        if files::exists(&path) {
            bail!("there is a build `{name}` already; nothing was changed. Choose another name");
        }
        Ok(path)
    }
}

/// The name, or the name with a number behind it, that nothing in the folder has yet.
fn unused(folder: &Path, name: &str) -> Result<String> {
    std::iter::once(name.to_owned())
        .chain((2..1000).map(|number| format!("{name}-{number}")))
        .find(|name| !files::exists(&folder.join(format!("{name}.toml"))))
        .with_context(|| format!("every name like `{name}` is taken"))
}

/// True for what may be a build's name: it cannot lead anywhere.
pub fn is_name(name: &str) -> bool {
    let inner = |sign: char| sign.is_alphanumeric() || matches!(sign, ' ' | '-' | '_');
    name.chars().count() <= LONGEST_NAME
        && name.starts_with(char::is_alphanumeric)
        && !name.ends_with(' ')
        && name.chars().all(inner)
}

#[cfg(test)]
mod tests {
    use super::{Book, is_name};

    fn book() -> (tempfile::TempDir, Book) {
        let folder = tempfile::tempdir().expect("a folder");
        let book = Book { folder: folder.path().to_path_buf() };
        book.add("first", "title = \"First\"").expect("a build");
        (folder, book)
    }

    /// Given a build and its copies, the name proposed for the next is free and counts on.
    #[test]
    fn a_proposed_name_is_free() {
        let (_folder, book) = book();
        assert_eq!(book.proposed("first"), "first-2");
        book.copy("first", "first-2").expect("a copy");
        assert_eq!(book.proposed("first"), "first-3");
        assert_eq!(book.proposed("first-2"), "first-3");
        let long = "x".repeat(80);
        assert!(is_name(&book.proposed(&long)) && book.proposed(&long).len() <= 80);
    }

    /// Given a name that is taken, or none, nothing is written and the reason says which.
    #[test]
    fn a_name_that_does_not_fit_changes_nothing() {
        let (_folder, book) = book();
        book.add("second", "title = \"Second\"").expect("a build");
        let taken = book.copy("first", "second").expect_err("taken").to_string();
        assert!(taken.contains("there is a build `second` already"), "{taken}");
        let none = book.rename("first", "../first").expect_err("no name").to_string();
        assert!(none.contains("cannot be a build's name"), "{none}");
        assert_eq!(book.builds().expect("a list"), ["first", "second"]);
        let text = std::fs::read_to_string(book.folder.join("second.toml")).expect("a file");
        assert_eq!(text, "title = \"Second\"");
    }

    /// Given a build in the bin and another of its name in the book, both are had back.
    #[test]
    fn what_is_taken_back_overwrites_nothing() {
        let (_folder, book) = book();
        assert_eq!(book.throw_away("first").expect("thrown"), "first");
        assert_eq!(book.thrown_away(), ["first"]);
        book.add("first", "title = \"Another\"").expect("a build");
        assert_eq!(book.take_back("first").expect("back"), "first-2");
        assert_eq!(book.builds().expect("a list"), ["first", "first-2"]);
        assert!(book.thrown_away().is_empty());
    }

    /// Given names that lead out of a folder, hide, or end a path early: none is a name.
    #[test]
    fn no_name_leads_out_of_the_book() {
        for name in ["..", "../x", "a/b", "a\\b", ".x", "", "a\0", "a.toml/..", "-x", "C:x", "a "] {
            assert!(!is_name(name), "{name:?}");
        }
        for name in ["first-panel", "Zweite Wanne 2", "été_1"] {
            assert!(is_name(name), "{name:?}");
        }
    }
}
