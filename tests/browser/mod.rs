//! A browser under WebDriver (W3C): Chromium, Firefox or WebKitGTK.
//!
//! Start at [`Browser::start`], then [`Page`]. What the open protocol has no command for
//! goes through the DevTools commands that Chromium's driver passes on, or is asked of
//! Firefox itself (`firefox`) or of our own window of WebKit (`webkit`); [`Page::devtools`] alone needs Chromium. Every process
//! started is ended by its own id.

mod driver;
mod firefox;
mod page;
mod webkit;
mod wire;

pub use driver::{Browser, Profile};
pub use page::{Control, Look, Page, Role};
