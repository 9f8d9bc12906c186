//! Cycles of the person's own making: a name, days, and for each day the
//! places for exercises; then woven by the planner, or filled by hand.
//!
//! Start at [`cycles`]. Every change is kept at once and can be undone; the plan
//! follows only when it is made anew.

use super::checked::way_back_among_cycles;
use crate::held::{Held, untracked};
use crate::markup::{Tag, Text, View, button, either, live, nothing, tag};
use crate::parts::{labelled, line_button, line_link, refusal, typing_replaces};
use crate::route::{self, Route};
use crate::screens::weaving::Weaving;
use crate::screens::{page, page_head_under, soft_small};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{errors, reasons, terms, words};
use weekloom_engine::bounds;
use weekloom_engine::catalogue::Pattern;
use weekloom_engine::plan::split::{self, Slot, Split, SplitDay};
use weekloom_engine::plan::{Focus, OwnSplit, SplitId, blank_week};
use weekloom_store::Changes;

/// One's own cycles, and ways to begin another.
pub fn cycles() -> View {
    let app = App::here();
    let own = live(move || {
        let mut lines = Vec::new();
        app.person.with(|person| {
            for own in person.iter().flat_map(|p| &p.own_splits) {
                let place = Route::PlanCycle(own.split.id.to_string());
                let days = words::days(own.split.days.len());
                lines.push(line_link(place.hash(), own.name.clone(), days).into());
            }
        });
        (!lines.is_empty()).then(|| tag("ul", "card lines").with(lines))
    });
    let empty = SplitDay {
        focus: Focus::Own,
        slots: Vec::new(),
    };
    let mut starts = tag("ul", "card lines").with(line_button(
        words::FROM_NOTHING,
        words::FROM_NOTHING_MORE,
        move || begin(app, vec![empty.clone()]),
    ));
    for split in split::built_in() {
        let (name, _) = terms::split(split.id.as_str());
        let more = words::days(split.days.len());
        starts = starts.with(line_button(name, more, move || {
            begin(app, split.days.clone())
        }));
    }
    page(page_head_under(&Route::Plan, words::OWN_CYCLES))
        .with(soft_small(words::OWN_CYCLES_MORE))
        .with(own)
        .with(tag("h2", "").with(words::NEW_CYCLE))
        .with(starts)
        .with(way_back_among_cycles())
        .into()
}

/// A new cycle with these days, and to its page.
fn begin(app: App, days: Vec<SplitDay>) {
    let Some(person) = app.person.get_untracked() else {
        return;
    };
    let id = OwnSplit::free_slug(&person.own_splits);
    let mut own = OwnSplit {
        name: words::numbered_cycle(id.as_str()),
        split: Split {
            id: id.clone(),
            days,
        },
    };
    own.settle();
    app.change_cycles(own.name.clone(), &|person| {
        person.own_splits.push(own.clone());
    });
    route::go(&Route::PlanCycle(id.to_string()));
}

/// A cycle by its id.
#[derive(Clone)]
struct Cycle {
    app: App,
    id: SplitId,
}

impl Cycle {
    fn of(id: &str) -> Self {
        Self {
            app: App::here(),
            id: SplitId::new(id),
        }
    }

    /// Something of the cycle, while there is one.
    fn with<U>(&self, read: impl FnOnce(&OwnSplit) -> U) -> Option<U> {
        self.app.person.with(|person| {
            let mut own = person.iter().flat_map(|p| &p.own_splits);
            own.find(|own| own.split.id == self.id).map(read)
        })
    }

    /// Changes the cycle and keeps it.
    fn change(&self, change: &dyn Fn(&mut OwnSplit)) {
        self.app.change_cycles(self.name(), &|person| {
            for own in &mut person.own_splits {
                if own.split.id == self.id {
                    change(own);
                    own.settle();
                }
            }
        });
    }

    fn name(&self) -> String {
        untracked(&|| self.with(|own| own.name.clone())).unwrap_or_default()
    }

    fn change_day(&self, day: u8, change: &dyn Fn(&mut SplitDay)) {
        self.change(&|own| {
            if let Some(day) = own.split.days.get_mut(usize::from(day)) {
                change(day);
            }
        });
    }

    /// Trains by it: woven, or without exercises to be filled by hand.
    fn take_up(&self, weaving: Weaving, is_woven: bool) {
        let Some(mut person) = self.app.person.get_untracked() else {
            return;
        };
        person.split = Some(self.id.clone());
        if is_woven {
            weaving.begin(self.app, person, Route::Plan);
            return;
        }
        let made = blank_week(&person)
            .map(|plan| self.app.begin(person, plan, Changes::none(), &Route::Plan))
            .map_err(|refused| errors::plan(&refused));
        weaving.error.set(made.err());
    }

    fn remove(&self) {
        self.app.change_cycles(self.name(), &|person| {
            person.own_splits.retain(|own| own.split.id != self.id);
            if person.split.as_ref() == Some(&self.id) {
                person.split = None;
            }
        });
        self.app.tell(words::CYCLE_GONE);
        route::replace(&Route::PlanCycles);
    }
}

