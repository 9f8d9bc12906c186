//! What the app may weigh: measures a build and compares it with `tests/budgets.toml`.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail, ensure};

use crate::{build, paths};

/// One file of a build.
pub struct Weight {
    /// Path below the built folder.
    pub path: String,
    /// Bytes as they are.
    pub raw: usize,
    /// Bytes of the brotli copy; those of the file itself where it has none.
    pub brotli: usize,
}

/// Weighs every file of a built folder but the compressed copies.
pub fn weigh(dist: &Path) -> Result<Vec<Weight>> {
    let mut files = build::Files::new();
    build::add_folder(&mut files, dist, dist)
        .context("nothing is built: run `cargo xtask build` first")?;
    let weights = files
        .iter()
        .filter(|(path, _)| build::part_of(path) != "copies")
        .map(|(path, bytes)| Weight {
            path: path.clone(),
            raw: bytes.len(),
            brotli: files
                .get(&format!("{path}.br"))
                .map_or(bytes.len(), Vec::len),
        });
    Ok(weights.collect())
}

/// Raw and compressed bytes of what loads before the app first shows.
pub fn first_load(weights: &[Weight]) -> (usize, usize) {
    let counted = weights.iter().filter(|w| build::is_first_load(&w.path));
    counted.fold((0, 0), |sum, w| (sum.0 + w.raw, sum.1 + w.brotli))
}

/// Prints the weight of each file of the first load; errors when their sum is over the limit.
pub fn check(dist: &Path) -> Result<()> {
    let text = fs::read_to_string(paths::root().join("tests/budgets.toml"))
        .context("could not read tests/budgets.toml")?;
    let limit = limit_of(&text, FIRST_LOAD)?;
    let page_limit = limit_of(&text, REFERENCE_PAGE)?;
    let weights = weigh(dist)?;
    ensure!(
        weights.iter().any(|w| w.path.ends_with(".wasm")),
        "{} holds no wasm module: build first",
        dist.display()
    );
    println!("      raw   brotli  file");
    for weight in weights.iter().filter(|w| build::is_first_load(&w.path)) {
        println!("{:9}{:9}  {}", weight.raw, weight.brotli, weight.path);
    }
    let (raw, brotli) = first_load(&weights);
    println!("{raw:9}{brotli:9}  first load; the limit is {limit}");
    let page = weights
        .iter()
        .find(|w| build::part_of(&w.path) == "numbers");
    let page = page.context("the build holds no page of numbers")?;
    println!(
        "{:9}{:9}  {}; the limit is {page_limit}",
        page.raw, page.brotli, page.path
    );
    within("the first load", brotli, limit)?;
    within(&page.path, page.brotli, page_limit)
}

fn within(what: &str, brotli: usize, limit: usize) -> Result<()> {
    if brotli > limit {
        bail!("{what} is {brotli} bytes in brotli; the limit is {limit}");
    }
    Ok(())
}

/// What the first screen waits for.
const FIRST_LOAD: &str = "first_load_brotli_bytes";
/// The page of numbers, which nothing waits for.
const REFERENCE_PAGE: &str = "reference_page_brotli_bytes";

fn limit_of(text: &str, name: &str) -> Result<usize> {
    let table: toml::Table = text.parse().context("tests/budgets.toml is not TOML")?;
    table
        .get("size")
        .and_then(|size| size.get(name))
        .and_then(toml::Value::as_integer)
        .and_then(|limit| usize::try_from(limit).ok())
        .with_context(|| format!("tests/budgets.toml: size.{name} must be a number of bytes"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weight(path: &str, brotli: usize) -> Weight {
        Weight {
            path: path.into(),
            raw: 2 * brotli,
            brotli,
        }
    }

    #[test]
    fn the_first_load_leaves_out_pictures() {
        let weights = [
            weight("index.html", 10),
            weight("icons/a.png", 5),
            weight("numbers/index.html", 7),
            weight("sw.js", 1),
        ];
        assert_eq!(first_load(&weights), (22, 11));
    }

    #[test]
    fn a_byte_over_the_limit_is_refused() {
        within("it", 100, 100).unwrap();
        assert!(within("it", 101, 100).is_err());
    }

    #[test]
    fn the_limit_must_be_there() {
        let limit = |text| limit_of(text, FIRST_LOAD);
        assert_eq!(limit("[size]\nfirst_load_brotli_bytes = 5").unwrap(), 5);
        assert!(limit("[size]\n").is_err());
        assert!(limit("[size]\nfirst_load_brotli_bytes = -5").is_err());
    }

    #[test]
    fn the_file_in_the_repository_reads() {
        for name in [FIRST_LOAD, REFERENCE_PAGE] {
            limit_of(include_str!("../../tests/budgets.toml"), name).unwrap();
        }
    }
}
