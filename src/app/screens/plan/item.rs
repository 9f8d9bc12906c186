//! One exercise of the plan: what to do, why it is here, and its edits.

use super::checked::{checked, way_back};
use crate::held::{Held, effect, untracked};
use crate::markup::{Tag, Text, View, button, by_key, link, live, tag};
use crate::parts::{Choice, ChoiceGroup, Stepper, Turn, refusal};
use crate::route::{self, Route};
use crate::screens::{card, list, page_head_under, soft_small};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{errors, reasons, terms, words};
use std::rc::Rc;
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::catalogue::{Exercise, Measure};
use weekloom_engine::person::Person;
use weekloom_engine::plan::{Edit, PlanItem};
use weekloom_engine::progress::Rule;
use weekloom_engine::units::parse_whole;

/// One exercise of the plan.
pub fn item(day: u8, key: u16) -> View {
    let app = App::here();
    let place = Place {
        app,
        day,
        key,
        error: Held::new(None),
    };
    // An undo or a mend may put another exercise under the key, carry it to
    // another day or take it out.
    effect(move || {
        let found = app.plan.with(|plan| {
            let (found, _) = plan.as_ref()?.plan.find(key)?;
            u8::try_from(found).ok()
        });
        match found {
            Some(found) if found == day => {}
            Some(found) => route::replace(&Route::PlanItem(found, key)),
            None => route::replace(&Route::Plan),
        }
    });
    let exercise = move || place.with(&|item| item.prescription.exercise.to_string());
    let edits = move || {
        let exercise = untracked(&|| place.with(&|item| app.exercise(&item.prescription.exercise)));
        match exercise.flatten() {
            Some(exercise) => place.edits(exercise).into(),
            // Not in the catalogue: it can be swapped or taken out.
            None => place.ways_out(None),
        }
    };
    tag("main", "page")
        .with(by_key(move || exercise().unwrap_or_default(), edits))
        .into()
}

/// A place of the plan.
#[derive(Clone, Copy)]
struct Place {
    app: App,
    day: u8,
    key: u16,
    error: Held<Option<String>>,
}

impl Place {
    /// Changes the plan and keeps it, or says why not.
    fn edit(self, edit: &Edit) {
        self.error.set(self.app.edit(edit).err());
    }

    /// Something of what the plan holds here.
    fn with<U>(self, read: &dyn Fn(&PlanItem) -> U) -> Option<U> {
        self.app.plan.with(|plan| {
            let items = &plan.as_ref()?.plan.days.get(usize::from(self.day))?.items;
            items.iter().find(|item| item.key == self.key).map(read)
        })
    }

    fn reps(self) -> (u16, u16) {
        untracked(&|| self.with(&|item| item.prescription.reps)).unwrap_or((1, 1))
    }

    fn set_reps(self, least: u16, most: u16) {
        self.edit(&Edit::Reps {
            day: usize::from(self.day),
            key: self.key,
            reps: (least, most),
        });
    }

    /// Moves the exercise so many places down its day.
    fn shift(self, by: isize) {
        let day = usize::from(self.day);
        let at = self.app.plan.with_untracked(|plan| {
            let items = &plan.as_ref()?.plan.days.get(day)?.items;
            items.iter().position(|item| item.key == self.key)
        });
        if let Some(place) = at.and_then(|at| at.checked_add_signed(by)) {
            self.move_to(day, place);
        }
    }

    fn move_to(self, to_day: usize, place: usize) {
        self.edit(&Edit::Move {
            day: usize::from(self.day),
            key: self.key,
            to_day,
            place,
        });
    }

    fn take_out(self) {
        self.edit(&Edit::Remove {
            day: usize::from(self.day),
            key: self.key,
        });
    }

    fn exclude(self, exercise: &Exercise) {
        if let Some(mut person) = self.app.person.get_untracked() {
            person.excluded.insert(exercise.id.clone());
            self.app.set_person(person);
            // Its place needs another exercise now.
            route::replace(&Route::PlanSwap(self.day, self.key));
        }
    }

