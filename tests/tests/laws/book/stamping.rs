//! Stamps grow, whatever the clock does; numbers have no holes.

use super::device::Device;
use super::program::programs;
use haulwren_core::id::DeviceCode;
use haulwren_core::stamp::{Clock, LAST_MS, Stamp};
use proptest::collection::vec;
use proptest::prelude::*;

/// A reading of the own clock, or a stamp of somebody else's.
#[derive(Clone, Debug)]
enum Event {
    Tick(u64),
    Observe(u64, u16),
}

fn events() -> impl Strategy<Value = Vec<Event>> {
    // Short of the end of time by more than all counters of a run can carry.
    let ms = || prop_oneof![0_u64..5, 0..LAST_MS - 1_000];
    let counter = prop_oneof![0_u16..3, u16::MAX - 2..=u16::MAX];
    let observe = (ms(), counter).prop_map(|(ms, counter)| Event::Observe(ms, counter));
    let far = any::<u64>().prop_map(|now| Event::Tick(now % (LAST_MS - 1_000)));
    vec(
        prop_oneof![4 => ms().prop_map(Event::Tick), 2 => observe, 1 => far],
        1..60,
    )
}

proptest! {
    #![proptest_config(crate::tries(512))]

    #[test]
    fn every_stamp_is_greater_than_all_before_it(events in events()) {
        let [me, other]: [DeviceCode; 2] = ["aaaaaaaa", "zzzzzzzz"].map(|code| code.parse().unwrap());
        let mut clock = Clock::default();
        let mut greatest: Option<(u64, u16)> = None;
        let mut text = String::new();
        for event in events {
            match event {
                Event::Observe(ms, counter) => {
                    clock.observe(Stamp { ms, counter, device: other });
                    greatest = greatest.max(Some((ms, counter)));
                }
                Event::Tick(now) => {
                    let stamp = clock.tick(now, me);
                    prop_assert!(greatest.is_none_or(|before| before < (stamp.ms, stamp.counter)));
                    prop_assert!(stamp.ms >= now, "never behind the clock");
                    prop_assert!(stamp.to_string() > text, "texts sort as stamps do");
                    prop_assert_eq!(stamp.to_string().parse(), Ok(stamp));
                    (greatest, text) = (Some((stamp.ms, stamp.counter)), stamp.to_string());
                }
            }
        }
    }

    #[test]
    fn numbers_of_a_device_have_no_holes_and_saves_are_runs_of_them(program in programs(30)) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer, and takes no number.
            drop(device.run(timed));
        }
        for (place, change) in (1..).zip(&device.log) {
            prop_assert_eq!(change.key.seq, place);
            prop_assert!(change.save <= place && device.saves().contains(&change.save));
        }
        prop_assert!(device.log.is_sorted_by(|one, next| one.stamp < next.stamp && one.save <= next.save));
        prop_assert_eq!(device.state.head(), u64::try_from(device.log.len()).unwrap());
    }
}
