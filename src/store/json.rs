//! The JSON that is kept: whole numbers, text, lists, objects; strict, and in
//! little code.
//!
//! Start at [`read`] and [`write`]. What each stored value looks like stands in
//! `wire`, as a [`Json`] of its own. A general library brings a reader for
//! every shape, 35 KB of the download; here all of them share one.
//!
//! What this module never does: read a fraction as a number, guess at a
//! missing field, or pass over one it does not know unless told to.

use std::fmt;
use std::fmt::Write as _;

/// Objects and lists within each other; a backup has seven.
const MOST_NESTED: u8 = 32;

/// What does not fit, and where. Boxed, because every step of reading may hand
/// one on, and a pointer takes less code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misfit(Box<Inner>);

#[derive(Debug, Clone, PartialEq, Eq)]
struct Inner {
    /// Bytes of the text up to what is not in the right form; `None` where the
    /// form is right and the value is not.
    at: Option<usize>,
    /// A path such as `items[2].sets[0]` to the value.
    path: String,
    what: String,
}

impl Misfit {
    /// A value that is not allowed.
    #[cold]
    pub(crate) fn value(what: impl fmt::Display) -> Self {
        Self::new(None, what.to_string())
    }

    #[cold]
    fn new(at: Option<usize>, what: String) -> Self {
        let path = String::new();
        Self(Box::new(Inner { at, path, what }))
    }

    /// The same seen from the field it stands in.
    #[cold]
    pub(crate) fn inside(mut self, outer: &str) -> Self {
        let path = &self.0.path;
        let point = if path.is_empty() || path.starts_with('[') {
            ""
        } else {
            "."
        };
        self.0.path = format!("{outer}{point}{path}");
        self
    }

    /// The same seen from the list it stands in.
    #[cold]
    fn at_entry(self, entry: usize) -> Self {
        self.inside(&format!("[{entry}]"))
    }

    /// The path, or line and column as an editor counts them; and what is
    /// wrong there.
    pub(crate) fn place_in(self, text: &str) -> (String, String) {
        let Inner { at, path, what } = *self.0;
        let Some(at) = at else {
            return (path, what);
        };
        let before = &text.as_bytes()[..at];
        let line = 1 + before.iter().filter(|&&b| b == b'\n').count();
        let column = before.iter().rev().take_while(|&&b| b != b'\n').count();
        (format!("line {line} column {column}"), what)
    }
}

pub(crate) type Read<T> = Result<T, Misfit>;

