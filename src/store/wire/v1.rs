//! Schema version 1. Frozen once released: a change is a new file.
//!
//! Short names where a value is kept for every session or set: ten years of
//! training, 50 000 sets, must fit in two million characters.

use crate::json::{Words, row, shape, tagged};

shape! {
    pub struct Person {
        /// ISO weekday numbers.
        "days" => days: Vec<u8>,
        "minutes" => minutes: u16,
        "kit" => kit: Kit,
        "status" => status: String,
        "older" => older: bool,
        /// Muscle to priority.
        "priorities" => priorities: Words,
        "excluded" => excluded: Vec<String>,
        "disliked" => disliked: Vec<String>,
        "joint_limits" => joint_limits: Vec<String>,
        "split" => split: Option<String>,
        "unit" => unit: String,
    }
}

shape! {
    pub struct Kit {
        "equipment" => equipment: Vec<String>,
        "bar" => bar: i64,
        "curl_bar" => curl_bar: i64,
        "trap_bar" => trap_bar: i64,
        /// Heaviest first.
        "plates" => plates: Vec<Plates>,
        "dumbbells" => dumbbells: Steps,
        "kettlebells" => kettlebells: Steps,
        "machine" => machine: Steps,
        "cable" => cable: Steps,
    }
}

row! {
    /// Grams of one plate, pairs.
    pub struct Plates(grams: i64, pairs: u8);
}

tagged! {
    pub enum Steps {
        /// First, step, last; grams.
        "even" => Even(first: i64, step: i64, last: i64),
        /// Grams, ascending.
        "listed" => Listed(grams: Vec<i64>),
    }
}

shape! {
    pub struct Settings {
        "theme" => theme: String,
        "hand" => hand: String,
        "sound" => sound: String,
        "screen" => screen: String,
        /// Days since 1970-01-01.
        "cautions_read" => cautions_read: Option<i32>,
        /// Days since 1970-01-01.
        "backed_up" => backed_up: Option<i32>,
    }
}

shape! {
    pub struct Plan {
        "split" => split: String,
        /// Days since 1970-01-01.
        "accepted" => accepted: i32,
        /// ISO weekday numbers.
        "weekdays" => weekdays: Vec<u8>,
        "days" => days: Vec<PlanDay>,
        "notes" => notes: Vec<Note>,
    }
}

shape! {
    pub struct PlanDay {
        "focus" => focus: String,
        "seconds" => seconds: u32,
        "items" => items: Vec<PlanItem>,
    }
}

shape! {
    pub struct PlanItem {
        "key" => key: u16,
        "exercise" => exercise: String,
        /// Sets, least and most reps or seconds, reps in reserve, rest in seconds.
        "prescription" => prescription: [u16; 5],
        "superset" optional => superset: Option<u8>,
        "why" optional => why: Vec<Reason>,
    }
}

tagged! {
    #[derive(PartialEq)]
    pub enum Reason {
        "covers-pattern" => CoversPattern(pattern: String),
        /// Muscle, half sets.
        "feeds" => Feeds(muscle: String, half_sets: u32),
        "priority" => Priority(muscle: String),
        "leads-day" => LeadsDay,
        "easy-to-learn" => EasyToLearn,
        "best-with-kit" => BestWithKit,
        "saves-time" => SavesTime,
    }
}

tagged! {
    pub enum Note {
        "pattern-not-covered" => PatternNotCovered(pattern: String),
        /// Day, patterns.
        "slot-dropped" => SlotDropped(day: u8, patterns: Vec<String>),
        /// Muscle, half sets planned, half sets of the floor.
        "below-floor" => BelowFloor(muscle: String, half_sets: u32, floor: u32),
        /// Day, seconds.
        "over-time" => OverTime(day: u8, seconds: u32),
        /// Day, muscle.
        "short-recovery" => ShortRecovery(day: u8, muscle: String),
    }
}

shape! {
    pub struct Session {
        "id" => id: String,
        /// Days since 1970-01-01.
        "d" => day: i32,
        "pd" optional => plan_day: Option<u8>,
        "dl" optional => is_deload: bool,
        /// Milliseconds since 1970-01-01T00:00Z.
        "st" optional => started: Option<i64>,
        "ps" optional => paused_s: u32,
        "cu" optional => current: Option<usize>,
        "ph" optional => phase: Phase,
        "x" => items: Vec<Item>,
    }
}

tagged! {
    /// Moments in milliseconds since the session's start.
    #[derive(PartialEq, Default)]
    pub enum Phase {
        #[default]
        "planned" => Planned,
        "active" => Active,
        /// Since, until.
        "resting" => Resting(since: i64, until: i64),
        "paused" => Paused(since: i64),
        "finished" => Finished(at: i64),
    }
}

row! {
    /// The target is `[grams or null, reps or seconds]`, with the reps in
    /// reserve as a third number where they differ from the prescription.
    pub struct Item(
        key: u16,
        exercise: String,
        // As in `PlanItem`.
        prescription: [u16; 5],
        target: Option<Vec<Option<i64>>>,
        sets: Vec<Set>,
        extra: Extra,
    );
}

/// One set: `[grams, count, rir or null, milliseconds]`, the time since the set
/// before it, for the first one since the start of the session. Without the
/// grams the load is that of the set before it; with a fifth number, 1, it
/// was a warm-up set.
pub type Set = Vec<Option<i64>>;

shape! {
    pub struct Extra {
        "g" optional => superset: Option<u8>,
        "x" optional => is_skipped: bool,
        "h" optional => discomfort: Option<String>,
        "n" optional => note: String,
        /// What the plan had before a swap.
        "w" optional => swapped_from: Option<String>,
    }
}

shape! {
    /// The latest performances of one exercise, oldest first.
    pub struct History {
        "e" => exercise: String,
        "p" => performances: Vec<Performance>,
    }
}

shape! {
    pub struct Performance {
        /// The session it comes from.
        "id" => id: String,
        "d" => day: i32,
        "st" optional => started: Option<i64>,
        "p" => prescription: [u16; 5],
        "sl" optional => suggested: Option<i64>,
        "dl" optional => is_deload: bool,
        "s" => sets: Vec<Set>,
        "h" optional => discomfort: Option<String>,
    }
}

shape! {
    /// Totals and the latest sessions.
    pub struct Index {
        "sessions" => sessions: u32,
        "work_sets" => work_sets: u32,
        /// Oldest first.
        "recent" => recent: Vec<Line>,
    }
}

row! {
    pub struct Line(
        id: String,
        day: i32,
        plan_day: Option<u8>,
        is_deload: bool,
        work_sets: u32,
        seconds: u32,
    );
}
