//! What every journey stands on: the app served on this machine, a browser with a fresh
//! profile, a steady clock; and what every journey must leave behind: no error in the
//! console and no request to anywhere else.
//!
//! Start at [`run`].

use std::io::Write as _;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use xtask::browser::Engine;
use xtask::serve::Server;

use crate::browser::{Browser, Page, Profile, Role};

/// A Monday, 9 o'clock UTC on 2 March 2026, in milliseconds: journeys begin then, so that
/// the weekday and midnight are the same each time.
const MONDAY_MS: i64 = 1_772_442_000_000;
const DAY_MS: i64 = 24 * 60 * 60 * 1000;

/// Shifts the page's clock; it runs on as before. Argument: milliseconds.
const SHIFT_CLOCK: &str = "{
  const Real = Date;
  const shift = $MS;
  globalThis.Date = class extends Real {
    constructor(...given) { given.length ? super(...given) : super(Real.now() + shift); }
    static now() { return Real.now() + shift; }
  };
}";

/// What the machine must have for a journey.
struct Machine {
    browser: xtask::browser::Browser,
    dist: PathBuf,
}

impl Machine {
    /// Errors with one sentence on what is missing.
    fn find() -> Result<Self, String> {
        let named = std::env::var("WEEKLOOM_ENGINE").unwrap_or_default();
        let engine = match named.as_str() {
            "" => Engine::Chromium,
            name => Engine::named(name).map_err(|error| error.to_string())?,
        };
        let browser = xtask::browser::Browser::find(engine).ok_or_else(|| {
            let [browser, driver] = engine.variables();
            format!(
                "there is no {} with its driver: install them, or set {browser} and {driver}",
                engine.name()
            )
        })?;
        let dist = std::env::var_os("WEEKLOOM_DIST")
            .map(PathBuf::from)
            .ok_or("WEEKLOOM_DIST does not name a build: use `cargo xtask test --only journeys`")?;
        if dist.join("index.html").is_file() {
            Ok(Self { browser, dist })
        } else {
            Err(format!(
                "WEEKLOOM_DIST is {}, where nothing is built",
                dist.display()
            ))
        }
    }
}

/// A journey that did not run is a failure where the result decides; elsewhere it is said
/// aloud, past the test harness, which keeps quiet about what passes.
pub fn not_run(name: &str, why: &str) {
    let decides = |name| std::env::var(name).is_ok_and(|v| matches!(v.as_str(), "1" | "true"));
    assert!(
        !decides("WEEKLOOM_CI") && !decides("CI"),
        "{name} could not run: {why}"
    );
    let mut screen = std::io::stderr().lock();
    let _ = writeln!(screen, "NOT RUN: {name}: {why}");
}

/// One journey under way.
pub struct Journey {
    /// Dropped before the profile it writes to.
    browser: Browser,
    profile: Profile,
    server: Option<Server>,
    /// The folder served; the app's build unless a journey changes it.
    pub dist: PathBuf,
    origin: String,
    port: u16,
    shift_ms: i64,
    scripts: Vec<String>,
    forgiven: Vec<&'static str>,
    complaints: Vec<String>,
}

/// Runs a journey. On a failure a picture of the page is left in cargo's target folder.
pub fn run(name: &str, walk: impl AsyncFnOnce(&mut Journey)) {
    let machine = match Machine::find() {
        Ok(machine) => machine,
        Err(why) => return not_run(name, &why),
    };
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .expect("a runtime");
    let browser = Browser::start(&machine.browser);
    let server = Server::start(&machine.dist, 0).expect("the build is served");
    let now_ms = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or(0, |d| i64::try_from(d.as_millis()).unwrap_or(0));
    let mut journey = Journey {
        dist: machine.dist.clone(),
        origin: format!("http://{}", server.address),
        port: server.address.port(),
        server: Some(server),
        profile: Profile::fresh(),
        browser,
        shift_ms: MONDAY_MS - now_ms,
        scripts: Vec::new(),
        forgiven: Vec::new(),
        complaints: Vec::new(),
    };
    let outcome = catch_unwind(AssertUnwindSafe(|| {
        runtime.block_on(async {
            walk(&mut journey).await;
            journey.close().await;
        });
    }));
    if let Err(cause) = outcome {
        runtime.block_on(journey.show_failure(name));
        drop(journey);
        resume_unwind(cause);
    }
    assert!(
        journey.complaints.is_empty(),
        "{name}: the console or the network says:\n{}",
        journey.complaints.join("\n")
    );
}

impl Journey {
    /// Opens the browser and the app in it, and waits until the app is there.
    pub async fn open(&mut self) -> Page {
        let page = self.open_empty().await;
        self.enter(&page).await;
        page
    }

    /// Opens the browser without the app, prepared for it.
    pub async fn open_empty(&mut self) -> Page {
        let page = self.browser.open(&self.profile).await;
        self.prepare(&page).await;
        page
    }

    /// A phone's window, the journey's clock and its scripts, for the window in front.
    pub async fn prepare(&self, page: &Page) {
        page.resize(360, 740).await;
        let clock = SHIFT_CLOCK.replace("$MS", &self.shift_ms.to_string());
        let scripts: Vec<String> = std::iter::once(&clock)
            .chain(&self.scripts)
            .cloned()
            .collect();
        page.prologue(&scripts).await;
    }

    /// The window in front, if the browser is open.
    pub fn page(&self) -> Option<Page> {
        self.browser.page()
    }

    /// Loads the app into the window in front and waits for its first screen.
    pub async fn enter(&self, page: &Page) {
        let url = self.url();
        page.client().goto(&url).await.expect("the app loads");
        self.wait_for_app(page).await;
    }

    /// Loads the page again, as a person does who pulls it down.
    pub async fn reload(&self, page: &Page) {
        page.reload().await;
        self.wait_for_app(page).await;
    }

