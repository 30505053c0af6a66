//! The signs, drawn on a 24 by 24 box in the text's colour. All are decoration: the word beside them says the same.

use super::el::{El, svg};

/// A sign.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Icon {
    /// The rail with its gate.
    Decide,
    /// The haul bag.
    Haul,
    /// Two sliders.
    Setup,
    /// Bars of signal, struck out.
    NoSignal,
    /// Saved on this device.
    Saved,
    /// Takes the last sign away.
    Rub,
    /// To the next field.
    Next,
    /// Back.
    Back,
    /// Covers what the seller must not see.
    Cover,
    /// Shows it again.
    Show,
    /// Chosen.
    Tick,
    /// Takes the last save back.
    Undo,
    /// Adds.
    Plus,
    /// Writes a file.
    Save,
    /// Opens what lies under it.
    Turn,
    /// Three slabs.
    Pile,
    /// A tag with its string.
    Tag,
    /// Several things in one.
    Lot,
    /// A camera.
    Camera,
    /// A sheet of paper.
    Sheet,
    /// Something changes.
    Changed,
    /// All is cleared.
    Clear,
    /// Two ways, of which one has to be chosen.
    Fork,
}

fn box_of(side: &str) -> El {
    svg("svg")
        .class("icon")
        .attr("viewBox", side)
        .attr("aria-hidden", "true")
        .attr("focusable", "false")
}

/// Draws a sign.
pub fn sign(icon: Icon) -> El {
    let (line, solid) = match icon {
        Icon::Decide => ("M3 8h18v8H3zM9 8v8M14 3v18M11 21h6", ""),
        Icon::Haul => ("M4 9h16l-2.5 11h-11zM8 9V7a4 4 0 0 1 8 0v2", ""),
        Icon::Setup => ("M3 8h8M17 8h4M3 16h3M12 16h9M14 5v6M9 13v6", ""),
        Icon::NoSignal => ("M4 20v-4M9 20v-8M14 20v-6M19 20V6M3 4l18 16", ""),
        Icon::Saved => ("M7 2h10v20H7zM10 18h4M9 9l2.5 3L15 7", ""),
        Icon::Rub => ("M8 5h14v14H8l-6-7zM11 9l6 6M17 9l-6 6", ""),
        Icon::Next => ("M3 12h17M13 5l7 7-7 7", ""),
        Icon::Back => ("M21 12H4M11 5l-7 7 7 7", ""),
        Icon::Cover => ("M4 4h16v16H4z", "M4 4h16v9H4z"),
        Icon::Show => ("M4 4h16v16H4zM8 14h8", "M4 4h16v5H4z"),
        Icon::Tick => ("M4 12l5 6L20 5", ""),
        Icon::Undo => ("M9 4L4 9l5 5M4 9h10a5.5 5.5 0 0 1 0 11h-3", ""),
        Icon::Plus => ("M12 4v16M4 12h16", ""),
        Icon::Save => ("M12 3v12M6 10l6 6 6-6M4 20h16", ""),
        Icon::Pile => ("", "M8 5h8v4H8zM5 10h14v4H5zM2 15h20v4H2z"),
        Icon::Lot => ("M2 7h20v10H2zM9 7v10M15 7v10", ""),
        Icon::Camera => (
            "M3 7h5l2-3h4l2 3h5v13H3zM12 10a3.5 3.5 0 1 0 0 7a3.5 3.5 0 1 0 0-7",
            "",
        ),
        Icon::Sheet => ("M5 2h10l4 4v16H5zM15 2v4h4M8 11h8M8 15h8", ""),
        Icon::Changed => ("M12 4l9 16H3z", ""),
        Icon::Clear => ("M5 5l14 14M19 5L5 19", ""),
        Icon::Fork => ("M12 21v-7L4 6V3M4 7V3h4M12 14l8-8V3M20 7V3h-4", ""),
        Icon::Tag => ("M8 5h13v14H8l-5-7zM9 12h1", ""),
        Icon::Turn => ("M5 9l7 7 7-7", ""),
    };
    let solid = (!solid.is_empty()).then(|| svg("path").class("solid").attr("d", solid));
    box_of("0 0 24 24")
        .with(svg("path").attr("d", line))
        .with(solid)
}

/// The wren on its perch.
pub fn wren() -> El {
    let line = "M3 28h26M13 28l1-5M18 28l-1-5M4 6l6 8M10 14c1-5 6-6 9-5 4 1 6 4 6 7 0 5-4 8-9 8-6 0-9-3-9-8 0-1 1-2 3-2zM24 12l5 1-4 3M12 17c2 2 5 2 7-1";
    let eye = svg("circle")
        .class("solid")
        .attr("cx", "20.5")
        .attr("cy", "13")
        .attr("r", "1.3");
    box_of("0 0 32 32")
        .with(svg("path").attr("d", line))
        .with(eye)
}
