//! Hybrid logical stamps.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::id::DeviceCode;
use haulwren_core::stamp::{Clock, Stamp};

fn device(code: &str) -> DeviceCode {
    code.parse().unwrap()
}

/// Kulkarni, Demirbas, Madappa, Avva, Leone, "Logical Physical Clocks" (2014), figure 5 (rules S2, trace R): a local event takes
/// the greater of clock and last stamp, and counts up while the clock does not move it.
#[test]
fn local_stamps_follow_the_rules_of_the_paper() {
    let mut clock = Clock::default();
    let stamped = [100, 100, 99, 50, 101, 101].map(|reading| {
        let stamp = clock.tick(reading, device("aaaaaaaa"));
        (stamp.ms, stamp.counter)
    });
    assert_eq!(
        stamped,
        [(100, 0), (100, 1), (100, 2), (100, 3), (101, 0), (101, 1)]
    );
}

/// The same paper, receiving (rules S2, trace R): after (20,9) the message (25,2) comes, and the clock reads 22, then 30.
#[test]
fn a_stamp_after_a_message_is_greater_than_the_message() {
    let (here, there) = (device("aaaaaaaa"), device("bbbbbbbb"));
    let stamp = |ms, counter, device| Stamp {
        ms,
        counter,
        device,
    };
    let mut clock = Clock::default();
    clock.observe(stamp(20, 9, here));
    clock.observe(stamp(25, 2, there));
    assert_eq!(clock.tick(22, here), stamp(25, 3, here));
    assert_eq!(clock.tick(30, here), stamp(30, 0, here));
}

/// The paper orders by time and counter only (S2). Two devices can draw the same of both, so ours are told apart by the device.
#[test]
fn equal_times_and_counters_are_told_apart_by_the_device() {
    let [here, there] = ["aaaaaaaa", "bbbbbbbb"].map(|code| Clock::default().tick(7, device(code)));
    assert_eq!((here.ms, here.counter), (there.ms, there.counter));
    assert!(here < there && here.to_string() < there.to_string());
}
