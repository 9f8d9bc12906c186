//! The driver's process, the browser's process, and the profile they share.

use std::fs;
use std::io::{BufRead, BufReader, Read};
use std::net::{TcpListener, TcpStream};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::rc::Rc;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};

use super::page::Page;
use super::{firefox, webkit, wire};
use xtask::browser::{Browser as Found, Engine};

/// A folder for one profile and its downloads, deleted when dropped.
pub struct Profile {
    folder: PathBuf,
}

impl Profile {
    /// A fresh folder that no other journey has.
    pub fn fresh() -> Self {
        static NUMBER: AtomicU32 = AtomicU32::new(0);
        let number = NUMBER.fetch_add(1, Ordering::Relaxed);
        let name = format!("weekloom-journey-{}-{number}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        fs::create_dir_all(folder.join("downloads")).expect("a folder for the profile");
        Self { folder }
    }

    /// Where the browser keeps everything.
    pub fn data(&self) -> PathBuf {
        self.folder.join("profile")
    }

    /// Where files go that the page hands out.
    pub fn downloads(&self) -> PathBuf {
        self.folder.join("downloads")
    }

    /// Where our own window listens.
    fn socket(&self) -> PathBuf {
        self.folder.join("socket")
    }
}

impl Drop for Profile {
    fn drop(&mut self) {
        // A browser that was killed may still be letting go of its last files.
        let patience = Instant::now() + Duration::from_secs(5);
        while fs::remove_dir_all(&self.folder).is_err()
            && self.folder.exists()
            && Instant::now() < patience
        {
            std::thread::sleep(Duration::from_millis(50));
        }
    }
}

/// A driver and, while one is open, its browser. Both end when this is dropped.
pub struct Browser {
    found: Found,
    driver: Child,
    address: String,
    session: Option<Session>,
    /// Dropped after those who draw on it.
    _screen: Option<webkit::Screen>,
}

struct Session {
    client: Client,
    window: Option<Rc<webkit::Window>>,
    /// The browser's first process.
    process: u64,
}

impl Browser {
    /// Starts a driver on a free port. No browser is open yet.
    pub fn start(found: &Found) -> Self {
        let screen = (found.engine == Engine::WebKit).then(webkit::Screen::start);
        // WebKit's driver looks for no free port by itself and names none.
        let chosen = screen.as_ref().map(|_| free_port());
        let port = format!("--port={}", chosen.unwrap_or(0));
        let flags: &[&str] = match found.engine {
            Engine::Chromium | Engine::WebKit => &[],
            Engine::Firefox => &["--websocket-port=0", "--allow-system-access"],
        };
        let mut driver = Command::new(&found.driver);
        if let Some(screen) = &screen {
            driver.envs(screen.variables());
        }
        let mut driver = driver
            .arg(port)
            .args(flags)
            // Days and hours are the same wherever the journeys run.
            .env("TZ", "UTC")
            .env("LANGUAGE", "en_GB")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| panic!("could not start {}: {error}", found.driver.display()));
        let mut lines = BufReader::new(driver.stdout.take().expect("its output is piped"));
        let port = match chosen {
            Some(port) => wait_for(port),
            None => read_port(&mut lines),
        };
        // Whatever else it says must not fill the pipe and stop it.
        std::thread::spawn(move || lines.read_to_end(&mut Vec::new()));
        Self {
            found: found.clone(),
            driver,
            address: format!("http://127.0.0.1:{port}"),
            session: None,
            _screen: screen,
        }
    }

    /// What a session on this profile is asked to be.
    fn wanted(&self, profile: &Profile) -> Value {
        let program = &self.found.program;
        match self.found.engine {
            Engine::Chromium => {
                let data = format!("--user-data-dir={}", profile.data().display());
                let mut flags: Vec<&str> = Found::flags();
                flags.extend([
                    data.as_str(),
                    "--lang=en-GB",
                    "--accept-lang=en-GB",
                    "--window-size=360,740",
                    "--hide-scrollbars",
                    // Nothing outside this machine can be reached, whatever asks for it.
                    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
                ]);
                json!({
                    "browserName": "chrome",
                    "goog:chromeOptions": { "binary": program, "args": flags },
                    "goog:loggingPrefs": { "browser": "ALL", "performance": "ALL" },
                })
            }
            Engine::Firefox => {
                fs::create_dir_all(profile.data()).expect("a folder for the profile");
                json!({
                    "browserName": "firefox",
                    "moz:firefoxOptions": {
                        "binary": program,
                        "args": ["-headless", "-profile", profile.data()],
                        "prefs": firefox::preferences(&profile.downloads()),
                    },
                })
            }
            Engine::WebKit => json!({
                "webkitgtk:browserOptions": {
                    "binary": program,
                    "args": [
                        webkit::PROGRAM, profile.data(), profile.downloads(), profile.socket()
                    ],
                },
            }),
        }
    }

