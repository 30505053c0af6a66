//! A venue's whole terms in its form: started from a shape, made richer, saved, and found again as they were.

use haulwren_tests::browser::{Engine, Outcome, Tab, Theme, wrong};

use crate::common::Stall;

journeys!(rich_terms => terms_in_chromium Chromium, terms_in_firefox Firefox, terms_in_webkit WebKit);

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

async fn says(tab: &Tab, text: &str) -> Outcome<()> {
    let script = "return document.body.innerText.includes(arguments[0])";
    tab.until_with(&format!("\"{text}\""), script, &[text.into()])
        .await
}

/// Pictures, the accessibility checker, and the size of what is tapped.
async fn look_at(tab: &Tab, screen: &str) -> Outcome<()> {
    if tab.engine().can().devtools {
        tab.pictures(screen).await?;
        tab.theme(Theme::Light).await?;
    }
    tab.expect_accessible_in_both(screen).await?;
    tab.expect_targets(screen).await
}
