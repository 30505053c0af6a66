//! Steps of random programs that mend: settling disputes, going back to earlier values, sending the cures of what needs the trader.

use super::device::Device;
use haulwren_core::book::{Command, Refusal};
use haulwren_core::view::{Cure, attention, dispute, history_of};

/// What settles one of the disputes on one of the choices that can be read here.
pub fn settle(device: &Device, which: u8, choice: u8) -> Result<Command, Refusal> {
    let disputed = device.state.disputed();
    let (record, field) = one_of(&disputed, which).ok_or(Refusal::NoDispute)?;
    let changes = device.changes_to(record);
    let found =
        dispute(&device.state, record, field, &changes).expect("what is listed can be shown");
    let place = usize::from(choice) % found.choices.len();
    Ok(found.settle(place).expect("a choice"))
}

/// What goes back to one of the lines of the history of one of the records.
pub fn back(device: &Device, which: u8, line: u8) -> Result<Command, Refusal> {
    let records: Vec<_> = device.records().into_iter().collect();
    let record = one_of(&records, which).ok_or(Refusal::NoEntry)?;
    let told = history_of(&device.state, record, device.changes_to(record));
    let lines = told.into_iter().flat_map(|saying| saying.lines);
    let ways: Vec<Command> = lines.filter_map(|line| line.back).collect();
    one_of(&ways, line).cloned().ok_or(Refusal::NoChange)
}

/// The cure of one of the things that need the trader.
pub fn cure(device: &Device, which: u8) -> Result<Command, Refusal> {
    let list = attention(&device.state);
    let cures = list.into_iter().filter_map(|of| match of.cure {
        Cure::Tell(command) => Some(*command),
        Cure::Settle(..) | Cure::Look(_) => None,
    });
    let cures: Vec<Command> = cures.collect();
    one_of(&cures, which).cloned().ok_or(Refusal::NoChange)
}

fn one_of<T>(all: &[T], which: u8) -> Option<&T> {
    all.get(usize::from(which) % all.len().max(1))
}
