//! Three devices, each a browser of its own, that do random things and carry files to one another in random order: once all have read all,
//! each holds the same changes, and the records that a fold written from the prose of the format makes of them.

use std::collections::BTreeMap;

use haulwren_tests::browser::{
    Browser, Chance, Engine, Failure, Outcome, Setup, Tab, check_book_file, wrong,
};
use serde_json::Value;

use crate::common::Stall;
use crate::model::{self, Said};
use crate::outing;
use crate::saturday::save_file;
use crate::two_devices::{Computer, open_files, take};

journeys!(three_devices_end_with_the_fold_of_all_that_was_said => in_chromium Chromium);

/// What is done in one program.
const STEPS: u64 = 14;

/// A device at work.
struct Device<'a> {
    name: &'static str,
    tab: &'a Tab,
    browser: &'a Browser,
}

async fn three_devices_end_with_the_fold_of_all_that_was_said(engine: Engine) -> Outcome<()> {
    let mut chance = Chance::new()?;
    let seeds = if Setup::long() { 5 } else { 1 };
    for program in 1..=seeds {
        let mut told = Vec::new();
        if let Err(failure) = run(engine, &mut chance, &mut told).await {
            return Err(Failure::Wrong(format!(
                "program {program} of seed {}: {failure}\n{}",
                chance.seed(),
                told.join("\n")
            )));
        }
        println!("program {program}: {}", told.join("; "));
    }
    Ok(())
}

async fn run(engine: Engine, chance: &mut Chance, told: &mut Vec<String>) -> Outcome<()> {
    let phone = Stall::open(engine).await?;
    for name in ["wool scarf", "tin box"] {
        outing::thing(&phone.tab, name, "3", "26").await?;
    }
    let first = Computer::with_book_of(&phone, engine).await?;
    let second = Computer::with_book_of(&phone, engine).await?;
    let device = |name, tab, browser| Device { name, tab, browser };
    let all = [
        device("phone", &phone.tab, &phone.browser),
        device("desk", &first.tab, &first.browser),
        device("shop", &second.tab, &second.browser),
    ];
    let mut files: Vec<(String, String)> = Vec::new();
    for step in 1..=STEPS {
        let one = &all[below(chance, 3)];
        match chance.upto(10) {
            1..=3 => {
                let name = format!("{} thing {step}", one.name);
                told.push(format!("{} buys {name}", one.name));
                one.tab.screen("#/decide").await?;
                outing::thing(one.tab, &name, "4", "22").await?;
            }
            4..=7 => one.renames(chance, step, told).await?,
            8 => one.takes_back(told).await?,
            _ => one.settles(told).await?,
        }
        // A file is written, and one of those that lie about is read by somebody.
        if chance.upto(2) == 1 {
            told.push(format!("{} writes a file", one.name));
            files.push((one.name.to_owned(), save_file(one.tab, one.browser).await?));
            let (of, file) = &files[below(chance, files.len())];
            let other = &all[below(chance, 3)];
            if *of != other.name {
                told.push(format!("{} reads a file of {of}", other.name));
                other.reads(file).await?;
            }
        }
    }
    told.push("all read all, twice round".to_owned());
    for _ in 0..2 {
        for writer in &all {
            let file = save_file(writer.tab, writer.browser).await?;
            for reader in all.iter().filter(|reader| reader.name != writer.name) {
                reader.reads(&file).await?;
            }
        }
    }
    compare(&all).await
}

fn below(chance: &mut Chance, count: usize) -> usize {
    usize::try_from(chance.upto(count as u64) - 1).unwrap_or(0)
}

