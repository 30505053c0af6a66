//! Who pays the postage, and how; usual postage and packing.

use std::rc::Rc;

use crate::live::worked;
use haulwren_core::view::{BandForm, Payers, PostForm, PostInput, Posts, VenueInput};

use super::desk::Desk;
use super::fields::{Text, key, percent, pick};
use crate::screens::form::{amount, words};
use crate::screens::parts;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, div, el};

const WAYS: [(&str, &str); 5] = [
    ("+ post", "The buyer pays the postage on top of the price."),
    ("Post included", "You pay the postage out of the price."),
    ("In person", "Handed over: nothing is packed or posted."),
    (
        "A stated sum",
        "The buyer pays what you state, whatever it costs.",
    ),
    (
        "The venue’s label",
        "The venue sells the label, and names its price.",
    ),
];
const PAYERS: [&str; 3] = ["The buyer", "You", "Both, by share"];
const LABEL: [&str; 2] = ["The same for any parcel", "By weight"];

const STATED: Text<'static> = amount(
    "post-stated",
    "The buyer pays",
    VenueInput::Post(PostInput::Stated),
);
const FLAT: Text<'static> = amount(
    "post-label",
    "A label costs",
    VenueInput::Post(PostInput::Label),
);
const SHARE: Text<'static> = percent(
    "post-share",
    "The buyer’s share",
    VenueInput::Post(PostInput::Share),
);
const FREE: Text<'static> = amount(
    "post-free",
    "Orders of at least",
    VenueInput::Post(PostInput::FreeFrom),
);
const SENDING: [Text<'static>; 2] = [
    amount("venue-postage", "Usual postage", VenueInput::Postage),
    amount("venue-packing", "Usual packing", VenueInput::Packing),
];

/// The arrangement.
pub fn posting(desk: Desk) -> El {
    let way = worked(move || post(desk, |post| post.way));
    let chosen: Now<usize> = Rc::new(move || way.get() as usize);
    let choose: Do<usize> = Rc::new(move |at| desk.edit(|form| form.choose_post(Posts::at(at))));
    let beside = move || -> Nodes {
        match way.get() {
            Posts::Stated => desk.form.field(&STATED).into(),
            Posts::Label => label(desk).into(),
            _ => ().into(),
        }
    };
    div("form flush")
        .with(choice_keys(
            "Postage",
            "arrangement",
            true,
            &WAYS,
            &chosen,
            &choose,
        ))
        .show(beside)
        .with(free(desk))
}

/// From some sum on the buyer pays nothing.
fn free(desk: Desk) -> El {
    let is_free = worked(move || post(desk, |post| post.is_free));
    // Where the buyer pays none anyway it can't become free; but what a file says so stays to be seen.
    let can_be = worked(move || {
        let way = post(desk, |post| post.way);
        is_free.get() || !matches!(way, Posts::SellerPays | Posts::HandedOver)
    });
    let turn = move || {
        can_be.get().then(|| {
            desk.form.tick(
                "post-is-free",
                "Free for large orders",
                |form| form.post.is_free,
                |form, on| form.post.is_free = on,
            )
        })
    };
    div("bare")
        .show(turn)
        .show(move || is_free.get().then(|| desk.form.field(&FREE)))
}

fn label(desk: Desk) -> El {
    let by_weight = worked(move || post(desk, |post| post.by_weight));
    let payer = worked(move || post(desk, |post| post.payer));
    let price = pick(
        "post-by-weight",
        "What a label costs",
        &LABEL,
        Rc::new(move || usize::from(by_weight.get())),
        Rc::new(move |at| desk.edit(|form| form.choose_bands(at == 1))),
    );
    let costs = move || {
        if by_weight.get() {
            bands(desk)
        } else {
            desk.form.field(&FLAT)
        }
    };
    let paid = pick(
        "post-payer",
        "Who pays for it",
        &PAYERS,
        Rc::new(move || payer.get() as usize),
        Rc::new(move |at| desk.edit(|form| form.post.payer = Payers::at(at))),
    );
    let share = move || (payer.get() == Payers::Shared).then(|| desk.form.field(&SHARE));
    div("form flush")
        .with(price)
        .show(costs)
        .with(paid)
        .show(share)
}

fn bands(desk: Desk) -> El {
    let count = worked(move || post(desk, |post| post.bands.len()));
    let rows = move || {
        (0..count.get())
            .map(|at| band(desk, at))
            .collect::<Vec<_>>()
    };
    let add = move || desk.edit(|form| form.post.bands.push(BandForm::default()));
    div("form flush")
        .with(parts::support("Each weight with its unit, such as 12 oz or 500 g. Over the last one there is no label."))
        .show(rows)
        .with(desk.form.fault_line(VenueInput::Post(PostInput::Bands)))
        .with(key("Add a weight", add))
}

fn band(desk: Desk, at: usize) -> El {
    let [weight, price] = ["weight", "price"].map(|name| format!("post-{name}-{at}"));
    let fields = [
        words(
            &weight,
            "Up to",
            VenueInput::Post(PostInput::BandWeight(at)),
        ),
        amount(&price, "costs", VenueInput::Post(PostInput::BandPrice(at))),
    ];
    let remove = move || {
        desk.edit(|form| {
            if at < form.post.bands.len() {
                form.post.bands.remove(at);
            }
        });
    };
    let out = key("Out", remove).attr("aria-label", &format!("Take out weight {}", at + 1));
    el("fieldset")
        .class("step")
        .with(
            el("legend")
                .class("hidden")
                .with(format!("Weight {}", at + 1)),
        )
        .with(desk.form.row(&fields).with(out))
}

/// Usual postage and packing, where anything is posted.
pub fn sending(desk: Desk) -> El {
    let way = worked(move || post(desk, |post| post.way));
    let is_posted = worked(move || way.get() != Posts::HandedOver);
    let note = move || {
        let note = match way.get() {
            Posts::Label => "The label’s price is used in place of the usual postage.",
            _ => "Used until you type others for a thing.",
        };
        note.to_owned()
    };
    div("bare").show(move || {
        let both = || [desk.form.row(&SENDING), parts::support("").text_of(note)];
        is_posted.get().then(both)
    })
}

fn post<T>(desk: Desk, read: fn(&PostForm) -> T) -> T {
    desk.form.with(|form| read(&form.post))
}
