//! Runs compiled wasm tests in a browser; cargo calls it with the path of a test module.
//!
//! `cargo xtask test` builds it and names it to cargo as the runner. It adds nothing to
//! the runner it links, so its version is the one in the lock file.

fn main() -> anyhow::Result<()> {
    wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(std::env::args_os())
}
