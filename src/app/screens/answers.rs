//! The first questions: three short ones, each with a sensible answer already
//! given, and a way past them.
//!
//! They lie beyond the cut, and with them the planner, which no start needs.

use super::questions::{days_question, joint_wishes, priority_wishes, status_question};
use super::weaving::Weaving;
use super::{soft_small, welcome};
use crate::held::Held;
use crate::markup::{Tag, View, button, by_key, live, tag};
use crate::parts::{Choice, ChoiceGroup, refusal};
use crate::route::{self, Route};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{terms, words};
use leptos::prelude::window;
use std::rc::Rc;
use weekloom_engine::calendar::Weekday;
use weekloom_engine::order::{Map, Set};
use weekloom_engine::person::{Person, Status};
use weekloom_engine::presets::KitPreset;
use weekloom_engine::units::Unit;

/// The cautions and three questions.
const STEPS: usize = 4;
/// Minutes offered; the field in Plan takes any.
const MINUTES: [u16; 5] = [30, 45, 60, 75, 90];

/// A plain start: three days, an hour, a full gym.
fn usual(unit: Unit) -> Person {
    Person {
        days: vec![Weekday::Monday, Weekday::Wednesday, Weekday::Friday],
        minutes: 60,
        kit: KitPreset::FullGym.kit(unit),
        status: Status::Novice,
        is_older: false,
        priorities: Map::new(),
        excluded: Set::new(),
        disliked: Set::new(),
        joint_limits: Set::new(),
        split: None,
        own_splits: Vec::new(),
        unit,
        rules: Map::new(),
    }
}

/// People who read American English mostly lift in pounds; all others in
/// kilograms. Only a first guess: the question is asked.
fn likely_unit() -> Unit {
    match window().navigator().language().as_deref() {
        Some("en-US") => Unit::Lb,
        _ => Unit::Kg,
    }
}

/// What has been answered so far.
#[derive(Clone, Copy)]
struct Answers {
    step: Held<usize>,
    person: Held<Person>,
    preset: Held<KitPreset>,
    weaving: Weaving,
}

impl Answers {
    fn weave(self, app: App, then: Route) {
        app.change_settings(&|s| s.cautions_read = Some(app.today.get_untracked()));
        self.weaving.begin(app, self.person.get_untracked(), then);
    }

    fn next(self, app: App) {
        if self.person.with_untracked(|p| p.days.is_empty()) {
            let why = tr(words::NEED_A_DAY).to_owned();
            self.weaving.error.set(Some(why));
            return;
        }
        self.weaving.error.set(None);
        if self.step.get_untracked() + 1 < STEPS {
            self.step.update(|step| *step += 1);
            route::tell_place();
        } else {
            self.weave(app, then(app));
        }
    }
}

/// Where to go then: to the plan that a link brought, or to the first session.
fn then(app: App) -> Route {
    match app.route.get_untracked() {
        came @ Route::PlanTake(_) => came,
        _ => Route::Today,
    }
}

/// The questions.
pub fn questions() -> View {
    let app = App::here();
    let answers = Answers {
        step: Held::new(1),
        person: Held::new(usual(likely_unit())),
        preset: Held::new(KitPreset::FullGym),
        weaving: Weaving::idle(),
    };
    let step = answers.step;
    let question = move || match step.get_untracked() {
        0 => welcome::opening(),
        1 => when_to_train(answers.person).into(),
        2 => with_what(answers).into(),
        _ => about_you(answers.person).into(),
    };
    let go = answers.weaving.name(move || match step.get() {
        0 => words::CAUTIONS_READ,
        s if s + 1 == STEPS => words::WEAVE,
        _ => words::NEXT,
    });
    let back = live(move || {
        (step.get() > 0).then(|| {
            let back = button("button button--plain", words::BACK, move || {
                step.update(|s| *s -= 1);
                route::tell_place();
            });
            let count = tag("span", "soft small").with(words::step_of(step.get(), STEPS - 1));
            vec![back.into(), count.into()]
        })
    });
    let skip = live(move || {
        (step.get() == 1).then(|| {
            tag("div", "welcome__skip")
                .with(button("button button--plain", words::SKIP, move || {
                    answers.weave(app, then(app));
                }))
                .with(button(
                    "button button--plain",
                    words::SKIP_TO_EDITING,
                    move || {
                        answers.weave(app, Route::PlanCycles);
                    },
                ))
                .with(soft_small(words::SKIP_MORE))
        })
    });
    let main = button("button button--main button--wide", go, move || {
        answers.next(app);
    });
    let is_first = move || step.get() == 0;
    welcome::page(is_first)
        .with(by_key(move || step.get().to_string(), question))
        .with(refusal(answers.weaving.error))
        .with(
            tag("div", "welcome__go")
                .with(main)
                .with(tag("div", "row row--apart").with(back).with(skip)),
        )
        .into()
}

fn question(title: &'static str) -> Tag {
    tag("section", "stack stack--wide").with(tag("h1", "").with(title))
}

fn when_to_train(person: Held<Person>) -> Tag {
    let minutes = || {
        let choice = |m: &u16| Choice::plain(m.to_string(), m.to_string());
        MINUTES.iter().map(choice).collect()
    };
    question(words::WHEN)
        .with(days_question(person))
        .with(ChoiceGroup {
            legend: words::HOW_LONG,
            name: "minutes",
            options: Rc::new(minutes),
            chosen: Rc::new(move || person.with(|p| p.minutes.to_string().into())),
            on_choose: Rc::new(move |value| {
                if let Ok(minutes) = value.parse() {
                    person.update(|p| p.minutes = minutes);
                }
            }),
            is_chips: true,
        })
}

fn with_what(answers: Answers) -> Tag {
    let Answers { person, preset, .. } = answers;
    let kits = || {
        let choice = |&kit: &KitPreset| {
            let (name, more) = terms::kit(kit);
            Choice::new(kit.slug(), name, more)
        };
        KitPreset::ALL.iter().map(choice).collect()
    };
    let refit = move || {
        let preset = preset.get_untracked();
        person.update(|p| p.kit = preset.kit(p.unit));
    };
    question(words::WITH_WHAT)
        .with(ChoiceGroup {
            legend: words::KIT_AT_HAND,
            name: "kit",
            options: Rc::new(kits),
            chosen: Rc::new(move || preset.get().slug().into()),
            on_choose: Rc::new(move |value| {
                if let Some(kit) = KitPreset::from_slug(value) {
                    preset.set(kit);
                    refit();
                }
            }),
            is_chips: false,
        })
        .with(ChoiceGroup {
            legend: words::LOADS_IN,
            name: "unit",
            options: Rc::new(|| vec![Choice::plain("kg", "kg"), Choice::plain("lb", "lb")]),
            chosen: Rc::new(move || person.with(|p| p.unit.symbol().into())),
            on_choose: Rc::new(move |value| {
                person.update(|p| p.unit = if value == "lb" { Unit::Lb } else { Unit::Kg });
                refit();
            }),
            is_chips: true,
        })
}

fn about_you(person: Held<Person>) -> Tag {
    let wishes = tag("div", "stack stack--wide")
        .with(priority_wishes(person))
        .with(joint_wishes(person));
    let more = tag("details", "more")
        .with(tag("summary", "").with(words::WISHES))
        .with(wishes);
    question(words::ABOUT_YOU)
        .with(status_question(person))
        .with(more)
}
