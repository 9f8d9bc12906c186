//! A browser under WebDriver (W3C), with the DevTools commands its driver passes on.
//!
//! Start at [`Browser::start`], then [`Page`]. Only [`Page::devtools`] and what calls it
//! needs Chromium; everything else is the open protocol, so another engine's driver can be
//! put in here. Every process started is ended by its own id.

mod driver;
mod page;
mod wire;

pub use driver::{Browser, Profile};
pub use page::{Control, Page, Role};
