//! A number with a unit says so in its name.

use crate::support::{is_test_only, list, none, parsed};
use std::collections::BTreeSet;
use syn::visit::{self, Visit};

/// The units a name may end in. `_k` is kelvin, absolute or a difference; `1_m` is per metre.
const UNITS: &[&str] = &[
    "m", "m2", "m3", "1_m", "m3_s", "m_s", "m2_s", "m3_kg", "m_s2", // lengths, flows
    "kg", "kg_s", "kg_m", "kg_m2", "kg_m3", "kg_m_s", "kg_s_m2", "kg_kg", // masses
    "pa", "pa_m", "pa_s", "n", "n_m", "n_m2", "1_pa", "pa_k", // forces
    "k", "1_k", "k_s", "k_m", "k_w", "k_m2_w", "m2_k_w", "w_m2_k4", // temperatures
    "w", "w_k", "w_m", "w_m2", "w_m_k", "w_m2_k", "w_m2_k2", "w_m3", // powers
    "j", "j_k", "j_kg", "j_m2", "j_m3", "j_kg_k", "j_m_k", "j_m2_k", "j_m3_k", // energies
    "s", "min", "h", "1_h", "1_s", "day", "h_day", // times
    "rad", "1_rad", // angles where no `Angle` stands
];

/// Names without a unit, kept as a list so that each was meant.
const DIMENSIONLESS: &str = include_str!("dimensionless.txt");

#[test]
fn numbers_with_a_unit_say_so_in_their_name() {
    let plain: Vec<&str> = list(DIMENSIONLESS).into_iter().map(|(name, _)| name).collect();
    let (mut faults, mut met) = (Vec::new(), BTreeSet::new());
    for folder in ["crates/physics/src", "crates/year/src"] {
        for (file, syntax) in parsed(folder) {
            let mut search = Search { found: Vec::new() };
            search.visit_file(&syntax);
            for (name, line) in search.found {
                if let Some(entry) = plain.iter().find(|entry| is_meant(entry, &name)) {
                    met.insert(*entry);
                } else if !has_unit(&name) {
                    faults.push(format!("{file}:{line}: {name}"));
                }
            }
        }
    }
    none(
        "numbers whose names end in no known unit; a dimensionless one goes into \
         tests/house/dimensionless.txt with what it is",
        &faults,
    );
    let idle: Vec<String> =
        plain.iter().filter(|entry| !met.contains(*entry)).map(|entry| entry.to_string()).collect();
    none("dimensionless.txt lists names that no number bears any more", &idle);
}

/// Whether an entry of the list means this name; `*_share` means every name that ends so.
fn is_meant(entry: &str, name: &str) -> bool {
    match entry.strip_prefix('*') {
        Some(ending) => name.ends_with(ending),
        None => entry == name,
    }
}

fn has_unit(name: &str) -> bool {
    let name = name.to_lowercase();
    UNITS.iter().any(|unit| name.ends_with(&format!("_{unit}")))
}

/// Collects the names of public fields, constants and parameters that are plain numbers.
struct Search {
    found: Vec<(String, usize)>,
}

impl Search {
    fn note(&mut self, name: &syn::Ident) {
        self.found.push((name.to_string(), name.span().start().line));
    }

    fn note_parameters(&mut self, signature: &syn::Signature) {
        for input in &signature.inputs {
            if let syn::FnArg::Typed(argument) = input
                && let syn::Pat::Ident(name) = &*argument.pat
                && is_number(&argument.ty)
            {
                self.note(&name.ident);
            }
        }
    }
}

impl<'ast> Visit<'ast> for Search {
    fn visit_item_mod(&mut self, module: &'ast syn::ItemMod) {
        if !is_test_only(&module.attrs) {
            visit::visit_item_mod(self, module);
        }
    }

    fn visit_field(&mut self, field: &'ast syn::Field) {
        if let (syn::Visibility::Public(_), Some(name)) = (&field.vis, &field.ident)
            && is_number(&field.ty)
        {
            self.note(name);
        }
    }

    /// A variant's fields are as public as the enum.
    fn visit_item_enum(&mut self, item: &'ast syn::ItemEnum) {
        let public = matches!(item.vis, syn::Visibility::Public(_));
        for field in item.variants.iter().flat_map(|variant| &variant.fields) {
            if let (true, Some(name)) = (public, &field.ident)
                && is_number(&field.ty)
            {
                self.note(name);
            }
        }
    }

    fn visit_item_const(&mut self, constant: &'ast syn::ItemConst) {
        if matches!(constant.vis, syn::Visibility::Public(_)) && is_number(&constant.ty) {
            self.note(&constant.ident);
        }
    }

    fn visit_item_fn(&mut self, function: &'ast syn::ItemFn) {
        if matches!(function.vis, syn::Visibility::Public(_)) {
            self.note_parameters(&function.sig);
        }
    }

    fn visit_impl_item_fn(&mut self, function: &'ast syn::ImplItemFn) {
        if matches!(function.vis, syn::Visibility::Public(_)) {
            self.note_parameters(&function.sig);
        }
    }
}

/// `f64`, `f32`, or several of them: array, slice, vector, option, reference.
fn is_number(kind: &syn::Type) -> bool {
    match kind {
        syn::Type::Array(array) => is_number(&array.elem),
        syn::Type::Slice(slice) => is_number(&slice.elem),
        syn::Type::Reference(reference) => is_number(&reference.elem),
        syn::Type::Path(path) => {
            let last = path.path.segments.last().unwrap();
            match (last.ident.to_string().as_str(), &last.arguments) {
                ("f64" | "f32", _) => true,
                ("Vec" | "Option", syn::PathArguments::AngleBracketed(inner)) => {
                    inner.args.iter().any(
                        |argument| matches!(argument, syn::GenericArgument::Type(t) if is_number(t)),
                    )
                }
                _ => false,
            }
        }
        _ => false,
    }
}

#[test]
fn the_search_sees_every_kind_of_number() {
    let source = "pub const SPEED: f64 = 1.0;
        pub struct S { pub a: f64, b: f64, pub c: Vec<f64>, pub d: Option<[f64; 3]>, pub e: usize }
        pub enum E { One { f: f64 }, Two(f64) }
        pub fn g(h: f64, i: &[f64], j: usize) {} fn k(l: f64) {}
        impl S { pub fn m(&self, n: f64) {} }";
    let mut search = Search { found: Vec::new() };
    search.visit_file(&syn::parse_file(source).unwrap());
    let names: Vec<&str> = search.found.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["SPEED", "a", "c", "d", "f", "h", "i", "n"]);
    assert!(has_unit("plate_k") && has_unit("ZERO_CELSIUS_K") && has_unit("loss_w_m2_k"));
    assert!(!has_unit("tilt") && !has_unit("k") && !has_unit("speed_kmh"));
}
