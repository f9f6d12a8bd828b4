//! Words that stay out: of what people read, and, for places on someone's machine, of everything.

use crate::support::{files_ending, is_test_only, none, parsed, read, root};
use syn::visit::{self, Visit};

/// Words `docs/vocabulary.md` rules out.
const AVOIDED: [&str; 12] = [
    "wizard",
    "scenario",
    "project tree",
    "variant",
    "component library",
    "flowsheet",
    "dashboard",
    "workbench",
    "notebook",
    "traffic light",
    "score",
    "rating",
];

/// The verdict this program never gives.
const VERDICT: [&str; 2] = ["safe", "safely"];

/// Where something lies on one person's machine or in one firm's network; in two halves, so that
/// this file does not hold them itself.
const PLACES: [(&str, &str); 7] = [
    ("/wo", "rk/"),
    ("/ro", "ot/"),
    ("/ho", "me/"),
    ("/tm", "p/"),
    ("artifac", "tory"),
    ("index.crates", ".io"),
    ("files.python", "hosted"),
];

#[test]
fn people_do_not_meet_the_words_we_avoid() {
    let mut faults = Vec::new();
    let mut texts = files_ending("docs", &[".md"]);
    texts.extend(
        ["README.md", "ARCHITECTURE.md", "CONTRIBUTING.md", "CHANGELOG.md", "NOTICE"]
            .map(str::to_owned),
    );
    // The vocabulary names the words in order to rule them out.
    texts.retain(|name| name != "docs/vocabulary.md" && root().join(name).exists());
    texts.extend(files_ending("crates", &[".html", ".js", ".css", ".svg"]));
    // Nobody reads words in the code of others.
    texts.retain(|name| !name.contains("/vendor/"));
    texts.extend(files_ending("samples", &[".toml", ".md"]));
    texts.extend(files_ending("reference", &[".toml", ".md"]));
    for name in &texts {
        for (number, line) in read(name).lines().enumerate() {
            for word in avoided_in(line) {
                faults.push(format!("{name}:{}: {word}", number + 1));
            }
        }
    }
    // The catalogue quotes the trade, which rates pipes and joints: only the verdict counts there.
    for name in files_ending("catalogue", &[".toml", ".md"]) {
        for (number, line) in read(&name).lines().enumerate() {
            for word in whole_words(line, &VERDICT) {
                faults.push(format!("{name}:{}: {word}", number + 1));
            }
        }
    }
    for (file, syntax) in parsed("crates") {
        if file.contains("/src/") {
            // The binary's doc comments become its help; elsewhere only strings reach people.
            let help = file.starts_with("crates/warmfeed/");
            Strings { file: &file, help, faults: &mut faults }.visit_file(&syntax);
        }
    }
    none("words that people should not meet; docs/vocabulary.md has better ones", &faults);
}

#[test]
fn no_file_names_a_place_on_someones_machine() {
    let endings = [
        ".rs",
        ".py",
        ".js",
        ".css",
        ".html",
        ".md",
        ".toml",
        ".csv",
        ".txt",
        ".json",
        ".sh",
        "test",
        "run",
        "NOTICE",
        "Cargo.lock",
        ".snap",
    ];
    let files = files_ending("", &endings);
    assert!(files.iter().any(|name| name == "test"), "the search must reach ./test");
    let mut faults = Vec::new();
    for name in &files {
        for (number, line) in read(name).lines().enumerate() {
            for (first, second) in PLACES {
                if line.contains(&format!("{first}{second}")) {
                    faults.push(format!("{name}:{}: {first}{second}", number + 1));
                }
            }
        }
    }
    none("places that exist on one machine only", &faults);
}

/// The words people should not meet that stand in a line.
fn avoided_in(line: &str) -> Vec<&'static str> {
    let mut found = whole_words(line, &AVOIDED);
    found.extend(whole_words(line, &VERDICT));
    found
}

/// Which of the words stand in a line as whole words, whatever their case.
fn whole_words(line: &str, words: &[&'static str]) -> Vec<&'static str> {
    let lower = line.to_lowercase();
    let whole = |word: &str| {
        lower.match_indices(word).any(|(at, _)| {
            let before = lower[..at].chars().next_back();
            let after = lower[at + word.len()..].chars().next();
            let inside = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '_');
            !inside(before) && !inside(after)
        })
    };
    words.iter().copied().filter(|word| whole(word)).collect()
}

struct Strings<'a> {
    file: &'a str,
    help: bool,
    faults: &'a mut Vec<String>,
}

impl<'ast> Visit<'ast> for Strings<'_> {
    fn visit_item_mod(&mut self, module: &'ast syn::ItemMod) {
        if !is_test_only(&module.attrs) {
            visit::visit_item_mod(self, module);
        }
    }

    fn visit_attribute(&mut self, attribute: &'ast syn::Attribute) {
        if self.help {
            visit::visit_attribute(self, attribute);
        }
    }

    fn visit_lit_str(&mut self, text: &'ast syn::LitStr) {
        for word in avoided_in(&text.value()) {
            self.faults.push(format!("{}:{}: {word}", self.file, text.span().start().line));
        }
    }

    fn visit_macro(&mut self, call: &'ast syn::Macro) {
        // Messages stand in `format!` and its kin, whose arguments are mere tokens to the parser.
        self.visit_tokens(call.tokens.clone());
    }
}

impl Strings<'_> {
    fn visit_tokens(&mut self, tokens: proc_macro2::TokenStream) {
        for token in tokens {
            match token {
                proc_macro2::TokenTree::Group(group) => self.visit_tokens(group.stream()),
                proc_macro2::TokenTree::Literal(literal) => {
                    if let syn::Lit::Str(text) = syn::Lit::new(literal) {
                        self.visit_lit_str(&text);
                    }
                }
                _ => {}
            }
        }
    }
}

#[test]
fn the_search_finds_what_it_is_for() {
    assert_eq!(avoided_in("A Score of 3, scored"), ["score"]);
    assert_eq!(avoided_in("unsafe, safety, invariant, operating"), [""; 0]);
    assert_eq!(avoided_in("this is safe."), ["safe"]);
    let source =
        "/// A safe doc.\nfn a() { b(\"the wizard\"); format!(\"{} {}\", c(\"a rating\"), 1); }
        #[cfg(test)] mod tests { fn d() { e(\"dashboard\"); } }";
    let mut faults = Vec::new();
    Strings { file: "x.rs", help: false, faults: &mut faults }
        .visit_file(&syn::parse_file(source).unwrap());
    assert_eq!(faults, ["x.rs:2: wizard", "x.rs:2: rating"]);
}
