//! A picture of the page as a file of its own.

use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Element;

const SVG: &str = "http://www.w3.org/2000/svg";
/// What a drawing needs to look the same without the page's styles.
const LOOKS: [&str; 8] = [
    "fill",
    "stroke",
    "stroke-width",
    "stroke-dasharray",
    "stroke-linecap",
    "opacity",
    "font-family",
    "font-size",
];

/// Room above the drawing for the words that head it, in its own units.
const HEAD: u32 = 24;

/// The text of an SVG file that looks as the drawing of this size does now, with
/// words above it.
///
/// # Errors
/// What the browser says when it refuses.
pub fn standing_alone(svg: &Element, words: &str) -> Result<String, JsValue> {
    let copy: Element = svg.clone_node_with_deep(true)?.unchecked_into();
    copy.set_attribute("xmlns", SVG)?;
    let drawn = svg.query_selector_all("*")?;
    let copied = copy.query_selector_all("*")?;
    let dress = |from: &Element, to: &Element| -> Result<(), JsValue> {
        let Some(looks) = window().get_computed_style(from)? else {
            return Ok(());
        };
        for name in LOOKS {
            // Attributes, for the page's policy lets nobody write styles.
            to.set_attribute(name, &looks.get_property_value(name)?)?;
        }
        to.remove_attribute("class")
    };
    for at in 0..drawn.length() {
        if let (Some(from), Some(to)) = (drawn.get(at), copied.get(at)) {
            dress(from.unchecked_ref(), to.unchecked_ref())?;
        }
    }
    let document = window().document().ok_or(JsValue::NULL)?;
    let body: Element = document.body().ok_or(JsValue::NULL)?.into();
    let size = svg.get_attribute("viewBox").unwrap_or_default();
    let size: Vec<&str> = size.split(' ').collect();
    if let [_, _, width, height] = size[..]
        && let Some(looks) = window().get_computed_style(&body)?
    {
        let tall = HEAD + height.parse::<u32>().unwrap_or_default();
        copy.set_attribute("viewBox", &format!("0 -{HEAD} {width} {tall}"))?;
        let head = document.create_element_ns(Some(SVG), "text")?;
        head.set_attribute("x", "4")?;
        head.set_attribute("y", "-8")?;
        head.set_attribute("font-size", "12")?;
        for (name, value) in [("fill", "color"), ("font-family", "font-family")] {
            head.set_attribute(name, &looks.get_property_value(value)?)?;
        }
        head.set_text_content(Some(words));
        // The paper it is drawn on.
        let sheet = document.create_element_ns(Some(SVG), "rect")?;
        sheet.set_attribute("y", &format!("-{HEAD}"))?;
        sheet.set_attribute("width", "100%")?;
        sheet.set_attribute("height", "100%")?;
        sheet.set_attribute("fill", &looks.get_property_value("background-color")?)?;
        let first = copy.first_child();
        copy.insert_before(&sheet, first.as_ref())?;
        copy.insert_before(&head, first.as_ref())?;
    }
    copy.remove_attribute("class")?;
    Ok(copy.outer_html())
}
