//! The plan handed on: as a code to scan, a link and a file; and one taken from
//! somebody else, looked at before it is taken up.
//!
//! Start at [`hand`] and [`taken`]. Nothing leaves the device by itself, and
//! nothing that came is kept before the person says so.

use crate::effects::share::{self, Ended, Shared};
use crate::effects::{clipboard, file};
use crate::held::{Held, later};
use crate::markup::{Tag, View, button, drawn, tag};
use crate::parts::{file_choice, labelled, loom_of, refusal, select_all};
use crate::route::{self, Route};
use crate::screens::{card, is_running, list, page, page_head_under, soft, soft_small};
use crate::state::App;
use crate::text::language::{number, tr};
use crate::text::{dates, errors, reasons, terms, words};
use leptos::prelude::window;
use std::fmt::Write as _;
use weekloom_engine::audit::audit;
use weekloom_engine::catalogue::own::is_own;
use weekloom_engine::catalogue::{Catalogue, ExerciseId, Measure};
use weekloom_engine::loom::loom;
use weekloom_engine::person::Person;
use weekloom_engine::plan::{Plan, Split, split};
use weekloom_store::handover::{self, Code, LINK, MOST_CHARS, Offer};
use weekloom_store::{Changes, OwnExercises};

/// Width of a code on a phone held upright, millimetres: what is left of the
/// usual 65 beside the margins.
const CODE_MM: u32 = 58;

/// Ways to hand the plan on, and to take one.
pub fn hand() -> View {
    let app = App::here();
    let shown = page(page_head_under(&Route::Plan, words::HAND_ON));
    let text = app.plan.with_untracked(|accepted| {
        let accepted = accepted.as_ref()?;
        Offer::of(&accepted.plan, &accepted.weekdays, app.catalogue()).write()
    });
    let shown = shown.with(soft(words::HAND_ON_MORE));
    let shown = match text {
        Some(text) => shown.with(give(app, &text)),
        None => shown.with(card(words::TOO_LARGE).with(tag("p", "").with(words::TOO_LARGE_MORE))),
    };
    shown.with(take_one(app)).into()
}

/// The address of this page without what comes after the `#`.
fn address() -> String {
    let location = window().location();
    let origin = location.origin().unwrap_or_default();
    origin + &location.pathname().unwrap_or_default()
}

fn give(app: App, text: &str) -> Vec<View> {
    let address = address() + LINK;
    let link = format!("{address}{text}");
    let code = match handover::code(&address, text) {
        Some(code) => {
            let hundredths = code.module_hundredths(CODE_MM);
            let size = number(&format!("{}.{:02}", hundredths / 100, hundredths % 100));
            let told = words::code_size(code.version, CODE_MM, &size);
            card(words::TO_SCAN)
                .with(tag("p", "").with(words::TO_SCAN_MORE))
                .with(picture(&code))
                .with(soft_small(told))
        }
        None => card(words::TO_SCAN).with(tag("p", "").with(words::NO_CODE)),
    };
    let field = tag("input", "input")
        .attr("type", "text")
        .attr("readonly", "")
        .attr("value", link.clone())
        .on("focus", select_all);
    let copied = link.clone();
    let copy = button("button button--wide", words::COPY_LINK, move || {
        let copied = copied.clone();
        later(async move {
            app.tell(match clipboard::copy(&copied).await {
                Ok(()) => words::COPIED,
                Err(_) => words::NOT_COPIED,
            });
        });
    });
    let shared = link.clone();
    let share = share::is_offered(&Shared::Link(&link)).then(|| {
        button("button button--wide", words::LINK_SHARE, move || {
            let shared = shared.clone();
            later(async move {
                if share::share(&Shared::Link(&shared)).await == Ended::Refused {
                    app.tell(words::NOT_SHARED);
                }
            });
        })
    });
    let save = button("button button--wide", words::ASIDE_SAVE, move || {
        let name = format!("weekloom-plan-{}.txt", app.today.get_untracked());
        // The link is all that the file needs to hold.
        match file::save(&name, "text/plain;charset=utf-8", &link) {
            Ok(()) => app.tell(name),
            Err(_) => app.tell(words::NOT_SAVED),
        }
    });
    let as_link = card(words::AS_LINK)
        .with(labelled("plan-link", words::PLAN_LINK, field))
        .with(share)
        .with(copy)
        .with(save)
        .with(soft_small(words::AS_LINK_MORE));
    vec![code.into(), as_link.into()]
}

