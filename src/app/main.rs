//! The Leptos app.
use leptos::prelude::*;

fn main() {
    leptos::mount::mount_to_body(|| view! { <p>"Weekloom"</p> });
}
