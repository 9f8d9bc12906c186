//! Serves a built folder on this machine as a static host would.
//!
//! Start at [`Server::start`]. It speaks just enough HTTP/1.1 for a browser on the same
//! machine: GET and HEAD of files, the `.br` copy where the browser takes one, the headers
//! of the folder's `_headers` file. Each answer closes its connection, so after
//! [`Server::stop`] the server is gone at once, which is what an offline test needs. It
//! reads files at each request, never lists a folder, never leaves it, and listens on
//! 127.0.0.1 only.

use std::collections::BTreeMap;
use std::fs;
use std::io::{Read, Write};
use std::net::{Ipv4Addr, Shutdown, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use anyhow::{Context, Result, bail};

use crate::{build, paths};

/// The port first tried where none is named.
pub const FIRST_PORT: u16 = 8321;

/// A server at work. It stops when dropped.
pub struct Server {
    /// Where it listens.
    pub address: SocketAddr,
    base: String,
    stopped: Arc<AtomicBool>,
    idle: Arc<Idle>,
    listening: Option<JoinHandle<()>>,
}

/// The connections on which nothing has been asked yet, so that none outlives the server:
/// browsers open some ahead of need, and what they ask there later would get no answer.
#[derive(Default)]
struct Idle(Mutex<BTreeMap<SocketAddr, TcpStream>>);

impl Idle {
    fn all(&self) -> MutexGuard<'_, BTreeMap<SocketAddr, TcpStream>> {
        // The map is whole whatever a thread that panicked was about to do.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Server {
    /// Serves a folder at the root path. Port 0 takes any free port.
    ///
    /// Errors when the folder has no `index.html` or the port is taken.
    pub fn start(dir: &Path, port: u16) -> Result<Self> {
        Self::start_below(dir, port, "/")
    }

    /// Serves a folder below a path such as `/weekloom/`, as hosts of many projects do.
    pub fn start_below(dir: &Path, port: u16, base: &str) -> Result<Self> {
        if !dir.join("index.html").is_file() {
            bail!(
                "{} has no index.html: run `cargo xtask build` first",
                dir.display()
            );
        }
        if !(base.starts_with('/') && base.ends_with('/')) {
            bail!("the base path '{base}' must start and end with /");
        }
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))
            .with_context(|| format!("port {port} on 127.0.0.1 cannot be used"))?;
        let address = listener.local_addr()?;
        let stopped = Arc::new(AtomicBool::new(false));
        let site = Arc::new(Site {
            dir: dir.to_path_buf(),
            base: base.to_owned(),
        });
        let idle = Arc::new(Idle::default());
        let listening = thread::spawn({
            let (stopped, idle) = (Arc::clone(&stopped), Arc::clone(&idle));
            move || listen(&listener, &site, &stopped, &idle)
        });
        Ok(Self {
            address,
            base: base.to_owned(),
            stopped,
            idle,
            listening: Some(listening),
        })
    }

    /// The address to open in a browser.
    pub fn url(&self) -> String {
        format!("http://{}{}", self.address, self.base)
    }

    /// Stops listening and answering; returns once the port is closed.
    pub fn stop(mut self) {
        self.close();
    }

    /// Waits until the server ends, which it does not do by itself.
    pub fn wait(mut self) {
        if let Some(listening) = self.listening.take() {
            // A panic there has already been printed.
            let _ = listening.join();
        }
    }

    fn close(&mut self) {
        self.stopped.store(true, Ordering::SeqCst);
        if let Some(listening) = self.listening.take() {
            // Wakes the listener so that it sees the flag.
            let _ = TcpStream::connect(self.address);
            let _ = listening.join();
        }
        for connection in self.idle.all().values() {
            // It may have gone already.
            let _ = connection.shutdown(Shutdown::Both);
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.close();
    }
}

/// `cargo xtask serve`: serves until stopped by the user.
pub fn run(port: Option<u16>, dir: Option<&str>, base: Option<&str>) -> Result<()> {
    let dir = dir.map_or_else(paths::dist, PathBuf::from);
    let base = base.unwrap_or("/");
    let server = match port {
        Some(port) => Server::start_below(&dir, port, base)?,
        None => start_at_free_port(&dir, FIRST_PORT, base)?,
    };
    println!("serving {} at {}", dir.display(), server.url());
    server.wait();
    Ok(())
}

/// Serves at the first free port from `first` on.
pub fn start_at_free_port(dir: &Path, first: u16, base: &str) -> Result<Server> {
    let last = first.saturating_add(50);
    for port in first..=last {
        let is_taken = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).is_err();
        if !is_taken {
            return Server::start_below(dir, port, base);
        }
    }
    bail!("no free port from {first} to {last}: name another with --port");
}

