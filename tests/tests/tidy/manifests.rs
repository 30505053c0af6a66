//! One table of dependencies, one of lints.

use super::tree::{none, root};
use std::collections::BTreeSet;
use toml::{Table, Value};

fn manifest(folder: &str) -> Table {
    let path = root().join(folder).join("Cargo.toml");
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{folder}: {error}"));
    text.parse()
        .unwrap_or_else(|error| panic!("{folder}: {error}"))
}

fn members() -> Vec<String> {
    let whole = manifest("");
    let members = whole["workspace"]["members"].as_array().unwrap().iter();
    members
        .map(|member| member.as_str().unwrap().to_owned())
        .collect()
}

/// A manifest's dependencies of every sort, those for some targets included.
fn dependencies(manifest: &Table) -> Vec<(String, Value)> {
    let sorts = ["dependencies", "dev-dependencies", "build-dependencies"];
    let mut found = Vec::new();
    let targets = manifest.get("target").and_then(Value::as_table);
    let tables = targets
        .into_iter()
        .flat_map(Table::values)
        .filter_map(Value::as_table);
    for table in tables.chain(std::iter::once(manifest)) {
        for (name, value) in sorts
            .iter()
            .filter_map(|sort| table.get(*sort)?.as_table())
            .flatten()
        {
            found.push((name.clone(), value.clone()));
        }
    }
    found
}

#[test]
fn every_dependency_comes_from_the_one_table() {
    let mut complaints = Vec::new();
    for member in members() {
        let dependencies = dependencies(&manifest(&member));
        assert!(!dependencies.is_empty(), "{member} needs nothing?");
        for (name, value) in dependencies {
            let is_own = ["version", "path", "git"]
                .iter()
                .any(|key| value.get(key).is_some());
            if is_own || value.get("workspace") != Some(&Value::Boolean(true)) {
                complaints.push(format!("{member}: {name}"));
            }
        }
    }
    none(
        &complaints,
        "A member writes `x.workspace = true`; versions stand in the workspace's table.",
    );
}

#[test]
fn the_one_table_holds_nothing_that_nobody_needs() {
    let needed: BTreeSet<String> = members()
        .iter()
        .flat_map(|member| dependencies(&manifest(member)))
        .map(|(name, _)| name)
        .collect();
    let whole = manifest("");
    let table = whole["workspace"]["dependencies"].as_table().unwrap();
    let complaints: Vec<String> = table
        .keys()
        .filter(|name| !needed.contains(*name))
        .cloned()
        .collect();
    none(&complaints, "What no member needs goes out of the table.");
}

#[test]
fn every_member_obeys_the_one_table_of_lints() {
    for member in members() {
        let manifest = manifest(&member);
        assert_eq!(
            manifest["lints"]["workspace"],
            Value::Boolean(true),
            "{member}"
        );
    }
}
