//! One window: finding by role and name, tapping, typing, reading.
//!
//! Start at [`Page::tap`] and [`Page::sees`]. Each waits until what it asks for is there,
//! and fails with what the page shows instead when it never comes.

use std::cell::Cell;
use std::rc::Rc;
use std::time::{Duration, Instant};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use fantoccini::Client;
use fantoccini::actions::{
    InputSource as _, KeyAction, KeyActions, MOUSE_BUTTON_LEFT, PointerAction, TouchActions,
};
use fantoccini::elements::{Element, ElementRef};
use serde_json::{Value, json};

use super::{firefox, webkit, wire};
use xtask::browser::Engine;

/// Longest wait for anything. Far more than needed: a slow machine must not fail.
const PATIENCE: Duration = Duration::from_secs(20);
const PAUSE: Duration = Duration::from_millis(20);

/// Finds shown elements by role and name. Arguments: role, name, the element to look in.
const FIND: &str = include_str!("find.js");

/// Takes the rules for paper for those of the screen, where no screen can be had as paper.
const PAPER: &str = "const turn = (rules) => {
    for (const rule of rules) {
      if (rule.media?.mediaText === 'print') rule.media.mediaText = 'all';
      else if (rule.media?.mediaText === 'screen') rule.media.mediaText = 'not all';
      if (rule.cssRules) turn(rule.cssRules);
    }
  };
  for (const sheet of document.styleSheets) turn(sheet.cssRules);";

/// What an element is to a person and to a screen reader.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Does something.
    Button,
    /// Leads somewhere.
    Link,
    /// One of several.
    Radio,
    /// On or off.
    Checkbox,
    /// Takes text.
    Textbox,
    /// Heads a part of the page.
    Heading,
    /// Unfolds what is below it.
    Disclosure,
    /// A sheet over the page.
    Dialog,
    /// Read out politely.
    Status,
    /// Read out at once.
    Alert,
    /// A time that runs.
    Timer,
    /// Takes a file.
    File,
}

impl Role {
    const fn name(self) -> &'static str {
        match self {
            Self::Button => "button",
            Self::Link => "link",
            Self::Radio => "radio",
            Self::Checkbox => "checkbox",
            Self::Textbox => "textbox",
            Self::Heading => "heading",
            Self::Disclosure => "disclosure",
            Self::Dialog => "dialog",
            Self::Status => "status",
            Self::Alert => "alert",
            Self::Timer => "timer",
            Self::File => "file",
        }
    }

    /// Has the browser one standard name for it, and is its name worth checking?
    const fn is_checked(self) -> bool {
        matches!(
            self,
            Self::Button | Self::Link | Self::Radio | Self::Checkbox | Self::Textbox
        )
    }
}

/// An element found, and where to tap it: its label when it is hidden behind one.
pub struct Control {
    /// The element itself.
    pub element: Element,
    target: Element,
}

/// How a page is to be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// As the browser pleases.
    Plain,
    /// Light, without motion: colours in mid-change are nobody's choice.
    Light,
    /// Dark, without motion.
    Dark,
    /// In the few colours that a person forces on every page.
    Forced,
    /// As on paper.
    Printed,
}

/// One window of the browser.
pub struct Page {
    client: Client,
    engine: Engine,
    /// Our own window, in WebKit.
    window: Option<Rc<webkit::Window>>,
    taps: Cell<usize>,
}

impl Page {
    pub(super) fn new(client: Client, engine: Engine, window: Option<Rc<webkit::Window>>) -> Self {
        Self {
            client,
            engine,
            window,
            taps: Cell::new(0),
        }
    }

    /// The WebDriver session, for what has no method here.
    pub fn client(&self) -> &Client {
        &self.client
    }

    /// What draws it.
    pub fn engine(&self) -> Engine {
        self.engine
    }

    fn window(&self) -> &webkit::Window {
        self.window.as_ref().expect("WebKit is in a window of ours")
    }

    /// Runs these scripts in every page opened in this window from now on, before the
    /// page's own, and keeps what pages say and ask for.
    pub async fn prologue(&self, scripts: &[String]) {
        match self.engine {
            Engine::Chromium => {
                for script in scripts {
                    let script = json!({ "source": script });
                    self.devtools("Page.addScriptToEvaluateOnNewDocument", script)
                        .await;
                }
            }
            Engine::Firefox => firefox::watch(&self.client, scripts).await,
            Engine::WebKit => self.window().watch(scripts),
        }
    }

