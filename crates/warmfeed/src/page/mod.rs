//! The page: a server on this computer that shows a job book in the browser.
//!
//! Views format what the core computed; the browser sets text, classes and positions.

mod about;
mod answer;
mod assets;
mod book;
mod builds;
mod channel;
mod clock;
mod column;
mod day;
mod desk;
mod guard;
mod history;
mod late;
mod new;
mod news;
mod numbers;
mod overview;
mod pairing;
mod reader;
mod reckoned;
mod routes;
mod rule;
mod series;
mod shell;
mod sums;
mod year;

pub use book::{Book, is_name};
pub use pairing::Pairing;

use std::collections::BTreeMap;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};
use std::time::Duration;

use anyhow::{Context, Result};
use tokio::net::TcpListener;

use crate::interrupt;
use desk::Desk;
use news::News;
use overview::Overview;

/// One run of the server.
pub struct House {
    /// The job book.
    pub book: Book,
    /// True where the book is a copy of the sample.
    pub is_sample: bool,
    /// The build that is opened first.
    pub first: Option<String>,
    /// What every change must bring.
    pub token: String,
    /// Host names that are this program.
    pub hosts: Vec<String>,
    /// The pairing of devices on the local network; `None` where only this computer is served.
    pub pairing: Option<Pairing>,
    /// Tells windows what changed.
    pub news: News,
    /// What the list of builds tells of each.
    pub overview: Overview,
    desks: Mutex<Desks>,
}

/// Open builds by name; a place is empty while its build is being opened.
type Desks = BTreeMap<String, Arc<OnceLock<Arc<Desk>>>>;

/// What is to be served.
pub struct Settings {
    /// The job book.
    pub book: Book,
    /// True where the book is a copy of the sample.
    pub is_sample: bool,
    /// The build that is opened first.
    pub first: Option<String>,
    /// Port; 0 for any that is free.
    pub port: u16,
    /// The pairing, where the local network is served too.
    pub pairing: Option<Pairing>,
}

impl House {
    fn desks(&self) -> MutexGuard<'_, Desks> {
        self.desks.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A build of the book, opened; `None` where the book does not hold it.
    pub fn desk(&self, name: &str) -> Option<Arc<Desk>> {
        let path = self.book.path(name).filter(|_| self.book.holds(name))?;
        let place = Arc::clone(self.desks().entry(name.to_owned()).or_default());
        // Computed without holding other builds up; of many that ask at once one computes, the others
        // wait for it.
        Some(Arc::clone(place.get_or_init(|| Desk::open(name, &path, self.news.clone()))))
    }

    /// Forgets an open build, whose file has gone or has another name.
    pub fn close(&self, name: &str) {
        let place = self.desks().remove(name);
        if let Some(desk) = place.as_ref().and_then(|place| place.get()) {
            desk.close();
        }
    }

    fn watch(&self) {
        let desks: Vec<Arc<Desk>> =
            self.desks().values().filter_map(|place| place.get().map(Arc::clone)).collect();
        for desk in desks {
            desk.watch();
        }
    }
}

/// Serves until the user asks to stop. `ready` hears the addresses: of this computer, and of the local
/// network where it is served.
///
/// # Errors
/// Where the port cannot be had.
pub fn serve(settings: Settings, ready: impl FnOnce(&Addresses, Option<&Pairing>)) -> Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .context("the server cannot start")?;
    runtime.block_on(serving(settings, ready))?;
    // Work under way for windows that nobody looks at any more is not waited for.
    runtime.shutdown_timeout(Duration::from_millis(200));
    Ok(())
}

/// Where the page is.
pub struct Addresses {
    /// On this computer.
    pub here: String,
    /// On the local network.
    pub network: Option<String>,
}

async fn serving(
    settings: Settings,
    ready: impl FnOnce(&Addresses, Option<&Pairing>),
) -> Result<()> {
    let is_shared = settings.pairing.is_some();
    let bound = if is_shared { Ipv4Addr::UNSPECIFIED } else { Ipv4Addr::LOCALHOST };
    let listener = TcpListener::bind((bound, settings.port)).await.with_context(|| {
        format!("port {} of this computer is taken; give another with --port", settings.port)
    })?;
    let port = listener.local_addr().context("the server has no address")?.port();
    let own = is_shared.then(network_address).flatten();
    let mut hosts: Vec<String> =
        ["127.0.0.1", "localhost"].map(|name| format!("{name}:{port}")).to_vec();
    hosts.extend(own.map(|address| format!("{address}:{port}")));
    let house = Arc::new(House {
        book: settings.book,
        is_sample: settings.is_sample,
        first: settings.first,
        token: guard::secret().context("the system gives nothing random")?,
        hosts,
        pairing: settings.pairing,
        news: News::default(),
        overview: Overview::default(),
        desks: Mutex::default(),
    });
    let addresses = Addresses {
        here: format!("http://127.0.0.1:{port}/"),
        network: own.map(|address| format!("http://{address}:{port}/")),
    };
    ready(&addresses, house.pairing.as_ref());
    watch(Arc::clone(&house));
    let app =
        routes::routes(Arc::clone(&house)).into_make_service_with_connect_info::<SocketAddr>();
    let serving = axum::serve(listener, app);
    tokio::select! {
        ended = async { serving.await } => ended.context("the server stopped")?,
        () = asked_to_stop() => {}
    }
    Ok(())
}

/// Looks at the open builds' files every second.
fn watch(house: Arc<House>) {
    tokio::spawn(async move {
        loop {
            tokio::time::sleep(Duration::from_secs(1)).await;
            let house = Arc::clone(&house);
            // A panic there is one look lost.
            drop(tokio::task::spawn_blocking(move || house.watch()).await);
        }
    });
}

async fn asked_to_stop() {
    while !interrupt::asked() {
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

/// This computer's address on its local network. Nothing is sent: the system is only asked which of its
/// addresses it would use towards one that is kept for documents (RFC 5737).
fn network_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    let address = socket.local_addr().ok()?.ip();
    (!address.is_loopback() && !address.is_unspecified()).then_some(address)
}
