//! A spreadsheet on its way into the log, in words.

use super::language::{said, tr};
use super::{dates, words};
use crate::say;
use weekloom_engine::calendar::Day;
use weekloom_store::sheet::{Column, Harvest, Remark, Why, WhyTorn};

/// What a column holds.
#[must_use]
pub fn column(column: Column) -> &'static str {
    tr(match column {
        Column::Other => "nothing wanted",
        Column::Day => "the day",
        Column::Exercise => "the exercise",
        Column::Load => "the load",
        Column::Unit => "kg or lb",
        Column::Reps => "reps",
        Column::Seconds => "seconds",
        Column::Sets => "how many such sets",
        Column::Rir => "reps left",
        Column::Exertion => "exertion, 1 to 10",
        Column::Kind => "warm-up or work",
        Column::Note => "a note",
    })
}

/// A column without a name.
#[must_use]
pub fn column_number(number: usize) -> String {
    say!("Column {number}", number)
}

/// What stands in a column.
#[must_use]
pub fn example(cell: &str) -> String {
    let short: String = cell.chars().take(40).collect();
    say!("for example: {short}", short)
}

/// How many rows have a name.
#[must_use]
pub fn rows(count: usize) -> String {
    if count == 1 {
        said("1 row")
    } else {
        say!("{count} rows", count)
    }
}

/// A new own exercise in the likeness of one.
#[must_use]
pub fn new_like(name: &str) -> String {
    say!("new, like {name}", name)
}

/// What a file brings, a line for each thing.
#[must_use]
pub fn brings(harvest: &Harvest, today: Day) -> Vec<String> {
    let mut lines = Vec::new();
    let sets = words::sets(Harvest::sets(&harvest.new));
    lines.push(match harvest.new.len() {
        0 => said("No session that the log does not have."),
        1 => say!("1 new session, {sets}", sets),
        count => say!("{count} new sessions, {sets}", count, sets),
    });
    let days = harvest.new.iter().map(|session| session.day);
    if let (Some(first), Some(last)) = (days.clone().min(), days.max()) {
        lines.push(say!(
            "From {first} to {last}",
            first = dates::full_short(first, today),
            last = dates::full_short(last, today)
        ));
    }
    if harvest.same == 1 {
        lines.push(said("1 session is in the log already and stays as it is."));
    } else if harvest.same > 1 {
        lines.push(say!(
            "{count} sessions are in the log already and stay as they are.",
            count = harvest.same
        ));
    }
    if harvest.own.len() == 1 {
        lines.push(said("1 new exercise of your own"));
    } else if !harvest.own.is_empty() {
        lines.push(say!(
            "{count} new exercises of your own",
            count = harvest.own.len()
        ));
    }
    lines
}

/// Sessions on days that have another.
#[must_use]
pub fn beside(count: usize) -> String {
    if count == 1 {
        return said("Also 1 session on a day on which the log has another");
    }
    say!(
        "Also {count} sessions on days on which the log has another",
        count
    )
}

/// Heading of the remarks.
#[must_use]
pub fn remarks(count: usize) -> String {
    if count == 1 {
        said("1 row needs a look")
    } else {
        say!("{count} rows need a look", count)
    }
}

/// Remarks that are not shown.
#[must_use]
pub fn more_remarks(count: usize) -> String {
    say!("And {count} more.", count)
}

/// A remark on a row.
#[must_use]
pub fn remark(remark: &Remark) -> String {
    say!(
        "Line {line}: {why}",
        line = remark.line,
        why = why(&remark.why)
    )
}

fn why(why: &Why) -> String {
    match why {
        Why::Torn(WhyTorn::Unclosed) => said("left out, a quote is opened and not closed."),
        Why::Torn(WhyTorn::TooMuch) => said("left out, it has too many or too long cells."),
        Why::Day(text) => say!("left out, “{text}” is no day.", text),
        Why::FarDay(text) => say!("left out, {text} lies ahead or too far back.", text),
        Why::NoExercise => said("left out, no exercise is named."),
        Why::Count(text) => say!("left out, “{text}” is no number of reps or seconds.", text),
        Why::Load(text) => say!("left out, “{text}” is no load.", text),
        Why::TooMany => said("left out, the day has more than a log keeps."),
        Why::LeftOut => said("left out, as you chose."),
        Why::LoadUnused(text) => {
            say!("taken, without “{text}”: the exercise has no load.", text)
        }
        Why::EffortUnread(text) => say!("taken, without “{text}”: it is no effort.", text),
    }
}
