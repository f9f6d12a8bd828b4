//! Too much, and too many.

use std::io::Write;
use std::time::{Duration, Instant};

use crate::support::{Answer, BUILD, FORM, Served};

/// Given a body of a gigabyte, announced or in chunks without an end, it is refused after a few megabytes
/// and the program's memory stays small; the next asker is served.
#[test]
fn a_gigabyte_is_refused_early() {
    const ALL: usize = 1 << 30;
    let served = Served::start();
    served.get("/about");
    #[cfg(target_os = "linux")]
    let before = crate::support::most_memory(served.id());
    for announced in [true, false] {
        let mut stream = served.connect();
        stream.set_write_timeout(Some(Duration::from_secs(20))).unwrap();
        let size = if announced {
            format!("Content-Length: {ALL}")
        } else {
            "Transfer-Encoding: chunked".to_owned()
        };
        let head = format!(
            "POST /builds/{BUILD}/edit HTTP/1.1\r\nHost: {}\r\n{FORM}\r\n{size}\r\nConnection: close\r\n\r\n",
            served.host
        );
        stream.write_all(head.as_bytes()).unwrap();
        let data = [b'x'; 65_536];
        let mut sent = 0;
        while sent < ALL {
            let part = if announced {
                stream.write_all(&data)
            } else {
                write!(stream, "{:x}\r\n", data.len())
                    .and_then(|()| stream.write_all(&data))
                    .and_then(|()| stream.write_all(b"\r\n"))
            };
            if part.is_err() {
                break;
            }
            sent += data.len();
        }
        // What was on its way when the door shut lies in the system's own buffers.
        assert!(sent < 32 << 20, "announced {announced}: {sent} bytes were taken");
        let answer = std::panic::catch_unwind(move || Answer::read(&mut stream));
        // The refusal may be lost to the reset that follows it; it must never be an acceptance.
        if let Ok(answer) = answer {
            assert_eq!(answer.status, 413, "{}", answer.head);
        }
        #[cfg(target_os = "linux")]
        {
            let grown = crate::support::most_memory(served.id()) - before;
            assert!(grown < 64 << 20, "announced {announced}: {grown} bytes of memory");
        }
    }
    assert_eq!(served.get("/about").status, 200);
}

/// Given heads that never end, the program does not wait with all it has: others are served meanwhile.
#[test]
fn slow_askers_do_not_hold_up_others() {
    let served = Served::start();
    let mut slow: Vec<_> = (0..100).map(|_| served.connect()).collect();
    for stream in &mut slow {
        stream.write_all(b"GET /about HTTP/1.1\r\nHost: ").unwrap();
    }
    let began = Instant::now();
    assert_eq!(served.get("/about").status, 200);
    assert!(began.elapsed() < Duration::from_secs(5), "{:?}", began.elapsed());
}

/// Given a head larger than any browser's, it is refused.
#[test]
fn a_head_without_end_is_refused() {
    let served = Served::start();
    let mut stream = served.connect();
    let line = format!("X-Long: {}\r\n", "x".repeat(60_000));
    drop(stream.write_all(format!("GET /about HTTP/1.1\r\nHost: {}\r\n", served.host).as_bytes()));
    for _ in 0..200 {
        if stream.write_all(line.as_bytes()).is_err() {
            break;
        }
    }
    let answer = std::panic::catch_unwind(move || Answer::read(&mut stream));
    if let Ok(answer) = answer {
        assert!((400..500).contains(&answer.status), "{}", answer.head);
    }
    assert_eq!(served.get("/about").status, 200);
}

/// Given two hundred clients at once that all ask for a build nobody opened before, each gets the whole
/// page, and it is computed once, not two hundred times.
#[test]
fn two_hundred_clients_at_once() {
    let served = Served::start();
    let began = Instant::now();
    let pages: Vec<(u16, bool)> = std::thread::scope(|scope| {
        let askers: Vec<_> = (0..200)
            .map(|_| {
                scope.spawn(|| {
                    let answer = served.get(&format!("/builds/{BUILD}"));
                    (answer.status, answer.text().trim_end().ends_with("</html>"))
                })
            })
            .collect();
        askers.into_iter().map(|asker| asker.join().unwrap()).collect()
    });
    assert!(pages.iter().all(|page| *page == (200, true)), "{pages:?}");
    // A year recorded by the minute is 25 MB: two hundred of them would be five gigabytes.
    #[cfg(target_os = "linux")]
    {
        let memory = crate::support::most_memory(served.id());
        assert!(memory < 600 << 20, "{} MB", memory >> 20);
    }
    assert!(began.elapsed() < Duration::from_secs(60), "{:?}", began.elapsed());
}
