//! What stands in the document, and how it is amended to a new description.
//!
//! Start at [`build`] and [`amend`]. What is of the same kind in the same
//! place is amended where it stands; all else is put in its place anew.

use super::{Acts, Kind, MakesRows, Parts, Shows, Text, Value, View};
use crate::held;
use leptos::prelude::{Owner, document, untrack};
use leptos::reactive::effect::RenderEffect;
use leptos::tachys::view::Mountable;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, Event, Node};

/// A description that stands, or is about to stand, in the document.
pub struct Standing(Stands);

enum Stands {
    Text(web_sys::Text, Text),
    Tag(Box<StandingTag>),
    /// Its parts, and a mark behind them.
    List(Vec<Standing>, Node),
    Live(Live),
    Rows(LiveRows),
}

struct StandingTag {
    element: Element,
    name: &'static str,
    attributes: Vec<(&'static str, Bound)>,
    children: Vec<Standing>,
}

/// An attribute that stands.
enum Bound {
    Fixed(Text),
    Follows { _follows: RenderEffect<()> },
    Event(Listener),
}

impl Bound {
    fn following(run: Box<dyn FnMut()>) -> Self {
        Self::Follows {
            _follows: follow(run),
        }
    }
}

struct Listener {
    name: &'static str,
    element: Element,
    handler: Handler,
    closure: Closure<dyn Fn(Event)>,
}

impl Drop for Listener {
    fn drop(&mut self) {
        // Leaving the document may bring about one more event.
        let closure = self.closure.as_ref().unchecked_ref();
        let _ = self
            .element
            .remove_event_listener_with_callback(self.name, closure);
    }
}

type Handler = Rc<RefCell<Rc<dyn Acts>>>;

struct Live {
    inside: Rc<RefCell<Option<Standing>>>,
    _follows: RenderEffect<()>,
}

impl Drop for Live {
    fn drop(&mut self) {
        // The effect lets go of it a turn later; what is inside must not
        // follow anything until then.
        drop(self.inside.take());
    }
}

struct LiveRows {
    inside: Rc<RefCell<StandingRows>>,
    _follows: RenderEffect<()>,
}

impl Drop for LiveRows {
    fn drop(&mut self) {
        drop(std::mem::take(&mut self.inside.borrow_mut().rows));
    }
}

struct StandingRows {
    rows: Vec<Row>,
    /// A mark behind them.
    end: Node,
}

struct Row {
    key: String,
    standing: Standing,
    /// Owns the values made for this row. Dropped after what follows them.
    _owner: Owner,
}

/// Runs now and again whenever a value it read changes.
fn follow(mut run: Box<dyn FnMut()>) -> RenderEffect<()> {
    RenderEffect::new(move |_| run())
}

fn mark() -> Node {
    document().create_comment("").into()
}

/// Makes a description stand; it is not in the document yet.
pub(super) fn build(view: View) -> Standing {
    Standing(match *view.0 {
        Kind::Text(text) => Stands::Text(document().create_text_node(&text), text),
        Kind::Tag(parts) => Stands::Tag(Box::new(build_tag(parts))),
        Kind::List(list) => Stands::List(list.into_iter().map(build).collect(), mark()),
        Kind::Live(show) => Stands::Live(build_live(show)),
        Kind::Rows(rows) => Stands::Rows(build_rows(rows)),
    })
}

fn build_tag(parts: Parts) -> StandingTag {
    // A name in the source of the app is a valid one.
    let element = document()
        .create_element_ns(
            Some(parts.space.unwrap_or("http://www.w3.org/1999/xhtml")),
            parts.name,
        )
        .unwrap_or_else(|error| wasm_bindgen::throw_val(error));
    let attributes = parts
        .attributes
        .into_iter()
        .map(|(name, value)| (name, bind(&element, name, value)))
        .collect();
    let children: Vec<Standing> = parts.children.into_iter().map(build).collect();
    for child in &children {
        child.place(&element, None);
    }
    if let Some(shown) = parts.shown {
        let element = element.clone();
        held::later(async move { shown(&element) });
    }
    StandingTag {
        element,
        name: parts.name,
        attributes,
        children,
    }
}

fn bind(element: &Element, name: &'static str, value: Value) -> Bound {
    let follower = element.clone();
    match value {
        Value::Fixed(text) => {
            let _ = element.set_attribute(name, &text);
            Bound::Fixed(text)
        }
        Value::Live(value) => {
            let mut last = None;
            Bound::following(Box::new(move || {
                let now = value.find();
                if now != last {
                    let _ = match &now {
                        Some(text) => follower.set_attribute(name, text),
                        None => follower.remove_attribute(name),
                    };
                    last = now;
                }
            }))
        }
        Value::Property(value) => {
            let mut last = JsValue::UNDEFINED;
            Bound::following(Box::new(move || {
                let now = value.find();
                if now != last {
                    let _ = js_sys::Reflect::set(&follower, &JsValue::from_str(name), &now);
                    last = now;
                }
            }))
        }
        Value::Event(act) => {
            let handler: Handler = Rc::new(RefCell::new(Rc::from(act)));
            let acting = Rc::clone(&handler);
            let closure = Closure::<dyn Fn(Event)>::new(move |event| {
                let act = Rc::clone(&acting.borrow());
                act.act(event);
            });
            let _ =
                element.add_event_listener_with_callback(name, closure.as_ref().unchecked_ref());
            Bound::Event(Listener {
                name,
                handler,
                element: follower,
                closure,
            })
        }
    }
}

fn build_live(show: Box<dyn Shows>) -> Live {
    let inside = Rc::new(RefCell::new(None));
    let within = Rc::clone(&inside);
    let follows = follow(Box::new(move || {
        let view = show.show();
        let mut within = within.borrow_mut();
        match &mut *within {
            Some(standing) => amend(standing, view),
            None => *within = Some(build(view)),
        }
    }));
    Live {
        inside,
        _follows: follows,
    }
}

fn build_rows(rows: Box<dyn MakesRows>) -> LiveRows {
    let inside = Rc::new(RefCell::new(StandingRows {
        rows: Vec::new(),
        end: mark(),
    }));
    let within = Rc::clone(&inside);
    // Rows outlive a run of the effect, and so must what they own.
    let owner = Owner::current().unwrap_or_default();
    let follows = follow(Box::new(move || {
        let keys = rows.keys();
        let make = |key: String| {
            let owner = owner.child();
            let standing = owner.with(|| untrack(|| build(rows.row(&key))));
            Row {
                key,
                standing,
                _owner: owner,
            }
        };
        within.borrow_mut().arrange(keys, &make);
    }));
    LiveRows {
        inside,
        _follows: follows,
    }
}

impl StandingRows {
    fn arrange(&mut self, keys: Vec<String>, make: &dyn Fn(String) -> Row) {
        let mut before = std::mem::take(&mut self.rows);
        let found: Vec<Result<Row, String>> = keys
            .into_iter()
            .map(|key| match before.iter().position(|row| row.key == key) {
                Some(at) => Ok(before.swap_remove(at)),
                None => Err(key),
            })
            .collect();
        for gone in before {
            gone.standing.remove();
        }
        self.rows = found
            .into_iter()
            .map(|row| row.unwrap_or_else(make))
            .collect();
        let Some(parent) = self.end.parent_node() else {
            return;
        };
        let mut next = self.end.clone();
        for Row { standing, .. } in self.rows.iter().rev() {
            // What is in its place already is left alone: moving takes the focus.
            if standing.last().next_sibling().as_ref() != Some(&next) {
                standing.place(&parent, Some(&next));
            }
            next = standing.first();
        }
    }
}

/// Amends what stands to a new description.
pub(super) fn amend(standing: &mut Standing, view: View) {
    let kind = match (&mut standing.0, *view.0) {
        (Stands::Text(node, old), Kind::Text(new)) => {
            if *old != new {
                node.set_data(&new);
                *old = new;
            }
            return;
        }
        (Stands::Tag(old), Kind::Tag(new)) if old.is_like(&new) => return old.amend(new),
        (Stands::List(old, end), Kind::List(new)) => {
            if let Some(parent) = end.parent_node() {
                amend_list(old, new, &parent, Some(end));
            }
            return;
        }
        (_, kind) => kind,
    };
    let fresh = build(View(Box::new(kind)));
    let first = standing.first();
    if let Some(parent) = first.parent_node() {
        fresh.place(&parent, Some(&first));
    }
    standing.remove();
    *standing = fresh;
}

fn amend_list(old: &mut Vec<Standing>, new: Vec<View>, parent: &Node, end: Option<&Node>) {
    for surplus in old.drain(new.len().min(old.len())..) {
        surplus.remove();
    }
    let mut new = new.into_iter();
    for (standing, view) in old.iter_mut().zip(&mut new) {
        amend(standing, view);
    }
    for view in new {
        let standing = build(view);
        standing.place(parent, end);
        old.push(standing);
    }
}

impl StandingTag {
    fn is_like(&self, new: &Parts) -> bool {
        let names = |&(name, _): &(&'static str, Value)| name;
        self.name == new.name
            && self.attributes.len() == new.attributes.len()
            && self
                .attributes
                .iter()
                .map(|(name, _)| *name)
                .eq(new.attributes.iter().map(names))
    }

    fn amend(&mut self, new: Parts) {
        for ((name, bound), (_, value)) in self.attributes.iter_mut().zip(new.attributes) {
            match (&mut *bound, value) {
                (Bound::Fixed(old), Value::Fixed(new)) => {
                    if *old != new {
                        let _ = self.element.set_attribute(name, &new);
                        *old = new;
                    }
                }
                (Bound::Event(listener), Value::Event(new)) => {
                    *listener.handler.borrow_mut() = Rc::from(new);
                }
                (bound, value) => *bound = bind(&self.element, name, value),
            }
        }
        amend_list(&mut self.children, new.children, &self.element, None);
    }
}

impl Standing {
    /// Does something with each of the nodes side by side.
    fn each(&self, act: &mut dyn FnMut(&Node)) {
        match &self.0 {
            Stands::Text(node, _) => act(node),
            Stands::Tag(tag) => act(&tag.element),
            Stands::List(list, end) => {
                for standing in list {
                    standing.each(act);
                }
                act(end);
            }
            Stands::Live(live) => {
                if let Some(standing) = &*live.inside.borrow() {
                    standing.each(act);
                }
            }
            Stands::Rows(rows) => {
                let inside = rows.inside.borrow();
                for row in &inside.rows {
                    row.standing.each(act);
                }
                act(&inside.end);
            }
        }
    }

