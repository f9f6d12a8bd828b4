//! The series explorer: any stretch of the year by the minute, drawn and as a table.

use std::sync::Arc;

use axum::extract::{Path, RawQuery, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use design::MONTHS;
use design::quantity::Units;
use maud::{Markup, html};
use physics::climate::{MONTH_STARTS_DAY, month_of_day};
use year::{Channel, MINUTES_PER_YEAR, Recorder};

use super::House;
use super::answer::{not_here, worked};
use super::channel::{Graph, Shown};
use super::column::{SHORTEST, Stretch, bytes, places, summed_up, thinned};
use super::reader::Reader;
use super::shell::{Sheet, Word, address, sheet};

/// The sheet.
pub async fn show(
    State(house): State<Arc<House>>,
    Path(name): Path<String>,
    RawQuery(query): RawQuery,
    headers: HeaderMap,
) -> Response {
    worked(move || {
        let Some(desk) = house.desk(&name) else { return not_here() };
        let reader = Reader::of(&headers);
        let build = address(&name);
        let question = Question::of(&query.unwrap_or_default());
        let main = html! {
            h1 { "Series" }
            @match &desk.look().shown {
                Some(shown) => {
                    p .build-title { "The year of " (shown.loaded.design.title) ", any stretch of it by the minute." }
                    (explorer(&build, &question, &shown.recorder(), reader.units))
                }
                None => p .build-title {
                    "No year could be worked out yet. " a href=(build) { "The year" } " says why."
                }
            }
        };
        let path = format!("{build}/series{}", question.query(question.stretch));
        let title = format!("Series of {name}");
        let styles = &["vendor/uplot-1.6.32/uPlot.min.css", "series.css"];
        let modules = &["series.js"];
        let build = Some(&name[..]);
        sheet(&house, &reader, Sheet { title: &title, word: Word::Series, build, path: &path, styles, modules, main })
    })
    .await
}

/// One channel's column over a stretch, thinned to so many buckets; `minute` gives the minutes at which
/// the buckets begin.
pub async fn column(
    State(house): State<Arc<House>>,
    Path((name, word)): Path<(String, String)>,
    RawQuery(query): RawQuery,
    headers: HeaderMap,
) -> Response {
    worked(move || {
        let Some(desk) = house.desk(&name) else { return not_here() };
        let query = query.unwrap_or_default();
        let stretch = Question::of(&query).stretch;
        let bucket_minutes = stretch.bucket_minutes(points(&query));
        let values = if word == "minute" {
            places(stretch, bucket_minutes)
        } else {
            let Some(shown) = Shown::called(&word) else { return not_here() };
            let Some(recorder) = desk.look().shown.map(|year| year.recorder()) else {
                return not_here();
            };
            let Some(series) = recorder.series(shown.channel) else { return not_here() };
            let units = Reader::of(&headers).units;
            let in_units = |value: f32| shown.graph.in_units(f64::from(value), units) as f32;
            thinned(series, stretch, bucket_minutes).into_iter().map(in_units).collect()
        };
        let head = [
            ("content-type", "application/octet-stream".to_owned()),
            ("bucket-minutes", bucket_minutes.to_string()),
        ];
        (head, bytes(&values)).into_response()
    })
    .await
}

/// How many buckets are asked for: as many as a screen has points.
fn points(query: &str) -> usize {
    form_urlencoded::parse(query.as_bytes())
        .find(|(key, _)| key == "points")
        .and_then(|(_, text)| text.parse().ok())
        .map_or(900, |points: usize| points.clamp(100, 4000))
}

/// What of the year is looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Question {
    /// Which minutes.
    stretch: Stretch,
    /// Which channels, graph by graph.
    shown: Vec<Shown>,
}

/// Whole stretches one can ask for by name.
const ZOOMS: [(&str, &str); 5] = [
    ("year", "Whole year"),
    ("month", "A month"),
    ("week", "A week"),
    ("day", "A day"),
    ("hour", "An hour"),
];

const DAY: usize = 1440;

