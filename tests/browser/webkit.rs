//! What WebDriver has no command for, asked of our own window of WebKitGTK
//! (`webkit.py`) over its socket, and the screen that window needs.

use std::cell::RefCell;
use std::io::{BufRead as _, BufReader, Write as _};
use std::os::unix::net::UnixStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};

use serde_json::{Value, json};

use super::page::Look;

/// The window's program, for the Python that [`xtask::browser`] finds.
pub(super) const PROGRAM: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/browser/webkit.py");

/// A screen of nothing but memory. Ended when dropped.
pub(super) struct Screen {
    server: Child,
    /// Its name for those who draw on it.
    name: String,
}

impl Screen {
    pub(super) fn start() -> Self {
        let mut server = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1600x1400x24"])
            .args(["-nolisten", "tcp"])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| panic!("could not start Xvfb: {error}"));
        let mut number = String::new();
        let output = server.stdout.take().expect("its output is piped");
        let read = BufReader::new(output).read_line(&mut number);
        assert!(read.is_ok_and(|n| n > 1), "Xvfb ended before it was ready");
        let name = format!(":{}", number.trim());
        Self { server, name }
    }

    /// What who draws on it needs in the environment.
    pub(super) fn variables(&self) -> [(&'static str, &str); 4] {
        [
            ("DISPLAY", &self.name),
            ("GDK_BACKEND", "x11"),
            ("NO_AT_BRIDGE", "1"),
            // Its sandbox does not start as root, as in a container; nothing but the app
            // is shown in it.
            ("WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS", "1"),
        ]
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        // It has ended already when nothing went wrong.
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

/// The window, as it listens.
pub(super) struct Window {
    line: RefCell<BufReader<UnixStream>>,
}

impl Window {
    pub(super) fn connect(socket: &Path) -> Self {
        let stream = UnixStream::connect(socket).expect("the window listens");
        let line = RefCell::new(BufReader::new(stream));
        Self { line }
    }

    fn ask(&self, order: &Value) -> Value {
        let mut line = self.line.borrow_mut();
        let mut answer = String::new();
        let sent = writeln!(line.get_mut(), "{order}");
        sent.and_then(|()| line.read_line(&mut answer))
            .unwrap_or_else(|error| panic!("the window does not answer {order}: {error}"));
        serde_json::from_str(&answer)
            .unwrap_or_else(|_| panic!("the window does not obey {order}: '{answer}'"))
    }

    /// These scripts run in every page opened from now on.
    pub(super) fn watch(&self, scripts: &[String]) {
        self.ask(&json!({ "do": "scripts", "scripts": scripts }));
    }

    /// What was kept under a name since the last call.
    pub(super) fn kept(&self, name: &str) -> Vec<Value> {
        match self.ask(&json!({ "do": "kept", "name": name })) {
            Value::Array(found) => found,
            other => panic!("the window kept no {name}: {other}"),
        }
    }

    /// Makes the page so large.
    pub(super) fn resize(&self, width: u32, height: u32) {
        self.ask(&json!({ "do": "resize", "width": width, "height": height }));
    }

    /// Prints the page to a file, as a PDF.
    pub(super) fn print(&self, file: &Path) {
        self.ask(&json!({ "do": "print", "file": file }));
    }

    /// Ends the window in a moment, as a person does.
    pub(super) fn close(&self) {
        self.ask(&json!({ "do": "close" }));
    }

    /// Shows the page in a look; it has no forced colours.
    pub(super) fn look(&self, look: Look) {
        let is_dark = look == Look::Dark;
        let moves = look == Look::Plain;
        self.ask(&json!({ "do": "look", "dark": is_dark, "moves": moves }));
    }
}
