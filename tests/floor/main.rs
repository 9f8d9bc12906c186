//! The floor: the smallest app of the same framework that keeps a value in local storage
//! and draws a keyed list. `cargo xtask bench --start` builds it as the app is built, in
//! the same page, and starts both in turn; it is never shipped.

use gloo_storage::{LocalStorage, Storage};
use leptos::prelude::*;

const KEY: &str = "weekloom-floor";

fn main() {
    console_error_panic_hook::set_once();
    if let Some(shell) = document().get_element_by_id("shell") {
        shell.remove();
    }
    mount_to_body(list);
}

fn list() -> impl IntoView {
    let kept: Vec<u32> = LocalStorage::get(KEY).unwrap_or_default();
    let (numbers, set_numbers) = signal(kept);
    let add = move |_| {
        set_numbers.update(|list| list.push(list.last().map_or(1, |last| last + 1)));
        // A full store costs the floor nothing: it has nothing to lose.
        let _ = LocalStorage::set(KEY, numbers.get_untracked());
    };
    view! {
        <main>
            <h1>"Floor"</h1>
            <button on:click=add>"Add"</button>
            <ul>
                <For each=move || numbers.get() key=|number| *number let:number>
                    <li>{number}</li>
                </For>
            </ul>
        </main>
    }
}
