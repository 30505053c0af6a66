//! Size and heft as pictures: the outline to scale, the fill is the heft.

use haulwren_core::packing::Heft;

use super::el::{El, svg};

/// The picture, in a 44 by 24 box.
pub fn picture(heft: Heft) -> El {
    let (outline, fill) = match heft {
        Heft::FlatSoft => ("M4 14c6-5 9 2 14-1s9-4 22 0v5H4z", "M4 17h36v1H4z"),
        Heft::FoldedSoft => ("M6 8h32v11H6zM6 13c9-3 20 3 32 0", "M6 15h32v4H6z"),
        Heft::ShoeboxLight => ("M13 7h18v12H13z", "M13 18h18v1H13z"),
        Heft::ShoeboxHeavy => ("M13 7h18v12H13z", "M13 8h18v11H13z"),
        Heft::BigLight => ("M9 2h26v20H9z", "M9 20h26v2H9z"),
        Heft::BigHeavy => ("M9 2h26v20H9z", "M9 3h26v19H9z"),
    };
    svg("svg")
        .class("heft-picture")
        .attr("viewBox", "0 0 44 24")
        .attr("aria-hidden", "true")
        .with(svg("path").attr("d", outline))
        .with(svg("path").class("solid").attr("d", fill))
}
