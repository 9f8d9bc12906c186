//! What the app knows, as signals made at the root so that none of them dies
//! with a screen.
//!
//! Start at [`App`]. Screens read signals and call the verbs here; every verb
//! shows its effect at once and then keeps it: journal first, then shelf.
//! "Saved" is said only after the commit.

use crate::editing::{CycleSteps, Steps};
use crate::effects::storage::{self, Keeper, Mode, SaveError};
use crate::effects::{clock, update};
use crate::held::{Derived, Held, later, untracked};
use crate::markup::Text;
use crate::on_demand::{Beyond, Desk};
use crate::route::{self, Route};
use crate::text::language::tr;
use crate::text::{errors, terms, words};
use leptos::prelude::set_timeout;
use std::cell::Cell;
use std::ops::Deref;
use std::time::Duration;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Catalogue, Exercise, ExerciseId};
use weekloom_engine::log::Performance;
use weekloom_engine::person::Person;
use weekloom_engine::plan::{OwnSplit, Plan, SplitId, plan_week};
use weekloom_engine::schedule::Repairs;
use weekloom_engine::session::{Event, Phase, Session};
use weekloom_store::{
    AcceptedPlan, Aside, Changes, Index, OwnExercises, Settings, Space, StoreError,
};

/// Whether the last change is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Saving {
    /// Everything is kept.
    Saved,
    /// A change is on its way.
    Underway,
    /// A change could not be kept and stands in memory only; the text says why.
    Failed(String),
    /// A change was refused, and nothing is different; the text says why.
    Refused(String),
}

impl From<&SaveError> for Saving {
    fn from(error: &SaveError) -> Self {
        let why = errors::save(error);
        match error {
            SaveError::NotKept { .. } => Self::Failed(why),
            SaveError::Refused(_) | SaveError::OtherWindow | SaveError::OnlyReading => {
                Self::Refused(why)
            }
        }
    }
}

/// The app: all that is [`Known`], and the verbs that change it. There is one
/// in a page, for as long as the page lives; once it was opened, it is found
/// with [`App::here`] from anywhere, and costs nothing to hand on.
#[derive(Clone, Copy)]
pub struct App(());

thread_local! {
    static KNOWN: Cell<Option<&'static Known>> = const { Cell::new(None) };
}

#[inline(never)]
fn known() -> &'static Known {
    KNOWN.get().expect("the app is opened before it is shown")
}

impl Deref for App {
    type Target = Known;

    fn deref(&self) -> &Known {
        known()
    }
}

/// Somebody else's log, while it is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// What they are called here.
    pub name: String,
    /// The day their file was made.
    pub made: Day,
}

/// Everything the app knows.
pub struct Known {
    /// Where the person is.
    pub route: Held<Route>,
    /// Own data or the demo's.
    pub space: Space,
    /// The person; `None` before the first opening is done.
    pub person: Held<Option<Person>>,
    /// The plan trained by.
    pub plan: Held<Option<AcceptedPlan>>,
    /// The steps back from edits of the plan, and forth again.
    pub steps: Held<Steps>,
    /// The same for one's own cycles.
    pub cycle_steps: Held<CycleSteps>,
    /// The running session.
    pub session: Held<Option<Session>>,
    /// Settings.
    pub settings: Held<Settings>,
    /// Totals and the latest sessions.
    pub index: Held<Index>,
    /// Values that could not be read.
    pub asides: Held<Vec<Aside>>,
    /// The present moment.
    pub now: Held<Moment>,
    /// The present day on the person's calendar.
    pub today: Derived<Day>,
    /// Whether the last change is kept.
    pub saving: Held<Saving>,
    /// How well this browser keeps things.
    pub mode: Held<Mode>,
    /// Whether a new version waits.
    pub is_update_waiting: Held<bool>,
    /// A short word on what just happened.
    pub notice: Held<Option<String>>,
    /// Whose log is read in place of one's own.
    pub reading: Held<Option<Reading>>,
    /// The built-in exercises and the person's own.
    catalogue: Cell<&'static Catalogue>,
    keeper: Keeper,
    /// The screens that are fetched when they are shown.
    pub beyond: Beyond,
}