    async fn wait_for_app(&self, page: &Page) {
        page.until("the app in place of the shell page", async || {
            let script = "return !document.getElementById('shell') && !!document.querySelector('main h1, main h2')";
            (page.client().execute(script, vec![]).await.ok()? == true).then_some(())
        })
        .await;
    }

    /// Where the app is served.
    pub fn url(&self) -> String {
        format!("{}/", self.origin)
    }

    /// A script to run in every page opened from now on, before the app.
    pub fn inject(&mut self, script: &str) {
        self.scripts.push(script.to_owned());
    }

    /// Moves the clock on; a window that is open does not notice.
    pub fn wait_days(&mut self, days: i64) {
        self.shift_ms += days * DAY_MS;
    }

    /// Closes the browser, moves the clock on, and opens the app again.
    pub async fn days_later(&mut self, days: i64) -> Page {
        self.close().await;
        self.wait_days(days);
        self.open().await
    }

    /// Waits until the offline copy is whole and serves this page's next load.
    pub async fn wait_for_offline_copy(&self, page: &Page) {
        page.until("a service worker at work", async || {
            let script = "return navigator.serviceWorker.getRegistration().then((found) => found?.active?.state)";
            (page.script(script, vec![]).await == "activated").then_some(())
        })
        .await;
    }

    /// Stops the server and takes the browser off the net: either alone has let a test
    /// pass that was not offline.
    pub async fn go_offline(&mut self, page: Option<&Page>) {
        if let Some(server) = self.server.take() {
            server.stop();
        }
        if let Some(page) = page {
            page.unplug().await;
        }
    }

    /// Serves another folder at the same address.
    pub fn serve_instead(&mut self, dist: PathBuf) {
        if let Some(server) = self.server.take() {
            server.stop();
        }
        self.server = Some(Server::start(&dist, self.port).expect("the folder is served"));
        self.dist = dist;
    }

    /// Console messages that hold this text are part of the journey.
    pub fn forgive(&mut self, text: &'static str) {
        self.forgiven.push(text);
    }

    /// Closes the browser as a person does; the profile stays.
    pub async fn close(&mut self) {
        self.listen().await;
        self.browser.close().await;
    }

    /// Kills the browser; the profile stays as it is on the disk. What the console held
    /// has been read just before.
    pub async fn kill(&mut self) {
        self.browser.kill().await;
    }

    /// Kilobytes that the page's process holds (Chromium).
    pub fn page_kilobytes(&self) -> Option<u64> {
        self.browser.page_kilobytes()
    }

    /// Takes down what console and network have said so far.
    pub async fn listen(&mut self) {
        for text in self.browser.console().await {
            let is_forgiven = self.forgiven.iter().any(|part| text.contains(part));
            // WebKit's word for a load that a reload broke off or no server answered: the
            // screens' part, a look for a newer worker. What then lacks is seen on the page.
            if !is_forgiven && text != "TypeError: Load failed" {
                self.complaints.push(text);
            }
        }
        let own = self.url();
        for address in self.browser.requests().await {
            // The browser's own pages and what a page makes itself never reach a network.
            let is_inside = [
                "data:",
                "blob:",
                "chrome:",
                "chrome-untrusted:",
                own.as_str(),
            ]
            .iter()
            .any(|start| address.starts_with(start));
            if !is_inside {
                self.complaints.push(format!("a request to {address}"));
            }
        }
    }

    /// Waits for a file that the page hands out, and puts it where the next one of the
    /// same name does not meet it.
    pub async fn next_download(&self, page: &Page) -> PathBuf {
        let file = page.until("a file to keep", async || self.download());
        let file = file.await;
        let folder = self.folder();
        let number = std::fs::read_dir(&folder).map_or(0, Iterator::count);
        let name = file
            .file_name()
            .expect("a file")
            .to_string_lossy()
            .into_owned();
        let kept = folder.join(format!("{number}-{name}"));
        std::fs::rename(&file, &kept).expect("the file moves");
        kept
    }

    fn download(&self) -> Option<PathBuf> {
        let entries = std::fs::read_dir(self.profile.downloads()).ok()?;
        let files = entries.filter_map(|entry| Some(entry.ok()?.path()));
        let files: Vec<PathBuf> = files.collect();
        // The browser takes the name with an empty file and writes beside it.
        let is_whole = |path: &PathBuf| {
            path.extension().is_some_and(|e| {
                ["json", "csv", "ics", "txt", "svg"]
                    .iter()
                    .any(|known| e == *known)
            }) && path.metadata().is_ok_and(|m| m.len() > 0)
        };
        files.into_iter().find(is_whole)
    }

    /// A folder of this journey's own for files it makes.
    pub fn folder(&self) -> PathBuf {
        let folder = self.profile.downloads().with_file_name("made");
        std::fs::create_dir_all(&folder).expect("a folder");
        folder
    }

    async fn show_failure(&mut self, name: &str) {
        let Some(page) = self.browser.page() else {
            return;
        };
        eprintln!("{name} failed at {:?}", page.client().current_url().await);
        for text in self.browser.console().await {
            eprintln!("console: {text}");
        }
        if let Ok(picture) = page.client().screenshot().await {
            let folder = xtask::paths::target().join("journeys");
            let file = folder.join(format!("{}.png", name.replace(' ', "-")));
            let kept =
                std::fs::create_dir_all(&folder).and_then(|()| std::fs::write(&file, picture));
            if kept.is_ok() {
                eprintln!("its picture: {}", file.display());
            }
        }
    }
}

/// Is there a banner or a note that says this?
pub async fn is_told(page: &Page, text: &str) -> bool {
    page.has(Role::Alert, text).await || page.has(Role::Status, text).await
}
