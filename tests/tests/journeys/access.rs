//! For everybody: the accessibility checker on every screen in both themes, the size and place of what is
//! tapped, and the whole purchase by keyboard. Pictures of each screen are taken when asked for.

use std::collections::BTreeSet;

use haulwren_tests::browser::{
    Browser, Engine, Failure, Outcome, QUAYSIDE, Setup, Tab, Theme, wrong,
};

use crate::common::{DRESS, Stall, serve};

journeys!(every_screen_passes => screens_in_chromium Chromium, screens_in_firefox Firefox,
    screens_in_webkit WebKit);
journeys!(by_keyboard_alone => keyboard_in_chromium Chromium, keyboard_in_firefox Firefox);

/// What a screen must show before it is looked at, by route.
const SCREENS: [(&str, &str, &str); 4] = [
    ("settings", "#/settings", "[data-save-copy]"),
    ("venue-new", "#/settings/venue/new", "#venue-name"),
    ("haul", "#/haul", "[data-thing]"),
    ("decide-empty", "#/decide", "[data-verdict=none]"),
];

async fn every_screen_passes(engine: Engine) -> Outcome<()> {
    let server = serve(Setup::dist()?)?;
    let browser = Browser::open(engine).await?;
    let tab = browser.tab().await?;
    let mut faults = Faults::default();
    tab.open_app(&server.url()).await?;
    faults.look_at(&tab, "first").await?;
    tab.first_run(&server.url(), &QUAYSIDE).await?;

    for (name, ask) in [
        ("decide-buy", "6"),
        ("decide-haggle", "12"),
        ("decide-leave", "20"),
    ] {
        tab.weigh_up(ask, DRESS).await?;
        tab.expect_verdict(name.trim_start_matches("decide-"))
            .await?;
        faults.look_at(&tab, name).await?;
        faults.note(expect_all_in_sight(&tab).await)?;
    }
    // Everything for the sale lies in the thumb's half.
    for key in ["0", "5", ".50", "rub", "next", "buy", "cover"] {
        let key = format!("button[data-key=\"{key}\"]");
        faults.note(tab.expect_in_thumbs_half(&key).await)?;
    }
    faults.note(tab.expect_in_reach("button[data-key=\"buy\"]").await)?;
    tab.tap("button[data-key=\"why\"]").await?;
    tab.element("dialog[open], [role=dialog]").await?;
    faults.look_at(&tab, "why").await?;
    tab.send_keys("\u{e00c}").await?; // Escape
    tab.until(
        "the sheet to close",
        "return document.querySelector('dialog[open]') === null",
    )
    .await?;
    tab.key("cover").await?;
    tab.element(".covered-figure").await?;
    faults.look_at(&tab, "decide-covered").await?;
    tab.key("cover").await?;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    tab.element("[data-undo]").await?;
    faults.look_at(&tab, "decide-saved").await?;

    for (name, route, wanted) in SCREENS {
        tab.screen(route).await?;
        tab.element(wanted).await?;
        faults.look_at(&tab, name).await?;
    }
    tab.screen("#/haul").await?;
    tab.tap("[data-thing]").await?;
    tab.element("#thing-name").await?;
    faults.look_at(&tab, "thing").await?;
    tab.go(&format!("{}rescue.html", server.url())).await?;
    tab.until(
        "the book to be found",
        "return document.querySelector(\"a[download]\") !== null",
    )
    .await?;
    faults.look_at(&tab, "rescue").await?;
    browser.expect_no_other_host()?;
    faults.tell()
}

/// Looks at screens one after the other, and tells at the end what was wrong on any.
#[derive(Default)]
pub struct Faults(BTreeSet<String>);

impl Faults {
    pub fn note(&mut self, found: Outcome<()>) -> Outcome<()> {
        match found {
            Err(Failure::Wrong(what)) => {
                self.0.extend(what.lines().map(str::to_owned));
                Ok(())
            }
            other => other,
        }
    }

    pub fn tell(self) -> Outcome<()> {
        if self.0.is_empty() {
            return Ok(());
        }
        wrong(self.0.into_iter().collect::<Vec<_>>().join("\n"))
    }

    /// Checks one screen, and takes its pictures.
    async fn look_at(&mut self, tab: &Tab, screen: &str) -> Outcome<()> {
        if tab.engine().can().devtools {
            tab.pictures(screen).await?;
            tab.theme(Theme::Light).await?;
        }
        self.note(tab.expect_accessible_in_both(screen).await)?;
        self.note(tab.expect_targets(screen).await)
    }
}

/// On the phone of the pictures nothing of a verdict has to be scrolled for.
async fn expect_all_in_sight(tab: &Tab) -> Outcome<()> {
    if !tab.engine().can().devtools {
        return Ok(());
    }
    let script = "const top = document.querySelector('.decide-top'); return top.scrollHeight - top.clientHeight";
    let hidden: i64 = tab.ask(script).await?;
    if hidden > 0 {
        return wrong(format!("{hidden} px of Decide are out of sight"));
    }
    Ok(())
}

/// Keys by their code points in the driver's protocol.
const TAB: &str = "\u{e004}";
const ENTER: &str = "\u{e007}";
const BACKSPACE: &str = "\u{e003}";

async fn by_keyboard_alone(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    // Nothing is touched from here on. The first Tab that reaches the ask starts the row of fields.
    let on = "return document.activeElement?.dataset?.field ?? \"\"";
    let mut steps = 0;
    while tab.ask::<String>(on).await? != "ask" {
        tab.send_keys(TAB).await?;
        steps += 1;
        if steps > 30 {
            return wrong("thirty steps of Tab do not reach the asking price");
        }
    }
    tab.send_keys(format!("7{BACKSPACE}6.00")).await?;
    for (field, amount) in ["low", "likely", "high"].into_iter().zip(DRESS) {
        tab.send_keys(TAB).await?;
        let now: String = tab.ask(on).await?;
        if now != field {
            return wrong(format!("Tab leads to {now:?}, not to {field}"));
        }
        tab.send_keys(amount).await?;
    }
    tab.expect_verdict("buy").await?;
    tab.expect_figures(&[("keep", "9.90"), ("ceiling", "7.50")])
        .await?;
    tab.expect_focus_ring().await?;
    let before = tab.saved().await?;
    tab.send_keys(ENTER).await?;
    tab.saved_beyond(before).await?;
    tab.expect_bought(1).await?;
    stall.expect_sound().await
}
