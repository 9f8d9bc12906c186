//! The days of the plan with their exercises, their edits, and the week,
//! checked.

use super::checked::{checked, quiet_card, way_back};
use super::cycle::slot_name;
use crate::held::{Held, untracked};
use crate::markup::{Tag, View, button, link, live, tag};
use crate::parts::{Choice, TickGroup, line_link, refusal};
use crate::route::Route;
use crate::screens::questions::toggle_day;
use crate::screens::weaving::PAINTED;
use crate::screens::{list, page, page_head, soft_live, soft_small};
use crate::state::App;
use crate::text::{dates, reasons, terms, words};
use leptos::prelude::set_timeout;
use std::rc::Rc;
use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::{ExerciseId, Measure};
use weekloom_engine::plan::{self, Edit, OwnSplit, PlanDay, PlanItem, Split, SplitDay, SplitId};

/// Limits told of at most.
const MOST_RELIEFS: usize = 3;

/// The whole plan.
pub fn week() -> View {
    let app = App::here();
    let split_name = soft_live(move || {
        app.plan
            .with(|plan| plan.as_ref().map(|p| app.split_name(&p.plan.split).0))
    });
    let days = live(move || {
        app.plan.with(|plan| {
            let days = plan.as_ref().map_or(&[][..], |p| &p.plan.days);
            let split = plan.as_ref().and_then(|p| own_split(app, &p.plan.split));
            let day = |(index, day)| {
                let own = split.as_ref().and_then(|split| split.days.get(index));
                plan_day(app, index, day, days.len(), own).into()
            };
            days.iter().enumerate().map(day).collect::<Vec<View>>()
        })
    });
    page(page_head(words::YOUR_WEEK).with(split_name))
        .with(
            tag("div", "row row--even")
                .with(link("button", Route::PlanShape.hash(), words::SHAPE))
                .with(link("button", Route::PlanCycles.hash(), words::OWN_CYCLES)),
        )
        .with(checked())
        .with(days)
        .with(link(
            "button button--wide",
            Route::PlanCompare.hash(),
            words::COMPARE,
        ))
        .with(link(
            "button button--wide",
            Route::PlanHand.hash(),
            words::HAND_ON,
        ))
        .with(link(
            "button button--wide",
            Route::PlanCards.hash(),
            words::CARDS,
        ))
        .with(live(move || not_met(app)))
        .with(relief(app))
        .with(self::days(app))
        .with(soft_small(words::EVIDENCE_SPLIT))
        .with(way_back())
        .into()
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

/// What a new week would gain if a limit gave way, and what this one lacks and would
/// mend it; worked out when it is asked for, since each answer is a week planned anew.
fn relief(app: App) -> Tag {
    let asked = Held::new(false);
    let told: Held<Option<Costs>> = Held::new(None);
    let ask = move || {
        asked.set(true);
        // The word that it is on its way is painted first.
        set_timeout(move || told.set(Some(worked_out(app))), PAINTED);
    };
    let answer = move || match (told.get(), asked.get()) {
        (Some(costs), _) => View::from(costs),
        (None, true) => tag("p", "").with(words::WORKING_OUT).into(),
        (None, false) => button("button", words::ASK_RELIEF, ask).into(),
    };
    quiet_card(words::RELIEF)
        .with(soft_small(words::RELIEF_MORE))
        .with(
            tag("div", "stack")
                .attr("role", "status")
                .with(live(answer)),
        )
}

/// What limits cost, in words.
#[derive(Clone, Default, PartialEq)]
struct Costs {
    /// What would be gained where one gives way.
    gains: Vec<String>,
    /// What is lacking, with what mends it.
    lacks: Vec<(String, Vec<String>)>,
}

impl From<Costs> for View {
    fn from(costs: Costs) -> Self {
        if costs == Costs::default() {
            return tag("p", "").with(words::NO_RELIEF).into();
        }
        let mut shown: Vec<Self> = Vec::new();
        if !costs.gains.is_empty() {
            shown.push(list(costs.gains).into());
        }
        for (lack, ways) in costs.lacks {
            shown.push(tag("h3", "").with(lack).into());
            shown.push(list(ways).into());
        }
        shown.into()
    }
}

fn worked_out(app: App) -> Costs {
    let Some(person) = app.person.get_untracked() else {
        return Costs::default();
    };
    let name = |id: &ExerciseId| app.name_of(id);
    // Where no plan can be made the page says so itself.
    let Ok(mut freer) = plan::Freer::new(app.catalogue(), &person) else {
        return Costs::default();
    };
    let gains = freer.reliefs().unwrap_or_default();
    let lacks = freer.shortfalls().unwrap_or_default();
    Costs {
        gains: gains
            .iter()
            .take(MOST_RELIEFS)
            .map(|gain| reasons::relief(gain, name))
            .collect(),
        lacks: lacks
            .iter()
            .map(|lack| reasons::shortfall(lack, name))
            .collect(),
    }
}

/// Whether an exercise is done in turn with the one after or before it.
pub(super) fn partner(day: &PlanDay, at: usize) -> &'static str {
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

/// The person's own split with this id.
fn own_split(app: App, id: &SplitId) -> Option<Split> {
    let is_own = id.as_str().starts_with(OwnSplit::SLUG);
    app.person
        .with(|person| Split::of(person.as_ref()?, id))
        .filter(|_| is_own)
}

fn plan_day(app: App, index: usize, day: &PlanDay, of: usize, own: Option<&SplitDay>) -> Tag {
    let key = u8::try_from(index).unwrap_or(u8::MAX);
    let mut lines = tag("ol", "lines");
    for (at, item) in day.items.iter().enumerate() {
        lines = lines.with(plan_line(app, key, item, partner(day, at)));
    }
    for place in own.map_or_else(Vec::new, |own| own.open_slots(app.catalogue(), day)) {
        if let (Some(own), Ok(at)) = (own, u8::try_from(place)) {
            let name = words::choose(&slot_name(&own.slots[place]));
            lines = lines.with(line_link(Route::PlanFill(key, at).hash(), name, ""));
        }
    }
    let title = words::numbered(index, terms::focus(day.focus));
    let head = tag("div", "row row--apart")
        .with(tag("h2", "").with(title))
        .with(tag("span", "soft").with(dates::minutes(day.seconds)));
    let add = link("button button--plain", Route::PlanAdd(key).hash(), "+ ");
    tag("section", "card")
        .with(head)
        .with(lines)
        .with(tag("div", "row").with(add.with(words::ADD_EXERCISE)))
        .with(day_edits(app, index, of))
}

/// A day's own edits: its place in the cycle, or out.
fn day_edits(app: App, day: usize, of: usize) -> View {
    let edit = move |class, name: &'static str, edit: Edit| {
        // Only what can be made is offered.
        button(class, name, move || drop(app.edit(&edit)))
    };
    let mut row = Vec::new();
    if let Some(to) = day.checked_sub(1) {
        row.push(edit("button", words::EARLIER, Edit::MoveDay { day, to }).into());
    }
    if day + 1 < of {
        let later = Edit::MoveDay { day, to: day + 1 };
        row.push(edit("button", words::LATER, later).into());
    }
    if of > 1 {
        let out = Edit::RemoveDay { day };
        row.push(edit("button button--warn", words::TAKE_DAY_OUT, out).into());
    }
    tag("details", "more")
        .with(tag("summary", "").with(words::THIS_DAY))
        .with(tag("div", "row").with(row))
        .into()
}

