//! What the screens are made of: a description of what should stand on the
//! page. A view for Leptos, and the only one there is.
//!
//! Start at [`tag`] for an element and [`live`], [`when`] and [`rows`] for what
//! follows values; [`standing`] makes a description stand in the document and
//! amends it.
//!
//! Leptos makes a type of its own for each piece of markup, and the machine
//! code to build, amend and remove it. For a whole app that is more than half
//! of the download. Here every piece of markup is of one type, so that code is
//! there once. Nothing here knows a screen.

mod standing;

use crate::held::{Derived, untracked};
use crate::text::language::tr;
use leptos::tachys::view::Render;
use std::borrow::Cow;
use wasm_bindgen::JsValue;

pub use standing::Standing;

/// A text: a fixed one costs no copy.
pub type Text = Cow<'static, str>;

/// A text that follows the values it reads.
pub type LiveText = Box<dyn Fn() -> Text>;

/// A piece of markup.
pub struct View(Box<Kind>);

enum Kind {
    Text(Text),
    Tag(Parts),
    List(Vec<View>),
    Live(Box<dyn Shows>),
    Rows(Box<dyn MakesRows>),
}

// Traits of one method in place of closures' own: those bring two more
// functions each that nothing here calls.

/// Shows a part of the page as it is now.
trait Shows {
    fn show(&self) -> View;
}

impl<V: Into<View>, F: Fn() -> V> Shows for F {
    fn show(&self) -> View {
        self().into()
    }
}

/// Says which rows there are, and makes one.
trait MakesRows {
    fn keys(&self) -> Vec<String>;
    fn row(&self, key: &str) -> View;
}

impl<K: Fn() -> Vec<String>, R: Fn(&str) -> View> MakesRows for (K, R) {
    fn keys(&self) -> Vec<String> {
        self.0()
    }

    fn row(&self, key: &str) -> View {
        self.1(key)
    }
}

/// Finds the text of an attribute.
trait Finds {
    fn find(&self) -> Option<Text>;
}

impl<F: Fn() -> Option<Text>> Finds for F {
    fn find(&self) -> Option<Text> {
        self()
    }
}

/// Does what an event calls for.
trait Acts {
    fn act(&self, event: web_sys::Event);
}

impl<F: Fn(web_sys::Event)> Acts for F {
    fn act(&self, event: web_sys::Event) {
        self(event);
    }
}

/// Acts on a tap, whatever its event says.
struct OnTap<F>(F);

impl<F: Fn()> Acts for OnTap<F> {
    fn act(&self, _: web_sys::Event) {
        self.0();
    }
}

/// An element to be.
struct Parts {
    name: &'static str,
    space: Option<&'static str>,
    attributes: Vec<(&'static str, Value)>,
    shown: Option<fn(&web_sys::Element)>,
    children: Vec<View>,
}

enum Value {
    Fixed(Text),
    Live(Box<dyn Finds>),
    Property(Property),
    Event(Box<dyn Acts>),
}

/// A property of an element that follows values.
enum Property {
    Text(LiveText),
    Flag(Box<dyn Fn() -> bool>),
}

impl Property {
    fn find(&self) -> JsValue {
        match self {
            Self::Text(text) => JsValue::from_str(&text()),
            Self::Flag(flag) => JsValue::from_bool(flag()),
        }
    }
}

/// An element being described.
#[must_use]
pub struct Tag(Box<Parts>);

/// An element with its classes; no class where `class` is empty.
pub fn tag(name: &'static str, class: &'static str) -> Tag {
    described(name, None, class)
}

/// An element of a drawing.
pub fn drawn(name: &'static str, class: &'static str) -> Tag {
    described(name, Some("http://www.w3.org/2000/svg"), class)
}

#[inline(never)]
fn described(name: &'static str, space: Option<&'static str>, class: &'static str) -> Tag {
    let mut attributes = Vec::new();
    if !class.is_empty() {
        attributes.push(("class", Value::Fixed(Cow::Borrowed(class))));
    }
    Tag(Box::new(Parts {
        name,
        space,
        attributes,
        shown: None,
        children: Vec::new(),
    }))
}

impl Tag {
    #[inline(never)]
    fn put(mut self, name: &'static str, value: Value) -> Self {
        self.0.attributes.push((name, value));
        self
    }

