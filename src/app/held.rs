//! Values that views follow.
//!
//! Start at [`Held`], a value that is set, and [`Derived`], one worked out from
//! others. They are signals of Leptos, of one type inside: each type of a
//! signal would bring its own copy of the code that keeps and announces it.

use leptos::prelude::*;
use std::any::Any;
use std::future::Future;
use std::marker::PhantomData;
use std::ops::Deref;
use std::pin::Pin;
use std::sync::Arc;

type Inside = Box<dyn Any + Send + Sync>;

/// A value that views follow. It belongs to the part of the page it was made
/// in, and goes with it.
pub struct Held<T> {
    inside: RwSignal<Inside>,
    kind: PhantomData<fn() -> T>,
}

impl<T> Clone for Held<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Held<T> {}

#[inline(never)]
fn track(inside: RwSignal<Inside>) {
    inside.track();
}

#[inline(never)]
fn read(inside: RwSignal<Inside>) -> impl Deref<Target = Inside> {
    inside.read_untracked()
}

#[inline(never)]
fn put(inside: RwSignal<Inside>, value: Inside) {
    // Where the part of the page is gone nobody waits for the value.
    let _ = inside.try_set(value);
}

#[inline(never)]
fn change(inside: RwSignal<Inside>, alter: &mut dyn FnMut(&mut dyn Any)) {
    let _ = inside.try_update(|value| alter(&mut **value));
}

/// A value is of the type it was made with.
#[inline(never)]
fn as_made<T: 'static>(value: &dyn Any) -> &T {
    value.downcast_ref().unwrap_or_else(|| other_type())
}

#[cold]
fn other_type() -> ! {
    unreachable!("a value of another type than it was made with")
}

impl<T: Send + Sync + 'static> Held<T> {
    /// Holds a value.
    #[must_use]
    pub fn new(value: T) -> Self {
        Self {
            inside: RwSignal::new(Box::new(value)),
            kind: PhantomData,
        }
    }

    /// Follows the value without looking at it.
    pub fn track(&self) {
        track(self.inside);
    }

    /// Looks at the value and follows it.
    pub fn with<U>(&self, see: impl FnOnce(&T) -> U) -> U {
        self.track();
        self.with_untracked(see)
    }

    /// Looks at the value as it is now.
    pub fn with_untracked<U>(&self, see: impl FnOnce(&T) -> U) -> U {
        see(as_made(&**read(self.inside)))
    }

    /// Sets the value.
    pub fn set(&self, value: T) {
        put(self.inside, Box::new(value));
    }

    /// Changes the value.
    pub fn update(&self, alter: impl FnOnce(&mut T)) {
        let mut alter = Some(alter);
        change(self.inside, &mut |value| {
            if let (Some(value), Some(alter)) = (value.downcast_mut(), alter.take()) {
                alter(value);
            }
        });
    }
}

impl<T: Clone + Send + Sync + 'static> Held<T> {
    /// The value; followed.
    #[must_use]
    pub fn get(&self) -> T {
        self.with(T::clone)
    }

    /// The value as it is now.
    #[must_use]
    pub fn get_untracked(&self) -> T {
        self.with_untracked(T::clone)
    }
}

/// A value worked out from others, announced only when it differs.
pub struct Derived<T> {
    inside: Memo<Found>,
    kind: PhantomData<fn() -> T>,
}

impl<T> Clone for Derived<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Derived<T> {}

struct Found {
    value: Arc<dyn Any + Send + Sync>,
    is_same: fn(&dyn Any, &dyn Any) -> bool,
}

impl PartialEq for Found {
    fn eq(&self, other: &Self) -> bool {
        (self.is_same)(&*self.value, &*other.value)
    }
}

#[inline(never)]
fn derive(find: Box<dyn Fn() -> Found + Send + Sync>) -> Memo<Found> {
    Memo::new(move |_| find())
}

#[inline(never)]
fn found(inside: Memo<Found>) -> Arc<dyn Any + Send + Sync> {
    inside.with(|found| Arc::clone(&found.value))
}

fn is_same<T: PartialEq + 'static>(one: &dyn Any, other: &dyn Any) -> bool {
    one.downcast_ref::<T>() == other.downcast_ref()
}

impl<T: PartialEq + Send + Sync + 'static> Derived<T> {
    /// Works out a value now and whenever what it reads changes.
    #[must_use]
    pub fn new(find: impl Fn() -> T + Send + Sync + 'static) -> Self {
        Self {
            inside: derive(Box::new(move || Found {
                value: Arc::new(find()),
                is_same: is_same::<T>,
            })),
            kind: PhantomData,
        }
    }

    /// Looks at the value and follows it.
    pub fn with<U>(&self, see: impl FnOnce(&T) -> U) -> U {
        let found = found(self.inside);
        see(as_made(&*found))
    }

    /// Follows the value without looking at it.
    pub fn track(&self) {
        self.inside.track();
    }
}

impl<T: Clone + PartialEq + Send + Sync + 'static> Derived<T> {
    /// The value; followed.
    #[must_use]
    pub fn get(&self) -> T {
        self.with(T::clone)
    }

    /// The value as it is now.
    #[must_use]
    pub fn get_untracked(&self) -> T {
        untrack(|| self.get())
    }
}

/// Shows something without following what it reads.
pub fn untracked<U>(show: &dyn Fn() -> U) -> U {
    untrack(show)
}

/// Does something now and whenever the values it reads change. It goes with
/// the part of the page it was made in.
pub fn effect(act: impl FnMut() + 'static) {
    run_effect(Box::new(act));
}

#[inline(never)]
fn run_effect(mut act: Box<dyn FnMut()>) {
    Effect::new(move |_: Option<()>| act());
}

/// Lets something run on its own, beginning with the next turn.
pub fn later(work: impl Future<Output = ()> + 'static) {
    spawn(Box::pin(work));
}

#[inline(never)]
fn spawn(work: Pin<Box<dyn Future<Output = ()>>>) {
    wasm_bindgen_futures::spawn_local(work);
}
