//! Knowing when a started driver or browser can be spoken to.

use std::io::{Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::time::{Duration, Instant};

use super::failure::{Failure, Outcome, wrong};
use super::process::Group;

/// How long a program may take to come up, on a busy machine.
const PATIENCE: Duration = Duration::from_secs(40);
/// Between two looks.
const PAUSE: Duration = Duration::from_millis(10);

/// A port that nobody listened on a moment ago.
pub(crate) fn free_port() -> Outcome<u16> {
    let trouble = || Failure::system("cannot find a free port");
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).map_err(trouble())?;
    Ok(listener.local_addr().map_err(trouble())?.port())
}

/// Waits until the driver on `port` says that it is ready.
pub(crate) async fn driver(group: &mut Group, port: u16) -> Outcome<()> {
    until(group, "the driver to be ready", || {
        status(port)
            .is_some_and(|answer| answer.replace(' ', "").contains("\"ready\":true"))
            .then_some(())
    })
    .await
}

/// Waits until the browser has written the port it listens on as the first line of `file`.
pub(crate) async fn port_file(group: &mut Group, file: &Path) -> Outcome<u16> {
    until(group, "the browser to tell its port", || {
        // A missing or half-written file is the state before the one waited for.
        let text = std::fs::read_to_string(file).ok()?;
        text.lines().next()?.trim().parse().ok()
    })
    .await
}

/// Waits until `look` finds something; a program that ends meanwhile is a failure at once.
pub(crate) async fn until<T>(
    group: &mut Group,
    what: &str,
    mut look: impl FnMut() -> Option<T>,
) -> Outcome<T> {
    let deadline = Instant::now() + PATIENCE;
    loop {
        if let Some(found) = look() {
            return Ok(found);
        }
        if let Some(status) = group.ended()? {
            return wrong(format!(
                "{status} while waiting for {what}:\n{}",
                group.printed()
            ));
        }
        if Instant::now() > deadline {
            return Err(Failure::Late {
                what: what.to_owned(),
                seconds: PATIENCE.as_secs(),
                seen: group.printed(),
            });
        }
        tokio::time::sleep(PAUSE).await;
    }
}

/// The answer to `GET /status`; nothing while nobody listens or the answer is broken off.
fn status(port: u16) -> Option<String> {
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).ok()?;
    stream.set_read_timeout(Some(Duration::from_secs(2))).ok()?;
    let request =
        format!("GET /status HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\r\n");
    stream.write_all(request.as_bytes()).ok()?;
    let mut answer = Vec::new();
    let mut piece = [0; 1024];
    // Some drivers keep the connection open all the same: the body is short, so stop at its last brace.
    while !answer.ends_with(b"}") && !answer.ends_with(b"}\n") {
        match stream.read(&mut piece) {
            Ok(length) if length > 0 => answer.extend_from_slice(&piece[..length]),
            _ => break,
        }
    }
    Some(String::from_utf8_lossy(&answer).into_owned())
}