/// One cycle: its name, its days, and what to do with it.
pub fn cycle(id: &str) -> View {
    let cycle = Cycle::of(id);
    let of = cycle.clone();
    if untracked(&|| of.with(|_| ())).is_none() {
        route::replace(&Route::PlanCycles);
        return nothing();
    }
    let weaving = Weaving::idle();
    let to_weave = cycle.clone();
    let weave = button(
        "button button--main button--wide",
        weaving.name(|| words::WEAVE_IT),
        move || {
            to_weave.take_up(weaving, true);
        },
    );
    let to_fill = cycle.clone();
    let fill = button("button button--wide", words::PICK_MYSELF, move || {
        to_fill.take_up(weaving, false);
    });
    let titled = cycle.clone();
    let title = live(move || titled.with(|own| own.name.clone()).unwrap_or_default());
    page(page_head_under(&Route::PlanCycles, title))
        .with(name(cycle.clone()))
        .with(days(cycle.clone()))
        .with(refusal(weaving.error))
        .with(weave)
        .with(fill)
        .with(soft_small(words::REWEAVE_MORE))
        .with(remove(cycle))
        .with(way_back_among_cycles())
        .into()
}

fn name(cycle: Cycle) -> Tag {
    let of = cycle.clone();
    let input = tag("input", "input")
        .attr("type", "text")
        .attr("maxlength", OwnSplit::NAME.to_string())
        .attr("autocomplete", "off")
        .value(Box::new(move || {
            of.with(|own| Text::from(own.name.clone()))
                .unwrap_or_default()
        }))
        .on_typed(move |text| {
            let name: String = text.trim().chars().take(OwnSplit::NAME).collect();
            // Without a name it keeps the one it has.
            cycle.change(&|own| {
                if !name.is_empty() {
                    own.name.clone_from(&name);
                }
            });
        });
    labelled("cycle-name", words::CYCLE_NAME, typing_replaces(input))
}

/// The days of a cycle, and kinds of days to add.
fn days(cycle: Cycle) -> Tag {
    let listed = cycle.clone();
    let list = live(move || {
        let mut lines = tag("ol", "lines");
        let days = listed
            .with(|own| own.split.days.clone())
            .unwrap_or_default();
        for (key, (index, day)) in (0..).zip(days.iter().enumerate()) {
            let place = Route::PlanCycleDay(listed.id.to_string(), key);
            let slots: Vec<String> = day.slots.iter().map(slot_name).collect();
            let more = if slots.is_empty() {
                tr(words::NO_PLACES).to_owned()
            } else {
                slots.join(", ")
            };
            let name = words::numbered(index, terms::focus(day.focus));
            lines = lines.with(line_link(place.hash(), name, more));
        }
        lines
    });
    let mut kinds = Vec::new();
    for &focus in Focus::ALL {
        let day = preset(focus);
        let cycle = cycle.clone();
        let add = move || {
            cycle.change(&|own| {
                if own.split.days.len() < 28 {
                    own.split.days.push(day.clone());
                }
            });
        };
        kinds.push(button("chip", terms::focus(focus), add).into());
    }
    tag("section", "card")
        .with(tag("h2", "").with(words::CYCLE_DAYS))
        .with(list)
        .with(chips(words::ADD_CYCLE_DAY, kinds))
}

fn chips(legend: &'static str, chips: Vec<View>) -> Tag {
    tag("fieldset", "group")
        .with(tag("legend", "").with(legend))
        .with(tag("div", "chips").with(chips))
}

/// The first built-in day of this kind; without places where there is none.
fn preset(focus: Focus) -> SplitDay {
    let mut days = split::built_in().into_iter().flat_map(|split| split.days);
    let empty = SplitDay {
        focus,
        slots: Vec::new(),
    };
    days.find(|day| day.focus == focus).unwrap_or(empty)
}

/// "horizontal push or chest fly (chest)".
pub fn slot_name(slot: &Slot) -> String {
    let patterns: Vec<&str> = slot.patterns.iter().map(|&p| terms::pattern(p)).collect();
    let patterns = patterns.join(tr(" or "));
    match slot.muscle {
        Some(muscle) => format!("{patterns} ({})", terms::muscle(muscle)),
        None => patterns,
    }
}

/// Removing, asked twice.
fn remove(cycle: Cycle) -> View {
    let is_asked = Held::new(false);
    let ask = move || {
        button(
            "button button--warn button--wide",
            words::REMOVE_CYCLE,
            move || {
                is_asked.set(true);
            },
        )
        .into()
    };
    let sure = move || {
        let cycle = cycle.clone();
        let sure = button("button button--warn", words::REMOVE_SURE, move || {
            cycle.remove()
        });
        let cancel = button("button", words::CANCEL, move || is_asked.set(false));
        tag("div", "row").with(sure).with(cancel).into()
    };
    either(move || is_asked.get(), sure, ask)
}

