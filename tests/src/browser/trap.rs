//! A trap for requests to other hosts: a proxy through which the browser is told to send everything that
//! is not for this machine. It notes each request and refuses it. It sees pages, workers and whatever else
//! the browser runs, in every engine alike.

use std::io::{BufRead, BufReader, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::Duration;

use super::failure::{Failure, Outcome};

/// The running trap. Dropping it closes it.
pub(crate) struct Trap {
    address: SocketAddr,
    caught: Arc<Mutex<Vec<String>>>,
    stop: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

impl Trap {
    pub(crate) fn set() -> Outcome<Self> {
        let trouble = || Failure::system("cannot set the trap for other hosts");
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).map_err(trouble())?;
        let address = listener.local_addr().map_err(trouble())?;
        let caught = Arc::<Mutex<Vec<String>>>::default();
        let stop = Arc::<AtomicBool>::default();
        let (list, sign) = (Arc::clone(&caught), Arc::clone(&stop));
        let thread = std::thread::spawn(move || {
            for stream in listener.incoming() {
                if sign.load(Ordering::SeqCst) {
                    return;
                }
                // A connection that broke before it said anything asked for nothing.
                let Ok(stream) = stream else { continue };
                let list = Arc::clone(&list);
                std::thread::spawn(move || refuse(stream, &list));
            }
        });
        Ok(Self {
            address,
            caught,
            stop,
            thread: Some(thread),
        })
    }

    /// Where browsers find it.
    pub(crate) fn port(&self) -> u16 {
        self.address.port()
    }

    /// Method and target of every request caught so far.
    pub(crate) fn caught(&self) -> Vec<String> {
        self.caught
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }
}

fn refuse(stream: TcpStream, list: &Mutex<Vec<String>>) {
    // A browser may open a connection ahead and leave it idle.
    if stream
        .set_read_timeout(Some(Duration::from_secs(20)))
        .is_err()
    {
        return;
    }
    let mut reader = BufReader::new(stream);
    let mut first = String::new();
    if reader.read_line(&mut first).is_err() || first.trim().is_empty() {
        return;
    }
    let asked: Vec<_> = first.split_whitespace().take(2).collect();
    list.lock()
        .unwrap_or_else(PoisonError::into_inner)
        .push(asked.join(" "));
    let answer = b"HTTP/1.1 403 Forbidden\r\nContent-Length: 0\r\nConnection: close\r\n\r\n";
    // The request is noted; whether the refusal arrives is the browser's business.
    drop(reader.into_inner().write_all(answer));
}

impl Drop for Trap {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::SeqCst);
        // One connection wakes the thread so that it sees the sign.
        drop(TcpStream::connect(self.address));
        if let Some(thread) = self.thread.take() {
            drop(thread.join());
        }
    }
}
