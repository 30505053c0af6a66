//! Any price tried: what would be kept of it, every line behind that, and the prices to skip.

mod asked;
mod lines;

use std::rc::Rc;

use crate::live::{Live, Worked, worked};
use haulwren_core::book::VenueSetup;
use haulwren_core::id::KindId;
use haulwren_core::measure::Weight;
use haulwren_core::money::{Currency, Money, parse};
use haulwren_core::terms::Sale;
use haulwren_core::view::{Tried, Trying};
use leptos::prelude::untrack;

use super::desk::Desk;
use crate::format;
use crate::screens::parts;
use crate::ui::el::{El, div, el};
use crate::ui::field::{Entry, FieldSpec, field};
use asked::{asked, asks};
use lines::{after, lines};

/// What is typed for a try. It is kept nowhere.
#[derive(Clone, Copy)]
struct Bench {
    desk: Desk,
    price: Live<String>,
    weight: Live<String>,
    running: Live<String>,
    region: Live<String>,
    promoted: Live<bool>,
    kind: Live<Option<KindId>>,
}

/// The part of the page.
pub fn trying(desk: Desk) -> El {
    let start = untrack(|| desk.currency()).and_then(|currency| {
        let twenty = Money::from_minor(currency.unit().minor() * 20).ok()?;
        Some(format::amount(twenty, currency))
    });
    let bench = Bench {
        desk,
        price: Live::new(start.unwrap_or_default()),
        weight: Live::new(String::new()),
        running: Live::new(String::new()),
        region: Live::new(String::new()),
        promoted: Live::new(false),
        kind: Live::new(None),
    };
    let tried = worked(move || bench.tried());
    let asks = worked(move || desk.setup().map(|setup| asks(&setup)).unwrap_or_default());
    div("trying")
        .with(entry(
            "try-price",
            "Try a price",
            Entry::Number,
            bench.price,
        ))
        .show(move || asked(bench, &asks.get()))
        .with(
            el("p")
                .attr("role", "status")
                .text_of(move || said(desk, tried)),
        )
        .show(move || besides(desk, tried))
        .with(all_lines(desk, tried))
}

impl Bench {
    /// What it comes to; a sentence where it can't be told, nothing while the form can't be used.
    fn tried(self) -> Option<Result<Tried, String>> {
        let currency = self.desk.currency()?;
        let setup = self.desk.setup()?;
        Some(self.try_at(&setup, currency))
    }

    fn try_at(self, setup: &VenueSetup, currency: Currency) -> Result<Tried, String> {
        let money =
            |text: Live<String>| parse(&text.get(), currency).map_err(|error| error.to_string());
        let asks = asks(setup);
        let price = money(self.price)?;
        let mut trying = Trying {
            sale: Sale::of(price, Money::ZERO),
            weight: None,
        };
        if asks.weight && !self.weight.with(|text| text.trim().is_empty()) {
            let weight = self.weight.get().parse::<Weight>();
            trying.weight = Some(weight.map_err(|error| error.to_string())?);
        }
        if asks.running.is_some() && !self.running.with(|text| text.trim().is_empty()) {
            trying.sale.running = money(self.running)?;
        }
        if asks.region {
            trying.sale.region = Some(self.region.get().trim().to_owned());
        }
        trying.sale.promoted = asks.promoted && self.promoted.get();
        if !asks.kinds.is_empty() {
            trying.sale.kind = self.kind.get();
        }
        trying.at(setup).map_err(|error| error.to_string())
    }
}

fn said(desk: Desk, tried: Worked<Option<Result<Tried, String>>>) -> String {
    let currency = desk.currency();
    tried.with(|tried| match (tried, currency) {
        (Some(Ok(tried)), Some(currency)) => format!(
            "On a {} sale you keep {}, before you pay for the thing.",
            format::amount(tried.settled.price, currency),
            format::or_loss(tried.keep, currency)
        ),
        (Some(Err(sentence)), _) => sentence.clone(),
        _ => String::new(),
    })
}

/// What there is to say besides.
fn besides(desk: Desk, tried: Worked<Option<Result<Tried, String>>>) -> Vec<El> {
    let mut all = Vec::new();
    if let Some(currency) = desk.currency() {
        tried.with(|tried| {
            if let Some(Ok(tried)) = tried {
                all.extend(after(tried, currency).iter().map(|line| parts::line(line)));
            }
        });
    }
    all
}

/// Every line, folded away.
fn all_lines(desk: Desk, tried: Worked<Option<Result<Tried, String>>>) -> El {
    let has_none = worked(move || !tried.with(|tried| matches!(tried, Some(Ok(_)))));
    let inside = move || {
        let currency = desk.currency()?;
        tried.with(|tried| match tried {
            Some(Ok(tried)) => Some(lines(tried, currency)),
            _ => None,
        })
    };
    el("details")
        .class("fold")
        .flag("hidden", move || has_none.get())
        .with(el("summary").with("Every line"))
        .show(inside)
}

fn entry(id: &str, label: &str, entry: Entry, text: Live<String>) -> El {
    let spec = FieldSpec {
        id,
        label,
        entry,
        ..FieldSpec::default()
    };
    field(
        spec,
        Rc::new(move || text.get()),
        Rc::new(|| None),
        Rc::new(move |typed| text.set(typed)),
    )
}
