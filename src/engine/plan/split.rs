//! Splits: how a week's work is dealt out over its days.
//!
//! Start at [`Split`] and [`built_in`]. A split is data: a cycle of days, each a
//! list of slots. The structures are the trade's usual ones (common practice,
//! no source); in trials with equal weekly sets split and full body grow
//! muscle alike (Ramos-Campo et al. 2024, JSCR 38(7):1330-1340). This module
//! never picks an exercise.

use super::{Plan, PlanDay};
use crate::catalogue::{Catalogue, Muscle, Pattern, Role};
use crate::person::Person;
use crate::slug::slugged;
use std::fmt;
use std::sync::Arc;

/// The slug of a split. Cheap to clone.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SplitId(Arc<str>);

impl SplitId {
    /// An id of this spelling.
    #[must_use]
    pub fn new(slug: &str) -> Self {
        Self(Arc::from(slug))
    }

    /// The spelling.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for SplitId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

slugged! {
    /// What a day of the cycle is about.
    Focus {
        /// The whole body, evenly.
        FullBody = "full-body",
        /// The whole body, pushing first.
        PushLed = "push-led",
        /// The whole body, pulling first.
        PullLed = "pull-led",
        /// The whole body, legs first.
        LegsLed = "legs-led",
        /// Pushing.
        Push = "push",
        /// Pulling.
        Pull = "pull",
        /// Legs.
        Legs = "legs",
        /// Upper body.
        Upper = "upper",
        /// Lower body.
        Lower = "lower",
        /// The person's own.
        Own = "own",
    }
}

/// A place in a day for one exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slot {
    /// Job the exercise must have.
    pub role: Role,
    /// Patterns it may have, the best suited first.
    pub patterns: Vec<Pattern>,
    /// Muscle it must be a prime mover of, where the patterns leave it open.
    pub muscle: Option<Muscle>,
    /// Emphasis: 1 is what the day is about; higher numbers go first when the
    /// minutes are short.
    pub rank: u8,
}

/// One day of a split.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SplitDay {
    /// What it is about.
    pub focus: Focus,
    /// Its slots, in usual order.
    pub slots: Vec<Slot>,
}

/// A cycle of days.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Split {
    /// Slug that never changes.
    pub id: SplitId,
    /// The cycle. A week with more or fewer training days takes it up where
    /// the last one left it.
    pub days: Vec<SplitDay>,
}

/// A split of a person's own making. Roles and ranks follow from patterns and
/// places: see [`OwnSplit::settle`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnSplit {
    /// Its name; 1 to [`OwnSplit::NAME`] characters.
    pub name: String,
    /// Its days; while it is being made there may be none, or days without
    /// slots.
    pub split: Split,
}

impl OwnSplit {
    /// Most characters of a name (definition).
    pub const NAME: usize = 40;
    /// What the slugs of own splits begin with (definition: no built-in split
    /// begins so).
    pub const SLUG: &'static str = "own-";
    /// Places of a day that share a rank (the project's own judgement).
    const OF_A_RANK: usize = 3;

    /// Gives each slot the role of its first pattern and the rank of its place:
    /// what comes first on a day is what the day is about.
    pub fn settle(&mut self) {
        for day in &mut self.split.days {
            for (at, slot) in day.slots.iter_mut().enumerate() {
                if let Some(pattern) = slot.patterns.first() {
                    slot.role = pattern.roles()[0];
                }
                slot.rank = u8::try_from(1 + at / Self::OF_A_RANK).unwrap_or(u8::MAX);
            }
        }
    }

    /// A slug that none of the splits has.
    #[must_use]
    pub fn free_slug(taken: &[Self]) -> SplitId {
        let number = |own: &Self| -> Option<u32> {
            own.split.id.as_str().strip_prefix(Self::SLUG)?.parse().ok()
        };
        let last = taken.iter().filter_map(number).max().unwrap_or(0);
        SplitId::new(&format!("{}{}", Self::SLUG, last.saturating_add(1)))
    }
}

impl SplitDay {
    /// Slots, by index, that none of a planned day's exercises stands for; each
    /// exercise stands for one.
    #[must_use]
    pub fn open_slots(&self, catalogue: &Catalogue, planned: &PlanDay) -> Vec<usize> {
        let mut patterns: Vec<Pattern> = planned
            .items
            .iter()
            .filter_map(|item| Some(catalogue.get(&item.prescription.exercise)?.pattern))
            .collect();
        let mut open = Vec::new();
        for (at, slot) in self.slots.iter().enumerate() {
            match patterns.iter().position(|p| slot.patterns.contains(p)) {
                Some(filled) => drop(patterns.swap_remove(filled)),
                None => open.push(at),
            }
        }
        open
    }
}

