//! Units and appearance.

use super::page_under;
use crate::effects::notice::{self, Leave};
use crate::held::{Held, later};
use crate::markup::{Tag, View, live, tag, when};
use crate::parts::{Choice, ChoiceGroup, languages, tick};
use crate::screens::soft_small;
use crate::state::App;
use crate::text::words;
use std::rc::Rc;
use weekloom_engine::units::Unit;
use weekloom_store::{Hand, Notice, Screen, Sound, Theme};

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
    let (notice, notice_more) = notices(app);
    let card = tag("section", "card stack--wide")
        .with(languages())
        .with(units)
        .with(soft_small(words::UNIT_MORE))
        .with(theme)
        .with(hand)
        .with(soft_small(words::HAND_MORE))
        .with(screen)
        .with(sound)
        .with(notice)
        .with(notice_more)
        .with(soft_small(words::REST_HINT));
    page_under(words::LOOKS).with(card)
}

/// Whether a notice says that a rest is over, and what the browser says to it.
/// It is asked only when the person wishes for one.
fn notices(app: App) -> (View, View) {
    let leave = Held::new(notice::leave());
    let is_asking = Held::new(false);
    let is_on = move || {
        let is_wished = app.settings.with(|s| s.notice) == Notice::On;
        is_asking.get() || is_wished && leave.get() == Leave::Given
    };
    let on_tick = move |is_on: bool| {
        if !is_on {
            app.change_settings(&|s| s.notice = Notice::Off);
            return;
        }
        is_asking.set(true);
        later(async move {
            let said = notice::ask().await;
            if said == Leave::Given {
                app.change_settings(&|s| s.notice = Notice::On);
            }
            leave.set(said);
            is_asking.set(false);
        });
    };
    let is_here = move || leave.get() != Leave::Missing;
    let more = move || {
        soft_small(match leave.get() {
            Leave::Unasked | Leave::Given => words::NOTICE_MORE,
            Leave::Refused => words::NOTICE_REFUSED,
            Leave::Missing => words::NOTICE_MISSING,
        })
        .attr("role", "status")
    };
    (
        when(is_here, move || tick(words::NOTICE, is_on, on_tick)),
        live(move || Some(more())),
    )
}
