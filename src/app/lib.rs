//! The Leptos app: a thin shell over the engine and the store.
//!
//! Start at [`start`]; then [`state::App`] for what the app knows, [`route`]
//! for where one is, and [`screens`] for what one sees. Nothing here does sums
//! on loads or days: the engine does.

pub mod course;
pub mod editing;
pub mod effects;
pub mod held;
pub mod lifting;
pub mod markup;
pub mod on_demand;
pub mod parts;
pub mod route;
pub mod screens;
pub mod state;
pub mod text;

use leptos::mount::mount_to_renderer;
use leptos::prelude::{document, set_timeout};
use on_demand::Desk;
use state::App;
use std::time::Duration;

/// Opens the store, then mounts the app in place of the shell page.
pub fn start(desk: Desk) {
    // A panic ends in a trap; the boot script shows the plain words for it.
    console_error_panic_hook::set_once();
    // The framework's own executor starts with the mount, which waits for this.
    held::later(async move {
        effects::language::take_up().await;
        let app = App::open(effects::storage::chosen_space(), desk).await;
        if let Some(shell) = document().get_element_by_id("shell") {
            shell.remove();
        }
        let Some(body) = document().body() else {
            return;
        };
        // It stands as long as the page does.
        mount_to_renderer(&body, screens::root).forget();
        // The first screen is painted before the others are on their way.
        let rest = move || {
            app.beyond.fetch();
            app.find_asides();
        };
        set_timeout(rest, Duration::from_millis(300));
    });
}