/// A value with one form in JSON.
pub trait Json: Sized {
    /// Reads it from where the reader stands.
    ///
    /// # Errors
    /// [`Misfit`] when something else stands there.
    fn read(reader: &mut Reader<'_>) -> Read<Self>;

    /// Writes it, in ASCII and without blanks.
    fn write(&self, out: &mut String);
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

// ---- reading ----

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
    fn misfit(&self, beyond: usize, what: &str) -> Misfit {
        let at = (self.at + beyond).min(self.text.len());
        Misfit::new(Some(at), what.to_owned())
    }

    #[cold]
    fn expected(&self, what: &str) -> Misfit {
        self.misfit(1, &format!("invalid type: expected {what}"))
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

    fn word(&mut self, word: &str) -> Read<bool> {
        self.peek()?;
        let is_there = self.text.as_bytes()[self.at..].starts_with(word.as_bytes());
        if is_there {
            self.at += word.len();
        }
        Ok(is_there)
    }

    fn open(&mut self, bracket: u8) -> Read<()> {
        if self.take(bracket)? {
            return Ok(());
        }
        let is_list = bracket == b'[';
        Err(self.expected(if is_list { "a list" } else { "an object" }))
    }

    fn colon(&mut self) -> Read<()> {
        if self.take(b':')? {
            Ok(())
        } else {
            Err(self.misfit(1, "expected a colon"))
        }
    }

    /// Whether there is another entry before the closing bracket, which is
    /// taken with the last.
    fn more(&mut self, closing: u8, is_first: bool) -> Read<bool> {
        if self.take(closing)? {
            return Ok(false);
        }
        if is_first || self.take(b',')? {
            return Ok(true);
        }
        Err(self.misfit(1, "expected a comma or the closing bracket"))
    }

    /// The entries of a list, each read in the same way.
    pub(crate) fn each<T>(&mut self, mut read: impl FnMut(&mut Self) -> Read<T>) -> Read<Vec<T>> {
        let mut list = Vec::new();
        self.open(b'[')?;
        while self.more(b']', list.is_empty())? {
            list.push(read(self).map_err(|misfit| misfit.at_entry(list.len()))?);
        }
        Ok(list)
    }

    /// The entries of an object of free names, each read in the same way.
    pub(crate) fn entries(
        &mut self,
        mut read: impl FnMut(&mut Self, &str) -> Read<()>,
    ) -> Read<()> {
        let mut is_first = true;
        self.open(b'{')?;
        while self.more(b'}', is_first)? {
            is_first = false;
            let name = self.string()?;
            self.colon()?;
            read(self, &name)?;
        }
        Ok(())
    }

    /// Goes to the first entry of a list of fixed length.
    pub(crate) fn first(&mut self) -> Read<()> {
        self.open(b'[')?;
        self.entry(true)
    }

    /// Goes to the next entry of a list of fixed length.
    pub(crate) fn then(&mut self) -> Read<()> {
        self.entry(false)
    }

    fn entry(&mut self, is_first: bool) -> Read<()> {
        if self.more(b']', is_first)? {
            Ok(())
        } else {
            Err(self.misfit(0, "the list is too short"))
        }
    }

    /// The end of a list of fixed length.
    pub(crate) fn last(&mut self) -> Read<()> {
        if self.more(b']', false)? {
            Err(self.misfit(0, "the list is too long"))
        } else {
            Ok(())
        }
    }

    /// A value, or null.
    pub(crate) fn or_null<T>(
        &mut self,
        read: impl FnOnce(&mut Self) -> Read<T>,
    ) -> Read<Option<T>> {
        if self.word("null")? {
            Ok(None)
        } else {
            read(self).map(Some)
        }
    }

    /// The name of a variant. True: what it holds comes next, then
    /// [`Self::end_of_variant`].
    pub(crate) fn variant(&mut self) -> Read<(String, bool)> {
        let holds_more = self.take(b'{')?;
        let name = String::read(self)?;
        if holds_more {
            self.colon()?;
        }
        Ok((name, holds_more))
    }

    pub(crate) fn end_of_variant(&mut self, holds_more: bool) -> Read<()> {
        if holds_more && self.more(b'}', false)? {
            return Err(self.misfit(0, "expected one field only"));
        }
        Ok(())
    }

    #[cold]
    pub(crate) fn unknown_variant<T>(&self, name: &str) -> Read<T> {
        let what = format!("`{name}` is not known, or not in this form");
        Err(self.misfit(0, &what))
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
                let what = format!("{digits} is not between {least} and {most}");
                Err(self.misfit(0, &what))
            }
        }
    }

