//! Brotli copies beside the files, for hosts that send them as they are.

use std::thread;

use super::{Files, Profile};

/// Adds a `.br` copy of every file that shrinks: text and wasm. Images are packed already.
pub fn add_copies(files: &mut Files, profile: Profile) {
    let quality = match profile {
        Profile::Release => 11,
        Profile::Dev => 1,
    };
    let copies: Vec<(String, Vec<u8>)> = thread::scope(|scope| {
        let works: Vec<_> = files
            .iter()
            .filter(|(name, _)| shrinks(name))
            .map(|(name, bytes)| {
                scope.spawn(move || (format!("{name}.br"), brotli(bytes, quality)))
            })
            .collect();
        works
            .into_iter()
            .map(|work| {
                work.join()
                    .expect("compression of bytes in memory cannot fail")
            })
            .collect()
    });
    files.extend(copies);
}

fn shrinks(name: &str) -> bool {
    let ends = [
        ".html",
        ".js",
        ".css",
        ".wasm",
        ".webmanifest",
        ".svg",
        ".json",
    ];
    ends.iter().any(|end| name.ends_with(end))
}

fn brotli(bytes: &[u8], quality: i32) -> Vec<u8> {
    let parameters = brotli::enc::BrotliEncoderParams {
        quality,
        size_hint: bytes.len(),
        ..Default::default()
    };
    let mut packed = Vec::new();
    brotli::BrotliCompress(&mut &bytes[..], &mut packed, &parameters)
        .expect("writing to memory cannot fail");
    packed
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn copies_unpack_to_the_original() {
        let text = "warp and weft ".repeat(200).into_bytes();
        let mut files = Files::from([
            ("a.js".to_owned(), text.clone()),
            ("a.png".to_owned(), text.clone()),
        ]);
        add_copies(&mut files, Profile::Release);
        assert_eq!(files.len(), 3);
        let copy = &files["a.js.br"];
        assert!(copy.len() < text.len() / 10);
        let mut back = Vec::new();
        brotli::BrotliDecompress(&mut &copy[..], &mut back).unwrap();
        assert_eq!(back, text);
    }
}