impl Question {
    /// Reads an address's query: `from` and `to`, or `zoom` and `at`; `show` as often as one likes.
    /// What cannot be read is as if it were not there: the whole year, the first channels.
    fn of(query: &str) -> Question {
        let pairs: Vec<(String, String)> =
            form_urlencoded::parse(query.as_bytes()).into_owned().collect();
        let text =
            |key: &str| pairs.iter().find(|(have, _)| have == key).map(|(_, text)| &text[..]);
        let number = |key: &str| text(key).and_then(|text| text.parse::<i64>().ok());
        let at = number("at").unwrap_or(MINUTES_PER_YEAR as i64 / 2);
        let stretch = match (text("zoom"), number("from"), number("to")) {
            (Some(zoom), _, _) => named(zoom, at.clamp(0, MINUTES_PER_YEAR as i64 - 1) as usize),
            (None, Some(from), Some(to)) => Stretch::within(from, to),
            _ => Stretch::YEAR,
        };
        let asked: Vec<Shown> = pairs
            .iter()
            .filter(|(key, _)| key == "show")
            .flat_map(|(_, words)| words.split(','))
            .filter_map(Shown::called)
            .collect();
        let first = || Shown::FIRST.to_vec();
        let wanted: Vec<Channel> = match asked.is_empty() {
            true => first(),
            false => asked.iter().map(|shown| shown.channel).collect(),
        };
        let shown =
            Shown::ALL.into_iter().filter(|shown| wanted.contains(&shown.channel)).collect();
        Question { stretch, shown }
    }

    /// The query that asks for another stretch of the same.
    fn query(&self, stretch: Stretch) -> String {
        format!("?from={}&to={}{}", stretch.from, stretch.to, self.shows())
    }

    fn shows(&self) -> String {
        self.shown.iter().map(|shown| format!("&show={}", shown.word())).collect()
    }
}

/// The calendar month, the seven days, the day or the hour around a minute; else the year.
fn named(zoom: &str, at: usize) -> Stretch {
    let day = at / DAY;
    let days = |from: usize, to: usize| Stretch::within((from * DAY) as i64, (to * DAY) as i64);
    match zoom {
        "month" => {
            let month = month_of_day(day);
            days(MONTH_STARTS_DAY[month], MONTH_STARTS_DAY[month + 1])
        }
        "week" => {
            let from = day.saturating_sub(3).min(358);
            days(from, from + 7)
        }
        "day" => days(day, day + 1),
        "hour" => {
            let from = at / SHORTEST * SHORTEST;
            Stretch { from, to: from + SHORTEST }
        }
        _ => Stretch::YEAR,
    }
}

/// The explorer. `build`: the build's address, as `/builds/NAME`.
fn explorer(build: &str, question: &Question, recorder: &Recorder, units: Units) -> Markup {
    let stretch = question.stretch;
    html! {
        section #explorer data-build=(build) data-from=(stretch.from) data-to=(stretch.to) {
            (moves(build, question))
            (choice(build, question, units))
            p #series-fault role="alert" hidden {}
            div .only-alive {
                label for="cursor" { "Time under the cursor" }
                input #cursor type="range" min=(stretch.from) max=(stretch.to - 1) step="1"
                    value=(stretch.middle()) aria-describedby="cursor-keys";
                p #under {}
                p #cursor-keys .quiet {
                    "Arrows move it, Page Up and Page Down by a tenth. Plus and minus show less and \
                     more, < and > what was before and after. Draw over a graph to show what you drew \
                     over; click on it and turn the wheel to come closer."
                }
            }
            div #graphs .only-alive {
                @for graph in Graph::ALL { (frame(graph, units)) }
            }
            noscript {
                p { "The graphs need the page's own script. The table has the same figures." }
            }
            (means(question, recorder, units))
        }
    }
}

/// The buttons that move the stretch: addresses, so that they work without a script too.
fn moves(build: &str, question: &Question) -> Markup {
    let stretch = question.stretch;
    let (from, to) = (stretch.from as i64, stretch.to as i64);
    let (length, middle) = (to - from, stretch.middle() as i64);
    let about = |length: i64| Stretch::within(middle - length / 2, middle - length / 2 + length);
    let steps = [
        ("earlier", "Earlier", Stretch::within(from - length, from)),
        ("later", "Later", Stretch::within(to, to + length)),
        ("closer", "Closer", about(length / 2)),
        ("wider", "Wider", about(length.saturating_mul(2))),
    ];
    html! {
        nav #stretch aria-label="Which stretch of the year" {
            p .stretch-said { strong { (words(stretch)) } }
            ul {
                @for (word, name) in ZOOMS {
                    li { a href=(format!("{build}/series?zoom={word}&at={middle}{}", question.shows())) { (name) } }
                }
            }
            ul {
                @for (word, name, wanted) in steps {
                    li {
                        @if wanted == stretch {
                            span .idle { (name) }
                        } @else {
                            a data-move=(word) href=(format!("{build}/series{}", question.query(wanted))) { (name) }
                        }
                    }
                }
            }
        }
    }
}

