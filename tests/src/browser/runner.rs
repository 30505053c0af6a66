//! Running one journey as one test.

use std::future::Future;

use super::failure::Outcome;

/// Runs a journey to its end on a runtime of its own.
///
/// # Panics
/// With the failure's own words, so that the test fails by them.
pub fn run(journey: impl Future<Output = Outcome<()>>) {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build();
    let outcome = match runtime {
        Ok(runtime) => runtime.block_on(journey),
        Err(problem) => panic!("no runtime: {problem}"),
    };
    if let Err(failure) = outcome {
        panic!("{failure}");
    }
}
