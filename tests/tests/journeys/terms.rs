//! A venue's whole terms in its form: started from a shape, made richer, saved, and found again as they were.

use haulwren_tests::browser::{Engine, Outcome, Tab, wrong};

use crate::common::{Stall, look_at};

journeys!(rich_terms => terms_in_chromium Chromium, terms_in_firefox Firefox, terms_in_webkit WebKit);
journeys!(rare_terms => rare_terms_in_chromium Chromium, rare_terms_in_firefox Firefox,
    rare_terms_in_webkit WebKit);

async fn rich_terms(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.screen("#/settings/venue/new").await?;
    tab.fill("Name of the venue", "Marlpost").await?;
    tab.tick("Post included").await?;
    tab.fill("Usual postage", "4.50").await?;
    // The plain case says at once what is kept: 20 less 10 %, 0.25 and the postage.
    tab.fill("Venue\u{2019}s cut", "10").await?;
    tab.fill("and on each sale", "0.25").await?;
    tab.expect_said(&["on a 20.00 sale you keep 13.25"]).await?;
    look_at(tab, "venue-plain").await?;

    tab.press("Start from a shape").await?;
    tab.element("dialog[open] .shape").await?;
    look_at(tab, "venue-shapes").await?;
    tab.press_in("dialog[open]", "Flat under a price").await?;
    // 15 % of 20, and the postage.
    tab.expect_said(&["on a 20.00 sale you keep 12.50"]).await?;
    tab.press("Put my charges back").await?;
    tab.expect_said(&["on a 20.00 sale you keep 13.25"]).await?;
    tab.press("Start from a shape").await?;
    tab.press_in("dialog[open]", "Flat under a price").await?;

    // A small flat sum under 10.00 makes prices to skip: 9.99 pays 9.89, and 85 % of a price reaches that at 11.63.
    tab.press("Share of the sale").await?;
    tab.fill("and flat", "0.10").await?;
    tab.fill("Try a price", "9.99").await?;
    says(tab, "Prices to skip: 10.00 to 11.62 pay less than 9.99.").await?;
    tab.press("Every line").await?;
    look_at(tab, "venue-steps").await?;
    tab.press("Share of the sale").await?;

    // A charge of another one, which is not named yet: the form says so at the field, and nothing is saved.
    tab.press("Add a charge").await?;
    tab.fill("Percent", "20").await?;
    tab.fill("Of what", "Other charges").await?;
    tab.tick("Share of the sale").await?;
    let before = tab.saved().await?;
    tab.press("Save venue").await?;
    tab.expect_complaint("a charge without a name").await?;
    if tab.saved().await? != before {
        return wrong("a charge without a name was saved");
    }
    tab.fill("What it is called", "Tax on it").await?;
    tab.fill("Try a price", "20").await?;
    // A fifth of 3.00 more.
    tab.expect_said(&["on a 20.00 sale you keep 11.90"]).await?;
    tab.press("Limits, conditions, refunds").await?;
    look_at(tab, "venue-charge").await?;
    tab.fill("At most", "0.50").await?;
    tab.expect_said(&["on a 20.00 sale you keep 12.00"]).await?;
    tab.tick("A stated sum").await?;
    tab.fill("The buyer pays", "5").await?;
    tab.expect_said(&["on a 20.00 sale you keep 17.00"]).await?;
    tab.press("Save venue").await?;
    tab.saved_beyond(before).await?;

    // As it was saved, so it stands.
    tab.press("Marlpost").await?;
    says(tab, "These terms hold since").await?;
    tab.expect_said(&["on a 20.00 sale you keep 17.00"]).await?;
    tab.press("Tax on it").await?;
    for (label, wanted) in [
        ("At most", "0.50"),
        ("Percent", "20"),
        ("The buyer pays", "5.00"),
    ] {
        let found = tab.field(label).await?;
        if found != wanted {
            return wrong(format!(
                "\"{label}\" came back as {found:?}, not {wanted:?}"
            ));
        }
    }
    look_at(tab, "venue-saved").await?;
    // The accessibility checker breaks the page's own policy, so not all that is usual can be asked for.
    tab.expect_running().await?;
    stall.browser.expect_no_other_host()
}

/// Every sort of field that the other journey leaves out: limits on several charges, tables by the month's sales, regions and
/// kinds, a label by weight that both pay for, postage that is free from a sum on.
async fn rare_terms(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.screen("#/settings/venue/new").await?;
    tab.fill("Name of the venue", "Marlpost").await?;
    tab.press("Start from a shape").await?;
    tab.press_in("dialog[open]", "Tax on the charges").await?;
    // 20 less 10 %, 0.25, and a fifth of both.
    tab.expect_said(&["on a 20.00 sale you keep 17.30"]).await?;
    tab.press("Limit several charges together").await?;
    tab.fill("What it is called", "Never over").await?;
    tab.tick("Share of the sale").await?;
    tab.tick("Flat charge").await?;
    tab.fill("At most", "1.50").await?;
    // The tax is of what the limit makes of them: 20 less 1.50 and 0.30.
    tab.expect_said(&["on a 20.00 sale you keep 18.20"]).await?;
    look_at(tab, "venue-limit").await?;
    tab.press("Remove this limit").await?;

    tab.tick("The venue\u{2019}s label").await?;
    tab.fill("What a label costs", "By weight").await?;
    tab.fill("Up to", "12 oz").await?;
    tab.fill("costs", "4.50").await?;
    tab.fill("Who pays for it", "Both").await?;
    tab.fill("The buyer\u{2019}s share", "40").await?;
    tab.expect_said(&["what the parcel weighs"]).await?;
    tab.fill("It weighs", "9 oz").await?;
    // The buyer pays 1.80 of the label: 21.80 less 10 % of it, 0.25, a fifth of both, and 4.50.
    tab.expect_said(&["on a 20.00 sale you keep 14.38"]).await?;
    tab.tick("Free for large orders").await?;
    tab.fill("Orders of at least", "20").await?;
    tab.expect_said(&["on a 20.00 sale you keep 12.80"]).await?;
    look_at(tab, "venue-label").await?;

    tab.press("Flat charge").await?;
    tab.fill("How much", "By the month").await?;
    tab.fill("From", "0").await?;
    tab.fill("takes", "1").await?;
    tab.press("Limits, conditions, refunds").await?;
    tab.press("Only for some regions").await?;
    tab.fill("Only for buyers in", "North").await?;
    tab.press("For every kind of thing").await?;
    tab.tick("Owed though nothing sells").await?;
    look_at(tab, "venue-table").await?;
    // Not for this buyer, so far; then 0.20 more, and a fifth of that.
    tab.expect_said(&["on a 20.00 sale you keep 13.10"]).await?;
    tab.fill("The buyer is in", "north").await?;
    tab.expect_said(&["on a 20.00 sale you keep 12.86"]).await?;
    let before = tab.saved().await?;
    tab.press("Save venue").await?;
    tab.saved_beyond(before).await?;
    tab.press("Marlpost").await?;
    tab.fill("It weighs", "9 oz").await?;
    tab.expect_said(&["on a 20.00 sale you keep 13.10"]).await?;
    tab.expect_running().await?;
    stall.browser.expect_no_other_host()
}

async fn says(tab: &Tab, text: &str) -> Outcome<()> {
    let script = "return document.body.innerText.includes(arguments[0])";
    tab.until_with(&format!("\"{text}\""), script, &[text.into()])
        .await
}
