//! Which screen: read from the address behind `#`, so that the app works under any path and from a cold link.

use crate::live::Live;
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

use gloo::events::EventListener;
use haulwren_core::change::RecordKey;
use haulwren_core::id::{CardId, ContainerId, KindId, LotId, StopId, ThingId, TripId, VenueId};
use haulwren_core::kind::RecordKind;
use leptos::prelude::*;
use uuid::Uuid;

/// A screen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Route {
    /// The verdict.
    #[default]
    Decide,
    /// What is weighed up but not yet bought.
    Pile,
    /// What was bought.
    Haul,
    /// One thing and its history.
    Thing(ThingId),
    /// One lot, and how its price is shared.
    Lot(LotId),
    /// A lot that is sorted later.
    NewLot,
    /// All trips.
    Trips,
    /// One trip: its stops and its purse.
    Trip(TripId),
    /// One stop.
    Stop(StopId),
    /// What was bought, to take home: tables, sheets, files.
    TakeHome,
    /// The sheet of a trip, to print.
    Sheet(TripId),
    /// The record of what was paid at a stop, to print.
    Record(StopId),
    /// Venues, house rules, storage.
    Settings,
    /// One venue's form; `None` adds one.
    Venue(Option<VenueId>),
    /// Rate cards, containers and kinds.
    Postage,
    /// One rate card's form; `None` adds one.
    Card(Option<CardId>),
    /// One container's form; `None` adds one.
    Container(Option<ContainerId>),
    /// One kind's form; `None` adds one.
    Kind(Option<KindId>),
    /// The pocket card.
    Pocket,
    /// First start.
    First,
    /// A book file from another device, before there is a book here.
    BookFile,
    /// The devices that keep this book, and what this one keeps.
    Devices,
    /// What no rule can settle.
    Attention,
}

impl Route {
    /// The address behind `#`.
    pub fn path(self) -> String {
        match self {
            Self::Decide => "/decide".to_owned(),
            Self::Pile => "/pile".to_owned(),
            Self::Haul => "/haul".to_owned(),
            Self::Thing(id) => format!("/haul/{id}"),
            Self::Lot(id) => under("lot", id.0),
            Self::NewLot => "/haul/new-lot".to_owned(),
            Self::Trips => "/haul/trips".to_owned(),
            Self::Trip(id) => under("trip", id.0),
            Self::Stop(id) => under("stop", id.0),
            Self::TakeHome => "/haul/take-home".to_owned(),
            Self::Sheet(id) => under("sheet", id.0),
            Self::Record(id) => under("record", id.0),
            Self::Settings => "/settings".to_owned(),
            Self::Venue(None) => "/settings/venue/new".to_owned(),
            Self::Venue(Some(id)) => format!("/settings/venue/{id}"),
            Self::Postage => "/settings/postage".to_owned(),
            Self::Card(id) => setup("card", id.map(|id| id.0)),
            Self::Container(id) => setup("container", id.map(|id| id.0)),
            Self::Kind(id) => setup("kind", id.map(|id| id.0)),
            Self::Pocket => "/pocket".to_owned(),
            Self::First => "/first".to_owned(),
            Self::BookFile => "/book-file".to_owned(),
            Self::Devices => "/devices".to_owned(),
            Self::Attention => "/attention".to_owned(),
        }
    }

    /// Whether it belongs to the haul.
    pub const fn is_haul(self) -> bool {
        matches!(
            self,
            Self::Haul
                | Self::Thing(_)
                | Self::Lot(_)
                | Self::NewLot
                | Self::Trips
                | Self::Trip(_)
                | Self::Stop(_)
                | Self::TakeHome
                | Self::Sheet(_)
                | Self::Record(_)
        )
    }

    /// Where a record can be looked at: on its page, where one is declared.
    pub fn of(record: &RecordKey) -> Self {
        let id = record.id;
        match record.kind {
            RecordKind::Thing => Self::Thing(ThingId(id)),
            RecordKind::Lot => Self::Lot(LotId(id)),
            RecordKind::Stop => Self::Stop(StopId(id)),
            RecordKind::Trip => Self::Trip(TripId(id)),
            RecordKind::Venue => Self::Venue(Some(VenueId(id))),
            RecordKind::Card => Self::Card(Some(CardId(id))),
            RecordKind::Container => Self::Container(Some(ContainerId(id))),
            RecordKind::Kind => Self::Kind(Some(KindId(id))),
            RecordKind::Book
            | RecordKind::Device
            | RecordKind::Rules
            | RecordKind::Terms
            | RecordKind::Passed
            | RecordKind::Cash
            | RecordKind::Work
            | RecordKind::Worked
            | RecordKind::Photo
            | RecordKind::Unknown(_) => Self::Settings,
        }
    }

    /// A link's target.
    pub fn href(self) -> String {
        format!("#{}", self.path())
    }

