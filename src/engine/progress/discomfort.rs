//! Pain never earns load.

/// Percent of the last load, at most, after a painful session: 10 to 20 % less
/// (common practice, no source). Whether to lift at all is for a doctor or a
/// qualified coach to say.
pub const PAIN_PERCENT: u8 = 90;
