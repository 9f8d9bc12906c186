//! The JSON that is kept: whole numbers, text, lists, objects; strict, and in
//! little code.
//!
//! Start at [`read`] and [`write`]; the shapes in `wire::v1` are declared with
//! [`shape`], [`row`] and [`tagged`]. A general library brings a reader of its
//! own for every shape, 35 KB of the download; here all shapes share one.
//!
//! What this module never does: read a fraction as a number, guess at a
//! missing field, or pass over one it does not know unless told to.

use std::fmt;
use std::fmt::Write as _;
use weekloom_engine::order;

/// Objects and lists within each other; a backup has seven.
const MOST_NESTED: u8 = 32;

/// What does not fit, and where: bytes of the text up to it. Boxed, because
/// every step of reading may hand one on, and a pointer takes less code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misfit(Box<(usize, String)>);

impl Misfit {
    /// Line and column, as an editor counts them, and what is wrong there.
    pub(crate) fn place_in(self, text: &str) -> (String, String) {
        let (at, what) = *self.0;
        let before = &text.as_bytes()[..at];
        let line = 1 + before.iter().filter(|&&b| b == b'\n').count();
        let column = before.iter().rev().take_while(|&&b| b != b'\n').count();
        (format!("line {line} column {column}"), what)
    }
}

type Read<T> = Result<T, Misfit>;

/// A value with one form in JSON.
pub trait Json: Sized {
    /// Reads it from where the reader stands.
    ///
    /// # Errors
    /// [`Misfit`] when something else stands there.
    fn read(reader: &mut Reader<'_>) -> Read<Self>;

    /// Writes it, in ASCII and without blanks.
    fn write(&self, out: &mut String);

    /// What a field without a value means, where that is allowed.
    fn absent() -> Option<Self> {
        None
    }
}

/// A value out of a text that holds nothing else.
pub(crate) fn read<T: Json>(text: &str) -> Read<T> {
    let mut reader = Reader::new(text);
    let value = T::read(&mut reader)?;
    reader.end()?;
    Ok(value)
}

/// The compact ASCII text of a value.
pub(crate) fn write<T: Json>(value: &T) -> String {
    let mut out = String::new();
    value.write(&mut out);
    out
}

/// Walks through a text.
pub struct Reader<'a> {
    text: &'a str,
    at: usize,
}

/// What becomes of a field that nobody asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unknown {
    Refused,
    PassedOver,
}

impl<'a> Reader<'a> {
    pub(crate) const fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    /// Refuses at so many bytes beyond where the reader stands.
    #[cold]
    fn misfit(&self, beyond: usize, what: impl fmt::Display) -> Misfit {
        let at = (self.at + beyond).min(self.text.len());
        Misfit(Box::new((at, what.to_string())))
    }

    fn expected(&self, what: &str) -> Misfit {
        self.misfit(1, format_args!("invalid type: expected {what}"))
    }