/// The weekdays trained on, and one more day for the cycle.
fn days(app: App) -> Tag {
    let options = || {
        let choice =
            |&day: &Weekday| Choice::plain(day.index().to_string(), dates::weekday_short(day));
        dates::weekdays().iter().map(choice).collect()
    };
    let weekdays = move || {
        app.plan
            .with(|plan| plan.as_ref().map(|p| p.weekdays.clone()))
            .unwrap_or_default()
    };
    let day_of = |value: &str| value.parse().ok().map(Weekday::from_index);
    let toggle = move |value: &str| {
        let mut days = untracked(&weekdays);
        if let Some(day) = day_of(value) {
            toggle_day(&mut days, day);
        }
        // The last one stays.
        if !days.is_empty() {
            app.train_on(days);
        }
    };
    let question = TickGroup {
        legend: words::TRAINED_ON,
        options: Rc::new(options),
        is_ticked: Rc::new(move |value| day_of(value).is_some_and(|day| weekdays().contains(&day))),
        on_toggle: Rc::new(toggle),
        is_week: true,
    };
    let error = Held::new(None);
    let add = button("button button--wide", words::ADD_DAY, move || {
        error.set(app.edit(&Edit::AddDay).err());
    });
    tag("section", "card")
        .with(question)
        .with(soft_small(words::TRAINED_ON_MORE))
        .with(add)
        .with(refusal(error))
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
