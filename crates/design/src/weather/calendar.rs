//! Rows in the order of a year of 365 days.

use physics::climate::{HOURS_PER_YEAR, MONTH_STARTS_DAY, month_of_day};

use super::report::{Report, Tally, Told};

/// The hour a row speaks of, by its own label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Label {
    /// 1 to 12.
    pub(super) month: usize,
    /// 1 to 31.
    pub(super) day: usize,
    /// The row's place in the day, 0 to 23.
    pub(super) hour: usize,
}

impl Label {
    /// The label of a row of the year, from 0.
    fn of_row(row: usize) -> Self {
        let day = row / 24;
        let month = month_of_day(day);
        Label { month: month + 1, day: day - MONTH_STARTS_DAY[month] + 1, hour: row % 24 }
    }

    fn is_leap_day(self) -> bool {
        self.month == 2 && self.day == 29
    }

    fn words(self) -> String {
        let month = crate::MONTHS.get(self.month.wrapping_sub(1)).copied().unwrap_or("month ?");
        format!("{} {month}, row {} of the day", self.day, self.hour + 1)
    }
}

/// Which of the rows make the year: those of 29 February are left out, and every other must follow
/// the one before.
///
/// * `labels`: line number and label of each row.
///
/// Returns the index of each row kept, or none with a fault.
pub(super) fn order(labels: &[(usize, Label)], report: &mut Report) -> Option<Vec<usize>> {
    let mut kept = Vec::with_capacity(HOURS_PER_YEAR);
    let mut leap = Tally::default();
    let mut in_order = true;
    for (index, &(line, label)) in labels.iter().enumerate() {
        if label.is_leap_day() {
            leap.add(line, "29 February");
            continue;
        }
        if in_order && kept.len() < HOURS_PER_YEAR && label != Label::of_row(kept.len()) {
            in_order = false;
            report.fault(Told {
                code: "weather-row-order",
                line,
                found: label.words(),
                expected: Label::of_row(kept.len()).words(),
                says:
                    "A row does not follow the one before: hours are missing, doubled or shuffled."
                        .to_owned(),
                hint: "A year must run from 1 January to 31 December, hour by hour.".to_owned(),
            });
        }
        kept.push(index);
    }
    if leap.count > 0 {
        report.note(Told {
            code: "leap-day-dropped",
            line: leap.first_line,
            found: leap.counted("row"),
            expected: "a year of 365 days".to_owned(),
            says: format!("{} of 29 February left out.", leap.counted("row")),
            hint: "Nothing need be done: the year that is reckoned has no such day.".to_owned(),
        });
    }
    if kept.len() != HOURS_PER_YEAR {
        report.fault(Told {
            code: "weather-row-count",
            line: labels.last().map_or(0, |&(line, _)| line),
            found: format!("{} rows", kept.len()),
            expected: format!("{HOURS_PER_YEAR} rows, or 8784 with 29 February"),
            says: "The file does not hold a whole year of hours.".to_owned(),
            hint: "The download may have broken off, or the file is not hourly.".to_owned(),
        });
        return None;
    }
    in_order.then_some(kept)
}
