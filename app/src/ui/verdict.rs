//! The three verdicts as they are shown: name in the page and sign. The word is the core's.

use haulwren_core::appraise::Verdict;
use leptos::prelude::*;

/// The verdict's name for styles and tests.
pub fn name(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Buy => "buy",
        Verdict::Haggle => "haggle",
        Verdict::Leave => "leave",
    }
}

/// The sign of a verdict in a 44 by 44 box: a disc with the haul bag, a diamond with two arrows, a square with a bar.
pub fn sign(verdict: Verdict) -> impl IntoView {
    match verdict {
        Verdict::Buy => view! {
            <circle class="sign-on" cx="22" cy="22" r="22" />
            <path class="sign-in" d="M11 19h22l-3.5 14.5h-15z" />
            <path class="sign-in-line" d="M15.5 20v-3.5a6.5 6.5 0 0 1 13 0V20" />
        }
        .into_any(),
        Verdict::Haggle => view! {
            <path class="sign-on" d="M22 0 44 22 22 44 0 22z" />
            <path class="sign-in-line" d="M13 18h17m-5-6 6 6-2.5 2.5M31 26H14m5 6-6-6 2.5-2.5" />
        }
        .into_any(),
        Verdict::Leave => view! {
            <path class="sign-on" d="M2 2h40v40H2z" />
            <path class="sign-in" d="M10 19h24v6H10z" />
        }
        .into_any(),
    }
}