    /// Opens the browser on a profile, at an empty page.
    pub async fn open(&mut self, profile: &Profile) -> Page {
        assert!(self.session.is_none(), "the browser is open already");
        let Value::Object(capabilities) = self.wanted(profile) else {
            unreachable!("it is written as an object");
        };
        let mut builder = ClientBuilder::new(HttpConnector::new());
        builder.capabilities(capabilities);
        // WebKit's driver waits for ever for a window that does not start.
        let client = tokio::time::timeout(Duration::from_secs(60), builder.connect(&self.address))
            .await
            .expect("the driver answers")
            .expect("the driver opens the browser");
        let told = |name: &str| client.capabilities()?.get(name)?.as_u64();
        let process = match self.found.engine {
            Engine::Chromium => told("goog:processID"),
            Engine::Firefox => told("moz:processID"),
            Engine::WebKit => child_of(u64::from(self.driver.id())),
        };
        let process = process.expect("the driver says which process the browser is");
        let window = (self.found.engine == Engine::WebKit)
            .then(|| Rc::new(webkit::Window::connect(&profile.socket())));
        let page = Page::new(client.clone(), self.found.engine, window.clone());
        self.session = Some(Session {
            client,
            window,
            process,
        });
        if self.found.engine == Engine::Chromium {
            page.devtools(
                "Browser.setDownloadBehavior",
                json!({ "behavior": "allow", "downloadPath": profile.downloads() }),
            )
            .await;
        }
        page
    }

    /// Closes the browser as a person does; it writes out all it has.
    pub async fn close(&mut self) {
        let session = self.session.take().expect("the browser is open");
        if let Some(window) = &session.window {
            // Its driver would kill it. What it says of a window that has gone is of no use.
            window.close();
            assert!(ends_soon(session.process), "the window does not close");
            let _ = session.client.close().await;
            return;
        }
        session.client.close().await.expect("the browser closes");
        assert!(
            ends_soon(session.process),
            "the browser has closed but its process {} goes on",
            session.process
        );
    }

    /// Kilobytes that the largest process of a page holds, its share of what is common
    /// counted (Pss of Linux); Chromium only.
    pub fn page_kilobytes(&self) -> Option<u64> {
        let session = self.session.as_ref()?;
        let held = tree(session.process).into_iter().filter_map(|process| {
            let words = fs::read(format!("/proc/{process}/cmdline")).ok()?;
            let words = String::from_utf8_lossy(&words);
            if !words.contains("--type=renderer") {
                return None;
            }
            let rollup = fs::read_to_string(format!("/proc/{process}/smaps_rollup")).ok()?;
            let line = rollup.lines().find(|line| line.starts_with("Pss:"))?;
            line.split_whitespace().nth(1)?.parse().ok()
        });
        held.max()
    }

    /// Kills the browser's processes at once, as a phone that dies does.
    pub async fn kill(&mut self) {
        let session = self.session.take().expect("the browser is open");
        kill_tree(session.process);
        assert!(ends_soon(session.process), "the browser survives a kill");
        // The driver finds out only when it is asked for something.
        let _ = session.client.close().await;
    }

    /// The window in front, if the browser is open.
    pub fn page(&self) -> Option<Page> {
        let session = self.session.as_ref()?;
        let (client, window) = (session.client.clone(), session.window.clone());
        Some(Page::new(client, self.found.engine, window))
    }

    /// The errors that pages' consoles told of since the last call.
    pub async fn console(&self) -> Vec<String> {
        if self.found.engine != Engine::Chromium {
            return self.kept("said").await;
        }
        let entries = self.log("browser").await;
        let errors = entries.iter().filter(|entry| entry["level"] == "SEVERE");
        let text = |entry: &Value| entry["message"].as_str().unwrap_or_default().to_owned();
        errors.map(text).collect()
    }

    /// What Firefox or WebKit kept under a name since the last call.
    async fn kept(&self, name: &str) -> Vec<String> {
        let Some(session) = &self.session else {
            return Vec::new();
        };
        let found = match &session.window {
            Some(window) => window.kept(name),
            None => firefox::kept(&session.client, name).await,
        };
        let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
        found.iter().map(text).collect()
    }

    /// Every address that pages asked the network for since the last call; without
    /// those that the page's own policy refused, which are announced all the same.
    pub async fn requests(&self) -> Vec<String> {
        if self.found.engine != Engine::Chromium {
            return self.kept("asked").await;
        }
        let message = |entry: &Value| -> Option<Value> {
            let message: Value = serde_json::from_str(entry["message"].as_str()?).ok()?;
            Some(message["message"].clone())
        };
        let log = self.log("performance").await;
        let messages: Vec<Value> = log.iter().filter_map(message).collect();
        let refused = |id: &Value| {
            let is_it = |m: &Value| {
                m["method"] == "Network.loadingFailed"
                    && m["params"]["requestId"] == *id
                    && m["params"]["blockedReason"] == "csp"
            };
            messages.iter().any(is_it)
        };
        let of = |m: &Value| {
            let is_asked =
                m["method"] == "Network.requestWillBeSent" && !refused(&m["params"]["requestId"]);
            is_asked.then(|| m["params"]["request"]["url"].as_str().map(str::to_owned))?
        };
        messages.iter().filter_map(of).collect()
    }

