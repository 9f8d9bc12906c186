//! The week beside another split at equal weekly sets: both looms, a few
//! figures, and what can honestly be said.

use super::{card, list, page, page_head_under, soft, soft_small};
use crate::markup::{Tag, View, tag};
use crate::parts::loom_of;
use crate::route::Route;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{course, errors, terms, words};
use weekloom_engine::compare::{Comparison, compare as measure, equal_week};
use weekloom_engine::loom::loom;
use weekloom_engine::person::Person;
use weekloom_engine::plan::{Plan, Split, SplitId};

/// The split to hold the week against: the first of as many days that it does
/// not follow itself.
fn other_split(person: &Person, plan: &Plan) -> Option<SplitId> {
    let is_other = |id: &SplitId| {
        let split = Split::of(person, id);
        *id != plan.split && split.is_some_and(|split| split.days.len() == plan.days.len())
    };
    Split::offered_to(person).into_iter().find(is_other)
}

/// Two weeks side by side.
pub fn compare() -> View {
    let app = App::here();
    let shown = page(page_head_under(&Route::Plan, words::COMPARE));
    let (Some(accepted), Some(person)) = (app.plan.get_untracked(), app.person.get_untracked())
    else {
        return shown.into();
    };
    let Some(other) = other_split(&person, &accepted.plan) else {
        return shown.with(soft(words::NO_OTHER_SPLIT)).into();
    };
    match equal_week(app.catalogue(), &person, &accepted.plan, &other) {
        Ok(second) => both(app, shown, &person, [accepted.plan, second]).into(),
        Err(refused) => shown.with(soft(errors::plan(&refused))).into(),
    }
}

fn both(app: App, shown: Tag, person: &Person, plans: [Plan; 2]) -> Tag {
    let found = measure(app.catalogue(), person, &plans[0], &plans[1]);
    let other = &plans[1].split;
    let own = person.own_splits.iter().find(|own| own.split.id == *other);
    let name = own.map_or_else(|| terms::split(other.as_str()).0, |own| own.name.clone());
    let names = [tr(words::YOUR_WEEK).to_owned(), name];
    let said = verdict(&found, &names);
    let table = table(&found, &names);
    let mut cloths = tag("div", "side-by-side");
    for (plan, name) in plans.into_iter().zip(names) {
        let threads = loom(app.catalogue(), &plan, &person.days);
        cloths = cloths.with(card(name).with(loom_of(move || threads.clone())));
    }
    shown
        .with(soft(words::COMPARE_MORE))
        .with(said)
        .with(cloths)
        .with(table)
}

fn verdict(found: &Comparison, names: &[String; 2]) -> Tag {
    let names = [names[0].as_str(), names[1].as_str()];
    let said = found.verdict.iter();
    card(words::WHAT_CAN_BE_SAID)
        .with(list(
            said.map(|said| course::verdict(*said, names)).collect(),
        ))
        .with(soft_small(course::unequal(&found.unequal)))
}

fn table(found: &Comparison, names: &[String; 2]) -> Tag {
    let mut heads = tag("tr", "").with(tag("th", "").attr("scope", "col").with(words::IN_A_WEEK));
    for name in names {
        heads = heads.with(tag("th", "").attr("scope", "col").with(name.clone()));
    }
    let mut body = tag("tbody", "");
    for (what, values) in course::figures(&found.first, &found.second) {
        let mut row = tag("tr", "").with(tag("th", "").attr("scope", "row").with(what));
        for value in values {
            row = row.with(tag("td", "").with(value));
        }
        body = body.with(row);
    }
    card(words::IN_FIGURES)
        .with(
            tag("table", "")
                .with(tag("thead", "").with(heads))
                .with(body),
        )
        .with(soft_small(words::FIGURES_MORE))
}
