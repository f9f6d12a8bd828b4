//! Pictures of a build: what was reckoned, handed to the room that draws.

mod year;

pub use year::year_pictures;

use std::io::Write;
use std::path::Path;

use anyhow::Result;
use sheets::page::{Picture, page};
use sheets::svg;

use crate::files::Batch;

/// The page that shows all pictures of a run.
pub const PAGE: &str = "pictures.html";

/// Adds every picture as a file of its own, and the page that shows them all with their tables.
///
/// # Errors
/// Where one cannot be written, or the user interrupts.
pub fn write(batch: &mut Batch, folder: &Path, title: &str, pictures: &[Picture]) -> Result<()> {
    for picture in pictures {
        for drawing in [&picture.wide].into_iter().chain(&picture.narrow) {
            let name = format!("{}.svg", drawing.name);
            let text = svg::file(drawing);
            batch.write(&folder.join(name), |writer| Ok(writer.write_all(text.as_bytes())?))?;
        }
    }
    let text = page(title, pictures);
    batch.write(&folder.join(PAGE), |writer| Ok(writer.write_all(text.as_bytes())?))
}
