//! The readers of files fed by a fuzzer: a minute, from the golden and the bad files on. Part of the long tests only.
//!
//! Built by the stable compiler: counters of coverage are put in by the code generator's own pass, which needs no nightly. What a nightly
//! would add is an eye on memory, and the core has no unsafe code.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use super::Run;
use crate::fail::{Done, While, fail};
use crate::run::{cargo, read, run};

/// The targets, and how long each is fed, in seconds.
const TARGETS: [(&str, u32); 3] = [("change", 15), ("reader", 20), ("book", 25)];

/// What puts the counters in.
const COUNTERS: &str = "--cfg fuzzing -Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
    -Cllvm-args=-sanitizer-coverage-trace-compares -Ccodegen-units=1";

/// Where files lie that every version has to read, or to refuse.
const SEEDS: [&str; 2] = ["tests/tests/golden", "tests/tests/golden/bad"];

pub fn part(this: &Run) -> Done {
    if read(Command::new("c++").arg("--version")).is_err() {
        return fail(
            "the fuzzer is built by a C++ compiler, and there is no `c++` here: install g++",
        );
    }
    let root = &this.places.root;
    let host = host()?;
    let built = root.join("target/fuzz");
    let mut command = cargo(root, &["build", "--quiet", "--release", "--locked"]);
    // For a target by name, so that what runs while building has no counters.
    command
        .args([
            "--manifest-path",
            "tests/fuzz/Cargo.toml",
            "--target",
            &host,
        ])
        .arg("--target-dir")
        .arg(&built)
        .env("RUSTFLAGS", COUNTERS);
    run(&mut command)?;
    let seeds = built.join("seeds");
    lay_out(root, &seeds)?;
    for (target, seconds) in TARGETS {
        let [corpus, found] = ["corpus", "found"].map(|name| built.join(name).join(target));
        for folder in [&corpus, &found] {
            fs::create_dir_all(folder).or_fail(format!("making {}", folder.display()))?;
        }
        let mut feed = Command::new(built.join(&host).join("release").join(target));
        feed.args([
            format!("-max_total_time={seconds}"),
            "-timeout=10".to_owned(),
        ])
        .args([
            "-rss_limit_mb=2048",
            "-max_len=65536",
            "-print_final_stats=1",
        ])
        .arg(format!("-artifact_prefix={}/", found.display()))
        .args([&corpus, &seeds]);
        if run(&mut feed).is_err() {
            let found = found.display();
            return fail(format!(
                "`{target}` stopped; what it was fed is in {found}: make it a test"
            ));
        }
    }
    Ok(())
}

/// Lays the files to begin with into one folder, each by its path, so that none covers another.
fn lay_out(root: &Path, seeds: &Path) -> Done {
    fs::create_dir_all(seeds).or_fail("making the folder of seeds")?;
    let mut count = 0;
    for folder in SEEDS {
        let entries = fs::read_dir(root.join(folder)).or_fail(format!("reading {folder}"))?;
        for entry in entries {
            let path: PathBuf = entry.or_fail(format!("reading {folder}"))?.path();
            let is_file = ["txt", "bin"]
                .iter()
                .any(|end| path.extension().is_some_and(|of| of == *end));
            if let (true, Some(name)) = (is_file, path.file_name()) {
                let to = format!("{count}-{}", name.to_string_lossy());
                fs::copy(&path, seeds.join(to)).or_fail(format!("copying {}", path.display()))?;
                count += 1;
            }
        }
    }
    if count == 0 {
        return fail("there are no files to begin with");
    }
    Ok(())
}

/// The name of this machine's target.
fn host() -> Done<String> {
    let about = read(Command::new("rustc").arg("-vV"))?;
    let host = about.lines().find_map(|line| line.strip_prefix("host: "));
    host.map_or_else(
        || fail("rustc does not say for which machine it builds"),
        |host| Ok(host.to_owned()),
    )
}
