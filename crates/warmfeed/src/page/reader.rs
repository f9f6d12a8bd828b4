//! How the person reads: units, day or night, size of type. Kept in the browser.

use axum::http::HeaderMap;
use design::quantity::Units;

use super::guard::cookie;

/// How the person reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reader {
    /// Units.
    pub units: Units,
    /// Day or night; `None` as the system has it.
    pub look: Option<Look>,
    /// Type a quarter larger.
    pub is_larger: bool,
    /// Keys of one letter do something.
    pub has_keys: bool,
}

/// By day or night.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Dark on light.
    Day,
    /// Light on dark.
    Night,
}

impl Reader {
    /// As the browser keeps it.
    pub fn of(headers: &HeaderMap) -> Reader {
        Reader {
            units: if cookie(headers, "units") == Some("us") { Units::Us } else { Units::Metric },
            look: match cookie(headers, "look") {
                Some("day") => Some(Look::Day),
                Some("night") => Some(Look::Night),
                _ => None,
            },
            is_larger: cookie(headers, "type") == Some("larger"),
            has_keys: cookie(headers, "keys") != Some("off"),
        }
    }

    /// Classes of the outermost element.
    pub fn classes(&self) -> &'static str {
        match (self.look, self.is_larger) {
            (None, false) => "",
            (None, true) => "larger",
            (Some(Look::Day), false) => "light",
            (Some(Look::Day), true) => "light larger",
            (Some(Look::Night), false) => "dark",
            (Some(Look::Night), true) => "dark larger",
        }
    }
}