fn choice(build: &str, question: &Question, units: Units) -> Markup {
    html! {
        form #choice method="get" action=(format!("{build}/series")) {
            input type="hidden" name="from" value=(question.stretch.from);
            input type="hidden" name="to" value=(question.stretch.to);
            @for graph in Graph::ALL {
                fieldset {
                    legend { (graph.name()) ", " (graph.unit(units)) (graph.by_the_minute()) }
                    @for shown in Shown::ALL.into_iter().filter(|shown| shown.graph == graph) {
                        label {
                            input type="checkbox" name="show" value=(shown.word())
                                data-name=(shown.name) data-graph=(graph.word())
                                checked[question.shown.contains(&shown)];
                            " " (shown.name)
                        }
                    }
                }
            }
            button type="submit" .only-dead { "Show these" }
        }
    }
}

/// One graph, empty: the script draws into it. Lines are told apart by weight and dash, not by
/// colour alone.
fn frame(graph: Graph, units: Units) -> Markup {
    const DASHES: [(&str, &str); 6] =
        [("2.6", ""), ("2", "9 4"), ("2", ""), ("1.6", "2 4"), ("2", "9 3 2 3"), ("1.2", "")];
    html! {
        figure data-graph=(graph.word()) data-unit=(graph.unit(units))
            data-decimals=(graph.decimals(units)) data-by-the-minute=(graph.by_the_minute()) hidden {
            figcaption { (graph.name()) ", " (graph.unit(units)) (graph.by_the_minute()) }
            div .plot {}
            ul .line-names {
                @let lines = Shown::ALL.into_iter().filter(|shown| shown.graph == graph);
                @for (place, (shown, (width, dash))) in lines.zip(DASHES).enumerate() {
                    li data-word=(shown.word()) {
                        svg .line-mark width="26" height="8" viewBox="0 0 26 8" aria-hidden="true" {
                            line class={ "line-" (place + 1) } x1="0" y1="4" x2="26" y2="4"
                                stroke-width=(width) stroke-dasharray=[(!dash.is_empty()).then_some(dash)];
                        }
                        " " (shown.name)
                    }
                }
            }
        }
    }
}

