//! Whatever a link holds: it is refused, or is a plan that can be handed on again.
//!
//! `cargo +nightly fuzz run --fuzz-dir tests/fuzz handover -- -max_total_time=600 -rss_limit_mb=512`

#![no_main]

use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;
use weekloom_engine::catalogue::Catalogue;
use weekloom_store::handover::Offer;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

/// Letters of base32, so that the fuzzer meets the fields and not the alphabet; the sum at
/// the end is put right, or nothing would get past it.
fn link(bytes: &[u8]) -> String {
    let mut crc = !0_u32;
    let mut whole = vec![1];
    whole.extend(bytes);
    for byte in &whole {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 { crc >> 1 ^ 0xedb8_8320 } else { crc >> 1 };
        }
    }
    whole.extend((!crc).to_be_bytes());
    let mut text = String::new();
    let (mut held, mut bits) = (0_u32, 0);
    for byte in whole {
        held = held << 8 | u32::from(byte);
        bits += 8;
        while bits >= 5 {
            bits -= 5;
            text.push(char::from(b"ABCDEFGHIJKLMNOPQRSTUVWXYZ234567"[(held >> bits & 31) as usize]));
        }
        held &= (1 << bits) - 1;
    }
    if bits > 0 {
        text.push(char::from(b"ABCDEFGHIJKLMNOPQRSTUVWXYZ234567"[(held << (5 - bits) & 31) as usize]));
    }
    text
}

fuzz_target!(|bytes: &[u8]| {
    if let Ok(offer) = Offer::read(&link(bytes), &CATALOGUE) {
        let plan = offer.plan(&CATALOGUE);
        assert!(plan.days.len() <= 31);
        let again = offer.write().map(|text| Offer::read(&text, &CATALOGUE));
        assert!(again.is_none_or(|again| again.is_ok()));
    }
    if let Ok(text) = std::str::from_utf8(bytes) {
        let _ = Offer::read(text, &CATALOGUE);
    }
});
