//! Labelled fields: typed values, one of several, any of several.

use crate::effects;
use crate::held::{Held, untracked};
use crate::markup::{LiveText, Tag, Text, View, live, rows, tag};
use crate::text::{language, words};
use leptos::prelude::event_target;
use std::rc::Rc;
use web_sys::HtmlInputElement;

/// One thing to choose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// Stable value.
    pub value: Text,
    /// Name shown.
    pub name: Text,
    /// A second, softer line; may be empty.
    pub more: &'static str,
}

impl Choice {
    /// A choice with a name only.
    #[must_use]
    pub fn plain(value: impl Into<Text>, name: impl Into<Text>) -> Self {
        Self::new(value, name, "")
    }

    /// A choice with a second line.
    #[must_use]
    pub fn new(value: impl Into<Text>, name: impl Into<Text>, more: &'static str) -> Self {
        Self {
            value: value.into(),
            name: name.into(),
            more,
        }
    }

    fn key(&self) -> String {
        format!("{}\n{}", self.value, self.name)
    }
}

/// Things to choose from.
pub type Choices = Rc<dyn Fn() -> Vec<Choice>>;

/// A text field with its label and error.
pub struct TypedField {
    /// Label.
    pub label: Text,
    /// Stable id.
    pub id: String,
    /// Present value as text.
    pub value: LiveText,
    /// What is wrong with what was typed.
    pub error: Held<Option<String>>,
    /// Text was typed, and the person left the field.
    pub on_typed: Box<dyn Fn(String)>,
    /// Unit behind the field.
    pub unit: Option<View>,
}

impl From<TypedField> for View {
    fn from(field: TypedField) -> Self {
        let TypedField { id, error, .. } = field;
        let input = replaced("input input--short", field.value)
            .attr("id", id.clone())
            .on_typed(field.on_typed);
        let label = tag("label", "field__label")
            .attr("for", id.clone())
            .with(field.label);
        let unit = field.unit.map(|unit| tag("span", "soft").with(unit));
        let with_unit = tag("div", "with-unit")
            .with(described_by(input, id.clone(), error))
            .with(unit);
        tag("div", "field")
            .with(label)
            .with(with_unit)
            .with(refusal_of(id, error))
            .into()
    }
}

/// A field for words, under its label.
pub fn labelled(id: &'static str, label: &'static str, field: Tag) -> Tag {
    let label = tag("label", "field__label").attr("for", id).with(label);
    tag("div", "field").with(label).with(field.attr("id", id))
}

/// A field for a number, in which typing replaces what stands there: nobody
/// wants to delete digits with a thumb.
pub(super) fn replaced(class: &'static str, value: LiveText) -> Tag {
    let field = tag("input", class)
        .attr("type", "text")
        .attr("inputmode", "decimal")
        .attr("autocomplete", "off")
        .value(value);
    typing_replaces(field)
}

/// Typing replaces what stands in the field, however it came by the focus.
pub fn typing_replaces(field: Tag) -> Tag {
    field
        .on("focus", select_all)
        // A tap into a field that has the focus already says nothing of focus,
        // and some browsers put the cursor only after telling of it.
        .on("click", select_all)
        // WebKit takes the selection away when the finger leaves, after the focus.
        .on("mouseup", |event| event.prevent_default())
}

/// Typing replaces what stands in the field.
pub fn select_all(event: web_sys::Event) {
    event_target::<HtmlInputElement>(&event).select();
}

/// A field that says what is wrong with what was typed.
pub(super) fn described_by(input: Tag, id: String, error: Held<Option<String>>) -> Tag {
    input
        .live("aria-invalid", move || {
            error.with(Option::is_some).then_some("true".into())
        })
        .live("aria-describedby", move || {
            error
                .with(Option::is_some)
                .then(|| format!("{id}-error").into())
        })
}

/// What is wrong with what was typed in a field.
pub(super) fn refusal_of(id: String, error: Held<Option<String>>) -> View {
    live(move || {
        let line = error.get().map(refused)?;
        Some(line.attr("id", format!("{id}-error")))
    })
}

/// What was refused, and why.
pub fn refusal(error: Held<Option<String>>) -> View {
    live(move || error.get().map(refused))
}

fn refused(why: String) -> Tag {
    tag("p", "field__error").attr("role", "alert").with(why)
}

