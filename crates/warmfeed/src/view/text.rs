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

#[cfg(test)]
mod tests {
    use super::broken;

    /// Given words, lines no wider than asked for, in order; given a long word, a line of its own.
    #[test]
    fn words_are_broken_between() {
        assert_eq!(broken("one two three", 7), ["one two", "three"]);
        assert_eq!(broken("a unbreakable b", 5), ["a", "unbreakable", "b"]);
    }
}