/// Dark on light in either theme: a camera wants it so.
fn picture(code: &Code) -> Tag {
    let side = code.side + 2 * handover::BARE;
    let mut path = String::new();
    for (y, row) in (handover::BARE..).zip(&code.rows) {
        let mut x = 0;
        while let Some(&is_dark) = row.get(x) {
            let run = row[x..].iter().take_while(|&&dark| dark == is_dark).count();
            if is_dark {
                let from = x + handover::BARE as usize;
                let _ = write!(path, "M{from} {y}h{run}v1h-{run}z");
            }
            x += run;
        }
    }
    drawn("svg", "code")
        .attr("viewBox", format!("0 0 {side} {side}"))
        .attr("role", "img")
        .attr("aria-label", tr(words::CODE_OF_PLAN).to_owned())
        .with(drawn("path", "").attr("d", path))
}

/// A link that was pasted, or a file with one.
fn take_one(app: App) -> Tag {
    let refused = Held::new(None);
    let read = move |text: &str| match Offer::read(text, app.catalogue()) {
        Ok(offer) => {
            refused.set(None);
            // Read once more there: an address is a way in of its own.
            route::go(&Route::PlanTake(offer.write().unwrap_or_default()));
        }
        Err(error) => refused.set(Some(errors::other(&error))),
    };
    let field = tag("input", "input")
        .attr("type", "text")
        .attr("autocomplete", "off")
        .on_typed(move |text| {
            if !text.trim().is_empty() {
                read(&text);
            }
        });
    // A letter takes up to four bytes.
    let file = file_choice(
        words::PLAN_FROM_FILE,
        "text/plain,.txt",
        4 * MOST_CHARS,
        move |chosen| match chosen {
            Ok(text) => read(&text),
            Err(why) => refused.set(Some(tr(why).to_owned())),
        },
    );
    card(words::TAKE_ONE)
        .with(labelled("plan-paste", words::PASTE_LINK, field))
        .with(file)
        .with(refusal(refused))
}

/// A plan that came by a link, before it is taken up.
pub fn taken(text: &str) -> View {
    let app = App::here();
    let shown = page(page_head_under(&Route::PlanHand, words::PLAN_CAME));
    let Some(person) = app.person.get_untracked() else {
        return shown.into();
    };
    let offer = match Offer::read(text, app.catalogue()) {
        Ok(offer) => offer,
        Err(error) => {
            return shown
                .with(tag("p", "").with(errors::other(&error)))
                .with(soft(words::NOTHING_CHANGED))
                .into();
        }
    };
    let mut own = app.own_exercises();
    for exercise in &offer.own {
        // One of the same name is the person's own word on it.
        if !own.0.contains_key(&exercise.id) {
            own.put(exercise.clone(), app.now.get_untracked());
        }
    }
    let catalogue = own.beside(&app.catalogue().without_own());
    let plan = offer.plan(&catalogue);
    let person = with_offer(person, &offer);
    let is_strange = offer.own.len();
    let shown = shown
        .with(soft(words::PLAN_CAME_MORE))
        .with(looked_at(&catalogue, &plan, &person))
        .with((is_strange > 0).then(|| soft_small(words::own_come_along(is_strange))));
    let refused = Held::new(None);
    let accept = move || refused.set(accept(app, &person, &plan, &own).err());
    shown
        .with(soft_small(words::TAKE_CAUTION))
        .with(refusal(refused))
        .with(button(
            "button button--main button--wide",
            words::TAKE_IT,
            accept,
        ))
        .with(button("button button--wide", words::LEAVE_IT, || {
            route::replace(&Route::Plan);
        }))
        .into()
}

