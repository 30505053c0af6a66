//! Inside another page the app does not start: not where the host forbids it, and not where it forgets to.

use std::io::{BufRead, BufReader, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, Setup, wrong};
use haulwren_tests::server::media_type;

use crate::common::{copy_of, serve};

journeys!(refuses_inside_a_frame => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

const AROUND: &str = "<!doctype html><title>Around</title><iframe src=\"./\"></iframe>";

/// What the page in the frame says and is.
const INSIDE: &str = r#"
const root = document.documentElement;
return [document.body?.innerText ?? "", root.dataset.ready ?? "", document.querySelectorAll("button").length];
"#;

async fn refuses_inside_a_frame(engine: Engine) -> Outcome<()> {
    let folder = copy_of(&Setup::dist()?)?;
    let trouble = Failure::system("cannot write the page around");
    std::fs::write(folder.path().join("around.html"), AROUND).map_err(trouble)?;
    let browser = Browser::open(engine).await?;
    let tab = browser.tab().await?;

    // A host that sends nothing against frames: the app itself refuses, with a way out.
    let bare = BareHost::start(folder.path())?;
    tab.go(&format!("{}around.html", bare.url)).await?;
    tab.enter_frame().await?;
    let refuses =
        "return (document.body?.innerText ?? \"\").includes(\"does not run inside another page\")";
    tab.until_here("the refusal", refuses).await?;
    let (text, ready, buttons): (String, String, u64) = tab.ask_here(INSIDE).await?;
    if !ready.is_empty() || buttons > 0 {
        return wrong(format!("it runs in a frame: {text}"));
    }

    // Our own host forbids it: nothing of the app gets into the frame at all.
    let server = serve(folder.path().to_owned())?;
    tab.go(&format!("{}around.html", server.url())).await?;
    tab.enter_frame().await?;
    let (text, ready, _): (String, String, u64) = tab.ask_here(INSIDE).await?;
    if !ready.is_empty() || text.contains("Haulwren") {
        return wrong(format!("it came through in a frame: {text}"));
    }
    Ok(())
}

/// A host that knows nothing of headers: it sends files and their types.
struct BareHost {
    url: String,
    port: u16,
    stop: Arc<AtomicBool>,
}

impl BareHost {
    fn start(folder: &Path) -> Outcome<Self> {
        let trouble = || Failure::system("cannot serve the page around");
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).map_err(trouble())?;
        let port = listener.local_addr().map_err(trouble())?.port();
        let stop = Arc::<AtomicBool>::default();
        let (sign, folder) = (Arc::clone(&stop), folder.to_owned());
        std::thread::spawn(move || {
            for stream in listener.incoming() {
                if sign.load(Ordering::SeqCst) {
                    return;
                }
                // A connection that broke is asked again by the browser.
                let Ok(stream) = stream else { continue };
                let folder = folder.clone();
                std::thread::spawn(move || drop(answer(stream, &folder)));
            }
        });
        let url = format!("http://127.0.0.1:{port}/");
        Ok(Self { url, port, stop })
    }
}

fn answer(stream: TcpStream, folder: &Path) -> std::io::Result<()> {
    let mut reader = BufReader::new(stream);
    let mut first = String::new();
    reader.read_line(&mut first)?;
    let mut line = String::new();
    while reader.read_line(&mut line)? > 2 {
        line.clear();
    }
    let path = first
        .split_whitespace()
        .nth(1)
        .unwrap_or("/")
        .trim_start_matches('/');
    let name = if path.is_empty() { "index.html" } else { path };
    let body = std::fs::read(folder.join(PathBuf::from(name)));
    let (status, body) = body.map_or(("404 Not Found", Vec::new()), |body| ("200 OK", body));
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {}\r\nContent-Length: {}\r\nConnection: close\r\n\r\n",
        media_type(name),
        body.len()
    );
    let mut stream = reader.into_inner();
    stream.write_all(head.as_bytes())?;
    stream.write_all(&body)
}

impl Drop for BareHost {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::SeqCst);
        // One connection wakes the thread so that it sees the sign; if it is gone already, all the better.
        drop(TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)));
    }
}
