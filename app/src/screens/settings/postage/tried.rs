//! A parcel tried on the card as it is typed: what each service asks, line by line, or why it doesn't take it.

use std::rc::Rc;

use haulwren_core::measure::WeightUnit;
use haulwren_core::money::Currency;
use haulwren_core::postage::Quote;
use haulwren_core::view::{CardForm, Told, TriedParcel, Units, told};
use leptos::prelude::*;

use super::card_desk::CardDesk;
use super::mix::zone_name;
use crate::format;
use crate::live::{Live, worked};
use crate::screens::parts;
use crate::ui::el::{El, Nodes, div, el, span, typed_text};
use crate::ui::field::{Entry, FieldSpec, field};

/// The parcel's fields and what comes of them.
pub fn try_it(desk: CardDesk) -> Nodes {
    let tried = Live::new(TriedParcel::default());
    let first = move |form: &CardForm| {
        form.services
            .first()
            .map_or(WeightUnit::Ounce, |one| one.unit)
    };
    let unit = worked(move || desk.form(first));
    let fields = move || {
        let Units { weight, length, .. } = Units::of(unit.get());
        let entry = |id, label, unit, at: fn(&mut TriedParcel) -> &mut String| {
            let spec = FieldSpec {
                id,
                label,
                unit,
                entry: Entry::Number,
                ..FieldSpec::default()
            };
            field(
                spec,
                Rc::new(move || at(&mut tried.get()).clone()),
                Rc::new(|| None),
                Rc::new(move |typed| tried.update(|tried| *at(tried) = typed)),
            )
        };
        let sides = [
            entry("try-length", "Length", length, |tried| &mut tried.sides[0]),
            entry("try-width", "Width", length, |tried| &mut tried.sides[1]),
            entry("try-height", "Height", length, |tried| &mut tried.sides[2]),
        ];
        [
            entry("try-weight", "Weight, all in", weight, |tried| {
                &mut tried.weight
            }),
            div("pair thirds").with(sides),
        ]
    };
    let said = worked(move || {
        let tried = tried.get();
        if tried.weight.trim().is_empty() {
            return None;
        }
        Some(match desk.form(|form| form.read(desk.currency)) {
            Ok(card) => told(&card, &tried),
            Err(_) => {
                Err("The card isn’t whole yet: fill it in, then try a parcel on it.".to_owned())
            }
        })
    });
    let answer = move || {
        said.with(|said| {
            let said = said.as_ref()?;
            Some(match said {
                Ok(all) => Nodes::from(
                    all.iter()
                        .map(|told| service(told, desk.currency))
                        .collect::<Vec<_>>(),
                ),
                Err(sentence) => parts::line(sentence).into(),
            })
        })
    };
    [
        parts::heading("Try a parcel"),
        div("bare").show(fields),
        div("bare").show(move || where_to(desk, tried)),
        div("tried").attr("role", "status").show(answer),
    ]
    .into()
}

/// The zone, and a container at a flat price, where there are any.
fn where_to(desk: CardDesk, tried: Live<TriedParcel>) -> Nodes {
    let zones = desk.zones.get();
    let containers = worked(move || {
        desk.form(|form| {
            let mut names = Vec::new();
            for row in form.services.iter().flat_map(|service| &service.flat) {
                let name = row[0].trim().to_owned();
                if !name.is_empty() && !names.contains(&name) {
                    names.push(name);
                }
            }
            names
        })
    });
    let mut options = vec![(String::new(), "not known yet".to_owned())];
    for (zone, name) in zones.iter().enumerate() {
        options.push((zone.to_string(), zone_name(name, zone)));
    }
    let zone_now = untrack(|| tried.with(|tried| tried.zone));
    let zone_now = zone_now.map_or_else(String::new, |zone| zone.to_string());
    let to_zone = select("try-zone", "Zone", &options, &zone_now, move |typed| {
        tried.update(|tried| tried.zone = typed.parse().ok());
    });
    let in_container = move || {
        let names = containers.get();
        let mut options = vec![(String::new(), "none of these".to_owned())];
        options.extend(names.into_iter().map(|name| (name.clone(), name)));
        let now = untrack(|| tried.with(|tried| tried.container.clone()));
        (options.len() > 1).then(|| {
            select(
                "try-container",
                "Flat-price container",
                &options,
                &now,
                move |typed| {
                    tried.update(|tried| tried.container = typed);
                },
            )
        })
    };
    let to_zone = (zones.len() > 1).then_some(to_zone);
    [div("bare").with(to_zone), div("bare").show(in_container)].into()
}

/// A list to choose from: values with their words.
pub fn select(
    id: &str,
    label: &str,
    options: &[(String, String)],
    chosen: &str,
    on_choose: impl Fn(String) + 'static,
) -> El {
    let mut all = Vec::new();
    for (value, word) in options {
        let option = el("option").attr("value", value).with(word.as_str());
        all.push(if value == chosen {
            option.attr("selected", "")
        } else {
            option
        });
    }
    let select = el("select").attr("id", id).with(all);
    div("field")
        .with(el("label").attr("for", id).with(label))
        .with(select.on("change", move |event| on_choose(typed_text(&event))))
}

/// What one service says.
fn service(told: &Told, currency: Currency) -> El {
    let name = el("h3").with(told.service.as_str());
    match &told.quote {
        Err(refusal) => div("quote").with([name, parts::line(refusal)]),
        Ok(quote) => {
            let best = told.is_best.then(|| span("mark").with("least"));
            let rough = quote.rough.then(|| span("mark dashed").with("rough"));
            div("quote")
                .with(name.with(" ").with(best).with(" ").with(rough))
                .with(lines(quote, currency))
                .with(asides(quote, currency))
        }
    }
}

fn lines(quote: &Quote, currency: Currency) -> El {
    let row = |words: &str, amount| {
        el("tr")
            .with(el("th").attr("scope", "row").with(words))
            .with(el("td").with(format::amount(amount, currency)))
    };
    let mut body = Vec::new();
    for line in &quote.lines {
        body.push(row(&line.what.words(), line.amount));
    }
    el("table")
        .class("why-lines")
        .with(el("tbody").with(body))
        .with(el("tfoot").with(row("Postage", quote.total)))
}

/// What is said beside the price.
fn asides(quote: &Quote, currency: Currency) -> Nodes {
    let mut said = Vec::new();
    let by_volume = if quote.by_volume {
        ", by its volume"
    } else {
        ""
    };
    said.push(format!("Billed as {}{by_volume}.", quote.billable));
    if let (Some(expected), Some(far)) = (quote.expected, quote.far)
        && expected != far
    {
        said.push(format!(
            "Expected over the zones {}, to the far zone {}.",
            format::amount(expected, currency),
            format::amount(far, currency)
        ));
    }
    said.extend(quote.hint.map(|hint| hint.sentence(currency)));
    said.iter()
        .map(|said| parts::support(said))
        .collect::<Vec<_>>()
        .into()
}
