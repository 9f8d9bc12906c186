//! Choosing a file, and its text.

use crate::effects::file;
use crate::held::later;
use crate::markup::{Tag, tag};
use crate::text::words;
use leptos::prelude::event_target;
use std::rc::Rc;
use web_sys::HtmlInputElement;

/// A button that lets a file be chosen. What comes of it: its text, or in
/// words why there is none. A file of more than `most_bytes` is not read.
pub fn file_choice(
    name: &'static str,
    accept: &'static str,
    most_bytes: usize,
    take: impl Fn(Result<String, &'static str>) + 'static,
) -> Tag {
    let take = Rc::new(take);
    let input = tag("input", "unseen")
        .attr("type", "file")
        .attr("accept", accept)
        .on("change", move |event| {
            let input: HtmlInputElement = event_target(&event);
            let Some(file) = input.files().and_then(|files| files.get(0)) else {
                return;
            };
            let take = Rc::clone(&take);
            later(async move {
                #[expect(clippy::cast_precision_loss, reason = "a file size, compared roughly")]
                let is_too_large = file.size() > most_bytes as f64;
                take(if is_too_large {
                    Err(words::FILE_TOO_LARGE)
                } else {
                    let text = file::read(&file).await;
                    text.map_err(|_| words::FILE_UNREADABLE)
                });
                // The same file may be chosen again.
                input.set_value("");
            });
        });
    tag("label", "button button--wide file-button")
        .with(name)
        .with(input)
}