impl Device<'_> {
    /// Calls one of the things something else: mostly one of the first, so that devices quarrel.
    async fn renames(&self, chance: &mut Chance, step: u64, told: &mut Vec<String>) -> Outcome<()> {
        let things = self.tab.bought().await?;
        let few = if chance.upto(3) > 1 {
            things.len().min(2)
        } else {
            things.len()
        };
        let thing = &things[below(chance, few)];
        let name = format!("{} name {step}", self.name);
        told.push(format!("{} calls {thing} {name}", self.name));
        self.tab.screen(&format!("#/haul/{thing}")).await?;
        let before = self.tab.saved().await?;
        self.tab.fill("Name", &name).await?;
        self.tab.press("Save name").await?;
        self.tab.saved_beyond(before).await.map(drop)
    }

    /// Undoes the last save, where the page still offers it.
    async fn takes_back(&self, told: &mut Vec<String>) -> Outcome<()> {
        self.tab.screen("#/decide").await?;
        let offered = "return document.querySelector('[data-undo] button.strong') !== null";
        if self.tab.ask::<bool>(offered).await? {
            told.push(format!("{} takes its last save back", self.name));
            self.tab.undo().await?;
        }
        Ok(())
    }

    /// Chooses between what was said differently, where there is something.
    async fn settles(&self, told: &mut Vec<String>) -> Outcome<()> {
        self.tab.screen("#/attention").await?;
        let choice = "return document.querySelector('[data-choice]') !== null";
        if self.tab.ask::<bool>(choice).await? {
            told.push(format!("{} settles something", self.name));
            let before = self.tab.saved().await?;
            self.tab.tap("[data-choice]").await?;
            self.tab.saved_beyond(before).await?;
        }
        Ok(())
    }

    /// Reads a file, and takes it when something in it is new.
    async fn reads(&self, file: &str) -> Outcome<()> {
        let path = self.browser.downloads().join("other.txt");
        let trouble = Failure::system("cannot write the file");
        std::fs::write(&path, file).map_err(trouble)?;
        // What the last file brought is put away.
        self.tab.screen("#/decide").await?;
        let known = self.tab.stored_book().await?.changes.len();
        open_files(self.tab).await?;
        let input = "[data-bring] input[type=file]";
        self.tab.choose_file(input, &path).await?;
        let looked = "return document.querySelector('[data-brought=found], [data-bring] [role=alert]') !== null";
        self.tab.until("the file to be looked into", looked).await?;
        let brings = "return document.querySelector('[data-bring-in]') !== null";
        if self.tab.ask::<bool>(brings).await? {
            return take(self.tab).await;
        }
        self.tab.element("[data-brought=found]").await?;
        self.tab.press("Not now").await?;
        let keys: Vec<Value> = check_book_file(file)?
            .iter()
            .map(|change| change["k"].clone())
            .collect();
        if keys.len() > known {
            return wrong(format!(
                "nothing new in a file of {} changes, beside {known}",
                keys.len()
            ));
        }
        Ok(())
    }
}

/// All hold the same, and that is what the fold makes of it.
async fn compare(all: &[Device<'_>]) -> Outcome<()> {
    let first = all[0].tab.stored_book().await?;
    let lines = first.stores["changes"].iter();
    let lines: Vec<&str> = lines.filter_map(|row| row["t"].as_str()).collect();
    let said: Vec<Said> = lines.iter().map(|line| Said::read(line)).collect();
    let wanted = model::outcomes(&said);
    for device in all {
        let book = device.tab.stored_book().await?;
        book.expect_no_holes()?;
        if book.stores["changes"].len() != lines.len() || book.changes != first.changes {
            return wrong(format!(
                "{} holds other changes than the phone",
                device.name
            ));
        }
        let rows = book.stores["records"].iter();
        let found: BTreeMap<String, model::Outcome> = rows
            .filter_map(|row| {
                Some((
                    row["k"].as_str()?.to_owned(),
                    model::stored(row["j"].as_str()?),
                ))
            })
            .collect();
        if let Some((record, outcome)) = wanted
            .iter()
            .find(|(record, outcome)| found.get(*record) != Some(outcome))
        {
            return wrong(format!(
                "{}: {record} is stored as {:?}, the fold gives {outcome:?}",
                device.name,
                found.get(record)
            ));
        }
        if found.len() != wanted.len() {
            return wrong(format!(
                "{} records on {}, {} said",
                found.len(),
                device.name,
                wanted.len()
            ));
        }
    }
    Ok(())
}
