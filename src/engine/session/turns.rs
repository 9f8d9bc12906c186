//! Which set comes next, how long to rest before it, and in what order the
//! exercises stand.

use super::{Phase, Refusal, Session, SessionItem};
use crate::log::SetEntry;
use crate::plan::Prescription;

/// Seconds between the partners of a superset: time to change places (common
/// practice, no source).
pub const TRANSITION_S: u16 = 20;
/// Seconds of rest more for each rep that a set came nearer to failure than
/// meant (common practice, no source).
pub const HARDER_REST_S: u16 = 30;
/// Most seconds of rest more after a set harder than meant (common practice,
/// no source).
pub const MOST_HARDER_REST_S: u16 = 90;

/// Seconds of rest that a set harder than meant asks for beyond the prescribed
/// ones; nought where it went as meant or better. A set that fell short of its
/// goal range with no word on the effort counts as one rep harder. Rests are
/// never made shorter by an easy set.
#[must_use]
pub fn harder_rest_s(set: &SetEntry, asked: &Prescription) -> u16 {
    let harder = match set.rir {
        Some(left) => asked.rir.saturating_sub(left),
        None => u8::from(set.count < asked.reps.0),
    };
    (u16::from(harder) * HARDER_REST_S).min(MOST_HARDER_REST_S)
}

impl Session {
    /// Seconds by which the rest that runs is longer than prescribed because
    /// the set before it was harder than meant; nought when it is not longer
    /// (between the partners of a superset, or made shorter), and when no
    /// rest runs.
    #[must_use]
    pub fn longer_rest_s(&self) -> u16 {
        let (Phase::Resting { since, until }, Some((item, set))) = (self.phase, self.last_set())
        else {
            return 0;
        };
        let item = &self.items[item];
        let is_longer = until.seconds_since(since) > i64::from(item.prescription.rest_s);
        match &item.sets[set] {
            set if is_longer => harder_rest_s(set, &item.prescription),
            _ => 0,
        }
    }

    /// Which item comes after the work set of this one that was logged last,
    /// and how long to rest before it; `None` when everything is done.
    pub(super) fn after_work_set(&self, at: usize) -> Option<(usize, u16)> {
        let item = &self.items[at];
        let more = |rest: u16| {
            let harder = |set| harder_rest_s(set, &item.prescription);
            let most = u16::try_from(crate::bounds::REST_S.most).unwrap_or(u16::MAX);
            (rest + item.work_sets().next_back().map_or(0, harder)).min(most)
        };
        let full_rest = more(item.prescription.rest_s);
        if let Some(group) = item.superset {
            let members = self.members(group);
            let in_round = self.in_round(&members);
            let place = members.iter().position(|&member| member == at).unwrap_or(0);
            // Round the partners, from the one after this.
            let open = || {
                let after = members[place + 1..].iter().chain(&members[..=place]);
                after
                    .copied()
                    .filter(|&member| self.items[member].is_open())
            };
            if let Some(next) = open().find(|member| !in_round.contains(member)) {
                return Some((next, item.prescription.rest_s.min(TRANSITION_S)));
            }
            if let Some(next) = open().next() {
                let rest = |&member: &usize| self.items[member].prescription.rest_s;
                let longest = members.iter().map(rest).max();
                return Some((next, more(longest.unwrap_or_default())));
            }
        } else if item.is_open() {
            return Some((at, full_rest));
        }
        self.next_open(at).map(|next| (next, full_rest))
    }

    /// Items of a superset, in order.
    fn members(&self, group: u8) -> Vec<usize> {
        (0..self.items.len())
            .filter(|&i| self.items[i].superset == Some(group))
            .collect()
    }

    /// Those who have had their turn in the round under way: one begins when
    /// somebody has a second turn. Read from the sets themselves, so that it
    /// holds after an undo, and where two are paired half-way through.
    fn in_round(&self, members: &[usize]) -> Vec<usize> {
        let mut turns: Vec<_> = members
            .iter()
            .flat_map(|&member| self.items[member].work_sets().map(move |s| (s.at, member)))
            .collect();
        crate::order::sort_by_key(&mut turns, |&turn| turn);
        let mut seen = Vec::new();
        for (_, member) in turns {
            if seen.contains(&member) {
                seen.clear();
            }
            seen.push(member);
        }
        seen
    }

