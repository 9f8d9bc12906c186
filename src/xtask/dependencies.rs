//! What the crates we build on allow, where they come from, and which of them the app
//! carries twice.
//!
//! Start at [`check`]. Security advisories are not looked up: their database is no package
//! of a registry, and nothing here reaches beyond those.

use std::collections::{BTreeMap, BTreeSet};

use anyhow::{Context as _, Result, bail};
use serde::Deserialize;

use crate::process;

/// Licences (SPDX) that ask for no more than a notice.
const ALLOWED: [&str; 11] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MIT-0",
    "Unicode-3.0",
    "Zlib",
];
/// Crates of the tools and tests, never of the app, under another one.
const TOOLS_ONLY: [(&str, &str); 1] = [("MPL-2.0", "webdriver")];
/// Crates that the app carries in two versions, because others ask for each.
const TWICE: [&str; 2] = ["gloo-utils", "thiserror"];
/// The app, and the target it is built for.
const APP: &str = "weekloom-app";
const TARGET: &str = "wasm32-unknown-unknown";
/// Where every crate comes from that is not ours.
const REGISTRY: &str = "registry+";

#[derive(Deserialize)]
struct Metadata {
    packages: Vec<Package>,
    resolve: Resolve,
}

#[derive(Deserialize)]
struct Package {
    id: String,
    name: String,
    version: String,
    license: Option<String>,
    source: Option<String>,
    targets: Vec<Target>,
}

#[derive(Deserialize)]
struct Target {
    kind: Vec<String>,
}

#[derive(Deserialize)]
struct Resolve {
    nodes: Vec<Node>,
}

#[derive(Deserialize)]
struct Node {
    id: String,
    deps: Vec<Dep>,
}

#[derive(Deserialize)]
struct Dep {
    pkg: String,
    dep_kinds: Vec<DepKind>,
}

#[derive(Deserialize)]
struct DepKind {
    kind: Option<String>,
}

/// Checks every crate of the lock file; errors with all that is amiss.
pub fn check() -> Result<()> {
    let all = metadata(&[])?;
    let app = metadata(&["--filter-platform", TARGET])?;
    let carried = carried(&app)?;
    let mut amiss = Vec::new();
    for package in &all.packages {
        amiss.extend(flaw(package, carried.contains(package.id.as_str())));
    }
    amiss.extend(twice(&app, &carried));
    println!(
        "  {} crates in the lock file, {} of them in the app",
        all.packages.len(),
        carried.len()
    );
    println!("  advisories: not looked up, their database is no package of a registry");
    if !amiss.is_empty() {
        bail!("{}", amiss.join("\n"));
    }
    Ok(())
}

fn metadata(more: &[&str]) -> Result<Metadata> {
    let mut command = process::cargo();
    command.args(["metadata", "--format-version", "1", "--locked"]);
    let text = process::output(command.args(more))?;
    serde_json::from_str(&text).context("cargo metadata is not what it was")
}

/// Ids of the packages whose code ends up in the app: normal dependencies, and no macros,
/// which run while it is built.
fn carried(found: &Metadata) -> Result<BTreeSet<&str>> {
    let of_id: BTreeMap<&str, &Package> =
        found.packages.iter().map(|p| (p.id.as_str(), p)).collect();
    let nodes: BTreeMap<&str, &Node> = found
        .resolve
        .nodes
        .iter()
        .map(|n| (n.id.as_str(), n))
        .collect();
    let app = found.packages.iter().find(|p| p.name == APP);
    let app = app.with_context(|| format!("there is no {APP}"))?;
    let mut carried = BTreeSet::new();
    let mut open = vec![app.id.as_str()];
    while let Some(id) = open.pop() {
        let is_macro = of_id.get(id).is_some_and(|package| {
            let mut kinds = package.targets.iter().flat_map(|target| &target.kind);
            kinds.any(|kind| kind == "proc-macro")
        });
        if is_macro || !carried.insert(id) {
            continue;
        }
        let deps = nodes.get(id).map_or(&[][..], |node| &node.deps);
        let is_normal = |dep: &&Dep| dep.dep_kinds.iter().any(|kind| kind.kind.is_none());
        open.extend(deps.iter().filter(is_normal).map(|dep| dep.pkg.as_str()));
    }
    Ok(carried)
}

