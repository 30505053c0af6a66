//! Our own static server: serves a built app the way a plain static host would, and can be shut and
//! started again on the same port while a browser watches.
//!
//! A stopped server really is gone: its socket is closed and so is every connection a browser kept or
//! opened ahead, so that "offline" in a test means a refused connection and never a hanging one. That is
//! why the connections are our own and not a server library's: none that is small lets go of idle ones.

mod connections;
mod files;
mod http;
mod reply;
#[cfg(test)]
mod tests;

use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;

use connections::Connections;
pub use files::media_type;

/// What to do with each acknowledgement that a page posts, see [`Options::on_ack`].
pub type OnAck = Arc<dyn Fn(&str) + Send + Sync>;

/// What to serve, and where.
pub struct Options {
    folder: PathBuf,
    under: String,
    port: u16,
    on_ack: Option<OnAck>,
}

impl Options {
    /// Serves `folder` at the root of a free port.
    pub fn new(folder: impl Into<PathBuf>) -> Self {
        Self {
            folder: folder.into(),
            under: String::new(),
            port: 0,
            on_ack: None,
        }
    }

    /// Serves below a path such as `stall/app` instead of at the root; the root then answers 404.
    #[must_use]
    pub fn under(mut self, path: &str) -> Self {
        path.trim_matches('/').clone_into(&mut self.under);
        self
    }

    /// Listens on this port; 0, the default, takes a free one.
    #[must_use]
    pub fn port(mut self, port: u16) -> Self {
        self.port = port;
        self
    }

    /// Opens `POST /__ack/<text>`: each text is handed over before its answer is sent. Without this the
    /// address does not exist.
    #[must_use]
    pub fn on_ack(mut self, hand_over: impl Fn(&str) + Send + Sync + 'static) -> Self {
        self.on_ack = Some(Arc::new(hand_over));
        self
    }
}

/// One request that came in, in the order of arrival.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seen {
    /// The method, `GET` for one.
    pub method: String,
    /// Path and query as they were sent.
    pub path: String,
    /// The host header: which name and port the browser thought it spoke to.
    pub host: String,
    /// The status that was answered.
    pub status: u16,
}

/// A static server, running or stopped. Dropping it stops it.
pub struct Server {
    shared: Arc<Shared>,
    port: u16,
    running: Option<Running>,
}

/// The accepting thread of a running server, and the sign by which it ends.
struct Running {
    stop: Arc<AtomicBool>,
    thread: JoinHandle<()>,
}

/// What every connection needs to answer.
pub(crate) struct Shared {
    folder: Mutex<PathBuf>,
    under: String,
    on_ack: Option<OnAck>,
    log: Mutex<Vec<Seen>>,
    connections: Connections,
}

impl Server {
    /// Starts to serve on the loopback address.
    ///
    /// # Errors
    /// When the folder has no `index.html` or the port is taken.
    pub fn start(options: Options) -> io::Result<Self> {
        let page = options.folder.join("index.html");
        if !page.is_file() {
            let text = format!("there is no page to serve at {}", page.display());
            return Err(io::Error::new(io::ErrorKind::NotFound, text));
        }
        let mut server = Self {
            shared: Arc::new(Shared {
                folder: Mutex::new(options.folder),
                under: options.under,
                on_ack: options.on_ack,
                log: Mutex::default(),
                connections: Connections::default(),
            }),
            port: options.port,
            running: None,
        };
        server.restart()?;
        Ok(server)
    }

    /// The port, also while stopped.
    pub fn port(&self) -> u16 {
        self.port
    }

    /// The address of the page, with a slash at the end.
    pub fn url(&self) -> String {
        let slash = if self.shared.under.is_empty() {
            ""
        } else {
            "/"
        };
        format!(
            "http://127.0.0.1:{}/{}{slash}",
            self.port, self.shared.under
        )
    }

    /// Serves another folder from the next request on: how a test deploys a new version.
    pub fn serve_folder(&self, folder: impl Into<PathBuf>) {
        *lock(&self.shared.folder) = folder.into();
    }

    /// Every request since the start or since [`Server::clear_log`].
    pub fn log(&self) -> Vec<Seen> {
        lock(&self.shared.log).clone()
    }

    /// Forgets the requests so far.
    pub fn clear_log(&self) {
        lock(&self.shared.log).clear();
    }

    /// Shuts the socket and all connections; when this returns, connecting is refused. Does nothing when
    /// stopped already.
    pub fn stop(&mut self) {
        let Some(running) = self.running.take() else {
            return;
        };
        running.stop.store(true, Ordering::SeqCst);
        // The accepting thread sleeps in the system; one connection wakes it to see the sign. If even
        // that cannot connect, the socket is gone already.
        let awake = TcpStream::connect(self.address());
        // A panic there has been printed already, and the socket closed with it.
        drop(running.thread.join());
        drop(awake);
        self.shared.connections.close_all();
    }

    /// Stops if need be, then listens again on the same port.
    ///
    /// # Errors
    /// When the port was taken meanwhile.
    pub fn restart(&mut self) -> io::Result<()> {
        self.stop();
        let listener = TcpListener::bind(self.address())?;
        self.port = listener.local_addr()?.port();
        let stop = Arc::new(AtomicBool::new(false));
        let (sign, shared) = (Arc::clone(&stop), Arc::clone(&self.shared));
        let thread = std::thread::spawn(move || connections::accept(&listener, &sign, &shared));
        self.running = Some(Running { stop, thread });
        Ok(())
    }

    fn address(&self) -> SocketAddr {
        (Ipv4Addr::LOCALHOST, self.port).into()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}

/// A poisoned lock only means that another test thread panicked; lists and paths stay whole.
pub(crate) fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
