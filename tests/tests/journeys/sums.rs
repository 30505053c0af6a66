//! The sums from end to end: a venue with price brackets typed into its form, a rate card pasted with rows that can't be read, three
//! things weighed up by both, bought for one price, and the shares of that price on Haul.

use haulwren_tests::browser::{Engine, Outcome, Tab, wrong};

use crate::common::Stall;
use crate::pile::{expect_texts, texts};
use crate::postage::expect_words;

journeys!(walk => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

/// As from a spreadsheet, but parted by semicolons: a typed tab would leave the field. Rows end with the driver's key for Enter. The
/// third row has no weight, the fifth is lighter than the one before it.
const TABLE: &str = "oz;2;5\u{e007}8;3.00;3.60\u{e007}twelve;3.20;3.90\u{e007}12;3.50;4.50\u{e007}10;3.20;4.00\u{e007}1 lb;4.50;5.50";

/// A thing: its kind, what it sells for, the ask, and what the rail must then say.
type Thing = (
    &'static str,
    &'static str,
    &'static str,
    [(&'static str, &'static str); 7],
);

/// Worked by hand. Marlpost, the buyer pays the price and no postage: under 10.00 it takes 20 %, from there 15 % of it all, from 25.00
/// 10 % of it all and 0.50; and 0.25 on each sale. Northmail goes to zone 2 at 40 %, to zone 5 at 60 %. Without a container a thing goes
/// as it is, in packing of 0.30. A quarter of the price is set aside, 8.00 is the least to keep, and cash goes in steps of 0.50.
const THINGS: [Thing; 3] = [
    // Twelve ounces: 1.40 + 2.70 to post. 26.00 - 2.60 - 0.50 - 0.25 - 4.10 - 0.30 - 6.50 = 11.75, less 8.00 is 3.75.
    (
        "Dress",
        "26",
        "3",
        [
            ("ceiling", "3.50"),
            ("buyer-pays", "26.00"),
            ("keep", "8.75"),
            ("aside", "6.50"),
            ("packing", "0.30"),
            ("postage", "4.10"),
            ("cut", "3.35"),
        ],
    ),
    // Eight ounces: 1.20 + 2.16. 22.00 - 3.30 - 0.25 - 3.36 - 0.30 - 5.50 = 9.29, less 8.00 is 1.29.
    (
        "Shirt or top",
        "22",
        "1",
        [
            ("ceiling", "1.00"),
            ("buyer-pays", "22.00"),
            ("keep", "8.29"),
            ("aside", "5.50"),
            ("packing", "0.30"),
            ("postage", "3.36"),
            ("cut", "3.55"),
        ],
    ),
    // A pound: 1.80 + 3.30. 40.00 - 4.00 - 0.50 - 0.25 - 5.10 - 0.30 - 10.00 = 19.85, less 8.00 is 11.85.
    (
        "Crockery",
        "40",
        "9",
        [
            ("ceiling", "11.50"),
            ("buyer-pays", "40.00"),
            ("keep", "10.85"),
            ("aside", "10.00"),
            ("packing", "0.30"),
            ("postage", "5.10"),
            ("cut", "4.75"),
        ],
    ),
];

async fn walk(engine: Engine) -> Outcome<()> {
    let mut stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;
    stall.server.stop();
    venue(tab).await?;
    rate_card(tab).await?;

    tab.screen("#/decide").await?;
    for (kind, likely, ask, figures) in THINGS {
        tab.tap("[data-key=\"what\"]").await?;
        tab.press_in("dialog[open]", kind).await?;
        tab.type_in("likely", likely).await?;
        tab.type_in("ask", ask).await?;
        tab.expect_figures(&figures).await?;
        tab.expect_verdict("buy").await?;
        tab.key("pile").await?;
    }
    tab.tap("[data-key=\"to-pile-screen\"]").await?;
    tab.screen("#/pile").await?;
    let named = ["Dress", "Shirt or top", "Crockery"];
    expect_texts(tab, ".pile-row .name", &named).await?;
    expect_texts(tab, ".pile-row .asked", &["3.00", "1.00", "9.00"]).await?;
    expect_texts(tab, ".pile-row .up-to", &["3.50", "1.00", "11.50"]).await?;
    // 3.75 + 1.29 + 11.85 = 16.89, rounded down once.
    expect_texts(tab, "[data-sum]", &["13.00", "16.50"]).await?;
    // The parts of all three, and 11.75 + 9.29 + 19.85 = 40.89 less what is said.
    tab.keys("12").await?;
    tab.expect_verdict("buy").await?;
    tab.expect_figures(&[
        ("ceiling", "16.50"),
        ("buyer-pays", "88.00"),
        ("keep", "28.89"),
        ("aside", "22.00"),
        ("packing", "0.90"),
        ("postage", "12.56"),
        ("cut", "11.65"),
    ])
    .await?;
    let before = tab.saved().await?;
    tab.key("buy").await?;
    tab.saved_beyond(before).await?;

    // 12.00 over 26, 22 and 40 of 88: 3.5454, 3.00 and 5.4545; the spare cent to the largest remainder.
    tab.expect_bought(3).await?;
    expect_texts(tab, "[data-thing] .paid", &["3.55", "3.00", "5.45"]).await?;
    expect_shares_add_up(tab).await?;
    stall.expect_sound().await?;

    // As it is on the disk, so it stands, with the server still shut.
    let tab = stall.browser.new_tab().await?;
    tab.open_app(&stall.url).await?;
    tab.expect_bought(3).await?;
    expect_texts(&tab, "[data-thing] .paid", &["3.55", "3.00", "5.45"]).await?;
    expect_shares_add_up(&tab).await?;
    tab.expect_running().await?;
    stall.browser.expect_quiet(&tab).await
}

/// A venue of three brackets, field by field, and the usual one from then on.
async fn venue(tab: &Tab) -> Outcome<()> {
    tab.screen("#/settings/venue/new").await?;
    tab.fill("Name of the venue", "Marlpost").await?;
    tab.tick("Post included").await?;
    tab.fill("Usual postage", "4.50").await?;
    tab.fill("Usual packing", "0.30").await?;
    tab.fill("and on each sale", "0.25").await?;
    tab.press("More charges").await?;
    tab.press("Share of the sale").await?;
    tab.fill("How much", "By the price").await?;
    tab.press("Add a step").await?;
    tab.press("Add a step").await?;
    for (step, from, percent, flat) in [
        ("Step 1", "0", "20", ""),
        ("Step 2", "10", "15", ""),
        ("Step 3", "25", "10", "0.50"),
    ] {
        tab.fill_in(step, "From", from).await?;
        tab.fill_in(step, "takes", percent).await?;
        tab.fill_in(step, "and flat", flat).await?;
    }
    // Less 4.50 and 0.30 for sending it, each time. Of 9.99: 2.00 and 0.25; of 10.00: 1.50 and 0.25; of 24.99: 3.75 (of 3.7485) and
    // 0.25; of 25.00: 2.50, 0.50 and 0.25.
    for (price, keep) in [
        ("9.99", "2.94"),
        ("10", "3.45"),
        ("24.99", "16.19"),
        ("25", "16.95"),
    ] {
        tab.fill("Try a price", price).await?;
        tab.expect_said(&[&format!("sale you keep {keep}, before")])
            .await?;
    }
    let before = tab.saved().await?;
    tab.press("Save venue").await?;
    tab.saved_beyond(before).await?;
    tab.press("Marlpost").await?;
    tab.press("Make it the usual one").await?;
    expect_words(tab, "Your usual venue").await
}

/// A card from a table of five rows, of which two can't be read: they are named, and the other three come in.
async fn rate_card(tab: &Tab) -> Outcome<()> {
    tab.screen("#/settings/card/new").await?;
    tab.fill("Name of the rate card", "Northmail").await?;
    tab.tick("Full").await?;
    tab.press("Paste from a spreadsheet").await?;
    tab.fill("The table", TABLE).await?;
    let complaints = [
        "Row 3: \u{201c}twelve\u{201d} is not a weight.",
        "Row 5: Not heavier than 12 oz, the row before.",
        "2 rows are left out.",
    ];
    for complaint in complaints {
        expect_words(tab, complaint).await?;
    }
    tab.press("Take 3 rows").await?;
    for (row, up_to, near, far) in [
        (1, "8", "3.00", "3.60"),
        (2, "12", "3.50", "4.50"),
        (3, "1 lb", "4.50", "5.50"),
    ] {
        for (label, wanted) in [
            (format!("Up to, row {row}"), up_to),
            (format!("Price, row {row}, zone 2"), near),
            (format!("Price, row {row}, zone 5"), far),
        ] {
            let found = tab.field(&label).await?;
            if found != wanted {
                return wrong(format!("\"{label}\" holds {found:?} and not {wanted:?}"));
            }
        }
    }
    tab.fill("Percent to zone 2", "40").await?;
    tab.fill("Percent to zone 5", "60").await?;
    let before = tab.saved().await?;
    tab.press("Save rate card").await?;
    tab.saved_beyond(before).await.map(drop)
}

/// What was paid for each thing adds up to what was spent.
async fn expect_shares_add_up(tab: &Tab) -> Outcome<()> {
    let mut sum = 0;
    for text in texts(tab, "[data-thing] .paid").await? {
        sum += cents(&text)?;
    }
    // What is kept is as each was judged when it was weighed up, at what it cost: 40.89 less 12.00; if all sell,
    // 15 % of 88.00 more.
    expect_texts(tab, ".haul-sums dd", &["12.00", "3", "42.09", "28.89"]).await?;
    let spent = texts(tab, ".haul-sums dd").await?;
    let spent = cents(spent.first().map_or("", String::as_str))?;
    if sum != spent {
        return wrong(format!("the shares add up to {sum} cents of {spent}"));
    }
    Ok(())
}

/// An amount of two decimals in cents.
fn cents(text: &str) -> Outcome<i64> {
    match text.replace('.', "").parse() {
        Ok(cents) if text.contains('.') => Ok(cents),
        _ => wrong(format!("{text:?} is no amount")),
    }
}
