//! Out of time: what of the session is still worth doing.
//!
//! Start at [`Session::within`]; [`Within::events`] makes it so. The choice is
//! [`crate::plan::hurry`]'s; this says what is open and what the week holds.

use super::{Event, Session};
use crate::calendar::Moment;
use crate::catalogue::{Catalogue, Exercise};
use crate::person::Person;
use crate::plan::{Beside, Hurry, Plan, Unfinished, can_share_rests, hurry, seconds_left};

/// A session cut to the minutes that are left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Within {
    /// Items still to do, by their index in the session, in the order in which
    /// they come.
    pub items: Vec<usize>,
    /// What is done of each.
    pub hurry: Hurry,
}

impl Within {
    /// Items of which something is let go, with how many sets.
    #[must_use]
    pub fn let_go(&self, session: &Session) -> Vec<(usize, usize)> {
        let cut = |(&item, &sets): (&usize, &u8)| {
            let left = session.items.get(item)?.work_sets_left();
            let cut = left.saturating_sub(usize::from(sets));
            (cut > 0).then_some((item, cut))
        };
        self.items
            .iter()
            .zip(&self.hurry.sets)
            .filter_map(cut)
            .collect()
    }

    /// The events that make it so, for the session it was made from.
    #[must_use]
    pub fn events(&self, session: &Session, now: Moment) -> Vec<Event> {
        let mut events = Vec::new();
        for (place, &item) in self.items.iter().enumerate() {
            let Some(found) = session.items.get(item) else {
                continue;
            };
            let seconds = self.hurry.rests[place];
            if seconds != found.prescription.rest_s {
                events.push(Event::SetRest { item, seconds });
            }
            let done = u8::try_from(found.work_sets_done()).unwrap_or(u8::MAX);
            match done + self.hurry.sets[place] {
                0 => events.push(Event::Skip { item }),
                sets if sets != found.prescription.sets => {
                    events.push(Event::SetSets { item, sets });
                }
                _ => {}
            }
        }
        // A pair comes together: the indices of the next one are those after it.
        let key = |place: usize| session.items.get(self.items[place]).map(|item| item.key);
        let mut then = session.clone();
        for &(a, b) in &self.hurry.pairs {
            let find = |key| then.items.iter().position(|item| Some(item.key) == key);
            if let (Some(a), Some(b)) = (find(key(a)), find(key(b))) {
                let event = Event::Superset { a, b };
                if let Ok(paired) = then.apply(&event, now) {
                    then = paired;
                    events.push(event);
                }
            }
        }
        events
    }
}

impl Session {
    /// Items still to do in the order in which they come, partners together.
    /// Exercises the catalogue does not know are not judged.
    fn to_come(&self, catalogue: &Catalogue) -> Vec<usize> {
        let n = self.items.len();
        let first = self.current.unwrap_or(0);
        let mut found = Vec::new();
        for at in (0..n).map(|step| (first + step) % n) {
            let group = self.items[at].superset;
            let comes = |&i: &usize| {
                let item = &self.items[i];
                let is_of_it = i == at || (group.is_some() && item.superset == group);
                is_of_it && item.is_open() && catalogue.get(&item.prescription.exercise).is_some()
            };
            let coming: Vec<usize> = (0..n)
                .filter(comes)
                .filter(|i| !found.contains(i))
                .collect();
            found.extend(coming);
        }
        found
    }

    fn unfinished<'a>(&'a self, catalogue: &'a Catalogue, items: &[usize]) -> Vec<Unfinished<'a>> {
        let of = |&i: &usize| {
            let item = &self.items[i];
            Some(Unfinished {
                exercise: catalogue.get(&item.prescription.exercise)?,
                prescription: &item.prescription,
                left: u8::try_from(item.work_sets_left()).unwrap_or(u8::MAX),
                is_ready: !item.sets.is_empty(),
                superset: item.superset,
            })
        };
        items.iter().filter_map(of).collect()
    }

    /// Seconds that what is left takes by the session clock, the rest that
    /// runs included.
    #[must_use]
    pub fn seconds_left(&self, catalogue: &Catalogue, now: Moment) -> u32 {
        let items = self.to_come(catalogue);
        self.remaining_s(now) + seconds_left(&self.unfinished(catalogue, &items))
    }

    /// The sets worth most in so many minutes, the rest that runs included.
    /// The other days of the plan count as planned.
    #[must_use]
    pub fn within(
        &self,
        catalogue: &Catalogue,
        person: &Person,
        plan: Option<&Plan>,
        minutes: u16,
        now: Moment,
    ) -> Within {
        let items = self.to_come(catalogue);
        let open = self.unfinished(catalogue, &items);
        let seconds = (u32::from(minutes) * 60).saturating_sub(self.remaining_s(now));
        Within {
            hurry: hurry(person, &self.beside(catalogue, plan), &open, seconds),
            items,
        }
    }

    fn beside<'a>(&self, catalogue: &'a Catalogue, plan: Option<&Plan>) -> Beside<'a> {
        let of = |exercise, sets: usize| -> Option<(&Exercise, u8)> {
            Some((catalogue.get(exercise)?, u8::try_from(sets).ok()?))
        };
        let days = plan.map_or(&[][..], |plan| &plan.days).iter().enumerate();
        let others = days.filter(|&(day, _)| u8::try_from(day).ok() != self.plan_day);
        Beside {
            days: others
                .map(|(_, day)| {
                    let asked = day.items.iter().map(|item| &item.prescription);
                    asked
                        .filter_map(|p| of(&p.exercise, p.sets.into()))
                        .collect()
                })
                .collect(),
            today: self
                .items
                .iter()
                .filter_map(|item| of(&item.prescription.exercise, item.work_sets_done()))
                .collect(),
        }
    }

    /// Open exercises that could be done in turn with an item, in the order in
    /// which they come: see [`can_share_rests`].
    #[must_use]
    pub fn partners_for(&self, catalogue: &Catalogue, item: usize) -> Vec<usize> {
        let of = |i: usize| catalogue.get(&self.items.get(i)?.prescription.exercise);
        let Some(exercise) = of(item) else {
            return Vec::new();
        };
        let is_alone = |i: usize| self.items[i].superset.is_none();
        let suits = |&other: &usize| {
            other != item
                && is_alone(other)
                && of(other).is_some_and(|other| can_share_rests(exercise, other))
        };
        let all = self.to_come(catalogue).into_iter();
        all.filter(|_| is_alone(item)).filter(suits).collect()
    }
}
