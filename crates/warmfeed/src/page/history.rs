//! What was changed, and may be undone: whole texts, without limit.

/// The texts a build had, before and after the one it has.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<String>,
    future: Vec<String>,
}

impl History {
    /// Notes the text that is about to be replaced; what was undone can then no longer be redone.
    pub fn leave(&mut self, text: String) {
        self.past.push(text);
        self.future.clear();
    }

    /// The text before this one.
    pub fn undo(&mut self, now: String) -> Option<String> {
        let before = self.past.pop()?;
        self.future.push(now);
        Some(before)
    }

    /// The text that was undone last.
    pub fn redo(&mut self, now: String) -> Option<String> {
        let after = self.future.pop()?;
        self.past.push(now);
        Some(after)
    }

    /// How many changes can be undone, and redone.
    pub fn lengths(&self) -> (usize, usize) {
        (self.past.len(), self.future.len())
    }
}

#[cfg(test)]
mod tests {
    use super::History;

    /// Given three changes: undone and redone they pass through the same texts, and a change after an
    /// undo ends what could be redone.
    #[test]
    fn undo_and_redo_pass_through_the_same_texts() {
        let mut history = History::default();
        for text in ["one", "two", "three"] {
            history.leave(text.to_owned());
        }
        assert_eq!(history.undo("four".to_owned()).as_deref(), Some("three"));
        assert_eq!(history.undo("three".to_owned()).as_deref(), Some("two"));
        assert_eq!(history.redo("two".to_owned()).as_deref(), Some("three"));
        assert_eq!(history.lengths(), (2, 1));
        history.leave("three".to_owned());
        assert_eq!(history.lengths(), (3, 0));
        assert_eq!(history.redo("five".to_owned()), None);
    }
}