    /// The first open item after this one, going round once.
    pub(super) fn next_open(&self, at: usize) -> Option<usize> {
        self.round_from(at).find(|&i| self.items[i].is_open())
    }

    /// Every item from the one after this on, this one last.
    fn round_from(&self, at: usize) -> impl Iterator<Item = usize> + use<> {
        let n = self.items.len();
        (1..=n).map(move |step| (at + step) % n)
    }

    pub(super) fn pair(&mut self, a: usize, b: usize) -> Result<(), Refusal> {
        let group_a = self.item_mut(a)?.superset;
        let group_b = self.item_mut(b)?.superset;
        if a == b {
            return Err(Refusal::SameItem);
        }
        if group_a.is_some() && group_a == group_b {
            return Err(Refusal::AlreadyPaired);
        }
        let group = group_a.or(group_b).unwrap_or_else(|| {
            (0..=u8::MAX)
                .find(|&n| self.items.iter().all(|item| item.superset != Some(n)))
                .unwrap_or(u8::MAX)
        });
        for (i, item) in self.items.iter_mut().enumerate() {
            let joins = i == a || i == b || (group_b.is_some() && item.superset == group_b);
            if joins {
                item.superset = Some(group);
            }
        }
        // Partners stand together: the later ones come up to the first.
        let members = self.members(group);
        let first = members[0];
        for (place, &member) in members.iter().enumerate() {
            self.shift(member, first + place);
        }
        Ok(())
    }

    /// A superset of one is none.
    pub(super) fn dissolve_single(&mut self, group: u8) {
        if let [only] = self.members(group)[..] {
            self.items[only].superset = None;
        }
    }

    pub(super) fn move_to(&mut self, item: usize, to: usize) -> Result<(), Refusal> {
        self.item_mut(item)?;
        self.item_mut(to)?;
        if item == to {
            return Err(Refusal::SamePlace);
        }
        self.shift(item, to);
        Ok(())
    }

    /// Behind the exercise that is next, with its partners.
    pub(super) fn later(&mut self, item: usize) -> Result<(), Refusal> {
        let found = self.item_mut(item)?;
        if !found.is_open() {
            return Err(Refusal::ItemComplete);
        }
        let moving = match found.superset {
            Some(group) => self.members(group),
            None => vec![item],
        };
        let is_other = |&i: &usize| self.items[i].is_open() && !moving.contains(&i);
        let next = self.round_from(item).find(is_other);
        let next = next.ok_or(Refusal::NothingElse)?;
        let next_key = self.items[next].key;
        let is_up = self.current.is_some_and(|at| moving.contains(&at));
        if next > item {
            // Partners of what is next are not parted.
            let last = match self.items[next].superset {
                Some(group) => self.members(group).pop().unwrap_or(next),
                None => next,
            };
            let keys: Vec<u16> = moving.iter().map(|&i| self.items[i].key).collect();
            let mut behind = self.items[last].key;
            for key in keys {
                self.shift_behind(key, behind);
                behind = key;
            }
        }
        if is_up {
            self.current = self.items.iter().position(|item| item.key == next_key);
        }
        Ok(())
    }

    fn shift_behind(&mut self, key: u16, behind: u16) {
        let place = |items: &[SessionItem], key| items.iter().position(|item| item.key == key);
        if let (Some(from), Some(to)) = (place(&self.items, key), place(&self.items, behind)) {
            self.shift(from, if from < to { to } else { to + 1 });
        }
    }

    /// Puts an item in another place; what is up stays up.
    fn shift(&mut self, from: usize, to: usize) {
        let up = self.current.map(|at| self.items[at].key);
        let item = self.items.remove(from);
        self.items.insert(to, item);
        self.current = up.and_then(|key| self.items.iter().position(|item| item.key == key));
    }
}
