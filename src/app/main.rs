//! Entry point of the wasm module, and the places where it is cut.
//!
//! What [`desk`] alone reaches is no part of the first load: the build moves it into a
//! module of its own, which is fetched when it is first needed. Everything else is in the
//! library.

use wasm_split_helpers::{SplitLoaderError, wasm_split};
use weekloom_app::markup::View;
use weekloom_app::on_demand::{Desk, Failed, Fetched};
use weekloom_app::route::Route;

/// The screens one does not train by.
#[wasm_split(desk, fallible, preload(fetch_desk))]
fn desk(place: Route) -> Result<View, SplitLoaderError> {
    Ok(weekloom_app::screens::desk(place))
}

fn fetch() -> Fetched<()> {
    Box::pin(async { fetch_desk().await.map_err(|_| Failed) })
}

fn screen(place: Route) -> Fetched<View> {
    Box::pin(async { desk(place).await.map_err(|_| Failed) })
}

fn main() {
    weekloom_app::start(Desk { fetch, screen });
}
