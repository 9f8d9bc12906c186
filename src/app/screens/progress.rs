//! What the logs show over time: an exercise with its level, bests and days; and
//! the weeks with each muscle's sets.
//!
//! Start at [`exercises`], [`exercise`] and [`muscles`]. Everything is read when
//! a page is opened; every picture has its table.

use super::review::table;
use super::{card, page, page_head_under, soft, soft_small};
use crate::effects::{file, picture};
use crate::held::Held;
use crate::markup::{Tag, View, button, live, nothing, tag};
use crate::parts::{Chart, Choice, ChoiceGroup, bars, line, line_link};
use crate::route::Route;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, progress as told, reasons, review as said, terms, words};
use leptos::prelude::document;
use std::rc::Rc;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Exercise, ExerciseId, HalfSets, Muscle};
use weekloom_engine::estimate::TrendPoint;
use weekloom_engine::log::{SetEntry, SetKind};
use weekloom_engine::order;
use weekloom_engine::plan::WeeklySets;
use weekloom_engine::review::{Level, Planned, Series, Verdict, WeekDone, read_series, read_weeks};
use weekloom_engine::session::Session;
use weekloom_engine::units::Load;

/// Before every log: the first day there is, 0001-01-01.
const EARLIEST: Day = Day::from_epoch_days(-719_162);

/// How far back a page looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Range {
    FourWeeks,
    Block,
    Year,
    All,
}

impl Range {
    pub(super) const ALL: [Self; 4] = [Self::FourWeeks, Self::Block, Self::Year, Self::All];

    const fn name(self) -> &'static str {
        match self {
            Self::FourWeeks => words::FOUR_WEEKS,
            Self::Block => words::BLOCK,
            Self::Year => words::A_YEAR,
            Self::All => words::EVERYTHING,
        }
    }

    /// Its first day; `None` for a block where there is none.
    pub(super) fn from(self, app: App) -> Option<Day> {
        let today = app.today.get();
        match self {
            Self::FourWeeks => Some(today.plus(-27)),
            Self::Block => {
                let chronicle = app.ask(|store| store.load_chronicle()).ok()?;
                let starts = chronicle.blocks.keys().copied();
                starts.filter(|start| *start <= today).max()
            }
            Self::Year => Some(today.plus(-364)),
            Self::All => Some(EARLIEST),
        }
    }
}

/// Chips for the ranges there are.
pub(super) fn ranges(app: App, range: Held<Range>, offered: &'static [Range]) -> ChoiceGroup {
    let key = |range: Range| range.name();
    let choice = move |range: &Range| {
        let name = tr(range.name()).to_owned();
        range.from(app).map(|_| Choice::plain(range.name(), name))
    };
    ChoiceGroup {
        legend: words::SPAN,
        name: "span",
        options: Rc::new(move || offered.iter().filter_map(choice).collect()),
        chosen: Rc::new(move || key(range.get()).into()),
        on_choose: Rc::new(move |value| {
            if let Some(&chosen) = offered.iter().find(|range| key(**range) == value) {
                range.set(chosen);
            }
        }),
        is_chips: true,
    }
}

/// Every exercise that was done, most often done first.
pub fn exercises() -> View {
    let app = App::here();
    let (sessions, is_whole) = app.ask(|store| store.sessions_since(EARLIEST));
    let mut all = read_series(app.catalogue(), &sessions, &app.weights(), is_whole);
    order::sort_by_key(&mut all, |series| {
        (usize::MAX - series.done.len(), series.exercise.clone())
    });
    let shown = page(page_head_under(&Route::Log, words::BY_EXERCISE));
    if all.is_empty() {
        return shown.with(tag("p", "").with(words::LOG_EMPTY)).into();
    }
    let mut list = tag("ul", "card lines");
    for series in &all {
        let to = Route::Exercise(series.exercise.to_string()).hash();
        let more = told::days_and_change(series.done.len(), &series.judgement);
        list = list.with(line_link(to, app.name_of(&series.exercise), more));
    }
    shown.with(list).into()
}