impl App {
    /// Opens the store and reads the little that a start needs: never the
    /// history.
    pub async fn open(space: Space, desk: Desk) -> Self {
        // The browser opens its database meanwhile.
        let (opened, catalogue) =
            storage::both(storage::open(space), async { Catalogue::built_in() }).await;
        let now = clock::ticking();
        let reading: Held<Option<Reading>> = Held::new(None);
        // Somebody's log ends with the day its file was made.
        let today = move || match reading.with(|reading| reading.as_ref().map(|r| r.made)) {
            Some(made) => made,
            None => clock::day_of(now.get()),
        };
        let known = Known {
            route: route::follow_address(),
            space,
            person: Held::new(None),
            plan: Held::new(None),
            steps: Held::new(Steps::default()),
            cycle_steps: Held::new(CycleSteps::default()),
            session: Held::new(None),
            settings: Held::new(Settings::default()),
            index: Held::new(Index::default()),
            asides: Held::new(Vec::new()),
            now,
            today: Derived::new(today),
            saving: Held::new(Saving::Saved),
            mode: Held::new(opened.mode),
            is_update_waiting: update::waiting(),
            notice: Held::new(None),
            reading,
            catalogue: Cell::new(Box::leak(Box::new(catalogue))),
            keeper: opened.keeper,
            beyond: Beyond::new(desk),
        };
        KNOWN.set(Some(Box::leak(Box::new(known))));
        let app = Self(());
        app.read_kept();
        // Otherwise there are at most copies of before, which are looked for once
        // the first screen stands.
        if !opened.report.unreadable.is_empty() {
            app.find_asides();
        }
        if opened.mode == Mode::Follower {
            storage::reload_when_free(space);
            app.follow();
        }
        app
    }

    /// Shows what the window that writes keeps, as it keeps it. One change of
    /// its is several values, told one by one: they are read together.
    fn follow(self) {
        let app = self;
        let is_due: &'static Cell<bool> = Box::leak(Box::default());
        storage::on_change(move || {
            if !is_due.replace(true) {
                let read = move || {
                    is_due.set(false);
                    known().keeper.read_anew(app.space);
                    app.read_all();
                };
                set_timeout(read, Duration::from_millis(100));
            }
        });
    }

    /// The app of this page.
    #[must_use]
    pub fn here() -> Self {
        Self(())
    }

    /// Reads the signals afresh from the store. What cannot be read is set
    /// aside by the store and shown in a banner; the rest works.
    pub fn read_all(self) {
        self.read_kept();
        self.find_asides();
    }

    /// Looks for values that could not be read.
    pub fn find_asides(self) {
        self.asides.set(self.ask(|store| store.set_aside()));
    }

    fn read_kept(self) {
        self.ask(|store| {
            self.person.set(store.load_person().unwrap_or_default());
            self.plan.set(store.load_plan().unwrap_or_default());
            self.session.set(store.load_now().unwrap_or_default());
            self.settings.set(store.load_settings().unwrap_or_default());
            self.index.set(store.index());
            self.join(&store.load_exercises().unwrap_or_default());
        });
        self.find_steps();
    }

    /// Puts own exercises beside the built-in ones. What stood there before is
    /// left where it is: views still point to it, and it is a list of pointers.
    pub fn join(self, own: &OwnExercises) {
        let known = known();
        let now = known.catalogue.get();
        let joined = own.beside(&now.without_own());
        if joined != *now {
            known.catalogue.set(Box::leak(Box::new(joined)));
        }
    }

    /// Whether somebody else's log is read in place of one's own.
    #[must_use]
    pub fn is_reading(self) -> bool {
        self.reading.with(Option::is_some)
    }

    /// Puts somebody else's log before one's own, or takes it away.
    pub fn read_theirs(self, theirs: Option<storage::AppStore>) {
        known().keeper.read_theirs(theirs);
    }

    /// The exercises of the person's own making.
    #[must_use]
    pub fn own_exercises(self) -> OwnExercises {
        self.ask(|store| store.load_exercises().unwrap_or_default())
    }

    /// Takes up the exercises of the person's own making and keeps them.
    pub fn set_own_exercises(self, own: &OwnExercises) {
        self.keep(self.ask(|store| store.save_exercises(own)));
        self.join(own);
    }

    /// Looks through everything kept, past sessions too, for values that
    /// cannot be read. Slower than the check at start: for the data screen.
    pub fn check_all(self) {
        self.asides.set(self.ask(|store| store.check_all()));
    }

