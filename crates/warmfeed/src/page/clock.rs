//! The time of day, for people.

/// Hours and minutes where this computer stands.
pub fn now() -> String {
    jiff::ZonedDateTime::now().strftime("%H:%M").to_string()
}
