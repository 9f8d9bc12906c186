//! Where in the app the person is, kept in the address after the `#`.
//!
//! Start at [`Route`]. A hash route needs no rule on the server, works under
//! any base path, and makes the back button close what was opened.

use crate::held::Held;
use leptos::prelude::{document, request_animation_frame, window};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{FocusOptions, HtmlElement};
use weekloom_engine::calendar::Day;

/// A place in the app.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Route {
    /// The session, or what comes next. A sheet may lie over it.
    #[default]
    Today,
    /// Today with a sheet drawn up over it.
    TodaySheet(TodaySheet),
    /// The coming days.
    Week,
    /// What becomes of the session of a day.
    Settle(Day),
    /// A pause, or days with other equipment.
    Away,
    /// The plan's days.
    Plan,
    /// One exercise of the plan: day index and item key.
    PlanItem(u8, u16),
    /// Exercises to put in its place.
    PlanSwap(u8, u16),
    /// Exercises to add to a day.
    PlanAdd(u8),
    /// Exercises for an open place of an own cycle: day and place.
    PlanFill(u8, u8),
    /// One's own cycles.
    PlanCycles,
    /// One of them, by its slug.
    PlanCycle(String),
    /// One of its days.
    PlanCycleDay(String, u8),
    /// Split, days, minutes and wishes.
    PlanShape,
    /// The week beside another split.
    PlanCompare,
    /// The plan handed on.
    PlanHand,
    /// The plan on paper.
    PlanCards,
    /// A plan that came by a link, as its text.
    PlanTake(String),
    /// Past sessions.
    Log,
    /// What the last weeks show.
    Review,
    /// The next block.
    NextBlock,
    /// A year as cloth.
    Year(i32),
    /// Every exercise that was done.
    Exercises,
    /// One of them over time, by its slug.
    Exercise(String),
    /// The weeks, and each muscle's sets in them.
    Muscles,
    /// The body's weight.
    Weight,
    /// One past session.
    LogSession(String),
    /// What one has elsewhere, brought here before anything else.
    Restore,
    /// The first questions, before anything else.
    Answers,
    /// Whose invented logs the demonstration shows, before anything else.
    Crew,
    /// One of the person's own exercises, by its slug, or a new one.
    OwnExercise(String),
    /// Kit, units, data.
    Kit(KitPage),
}

/// What can lie over the session.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TodaySheet {
    /// Every exercise of the session, done and to come.
    Whole,
    /// Other exercises for the one that is up.
    Swap,
    /// Plates and warm-up.
    Load,
    /// More: note, discomfort, pause, finish.
    More,
}

/// The pages under Kit & data.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum KitPage {
    /// The list of pages.
    #[default]
    Index,
    /// Equipment and increments.
    Equipment,
    /// The person's own exercises.
    Exercises,
    /// A spreadsheet into the log.
    Spreadsheet,
    /// Backup, restore, delete, demo.
    Data,
    /// Logs of others, to be read.
    Others,
    /// Appearance and units.
    Looks,
    /// Cautions.
    Cautions,
}

