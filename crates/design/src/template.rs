//! A design file to start from.

/// A commented design file that is read without a fault.
pub fn template() -> String {
    include_str!("template.toml").to_owned()
}

#[cfg(test)]
mod tests {
    use crate::read_design;

    /// What a builder starts from raises no problem of its own.
    #[test]
    fn the_template_is_read_without_a_problem() {
        let reading = read_design("new.toml", super::template().as_bytes());
        assert!(reading.is_ok() && reading.problems.is_empty(), "{:?}", reading.problems);
    }
}
