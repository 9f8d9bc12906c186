//! Asks the linker to keep its relocations in the program: `cargo xtask build` cuts it
//! along them into what starts and what is fetched when it is first shown.

fn main() {
    println!("cargo:rerun-if-changed=build.rs");
    println!("cargo:rustc-link-arg-bins=--emit-relocs");
}
