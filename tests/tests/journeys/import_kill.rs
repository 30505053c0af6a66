//! Killed in the middle of bringing in a file: afterwards all of it is in the book or nothing, the own book is whole, and bringing the file
//! in again leads to the same end.
//!
//! The page itself stops at the step: what it calls at that moment asks our server, and waits; the server kills the browser and never
//! answers. So the kill comes at the same place every time.

use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use haulwren_tests::browser::{
    Browser, DEADLINE, Engine, Failure, Killer, Outcome, Setup, Tab, wrong,
};
use haulwren_tests::server::{Options, Server};
use serde_json::json;

use crate::common;
use crate::phone::{self, Phone};

journeys!(no_kill_halves_a_file => in_chromium Chromium, in_firefox Firefox);
journeys!(a_file_taken_too_early_is_found_out => too_early_in_chromium Chromium);

/// So many things are in the second file and not in the first: two changes and two records each, which is more than one transaction takes.
const MORE: usize = 300;

/// What the book must hold after a kill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    Nothing,
    All,
    Either,
}

/// Where the browser is killed.
#[derive(Clone, Copy, Debug)]
pub struct Step {
    name: &'static str,
    /// What the page is about to do; see [`STOP`].
    before: &'static str,
    /// For the how-many-eth time.
    time: u32,
    holds: Holds,
}

/// A step.
pub const fn step(name: &'static str, before: &'static str, time: u32, holds: Holds) -> Step {
    Step {
        name,
        before,
        time,
        holds,
    }
}

/// Each row is one profile. Up to the commit point nothing is in, so the same file is tried again; the next kill falls on a book that was
/// cut off before.
const STEPS: [&[Step]; 4] = [
    &[
        step(
            "the import is noted, nothing is laid",
            "lay",
            1,
            Holds::Nothing,
        ),
        step("half of it is laid", "lay", 550, Holds::Nothing),
        step(
            "all is laid, right before the commit point",
            "taking",
            1,
            Holds::Nothing,
        ),
        step(
            "the commit point is put, not committed",
            "commit",
            1,
            Holds::Nothing,
        ),
        step(
            "it is committed, nothing is folded in",
            "fold",
            1,
            Holds::All,
        ),
    ],
    &[step(
        "right at the commit point",
        "committed",
        1,
        Holds::Either,
    )],
    &[step("half of it is folded in", "fold", 550, Holds::All)],
    &[step(
        "all is folded in, that is not noted",
        "done",
        1,
        Holds::All,
    )],
];

/// Stops the page for good at a step: `lay` puts a change beside the book, `taking` the note of the commit point; `commit` and `committed`
/// are before and after that transaction's commit is asked for; `fold` puts a record after it; `done` notes the end.
const STOP: &str = r#"
const [step, time] = arguments;
let left = time, taking = null;
const reach = (what) => {
  if (what !== step || --left > 0) return;
  const asked = new XMLHttpRequest();
  asked.open("POST", `/__ack/${what}`, false);
  asked.send();
};
const put = IDBObjectStore.prototype.put, commit = IDBTransaction.prototype.commit;
IDBObjectStore.prototype.put = function (row, ...more) {
  if (this.name === "changes" && row.i !== undefined) reach("lay");
  if (this.name === "meta" && row.k === "imports") {
    if (row.v.includes("folding")) {
      taking = this.transaction;
      reach("taking");
    } else if (taking) reach("done");
  }
  if (this.name === "records" && taking) reach("fold");
  return put.call(this, row, ...more);
};
IDBTransaction.prototype.commit = function () {
  const is_it = this === taking;
  if (is_it) reach("commit");
  const result = commit.call(this);
  if (is_it) reach("committed");
  return result;
};
"#;

/// A build that takes a file before it is laid beside whole: the note says so from the first moment on.
const TOO_EARLY: &str = r#"
const put = IDBObjectStore.prototype.put;
IDBObjectStore.prototype.put = function (row, ...more) {
  if (this.name === "meta" && row.k === "imports") row.v = row.v.replace("staging", "folding");
  return put.call(this, row, ...more);
};
"#;

type Trigger = Arc<Mutex<Option<Killer>>>;

fn lock(trigger: &Trigger) -> std::sync::MutexGuard<'_, Option<Killer>> {
    trigger.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A home computer with the phone's first file in its book and a word of its own, and the phone's second file.
pub struct Home {
    browser: Browser,
    server: Server,
    trigger: Trigger,
    phone: Phone,
    file: String,
}

impl Home {
    /// Sets it up.
    pub async fn set_up(engine: Engine) -> Outcome<Self> {
        let trigger = Trigger::default();
        let listener = Arc::clone(&trigger);
        let options = Options::new(Setup::dist()?).on_ack(move |_| {
            if let Some(killer) = lock(&listener).take() {
                killer.kill();
            }
        });
        let server = common::start(options)?;
        let browser = Browser::open(engine).await?;
        let mut phone = Phone::begun()?;
        phone.buys(3)?;
        let tab = browser.tab().await?;
        tab.open_app(&server.url()).await?;
        tab.press("Open a book file").await?;
        phone::bring_in(&tab, &browser.downloads(), &phone.file()?).await?;
        tab.until(
            "the name of this device",
            "return Number(document.documentElement.dataset.saved ?? 0) > 0",
        )
        .await?;
        // Both call the same thing by another name: a choice that has to survive as well.
        let Some(first) = phone.first() else {
            return wrong("the phone has bought nothing");
        };
        tab.screen(&format!("#/haul/{first}")).await?;
        phone::call_it(&tab, "blue bowl").await?;
        phone.renames("green bowl")?;
        phone.buys(MORE)?;
        let file = phone.file()?;
        Ok(Self {
            browser,
            server,
            trigger,
            phone,
            file,
        })
    }

