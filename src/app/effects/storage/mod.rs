//! Keeping things in the browser: the journal in IndexedDB, the shelf in local
//! storage, and one window that writes.
//!
//! Start at [`open`], then [`Keeper`]. A change is journalled with strict
//! durability and only then put on the shelf; [`Keeper::commit`] answers after
//! the journal's transaction is complete. Where a browser denies one of the
//! two, the other serves; [`Mode`] says how safe that is.
//!
//! Nothing here is decided: what to write and what to replay is the store's
//! business.

mod database;
mod journal;
mod once;
pub mod others;
mod shelf;
mod space;
mod writer;

pub use space::{choose_space, chosen_space, session_storage};
pub use writer::{on_change, reload_when_free};

use crate::effects::clock;
use database::Failed;
use journal::Journal;
use once::Once;
use shelf::LocalShelf;
use std::cell::RefCell;
use std::fmt;
use std::future::{Future, poll_fn};
use std::pin::pin;
use std::rc::Rc;
use std::task::Poll;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use weekloom_engine::calendar::Moment;
use weekloom_store::{
    Changes, Intent, JournalRecord, MemoryShelf, OpenReport, Shelf, ShelfError, Space, Store,
    StoreError,
};
use writer::Writer;

/// The store over whichever shelf this browser allows.
pub type AppStore = Store<Box<dyn Shelf>>;

/// How well this browser keeps things.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// Journal and shelf: what is saved survives a dying phone.
    Durable,
    /// No local storage: the journal alone, as durable.
    JournalOnly,
    /// No IndexedDB: a phone that dies may lose the last minute or so.
    ShelfOnly,
    /// Neither: all is lost with the page.
    Memory,
    /// Another window of the app writes; this one only reads. See
    /// [`reload_when_free`] and [`Keeper::read_anew`].
    Follower,
}

/// A change was kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Saved {
    /// Whether the journal has it; else only the shelf.
    pub is_durable: bool,
    /// What the shelf refused. With the journal it is safe all the same, but
    /// the person should make room.
    pub missed: Vec<(String, ShelfError)>,
}

/// A change was not kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SaveError {
    /// The store refused it; nothing changed.
    Refused(StoreError),
    /// Another window writes; nothing changed.
    OtherWindow,
    /// Somebody else's log is being read; nothing changed.
    OnlyReading,
    /// Neither journal nor shelf took it. It is in memory and goes with the
    /// next change that is kept.
    NotKept {
        /// What the journal said.
        journal: String,
        /// What the shelf said.
        shelf: String,
    },
}

impl fmt::Display for SaveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(error) => error.fmt(f),
            Self::OtherWindow => {
                f.write_str("another window of the app is open; close it, then change this one")
            }
            Self::OnlyReading => f.write_str(
                "the log of another is being read; go back to your own to change something",
            ),
            Self::NotKept { journal, shelf } => write!(
                f,
                "this browser did not keep the change (journal: {journal}; local storage: {shelf}); export a backup before you close the page"
            ),
        }
    }
}

impl std::error::Error for SaveError {}

/// What [`open`] found.
pub struct Opened {
    /// Reads and keeps things from now on.
    pub keeper: Keeper,
    /// What the store reports.
    pub report: OpenReport,
    /// How well this browser keeps things.
    pub mode: Mode,
}

/// Reads and keeps things. Cheap to clone; all clones are the same keeper.
#[derive(Clone)]
pub struct Keeper {
    store: Rc<RefCell<AppStore>>,
    /// Somebody else's log, which questions go to while it is read.
    theirs: Rc<RefCell<Option<AppStore>>>,
    journal: Result<Rc<Journal>, Failed>,
    mode: Mode,
    /// Held for as long as anything may be written.
    _writer: Option<Rc<Writer>>,
}

/// Opens what is kept in a space.
pub async fn open(space: Space) -> Opened {
    // The database is opened meanwhile, but read only once this window is elected: until
    // then another may still be writing.
    let (writer, journal) = both(writer::elect(space), Journal::open(space)).await;
    let (writer, journal) = (writer.map(Rc::new), journal.map(Rc::new));
    let (journal, records) = match journal {
        Ok(journal) => match journal.read().await {
            Ok(records) => (Ok(journal), records),
            // A journal that cannot be read is not written to either: its
            // numbers are unknown.
            Err(error) => (Err(error), Vec::new()),
        },
        Err(error) => (Err(error), Vec::new()),
    };
    let local = LocalShelf::probe();
    let mode = match (&writer, &journal, &local) {
        (None, _, _) => Mode::Follower,
        (Some(_), Ok(_), Ok(_)) => Mode::Durable,
        (Some(_), Ok(_), Err(_)) => Mode::JournalOnly,
        (Some(_), Err(_), Ok(_)) => Mode::ShelfOnly,
        (Some(_), Err(_), Err(_)) => Mode::Memory,
    };
    let shelf: Box<dyn Shelf> = match local {
        // A follower works on a copy: replaying is the writer's business.
        Ok(local) if mode == Mode::Follower => Box::new(copy(&local, space)),
        Ok(local) => Box::new(local),
        Err(_) => Box::new(MemoryShelf::new()),
    };
    let (store, report) = Store::open(shelf, space, records);
    if mode != Mode::Follower
        && let Ok(journal) = &journal
    {
        let (journal, surplus) = (Rc::clone(journal), store.trimmable(clock::now()));
        // A failure costs nothing but room: the next start tries again.
        spawn_local(async move {
            let _ = journal.delete(&surplus).await;
        });
    }
    let keeper = Keeper {
        store: Rc::new(RefCell::new(store)),
        theirs: Rc::default(),
        journal,
        mode,
        _writer: writer,
    };
    Opened {
        keeper,
        report,
        mode,
    }
}