/// One exercise over time.
pub fn exercise(id: &str) -> View {
    let app = App::here();
    let id = ExerciseId::new(id);
    let head = page_head_under(&Route::Exercises, app.name_of(&id));
    let Some(found) = app.exercise(&id) else {
        return page(head)
            .with(tag("p", "").with(words::UNKNOWN_EXERCISE))
            .into();
    };
    let range = Held::new(Range::All);
    let shown = move || {
        let Some(from) = range.get().from(app) else {
            return nothing();
        };
        let (sessions, is_whole) = app.ask(|store| store.sessions_since(from));
        let all = read_series(app.catalogue(), &sessions, &app.weights(), is_whole);
        match all.into_iter().find(|series| series.exercise == found.id) {
            Some(series) => over_time(app, found, &series),
            None => tag("p", "").with(words::NOT_IN_SPAN).into(),
        }
    };
    page(head)
        .with(ranges(app, range, &Range::ALL))
        .with(live(shown))
        .into()
}

fn over_time(app: App, exercise: &'static Exercise, series: &Series) -> View {
    let unit = app.unit_now();
    let today = app.today.get_untracked();
    // An estimate of 58.14 kg would say more than it knows.
    let show = |value: i64| match series.level {
        Level::OneRm | Level::WholeOneRm => told::about(value, unit),
        Level::Reps => value.to_string(),
        Level::Seconds => words::of_seconds(u16::try_from(value).unwrap_or(u16::MAX)),
    };
    let values = series.values();
    let judged = &series.judgement;
    let scatter = (judged.detectable_in_a_day > 0).then(|| {
        let (before, _) = judged.thirds;
        let away = before * judged.detectable_in_a_day / 1000;
        (before - away, before + away)
    });
    let name = told::level(series.level);
    let mut trend = card(name);
    if values.len() > 1 {
        let grams = |point: &TrendPoint| [point.low, point.level, point.high].map(Load::grams);
        let level: Vec<_> = series.trend.iter().map(|p| (p.day, grams(p))).collect();
        let chart = Chart {
            name: format!(
                "{}. {}",
                app.name_of(&exercise.id),
                told::chart(name, values.len())
            ),
            points: &values,
            trend: &level,
            scatter,
            show: &show,
            date: &|day| dates::date(day, today),
        };
        trend = trend.with(Tag::from(chart));
    }
    trend = trend
        .with(tag("p", "").with(told::verdict(judged)))
        .with(
            series
                .trend
                .last()
                .map(|now| soft(told::trend_now(now, unit))),
        )
        .with(series.trend.last().map(|_| soft_small(words::TREND_LINES)))
        .with(scatter.map(|_| soft_small(words::SCATTER_STRIP)))
        .with((judged.verdict != Verdict::Thin).then(|| soft_small(told::rests_on(judged))))
        .with(each_day(app, exercise, series, &show))
        .with((values.len() > 1).then(|| {
            let head = format!("{} \u{b7} {name}", app.name_of(&exercise.id));
            let file = format!("weekloom-{}.svg", exercise.id);
            save_picture(app, "svg.chart".to_owned(), head, file)
        }));
    let efforts: Vec<i32> = series.done.iter().filter_map(|day| day.effort).collect();
    let effort = (!efforts.is_empty()).then(|| {
        let count = i32::try_from(efforts.len()).unwrap_or(1);
        soft(said::effort(efforts.iter().sum::<i32>() * 10 / count))
    });
    let (noted, painful) = series.hurt();
    let hurt = (noted > 0).then(|| soft(told::hurt(noted, painful)));
    vec![
        trend.into(),
        effort.into(),
        hurt.into(),
        bests(app, exercise, series).into(),
    ]
    .into()
}

