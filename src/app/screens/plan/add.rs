//! One more exercise for a day: everything the kit allows, by pattern.

use super::cycle::slot_name;
use crate::held::Held;
use crate::markup::{Tag, View, tag};
use crate::parts::{line_button, refusal};
use crate::route::{self, Route};
use crate::screens::{page, page_head_under, soft};
use crate::state::App;
use crate::text::{reasons, terms, words};
use std::rc::Rc;
use weekloom_engine::catalogue::{Exercise, Pattern};
use weekloom_engine::plan::{Edit, Split};

/// Sets an added exercise starts with.
const SETS: u8 = 3;

/// Exercises to add to a day: all of them, or those for an open place of an
/// own cycle.
pub fn add(day: u8, place: Option<u8>) -> View {
    let app = App::here();
    let slot = place.and_then(|place| {
        let split = app
            .plan
            .with_untracked(|plan| Some(plan.as_ref()?.plan.split.clone()))?;
        let split = app
            .person
            .with_untracked(|person| Split::of(person.as_ref()?, &split))?;
        let day = split.days.get(usize::from(day))?;
        day.slots.get(usize::from(place)).cloned()
    });
    let error = Held::new(None);
    let choose = move |exercise: &Exercise| {
        let add = Edit::Add {
            day: usize::from(day),
            exercise: exercise.id.clone(),
            sets: SETS,
        };
        match app.edit(&add) {
            Ok(()) => route::replace(&Route::Plan),
            Err(refused) => error.set(Some(refused)),
        }
    };
    let head = page_head_under(&Route::Plan, words::ADD_EXERCISE);
    let head = head.with(slot.as_ref().map(|slot| soft(slot_name(slot))));
    let picker = match slot {
        Some(slot) => {
            let fits = move |e: &Exercise| {
                slot.patterns.contains(&e.pattern)
                    && slot.muscle.is_none_or(|muscle| e.prime.contains(&muscle))
            };
            tag("ul", "card lines").with(lines(app, &fits, &(Rc::new(choose) as OnChoose)))
        }
        None => exercise_picker(app, Rc::new(choose)),
    };
    page(head).with(refusal(error)).with(picker).into()
}

type OnChoose = Rc<dyn Fn(&'static Exercise)>;

/// Exercises of a sort that the kit allows.
fn lines(app: App, fits: &dyn Fn(&Exercise) -> bool, on_choose: &OnChoose) -> Vec<View> {
    let person = app.person.get_untracked();
    let is_allowed = |e: &Exercise| {
        person
            .as_ref()
            .is_none_or(|p| p.kit.allows(e) && !p.excluded.contains(&e.id))
    };
    let mut lines = Vec::new();
    for exercise in app.catalogue().iter() {
        if fits(exercise) && is_allowed(exercise) {
            let on_choose = Rc::clone(on_choose);
            let name = terms::exercise(exercise);
            let line = line_button(name, reasons::trains(exercise), move || {
                on_choose(exercise);
            });
            lines.push(line.into());
        }
    }
    lines
}

/// Every exercise the kit allows, folded by pattern.
pub fn exercise_picker(app: App, on_choose: OnChoose) -> Tag {
    let mut card = tag("div", "card");
    for &pattern in Pattern::ALL {
        let lines = lines(app, &|e| e.pattern == pattern, &on_choose);
        if !lines.is_empty() {
            let folded = tag("details", "more")
                .with(tag("summary", "").with(terms::pattern(pattern)))
                .with(tag("ul", "lines").with(lines));
            card = card.with(folded);
        }
    }
    card
}
