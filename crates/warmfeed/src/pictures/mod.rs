//! Pictures of a build: what was reckoned, handed to the room that draws.

mod year;

pub use year::{YearShown, year_pictures};

use std::path::Path;

use anyhow::Result;
use sheets::page::{Picture, page};
use sheets::svg;

use crate::files::Batch;

/// The page that shows all pictures of a run.
pub const PAGE: &str = "pictures.html";

/// Adds every picture as a file of its own, and the page that shows them all with their tables; those
/// that a phone needs otherwise stand on the page alone.
///
/// # Errors
/// Where one cannot be written, or the user interrupts.
pub fn write(batch: &mut Batch, folder: &Path, title: &str, pictures: &[Picture]) -> Result<()> {
    for picture in pictures {
        let name = format!("{}.svg", picture.wide.name);
        let text = svg::file(&picture.wide);
        batch.write(&folder.join(name), |writer| Ok(writer.write_all(text.as_bytes())?))?;
    }
    let text = page(title, pictures);
    batch.write(&folder.join(PAGE), |writer| Ok(writer.write_all(text.as_bytes())?))
}
