//! The code to scan (QR code, ISO/IEC 18004).

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

/// The largest version made, 97 modules to a side: on a phone's screen 60 mm
/// wide a module is then 0.57 mm, and smaller ones are not read from arm's
/// length (the project's own judgement).
const LARGEST: u8 = 20;
/// Modules left bare on each side (ISO/IEC 18004, quiet zone).
pub const BARE: u32 = 4;

/// A code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Code {
    /// Its version, 1 to 20.
    pub version: u8,
    /// Modules to a side, without the bare margin.
    pub side: u32,
    /// Rows of modules from the top; true is dark.
    pub rows: Vec<Vec<bool>>,
}

impl Code {
    /// Hundredths of a millimetre for a module, on a screen where the code
    /// with its margin is so many millimetres wide.
    #[must_use]
    pub fn module_hundredths(&self, millimetres: u32) -> u32 {
        millimetres * 100 / (self.side + 2 * BARE)
    }
}

/// The code of a link: its address as it is, the text of an offer in the
/// denser mode for capitals and digits. The least version that holds it, with
/// as much correction of errors as that version has room for; `None` when the
/// link is too long to be scanned from a phone.
#[must_use]
pub fn code(address: &str, text: &str) -> Option<Code> {
    if !QrSegment::is_alphanumeric(text) {
        return None;
    }
    let segments = [
        QrSegment::make_bytes(address.as_bytes()),
        QrSegment::make_alphanumeric(text),
    ];
    let made = QrCode::encode_segments_advanced(
        &segments,
        QrCodeEcc::Low,
        Version::MIN,
        Version::new(LARGEST),
        None,
        true,
    );
    let made = made.ok()?;
    let side = made.size();
    let row = |y| (0..side).map(|x| made.get_module(x, y)).collect();
    Some(Code {
        version: made.version().value(),
        side: side.unsigned_abs(),
        rows: (0..side).map(row).collect(),
    })
}
