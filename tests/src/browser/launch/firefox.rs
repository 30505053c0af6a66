//! Firefox by hand, headless, with geckodriver connected to it.

use serde_json::json;

use super::super::failure::{Failure, Outcome};
use super::super::process::Group;
use super::super::profile::Profile;
use super::super::ready;
use super::{Running, Wanted};

pub(super) async fn start(profile: &Profile) -> Outcome<Running> {
    let program = super::find("HAULWREN_FIREFOX", &["firefox-esr", "firefox"])?;
    let data = profile.data();
    let port_file = data.join("MarionetteActivePort");
    if port_file.exists() {
        // Left by the run before: its port means nothing now.
        let trouble = Failure::system("cannot remove the old port file");
        std::fs::remove_file(&port_file).map_err(trouble)?;
    }
    let mut command = profile.command(&program);
    command
        // Without this a release build ignores the address that the profile gives for its own settings.
        .env("MOZ_REMOTE_SETTINGS_DEVTOOLS", "1")
        .args(["-headless", "--marionette", "-no-remote", "-profile"])
        .arg(&data)
        .arg("about:blank");
    let mut browser = Group::start("firefox", &mut command, &profile.log("firefox"))?;
    let port = ready::port_file(&mut browser, &port_file).await?;
    let wanted = Wanted {
        name: "geckodriver",
        program: super::find("HAULWREN_GECKODRIVER", &["geckodriver"])?,
        arguments: vec![
            "--connect-existing".to_owned(),
            format!("--marionette-port={port}"),
        ],
        env: Vec::new(),
        capabilities: vec![("browserName", json!("firefox"))],
    };
    let (driver, session) = wanted.open(profile).await?;
    Ok(Running {
        session,
        driver,
        browser: Some(browser),
        screen: None,
    })
}
