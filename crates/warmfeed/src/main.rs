//! The workshop tool of a person who builds their own solar water heating.
//!
//! This crate alone reads and writes files and talks; the others compute.

mod arguments;
mod commands;
mod files;
mod hot;
mod interrupt;
mod page;
mod pictures;
mod print;
mod progress;
mod sample;
mod seams;
mod sums;
mod view;
mod wire;
mod worry_words;

use arguments::Failure;

fn main() {
    interrupt::listen();
    let status = match arguments::parse() {
        Ok(arguments) => commands::run(&arguments),
        Err(Failure { text, to_stdout, status }) => {
            if to_stdout {
                // Nothing is left to do where help itself cannot be printed.
                drop(print::out(&text));
            } else {
                print::talk(text.trim_end());
            }
            status
        }
    };
    std::process::exit(status);
}
