//! Kit & data: equipment, units, appearance, backup, demo, cautions.

mod data;
mod equipment;
mod looks;

pub use data::Import;

use crate::route::{KitPage, Route};
use crate::screens::{PageHead, welcome::Cautions};
use crate::text::words;
use leptos::prelude::*;

/// One of the pages.
#[component]
pub fn Page(page: KitPage) -> impl IntoView {
    match page {
        KitPage::Index => view! { <Index /> }.into_any(),
        KitPage::Equipment => view! { <equipment::Equipment /> }.into_any(),
        KitPage::Data => view! { <data::Data /> }.into_any(),
        KitPage::Looks => view! { <looks::Looks /> }.into_any(),
        KitPage::Cautions => view! {
            <main class="page">
                <a class="back" href=Route::Kit(KitPage::Index).hash()>
                    "\u{2190} "
                    {words::BACK}
                </a>
                <Cautions />
            </main>
        }
        .into_any(),
    }
}

#[component]
fn Index() -> impl IntoView {
    let pages = [
        (KitPage::Equipment, words::EQUIPMENT, words::EQUIPMENT_MORE),
        (KitPage::Looks, words::LOOKS, words::LOOKS_MORE),
        (KitPage::Data, words::DATA, words::DATA_MORE),
        (KitPage::Cautions, words::CAUTIONS, words::CAUTIONS_MORE),
    ];
    view! {
        <main class="page">
            <PageHead title=Signal::stored(words::KIT.to_owned()) />
            <ul class="card lines">
                {pages
                    .into_iter()
                    .map(|(page, name, more)| {
                        view! {
                            <li>
                                <a class="line" href=Route::Kit(page).hash()>
                                    <span class="line__name">{name}</span>
                                    <span class="line__more">{more}</span>
                                    <span class="line__end" aria-hidden="true">"\u{203a}"</span>
                                </a>
                            </li>
                        }
                    })
                    .collect_view()}
            </ul>
        </main>
    }
}
