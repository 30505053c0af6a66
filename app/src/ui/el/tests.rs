//! Elements in a real browser: they follow signals, and what was replaced runs no more.

use super::*;
use crate::live::Live;
use leptos::prelude::Owner;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen_test::wasm_bindgen_test;

fn owned<R>(run: impl FnOnce() -> R) -> (R, Owner) {
    let started = any_spawner::Executor::init_wasm_bindgen();
    drop(started); // Another test may have started it already.
    let owner = Owner::new();
    (owner.with(run), owner)
}

#[wasm_bindgen_test]
async fn texts_attributes_and_regions_follow_signals() {
    let ((root, count), _owner) = owned(|| {
        let count = Live::new(0);
        let root = div("root")
            .attr_of("title", move || {
                (count.get() > 0).then(|| count.get().to_string())
            })
            .class_if("some", move || count.get() > 0)
            .show(move || {
                (0..count.get())
                    .map(|n| span("n").with(n.to_string()))
                    .collect::<Vec<_>>()
            })
            .text_of(move || format!("of {}", count.get()));
        (root, count)
    });
    assert_eq!(
        root.element().outer_html(),
        r#"<div class="root"><!---->of 0</div>"#
    );
    count.set(2);
    leptos::task::tick().await;
    let shown = r#"<div class="root some" title="2"><span class="n">0</span><span class="n">1</span><!---->of 2</div>"#;
    assert_eq!(root.element().outer_html(), shown);
    count.set(0);
    leptos::task::tick().await;
    assert_eq!(
        root.element().outer_html(),
        r#"<div class="root"><!---->of 0</div>"#
    );
}

#[wasm_bindgen_test]
async fn what_a_region_replaced_no_longer_runs() {
    let ran = Rc::new(Cell::new(0));
    let counted = ran.clone();
    let ((_root, outer, inner), owner) = owned(|| {
        let (outer, inner) = (Live::new(0), Live::new(0));
        let root = div("").show(move || {
            outer.track();
            let counted = counted.clone();
            span("").text_of(move || {
                counted.set(counted.get() + 1);
                inner.get().to_string()
            })
        });
        (root, outer, inner)
    });
    outer.set(1);
    leptos::task::tick().await;
    assert_eq!(ran.get(), 2);
    inner.set(1);
    leptos::task::tick().await;
    assert_eq!(ran.get(), 3, "only the new inside follows");
    drop(owner);
    inner.set(2);
    leptos::task::tick().await;
    assert_eq!(ran.get(), 3, "nothing follows once the owner is gone");
}
