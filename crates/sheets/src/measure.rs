//! How long words are, before anything has set them.

use crate::role::Role;

/// Length of a line of words in a role \[mm\]; the faces we ask for are no wider.
///
/// Advance widths of the common sans serif of the PostScript base fonts (thousandths of the size);
/// Source Sans 3 is narrower letter by letter, Arial is its equal.
pub fn length_mm(words: &str, role: Role) -> f64 {
    words.chars().map(advance).sum::<f64>() * role.text_size_mm() * role.breadth() / 1000.0
}

fn advance(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | '\'' => 222.0,
        '|' => 260.0,
        ' ' | '\u{a0}' | '.' | ',' | ':' | ';' | '!' | '/' | 'f' | 't' | 'I' | '[' | ']' | '\\' => {
            278.0
        }
        '(' | ')' | '-' | 'r' | '\u{b2}' => 333.0,
        '"' => 355.0,
        '*' => 389.0,
        '\u{b0}' => 400.0,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' | 'J' => 500.0,
        'w' | 'C' | 'D' | 'H' | 'N' | 'R' | 'U' => 722.0,
        'm' | 'M' => 833.0,
        'F' | 'T' | 'Z' => 611.0,
        'G' | 'O' | 'Q' => 778.0,
        'A' | 'B' | 'E' | 'K' | 'P' | 'S' | 'V' | 'X' | 'Y' | '&' => 667.0,
        'W' => 944.0,
        '%' => 889.0,
        '+' | '<' | '=' | '>' | '\u{2212}' | '\u{d7}' => 584.0,
        _ => 556.0,
    }
}

/// Breaks words into lines no longer than a length \[mm\]; a single longer word stands alone.
pub fn broken(words: &str, role: Role, longest_mm: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split(' ').filter(|word| !word.is_empty()) {
        match lines.last_mut() {
            Some(line) if length_mm(&format!("{line} {word}"), role) <= longest_mm => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::{broken, length_mm};
    use crate::role::Role;

    /// Given figures and words in the base font's published widths: a digit takes 556, "mm" twice
    /// 833, a space 278 thousandths of the size (Adobe font metrics of Helvetica).
    #[test]
    fn lengths_are_those_of_the_base_font() {
        let size_mm = Role::Label.text_size_mm();
        let found_mm = length_mm("2 240", Role::Label);
        assert!((found_mm - size_mm * (4.0 * 0.556 + 0.278)).abs() < 1e-9);
        assert!((length_mm("mm", Role::Label) - 1.666 * size_mm).abs() < 1e-9);
    }

    #[test]
    fn lines_keep_every_word_and_their_length() {
        let lines = broken("the loft's own warmth, not counted as sun", Role::Label, 30.0);
        assert_eq!(lines.join(" "), "the loft's own warmth, not counted as sun");
        assert!(lines.len() > 1 && lines.iter().all(|line| length_mm(line, Role::Label) <= 30.0));
        assert_eq!(broken("unbreakable", Role::Label, 1.0), ["unbreakable"]);
    }
}