    /// Passes over a number of any kind.
    fn pass_number(&mut self) -> Read<()> {
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

    fn string(&mut self) -> Read<String> {
        let mut out = String::new();
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
                    return Ok(out);
                }
                Some(b'\\') => {
                    self.at += 1;
                    let escaped = self.escaped();
                    out.push(escaped.ok_or_else(|| self.misfit(0, "invalid escape"))?);
                }
                Some(_) => return Err(self.misfit(1, "control character in text")),
                None => return Err(self.misfit(0, "EOF while parsing text")),
            }
        }
    }

    fn escaped(&mut self) -> Option<char> {
        let code = self.byte()?;
        if code.is_ascii() {
            self.at += 1;
        }
        Some(match code {
            b'"' | b'\\' | b'/' => char::from(code),
            b'b' => '\u{8}',
            b'f' => '\u{c}',
            b'n' => '\n',
            b'r' => '\r',
            b't' => '\t',
            b'u' => {
                let mut code = self.hex()?;
                // Two halves of a character beyond the first 65 536.
                if (0xD800..0xDC00).contains(&code)
                    && self.text.as_bytes()[self.at..].starts_with(b"\\u")
                {
                    self.at += 2;
                    let low = self.hex()?.checked_sub(0xDC00)?;
                    if low >= 0x400 {
                        return None;
                    }
                    code = 0x1_0000 + ((code - 0xD800) << 10) + low;
                }
                char::from_u32(code)?
            }
            _ => return None,
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

    /// Passes over any value, and writes it down without blanks and in ASCII
    /// where that is wanted.
    fn pass(&mut self, nested: u8, copy: &mut Option<String>) -> Read<()> {
        if nested == MOST_NESTED {
            return Err(self.misfit(1, "lists and objects are nested too deep"));
        }
        let opening = self.peek()?;
        let closing = match opening {
            b'[' => b']',
            b'{' => b'}',
            b'"' => return self.pass_text(copy),
            _ => {
                let start = self.at;
                match opening {
                    b'-' | b'0'..=b'9' => self.pass_number()?,
                    _ if self.word("null")? || self.word("true")? || self.word("false")? => {}
                    _ => return Err(self.misfit(1, "expected a value")),
                }
                put(copy, &self.text[start..self.at]);
                return Ok(());
            }
        };
        put(copy, &self.text[self.at..=self.at]);
        self.at += 1;
        let mut is_first = true;
        while self.more(closing, is_first)? {
            if !is_first {
                put(copy, ",");
            }
            is_first = false;
            if opening == b'{' {
                self.pass_text(copy)?;
                self.colon()?;
                put(copy, ":");
            }
            self.pass(nested + 1, copy)?;
        }
        put(copy, &self.text[self.at - 1..self.at]);
        Ok(())
    }

    fn pass_text(&mut self, copy: &mut Option<String>) -> Read<()> {
        let found = self.string()?;
        if let Some(copy) = copy {
            text(copy, &found);
        }
        Ok(())
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
            let name = self.string()?;
            let end = self.at;
            self.colon()?;
            match names.iter().position(|known| *known == name) {
                Some(at) if places[at].is_none() => places[at] = Some(self.at),
                None if unknown == Unknown::PassedOver => {}
                known => {
                    let what = known.map_or("unknown", |_| "duplicate");
                    let what = format!("{what} field `{name}`");
                    return Err(Misfit::new(Some(end), what));
                }
            }
            self.pass(0, &mut None)?;
        }
        Ok(Fields {
            end: self.at,
            reader: self,
            names,
            places,
            next: 0,
        })
    }
}

fn put(copy: &mut Option<String>, text: &str) {
    if let Some(copy) = copy {
        copy.push_str(text);
    }
}

/// The fields of an object, taken in the order in which they were asked for.
pub(crate) struct Fields<'r, 'a> {
    reader: &'r mut Reader<'a>,
    names: &'static [&'static str],
    places: Vec<Option<usize>>,
    next: usize,
    end: usize,
}

