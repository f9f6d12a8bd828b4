//! Words into lines.

/// Text broken between words into lines of at most `width` characters; a longer word has a line of
/// its own.
pub fn broken(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let line = lines.last_mut().expect("there is always a line");
        if line.is_empty() {
            line.push_str(word);
        } else if line.chars().count() + 1 + word.chars().count() <= width {
            line.push(' ');
            line.push_str(word);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

/// A paragraph under a word at its left, all its lines indented as far.
pub fn hanging(word: &str, indent: usize, text: &str, width: usize) -> String {
    let mut paragraph = String::new();
    for (place, line) in broken(text, width.saturating_sub(indent)).iter().enumerate() {
        let left = if place == 0 { word } else { "" };
        paragraph.push_str(format!("{left:<indent$}{line}").trim_end());
        paragraph.push('\n');
    }
    paragraph
}

#[cfg(test)]
mod tests {
    use super::{broken, hanging};

    /// Given words, lines no wider than asked for, in order; given a long word, a line of its own.
    #[test]
    fn words_are_broken_between() {
        assert_eq!(broken("one two three", 7), ["one two", "three"]);
        assert_eq!(broken("a unbreakable b", 5), ["a", "unbreakable", "b"]);
    }

    /// Given a word and a text, the text folds and stands under itself.
    #[test]
    fn a_paragraph_hangs_under_its_word() {
        assert_eq!(hanging("Mind", 6, "one two three", 13), "Mind  one two\n      three\n");
    }
}
