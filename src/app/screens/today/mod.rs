//! Today: the session as it runs, its account when it is done, or what comes
//! next.

mod finished;
mod hold;
mod next;
mod rail;
mod rest;
mod running;
mod set;
mod sheets;

pub use finished::account;
pub use rest::announce;
pub use set::effort;

use crate::markup::{View, by_key};
use crate::route::TodaySheet;
use crate::state::App;
use weekloom_engine::session::Phase;

/// What today holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Holds {
    Running,
    Finished,
    Nothing,
}

fn held(app: App) -> Holds {
    app.session.with(|session| match session {
        Some(s) if matches!(s.phase, Phase::Finished { .. }) => Holds::Finished,
        Some(_) => Holds::Running,
        None => Holds::Nothing,
    })
}

/// The inside of a sheet: beyond the cut.
pub fn sheet(sheet: TodaySheet) -> View {
    sheets::inside(sheet)
}

/// Today.
pub fn today() -> View {
    let app = App::here();
    let screen = move || match held(app) {
        Holds::Running => running::running().into(),
        Holds::Finished => finished::finished(),
        Holds::Nothing => next::next(),
    };
    by_key(move || (held(app) as u8).to_string(), screen)
}
