//! Problems on a terminal: the line, what points into it, how to mend it.

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use design::problem::{Problem, Severity};

/// Draws problems of one file, in the order given, without colour.
///
/// `text`: the file's text, where it is text; problems with a place in it show the line.
pub fn problems(problems: &[Problem], text: Option<&str>) -> String {
    let renderer = Renderer::plain();
    let mut drawn = String::new();
    for problem in problems {
        let level = match problem.severity {
            Severity::Fault => Level::ERROR.with_name("fault"),
            Severity::Warning => Level::WARNING.with_name("warning"),
            Severity::Note => Level::NOTE,
        };
        let title = if problem.place.is_empty() {
            problem.says.clone()
        } else {
            format!("{}: {}", problem.place, problem.says)
        };
        let title = level.primary_title(title).id(problem.code);
        let shown = text.filter(|_| problem.span.line > 0 && problem.span.column > 0);
        let mut groups = Vec::new();
        match shown {
            Some(text) => {
                let span = problem.span.start..problem.span.end.max(problem.span.start);
                groups.push(title.element(
                    Snippet::source(text).path(problem.file.as_str()).fold(true).annotation(
                        AnnotationKind::Primary.span(span).label(problem.expected.clone()),
                    ),
                ));
            }
            None => {
                let place = if problem.span.line > 0 {
                    format!("in {}, line {}", problem.file, problem.span.line)
                } else {
                    format!("in {}", problem.file)
                };
                let mut group = Group::with_title(title);
                group = group.element(Level::NOTE.with_name("place").message(place));
                if !problem.found.is_empty() {
                    group = group
                        .element(Level::NOTE.with_name("found").message(problem.found.clone()));
                }
                if !problem.expected.is_empty() {
                    group = group.element(
                        Level::NOTE.with_name("expected").message(problem.expected.clone()),
                    );
                }
                groups.push(group);
            }
        }
        if !problem.hint.is_empty() {
            groups.push(Group::with_title(
                Level::HELP.with_name("hint").secondary_title(problem.hint.clone()),
            ));
        }
        drawn.push_str(&renderer.render(&groups));
        drawn.push_str("\n\n");
    }
    drawn
}
