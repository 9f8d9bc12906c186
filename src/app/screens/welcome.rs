//! The first opening: who should be careful, and the way to the questions.

use super::soft;
use crate::held::Held;
use crate::markup::{Tag, View, button, by_key, live, tag};
use crate::on_demand;
use crate::parts::languages;
use crate::route::{self, Route};
use crate::text::words;

/// The cautions; the questions once they are read.
pub fn welcome() -> View {
    let is_read = Held::new(false);
    let screen = move || {
        if is_read.get_untracked() {
            return on_demand::screen(Route::Answers);
        }
        let main = button(
            "button button--main button--wide",
            words::CAUTIONS_READ,
            move || {
                is_read.set(true);
                route::tell_place();
            },
        );
        page(|| true)
            .with(opening())
            .with(tag("div", "welcome__go").with(main))
            .into()
    };
    by_key(move || is_read.get().to_string(), screen)
}

/// A page of the first opening, with what the app promises on the first of them.
pub fn page(is_first: impl Fn() -> bool + 'static) -> Tag {
    let head = tag("header", "page__head")
        .with(tag("p", "welcome__name").with(words::NAME))
        .with(live(move || is_first().then(|| soft(words::PROMISE))));
    tag("main", "page welcome").with(head)
}

/// Who should ask a doctor first, and when to stop.
pub fn cautions() -> Tag {
    let mut signs = tag("ul", "signs");
    for sign in words::CAUTIONS_SIGNS {
        signs = signs.with(tag("li", "").with(sign));
    }
    tag("section", "stack")
        .with(tag("h1", "").with(words::CAUTIONS))
        .with(tag("p", "").with(words::CAUTIONS_GENERAL))
        .with(tag("p", "").with(words::CAUTIONS_DOCTOR))
        .with(signs)
        .with(tag("p", "strong-stop").with(words::CAUTIONS_STOP))
        .with(tag("p", "").with(words::CAUTIONS_SPOT))
}

/// The cautions, and a way in for who comes with a backup.
pub fn opening() -> View {
    let backup = tag("details", "more")
        .with(tag("summary", "").with(words::HAVE_BACKUP))
        .with(tag("div", "stack").with(on_demand::piece(Route::Restore)));
    vec![languages().into(), cautions().into(), backup.into()].into()
}