    async fn log(&self, kind: &str) -> Vec<Value> {
        let Some(session) = &self.session else {
            return Vec::new();
        };
        match wire::post(&session.client, "se/log", json!({ "type": kind })).await {
            Ok(Value::Array(entries)) => entries,
            other => panic!("the driver gives no {kind} log: {other:?}"),
        }
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        if let Some(session) = &self.session {
            kill_tree(session.process);
        }
        // Both have ended already when nothing went wrong.
        let _ = self.driver.kill();
        let _ = self.driver.wait();
    }
}

/// A port that nothing listens on: below those that systems give out by themselves, for
/// one of these may be another's, or the near end of our own question, before the driver
/// takes it.
fn free_port() -> u16 {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    let start = std::process::id().wrapping_mul(64);
    let mut tried =
        std::iter::repeat_with(|| start.wrapping_add(NEXT.fetch_add(1, Ordering::Relaxed)));
    let ports = tried.by_ref().take(10_000).map(|n| 20_000 + n % 10_000);
    let mut ports = ports.filter_map(|port| u16::try_from(port).ok());
    let is_free = |port: &u16| TcpListener::bind(("127.0.0.1", *port)).is_ok();
    ports.find(is_free).expect("a free port")
}

/// Waits until something listens there.
fn wait_for(port: u16) -> u16 {
    let patience = Instant::now() + Duration::from_secs(10);
    let listens = || {
        TcpStream::connect(("127.0.0.1", port))
            // A question that answers itself (TCP allows it) has met nobody.
            .is_ok_and(|met| met.local_addr().ok() != met.peer_addr().ok())
    };
    while !listens() {
        assert!(Instant::now() < patience, "the driver does not listen");
        std::thread::sleep(Duration::from_millis(10));
    }
    port
}

fn read_port(lines: &mut impl BufRead) -> u16 {
    let mut line = String::new();
    loop {
        line.clear();
        let read = lines.read_line(&mut line).expect("the driver's output");
        assert!(read > 0, "the driver ended before it named its port");
        let line = line.trim_end().trim_end_matches('.');
        let port = line
            .rsplit_once("on port ")
            .or_else(|| line.rsplit_once("on 127.0.0.1:"))
            .and_then(|(_, port)| port.parse().ok())
            // Its first line repeats the wish for any port.
            .filter(|port| *port != 0);
        if let Some(port) = port {
            return port;
        }
    }
}

/// A process and all that came from it, the first of them first.
fn tree(root: u64) -> Vec<u64> {
    let parents = parents();
    let mut tree = vec![root];
    let mut at = 0;
    while at < tree.len() {
        let children = parents.iter().filter(|(_, parent)| *parent == tree[at]);
        let children: Vec<u64> = children.map(|(child, _)| *child).collect();
        tree.extend(children);
        at += 1;
    }
    tree
}

/// Ends a process and all that came from it, in one go.
fn kill_tree(root: u64) {
    let tree = tree(root);
    // What has ended already by itself is what was wanted.
    let _ = Command::new("kill")
        .arg("-KILL")
        .args(tree.iter().map(u64::to_string))
        .stderr(Stdio::null())
        .status();
}

/// The process that came from this one.
fn child_of(process: u64) -> Option<u64> {
    let is_child = |(_, parent): &(u64, u64)| *parent == process;
    parents().into_iter().find(is_child).map(|(child, _)| child)
}

/// Every process with its parent.
fn parents() -> Vec<(u64, u64)> {
    let entries = fs::read_dir("/proc").into_iter().flatten();
    entries
        .filter_map(|entry| {
            let process = entry.ok()?.file_name().to_str()?.parse().ok()?;
            let stat = fs::read_to_string(format!("/proc/{process}/stat")).ok()?;
            // After the name, which may hold anything: the state, then the parent.
            let parent = stat.rsplit_once(") ")?.1.split(' ').nth(1)?;
            Some((process, parent.parse().ok()?))
        })
        .collect()
}

fn ends_soon(process: u64) -> bool {
    let patience = Instant::now() + Duration::from_secs(10);
    while Instant::now() < patience {
        if has_ended(process) {
            return true;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    false
}

/// Gone, or dead and waiting for its parent to take note.
fn has_ended(process: u64) -> bool {
    fs::read_to_string(format!("/proc/{process}/stat"))
        .ok()
        .and_then(|stat| Some(stat.rsplit_once(") ")?.1.starts_with(['Z', 'X'])))
        .unwrap_or(true)
}
