//! A disk that is really full, in the middle of a day: nothing that was called saved is lost, whatever the browser makes of its logs; and
//! a copy is asked for on every screen until one was made.
//!
//! The profile lies on a small file system that the test makes. Where that can't be mounted, the rounds say so and are skipped.

use haulwren_tests::browser::{
    Browser, Chance, Engine, Failure, Outcome, QUAYSIDE, Setup, Tab, check_book_file, wrong,
};
use haulwren_tests::server::Server;
use serde_json::json;

use crate::common::{downloaded, forget_downloads, serve};
use crate::phone;

journeys!(nothing_acknowledged_is_lost_on_a_full_disk => in_chromium Chromium, in_firefox Firefox);

/// What a profile needs, and some room.
const MEBIBYTES: u32 = 220;
/// The most that is bought in one go.
const MOST: u64 = 25;

/// Buys so often, one by one, or until the page complains about one. Gives how far it is saved, and what was complained about.
const BUY: &str = r#"
const root = document.documentElement;
const button = (k) => document.querySelector(`button[data-key="${k}"]`);
const saved = () => Number(root.dataset.saved ?? 0);
const complaint = () => document.querySelector("main > .bare > [role=alert], main [role=alert].notice");
const turn = () => new Promise((done) => setTimeout(done, 4));
const end = Date.now() + 25000;
for (let n = args[0]; n > 0; n -= 1) {
  const [before, stood] = [saved(), complaint()];
  for (let k = 0; k < 6; k += 1) button("rub").click();
  button("3").click();
  while (button("buy").disabled) { await turn(); if (Date.now() > end) return [saved(), "the key to buy stays shut"]; }
  button("buy").click();
  while (saved() === before) {
    const now = complaint();
    if (now && now !== stood) return [saved(), now.textContent];
    if (Date.now() > end) return [saved(), "nothing happens"];
    await turn();
  }
}
return [saved(), null];
"#;

struct Day {
    tab: Tab,
    browser: Browser,
    server: Server,
    /// What was done, for the text of a failure.
    told: Vec<String>,
    /// The highest number that was called saved.
    acknowledged: u64,
}

impl Day {
    async fn at_the_table(&self) -> Outcome<()> {
        self.tab.screen("#/decide").await?;
        self.tab.type_in("likely", "26").await?;
        self.tab.choose_field("ask").await
    }

    /// Buys; whether the page complained.
    async fn buy(&mut self, count: u64) -> Outcome<Option<String>> {
        let (saved, said): (u64, Option<String>) = self.tab.ask_later(BUY, &[json!(count)]).await?;
        self.told.push(format!("{saved} saved, it said {said:?}"));
        self.acknowledged = self.acknowledged.max(saved);
        Ok(said)
    }

    /// Fills the disk, buys until it shows, makes room, and buys on.
    async fn full(&mut self, chance: &mut Chance) -> Outcome<()> {
        let but = [0, 0, 4096, 16384, 65536][usize::try_from(chance.upto(5) - 1).unwrap_or(0)];
        self.browser.fill_disk(but)?;
        self.told.push(format!("full but for {but} bytes"));
        let mut complaints = 0;
        for _ in 0..4 {
            complaints += u64::from(self.buy(MOST).await?.is_some());
            if complaints > chance.upto(2) {
                break;
            }
        }
        if complaints == 0 {
            self.told.push("it never showed".to_owned());
        }
        self.browser.free_disk()?;
        self.told.push("room again".to_owned());
        // Accepted at the third tap at the latest: what stops the first may be a connection that is gone.
        for left in [2, 1, 0] {
            match self.buy(1).await? {
                None => break,
                Some(said) if left == 0 => {
                    return wrong(format!("there is room, and it says {said}"));
                }
                Some(_) => {}
            }
        }
        self.buy(chance.upto(MOST)).await?;
        if complaints > 0 {
            self.expect_copy_asked_for().await?;
        }
        Ok(())
    }

