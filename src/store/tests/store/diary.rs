//! The calendar file, read back by a parser of RFC 5545 that is not ours.

use icalendar::parser::{read_calendar, unfold};
use icalendar::{Calendar, CalendarComponent, Component, DatePerhapsTime};
use weekloom_engine::calendar::{Day, Moment};
use weekloom_store::diary::{Entry, write};

fn entry(day: &str, begins: Option<u16>, title: &str, lines: &[&str]) -> Entry {
    Entry {
        day: Day::parse(day).unwrap(),
        begins,
        minutes: 55,
        title: title.to_owned(),
        lines: lines.iter().map(|&line| line.to_owned()).collect(),
    }
}

const STAMP: Moment = Moment(1_700_000_000_000);

#[test]
fn an_independent_parser_reads_what_was_meant() {
    let long = "Kettlebell-Schwünge über dem Grün, 🏋️ und \u{202e}rückwärts; ".repeat(9);
    let entries = [
        entry(
            "2026-11-30",
            None,
            "Whole body",
            &["Goblet squat, 3 × 8–12", "Row"],
        ),
        entry(
            "2026-12-02",
            Some(18 * 60 + 5),
            &long,
            &["a;b,c\\d", "line\nbreak"],
        ),
        entry("2026-12-02", Some(0), "<b>no markup</b>", &[]),
    ];
    let text = write(&entries, STAMP);
    let calendar: Calendar = text.parse().unwrap();
    let events: Vec<_> = calendar
        .components
        .iter()
        .map(|c| match c {
            CalendarComponent::Event(event) => event,
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(events.len(), entries.len());
    let mut ids = Vec::new();
    for (event, entry) in events.iter().zip(&entries) {
        assert_eq!(event.get_summary(), Some(entry.title.as_str()));
        let lines = (!entry.lines.is_empty()).then(|| entry.lines.join("\n"));
        assert_eq!(event.get_description(), lines.as_deref());
        match (event.get_start().unwrap(), entry.begins) {
            (DatePerhapsTime::Date(date), None) => {
                assert_eq!(date.to_string(), entry.day.to_string());
                assert_eq!(event.property_value("DURATION"), None);
            }
            (DatePerhapsTime::DateTime(at), Some(begins)) => {
                // Without a zone: by the clock of wherever the phone is.
                let icalendar::CalendarDateTime::Floating(at) = at else {
                    panic!("{at:?}");
                };
                let clock = format!("{} {:02}:{:02}:00", entry.day, begins / 60, begins % 60);
                assert_eq!(at.to_string(), clock);
                assert_eq!(event.property_value("DURATION"), Some("PT55M"));
            }
            other => panic!("{other:?}"),
        }
        assert_eq!(event.property_value("DTSTAMP"), Some("20231114T221320Z"));
        ids.push(event.get_uid().unwrap().to_owned());
    }
    ids.dedup();
    assert_eq!(ids.len(), 3, "{ids:?}");
    // Strictly: no component that the parser skipped, and every line within the limit.
    let unfolded = unfold(&text);
    assert_eq!(read_calendar(&unfolded).unwrap().components.len(), 3);
    for line in text.split("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
        assert!(!line.contains(['\r', '\n']));
    }
    assert!(text.ends_with("END:VCALENDAR\r\n"));
}

#[test]
fn a_later_file_takes_the_place_of_an_earlier_one() {
    let ids = |title: &str| -> Vec<String> {
        let text = write(&[entry("2026-11-30", None, title, &[])], STAMP);
        let lines = text.lines().filter(|line| line.starts_with("UID:"));
        lines.map(str::to_owned).collect()
    };
    assert_eq!(ids("one"), ids("other"));
}
