//! Venues stand best first, and a price can change which is the best: the focus, and what a touch chooses, go with the venue.

use haulwren_tests::browser::{Engine, Outcome, Tab, VenueForm};
use serde_json::json;

use crate::common::Stall;

journeys!(walk => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

/// 1 % of the price and 3.00 flat, postage included: of 60.00 it leaves less than Quayside, of 90.00 more. 0.99 × 60 − 3 − 4.50 − 0.30
/// = 51.60, and 81.30 of 90; Quayside leaves 0.9 × 64.50 − 0.25 − 4.50 − 0.30 = 53.00, and 80.00.
const BULK: VenueForm = VenueForm {
    name: "Thornmere",
    arrangement: "Post included",
    percent: "1",
    base: "the price",
    flat: "3",
    postage: "4.50",
    packing: "0.30",
};

/// Whether the cards stand in this order, with the named one chosen and with the page's own focus on that, if one is named.
const STANDS: &str = r#"
const [order, chosen, focused] = arguments;
const cards = [...document.querySelectorAll("label.venue")];
const of = (card) => card?.querySelector(".name").innerText.trim() ?? null;
return of(cards[0]) === order[0] && of(cards[1]) === order[1] && cards.length === 2
  && of(cards.find((card) => card.querySelector("input").checked)) === chosen
  && (focused === null || of(document.activeElement?.closest("label.venue")) === focused);
"#;

/// Chooses a venue, with the focus on it.
const CHOOSE: &str = r#"
const card = [...document.querySelectorAll("label.venue")].find((card) => card.querySelector(".name").innerText.trim() === arguments[0]);
const radio = card.querySelector("input");
radio.focus();
radio.click();
"#;

/// A key of the keyboard, on what has the focus.
const KEY: &str = r#"
document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key: arguments[0], bubbles: true, cancelable: true }));
"#;

async fn expect(tab: &Tab, order: [&str; 2], chosen: &str, focused: Option<&str>) -> Outcome<()> {
    let with = [json!(order), json!(chosen), json!(focused)];
    let what = format!("{order:?}, {chosen} chosen");
    tab.until_with(&what, STANDS, &with).await
}

async fn walk(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    stall.add_venue(&BULK).await?;

    let (quayside, thornmere) = ("Quayside", "Thornmere");
    tab.weigh_up("6", ["60"; 3]).await?;
    expect(tab, [quayside, thornmere], quayside, None).await?;
    tab.type_in("high", "99").await?;
    tab.choose_field("likely").await?;
    tab.run_with(CHOOSE, &[json!(thornmere)]).await?;
    expect(tab, [quayside, thornmere], thornmere, Some(thornmere)).await?;
    for key in ["9", "0"] {
        tab.run_with(KEY, &[json!(key)]).await?;
    }
    expect(tab, [thornmere, quayside], thornmere, Some(thornmere)).await?;
    // Where Thornmere stood there is Quayside now: that is what a touch chooses there.
    tab.tick(quayside).await?;
    expect(tab, [thornmere, quayside], quayside, None).await?;
    stall.expect_sound().await
}