    fn byte(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    /// The first byte of what comes after blanks.
    fn peek(&mut self) -> Read<u8> {
        while let Some(b' ' | b'\n' | b'\r' | b'\t') = self.byte() {
            self.at += 1;
        }
        self.byte()
            .ok_or_else(|| self.misfit(0, "EOF while parsing a value"))
    }

    pub(crate) fn end(&mut self) -> Read<()> {
        match self.peek() {
            Ok(_) => Err(self.misfit(1, "trailing characters")),
            Err(_) => Ok(()),
        }
    }

    fn take(&mut self, byte: u8) -> Read<bool> {
        let is_there = self.peek()? == byte;
        self.at += usize::from(is_there);
        Ok(is_there)
    }

    pub(crate) fn word(&mut self, word: &str) -> Read<bool> {
        self.peek()?;
        let is_there = self.text.as_bytes()[self.at..].starts_with(word.as_bytes());
        if is_there {
            self.at += word.len();
        }
        Ok(is_there)
    }

    /// Goes into a list or an object.
    pub(crate) fn open(&mut self, bracket: u8) -> Read<()> {
        if self.take(bracket)? {
            Ok(())
        } else {
            let what = if bracket == b'[' {
                "a list"
            } else {
                "an object"
            };
            Err(self.expected(what))
        }
    }

    /// Whether there is another entry before the closing bracket, which is
    /// taken with the last.
    pub(crate) fn more(&mut self, closing: u8, is_first: bool) -> Read<bool> {
        if self.take(closing)? {
            return Ok(false);
        }
        if is_first || self.take(b',')? {
            return Ok(true);
        }
        Err(self.misfit(1, "expected a comma or the closing bracket"))
    }

    /// The next entry of a list whose length is fixed.
    pub(crate) fn entry(&mut self, is_first: bool) -> Read<()> {
        if self.more(b']', is_first)? {
            Ok(())
        } else {
            Err(self.misfit(0, "the list is too short"))
        }
    }

    pub(crate) fn end_of_row(&mut self) -> Read<()> {
        if self.more(b']', false)? {
            Err(self.misfit(0, "the list is too long"))
        } else {
            Ok(())
        }
    }

    /// The name of a field and its colon; where the name ends.
    fn name(&mut self) -> Read<(String, usize)> {
        let name = String::read(self)?;
        let end = self.at;
        if self.take(b':')? {
            Ok((name, end))
        } else {
            Err(self.misfit(1, "expected a colon"))
        }
    }

    /// Digits, with a sign before them where there is one.
    fn digits(&mut self) -> Read<&'a str> {
        let start = self.at;
        self.at += usize::from(self.byte() == Some(b'-'));
        let first = self.at;
        self.run()?;
        if self.at - first > 1 && self.text.as_bytes()[first] == b'0' {
            return Err(self.misfit(0, "invalid number"));
        }
        Ok(&self.text[start..self.at])
    }

    /// One digit or more.
    fn run(&mut self) -> Read<()> {
        let start = self.at;
        while self.byte().is_some_and(|b| b.is_ascii_digit()) {
            self.at += 1;
        }
        if self.at == start {
            return Err(self.misfit(1, "invalid number"));
        }
        Ok(())
    }

    pub(crate) fn integer(&mut self, least: i64, most: i64) -> Read<i64> {
        if !matches!(self.peek()?, b'-' | b'0'..=b'9') {
            return Err(self.expected("a whole number"));
        }
        let digits = self.digits()?;
        if matches!(self.byte(), Some(b'.' | b'e' | b'E')) {
            return Err(self.expected("a whole number"));
        }
        match digits.parse() {
            Ok(number) if (least..=most).contains(&number) => Ok(number),
            _ => {
                let what = format_args!("{digits} is not between {least} and {most}");
                Err(self.misfit(0, what))
            }
        }
    }

    /// Passes over a number of any kind.
    fn skip_number(&mut self) -> Read<()> {
        self.digits()?;
        if self.byte() == Some(b'.') {
            self.at += 1;
            self.run()?;
        }
        if let Some(b'e' | b'E') = self.byte() {
            self.at += 1;
            self.at += usize::from(matches!(self.byte(), Some(b'+' | b'-')));
            self.run()?;
        }
        Ok(())
    }

    fn string(&mut self, out: &mut String) -> Read<()> {
        if !self.take(b'"')? {
            return Err(self.expected("text"));
        }
        loop {
            let plain = self.at;
            while !matches!(self.byte(), Some(b'"' | b'\\' | ..b' ') | None) {
                self.at += 1;
            }
            out.push_str(&self.text[plain..self.at]);
            match self.byte() {
                Some(b'"') => {
                    self.at += 1;
                    return Ok(());
                }
                Some(b'\\') => {
                    self.at += 1;
                    let escaped = self.escaped()?;
                    out.push(escaped);
                }
                Some(_) => return Err(self.misfit(1, "control character in text")),
                None => return Err(self.misfit(0, "EOF while parsing text")),
            }
        }
    }

