//! The program is killed while it writes: the design file is the former one or the new one, whole.

use std::time::Duration;

use crate::support::{BUILD, FORM, Served, form};

/// Given a kill at moments spread over a save, from before the change arrives to after it is answered, the
/// file on disk is word for word one of the two, and the book opens again with the same builds.
#[test]
fn a_kill_while_saving_leaves_the_file_whole() {
    let rounds = if std::env::var_os("WARMFEED_FULL").is_some() { 200 } else { 24 };
    let first = Served::start();
    let folder = tempfile::tempdir().unwrap();
    let book = folder.path().join("book");
    copy(&first.book, &book);
    drop(first);
    let path = book.join(format!("{BUILD}.toml"));
    let read = || std::fs::read_to_string(&path).unwrap();
    let original = read();
    let with = |degrees: usize| {
        original.replace("tilt = \"35 deg\"", &format!("tilt = \"{degrees} deg\""))
    };
    let (mut old, mut new) = (0, 0);
    let save = how_long_a_save_takes(&book, &read);
    for round in 0..rounds {
        let mut served = Served::on(&book, &[]);
        let before = read();
        let after = with(40 + round % 40);
        let asking = ask(&served, 40 + round % 40);
        // From before the save to as long again after it, on this computer as it is now.
        std::thread::sleep(save.mul_f64(2.0 * round as f64 / rounds as f64));
        served.kill();
        asking.join().unwrap();
        let now = read();
        assert!(now == before || now == after, "round {round}: a third text:\n{now}");
        if now == after {
            new += 1
        } else {
            old += 1
        }
        let builds = |folder: &std::path::Path| {
            let mut names: Vec<String> = std::fs::read_dir(folder)
                .unwrap()
                .map(|entry| entry.unwrap().file_name().into_string().unwrap())
                .filter(|name| name.ends_with(".toml"))
                .collect();
            names.sort();
            names
        };
        assert_eq!(builds(&book), builds(crate_samples().as_path()), "round {round}");
    }
    // Kills that all come before the save, or all after it, would show nothing.
    assert!(old > 0 && new > 0, "{old} kills before the save, {new} after it");
    assert_eq!(Served::on(&book, &[]).get(&format!("/builds/{BUILD}")).status, 200);
}

/// Sends a change of the slope, in a thread of its own.
fn ask(served: &Served, degrees: usize) -> std::thread::JoinHandle<()> {
    let value = format!("{degrees} deg");
    let token = served.token();
    let body = form(&[("token", &token), ("place", "sun.tilt"), ("value", &value)]);
    // Opened first, so that the change's own moment is not lost in the year's.
    served.get(&format!("/builds/{BUILD}"));
    let host = served.host.clone();
    std::thread::spawn(move || {
        use std::io::{Read, Write};
        let head = format!(
            "POST /builds/{BUILD}/edit HTTP/1.1\r\nHost: {host}\r\n{FORM}\r\nContent-Length: {}\r\n\r\n",
            body.len()
        );
        let mut stream = std::net::TcpStream::connect(&host).unwrap();
        drop(stream.write_all(format!("{head}{body}").as_bytes()));
        drop(stream.read(&mut [0; 1024]));
    })
}

/// From the request to the file's new text, where nothing is killed.
fn how_long_a_save_takes(book: &std::path::Path, read: &dyn Fn() -> String) -> Duration {
    let served = Served::on(book, &[]);
    let before = read();
    let asking = ask(&served, 39);
    let start = std::time::Instant::now();
    while read() == before {
        assert!(start.elapsed() < Duration::from_secs(60), "nothing was saved in a minute");
        std::thread::sleep(Duration::from_micros(200));
    }
    let save = start.elapsed();
    asking.join().unwrap();
    save
}

fn crate_samples() -> std::path::PathBuf {
    std::path::PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../samples"))
}

fn copy(from: &std::path::Path, to: &std::path::Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let target = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy(&path, &target);
        } else {
            std::fs::copy(&path, &target).unwrap();
        }
    }
}