/// The table behind the picture: each day's hardest set and level.
fn each_day(app: App, exercise: &Exercise, series: &Series, show: &dyn Fn(i64) -> String) -> Tag {
    let today = app.today.get_untracked();
    let unit = app.unit_now();
    let values = series.values();
    let mut body = tag("tbody", "");
    for done in series.done.iter().rev() {
        let value = values.iter().find(|value| value.0 == done.day);
        let value = value.map_or_else(|| "\u{2013}".to_owned(), |value| show(value.1));
        let top = done.top.map_or_else(
            || "\u{2013}".to_owned(),
            |(load, count)| in_words(app, exercise, load, count),
        );
        let name = tag("th", "").attr("scope", "row");
        // Below it, for a fourth column has no room on a phone.
        let level = series.trend.iter().find(|point| point.day == done.day);
        let band = level.map(|point| tag("div", "soft").with(told::band(point, unit)));
        body = body.with(
            tag("tr", "")
                .with(name.with(dates::date(done.day, today)))
                .with(tag("td", "").with(top))
                .with(tag("td", "").with(value).with(band)),
        );
    }
    let level = if series.trend.is_empty() {
        words::LEVEL
    } else {
        words::LEVEL_AND_TREND
    };
    let heads = [words::DAY, words::HARDEST_SET, level];
    tag("details", "more")
        .with(tag("summary", "").with(words::LOOM_TABLE))
        .with(table(heads, body))
}

/// A set of this load and count.
fn in_words(app: App, exercise: &Exercise, load: Load, count: u16) -> String {
    let set = SetEntry {
        kind: SetKind::Work,
        load,
        count,
        rir: None,
        at: Moment::default(),
    };
    reasons::set_in_words(&set, Some(exercise), app.unit_now())
}

/// The picture of this name as a file, with words above it.
pub(super) fn save_picture(app: App, picture: String, head: String, file: String) -> Tag {
    button("button", words::SAVE_PICTURE, move || {
        let svg = document().query_selector(&picture).ok().flatten();
        let made = svg.and_then(|svg| picture::standing_alone(&svg, &head).ok());
        let saved = made.is_some_and(|text| file::save(&file, "image/svg+xml", &text).is_ok());
        if saved {
            app.tell(file.clone());
        } else {
            app.tell(words::NOT_SAVED);
        }
    })
}

/// The hardest for each number of reps.
fn bests(app: App, exercise: &Exercise, series: &Series) -> Option<Tag> {
    if series.bests.is_empty() {
        return None;
    }
    let today = app.today.get_untracked();
    let mut list = tag("ul", "lines");
    for best in series.bests.iter().rev() {
        let set = in_words(app, exercise, best.load, best.count);
        list = list.with(line(set, dates::full_short(best.day, today)));
    }
    Some(
        card(words::BESTS)
            .with(list)
            .with(soft_small(words::BESTS_MORE)),
    )
}

/// The weeks: sessions, minutes, and each muscle's sets.
pub fn muscles() -> View {
    let app = App::here();
    let range = Held::new(Range::Year);
    let shown = move || {
        let Some(from) = range.get().from(app) else {
            return nothing();
        };
        let (sessions, _) = app.ask(|store| store.sessions_since(from));
        if sessions.is_empty() {
            return tag("p", "").with(words::LOG_EMPTY).into();
        }
        weeks_of(app, &sessions, from)
    };
    page(page_head_under(&Route::Log, words::BY_MUSCLE).with(soft(words::BY_MUSCLE_MORE)))
        .with(ranges(app, range, &Range::ALL))
        .with(live(shown))
        .into()
}

fn weeks_of(app: App, sessions: &[Session], from: Day) -> View {
    let catalogue = app.catalogue();
    let today = app.today.get_untracked();
    // Weeks before the first session say nothing.
    let from = sessions.first().map_or(from, |first| from.max(first.day));
    let weeks = app.plan.with_untracked(|accepted| {
        let planned = accepted.as_ref().map(|accepted| Planned {
            plan: &accepted.plan,
            accepted: accepted.accepted,
            weekdays: &accepted.weekdays,
            repairs: &accepted.repairs,
        });
        read_weeks(catalogue, sessions, planned.as_ref(), from, today)
    });
    let mut shown: Vec<View> = vec![by_week(app, &weeks).into()];
    for &muscle in Muscle::ALL {
        let of = |sets: &WeeklySets| sets.get(&muscle).copied().unwrap_or(0);
        let sets: Vec<_> = weeks
            .iter()
            .map(|week| (of(&week.muscles), of(&week.aims)))
            .collect();
        if sets.iter().any(|&(done, planned)| done + planned > 0) {
            shown.push(one_muscle(app, muscle, &weeks, &sets).into());
        }
    }
    shown.into()
}

