//! Set up, build, serve, check and measure Weekloom.
fn main() {}
