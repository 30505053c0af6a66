//! Starts the app.

fn main() {
    haulwren::run();
}