impl Slot {
    /// A place for an exercise of this pattern, on a day of an own split.
    #[must_use]
    pub fn of(pattern: Pattern) -> Self {
        Self::new(pattern.roles()[0], vec![pattern], None, 1)
    }

    const fn new(role: Role, patterns: Vec<Pattern>, muscle: Option<Muscle>, rank: u8) -> Self {
        Self {
            role,
            patterns,
            muscle,
            rank,
        }
    }
}

impl Split {
    /// The split a week of so many training days starts with; held to 1 to 7.
    #[must_use]
    pub fn default_for(days: u8) -> SplitId {
        Self::offered_for(days).swap_remove(0)
    }

    /// The splits made for a week of so many training days (held to 1 to 7),
    /// the default first. One day has no other: half a body a week would leave the
    /// other half untrained.
    #[must_use]
    pub fn offered_for(days: u8) -> Vec<SplitId> {
        let slugs: &[&str] = match days {
            0 | 1 => &["full-body-once"],
            2 => &["full-body-twice", "upper-lower-once"],
            3 => &["rotating-emphasis", "push-pull-legs"],
            4 => &["upper-lower-twice", "full-body-four"],
            5 => &["upper-lower-push-pull-legs", "full-body-five"],
            6 => &["push-pull-legs-twice", "upper-lower-thrice"],
            _ => &[
                "push-pull-legs-twice-and-small",
                "upper-lower-thrice-and-small",
            ],
        };
        slugs.iter().map(|slug| SplitId::new(slug)).collect()
    }

    /// The splits for this person: those made for their number of days, the
    /// default first, then their own.
    #[must_use]
    pub fn offered_to(person: &Person) -> Vec<SplitId> {
        let mut offered = Self::offered_for(u8::try_from(person.days.len()).unwrap_or(7));
        offered.extend(person.own_splits.iter().map(|own| own.split.id.clone()));
        offered
    }

    /// The split with this id, the person's own or a built-in one.
    #[must_use]
    pub fn of(person: &Person, id: &SplitId) -> Option<Self> {
        let own = person.own_splits.iter().find(|own| &own.split.id == id);
        own.map(|own| own.split.clone()).or_else(|| Self::get(id))
    }

    /// A plan of the split's days without any exercise, to be filled by hand.
    #[must_use]
    pub fn blank(&self) -> Plan {
        let day = |day: &SplitDay| PlanDay {
            focus: day.focus,
            items: Vec::new(),
            seconds: 0,
        };
        Plan {
            split: self.id.clone(),
            days: self.days.iter().map(day).collect(),
            notes: Vec::new(),
        }
    }

    /// The built-in split with this id.
    #[must_use]
    pub fn get(id: &SplitId) -> Option<Self> {
        built_in().into_iter().find(|split| &split.id == id)
    }
}

/// Every split that comes with Weekloom (common practice, no source).
///
/// Seven exercises a day as a rule, ordered as the day usually runs. Small work
/// that comes on top of the seven is short and ranks last.
#[must_use]
pub fn built_in() -> Vec<Split> {
    let split = |slug: &str, days: Vec<SplitDay>| Split {
        id: SplitId::new(slug),
        days,
    };
    vec![
        split("full-body-once", vec![full_body_once()]),
        split("full-body-twice", full_body_twice()),
        split("upper-lower-once", upper_lower_once()),
        split(
            "rotating-emphasis",
            vec![push_led(), pull_led(), legs_led()],
        ),
        split(
            "push-pull-legs",
            vec![push(Turn::First), pull(Turn::First), legs(Turn::First)],
        ),
        split(
            "upper-lower-twice",
            vec![
                upper(Turn::First),
                lower(Turn::First),
                upper(Turn::Second),
                lower(Turn::Second),
            ],
        ),
        split("full-body-four", full_body_four()),
        split(
            "upper-lower-push-pull-legs",
            vec![
                upper(Turn::First),
                lower(Turn::First),
                push(Turn::First),
                pull(Turn::First),
                legs(Turn::Second),
            ],
        ),
        split("full-body-five", full_body_five()),
        split("push-pull-legs-twice", push_pull_legs_twice()),
        split("upper-lower-thrice", upper_lower_thrice()),
        split("push-pull-legs-twice-and-small", {
            let mut days = push_pull_legs_twice();
            days.push(small_muscles());
            days
        }),
        split("upper-lower-thrice-and-small", {
            let mut days = upper_lower_thrice();
            days.push(small_muscles());
            days
        }),
    ]
}

