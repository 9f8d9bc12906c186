//! What can be drawn up over the session: the whole of it, swaps, plates and
//! warm-up, and the rest.

mod load;
mod more;
mod short;
mod swap;
mod whole;

use crate::markup::{Tag, View, rows, tag};
use crate::on_demand;
use crate::parts::sheet;
use crate::route::{self, Route, TodaySheet};
use crate::state::App;
use crate::text::words;
use weekloom_engine::catalogue::Exercise;
use weekloom_engine::session::{Event, SessionItem};

/// The sheet of the present route, if any.
pub fn sheets() -> View {
    let app = App::here();
    let open = move || match app.route.get() {
        Route::TodaySheet(_) => vec![app.route.with(Route::hash)],
        _ => Vec::new(),
    };
    let drawn = move |hash: &str| match Route::from_hash(hash) {
        // How it hurts, and the way out, never wait for anything.
        Route::TodaySheet(TodaySheet::More) => sheet(words::MORE, more::more(app)),
        Route::TodaySheet(TodaySheet::Swap) => sheet(words::SWAP_FOR, piece(TodaySheet::Swap)),
        Route::TodaySheet(TodaySheet::Load) => sheet(words::LOAD_UP, piece(TodaySheet::Load)),
        _ => sheet(words::WHOLE_SESSION, piece(TodaySheet::Whole)),
    };
    rows(open, drawn)
}

/// The whole session beside the set that is up, on a wide screen.
pub fn beside() -> Tag {
    tag("aside", "gym__beside")
        .attr("aria-label", words::WHOLE_SESSION)
        .with(piece(TodaySheet::Whole))
}

fn piece(sheet: TodaySheet) -> View {
    on_demand::piece(Route::TodaySheet(sheet))
}

/// The inside of a sheet that is fetched when it is first drawn up.
pub fn inside(sheet: TodaySheet) -> View {
    let app = App::here();
    match sheet {
        TodaySheet::Swap => swap::swap(app),
        TodaySheet::Load => load::load_up(app),
        // "More" is in the first load.
        TodaySheet::Whole | TodaySheet::More => whole::whole(app),
    }
}

/// The item that is up.
fn up(app: App) -> Option<(usize, SessionItem, &'static Exercise)> {
    app.session.with_untracked(|s| {
        let s = s.as_ref()?;
        let index = s.current?;
        let item = s.items.get(index)?.clone();
        let exercise = app.exercise(&item.prescription.exercise)?;
        Some((index, item, exercise))
    })
}

fn act_and_close(app: App, event: &Event) {
    match app.act(event) {
        // The whole session also stands beside the set, where there is room.
        Ok(()) if app.route.with_untracked(|r| *r == Route::Today) => {}
        Ok(()) => route::back(),
        Err(words) => app.tell(words),
    }
}