    /// A tab where files are opened.
    pub async fn tab(&self) -> Outcome<Tab> {
        let tab = self.browser.tab().await?;
        tab.open_app(&self.server.url()).await?;
        tab.screen("#/haul/take-home").await?;
        Ok(tab)
    }

    /// Brings the file in until the page reaches the step, and starts the browser again.
    async fn killed_at(&mut self, step: Step, injected: &str) -> Outcome<()> {
        let tab = self.tab().await?;
        phone::choose(&tab, &self.browser.downloads(), &self.file).await?;
        tab.element("[data-bring-in]").await?;
        tab.run_with(injected, &[]).await?;
        self.killed_by("[data-bring-in]", &tab, STOP, step).await
    }

    /// Taps a key, waits until `injected` has stopped the page at the step and the browser is killed, and starts it again.
    pub async fn killed_by(
        &mut self,
        key: &str,
        tab: &Tab,
        injected: &str,
        step: Step,
    ) -> Outcome<()> {
        tab.element(key).await?;
        tab.run_with(injected, &[json!(step.before), json!(step.time)])
            .await?;
        *lock(&self.trigger) = Some(self.browser.killer()?);
        // The page may stop before the driver has its answer.
        let tapped = tab.tap(key);
        let _ = tokio::time::timeout(Duration::from_secs(2), tapped).await;
        let deadline = Instant::now() + DEADLINE;
        while lock(&self.trigger).is_some() {
            if Instant::now() > deadline {
                return Err(Failure::Late {
                    what: step.name.to_owned(),
                    seconds: DEADLINE.as_secs(),
                    seen: tab.standing().await,
                });
            }
            tokio::time::sleep(Duration::from_millis(5)).await;
        }
        self.browser.restart_after_kill().await
    }

    /// All changes before the file, and how many of them are the phone's.
    pub async fn before(&self) -> Outcome<(Vec<serde_json::Value>, usize)> {
        let book = self.tab().await?.stored_book().await?;
        let known = self.phone.said_in(&book)?;
        Ok((book.changes, known))
    }

    /// Checks that all of the file is in the book or nothing, as the step says. Gives whether all is.
    pub async fn expect(
        &self,
        step: Step,
        before: &[serde_json::Value],
        known: usize,
    ) -> Outcome<bool> {
        let tab = self.tab().await?;
        let book = tab.stored_book().await?;
        let found = self.phone.said_in(&book)?;
        let all = found == self.phone.said();
        println!(
            "{}: {found} of {} changes, {known} before",
            step.name,
            self.phone.said()
        );
        let fits = match step.holds {
            Holds::Nothing => found == known,
            Holds::All => all,
            Holds::Either => all || found == known,
        };
        if !fits {
            return wrong(format!("{}: {found} changes of the file are in", step.name));
        }
        if !all && book.changes != before {
            return wrong(format!(
                "{}: nothing is in, and the book is another",
                step.name
            ));
        }
        if let Some(lost) = before.iter().find(|change| !book.changes.contains(change)) {
            return wrong(format!("{}: lost: {lost}", step.name));
        }
        phone::expect_sound(&book)?;
        let shown = tab.bought().await?.len();
        let there = if all { 3 + MORE } else { 3 };
        if shown != there {
            return wrong(format!(
                "{}: {shown} things are shown of {there}",
                step.name
            ));
        }
        Ok(all)
    }

    /// Brings the file in once more: what was missing comes, what was there stays.
    pub async fn once_more(&self, is_in: bool) -> Outcome<()> {
        let tab = self.tab().await?;
        let folder = self.browser.downloads();
        if is_in {
            phone::choose(&tab, &folder, &self.file).await?;
            tab.expect_said(&["nothing in it is new"]).await?;
        } else {
            phone::bring_in(&tab, &folder, &self.file).await?;
        }
        let book = tab.stored_book().await?;
        if self.phone.said_in(&book)? != self.phone.said() {
            return wrong("brought in again, the file is not in the book");
        }
        phone::expect_sound(&book)?;
        tab.expect_running().await
    }
}

async fn no_kill_halves_a_file(engine: Engine) -> Outcome<()> {
    for steps in STEPS {
        let mut home = Home::set_up(engine).await?;
        let (before, known) = home.before().await?;
        let mut is_in = false;
        for step in steps {
            home.killed_at(*step, "").await?;
            is_in = home.expect(*step, &before, known).await?;
        }
        home.once_more(is_in).await?;
    }
    Ok(())
}

/// The proof that these kills can fail: half of the file is in.
async fn a_file_taken_too_early_is_found_out(engine: Engine) -> Outcome<()> {
    let mut home = Home::set_up(engine).await?;
    let (before, known) = home.before().await?;
    let step = STEPS[0][1];
    home.killed_at(step, TOO_EARLY).await?;
    match home.expect(step, &before, known).await {
        Err(Failure::Wrong(found)) => {
            println!("found out: {found}");
            Ok(())
        }
        Err(other) => Err(other),
        Ok(_) => wrong("a file that was taken before it was whole was not found out"),
    }
}
