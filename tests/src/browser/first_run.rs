//! The first run: currency, then a first venue. The only place that knows the words of those forms.

use super::failure::Outcome;
use super::tab::Tab;

/// A venue as the trader types it in.
#[derive(Debug, Clone, Copy)]
pub struct VenueForm {
    /// What the venue is called.
    pub name: &'static str,
    /// Who pays the postage: that choice's first words.
    pub arrangement: &'static str,
    /// Its percentage.
    pub percent: &'static str,
    /// What the percentage is taken of: that choice's words.
    pub base: &'static str,
    /// Its flat sum on each sale.
    pub flat: &'static str,
    /// The usual postage.
    pub postage: &'static str,
    /// What packing usually costs.
    pub packing: &'static str,
}

/// 10 % of price and post, 0.25 flat, the buyer pays postage on top, usually 4.50, packing 0.30.
pub const QUAYSIDE: VenueForm = VenueForm {
    name: "Quayside",
    arrangement: "+ post",
    percent: "10",
    base: "price and postage",
    flat: "0.25",
    postage: "4.50",
    packing: "0.30",
};

/// 15 % of the price, postage included, usually 4.50, packing 0.30.
pub const MARLPOST: VenueForm = VenueForm {
    name: "Marlpost",
    arrangement: "Post included",
    percent: "15",
    base: "the price",
    flat: "",
    postage: "4.50",
    packing: "0.30",
};

/// The labels of the venue form's fields.
pub const VENUE_FIELDS: [&str; 5] = [
    "Name of the venue",
    "Venue\u{2019}s cut",
    "and on each sale",
    "Usual postage",
    "Usual packing",
];

impl Tab {
    /// Opens the app for the first time, chooses dollars and 8.00 as the least to keep, and enters a first
    /// venue. Ends on Decide.
    ///
    /// # Errors
    /// When a step is not there.
    pub async fn first_run(&self, address: &str, venue: &VenueForm) -> Outcome<()> {
        self.open_app(address).await?;
        self.fill("Currency of your book", "USD").await?;
        self.fill("Smallest profit worth your time", "8").await?;
        self.press("Next: your first venue").await?;
        self.fill_venue(venue).await?;
        self.press("Save venue").await?;
        self.element("button[data-field=\"ask\"]").await?;
        Ok(())
    }

    /// Types a venue into the form on the present screen.
    ///
    /// # Errors
    /// When a field is not there.
    pub async fn fill_venue(&self, venue: &VenueForm) -> Outcome<()> {
        self.tick(venue.arrangement).await?;
        self.tick(venue.base).await?;
        let texts = [
            venue.name,
            venue.percent,
            venue.flat,
            venue.postage,
            venue.packing,
        ];
        // What is not said stays as a new form has it; a venue where things are handed over has no field for postage.
        for (label, text) in VENUE_FIELDS.into_iter().zip(texts) {
            if !text.is_empty() {
                self.fill(label, text).await?;
            }
        }
        Ok(())
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
