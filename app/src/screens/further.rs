//! What a verdict and the list of what was bought don't need: served as a module of its own (see `late`). Everything that only this
//! reaches goes there.

use super::{haul, settings};
use crate::route::Route;
use crate::ui::el::Nodes;

/// The screen of a route.
pub fn screen(route: Route) -> Nodes {
    if route.is_haul() {
        haul::page(route)
    } else {
        settings::screen(route)
    }
}