/// Which of the two days of a kind that a cycle may hold. The second opens
/// with what the first left for later, so that squat and hinge, and pressing
/// and pulling overhead, take turns at being fresh.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Turn {
    First,
    Second,
}

const fn day(focus: Focus, slots: Vec<Slot>) -> SplitDay {
    SplitDay { focus, slots }
}

fn chest_press(rank: u8) -> Slot {
    Slot::new(
        Role::Push,
        vec![Pattern::HorizontalPush],
        Some(Muscle::Chest),
        rank,
    )
}

fn chest_fly(rank: u8) -> Slot {
    Slot::new(
        Role::Push,
        vec![Pattern::ChestFly, Pattern::HorizontalPush],
        Some(Muscle::Chest),
        rank,
    )
}

fn shoulder_press(rank: u8) -> Slot {
    Slot::new(Role::Push, vec![Pattern::VerticalPush], None, rank)
}

fn side_raise(rank: u8) -> Slot {
    Slot::new(
        Role::Push,
        vec![Pattern::SideRaise, Pattern::VerticalPush],
        Some(Muscle::SideDelts),
        rank,
    )
}

fn triceps(rank: u8) -> Slot {
    Slot::new(
        Role::Push,
        vec![Pattern::ElbowExtension],
        Some(Muscle::Triceps),
        rank,
    )
}

/// Side shoulder or triceps, whichever the week needs more; the first when it
/// makes no odds, so that both come round.
fn small_push(first: Pattern, rank: u8) -> Slot {
    Slot::new(
        Role::Push,
        first_of(first, [Pattern::SideRaise, Pattern::ElbowExtension]),
        None,
        rank,
    )
}

/// Biceps or rear shoulder, likewise.
fn small_pull(first: Pattern, rank: u8) -> Slot {
    Slot::new(
        Role::Pull,
        first_of(first, [Pattern::ElbowFlexion, Pattern::RearRaise]),
        None,
        rank,
    )
}

fn first_of(first: Pattern, both: [Pattern; 2]) -> Vec<Pattern> {
    let mut patterns = both.to_vec();
    if both[1] == first {
        patterns.reverse();
    }
    patterns
}

fn row(rank: u8) -> Slot {
    Slot::new(Role::Pull, vec![Pattern::HorizontalPull], None, rank)
}

fn pulldown(rank: u8) -> Slot {
    Slot::new(Role::Pull, vec![Pattern::VerticalPull], None, rank)
}

fn back(rank: u8) -> Slot {
    Slot::new(
        Role::Pull,
        vec![
            Pattern::VerticalPull,
            Pattern::HorizontalPull,
            Pattern::ShoulderExtension,
        ],
        None,
        rank,
    )
}

/// A second pull from above: another grip, or the arms kept straight.
fn second_pulldown(rank: u8) -> Slot {
    Slot::new(
        Role::Pull,
        vec![Pattern::VerticalPull, Pattern::ShoulderExtension],
        Some(Muscle::Lats),
        rank,
    )
}

fn biceps(rank: u8) -> Slot {
    Slot::new(
        Role::Pull,
        vec![Pattern::ElbowFlexion],
        Some(Muscle::Biceps),
        rank,
    )
}

fn rear_raise(rank: u8) -> Slot {
    Slot::new(Role::Pull, vec![Pattern::RearRaise], None, rank)
}

fn squat(rank: u8) -> Slot {
    Slot::new(
        Role::Legs,
        vec![Pattern::Squat, Pattern::Lunge],
        Some(Muscle::Quadriceps),
        rank,
    )
}

fn lunge(rank: u8) -> Slot {
    Slot::new(
        Role::Legs,
        vec![Pattern::Lunge, Pattern::KneeExtension, Pattern::Squat],
        Some(Muscle::Quadriceps),
        rank,
    )
}

fn knee_extension(rank: u8) -> Slot {
    Slot::new(
        Role::Legs,
        vec![Pattern::KneeExtension, Pattern::Lunge],
        Some(Muscle::Quadriceps),
        rank,
    )
}