    /// Reads an address. What leads nowhere leads to Decide.
    pub fn parse(path: &str) -> Self {
        let parts: Vec<&str> = path.split('/').filter(|part| !part.is_empty()).collect();
        match parts[..] {
            ["pile"] => Self::Pile,
            ["haul"] => Self::Haul,
            ["haul", "new-lot"] => Self::NewLot,
            ["haul", "trips"] => Self::Trips,
            ["haul", "take-home"] => Self::TakeHome,
            ["haul", "lot", id] => id.parse().map_or(Self::Haul, Self::Lot),
            ["haul", "trip", id] => id.parse().map_or(Self::Haul, Self::Trip),
            ["haul", "stop", id] => id.parse().map_or(Self::Haul, Self::Stop),
            ["haul", "sheet", id] => id.parse().map_or(Self::Haul, Self::Sheet),
            ["haul", "record", id] => id.parse().map_or(Self::Haul, Self::Record),
            ["haul", id] => id.parse().map_or(Self::Haul, Self::Thing),
            ["settings"] => Self::Settings,
            ["settings", "venue", "new"] => Self::Venue(None),
            ["settings", "venue", id] => id
                .parse()
                .map_or(Self::Settings, |id| Self::Venue(Some(id))),
            ["settings", "postage"] => Self::Postage,
            ["settings", "card", id] => one_of(id, |id| Self::Card(id.map(CardId))),
            ["settings", "container", id] => one_of(id, |id| Self::Container(id.map(ContainerId))),
            ["settings", "kind", id] => one_of(id, |id| Self::Kind(id.map(KindId))),
            ["pocket"] => Self::Pocket,
            ["first"] => Self::First,
            ["book-file"] => Self::BookFile,
            ["devices"] => Self::Devices,
            ["attention"] => Self::Attention,
            _ => Self::Decide,
        }
    }
}

/// The address of something in the haul.
fn under(kind: &str, id: Uuid) -> String {
    ["/haul/", kind, "/", &id.to_string()].concat()
}

/// The address of a form in the settings.
fn setup(kind: &str, id: Option<Uuid>) -> String {
    let id = id.map_or_else(|| "new".to_owned(), |id| id.to_string());
    ["/settings/", kind, "/", &id].concat()
}

/// The form of one, or of a new one; an id that is none leads to the list.
fn one_of(id: &str, route: fn(Option<Uuid>) -> Route) -> Route {
    if id == "new" {
        return route(None);
    }
    id.parse().map_or(Route::Postage, |id| route(Some(id)))
}

thread_local! {
    static NOW: OnceCell<Live<Route>> = const { OnceCell::new() };
    static HELD: RefCell<Option<(Route, Rc<Stays>)>> = const { RefCell::new(None) };
}

/// Told where a way leads, says whether the screen stays. Then it is for it to go there later, in place of the present address.
pub type Stays = dyn Fn(Route) -> bool;

/// Asks `stays` before every way off a screen, the browser's own included. The next screen that asks takes its place.
pub fn hold(screen: Route, stays: Rc<Stays>) {
    HELD.replace(Some((screen, stays)));
}

/// Follows the address as long as the page lives. Called once, where nothing is ever cleaned up.
pub fn follow() {
    let now = Live::new(read());
    let following = EventListener::new(&window(), "hashchange", move |_| {
        let (here, next) = (now.get_untracked(), read());
        let held = HELD.with_borrow(Clone::clone);
        let asks = held.filter(|(of, _)| *of == here && next != here);
        match asks {
            Some((_, stays)) if stays(next) => replace(here),
            _ => now.set(next),
        }
    });
    following.forget();
    let is_first = NOW.with(|place| place.set(now)).is_ok();
    debug_assert!(is_first, "followed once");
}

/// The current route; follows it.
///
/// # Panics
/// When the address is not followed yet.
pub fn now() -> Route {
    let now = NOW.with(|now| now.get().copied());
    now.expect("the address is followed from the start").get()
}

/// Goes to a screen; the one before is a step back.
pub fn go(route: Route) {
    let gone = window().location().set_hash(&route.path());
    debug_assert!(gone.is_ok(), "an address on this page");
}

/// Goes to a screen in place of this one.
pub fn replace(route: Route) {
    let gone = window().location().replace(&route.href());
    debug_assert!(gone.is_ok(), "an address on this page");
}

/// The route that the address says. Paths hold only signs that an address leaves as they are.
fn read() -> Route {
    let hash = window().location().hash().unwrap_or_default();
    Route::parse(hash.trim_start_matches('#'))
}

#[cfg(test)]
mod tests {
    use super::*;
    use haulwren_core::book::Look;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn every_kind_with_a_page_has_a_route_of_its_own() {
        for kind in RecordKind::ALL {
            let id = Uuid::nil();
            let kind = kind.clone();
            let look = kind.declared().map(|declared| declared.look);
            let has_route = Route::of(&RecordKey { kind, id }) != Route::Settings;
            assert_eq!(look == Some(Look::Page), has_route, "{look:?}");
        }
    }

    #[wasm_bindgen_test]
    fn every_route_reads_back_from_its_path() {
        let routes = [
            Route::Decide,
            Route::Pile,
            Route::Haul,
            Route::Thing(ThingId::SINGLE),
            Route::Lot(LotId::SINGLE),
            Route::NewLot,
            Route::Trips,
            Route::Trip(TripId::SINGLE),
            Route::Stop(StopId::SINGLE),
            Route::TakeHome,
            Route::Sheet(TripId::SINGLE),
            Route::Record(StopId::SINGLE),
            Route::Settings,
            Route::Venue(None),
            Route::Venue(Some(VenueId::SINGLE)),
            Route::Postage,
            Route::Card(None),
            Route::Card(Some(CardId::SINGLE)),
            Route::Container(None),
            Route::Container(Some(ContainerId::SINGLE)),
            Route::Kind(None),
            Route::Kind(Some(KindId::SINGLE)),
            Route::Pocket,
            Route::First,
            Route::BookFile,
            Route::Devices,
            Route::Attention,
        ];
        for route in routes {
            assert_eq!(Route::parse(&route.path()), route);
        }
        assert_eq!(Route::parse("/nowhere/at/all"), Route::Decide);
        assert_eq!(Route::parse("/haul/not-an-id"), Route::Haul);
        assert_eq!(Route::parse("/settings/card/not-an-id"), Route::Postage);
    }
}