    /// The exercises.
    #[must_use]
    pub fn catalogue(self) -> &'static Catalogue {
        known().catalogue.get()
    }

    /// An exercise by its id.
    #[must_use]
    pub fn exercise(self, id: &ExerciseId) -> Option<&'static Exercise> {
        self.catalogue().get(id)
    }

    /// The name of an exercise; its id where the catalogue has lost it.
    #[must_use]
    pub fn name_of(self, id: &ExerciseId) -> Text {
        match self.exercise(id) {
            Some(exercise) => terms::exercise(exercise),
            None => id.as_str().replace('-', " ").into(),
        }
    }

    /// The name of the exercise under a key of a plan.
    #[must_use]
    pub fn name_in(self, plan: &Plan, key: u16) -> Text {
        plan.find(key)
            .map(|(_, item)| self.name_of(&item.prescription.exercise))
            .unwrap_or_default()
    }

    /// The name of a split, the person's own included, with a second line.
    #[must_use]
    pub fn split_name(self, id: &SplitId) -> (String, &'static str) {
        let own = self.person.with(|person| {
            let mut own = person.iter().flat_map(|p| &p.own_splits);
            own.find(|own| &own.split.id == id)
                .map(|own| own.name.clone())
        });
        match own {
            Some(name) => (name, words::OWN_CYCLE),
            // One that was removed; a plan made by it still stands.
            None if id.as_str().starts_with(OwnSplit::SLUG) => {
                (tr(words::OWN_CYCLE).to_owned(), "")
            }
            None => terms::split(id.as_str()),
        }
    }

    /// The latest performances of an exercise, oldest first.
    #[must_use]
    pub fn history(self, id: &ExerciseId) -> Vec<Performance> {
        self.ask(|store| store.history(id))
    }

    /// Asks the store something.
    pub fn ask<T>(self, question: impl FnOnce(&storage::AppStore) -> T) -> T {
        known().keeper.with_store(question)
    }

    /// Keeps changes, unless the store refused to make them.
    pub fn keep(self, made: Result<Changes, StoreError>) {
        match made {
            Ok(changes) => self.commit(changes),
            Err(error) => self.saving.set(Saving::Refused(errors::store(&error))),
        }
    }

    fn commit(self, changes: Changes) {
        self.commit_then(changes, Box::new(|| {}));
    }

    /// Keeps changes, and goes on once that is done or has failed.
    fn commit_then(self, changes: Changes, then: Box<dyn FnOnce()>) {
        let app = self;
        app.saving.set(Saving::Underway);
        let committing = known().keeper.commit(changes, clock::now());
        later(async move {
            let said = match committing.await {
                Ok(_) => Saving::Saved,
                Err(error) => Saving::from(&error),
            };
            then();
            app.saving.set(said);
        });
    }

    /// Takes up a person and keeps them.
    pub fn set_person(self, person: Person) {
        self.keep(self.ask(|store| store.save_person(&person)));
        self.person.set(Some(person));
    }

    /// Takes up settings and keeps them.
    pub fn change_settings(self, change: &dyn Fn(&mut Settings)) {
        let mut settings = self.settings.get_untracked();
        change(&mut settings);
        self.keep(self.ask(|store| store.save_settings(&settings)));
        self.settings.set(settings);
    }

    /// Makes a plan for the person and keeps both together; they are shown once
    /// they are kept, so that nothing seen is lost with the page.
    ///
    /// # Errors
    /// In words, when no plan can be made.
    pub fn weave(self, person: Person, then: &Route) -> Result<(), String> {
        let plan = plan_week(self.catalogue(), &person).map_err(|e| errors::plan(&e))?;
        self.begin(person, plan, Changes::none(), then);
        Ok(())
    }

    /// Takes up a whole new plan for a person once both are kept, with whatever
    /// belongs to them, and goes to a place.
    pub fn begin(self, person: Person, plan: Plan, also: Changes, then: &Route) {
        let accepted = AcceptedPlan {
            plan,
            accepted: self.today.get_untracked(),
            weekdays: person.days.clone(),
            repairs: Repairs {
                // Whoever plans anew in a pause still pauses.
                pause: self
                    .plan
                    .with_untracked(|p| p.as_ref().and_then(|p| p.repairs.pause)),
                ..Repairs::default()
            },
        };
        let made: Result<Changes, StoreError> = self.ask(|store| {
            let both = store.save_person(&person)?.and(store.save_plan(&accepted)?);
            Ok(both.and(also))
        });
        let then = then.clone();
        match made {
            Ok(changes) => self.commit_then(
                changes,
                Box::new(move || {
                    self.remember(tr(words::NEW_PLAN).to_owned());
                    self.plan.set(Some(accepted));
                    self.person.set(Some(person));
                    self.keep_steps();
                    route::replace(&then);
                }),
            ),
            Err(error) => self.saving.set(Saving::Refused(errors::store(&error))),
        }
    }

    /// Begins the plan's day `plan_day` today.
    pub fn start_session(self, plan_day: u8) {
        let now = clock::now();
        let today = self.today.get_untracked();
        let Some(planned) = untracked(&|| self.planned(plan_day, today)) else {
            return;
        };
        let is_deload = self.lighter_until().is_some();
        let planned = &self.as_today(&planned);
        let session = Session::plan(&session_id(now), today, plan_day, is_deload, planned);
        if let Ok(session) = session.apply(&Event::Start, now) {
            self.take_up(session);
        }
    }

    /// Applies an event to the running session and keeps the outcome.
    ///
    /// # Errors
    /// In words, when the session refuses it.
    pub fn act(self, event: &Event) -> Result<(), String> {
        self.act_all(std::slice::from_ref(event))
    }

    /// Applies events in order, all or none, and keeps the outcome once.
    ///
    /// # Errors
    /// In words, when the session refuses one of them.
    pub fn act_all(self, events: &[Event]) -> Result<(), String> {
        let Some(mut session) = self.session.get_untracked() else {
            return Err(errors::no_session());
        };
        let now = clock::now();
        for event in events {
            session = session
                .apply(event, now)
                .map_err(|refusal| errors::refusal(&refusal))?;
        }
        self.take_up(session);
        Ok(())
    }

    /// Mends the rest timer after the wall clock was set.
    pub fn reclock(self) {
        let mended = self
            .session
            .with_untracked(|s| s.as_ref().and_then(|s| s.reclocked(clock::now())));
        if let Some(session) = mended {
            self.take_up(session);
        }
    }

    fn take_up(self, session: Session) {
        if matches!(session.phase, Phase::Finished { .. }) {
            self.keep(self.ask(|store| store.finish_session(&session)));
        } else {
            self.keep(self.ask(|store| store.save_now(&session)));
        }
        self.session.set(Some(session));
    }

    /// Puts a finished session out of sight; it is in the log.
    pub fn leave_finished(self) {
        self.session.set(None);
        self.refresh_index();
    }

    /// Reads the index again.
    pub fn refresh_index(self) {
        self.index.set(self.ask(|store| store.index()));
    }

    /// Drops a session that holds no set.
    pub fn discard_session(self) {
        self.commit(self.ask(|store| store.discard_now()));
        self.session.set(None);
    }

    /// Keeps an amended past session.
    pub fn amend_past(self, session: &Session) {
        self.keep(self.ask(|store| store.save_session(session)));
        self.refresh_index();
    }

    /// Applies changes worked out elsewhere (an import, a deletion) and reads
    /// everything afresh once they are kept.
    pub fn replace_with(self, changes: Changes) {
        self.commit_then(changes, Box::new(move || self.read_all()));
    }

    /// Deletes the demo's logs and goes back to one's own.
    pub fn leave_demo(self) {
        let changes = self.ask(|store| store.delete_all());
        let committing = known().keeper.commit(changes, clock::now());
        later(async move {
            // Should the deletion fail, the demo is found again next time;
            // one's own data is elsewhere either way.
            let _ = committing.await;
            storage::choose_space(Space::Own);
        });
    }

    /// A short word on what just happened; it goes by itself.
    pub fn tell(self, text: impl Into<Text>) {
        let text = match text.into() {
            Text::Borrowed(fixed) => tr(fixed).to_owned(),
            Text::Owned(made) => made,
        };
        let notice = self.notice;
        notice.set(Some(text.clone()));
        set_timeout(
            move || {
                if notice.get_untracked().as_ref() == Some(&text) {
                    notice.set(None);
                }
            },
            std::time::Duration::from_secs(6),
        );
    }
}

/// Sortable by start, and with a tail that two phones will not share.
fn session_id(now: Moment) -> String {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a random number below 36^3"
    )]
    let tail = (js_sys::Math::random() * 46_656.0) as u32;
    format!("{:011}-{tail:05}", now.0 / 1000)
}
