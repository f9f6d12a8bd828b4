//! The local network: shut unless asked for, and behind a code when it is open.

use std::net::{IpAddr, SocketAddr, UdpSocket};

use crate::support::{FORM, Served, ask, connect_to, form};

/// This computer's address on its network, where it has one.
fn own_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind("0.0.0.0:0").ok()?;
    // Nothing is sent: an address kept for documents (RFC 5737) only chooses the way out.
    socket.connect("192.0.2.1:9").ok()?;
    let address = socket.local_addr().ok()?.ip();
    (!address.is_loopback() && !address.is_unspecified()).then_some(address)
}

/// Given no word about the network, the program listens on this computer's own address only: so says
/// the system's table, and a call from the network's side finds nobody.
#[test]
fn the_network_is_shut_unless_asked_for() {
    let served = Served::start();
    let port: u16 = served.host.split(':').nth(1).unwrap().parse().unwrap();
    assert!(served.host.starts_with("127.0.0.1:"), "{}", served.host);
    #[cfg(target_os = "linux")]
    {
        let tables = ["/proc/net/tcp", "/proc/net/tcp6"]
            .map(|table| std::fs::read_to_string(table).unwrap_or_default());
        let port = format!(":{port:04X}");
        // Second column: the address listened on; fourth: 0A is listening.
        let listens: Vec<&str> = tables
            .iter()
            .flat_map(|table| table.lines())
            .map(|line| line.split_whitespace().collect::<Vec<_>>())
            .filter(|cells| cells.len() > 3 && cells[3] == "0A" && cells[1].ends_with(&port))
            .map(|cells| cells[1])
            .map(|address| address.split(':').next().unwrap())
            .collect();
        assert_eq!(listens, ["0100007F"], "listening elsewhere than on 127.0.0.1");
    }
    if let Some(address) = own_address() {
        assert!(connect_to(SocketAddr::new(address, port)).is_err(), "{address} answers");
    }
}

/// Given the network opened, a device there sees the pairing sheet and nothing else until it shows the
/// terminal's code; five wrong codes and even the right one has to wait.
#[test]
fn a_device_on_the_network_pairs_first() {
    let Some(address) = own_address() else {
        panic!("this test needs a network address of this computer, and it has none");
    };
    let served = Served::with(&["--lan"]);
    let port: u16 = served.host.split(':').nth(1).unwrap().parse().unwrap();
    let device = SocketAddr::new(address, port);
    let host = format!("Host: {device}");
    let get = |path: &str, cookie: &str| {
        let cookie = format!("Cookie: {cookie}");
        ask(connect_to(device).unwrap(), &[&format!("GET {path} HTTP/1.1"), &host, &cookie], "")
    };
    let code = || {
        let talk = served.talk.lock().unwrap().clone();
        let after = talk.split_once("Pairing code: ").map(|(_, after)| after.to_owned());
        after.map(|after| after.lines().next().unwrap().replace(' ', ""))
    };
    let mut waited = 0;
    while code().is_none() && waited < 100 {
        std::thread::sleep(std::time::Duration::from_millis(50));
        waited += 1;
    }
    let code = code().expect("the terminal shows a pairing code");
    assert_eq!(code.len(), 8);
    for path in ["/", "/about", "/builds", "/builds/first-panel", "/events", "/sums"] {
        for cookie in ["", "warmfeed-paired=", "warmfeed-paired=0"] {
            let answer = get(path, cookie);
            assert_eq!(answer.status, 303, "{path}: {}", answer.head);
            assert_eq!(answer.header("location"), Some("/pair"), "{path}");
            assert!(!answer.text().contains("token"), "{path}");
        }
    }
    assert_eq!(get("/pair", "").status, 200);
    let origin = format!("Origin: http://{device}");
    let pair = |code: &str| {
        let head = ["POST /pair HTTP/1.1", &host, FORM, &origin];
        ask(connect_to(device).unwrap(), &head, &form(&[("code", code)]))
    };
    let wrong = pair("00000000x");
    assert!(wrong.header("set-cookie").is_none(), "{}", wrong.head);
    let right = pair(&code);
    let kept = right.header("set-cookie").expect("the right code is taken").to_owned();
    assert!(kept.contains("HttpOnly") && kept.contains("SameSite=Strict"), "{kept}");
    let cookie = kept.split(';').next().unwrap();
    assert_eq!(get("/about", cookie).status, 200);
    for _ in 0..5 {
        assert!(pair("1").header("set-cookie").is_none());
    }
    assert!(pair(&code).header("set-cookie").is_none(), "guessing may go on without a pause");
    // The device that is paired already is not thrown out, and this computer needs no pairing.
    assert_eq!(get("/about", cookie).status, 200);
    assert_eq!(served.get("/about").status, 200);
}
