//! Coming sessions as a calendar file (RFC 5545), for whatever calendar the
//! person keeps.
//!
//! Start at [`write`]. The file is a copy: nothing in it comes back. The clock
//! and what a session is called are the caller's.

use crate::stamp::Stamp;
use weekloom_engine::calendar::{Day, Moment};

/// A session to come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its day.
    pub day: Day,
    /// Minutes after midnight when it begins, below 1440, by the clock of
    /// wherever the person is; `None` fills the day.
    pub begins: Option<u16>,
    /// How long it takes, minutes.
    pub minutes: u16,
    /// What it is called.
    pub title: String,
    /// What it holds, line by line.
    pub lines: Vec<String>,
}

/// Most octets of a line, its break left out (RFC 5545, 3.1).
const LINE: usize = 75;

/// A calendar with these sessions, made at `stamp`.
///
/// The ids follow from days alone: a calendar that takes in a later file puts
/// the new session of a day in the place of the old one. Two people who keep
/// one calendar would therefore overwrite each other's: each needs their own.
///
/// RFC 5545 wants at least one component in a calendar: ask only with sessions.
#[must_use]
pub fn write(entries: &[Entry], stamp: Moment) -> String {
    let mut out = String::new();
    line(&mut out, "BEGIN:VCALENDAR");
    line(&mut out, "VERSION:2.0");
    line(&mut out, "PRODID:-//Weekloom//Coming sessions//EN");
    for (at, entry) in entries.iter().enumerate() {
        let earlier = entries[..at].iter().filter(|e| e.day == entry.day).count();
        line(&mut out, "BEGIN:VEVENT");
        let day = entry.day.to_string().replace('-', "");
        line(
            &mut out,
            &format!("UID:{day}-{}@sessions.weekloom", earlier + 1),
        );
        line(&mut out, &format!("DTSTAMP:{}", Stamp::of(stamp).basic()));
        match entry.begins {
            Some(begins) => {
                let (hour, minute) = (begins / 60 % 24, begins % 60);
                line(&mut out, &format!("DTSTART:{day}T{hour:02}{minute:02}00"));
                line(&mut out, &format!("DURATION:PT{}M", entry.minutes.max(1)));
            }
            None => {
                line(&mut out, &format!("DTSTART;VALUE=DATE:{day}"));
                // A day to train on is not a day away.
                line(&mut out, "TRANSP:TRANSPARENT");
            }
        }
        line(&mut out, &format!("SUMMARY:{}", escaped(&entry.title)));
        if !entry.lines.is_empty() {
            let lines: Vec<String> = entry.lines.iter().map(|line| escaped(line)).collect();
            line(&mut out, &format!("DESCRIPTION:{}", lines.join("\\n")));
        }
        line(&mut out, "END:VEVENT");
    }
    line(&mut out, "END:VCALENDAR");
    out
}

/// A text value: what has a meaning of its own is escaped (RFC 5545, 3.3.11),
/// and control characters, which no value may hold, become blanks.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.replace("\r\n", "\n").chars() {
        match c {
            '\\' | ';' | ',' => out.extend(['\\', c]),
            '\n' => out.push_str("\\n"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// One content line, folded between characters where it is too long.
fn line(out: &mut String, text: &str) {
    let mut octets = 0;
    for c in text.chars() {
        if octets + c.len_utf8() > LINE {
            out.push_str("\r\n ");
            octets = 1;
        }
        out.push(c);
        octets += c.len_utf8();
    }
    out.push_str("\r\n");
}
