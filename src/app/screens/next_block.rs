//! The next block: how long, what it does otherwise and why, each change to be
//! left out by a tap, what it is for, and the week that comes of it.
//!
//! Start at [`next_block`]. Nothing is kept until it is begun.

use super::review::{look_through, table};
use super::{card, is_running, list, page, page_head_under, soft, soft_small};
use crate::held::Held;
use crate::markup::{Tag, View, button, live, tag};
use crate::parts::{Choice, ChoiceGroup, line, line_link, line_more, refusal, tick};
use crate::route::{self, Route};
use crate::state::App;
use crate::text::block::{self as told, Names};
use crate::text::language::tr;
use crate::text::{dates, errors, reasons, terms, words};
use std::rc::Rc;
use weekloom_engine::calendar::Day;
use weekloom_engine::estimate::Confidence;
use weekloom_engine::person::Person;
use weekloom_engine::plan::{Plan, PlanDay, PlanError, WeeklySets, weekly_sets};
use weekloom_engine::review::{
    Block, Change, FEW_WEEKS_DAYS, Goal, GoalState, Proposed, Taken, goals_of, judge_goal, propose,
    take,
};

/// Weeks to choose from.
const WEEKS: [u8; 5] = [4, 6, 8, 10, 12];
/// Weeks until another number is chosen: after so many a lighter one is due.
const USUAL_WEEKS: u8 = 6;

/// What is being put together.
struct Draft {
    app: App,
    person: Person,
    plan: Plan,
    proposed: Vec<Proposed>,
    goals: Vec<Goal>,
    weeks: Held<u8>,
    has_lighter: Held<bool>,
    /// Which changes are on, in their order.
    changes: Held<Vec<bool>>,
    /// Which goals are on, in their order.
    aims: Held<Vec<bool>>,
}

/// The page.
pub fn next_block() -> View {
    let app = App::here();
    let shown =
        page(page_head_under(&Route::Review, words::NEXT_BLOCK).with(soft(words::NEXT_BLOCK_MORE)));
    let (Some(accepted), Some(person)) = (app.plan.get_untracked(), app.person.get_untracked())
    else {
        return shown.into();
    };
    let found = look_through(app, judged_from(app), app.today.get_untracked());
    let is_thin = found.as_ref().is_none_or(|review| review.is_thin);
    let mut proposed = Vec::new();
    let mut goals = Vec::new();
    if let Some(review) = &found
        && !is_thin
    {
        proposed = propose(app.catalogue(), &person, &accepted.plan, review);
        goals = goals_of(review);
    }
    // The lighter week is asked for beside the length.
    let lighter = proposed
        .iter()
        .position(|p| p.change == Change::LighterWeek);
    let weeks_on = lighter.map(|at| proposed.remove(at));
    let usual = Block::usual(app.today.get_untracked(), USUAL_WEEKS);
    let draft = Rc::new(Draft {
        app,
        weeks: Held::new(USUAL_WEEKS),
        has_lighter: Held::new(weeks_on.is_some() || usual.lighter.is_some()),
        changes: Held::new(proposed.iter().map(|p| p.is_on).collect()),
        aims: Held::new(vec![true; goals.len()]),
        person,
        plan: accepted.plan,
        proposed,
        goals,
    });
    let error = Held::new(None);
    let (previewed, begun) = (Rc::clone(&draft), Rc::clone(&draft));
    let preview = live(move || previewed.preview());
    let begin = move || error.set(begun.begin().err());
    shown
        .with(length(&draft, weeks_on.as_ref()))
        .with(changes(&draft, is_thin))
        .with(aims(&draft))
        .with(card(words::WEEK_THEN).with(preview))
        .with(refusal(error))
        .with(soft_small(words::BLOCK_LOADS))
        .with(button(
            "button button--main button--wide",
            words::BEGIN_BLOCK,
            begin,
        ))
        .into()
}

/// The first day that speaks for changes: once a block has lasted long enough to
/// tell something, what was before it has had its answer.
fn judged_from(app: App) -> Day {
    let from = super::review::from(app);
    let enough = app.today.get_untracked().plus(-FEW_WEEKS_DAYS);
    let chronicle = app.ask(|store| store.load_chronicle().unwrap_or_default());
    let starts = chronicle.blocks.keys().copied();
    starts.filter(|start| *start <= enough).fold(from, Day::max)
}