    /// The first node: there is always one.
    fn first(&self) -> Node {
        let mut first = None;
        self.each(&mut |node| {
            first.get_or_insert_with(|| node.clone());
        });
        first.unwrap_or_else(mark)
    }

    fn last(&self) -> Node {
        let mut last = None;
        self.each(&mut |node| last = Some(node.clone()));
        last.unwrap_or_else(mark)
    }

    fn place(&self, parent: &Node, before: Option<&Node>) {
        self.each(&mut |node| {
            let _ = parent.insert_before(node, before);
        });
    }

    fn remove(&self) {
        self.each(&mut |node| {
            if let Some(parent) = node.parent_node() {
                let _ = parent.remove_child(node);
            }
        });
    }
}

impl Mountable for Standing {
    fn unmount(&mut self) {
        self.remove();
    }

    fn mount(&mut self, parent: &Element, marker: Option<&Node>) {
        self.place(parent, marker);
    }

    fn insert_before_this(&self, child: &mut dyn Mountable) -> bool {
        let first = self.first();
        let parent = first.parent_node().and_then(|node| node.dyn_into().ok());
        parent.is_some_and(|parent| child.try_mount(&parent, Some(&first)))
    }

    fn elements(&self) -> Vec<Element> {
        let mut found = Vec::new();
        self.each(&mut |node| found.extend(node.dyn_ref::<Element>().cloned()));
        found
    }
}
