//! Builds the app and serves it on this machine until stopped.

use haulwren_tests::server::{Options, Server};

use crate::dist;
use crate::fail::{Done, While, fail};
use crate::places::Places;

/// Uncommon on purpose: a worker left behind on a common port would answer for other projects.
const PORT: u16 = 47_611;

/// `serve [--port N]`.
///
/// # Errors
/// When the arguments are not understood, the build fails or the port is taken.
pub fn command(places: &Places, arguments: &[&str]) -> Done {
    let port = match arguments {
        [] => PORT,
        ["--port", number] => number.parse().or_fail(format!(
            "`{number}` is not a port, which is a number up to 65535"
        ))?,
        _ => return fail("serve takes nothing but `--port N`"),
    };
    let dist = dist::build(places)?;
    let server = Server::start(Options::new(dist).port(port))
        .or_fail(format!("cannot serve on port {port}"))?;
    println!(
        "\nHaulwren is served at {}  (stop with Ctrl+C)",
        server.url()
    );
    loop {
        std::thread::park();
    }
}
