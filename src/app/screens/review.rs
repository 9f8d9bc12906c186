//! What the last weeks show: what rose, what stands still and perhaps why, what
//! hurt, and the weekly sets done beside those planned.

use super::next_block::{next_link, this_block};
use super::{card, list, page, page_head_under, soft, soft_small};
use crate::markup::{Tag, View, button, link, tag};
use crate::parts::{line, line_more};
use crate::route::Route;
use crate::state::App;
use crate::text::{dates, reasons, review as told, terms, words};
use leptos::prelude::window;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::HalfSets;
use weekloom_engine::estimate::Confidence;
use weekloom_engine::review::{Finding, Judgement, Logs, Planned, Review, average_sets, review};

/// Days looked back on: a block of the usual length, and comparable thirds of it.
const DAYS: i32 = 12 * 7;

/// The review, made when it is opened: nothing of it is kept.
pub fn last_weeks() -> View {
    let app = App::here();
    let head = page_head_under(&Route::Log, words::REVIEW);
    match look_through(app, from(app), app.today.get_untracked()) {
        Some(found) => page(head.with(soft(words::REVIEW_MORE)))
            .with(this_block(app))
            .with(facts(app, &found))
            .with(findings(app, &found))
            .with((!app.is_reading()).then(next_link))
            .with(weekly_sets(&found))
            .with(soft_small(words::REVIEW_HOW))
            .with(button("button button--wide", words::PRINT, || {
                // A browser that cannot print does nothing, as from its own menu.
                let _ = window().print();
            })),
        None => page(head)
            .with(tag("p", "").with(words::LOG_EMPTY))
            .with(this_block(app))
            .with((!app.is_reading()).then(next_link)),
    }
    .into()
}

/// The first day looked back on.
pub fn from(app: App) -> Day {
    app.today.get_untracked().plus(-DAYS)
}

/// The review of the days from one to another; `None` without a session in them.
pub fn look_through(app: App, from: Day, until: Day) -> Option<Review> {
    let (mut sessions, is_whole) = app.ask(|store| store.sessions_since(from));
    sessions.retain(|session| session.day <= until);
    if sessions.is_empty() {
        return None;
    }
    app.person.with_untracked(|person| {
        app.plan.with_untracked(|accepted| {
            Some(review(&Logs {
                catalogue: app.catalogue(),
                person: person.as_ref()?,
                sessions: &sessions,
                weights: &app.weights(),
                is_whole,
                planned: accepted.as_ref().map(|accepted| Planned {
                    plan: &accepted.plan,
                    accepted: accepted.accepted,
                    weekdays: &accepted.weekdays,
                    repairs: &accepted.repairs,
                }),
                from,
                today: until,
            }))
        })
    })
}

fn facts(app: App, found: &Review) -> Tag {
    let mut lines = Vec::new();
    match found.adherence {
        Some((done, planned)) => lines.push(words::sessions_of(done, planned)),
        None => lines.push(words::sessions_count(found.sessions)),
    }
    lines.push(words::sets_done_of(found.sets.0, found.sets.1));
    lines.extend(found.effort_tenths.map(told::effort));
    lines.extend(
        found
            .rest
            .map(|(taken, asked)| words::rest_taken(taken, asked)),
    );
    let from = dates::date(found.from, app.today.get_untracked());
    card(words::since(&from)).with(list(lines))
}

fn findings(app: App, found: &Review) -> Vec<View> {
    let shown = card(words::WHAT_CAN_BE_SAID);
    if found.is_thin {
        return vec![shown.with(tag("p", "").with(words::NOT_ENOUGH)).into()];
    }
    let (mut open, mut rose) = (Vec::new(), Vec::new());
    for one in &found.findings {
        let name = one.exercise().map(|id| app.name_of(id)).unwrap_or_default();
        if let Finding::Rose {
            exercise,
            judgement,
            ..
        } = one
        {
            let to = Route::Exercise(exercise.to_string()).hash();
            rose.push((link("", to, name), judgement));
            continue;
        }
        let (what, mut why) = told::finding(one, &name, found.today);
        let more = why.split_off(1.min(why.len()));
        let mut line = line(what, why.pop().unwrap_or_default());
        for why in more {
            line = line.with(line_more(why));
        }
        open.push(line);
    }
    let shown = if open.is_empty() {
        shown.with(tag("p", "").with(words::NOTHING_STANDS_OUT))
    } else {
        shown.with(open.into_iter().fold(tag("ul", "lines"), Tag::with))
    };
    let mut cards = vec![shown.into()];
    if !rose.is_empty() {
        cards.push(what_rose(rose).into());
    }
    cards
}

/// Exercises that rose, most first, each beside what would still be scatter.
fn what_rose(rose: Vec<(Tag, &Judgement)>) -> Tag {
    let mut body = tag("tbody", "");
    for (name, judgement) in rose {
        let is_thin = judgement.confidence == Confidence::Low;
        let thin = is_thin.then(|| tag("span", "soft small").with(words::THIN));
        let cell = tag("th", "").attr("scope", "row").with(name).with(thin);
        body = body.with(
            tag("tr", "")
                .with(cell)
                .with(tag("td", "").with(told::change(judgement.permille)))
                .with(tag("td", "").with(told::scatter(judgement.detectable))),
        );
    }
    card(words::ROSE)
        .with(table(
            [words::EXERCISE, words::CHANGE, words::SCATTER],
            body,
        ))
        .with(soft_small(words::ROSE_MORE))
}

/// Figures under three heads.
pub fn table(heads: [&'static str; 3], body: Tag) -> Tag {
    let mut row = tag("tr", "");
    for head in heads {
        row = row.with(tag("th", "").attr("scope", "col").with(head));
    }
    tag("table", "figures")
        .with(tag("thead", "").with(row))
        .with(body)
}

/// Half sets as a cell; a dash where there is no whole week yet.
fn cell(sets: Option<HalfSets>) -> Tag {
    tag("td", "").with(sets.map_or_else(|| "\u{2013}".to_owned(), reasons::half_sets))
}

fn weekly_sets(found: &Review) -> Tag {
    let mut body = tag("tbody", "");
    for (&muscle, &planned) in found.planned.iter() {
        let name = tag("th", "")
            .attr("scope", "row")
            .with(terms::muscle(muscle));
        body = body.with(
            tag("tr", "")
                .with(name)
                .with(cell(average_sets(&found.weeks, muscle)))
                .with(cell(Some(planned))),
        );
    }
    card(words::SETS_BY_MUSCLE)
        .with(table(
            [words::IN_A_WEEK, words::DONE_SETS, words::PLANNED],
            body,
        ))
        .with(soft_small(words::SETS_BY_MUSCLE_MORE))
}
