//! Half-typed forms of rate cards, containers and kinds, by the address of their page.

use super::Store;
use haulwren_core::view::SetupForm;

impl Store {
    /// Reads a page's half-typed form. Tracks it.
    pub fn setup_draft<R>(self, page: &str, read: impl FnOnce(Option<&SetupForm>) -> R) -> R {
        self.drafts.with(|drafts| {
            let found = drafts.setups.iter().find(|(of, _)| of == page);
            read(found.map(|(_, form)| form))
        })
    }

    /// Changes a page's half-typed form, which begins as `stored`.
    pub fn edit_setup_draft(
        self,
        page: &str,
        stored: &dyn Fn() -> SetupForm,
        change: &mut dyn FnMut(&mut SetupForm),
    ) {
        self.edit_drafts(|drafts| {
            let place = drafts.setups.iter().position(|(of, _)| of == page);
            let place = place.unwrap_or_else(|| {
                drafts.setups.push((page.to_owned(), stored()));
                drafts.setups.len() - 1
            });
            change(&mut drafts.setups[place].1);
        });
    }

    /// Gives a page's half-typed form up.
    pub fn drop_setup_draft(self, page: &str) {
        self.edit_drafts(|drafts| drafts.setups.retain(|(of, _)| of != page));
    }
}
