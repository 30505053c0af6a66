//! What else is said of things: shares, marks, pictures, work, and giving them back.

use super::super::checked::{check_amounts, checked_name, checked_text};
use super::super::command::{
    Context, Facts, LONGEST_NAME, LONGEST_NOTE, MOST_THINGS, Marks, ThingCommand,
};
use super::super::kinds::{LotEdit, PhotoEdit, Thing, ThingEdit, WorkEdit, WorkedEdit};
use super::super::refusal::Refusal;
use super::super::state::State;
use super::super::table::Edits;
use crate::day::Day;
use crate::id::{KindId, PhotoId, ThingId, WorkId, WorkedId};
use crate::money::Money;
use crate::worth::Sells;

impl State {
    pub(super) fn on_thing(
        &self,
        command: &ThingCommand,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        match command {
            ThingCommand::FixShare { thing, share } => {
                check_amounts(&[share.unwrap_or_default()])?;
                self.set_thing(*thing, vec![ThingEdit::Share(*share)])
            }
            ThingCommand::KeepForMyself { thing, kept } => {
                self.set_thing(*thing, vec![ThingEdit::Kept(kept.then_some(true))])
            }
            ThingCommand::ReturnToSeller { thing, got_back } => {
                self.return_to_seller(*thing, *got_back)
            }
            ThingCommand::Mark { thing, marks } => self.mark(*thing, marks),
            ThingCommand::EditMany {
                things,
                kind,
                likely,
            } => self.edit_many(things, *kind, *likely),
            ThingCommand::SetFacts { thing, facts } => self.set_facts(*thing, facts),
            ThingCommand::SetSells { thing, sells } => {
                if let Some(sells) = sells {
                    check_amounts(&[sells.low(), sells.likely(), sells.high()])?;
                }
                self.set_thing(*thing, vec![ThingEdit::Sells(*sells)])
            }
            ThingCommand::AddWork {
                name,
                cost,
                day,
                things,
            } => self.add_work(name, *cost, *day, things, context),
            ThingCommand::RemoveWork(id) => self.remove_work(*id),
            ThingCommand::AddPhoto { thing, blob } => self.add_photo(*thing, blob, context),
            ThingCommand::RemovePhoto(id) => self.remove_photo(*id),
        }
    }

    fn the_thing(&self, id: ThingId) -> Result<&Thing, Refusal> {
        self.thing(id).ok_or(Refusal::NoThing)
    }

    fn set_thing(&self, id: ThingId, edits: Vec<ThingEdit>) -> Result<Vec<Edits>, Refusal> {
        self.the_thing(id)?;
        self.all_new(vec![id.edit(edits)])
    }

    fn return_to_seller(&self, id: ThingId, got_back: Money) -> Result<Vec<Edits>, Refusal> {
        check_amounts(&[got_back])?;
        let of = self.the_thing(id)?.lot.ok_or(Refusal::NoLot)?;
        let lot = self.the_lot(of)?;
        let paid = lot.paid.ok_or(Refusal::NoLot)?.minus(got_back);
        if paid.is_negative() {
            return Err(Refusal::TooMuchBack);
        }
        let is_rest = self.mates(of).len() > 1 || lot.unsorted.unwrap_or(0) > 0;
        let is_owed = !paid.plus(lot.extras.unwrap_or_default()).is_zero();
        let mut edits = vec![LotEdit::Paid(Some(paid))];
        if !is_rest && !is_owed {
            edits.push(LotEdit::Gone(true));
        }
        self.all_new(vec![id.edit([ThingEdit::Gone(true)]), of.edit(edits)])
    }

    fn mark(&self, id: ThingId, marks: &Marks) -> Result<Vec<Edits>, Refusal> {
        let short = |text: &str| checked_text(text, LONGEST_NAME);
        let edits = vec![
            ThingEdit::Colour(short(&marks.colour)?),
            ThingEdit::Label(short(&marks.label)?),
            ThingEdit::Maker(short(&marks.maker)?),
            ThingEdit::Flaw(checked_text(&marks.flaw, LONGEST_NOTE)?),
            // One piece is what a thing is anyhow.
            ThingEdit::Pieces(marks.pieces.filter(|pieces| *pieces > 1)),
        ];
        self.set_thing(id, edits)
    }