fn length(draft: &Rc<Draft>, weeks_on: Option<&Proposed>) -> Tag {
    let (weeks, has_lighter) = (draft.weeks, draft.has_lighter);
    let choice = |weeks: &u8| Choice::plain(weeks.to_string(), weeks.to_string());
    let group = ChoiceGroup {
        legend: words::BLOCK_WEEKS,
        name: "weeks",
        options: Rc::new(move || WEEKS.iter().map(choice).collect()),
        chosen: Rc::new(move || weeks.get().to_string().into()),
        on_choose: Rc::new(move |value| weeks.set(value.parse().unwrap_or(USUAL_WEEKS))),
        is_chips: true,
    };
    let lighter = tick(
        words::LAST_LIGHTER,
        move || has_lighter.get(),
        move |is_on| has_lighter.set(is_on),
    );
    let until = Rc::clone(draft);
    let until = live(move || soft(told::length(&until.block(), until.app.today.get())));
    card(words::HOW_LONG_BLOCK)
        .with(group)
        .with(lighter)
        .with(weeks_on.map(|proposed| soft_small(told::because(&proposed.because))))
        .with(until)
}

fn changes(draft: &Rc<Draft>, is_thin: bool) -> Tag {
    let shown = card(words::WHAT_CHANGES);
    if is_thin {
        return shown.with(tag("p", "").with(words::NOT_ENOUGH));
    }
    if draft.proposed.is_empty() {
        return shown.with(tag("p", "").with(words::NO_CHANGE));
    }
    let mut lines = tag("ul", "lines");
    for (at, proposed) in draft.proposed.iter().enumerate() {
        let is_thin = proposed.confidence == Confidence::Low;
        let thin = is_thin.then(|| line_more(words::THIN_EVIDENCE));
        let words = tag("span", "line")
            .with(tag("strong", "").with(draft.says(&proposed.change)))
            .with(line_more(told::because(&proposed.because)))
            .with(thin);
        lines = lines.with(tag("li", "").with(tick_of(draft.changes, at, words)));
    }
    shown.with(lines)
}

fn aims(draft: &Rc<Draft>) -> Option<Tag> {
    if draft.goals.is_empty() {
        return None;
    }
    let mut lines = tag("ul", "lines");
    for (at, goal) in draft.goals.iter().enumerate() {
        let words = told::goal(goal, &|id| draft.app.name_of(id));
        lines = lines.with(tag("li", "").with(tick_of(draft.aims, at, words)));
    }
    Some(card(words::WHAT_FOR).with(lines))
}

/// A box for the entry of a list.
fn tick_of(list: Held<Vec<bool>>, at: usize, words: impl Into<View>) -> Tag {
    tick(
        words,
        move || list.with(|list| list.get(at) == Some(&true)),
        move |is_on| {
            list.update(|list| {
                if let Some(entry) = list.get_mut(at) {
                    *entry = is_on;
                }
            });
        },
    )
}

impl Draft {
    fn says(&self, change: &Change) -> String {
        let app = self.app;
        let names = Names {
            exercise: &|id| app.name_of(id),
            split: &|id| app.split_name(id).0,
        };
        told::change(change, &self.plan, &names)
    }

    fn block(&self) -> Block {
        let weeks = self.weeks.get();
        let is_on = self.aims.get();
        let aims = self.goals.iter().zip(is_on);
        Block {
            start: self.app.today.get(),
            weeks,
            lighter: self.has_lighter.get().then(|| weeks - 1),
            goals: aims.filter(|aim| aim.1).map(|aim| aim.0.clone()).collect(),
        }
    }

    fn taken(&self) -> Result<Taken, PlanError> {
        let is_on = self.changes.get();
        let changes = self.proposed.iter().zip(is_on);
        let changes: Vec<Change> = changes
            .filter(|change| change.1)
            .map(|change| change.0.change.clone())
            .collect();
        take(self.app.catalogue(), &self.person, &self.plan, &changes)
    }

