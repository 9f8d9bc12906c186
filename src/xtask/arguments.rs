//! The flags after a command. Every flag must be taken by the command, or [`Arguments::finish`]
//! refuses it: a mistyped flag never passes unseen.

use std::str::FromStr;

use anyhow::{Context, Result, bail};

/// Flags not yet taken by the command.
pub struct Arguments {
    left: Vec<String>,
}

impl Arguments {
    /// Takes the words that follow the command.
    pub fn new(words: &[String]) -> Self {
        Self {
            left: words.to_vec(),
        }
    }

    /// Is this flag given?
    pub fn flag(&mut self, name: &str) -> bool {
        let before = self.left.len();
        self.left.retain(|word| word != name);
        self.left.len() != before
    }

    /// The word after this flag. Errors when the flag is the last word.
    pub fn value(&mut self, name: &str) -> Result<Option<String>> {
        let Some(at) = self.left.iter().position(|word| word == name) else {
            return Ok(None);
        };
        if at + 1 == self.left.len() {
            bail!("{name} needs a value after it");
        }
        self.left.remove(at);
        Ok(Some(self.left.remove(at)))
    }

    /// The next word that is no flag. Errors with what is wanted when there is none.
    pub fn word(&mut self, wanted: &str) -> Result<String> {
        match self.left.iter().position(|word| !word.starts_with("--")) {
            Some(at) => Ok(self.left.remove(at)),
            None => bail!("this command needs {wanted}"),
        }
    }

    /// The number after this flag. Errors when it is not a number in range.
    pub fn number<N: FromStr>(&mut self, name: &str) -> Result<Option<N>>
    where
        N::Err: std::error::Error + Send + Sync + 'static,
    {
        let Some(text) = self.value(name)? else {
            return Ok(None);
        };
        let number = text
            .parse()
            .with_context(|| format!("{name} needs a number, got '{text}'"))?;
        Ok(Some(number))
    }

    /// Errors when a word is left that no one took.
    pub fn finish(&self) -> Result<()> {
        if let Some(word) = self.left.first() {
            bail!("unknown flag '{word}'; `cargo xtask help` lists them");
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arguments(words: &[&str]) -> Arguments {
        Arguments::new(&words.iter().map(|w| w.to_string()).collect::<Vec<_>>())
    }

    #[test]
    fn takes_flags_in_any_order() {
        let mut given = arguments(&["--out", "x", "--dev", "--port", "80"]);
        assert_eq!(given.number::<u16>("--port").unwrap(), Some(80));
        assert!(given.flag("--dev"));
        assert!(!given.flag("--strict"));
        assert_eq!(given.value("--out").unwrap().as_deref(), Some("x"));
        given.finish().unwrap();
    }

    #[test]
    fn takes_a_word_that_is_no_flag() {
        let mut given = arguments(&["--dev", "history.json"]);
        assert_eq!(given.word("a file").unwrap(), "history.json");
        let error = given.word("a file").unwrap_err();
        assert_eq!(error.to_string(), "this command needs a file");
    }

    #[test]
    fn refuses_what_it_does_not_know() {
        assert!(arguments(&["--prot"]).finish().is_err());
        assert!(arguments(&["--port"]).value("--port").is_err());
        assert!(
            arguments(&["--port", "70000"])
                .number::<u16>("--port")
                .is_err()
        );
    }
}