impl Route {
    /// Reads the part of an address after `#`; anything unknown is Today.
    #[must_use]
    pub fn from_hash(hash: &str) -> Self {
        let path = hash.trim_start_matches('#').trim_matches('/');
        let parts: Vec<&str> = path.split('/').collect();
        let key = |text: &str| text.parse::<u16>().ok();
        let day = |text: &str| text.parse::<u8>().ok();
        match parts.as_slice() {
            ["today", "whole"] => Self::TodaySheet(TodaySheet::Whole),
            ["today", "swap"] => Self::TodaySheet(TodaySheet::Swap),
            ["today", "load"] => Self::TodaySheet(TodaySheet::Load),
            ["today", "more"] => Self::TodaySheet(TodaySheet::More),
            ["week"] => Self::Week,
            ["week", "away"] => Self::Away,
            ["week", day] => Day::parse(day).map_or(Self::Week, Self::Settle),
            ["plan"] => Self::Plan,
            ["plan", "shape"] => Self::PlanShape,
            ["plan", "cycle"] => Self::PlanCycles,
            ["plan", "cycle", id] => Self::PlanCycle((*id).to_owned()),
            ["plan", "cycle", id, d] => day(d).map_or(Self::PlanCycles, |d| {
                Self::PlanCycleDay((*id).to_owned(), d)
            }),
            ["plan", d, "fill", s] => match (day(d), day(s)) {
                (Some(d), Some(s)) => Self::PlanFill(d, s),
                _ => Self::Plan,
            },
            ["plan", "compare"] => Self::PlanCompare,
            ["plan", "hand"] => Self::PlanHand,
            ["plan", "cards"] => Self::PlanCards,
            ["take", text] => Self::PlanTake((*text).to_owned()),
            ["plan", d, "add"] => day(d).map_or(Self::Plan, Self::PlanAdd),
            ["plan", d, k] => match (day(d), key(k)) {
                (Some(d), Some(k)) => Self::PlanItem(d, k),
                _ => Self::Plan,
            },
            ["plan", d, k, "swap"] => match (day(d), key(k)) {
                (Some(d), Some(k)) => Self::PlanSwap(d, k),
                _ => Self::Plan,
            },
            ["log"] => Self::Log,
            ["log", "review"] => Self::Review,
            ["log", "next"] => Self::NextBlock,
            ["log", "exercise"] => Self::Exercises,
            ["log", "exercise", id] => Self::Exercise((*id).to_owned()),
            ["log", "muscles"] => Self::Muscles,
            ["log", "weight"] => Self::Weight,
            ["log", "year", year] => year.parse().map_or(Self::Log, Self::Year),
            ["log", id] => Self::LogSession((*id).to_owned()),
            ["kit"] => Self::Kit(KitPage::Index),
            ["kit", "equipment"] => Self::Kit(KitPage::Equipment),
            ["kit", "exercises"] => Self::Kit(KitPage::Exercises),
            ["kit", "exercises", id] => Self::OwnExercise((*id).to_owned()),
            ["kit", "spreadsheet"] => Self::Kit(KitPage::Spreadsheet),
            ["kit", "data"] => Self::Kit(KitPage::Data),
            ["kit", "others"] => Self::Kit(KitPage::Others),
            ["kit", "looks"] => Self::Kit(KitPage::Looks),
            ["kit", "cautions"] => Self::Kit(KitPage::Cautions),
            _ => Self::Today,
        }
    }

    /// The part of the address from `#` on.
    #[must_use]
    pub fn hash(&self) -> String {
        match self {
            Self::Today => "#/today".into(),
            Self::TodaySheet(TodaySheet::Whole) => "#/today/whole".into(),
            Self::TodaySheet(TodaySheet::Swap) => "#/today/swap".into(),
            Self::TodaySheet(TodaySheet::Load) => "#/today/load".into(),
            Self::TodaySheet(TodaySheet::More) => "#/today/more".into(),
            Self::Week => "#/week".into(),
            Self::Settle(day) => format!("#/week/{day}"),
            Self::Away => "#/week/away".into(),
            Self::Plan => "#/plan".into(),
            Self::PlanShape => "#/plan/shape".into(),
            Self::PlanFill(day, place) => format!("#/plan/{day}/fill/{place}"),
            Self::PlanCycles => "#/plan/cycle".into(),
            Self::PlanCycle(id) => format!("#/plan/cycle/{id}"),
            Self::PlanCycleDay(id, day) => format!("#/plan/cycle/{id}/{day}"),
            Self::PlanCompare => "#/plan/compare".into(),
            Self::PlanHand => "#/plan/hand".into(),
            Self::PlanCards => "#/plan/cards".into(),
            Self::PlanTake(text) => format!("#/take/{text}"),
            Self::PlanAdd(day) => format!("#/plan/{day}/add"),
            Self::PlanItem(day, key) => format!("#/plan/{day}/{key}"),
            Self::PlanSwap(day, key) => format!("#/plan/{day}/{key}/swap"),
            Self::Log => "#/log".into(),
            Self::Review => "#/log/review".into(),
            Self::NextBlock => "#/log/next".into(),
            Self::Exercises => "#/log/exercise".into(),
            Self::Exercise(id) => format!("#/log/exercise/{id}"),
            Self::Muscles => "#/log/muscles".into(),
            Self::Weight => "#/log/weight".into(),
            Self::Year(year) => format!("#/log/year/{year}"),
            Self::LogSession(id) => format!("#/log/{id}"),
            Self::Kit(KitPage::Index) => "#/kit".into(),
            Self::Kit(KitPage::Equipment) => "#/kit/equipment".into(),
            Self::Kit(KitPage::Exercises) => "#/kit/exercises".into(),
            Self::OwnExercise(id) => format!("#/kit/exercises/{id}"),
            Self::Kit(KitPage::Spreadsheet) => "#/kit/spreadsheet".into(),
            // What comes before anything else has no address of its own.
            Self::Restore | Self::Answers | Self::Crew | Self::Kit(KitPage::Data) => {
                "#/kit/data".into()
            }
            Self::Kit(KitPage::Others) => "#/kit/others".into(),
            Self::Kit(KitPage::Looks) => "#/kit/looks".into(),
            Self::Kit(KitPage::Cautions) => "#/kit/cautions".into(),
        }
    }

