//! What can happen in a session.

use super::Target;
use crate::log::{Discomfort, SetKind};
use crate::plan::Prescription;
use crate::units::Load;

/// One thing the person (or the rest timer) did. Items and sets are named by
/// their index in the session as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Event {
    /// Begin.
    Start,
    /// Keep what is aimed at; allowed until the first work set of the item.
    SetTarget {
        /// The item.
        item: usize,
        /// The aim.
        target: Target,
    },
    /// A set of the current item was done.
    LogSet {
        /// The load; nought where the exercise has no number.
        load: Load,
        /// Reps or seconds.
        count: u16,
        /// Reps in reserve, if said.
        rir: Option<u8>,
        /// Work or warm-up.
        kind: SetKind,
    },
    /// A logged set was wrong; its moment stays.
    AmendSet {
        /// The item.
        item: usize,
        /// The set.
        set: usize,
        /// The load as it was.
        load: Load,
        /// Reps or seconds as they were.
        count: u16,
        /// Reps in reserve as they were.
        rir: Option<u8>,
        /// Work or warm-up.
        kind: SetKind,
    },
    /// A set was done and not logged then; its moment is that of the set before it,
    /// so that nobody takes the time between them for a rest.
    AddSet {
        /// The item.
        item: usize,
        /// The load; nought where the exercise has no number.
        load: Load,
        /// Reps or seconds.
        count: u16,
        /// Reps in reserve, if said.
        rir: Option<u8>,
    },
    /// A logged set never was.
    RemoveSet {
        /// The item.
        item: usize,
        /// The set.
        set: usize,
    },
    /// Take back the set logged last and put its exercise up again.
    UndoLast,
    /// Do this exercise now. A skipped one is taken back; one that is done
    /// gets a further set.
    Focus {
        /// The item.
        item: usize,
    },
    /// Leave out what remains of an exercise.
    Skip {
        /// The item.
        item: usize,
    },
    /// Take back a skip.
    Unskip {
        /// The item.
        item: usize,
    },
    /// Do another exercise in its place. Sets, notes and discomfort already
    /// there stay with the old one, which is left out from then on.
    Swap {
        /// The item.
        item: usize,
        /// What to do instead.
        prescription: Prescription,
    },
    /// One more exercise, at the end.
    Add {
        /// What to do.
        prescription: Prescription,
    },
    /// Take away an exercise that was added today and has no sets.
    Remove {
        /// The item.
        item: usize,
    },
    /// Ask for so many work sets.
    SetSets {
        /// The item.
        item: usize,
        /// Work sets, [`crate::bounds::SETS`], not below those done.
        sets: u8,
    },
    /// Put an exercise in another place of the order; the others close up.
    Move {
        /// The item.
        item: usize,
        /// The index it has afterwards.
        to: usize,
    },
    /// Do an exercise later: it goes, with its partners, behind the one that
    /// is next, which comes up in its place.
    Later {
        /// The item.
        item: usize,
    },
    /// Rest so long after each set of an exercise from now on; a rest that
    /// runs stays as it is.
    SetRest {
        /// The item.
        item: usize,
        /// Length, [`crate::bounds::REST_S`].
        seconds: u16,
    },
    /// Do two exercises in turn. Groups they are in join, and the later ones
    /// come up to the first.
    Superset {
        /// One.
        a: usize,
        /// The other.
        b: usize,
    },
    /// Do an exercise on its own again.
    Unpair {
        /// The item.
        item: usize,
    },
    /// Note how much an exercise hurt, or take the note back.
    Discomfort {
        /// The item.
        item: usize,
        /// How much; `None` takes it back.
        discomfort: Option<Discomfort>,
    },
    /// Replace the note of an exercise.
    Note {
        /// The item.
        item: usize,
        /// At most 500 characters.
        text: String,
    },
    /// Rest from now on.
    StartRest {
        /// Length, [`crate::bounds::REST_S`].
        seconds: u16,
    },
    /// More or less rest.
    ChangeRest {
        /// Seconds to add; negative for less.
        delta_s: i32,
    },
    /// Go on before the rest is over.
    SkipRest,
    /// The rest timer ran out.
    RestOver,
    /// Interrupt; the rest timer goes off.
    Pause,
    /// Go on after a pause.
    Resume,
    /// End, with or without everything done.
    Finish,
}
