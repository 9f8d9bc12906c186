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
    Live(Box<dyn FnMut() -> View>),
    Rows(Rows),
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
    Live(Box<dyn Fn() -> Option<Text>>),
    Property(Box<dyn Fn() -> JsValue>),
    Event(Box<dyn FnMut(web_sys::Event)>),
}

struct Rows {
    keys: Box<dyn Fn() -> Vec<String>>,
    row: Box<dyn Fn(&str) -> View>,
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
    fn put(mut self, name: &'static str, value: Value) -> Self {
        self.0.attributes.push((name, value));
        self
    }

    fn add(mut self, child: View) -> Self {
        self.0.children.push(child);
        self
    }

    /// An attribute that stays as it is.
    pub fn attr(self, name: &'static str, value: impl Into<Text>) -> Self {
        self.put(name, Value::Fixed(value.into()))
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
        let value = move || JsValue::from_str(&value());
        self.put("value", Value::Property(Box::new(value)))
    }

    /// A style that follows values. It is set as a property: the page's
    /// policy forbids the attribute.
    pub fn style(self, style: impl Fn() -> String + 'static) -> Self {
        let value = move || JsValue::from_str(&style());
        self.put("style", Value::Property(Box::new(value)))
    }

    /// Whether a box or a radio button is chosen.
    pub fn checked(self, is_checked: impl Fn() -> bool + 'static) -> Self {
        let value = move || JsValue::from_bool(is_checked());
        self.put("checked", Value::Property(Box::new(value)))
    }

    /// What happens on an event.
    pub fn on(self, event: &'static str, act: impl FnMut(web_sys::Event) + 'static) -> Self {
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
    tag("button", class)
        .attr("type", "button")
        .on("click", move |_| act())
        .with(name)
}

/// A link to a place in the app.
pub fn link(class: &'static str, href: String, name: impl Into<View>) -> Tag {
    tag("a", class).attr("href", href).with(name)
}

/// A part of the page that follows the values it reads. What can stay as it
/// is stays: a field keeps its focus.
pub fn live<V: Into<View>>(show: impl Fn() -> V + 'static) -> View {
    View(Box::new(Kind::Live(Box::new(move || show().into()))))
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
    View(Box::new(Kind::Rows(Rows {
        keys: Box::new(keys),
        row: Box::new(row),
    })))
}

/// Nothing.
#[must_use]
pub fn nothing() -> View {
    View(Box::new(Kind::List(Vec::new())))
}

fn text(text: Text) -> View {
    View(Box::new(Kind::Text(text)))
}

impl From<Tag> for View {
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
        Self(Box::new(Kind::Live(Box::new(move || text(show())))))
    }
}

impl From<Vec<Self>> for View {
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
