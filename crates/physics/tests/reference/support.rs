//! Reads the reference cases, so that a test names a case and retypes no number of it.
//!
//! A case passes where the difference is no more than the larger of its relative and its
//! absolute tolerance, both kept in the file beside the answer, plus half a unit in the ninth
//! figure: the files print no more, so a tolerance of 1e-9 would else reject the exact answer.

use std::path::PathBuf;

use toml::{Table, Value};

/// A case of `reference/thermal-checks.toml`.
pub fn thermal(id: &str) -> Case {
    let case = find("thermal-checks.toml", "case", id);
    let tolerances = case.get("tol").and_then(Value::as_table).cloned().unwrap_or_default();
    Case::new(id, &case, tolerances)
}

/// A case of `reference/hydraulics-checks.toml`.
pub fn hydraulics(id: &str) -> Case {
    let case = find("hydraulics-checks.toml", "check", id);
    let mut tolerances = Table::new();
    for (here, there) in [("rel", "rel_tol"), ("abs", "abs_tol")] {
        if let Some(value) = case.get(there) {
            tolerances.insert(here.to_owned(), value.clone());
        }
    }
    Case::new(id, &case, tolerances)
}

/// Where the reference files lie.
pub fn reference_file(name: &str) -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../reference")).join(name)
}

/// One case: what is given, what is expected, how closely.
pub struct Case {
    id: String,
    inputs: Table,
    expected: Table,
    recomputed: Table,
    tolerances: Table,
}

impl Case {
    fn new(id: &str, case: &Table, tolerances: Table) -> Self {
        let table = |key: &str| {
            case.get(key)
                .and_then(Value::as_table)
                .unwrap_or_else(|| panic!("case {id} has no table `{key}`"))
                .clone()
        };
        let recomputed =
            case.get("recomputed").and_then(Value::as_table).cloned().unwrap_or_default();
        Case {
            id: id.to_owned(),
            inputs: table("inputs"),
            expected: table("expected"),
            recomputed,
            tolerances,
        }
    }

    /// A given number; `path` may reach into a table, as in `A.L_m`.
    pub fn given(&self, path: &str) -> f64 {
        self.number(lookup(&self.inputs, path), path)
    }

    /// A given list of numbers.
    pub fn given_list(&self, path: &str) -> Vec<f64> {
        self.list(lookup(&self.inputs, path), path)
    }

    /// A given table of numbers, row by row.
    pub fn given_rows(&self, path: &str) -> Vec<Vec<f64>> {
        let rows = lookup(&self.inputs, path).and_then(Value::as_array);
        rows.unwrap_or_else(|| panic!("case {} has no rows `{path}`", self.id))
            .iter()
            .map(|row| self.list(Some(row), path))
            .collect()
    }

    /// An expected number.
    pub fn expected(&self, name: &str) -> f64 {
        self.number(self.expected.get(name).map(unwrap_unit), name)
    }

    /// An expected list of numbers.
    pub fn expected_list(&self, name: &str) -> Vec<f64> {
        self.list(self.expected.get(name).map(unwrap_unit), name)
    }

    /// A number that another hand computed for this case; `path` as in [`Case::given`].
    pub fn recomputed(&self, path: &str) -> f64 {
        self.number(lookup(&self.recomputed, path), path)
    }

    /// A table of numbers that another hand computed for this case, row by row.
    pub fn recomputed_rows(&self, name: &str) -> Vec<Vec<f64>> {
        let rows = self.recomputed.get(name).and_then(Value::as_array);
        rows.unwrap_or_else(|| panic!("case {} has no rows `{name}`", self.id))
            .iter()
            .map(|row| self.list(Some(row), name))
            .collect()
    }

    /// A tolerance by its own key, as `upper_bound` or `abs_to_70`.
    pub fn stated_tolerance(&self, key: &str) -> f64 {
        self.number(self.tolerances.get(key), key)
    }

    /// The two ends of a stated range, as `plausible_range`.
    pub fn stated_range(&self, key: &str) -> [f64; 2] {
        let ends = self.list(self.tolerances.get(key), key);
        ends.try_into().unwrap_or_else(|_| panic!("case {} has no two ends `{key}`", self.id))
    }

    /// Fails unless `got` is the expected number within the case's own tolerance.
    #[track_caller]
    pub fn check(&self, name: &str, got: f64) {
        self.close(name, self.expected(name), got);
    }