    /// What the switched-on changes do to the week.
    fn preview(&self) -> View {
        let taken = match self.taken() {
            Ok(taken) => taken,
            Err(refused) => return tag("p", "").with(errors::plan(&refused)).into(),
        };
        let mut shown: Vec<View> = Vec::new();
        let left_out = taken.left_out.iter();
        let left_out: Vec<String> = left_out
            .map(|change| told::no_place(&self.says(change)))
            .collect();
        if !left_out.is_empty() {
            shown.push(list(left_out).into());
        }
        if taken.plan == self.plan {
            shown.push(tag("p", "").with(words::WEEK_STAYS).into());
            return shown.into();
        }
        let catalogue = self.app.catalogue();
        let now = weekly_sets(catalogue, &self.plan.days);
        let then = weekly_sets(catalogue, &taken.plan.days);
        let mut body = tag("tbody", "");
        let mut moved = 0;
        for &muscle in now
            .keys()
            .chain(then.keys().filter(|m| !now.contains_key(m)))
        {
            let of = |sets: &WeeklySets| sets.get(&muscle).copied().unwrap_or(0);
            if of(&now) == of(&then) {
                continue;
            }
            moved += 1;
            let name = tag("th", "").attr("scope", "row");
            body = body.with(
                tag("tr", "")
                    .with(name.with(terms::muscle(muscle)))
                    .with(tag("td", "").with(reasons::half_sets(of(&now))))
                    .with(tag("td", "").with(reasons::half_sets(of(&then)))),
            );
        }
        shown.push(if moved == 0 {
            soft(words::SETS_STAY).into()
        } else {
            table([words::SETS_BY_MUSCLE, words::NOW, words::THEN], body).into()
        });
        let days = self.plan.days.len().max(taken.plan.days.len());
        let lines = (0..days).filter_map(|at| {
            let (now, then) = (self.plan.days.get(at), taken.plan.days.get(at));
            let seconds = |day: Option<&PlanDay>| day.map_or(0, |day| day.seconds);
            let focus = then.or(now)?.focus;
            let [now, then] = [now, then].map(|day| dates::minutes(seconds(day)));
            (now != then).then(|| told::minutes(terms::focus(focus), &now, &then))
        });
        let lines: Vec<String> = lines.collect();
        if !lines.is_empty() {
            shown.push(list(lines).into());
        }
        shown.into()
    }

    /// Keeps block and plan together.
    fn begin(&self) -> Result<(), String> {
        let app = self.app;
        if is_running(app) {
            return Err(tr(words::FINISH_FIRST).to_owned());
        }
        let taken = self.taken().map_err(|refused| errors::plan(&refused))?;
        let changes = app.ask(|store| {
            let mut chronicle = store
                .load_chronicle()
                .map_err(|unreadable| errors::other(&unreadable))?;
            chronicle.put_block(self.block());
            store
                .save_chronicle(&chronicle)
                .map_err(|refused| errors::store(&refused))
        })?;
        if taken.plan == self.plan {
            app.keep(Ok(changes));
            route::replace(&Route::Review);
        } else {
            app.begin(taken.person, taken.plan, changes, &Route::Review);
        }
        app.tell(words::BLOCK_BEGUN);
        Ok(())
    }
}

/// Where in a block one is, or that it is over, in one line.
pub fn in_short(app: App) -> Option<String> {
    let today = app.today.get_untracked();
    let chronicle = app.ask(|store| store.load_chronicle()).ok()?;
    let block = chronicle.block_near(today)?;
    Some(told::place(block, today))
}

/// The way to the next block.
pub fn next_link() -> Tag {
    let to = Route::NextBlock.hash();
    tag("ul", "card lines").with(line_link(to, words::NEXT_BLOCK, words::NEXT_BLOCK_LINK))
}

/// The block one is in, week by week, or the one that is over, and how its goals
/// stand.
pub fn this_block(app: App) -> Option<Tag> {
    let today = app.today.get_untracked();
    // One that cannot be read is set aside and told of in a banner.
    let chronicle = app.ask(|store| store.load_chronicle()).ok()?;
    let block = chronicle.block_near(today)?;
    let mut weeks = tag("ol", "stack");
    for week in block.lay_out(today) {
        let (name, marks) = told::week(&week, today);
        let name = tag(if week.is_now { "strong" } else { "span" }, "").with(name);
        let line = tag("li", "row row--apart").with(name);
        weeks = weeks.with(line.with(tag("span", "soft").with(marks)));
    }
    let mut shown = card(told::place(block, today));
    if block.end() > today {
        shown = shown.with(soft(told::length(block, today))).with(weeks);
    }
    if block.goals.is_empty() {
        return Some(shown);
    }
    // What came after a block is no more its own.
    let found = look_through(app, block.start, today.min(block.end().plus(-1)));
    let mut goals = tag("ul", "lines");
    for goal in &block.goals {
        let state = found
            .as_ref()
            .map_or(GoalState::Unknown, |found| judge_goal(goal, found));
        let name = told::goal(goal, &|id| app.name_of(id));
        goals = goals.with(line(name, told::state(state)));
    }
    Some(shown.with(tag("h3", "").with(words::WHAT_FOR)).with(goals))
}
