//! A hold on the clock: begun beside the seconds, ended by the wide button,
//! and then a number like any other.

use crate::effects::{clock, sound};
use crate::held::{Held, effect};
use crate::markup::{View, button, live, tag};
use crate::state::App;
use crate::text::{dates, words};
use weekloom_engine::calendar::Moment;
use weekloom_engine::session::held_s;
use weekloom_store::Sound;

/// The clock of one set.
#[derive(Clone, Copy)]
pub(super) struct Hold {
    app: App,
    set: (usize, usize),
    since: Held<Option<Moment>>,
    count: Held<u16>,
}

impl Hold {
    /// The clock of a set; one that runs since before a reload runs on.
    pub(super) fn new(app: App, set: (usize, usize), count: Held<u16>) -> Self {
        let since = Held::new(app.hold_of(set));
        let hold = Self {
            app,
            set,
            since,
            count,
        };
        let mut announced = None;
        effect(move || {
            let Some(since) = since.get() else { return };
            let is_reached = held_s(since, app.now.get()) >= Some(count.get());
            if is_reached && announced != Some(since) {
                announced = Some(since);
                if app.settings.with_untracked(|settings| settings.sound) == Sound::On {
                    sound::rest_is_over();
                }
            }
        });
        hold
    }

    /// Does the clock run?
    pub(super) fn is_on(self) -> bool {
        self.since.get().is_some()
    }

    fn set_since(self, since: Option<Moment>) {
        self.app.keep_hold(self.set, since);
        self.since.set(since);
    }

    /// Ends the hold; its seconds are the number in hand.
    pub(super) fn stop(self) {
        let Some(since) = self.since.get_untracked() else {
            return;
        };
        match held_s(since, clock::now()) {
            Some(seconds) => self.count.set(seconds),
            None => self.app.tell(words::HOLD_UNKNOWN),
        }
        self.set_since(None);
    }

    /// The button that begins, then the seconds as they pass.
    pub(super) fn shown(self) -> View {
        let begin = move || {
            sound::unlock();
            self.set_since(Some(clock::now()));
        };
        live(move || match self.since.get() {
            None => button("button button--wide", words::HOLD, begin),
            Some(since) => {
                let seconds = live(move || {
                    let held = held_s(since, self.app.now.get()).unwrap_or_default();
                    dates::clock(held.into())
                });
                let aim = live(move || words::of_seconds(self.count.get()));
                tag("p", "hold")
                    .with(tag("span", "figure").attr("role", "timer").with(seconds))
                    .with(tag("span", "soft").with(aim))
            }
        })
    }
}
