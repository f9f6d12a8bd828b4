//! The built program serving a copy of the samples, and a client that writes its requests by hand.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// The build that the tests ask for.
pub const BUILD: &str = "first-panel";

/// A running server with a book of its own; both go with it.
pub struct Served {
    child: Child,
    /// Host and port, as a browser names them.
    pub host: String,
    /// The job book's folder.
    pub book: PathBuf,
    /// What it said on standard error so far.
    pub talk: Arc<Mutex<String>>,
    folder: Option<tempfile::TempDir>,
}

impl Served {
    /// Serves a fresh copy of the samples to this computer.
    pub fn start() -> Served {
        Served::with(&[])
    }

    /// The same with more words on the command line.
    pub fn with(words: &[&str]) -> Served {
        let folder = tempfile::tempdir().unwrap();
        let book = folder.path().join("book");
        std::fs::create_dir_all(book.join("weather")).unwrap();
        let samples = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../samples"));
        for part in ["", "weather"] {
            for entry in std::fs::read_dir(samples.join(part)).unwrap() {
                let path = entry.unwrap().path();
                if path.is_file() {
                    std::fs::copy(&path, book.join(part).join(path.file_name().unwrap())).unwrap();
                }
            }
        }
        let mut served = Served::on(&book, words);
        served.folder = Some(folder);
        served
    }

    /// Serves a book that is there already, and leaves it there.
    pub fn on(book: &Path, words: &[&str]) -> Served {
        let mut child = Command::new(env!("CARGO_BIN_EXE_warmfeed"))
            .args(["open", "--no-browser", "--port", "0"])
            .args(words)
            .arg(book)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let talk = Arc::new(Mutex::new(String::new()));
        let heard = Arc::clone(&talk);
        let errors = BufReader::new(child.stderr.take().unwrap());
        std::thread::spawn(move || {
            for line in errors.lines().map_while(Result::ok) {
                heard.lock().unwrap().push_str(&format!("{line}\n"));
            }
        });
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let host = line
            .trim()
            .strip_prefix("http://")
            .and_then(|rest| rest.strip_suffix('/'))
            .unwrap_or_else(|| panic!("no address but `{line}`; {}", talk.lock().unwrap()))
            .to_owned();
        Served { child, host, book: book.to_path_buf(), talk, folder: None }
    }

    /// The process's number.
    pub fn id(&self) -> u32 {
        self.child.id()
    }

    /// Ends it as a crash of the computer would: at once, asking nothing.
    pub fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// A connection to it.
    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(&self.host).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        stream
    }

    /// Sends a request as written, line ends added, and reads the answer to its end.
    pub fn ask(&self, head: &[&str], body: &str) -> Answer {
        ask(self.connect(), head, body)
    }

    /// What a browser gets at a path.
    pub fn get(&self, path: &str) -> Answer {
        self.ask(&[&format!("GET {path} HTTP/1.1"), &format!("Host: {}", self.host)], "")
    }

    /// A change as the page's own form makes it.
    pub fn post(&self, path: &str, fields: &[(&str, &str)]) -> Answer {
        let token = self.token();
        let body = form(&[&[("token", &token[..])], fields].concat());
        let own = format!("Origin: http://{}", self.host);
        self.ask(
            &[&format!("POST {path} HTTP/1.1"), &format!("Host: {}", self.host), FORM, &own],
            &body,
        )
    }

    /// The token that the page's forms bring.
    pub fn token(&self) -> String {
        let page = self.get("/about").text();
        let after = page.split_once("name=\"token\" value=\"").expect("a form with a token").1;
        after.split('"').next().unwrap().to_owned()
    }

    /// A build's design file as it stands on disk.
    pub fn file(&self) -> String {
        std::fs::read_to_string(self.book.join(format!("{BUILD}.toml"))).unwrap()
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        drop(self.child.kill());
        drop(self.child.wait());
    }
}

/// The kind of body that a form sends.
pub const FORM: &str = "Content-Type: application/x-www-form-urlencoded";

/// Fields as a form sends them.
pub fn form(fields: &[(&str, &str)]) -> String {
    form_urlencoded::Serializer::new(String::new()).extend_pairs(fields).finish()
}

/// Sends a request over a connection and reads the answer to its end.
pub fn ask(mut stream: TcpStream, head: &[&str], body: &str) -> Answer {
    let length = format!("Content-Length: {}", body.len());
    let lines = [head, &["Connection: close", &length]].concat();
    let text = format!("{}\r\n\r\n{body}", lines.join("\r\n"));
    stream.write_all(text.as_bytes()).unwrap();
    Answer::read(&mut stream)
}

/// A connection to an address that is not the server's own name.
pub fn connect_to(address: SocketAddr) -> std::io::Result<TcpStream> {
    let stream = TcpStream::connect_timeout(&address, Duration::from_secs(2))?;
    stream.set_read_timeout(Some(Duration::from_secs(30)))?;
    Ok(stream)
}

/// An answer, its head and body apart.
pub struct Answer {
    /// The status in figures.
    pub status: u16,
    /// The head's lines.
    pub head: String,
    /// The body.
    pub body: Vec<u8>,
}

impl Answer {
    /// Reads until the other side closes.
    pub fn read(stream: &mut TcpStream) -> Answer {
        let mut bytes = Vec::new();
        let mut part = [0_u8; 65_536];
        // A refusal may be followed by a reset, since not all that was sent is read.
        while let Ok(count) = stream.read(&mut part) {
            if count == 0 {
                break;
            }
            bytes.extend_from_slice(&part[..count]);
        }
        Answer::of(&bytes)
    }

    fn of(bytes: &[u8]) -> Answer {
        let at = bytes.windows(4).position(|four| four == b"\r\n\r\n").unwrap_or_else(|| {
            panic!("no answer but `{}`", String::from_utf8_lossy(bytes));
        });
        let head = String::from_utf8_lossy(&bytes[..at]).into_owned();
        let status = head.split(' ').nth(1).and_then(|word| word.parse().ok()).unwrap_or(0);
        let body = &bytes[at + 4..];
        let chunked = head.to_lowercase().contains("transfer-encoding: chunked");
        Answer { status, head, body: if chunked { joined(body) } else { body.to_vec() } }
    }

    /// The body as text.
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    /// A line of the head by its name.
    pub fn header(&self, name: &str) -> Option<&str> {
        self.head.lines().find_map(|line| {
            let (have, value) = line.split_once(':')?;
            have.eq_ignore_ascii_case(name).then_some(value.trim())
        })
    }
}

/// A chunked body's chunks, one after another.
fn joined(mut body: &[u8]) -> Vec<u8> {
    let mut whole = Vec::new();
    while let Some(at) = body.windows(2).position(|two| two == b"\r\n") {
        let size = std::str::from_utf8(&body[..at]).unwrap();
        let size = usize::from_str_radix(size.trim(), 16).unwrap();
        if size == 0 {
            break;
        }
        whole.extend_from_slice(&body[at + 2..at + 2 + size]);
        body = &body[at + 4 + size..];
    }
    whole
}

/// The most memory a process ever held \[bytes\].
#[cfg(target_os = "linux")]
pub fn most_memory(process: u32) -> u64 {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).unwrap();
    let line = status.lines().find(|line| line.starts_with("VmHWM:")).unwrap();
    line.split_whitespace().nth(1).unwrap().parse::<u64>().unwrap() * 1024
}