/// The languages the app speaks, each by its own name.
pub fn languages() -> ChoiceGroup {
    let choice = |&(tag, name): &(&'static str, &'static str)| Choice::plain(tag, name);
    ChoiceGroup {
        legend: words::LANGUAGE,
        name: "language",
        options: Rc::new(move || language::LANGUAGES.iter().map(choice).collect()),
        chosen: Rc::new(|| language::spoken().tag.into()),
        on_choose: Rc::new(effects::language::choose),
        is_chips: true,
    }
}

/// Chips that share a row.
const MOST_IN_A_ROW: usize = 7;

/// One of several, each a block with a second line, or chips in a row.
pub struct ChoiceGroup {
    /// What is chosen.
    pub legend: &'static str,
    /// Name of the radio group.
    pub name: &'static str,
    /// The choices.
    pub options: Choices,
    /// Value chosen.
    pub chosen: Rc<dyn Fn() -> Text>,
    /// A choice was made.
    pub on_choose: Rc<dyn Fn(&str)>,
    /// Chips in a row instead of blocks.
    pub is_chips: bool,
}

impl From<ChoiceGroup> for View {
    fn from(group: ChoiceGroup) -> Self {
        let ChoiceGroup {
            legend,
            name,
            options,
            chosen,
            on_choose,
            is_chips,
        } = group;
        // A few fill their row; of many each is as wide as its name.
        let (class, each) = match (is_chips, untracked(&|| options().len())) {
            (true, ..=MOST_IN_A_ROW) => ("chips", "chip chip--grow"),
            (true, _) => ("chips", "chip"),
            (false, _) => ("stack", "choice"),
        };
        let row = move |option: Choice| {
            let more = (!option.more.is_empty()).then(|| tag("span", "").with(option.more));
            let (chosen, on_choose) = (Rc::clone(&chosen), Rc::clone(&on_choose));
            let (value, picked) = (option.value.clone(), option.value.clone());
            let input = tag("input", "")
                .attr("type", "radio")
                .attr("name", name)
                .attr("value", option.value)
                .checked(move || chosen() == value)
                .on_ticked(move |_| on_choose(&picked));
            tag("label", each)
                .with(input)
                .with(tag("strong", "").with(option.name))
                .with(more)
        };
        group_of(legend, tag("div", class), options, Box::new(row))
    }
}

/// Any of several, as chips.
pub struct TickGroup {
    /// What is chosen.
    pub legend: &'static str,
    /// The choices.
    pub options: Choices,
    /// Whether a value is ticked.
    pub is_ticked: Rc<dyn Fn(&str) -> bool>,
    /// A value was ticked or unticked.
    pub on_toggle: Rc<dyn Fn(&str)>,
    /// Seven in one row.
    pub is_week: bool,
}

impl From<TickGroup> for View {
    fn from(group: TickGroup) -> Self {
        let TickGroup {
            legend,
            options,
            is_ticked,
            on_toggle,
            is_week,
        } = group;
        let class = if is_week {
            "chips chips--week"
        } else {
            "chips"
        };
        let row = move |option: Choice| {
            let (is_ticked, on_toggle) = (Rc::clone(&is_ticked), Rc::clone(&on_toggle));
            let (value, toggled) = (option.value.clone(), option.value.clone());
            let input = tag("input", "")
                .attr("type", "checkbox")
                .attr("value", option.value)
                .checked(move || is_ticked(&value))
                .on_ticked(move |_| on_toggle(&toggled));
            tag("label", "chip").with(input).with(option.name)
        };
        group_of(legend, tag("div", class), options, Box::new(row))
    }
}

fn group_of(
    legend: &'static str,
    list: Tag,
    options: Choices,
    row: Box<dyn Fn(Choice) -> Tag>,
) -> View {
    let keyed = Rc::clone(&options);
    let keys = move || keyed().iter().map(Choice::key).collect();
    let found = move |key: &str| {
        options()
            .into_iter()
            .find(|option| option.key() == key)
            .map(&row)
            .into()
    };
    tag("fieldset", "group")
        .with(tag("legend", "").with(legend))
        .with(list.with(rows(keys, found)))
        .into()
}

/// A box to tick, with its words.
pub fn tick(
    words: impl Into<View>,
    is_ticked: impl Fn() -> bool + 'static,
    on_tick: impl Fn(bool) + 'static,
) -> Tag {
    let input = tag("input", "")
        .attr("type", "checkbox")
        .checked(is_ticked)
        .on_ticked(on_tick);
    tag("label", "tick").with(input).with(words)
}
