//! What can be drawn up over the session: the whole of it, swaps, plates and
//! warm-up, and the rest.

use crate::parts::{Choice, ChoiceGroup, Sheet};
use crate::route::{self, Route, TodaySheet};
use crate::screens::plan::ExercisePicker;
use crate::state::App;
use crate::text::{errors, reasons, words};
use leptos::prelude::*;
use weekloom_engine::bounds;
use weekloom_engine::catalogue::{Exercise, Measure};
use weekloom_engine::load::{Ladder, Placement, warm_up};
use weekloom_engine::log::Discomfort;
use weekloom_engine::plan::{Alternative, alternatives};
use weekloom_engine::session::{Event, ItemState, Phase, Session, SessionItem};
use weekloom_engine::units::parse_whole;

/// The sheet of the present route, if any.
#[component]
pub fn Sheets() -> impl IntoView {
    let app = App::here();
    let open = Memo::new(move |_| match app.route.get() {
        Route::TodaySheet(sheet) => Some(sheet),
        _ => None,
    });
    move || {
        open.get().map(|sheet| match sheet {
            TodaySheet::Whole => view! {
                <Sheet title=words::WHOLE_SESSION.to_owned()>
                    <Whole />
                </Sheet>
            }
            .into_any(),
            TodaySheet::Swap => view! {
                <Sheet title=words::SWAP_FOR.to_owned()>
                    <Swap />
                </Sheet>
            }
            .into_any(),
            TodaySheet::Load => view! {
                <Sheet title=words::LOAD_UP.to_owned()>
                    <LoadUp />
                </Sheet>
            }
            .into_any(),
            TodaySheet::More => view! {
                <Sheet title=words::MORE.to_owned()>
                    <More />
                </Sheet>
            }
            .into_any(),
        })
    }
}

/// The item that is up.
fn up(app: App) -> Option<(usize, SessionItem, Exercise)> {
    app.session.with_untracked(|s| {
        let s = s.as_ref()?;
        let index = s.current?;
        let item = s.items.get(index)?.clone();
        let exercise = app.exercise(&item.prescription.exercise)?;
        Some((index, item, exercise))
    })
}

fn act_and_close(app: App, event: &Event) {
    match app.act(event) {
        Ok(()) => route::back(),
        Err(words) => app.tell(words),
    }
}

/// Every exercise of the session, what is done of it, and its verbs.
#[component]
fn Whole() -> impl IntoView {
    let app = App::here();
    let is_adding = RwSignal::new(false);
    let items = move || {
        app.session
            .with(|s| s.as_ref().map_or(0, |s| s.items.len()))
    };
    let add = Callback::new(move |exercise: Exercise| {
        let prescription = app.prescription_for(&exercise);
        match app.act(&Event::Add { prescription }) {
            Ok(()) => is_adding.set(false),
            Err(words) => app.tell(words),
        }
    });
    view! {
        <ol class="lines whole">
            <For each=move || 0..items() key=|index| *index let:index>
                <WholeItem index />
            </For>
        </ol>
        <Show
            when=move || is_adding.get()
            fallback=move || {
                view! {
                    <button
                        type="button"
                        class="button button--wide"
                        on:click=move |_| is_adding.set(true)
                    >
                        "+ "
                        {words::ADD_EXERCISE}
                    </button>
                }
            }
        >
            <ExercisePicker on_choose=add />
        </Show>
    }
}