    /// Makes the window a phone's, of so many pixels of CSS.
    pub async fn resize(&self, width: u32, height: u32) {
        match self.engine {
            Engine::Chromium => {
                let size = json!({
                    "width": width, "height": height, "deviceScaleFactor": 2, "mobile": true
                });
                self.devtools("Emulation.setDeviceMetricsOverride", size)
                    .await;
            }
            Engine::Firefox => firefox::resize(&self.client, width, height).await,
            Engine::WebKit => self.window().resize(width, height),
        }
        // What Chromium is told holds from the next page on, if this one is empty.
        if self.engine == Engine::Chromium {
            return;
        }
        self.until(&format!("a window of {width} by {height}"), async || {
            let is_so = "return innerWidth === arguments[0] && innerHeight === arguments[1]";
            let sides = vec![json!(width), json!(height)];
            let found = self.client.execute(is_so, sides).await;
            (found.ok()? == true).then_some(())
        })
        .await;
    }

    /// Shows the page in a look.
    pub async fn look(&self, look: Look) {
        match self.engine {
            Engine::Chromium => {}
            Engine::Firefox => return firefox::look(&self.client, look).await,
            Engine::WebKit => {
                self.window().look(look);
                if look == Look::Printed {
                    self.script(PAPER, vec![]).await;
                }
                return;
            }
        }
        let scheme = match look {
            Look::Light => "light",
            Look::Dark => "dark",
            Look::Plain | Look::Forced | Look::Printed => "",
        };
        let is_still = !matches!(look, Look::Plain | Look::Printed);
        let media = json!({
            "media": if look == Look::Printed { "print" } else { "" },
            "features": [
                { "name": "prefers-color-scheme", "value": scheme },
                { "name": "forced-colors", "value": if look == Look::Forced { "active" } else { "" } },
                { "name": "prefers-reduced-motion", "value": if is_still { "reduce" } else { "" } },
            ],
        });
        self.devtools("Emulation.setEmulatedMedia", media).await;
    }

    /// Says for the person whether notices may be shown (Permissions, 8.2: automation), and
    /// whether the driver knows the command.
    pub async fn decide_on_notices(&self, is_allowed: bool) -> bool {
        let state = if is_allowed { "granted" } else { "denied" };
        let body = json!({ "descriptor": { "name": "notifications" }, "state": state });
        wire::post(&self.client, "permissions", body).await.is_ok()
    }

    /// Takes the browser off the net.
    pub async fn unplug(&self) {
        match self.engine {
            Engine::Chromium => {}
            Engine::Firefox => return firefox::unplug(&self.client).await,
            // It knows no such state: that the server is gone has to do.
            Engine::WebKit => return,
        }
        let off = json!({
            "offline": true, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0
        });
        self.devtools("Network.enable", json!({})).await;
        self.devtools("Network.emulateNetworkConditions", off).await;
    }

    /// The page as a printer gets it: a PDF.
    pub async fn printed(&self) -> Vec<u8> {
        if self.engine == Engine::WebKit {
            let folder = std::env::temp_dir();
            let file = folder.join(format!("weekloom-{}.pdf", std::process::id()));
            self.window().print(&file);
            let printed = self.until("a whole PDF", async || {
                let printed = std::fs::read(&file).ok()?;
                printed
                    .trim_ascii_end()
                    .ends_with(b"%%EOF")
                    .then_some(printed)
            });
            let printed = printed.await;
            std::fs::remove_file(&file).expect("the file goes");
            return printed;
        }
        let paper = json!({ "page": { "width": 21.0, "height": 29.7 } });
        let found = wire::post(&self.client, "print", paper).await;
        let found = found.unwrap_or_else(|error| panic!("it cannot be printed: {error}"));
        let text = found.as_str().expect("a PDF in base64");
        STANDARD.decode(text).expect("base64")
    }

    /// Loads the page anew, as the page itself would: a reload by WebDriver passes by the
    /// service worker in Firefox.
    pub async fn reload(&self) {
        let script = "window.isBeforeReload = true; location.reload()";
        // The answer may go with the page.
        let _ = self.client.execute(script, vec![]).await;
        self.until("the page loaded anew", async || {
            let script = "return !window.isBeforeReload && document.readyState !== 'loading'";
            let found = self.client.execute(script, vec![]).await;
            (found.ok()? == true).then_some(())
        })
        .await;
    }

    /// Presses keys one after the other, in whatever has the focus.
    pub async fn keys(&self, text: &str) {
        let mut keys = KeyActions::new("keys".to_owned());
        for value in text.chars() {
            // What a keyboard sends for the end of a line.
            let value = if value == '\n' { '\u{e007}' } else { value };
            keys = keys
                .then(KeyAction::Down { value })
                .then(KeyAction::Up { value });
        }
        self.client.perform_actions(keys).await.expect("keys");
    }

    /// Taps so far.
    pub fn taps(&self) -> usize {
        self.taps.get()
    }