    fn escaped(&mut self) -> Read<char> {
        let code = self.byte();
        self.at += usize::from(code.is_some_and(|b| b.is_ascii()));
        let invalid = |reader: &Self| reader.misfit(0, "invalid escape");
        Ok(match code {
            Some(b @ (b'"' | b'\\' | b'/')) => char::from(b),
            Some(b'b') => '\u{8}',
            Some(b'f') => '\u{c}',
            Some(b'n') => '\n',
            Some(b'r') => '\r',
            Some(b't') => '\t',
            Some(b'u') => {
                let mut code = self.hex().ok_or_else(|| invalid(self))?;
                // Two halves of a character beyond the first 65 536.
                if (0xD800..0xDC00).contains(&code)
                    && self.text.as_bytes()[self.at..].starts_with(b"\\u")
                {
                    self.at += 2;
                    let low = self.hex().ok_or_else(|| invalid(self))?;
                    if !(0xDC00..0xE000).contains(&low) {
                        return Err(invalid(self));
                    }
                    code = 0x1_0000 + ((code - 0xD800) << 10) + (low - 0xDC00);
                }
                char::from_u32(code).ok_or_else(|| invalid(self))?
            }
            _ => return Err(invalid(self)),
        })
    }

    /// Four hexadecimal digits.
    fn hex(&mut self) -> Option<u32> {
        let mut code = 0;
        for _ in 0..4 {
            let digit = char::from(self.byte()?).to_digit(16)?;
            self.at += 1;
            code = code * 16 + digit;
        }
        Some(code)
    }

    /// Passes over any value.
    fn skip(&mut self, nested: u8) -> Read<()> {
        if nested == MOST_NESTED {
            return Err(self.misfit(1, "lists and objects are nested too deep"));
        }
        match self.peek()? {
            b'"' => self.string(&mut String::new()),
            b'-' | b'0'..=b'9' => self.skip_number(),
            b'[' => {
                self.at += 1;
                let mut is_first = true;
                while self.more(b']', is_first)? {
                    self.skip(nested + 1)?;
                    is_first = false;
                }
                Ok(())
            }
            b'{' => {
                self.at += 1;
                let mut is_first = true;
                while self.more(b'}', is_first)? {
                    self.name()?;
                    self.skip(nested + 1)?;
                    is_first = false;
                }
                Ok(())
            }
            _ if self.word("null")? || self.word("true")? || self.word("false")? => Ok(()),
            _ => Err(self.misfit(1, "expected a value")),
        }
    }

    /// Goes through an object and notes where the value of each name stands.
    pub(crate) fn fields<'r>(
        &'r mut self,
        names: &'static [&'static str],
        unknown: Unknown,
    ) -> Read<Fields<'r, 'a>> {
        self.open(b'{')?;
        let mut places = vec![None; names.len()];
        let mut is_first = true;
        while self.more(b'}', is_first)? {
            is_first = false;
            let (name, end) = self.name()?;
            match names.iter().position(|known| *known == name) {
                Some(at) if places[at].is_none() => places[at] = Some(self.at),
                None if unknown == Unknown::PassedOver => {}
                known => {
                    let what = known.map_or("unknown", |_| "duplicate");
                    let what = format!("{what} field `{name}`");
                    return Err(Misfit(Box::new((end, what))));
                }
            }
            self.skip(0)?;
        }
        Ok(Fields {
            end: self.at,
            reader: self,
            names,
            places: places.into_iter(),
        })
    }

    /// The name of a variant. True: its value comes next, then
    /// [`Self::end_of_variant`].
    pub(crate) fn variant(&mut self) -> Read<(String, bool)> {
        if self.take(b'{')? {
            Ok((self.name()?.0, true))
        } else {
            Ok((String::read(self)?, false))
        }
    }

    pub(crate) fn end_of_variant(&mut self) -> Read<()> {
        if self.more(b'}', false)? {
            return Err(self.misfit(0, "expected one field only"));
        }
        Ok(())
    }

    #[cold]
    pub(crate) fn unknown_variant(&self, name: &str) -> Misfit {
        self.misfit(
            0,
            format_args!("`{name}` is not known, or not in this form"),
        )
    }
}

/// The fields of an object, taken in the order in which they were asked for.
pub(crate) struct Fields<'r, 'a> {
    reader: &'r mut Reader<'a>,
    names: &'static [&'static str],
    places: std::vec::IntoIter<Option<usize>>,
    end: usize,
}

