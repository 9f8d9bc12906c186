//! A sheet drawn up over the screen: a modal dialog that the back button, the
//! Escape key and its own button close alike.

use crate::route;
use crate::text::words;
use leptos::html::Dialog;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// A modal sheet with a title. It stands in the history, so closing is going
/// back.
#[component]
pub fn Sheet(
    /// Title, read out when it opens.
    #[prop(into)]
    title: Signal<String>,
    /// What it holds.
    children: Children,
) -> impl IntoView {
    let dialog = NodeRef::<Dialog>::new();
    Effect::new(move |_| {
        if let Some(dialog) = dialog.get()
            && !dialog.open()
        {
            let _ = dialog.show_modal();
        }
    });
    view! {
        <dialog
            class="sheet"
            node_ref=dialog
            aria-labelledby="sheet-title"
            on:cancel=move |event: web_sys::Event| {
                event.prevent_default();
                route::back();
            }
            on:click=move |event| {
                // A tap beside the sheet lands on the dialog itself.
                let is_beside = event
                    .target()
                    .and_then(|target| target.dyn_into::<web_sys::HtmlDialogElement>().ok())
                    .is_some();
                if is_beside {
                    route::back();
                }
            }
        >
            <div class="sheet__body">
                <div class="sheet__head">
                    <h2 id="sheet-title">{title}</h2>
                    <button type="button" class="button" on:click=move |_| route::back()>
                        {words::CLOSE}
                    </button>
                </div>
                {children()}
            </div>
        </dialog>
    }
}
