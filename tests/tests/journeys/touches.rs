//! How many touches the acts of a day take, and about how long by the keystroke-level model.

use haulwren_tests::browser::{Engine, Outcome, Tab, wrong};

use crate::common::{DRESS, Stall};
use crate::pile::expect_texts;
use crate::{outing, png};

journeys!(at_the_table => table_in_chromium Chromium);
journeys!(on_a_trip => trip_in_chromium Chromium);

/// Whether the middle of the key beside Undo is the file input itself.
const REACHED: &str = "const input = document.querySelector('[data-undo] input[data-photo]');
const box = input?.closest('label').getBoundingClientRect();
return box !== undefined && document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2) === input";

/// A count of touches, and what they take by the keystroke-level model (Card, Moran and Newell 1980, from memory: a pointing 1.1 s, a
/// press 0.2 s, a thought 1.35 s before each step). A key of the phone's own keyboard counts as a touch.
#[derive(Default)]
struct Touches {
    count: u32,
    thoughts: u32,
}

impl Touches {
    async fn tap(&mut self, tab: &Tab, css: &str) -> Outcome<()> {
        self.count += 1;
        tab.tap(css).await
    }

    async fn keys(&mut self, tab: &Tab, keys: &str) -> Outcome<()> {
        self.thoughts += 1;
        for key in keys.chars() {
            self.tap(tab, &format!("button[data-key=\"{key}\"]"))
                .await?;
        }
        Ok(())
    }

    /// Types into the field that has the focus: nobody has touched it.
    async fn typed(&mut self, tab: &Tab, text: &str) -> Outcome<()> {
        self.thoughts += 1;
        for key in text.chars() {
            self.count += 1;
            tab.send_keys(key.to_string()).await?;
        }
        Ok(())
    }

    fn expect(self, what: &str, most: u32) -> Outcome<()> {
        let seconds = 1.3 * f64::from(self.count) + 1.35 * f64::from(self.thoughts);
        println!(
            "{what}: {} touches of at most {most}, about {seconds:.1} s",
            self.count
        );
        if self.count > most {
            return wrong(format!(
                "{what} took {} touches, at most {most} are right",
                self.count
            ));
        }
        Ok(())
    }
}

async fn at_the_table(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.open_app(&stall.url).await?;

    let mut known = Touches::default();
    known.tap(tab, "[data-key=\"what\"]").await?;
    known.tap(tab, "[data-kind]").await?;
    known.keys(tab, "6").await?;
    known.tap(tab, "[data-key=\"next\"]").await?;
    known.keys(tab, "26").await?;
    tab.expect_verdict("buy").await?;
    known.expect("a thing of a known kind", 8)?;

    let mut cover = Touches::default();
    cover.tap(tab, "[data-key=\"cover\"]").await?;
    tab.until(
        "the verdict to go",
        "return document.querySelector('[data-verdict]') === null",
    )
    .await?;
    cover.expect("cover", 1)?;
    tab.key("cover").await?;
    tab.buy().await?;

    let mut unknown = Touches::default();
    unknown.tap(tab, "[data-key=\"what\"]").await?;
    unknown.tap(tab, "[data-heft=\"Folded, soft\"]").await?;
    unknown.keys(tab, "6").await?;
    unknown.tap(tab, "[data-key=\"next\"]").await?;
    unknown.keys(tab, "26").await?;
    unknown.tap(tab, "[data-key=\"next\"]").await?;
    unknown.keys(tab, "18").await?;
    tab.expect_verdict("buy").await?;
    unknown.expect("a new thing", 12)?;

    tab.weigh_up("6", DRESS).await?;
    tab.key("pile").await?;
    tab.tap("[data-key=\"to-pile-screen\"]").await?;
    tab.screen("#/pile").await?;
    let mut price = Touches::default();
    price.tap(tab, "[data-asked]").await?;
    price.keys(tab, "5").await?;
    expect_texts(tab, ".pile-row .asked", &["5.00"]).await?;
    price.expect("another price on the pile", 3)?;
    stall.expect_sound().await
}

async fn on_a_trip(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.screen("#/haul").await?;

    let mut start = Touches::default();
    start.tap(tab, "[data-start-trip]").await?;
    let on_cash = "return document.activeElement?.labels?.[0]?.innerText === 'Cash in the pocket'";
    tab.until("the cash to be typed", on_cash).await?;
    start.typed(tab, "80").await?;
    let before = tab.saved().await?;
    start.tap(tab, "[data-answer]").await?;
    tab.saved_beyond(before).await?;
    expect_texts(tab, "[data-cash-left]", &["80.00"]).await?;
    start.expect("the start of a trip with its cash", 4)?;

    let mut next = Touches::default();
    let before = tab.saved().await?;
    next.tap(tab, ".haul-tray [data-next-sale]").await?;
    tab.saved_beyond(before).await?;
    tab.element(".haul-list a[data-stop]").await?;
    next.expect("the next stop", 1)?;

    let mut unsorted = Touches::default();
    unsorted
        .tap(tab, ".haul-tray a[href=\"#/haul/new-lot\"]")
        .await?;
    unsorted.tap(tab, "[data-count=\"12\"]").await?;
    unsorted.keys(tab, "10").await?;
    let before = tab.saved().await?;
    unsorted.tap(tab, "[data-key=\"buy\"]").await?;
    tab.saved_beyond(before).await?;
    tab.element(".haul-list a[data-lot]").await?;
    unsorted.expect("twelve things for 10, sorted later", 6)?;

    for (name, ask, likely) in outing::THREE {
        outing::weigh(tab, name, ask, likely).await?;
        tab.key("pile").await?;
    }
    let mut pile = Touches::default();
    pile.tap(tab, "[data-key=\"to-pile-screen\"]").await?;
    pile.keys(tab, "10").await?;
    let before = tab.saved().await?;
    pile.tap(tab, "[data-key=\"buy\"]").await?;
    tab.saved_beyond(before).await?;
    tab.screen("#/haul").await?;
    let shares = ["4.29", "3.14", "2.57"];
    expect_texts(tab, ".haul-list [data-thing] .paid", &shares).await?;
    pile.expect("three things on the pile for one price", 5)?;

    outing::thing(tab, "enamel jug", "2", "16").await?;
    let mut photo = Touches::default();
    // One touch, where the key is seen, reaches the input; to take the picture and to agree to it are the camera's own two.
    tab.until("the key of the picture under the finger", REACHED)
        .await?;
    photo.count += 3;
    let picture = stall.browser.downloads().join("jug.png");
    png::write(&picture)?;
    outing::photo(tab, &picture).await?;
    photo.expect("a picture after Buy", 3)?;
    stall.expect_sound().await
}
