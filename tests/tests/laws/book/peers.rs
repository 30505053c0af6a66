//! Five devices and their files: whatever is read in whatever order, and taken out again, all have the same book once all have all.

use super::model::{self, Said};
use super::network::{Network, Peer, events};
use super::replicas::in_storage;
use haulwren_core::change::Change;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// The book as the model works it out from the lines that a device should hold.
fn is_as_it_should(peer: &mut Peer) -> Result<(), TestCaseError> {
    let lines: BTreeSet<String> = peer.device.log.iter().map(Change::line).collect();
    prop_assert_eq!(&lines, &peer.should);
    prop_assert_eq!(lines.len(), peer.device.log.len());
    let said: Vec<Said> = peer.should.iter().map(|line| Said::read(line)).collect();
    let records = peer.device.records();
    let held = in_storage(&mut peer.device.state, records);
    prop_assert_eq!(held, model::outcomes(&said));
    prop_assert_eq!(&peer.device.fresh().tables, &peer.device.state.tables);
    Ok(())
}

proptest! {
    #![proptest_config(crate::tries(48))]

    #[test]
    fn five_devices_that_have_all_have_the_same(events in events(120)) {
        let mut network = Network::of(5);
        network.play(&events)?;
        for peer in &mut network.peers {
            is_as_it_should(peer)?;
        }
        network.settle()?;
        for peer in &mut network.peers {
            is_as_it_should(peer)?;
        }
        let first = &network.peers[0].device.state;
        for other in network.peers.iter().map(|peer| &peer.device.state).skip(1) {
            // Records and disputes, how far each device is known, and the clock.
            prop_assert_eq!(&other.tables, &first.tables);
            prop_assert_eq!(&other.vector, &first.vector);
            prop_assert_eq!(&other.clock, &first.clock);
            prop_assert_eq!(other.attention(), first.attention());
        }
    }
}

/// The networks do what they are for: files come out of order and are refused, and imports are taken out.
#[test]
fn files_do_come_late_and_imports_are_taken_out() {
    use proptest::strategy::{Strategy as _, ValueTree as _};
    let mut runner = proptest::test_runner::TestRunner::new(crate::tries(1));
    let mut told = [0; 3];
    for _ in 0..20 {
        let events = events(120).new_tree(&mut runner).unwrap().current();
        let mut network = Network::of(5);
        network.play(&events).unwrap();
        for (sum, more) in told.iter_mut().zip(network.told) {
            *sum += more;
        }
    }
    let [read, refused, taken_out] = told;
    assert!(read > 100 && refused > 0 && taken_out > 4, "{told:?}");
}
