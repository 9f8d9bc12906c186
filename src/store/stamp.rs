//! Moments as text, in UTC, for files that other programs read.

use weekloom_engine::calendar::{Day, Moment};

/// A moment by the calendar and the clock of UTC, to the second.
pub(crate) struct Stamp {
    day: Day,
    clock: [i64; 3],
}

impl Stamp {
    pub(crate) fn of(at: Moment) -> Self {
        let seconds = at.0.div_euclid(1000);
        let rest = seconds.rem_euclid(86_400);
        let day = i32::try_from(seconds.div_euclid(86_400)).unwrap_or_default();
        Self {
            day: Day::from_epoch_days(day),
            clock: [rest / 3600, rest / 60 % 60, rest % 60],
        }
    }

    /// `2023-11-14T22:13:20Z` (RFC 3339).
    pub(crate) fn extended(&self) -> String {
        let [hour, minute, second] = self.clock;
        format!("{}T{hour:02}:{minute:02}:{second:02}Z", self.day)
    }

    /// `20231114T221320Z` (RFC 5545, 3.3.5).
    pub(crate) fn basic(&self) -> String {
        self.extended().replace(['-', ':'], "")
    }
}
