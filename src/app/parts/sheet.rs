//! A sheet drawn up over the screen: a modal dialog that the back button, the
//! Escape key and its own button close alike.

use crate::markup::{View, button, tag};
use crate::route;
use crate::text::words;
use wasm_bindgen::JsCast;
use web_sys::HtmlDialogElement;

/// A modal sheet with a title, read out when it opens. It stands in the
/// history, so closing is going back.
pub fn sheet(title: &'static str, holds: View) -> View {
    let head = tag("div", "sheet__head")
        .with(tag("h2", "").attr("id", "sheet-title").with(title))
        .with(button("button", words::CLOSE, route::back));
    tag("dialog", "sheet")
        .attr("aria-labelledby", "sheet-title")
        .on("cancel", |event| {
            event.prevent_default();
            route::back();
        })
        .on("click", |event| {
            // A tap beside the sheet lands on the dialog itself.
            let is_beside = event
                .target()
                .is_some_and(|target| target.is_instance_of::<HtmlDialogElement>());
            if is_beside {
                route::back();
            }
        })
        .on_shown(|dialog| {
            if let Some(dialog) = dialog.dyn_ref::<HtmlDialogElement>()
                && !dialog.open()
            {
                let _ = dialog.show_modal();
            }
        })
        .with(tag("div", "sheet__body").with(head).with(holds))
        .into()
}
