//! The series' columns: what the page draws is what the command line writes.

use crate::support::{BUILD, Served};

fn floats(bytes: &[u8]) -> Vec<f32> {
    assert!(bytes.len().is_multiple_of(4), "{} bytes", bytes.len());
    bytes.as_chunks::<4>().0.iter().map(|four| f32::from_le_bytes(*four)).collect()
}

/// Given a day of the store's top, its minutes are those that `year --out` writes to a hundredth of a
/// degree; given the year at 900 points, each bucket's ends are the minutes' least and most.
#[test]
fn columns_are_the_years_minutes() {
    let served = Served::start();
    let out = served.book.join("out");
    let file = served.book.join(format!("{BUILD}.toml"));
    let written = std::process::Command::new(env!("CARGO_BIN_EXE_warmfeed"))
        .args(["year", "--no-band", "--minutes", "store-top", "--out"])
        .args([&out, &file])
        .output()
        .unwrap();
    assert!(written.status.success(), "{}", String::from_utf8_lossy(&written.stderr));
    let minutes: Vec<f32> = std::fs::read_to_string(out.join("minutes.csv"))
        .unwrap()
        .lines()
        .skip(1)
        .map(|line| line.split(',').nth(1).unwrap().parse().unwrap())
        .collect();
    let column = |query: &str| {
        let answer = served.get(&format!("/builds/{BUILD}/column/store-top?{query}"));
        assert_eq!(answer.status, 200, "{}", answer.text());
        (answer.header("bucket-minutes").unwrap().parse::<usize>().unwrap(), floats(&answer.body))
    };
    let near = |one: f32, other: f32| (one - other).abs() < 0.0051;
    let (bucket, day) = column("from=233280&to=234720&points=2000");
    assert_eq!((bucket, day.len()), (1, 1440));
    for (place, value) in day.iter().enumerate() {
        assert!(near(*value, minutes[233_280 + place]), "minute {place}: {value}");
    }
    let (bucket, year) = column("from=0&to=525600&points=900");
    assert_eq!(year.len(), 2 * minutes.len().div_ceil(bucket));
    for (two, of_bucket) in year.as_chunks::<2>().0.iter().zip(minutes.chunks(bucket)) {
        let least = of_bucket.iter().copied().fold(f32::INFINITY, f32::min);
        let most = of_bucket.iter().copied().fold(f32::NEG_INFINITY, f32::max);
        assert!(near(two[0], least) && near(two[1], most), "{two:?}");
    }
    let places = served.get(&format!("/builds/{BUILD}/column/minute?from=0&to=525600&points=900"));
    assert_eq!(floats(&places.body).len() * 2, year.len());
    assert_eq!(served.get(&format!("/builds/{BUILD}/column/colour")).status, 404);
    assert_eq!(served.get("/builds/nobody/column/store-top").status, 404);
}
