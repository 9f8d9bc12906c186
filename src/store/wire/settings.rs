//! Settings.

use super::part::{Read, day, word};
use super::{Stored, v1};
use crate::settings::{Hand, Screen, Settings, Sound, Theme};
use weekloom_engine::calendar::Day;

const THEMES: [(Theme, &str); 3] = [
    (Theme::Auto, "auto"),
    (Theme::Light, "light"),
    (Theme::Dark, "dark"),
];
const HANDS: [(Hand, &str); 2] = [(Hand::Right, "right"), (Hand::Left, "left")];
const SOUNDS: [(Sound, &str); 2] = [(Sound::On, "on"), (Sound::Off, "off")];
const SCREENS: [(Screen, &str); 2] = [(Screen::StaysOn, "stays-on"), (Screen::MayDim, "may-dim")];

impl Stored for Settings {
    type Wire = v1::Settings;

    fn to_wire(&self) -> v1::Settings {
        v1::Settings {
            theme: spell(&THEMES, self.theme),
            hand: spell(&HANDS, self.hand),
            sound: spell(&SOUNDS, self.sound),
            screen: spell(&SCREENS, self.screen),
            cautions_read: self.cautions_read.map(Day::epoch_days),
            backed_up: self.backed_up.map(Day::epoch_days),
        }
    }

    fn from_wire(wire: v1::Settings) -> Read<Self> {
        Ok(Self {
            theme: word("theme", &wire.theme, |text| find(&THEMES, text))?,
            hand: word("hand", &wire.hand, |text| find(&HANDS, text))?,
            sound: word("sound", &wire.sound, |text| find(&SOUNDS, text))?,
            screen: word("screen", &wire.screen, |text| find(&SCREENS, text))?,
            cautions_read: wire
                .cautions_read
                .map(|days| day("cautions_read", days))
                .transpose()?,
            backed_up: wire
                .backed_up
                .map(|days| day("backed_up", days))
                .transpose()?,
        })
    }
}

fn spell<T: Copy + PartialEq>(table: &[(T, &'static str)], value: T) -> String {
    table
        .iter()
        .find(|(t, _)| *t == value)
        .map_or_else(String::new, |(_, text)| (*text).to_owned())
}

fn find<T: Copy>(table: &[(T, &'static str)], text: &str) -> Option<T> {
    table.iter().find(|(_, t)| *t == text).map(|(t, _)| *t)
}
