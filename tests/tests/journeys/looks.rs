//! How the screens of a day out look: the accessibility checker in both themes, on a phone and on a desktop; and that everything fits, on a
//! small phone and with large text too, in letters of three heights and widths. Pictures of each are taken when somebody asks for them.

use haulwren_tests::browser::{Engine, Fit, Fonts, Outcome, Tab, wrong};

use crate::access::Faults;
use crate::common::Stall;
use crate::{outing, png};

in_fonts!(of_a_trip => Chromium, trip_in_chromium Wide, trip_in_tall_letters Tall, trip_in_narrow_letters Narrow);
in_fonts!(of_things => Chromium, things_in_chromium Wide, things_in_tall_letters Tall, things_in_narrow_letters Narrow);
in_fonts!(of_decide => Chromium, decide_in_chromium Wide, decide_in_tall_letters Tall, decide_in_narrow_letters Narrow);
in_fonts!(of_questions => Chromium, questions_in_chromium Wide, questions_in_tall_letters Tall, questions_in_narrow_letters Narrow);

/// Looks at a screen in every size.
async fn look(faults: &mut Faults, tab: &Tab, screen: &str) -> Outcome<()> {
    // Names, roles and contrast are the same in all letters: they are looked at in one.
    let is_first = tab.fonts() == Fonts::default();
    if is_first {
        tab.pictures(screen).await?;
    }
    for fit in Fit::ALL {
        tab.fit(fit).await?;
        let screen = format!("{screen}-{}", fit.name());
        if matches!(fit, Fit::Small | Fit::LargeText) || !is_first {
            tab.picture(&format!("{screen}-{:?}", tab.fonts())).await?;
        } else {
            faults.note(tab.expect_accessible_in_both(&screen).await)?;
        }
        faults.note(tab.expect_targets(&screen).await)?;
        faults.note(tab.expect_to_fit(&screen).await)?;
    }
    Ok(())
}

/// A trip under way with a day's things, the stop named; so far that Haul shows all that it can.
async fn day(engine: Engine, fonts: Fonts) -> Outcome<Stall> {
    let stall = Stall::open_with(engine, fonts).await?;
    let tab = &stall.tab;
    outing::start_trip(tab, "80", "48210").await?;
    outing::next_sale(tab).await?;
    outing::twelve_for(tab, "10").await?;
    outing::thing(tab, "linen wrap dress", "6", "26").await?;
    outing::free_find(tab, "enamel jug", "16").await?;
    let picture = stall.browser.downloads().join("jug.png");
    png::write(&picture)?;
    outing::photo(tab, &picture).await?;
    outing::weigh(tab, "brass bookends", "4.50", "28").await?;
    outing::call_it(tab, "brass bookends", true).await?;
    tab.buy().await?;
    outing::three_for(tab, "10").await?;
    outing::weigh(tab, "waxed jacket, child", "7", "30").await?;
    tab.key("pile").await?;
    tab.screen("#/haul").await?;
    tab.tap(".haul-list a[data-stop]").await?;
    tab.tap("[data-change-stop]").await?;
    outing::answer(tab, &[("Name", "Alder Lane driveway sale")]).await?;
    Ok(stall)
}

async fn of_a_trip(engine: Engine, fonts: Fonts) -> Outcome<()> {
    let stall = day(engine, fonts).await?;
    let (tab, faults) = (&stall.tab, &mut Faults::default());
    tab.element(".thing-page [data-lot]").await?;
    look(faults, tab, "stop").await?;
    tab.press("Record of what was paid").await?;
    tab.element(".paper-table .total").await?;
    look(faults, tab, "record").await?;
    tab.screen("#/haul/trips").await?;
    tab.element("[data-trip]").await?;
    look(faults, tab, "trips").await?;
    tab.tap("[data-trip]").await?;
    tab.element(".thing-page [data-stop]").await?;
    look(faults, tab, "trip").await?;
    tab.press("Sheet of the trip").await?;
    tab.element(".paper-table .total").await?;
    look(faults, tab, "sheet").await?;
    tab.screen("#/haul/take-home").await?;
    tab.element("[data-bring]").await?;
    look(faults, tab, "take-home").await?;
    tab.screen("#/haul").await?;
    tab.element(".haul-list [data-lot]").await?;
    look(faults, tab, "haul-trip").await?;
    outing::count_cash(tab, "49").await?;
    outing::end_trip(tab, "48247").await?;
    tab.screen("#/haul").await?;
    look(faults, tab, "haul-ended").await?;
    stall.expect_sound().await?;
    std::mem::take(faults).tell()
}

