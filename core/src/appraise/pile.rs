//! The verdict on a pile: several things, one price for all of them.
//!
//! The pile's ceiling is the sum of its pieces' ceilings. A piece that is worth nothing, because its ceiling is nothing or a rule breaks
//! even at a price of nothing, adds nothing. The sums are those of the pieces that are worth something; where none is, of all of them, so
//! that a pile of one is judged as its thing.

use super::why::{How, What, Why};
use super::{Ceiling, Figure, Judged, Rule, Sums};
use crate::money::{Currency, Money};

/// A pile, judged at the one price that the seller says for all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JudgedPile {
    /// The sums of all pieces that count, as those of one thing: ask and verdict are for all. The least keep is that of a thing for each of
    /// the pieces that count.
    pub all: Judged,
    /// How many pieces count.
    pub count: usize,
    /// Each piece in the order given: its name, its sums and its exact ceiling, nothing where it is worth nothing.
    pieces: Vec<Piece>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Piece {
    name: String,
    sums: Sums,
    ceiling: Money,
    counts: bool,
}

/// Judges the pieces of a pile, given with their names, at what the seller says for all. `None` for no pieces.
#[must_use]
pub fn judge_pile(
    pieces: &[(String, &Judged)],
    says: Option<Money>,
    currency: Currency,
) -> Option<JudgedPile> {
    let (_, first) = pieces.first()?;
    let is_any_worth = pieces.iter().any(|(_, piece)| piece.is_worth_something());
    let mut all: Option<Judged> = None;
    let mut count: i64 = 0;
    let mut kept = Vec::with_capacity(pieces.len());
    for (name, piece) in pieces {
        let counts = !is_any_worth || piece.is_worth_something();
        kept.push(Piece {
            name: name.clone(),
            sums: piece.likely.clone(),
            ceiling: piece.ceiling.map_or(Money::ZERO, |ceiling| ceiling.exact),
            counts,
        });
        if !counts {
            continue;
        }
        count = count.saturating_add(1);
        match &mut all {
            None => all = Some((*piece).clone()),
            Some(all) => {
                all.likely.add(&piece.likely);
                all.low.add(&piece.low);
                all.ceiling = both(all.ceiling, piece.ceiling);
            }
        }
    }
    let mut all = all?;
    all.rules = first.rules;
    all.rules.least_keep = first.rules.least_keep.map(|least| times(least, count));
    all.ask = says;
    // Rounded once, and not thing by thing.
    let step = all.rules.cash_step;
    all.ceiling = all
        .ceiling
        .map(|sum| Ceiling::of(sum.exact, sum.bound_by, step).showing(says));
    (all.verdict, all.reasons) = (None, Vec::new());
    Some(JudgedPile {
        all: all.decided(currency),
        count: usize::try_from(count).unwrap_or(usize::MAX),
        pieces: kept,
    })
}

/// The sum of two ceilings; a piece without one adds nothing.
fn both(one: Result<Ceiling, Rule>, other: Result<Ceiling, Rule>) -> Result<Ceiling, Rule> {
    match (one, other) {
        (Ok(one), Ok(other)) => Ok(Ceiling {
            exact: one.exact.plus(other.exact),
            shown: one.shown.plus(other.shown),
            bound_by: one.bound_by,
        }),
        (Ok(ceiling), Err(_)) | (Err(_), Ok(ceiling)) => Ok(ceiling),
        (Err(rule), Err(_)) => Err(rule),
    }
}

fn times(money: Money, count: i64) -> Money {
    let most = Money::MAX.minor();
    Money::new(money.minor().saturating_mul(count).clamp(-most, most))
}

impl Judged {
    /// Whether there is a price over nothing at which every rule holds.
    #[must_use]
    pub fn is_worth_something(&self) -> bool {
        self.ceiling
            .is_ok_and(|ceiling| ceiling.exact > Money::ZERO)
    }
}

impl Sums {
    /// Adds the sums of another thing.
    fn add(&mut self, other: &Self) {
        let add = |to: &mut Money, more: Money| *to = to.plus(more);
        add(&mut self.price, other.price);
        add(&mut self.buyer_pays, other.buyer_pays);
        add(&mut self.settlement.price, other.settlement.price);
        add(&mut self.settlement.post_in, other.settlement.post_in);
        add(&mut self.settlement.cut, other.settlement.cut);
        add(&mut self.settlement.payout, other.settlement.payout);
        self.settlement
            .lines
            .extend_from_slice(&other.settlement.lines);
        add(&mut self.posting.paid_in, other.posting.paid_in);
        add(&mut self.posting.out, other.posting.out);
        add(&mut self.packing, other.packing);
        add(&mut self.work, other.work);
        add(&mut self.aside.total, other.aside.total);
        for (line, more) in self.aside.lines.iter_mut().zip(&other.aside.lines) {
            add(&mut line.2, more.2);
        }
        add(&mut self.before, other.before);
        for assumed in &other.assumed {
            if !self.assumed.contains(assumed) {
                self.assumed.push(assumed.clone());
            }
        }
    }
}

impl JudgedPile {
    /// The lines that made a figure; they sum to it. What is kept opens into the parts of the sums, every other figure into one line for
    /// each thing. The ceiling names the things that are worth nothing too.
    #[must_use]
    pub fn why(&self, figure: Figure) -> Vec<Why> {
        let of: fn(&Sums) -> Money = match figure {
            Figure::BuyerPays => |sums| sums.buyer_pays,
            Figure::SetAside => |sums| sums.aside.total,
            Figure::Packing => return self.packing_lines(),
            Figure::Postage => |sums| sums.posting.out,
            Figure::Cut => Sums::cut,
            Figure::Ceiling => return self.ceiling_lines(),
            Figure::YouPay
            | Figure::Keep
            | Figure::BeforePurchase
            | Figure::LowKeep
            | Figure::Costs => {
                return self.all.why(figure);
            }
        };
        let counted = self.pieces.iter().filter(|piece| piece.counts);
        counted.map(|piece| piece.line(of(&piece.sums))).collect()
    }

    /// Packing and work of each thing, and the premium on what is said for all.
    fn packing_lines(&self) -> Vec<Why> {
        let counted = self.pieces.iter().filter(|piece| piece.counts);
        let of = |piece: &Piece| piece.line(piece.sums.packing.plus(piece.sums.work));
        counted.map(of).chain(self.all.premium_line()).collect()
    }

    fn ceiling_lines(&self) -> Vec<Why> {
        let Ok(ceiling) = self.all.ceiling else {
            return Vec::new();
        };
        let mut lines = Vec::with_capacity(self.pieces.len());
        for piece in &self.pieces {
            lines.push(piece.line(piece.ceiling));
        }
        let rounded = ceiling.exact.minus(ceiling.shown);
        if !rounded.is_zero() {
            let how = How::DownTo(self.all.rules.cash_step);
            lines.push(Why::taken(What::CashStep, rounded, how));
        }
        lines
    }
}

impl Piece {
    fn line(&self, amount: Money) -> Why {
        Why::new(What::Thing(self.name.clone()), amount, How::Sum)
    }
}
