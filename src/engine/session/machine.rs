//! The transitions: which event leads where, and what is refused.

use super::{Event, ItemState, NOTE_CHARS, Phase, Refusal, Session, SessionItem, Target};
use crate::bounds::{self, OutOfBounds};
use crate::calendar::Moment;
use crate::log::{SetEntry, SetKind};
use crate::plan::Prescription;
use crate::units::Load;

/// Keys above this were added today (definition).
const LAST_PLAN_KEY: u16 = 999;

/// Sets of one item, warm-up sets included (definition: twice what one may ask
/// for).
const MOST_SETS: usize = 20;

impl Session {
    /// The session after an event at `now`.
    ///
    /// | phase | allowed |
    /// |---|---|
    /// | planned | start; anything that shapes the items; notes |
    /// | active, resting | everything but start and resume |
    /// | paused | resume, finish, amend, undo, shape the items, notes |
    /// | finished | amend, add or remove a set, notes, discomfort |
    ///
    /// Only [`Event::RemoveSet`] and [`Event::UndoLast`] ever make sets fewer.
    ///
    /// # Errors
    /// [`Refusal`] says why, and what to do instead.
    pub fn apply(&self, event: &Event, now: Moment) -> Result<Self, Refusal> {
        let mut next = self.reclocked(now).unwrap_or_else(|| self.clone());
        next.take(event, now)?;
        Ok(next)
    }

    /// The session put right after the clock was set back during a rest or a
    /// pause: the rest starts over from `now`, the pause begins at `now`.
    /// `None` when nothing is wrong. Ask at every tick of the rest timer: the
    /// timer would stand still until the clock had caught up.
    #[must_use]
    pub fn reclocked(&self, now: Moment) -> Option<Self> {
        let phase = match self.phase {
            Phase::Resting { since, until } if now < since => Phase::Resting {
                since: now,
                until: Moment(now.0.saturating_add(until.0.saturating_sub(since.0))),
            },
            Phase::Paused { since } if now < since => Phase::Paused { since: now },
            _ => return None,
        };
        Some(Self {
            phase,
            ..self.clone()
        })
    }

