//! Leaving a lot's page while shares said by hand don't add up: it is asked once what becomes of the rest. The lot may be left so, since a
//! rest that is on no thing has its place in every sum; it only must not happen unseen.

use std::cell::RefCell;
use std::rc::Rc;

use haulwren_core::book::ThingCommand;
use haulwren_core::id::LotId;
use haulwren_core::lot::Method;
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::{LotGroup, one_lot};

use super::lot;
use crate::format;
use crate::route::{self, Route, Stays};
use crate::store::{Store, use_store};
use crate::ui::ask::{Answer, Ask, ask};
use crate::ui::el::on_window;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, MouseEvent};

thread_local! {
    /// What was left as it is, in this session: it is not asked about again until it is another amount.
    static LEFT: RefCell<Vec<(LotId, Money)>> = const { RefCell::new(Vec::new()) };
}

/// Asks before this lot's page is left, as long as it is open.
pub fn guard(id: LotId) {
    let store = use_store();
    let stays = move |next: Route| {
        let lot = store.read(|book| one_lot(book, id));
        let open = lot.filter(is_open);
        let Some((lot, currency)) = open.zip(store.currency()) else {
            return false;
        };
        question(store, &lot, currency, next);
        true
    };
    let stays: Rc<Stays> = Rc::new(stays);
    // A link is not followed at all, so that nothing is left in the browser's history; other ways are turned back.
    let by_link = stays.clone();
    on_window("click", move |event| {
        let next = target(&event).filter(|next| *next != Route::Lot(id));
        if next.is_some_and(|next| by_link(next)) {
            event.prevent_default();
        }
    });
    route::hold(Route::Lot(id), stays);
}

/// Where a click leads within the app, when it would be followed here.
fn target(event: &Event) -> Option<Route> {
    let click = event.dyn_ref::<MouseEvent>()?;
    let is_elsewhere = click.ctrl_key() || click.meta_key() || click.shift_key();
    if is_elsewhere || click.default_prevented() {
        return None;
    }
    let on = click.target()?.dyn_into::<Element>().ok()?;
    let link = on.closest("a[href^='#']").ok()??;
    let address = link.get_attribute("href")?;
    Some(Route::parse(address.trim_start_matches('#')))
}

/// Whether shares were said by hand and don't add up, and nobody has said yet that this may be so.
fn is_open(lot: &LotGroup) -> bool {
    let by_hand = lot.method == Method::ByHand || lot.rows.iter().any(|row| row.share.fixed);
    let known = (lot.id, lot.not_yet_shared);
    by_hand
        && !lot.rows.is_empty()
        && !lot.not_yet_shared.is_zero()
        && LEFT.with_borrow(|left| !left.contains(&known))
}

fn question(store: Store, lot: &LotGroup, currency: Currency, next: Route) {
    let amount = |money| format::amount(money, currency);
    let (id, rest) = (lot.id, lot.not_yet_shared);
    let mend = lot::mend(lot);
    let shared = amount(lot.total.minus(rest));
    let leave = if rest.is_negative() {
        format!("{} too much stays on its things", amount(rest.abs()))
    } else {
        format!("{} counts as not yet shared", amount(rest))
    };
    let mut words = Vec::new();
    if let Some((_, share)) = mend {
        let last = lot.rows.last().map(|row| row.row.name.as_str());
        let name = last.filter(|name| !name.is_empty()).unwrap_or("the last");
        let line = format!("{name} carries {}", amount(share));
        words.push(("Fix last".to_owned(), line));
    }
    words.push(("Leave it".to_owned(), leave));
    let answer = move |answer: &Answer| {
        if let Some((thing, share)) = mend.filter(|_| answer.choice == 0) {
            let share = Some(share);
            let fix = ThingCommand::FixShare { thing, share };
            store.dispatch(fix.into(), move |saved| {
                if saved {
                    route::replace(next);
                }
            });
        } else {
            LEFT.with_borrow_mut(|left| left.push((id, rest)));
            route::replace(next);
        }
        Ok(())
    };
    ask(Ask {
        title: lot::off(rest, currency),
        hint: format!("The shares come to {shared} of {}.", amount(lot.total)),
        texts: Vec::new(),
        choice: Some(("Before you leave this lot", words, 0)),
        word: "Go on",
        answer: Rc::new(answer),
    });
}
