//! What several devices bring about: disputes to settle, values to go back to, books and names to make one of.

use super::super::command::Context;
use super::super::disputes::is_readable;
use super::super::joining::Joining;
use super::super::kinds::{BookEdit, DeviceEdit};
use super::super::read::there;
use super::super::refusal::Refusal;
use super::super::state::State;
use super::super::table::Edits;
use crate::change::{Fields, GONE, Key, RecordKey};
use crate::id::{BookId, CardId, DeviceCode, DeviceId, LotId, TermsId, ThingId};
use crate::kind::RecordKind;
use serde_json::Value;

impl State {
    /// What settles a dispute: an ordinary change, which knows all that was said before it.
    pub(super) fn settle(
        &self,
        record: &RecordKey,
        field: &str,
        choice: Key,
        value: &Value,
    ) -> Result<Vec<Edits>, Refusal> {
        if record.kind == RecordKind::Book {
            return Err(Refusal::BeginningStays);
        }
        let parties = self.parties(record, field).ok_or(Refusal::NoDispute)?;
        if !parties.contains(&choice) {
            return Err(Refusal::OtherChoices);
        }
        if !is_readable(&record.kind, field, value) {
            return Err(Refusal::Unreadable);
        }
        if field == GONE && record.kind == RecordKind::Thing && *value == Value::Bool(true) {
            // Its lot goes along, as it would have.
            return self.take_out(ThingId(record.id));
        }
        let mut set = Fields::new();
        set.insert(field.to_owned(), said(field, value));
        let record = record.clone();
        Ok(vec![Edits { record, set }])
    }

    /// What gives fields earlier values again.
    pub(super) fn go_back(
        &self,
        record: &RecordKey,
        earlier: &Fields,
    ) -> Result<Vec<Edits>, Refusal> {
        if record.kind == RecordKind::Book {
            return Err(Refusal::BeginningStays);
        }
        let (row, _) = self.tables.find(record).ok_or(Refusal::NoEntry)?;
        let counts = record.kind == RecordKind::Lot && self.shared_lot(LotId(record.id)).is_some();
        if row.is_gone() && !counts && !earlier.contains_key(GONE) {
            return Err(Refusal::TakenOut);
        }
        let mut set = Fields::new();
        for (field, value) in earlier {
            if !is_readable(&record.kind, field, value) {
                return Err(Refusal::Unreadable);
            }
            if !self.may_go_back(record, field, value) {
                return Err(Refusal::NoWayBack);
            }
            set.insert(field.clone(), said(field, value));
        }
        let record = record.clone();
        self.all_new(vec![Edits { record, set }])
    }

    /// Whether a field may be given an earlier value: terms and cards that a verdict was given by stand, and what is taken out is taken
    /// out by a command of its own, which looks at what belongs to it.
    #[must_use]
    pub fn may_go_back(&self, record: &RecordKey, field: &str, value: &Value) -> bool {
        let is_used = match record.kind {
            RecordKind::Terms => self.terms_used(TermsId(record.id)),
            RecordKind::Card => self.card_used(CardId(record.id)),
            _ => false,
        };
        match (field, value) {
            (GONE, Value::Bool(true)) => false,
            (GONE | "checked", _) => true,
            _ => !is_used,
        }
    }

    /// What makes one book of several that were joined: the one that stays is there, and all others are taken away, where that was not
    /// said yet. Of a book that nothing was done in yet, the file's stays; of two that were used, the one that was here, once the
    /// changes are folded in.
    #[must_use]
    pub fn only_book(&self, stays: BookId) -> Vec<Edits> {
        let mut edits = Vec::new();
        if !self.tables.books.contains_key(&stays.0) {
            return edits;
        }
        for (id, entry) in self.tables.books.iter() {
            let gone = *id != stays.0;
            if entry.value.gone != gone || entry.disputes.contains_key(GONE) {
                edits.push(BookId(*id).edit([BookEdit::Gone(gone)]));
            }
        }
        edits
    }

    pub(super) fn one_book(
        &self,
        stays: BookId,
        device: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let mut edits = self.only_book(stays);
        edits.extend(self.named_at_last(device, context)?);
        worth_it(edits)
    }

    pub(super) fn join(
        &self,
        joining: &Joining,
        device: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let mut edits = Vec::new();
        if let Some(stays) = joining.book() {
            edits = self.only_book(stays);
        }
        edits.extend(joining.hold_in(self));
        edits.extend(self.named_at_last(device, context)?);
        worth_it(edits)
    }

    /// What names this device where it has no name yet.
    fn named_at_last(
        &self,
        device: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        if self.device(self.me).is_some() {
            return Ok(Vec::new());
        }
        self.name_device(device, context)
    }

    /// The oldest record of a device stays.
    pub(super) fn one_device(&self, code: DeviceCode) -> Result<Vec<Edits>, Refusal> {
        let mut edits = Vec::new();
        for (id, device) in there(&self.tables.devices) {
            if device.code == Some(code) {
                edits.push(DeviceId(id).edit([DeviceEdit::Gone(true)]));
            }
        }
        if !edits.is_empty() {
            edits.remove(0);
        }
        worth_it(edits)
    }
}

/// A value as it is said: that something is there is said by clearing that it is gone.
fn said(field: &str, value: &Value) -> Value {
    if field == GONE && *value == Value::Bool(false) {
        Value::Null
    } else {
        value.clone()
    }
}

fn worth_it(edits: Vec<Edits>) -> Result<Vec<Edits>, Refusal> {
    if edits.is_empty() {
        Err(Refusal::NoChange)
    } else {
        Ok(edits)
    }
}