    fn edits(self, exercise: &'static Exercise) -> Vec<View> {
        let about = tag("section", "card")
            .with(tag("p", "cue").with(terms::cue(exercise)))
            .with(tag("p", "small caution").with(terms::caution(exercise)))
            .with(soft_small(reasons::trains(exercise)));
        let why = live(move || {
            let why = self.with(&|item| item.reasons.iter().map(reasons::pick).collect());
            let why: Vec<String> = why.unwrap_or_default();
            (!why.is_empty()).then(|| card(words::WHY_HERE).with(list(why)))
        });
        vec![
            page_head_under(&Route::Plan, terms::exercise(exercise)).into(),
            self.numbers(exercise),
            checked().into(),
            self.rules(exercise),
            about.into(),
            why,
            self.ways_out(Some(exercise)),
        ]
    }

    /// Sets, reps or seconds, and rest.
    fn numbers(self, exercise: &Exercise) -> View {
        let (day, key) = (usize::from(self.day), self.key);
        let is_timed = exercise.measure == Measure::Seconds;
        let (bound, step, from, to) = if is_timed {
            (bounds::HOLD_S, 5, words::SECONDS_FROM, words::SECONDS_TO)
        } else {
            (bounds::REPS, 1, words::REPS_FROM, words::REPS_TO)
        };
        let sets = Number {
            id: "sets",
            label: words::SETS,
            unit: "",
            bound: bounds::SETS,
            step: 1,
            read: |i| i64::from(i.prescription.sets),
            write: Rc::new(move |sets| {
                self.edit(&Edit::Sets {
                    day,
                    key,
                    sets: narrow(sets),
                });
            }),
        };
        let least = Number {
            id: "reps-from",
            label: from,
            unit: "",
            bound,
            step,
            read: |i| i64::from(i.prescription.reps.0),
            write: Rc::new(move |least| {
                let least = narrow(least);
                self.set_reps(least, self.reps().1.max(least));
            }),
        };
        let most = Number {
            id: "reps-to",
            label: to,
            unit: "",
            bound,
            step,
            read: |i| i64::from(i.prescription.reps.1),
            write: Rc::new(move |most| {
                let most = narrow(most);
                self.set_reps(self.reps().0.min(most), most);
            }),
        };
        let rest = Number {
            id: "rest",
            label: words::REST_SECONDS,
            unit: words::S,
            bound: bounds::REST_S,
            step: 15,
            read: |i| i64::from(i.prescription.rest_s),
            write: Rc::new(move |rest| {
                self.edit(&Edit::Rest {
                    day,
                    key,
                    rest_s: narrow(rest),
                });
            }),
        };
        let mut card = tag("section", "card steppers");
        for number in [sets, least, most, rest] {
            card = card.with(number.stepper(self));
        }
        card.with(refusal(self.error)).into()
    }

    /// How the load moves: a choice where there is one.
    fn rules(self, exercise: &'static Exercise) -> View {
        let app = self.app;
        let named = |person: &Person| {
            let usual = Rule::default_for(person.status, exercise);
            let choice = |&rule: &Rule| {
                let (name, how) = terms::rule(rule);
                let name: Text = if rule == usual {
                    format!("{name} ({})", tr(words::USUAL)).into()
                } else {
                    name.into()
                };
                Choice::new(rule.slug(), name, how)
            };
            Rule::offered_for(exercise).iter().map(choice).collect()
        };
        let options: Vec<Choice> = app
            .person
            .with_untracked(|p| p.as_ref().map(named))
            .unwrap_or_default();
        if let [only] = &options[..] {
            let name = tag("strong", "").with(terms::rule(Rule::offered_for(exercise)[0]).0);
            return card(words::RULES)
                .with(tag("p", "").with(name))
                .with(soft_small(only.more))
                .into();
        }
        let group = ChoiceGroup {
            legend: words::RULES,
            name: "rule",
            options: Rc::new(move || options.clone()),
            chosen: Rc::new(move || {
                let chosen = |p: &Person| p.rule_for(exercise).slug();
                app.person.with(|p| p.as_ref().map_or("", chosen)).into()
            }),
            on_choose: Rc::new(move |slug| {
                let person = app.person.get_untracked();
                if let (Some(mut person), Some(rule)) = (person, Rule::from_slug(slug)) {
                    person.choose_rule(exercise, rule);
                    app.set_person(person);
                }
            }),
            is_chips: false,
        };
        tag("section", "card").with(group).into()
    }

