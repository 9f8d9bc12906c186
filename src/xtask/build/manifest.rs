//! Checks that every picture the web app manifest names is there and has the size it claims.

use anyhow::{Context, Result, bail, ensure};
use serde_json::Value;

use super::Files;

const NAME: &str = "manifest.webmanifest";

/// Checks the manifest against the files of the build.
pub fn check(files: &Files) -> Result<()> {
    let bytes = files
        .get(NAME)
        .with_context(|| format!("public/{NAME} is missing"))?;
    let manifest: Value =
        serde_json::from_slice(bytes).with_context(|| format!("public/{NAME} is not JSON"))?;
    let list = |key: &str| manifest[key].as_array().cloned().unwrap_or_default();
    for picture in list("icons").into_iter().chain(list("screenshots")) {
        let source = picture["src"]
            .as_str()
            .with_context(|| format!("public/{NAME}: a picture has no src"))?;
        let Some(bytes) = files.get(source) else {
            bail!("public/{NAME} names {source}, which is not in public/");
        };
        let sizes = picture["sizes"].as_str().unwrap_or_default();
        if let Some((width, height)) = png_size(bytes) {
            ensure!(
                sizes == format!("{width}x{height}"),
                "public/{NAME} gives {source} the size '{sizes}'; it is {width}x{height}"
            );
        }
    }
    Ok(())
}

/// Width and height in pixels from the head of a PNG file; `None` for another kind of file.
fn png_size(bytes: &[u8]) -> Option<(u32, u32)> {
    let rest = bytes.strip_prefix(b"\x89PNG\r\n\x1a\n")?;
    let number = |at: usize| Some(u32::from_be_bytes(rest.get(at..at + 4)?.try_into().ok()?));
    Some((number(8)?, number(12)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn png(width: u32, height: u32) -> Vec<u8> {
        let mut bytes = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR".to_vec();
        bytes.extend(width.to_be_bytes());
        bytes.extend(height.to_be_bytes());
        bytes
    }

    fn build(manifest: &str) -> Files {
        [
            (NAME.to_owned(), manifest.as_bytes().to_vec()),
            ("icons/a.png".to_owned(), png(192, 192)),
        ]
        .into()
    }

    #[test]
    fn takes_a_picture_of_the_size_it_claims() {
        let manifest = r#"{"icons":[{"src":"icons/a.png","sizes":"192x192"}]}"#;
        check(&build(manifest)).unwrap();
    }

    #[test]
    fn refuses_a_missing_picture_and_a_wrong_size() {
        let cases = [
            r#"{"icons":[{"src":"icons/b.png","sizes":"192x192"}]}"#,
            r#"{"icons":[{"src":"icons/a.png","sizes":"512x512"}]}"#,
            r#"{"screenshots":[{"src":"screenshots/a.png","sizes":"1x1"}]}"#,
            "not json",
        ];
        for manifest in cases {
            assert!(check(&build(manifest)).is_err(), "{manifest}");
        }
        assert!(check(&Files::new()).is_err());
    }
}
