//! The three verdicts as they are shown: name in the page and sign. The word is the core's.

use haulwren_core::appraise::Verdict;

use super::el::{El, svg};

/// The verdict's name for styles and tests.
pub fn name(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Buy => "buy",
        Verdict::Haggle => "haggle",
        Verdict::Leave => "leave",
    }
}

/// Both sides of the box of a sign.
pub const SIGN_BOX: f64 = 44.0;

/// The sign of a verdict in its box: a disc with the haul bag, a diamond with two arrows, a square with a bar.
pub fn sign(verdict: Verdict) -> El {
    let path = |class: &str, d: &str| svg("path").class(class).attr("d", d);
    let group = svg("g").class(&format!("sign of-{}", name(verdict)));
    match verdict {
        Verdict::Buy => group
            .with(
                svg("circle")
                    .class("sign-on")
                    .attr("cx", "22")
                    .attr("cy", "22")
                    .attr("r", "22"),
            )
            .with(path("sign-in", "M11 19h22l-3.5 14.5h-15z"))
            .with(path("sign-in-line", "M15.5 20v-3.5a6.5 6.5 0 0 1 13 0V20")),
        Verdict::Haggle => group
            .with(path("sign-on", "M22 0 44 22 22 44 0 22z"))
            .with(path(
                "sign-in-line",
                "M13 18h17m-5-6 6 6-2.5 2.5M31 26H14m5 6-6-6 2.5-2.5",
            )),
        Verdict::Leave => group
            .with(path("sign-on", "M2 2h40v40H2z"))
            .with(path("sign-in", "M10 19h24v6H10z")),
    }
}