    /// Sends a DevTools command; only Chromium's driver passes it on.
    pub async fn devtools(&self, command: &str, params: Value) -> Value {
        assert_eq!(self.engine, Engine::Chromium, "{command} is Chromium's");
        let body = json!({ "cmd": command, "params": params });
        wire::post(&self.client, "goog/cdp/execute", body)
            .await
            .unwrap_or_else(|error| panic!("{command}: {error}"))
    }

    /// Runs a script in the page; arguments come as `arguments[0]` and so on.
    pub async fn script(&self, script: &str, arguments: Vec<Value>) -> Value {
        self.client
            .execute(script, arguments)
            .await
            .unwrap_or_else(|error| panic!("script failed: {error}\n{script}"))
    }

    /// Everything the page shows as text.
    pub async fn text(&self) -> String {
        self.script("return document.body.innerText", vec![])
            .await
            .as_str()
            .unwrap_or_default()
            .to_owned()
    }

    /// Waits until `ask` answers something, or fails saying what was wanted.
    pub async fn until<T>(&self, wanted: &str, mut ask: impl AsyncFnMut() -> Option<T>) -> T {
        let end = Instant::now() + PATIENCE;
        loop {
            if let Some(found) = ask().await {
                return found;
            }
            if Instant::now() > end {
                let text = self.text().await;
                panic!("waited in vain for {wanted}; the page shows:\n{text}\n");
            }
            tokio::time::sleep(PAUSE).await;
        }
    }

    /// Waits until the page shows this text.
    pub async fn sees(&self, text: &str) {
        let is_there = async || {
            plain(&self.text().await)
                .contains(&plain(text))
                .then_some(())
        };
        self.until(&format!("the text '{text}'"), is_there).await;
    }

    /// Waits until the page no longer shows this text.
    pub async fn misses(&self, text: &str) {
        let is_gone = async || (!plain(&self.text().await).contains(&plain(text))).then_some(());
        self.until(&format!("the text '{text}' to go"), is_gone)
            .await;
    }

    /// Does the page show this text right now?
    pub async fn shows(&self, text: &str) -> bool {
        plain(&self.text().await).contains(&plain(text))
    }

    /// Everything of this role whose name is, or else begins with, `name`; of an open
    /// sheet only what is in it.
    pub async fn all(&self, role: Role, name: &str) -> Vec<Control> {
        self.all_in(None, role, name).await
    }

    async fn all_in(&self, within: Option<&Element>, role: Role, name: &str) -> Vec<Control> {
        let within = within.map_or(Value::Null, |e| json!(e));
        let found = self
            .client
            .execute(FIND, vec![json!(role.name()), json!(name), within])
            .await;
        // A navigation under way has no document to look into.
        let Ok(Value::Array(found)) = found else {
            return Vec::new();
        };
        let element = |value: &Value| {
            let id = value.as_object()?.values().next()?.as_str()?.to_owned();
            Some(Element::from_element_id(
                self.client.clone(),
                ElementRef::from(id),
            ))
        };
        found
            .iter()
            .filter_map(|pair| {
                Some(Control {
                    element: element(&pair[0])?,
                    target: element(&pair[1])?,
                })
            })
            .collect()
    }

    /// Is there something of this role and name right now?
    pub async fn has(&self, role: Role, name: &str) -> bool {
        !self.all(role, name).await.is_empty()
    }

    /// Waits for the first of this role and name, and checks that the browser gives a
    /// screen reader the same name.
    pub async fn find(&self, role: Role, name: &str) -> Control {
        self.find_in(None, role, name).await
    }

    /// The same, within an element.
    pub async fn find_in(&self, within: Option<&Element>, role: Role, name: &str) -> Control {
        let wanted = format!("a {} named '{name}'", role.name());
        self.until(&wanted, async || {
            let found = self.all_in(within, role, name).await.into_iter().next()?;
            if role.is_checked() {
                let id = found.element.element_id();
                // Gone again since it was found: look again.
                let spoken = wire::get(&self.client, format!("element/{id}/computedlabel")).await;
                let spoken = spoken.ok()?.as_str()?.to_owned();
                assert!(
                    plain(&spoken).starts_with(&plain(name)),
                    "'{name}' is shown, but a screen reader hears '{spoken}'"
                );
            }
            Some(found)
        })
        .await
    }

    /// Taps what has this role and name.
    pub async fn tap(&self, role: Role, name: &str) {
        self.tap_in(None, role, name).await;
    }

