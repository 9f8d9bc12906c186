//! Settings.

use super::part::word;
use crate::json::{Json, Read, Reader, Unknown, field, maybe, text};
use crate::settings::{Hand, Notice, Screen, Settings, Sound, Theme};
use weekloom_engine::progress::DeloadAnswer;

const THEMES: [(Theme, &str); 3] = [
    (Theme::Auto, "auto"),
    (Theme::Light, "light"),
    (Theme::Dark, "dark"),
];
const HANDS: [(Hand, &str); 2] = [(Hand::Right, "right"), (Hand::Left, "left")];
const SOUNDS: [(Sound, &str); 2] = [(Sound::On, "on"), (Sound::Off, "off")];
const NOTICES: [(Notice, &str); 2] = [(Notice::On, "on"), (Notice::Off, "off")];
const SCREENS: [(Screen, &str); 2] = [(Screen::StaysOn, "stays-on"), (Screen::MayDim, "may-dim")];

impl Json for Settings {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &[
            "theme",
            "hand",
            "sound",
            "screen",
            "cautions_read",
            "backed_up",
            "deload",
            "notice",
        ];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let settings = Self {
            theme: fields.needed(|r| find(r, &THEMES))?,
            hand: fields.needed(|r| find(r, &HANDS))?,
            sound: fields.needed(|r| find(r, &SOUNDS))?,
            screen: fields.needed(|r| find(r, &SCREENS))?,
            cautions_read: fields.maybe(Json::read)?,
            backed_up: fields.maybe(Json::read)?,
            deload: fields.maybe(Json::read)?,
            notice: fields.maybe(|r| find(r, &NOTICES))?.unwrap_or_default(),
        };
        fields.done();
        Ok(settings)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        spell(out, "theme", &THEMES, self.theme);
        spell(out, "hand", &HANDS, self.hand);
        spell(out, "sound", &SOUNDS, self.sound);
        spell(out, "screen", &SCREENS, self.screen);
        field(out, "cautions_read", &self.cautions_read);
        field(out, "backed_up", &self.backed_up);
        maybe(out, "deload", self.deload.as_ref());
        if self.notice != Notice::default() {
            spell(out, "notice", &NOTICES, self.notice);
        }
        out.push('}');
    }
}

/// `{"taken":day}`, its first, or `{"declined":day}`.
impl Json for DeloadAnswer {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let (form, holds_more) = reader.variant()?;
        let answer = match (form.as_str(), holds_more) {
            ("taken", true) => Self::Taken(Json::read(reader)?),
            ("declined", true) => Self::Declined(Json::read(reader)?),
            _ => return reader.unknown_variant(&form),
        };
        reader.end_of_variant(true)?;
        Ok(answer)
    }

    fn write(&self, out: &mut String) {
        let (form, day) = match self {
            Self::Taken(day) => ("taken", day),
            Self::Declined(day) => ("declined", day),
        };
        out.push('{');
        field(out, form, day);
        out.push('}');
    }
}

fn spell<T: Copy + PartialEq>(out: &mut String, name: &str, table: &[(T, &'static str)], value: T) {
    crate::json::name(out, name);
    let spelling = table.iter().find(|(t, _)| *t == value);
    text(out, spelling.map_or("", |(_, text)| text));
}

fn find<T: Copy>(reader: &mut Reader<'_>, table: &[(T, &'static str)]) -> Read<T> {
    word(reader, |text| {
        table.iter().find(|(_, t)| *t == text).map(|(t, _)| *t)
    })
}
