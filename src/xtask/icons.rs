//! `cargo xtask icons`: draws the PNG icons from the SVG files with Chromium.
//!
//! The PNG files are kept in the repository, so that a build needs no browser; run this
//! after a change of `public/icons/*.svg` and look at the result.

use std::fs;
use std::process::Command;

use anyhow::{Context, Result};

use crate::browser::{Browser, Engine};
use crate::{paths, process};

/// Drawing, picture, width and height in pixels. The touch icon must be opaque, as the
/// maskable drawing is.
const ICONS: [(&str, &str, u32); 4] = [
    ("icon.svg", "icon-192.png", 192),
    ("icon.svg", "icon-512.png", 512),
    ("icon-maskable.svg", "icon-maskable-512.png", 512),
    ("icon-maskable.svg", "apple-touch-icon.png", 180),
];

/// Draws all icons anew.
pub fn run() -> Result<()> {
    let browser = Browser::find(Engine::Chromium)
        .context("Chromium was not found: set CHROMIUM to its path")?;
    let icons = paths::root().join("public/icons");
    let work = paths::target().join("xtask");
    fs::create_dir_all(&work)?;
    for (drawing, picture, size) in ICONS {
        let svg = fs::read_to_string(icons.join(drawing))?;
        let page = work.join("icon.html");
        fs::write(
            &page,
            format!(
                "<!doctype html><style>html,body{{margin:0;background:transparent}}\
                 svg{{display:block;width:{size}px;height:{size}px}}</style>{svg}"
            ),
        )?;
        process::output(
            Command::new(&browser.program)
                .args(Browser::flags())
                .args(["--hide-scrollbars", "--force-device-scale-factor=1"])
                .arg("--default-background-color=00000000")
                .arg(format!("--window-size={size},{size}"))
                .arg(format!("--screenshot={}", icons.join(picture).display()))
                .arg(format!("file://{}", page.display())),
        )?;
        println!("{picture}: {size} x {size}");
    }
    Ok(())
}
