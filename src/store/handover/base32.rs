//! Base32 (RFC 4648, section 6), without padding.

const LETTERS: &[u8; 32] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

/// Bytes as letters and digits.
pub(super) fn write(bytes: &[u8]) -> String {
    let mut out = String::with_capacity(bytes.len() * 8 / 5 + 1);
    let (mut held, mut bits) = (0_u32, 0);
    for &byte in bytes {
        held = held << 8 | u32::from(byte);
        bits += 8;
        while bits >= 5 {
            bits -= 5;
            out.push(letter(held >> bits));
        }
    }
    if bits > 0 {
        out.push(letter(held << (5 - bits)));
    }
    out
}

fn letter(five_bits: u32) -> char {
    char::from(LETTERS[five_bits as usize % 32])
}

/// The bytes of a text, small letters taken for capitals; `None` for anything
/// else, also where bits are left over that are not nought.
pub(super) fn read(text: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::with_capacity(text.len() * 5 / 8);
    let (mut held, mut bits) = (0_u32, 0);
    for byte in text.bytes() {
        let value = LETTERS
            .iter()
            .position(|l| *l == byte.to_ascii_uppercase())?;
        held = held << 5 | u32::try_from(value).ok()?;
        bits += 5;
        if bits >= 8 {
            bits -= 8;
            bytes.push(u8::try_from(held >> bits & 0xff).ok()?);
        }
        held &= (1 << bits) - 1;
    }
    (bits < 5 && held == 0).then_some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The test vectors of RFC 4648, section 10, padding taken off.
    #[test]
    fn the_vectors_of_the_standard() {
        let vectors = [
            ("", ""),
            ("f", "MY"),
            ("fo", "MZXQ"),
            ("foo", "MZXW6"),
            ("foob", "MZXW6YQ"),
            ("fooba", "MZXW6YTB"),
            ("foobar", "MZXW6YTBOI"),
        ];
        for (bytes, text) in vectors {
            assert_eq!(write(bytes.as_bytes()), text);
            assert_eq!(read(text).as_deref(), Some(bytes.as_bytes()));
            assert_eq!(
                read(&text.to_lowercase()).as_deref(),
                Some(bytes.as_bytes())
            );
        }
        for text in ["M", "MZ=", "M1", "MZ", "\u{e4}", "MZXW6YTB O"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
