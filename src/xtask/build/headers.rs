//! The headers a host should send, as the `_headers` file several static hosts read, and
//! the reading of that file by our own server.

use super::names::HASHED;

/// What the page may do: run its own scripts and wasm, use its own styles, talk to no one.
/// It stands in the page itself too, for hosts that read no header file.
pub const CONTENT_SECURITY_POLICY: &str = "default-src 'none'; \
    script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; \
    connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'self'; \
    form-action 'none'; require-trusted-types-for 'script'; trusted-types weekloom";

/// The policy without Trusted Types, for the floor program: it is written as the framework
/// means it, and the framework makes elements of markup where the app does not.
pub fn without_trusted_types() -> &'static str {
    CONTENT_SECURITY_POLICY
        .split_once("; require-trusted-types-for")
        .map_or(CONTENT_SECURITY_POLICY, |(before, _)| before)
}

/// A path pattern and its headers.
#[derive(Debug, PartialEq, Eq)]
pub struct Rule {
    /// A path; a `*` at its end stands for anything.
    pub pattern: String,
    /// Names and values in the order written.
    pub headers: Vec<(String, String)>,
}

impl Rule {
    /// Does the rule hold for this path? The path starts with `/`.
    pub fn covers(&self, path: &str) -> bool {
        match self.pattern.strip_suffix('*') {
            Some(front) => path.starts_with(front),
            None => path == self.pattern,
        }
    }
}

/// The text of the `_headers` file. No two rules give one path the same header: hosts
/// would join the values.
pub fn text(policy: &str) -> String {
    // A policy in the page cannot forbid framing; a header can.
    let mut text = format!(
        "/*\n  Content-Security-Policy: {policy}; frame-ancestors 'none'\n  \
         X-Content-Type-Options: nosniff\n  Referrer-Policy: no-referrer\n"
    );
    text.push_str(&format!(
        "/{HASHED}*\n  Cache-Control: public, max-age=31536000, immutable\n"
    ));
    for path in [
        "/",
        "/index.html",
        "/numbers/*",
        "/sw.js",
        "/manifest.webmanifest",
    ] {
        text.push_str(&format!("{path}\n  Cache-Control: no-cache\n"));
    }
    for path in ["/icons/*", "/screenshots/*"] {
        text.push_str(&format!("{path}\n  Cache-Control: public, max-age=86400\n"));
    }
    text
}

/// Reads a `_headers` file. Lines it does not understand are left out.
pub fn parse(text: &str) -> Vec<Rule> {
    let mut rules: Vec<Rule> = Vec::new();
    for line in text.lines() {
        if line.starts_with('/') {
            rules.push(Rule {
                pattern: line.trim_end().to_owned(),
                headers: Vec::new(),
            });
        } else if let (Some(rule), Some((name, value))) = (rules.last_mut(), line.split_once(':'))
            && !line.trim_start().starts_with('#')
        {
            let header = (name.trim().to_owned(), value.trim().to_owned());
            rule.headers.push(header);
        }
    }
    rules
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn cache_control(path: &str) -> String {
        let rules = parse(&text(CONTENT_SECURITY_POLICY));
        let headers = rules.iter().filter(|rule| rule.covers(path));
        let values: Vec<_> = headers
            .flat_map(|rule| &rule.headers)
            .filter(|(name, _)| name == "Cache-Control")
            .collect();
        assert_eq!(values.len(), 1, "{path}");
        values[0].1.clone()
    }

    #[test]
    fn hashed_names_are_kept_for_good_and_entries_are_asked_for_each_time() {
        assert!(cache_control("/assets/weekloom-0123.wasm").contains("immutable"));
        for path in ["/", "/index.html", "/sw.js"] {
            assert_eq!(cache_control(path), "no-cache");
        }
    }

    #[test]
    fn every_path_gets_the_policy_once() {
        let rules = parse(&text(CONTENT_SECURITY_POLICY));
        let all = rules.iter().filter(|rule| rule.covers("/x"));
        let names: Vec<_> = all.flat_map(|r| &r.headers).map(|(name, _)| name).collect();
        assert!(names.contains(&&"Content-Security-Policy".to_owned()));
        assert_eq!(names.len(), names.iter().collect::<BTreeSet<_>>().len());
    }
}
