//! Journeys in real browsers: what a trader does, from the first visit on, written once for all engines.
//!
//! They need the built app; `cargo xtask test` builds it and says where it lies. Each journey has its own
//! server, browser and profile, so that they run side by side.

mod common;
mod golden;
/// The merge written from the prose of the format, which the laws hold the core against.
#[path = "../laws/book/model.rs"]
mod model;

/// Makes one test per engine out of a journey.
macro_rules! journeys {
    ($walk:path => $($name:ident $engine:ident),+ $(,)?) => {
        $(
            #[test]
            fn $name() {
                haulwren_tests::browser::run($walk(haulwren_tests::browser::Engine::$engine));
            }
        )+
    };
}

/// The same, drawn with fonts of another height or width.
macro_rules! in_fonts {
    ($walk:path => $engine:ident, $($name:ident $fonts:ident),+ $(,)?) => {
        $(
            #[test]
            fn $name() {
                haulwren_tests::browser::run($walk(
                    haulwren_tests::browser::Engine::$engine,
                    haulwren_tests::browser::Fonts::$fonts,
                ));
            }
        )+
    };
}

mod access;
mod bad_input;
mod best_venue;
mod by_hand;
mod corrections;
mod faults;
mod figures;
mod first_book;
mod frame;
mod full_disk;
mod half_typed;
mod heights;
mod home;
mod import_faults;
mod import_kill;
mod kept;
mod kill;
mod kit;
mod late;
mod less_stored;
mod looks;
mod outing;
mod paper;
mod phone;
mod pile;
mod png;
mod pocket;
mod postage;
mod price_chosen;
mod rescue;
mod sample;
mod saturday;
mod schema;
mod sealed;
mod second_copy;
mod sent_pictures;
mod sober;
mod storage;
mod sums;
mod table;
mod terms;
mod three_devices;
mod touches;
mod two_devices;
mod two_tabs;
mod undo_kill;
mod update;