    /// A copy is asked for on every screen, and nothing is called saved beside that.
    async fn expect_copy_asked_for(&self) -> Outcome<()> {
        for screen in ["#/haul", "#/settings", "#/decide"] {
            self.tab.screen(screen).await?;
            let asked = "return document.querySelector('[data-save-now]') !== null
                && ![...document.querySelectorAll('.strip')].some((s) => s.textContent.includes('Saved on this device'))";
            self.tab.until("a copy to be asked for", asked).await?;
        }
        if self.tab.engine() == Engine::Chromium && Setup::shots().is_some() {
            self.tab.pictures("saved-again").await?;
            self.tab.phone_sized().await?;
        }
        self.tab.choose_field("ask").await
    }

    /// Saves a copy by the key that asks for one: it holds all, and the key goes.
    async fn save_copy(&mut self) -> Outcome<()> {
        let downloads = self.browser.downloads();
        forget_downloads(&downloads)?;
        self.tab.tap("[data-save-now]").await?;
        let changes = check_book_file(&downloaded(&self.tab, &downloads).await?)?;
        let count = changes.len() as u64;
        if count < self.acknowledged {
            return wrong(format!(
                "the copy holds {count} changes of {}",
                self.acknowledged
            ));
        }
        let gone = "return document.querySelector('[data-save-now]') === null";
        self.tab.until("nothing more to be asked for", gone).await?;
        self.told.push(format!("a copy of {count} changes"));
        Ok(())
    }

    /// Quits the browser, or kills it, and looks at what is there.
    async fn again(&mut self, chance: &mut Chance) -> Outcome<()> {
        if chance.upto(2) == 1 {
            self.told.push("quit".to_owned());
            self.browser.restart().await?;
        } else {
            self.told.push("killed".to_owned());
            self.browser.restart_after_kill().await?;
        }
        self.tab = self.browser.tab().await?;
        self.tab.open_app(&self.server.url()).await?;
        let whole = "return document.documentElement.dataset.whole === '1'";
        self.tab.until("the whole book", whole).await?;
        let book = self.tab.stored_book().await?;
        let end = book.end()?;
        self.told.push(format!("{end} stored"));
        if end < self.acknowledged {
            return wrong(format!(
                "{} was called saved, {end} is stored",
                self.acknowledged
            ));
        }
        phone::expect_sound(&book)?;
        let shown = self.tab.bought().await?;
        if shown != book.things() {
            return wrong(format!(
                "{} things shown, {} stored",
                shown.len(),
                book.things().len()
            ));
        }
        Ok(())
    }

    async fn lives(&mut self, chance: &mut Chance) -> Outcome<()> {
        self.tab.first_run(&self.server.url(), &QUAYSIDE).await?;
        self.at_the_table().await?;
        self.buy(chance.upto(MOST)).await?;
        for _ in 0..chance.upto(2) {
            self.full(chance).await?;
        }
        if chance.upto(2) == 1 {
            let asked: bool = self
                .tab
                .ask("return document.querySelector('[data-save-now]') !== null")
                .await?;
            if asked {
                self.save_copy().await?;
                self.at_the_table().await?;
                self.buy(chance.upto(MOST)).await?;
            }
        }
        self.again(chance).await?;
        // And once more from there, the day after.
        self.at_the_table().await?;
        self.buy(chance.upto(MOST)).await?;
        self.again(chance).await
    }
}

async fn nothing_acknowledged_is_lost_on_a_full_disk(engine: Engine) -> Outcome<()> {
    let mut chance = Chance::new()?;
    let rounds = if Setup::long() { 30 } else { 3 };
    for round in 1..=rounds {
        let server = serve(Setup::dist()?)?;
        let Some(browser) = Browser::open_on_small_disk(engine, MEBIBYTES).await? else {
            println!(
                "skipped: nothing_acknowledged_is_lost_on_a_full_disk ({engine}): no small file system can be mounted here"
            );
            return Ok(());
        };
        let tab = browser.tab().await?;
        let mut day = Day {
            tab,
            browser,
            server,
            told: Vec::new(),
            acknowledged: 0,
        };
        let lived = day.lives(&mut chance).await;
        println!("{engine} round {round}: {}", day.told.join("; "));
        if let Err(failure) = lived {
            let seen = day.tab.standing().await;
            return Err(Failure::Wrong(format!(
                "round {round} (seed {}): {failure}\n{}\n{seen}",
                chance.seed(),
                day.told.join("\n")
            )));
        }
    }
    Ok(())
}