fn hinge(rank: u8) -> Slot {
    Slot::new(Role::Legs, vec![Pattern::Hinge], None, rank)
}

/// A hinge over nearly straight knees, for the back of the thigh.
fn hamstring_hinge(rank: u8) -> Slot {
    Slot::new(
        Role::Legs,
        vec![Pattern::Hinge],
        Some(Muscle::Hamstrings),
        rank,
    )
}

/// The back of the hip and thigh on a day that already squats hard: the bridge
/// and thrust spare the back.
fn hip_extension(rank: u8) -> Slot {
    Slot::new(
        Role::Legs,
        vec![
            Pattern::HipExtension,
            Pattern::KneeFlexion,
            Pattern::BackExtension,
        ],
        None,
        rank,
    )
}

fn knee_flexion(rank: u8) -> Slot {
    Slot::new(
        Role::Legs,
        vec![Pattern::KneeFlexion],
        Some(Muscle::Hamstrings),
        rank,
    )
}

fn calf_raise(rank: u8) -> Slot {
    Slot::new(Role::Legs, vec![Pattern::CalfRaise], None, rank)
}

fn trunk(rank: u8) -> Slot {
    Slot::new(
        Role::Trunk,
        vec![Pattern::TrunkFlexion, Pattern::TrunkStability],
        Some(Muscle::Abdominals),
        rank,
    )
}

fn push_led() -> SplitDay {
    day(
        Focus::PushLed,
        vec![
            chest_press(1),
            shoulder_press(1),
            squat(2),
            row(2),
            pulldown(2),
            small_push(Pattern::ElbowExtension, 3),
            knee_flexion(3),
        ],
    )
}

fn pull_led() -> SplitDay {
    day(
        Focus::PullLed,
        vec![
            pulldown(1),
            row(1),
            hamstring_hinge(2),
            chest_press(2),
            lunge(2),
            biceps(2),
            small_push(Pattern::SideRaise, 3),
            trunk(4),
        ],
    )
}

fn legs_led() -> SplitDay {
    day(
        Focus::LegsLed,
        vec![
            squat(1),
            hip_extension(1),
            chest_press(2),
            back(2),
            calf_raise(2),
            small_push(Pattern::SideRaise, 3),
            small_pull(Pattern::RearRaise, 3),
            trunk(4),
        ],
    )
}

fn push(turn: Turn) -> SplitDay {
    let shoulders = if turn == Turn::First { 2 } else { 1 };
    let mut slots = vec![
        chest_press(1),
        chest_press(1),
        chest_fly(1),
        shoulder_press(shoulders),
        side_raise(2),
        triceps(2),
        triceps(3),
    ];
    if turn == Turn::Second {
        slots.swap(0, 3);
    }
    day(Focus::Push, slots)
}

fn pull(turn: Turn) -> SplitDay {
    let mut slots = vec![
        pulldown(1),
        row(1),
        second_pulldown(1),
        row(1),
        rear_raise(3),
        biceps(2),
        biceps(3),
    ];
    if turn == Turn::Second {
        slots.swap(0, 1);
    }
    day(Focus::Pull, slots)
}

fn legs(turn: Turn) -> SplitDay {
    let slots = match turn {
        Turn::First => vec![
            squat(1),
            hamstring_hinge(1),
            knee_extension(2),
            knee_flexion(2),
            calf_raise(2),
            trunk(3),
        ],
        Turn::Second => vec![
            hamstring_hinge(1),
            lunge(1),
            knee_flexion(2),
            knee_extension(2),
            calf_raise(2),
            trunk(3),
        ],
    };
    day(Focus::Legs, slots)
}

fn upper(turn: Turn) -> SplitDay {
    let slots = match turn {
        Turn::First => vec![
            chest_press(1),
            row(1),
            shoulder_press(2),
            pulldown(2),
            side_raise(3),
            biceps(3),
            triceps(3),
        ],
        Turn::Second => vec![
            pulldown(1),
            chest_press(1),
            row(2),
            chest_fly(2),
            small_push(Pattern::SideRaise, 3),
            rear_raise(3),
            biceps(3),
        ],
    };
    day(Focus::Upper, slots)
}

fn lower(turn: Turn) -> SplitDay {
    let slots = match turn {
        Turn::First => vec![
            squat(1),
            hip_extension(1),
            lunge(2),
            knee_flexion(2),
            calf_raise(2),
            trunk(3),
            knee_extension(4),
        ],
        Turn::Second => vec![
            hinge(1),
            lunge(1),
            knee_extension(2),
            knee_flexion(2),
            calf_raise(2),
            trunk(3),
            hip_extension(4),
        ],
    };
    day(Focus::Lower, slots)
}

