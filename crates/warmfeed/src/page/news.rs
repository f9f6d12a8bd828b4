//! What changed, told to every open window.

use tokio::sync::broadcast;

/// One change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Which build.
    pub build: String,
    /// Its count of changes.
    pub version: u64,
}

/// Tells changes to whoever listens.
#[derive(Clone)]
pub struct News {
    sender: broadcast::Sender<Item>,
}

impl Default for News {
    fn default() -> Self {
        News { sender: broadcast::channel(256).0 }
    }
}

impl News {
    /// Tells one.
    pub fn tell(&self, build: &str, version: u64) {
        // Nobody may be listening.
        drop(self.sender.send(Item { build: build.to_owned(), version }));
    }

    /// Listens from now on.
    pub fn listen(&self) -> broadcast::Receiver<Item> {
        self.sender.subscribe()
    }
}