/// The means of the stretch's steps, water its sums.
fn means(question: &Question, recorder: &Recorder, units: Units) -> Markup {
    let steps = Steps::of(question.stretch);
    let columns: Vec<(&Shown, &[f32])> = question
        .shown
        .iter()
        .filter_map(|shown| recorder.series(shown.channel).map(|series| (shown, series)))
        .collect();
    html! {
        section #means data-part="" {
            h2 { (steps.head()) ", " (words(question.stretch)) }
            p .quiet { "Means; of water, sums. Standard time, without summer time." }
            div .table-frame tabindex="0" role="region" aria-label="Table of the stretch shown" {
                table {
                    thead { tr {
                        th scope="col" { (steps.first_column()) }
                        @for (shown, _) in &columns {
                            th scope="col" { (shown.name) ", " (shown.graph.unit(units)) }
                        }
                    } }
                    tbody {
                        @for row in steps.within(question.stretch) {
                            tr {
                                th scope="row" { (steps.said(row)) }
                                @for (shown, series) in &columns {
                                    td { (cell(shown, &series[row.from..row.to], units)) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn cell(shown: &Shown, minutes: &[f32], units: Units) -> String {
    let value = shown.graph.in_units(summed_up(shown.channel, minutes), units);
    let text = format!("{:.*}", shown.graph.decimals(units), value.abs());
    let nothing = text.chars().all(|c| c == '0' || c == '.');
    if value < 0.0 && !nothing { format!("\u{2212}{text}") } else { text }
}

/// How finely the table tells a stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Steps {
    FiveMinutes,
    Hours,
    Days,
    Months,
}

impl Steps {
    /// So that the table has a few dozen rows.
    fn of(stretch: Stretch) -> Steps {
        match stretch.minutes() {
            ..=240 => Steps::FiveMinutes,
            241..=4320 => Steps::Hours,
            4321..=89_280 => Steps::Days,
            _ => Steps::Months,
        }
    }

    fn head(self) -> &'static str {
        match self {
            Steps::FiveMinutes => "By five minutes",
            Steps::Hours => "Hour by hour",
            Steps::Days => "Day by day",
            Steps::Months => "Month by month",
        }
    }

    fn first_column(self) -> &'static str {
        match self {
            Steps::FiveMinutes => "five minutes from",
            Steps::Hours => "hour from",
            Steps::Days => "day",
            Steps::Months => "month",
        }
    }

    /// The steps that a stretch touches, cut to it at its ends.
    fn within(self, stretch: Stretch) -> Vec<Stretch> {
        let mut rows = Vec::new();
        let mut from = stretch.from;
        while from < stretch.to {
            let to = self.end_after(from).min(stretch.to);
            rows.push(Stretch { from, to });
            from = to;
        }
        rows
    }

    fn end_after(self, minute: usize) -> usize {
        let next = |width: usize| (minute / width + 1) * width;
        match self {
            Steps::FiveMinutes => next(5),
            Steps::Hours => next(60),
            Steps::Days => next(DAY),
            Steps::Months => MONTH_STARTS_DAY[month_of_day(minute / DAY) + 1] * DAY,
        }
    }

    fn said(self, row: Stretch) -> String {
        match self {
            Steps::FiveMinutes | Steps::Hours => moment(row.from),
            Steps::Days => day_words(row.from / DAY),
            Steps::Months => MONTHS[month_of_day(row.from / DAY)].to_owned(),
        }
    }
}

/// A stretch in words: the year, a month by its name, a day, or from when to when.
fn words(stretch: Stretch) -> String {
    if stretch == Stretch::YEAR {
        return "the whole year".to_owned();
    }
    let (first, last) = (stretch.from / DAY, (stretch.to - 1) / DAY);
    if !stretch.from.is_multiple_of(DAY) || !stretch.to.is_multiple_of(DAY) {
        let end = if first == last { clock(stretch.to - first * DAY) } else { moment(stretch.to) };
        return format!("{} to {end}", moment(stretch.from));
    }
    let month = month_of_day(first);
    if first == MONTH_STARTS_DAY[month] && last + 1 == MONTH_STARTS_DAY[month + 1] {
        return MONTHS[month].to_owned();
    }
    if first == last {
        return day_words(first);
    }
    format!("{} to {}", day_words(first), day_words(last))
}

/// `12 June`, of a day counted from 1 January.
fn day_words(day: usize) -> String {
    let month = month_of_day(day);
    format!("{} {}", day - MONTH_STARTS_DAY[month] + 1, MONTHS[month])
}

/// `12 June, 13:40`; the year's last midnight is the last day's 24:00.
fn moment(minute: usize) -> String {
    let day = (minute / DAY).min(364);
    format!("{}, {}", day_words(day), clock(minute - day * DAY))
}

/// `13:40`, of a minute of the day.
fn clock(minute: usize) -> String {
    format!("{:02}:{:02}", minute / 60, minute % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given queries as links, forms and people write them, the stretch and channels they mean.
    #[test]
    fn a_query_is_read() {
        let year = Question::of("");
        assert_eq!(year.stretch, Stretch::YEAR);
        assert_eq!(year.shown.len(), Shown::FIRST.len());
        let day = Question::of("zoom=day&at=233300&show=pump&show=store-top");
        assert_eq!(words(day.stretch), "12 June");
        // In the order of the page, whatever the order asked for.
        assert_eq!(day.shown.iter().map(|s| s.word()).collect::<Vec<_>>(), ["store-top", "pump"]);
        assert_eq!(Question::of(day.query(day.stretch).trim_start_matches('?')), day);
        assert_eq!(words(Question::of("zoom=month&at=233300").stretch), "June");
        assert_eq!(
            words(Question::of("zoom=week&at=525599").stretch),
            "25 December to 31 December"
        );
        assert_eq!(
            words(Question::of("zoom=hour&at=525599").stretch),
            "31 December, 23:00 to 24:00"
        );
        let odd = Question::of("from=9999999999999999999&to=x&show=%00&show=../..");
        assert_eq!(odd, year);
        assert_eq!(words(Question::of("from=-50&to=10").stretch), "1 January, 00:00 to 01:00");
    }

    /// Given a stretch, its rows join end to end and cover it: the calendar's own months.
    #[test]
    fn rows_cover_the_stretch() {
        let rows = Steps::Months.within(Stretch::YEAR);
        assert_eq!(rows.len(), 12);
        assert_eq!(rows[1].minutes(), 28 * DAY);
        let odd = Stretch::within(100, 100 + 3000);
        let rows = Steps::of(odd).within(odd);
        assert_eq!((rows[0].from, rows[rows.len() - 1].to), (100, 3100));
        assert!(rows.windows(2).all(|pair| pair[0].to == pair[1].from));
        assert_eq!(rows[0].to, 120);
    }

    /// Given a recorded year, the table's cells are its means in the reader's units, and a name with
    /// signs of its own stays text.
    #[test]
    fn the_table_tells_means() {
        let recorder = Recorder::of(&Channel::ALL);
        let question = Question::of("zoom=hour&at=0&show=store-top&show=drawn");
        let page = explorer("/builds/a%22b", &question, &recorder, Units::Us).into_string();
        // Nothing was written: absolute zero, and no water (NIST SP 330: 0 K is -459.67 F).
        assert_eq!(page.matches("<td>\u{2212}459.7</td><td>0.00</td>").count(), 12);
        assert!(page.contains("store, top, °F") && page.contains("water drawn, US gal"), "{page}");
        assert!(!page.contains(" style="), "{page}");
    }
}
