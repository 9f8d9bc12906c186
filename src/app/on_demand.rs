//! Screens whose code is fetched when they are first shown.
//!
//! Start at [`screen`]. The program is cut in `main.rs`: what stands beyond
//! the cut is in a file of its own, which the worker keeps with all the
//! others. It is fetched once the first screen stands, so that one seldom
//! waits for it; a fetch that fails says so and can be tried again.

use crate::held::{Held, later};
use crate::markup::{View, button, live, tag};
use crate::route::{self, Route};
use crate::state::App;
use crate::text::words;
use std::future::Future;
use std::pin::Pin;
use std::task::{Context, Poll, Waker};

/// Something from beyond the cut, on its way.
pub type Fetched<T> = Pin<Box<dyn Future<Output = Result<T, Failed>>>>;

/// The code beyond the cut could not be fetched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Failed;

/// The ways over the cut.
#[derive(Clone, Copy)]
pub struct Desk {
    /// Fetches what lies beyond.
    pub fetch: fn() -> Fetched<()>,
    /// The screen of a place.
    pub screen: fn(Route) -> Fetched<View>,
}

/// How far the code beyond the cut is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Nobody has asked for it, or it is on its way.
    Awaited,
    /// It is there.
    Here,
    /// It could not be fetched.
    Missing,
}

/// What is known of the code beyond the cut.
#[derive(Clone, Copy)]
pub struct Beyond {
    desk: Desk,
    is: Held<Standing>,
}

impl Beyond {
    /// Nothing is fetched yet.
    #[must_use]
    pub fn new(desk: Desk) -> Self {
        Self {
            desk,
            is: Held::new(Standing::Awaited),
        }
    }

    /// Fetches the code beyond the cut, unless it is there.
    pub fn fetch(self) {
        self.fetch_then(|| {});
    }

    fn fetch_then(self, then: fn()) {
        if self.is.get_untracked() == Standing::Here {
            return;
        }
        self.is.set(Standing::Awaited);
        later(async move {
            let came = (self.desk.fetch)().await.is_ok();
            let is = if came {
                Standing::Here
            } else {
                Standing::Missing
            };
            if self.is.get_untracked() != is {
                self.is.set(is);
                then();
            }
        });
    }
}

/// The screen of a place beyond the cut, or that it is on its way.
pub fn screen(place: Route) -> View {
    // A screen reader is taken to the heading once there is one.
    beyond_cut(place, route::tell_place, |inside| {
        tag("main", "page").with(inside).into()
    })
}

/// The inside of a sheet that lies beyond the cut, or that it is on its way.
pub fn piece(place: Route) -> View {
    beyond_cut(place, || {}, |inside| inside)
}

fn beyond_cut(place: Route, then: fn(), within: fn(View) -> View) -> View {
    let beyond = App::here().beyond;
    beyond.fetch_then(then);
    live(move || match beyond.is.get() {
        Standing::Here => at_once((beyond.desk.screen)(place.clone())),
        Standing::Awaited => within(waiting()),
        Standing::Missing => within(
            vec![
                tag("h1", "").with(words::NOT_FETCHED).into(),
                tag("p", "")
                    .attr("role", "alert")
                    .with(words::NOT_FETCHED_MORE)
                    .into(),
                button("button button--main", words::TRY_AGAIN, move || {
                    beyond.fetch_then(then);
                })
                .into(),
            ]
            .into(),
        ),
    })
}

/// A screen whose code is there comes at the first asking.
fn at_once(mut screen: Fetched<View>) -> View {
    let mut context = Context::from_waker(Waker::noop());
    match screen.as_mut().poll(&mut context) {
        Poll::Ready(Ok(view)) => view,
        _ => waiting(),
    }
}

fn waiting() -> View {
    tag("p", "soft")
        .attr("role", "status")
        .with(words::ONE_MOMENT)
        .into()
}