#[component]
fn WholeItem(index: usize) -> impl IntoView {
    let app = App::here();
    let item = Memo::new(move |_| {
        app.session
            .with(|s| s.as_ref().and_then(|s| s.items.get(index).cloned()))
    });
    let is_up = Memo::new(move |_| {
        app.session
            .with(|s| s.as_ref().and_then(|s| s.current) == Some(index))
    });
    let act = move |event: &Event| {
        if let Err(words) = app.act(event) {
            app.tell(words);
        }
    };
    move || {
        let item = item.get()?;
        let exercise = app.exercise(&item.prescription.exercise);
        let p = &item.prescription;
        let is_timed = exercise
            .as_ref()
            .is_some_and(|e| e.measure == Measure::Seconds);
        let planned = words::sets_by_reps(p.sets, p.reps.0, p.reps.1, is_timed);
        let done = reasons::sets_in_words(&item.sets, exercise.as_ref(), app.unit());
        let sets = item.prescription.sets;
        let is_skipped = item.state == ItemState::Skipped;
        Some(view! {
            <li class="whole__item" class:whole__item--up=move || is_up.get()>
                <details class="more">
                    <summary>
                        <span class="whole__name" class:whole__name--skipped=is_skipped>
                            {app.name_of(&p.exercise)}
                            <span class="soft small">
                                {if done.is_empty() { planned } else { done }}
                            </span>
                        </span>
                    </summary>
                    <div class="stack">
                        <div class="row">
                            <button
                                type="button"
                                class="button"
                                on:click=move |_| act_and_close(app, &Event::Focus { item: index })
                            >
                                {words::DO_NOW}
                            </button>
                            <button
                                type="button"
                                class="button"
                                on:click=move |_| {
                                    act(&Event::SetSets { item: index, sets: sets.saturating_add(1) });
                                }
                            >
                                {words::ONE_MORE_SET}
                            </button>
                            <button
                                type="button"
                                class="button"
                                on:click=move |_| {
                                    act(&Event::SetSets { item: index, sets: sets.saturating_sub(1) });
                                }
                            >
                                {words::ONE_SET_FEWER}
                            </button>
                            {if is_skipped {
                                view! {
                                    <button
                                        type="button"
                                        class="button"
                                        on:click=move |_| act(&Event::Unskip { item: index })
                                    >
                                        {words::UNSKIP}
                                    </button>
                                }
                                    .into_any()
                            } else {
                                view! {
                                    <button
                                        type="button"
                                        class="button button--warn"
                                        on:click=move |_| act(&Event::Skip { item: index })
                                    >
                                        {words::SKIP_EXERCISE}
                                    </button>
                                }
                                    .into_any()
                            }}
                        </div>
                        <SetList index />
                    </div>
                </details>
            </li>
        })
    }
}

/// Sets done of one exercise, each amendable.
#[component]
fn SetList(index: usize) -> impl IntoView {
    let app = App::here();
    let count = Memo::new(move |_| {
        app.session.with(|s| {
            s.as_ref()
                .and_then(|s| s.items.get(index))
                .map_or(0, |i| i.sets.len())
        })
    });
    view! {
        <ul class="stack">
            <For each=move || 0..count.get() key=|set| *set let:set>
                <OneSet index set />
            </For>
        </ul>
    }
}

#[component]
fn OneSet(index: usize, set: usize) -> impl IntoView {
    let app = App::here();
    let entry = Memo::new(move |_| {
        app.session.with(|s| {
            s.as_ref()
                .and_then(|s| s.items.get(index))
                .and_then(|i| i.sets.get(set).copied())
        })
    });
    let exercise = app.session.with_untracked(|s| {
        s.as_ref()
            .and_then(|s| s.items.get(index))
            .and_then(|i| app.exercise(&i.prescription.exercise))
    });
    let is_open = RwSignal::new(false);
    let shown = {
        let exercise = exercise.clone();
        move || {
            entry
                .get()
                .map(|e| reasons::set_in_words(&e, exercise.as_ref(), app.unit()))
        }
    };
    let exercise = StoredValue::new(exercise);
    view! {
        <li class="stack">
            <div class="row row--apart">
                <span>{words::set_of_short(set + 1)} ": " {shown}</span>
                <button
                    type="button"
                    class="button button--plain"
                    on:click=move |_| is_open.update(|o| *o = !*o)
                >
                    {words::AMEND}
                </button>
            </div>
            <Show when=move || is_open.get()>
                <AmendSet
                    index
                    set
                    exercise=exercise.get_value()
                    on_done=Callback::new(move |()| is_open.set(false))
                />
            </Show>
        </li>
    }
}