    fn take(&mut self, event: &Event, now: Moment) -> Result<(), Refusal> {
        self.check_phase(event)?;
        match event {
            Event::Start => self.start(now),
            Event::SetTarget { item, target } => self.set_target(*item, *target)?,
            Event::LogSet {
                load,
                count,
                rir,
                kind,
            } => self.log_set(check_set(*load, *count, *rir, *kind, now)?)?,
            Event::AmendSet {
                item,
                set,
                load,
                count,
                rir,
                kind,
            } => {
                let entry = self.set_mut(*item, *set)?;
                let amended = check_set(*load, *count, *rir, *kind, entry.at)?;
                let was_open = self.items[*item].is_open();
                self.items[*item].sets[*set] = amended;
                if was_open {
                    self.leave_if_closed(*item);
                }
                self.settle();
            }
            Event::AddSet {
                item,
                load,
                count,
                rir,
            } => {
                let start = self.started.unwrap_or_default();
                let found = self.item_mut(*item)?;
                check_room(found, SetKind::Work)?;
                let at = found.sets.last().map_or(start, |set| set.at);
                let set = check_set(*load, *count, *rir, SetKind::Work, at)?;
                found.sets.push(set);
            }
            Event::RemoveSet { item, set } => {
                self.set_mut(*item, *set)?;
                self.items[*item].sets.remove(*set);
                self.settle();
            }
            Event::UndoLast => self.undo_last()?,
            Event::Focus { item } => self.focus(*item)?,
            Event::Skip { item } => self.skip(*item)?,
            Event::Unskip { item } => {
                let found = self.item_mut(*item)?;
                if found.state != ItemState::Skipped {
                    return Err(Refusal::NotSkipped);
                }
                found.state = ItemState::Open;
                self.settle();
            }
            Event::Swap { item, prescription } => self.swap(*item, prescription)?,
            Event::Add { prescription } => {
                check_prescription(prescription)?;
                #[expect(clippy::cast_possible_wrap, reason = "a session is short")]
                bounds::SLOTS.check(self.items.len() as i64 + 1)?;
                let key = self.free_key();
                self.items.push(SessionItem::new(key, prescription.clone()));
                self.settle();
            }
            Event::Remove { item } => self.remove(*item)?,
            Event::SetSets { item, sets } => {
                bounds::SETS.check(i64::from(*sets))?;
                let found = self.item_mut(*item)?;
                let done = found.work_sets_done();
                if usize::from(*sets) < done {
                    return Err(Refusal::BelowDone { done });
                }
                found.prescription.sets = *sets;
                self.leave_if_closed(*item);
                self.settle();
            }
            Event::Move { item, to } => self.move_to(*item, *to)?,
            Event::Later { item } => self.later(*item)?,
            Event::SetRest { item, seconds } => {
                bounds::REST_S.check(i64::from(*seconds))?;
                self.item_mut(*item)?.prescription.rest_s = *seconds;
            }
            Event::Superset { a, b } => self.pair(*a, *b)?,
            Event::Unpair { item } => {
                let Some(group) = self.item_mut(*item)?.superset.take() else {
                    return Err(Refusal::NotPaired);
                };
                self.dissolve_single(group);
            }
            Event::Discomfort { item, discomfort } => {
                self.item_mut(*item)?.discomfort = *discomfort;
            }
            Event::Note { item, text } => {
                let found = self.item_mut(*item)?;
                let chars = text.chars().count();
                if chars > NOTE_CHARS {
                    return Err(Refusal::NoteTooLong { chars });
                }
                found.note.clone_from(text);
            }
            Event::StartRest { seconds } => {
                bounds::REST_S.check(i64::from(*seconds))?;
                if self.current.is_none() {
                    return Err(Refusal::NothingUp);
                }
                self.rest(*seconds, now);
            }
            Event::ChangeRest { delta_s } => self.change_rest(*delta_s, now)?,
            Event::SkipRest => self.phase = Phase::Active,
            Event::RestOver => {
                let remaining_s = self.remaining_s(now);
                if remaining_s > 0 {
                    return Err(Refusal::RestNotOver { remaining_s });
                }
                self.phase = Phase::Active;
            }
            Event::Pause => self.phase = Phase::Paused { since: now },
            Event::Resume => {
                self.close_pause(now);
                self.phase = Phase::Active;
            }
            Event::Finish => self.finish(now)?,
        }
        // Nothing to rest for once nothing is up.
        if self.current.is_none() && matches!(self.phase, Phase::Resting { .. }) {
            self.phase = Phase::Active;
        }
        Ok(())
    }

    /// Whether the phase allows the event at all.
    fn check_phase(&self, event: &Event) -> Result<(), Refusal> {
        use Event as E;
        match (self.phase, event) {
            // Corrections are always possible.
            (
                _,
                E::AmendSet { .. } | E::RemoveSet { .. } | E::Note { .. } | E::Discomfort { .. },
            )
            | (Phase::Finished { .. }, E::AddSet { .. }) => Ok(()),
            (_, E::AddSet { .. }) => Err(Refusal::UnderWay),
            (Phase::Finished { .. }, _) => Err(Refusal::Finished),
            (Phase::Planned, E::Start) => Ok(()),
            (_, E::Start) => Err(Refusal::AlreadyStarted),
            (
                Phase::Planned,
                E::LogSet { .. }
                | E::UndoLast
                | E::StartRest { .. }
                | E::ChangeRest { .. }
                | E::SkipRest
                | E::RestOver
                | E::Pause
                | E::Resume
                | E::Finish,
            ) => Err(Refusal::NotStarted),
            (
                Phase::Paused { .. },
                E::LogSet { .. }
                | E::StartRest { .. }
                | E::ChangeRest { .. }
                | E::SkipRest
                | E::RestOver
                | E::Pause,
            ) => Err(Refusal::Paused),
            (Phase::Active | Phase::Resting { .. }, E::Resume) => Err(Refusal::NotPaused),
            (Phase::Active, E::ChangeRest { .. } | E::SkipRest | E::RestOver) => {
                Err(Refusal::NotResting)
            }
            _ => Ok(()),
        }
    }

    fn start(&mut self, now: Moment) {
        self.started = Some(now);
        self.phase = Phase::Active;
        self.settle();
    }

    fn set_target(&mut self, item: usize, target: Target) -> Result<(), Refusal> {
        check_count(target.count)?;
        bounds::RIR.check(i64::from(target.rir))?;
        let found = self.item_mut(item)?;
        if found.work_sets_done() > 0 {
            return Err(Refusal::TargetFixed);
        }
        found.target = Some(target);
        Ok(())
    }

