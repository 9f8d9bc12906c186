//! WebDriver commands that the client has no method for.

use fantoccini::Client;
use fantoccini::error::CmdError;
use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::Value;
use url::{ParseError, Url};

/// One command below the session's address.
#[derive(Debug)]
struct Command {
    path: String,
    body: Option<Value>,
}

impl WebDriverCompatibleCommand for Command {
    fn endpoint(&self, base_url: &Url, session_id: Option<&str>) -> Result<Url, ParseError> {
        let session = session_id.unwrap_or_default();
        base_url.join(&format!("session/{session}/{}", self.path))
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        match &self.body {
            Some(body) => (Method::POST, Some(body.to_string())),
            None => (Method::GET, None),
        }
    }
}

/// Asks for a value.
pub(super) async fn get(client: &Client, path: String) -> Result<Value, CmdError> {
    client.issue_cmd(Command { path, body: None }).await
}

/// Sends a value.
pub(super) async fn post(client: &Client, path: &str, body: Value) -> Result<Value, CmdError> {
    let (path, body) = (path.to_owned(), Some(body));
    client.issue_cmd(Command { path, body }).await
}
