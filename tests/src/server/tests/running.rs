//! Starting, stopping, acknowledging and noting.

use std::io::{ErrorKind, Read};
use std::net::TcpStream;
use std::sync::mpsc;

use super::super::{Options, Server};
use super::{Folder, ask, serve, status};

#[test]
fn stopped_means_refused_even_for_connections_opened_ahead() {
    let folder = Folder::new("stop");
    let mut server = serve(&folder);
    let port = server.port();
    let mut ahead = TcpStream::connect(("127.0.0.1", port)).expect("connects");
    // An answer to a later connection proves that the one opened ahead was accepted too.
    assert_eq!(status(&server, "GET /"), 200);
    server.stop();
    let mut rest = Vec::new();
    let gone = match ahead.read_to_end(&mut rest) {
        Ok(length) => length == 0,
        Err(problem) => problem.kind() == ErrorKind::ConnectionReset,
    };
    assert!(
        gone,
        "the idle connection was closed with nothing sent: {rest:?}"
    );
    let refused = TcpStream::connect(("127.0.0.1", port)).expect_err("nobody listens");
    assert_eq!(refused.kind(), ErrorKind::ConnectionRefused);

    server.restart().expect("the port is free again");
    assert_eq!(server.port(), port);
    assert_eq!(status(&server, "GET /"), 200);
}

#[test]
fn acknowledgements_arrive_before_their_answer_and_only_when_asked_for() {
    let folder = Folder::new("ack");
    let (sender, receiver) = mpsc::channel();
    let hand_over = move |text: &str| sender.send(text.to_owned()).expect("the test listens");
    let options = Options::new(folder.site()).on_ack(hand_over);
    let server = Server::start(options).expect("starts");
    let answer = ask(&server, "POST /__ack/seq%2012", "Content-Length: 0\r\n");
    assert!(answer.starts_with("HTTP/1.1 204 "), "{answer}");
    assert_eq!(receiver.try_recv().as_deref(), Ok("seq 12"));
    assert_eq!(status(&serve(&folder), "POST /__ack/x"), 405);
}

#[test]
fn the_log_keeps_method_path_and_host_in_order() {
    let folder = Folder::new("log");
    let server = serve(&folder);
    assert_eq!(status(&server, "GET /?x"), 200);
    assert_eq!(status(&server, "GET /none"), 404);
    let log: Vec<_> = server
        .log()
        .into_iter()
        .map(|seen| (seen.path, seen.status))
        .collect();
    assert_eq!(log, [("/?x".to_owned(), 200), ("/none".to_owned(), 404)]);
    assert_eq!(server.log()[0].host, "stall.test");
    server.clear_log();
    assert_eq!(server.log(), []);
}

#[test]
fn a_missing_page_or_a_taken_port_is_said_at_the_start() {
    let folder = Folder::new("start");
    let missing = Server::start(Options::new(folder.0.join("nowhere")));
    assert_eq!(
        missing.err().map(|problem| problem.kind()),
        Some(ErrorKind::NotFound)
    );
    let first = serve(&folder);
    let second = Server::start(Options::new(folder.site()).port(first.port()));
    assert_eq!(
        second.err().map(|problem| problem.kind()),
        Some(ErrorKind::AddrInUse)
    );
}
