//! Entry point of the wasm module; everything is in the library.

fn main() {
    weekloom_app::start();
}
