//! One exercise of the plan: what to do, why it is here, and its edits.

use crate::parts::Stepper;
use crate::route::{self, Route};
use crate::screens::PageHead;
use crate::state::App;
use crate::text::{errors, reasons, words};
use leptos::prelude::*;
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::catalogue::{Exercise, Measure};
use weekloom_engine::plan::{EditError, Plan, PlanItem};
use weekloom_engine::units::parse_whole;

/// One exercise of the plan.
#[component]
pub fn Item(day: u8, key: u16) -> impl IntoView {
    let app = App::here();
    let item = Memo::new(move |_| {
        app.plan.with(|plan| {
            plan.as_ref()?
                .plan
                .days
                .get(usize::from(day))?
                .items
                .iter()
                .find(|item| item.key == key)
                .cloned()
        })
    });
    // The exercise under a key changes only by a swap, which leaves this page.
    let exercise = item
        .get_untracked()
        .and_then(|item| app.exercise(&item.prescription.exercise));
    view! {
        <main class="page">
            {match exercise {
                Some(exercise) => view! { <Edit day key item exercise /> }.into_any(),
                None => {
                    route::replace(&Route::Plan);
                    ().into_any()
                }
            }}
        </main>
    }
}

#[component]
fn Edit(day: u8, key: u16, item: Memo<Option<PlanItem>>, exercise: Exercise) -> impl IntoView {
    let app = App::here();
    let error = RwSignal::new(None::<String>);
    let edit = move |change: &dyn Fn(&Plan) -> Result<Plan, EditError>| {
        let Some(accepted) = app.plan.get_untracked() else {
            return;
        };
        match change(&accepted.plan) {
            Ok(plan) => {
                error.set(None);
                app.edit_plan(plan);
            }
            Err(refused) => error.set(Some(errors::other(&refused))),
        }
    };
    let at = usize::from(day);
    let is_timed = exercise.measure == Measure::Seconds;
    let reps = move || item.with(|i| i.as_ref().map_or((1, 1), |i| i.prescription.reps));
    let count_bound = if is_timed {
        bounds::HOLD_S
    } else {
        bounds::REPS
    };
    let count_step = if is_timed { 5 } else { 1 };

    let set_sets = Callback::new(move |sets: i64| {
        edit(&|plan| plan.set_sets(&app.catalogue(), at, key, narrow(sets)));
    });
    let set_least = Callback::new(move |least: i64| {
        let least = narrow::<u16>(least);
        let most = reps().1.max(least);
        edit(&|plan| plan.set_reps(&app.catalogue(), at, key, (least, most)));
    });
    let set_most = Callback::new(move |most: i64| {
        let most = narrow::<u16>(most);
        let least = reps().0.min(most);
        edit(&|plan| plan.set_reps(&app.catalogue(), at, key, (least, most)));
    });
    let set_rest = Callback::new(move |rest: i64| {
        edit(&|plan| plan.set_rest(&app.catalogue(), at, key, narrow(rest)));
    });
    let place = move || {
        app.plan.with_untracked(|plan| {
            plan.as_ref()?
                .plan
                .days
                .get(at)?
                .items
                .iter()
                .position(|item| item.key == key)
        })
    };
    let move_to = move |to: Option<usize>| {
        if let Some(to) = to {
            edit(&|plan| plan.move_item(&app.catalogue(), at, key, at, to));
        }
    };
    let take_out = move |_| {
        edit(&|plan| plan.remove(&app.catalogue(), at, key));
        route::replace(&Route::Plan);
    };
    let excluded = exercise.id.clone();
    let exclude = move |_| {
        if let Some(mut person) = app.person.get_untracked() {
            person.excluded.insert(excluded.clone());
            app.set_person(person);
            // Its place needs another exercise now.
            route::replace(&Route::PlanSwap(day, key));
        }
    };
    let number = move |read: fn(&PlanItem) -> i64| {
        Signal::derive(move || item.with(|i| i.as_ref().map_or(0, read)))
    };
    let why = item
        .get_untracked()
        .map(|i| i.reasons.iter().map(reasons::pick).collect::<Vec<_>>())
        .unwrap_or_default();
    let name = exercise.name.clone();

    view! {
        <PageHead title=Signal::stored(name) back=Route::Plan />
        <section class="card">
            <p class="cue">{exercise.cue.clone()}</p>
            <p class="small caution">{exercise.caution.clone()}</p>
            <p class="soft small">{reasons::trains(&exercise)}</p>
        </section>
        {(!why.is_empty())
            .then(|| {
                view! {
                    <section class="card">
                        <h2>{words::WHY_HERE}</h2>
                        <ul class="stack">
                            {why.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}
                        </ul>
                    </section>
                }
            })}
        <section class="card steppers">
            <Number
                id="sets"
                label=words::SETS
                unit=""
                bound=bounds::SETS
                step=1
                value=number(|i| i64::from(i.prescription.sets))
                on_change=set_sets
            />
            <Number
                id="reps-from"
                label=if is_timed { words::SECONDS_FROM } else { words::REPS_FROM }
                unit=""
                bound=count_bound
                step=count_step
                value=number(|i| i64::from(i.prescription.reps.0))
                on_change=set_least
            />
            <Number
                id="reps-to"
                label=if is_timed { words::SECONDS_TO } else { words::REPS_TO }
                unit=""
                bound=count_bound
                step=count_step
                value=number(|i| i64::from(i.prescription.reps.1))
                on_change=set_most
            />
            <Number
                id="rest"
                label=words::REST_SECONDS
                unit=words::S
                bound=bounds::REST_S
                step=15
                value=number(|i| i64::from(i.prescription.rest_s))
                on_change=set_rest
            />
            {move || {
                error.get().map(|text| view! { <p class="field__error" role="alert">{text}</p> })
            }}
        </section>
        <div class="stack">
            <a class="button button--wide" href=Route::PlanSwap(day, key).hash()>
                {words::SWAP_EXERCISE}
            </a>
            <div class="row row--halves">
                <button
                    type="button"
                    class="button"
                    on:click=move |_| move_to(place().and_then(|at| at.checked_sub(1)))
                >
                    "\u{2191} "
                    {words::EARLIER}
                </button>
                <button
                    type="button"
                    class="button"
                    on:click=move |_| move_to(place().map(|at| at + 1))
                >
                    "\u{2193} "
                    {words::LATER}
                </button>
            </div>
            <button type="button" class="button button--wide button--warn" on:click=take_out>
                {words::TAKE_OUT}
            </button>
            <button type="button" class="button button--wide button--warn" on:click=exclude>
                {words::NEVER_AGAIN}
            </button>
        </div>
    }
}

