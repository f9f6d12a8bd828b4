//! `physics`, `year` and their like know no file, clock, environment or standard output.

use crate::support::{files_under, is_test_only, none, parsed, root};
use syn::visit::{self, Visit};

/// Crates that compute and do nothing else; one that does not exist yet is looked for in vain.
const PURE: [&str; 5] = ["physics", "plate", "year", "advice", "trials"];

const OUTSIDE: [&str; 7] =
    ["std::fs", "std::env", "std::time", "std::io", "std::net", "std::process", "std::thread"];

const TALK: [&str; 6] = ["print", "println", "eprint", "eprintln", "dbg", "env"];

#[test]
fn computing_crates_do_not_reach_outside() {
    let mut faults = Vec::new();
    for name in PURE {
        let folder = format!("crates/{name}/src");
        if !root().join(&folder).exists() {
            continue;
        }
        assert!(!files_under(&folder).is_empty());
        for (file, syntax) in parsed(&folder) {
            // A module of tests in files of its own: what declares it carries the attribute.
            if file.contains("/tests/") || file.ends_with("/tests.rs") {
                continue;
            }
            let mut search = Search { file: &file, faults: &mut faults };
            search.visit_file(&syntax);
        }
    }
    none("what a computing crate must not touch", &faults);
}

struct Search<'a> {
    file: &'a str,
    faults: &'a mut Vec<String>,
}

impl Search<'_> {
    fn report(&mut self, span: proc_macro2::Span, what: &str) {
        self.faults.push(format!("{}:{}: {what}", self.file, span.start().line));
    }

    fn look_at(&mut self, span: proc_macro2::Span, path: &str) {
        let within = |outside: &&str| {
            path.strip_prefix(*outside)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
        };
        if OUTSIDE.iter().any(within) {
            self.report(span, path);
        }
    }
}

impl<'ast> Visit<'ast> for Search<'_> {
    fn visit_item(&mut self, item: &'ast syn::Item) {
        let attributes = match item {
            syn::Item::Mod(module) => &module.attrs,
            syn::Item::Fn(function) => &function.attrs,
            syn::Item::Use(import) => &import.attrs,
            _ => &Vec::new(),
        };
        if !is_test_only(attributes) {
            visit::visit_item(self, item);
        }
    }

    fn visit_item_use(&mut self, import: &'ast syn::ItemUse) {
        let mut paths = Vec::new();
        flatten(&import.tree, String::new(), &mut paths);
        for path in paths {
            self.look_at(import.use_token.span, &path);
        }
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let names: Vec<String> = path.segments.iter().map(|part| part.ident.to_string()).collect();
        self.look_at(path.segments[0].ident.span(), &names.join("::"));
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, call: &'ast syn::Macro) {
        let name = call.path.segments.last().unwrap().ident.to_string();
        if TALK.contains(&name.as_str()) {
            self.report(call.path.segments[0].ident.span(), &format!("{name}!"));
        }
        // A macro's arguments are mere tokens to the parser.
        let tokens = call.tokens.to_string().replace(' ', "");
        for outside in OUTSIDE {
            if tokens.contains(outside) {
                self.report(call.path.segments[0].ident.span(), outside);
            }
        }
        visit::visit_macro(self, call);
    }
}

/// The full paths of a `use` with braces.
fn flatten(tree: &syn::UseTree, before: String, paths: &mut Vec<String>) {
    match tree {
        syn::UseTree::Path(path) => {
            flatten(&path.tree, format!("{before}{}::", path.ident), paths);
        }
        syn::UseTree::Name(name) => paths.push(format!("{before}{}", name.ident)),
        syn::UseTree::Rename(rename) => paths.push(format!("{before}{}", rename.ident)),
        syn::UseTree::Glob(_) => paths.push(before.trim_end_matches("::").to_owned()),
        syn::UseTree::Group(group) => {
            for tree in &group.items {
                flatten(tree, before.clone(), paths);
            }
        }
    }
}

#[test]
fn the_search_finds_what_it_is_for() {
    let bad = "use std::{fs, f64}; fn a() { std::env::var(\"X\"); println!(\"x\"); }
        fn b() { assert!(std::time::Instant::now() > t); }
        #[cfg(test)] mod tests { use std::fs; fn c() { println!(\"fine\"); } }";
    let mut faults = Vec::new();
    Search { file: "bad.rs", faults: &mut faults }.visit_file(&syn::parse_file(bad).unwrap());
    assert_eq!(
        faults,
        [
            "bad.rs:1: std::fs",
            "bad.rs:1: std::env::var",
            "bad.rs:1: println!",
            "bad.rs:2: std::time"
        ]
    );
}