/// Load, reps and effort of a logged set, as they should have been.
#[component]
fn AmendSet(
    index: usize,
    set: usize,
    exercise: Option<Exercise>,
    on_done: Callback<()>,
) -> impl IntoView {
    use crate::parts::TypedField;
    use weekloom_engine::units::Load;
    let app = App::here();
    let found = app.session.with_untracked(|s| {
        s.as_ref()
            .and_then(|s| s.items.get(index))
            .and_then(|i| i.sets.get(set).copied())
    });
    let Some(entry) = found else {
        return ().into_any();
    };
    let is_loaded = exercise.as_ref().is_none_or(Exercise::is_loaded);
    let is_timed = exercise
        .as_ref()
        .is_some_and(|e| e.measure == Measure::Seconds);
    let bound = if is_timed {
        bounds::HOLD_S
    } else {
        bounds::REPS
    };
    let load = RwSignal::new(entry.load);
    let count = RwSignal::new(entry.count);
    let load_error = RwSignal::new(None::<String>);
    let count_error = RwSignal::new(None::<String>);
    let keep = move |_| {
        if load_error.get_untracked().is_some() || count_error.get_untracked().is_some() {
            return;
        }
        let event = Event::AmendSet {
            item: index,
            set,
            load: load.get_untracked(),
            count: count.get_untracked(),
            rir: entry.rir,
            kind: entry.kind,
        };
        match app.act(&event) {
            Ok(()) => on_done.run(()),
            Err(words) => app.tell(words),
        }
    };
    let remove = move |_| {
        match app.act(&Event::RemoveSet { item: index, set }) {
            Ok(()) => on_done.run(()),
            Err(words) => app.tell(words),
        };
    };
    view! {
        <div class="fields">
            {is_loaded
                .then(|| {
                    view! {
                        <TypedField
                            label=words::LOAD
                            id=format!("amend-load-{index}-{set}")
                            value=Signal::derive(move || load.get().show(app.unit()))
                            error=load_error
                            unit=Signal::derive(move || Some(app.unit().symbol().to_owned()))
                            on_typed=Callback::new(move |text: String| {
                                match Load::parse(&text, app.unit()) {
                                    Ok(value) => {
                                        load_error.set(None);
                                        load.set(value);
                                    }
                                    Err(refused) => load_error.set(Some(errors::number(&refused))),
                                }
                            })
                        />
                    }
                })}
            <TypedField
                label=if is_timed { words::SECONDS } else { words::REPS }
                id=format!("amend-count-{index}-{set}")
                value=Signal::derive(move || count.get().to_string())
                error=count_error
                on_typed=Callback::new(move |text: String| match parse_whole(&text, bound) {
                    Ok(value) => {
                        count_error.set(None);
                        count.set(u16::try_from(value).unwrap_or(1));
                    }
                    Err(refused) => count_error.set(Some(errors::number(&refused))),
                })
            />
        </div>
        <div class="row">
            <button type="button" class="button" on:click=keep>
                {words::KEEP}
            </button>
            <button type="button" class="button button--warn" on:click=remove>
                {words::REMOVE}
            </button>
        </div>
    }
    .into_any()
}