/// What speaks against a package.
fn flaw(package: &Package, is_in_app: bool) -> Option<String> {
    let name = format!("{} {}", package.name, package.version);
    match &package.source {
        // Ours.
        None => return None,
        Some(source) if !source.starts_with(REGISTRY) => {
            return Some(format!("{name} comes from {source}, not from the registry"));
        }
        Some(_) => {}
    }
    let Some(licence) = &package.license else {
        return Some(format!("{name} names no licence"));
    };
    let excused = TOOLS_ONLY
        .iter()
        .any(|(allowed, of)| !is_in_app && allowed == licence && *of == package.name);
    if excused || is_allowed(licence) {
        return None;
    }
    Some(format!(
        "{name} is under {licence}, which src/xtask/dependencies.rs does not allow"
    ))
}

/// Whether an expression of licences can be met by allowed ones.
fn is_allowed(licence: &str) -> bool {
    let mode = spdx::ParseMode {
        allow_slash_as_or_operator: true,
        ..spdx::ParseMode::STRICT
    };
    spdx::Expression::parse_mode(licence, mode).is_ok_and(|expression| {
        expression.evaluate(|asked| {
            let id = asked.license.id().map(|id| id.name);
            id.is_some_and(|id| ALLOWED.contains(&id))
        })
    })
}

/// Crates the app carries in several versions beyond those written down, and such that
/// are written down and need not be any more.
fn twice(found: &Metadata, carried: &BTreeSet<&str>) -> Vec<String> {
    let mut versions: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for package in found
        .packages
        .iter()
        .filter(|p| carried.contains(p.id.as_str()))
    {
        versions
            .entry(&package.name)
            .or_default()
            .push(&package.version);
    }
    let mut amiss = Vec::new();
    for (name, versions) in &versions {
        if versions.len() > 1 && !TWICE.contains(name) {
            amiss.push(format!(
                "the app carries {name} as {}",
                versions.join(" and ")
            ));
        }
    }
    for name in TWICE {
        if versions.get(name).is_none_or(|versions| versions.len() < 2) {
            amiss.push(format!(
                "{name} is no longer there twice: take it off the list"
            ));
        }
    }
    amiss
}

#[cfg(test)]
mod tests {
    use super::*;

    fn package(license: Option<&str>, source: Option<&str>) -> Package {
        Package {
            id: "x".to_owned(),
            name: "webdriver".to_owned(),
            version: "1.0.0".to_owned(),
            license: license.map(str::to_owned),
            source: source.map(str::to_owned),
            targets: Vec::new(),
        }
    }

    #[test]
    fn an_expression_is_allowed_when_allowed_licences_meet_it() {
        for (licence, allowed) in [
            ("MIT", true),
            ("MIT/Apache-2.0", true),
            ("MIT OR GPL-3.0-only", true),
            ("MIT AND GPL-3.0-only", false),
            ("(MIT OR Apache-2.0) AND Unicode-3.0", true),
            ("Apache-2.0 WITH LLVM-exception", true),
            ("AGPL-3.0-only", false),
            ("whatever", false),
        ] {
            assert_eq!(is_allowed(licence), allowed, "{licence}");
        }
    }

    #[test]
    fn a_package_without_licence_or_from_elsewhere_is_amiss() {
        let registry = Some("registry+somewhere");
        assert!(flaw(&package(Some("MIT"), registry), true).is_none());
        assert!(flaw(&package(None, registry), true).is_some());
        assert!(flaw(&package(Some("MIT"), Some("git+somewhere")), true).is_some());
        // Excused in the tools, not in the app.
        assert!(flaw(&package(Some("MPL-2.0"), registry), false).is_none());
        assert!(flaw(&package(Some("MPL-2.0"), registry), true).is_some());
        // Ours.
        assert!(flaw(&package(None, None), true).is_none());
    }
}