fn full_body_once() -> SplitDay {
    day(
        Focus::FullBody,
        vec![
            squat(1),
            chest_press(1),
            row(1),
            hinge(2),
            shoulder_press(2),
            pulldown(2),
            trunk(3),
            calf_raise(4),
        ],
    )
}

fn full_body_twice() -> Vec<SplitDay> {
    vec![
        day(
            Focus::FullBody,
            vec![
                squat(1),
                chest_press(1),
                row(1),
                knee_flexion(2),
                pulldown(2),
                small_push(Pattern::SideRaise, 3),
                trunk(3),
                calf_raise(4),
            ],
        ),
        day(
            Focus::FullBody,
            vec![
                hinge(1),
                chest_press(1),
                pulldown(1),
                lunge(2),
                shoulder_press(2),
                small_pull(Pattern::RearRaise, 3),
                calf_raise(3),
                trunk(4),
            ],
        ),
    ]
}

fn full_body_four() -> Vec<SplitDay> {
    let days = [
        vec![
            squat(1),
            chest_press(1),
            row(1),
            knee_flexion(2),
            side_raise(2),
            biceps(3),
            trunk(3),
        ],
        vec![
            hamstring_hinge(1),
            shoulder_press(1),
            pulldown(1),
            lunge(2),
            chest_fly(2),
            calf_raise(3),
            triceps(3),
        ],
        vec![
            chest_press(1),
            squat(1),
            row(1),
            hip_extension(2),
            rear_raise(2),
            trunk(3),
            small_push(Pattern::ElbowExtension, 3),
        ],
        vec![
            pulldown(1),
            knee_flexion(1),
            chest_press(1),
            knee_extension(2),
            small_push(Pattern::SideRaise, 2),
            calf_raise(3),
            biceps(3),
        ],
    ];
    days.into_iter()
        .map(|slots| day(Focus::FullBody, slots))
        .collect()
}

/// Each half once: what longer cycles leave to their second days, the hinge and the
/// rear shoulder, has to stand here.
fn upper_lower_once() -> Vec<SplitDay> {
    let mut above = upper(Turn::First);
    above.slots.push(rear_raise(4));
    let below = legs(Turn::First);
    vec![above, day(Focus::Lower, below.slots)]
}

/// Five whole-body days, each led by something else than the day before it: push,
/// pull and legs take turns, and push and pull come round again. The push days leave
/// pulling from above to the pull days that follow them.
fn full_body_five() -> Vec<SplitDay> {
    let mut first_push = push_led();
    for slot in &mut first_push.slots {
        if slot.patterns == [Pattern::VerticalPull] {
            *slot = rear_raise(3);
        }
    }
    let second_push = day(
        Focus::PushLed,
        vec![
            shoulder_press(1),
            chest_press(1),
            hip_extension(2),
            rear_raise(2),
            small_push(Pattern::ElbowExtension, 3),
            biceps(3),
            knee_extension(3),
        ],
    );
    let second_pull = day(
        Focus::PullLed,
        vec![
            row(1),
            pulldown(1),
            knee_flexion(2),
            chest_fly(2),
            lunge(2),
            small_pull(Pattern::RearRaise, 3),
            small_push(Pattern::SideRaise, 3),
            calf_raise(4),
        ],
    );
    vec![first_push, pull_led(), legs_led(), second_push, second_pull]
}

fn upper_lower_thrice() -> Vec<SplitDay> {
    vec![
        upper(Turn::First),
        lower(Turn::First),
        upper(Turn::Second),
        lower(Turn::Second),
        upper(Turn::First),
        lower(Turn::First),
    ]
}

fn push_pull_legs_twice() -> Vec<SplitDay> {
    vec![
        push(Turn::First),
        pull(Turn::First),
        legs(Turn::First),
        push(Turn::Second),
        pull(Turn::Second),
        legs(Turn::Second),
    ]
}

/// A seventh day that leaves the large muscles alone.
fn small_muscles() -> SplitDay {
    day(
        Focus::FullBody,
        vec![
            side_raise(1),
            rear_raise(1),
            calf_raise(2),
            biceps(2),
            triceps(2),
            trunk(3),
        ],
    )
}