fn copy(local: &LocalShelf, space: Space) -> MemoryShelf {
    let mut copy = MemoryShelf::new();
    let ours = |key: &String| key.starts_with(space.prefix());
    for key in local.keys().into_iter().filter(ours) {
        if let Some(value) = local.get(&key) {
            // Memory without a quota takes everything.
            let _ = copy.set(&key, &value);
        }
    }
    copy
}

impl Keeper {
    /// Asks the store something.
    pub fn with_store<T>(&self, question: impl FnOnce(&AppStore) -> T) -> T {
        match &*self.theirs.borrow() {
            Some(theirs) => question(theirs),
            None => question(&self.store.borrow()),
        }
    }

    /// Puts somebody else's log before the person's own, or takes it away.
    /// Nothing can be kept meanwhile; what is being kept goes on into one's own.
    pub fn read_theirs(&self, theirs: Option<AppStore>) {
        self.theirs.replace(theirs);
    }

    /// Takes up what the window that writes has put on the shelf since; for a
    /// follower, whose copy grows old. The shelf comes after the journal, so
    /// what is read here is safe.
    pub fn read_anew(&self, space: Space) {
        if let Ok(local) = LocalShelf::probe() {
            let shelf: Box<dyn Shelf> = Box::new(copy(&local, space));
            self.store.replace(Store::open(shelf, space, Vec::new()).0);
        }
    }

    /// Keeps changes. Reads see them at once; the answer comes when they are
    /// safe. The work goes on even if nobody waits for the answer.
    pub fn commit(
        &self,
        changes: Changes,
        now: Moment,
    ) -> impl Future<Output = Result<Saved, SaveError>> + 'static + use<> {
        let answer = Once::new();
        match self.prepare(changes, now) {
            Ok(record) => {
                let (keeper, answer) = (self.clone(), answer.clone());
                spawn_local(async move { answer.give(keeper.write(record).await) });
            }
            Err(error) => answer.give(Err(error)),
        }
        answer
    }

    fn prepare(&self, changes: Changes, now: Moment) -> Result<JournalRecord, SaveError> {
        if self.mode == Mode::Follower {
            return Err(SaveError::OtherWindow);
        }
        if self.theirs.borrow().is_some() {
            return Err(SaveError::OnlyReading);
        }
        let mut store = self.store.borrow_mut();
        store.prepare(changes, now).map_err(SaveError::Refused)
    }

    async fn write(&self, record: JournalRecord) -> Result<Saved, SaveError> {
        let journalled = match &self.journal {
            Ok(journal) => journal.write(&record).await,
            Err(error) => Err(error.clone()),
        };
        let missed = self.store.borrow_mut().commit(&record).missed;
        let is_on_shelf = self.mode != Mode::JournalOnly && self.mode != Mode::Memory;
        match journalled {
            Ok(()) => {
                if let (Intent::Erase, Ok(journal)) = (record.intent, &self.journal) {
                    // The records before still hold what was deleted. Should
                    // this fail, they are trimmed in their time.
                    let _ = journal.delete_before(record.seq).await;
                }
                Ok(Saved {
                    is_durable: true,
                    missed,
                })
            }
            Err(_) if is_on_shelf && missed.is_empty() => Ok(Saved {
                is_durable: false,
                missed,
            }),
            Err(error) => {
                self.store.borrow_mut().mark_unkept(&record);
                let shelf = match missed.first() {
                    Some((_, refused)) => refused.to_string(),
                    None => ShelfError::Denied.to_string(),
                };
                Err(SaveError::NotKept {
                    journal: error.to_string(),
                    shelf,
                })
            }
        }
    }
}

/// Awaits two things at once; the first is begun first.
pub async fn both<A, B>(first: impl Future<Output = A>, second: impl Future<Output = B>) -> (A, B) {
    let (mut first, mut second) = (pin!(first), pin!(second));
    let (mut one, mut other) = (None, None);
    poll_fn(|context| {
        if one.is_none()
            && let Poll::Ready(found) = first.as_mut().poll(context)
        {
            one = Some(found);
        }
        if other.is_none()
            && let Poll::Ready(found) = second.as_mut().poll(context)
        {
            other = Some(found);
        }
        match (one.take(), other.take()) {
            (Some(one), Some(other)) => Poll::Ready((one, other)),
            (first, second) => {
                (one, other) = (first, second);
                Poll::Pending
            }
        }
    })
    .await
}

/// Asks the browser not to evict what is kept. Ask after the first finished
/// session, when there is something to lose; browsers may ask the person.
/// True when it was granted.
pub async fn ask_to_persist() -> bool {
    let asked = web_sys::window()
        .map(|window| window.navigator().storage())
        .and_then(|storage| storage.persist().ok());
    match asked {
        Some(promise) => JsFuture::from(promise)
            .await
            .is_ok_and(|granted| granted.is_truthy()),
        None => false,
    }
}
