//! What WebDriver has no command for, asked of Firefox through its driver's chrome
//! context: scripts that run before the page's own, what its consoles and its network
//! say, the window's size and look, and the plug to the net.

use fantoccini::Client;
use serde_json::{Value, json};

use super::page::Look;
use super::wire;

/// Keeps what is said and asked for, and runs scripts in every page before its own.
const WATCH: &str = include_str!("firefox.js");

/// Preferences for a quiet start in English, and for files without questions.
pub(super) fn preferences(downloads: &std::path::Path) -> Value {
    json!({
        "intl.accept_languages": "en-GB",
        "browser.download.folderList": 2,
        "browser.download.dir": downloads,
        "browser.download.always_ask_before_handling_new_types": false,
        "browser.helperApps.neverAsk.saveToDisk":
            "application/json,text/csv,text/calendar,text/plain,image/svg+xml,application/octet-stream",
        "browser.download.alwaysOpenPanel": false,
        // Notices by the browser itself: there may be no desktop to show them.
        "alerts.useSystemBackend": false,
        // Scroll bars take no room on a phone.
        "ui.useOverlayScrollbars": 1,
        // After a kill it starts as after any other end.
        "browser.sessionstore.resume_from_crash": false,
        "toolkit.startup.max_resumed_crashes": -1,
    })
}

/// Runs a script as a part of the browser itself; arguments come as `arguments[0]`.
pub(super) async fn chrome(client: &Client, script: &str, arguments: Vec<Value>) -> Value {
    let into = async |context: &str| {
        let context = json!({ "context": context });
        let done = wire::post(client, "moz/context", context).await;
        done.unwrap_or_else(|error| panic!("the driver changes no context: {error}"));
    };
    into("chrome").await;
    let found = client.execute(script, arguments).await;
    into("content").await;
    found.unwrap_or_else(|error| panic!("script failed in the browser: {error}\n{script}"))
}

/// Begins to watch. These scripts run in every page opened from now on.
pub(super) async fn watch(client: &Client, scripts: &[String]) {
    chrome(client, WATCH, vec![json!(scripts)]).await;
}

/// What was kept under a name since the last call.
pub(super) async fn kept(client: &Client, name: &str) -> Vec<Value> {
    let script = "return window.weekloomWatch?.[arguments[0]].splice(0) ?? []";
    match chrome(client, script, vec![json!(name)]).await {
        Value::Array(found) => found,
        other => panic!("the browser kept no {name}: {other}"),
    }
}

/// Makes the page's part of the window so large.
pub(super) async fn resize(client: &Client, width: u32, height: u32) {
    let script = "const [width, height] = arguments;
        const { style } = gBrowser.selectedBrowser;
        for (const [side, size] of [['width', width], ['height', height]])
          for (const least of ['', 'min-', 'max-']) style.setProperty(least + side, size + 'px');";
    chrome(client, script, vec![json!(width), json!(height)]).await;
}

/// Shows the page in a look, without motion unless it is the plain one.
pub(super) async fn look(client: &Client, look: Look) {
    let script = "const [scheme, forced, medium] = arguments;
        const context = gBrowser.selectedBrowser.browsingContext.top;
        context.prefersColorSchemeOverride = scheme;
        context.forcedColorsOverride = forced ? 'active' : 'none';
        context.mediumOverride = medium;
        if (scheme === 'none' && !forced) Services.prefs.clearUserPref('ui.prefersReducedMotion');
        else Services.prefs.setIntPref('ui.prefersReducedMotion', 1);";
    let scheme = match look {
        Look::Light => "light",
        Look::Dark => "dark",
        Look::Plain | Look::Forced | Look::Printed => "none",
    };
    let medium = if look == Look::Printed { "print" } else { "" };
    let forced = look == Look::Forced;
    chrome(
        client,
        script,
        vec![json!(scheme), json!(forced), json!(medium)],
    )
    .await;
}

/// Pulls the plug to the net.
pub(super) async fn unplug(client: &Client) {
    chrome(client, "Services.io.offline = true", vec![]).await;
}