    #[inline(never)]
    fn add(mut self, child: View) -> Self {
        self.0.children.push(child);
        self
    }

    /// An attribute that stays as it is.
    pub fn attr(self, name: &'static str, value: impl Into<Text>) -> Self {
        self.fixed(name, value.into())
    }

    #[inline(never)]
    fn fixed(self, name: &'static str, value: Text) -> Self {
        let is_read_out = name == "aria-label";
        self.put(
            name,
            Value::Fixed(if is_read_out { spoken(value) } else { value }),
        )
    }

    /// An attribute that follows values; absent while there is none.
    pub fn live(self, name: &'static str, value: impl Fn() -> Option<Text> + 'static) -> Self {
        self.put(name, Value::Live(Box::new(value)))
    }

    /// One of two lists of classes.
    pub fn class_if(
        self,
        is_so: impl Fn() -> bool + 'static,
        so: &'static str,
        not: &'static str,
    ) -> Self {
        self.live("class", move || {
            let class = if is_so() { so } else { not };
            (!class.is_empty()).then_some(Cow::Borrowed(class))
        })
    }

    /// The text in a field, as far as the app and not the person sets it.
    pub fn value(self, value: LiveText) -> Self {
        self.put("value", Value::Property(Property::Text(value)))
    }

    /// A style that follows values. It is set as a property: the page's
    /// policy forbids the attribute.
    pub fn style(self, style: LiveText) -> Self {
        self.put("style", Value::Property(Property::Text(style)))
    }

    /// Whether a box or a radio button is chosen.
    pub fn checked(self, is_checked: impl Fn() -> bool + 'static) -> Self {
        let flag = Property::Flag(Box::new(is_checked));
        self.put("checked", Value::Property(flag))
    }

    /// What unfolds is folded again whenever it is described anew.
    pub fn folded(self) -> Self {
        self.put("open", Value::Property(Property::Flag(Box::new(|| false))))
    }

    /// What happens on an event.
    pub fn on(self, event: &'static str, act: impl Fn(web_sys::Event) + 'static) -> Self {
        self.put(event, Value::Event(Box::new(act)))
    }

    /// What happens with the text of a field when the person leaves it.
    pub fn on_typed(self, act: impl Fn(String) + 'static) -> Self {
        self.on("change", move |event| {
            act(leptos::prelude::event_target_value(&event));
        })
    }

    /// What happens when a box is ticked or unticked.
    pub fn on_ticked(self, act: impl Fn(bool) + 'static) -> Self {
        self.on("change", move |event| {
            act(leptos::prelude::event_target_checked(&event));
        })
    }

    /// What happens with the element once it stands in the document.
    pub fn on_shown(mut self, act: fn(&web_sys::Element)) -> Self {
        self.0.shown = Some(act);
        self
    }

    /// With one more thing in it.
    pub fn with(self, child: impl Into<View>) -> Self {
        self.add(child.into())
    }
}

/// A button that does something when tapped.
pub fn button(class: &'static str, name: impl Into<View>, act: impl Fn() + 'static) -> Tag {
    button_of(class, Box::new(OnTap(act))).with(name)
}

fn button_of(class: &'static str, act: Box<dyn Acts>) -> Tag {
    tag("button", class)
        .attr("type", "button")
        .put("click", Value::Event(act))
}

/// A link to a place in the app.
pub fn link(class: &'static str, href: String, name: impl Into<View>) -> Tag {
    tag("a", class).attr("href", href).with(name)
}

/// A part of the page that follows the values it reads. What can stay as it
/// is stays: a field keeps its focus.
pub fn live<V: Into<View>>(show: impl Fn() -> V + 'static) -> View {
    follows(Box::new(show))
}

#[inline(never)]
fn follows(show: Box<dyn Shows>) -> View {
    View(Box::new(Kind::Live(show)))
}

/// A part of the page shown again when its key changes, and only then. As with
/// [`live`], what can stay as it is stays.
pub fn live_by<K: PartialEq + Send + Sync + 'static>(
    key: Derived<K>,
    show: impl Fn() -> View + 'static,
) -> View {
    live(move || {
        key.track();
        untracked(&show)
    })
}

