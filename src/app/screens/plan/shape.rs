//! The shape of the week: days, minutes, split, experience and wishes; and a
//! new plan from them.

use crate::parts::{Choice, ChoiceGroup, Stepper};
use crate::route::{self, Route};
use crate::screens::PageHead;
use crate::screens::questions::{DaysQuestion, JointWishes, PriorityWishes, StatusQuestion};
use crate::state::App;
use crate::text::{errors, terms, words};
use leptos::prelude::*;
use weekloom_engine::bounds;
use weekloom_engine::person::Person;
use weekloom_engine::plan::{Split, SplitId};
use weekloom_engine::units::parse_whole;

/// Minutes one tap adds or takes.
const MINUTE_STEP: i64 = 5;

/// Edits a copy of the person; only weaving a new plan takes it up.
#[component]
pub fn Shape() -> impl IntoView {
    let app = App::here();
    let Some(present) = app.person.get_untracked() else {
        return ().into_any();
    };
    let person = RwSignal::new(present);
    let error = RwSignal::new(None::<String>);
    let weave = move |_| {
        let mut wanted = person.get_untracked();
        // A split made for another number of days falls back to the default.
        if let Some(split) = &wanted.split
            && !offered(&wanted).contains(split)
        {
            wanted.split = None;
        }
        if wanted.days.is_empty() {
            error.set(Some(words::NEED_A_DAY.to_owned()));
            return;
        }
        match app.weave(wanted) {
            Ok(()) => route::replace(&Route::Plan),
            Err(refused) => error.set(Some(refused)),
        }
    };
    view! {
        <main class="page">
            <PageHead title=Signal::stored(words::SHAPE.to_owned()) back=Route::Plan />
            <section class="card stack--wide">
                <DaysQuestion person />
                <Minutes person />
                <SplitChoice person />
            </section>
            <section class="card stack--wide">
                <StatusQuestion person />
                <PriorityWishes person />
                <JointWishes person />
                <Excluded person />
            </section>
            {move || {
                error.get().map(|text| view! { <p class="field__error" role="alert">{text}</p> })
            }}
            <p class="soft small">{words::REWEAVE_MORE}</p>
            <button type="button" class="button button--main button--wide" on:click=weave>
                {words::REWEAVE}
            </button>
        </main>
    }
    .into_any()
}

fn offered(person: &Person) -> Vec<SplitId> {
    Split::offered_for(u8::try_from(person.days.len()).unwrap_or(7))
}

/// Exercises never to be planned, each to be allowed again by a tap.
#[component]
fn Excluded(person: RwSignal<Person>) -> impl IntoView {
    let app = App::here();
    let excluded = move || person.with(|p| p.excluded.iter().cloned().collect::<Vec<_>>());
    view! {
        <Show when=move || person.with(|p| !p.excluded.is_empty())>
            <fieldset class="group">
                <legend>{words::EXCLUDED}</legend>
                <div class="chips">
                    <For each=excluded key=ToString::to_string let:id>
                        <button
                            type="button"
                            class="chip"
                            on:click={
                                let id = id.clone();
                                move |_| {
                                    person
                                        .update(|p| {
                                            p.excluded.remove(&id);
                                        });
                                }
                            }
                        >
                            {app.name_of(&id)}
                        </button>
                    </For>
                </div>
            </fieldset>
        </Show>
    }
}

#[component]
fn Minutes(person: RwSignal<Person>) -> impl IntoView {
    let error = RwSignal::new(None::<String>);
    let set = move |minutes: i64| {
        person.update(|p| p.minutes = u16::try_from(minutes).unwrap_or(p.minutes));
    };
    let turn = move |by: i64| {
        error.set(None);
        let minutes = person.with_untracked(|p| i64::from(p.minutes));
        set(bounds::SESSION_MIN.clamp(minutes + by));
    };
    view! {
        <Stepper
            id="minutes"
            label=Signal::stored(words::HOW_LONG.to_owned())
            value=Signal::derive(move || person.with(|p| p.minutes.to_string()))
            unit=Signal::stored(words::MIN.to_owned())
            error=error
            on_less=Callback::new(move |()| turn(-MINUTE_STEP))
            on_more=Callback::new(move |()| turn(MINUTE_STEP))
            on_typed=Callback::new(move |text: String| {
                match parse_whole(&text, bounds::SESSION_MIN) {
                    Ok(minutes) => {
                        error.set(None);
                        set(minutes);
                    }
                    Err(refused) => error.set(Some(errors::number(&refused))),
                }
            })
            less_name=Signal::stored(words::less(words::HOW_LONG))
            more_name=Signal::stored(words::more(words::HOW_LONG))
            small=true
        />
    }
}

#[component]
fn SplitChoice(person: RwSignal<Person>) -> impl IntoView {
    let options = Signal::derive(move || {
        person.with(|p| {
            offered(p)
                .iter()
                .map(|id| {
                    let (name, more) = terms::split(id.as_str());
                    Choice {
                        value: id.as_str().to_owned(),
                        name,
                        more: more.to_owned(),
                    }
                })
                .collect::<Vec<_>>()
        })
    });
    let chosen = Signal::derive(move || {
        person.with(|p| {
            let offered = offered(p);
            p.split
                .as_ref()
                .filter(|id| offered.contains(id))
                .or(offered.first())
                .map(|id| id.as_str().to_owned())
                .unwrap_or_default()
        })
    });
    view! {
        <ChoiceGroup
            legend=words::SPLIT
            name="split"
            options=options
            chosen=chosen
            on_choose=Callback::new(move |value: String| {
                person.update(|p| p.split = Some(SplitId::new(&value)));
            })
        />
    }
}
