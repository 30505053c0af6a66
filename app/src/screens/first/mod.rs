//! First start: the book's currency and the least to keep; then one venue, on its own page.

mod currencies;

use crate::live::Live;
use std::rc::Rc;

use haulwren_core::appraise::HouseRules;
use haulwren_core::book::{Command, State};
use haulwren_core::measure::System;
use haulwren_core::money::{Currency, Money, MoneyError, parse, plain};
use haulwren_core::worth::Allowances;
use leptos::prelude::*;

use crate::route::{self, Route};
use crate::screens::parts;
use crate::shell::device::{self, is_mere_page};
use crate::store::use_store;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Now, button, div, el, span, typed_text};
use crate::ui::field::{Entry, FieldSpec, field};
use crate::ui::icons::{Icon, wren};

use currencies::{likely, ordered};

/// What a page may lose that is not installed.
pub const MERE_PAGE: &str = "Before real data: add this page to the home screen, and open it from there. Browsers here may clear what a page keeps when it was not opened for a week; the app on the home screen keeps its own.";

const WELCOME: &str = "Is it worth the asking price? Type three numbers before you pay, and log what you buy on the spot. Everything stays on this device.";

const SAMPLE: &str = "An invented trader\u{2019}s book, apart from yours. You can leave it at any time, and begin your own.";

/// The two systems of units, in their order.
pub const UNITS: [(&str, &str); 2] = [("oz, in", ""), ("g, cm", "")];

/// What is chosen and typed here.
#[derive(Clone, Copy)]
struct Desk {
    chosen: Live<Currency>,
    /// The units, once the trader chose them; else those that go with the currency.
    units: Live<Option<System>>,
    least: Live<String>,
    tried: Live<bool>,
}

impl Desk {
    fn units(self) -> System {
        let currency = self.chosen.get();
        self.units
            .get()
            .unwrap_or_else(|| State::units_of(currency))
    }

    fn least_keep(self) -> Result<Option<Money>, MoneyError> {
        let text = self.least.get();
        if text.trim().is_empty() {
            Ok(None)
        } else {
            parse(&text, self.chosen.get()).map(Some)
        }
    }
}

/// The screen.
pub fn first() -> El {
    let desk = Desk {
        chosen: Live::new(likely()),
        units: Live::new(None),
        least: Live::new(String::new()),
        tried: Live::new(false),
    };
    let begin = begin(desk);
    let spec = FieldSpec {
        id: "first-least",
        label: "Smallest profit worth your time",
        hint: "Of one sale, after every cost. Empty: no minimum.",
        entry: Entry::Number,
        ..FieldSpec::default()
    };
    let fault = move || {
        desk.least_keep()
            .err()
            .filter(|_| desk.tried.get())
            .map(|error| error.to_string())
    };
    let least = field(
        spec,
        Rc::new(move || desk.least.get()),
        Rc::new(fault),
        Rc::new(move |text| desk.least.set(text)),
    );
    let form = parts::form("form first", begin)
        .with(el("h1").class("first-title").with(wren()).with("Haulwren"))
        .with(parts::line(WELCOME))
        .with(is_mere_page().then(|| parts::support(MERE_PAGE)))
        .with(currency_field(desk))
        .with(units(desk))
        .with(least)
        .with(suggested(desk))
        .with(parts::submit("Next: your first venue").attr("data-begin", ""))
        .with(parts::heading("Just looking?"))
        .with(parts::support(SAMPLE))
        .with(parts::key_sample(true, "Look around in a sample"))
        .with(parts::support(
            "Have you a book on another device? Save a copy there, and open it here.",
        ))
        .with(parts::link(
            "press",
            Route::BookFile,
            Icon::Save,
            "Open a book file",
        ));
    div("scroll").with(form)
}

/// Smallest profits to choose, in the size of the currency: three, five, eight or ten of its units, or hundreds where it has no smaller ones.
fn suggested(desk: Desk) -> El {
    let keys = move || {
        let currency = desk.chosen.get();
        let unit = match currency.unit().minor() {
            1 => 100,
            unit => unit,
        };
        let one = |count: i64| plain(Money::new(count * unit), currency);
        let mut keys: Vec<El> = Vec::with_capacity(5);
        for (word, typed) in [3, 5, 8, 10]
            .map(|count| (one(count), one(count)))
            .into_iter()
            .chain([("No minimum".to_owned(), String::new())])
        {
            let is_it = typed.clone();
            let key = button("press chip")
                .attr("data-least", &typed)
                .state("aria-pressed", move || desk.least.get() == is_it)
                .on_click(move || desk.least.set(typed.clone()))
                .with(word);
            keys.push(key);
        }
        keys
    };
    div("chip-row").show(keys)
}

fn units(desk: Desk) -> El {
    let chosen: Now<usize> = Rc::new(move || desk.units() as usize);
    let choose: Do<usize> = Rc::new(move |at: usize| desk.units.set(Some(System::ALL[at])));
    choice_keys("Units", "first-units", false, &UNITS, &chosen, &choose)
}

fn currency_field(desk: Desk) -> El {
    let option = move |currency: Currency| {
        let option = el("option")
            .attr("value", currency.code())
            .with(currency.code());
        option.flag("selected", move || desk.chosen.get() == currency)
    };
    let select = el("select")
        .attr("id", "first-currency")
        .attr("aria-describedby", "first-currency-hint")
        .on("change", move |event| {
            if let Ok(currency) = Currency::from_code(&typed_text(&event)) {
                desk.chosen.set(currency);
            }
        })
        .with(ordered().into_iter().map(option).collect::<Vec<_>>());
    div("field")
        .with(
            el("label")
                .attr("for", "first-currency")
                .with("Currency of your book"),
        )
        .with(
            span("hint")
                .attr("id", "first-currency-hint")
                .with("You can\u{2019}t change the currency later."),
        )
        .with(select)
}

/// What the button does: begins the book, sets the least to keep, and goes on to the venue.
fn begin(desk: Desk) -> impl Fn() {
    let store = use_store();
    move || {
        desk.tried.set(true);
        let Ok(least_keep) = untrack(|| desk.least_keep()) else {
            return;
        };
        let currency = desk.chosen.get_untracked();
        let units = untrack(|| desk.units());
        let device = device::likely_name().to_owned();
        store.dispatch_at_once(Command::Begin { currency, device }, move |saved| {
            if !saved {
                return;
            }
            route::replace(Route::Venue(None));
            if units != State::units_of(currency) {
                store.dispatch_at_once(Command::UseUnits(units), |_| {});
            }
            if least_keep.is_some() {
                let rules = HouseRules {
                    least_keep,
                    ..HouseRules::starting(currency)
                };
                let allowances = Allowances::default();
                store.dispatch_at_once(Command::SetRules { rules, allowances }, |_| {});
            }
        });
    }
}