    fn log_set(&mut self, mut entry: SetEntry) -> Result<(), Refusal> {
        let now = entry.at;
        let at = self.current.ok_or(Refusal::NothingUp)?;
        // Moments of sets only grow, whatever the clock does: undo finds the
        // last one by them.
        if let Some((i, k)) = self.last_set() {
            let last = self.items[i].sets[k].at;
            entry.at = entry.at.max(Moment(last.0.saturating_add(1)));
        }
        let item = self.item_mut(at)?;
        check_room(item, entry.kind)?;
        item.sets.push(entry);
        match entry.kind {
            SetKind::WarmUp => self.phase = Phase::Active,
            SetKind::Work => match self.after_work_set(at) {
                Some((next, seconds)) => {
                    self.current = Some(next);
                    self.rest(seconds, now);
                }
                None => {
                    self.current = None;
                    self.phase = Phase::Active;
                }
            },
        }
        Ok(())
    }

    /// Puts the first open item up when nothing is.
    fn settle(&mut self) {
        if self.is_running() && self.current.is_none() {
            self.current = self.items.iter().position(SessionItem::is_open);
        }
    }

    /// Moves on when the current item has nothing left to do.
    pub(super) fn leave_if_closed(&mut self, item: usize) {
        if self.current == Some(item) && !self.items[item].is_open() {
            self.current = self.next_open(item);
        }
    }

    fn undo_last(&mut self) -> Result<(), Refusal> {
        let (item, set) = self.last_set().ok_or(Refusal::NothingLogged)?;
        let found = &mut self.items[item];
        found.sets.remove(set);
        // What was left out on purpose stays out.
        if found.state == ItemState::Open {
            self.current = Some(item);
        }
        if matches!(self.phase, Phase::Resting { .. }) {
            self.phase = Phase::Active;
        }
        Ok(())
    }

    fn focus(&mut self, item: usize) -> Result<(), Refusal> {
        let found = self.item_mut(item)?;
        let was_skipped = found.state == ItemState::Skipped;
        found.state = ItemState::Open;
        if self.current == Some(item) && !was_skipped {
            return Err(Refusal::AlreadyUp);
        }
        self.current = Some(item);
        Ok(())
    }

    fn skip(&mut self, item: usize) -> Result<(), Refusal> {
        let found = self.item_mut(item)?;
        if found.state == ItemState::Skipped {
            return Err(Refusal::AlreadySkipped);
        }
        if !found.is_open() {
            return Err(Refusal::ItemComplete);
        }
        found.state = ItemState::Skipped;
        self.leave_if_closed(item);
        Ok(())
    }

    fn swap(&mut self, item: usize, prescription: &Prescription) -> Result<(), Refusal> {
        check_prescription(prescription)?;
        let key = self.free_key();
        let found = self.item_mut(item)?;
        if found.prescription.exercise == prescription.exercise {
            return Err(Refusal::SameExercise);
        }
        let planned = found
            .swapped_from
            .clone()
            .unwrap_or_else(|| found.prescription.exercise.clone());
        let swapped_from = (planned != prescription.exercise).then_some(planned);
        let is_untouched =
            found.sets.is_empty() && found.discomfort.is_none() && found.note.is_empty();
        if is_untouched {
            found.prescription = prescription.clone();
            found.swapped_from = swapped_from;
            found.target = None;
            found.state = ItemState::Open;
            self.settle();
            return Ok(());
        }
        // What was done and noted belongs to the old exercise.
        found.state = ItemState::Skipped;
        let superset = found.superset.take();
        let mut instead = SessionItem::new(key, prescription.clone());
        instead.superset = superset;
        instead.swapped_from = swapped_from;
        self.items.insert(item + 1, instead);
        self.current = match self.current {
            Some(at) if at == item => Some(item + 1),
            Some(at) if at > item => Some(at + 1),
            other => other,
        };
        self.settle();
        Ok(())
    }

    fn remove(&mut self, item: usize) -> Result<(), Refusal> {
        let found = self.item_mut(item)?;
        if found.key <= LAST_PLAN_KEY {
            return Err(Refusal::NotAddedToday);
        }
        if !found.sets.is_empty() {
            return Err(Refusal::HasSets {
                sets: found.sets.len(),
            });
        }
        let group = found.superset;
        if self.current == Some(item) {
            self.current = self.next_open(item).filter(|&next| next != item);
        }
        self.items.remove(item);
        self.current = self.current.map(|at| if at > item { at - 1 } else { at });
        if let Some(group) = group {
            self.dissolve_single(group);
        }
        self.settle();
        Ok(())
    }

