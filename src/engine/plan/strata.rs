//! A day filled anew within its minutes: the best ways are kept of every stratum
//! of seconds.
//!
//! Start at [`fillings`]. Where minutes are short, the best day may differ from
//! a good one in most of its slots, and what is best so far says little as long
//! as it is not weighed against the time it leaves. So days half filled are
//! compared with those that take about as long in the most haste, for that
//! decides what still fits, and ways that only name another exercise for the same
//! sets do not crowd out others. This module never judges a week: that is for the
//! search.

use super::objective::{DayPicks, Lift, Model, Pick, SETS, SLOTS};
use super::opening::{Opening, Others};
use crate::order::{sort, sort_by_key};

/// How many ways to fill a day are kept on the way.
pub(super) struct Breadth {
    /// Strata of a day's seconds.
    strata: u32,
    /// Ways kept of each stratum.
    kept: usize,
    /// Ways among them with the same sets in the same slots, once there is no room
    /// for more.
    alike: usize,
    /// Whether haste is weighed by what it costs, not by what it costs at least.
    is_exact: bool,
}

/// For a look at one day (the project's own judgement).
pub(super) const USUAL: Breadth = Breadth {
    strata: 60,
    kept: 12,
    alike: 3,
    is_exact: false,
};
/// For a last look (the project's own judgement).
pub(super) const WIDE: Breadth = Breadth {
    kept: 20,
    is_exact: true,
    ..USUAL
};
/// For many looks (the project's own judgement).
pub(super) const NARROW: Breadth = Breadth {
    strata: 30,
    kept: 3,
    alike: 2,
    is_exact: false,
};
/// Percent of the day's minutes that its sets may take in the most haste, as
/// [`hurried`] tells it, which counts the last rest too (the project's own
/// judgement).
const REACH: u32 = 110;
/// Points for a second that haste cannot save (the project's own judgement: it may
/// still be saved by what comes later).
const UNSAVED: i64 = 300;
/// Most sets with which every candidate of a shortlist is tried (the project's
/// own judgement: short days rarely hold more).
const MOST_SETS: u8 = SETS.0 + 1;

/// A day filled up to some slot.
#[derive(Clone, Copy)]
struct Filling {
    picks: DayPicks,
    /// Points of the week, less what haste costs so far.
    promise: i64,
    /// Sets of each slot, three bits each.
    shape: u64,
    /// Seconds of its sets in the most haste.
    hurried_s: u32,
}

/// Days half filled that take about as long, the best first.
#[derive(Clone, Default)]
struct Stratum {
    ways: Vec<Filling>,
    /// Whether no shape stands there too often any more.
    is_mixed: bool,
}

impl Stratum {
    /// The way that makes room for one more of this shape, if the stratum is full:
    /// the last of the same where they are many, or else of any that are too many,
    /// or of all.
    fn behind(&mut self, shape: u64, breadth: &Breadth) -> Option<usize> {
        let ways = &self.ways;
        if ways.len() < breadth.kept {
            return None;
        }
        let times = |shape: u64| ways.iter().filter(|way| way.shape == shape).count();
        if times(shape) >= breadth.alike {
            return ways.iter().rposition(|way| way.shape == shape);
        }
        let crowd = if self.is_mixed {
            None
        } else {
            ways.iter()
                .rposition(|way| times(way.shape) > breadth.alike)
        };
        self.is_mixed = crowd.is_none();
        Some(crowd.unwrap_or(ways.len() - 1))
    }

    /// Points that a way must be better than to be kept at all.
    fn last(&self, breadth: &Breadth) -> i64 {
        match self.ways.last() {
            Some(way) if self.ways.len() == breadth.kept => way.promise,
            _ => i64::MIN,
        }
    }

    /// Keeps a way in the place of another.
    fn keep(&mut self, way: Filling, behind: Option<usize>) {
        if let Some(at) = behind {
            self.ways.remove(at);
        }
        let place = self.ways.iter().position(|w| way.promise > w.promise);
        self.ways.insert(place.unwrap_or(self.ways.len()), way);
    }
}