async fn of_things(engine: Engine, fonts: Fonts) -> Outcome<()> {
    let stall = day(engine, fonts).await?;
    let (tab, faults) = (&stall.tab, &mut Faults::default());
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", "Lot of 3").await?;
    tab.element(".thing-page .lot-row").await?;
    look(faults, tab, "lot").await?;
    tab.tap(".thing-page .split .keys > label:last-child")
        .await?;
    tab.press_in(".thing-page .lot-card", "Share of tin lantern")
        .await?;
    outing::answer(tab, &[("Share", "0")]).await?;
    tab.element(".thing-page .lot-foot .loss").await?;
    look(faults, tab, "lot-by-hand").await?;
    tab.press_in(".thing-page", "Haul").await?;
    tab.element("dialog[open] [data-answer]").await?;
    look(faults, tab, "ask-leave").await?;
    tab.tick("Leave it").await?;
    tab.tap("dialog[open] [data-answer]").await?;
    tab.element(".haul-list [data-lot]").await?;
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", "12 things for 10.00").await?;
    tab.element("[data-sort]").await?;
    look(faults, tab, "lot-unsorted").await?;
    tab.screen("#/haul/new-lot").await?;
    tab.element("[data-count]").await?;
    look(faults, tab, "new-lot").await?;
    // Every key is there on a desktop too.
    tab.fit(Fit::Desktop).await?;
    tab.key("next").await?;
    tab.element("[data-field=\"lot-paid\"][aria-pressed=\"true\"]")
        .await?;
    tab.fit(Fit::Phone).await?;
    tab.tap("[data-count=\"12\"]").await?;
    tab.keys("10").await?;
    look(faults, tab, "new-lot-typed").await?;
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", "enamel jug").await?;
    tab.element("img[data-picture]").await?;
    look(faults, tab, "thing-bought").await?;
    tab.screen("#/haul").await?;
    tab.tap("[data-choose]").await?;
    tab.tap(".haul-list .choose").await?;
    look(faults, tab, "haul-several").await?;
    tab.press("Done").await?;
    outing::thing(tab, "felt slippers", "3", "11").await?;
    tab.press_in("[data-undo]", "Last ten").await?;
    tab.element("dialog[open] li").await?;
    look(faults, tab, "last-ten").await?;
    stall.expect_sound().await?;
    std::mem::take(faults).tell()
}

/// Decide as it stands from one thing to the next: the pile beside it, a name, a verdict, the last save, covered.
async fn of_decide(engine: Engine, fonts: Fonts) -> Outcome<()> {
    let stall = day(engine, fonts).await?;
    let (tab, faults) = (&stall.tab, &mut Faults::default());
    for (name, ask, likely) in [("garden shears", "112.50", "140"), ("tea tray", "9", "131")] {
        outing::weigh(tab, name, ask, likely).await?;
        tab.key("pile").await?;
    }
    look(faults, tab, "decide-pile").await?;
    outing::weigh(tab, "felt slippers", "3", "21").await?;
    tab.expect_verdict("buy").await?;
    look(faults, tab, "decide-typed").await?;
    tab.type_in("ask", "12").await?;
    tab.expect_verdict("leave").await?;
    look(faults, tab, "decide-leave").await?;
    tab.type_in("ask", "3").await?;
    tab.buy().await?;
    tab.element("[data-undo] input[data-photo]").await?;
    look(faults, tab, "decide-bought").await?;
    for fit in Fit::ALL {
        tab.fit(fit).await?;
        faults.note(expect_undo_in_sight(tab, fit.name()).await)?;
    }
    tab.key("cover").await?;
    tab.element(".covered").await?;
    look(faults, tab, "decide-covered").await?;
    stall.expect_sound().await?;
    std::mem::take(faults).tell()
}

/// After a purchase Undo and what stands beside it are seen whole without scrolling, and nothing lies over them.
async fn expect_undo_in_sight(tab: &Tab, size: &str) -> Outcome<()> {
    let script = "const around = document.querySelector('.decide-body').getBoundingClientRect();
        return [...document.querySelectorAll('[data-undo] .press')].filter((key) => key.getClientRects().length).filter((key) => {
          const at = key.getBoundingClientRect();
          const on = document.elementFromPoint((at.left + at.right) / 2, (at.top + at.bottom) / 2);
          const outside = at.top < around.top - 0.5 || at.bottom > around.bottom + 0.5 || at.left < around.left || at.right > around.right + 0.5;
          return outside || !(key.contains(on) || on?.contains(key));
        }).map((key) => key.innerText.trim()).concat(document.querySelector('[data-undo] .press.strong')?.getClientRects().length ? [] : ['no Undo'])";
    let hidden: Vec<String> = tab.ask(script).await?;
    if hidden.is_empty() {
        return Ok(());
    }
    wrong(format!("decide-bought-{size}: out of sight: {hidden:?}"))
}

/// A question: where it is asked, the key that asks it, and the name of its picture.
const QUESTIONS: [(&str, &str, &str); 6] = [
    ("#/haul", ".haul-list [data-purse]", "ask-purse"),
    ("[data-trip]", "[data-end-trip]", "ask-end"),
    (".haul-list a[data-stop]", "[data-change-stop]", "ask-stop"),
    (".haul-list a[data-lot]", "[data-sort]", "ask-sort"),
    (".haul-list [data-thing] a", "[data-marks]", "ask-marks"),
    (".haul-list [data-thing] a", "Another lot", "ask-lot"),
];

async fn of_questions(engine: Engine, fonts: Fonts) -> Outcome<()> {
    let stall = day(engine, fonts).await?;
    let (tab, faults) = (&stall.tab, &mut Faults::default());
    for (place, key, screen) in QUESTIONS {
        tab.screen("#/haul/trips").await?;
        tab.screen("#/haul").await?;
        if place == "[data-trip]" {
            tab.screen("#/haul/trips").await?;
        }
        if !place.starts_with('#') {
            tab.tap(place).await?;
        }
        if key.contains('[') {
            tab.tap(key).await?;
        } else {
            tab.press_in(".thing-page", key).await?;
        }
        tab.element("dialog[open] [data-answer]").await?;
        look(faults, tab, screen).await?;
        tab.press_in("dialog[open]", "Close").await?;
        let closed = "return document.querySelector('dialog[open]') === null";
        tab.until("the question to go", closed).await?;
    }
    outing::end_trip(tab, "48247").await?;
    tab.screen("#/haul").await?;
    tab.tap(".haul-list [data-start-trip]").await?;
    tab.element("dialog[open] [data-answer]").await?;
    look(faults, tab, "ask-start").await?;
    stall.expect_sound().await?;
    std::mem::take(faults).tell()
}