    /// Whether this place belongs under the navigation entry `top`.
    #[must_use]
    pub fn is_under(&self, top: &Self) -> bool {
        match top {
            Self::Today => matches!(self, Self::Today | Self::TodaySheet(_)),
            Self::Plan => matches!(
                self,
                Self::Plan
                    | Self::PlanShape
                    | Self::PlanCompare
                    | Self::PlanHand
                    | Self::PlanCards
                    | Self::PlanTake(_)
                    | Self::PlanAdd(_)
                    | Self::PlanFill(..)
                    | Self::PlanCycles
                    | Self::PlanCycle(_)
                    | Self::PlanCycleDay(..)
                    | Self::PlanItem(..)
                    | Self::PlanSwap(..)
            ),
            Self::Week => matches!(self, Self::Week | Self::Settle(_) | Self::Away),
            // The other places are told apart by their first word.
            Self::Log => self.hash().starts_with("#/log"),
            Self::Kit(_) => matches!(self, Self::Kit(_) | Self::OwnExercise(_)),
            other => self == other,
        }
    }
}

/// A new place starts at its top, and a screen reader is taken to its heading.
pub fn tell_place() {
    window().scroll_to_with_x_and_y(0.0, 0.0);
    // The place stands in the document a turn later.
    request_animation_frame(|| {
        let heading = document().query_selector("main h1, main h2");
        if let Ok(Some(heading)) = heading
            && let Ok(heading) = heading.dyn_into::<HtmlElement>()
        {
            heading.set_tab_index(-1);
            // Whoever has begun to scroll or to tap stays where they are.
            let still = FocusOptions::new();
            still.set_prevent_scroll(true);
            let _ = heading.focus_with_options(&still);
        }
    });
}

fn here() -> Route {
    Route::from_hash(&window().location().hash().unwrap_or_default())
}

/// A signal that follows the address. Call once, at the root.
#[must_use]
pub fn follow_address() -> Held<Route> {
    let route = Held::new(here());
    let follow = Closure::<dyn FnMut()>::new(move || {
        let next = here();
        if route.get_untracked() != next {
            route.set(next);
            if !matches!(route.get_untracked(), Route::TodaySheet(_)) {
                tell_place();
            }
        }
    });
    // The app lives as long as the page: the listener is never taken off.
    let _ =
        window().add_event_listener_with_callback("hashchange", follow.as_ref().unchecked_ref());
    follow.forget();
    route
}

/// Goes to a place, leaving the present one in the history.
pub fn go(route: &Route) {
    let _ = window().location().set_hash(&route.hash());
}

/// Goes back one step, as the phone's back button does.
pub fn back() {
    if let Ok(history) = window().history() {
        let _ = history.back();
    }
}

/// Goes to a place without leaving the present one in the history.
pub fn replace(route: &Route) {
    let _ = window().location().replace(&route.hash());
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn every_place_reads_back() {
        let places = [
            Route::Today,
            Route::TodaySheet(TodaySheet::Swap),
            Route::Week,
            Route::Plan,
            Route::Settle(Day::parse("2026-11-25").expect("a day")),
            Route::Away,
            Route::PlanShape,
            Route::PlanCompare,
            Route::PlanAdd(2),
            Route::PlanFill(2, 0),
            Route::PlanCycles,
            Route::PlanCycle("own-1".into()),
            Route::PlanCycleDay("own-1".into(), 3),
            Route::PlanItem(1, 12),
            Route::PlanSwap(1, 12),
            Route::Log,
            Route::Review,
            Route::LogSession("abc-1".into()),
            Route::Kit(KitPage::Data),
        ];
        for place in places {
            assert_eq!(Route::from_hash(&place.hash()), place);
        }
    }

    #[wasm_bindgen_test]
    fn nonsense_leads_to_today() {
        for hash in ["", "#", "#/nowhere", "#/plan/x/y/z/q"] {
            assert_eq!(Route::from_hash(hash), Route::Today, "{hash}");
        }
    }
}
