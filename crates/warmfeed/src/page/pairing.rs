//! The pairing of a device on the local network: a short code that the terminal shows.

use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use super::guard::{same, secret};

/// Wrong codes before a pause.
const TRIES: u32 = 5;
/// How long nothing is taken after that.
const PAUSE: Duration = Duration::from_secs(60);

/// A run's pairing.
pub struct Pairing {
    /// The code that the terminal shows.
    pub code: String,
    /// What a paired device keeps.
    secret: String,
    tries: Mutex<(u32, Option<Instant>)>,
}

/// What became of a code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tried {
    /// It is right: what the device keeps.
    Right(String),
    /// It is wrong.
    Wrong,
    /// Too many were wrong: nothing is taken for a minute.
    Pause,
}

impl Pairing {
    /// A new code of eight digits.
    ///
    /// # Errors
    /// Where the system gives nothing random.
    pub fn new() -> Result<Pairing, getrandom::Error> {
        let mut bytes = [0_u8; 8];
        getrandom::fill(&mut bytes)?;
        let number = u64::from_le_bytes(bytes) % 100_000_000;
        Ok(Pairing {
            code: format!("{number:08}"),
            secret: secret()?,
            tries: Mutex::new((0, None)),
        })
    }

    /// Tries a code; blanks in it do not matter.
    pub fn try_code(&self, typed: &str) -> Tried {
        let mut tries = self.tries.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(since) = tries.1 {
            if since.elapsed() < PAUSE {
                return Tried::Pause;
            }
            *tries = (0, None);
        }
        let typed: String = typed.chars().filter(|sign| !sign.is_whitespace()).collect();
        if same(typed.as_bytes(), self.code.as_bytes()) {
            *tries = (0, None);
            return Tried::Right(self.secret.clone());
        }
        tries.0 += 1;
        if tries.0 >= TRIES {
            tries.1 = Some(Instant::now());
        }
        Tried::Wrong
    }

    /// True for what a paired device keeps.
    pub fn knows(&self, shown: &str) -> bool {
        same(shown.as_bytes(), self.secret.as_bytes())
    }
}

#[cfg(test)]
mod tests {
    use super::{Pairing, Tried};

    /// Given the right code after four wrong ones it is taken; after five, it is not for a while.
    #[test]
    fn guessing_is_slow() {
        let pairing = Pairing::new().expect("random bytes");
        for _ in 0..4 {
            assert_eq!(pairing.try_code("x"), Tried::Wrong);
        }
        let Tried::Right(kept) = pairing.try_code(&pairing.code) else {
            panic!("the code is right")
        };
        assert!(pairing.knows(&kept) && !pairing.knows("x"));
        for _ in 0..5 {
            assert_eq!(pairing.try_code("x"), Tried::Wrong);
        }
        assert_eq!(pairing.try_code(&pairing.code), Tried::Pause);
    }
}
