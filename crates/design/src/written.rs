//! A design file as text and syntax tree, and edits that keep its comments and its order.

use toml_edit::{Document, DocumentMut, Item, TableLike, Value as TomlValue};

/// A design file as it is written: saving edits the text, then reads it again.
#[derive(Clone, Debug)]
pub struct Written {
    /// The file as the user named it.
    pub file: String,
    /// Its text.
    pub text: String,
    tree: Document<String>,
}

/// A place and what shall stand there.
#[derive(Clone, Debug, PartialEq)]
pub struct Edit {
    /// The place, for instance `panel.back[0].thickness`.
    pub place: String,
    /// What shall stand there.
    pub value: EditValue,
}

/// What an edit puts at its place.
#[derive(Clone, Debug, PartialEq)]
pub enum EditValue {
    /// Text in quotes, also a quantity with its unit.
    Text(String),
    /// A number.
    Number(f64),
    /// A whole number.
    Whole(i64),
    /// Nothing: the key is taken out.
    Remove,
}

/// Why an edit cannot be made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum EditFault {
    /// The text is not TOML.
    #[error("the text cannot be read: {0}")]
    Unreadable(String),
    /// The place leads through something that is no table.
    #[error("`{part}` of `{place}` is no table")]
    NoTable {
        /// The edit's place.
        place: String,
        /// The part of it.
        part: String,
    },
    /// A list has no such member.
    #[error("`{place}` names a member that the list does not have")]
    NoMember {
        /// The edit's place.
        place: String,
    },
}

impl Written {
    /// Reads a text's syntax.
    ///
    /// # Errors
    ///
    /// The syntax reader's own fault, with its place.
    pub fn parse(file: &str, text: &str) -> Result<Written, toml_edit::TomlError> {
        let tree = Document::parse(text.to_owned())?;
        Ok(Written { file: file.to_owned(), text: text.to_owned(), tree })
    }

    /// The syntax tree's root.
    pub(crate) fn root(&self) -> &dyn TableLike {
        self.tree.as_table()
    }

    /// The same file with edits made, comments and order kept.
    ///
    /// # Errors
    ///
    /// An [`EditFault`] where a place cannot be reached; the file is then as it was.
    pub fn edited(&self, edits: &[Edit]) -> Result<Written, EditFault> {
        let unreadable = |fault: toml_edit::TomlError| EditFault::Unreadable(fault.to_string());
        let mut document: DocumentMut = self.text.parse().map_err(unreadable)?;
        for edit in edits {
            make(&mut document, edit)?;
        }
        Written::parse(&self.file, &document.to_string()).map_err(unreadable)
    }
}

fn make(document: &mut DocumentMut, edit: &Edit) -> Result<(), EditFault> {
    let mut parts: Vec<&str> = edit.place.split('.').collect();
    let last = parts.pop().unwrap_or_default();
    let mut item = document.as_item_mut();
    for part in parts {
        item = step(item, part, edit)?;
    }
    let table = item.as_table_like_mut().ok_or_else(|| EditFault::NoTable {
        place: edit.place.clone(),
        part: edit.place.rsplit_once('.').map_or("", |(table, _)| table).to_owned(),
    })?;
    let value: TomlValue = match &edit.value {
        EditValue::Remove => {
            table.remove(last);
            return Ok(());
        }
        EditValue::Text(text) => text.into(),
        EditValue::Number(number) => (*number).into(),
        EditValue::Whole(whole) => (*whole).into(),
    };
    match table.get_mut(last).and_then(Item::as_value_mut) {
        Some(old) => {
            let decor = old.decor().clone();
            *old = value;
            *old.decor_mut() = decor;
        }
        None => {
            table.insert(last, Item::Value(value));
        }
    }
    Ok(())
}

/// One step down the tree; tables that are not there yet are made.
fn step<'a>(item: &'a mut Item, part: &str, edit: &Edit) -> Result<&'a mut Item, EditFault> {
    let no_table = || EditFault::NoTable { place: edit.place.clone(), part: part.to_owned() };
    let no_member = || EditFault::NoMember { place: edit.place.clone() };
    let table = item.as_table_like_mut().ok_or_else(no_table)?;
    let Some((key, index)) = part.split_once('[') else {
        let entry = table.entry(part).or_insert_with(|| Item::Table(toml_edit::Table::new()));
        return if entry.is_table_like() { Ok(entry) } else { Err(no_table()) };
    };
    let index: usize = index.trim_end_matches(']').parse().map_err(|_| no_member())?;
    let list = table.get_mut(key).ok_or_else(no_member)?;
    list.get_mut(index).ok_or_else(no_member)
}