    fn rest(&mut self, seconds: u16, now: Moment) {
        self.phase = if seconds == 0 {
            Phase::Active
        } else {
            Phase::Resting {
                since: now,
                until: now.plus_seconds(i64::from(seconds)),
            }
        };
    }

    fn change_rest(&mut self, delta_s: i32, now: Moment) -> Result<(), Refusal> {
        let Phase::Resting { since, until } = self.phase else {
            return Err(Refusal::NotResting);
        };
        let left = i64::from(self.remaining_s(now)) + i64::from(delta_s);
        if left <= 0 {
            self.phase = Phase::Active;
            return Ok(());
        }
        bounds::REST_S.check(left)?;
        // A rest that ran out unnoticed starts anew.
        let (since, until) = if now >= until {
            (now, now.plus_seconds(left))
        } else {
            let until = until.plus_seconds(i64::from(delta_s));
            bounds::REST_S.check(until.seconds_since(since))?;
            (since, until)
        };
        self.phase = Phase::Resting { since, until };
        Ok(())
    }

    fn close_pause(&mut self, now: Moment) {
        if let Phase::Paused { since } = self.phase {
            let seconds = now.0.saturating_sub(since.0).max(0) / 1000;
            let seconds = u32::try_from(seconds).unwrap_or(u32::MAX);
            self.paused_s = self.paused_s.saturating_add(seconds);
        }
    }

    fn finish(&mut self, now: Moment) -> Result<(), Refusal> {
        let (i, k) = self.last_set().ok_or(Refusal::NothingLogged)?;
        let last = self.items[i].sets[k].at;
        self.close_pause(now);
        self.current = None;
        self.phase = Phase::Finished { at: now.max(last) };
        Ok(())
    }

    pub(super) fn item_mut(&mut self, item: usize) -> Result<&mut SessionItem, Refusal> {
        let items = self.items.len();
        self.items
            .get_mut(item)
            .ok_or(Refusal::NoSuchItem { item, items })
    }

    fn set_mut(&mut self, item: usize, set: usize) -> Result<&mut SetEntry, Refusal> {
        let sets = &mut self.item_mut(item)?.sets;
        let len = sets.len();
        sets.get_mut(set)
            .ok_or(Refusal::NoSuchSet { set, sets: len })
    }

    /// The lowest key above those of a plan that no item has.
    fn free_key(&self) -> u16 {
        (LAST_PLAN_KEY + 1..=u16::MAX)
            .find(|&key| self.items.iter().all(|item| item.key != key))
            .unwrap_or(u16::MAX)
    }
}

fn check_count(count: u16) -> Result<(), OutOfBounds> {
    bounds::COUNT.check(i64::from(count)).map(|_| ())
}

/// Whether one more set of this kind may be put into an item.
fn check_room(item: &SessionItem, kind: SetKind) -> Result<(), Refusal> {
    if item.sets.len() >= MOST_SETS {
        return Err(Refusal::HasSets {
            sets: item.sets.len(),
        });
    }
    if kind == SetKind::Work {
        #[expect(clippy::cast_possible_wrap, reason = "at most twenty")]
        bounds::SETS.check(item.work_sets_done() as i64 + 1)?;
    }
    Ok(())
}

fn check_set(
    load: Load,
    count: u16,
    rir: Option<u8>,
    kind: SetKind,
    at: Moment,
) -> Result<SetEntry, OutOfBounds> {
    check_count(count)?;
    if let Some(rir) = rir {
        bounds::RIR.check(i64::from(rir))?;
    }
    Ok(SetEntry {
        kind,
        load,
        count,
        rir,
        at,
    })
}

fn check_prescription(asked: &Prescription) -> Result<(), Refusal> {
    bounds::SETS.check(i64::from(asked.sets))?;
    bounds::RIR.check(i64::from(asked.rir))?;
    bounds::REST_S.check(i64::from(asked.rest_s))?;
    let (least, most) = asked.reps;
    check_count(least)?;
    check_count(most)?;
    if least > most {
        return Err(Refusal::GoalReversed { least, most });
    }
    Ok(())
}
