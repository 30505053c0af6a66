//! Pictures of a thing: taken or chosen, shrunk and kept on this device.

use haulwren_core::book::ThingCommand;
use haulwren_core::id::{PhotoId, ThingId};
use leptos::task::spawn_local;

use super::part;
use crate::live::Live;
use crate::screens::parts;
use crate::screens::photo_key::photo_key;
use crate::shell::picture::Address;
use crate::store::{Store, use_store};
use crate::ui::el::{El, button, div, el};

/// The pictures, and the key that adds one.
pub fn photos(id: ThingId) -> El {
    let store = use_store();
    let all = move || {
        let all = store.read(|book| {
            let photos = book.photos_of(id);
            photos
                .into_iter()
                .map(|(id, photo)| (id, photo.blob.clone().unwrap_or_default()))
                .collect::<Vec<_>>()
        });
        let pictures = all.into_iter().enumerate();
        let pictures = pictures.map(|(at, (photo, blob))| picture(store, at, photo, blob));
        pictures.collect::<Vec<_>>()
    };
    part("Pictures", div("photos").show(all)).with(photo_key(id, "Add a picture"))
}

/// One picture, read from the storage once it is on the page.
fn picture(store: Store, at: usize, photo: PhotoId, blob: String) -> El {
    let shown = Live::new(None::<Result<Address, String>>);
    spawn_local(async move {
        let address = match store.photo(&blob).await {
            Some(address) => Ok(address),
            None => Err(store.photo_is_on(photo).await),
        };
        shown.set(Some(address));
    });
    let name = format!("Picture {}", at + 1);
    let alt = name.clone();
    let image = move || {
        shown.with(|shown| match shown {
            None => parts::status("Reading"),
            Some(Err(place)) => parts::line(&format!("This picture is on {place}.")),
            Some(Ok(address)) => el("img")
                .attr("src", address.text())
                .attr("alt", &alt)
                .attr("data-picture", ""),
        })
    };
    let out = button("press")
        .attr("aria-label", &format!("Take out: {name}"))
        .on_click(move || store.dispatch(ThingCommand::RemovePhoto(photo).into(), |_| {}))
        .with("Out");
    div("photo").show(image).with(out)
}