/// Weeks that a picture shows one by one; of more than two years it shows averages
/// over some, for a bar must be seen.
const MOST_BARS: usize = 105;

/// A muscle's sets, done and planned, week by week.
fn one_muscle(app: App, muscle: Muscle, weeks: &[WeekDone], sets: &[(HalfSets, HalfSets)]) -> Tag {
    let today = app.today.get_untracked();
    let name = reasons::capital(terms::muscle(muscle));
    let together = weeks.len().div_ceil(MOST_BARS).max(1);
    let mut rows: Vec<View> = Vec::new();
    let mut drawn = Vec::new();
    for (weeks, sets) in weeks.chunks(together).zip(sets.chunks(together)) {
        let count = u32::try_from(sets.len()).unwrap_or(1);
        let average = |of: fn(&(HalfSets, HalfSets)) -> HalfSets| {
            (sets.iter().map(of).sum::<HalfSets>() + count / 2) / count
        };
        let (done, planned) = (average(|sets| sets.0), average(|sets| sets.1));
        drawn.push((done, planned));
        let is_lighter = together == 1 && weeks[0].is_deload;
        let head = tag("th", "")
            .attr("scope", "row")
            .with(dates::date(weeks[0].monday, today))
            .with(is_lighter.then(|| tag("div", "soft").with(words::LIGHTER_MARK)));
        let row = tag("tr", "")
            .with(head)
            .with(tag("td", "").with(reasons::half_sets(done)))
            .with(tag("td", "").with(reasons::half_sets(planned)));
        rows.push(row.into());
    }
    // The latest on top.
    rows.reverse();
    let heads = [words::WEEK_OF, words::DONE_SETS, words::PLANNED];
    let id = format!("sets-{}", muscle.slug());
    let said = told::bars(&name);
    let picture = save_picture(
        app,
        format!("#{id}"),
        said.clone(),
        format!("weekloom-{id}.svg"),
    );
    let numbers = tag("div", "stack")
        .with(table(heads, tag("tbody", "").with(rows)))
        .with(picture);
    tag("section", "card")
        .with(tag("h2", "").with(name))
        .with(bars(said, &drawn).attr("id", id))
        .with(soft_small(told::muscle_weeks(together)))
        .with(
            tag("details", "more")
                .with(tag("summary", "").with(words::LOOM_TABLE))
                .with(numbers),
        )
}

fn by_week(app: App, weeks: &[WeekDone]) -> Tag {
    let today = app.today.get_untracked();
    let mut body = tag("tbody", "");
    for week in weeks.iter().rev() {
        let sessions = match week.planned {
            Some(planned) => told::of(week.sessions, planned),
            None => week.sessions.to_string(),
        };
        let head = tag("th", "").attr("scope", "row");
        body = body.with(
            tag("tr", "")
                .with(head.with(dates::date(week.monday, today)))
                .with(tag("td", "").with(sessions))
                .with(tag("td", "").with(dates::minutes(week.seconds))),
        );
    }
    let summary = tag("summary", "").with(words::WEEK_BY_WEEK);
    let heads = [words::WEEK_OF, words::SESSIONS, words::TIME];
    let whole = weeks
        .iter()
        .filter(|week| !week.is_open && week.sessions > 0);
    let (count, seconds) = whole.fold((0, 0), |sum, week| (sum.0 + 1, sum.1 + week.seconds));
    let average = u32::checked_div(seconds, count).map(|seconds| soft(told::minutes(seconds)));
    tag("section", "card")
        .with(tag("h2", "").with(words::SESSIONS_AND_TIME))
        .with(average)
        .with(
            tag("details", "more")
                .with(summary)
                .with(table(heads, body)),
        )
}