    /// Taps what has this role and name within an element.
    pub async fn tap_in(&self, within: Option<&Element>, role: Role, name: &str) {
        let wanted = format!("a {} named '{name}' that can be tapped", role.name());
        self.until(&wanted, async || {
            let control = self.find_in(within, role, name).await;
            // Partly under a bar: scroll as a person does. Chromium's driver would try for
            // a second, and WebKit moves what is pressed into view before it is let go.
            let scroll = "const [target] = arguments, box = target.getBoundingClientRect();
                const x = box.left + box.width / 2, y = box.top + box.height / 2;
                const is_covered = [[x, y], [x, box.top + 2], [x, box.bottom - 2]]
                  .some((point) => !target.contains(document.elementFromPoint(...point)));
                if (is_covered) target.scrollIntoView({ block: 'center' })";
            let target = vec![json!(control.target)];
            let _ = self.client.execute(scroll, target).await;
            // Redrawn since: look again.
            control.target.click().await.ok()
        })
        .await;
        self.taps.set(self.taps.get() + 1);
    }

    /// Taps an element found before.
    pub async fn tap_control(&self, control: &Control) {
        control.target.click().await.expect("it can be tapped");
        self.taps.set(self.taps.get() + 1);
    }

    /// Presses what has this role and name, and lets go after some milliseconds.
    pub async fn hold_down(&self, role: Role, name: &str, ms: u64) {
        let element = self.find(role, name).await.target;
        let pause = Duration::from_millis(ms);
        let press = PointerAction::Down {
            button: MOUSE_BUTTON_LEFT,
        };
        let finger = TouchActions::new("finger".to_owned())
            .then(PointerAction::MoveToElement {
                element,
                duration: None,
                x: 0.0,
                y: 0.0,
            })
            .then(press)
            .then(PointerAction::Pause { duration: pause })
            .then(PointerAction::Up {
                button: MOUSE_BUTTON_LEFT,
            });
        let acted = self.client.perform_actions(finger).await;
        acted.expect("a finger");
    }

    /// Where an element lies in the window: left, top, right, bottom.
    pub async fn box_of(&self, role: Role, name: &str) -> [f64; 4] {
        let control = self.find(role, name).await;
        let script = "const box = arguments[0].getBoundingClientRect();
            return [box.left, box.top, box.right, box.bottom]";
        let found = self.script(script, vec![json!(control.target)]).await;
        std::array::from_fn(|side| found[side].as_f64().expect("a number"))
    }

    /// Taps into a field, which takes its old text away, and types. Nothing is confirmed.
    pub async fn type_into(&self, field: &str, text: &str) {
        self.type_in(None, field, text).await;
    }

    /// The same, within an element.
    pub async fn type_in(&self, within: Option<&Element>, field: &str, text: &str) {
        let script = "return document.activeElement === arguments[0]";
        let wanted = format!("the cursor in '{field}'");
        self.until(&wanted, async || {
            self.tap_in(within, Role::Textbox, field).await;
            let found = self.find_in(within, Role::Textbox, field).await;
            // A tap that met a page being redrawn is made again, as a person does.
            for _ in 0..50 {
                if self.script(script, vec![json!(found.element)]).await == true {
                    return Some(());
                }
                tokio::time::sleep(PAUSE).await;
            }
            None
        })
        .await;
        self.keys(text).await;
    }

    /// The same for a field that keeps its old text when it is tapped: it goes first.
    pub async fn type_over(&self, field: &str, text: &str) {
        let found = self.find(Role::Textbox, field).await;
        let all = "arguments[0].focus(); arguments[0].select()";
        self.script(all, vec![json!(found.element)]).await;
        self.keys(text).await;
    }

    /// The text in a field.
    pub async fn value(&self, field: &str) -> String {
        let control = self.find(Role::Textbox, field).await;
        let value = control.element.prop("value").await.expect("a value");
        value.unwrap_or_default()
    }

    /// Is this box ticked, or this choice chosen?
    pub async fn is_chosen(&self, role: Role, name: &str) -> bool {
        let control = self.find(role, name).await;
        control.element.is_selected().await.expect("a state")
    }

    /// Puts a file into the field that takes one.
    pub async fn give_file(&self, name: &str, file: &std::path::Path) {
        let field = self.find(Role::File, name).await;
        let path = file.to_str().expect("a path in plain letters");
        field
            .element
            .send_keys(path)
            .await
            .expect("it takes a file");
    }

    /// The values kept in local storage under keys that begin so, by key.
    pub async fn kept(&self, prefix: &str) -> std::collections::BTreeMap<String, String> {
        let script = "return Object.fromEntries(Object.entries(localStorage)
            .filter(([key]) => key.startsWith(arguments[0])))";
        let found = self.script(script, vec![json!(prefix)]).await;
        serde_json::from_value(found).expect("keys and texts")
    }
}

/// Spaces of any kind as one plain space, no case and no marks of direction: how a name
/// is laid out and set is the style sheet's business, and not every engine counts the
/// marks as text shown.
pub fn plain(text: &str) -> String {
    let is_shown = |c: &char| !matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let text: String = text.chars().filter(is_shown).collect();
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ").to_lowercase()
}