/// A part of the page made anew when its key changes, and only then.
pub fn by_key(key: impl Fn() -> String + 'static, show: impl Fn() -> View + 'static) -> View {
    rows(move || vec![key()], move |_| show())
}

/// A part of the page that is there while something is so.
pub fn when<V: Into<View>>(
    is_so: impl Fn() -> bool + 'static,
    show: impl Fn() -> V + 'static,
) -> View {
    let keys = move || {
        if is_so() {
            vec![String::new()]
        } else {
            Vec::new()
        }
    };
    rows(keys, move |_| show().into())
}

/// One of two parts of the page.
pub fn either(
    is_so: impl Fn() -> bool + 'static,
    show: impl Fn() -> View + 'static,
    otherwise: impl Fn() -> View + 'static,
) -> View {
    let keys = move || vec![if is_so() { "1" } else { "" }.to_owned()];
    rows(
        keys,
        move |key| {
            if key.is_empty() { otherwise() } else { show() }
        },
    )
}

/// A part of the page for each key, in their order. A part is made when its
/// key comes and removed when it goes; between the two it stays.
pub fn rows(
    keys: impl Fn() -> Vec<String> + 'static,
    row: impl Fn(&str) -> View + 'static,
) -> View {
    rows_of(Box::new((keys, row)))
}

#[inline(never)]
fn rows_of(rows: Box<dyn MakesRows>) -> View {
    View(Box::new(Kind::Rows(rows)))
}

/// Nothing.
#[must_use]
#[inline(never)]
pub fn nothing() -> View {
    View(Box::new(Kind::List(Vec::new())))
}

/// A fixed text is one of the app's own and is shown in the person's language;
/// one that was made is in it already, or is what the person typed.
#[inline(never)]
fn spoken(text: Text) -> Text {
    match text {
        Cow::Borrowed(fixed) => Cow::Borrowed(tr(fixed)),
        made => made,
    }
}

#[inline(never)]
fn text(text: Text) -> View {
    View(Box::new(Kind::Text(spoken(text))))
}

impl From<Tag> for View {
    #[inline(never)]
    fn from(tag: Tag) -> Self {
        Self(Box::new(Kind::Tag(*tag.0)))
    }
}

impl From<&'static str> for View {
    fn from(fixed: &'static str) -> Self {
        text(Cow::Borrowed(fixed))
    }
}

impl From<String> for View {
    fn from(made: String) -> Self {
        text(Cow::Owned(made))
    }
}

impl From<Text> for View {
    fn from(either: Text) -> Self {
        text(either)
    }
}

impl From<LiveText> for View {
    fn from(show: LiveText) -> Self {
        live(show)
    }
}

impl From<Vec<Self>> for View {
    #[inline(never)]
    fn from(list: Vec<Self>) -> Self {
        Self(Box::new(Kind::List(list)))
    }
}

impl<V: Into<Self>> From<Option<V>> for View {
    fn from(some: Option<V>) -> Self {
        some.map_or_else(nothing, Into::into)
    }
}

impl Render for View {
    type State = Standing;

    fn build(self) -> Standing {
        standing::build(self)
    }

    fn rebuild(self, state: &mut Standing) {
        standing::amend(state, self);
    }
}