impl<'a> Fields<'_, 'a> {
    /// Puts the reader before the next field's value; whether it has one.
    fn next(&mut self) -> bool {
        let place = self.places[self.next];
        self.next += 1;
        self.reader.at = place.unwrap_or(self.end);
        place.is_some()
    }

    /// The name of the field taken last.
    fn name(&self) -> &'static str {
        self.names[self.next - 1]
    }

    #[cold]
    fn missing(&self) -> Misfit {
        let what = format!("missing field `{}`", self.name());
        self.reader.misfit(0, &what)
    }

    /// A field that must be there.
    pub(crate) fn needed<T>(&mut self, read: impl FnOnce(&mut Reader<'a>) -> Read<T>) -> Read<T> {
        if !self.next() {
            return Err(self.missing());
        }
        read(self.reader).map_err(|misfit| misfit.inside(self.name()))
    }

    /// A field that is left out, or null, when there is nothing to say.
    pub(crate) fn maybe<T>(
        &mut self,
        read: impl FnOnce(&mut Reader<'a>) -> Read<T>,
    ) -> Read<Option<T>> {
        if !self.next() {
            return Ok(None);
        }
        let value = self.reader.or_null(read);
        value.map_err(|misfit| misfit.inside(self.name()))
    }

    /// The compact ASCII text of a field's value; null where it is absent.
    pub(crate) fn compact(&mut self) -> Read<String> {
        if !self.next() {
            return Ok("null".to_owned());
        }
        let mut copy = Some(String::new());
        self.reader.pass(0, &mut copy)?;
        Ok(copy.unwrap_or_default())
    }

    /// Goes on with the field of this number, from nought.
    pub(crate) const fn go_to(&mut self, field: usize) {
        self.next = field;
    }

    /// Puts the reader behind the object.
    pub(crate) fn done(self) {
        self.reader.at = self.end;
    }
}

// ---- writing ----

/// A comma, unless the list or object has just begun.
pub(crate) fn comma(out: &mut String) {
    if !matches!(out.as_bytes().last(), None | Some(b'[' | b'{')) {
        out.push(',');
    }
}

pub(crate) fn name(out: &mut String, name: &str) {
    comma(out);
    text(out, name);
    out.push(':');
}

/// A field: its name, and its value.
pub(crate) fn field<T: Json>(out: &mut String, field: &str, value: &T) {
    name(out, field);
    value.write(out);
}

/// A field that is left out where there is nothing to say.
pub(crate) fn maybe<T: Json>(out: &mut String, field: &str, value: Option<&T>) {
    if let Some(value) = value {
        self::field(out, field, value);
    }
}

/// A list, each entry written in the same way.
pub(crate) fn list<T>(out: &mut String, entries: &[T], write: impl Fn(&T, &mut String)) {
    out.push('[');
    for entry in entries {
        comma(out);
        write(entry, out);
    }
    out.push(']');
}

/// A list of whole numbers, `null` where there is none.
pub(crate) fn numbers(out: &mut String, numbers: &[Option<i64>]) {
    list(out, numbers, |number, out| number.write(out));
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
                    // Writing to a string cannot fail.
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

impl Json for i64 {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.integer(Self::MIN, Self::MAX)
    }

    fn write(&self, out: &mut String) {
        let _ = write!(out, "{self}");
    }
}

macro_rules! narrow {
    ($($type:ident)+) => { $(
        impl Json for $type {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "the reader holds the number to the type"
            )]
            fn read(reader: &mut Reader<'_>) -> Read<Self> {
                reader.integer(0, $type::MAX.into()).map(|n| n as $type)
            }

            fn write(&self, out: &mut String) {
                i64::from(*self).write(out);
            }
        }
    )+ };
}
narrow!(u8 u16 u32);

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
        reader.string()
    }

    fn write(&self, out: &mut String) {
        text(out, self);
    }
}

impl<T: Json> Json for Option<T> {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.or_null(T::read)
    }

    fn write(&self, out: &mut String) {
        match self {
            Some(value) => value.write(out),
            None => out.push_str("null"),
        }
    }
}