fn listen(listener: &TcpListener, site: &Arc<Site>, stopped: &Arc<AtomicBool>, idle: &Arc<Idle>) {
    for connection in listener.incoming() {
        if stopped.load(Ordering::SeqCst) {
            return;
        }
        let Ok(mut connection) = connection else {
            continue;
        };
        let (Ok(peer), Ok(held)) = (connection.peer_addr(), connection.try_clone()) else {
            continue;
        };
        idle.all().insert(peer, held);
        let (site, stopped, idle) = (Arc::clone(site), Arc::clone(stopped), Arc::clone(idle));
        thread::spawn(move || {
            // A browser that goes away in mid-answer is no concern of ours.
            let head = read_head(&mut connection);
            idle.all().remove(&peer);
            if let Ok(Some(head)) = head
                && !stopped.load(Ordering::SeqCst)
            {
                let answer = site.respond(&head).bytes(head.starts_with("HEAD "));
                let _ = connection.write_all(&answer);
            }
        });
    }
}

/// The head of a request; `None` when there is none, or no end of it.
fn read_head(connection: &mut TcpStream) -> Result<Option<String>> {
    connection.set_read_timeout(Some(Duration::from_secs(30)))?;
    let mut head = Vec::new();
    let mut piece = [0; 4096];
    while !head.windows(4).any(|four| four == b"\r\n\r\n") {
        let read = connection.read(&mut piece)?;
        if read == 0 || head.len() > 64 * 1024 {
            return Ok(None);
        }
        head.extend_from_slice(&piece[..read]);
    }
    Ok(Some(String::from_utf8_lossy(&head).into_owned()))
}

struct Site {
    dir: PathBuf,
    base: String,
}

struct Response {
    status: &'static str,
    headers: Vec<(String, String)>,
    body: Vec<u8>,
}

impl Response {
    fn plain(status: &'static str) -> Self {
        Self {
            status,
            headers: vec![("Content-Type".into(), "text/plain; charset=utf-8".into())],
            body: format!("{status}\n").into_bytes(),
        }
    }

    fn bytes(&self, is_head: bool) -> Vec<u8> {
        let mut text = format!("HTTP/1.1 {}\r\n", self.status);
        for (name, value) in &self.headers {
            text.push_str(&format!("{name}: {value}\r\n"));
        }
        let length = self.body.len();
        text.push_str(&format!(
            "Content-Length: {length}\r\nConnection: close\r\n\r\n"
        ));
        let mut bytes = text.into_bytes();
        if !is_head {
            bytes.extend_from_slice(&self.body);
        }
        bytes
    }
}

impl Site {
    /// The answer to the head of a request.
    fn respond(&self, head: &str) -> Response {
        let mut lines = head.lines();
        let mut words = lines.next().unwrap_or_default().split(' ');
        let (method, target) = (words.next(), words.next().unwrap_or_default());
        if !matches!(method, Some("GET" | "HEAD")) {
            return Response::plain("405 Method Not Allowed");
        }
        let Some(path) = self.path_of(target) else {
            return Response::plain("404 Not Found");
        };
        let Ok(plain) = fs::read(self.dir.join(&path)) else {
            return Response::plain("404 Not Found");
        };
        let mut headers = self.headers_for(&path);
        headers.push(("Content-Type".into(), content_type(&path).into()));
        headers.push(("Vary".into(), "Accept-Encoding".into()));
        let packed = takes_brotli(lines)
            .then(|| fs::read(self.dir.join(format!("{path}.br"))).ok())
            .flatten();
        if packed.is_some() {
            headers.push(("Content-Encoding".into(), "br".into()));
        }
        Response {
            status: "200 OK",
            headers,
            body: packed.unwrap_or(plain),
        }
    }

    /// The file a request names, as a path below the folder; `None` when it is not below
    /// the base path, leaves the folder or is the host's own file.
    fn path_of(&self, target: &str) -> Option<String> {
        let path = target.split(['?', '#']).next()?;
        let path = percent_decode(path.strip_prefix(&self.base)?)?;
        let path = match path.strip_suffix('/') {
            Some(folder) => format!("{folder}/index.html"),
            None if path.is_empty() => "index.html".to_owned(),
            None => path,
        };
        let is_safe =
            |part: &str| !matches!(part, "" | "." | "..") && !part.contains(['\\', ':', '\0']);
        (path.split('/').all(is_safe) && path != "_headers").then_some(path)
    }

    fn headers_for(&self, path: &str) -> Vec<(String, String)> {
        let text = fs::read_to_string(self.dir.join("_headers")).unwrap_or_default();
        let path = format!("/{path}");
        build::parse_headers(&text)
            .into_iter()
            .filter(|rule| rule.covers(&path))
            .flat_map(|rule| rule.headers)
            .collect()
    }
}

fn takes_brotli<'a>(mut headers: impl Iterator<Item = &'a str>) -> bool {
    headers.any(|line| {
        line.split_once(':').is_some_and(|(name, value)| {
            name.eq_ignore_ascii_case("accept-encoding")
                && value.split(',').any(|coding| coding.trim() == "br")
        })
    })
}

