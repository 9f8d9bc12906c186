//! The key-value store everything is kept on.
//!
//! Start at [`Shelf`]. Implementations report every failure; none pretends
//! that a refused write was kept.

use std::fmt;
use weekloom_engine::order::Map;

/// A write was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ShelfError {
    /// No room is left.
    Full,
    /// The person or the browser forbids storage.
    Denied,
    /// Anything else, in the browser's words.
    Broken(String),
}

impl fmt::Display for ShelfError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Full => f.write_str("the storage is full; export a backup and free some room"),
            Self::Denied => f.write_str(
                "storage is switched off for this site; allow it in the browser's settings",
            ),
            Self::Broken(words) => write!(f, "the storage failed: {words}"),
        }
    }
}

impl std::error::Error for ShelfError {}

/// A map from text keys to text values that outlives the program.
pub trait Shelf {
    /// The value under a key; `None` when there is none.
    fn get(&self, key: &str) -> Option<String>;

    /// Puts a value under a key.
    ///
    /// # Errors
    /// [`ShelfError`] when the value was not kept; what stood there before
    /// still stands.
    fn set(&mut self, key: &str, value: &str) -> Result<(), ShelfError>;

    /// Takes a key away. Taking away a key that is not there is no failure.
    ///
    /// # Errors
    /// [`ShelfError`] when the key is still there.
    fn remove(&mut self, key: &str) -> Result<(), ShelfError>;

    /// All keys, in no particular order, those of other programs included.
    fn keys(&self) -> Vec<String>;
}

impl Shelf for Box<dyn Shelf> {
    fn get(&self, key: &str) -> Option<String> {
        (**self).get(key)
    }

    fn set(&mut self, key: &str, value: &str) -> Result<(), ShelfError> {
        (**self).set(key, value)
    }

    fn remove(&mut self, key: &str) -> Result<(), ShelfError> {
        (**self).remove(key)
    }

    fn keys(&self) -> Vec<String> {
        (**self).keys()
    }
}

/// A shelf that lasts as long as the program: for tests, and for browsers
/// that deny storage.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct MemoryShelf {
    values: Map<String, String>,
    quota: Option<usize>,
}

impl MemoryShelf {
    /// An empty shelf that takes everything.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// An empty shelf for at most so many characters, keys and values
    /// together, as browsers count them.
    #[must_use]
    pub fn with_quota(characters: usize) -> Self {
        Self {
            values: Map::new(),
            quota: Some(characters),
        }
    }

    /// Changes the room; what stands on the shelf stays.
    pub fn set_quota(&mut self, characters: Option<usize>) {
        self.quota = characters;
    }

    /// Characters in use, keys and values together.
    #[must_use]
    pub fn used(&self) -> usize {
        self.values.iter().map(|(k, v)| k.len() + v.len()).sum()
    }
}

impl Shelf for MemoryShelf {
    fn get(&self, key: &str) -> Option<String> {
        self.values.get(key).cloned()
    }

    fn set(&mut self, key: &str, value: &str) -> Result<(), ShelfError> {
        if let Some(quota) = self.quota {
            let old = self.values.get(key).map_or(0, |v| key.len() + v.len());
            if self.used() - old + key.len() + value.len() > quota {
                return Err(ShelfError::Full);
            }
        }
        self.values.insert(key.to_owned(), value.to_owned());
        Ok(())
    }

    fn remove(&mut self, key: &str) -> Result<(), ShelfError> {
        self.values.remove(key);
        Ok(())
    }

    fn keys(&self) -> Vec<String> {
        self.values.keys().cloned().collect()
    }
}
