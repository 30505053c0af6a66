//! Accepting connections, one thread each, and closing every one of them when the server stops.

use std::collections::HashMap;
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Condvar, Mutex, PoisonError};

use super::{Shared, http, lock, reply};

/// The open connections by number.
#[derive(Default)]
pub(crate) struct Connections {
    open: Mutex<(u64, HashMap<u64, TcpStream>)>,
    emptied: Condvar,
}

impl Connections {
    /// Keeps a second handle to the stream, by which it can be closed from outside.
    fn add(&self, stream: &TcpStream) -> std::io::Result<u64> {
        let handle = stream.try_clone()?;
        let mut open = lock(&self.open);
        open.0 += 1;
        let number = open.0;
        open.1.insert(number, handle);
        Ok(number)
    }

    fn remove(&self, number: u64) {
        lock(&self.open).1.remove(&number);
        self.emptied.notify_all();
    }

    /// Closes every connection and waits until each thread has let go of its own.
    pub(crate) fn close_all(&self) {
        let mut open = lock(&self.open);
        for stream in open.1.values() {
            // An error here says that the browser had closed it already.
            drop(stream.shutdown(Shutdown::Both));
        }
        while !open.1.is_empty() {
            open = self
                .emptied
                .wait(open)
                .unwrap_or_else(PoisonError::into_inner);
        }
    }
}

/// Accepts until `stop` is set and one more connection comes in; the socket closes with `listener`.
pub(crate) fn accept(listener: &TcpListener, stop: &AtomicBool, shared: &Arc<Shared>) {
    for stream in listener.incoming() {
        if stop.load(Ordering::SeqCst) {
            return;
        }
        // A connection that broke before it was accepted is the browser's business.
        let Ok(stream) = stream else { continue };
        let Ok(number) = shared.connections.add(&stream) else {
            continue;
        };
        let shared = Arc::clone(shared);
        std::thread::spawn(move || {
            let _leave = Leave {
                number,
                connections: &shared.connections,
            };
            answer(stream, &shared);
        });
    }
}

/// Takes the connection off the list, even when answering panicked.
struct Leave<'a> {
    number: u64,
    connections: &'a Connections,
}

impl Drop for Leave<'_> {
    fn drop(&mut self) {
        self.connections.remove(self.number);
    }
}

/// One request, one answer, then the connection closes. A browser that goes away in the middle ends it.
fn answer(mut stream: TcpStream, shared: &Shared) {
    let reply = match http::read(&mut stream) {
        Ok(Some(request)) => reply::to(&request, shared),
        Ok(None) => return,
        Err(problem) => reply::bad_request(&problem),
    };
    if reply.write(&mut stream).is_ok() {
        drop(stream.shutdown(Shutdown::Both));
    }
}