impl<T: Json> Json for Vec<T> {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.each(T::read)
    }

    fn write(&self, out: &mut String) {
        list(out, self, T::write);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;

    #[derive(Debug, Clone, PartialEq)]
    struct Shape {
        number: u8,
        text: String,
        list: Vec<Option<i64>>,
        kind: Kind,
        row: Option<(String, u16)>,
    }

    #[derive(Debug, Clone, PartialEq)]
    enum Kind {
        Plain,
        One(u32),
    }

    impl Json for Shape {
        fn read(reader: &mut Reader<'_>) -> Read<Self> {
            let mut fields = reader.fields(&["n", "t", "l", "k", "r"], Unknown::Refused)?;
            let shape = Self {
                number: fields.needed(u8::read)?,
                text: fields.maybe(String::read)?.unwrap_or_default(),
                list: fields.needed(Vec::read)?,
                kind: fields.needed(|r| {
                    let (form, holds_more) = r.variant()?;
                    let kind = match (form.as_str(), holds_more) {
                        ("plain", false) => Kind::Plain,
                        ("one", true) => Kind::One(u32::read(r)?),
                        _ => return r.unknown_variant(&form),
                    };
                    r.end_of_variant(holds_more)?;
                    Ok(kind)
                })?,
                row: fields.maybe(|r| {
                    r.first()?;
                    let text = String::read(r)?;
                    r.then()?;
                    let number = u16::read(r)?;
                    r.last()?;
                    Ok((text, number))
                })?,
            };
            fields.done();
            Ok(shape)
        }

        fn write(&self, out: &mut String) {
            out.push('{');
            field(out, "n", &self.number);
            maybe(out, "t", Some(&self.text).filter(|text| !text.is_empty()));
            field(out, "l", &self.list);
            name(out, "k");
            match &self.kind {
                Kind::Plain => text(out, "plain"),
                Kind::One(number) => {
                    out.push('{');
                    field(out, "one", number);
                    out.push('}');
                }
            }
            if let Some((word, number)) = &self.row {
                name(out, "r");
                out.push('[');
                word.write(out);
                comma(out);
                number.write(out);
                out.push(']');
            }
            out.push('}');
        }
    }

    const TEXT: &str = concat!(
        r#"{"n":7,"t":"\\ \"\n\u00e9\ud83e\uddf6","l":[null,-3,9],"#,
        r#""k":{"one":5},"r":["a",3]}"#
    );

    fn refusal(text: &str) -> (String, String) {
        read::<Shape>(text).unwrap_err().place_in(text)
    }

    #[test]
    fn a_value_is_written_as_it_was_read() {
        let shape: Shape = read(TEXT).unwrap();
        assert_eq!(shape.text, "\\ \"\n\u{e9}\u{1f9f6}");
        assert_eq!(shape.kind, Kind::One(5));
        assert_eq!(write(&shape), TEXT);
        let bare = r#"{"n":0,"l":[],"k":"plain"}"#;
        assert_eq!(write(&read::<Shape>(bare).unwrap()), bare);
        let loose = "\n{ \"k\":\t{\"one\" : 4 } ,\"l\":[ 1 ],\"n\":1 }\r\n";
        assert_eq!(
            write(&read::<Shape>(loose).unwrap()),
            r#"{"n":1,"l":[1],"k":{"one":4}}"#
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
            (r#"{"n":1,"l":[]}"#, "line 1 column 14", "missing field `k`"),
            (
                r#"{"n":256,"l":[],"k":"plain"}"#,
                "line 1 column 8",
                "256 is not between 0 and 255",
            ),
            (
                r#"{"n":1.0,"l":[],"k":"plain"}"#,
                "line 1 column 7",
                "expected a whole number",
            ),
            (
                r#"{"n":1,"l":[],"k":"one"}"#,
                "line 1 column 23",
                "`one` is not known",
            ),
            (
                r#"{"n":1,"l":[],"k":"plain","r":["a"]}"#,
                "line 1 column 35",
                "too short",
            ),
            (
                r#"{"n":1,"l":[],"k":{"one":1,"two":[1,true]}}"#,
                "line 1 column 27",
                "one field only",
            ),
            (
                r#"{"n":1,"l":[],"k":"plain","r":["",1,2]}"#,
                "line 1 column 36",
                "too long",
            ),
            (
                r#"{"n":1,"l":[],"k":"plain"}}"#,
                "line 1 column 27",
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
            let mut copy = Some(String::new());
            let ours = reader.pass(0, &mut copy).and_then(|()| reader.end());
            let theirs = serde_json::from_str::<Value>(&text);
            // It reads no number beyond 64 bits; here no number is passed over.
            let is_json = theirs.map_or_else(|e| e.to_string().contains("out of range"), |_| true);
            assert_eq!(ours.is_ok(), is_json, "{text}");
            if ours.is_ok() {
                whole += 1;
                let copy = copy.unwrap();
                assert!(copy.is_ascii() && !copy.contains('\n'), "{text}");
                let again = serde_json::from_str::<Value>(&copy);
                let first = serde_json::from_str::<Value>(&text);
                assert_eq!(again.ok(), first.ok(), "{text}");
            }
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