    /// Another exercise, another place, or none.
    fn ways_out(self, exercise: Option<&'static Exercise>) -> View {
        let swap = link(
            "button button--wide",
            Route::PlanSwap(self.day, self.key).hash(),
            words::SWAP_EXERCISE,
        );
        let earlier = button("button", "\u{2191} ", move || self.shift(-1)).with(words::EARLIER);
        let later = button("button", "\u{2193} ", move || self.shift(1)).with(words::LATER);
        let take_out = button(
            "button button--wide button--warn",
            words::TAKE_OUT,
            move || self.take_out(),
        );
        let exclude = exercise.map(|exercise| {
            button(
                "button button--wide button--warn",
                words::NEVER_AGAIN,
                move || self.exclude(exercise),
            )
        });
        let places = tag("section", "card")
            .with(tag("div", "row row--halves").with(earlier).with(later))
            .with(live(move || self.in_turn()))
            .with(live(move || self.other_days()));
        vec![
            places.into(),
            tag("div", "stack")
                .with(swap)
                .with(take_out)
                .with(exclude)
                .into(),
            way_back(),
        ]
        .into()
    }

    /// Joining with the exercise after it, or parting.
    fn in_turn(self) -> Option<Tag> {
        let day = usize::from(self.day);
        let is_joined = self.app.plan.with(|plan| {
            let items = &plan.as_ref()?.plan.days.get(day)?.items;
            let at = items.iter().position(|item| item.key == self.key)?;
            let next = items.get(at + 1)?;
            Some(next.superset.is_some() && next.superset == items[at].superset)
        })?;
        let name = if is_joined {
            words::ON_ITS_OWN
        } else {
            words::IN_TURN
        };
        let key = self.key;
        Some(button("button button--wide", name, move || {
            self.edit(&Edit::Superset { day, key });
        }))
    }

    /// The other days it could stand on.
    fn other_days(self) -> Option<Tag> {
        let mut chips = Vec::new();
        self.app.plan.with(|plan| {
            for (to, day) in plan.iter().flat_map(|p| p.plan.days.iter().enumerate()) {
                if to != usize::from(self.day) {
                    let name = words::numbered(to, terms::focus(day.focus));
                    let act = move || self.move_to(to, usize::MAX);
                    chips.push(button("chip", name, act).into());
                }
            }
        });
        (!chips.is_empty()).then(|| {
            tag("fieldset", "group")
                .with(tag("legend", "").with(words::MOVE_TO))
                .with(tag("div", "chips").with(chips))
        })
    }
}

/// A whole number of the plan with its bound.
struct Number {
    id: &'static str,
    label: &'static str,
    unit: &'static str,
    bound: Bound,
    step: i64,
    read: fn(&PlanItem) -> i64,
    write: Rc<dyn Fn(i64)>,
}

impl Number {
    fn stepper(self, place: Place) -> Stepper {
        let Self {
            bound, step, read, ..
        } = self;
        let error = Held::new(None);
        let value = move || place.with(&read).unwrap_or(0);
        let write = Rc::clone(&self.write);
        let turn = move |turn: Turn| {
            error.set(None);
            write(bound.clamp(untracked(&value) + turn.by(step)));
        };
        let write = self.write;
        let typed = move |text: String| match parse_whole(&text, bound) {
            Ok(number) => {
                error.set(None);
                write(number);
            }
            Err(refused) => error.set(Some(errors::number(&refused))),
        };
        Stepper {
            label: self.label,
            id: self.id,
            value: Box::new(move || value().to_string().into()),
            unit: self.unit.into(),
            error,
            on_turn: Rc::new(turn),
            on_typed: Box::new(typed),
            is_small: true,
        }
    }
}

/// A number already held to its bound, in the plan's own type.
fn narrow<T: TryFrom<i64> + Default>(number: i64) -> T {
    T::try_from(number).unwrap_or_default()
}
