//! `WebKit`'s small browser, started by its driver, on a virtual screen of its own.

use std::fs;
use std::path::PathBuf;

use serde_json::json;

use super::super::failure::{Failure, Outcome, wrong};
use super::super::process::Group;
use super::super::profile::Profile;
use super::super::ready;
use super::{Running, Wanted};

/// Where systems keep libraries; the browser lies in a folder of the library below one of them.
const LIBRARIES: [&str; 3] = ["/usr/lib", "/usr/libexec", "/usr/lib64"];

pub(super) async fn start(profile: &Profile, trap: u16) -> Outcome<Running> {
    let small = small_browser()?;
    let program = super::find("HAULWREN_XVFB", &["Xvfb"])?;
    let mut command = profile.command(&program);
    // It picks a free number and prints it once it can be used.
    command.args([
        "-displayfd",
        "1",
        "-screen",
        "0",
        "1400x1000x24",
        "-nolisten",
        "tcp",
    ]);
    let mut screen = Group::start("screen", &mut command, &profile.log("screen"))?;
    let log = profile.log("screen");
    let number = ready::until(&mut screen, "the screen to tell its number", || {
        // A missing or half-written line is the state before the one waited for.
        let text = fs::read_to_string(&log).ok()?;
        // Complaints about numbers that are taken may stand before it.
        let mut whole = text
            .split_inclusive('\n')
            .filter_map(|line| line.strip_suffix('\n'));
        whole.find_map(|line| line.trim().parse::<u32>().ok())
    })
    .await?;
    let proxy = format!("127.0.0.1:{trap}");
    let wanted = Wanted {
        name: "webkitdriver",
        program: super::find("HAULWREN_WEBKITDRIVER", &["WebKitWebDriver"])?,
        arguments: Vec::new(),
        env: vec![
            ("DISPLAY", format!(":{number}")),
            ("GDK_BACKEND", "x11".to_owned()),
            ("LIBGL_ALWAYS_SOFTWARE", "1".to_owned()),
            ("NO_AT_BRIDGE", "1".to_owned()),
        ],
        capabilities: vec![
            ("browserName", json!("MiniBrowser")),
            (
                "webkitgtk:browserOptions",
                json!({ "binary": small, "args": ["--automation"] }),
            ),
            (
                "proxy",
                json!({
                    "proxyType": "manual",
                    "httpProxy": proxy,
                    "sslProxy": proxy,
                    "noProxy": ["127.0.0.1", "localhost"],
                }),
            ),
        ],
    };
    let (driver, session) = wanted.open(profile).await?;
    Ok(Running {
        session,
        driver,
        browser: None,
        screen: Some(screen),
    })
}

fn small_browser() -> Outcome<PathBuf> {
    if let Some(set) = std::env::var_os("HAULWREN_MINIBROWSER") {
        return Ok(PathBuf::from(set));
    }
    let trouble = |place: &str| Failure::system(format!("cannot look into {place}"));
    for place in LIBRARIES
        .into_iter()
        .filter(|place| PathBuf::from(place).is_dir())
    {
        let mut folders = vec![PathBuf::from(place)];
        for entry in fs::read_dir(place).map_err(trouble(place))? {
            let path = entry.map_err(trouble(place))?.path();
            if path.is_dir() {
                folders.push(path);
            }
        }
        for library in ["webkit2gtk-4.1", "webkitgtk-6.0", "webkit2gtk-4.0"] {
            let found = folders
                .iter()
                .map(|folder| folder.join(library).join("MiniBrowser"));
            if let Some(found) = found.into_iter().find(|program| program.is_file()) {
                return Ok(found);
            }
        }
    }
    wrong("WebKit's small browser is not installed")
}
