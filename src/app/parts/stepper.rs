//! Minus and plus around a number that can also be typed.

use super::field::{described_by, refusal_of, replaced};
use super::held_down::held_down;
use crate::held::Held;
use crate::markup::{LiveText, View, tag};
use crate::text::words;
use std::rc::Rc;

/// Which of the two buttons was tapped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turn {
    /// One step down.
    Less,
    /// One step up.
    More,
}

impl Turn {
    /// A step in its direction.
    #[must_use]
    pub const fn by(self, step: i64) -> i64 {
        match self {
            Self::Less => -step,
            Self::More => step,
        }
    }
}

/// A number with a big button on each side. The part knows no units and does
/// no sums: what less, more and a typed text mean is the caller's.
pub struct Stepper {
    /// What the number is, for the label and for a screen reader.
    pub label: &'static str,
    /// Stable id of the text field.
    pub id: &'static str,
    /// The number as text.
    pub value: LiveText,
    /// Unit or noun behind the number.
    pub unit: View,
    /// What is wrong with the typed text.
    pub error: Held<Option<String>>,
    /// A button was tapped, or is held down.
    pub on_turn: Rc<dyn Fn(Turn)>,
    /// Text was typed.
    pub on_typed: Box<dyn Fn(String)>,
    /// A smaller one, for pages with many.
    pub is_small: bool,
}

impl From<Stepper> for View {
    fn from(stepper: Stepper) -> Self {
        let Stepper {
            label, id, error, ..
        } = stepper;
        let turn = |turn: Turn, sign: &'static str, name: String| {
            let on_turn = Rc::clone(&stepper.on_turn);
            held_down("stepper__turn", sign, Rc::new(move || on_turn(turn)))
                .attr("aria-label", name)
        };
        let less = turn(Turn::Less, "\u{2212}", words::less(label));
        let more = turn(Turn::More, "+", words::more(label));
        let name = tag("span", "stepper__name")
            .with(tag("label", "stepper__label").attr("for", id).with(label))
            .with(tag("span", "stepper__unit").with(stepper.unit));
        let input = replaced("stepper__input", stepper.value)
            .attr("id", id)
            .attr("enterkeyhint", "done")
            .on_typed(stepper.on_typed);
        let value =
            tag("div", "stepper__value")
                .with(name)
                .with(described_by(input, id.to_owned(), error));
        let class = if stepper.is_small {
            "stepper stepper--small"
        } else {
            "stepper"
        };
        tag("div", "stepper-field")
            .with(tag("div", class).with(less).with(value).with(more))
            .with(refusal_of(id.to_owned(), error))
            .into()
    }
}