/// Ways to fill the day from nothing, the quickest first.
pub(super) fn fillings(
    model: &Model<'_>,
    others: &Others<'_>,
    (day, now): (usize, &DayPicks),
    shortlists: &[Vec<Pick>],
    breadth: &Breadth,
) -> Vec<DayPicks> {
    let places = &model.days[day];
    let mut order: Vec<usize> = (0..places.len()).collect();
    sort_by_key(&mut order, |&slot| places[slot].keep);
    let most_s = model.budget_s * REACH / 100;
    let stratum_s = most_s / breadth.strata;
    let mut kept = vec![Filling {
        picks: [None; SLOTS],
        promise: 0,
        shape: 0,
        hurried_s: 0,
    }];
    for slot in order {
        let contents = contents(&shortlists[slot], now[slot]);
        let mut strata = vec![Stratum::default(); breadth.strata as usize + 1];
        for so_far in &kept {
            let open = Opening::new(model, others, (day, slot), &so_far.picks);
            let mut known = (u16::MAX, 0);
            for &content in &contents {
                let (untimed, seconds, more_s) = match content {
                    Some(pick) => {
                        if known.0 != pick.candidate {
                            known = (pick.candidate, open.with(pick.candidate));
                        }
                        let lift = &model.lifts[model.lift_of(day, slot, pick)];
                        let untimed = open.filled(known.1, pick);
                        (untimed, open.seconds_with(pick), hurried(lift, pick.sets))
                    }
                    None => (open.empty(), open.seconds, 0),
                };
                let hurried_s = so_far.hurried_s + more_s;
                if hurried_s > most_s {
                    continue;
                }
                let stratum = &mut strata[(hurried_s / stratum_s).min(breadth.strata) as usize];
                let sets = content.map_or(0, |pick| u64::from(pick.sets));
                let shape = so_far.shape | sets << (3 * slot);
                // Haste only ever costs.
                if untimed <= stratum.last(breadth) {
                    continue;
                }
                let behind = stratum.behind(shape, breadth);
                let threshold = behind.map_or(i64::MIN, |at| stratum.ways[at].promise);
                if untimed <= threshold {
                    continue;
                }
                let picks = open.picks_with(content);
                let haste = if seconds <= model.budget_s {
                    0
                } else if breadth.is_exact {
                    let most = untimed.saturating_sub(threshold);
                    let haste = model.haste_at(day, &picks, (0, UNSAVED), most);
                    let Some(haste) = haste else { continue };
                    haste
                } else {
                    model.least_haste(day, &picks, UNSAVED)
                };
                let promise = untimed - haste;
                if promise <= threshold {
                    continue;
                }
                let way = Filling {
                    picks,
                    promise,
                    shape,
                    hurried_s,
                };
                stratum.keep(way, behind);
            }
        }
        kept = strata
            .into_iter()
            .flat_map(|stratum| stratum.ways)
            .collect();
    }
    kept.into_iter().map(|filling| filling.picks).collect()
}

/// Seconds that sets of an exercise take at least: with its shortest rests, which
/// it shares with another if it can.
const fn hurried(lift: &Lift<'_>, sets: u8) -> u32 {
    let shared = if lift.can_pair { 2 } else { 1 };
    lift.ready_s + sets as u32 * (lift.work_s + lift.short_rest_s / shared)
}

/// What a slot may hold: its shortlist and what it holds now, each candidate of
/// the shortlist with few sets too, or nothing; all sets of a candidate together.
fn contents(shortlist: &[Pick], now: Option<Pick>) -> Vec<Option<Pick>> {
    let mut picks: Vec<(u16, u8)> = Vec::new();
    let few = (SETS.0..=MOST_SETS)
        .flat_map(|sets| shortlist.iter().map(move |pick| Pick { sets, ..*pick }));
    for pick in shortlist.iter().copied().chain(now).chain(few) {
        let pick = (pick.candidate, pick.sets);
        if !picks.contains(&pick) {
            picks.push(pick);
        }
    }
    sort(&mut picks);
    let picks = picks
        .into_iter()
        .map(|(candidate, sets)| Some(Pick { candidate, sets }));
    picks.chain([None]).collect()
}