/// A whole number of the plan with its bound.
#[component]
fn Number(
    id: &'static str,
    label: &'static str,
    unit: &'static str,
    bound: Bound,
    step: i64,
    value: Signal<i64>,
    on_change: Callback<i64>,
) -> impl IntoView {
    let error = RwSignal::new(None::<String>);
    let turn = move |by: i64| {
        error.set(None);
        on_change.run(bound.clamp(value.get_untracked() + by));
    };
    view! {
        <Stepper
            id=id
            label=Signal::stored(label.to_owned())
            value=Signal::derive(move || value.get().to_string())
            unit=Signal::stored(unit.to_owned())
            error=error
            on_less=Callback::new(move |()| turn(-step))
            on_more=Callback::new(move |()| turn(step))
            on_typed=Callback::new(move |text: String| match parse_whole(&text, bound) {
                Ok(number) => {
                    error.set(None);
                    on_change.run(number);
                }
                Err(refused) => error.set(Some(errors::number(&refused))),
            })
            less_name=Signal::stored(words::less(label))
            more_name=Signal::stored(words::more(label))
            small=true
        />
    }
}

/// A number already held to its bound, in the plan's own type.
fn narrow<T: TryFrom<i64> + Default>(number: i64) -> T {
    T::try_from(number).unwrap_or_default()
}
