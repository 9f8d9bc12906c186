//! Names that carry a hash of the bytes, and what each file of a build is for.

use sha2::{Digest, Sha256};

use super::Files;

/// The folder of everything whose name carries a hash. One folder, so that a host's header
/// file can tell it by a prefix.
pub const HASHED: &str = "assets/";

/// Adds a file under a name made of its bytes and returns that name.
pub fn add(files: &mut Files, stem: &str, extension: &str, bytes: Vec<u8>) -> String {
    let name = format!("{HASHED}{stem}-{}.{extension}", hash([&bytes[..]]));
    files.insert(name.clone(), bytes);
    name
}

/// The name without its folder, as a neighbour in the same folder writes it.
pub fn file(name: &str) -> &str {
    name.rsplit('/').next().unwrap_or(name)
}

/// The first 16 hexadecimal digits of the SHA-256 of the pieces, each preceded by its
/// length so that moving a byte from one piece to the next changes the hash.
pub fn hash<'a>(pieces: impl IntoIterator<Item = &'a [u8]>) -> String {
    let mut hasher = Sha256::new();
    for piece in pieces {
        hasher.update((piece.len() as u64).to_be_bytes());
        hasher.update(piece);
    }
    let digest = hasher.finalize();
    digest[..8]
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

/// Does a phone load this file before the app first shows? Everything counts but icons,
/// screenshots, the page of numbers, the words of other languages, the parts fetched on
/// demand, the copies made by compression and the host's own file.
pub fn is_first_load(name: &str) -> bool {
    !matches!(
        part_of(name),
        "icons" | "screenshots" | "numbers" | "words" | "parts" | "host" | "copies"
    )
}

/// The part of the app a file belongs to, for the figures.
pub fn part_of(name: &str) -> &'static str {
    let ends = |end: &str| name.ends_with(end);
    if ends(".br") {
        "copies"
    } else if name.starts_with("icons/") {
        "icons"
    } else if name.starts_with("screenshots/") {
        "screenshots"
    } else if name == super::numbers::NAME {
        "numbers"
    } else if name.starts_with("assets/words-") {
        "words"
    } else if name.starts_with("assets/part-") {
        "parts"
    } else if name == "_headers" {
        "host"
    } else if ends(".wasm") {
        "app"
    } else if ends(".css") {
        "styles"
    } else if name == "sw.js" {
        "worker"
    } else if ends(".js") {
        "scripts"
    } else {
        "page"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_follows_the_bytes() {
        let mut files = Files::new();
        let one = add(&mut files, "a", "js", b"one".to_vec());
        let two = add(&mut files, "a", "js", b"two".to_vec());
        assert_ne!(one, two);
        assert_eq!(one, add(&mut files, "a", "js", b"one".to_vec()));
        assert_eq!(format!("{HASHED}{}", file(&one)), one);
    }

    #[test]
    fn pieces_do_not_run_together() {
        assert_ne!(hash([&b"ab"[..], b"c"]), hash([&b"a"[..], b"bc"]));
    }

    #[test]
    fn first_load_is_all_but_pictures_and_copies() {
        for name in [
            "index.html",
            "sw.js",
            "manifest.webmanifest",
            "assets/x.wasm",
        ] {
            assert!(is_first_load(name), "{name}");
        }
        for name in [
            "icons/a.png",
            "screenshots/a.png",
            "numbers/index.html",
            "assets/words-de-0.txt",
            "assets/part-0.wasm",
            "sw.js.br",
            "_headers",
        ] {
            assert!(!is_first_load(name), "{name}");
        }
    }
}
