//! Units and appearance.

use super::page_under;
use crate::markup::{Tag, tag};
use crate::parts::{Choice, ChoiceGroup, languages, tick};
use crate::screens::soft_small;
use crate::state::App;
use crate::text::words;
use std::rc::Rc;
use weekloom_engine::units::Unit;
use weekloom_store::{Hand, Screen, Sound, Theme};

/// Units, theme, tone, screen.
pub fn looks() -> Tag {
    let app = App::here();
    let units = ChoiceGroup {
        legend: words::LOADS_IN,
        name: "unit",
        options: Rc::new(|| vec![Choice::plain("kg", "kg"), Choice::plain("lb", "lb")]),
        chosen: Rc::new(move || app.unit().symbol().into()),
        on_choose: Rc::new(move |value| {
            if let Some(mut person) = app.person.get_untracked() {
                person.unit = if value == "lb" { Unit::Lb } else { Unit::Kg };
                app.set_person(person);
            }
        }),
        is_chips: true,
    };
    let themes = || {
        vec![
            Choice::plain("auto", words::THEME_AUTO),
            Choice::plain("light", words::THEME_LIGHT),
            Choice::plain("dark", words::THEME_DARK),
        ]
    };
    let theme = move || match app.settings.with(|s| s.theme) {
        Theme::Auto => "auto",
        Theme::Light => "light",
        Theme::Dark => "dark",
    };
    let theme = ChoiceGroup {
        legend: words::THEME,
        name: "theme",
        options: Rc::new(themes),
        chosen: Rc::new(move || theme().into()),
        on_choose: Rc::new(move |value| {
            let theme = match value {
                "light" => Theme::Light,
                "dark" => Theme::Dark,
                _ => Theme::Auto,
            };
            app.change_settings(&|s| s.theme = theme);
        }),
        is_chips: true,
    };
    let hands = || {
        vec![
            Choice::plain("right", words::HAND_RIGHT),
            Choice::plain("left", words::HAND_LEFT),
        ]
    };
    let hand = ChoiceGroup {
        legend: words::HAND,
        name: "hand",
        options: Rc::new(hands),
        chosen: Rc::new(move || match app.settings.with(|s| s.hand) {
            Hand::Right => "right".into(),
            Hand::Left => "left".into(),
        }),
        on_choose: Rc::new(move |value| {
            let hand = if value == "left" {
                Hand::Left
            } else {
                Hand::Right
            };
            app.change_settings(&|s| s.hand = hand);
        }),
        is_chips: true,
    };
    let sound = tick(
        words::SOUND,
        move || app.settings.with(|s| s.sound) == Sound::On,
        move |is_on| {
            let sound = if is_on { Sound::On } else { Sound::Off };
            app.change_settings(&|s| s.sound = sound);
        },
    );
    let screen = tick(
        words::SCREEN,
        move || app.settings.with(|s| s.screen) == Screen::StaysOn,
        move |is_on| {
            let screen = if is_on {
                Screen::StaysOn
            } else {
                Screen::MayDim
            };
            app.change_settings(&|s| s.screen = screen);
        },
    );
    let card = tag("section", "card stack--wide")
        .with(languages())
        .with(units)
        .with(soft_small(words::UNIT_MORE))
        .with(theme)
        .with(hand)
        .with(soft_small(words::HAND_MORE))
        .with(sound)
        .with(screen)
        .with(soft_small(words::REST_HINT));
    page_under(words::LOOKS).with(card)
}
