//! A day filled anew within its minutes: the best ways are kept of every stratum
//! of seconds.
//!
//! Start at [`fillings`]. Where minutes are short, the best day may differ from
//! a good one in most of its slots, and what is best so far says little as long
//! as it is not weighed against the time it leaves. So days half filled are
//! compared with those that take about as long, and ways that only name another
//! exercise for the same sets do not crowd out others. This module never judges a
//! week: that is for the search.

use super::objective::{DayPicks, MILLI, Model, Pick, SETS, SLOTS};
use super::opening::{Opening, Others};
use crate::order::{sort, sort_by_key};

/// Strata of a day's seconds (the project's own judgement).
const STRATA: u32 = 60;
/// Percent of the day's minutes that its sets may take in straight sets with every
/// rest: haste saves little more than half of it (the project's own judgement).
const REACH: u32 = 220;
/// Ways kept of each stratum (the project's own judgement).
const KEPT: usize = 12;
/// Ways among them with the same sets in the same slots (the project's own
/// judgement).
const ALIKE: usize = 3;
/// Points by which a way may be behind one that takes less time (the project's
/// own judgement).
const SLACK: i64 = 600 * MILLI;
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
    /// Points of the week, less what haste costs at least so far.
    promise: i64,
    /// Sets of each slot, three bits each.
    shape: u64,
}

/// Ways to fill the day from nothing, the quickest first.
pub(super) fn fillings(
    model: &Model<'_>,
    others: &Others<'_>,
    (day, now): (usize, &DayPicks),
    shortlists: &[Vec<Pick>],
) -> Vec<DayPicks> {
    let places = &model.days[day];
    let mut order: Vec<usize> = (0..places.len()).collect();
    sort_by_key(&mut order, |&slot| places[slot].keep);
    let most_seconds = model.budget_s * REACH / 100;
    let stratum_s = most_seconds / STRATA;
    let mut kept = vec![Filling {
        picks: [None; SLOTS],
        promise: 0,
        shape: 0,
    }];
    for slot in order {
        let contents = contents(&shortlists[slot], now[slot]);
        let mut strata: Vec<Vec<Filling>> = vec![Vec::new(); STRATA as usize + 1];
        for so_far in &kept {
            let open = Opening::new(model, others, (day, slot), &so_far.picks);
            let mut known = (u16::MAX, 0);
            for &content in &contents {
                let (untimed, seconds) = match content {
                    Some(pick) => {
                        if known.0 != pick.candidate {
                            known = (pick.candidate, open.with(pick.candidate));
                        }
                        (open.filled(known.1, pick), open.seconds_with(pick))
                    }
                    None => (open.empty(), open.seconds),
                };
                if seconds > most_seconds {
                    continue;
                }
                let stratum = &mut strata[(seconds / stratum_s).min(STRATA) as usize];
                let sets = content.map_or(0, |pick| u64::from(pick.sets));
                let shape = so_far.shape | sets << (3 * slot);
                let behind = least(stratum, shape);
                let threshold = behind.map_or(i64::MIN, |at| stratum[at].promise);
                // Haste only ever costs.
                if untimed <= threshold {
                    continue;
                }
                let picks = open.picks_with(content);
                let haste = if seconds > model.budget_s {
                    model.least_haste(day, &picks, UNSAVED)
                } else {
                    0
                };
                let promise = untimed - haste;
                if promise <= threshold {
                    continue;
                }
                if let Some(at) = behind {
                    stratum.remove(at);
                }
                let place = stratum.iter().position(|other| promise > other.promise);
                let filling = Filling {
                    picks,
                    promise,
                    shape,
                };
                stratum.insert(place.unwrap_or(stratum.len()), filling);
            }
        }
        let mut quicker = i64::MIN;
        for stratum in &mut strata {
            let best = stratum.first().map_or(quicker, |filling| filling.promise);
            stratum.retain(|filling| filling.promise >= quicker.saturating_sub(SLACK));
            quicker = quicker.max(best);
        }
        kept = strata.into_iter().flatten().collect();
    }
    kept.into_iter().map(|filling| filling.picks).collect()
}

/// The way that one more of this shape would have to be better than to be kept.
fn least(stratum: &[Filling], shape: u64) -> Option<usize> {
    let is_alike = |filling: &&Filling| filling.shape == shape;
    if stratum.iter().filter(is_alike).count() >= ALIKE {
        return stratum.iter().rposition(|filling| filling.shape == shape);
    }
    (stratum.len() >= KEPT).then(|| stratum.len() - 1)
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
