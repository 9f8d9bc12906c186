//! The set that is up: last time, the suggestion and why, load and reps,
//! effort, and the button that logs it.

use super::running::Foot;
use crate::effects::sound;
use crate::parts::Stepper;
use crate::route::{self, Route, TodaySheet};
use crate::state::App;
use crate::text::{errors, reasons, words};
use leptos::prelude::*;
use weekloom_engine::bounds;
use weekloom_engine::catalogue::{Exercise, Loading, Measure, Sides};
use weekloom_engine::load::Ladder;
use weekloom_engine::log::SetKind;
use weekloom_engine::session::{Event, SessionItem};
use weekloom_engine::units::{Load, parse_whole};

/// Effort answers offered: reps in reserve 0 to 5, the last meaning "or more"
/// (beyond five people cannot tell: Hackett et al. 2017, JSCR 31(8):2162-2168).
const EFFORTS: [u8; 6] = [0, 1, 2, 3, 4, 5];
/// Seconds one tap adds or takes on a hold.
const HOLD_STEP: i64 = 5;

/// The numbers in hand before the set is logged.
#[derive(Clone, Copy)]
struct InHand {
    load: RwSignal<Load>,
    count: RwSignal<u16>,
    rir: RwSignal<Option<u8>>,
    load_error: RwSignal<Option<String>>,
    count_error: RwSignal<Option<String>>,
}

/// The set of an item, the so-many-th (from nought).
#[component]
pub fn SetUp(item: usize, set: usize) -> impl IntoView {
    let app = App::here();
    let found = app
        .session
        .with_untracked(|s| s.as_ref().and_then(|s| s.items.get(item).cloned()));
    let Some(present) = found else {
        return ().into_any();
    };
    match app.exercise(&present.prescription.exercise) {
        Some(exercise) => view! { <KnownSet item set present exercise /> }.into_any(),
        None => view! { <p>{words::UNKNOWN_EXERCISE}</p> }.into_any(),
    }
}

