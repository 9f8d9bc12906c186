//! Numbers of a few bits each, one after the other.

/// Bits being written, the first of a byte in its highest place.
#[derive(Default)]
pub(super) struct Writer {
    bytes: Vec<u8>,
    used: usize,
}

impl Writer {
    /// A number in so many bits, at most 32; `None` when it does not fit.
    pub(super) fn put(&mut self, value: impl Into<u32>, bits: u32) -> Option<()> {
        let value = value.into();
        if u64::from(value) >= 1 << bits {
            return None;
        }
        for place in (0..bits).rev() {
            if self.used == 0 {
                self.bytes.push(0);
            }
            let bit = u8::try_from(value >> place & 1).ok()?;
            *self.bytes.last_mut()? |= bit << (7 - self.used);
            self.used = (self.used + 1) % 8;
        }
        Some(())
    }

    pub(super) fn flag(&mut self, flag: bool) -> Option<()> {
        self.put(u32::from(flag), 1)
    }

    /// A text behind its length in bytes.
    pub(super) fn text(&mut self, text: &str, bits: u32) -> Option<()> {
        self.put(u32::try_from(text.len()).ok()?, bits)?;
        text.bytes().try_for_each(|byte| self.put(byte, 8))
    }

    pub(super) fn bytes(self) -> Vec<u8> {
        self.bytes
    }
}

/// Bits being read.
pub(super) struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Reader<'a> {
    pub(super) const fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0 }
    }

    /// A number of so many bits; `None` when none are left.
    pub(super) fn take(&mut self, bits: u32) -> Option<u32> {
        let mut value = 0;
        for _ in 0..bits {
            let byte = self.bytes.get(self.at / 8)?;
            value = value << 1 | u32::from(byte >> (7 - self.at % 8) & 1);
            self.at += 1;
        }
        Some(value)
    }

    pub(super) fn narrow<T: TryFrom<u32>>(&mut self, bits: u32) -> Option<T> {
        T::try_from(self.take(bits)?).ok()
    }

    pub(super) fn flag(&mut self) -> Option<bool> {
        Some(self.take(1)? == 1)
    }

    pub(super) fn text(&mut self, bits: u32) -> Option<String> {
        let length = self.take(bits)?;
        let mut bytes = Vec::new();
        for _ in 0..length {
            bytes.push(self.narrow(8)?);
        }
        String::from_utf8(bytes).ok()
    }

    /// Whether nothing is left but the noughts that fill the last byte.
    pub(super) fn ends(mut self) -> bool {
        let left = self.bytes.len() * 8 - self.at;
        left < 8 && self.take(u32::try_from(left).unwrap_or(0)) == Some(0)
    }
}
