//! A value that comes later, once.

use std::cell::RefCell;
use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

/// A future that is ready when [`Once::give`] was called on a clone of it.
pub(super) struct Once<T>(Rc<RefCell<State<T>>>);

struct State<T> {
    value: Option<T>,
    waker: Option<Waker>,
}

impl<T> Once<T> {
    pub(super) fn new() -> Self {
        Self(Rc::new(RefCell::new(State {
            value: None,
            waker: None,
        })))
    }

    /// Gives the value. Later values are dropped.
    pub(super) fn give(&self, value: T) {
        let mut state = self.0.borrow_mut();
        state.value.get_or_insert(value);
        if let Some(waker) = state.waker.take() {
            waker.wake();
        }
    }
}

impl<T> Clone for Once<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> Future for Once<T> {
    type Output = T;

    fn poll(self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<T> {
        let mut state = self.0.borrow_mut();
        match state.value.take() {
            Some(value) => Poll::Ready(value),
            None => {
                state.waker = Some(context.waker().clone());
                Poll::Pending
            }
        }
    }
}
