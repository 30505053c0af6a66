//! Times in Chromium on a processor slowed down four times.

fn main() {}
