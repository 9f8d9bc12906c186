//! The shape of the week: days, minutes, split, experience and wishes; and a
//! new plan from them.

use crate::held::Held;
use crate::markup::{View, button, link, nothing, rows, tag, when};
use crate::parts::{Choice, ChoiceGroup, Stepper, Turn, refusal};
use crate::route::Route;
use crate::screens::questions::{days_question, joint_wishes, priority_wishes, status_question};
use crate::screens::weaving::Weaving;
use crate::screens::{page, page_head_under, soft_small};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{errors, words};
use std::rc::Rc;
use weekloom_engine::bounds;
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::person::Person;
use weekloom_engine::plan::{Split, SplitId};
use weekloom_engine::units::parse_whole;

/// Minutes one tap adds or takes.
const MINUTE_STEP: i64 = 5;

/// Edits a copy of the person; only weaving a new plan takes it up.
pub fn shape() -> View {
    let app = App::here();
    let Some(present) = app.person.get_untracked() else {
        return nothing();
    };
    let person = Held::new(present);
    let weaving = Weaving::idle();
    let weave = move || {
        let mut wanted = person.get_untracked();
        // A split made for another number of days falls back to the default.
        if let Some(split) = &wanted.split
            && !Split::offered_to(&wanted).contains(split)
        {
            wanted.split = None;
        }
        if wanted.days.is_empty() {
            let why = tr(words::NEED_A_DAY).to_owned();
            weaving.error.set(Some(why));
            return;
        }
        weaving.begin(app, wanted, Route::Plan);
    };
    let week = tag("section", "card stack--wide")
        .with(days_question(person))
        .with(minutes(person))
        .with(split_choice(person))
        .with(link("", Route::PlanCycles.hash(), words::OWN_CYCLES));
    let wishes = tag("section", "card stack--wide")
        .with(status_question(person))
        .with(priority_wishes(person))
        .with(joint_wishes(person))
        .with(excluded(app, person));
    page(page_head_under(&Route::Plan, words::SHAPE))
        .with(week)
        .with(wishes)
        .with(refusal(weaving.error))
        .with(soft_small(words::REWEAVE_MORE))
        .with(button(
            "button button--main button--wide",
            weaving.name(|| words::REWEAVE),
            weave,
        ))
        .into()
}

/// Exercises never to be planned, each to be allowed again by a tap.
fn excluded(app: App, person: Held<Person>) -> View {
    let ids = move || person.with(|p| p.excluded.iter().map(ToString::to_string).collect());
    let chip = move |id: &str| {
        let id = ExerciseId::new(id);
        let name = app.name_of(&id);
        let allow = move || {
            person.update(|p| {
                p.excluded.remove(&id);
            });
        };
        button("chip", name, allow).into()
    };
    when(
        move || person.with(|p| !p.excluded.is_empty()),
        move || {
            tag("fieldset", "group")
                .with(tag("legend", "").with(words::EXCLUDED))
                .with(tag("div", "chips").with(rows(ids, chip)))
        },
    )
}

fn minutes(person: Held<Person>) -> Stepper {
    let error = Held::new(None);
    let set = move |minutes: i64| {
        error.set(None);
        person.update(|p| p.minutes = u16::try_from(minutes).unwrap_or(p.minutes));
    };
    let turn = move |turn: Turn| {
        let minutes = person.with_untracked(|p| i64::from(p.minutes));
        set(bounds::SESSION_MIN.clamp(minutes + turn.by(MINUTE_STEP)));
    };
    Stepper {
        label: words::HOW_LONG,
        id: "minutes",
        value: Box::new(move || person.with(|p| p.minutes.to_string().into())),
        unit: tr(words::MIN).into(),
        error,
        on_turn: Rc::new(turn),
        on_typed: Box::new(move |text| match parse_whole(&text, bounds::SESSION_MIN) {
            Ok(minutes) => set(minutes),
            Err(refused) => error.set(Some(errors::number(&refused))),
        }),
        is_small: true,
    }
}

fn split_choice(person: Held<Person>) -> ChoiceGroup {
    let options = move || {
        let choice = |id: &SplitId| {
            let (name, more) = App::here().split_name(id);
            Choice::new(id.as_str().to_owned(), name, more)
        };
        person.with(|p| Split::offered_to(p).iter().map(choice).collect())
    };
    let chosen = move || {
        person.with(|p| {
            let offered = Split::offered_to(p);
            p.split
                .as_ref()
                .filter(|id| offered.contains(id))
                .or(offered.first())
                .map(|id| id.as_str().to_owned())
                .unwrap_or_default()
        })
    };
    ChoiceGroup {
        legend: words::SPLIT,
        name: "split",
        options: Rc::new(options),
        chosen: Rc::new(move || chosen().into()),
        on_choose: Rc::new(move |value| {
            person.update(|p| p.split = Some(SplitId::new(value)));
        }),
        is_chips: false,
    }
}
