//! The first opening: four short questions, each with a sensible answer
//! already given, and a way past them.

use super::kit::Import;
use super::questions::{DaysQuestion, JointWishes, PriorityWishes, StatusQuestion};
use crate::parts::{Choice, ChoiceGroup};
use crate::state::App;
use crate::text::{terms, words};
use leptos::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use weekloom_engine::calendar::Weekday;
use weekloom_engine::person::{Person, Status};
use weekloom_engine::presets::KitPreset;
use weekloom_engine::units::Unit;
use weekloom_store::demo::Crew;

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
        priorities: BTreeMap::new(),
        excluded: BTreeSet::new(),
        disliked: BTreeSet::new(),
        joint_limits: BTreeSet::new(),
        split: None,
        unit,
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

/// The questions.
#[component]
pub fn Welcome() -> impl IntoView {
    let app = App::here();
    let step = RwSignal::new(0_usize);
    let person = RwSignal::new(usual(likely_unit()));
    let preset = RwSignal::new(KitPreset::FullGym);
    let error = RwSignal::new(None::<String>);

    let weave = move || {
        app.change_settings(|s| s.cautions_read = Some(app.today.get_untracked()));
        if let Err(words) = app.weave(person.get_untracked()) {
            error.set(Some(words));
        }
    };
    let next = move |_| {
        if person.with_untracked(|p| p.days.is_empty()) {
            error.set(Some(words::NEED_A_DAY.to_owned()));
            return;
        }
        error.set(None);
        if step.get_untracked() + 1 < STEPS {
            step.update(|s| *s += 1);
            window().scroll_to_with_x_and_y(0.0, 0.0);
        } else {
            weave();
        }
    };

    view! {
        <main class="page welcome">
            <header class="page__head">
                <p class="welcome__name">{words::NAME}</p>
                {move || (step.get() == 0).then(|| view! { <p class="soft">{words::PROMISE}</p> })}
            </header>
            {move || match step.get() {
                0 => {
                    view! {
                        <Cautions />
                        <details class="more">
                            <summary>{words::HAVE_BACKUP}</summary>
                            <div class="stack">
                                <Import />
                            </div>
                        </details>
                    }
                        .into_any()
                }
                1 => view! { <When person /> }.into_any(),
                2 => view! { <WithWhat person preset /> }.into_any(),
                _ => view! { <AboutYou person /> }.into_any(),
            }}
            {move || {
                error.get().map(|text| view! { <p class="field__error" role="alert">{text}</p> })
            }}
            <div class="welcome__go">
                <button type="button" class="button button--main button--wide" on:click=next>
                    {move || match step.get() {
                        0 => words::CAUTIONS_READ,
                        s if s + 1 == STEPS => words::WEAVE,
                        _ => words::NEXT,
                    }}
                </button>
                <div class="row row--apart">
                    {move || {
                        (step.get() > 0)
                            .then(|| {
                                view! {
                                    <button
                                        type="button"
                                        class="button button--plain"
                                        on:click=move |_| step.update(|s| *s -= 1)
                                    >
                                        {words::BACK}
                                    </button>
                                    <span class="soft small">
                                        {words::step_of(step.get(), STEPS - 1)}
                                    </span>
                                }
                            })
                    }}
                    {move || {
                        (step.get() == 1)
                            .then(|| {
                                view! {
                                    <div class="welcome__skip">
                                        <button
                                            type="button"
                                            class="button button--plain"
                                            on:click=move |_| weave()
                                        >
                                            {words::SKIP}
                                        </button>
                                        <p class="soft small">{words::SKIP_MORE}</p>
                                    </div>
                                }
                            })
                    }}
                </div>
            </div>
        </main>
    }
}

/// Whose invented logs the demo shows.
#[component]
pub fn CrewChoice() -> impl IntoView {
    let app = App::here();
    view! {
        <main class="page">
            <h1>{words::DEMO_WHO}</h1>
            <p>{words::DEMO_MORE}</p>
            <div class="stack">
                {Crew::ALL
                    .iter()
                    .map(|&member| {
                        view! {
                            <button
                                type="button"
                                class="button button--wide"
                                on:click=move |_| app.begin_demo(member)
                            >
                                {member.title()}
                            </button>
                        }
                    })
                    .collect_view()}
            </div>
        </main>
    }
}

/// Who should ask a doctor first, and when to stop.
#[component]
pub fn Cautions() -> impl IntoView {
    view! {
        <section class="stack">
            <h1>{words::CAUTIONS}</h1>
            <p>{words::CAUTIONS_GENERAL}</p>
            <p>{words::CAUTIONS_DOCTOR}</p>
            <ul class="signs">
                {words::CAUTIONS_SIGNS.iter().map(|sign| view! { <li>{*sign}</li> }).collect_view()}
            </ul>
            <p class="strong-stop">{words::CAUTIONS_STOP}</p>
            <p>{words::CAUTIONS_SPOT}</p>
        </section>
    }
}

#[component]
fn When(person: RwSignal<Person>) -> impl IntoView {
    let minutes = MINUTES
        .iter()
        .map(|m| Choice::plain(&m.to_string(), &m.to_string()))
        .collect::<Vec<_>>();
    view! {
        <section class="stack stack--wide">
            <h1>{words::WHEN}</h1>
            <DaysQuestion person />
            <ChoiceGroup
                legend=words::HOW_LONG
                name="minutes"
                options=Signal::stored(minutes)
                chosen=Signal::derive(move || person.with(|p| p.minutes.to_string()))
                on_choose=Callback::new(move |value: String| {
                    if let Ok(minutes) = value.parse() {
                        person.update(|p| p.minutes = minutes);
                    }
                })
                chips=true
            />
        </section>
    }
}

#[component]
fn WithWhat(person: RwSignal<Person>, preset: RwSignal<KitPreset>) -> impl IntoView {
    let kits = KitPreset::ALL
        .iter()
        .map(|&kit| {
            let (name, more) = terms::kit(kit);
            Choice {
                value: kit.slug().to_owned(),
                name: name.to_owned(),
                more: more.to_owned(),
            }
        })
        .collect::<Vec<_>>();
    let refit = move || {
        person.update(|p| p.kit = preset.get_untracked().kit(p.unit));
    };
    view! {
        <section class="stack stack--wide">
            <h1>{words::WITH_WHAT}</h1>
            <ChoiceGroup
                legend=words::KIT_AT_HAND
                name="kit"
                options=Signal::stored(kits)
                chosen=Signal::derive(move || preset.get().slug().to_owned())
                on_choose=Callback::new(move |value: String| {
                    if let Some(kit) = KitPreset::from_slug(&value) {
                        preset.set(kit);
                        refit();
                    }
                })
            />
            <ChoiceGroup
                legend=words::LOADS_IN
                name="unit"
                options=Signal::stored(vec![Choice::plain("kg", "kg"), Choice::plain("lb", "lb")])
                chosen=Signal::derive(move || person.with(|p| p.unit.symbol().to_owned()))
                on_choose=Callback::new(move |value: String| {
                    person.update(|p| p.unit = if value == "lb" { Unit::Lb } else { Unit::Kg });
                    refit();
                })
                chips=true
            />
        </section>
    }
}

#[component]
fn AboutYou(person: RwSignal<Person>) -> impl IntoView {
    view! {
        <section class="stack stack--wide">
            <h1>{words::ABOUT_YOU}</h1>
            <StatusQuestion person />
            <details class="more">
                <summary>{words::WISHES}</summary>
                <div class="stack stack--wide">
                    <PriorityWishes person />
                    <JointWishes person />
                </div>
            </details>
        </section>
    }
}
