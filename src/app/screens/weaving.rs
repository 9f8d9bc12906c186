//! A week being woven, and the word that it is: where sessions are short that takes
//! seconds on a slow phone, in which the page stands still.

use crate::held::Held;
use crate::markup::{View, live};
use crate::route::Route;
use crate::state::App;
use crate::text::words;
use leptos::prelude::set_timeout;
use std::time::Duration;
use weekloom_engine::person::Person;

/// Long enough for a frame to be painted.
pub const PAINTED: Duration = Duration::from_millis(50);

/// Whether a week is being woven, and why it could not be.
#[derive(Clone, Copy)]
pub struct Weaving {
    is_on: Held<bool>,
    /// Why it could not be, in words.
    pub error: Held<Option<String>>,
}

impl Weaving {
    /// None is.
    pub fn idle() -> Self {
        Self {
            is_on: Held::new(false),
            error: Held::new(None),
        }
    }

    /// Weaves a week for the person once the word of it is painted, and goes to a
    /// place. A second tap meanwhile does nothing.
    pub fn begin(self, app: App, person: Person, then: Route) {
        if self.is_on.get_untracked() {
            return;
        }
        self.error.set(None);
        self.is_on.set(true);
        let weave = move || {
            self.error.set(app.weave(person, &then).err());
            self.is_on.set(false);
        };
        set_timeout(weave, PAINTED);
    }

    /// What the button says that begins it.
    pub fn name(self, usual: impl Fn() -> &'static str + 'static) -> View {
        live(move || {
            if self.is_on.get() {
                words::WEAVING
            } else {
                usual()
            }
        })
    }
}