/// Other exercises for the one that is up.
#[component]
fn Swap() -> impl IntoView {
    let app = App::here();
    let Some((index, item, exercise)) = up(app) else {
        return view! { <p>{words::ALL_DONE}</p> }.into_any();
    };
    let day = app
        .session
        .with_untracked(|s| s.as_ref().and_then(|s| s.plan_day))
        .map_or(0, usize::from);
    let options = match (app.plan.get_untracked(), app.person.get_untracked()) {
        (Some(accepted), Some(person)) => {
            alternatives(&app.catalogue(), &person, &accepted.plan, day, item.key)
        }
        _ => Vec::new(),
    };
    let choose = move |alternative: &Alternative| {
        let Some(exercise) = app.exercise(&alternative.exercise) else {
            return;
        };
        let mut prescription = app.prescription_for(&exercise);
        prescription.sets = item.prescription.sets;
        act_and_close(
            app,
            &Event::Swap {
                item: index,
                prescription,
            },
        );
    };
    let is_empty = options.is_empty();
    view! {
        <p class="soft">{exercise.name}</p>
        {is_empty.then(|| view! { <p>{words::NO_SWAP}</p> })}
        <ul class="lines">
            {options
                .into_iter()
                .map(|option| {
                    let more = reasons::difference(&option.difference);
                    let name = app.name_of(&option.exercise);
                    view! {
                        <li>
                            <button type="button" class="line" on:click=move |_| choose(&option)>
                                <span class="line__name">{name}</span>
                                <span class="line__more">{more}</span>
                            </button>
                        </li>
                    }
                })
                .collect_view()}
        </ul>
    }
    .into_any()
}

/// Plates for the load in hand, and the climb to it.
#[component]
fn LoadUp() -> impl IntoView {
    let app = App::here();
    let Some((index, item, exercise)) = up(app) else {
        return view! { <p>{words::ALL_DONE}</p> }.into_any();
    };
    let Some(ladder) = Ladder::of(&exercise, &app.kit()) else {
        return view! { <p>{words::NO_WARM_UP}</p> }.into_any();
    };
    let unit = app.unit_now();
    let suggestion = app.suggestion(&item.prescription, &exercise);
    let load = app
        .draft_for(index, item.work_sets_done())
        .map(|(load, _, _)| load)
        .or(suggestion.load)
        .unwrap_or_else(|| ladder.easiest());
    let on_bar = match ladder.placement() {
        Placement::NoPlates => None,
        placement => Some(ladder.plates_for(load).map_or_else(
            || words::NOT_MAKEABLE.to_owned(),
            |list| reasons::plates(&list, placement == Placement::EachSide, unit),
        )),
    };
    let climb = warm_up(load, &ladder, &exercise);
    view! {
        <p class="figure">{reasons::load_of(load, &exercise, unit)}</p>
        {on_bar
            .map(|text| {
                view! {
                    <div>
                        <h3>{words::PLATES_NOW}</h3>
                        <p>{text}</p>
                    </div>
                }
            })}
        <div>
            <h3>{words::WARM_UP_FIRST}</h3>
            {climb.is_empty().then(|| view! { <p>{words::NO_WARM_UP}</p> })}
            <ol class="lines">
                {climb
                    .iter()
                    .map(|set| {
                        let load = reasons::load_of(set.load, &exercise, unit);
                        let on_bar = ladder
                            .plates_for(set.load)
                            .map(|list| {
                                reasons::plates(
                                    &list,
                                    ladder.placement() == Placement::EachSide,
                                    unit,
                                )
                            });
                        view! {
                            <li class="line">
                                <span class="line__name">
                                    {words::warm_up_set(&load, set.reps)}
                                </span>
                                <span class="line__more">{on_bar}</span>
                            </li>
                        }
                    })
                    .collect_view()}
            </ol>
        </div>
    }
    .into_any()
}