fn percent_decode(text: &str) -> Option<String> {
    let mut bytes = Vec::new();
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let pair = [rest.next()?, rest.next()?];
            let pair = std::str::from_utf8(&pair).ok()?;
            bytes.push(u8::from_str_radix(pair, 16).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

fn content_type(path: &str) -> &'static str {
    match path.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/x-icon",
        "txt" | "md" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A small site in a folder of its own.
    fn folder(name: &str) -> PathBuf {
        let dir =
            std::env::temp_dir().join(format!("weekloom-serve-{name}-{}", std::process::id()));
        fs::create_dir_all(dir.join("assets")).unwrap();
        for (file, text) in [
            ("index.html", "page"),
            ("assets/a.wasm", "plain"),
            ("assets/a.wasm.br", "packed"),
            ("_headers", "/*\n  X-All: yes\n/assets/*\n  X-Asset: yes\n"),
        ] {
            fs::write(dir.join(file), text).unwrap();
        }
        dir
    }

    fn ask(address: SocketAddr, request: &str) -> String {
        let mut connection = TcpStream::connect(address).unwrap();
        connection
            .write_all(format!("{request}\r\n\r\n").as_bytes())
            .unwrap();
        let mut answer = String::new();
        connection.read_to_string(&mut answer).unwrap();
        answer
    }

    #[test]
    fn answers_with_type_and_headers_and_the_packed_copy() {
        let dir = folder("answers");
        let server = Server::start(&dir, 0).unwrap();
        let page = ask(server.address, "GET /?a=b HTTP/1.1");
        assert!(page.starts_with("HTTP/1.1 200 OK\r\n"), "{page}");
        assert!(page.contains("Content-Type: text/html"), "{page}");
        assert!(
            page.contains("X-All: yes") && !page.contains("X-Asset"),
            "{page}"
        );
        assert!(page.ends_with("\r\n\r\npage"), "{page}");

        let wasm = ask(server.address, "GET /assets/a.wasm HTTP/1.1");
        assert!(wasm.contains("Content-Type: application/wasm"), "{wasm}");
        assert!(wasm.contains("X-Asset: yes"), "{wasm}");
        assert!(wasm.ends_with("plain"), "{wasm}");

        let packed = "GET /assets/a.wasm HTTP/1.1\r\nAccept-Encoding: gzip, br";
        let packed = ask(server.address, packed);
        assert!(packed.contains("Content-Encoding: br"), "{packed}");
        assert!(packed.ends_with("packed"), "{packed}");

        let head = ask(server.address, "HEAD / HTTP/1.1");
        assert!(head.contains("Content-Length: 4"), "{head}");
        assert!(head.ends_with("\r\n\r\n"), "{head}");
        fs::remove_dir_all(dir).unwrap();
    }

    #[test]
    fn stays_in_its_folder() {
        let dir = folder("stays");
        let outside = dir.with_extension("secret");
        fs::write(&outside, "secret").unwrap();
        let name = outside.file_name().unwrap().to_str().unwrap();
        let server = Server::start(&dir, 0).unwrap();
        for path in [
            format!("/../{name}"),
            format!("/%2e%2e/{name}"),
            format!("/assets/..%2f..%2f{name}"),
            format!("/{}", outside.display()),
            "/_headers".to_owned(),
            "/%5fheaders".to_owned(),
            "/assets".to_owned(),
            "/nothing".to_owned(),
            "/%zz".to_owned(),
        ] {
            let answer = ask(server.address, &format!("GET {path} HTTP/1.1"));
            assert!(answer.starts_with("HTTP/1.1 404"), "{path}: {answer}");
        }
        let post = ask(server.address, "POST / HTTP/1.1");
        assert!(post.starts_with("HTTP/1.1 405"), "{post}");
        fs::remove_file(outside).unwrap();
        fs::remove_dir_all(dir).unwrap();
    }

    #[test]
    fn serves_below_a_path_and_nothing_beside_it() {
        let dir = folder("below");
        let server = Server::start_below(&dir, 0, "/weekloom/").unwrap();
        assert!(ask(server.address, "GET /weekloom/ HTTP/1.1").ends_with("page"));
        assert!(ask(server.address, "GET / HTTP/1.1").starts_with("HTTP/1.1 404"));
        fs::remove_dir_all(dir).unwrap();
    }

    #[test]
    fn a_stopped_server_refuses_connections() {
        let dir = folder("stops");
        let server = Server::start(&dir, 0).unwrap();
        let address = server.address;
        let mut early = TcpStream::connect(address).unwrap();
        server.stop();
        assert!(TcpStream::connect(address).is_err());
        // A connection opened before ends without being asked for anything.
        let mut answer = Vec::new();
        let _ = early.read_to_end(&mut answer);
        assert!(answer.is_empty());
        fs::remove_dir_all(dir).unwrap();
    }

    #[test]
    fn refuses_a_folder_without_a_page() {
        assert!(Server::start(Path::new("no-such-folder"), 0).is_err());
    }
}