/// One day of a cycle: what it is about, and its places in order.
pub fn cycle_day(id: &str, day: u8) -> View {
    let cycle = Cycle::of(id);
    let at = usize::from(day);
    let of = cycle.clone();
    let present = move || of.with(|own| own.split.days.get(at).cloned()).flatten();
    if untracked(&present).is_none() {
        route::replace(&Route::PlanCycle(id.to_owned()));
        return nothing();
    }
    let title = {
        let present = present.clone();
        live(move || present().map(|day| words::numbered(at, terms::focus(day.focus))))
    };
    let mut kinds = Vec::new();
    for &focus in Focus::ALL {
        let (about, present) = (cycle.clone(), present.clone());
        let choose = move || about.change_day(day, &|day| day.focus = focus);
        let chip = button("chip", terms::focus(focus), choose);
        kinds.push(
            chip.live("aria-pressed", move || {
                let is_so = present().is_some_and(|day| day.focus == focus);
                Some(if is_so { "true" } else { "false" }.into())
            })
            .into(),
        );
    }
    let listed = cycle.clone();
    let slots = live(move || {
        let mut lines = tag("ol", "lines");
        for (place, slot) in present().iter().flat_map(|d| d.slots.iter().enumerate()) {
            lines = lines.with(slot_line(&listed, day, place, slot));
        }
        lines
    });
    let error = Held::new(None);
    let mut patterns = Vec::new();
    for &pattern in Pattern::ALL {
        let cycle = cycle.clone();
        let add = move || {
            let count = cycle.with(|own| own.split.days.get(at).map_or(0, |d| d.slots.len()));
            let count = i64::try_from(count.unwrap_or(0)).unwrap_or(i64::MAX);
            error.set(
                bounds::SLOTS
                    .check(count + 1)
                    .err()
                    .map(|e| errors::other(&e)),
            );
            cycle.change_day(day, &|day| {
                if bounds::SLOTS.check(count + 1).is_ok() {
                    day.slots.push(Slot::of(pattern));
                }
            });
        };
        let name = reasons::capital(terms::pattern(pattern));
        patterns.push(button("chip", name, add).into());
    }
    let places = tag("section", "card")
        .with(tag("h2", "").with(words::PLACES_OF_DAY))
        .with(soft_small(words::PLACES_OF_DAY_MORE))
        .with(slots)
        .with(refusal(error))
        .with(chips(words::ADD_PLACE, patterns));
    page(page_head_under(&Route::PlanCycle(id.to_owned()), title))
        .with(places)
        .with(tag("section", "card").with(chips(words::DAY_ABOUT, kinds)))
        .with(day_ways(cycle, day))
        .with(way_back_among_cycles())
        .into()
}

/// A place of a day, with its way up, down and out.
fn slot_line(cycle: &Cycle, day: u8, place: usize, slot: &Slot) -> Tag {
    let name = slot_name(slot);
    let act = |sign: &'static str, said: &str, act: fn(&mut Vec<Slot>, usize)| {
        let cycle = cycle.clone();
        button("button button--plain", sign, move || {
            cycle.change_day(day, &|day| act(&mut day.slots, place));
        })
        .attr("aria-label", words::of(tr(said), &name))
    };
    let up = act("\u{2191}", words::EARLIER, |slots, at| {
        slots.swap(at, at.saturating_sub(1));
    });
    let down = act("\u{2193}", words::LATER, |slots, at| {
        let last = slots.len() - 1;
        slots.swap(at, (at + 1).min(last));
    });
    let out = act("\u{2715}", words::REMOVE, |slots, at| {
        slots.remove(at);
    });
    tag("li", "slot")
        .with(tag("span", "").with(reasons::capital(&name)))
        .with(up)
        .with(down)
        .with(out)
}

/// The day earlier, later, or out of the cycle.
fn day_ways(cycle: Cycle, day: u8) -> Tag {
    let at = usize::from(day);
    let id = cycle.id.to_string();
    let act = |class, name: &'static str, to: Option<usize>| {
        let (cycle, id) = (cycle.clone(), id.clone());
        button(class, name, move || {
            let mut there = None;
            if let Some(of) = cycle.with(|own| own.split.days.len()) {
                there = to.filter(|&to| to < of);
            }
            match (to, there) {
                // Already the first or the last.
                (Some(_), None) => {}
                (_, there) => {
                    cycle.change(&|own| {
                        let moved = own.split.days.remove(at);
                        if let Some(to) = there {
                            own.split.days.insert(to, moved);
                        }
                    });
                    route::replace(&match there.and_then(|to| u8::try_from(to).ok()) {
                        Some(to) => Route::PlanCycleDay(id.clone(), to),
                        None => Route::PlanCycle(id.clone()),
                    });
                }
            }
        })
    };
    tag("div", "stack")
        .with(
            tag("div", "row row--halves")
                .with(act("button", words::DAY_EARLIER, Some(at.wrapping_sub(1))))
                .with(act("button", words::DAY_LATER, Some(at + 1))),
        )
        .with(act(
            "button button--wide button--warn",
            words::TAKE_DAY_OUT,
            None,
        ))
}
