//! Pictures of a build: what was reckoned, handed to the room that draws.

mod cistern;
mod course;
mod house;
mod materials;
mod panel;
mod sky;
mod worries;
mod year;

pub use cistern::{StoreAt, cistern_picture, date};
pub use course::course_pictures;
pub use panel::panel_pictures;
pub use worries::worries_on_paper;
pub use year::{YearShown, mover, section_facts, strip_picture, year_pictures};

use std::path::Path;

use anyhow::Result;
use sheets::page::{Picture, page};
use sheets::pictures::Width;
use sheets::svg;

use crate::files::{self, Batch};

/// The page that shows all pictures of a run.
pub const PAGE: &str = "pictures.html";

/// A picture for a page and for a phone.
fn both(draw: impl Fn(Width) -> sheets::Drawing) -> Picture {
    Picture { wide: draw(Width::Page), narrow: Some(draw(Width::Phone)) }
}

/// Writes the pictures of a panel: all of them or none. Returns what was done, for people.
///
/// # Errors
/// As [`write()`], and where the folder cannot be made.
pub fn write_alone(folder: &Path, title: &str, pictures: &[Picture]) -> Result<String> {
    files::make_folder(folder)?;
    let mut batch = Batch::default();
    write(&mut batch, folder, title, pictures)?;
    batch.put_in_place()?;
    Ok(format!("Wrote {} pictures and {PAGE} in `{}`.", pictures.len(), folder.display()))
}

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
