//! The days of the plan with their exercises, and the week's sets per muscle.

use crate::markup::{Tag, View, link, live, tag};
use crate::parts::line_link;
use crate::route::Route;
use crate::screens::{list, page, page_head, soft_live, soft_small};
use crate::state::App;
use crate::text::{dates, reasons, terms, words};
use weekloom_engine::audit::audit;
use weekloom_engine::catalogue::Measure;
use weekloom_engine::plan::{PlanDay, PlanItem};

/// The whole plan.
pub fn week() -> View {
    let app = App::here();
    let split_name = soft_live(move || {
        app.plan
            .with(|plan| plan.as_ref().map(|p| terms::split(p.plan.split.as_str()).0))
    });
    let days = live(move || {
        app.plan.with(|plan| {
            let days = plan.as_ref().map_or(&[][..], |p| &p.plan.days);
            let day = |(index, day)| plan_day(app, index, day).into();
            days.iter().enumerate().map(day).collect::<Vec<View>>()
        })
    });
    page(page_head(words::YOUR_WEEK).with(split_name))
        .with(link(
            "button button--wide",
            Route::PlanShape.hash(),
            words::SHAPE,
        ))
        .with(days)
        .with(checked(app))
        .with(live(move || not_met(app)))
        .into()
}

/// A card in the background.
fn quiet_card(title: &'static str) -> Tag {
    tag("section", "card card--quiet").with(tag("h2", "").with(title))
}

/// What could not be had, if anything.
fn not_met(app: App) -> Option<Tag> {
    let mut notes = Vec::new();
    app.plan.with(|plan| {
        for note in plan.iter().flat_map(|p| &p.plan.notes) {
            if reasons::is_only_noted(note) {
                notes.push(reasons::plan_note(note));
            }
        }
    });
    (!notes.is_empty()).then(|| quiet_card(words::NOT_MET).with(list(notes)))
}

/// Whether an exercise is done in turn with the one after or before it.
fn partner(day: &PlanDay, at: usize) -> &'static str {
    let group = day.items[at].superset;
    let is_with =
        |other: Option<&PlanItem>| group.is_some() && other.is_some_and(|o| o.superset == group);
    if is_with(day.items.get(at + 1)) {
        words::WITH_NEXT
    } else if is_with(at.checked_sub(1).and_then(|before| day.items.get(before))) {
        words::WITH_LAST
    } else {
        ""
    }
}

fn plan_day(app: App, index: usize, day: &PlanDay) -> Tag {
    let key = u8::try_from(index).unwrap_or(u8::MAX);
    let mut lines = tag("ol", "lines");
    for (at, item) in day.items.iter().enumerate() {
        lines = lines.with(plan_line(app, key, item, partner(day, at)));
    }
    let title = format!("{}. {}", index + 1, terms::focus(day.focus));
    let head = tag("div", "row row--apart")
        .with(tag("h2", "").with(title))
        .with(tag("span", "soft").with(dates::minutes(day.seconds)));
    let add = link("button button--plain", Route::PlanAdd(key).hash(), "+ ");
    tag("section", "card")
        .with(head)
        .with(lines)
        .with(tag("div", "row").with(add.with(words::ADD_EXERCISE)))
}

/// The audit of the plan as it stands, edits included.
fn checked(app: App) -> Tag {
    let findings = move || {
        app.plan.with(|plan| {
            app.person.with(|person| {
                let (Some(accepted), Some(person)) = (plan, person) else {
                    return Vec::new();
                };
                audit(app.catalogue(), person, &accepted.plan)
                    .findings
                    .iter()
                    .map(|finding| {
                        reasons::finding(finding, |key| {
                            app.name_in(&accepted.plan, key).into_owned()
                        })
                    })
                    .collect()
            })
        })
    };
    quiet_card(words::CHECKED)
        .with(live(move || {
            let findings = findings();
            if findings.is_empty() {
                tag("p", "").with(words::NOTHING_OFF)
            } else {
                list(findings)
            }
        }))
        .with(soft_small(words::EVIDENCE_SPLIT))
}

fn plan_line(app: App, day: u8, item: &PlanItem, partner: &'static str) -> Tag {
    let prescription = &item.prescription;
    let is_timed = app
        .exercise(&prescription.exercise)
        .is_some_and(|e| e.measure == Measure::Seconds);
    let mut dose = words::sets_by_reps(
        prescription.sets,
        prescription.reps.0,
        prescription.reps.1,
        is_timed,
    );
    dose.push_str(partner);
    line_link(
        Route::PlanItem(day, item.key).hash(),
        app.name_of(&prescription.exercise),
        dose,
    )
}