impl<'a> Fields<'_, 'a> {
    /// The reader before the next field's value; none where it is absent.
    fn next(&mut self) -> Option<&mut Reader<'a>> {
        let place = self.places.next()?;
        self.reader.at = place.unwrap_or(self.end);
        place.is_some().then_some(&mut *self.reader)
    }

    #[cold]
    fn missing(&self) -> Misfit {
        let name = self.names[self.names.len() - 1 - self.places.len()];
        self.reader
            .misfit(0, format_args!("missing field `{name}`"))
    }

    /// A field that must be there.
    pub(crate) fn needed<T: Json>(&mut self) -> Read<T> {
        match self.next() {
            Some(reader) => T::read(reader),
            None => T::absent().ok_or_else(|| self.missing()),
        }
    }

    /// A field that is left out when it holds nothing out of the ordinary.
    pub(crate) fn optional<T: Json + Default>(&mut self) -> Read<T> {
        self.next().map_or_else(|| Ok(T::default()), T::read)
    }

    /// Puts the reader behind the object.
    pub(crate) fn done(self) {
        self.reader.at = self.end;
    }
}

// ---- writing ----

/// A comma, unless the list or object has just begun.
pub(crate) fn comma(out: &mut String) {
    if !out.ends_with(['[', '{']) {
        out.push(',');
    }
}

pub(crate) fn name(out: &mut String, name: &str) {
    comma(out);
    text(out, name);
    out.push(':');
}

fn number(out: &mut String, number: i64) {
    // Writing to a string cannot fail.
    let _ = write!(out, "{number}");
}

/// Text in quotes. What is not ASCII becomes `\uXXXX`, in UTF-16 halves where
/// needed (RFC 8259, section 7).
pub(crate) fn text(out: &mut String, text: &str) {
    out.push('"');
    for c in text.chars() {
        let short = match c {
            '"' | '\\' => c,
            '\u{8}' => 'b',
            '\u{c}' => 'f',
            '\n' => 'n',
            '\r' => 'r',
            '\t' => 't',
            ' '..='\u{7f}' => {
                out.push(c);
                continue;
            }
            _ => {
                for half in c.encode_utf16(&mut [0; 2]) {
                    let _ = write!(out, "\\u{half:04x}");
                }
                continue;
            }
        };
        out.push('\\');
        out.push(short);
    }
    out.push('"');
}

// ---- values ----

macro_rules! integers {
    ($($type:ident)+) => { $(
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_lossless,
            reason = "the reader holds the number to the type"
        )]
        impl Json for $type {
            fn read(reader: &mut Reader<'_>) -> Read<Self> {
                reader.integer($type::MIN as i64, $type::MAX as i64).map(|n| n as $type)
            }

            fn write(&self, out: &mut String) {
                number(out, *self as i64);
            }
        }
    )+ };
}
integers!(u8 u16 u32 i32 i64);

/// As wide on the phone as elsewhere.
impl Json for usize {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        u32::read(reader).map(|n| n as Self)
    }

    fn write(&self, out: &mut String) {
        u32::try_from(*self).unwrap_or(u32::MAX).write(out);
    }
}

impl Json for bool {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        if reader.word("true")? {
            Ok(true)
        } else if reader.word("false")? {
            Ok(false)
        } else {
            Err(reader.expected("true or false"))
        }
    }

    fn write(&self, out: &mut String) {
        out.push_str(if *self { "true" } else { "false" });
    }
}

impl Json for String {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut out = Self::new();
        reader.string(&mut out)?;
        Ok(out)
    }

    fn write(&self, out: &mut String) {
        text(out, self);
    }
}

impl<T: Json> Json for Option<T> {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        if reader.word("null")? {
            Ok(None)
        } else {
            T::read(reader).map(Some)
        }
    }

    fn write(&self, out: &mut String) {
        match self {
            Some(value) => value.write(out),
            None => out.push_str("null"),
        }
    }

    fn absent() -> Option<Self> {
        Some(None)
    }
}

impl<T: Json> Json for Vec<T> {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.open(b'[')?;
        let mut list = Self::new();
        while reader.more(b']', list.is_empty())? {
            list.push(T::read(reader)?);
        }
        Ok(list)
    }

    fn write(&self, out: &mut String) {
        out.push('[');
        for entry in self {
            comma(out);
            entry.write(out);
        }
        out.push(']');
    }
}

