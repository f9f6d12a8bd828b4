//! A published relation says where it is from and where it holds.

use crate::support::{is_test_only, none, parsed};
use syn::visit::{self, Visit};

const SECTIONS: [&str; 2] = ["# Source", "# Valid range"];

#[test]
fn published_relations_state_source_and_range() {
    let mut faults = Vec::new();
    for (file, syntax) in parsed("crates/physics/src") {
        let mut search = Search { file: &file, faults: &mut faults };
        search.visit_file(&syntax);
    }
    none("functions named after a publication whose doc comment lacks a section", &faults);
}

struct Search<'a> {
    file: &'a str,
    faults: &'a mut Vec<String>,
}

impl Search<'_> {
    fn look_at(
        &mut self,
        attributes: &[syn::Attribute],
        vis: &syn::Visibility,
        sig: &syn::Signature,
    ) {
        let name = sig.ident.to_string();
        if !matches!(vis, syn::Visibility::Public(_)) || !names_a_year(&name) {
            return;
        }
        let doc = doc_lines(attributes);
        for section in SECTIONS {
            if !doc.iter().any(|line| line == section) {
                let line = sig.ident.span().start().line;
                self.faults.push(format!("{}:{line}: {name} has no `{section}`", self.file));
            }
        }
    }
}

impl<'ast> Visit<'ast> for Search<'_> {
    fn visit_item_mod(&mut self, module: &'ast syn::ItemMod) {
        if !is_test_only(&module.attrs) {
            visit::visit_item_mod(self, module);
        }
    }

    fn visit_item_fn(&mut self, function: &'ast syn::ItemFn) {
        self.look_at(&function.attrs, &function.vis, &function.sig);
    }

    fn visit_impl_item_fn(&mut self, function: &'ast syn::ImplItemFn) {
        self.look_at(&function.attrs, &function.vis, &function.sig);
    }
}

/// Whether a name ends as in `nusselt_hollands_1976`.
fn names_a_year(name: &str) -> bool {
    name.rsplit_once('_').is_some_and(|(before, year)| {
        !before.is_empty()
            && year.len() == 4
            && year.parse().is_ok_and(|y: u16| (1800..2100).contains(&y))
    })
}

fn doc_lines(attributes: &[syn::Attribute]) -> Vec<String> {
    attributes
        .iter()
        .filter_map(|attribute| match &attribute.meta {
            syn::Meta::NameValue(pair) if pair.path.is_ident("doc") => match &pair.value {
                syn::Expr::Lit(syn::ExprLit { lit: syn::Lit::Str(text), .. }) => {
                    Some(text.value().trim().to_owned())
                }
                _ => None,
            },
            _ => None,
        })
        .collect()
}

#[test]
fn the_search_finds_what_it_is_for() {
    let source = "/// One.\n/// # Source\n/// X 1976.\npub fn a_hollands_1976() {}
        /// Two.\npub fn b() {} fn c_private_1977() {}";
    let mut faults = Vec::new();
    Search { file: "x.rs", faults: &mut faults }.visit_file(&syn::parse_file(source).unwrap());
    assert_eq!(faults, ["x.rs:4: a_hollands_1976 has no `# Valid range`"]);
}
