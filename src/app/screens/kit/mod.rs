//! Kit & data: equipment, units, appearance, backup, demo, cautions.

mod data;
mod equipment;
mod exercises;
mod looks;
mod others;
mod spreadsheet;
mod take;

pub use data::import;
pub use exercises::editor;

use super::{back_to, page_head, page_head_under, welcome};
use crate::markup::{Tag, View, tag};
use crate::parts::line_link;
use crate::route::{KitPage, Route};
use crate::text::{others as told, words};

/// One of the pages.
pub fn page(page: KitPage) -> View {
    match page {
        KitPage::Index => index(),
        KitPage::Equipment => equipment::equipment(),
        KitPage::Exercises => exercises::list(),
        KitPage::Spreadsheet => spreadsheet::spreadsheet(),
        KitPage::Data => data::data(),
        KitPage::Others => others::others(),
        KitPage::Looks => looks::looks(),
        KitPage::Cautions => {
            super::page(back_to(&Route::Kit(KitPage::Index))).with(welcome::cautions())
        }
    }
    .into()
}

fn index() -> Tag {
    let pages = [
        (KitPage::Equipment, words::EQUIPMENT, words::EQUIPMENT_MORE),
        (
            KitPage::Exercises,
            words::OWN_EXERCISES,
            words::OWN_EXERCISES_LINK,
        ),
        (KitPage::Looks, words::LOOKS, words::LOOKS_MORE),
        (KitPage::Data, words::DATA, words::DATA_MORE),
        (KitPage::Others, told::OTHERS, told::OTHERS_LINK),
        (KitPage::Cautions, words::CAUTIONS, words::CAUTIONS_MORE),
    ];
    let mut list = tag("ul", "card lines");
    for (page, name, more) in pages {
        list = list.with(line_link(Route::Kit(page).hash(), name, more));
    }
    let numbers = words::NUMBERS_AT.to_owned();
    let list = list.with(line_link(numbers, words::NUMBERS, words::NUMBERS_MORE));
    super::page(page_head(words::KIT)).with(list)
}

/// A page under the list of pages.
fn page_under(title: &'static str) -> Tag {
    super::page(page_head_under(&Route::Kit(KitPage::Index), title))
}