impl<const N: usize> Json for [u16; N] {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut list = [0; N];
        reader.open(b'[')?;
        for (i, entry) in list.iter_mut().enumerate() {
            reader.entry(i == 0)?;
            *entry = u16::read(reader)?;
        }
        reader.end_of_row()?;
        Ok(list)
    }

    fn write(&self, out: &mut String) {
        out.push('[');
        for entry in self {
            comma(out);
            entry.write(out);
        }
        out.push(']');
    }
}

/// An object of free names and words, by name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words(pub Vec<(String, String)>);

impl Words {
    pub(crate) fn sorted(mut words: Vec<(String, String)>) -> Self {
        order::sort_by(&mut words, |a, b| a.0 < b.0);
        Self(words)
    }
}

impl Json for Words {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut words = Vec::new();
        reader.open(b'{')?;
        while reader.more(b'}', words.is_empty())? {
            let (name, _) = reader.name()?;
            words.push((name, String::read(reader)?));
        }
        Ok(Self::sorted(words))
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        for (word, value) in &self.0 {
            name(out, word);
            value.write(out);
        }
        out.push('}');
    }
}

/// Declares a struct that is an object in JSON, each field under a name of its
/// own; `optional` leaves the field out where it holds the default.
macro_rules! shape {
    ($(#[$meta:meta])* $vis:vis struct $shape:ident {
        $($(#[$fmeta:meta])* $name:literal $($optional:ident)? => $field:ident: $type:ty,)+
    }) => {
        $(#[$meta])*
        $vis struct $shape { $($(#[$fmeta])* pub $field: $type,)+ }

        impl $crate::json::Json for $shape {
            fn read(
                reader: &mut $crate::json::Reader<'_>,
            ) -> Result<Self, $crate::json::Misfit> {
                let unknown = $crate::json::Unknown::Refused;
                let mut fields = reader.fields(&[$($name),+], unknown)?;
                let value = Self {
                    $($field: $crate::json::shape!(@read fields $($optional)?),)+
                };
                fields.done();
                Ok(value)
            }

            fn write(&self, out: &mut String) {
                out.push('{');
                $($crate::json::shape!(@write $($optional)? out, $name, self.$field, $type);)+
                out.push('}');
            }
        }
    };
    (@read $fields:ident) => { $fields.needed()? };
    (@read $fields:ident optional) => { $fields.optional()? };
    (@write $out:ident, $name:literal, $value:expr, $type:ty) => {
        $crate::json::name($out, $name);
        <$type as $crate::json::Json>::write(&$value, $out);
    };
    (@write optional $out:ident, $name:literal, $value:expr, $type:ty) => {
        if $value != <$type>::default() {
            $crate::json::shape!(@write $out, $name, $value, $type);
        }
    };
}
pub(crate) use shape;

/// Declares a struct without names that is a list of so many entries in JSON.
macro_rules! row {
    ($(#[$meta:meta])* $vis:vis struct $shape:ident($($part:ident: $type:ty),+ $(,)?);) => {
        $(#[$meta])*
        $vis struct $shape($(pub $type),+);

        impl $crate::json::Json for $shape {
            fn read(
                reader: &mut $crate::json::Reader<'_>,
            ) -> Result<Self, $crate::json::Misfit> {
                $crate::json::row!(@read reader, $($part: $type),+);
                Ok(Self($($part),+))
            }

            fn write(&self, out: &mut String) {
                let Self($($part),+) = self;
                $crate::json::row!(@write out, $($part: $type),+);
            }
        }
    };
    (@read $reader:ident, $part:ident: $type:ty) => {
        let $part = <$type as $crate::json::Json>::read($reader)?;
    };
    (@read $reader:ident, $first:ident: $ftype:ty, $($part:ident: $type:ty),+) => {
        $reader.open(b'[')?;
        $reader.entry(true)?;
        let $first = <$ftype as $crate::json::Json>::read($reader)?;
        $(
            $reader.entry(false)?;
            let $part = <$type as $crate::json::Json>::read($reader)?;
        )+
        $reader.end_of_row()?;
    };
    (@write $out:ident, $part:ident: $type:ty) => {
        <$type as $crate::json::Json>::write($part, $out);
    };
    (@write $out:ident, $($part:ident: $type:ty),+) => {
        $out.push('[');
        $(
            $crate::json::comma($out);
            <$type as $crate::json::Json>::write($part, $out);
        )+
        $out.push(']');
    };
}
pub(crate) use row;

/// Declares an enum that is, in JSON, the variant's name alone or an object of
/// that one name with what it holds.
macro_rules! tagged {
    ($(#[$meta:meta])* $vis:vis enum $shape:ident {
        $($(#[$vmeta:meta])* $name:literal => $variant:ident $(($($part:ident: $type:ty),+))?,)+
    }) => {
        $(#[$meta])*
        $vis enum $shape { $($(#[$vmeta])* $variant $(($($type),+))?,)+ }

        impl $crate::json::Json for $shape {
            fn read(
                reader: &mut $crate::json::Reader<'_>,
            ) -> Result<Self, $crate::json::Misfit> {
                let (name, holds_more) = reader.variant()?;
                Ok(match (name.as_str(), holds_more) {
                    $(($name, $crate::json::tagged!(@holds_more $($($part)+)?)) => {
                        $(
                            $crate::json::row!(@read reader, $($part: $type),+);
                            reader.end_of_variant()?;
                        )?
                        Self::$variant $(($($part),+))?
                    })+
                    _ => return Err(reader.unknown_variant(&name)),
                })
            }

            fn write(&self, out: &mut String) {
                match self {
                    $(Self::$variant $(($($part),+))? => {
                        $crate::json::tagged!(@write out, $name $(, $($part: $type),+)?);
                    })+
                }
            }
        }
    };
    (@holds_more) => { false };
    (@holds_more $($part:ident)+) => { true };
    (@write $out:ident, $name:literal) => { $crate::json::text($out, $name); };
    (@write $out:ident, $name:literal, $($part:ident: $type:ty),+) => {
        $out.push('{');
        $crate::json::name($out, $name);
        $crate::json::row!(@write $out, $($part: $type),+);
        $out.push('}');
    };
}
pub(crate) use tagged;

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;

    shape! {
        #[derive(Debug, Clone, PartialEq)]
        struct Shape {
            "n" => number: u8,
            "t" optional => text: String,
            "l" => list: Vec<Option<i64>>,
            "w" => words: Words,
            "k" => kind: Kind,
            "r" optional => row: Option<Row>,
        }
    }

    tagged! {
        #[derive(Debug, Clone, PartialEq)]
        enum Kind {
            "plain" => Plain,
            "one" => One(number: u32),
            "two" => Two(number: i32, is_so: bool),
        }
    }

    row! {
        #[derive(Debug, Clone, PartialEq)]
        struct Row(name: String, numbers: [u16; 3],);
    }

    const TEXT: &str = concat!(
        r#"{"n":7,"t":"\\ \"\n\u00e9\ud83e\uddf6","l":[null,-3,9],"w":{"a":"x","b":"y"},"#,
        r#""k":{"two":[-5,true]},"r":["a",[1,2,3]]}"#
    );

    fn refusal(text: &str) -> (String, String) {
        read::<Shape>(text).unwrap_err().place_in(text)
    }

    #[test]
    fn a_value_is_written_as_it_was_read() {
        let shape: Shape = read(TEXT).unwrap();
        assert_eq!(shape.text, "\\ \"\n\u{e9}\u{1f9f6}");
        assert_eq!(shape.kind, Kind::Two(-5, true));
        assert_eq!(write(&shape), TEXT);
        let bare = r#"{"n":0,"l":[],"w":{},"k":"plain"}"#;
        assert_eq!(write(&read::<Shape>(bare).unwrap()), bare);
        let loose =
            "\n{ \"k\":\t{\"one\" : 4 } ,\"w\":{\"b\":\"\",\"a\":\"\"},\"l\":[ 1 ],\"n\":1 }\r\n";
        assert_eq!(
            write(&read::<Shape>(loose).unwrap()),
            r#"{"n":1,"l":[1],"w":{"a":"","b":""},"k":{"one":4}}"#
        );
    }

    #[test]
    fn what_does_not_fit_is_refused_with_its_place() {
        let cases = [
            ("", "line 1 column 0", "EOF"),
            ("[1]", "line 1 column 1", "expected an object"),
            (
                "{\n\"n\":1,\n\"m\":1}",
                "line 3 column 3",
                "unknown field `m`",
            ),
            (
                r#"{"n":1,"n":2}"#,
                "line 1 column 10",
                "duplicate field `n`",
            ),
            (r#"{"n":1,"l":[]}"#, "line 1 column 14", "missing field `w`"),
            (
                r#"{"n":256,"l":[],"w":{},"k":"plain"}"#,
                "line 1 column 8",
                "256 is not between 0 and 255",
            ),
            (
                r#"{"n":1.0,"l":[],"w":{},"k":"plain"}"#,
                "line 1 column 7",
                "expected a whole number",
            ),
            (
                r#"{"n":1,"l":[],"w":{},"k":"one"}"#,
                "line 1 column 30",
                "`one` is not known",
            ),
            (
                r#"{"n":1,"l":[],"w":{},"k":{"two":[1]}}"#,
                "line 1 column 35",
                "too short",
            ),
            (
                r#"{"n":1,"l":[],"w":{},"k":{"one":1,"two":[1,true]}}"#,
                "line 1 column 34",
                "one field only",
            ),
            (
                r#"{"n":1,"l":[],"w":{},"k":"plain","r":["",[1,2,3,4]]}"#,
                "line 1 column 48",
                "too long",
            ),
            (
                r#"{"n":1,"l":[],"w":{},"k":"plain"}}"#,
                "line 1 column 34",
                "trailing",
            ),
        ];
        for (text, place, what) in cases {
            let found = refusal(text);
            assert_eq!(found.0, place, "{text}");
            assert!(found.1.contains(what), "{text}: {}", found.1);
        }
        let deep = "[".repeat(100_000);
        assert!(refusal(&format!("{{\"n\":{deep}")).1.contains("too deep"));
    }

    /// Another reader of JSON and this one agree on what is JSON, and on what
    /// a text says.
    #[test]
    fn agrees_with_the_usual_reader() {
        let seeds = [
            TEXT,
            r#"[1.5e+3,-0,{"a":[true,false,null]},"\u0041\/\b\f\r\t"]"#,
        ];
        let bytes = br#"{}[],:"\u0d8e1-.+ tfn"#;
        let mut dice: u64 = 9;
        let mut draw = |most: usize| {
            dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            usize::try_from(dice >> 33).unwrap() % most
        };
        let mut whole = 0;
        for round in 0..40_000 {
            let mut text = seeds[round % 2].as_bytes().to_vec();
            for _ in 0..=draw(2) {
                let at = draw(text.len());
                match draw(3) {
                    0 => text[at] = bytes[draw(bytes.len())],
                    1 => text.insert(at, bytes[draw(bytes.len())]),
                    _ => drop(text.remove(at)),
                }
            }
            let text = String::from_utf8(text).unwrap();
            let mut reader = Reader::new(&text);
            let ours = reader.skip(0).and_then(|()| reader.end());
            let theirs = serde_json::from_str::<Value>(&text);
            // It reads no number beyond 64 bits; here no number is passed over.
            let is_json = theirs.map_or_else(|e| e.to_string().contains("out of range"), |_| true);
            assert_eq!(ours.is_ok(), is_json, "{text}");
            whole += usize::from(ours.is_ok());
            if let Ok(ours) = read::<Vec<String>>(&text) {
                assert_eq!(ours, serde_json::from_str::<Vec<String>>(&text).unwrap());
            }
        }
        assert!(whole > 1_000, "{whole} of the texts were JSON");
    }

    #[test]
    fn text_of_any_script_becomes_ascii_and_comes_back() {
        let all: String = ('\0'..='\u{2ff}')
            .chain(['\u{2028}', '\u{ffff}', '\u{10ffff}'])
            .collect();
        let json = write(&all);
        assert!(json.is_ascii());
        assert_eq!(read::<String>(&json), Ok(all.clone()));
        assert_eq!(serde_json::from_str::<String>(&json).unwrap(), all);
        let ascii: String = ('\0'..='\u{7f}').collect();
        assert_eq!(write(&ascii), serde_json::to_string(&ascii).unwrap());
    }
}