/// The person on the days of an offer, by its split if that is known here.
fn with_offer(person: Person, offer: &Offer) -> Person {
    let is_known = split::built_in()
        .iter()
        .any(|s: &Split| s.id == offer.split);
    Person {
        days: offer.weekdays.clone(),
        split: is_known.then(|| offer.split.clone()),
        ..person
    }
}

/// A plan to be looked at: its days, what the audit finds, and its loom.
pub fn looked_at(catalogue: &Catalogue, plan: &Plan, person: &Person) -> Vec<View> {
    let threads = loom(catalogue, plan, &person.days);
    let mut shown = days(catalogue, plan, person);
    shown.push(found(catalogue, plan, person).into());
    shown.push(
        card(words::LOOM)
            .with(loom_of(move || threads.clone()))
            .into(),
    );
    shown
}

fn days(catalogue: &Catalogue, plan: &Plan, person: &Person) -> Vec<View> {
    let weekdays: Vec<&str> = person.days.iter().map(|&d| dates::weekday(d)).collect();
    let mut shown: Vec<View> = vec![tag("p", "").with(weekdays.join(", ")).into()];
    for (at, day) in plan.days.iter().enumerate() {
        let lines = day.items.iter().map(|item| {
            let asked = &item.prescription;
            let exercise = catalogue.get(&asked.exercise);
            let is_timed = exercise.is_some_and(|e| e.measure == Measure::Seconds);
            let sets = words::sets_by_reps(asked.sets, asked.reps.0, asked.reps.1, is_timed);
            let name = name_of(catalogue, &asked.exercise);
            format!("{sets} {name}")
        });
        let head = tag("div", "row row--apart")
            .with(tag("h2", "").with(words::numbered(at, terms::focus(day.focus))))
            .with(tag("span", "soft").with(dates::minutes(day.seconds)));
        let day = tag("section", "card")
            .with(head)
            .with(list(lines.collect()));
        shown.push(day.into());
    }
    shown
}

/// An own exercise is called what its maker called it.
fn name_of(catalogue: &Catalogue, id: &ExerciseId) -> String {
    match catalogue.get(id) {
        Some(exercise) if is_own(id) => exercise.name.to_string(),
        Some(exercise) => tr(&exercise.name).to_owned(),
        None => id.as_str().replace('-', " "),
    }
}

/// What the audit says of it for this person.
fn found(catalogue: &Catalogue, plan: &Plan, person: &Person) -> Tag {
    let name_in = |key| {
        let item = plan.find(key).map(|(_, item)| &item.prescription.exercise);
        item.map_or_else(String::new, |id| name_of(catalogue, id))
    };
    let findings = audit(catalogue, person, plan).findings;
    let lines: Vec<String> = findings
        .iter()
        .map(|finding| reasons::finding(finding, name_in))
        .collect();
    let shown = card(words::CHECKED_FOR_YOU);
    if lines.is_empty() {
        shown.with(tag("p", "").with(words::FITS))
    } else {
        shown.with(list(lines))
    }
}

fn accept(app: App, person: &Person, plan: &Plan, own: &OwnExercises) -> Result<(), String> {
    if is_running(app) {
        return Err(tr(words::FINISH_FIRST_TAKE).to_owned());
    }
    // Kept in one go: no plan without its exercises, no exercises without the plan.
    let exercises = if *own == app.own_exercises() {
        Changes::none()
    } else {
        app.ask(|store| store.save_exercises(own))
            .map_err(|error| errors::store(&error))?
    };
    app.join(own);
    app.begin(person.clone(), plan.clone(), exercises, &Route::Plan);
    Ok(())
}
