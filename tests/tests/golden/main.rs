//! Golden texts: the format, held fast. What was once written has to be readable for ever, so these files only ever grow.
//!
//! They lie beside this file. Where the program now writes something else, the tests fail. Is the change meant, and does it only
//! add, then `HAULWREN_GOLDEN=write cargo test -p haulwren-tests --test golden` writes them anew; look at the difference before it
//! goes in. A file that is missing does not compile: make it, empty, first.

mod bad;
mod book;
mod fields;
mod fields_2;
mod fields_3;
mod fields_4;
mod kinds;
mod lines;
mod opens;
mod photos;
mod sealed;
mod story;

#[cfg(not(target_arch = "wasm32"))]
mod spoken;

/// Holds what is written now against a golden text.
macro_rules! golden {
    ($name:literal, $found:expr) => {
        $crate::check($name, include_str!($name), $found)
    };
}
pub(crate) use golden;

fn check(name: &str, golden: &str, found: &str) {
    #[cfg(not(target_arch = "wasm32"))]
    if std::env::var_os("HAULWREN_GOLDEN").is_some_and(|what| what == "write") {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden");
        std::fs::write(path.join(name), found).unwrap();
        return;
    }
    let lines = |text: &str| text.split('\n').map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(lines(found), lines(golden), "{name}");
}
