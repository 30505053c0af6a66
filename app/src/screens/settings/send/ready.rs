//! Files that were made, handed over: each by a key of its own, or all by the share sheet.

use leptos::task::spawn_local;
use std::rc::Rc;

use super::{Desk, Made, Sending};
use crate::live::Live;
use crate::notice::Notice;
use crate::screens::parts;
use crate::shell::files::Left;
use crate::shell::written::Written;
use crate::store::lacking;
use crate::ui::el::{El, Nodes, button, div, el};

/// What the keys have in common.
#[derive(Clone)]
struct Handing {
    desk: Desk,
    made: Rc<Made>,
    /// What was said last.
    told: Live<String>,
    /// The files that went.
    gone: Live<Vec<String>>,
}

/// The files, and a key that ends it.
pub(super) fn ready(desk: Desk, made: &Rc<Made>) -> Nodes {
    let handing = Handing {
        desk,
        made: made.clone(),
        told: Live::new(String::new()),
        gone: Live::new(Vec::new()),
    };
    let lacks = lacking(&made.files);
    let short = format!(
        "Not the whole book: {lacks} changes can\u{2019}t be read on this device now, and are not in it."
    );
    let what = match (made.files.len(), made.whole) {
        _ if lacks > 0 => short.as_str(),
        (1, true) => "The file is ready. It holds the whole book.",
        (1, false) => {
            "The file is ready. It holds what changed since that device\u{2019}s last file."
        }
        _ => "The files are ready. Book files are opened in their order, then those of pictures.",
    };
    // A tap for each download: a browser may hold back the second of two that one tap started.
    let at_once = if made.sheet { made.files.len() } else { 1 };
    let keys: Vec<El> = made
        .files
        .chunks(at_once)
        .map(|files| key(&handing, files.to_vec()))
        .collect();
    let told = handing.told;
    let done = button("press")
        .on_click(move || desk.now.set(Sending::Idle))
        .with("Done");
    [
        parts::status(what),
        div("form flush").with(keys),
        el("p").attr("role", "status").text_of(move || told.get()),
        done,
    ]
    .into()
}

fn key(handing: &Handing, files: Vec<Written>) -> El {
    let verb = if handing.made.sheet { "Share" } else { "Save" };
    let word = match files.as_slice() {
        [file] => format!("{verb} {} ({})", file.name, size(file.blob.size())),
        several => format!("{verb} {} files", several.len()),
    };
    let (handing, files) = (handing.clone(), Rc::new(files));
    let hand = move || {
        let (handing, files) = (handing.clone(), files.clone());
        spawn_local(async move { handing.over(&files).await });
    };
    button("press go")
        .attr("data-hand-over", "")
        .on_click(hand)
        .with(word.as_str())
}

impl Handing {
    async fn over(&self, files: &[Written]) {
        let mut gone = self.gone.get_untracked();
        gone.extend(files.iter().map(|file| file.name.clone()));
        // The whole book has left once all of its files have, whatever of the pictures.
        let mut of_book = self.made.files.iter().filter(|file| file.head.is_some());
        let whole = self.made.whole && of_book.all(|file| gone.contains(&file.name));
        let store = self.desk.store;
        let left = store.hand_over(files, self.made.sheet, whole).await;
        let how = match left {
            Ok(Left::Shared) => "handed over",
            Ok(Left::Downloaded) => "among your downloads",
            Ok(Left::Dismissed) => {
                let told = "Nothing was sent: the sheet was closed.";
                return self.told.set(told.to_owned());
            }
            Err(why) => return store.notice.set(Some(Notice::copy_failed(&why))),
        };
        self.gone.set(gone);
        self.told.set(match files {
            [file] => format!("{} is {how}.", file.name),
            _ => format!("The files are {how}."),
        });
    }
}

/// A size in words.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn size(bytes: f64) -> String {
    let kilobytes = (bytes / 1_000.0).ceil() as u64;
    match kilobytes {
        0..1_000 => format!("{kilobytes} kB"),
        _ => format!("{}.{} MB", kilobytes / 1_000, kilobytes % 1_000 / 100),
    }
}
