//! The page's server, asked by a client that does what browsers will not: lies about its host, sends
//! too much, comes two hundred at once, or sees the program killed while it writes.

mod columns;
mod crowd;
mod killed;
mod lists;
mod network;
mod paths;
mod strangers;
mod support;
mod worries;
