//! The set that is up: last time, the suggestion and why, load and reps,
//! effort, and the button that logs it.

use super::hold::Hold;
use super::running::{MAIN, foot, to_sheet};
use crate::effects::sound;
use crate::held::{Held, effect};
use crate::markup::{LiveText, Tag, View, button, live, nothing, tag};
use crate::parts::{Stepper, Turn};
use crate::route::TodaySheet;
use crate::screens::{numbers_link, soft_small};
use crate::state::App;
use crate::text::language::{number, tr};
use crate::text::{errors, reasons, terms, words};
use std::rc::Rc;
use weekloom_engine::bounds;
use weekloom_engine::catalogue::{Exercise, Loading, Measure, Sides};
use weekloom_engine::load::Ladder;
use weekloom_engine::log::SetKind;
use weekloom_engine::progress::{Reason, Suggestion};
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
    load: Held<Load>,
    count: Held<u16>,
    rir: Held<Option<u8>>,
    load_error: Held<Option<String>>,
    count_error: Held<Option<String>>,
}

/// The set of an item, the so-many-th (from nought).
pub fn set_up(item: usize, set: usize) -> View {
    let app = App::here();
    let found = app
        .session
        .with_untracked(|s| s.as_ref().and_then(|s| s.items.get(item).cloned()));
    let Some(present) = found else {
        return nothing();
    };
    match app.exercise(&present.prescription.exercise) {
        Some(exercise) => known_set(app, (item, set), &present, exercise),
        None => tag("p", "").with(words::UNKNOWN_EXERCISE).into(),
    }
}

