//! The seal around every stored value: version, sequence number, checksum.
//!
//! Start at [`seal`] and [`unseal`]. The text is plain ASCII, because browsers
//! count other text double or refuse it sooner. The outer form never changes;
//! only what the version number says about the body does.

/// The schema version this code writes.
pub(crate) const SCHEMA: u32 = 1;

/// A value taken out of its seal; the checksum fits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Envelope<'a> {
    /// Schema version of the body.
    pub version: u32,
    /// Number of the write that put it there.
    pub seq: u64,
    /// The body, JSON.
    pub body: &'a str,
}

/// `{"v":1,"q":12,"c":"89abcdef","b":…}`. The checksum covers version and
/// number as well, so that no single changed byte goes unnoticed.
pub(crate) fn seal(seq: u64, body: &str) -> String {
    debug_assert!(body.is_ascii());
    let sum = checksum(SCHEMA, seq, body);
    format!("{{\"v\":{SCHEMA},\"q\":{seq},\"c\":\"{sum:08x}\",\"b\":{body}}}")
}

/// Takes a value out of its seal.
///
/// # Errors
/// Says in words what is wrong with the text.
pub(crate) fn unseal(text: &str) -> Result<Envelope<'_>, String> {
    parse(text)
        .ok_or_else(|| "it is cut short or not in the stored form".to_owned())
        .and_then(|(envelope, sum)| {
            let found = checksum(envelope.version, envelope.seq, envelope.body);
            if found == sum {
                Ok(envelope)
            } else {
                Err(format!(
                    "its checksum is {found:08x}, it should be {sum:08x}"
                ))
            }
        })
}

fn parse(text: &str) -> Option<(Envelope<'_>, u32)> {
    let (version, rest) = text.strip_prefix("{\"v\":")?.split_once(',')?;
    let (seq, rest) = rest.strip_prefix("\"q\":")?.split_once(',')?;
    let (sum, rest) = rest.strip_prefix("\"c\":\"")?.split_once('"')?;
    let body = rest.strip_prefix(",\"b\":")?.strip_suffix('}')?;
    if sum.len() != 8 || !sum.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f')) {
        return None;
    }
    let envelope = Envelope {
        version: plain_number(version)?.try_into().ok()?,
        seq: plain_number(seq)?,
        body,
    };
    Some((envelope, u32::from_str_radix(sum, 16).ok()?))
}

/// Digits only, no leading nought: exactly what [`seal`] writes.
fn plain_number(text: &str) -> Option<u64> {
    let number: u64 = text.parse().ok()?;
    (number.to_string() == text).then_some(number)
}

fn checksum(version: u32, seq: u64, body: &str) -> u32 {
    let mut crc = Crc::new();
    crc.feed(format!("{version},{seq},").as_bytes());
    crc.feed(body.as_bytes());
    crc.sum()
}

/// CRC-32 (ISO-HDLC, the one of IEEE 802.3): reflected polynomial 0xEDB88320.
/// It finds every change confined to 32 bits in a row; it is no guard against
/// malice and need not be.
pub(crate) struct Crc(u32);

impl Crc {
    /// By four bits; a table by eight would be a kilobyte to download.
    const TABLE: [u32; 16] = {
        let mut table = [0; 16];
        let mut i = 0;
        while i < 16 {
            let mut c = i as u32;
            let mut bit = 0;
            while bit < 4 {
                c = if c & 1 == 1 {
                    0xEDB8_8320 ^ (c >> 1)
                } else {
                    c >> 1
                };
                bit += 1;
            }
            table[i] = c;
            i += 1;
        }
        table
    };

    pub(crate) const fn new() -> Self {
        Self(!0)
    }

    pub(crate) fn feed(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 ^= u32::from(*byte);
            for _ in 0..2 {
                self.0 = Self::TABLE[self.0 as usize & 0xF] ^ (self.0 >> 4);
            }
        }
    }

    pub(crate) const fn sum(&self) -> u32 {
        !self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value of CRC-32/ISO-HDLC for "123456789".
    #[test]
    fn crc_matches_its_published_check_value() {
        let mut crc = Crc::new();
        crc.feed(b"123456789");
        assert_eq!(crc.sum(), 0xCBF4_3926);
    }

    #[test]
    fn a_sealed_value_comes_back() {
        let text = seal(41, r#"{"a":[1,2]}"#);
        let envelope = unseal(&text).unwrap();
        assert_eq!((envelope.version, envelope.seq), (SCHEMA, 41));
        assert_eq!(envelope.body, r#"{"a":[1,2]}"#);
    }

    #[test]
    fn any_changed_or_missing_byte_is_noticed() {
        let text = seal(41, r#"{"a":[1,2]}"#);
        for at in 0..text.len() {
            assert!(unseal(&text[..at]).is_err(), "cut at {at}");
            for bit in 0..7 {
                let mut bytes = text.clone().into_bytes();
                bytes[at] ^= 1 << bit;
                let changed = String::from_utf8(bytes).unwrap();
                assert!(unseal(&changed).is_err(), "{changed}");
            }
        }
    }
}
