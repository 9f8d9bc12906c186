//! Schema version 1. Frozen once released: a change is a new file.
//!
//! Short names where a value is kept for every session or set: ten years of
//! training, 50 000 sets, must fit in two million characters.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Person {
    /// ISO weekday numbers.
    pub days: Vec<u8>,
    pub minutes: u16,
    pub kit: Kit,
    pub status: String,
    pub older: bool,
    pub priorities: BTreeMap<String, String>,
    pub excluded: Vec<String>,
    pub disliked: Vec<String>,
    pub joint_limits: Vec<String>,
    pub split: Option<String>,
    pub unit: String,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kit {
    pub equipment: Vec<String>,
    pub bar: i64,
    pub curl_bar: i64,
    pub trap_bar: i64,
    /// `[grams of one plate, pairs]`, heaviest first.
    pub plates: Vec<(i64, u8)>,
    pub dumbbells: Steps,
    pub kettlebells: Steps,
    pub machine: Steps,
    pub cable: Steps,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Steps {
    /// First, step, last; grams.
    Even(i64, i64, i64),
    /// Grams, ascending.
    Listed(Vec<i64>),
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Settings {
    pub theme: String,
    pub hand: String,
    pub sound: String,
    pub screen: String,
    /// Days since 1970-01-01.
    pub cautions_read: Option<i32>,
    /// Days since 1970-01-01.
    pub backed_up: Option<i32>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    pub split: String,
    /// Days since 1970-01-01.
    pub accepted: i32,
    /// ISO weekday numbers.
    pub weekdays: Vec<u8>,
    pub days: Vec<PlanDay>,
    pub notes: Vec<Note>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanDay {
    pub focus: String,
    pub seconds: u32,
    pub items: Vec<PlanItem>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanItem {
    pub key: u16,
    pub exercise: String,
    /// Sets, least and most reps or seconds, reps in reserve, rest in seconds.
    pub prescription: [u16; 5],
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub superset: Option<u8>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub why: Vec<Reason>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reason {
    CoversPattern(String),
    /// Muscle, half sets.
    Feeds(String, u32),
    Priority(String),
    LeadsDay,
    EasyToLearn,
    BestWithKit,
    SavesTime,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Note {
    PatternNotCovered(String),
    /// Day, patterns.
    SlotDropped(u8, Vec<String>),
    /// Muscle, half sets planned, half sets of the floor.
    BelowFloor(String, u32, u32),
    /// Day, seconds.
    OverTime(u8, u32),
    /// Day, muscle.
    ShortRecovery(u8, String),
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Session {
    pub id: String,
    /// Days since 1970-01-01.
    #[serde(rename = "d")]
    pub day: i32,
    #[serde(rename = "pd", default, skip_serializing_if = "Option::is_none")]
    pub plan_day: Option<u8>,
    #[serde(rename = "dl", default, skip_serializing_if = "is_false")]
    pub is_deload: bool,
    /// Milliseconds since 1970-01-01T00:00Z.
    #[serde(rename = "st", default, skip_serializing_if = "Option::is_none")]
    pub started: Option<i64>,
    #[serde(rename = "ps", default, skip_serializing_if = "is_nought")]
    pub paused_s: u32,
    #[serde(rename = "cu", default, skip_serializing_if = "Option::is_none")]
    pub current: Option<usize>,
    #[serde(rename = "ph", default, skip_serializing_if = "is_planned")]
    pub phase: Phase,
    #[serde(rename = "x")]
    pub items: Vec<Item>,
}

/// Moments in milliseconds since the session's start.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Phase {
    #[default]
    Planned,
    Active,
    /// Since, until.
    Resting(i64, i64),
    Paused(i64),
    Finished(i64),
}

/// Key, exercise, prescription as in [`PlanItem`], target, sets, the rest.
///
/// The target is `[grams or null, reps or seconds]`, with the reps in reserve
/// as a third number where they differ from the prescription.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Item(
    pub u16,
    pub String,
    pub [u16; 5],
    pub Option<Vec<Option<i64>>>,
    pub Vec<Set>,
    pub Extra,
);

/// One set: `[grams, count, rir or null, milliseconds]`, the time since the set
/// before it, for the first one since the start of the session. Without the
/// grams the load is that of the set before it; with a fifth number, 1, it
/// was a warm-up set.
pub type Set = Vec<Option<i64>>;

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Extra {
    /// Superset.
    #[serde(rename = "g", default, skip_serializing_if = "Option::is_none")]
    pub superset: Option<u8>,
    /// Skipped.
    #[serde(rename = "x", default, skip_serializing_if = "is_false")]
    pub is_skipped: bool,
    /// Discomfort.
    #[serde(rename = "h", default, skip_serializing_if = "Option::is_none")]
    pub discomfort: Option<String>,
    /// Note.
    #[serde(rename = "n", default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// What the plan had before a swap.
    #[serde(rename = "w", default, skip_serializing_if = "Option::is_none")]
    pub swapped_from: Option<String>,
}

/// The latest performances of one exercise, oldest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct History {
    #[serde(rename = "e")]
    pub exercise: String,
    #[serde(rename = "p")]
    pub performances: Vec<Performance>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Performance {
    /// The session it comes from.
    pub id: String,
    #[serde(rename = "d")]
    pub day: i32,
    #[serde(rename = "st", default, skip_serializing_if = "Option::is_none")]
    pub started: Option<i64>,
    #[serde(rename = "p")]
    pub prescription: [u16; 5],
    #[serde(rename = "sl", default, skip_serializing_if = "Option::is_none")]
    pub suggested: Option<i64>,
    #[serde(rename = "dl", default, skip_serializing_if = "is_false")]
    pub is_deload: bool,
    #[serde(rename = "s")]
    pub sets: Vec<Set>,
    #[serde(rename = "h", default, skip_serializing_if = "Option::is_none")]
    pub discomfort: Option<String>,
}

/// Totals and the latest sessions.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Index {
    pub sessions: u32,
    pub work_sets: u32,
    /// Oldest first.
    pub recent: Vec<Line>,
}

/// Id, day, day of the plan, deload, work sets, seconds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Line(
    pub String,
    pub i32,
    pub Option<u8>,
    pub bool,
    pub u32,
    pub u32,
);

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde calls it so")]
const fn is_false(value: &bool) -> bool {
    !*value
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde calls it so")]
const fn is_nought(value: &u32) -> bool {
    *value == 0
}

fn is_planned(phase: &Phase) -> bool {
    *phase == Phase::Planned
}