    fn set_facts(&self, id: ThingId, facts: &Facts) -> Result<Vec<Edits>, Refusal> {
        check_amounts(&[
            facts.postage.unwrap_or_default(),
            facts.packing.unwrap_or_default(),
        ])?;
        let known = self.the_thing(id)?;
        // A kind that was taken away since stays said of the things that have it.
        let new = facts.kind.filter(|kind| known.kind != Some(*kind));
        if new.is_some_and(|kind| self.kind(kind).is_none()) {
            return Err(Refusal::NoKind);
        }
        let edits = vec![
            ThingEdit::Kind(facts.kind),
            ThingEdit::Weight(facts.weight),
            ThingEdit::Size(facts.size),
            ThingEdit::Postage(facts.postage),
            ThingEdit::Packing(facts.packing),
        ];
        self.set_thing(id, edits)
    }

    fn edit_many(
        &self,
        things: &[ThingId],
        kind: Option<KindId>,
        likely: Option<Money>,
    ) -> Result<Vec<Edits>, Refusal> {
        check_amounts(&[likely.unwrap_or_default()])?;
        if kind.is_some_and(|kind| self.kind(kind).is_none()) {
            return Err(Refusal::NoKind);
        }
        let mut saved = Vec::new();
        for id in once(things)? {
            let thing = self.the_thing(id)?;
            let mut edits = Vec::new();
            if kind.is_some() {
                edits.push(ThingEdit::Kind(kind));
            }
            if let Some(likely) = likely {
                edits.push(ThingEdit::Sells(Some(repriced(thing.sells, likely)?)));
            }
            saved.push(id.edit(edits));
        }
        self.all_new(saved)
    }

    fn add_work(
        &self,
        name: &str,
        cost: Money,
        day: Day,
        things: &[ThingId],
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(name)?;
        check_amounts(&[cost])?;
        let work = WorkId(context.fresh());
        let mut saved = vec![work.edit([
            WorkEdit::Name(Some(name)),
            WorkEdit::Cost(Some(cost)),
            WorkEdit::Day(Some(day)),
        ])];
        for id in once(things)? {
            self.the_thing(id)?;
            saved.push(
                WorkedId(context.fresh())
                    .edit([WorkedEdit::Work(Some(work)), WorkedEdit::Thing(Some(id))]),
            );
        }
        Ok(saved)
    }

    fn remove_work(&self, id: WorkId) -> Result<Vec<Edits>, Refusal> {
        let entry = self.tables.works.get(&id.0);
        if entry.is_none_or(|entry| entry.value.gone) {
            return Err(Refusal::NoEntry);
        }
        Ok(vec![id.edit([WorkEdit::Gone(true)])])
    }

    fn add_photo(
        &self,
        id: ThingId,
        blob: &str,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        self.the_thing(id)?;
        let is_digit = |sign: u8| matches!(sign, b'0'..=b'9' | b'a'..=b'f');
        if blob.len() != 64 || !blob.bytes().all(is_digit) {
            return Err(Refusal::BadPicture);
        }
        let is_it = |blob_of: &Option<String>| blob_of.as_deref() == Some(blob);
        if self.photos_of(id).any(|(_, photo)| is_it(&photo.blob)) {
            return Err(Refusal::NoChange);
        }
        Ok(vec![PhotoId(context.fresh()).edit([
            PhotoEdit::Thing(Some(id)),
            PhotoEdit::Blob(Some(blob.to_owned())),
            PhotoEdit::At(Some(context.at)),
        ])])
    }

    fn remove_photo(&self, id: PhotoId) -> Result<Vec<Edits>, Refusal> {
        let entry = self.tables.photos.get(&id.0);
        if entry.is_none_or(|entry| entry.value.gone) {
            return Err(Refusal::NoEntry);
        }
        Ok(vec![id.edit([PhotoEdit::Gone(true)])])
    }
}

/// Each of them once.
fn once(things: &[ThingId]) -> Result<Vec<ThingId>, Refusal> {
    let mut once = things.to_vec();
    once.sort_unstable();
    once.dedup();
    if once.is_empty() {
        Err(Refusal::NoThings)
    } else if once.len() > MOST_THINGS {
        Err(Refusal::TooManyAtOnce)
    } else {
        Ok(once)
    }
}

/// The prices with another likely one. A low or high price that was the likely one goes along; one beyond the new one goes.
fn repriced(known: Option<Sells>, likely: Money) -> Result<Sells, Refusal> {
    let low = known
        .filter(|known| known.low() < known.likely())
        .map(Sells::low);
    let high = known
        .filter(|known| known.high() > known.likely())
        .map(Sells::high);
    let (low, high) = (
        low.filter(|low| *low <= likely),
        high.filter(|high| *high >= likely),
    );
    Ok(Sells::new(low, likely, high)?)
}
