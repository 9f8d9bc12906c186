//! Out of time: what is still worth doing in the minutes that are left.

use crate::effects::clock;
use crate::held::Held;
use crate::markup::{Tag, View, button, either, live, tag};
use crate::parts::{Stepper, Turn};
use crate::route;
use crate::screens::{list, soft, soft_small};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{course, errors, words};
use std::rc::Rc;
use weekloom_engine::bounds::MINUTES_LEFT;
use weekloom_engine::session::{Session, Within};
use weekloom_engine::units::parse_whole;

/// One tap of the stepper, minutes.
const STEP: i64 = 5;
/// What is asked first, minutes.
const FIRST: i64 = 20;

/// A door, and behind it the question how many minutes are left.
pub(super) fn short_of_time(app: App) -> View {
    let is_open = Held::new(false);
    let door = move || {
        button("button button--wide", words::SHORT_OF_TIME, move || {
            is_open.set(true);
        })
        .into()
    };
    either(
        move || is_open.get(),
        move || asked(app, is_open).into(),
        door,
    )
}

fn asked(app: App, is_open: Held<bool>) -> Tag {
    let minutes = Held::new(FIRST);
    let error = Held::new(None);
    let stepper = Stepper {
        label: words::MINUTES_LEFT,
        id: "minutes-left",
        value: Box::new(move || minutes.get().to_string().into()),
        unit: tr(words::MIN).into(),
        error,
        on_turn: Rc::new(move |turn: Turn| {
            error.set(None);
            minutes.set(MINUTES_LEFT.clamp(minutes.get_untracked() + turn.by(STEP)));
        }),
        on_typed: Box::new(move |text: String| match parse_whole(&text, MINUTES_LEFT) {
            Ok(value) => {
                error.set(None);
                minutes.set(value);
            }
            Err(refused) => error.set(Some(errors::number(&refused))),
        }),
        is_small: true,
    };
    let outcome = live(move || {
        let left = u16::try_from(minutes.get()).unwrap_or(0);
        app.session
            .with(|s| s.as_ref().map(|s| outcome(app, s, left)))
    });
    tag("section", "card stack")
        .with(tag("h3", "").with(words::SHORT_OF_TIME))
        .with(View::from(stepper))
        .with(outcome)
        .with(button("button button--plain", words::CANCEL, move || {
            is_open.set(false);
        }))
}

/// What fits, what is let go, and the choice.
fn outcome(app: App, session: &Session, minutes: u16) -> Tag {
    let now = clock::now();
    let all = session.seconds_left(app.catalogue(), now);
    let told = tag("div", "stack").attr("role", "status");
    if all <= u32::from(minutes) * 60 {
        return told.with(soft(words::all_fits(all.div_ceil(60))));
    }
    let within = app.person.with_untracked(|person| {
        let person = person.as_ref()?;
        Some(app.plan.with_untracked(|accepted| {
            let plan = accepted.as_ref().map(|accepted| &accepted.plan);
            session.within(app.catalogue(), person, plan, minutes, now)
        }))
    });
    let Some(within) = within else {
        return told;
    };
    let events = within.events(session, now);
    let accept = button(
        "button button--main button--wide",
        words::SHORT_ACCEPT,
        move || match app.act_all(&events) {
            Ok(()) => route::back(),
            Err(words) => app.tell(words),
        },
    );
    let week = (!within.hurry.week.is_empty())
        .then(|| soft_small(words::week_then(&course::changes(&within.hurry.week))));
    told.with(soft(words::all_needs(
        all.div_ceil(60),
        within.hurry.seconds.div_ceil(60),
    )))
    .with(list(changes(app, session, &within)))
    .with(week)
    .with(accept)
}

/// What becomes different, a line for each thing.
fn changes(app: App, session: &Session, within: &Within) -> Vec<String> {
    let name = |item: usize| {
        session
            .items
            .get(item)
            .map(|item| app.name_of(&item.prescription.exercise).into_owned())
            .unwrap_or_default()
    };
    let mut lines = Vec::new();
    for (item, sets) in within.let_go(session) {
        let left = session.items.get(item).map_or(0, |i| i.work_sets_left());
        lines.push(if sets >= left {
            words::left_out(&name(item))
        } else {
            words::sets_fewer(&name(item), sets)
        });
    }
    for &(a, b) in &within.hurry.pairs {
        if let (Some(&a), Some(&b)) = (within.items.get(a), within.items.get(b)) {
            lines.push(words::pair_in_turn(&name(a), &name(b)));
        }
    }
    let is_shorter = within
        .items
        .iter()
        .zip(&within.hurry.rests)
        .any(|(&item, &rest)| {
            session
                .items
                .get(item)
                .is_some_and(|item| rest < item.prescription.rest_s)
        });
    if is_shorter {
        lines.push(tr(words::RESTS_SHORTER).to_owned());
    }
    lines
}
