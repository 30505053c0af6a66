//! The server is asked over real connections, as a browser would.

mod files;
mod running;

use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;

use super::{Options, Server};

/// A folder of its own for each test, removed at the end.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("haulwren-{name}-{}", std::process::id()));
        std::fs::create_dir_all(path.join("site/part")).expect("a folder for the test");
        let folder = Self(path);
        folder.write("site/index.html", "page");
        folder.write("site/part/index.html", "part");
        folder.write("site/worker.js", "plain worker");
        folder.write("site/worker.js.br", "BR");
        folder.write("site/worker.js.gz", "GZ");
        folder.write("site/shell-0123456789abcdef_bg.wasm", "wasm");
        folder.write("site/shell-49fe1c56369eb1b.js", "script");
        folder.write("site/manifest.webmanifest", "{}");
        folder.write("outside.txt", "secret");
        folder
    }

    fn write(&self, name: &str, text: &str) {
        std::fs::write(self.0.join(name), text).expect("the test file is written");
    }

    fn site(&self) -> PathBuf {
        self.0.join("site")
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        std::fs::remove_dir_all(&self.0).expect("the test folder can be removed");
    }
}

/// Sends one request and gives back the whole answer as text.
fn ask(server: &Server, request: &str, headers: &str) -> String {
    let mut stream = TcpStream::connect(("127.0.0.1", server.port())).expect("connects");
    let text = format!("{request} HTTP/1.1\r\nHost: stall.test\r\n{headers}\r\n");
    stream.write_all(text.as_bytes()).expect("sends");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("answers");
    answer
}

fn status(server: &Server, request: &str) -> u16 {
    let answer = ask(server, request, "");
    answer[9..12].parse().expect("a status of three digits")
}

fn serve(folder: &Folder) -> Server {
    Server::start(Options::new(folder.site())).expect("starts")
}