/// Discomfort, note, pause, finish.
#[component]
fn More() -> impl IntoView {
    let app = App::here();
    let is_paused = Memo::new(move |_| {
        app.session.with(|s| {
            s.as_ref()
                .is_some_and(|s| matches!(s.phase, Phase::Paused { .. }))
        })
    });
    let has_sets = Memo::new(move |_| {
        app.session
            .with(|s| s.as_ref().is_some_and(|s| s.last_set().is_some()))
    });
    view! {
        {up(app).map(|(index, _, exercise)| view! { <AboutExercise index exercise /> })}
        <div class="row row--halves">
            {move || {
                let (name, event) = if is_paused.get() {
                    (words::RESUME, Event::Resume)
                } else {
                    (words::PAUSE, Event::Pause)
                };
                view! {
                    <button
                        type="button"
                        class="button"
                        on:click=move |_| act_and_close(app, &event)
                    >
                        {name}
                    </button>
                }
            }}
            {move || {
                if has_sets.get() {
                    view! {
                        <button
                            type="button"
                            class="button"
                            on:click=move |_| {
                                if is_paused.get_untracked() {
                                    let _ = app.act(&Event::Resume);
                                }
                                act_and_close(app, &Event::Finish);
                            }
                        >
                            {words::FINISH_EARLY}
                        </button>
                    }
                        .into_any()
                } else {
                    view! {
                        <button
                            type="button"
                            class="button button--warn"
                            on:click=move |_| {
                                app.discard_session();
                                route::replace(&Route::Today);
                            }
                        >
                            {words::DISCARD}
                        </button>
                    }
                        .into_any()
                }
            }}
        </div>
    }
}

/// How the exercise that is up feels, and a note on it.
#[component]
fn AboutExercise(index: usize, exercise: Exercise) -> impl IntoView {
    let app = App::here();
    let item = Memo::new(move |_| {
        app.session.with(|s| {
            s.as_ref()
                .and_then(|s: &Session| s.items.get(index).cloned())
        })
    });
    let noted = move || item.get().and_then(|i| i.discomfort);
    let options = vec![
        Choice::plain("no", words::HURTS_NOT),
        Choice::plain(Discomfort::Mild.slug(), words::HURTS_MILD),
        Choice::plain(Discomfort::Painful.slug(), words::HURTS_PAINFUL),
    ];
    view! {
        <h3>{exercise.name}</h3>
        <ChoiceGroup
            legend=words::HURTS
            name="discomfort"
            options=Signal::stored(options)
            chosen=Signal::derive(move || {
                noted().map_or_else(|| "no".to_owned(), |d| d.slug().to_owned())
            })
            on_choose=Callback::new(move |value: String| {
                let event = Event::Discomfort {
                    item: index,
                    discomfort: Discomfort::from_slug(&value),
                };
                if let Err(words) = app.act(&event) {
                    app.tell(words);
                }
            })
            chips=true
        />
        {move || {
            noted()
                .map(|d| match d {
                    Discomfort::Mild => view! { <p role="status">{words::HURTS_MILD_ADVICE}</p> }.into_any(),
                    Discomfort::Painful => {
                        view! {
                            <div class="banner banner--warn" role="status">
                                <p>{words::HURTS_ADVICE}</p>
                                <div class="row">
                                    <button
                                        type="button"
                                        class="button"
                                        on:click=move |_| route::replace(
                                            &Route::TodaySheet(TodaySheet::Swap),
                                        )
                                    >
                                        {words::SWAP}
                                    </button>
                                    <button
                                        type="button"
                                        class="button"
                                        on:click=move |_| act_and_close(
                                            app,
                                            &Event::Skip { item: index },
                                        )
                                    >
                                        {words::SKIP_EXERCISE}
                                    </button>
                                </div>
                            </div>
                        }
                            .into_any()
                    }
                })
        }}
        <div class="field">
            <label class="field__label" for="note">
                {words::NOTE}
            </label>
            <textarea
                class="input"
                id="note"
                rows="2"
                maxlength="500"
                prop:value=move || item.get().map(|i| i.note).unwrap_or_default()
                on:change=move |event| {
                    let event = Event::Note {
                        item: index,
                        text: event_target_value(&event),
                    };
                    if let Err(words) = app.act(&event) {
                        app.tell(words);
                    }
                }
            ></textarea>
        </div>
    }
}
