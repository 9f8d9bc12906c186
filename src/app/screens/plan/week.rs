//! The days of the plan with their exercises, and the week's sets per muscle.

use crate::route::Route;
use crate::screens::PageHead;
use crate::state::App;
use crate::text::{dates, reasons, terms, words};
use leptos::prelude::*;
use weekloom_engine::audit::audit;
use weekloom_engine::catalogue::Measure;
use weekloom_engine::plan::{PlanDay, PlanItem};

/// The whole plan.
#[component]
pub fn Week() -> impl IntoView {
    let app = App::here();
    let split_name = Signal::derive(move || {
        app.plan
            .with(|plan| plan.as_ref().map(|p| terms::split(p.plan.split.as_str()).0))
    });
    let notes = move || {
        app.plan.with(|plan| {
            plan.as_ref()
                .map(|p| {
                    p.plan
                        .notes
                        .iter()
                        .filter(|note| reasons::is_only_noted(note))
                        .map(reasons::plan_note)
                        .collect::<Vec<_>>()
                })
                .unwrap_or_default()
        })
    };
    view! {
        <main class="page">
            <PageHead title=Signal::stored(words::YOUR_WEEK.to_owned()) more=split_name />
            <a class="button button--wide" href=Route::PlanShape.hash()>
                {words::SHAPE}
            </a>
            {move || {
                app.plan
                    .get()
                    .map(|accepted| {
                        accepted
                            .plan
                            .days
                            .into_iter()
                            .enumerate()
                            .map(|(index, day)| view! { <Day index day /> })
                            .collect_view()
                    })
            }}
            <Checked />
            {move || {
                let notes = notes();
                (!notes.is_empty())
                    .then(|| {
                        view! {
                            <section class="card card--quiet">
                                <h2>{words::NOT_MET}</h2>
                                <ul class="stack">
                                    {notes
                                        .into_iter()
                                        .map(|note| view! { <li>{note}</li> })
                                        .collect_view()}
                                </ul>
                            </section>
                        }
                    })
            }}
        </main>
    }
}

#[component]
fn Day(index: usize, day: PlanDay) -> impl IntoView {
    let partner = |at: usize| -> &'static str {
        let group = day.items[at].superset;
        let is_with = |other: Option<&PlanItem>| {
            group.is_some() && other.is_some_and(|o| o.superset == group)
        };
        if is_with(day.items.get(at + 1)) {
            words::WITH_NEXT
        } else if is_with(at.checked_sub(1).and_then(|before| day.items.get(before))) {
            words::WITH_LAST
        } else {
            ""
        }
    };
    let partners: Vec<&'static str> = (0..day.items.len()).map(partner).collect();
    let key = u8::try_from(index).unwrap_or(u8::MAX);
    view! {
        <section class="card">
            <div class="row row--apart">
                <h2>{format!("{}. {}", index + 1, terms::focus(day.focus))}</h2>
                <span class="soft">{dates::minutes(day.seconds)}</span>
            </div>
            <ol class="lines">
                {day
                    .items
                    .into_iter()
                    .zip(partners)
                    .map(|(item, partner)| view! { <Line day=key item partner /> })
                    .collect_view()}
            </ol>
            <div class="row">
                <a class="button button--plain" href=Route::PlanAdd(key).hash()>
                    "+ "
                    {words::ADD_EXERCISE}
                </a>
            </div>
        </section>
    }
}

/// The audit of the plan as it stands, edits included.
#[component]
fn Checked() -> impl IntoView {
    let app = App::here();
    let findings = move || {
        let (Some(accepted), Some(person)) = (app.plan.get(), app.person.get()) else {
            return Vec::new();
        };
        audit(&app.catalogue(), &person, &accepted.plan)
            .findings
            .iter()
            .map(|finding| reasons::finding(finding, |key| app.name_in(&accepted.plan, key)))
            .collect::<Vec<_>>()
    };
    view! {
        <section class="card card--quiet">
            <h2>{words::CHECKED}</h2>
            {move || {
                let findings = findings();
                if findings.is_empty() {
                    view! { <p>{words::NOTHING_OFF}</p> }.into_any()
                } else {
                    view! {
                        <ul class="stack">
                            {findings
                                .into_iter()
                                .map(|line| view! { <li>{line}</li> })
                                .collect_view()}
                        </ul>
                    }
                        .into_any()
                }
            }}
            <p class="soft small">{words::EVIDENCE_SPLIT}</p>
        </section>
    }
}

#[component]
fn Line(day: u8, item: PlanItem, partner: &'static str) -> impl IntoView {
    let app = App::here();
    let prescription = &item.prescription;
    let is_timed = app
        .exercise(&prescription.exercise)
        .is_some_and(|e| e.measure == Measure::Seconds);
    let dose = words::sets_by_reps(
        prescription.sets,
        prescription.reps.0,
        prescription.reps.1,
        is_timed,
    );
    view! {
        <li>
            <a class="line" href=Route::PlanItem(day, item.key).hash()>
                <span class="line__name">{app.name_of(&prescription.exercise)}</span>
                <span class="line__more">
                    {dose} {partner}
                </span>
                <span class="line__end" aria-hidden="true">"\u{203a}"</span>
            </a>
        </li>
    }
}