fn known_set(
    app: App,
    (item, set): (usize, usize),
    present: &SessionItem,
    exercise: &'static Exercise,
) -> View {
    let ladder = Ladder::of(exercise, &app.kit());
    let suggestion = app.suggestion(&present.prescription, exercise);
    let start = app.opening_numbers(present, ladder.as_ref(), &suggestion);
    let draft = app.draft_for(item, set).unwrap_or((start.0, start.1, None));
    let hand = InHand {
        load: Held::new(draft.0),
        count: Held::new(draft.1),
        rir: Held::new(draft.2),
        load_error: Held::new(None),
        count_error: Held::new(None),
    };
    effect(move || {
        app.keep_draft(item, set, hand.load.get(), hand.count.get(), hand.rir.get());
    });

    let target = suggestion.target();
    let is_first_work_set = present.work_sets_done() == 0;
    let log = move || {
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

    let is_timed = exercise.measure == Measure::Seconds;
    let is_loaded = ladder.is_some();
    let planned = usize::from(present.prescription.sets);
    let count = words::set_of(set + 1, planned.max(set + 1));
    let head = tag("div", "set__head")
        .with(tag("h2", "set__name").with(terms::exercise(exercise)))
        .with(soft_small(count));
    let partner = app
        .superset_partner(item)
        .map(|name| soft_small(format!("{} {name}", tr(words::IN_TURN_WITH))));
    let steps = ladder.map(|ladder| load_stepper(app, hand, ladder, exercise));
    let load_up = is_loaded.then(|| {
        let name = match exercise.loading {
            Loading::Barbell => words::LOAD_UP,
            _ => words::WARM_UP,
        };
        to_sheet("button", name, TodaySheet::Load)
    });
    let ways = tag("div", "row row--thirds")
        .with(to_sheet("button", words::SWAP, TodaySheet::Swap))
        .with(load_up)
        .with(hurts_button(app, item));
    let hold = is_timed.then(|| Hold::new(app, (item, set), hand.count));
    let is_climb = matches!(suggestion.reason, Reason::FirstClimb) && is_loaded;
    // Without it a climb stays where it is.
    let asked = if is_climb {
        words::EFFORT_CLIMB
    } else {
        words::EFFORT
    };
    let section = tag("section", "set")
        .with(head)
        .with(partner)
        .with(last_time(app, exercise))
        .with(suggested(app, &suggestion, exercise))
        .with(steps)
        .with(count_stepper(hand, is_timed, exercise.sides))
        .with(hold.map(Hold::shown))
        .with((!is_timed).then(|| effort(hand.rir, asked)))
        .with(ways);
    let name = move || -> View {
        let load = is_loaded.then(|| hand.load.get());
        reasons::log_button(load, hand.count.get(), exercise, app.unit()).into()
    };
    let log = match hold {
        None => button(MAIN, live(name), log),
        // The wide button ends the hold: it is found without looking.
        Some(hold) => button(
            MAIN,
            live(move || {
                if hold.is_on() {
                    tr(words::HOLD_STOP).into()
                } else {
                    name()
                }
            }),
            move || if hold.is_on() { hold.stop() } else { log() },
        ),
    };
    vec![section.into(), foot(app, log)].into()
}

fn last_time(app: App, exercise: &Exercise) -> Tag {
    let last = app.last_in_words(&exercise.id).unwrap_or_else(|| {
        let never = if exercise.is_loaded() {
            words::NEVER
        } else {
            words::NOT_YET
        };
        tr(never).to_owned()
    });
    let fact = tag("div", "")
        .with(tag("dt", "").with(words::LAST_TIME))
        .with(tag("dd", "").with(last));
    tag("dl", "set__facts").with(fact)
}

/// The aim of the set; it opens its reasons.
fn suggested(app: App, suggestion: &Suggestion, exercise: &'static Exercise) -> Tag {
    let unit = app.unit_now();
    let summary = tag("summary", "")
        .with(tag("span", "set__term").with(words::SUGGESTED))
        .with(tag("strong", "set__aim").with(reasons::aim(suggestion, exercise, unit)))
        .with(tag("span", "set__ask").with(words::WHY));
    let mut why = tag("div", "stack small");
    for line in reasons::why(suggestion, unit, app.today.get_untracked()) {
        why = why.with(tag("p", "").with(line));
    }
    let sides = (exercise.sides == Sides::Each).then(|| tag("p", "").with(words::SIDES));
    let why = why
        .with(sides)
        .with(tag("p", "cue").with(terms::cue(exercise)))
        .with(tag("p", "caution").with(terms::caution(exercise)))
        .with(numbers_link());
    // What was asked of one set is not asked of the next.
    tag("details", "set__why").folded().with(summary).with(why)
}

fn load_stepper(app: App, hand: InHand, ladder: Ladder, exercise: &Exercise) -> Stepper {
    let turn = move |turn: Turn| {
        hand.load_error.set(None);
        let now = hand.load.get_untracked();
        let next = match turn {
            Turn::Less => ladder.next_below(now),
            Turn::More => ladder.next_above(now),
        };
        if let Some(load) = next {
            hand.load.set(load);
        }
    };
    let typed = move |text: String| match Load::parse(&text, app.unit_now()) {
        Ok(load) => {
            hand.load_error.set(None);
            hand.load.set(load);
        }
        Err(refused) => hand.load_error.set(Some(errors::number(&refused))),
    };
    let value: LiveText = Box::new(move || number(&hand.load.get().show(app.unit())).into());
    Stepper {
        label: match exercise.loading {
            Loading::Assisted => words::HELP,
            _ => words::LOAD,
        },
        id: "load",
        value,
        unit: app.unit_symbol().into(),
        error: hand.load_error,
        on_turn: Rc::new(turn),
        on_typed: Box::new(typed),
        is_small: false,
    }
}

fn count_stepper(hand: InHand, is_timed: bool, sides: Sides) -> Stepper {
    let (bound, step) = if is_timed {
        (bounds::HOLD_S, HOLD_STEP)
    } else {
        (bounds::REPS, 1)
    };
    let set = move |count: i64| {
        hand.count_error.set(None);
        hand.count.set(u16::try_from(count).unwrap_or(1));
    };
    let turn = move |turn: Turn| {
        let now = i64::from(hand.count.get_untracked());
        set(bound.clamp(now + turn.by(step)));
    };
    let typed = move |text: String| match parse_whole(&text, bound) {
        Ok(count) => set(count),
        Err(refused) => hand.count_error.set(Some(errors::number(&refused))),
    };
    Stepper {
        label: match (is_timed, sides) {
            (true, Sides::Both) => words::SECONDS,
            (true, Sides::Each) => words::SECONDS_EACH,
            (false, Sides::Both) => words::REPS,
            (false, Sides::Each) => words::REPS_EACH,
        },
        id: "count",
        value: Box::new(move || hand.count.get().to_string().into()),
        unit: if is_timed { words::S } else { "" }.into(),
        error: hand.count_error,
        on_turn: Rc::new(turn),
        on_typed: Box::new(typed),
        is_small: false,
    }
}

/// Effort in one optional tap; a second tap takes it back.
/// Reps left, to be said or not.
pub fn effort(said: Held<Option<u8>>, asked: &'static str) -> Tag {
    let mut chips = tag("div", "chips");
    for rir in EFFORTS {
        let choose = move || {
            said.update(|chosen| {
                *chosen = (*chosen != Some(rir)).then_some(rir);
            });
        };
        let is_chosen = move || {
            let pressed = if said.get() == Some(rir) {
                "true"
            } else {
                "false"
            };
            Some(pressed.into())
        };
        let chip = button("chip chip--grow", words::effort_short(rir), choose)
            .live("aria-pressed", is_chosen)
            .attr("aria-label", words::effort(rir));
        chips = chips.with(chip);
    }
    tag("fieldset", "group effort")
        .with(tag("legend", "stepper__label").with(asked))
        .with(chips)
}

fn hurts_button(app: App, item: usize) -> Tag {
    let is_noted = move || {
        app.session.with(|s| {
            s.as_ref()
                .and_then(|s| s.items.get(item))
                .is_some_and(|i| i.discomfort.is_some())
        })
    };
    to_sheet("", words::HURTS, TodaySheet::More).class_if(is_noted, "button button--warn", "button")
}