    /// Fails unless every number is the expected one within the case's own tolerance.
    #[track_caller]
    pub fn check_list(&self, name: &str, got: &[f64]) {
        let expected = self.expected_list(name);
        assert_eq!(expected.len(), got.len(), "{} {name}: lengths differ", self.id);
        for (&want, &have) in expected.iter().zip(got) {
            self.close(name, want, have);
        }
    }

    #[track_caller]
    fn close(&self, name: &str, want: f64, got: f64) {
        let stated = (self.tolerance(name, "rel") * want.abs()).max(self.tolerance(name, "abs"));
        assert!(stated > 0.0, "case {} states no tolerance for `{name}`", self.id);
        let printed =
            if want == 0.0 { 0.0 } else { 0.5 * 10f64.powf(want.abs().log10().floor() - 8.0) };
        let allowed = stated + printed;
        assert!(
            (got - want).abs() <= allowed,
            "{} {name}: expected {want} within {allowed:e}, got {got} (off by {:e})",
            self.id,
            got - want
        );
    }

    /// The tolerance of that one name where the file states it, else the case's.
    ///
    /// The file shortens names there by whole words from the end: `fin_abs` is for `fin_eff`.
    fn tolerance(&self, name: &str, kind: &str) -> f64 {
        let shortened = name.match_indices('_').map(|(at, _)| &name[..at]).rev();
        let own = std::iter::once(name)
            .chain(shortened)
            .find_map(|start| self.tolerances.get(&format!("{start}_{kind}")));
        own.or_else(|| self.tolerances.get(kind)).and_then(as_number).unwrap_or(0.0)
    }

    fn number(&self, value: Option<&Value>, name: &str) -> f64 {
        value
            .and_then(as_number)
            .unwrap_or_else(|| panic!("case {} has no number `{name}`", self.id))
    }

    fn list(&self, value: Option<&Value>, name: &str) -> Vec<f64> {
        value
            .and_then(Value::as_array)
            .and_then(|array| array.iter().map(as_number).collect())
            .unwrap_or_else(|| panic!("case {} has no list of numbers `{name}`", self.id))
    }
}

/// The case with this id.
fn find(file: &str, kind: &str, id: &str) -> Table {
    let path = reference_file(file);
    let text = std::fs::read_to_string(&path)
        .unwrap_or_else(|error| panic!("cannot read {}: {error}", path.display()));
    let document: Table =
        text.parse().unwrap_or_else(|error| panic!("{} is no TOML: {error}", path.display()));
    document[kind]
        .as_array()
        .and_then(|cases| cases.iter().find(|case| case["id"].as_str() == Some(id)))
        .and_then(Value::as_table)
        .unwrap_or_else(|| panic!("{} has no case {id}", path.display()))
        .clone()
}

fn lookup<'a>(table: &'a Table, path: &str) -> Option<&'a Value> {
    if let Some(value) = table.get(path) {
        return Some(value);
    }
    let (first, rest) = path.split_once('.')?;
    lookup(table.get(first)?.as_table()?, rest)
}

/// The hydraulics file writes `{ value, unit }`, the thermal file the bare value.
fn unwrap_unit(value: &Value) -> &Value {
    value.get("value").unwrap_or(value)
}

fn as_number(value: &Value) -> Option<f64> {
    value.as_float().or_else(|| value.as_integer().map(|whole| whole as f64))
}

/// Both files are read alike: SY-04 holds bare numbers and one `rel`, C-08 numbers with units,
/// G-02 a table among its inputs, ST-08 lists and one `abs`.
#[test]
fn both_files_are_read_alike() {
    thermal("SY-04").check("net_gain_w", 1009.0 * 1.0019);
    hydraulics("C-08").check("f_straight", 0.0426666667);
    assert_eq!(hydraulics("G-02").given("A.bore_m"), 0.0136);
    let coil = thermal("ST-08");
    assert_eq!(coil.given_list("ntu"), [0.5, 1.0, 2.0, 3.0]);
    coil.check_list("effectiveness", &coil.expected_list("effectiveness"));
    assert!(reference_file("fluid-vectors.csv").exists());
}

/// A number outside the tolerance fails: SY-04 allows 0.2 %.
#[test]
#[should_panic(expected = "SY-04 net_gain_w")]
fn a_number_outside_the_tolerance_fails() {
    thermal("SY-04").check("net_gain_w", 1009.0 * 1.0021);
}