#[component]
fn KnownSet(item: usize, set: usize, present: SessionItem, exercise: Exercise) -> impl IntoView {
    let app = App::here();
    let kit = app.kit();
    let ladder = Ladder::of(&exercise, &kit);
    let suggestion = app.suggestion(&present.prescription, &exercise);
    let start = app.opening_numbers(&present, ladder.as_ref(), &suggestion);
    let draft = app.draft_for(item, set).unwrap_or((start.0, start.1, None));
    let hand = InHand {
        load: RwSignal::new(draft.0),
        count: RwSignal::new(draft.1),
        rir: RwSignal::new(draft.2),
        load_error: RwSignal::new(None),
        count_error: RwSignal::new(None),
    };
    Effect::new(move |_| {
        app.keep_draft(item, set, hand.load.get(), hand.count.get(), hand.rir.get());
    });

    let target = suggestion.target();
    let is_first_work_set = present.work_sets_done() == 0;
    let is_loaded = ladder.is_some();
    let log = move |_| {
        sound::unlock();
        if hand.load_error.get_untracked().is_some() || hand.count_error.get_untracked().is_some() {
            return;
        }
        let mut events = Vec::new();
        if is_first_work_set {
            events.push(Event::SetTarget { item, target });
        }
        events.push(Event::LogSet {
            load: hand.load.get_untracked(),
            count: hand.count.get_untracked(),
            rir: hand.rir.get_untracked(),
            kind: SetKind::Work,
        });
        if let Err(words) = app.act_all(&events) {
            app.tell(words);
        }
    };
    let name = exercise.name.clone();
    let partner = app.superset_partner(item);
    let planned = usize::from(present.prescription.sets);
    let last = app.last_in_words(&exercise.id);
    let aim = reasons::aim(&suggestion, &exercise, app.unit_now());
    let why = reasons::why(&suggestion, app.unit_now(), app.today.get_untracked());
    let has_plates = matches!(exercise.loading, Loading::Barbell);
    let button = {
        let exercise = exercise.clone();
        move || {
            reasons::log_button(
                is_loaded.then(|| hand.load.get()),
                hand.count.get(),
                &exercise,
                app.unit(),
            )
        }
    };
    let is_timed = exercise.measure == Measure::Seconds;

    view! {
        <section class="set">
            <div class="set__head">
                <h2 class="set__name">{name}</h2>
                <p class="soft small">{words::set_of(set + 1, planned.max(set + 1))}</p>
            </div>
            {partner
                .map(|name| {
                    view! { <p class="soft small">{words::IN_TURN_WITH} " " {name}</p> }
                })}
            <dl class="set__facts">
                <div>
                    <dt>{words::LAST_TIME}</dt>
                    <dd>{last.unwrap_or_else(|| words::NEVER.to_owned())}</dd>
                </div>
            </dl>
            <details class="set__why">
                <summary>
                    <span class="set__term">{words::SUGGESTED}</span>
                    <strong class="set__aim">{aim}</strong>
                    <span class="set__ask">{words::WHY}</span>
                </summary>
                <div class="stack small">
                    {why.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
                    <p class="cue">{exercise.cue.clone()}</p>
                    <p class="caution">{exercise.caution.clone()}</p>
                </div>
            </details>
            {ladder
                .map(|ladder| {
                    view! { <LoadStepper hand ladder is_help=exercise.loading == Loading::Assisted /> }
                })}
            <CountStepper hand is_timed sides=exercise.sides />
            <Effort hand is_timed />
            <div class="row row--thirds">
                <button
                    type="button"
                    class="button"
                    on:click=move |_| route::go(&Route::TodaySheet(TodaySheet::Swap))
                >
                    {words::SWAP}
                </button>
                {is_loaded
                    .then(|| {
                        view! {
                            <button
                                type="button"
                                class="button"
                                on:click=move |_| route::go(&Route::TodaySheet(TodaySheet::Load))
                            >
                                {if has_plates { words::LOAD_UP } else { words::WARM_UP }}
                            </button>
                        }
                    })}
                <HurtsButton item />
            </div>
        </section>
        <Foot>
            <button type="button" class="button button--main button--wide" on:click=log>
                {button}
            </button>
        </Foot>
    }
}

#[component]
fn LoadStepper(hand: InHand, ladder: Ladder, is_help: bool) -> impl IntoView {
    let app = App::here();
    let ladder = StoredValue::new(ladder);
    let turn = move |next: fn(&Ladder, Load) -> Option<Load>| {
        hand.load_error.set(None);
        if let Some(load) = ladder.with_value(|l| next(l, hand.load.get_untracked())) {
            hand.load.set(load);
        }
    };
    let typed = Callback::new(move |text: String| match Load::parse(&text, app.unit()) {
        Ok(load) => {
            hand.load_error.set(None);
            hand.load.set(load);
        }
        Err(refused) => hand.load_error.set(Some(errors::number(&refused))),
    });
    let label = if is_help { words::HELP } else { words::LOAD };
    view! {
        <Stepper
            id="load"
            label=Signal::stored(label.to_owned())
            value=Signal::derive(move || hand.load.get().show(app.unit()))
            unit=Signal::derive(move || app.unit().symbol().to_owned())
            error=hand.load_error
            on_less=Callback::new(move |()| turn(Ladder::next_below))
            on_more=Callback::new(move |()| turn(Ladder::next_above))
            on_typed=typed
            less_name=Signal::stored(words::less(label))
            more_name=Signal::stored(words::more(label))
        />
    }
}

#[component]
fn CountStepper(hand: InHand, is_timed: bool, sides: Sides) -> impl IntoView {
    let (bound, step) = if is_timed {
        (bounds::HOLD_S, HOLD_STEP)
    } else {
        (bounds::REPS, 1)
    };
    let set = move |count: i64| {
        hand.count_error.set(None);
        hand.count.set(u16::try_from(count).unwrap_or(1));
    };
    let turn = move |by: i64| set(bound.clamp(i64::from(hand.count.get_untracked()) + by));
    let label = match (is_timed, sides) {
        (true, _) => words::SECONDS,
        (false, Sides::Both) => words::REPS,
        (false, Sides::Each) => words::REPS_EACH,
    };
    view! {
        <Stepper
            id="count"
            label=Signal::stored(label.to_owned())
            value=Signal::derive(move || hand.count.get().to_string())
            unit=Signal::stored(if is_timed { words::S } else { "" }.to_owned())
            error=hand.count_error
            on_less=Callback::new(move |()| turn(-step))
            on_more=Callback::new(move |()| turn(step))
            on_typed=Callback::new(move |text: String| match parse_whole(&text, bound) {
                Ok(count) => set(count),
                Err(refused) => hand.count_error.set(Some(errors::number(&refused))),
            })
            less_name=Signal::stored(words::less(label))
            more_name=Signal::stored(words::more(label))
        />
    }
}

/// Effort in one optional tap; a second tap takes it back.
#[component]
fn Effort(hand: InHand, is_timed: bool) -> impl IntoView {
    if is_timed {
        return ().into_any();
    }
    view! {
        <fieldset class="group effort">
            <legend class="stepper__label">{words::EFFORT}</legend>
            <div class="chips">
                {EFFORTS
                    .iter()
                    .map(|&rir| {
                        view! {
                            <button
                                type="button"
                                class="chip chip--grow"
                                aria-pressed=move || {
                                    if hand.rir.get() == Some(rir) { "true" } else { "false" }
                                }
                                aria-label=words::effort(rir)
                                on:click=move |_| {
                                    hand.rir
                                        .update(|chosen| {
                                            *chosen = (*chosen != Some(rir)).then_some(rir);
                                        });
                                }
                            >
                                {words::effort_short(rir)}
                            </button>
                        }
                    })
                    .collect_view()}
            </div>
        </fieldset>
    }
    .into_any()
}

#[component]
fn HurtsButton(item: usize) -> impl IntoView {
    let app = App::here();
    let noted = Memo::new(move |_| {
        app.session.with(|s| {
            s.as_ref()
                .and_then(|s| s.items.get(item))
                .and_then(|i| i.discomfort)
        })
    });
    view! {
        <button
            type="button"
            class="button"
            class:button--warn=move || noted.get().is_some()
            on:click=move |_| route::go(&Route::TodaySheet(TodaySheet::More))
        >
            {words::HURTS}
        </button>
    }
}
