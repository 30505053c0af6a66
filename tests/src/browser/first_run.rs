//! The first run: currency, then a first venue. The only place that knows the words of those forms.

use super::failure::Outcome;
use super::tab::Tab;

/// A venue as the trader types it in.
#[derive(Debug, Clone, Copy)]
pub struct VenueForm {
    /// What the venue is called.
    pub name: &'static str,
    /// Its percentage.
    pub percent: &'static str,
    /// What the percentage is taken of: the value of that choice.
    pub percent_of: &'static str,
    /// Its flat sum per thing.
    pub flat: &'static str,
    /// Who pays the postage: the value of that choice.
    pub postage_by: &'static str,
    /// The usual postage.
    pub postage: &'static str,
    /// What packing costs.
    pub packing: &'static str,
}

/// 10 % of price and post, 0.25 flat, the buyer pays postage on top, usually 4.50, packing 0.30.
pub const QUAYSIDE: VenueForm = VenueForm {
    name: "Quayside",
    percent: "10",
    percent_of: "price-and-post",
    flat: "0.25",
    postage_by: "on-top",
    postage: "4.50",
    packing: "0.30",
};

/// 15 % of the price, postage included, usually 4.50, packing 0.30.
pub const MARLPOST: VenueForm = VenueForm {
    name: "Marlpost",
    percent: "15",
    percent_of: "price",
    flat: "0",
    postage_by: "included",
    postage: "4.50",
    packing: "0.30",
};

impl Tab {
    /// Opens the app for the first time, chooses dollars and enters a first venue. Ends on Decide.
    ///
    /// # Errors
    /// When a step is not there.
    pub async fn first_run(&self, address: &str, venue: &VenueForm) -> Outcome<()> {
        self.open_app(address).await?;
        self.until(
            "the first screen",
            "return location.hash.startsWith(\"#/first\")",
        )
        .await?;
        self.fill("Currency", "USD").await?;
        self.fill_venue(venue).await?;
        let before = self.saved().await?;
        self.press("Start").await?;
        self.saved_beyond(before).await?;
        self.until("Decide", "return location.hash === \"#/decide\"")
            .await?;
        self.element("button[data-key=\"buy\"]").await?;
        Ok(())
    }

    /// Types a venue into the form on the present screen.
    ///
    /// # Errors
    /// When a field is not there.
    pub async fn fill_venue(&self, venue: &VenueForm) -> Outcome<()> {
        self.fill("Name", venue.name).await?;
        self.fill("Percent", venue.percent).await?;
        self.fill("Percent of", venue.percent_of).await?;
        self.fill("Flat sum", venue.flat).await?;
        self.fill("Postage", venue.postage_by).await?;
        self.fill("Usual postage", venue.postage).await?;
        self.fill("Packing", venue.packing).await
    }

    /// Waits until the whole app is kept on the device, so that it works with the server shut.
    ///
    /// # Errors
    /// At the deadline.
    pub async fn offline_ready(&self) -> Outcome<()> {
        let script = "return document.documentElement.dataset.offline === \"ready\"";
        self.until("the app to be kept for offline use", script)
            .await
    }
}
