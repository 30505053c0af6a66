//! Every figure opens into the lines that made it.

use super::{Judged, Multiple, Rule, Sums};
use crate::money::{Currency, Money, Rate, plain};
use crate::terms;
use crate::worth::Allowance;

/// A figure of an appraisal that can be opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Figure {
    /// All the buyer pays.
    BuyerPays,
    /// What you pay for the thing: the ask.
    YouPay,
    /// What you keep at the likely price.
    Keep,
    /// What is left before purchase at the likely price.
    BeforePurchase,
    /// What is set aside.
    SetAside,
    /// Packing.
    Packing,
    /// Postage out.
    Postage,
    /// The venue's cut.
    Cut,
    /// All that it costs to sell: cut, postage, packing, work and premium.
    Costs,
    /// What you keep at the low price.
    LowKeep,
    /// The ceiling.
    Ceiling,
}

/// What one line stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// The thing's own price.
    Price,
    /// Postage that the buyer pays.
    PostIn,
    /// All the buyer pays.
    BuyerPays,
    /// What you pay for the thing.
    YouPay,
    /// One allowance, or all of them.
    SetAside(Option<Allowance>),
    /// Packing.
    Packing,
    /// The work that it needs.
    Work,
    /// Buyer's premium.
    Premium,
    /// What the parcel costs to post.
    PostOut,
    /// The venue's cut as a whole.
    Cut,
    /// One charge, by its label.
    Charge(String),
    /// One thing of a pile, by its name.
    Thing(String),
    /// What is left before purchase.
    BeforePurchase,
    /// The limit that a rule sets.
    Limit(Rule),
    /// What rounding to the cash step takes off.
    CashStep,
}

/// How a line was worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum How {
    /// Typed, or flat by the terms.
    Given,
    /// So much percent of an amount.
    Percent {
        /// The percentage.
        rate: Rate,
        /// What it was taken of.
        of: Money,
    },
    /// By the terms, in another way than so much percent or flat.
    Terms(terms::Line),
    /// The sum of other lines.
    Sum,
    /// So that what is left is so many times what was paid.
    Times(Multiple),
    /// Rounded down to a step.
    DownTo(Money),
}

/// One line. What takes away is below nothing, so that the lines of a figure sum to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Why {
    /// What it stands for.
    pub what: What,
    /// So much, with its sign.
    pub amount: Money,
    /// How it was worked out.
    pub how: How,
}

impl Why {
    pub(super) fn new(what: What, amount: Money, how: How) -> Self {
        Self { what, amount, how }
    }

    pub(super) fn taken(what: What, amount: Money, how: How) -> Self {
        Self::new(what, amount.negated(), how)
    }

    /// What the line stands for, as text.
    pub fn label(&self) -> &str {
        match &self.what {
            What::Price => "Its own price",
            What::PostIn => "Postage from the buyer",
            What::BuyerPays => "Buyer pays",
            What::YouPay => "You pay",
            What::SetAside(None) => "Set aside",
            What::SetAside(Some(Allowance::Unsold)) => "For things that never sell",
            What::SetAside(Some(Allowance::Offers)) => "For offers",
            What::SetAside(Some(Allowance::Returns)) => "For returns",
            What::Packing => "Packing",
            What::Work => "Work it needs",
            What::Premium => "Buyer\u{2019}s premium",
            What::PostOut => "Postage",
            What::Cut => "Venue\u{2019}s cut",
            What::Charge(label) | What::Thing(label) => label,
            What::BeforePurchase => "Left before you buy",
            What::Limit(Rule::LeastKeep) => "The least you keep",
            What::Limit(Rule::LeastMultiple) => "The least multiple",
            What::Limit(Rule::NoLossIfLow) => "No loss if it sells low",
            What::Limit(Rule::NoLoss) => "No loss",
            What::CashStep => "Down to the cash step",
        }
    }

    /// How it was worked out, as text ("10 % of 30.50"); `None` where the amount says it all.
    pub fn working(&self, currency: Currency) -> Option<String> {
        match &self.how {
            How::Given | How::Sum => None,
            How::Percent { rate, of } => Some(format!("{rate} % of {}", plain(*of, currency))),
            How::Terms(line) => line.working(currency),
            How::Times(times) => Some(format!("{times} times what you pay")),
            How::DownTo(step) => Some(format!("steps of {}", plain(*step, currency))),
        }
    }
}

impl Judged {
    /// The lines that made a figure; they sum to it. The ceiling's lines sum to the ceiling shown. Empty for what isn't
    /// there: what you pay without an ask, a ceiling where even free is too dear.
    pub fn why(&self, figure: Figure) -> Vec<Why> {
        let sums = &self.likely;
        match figure {
            Figure::BuyerPays => buyer_pays(sums),
            Figure::YouPay => self.you_pay(),
            Figure::Keep => [kept(sums), self.paid()].concat(),
            Figure::LowKeep => [kept(&self.low), self.paid()].concat(),
            Figure::BeforePurchase => kept(sums),
            Figure::SetAside => set_aside(sums),
            Figure::Packing => self.packing_lines(),
            Figure::Postage => vec![Why::new(What::PostOut, sums.posting.out, How::Given)],
            Figure::Cut => cut(sums),
            Figure::Costs => self.costs(),
            Figure::Ceiling => self.ceiling_lines(),
        }
    }

    fn you_pay(&self) -> Vec<Why> {
        let line = |ask| Why::new(What::YouPay, ask, How::Given);
        let asked = self.ask.map(line);
        asked.into_iter().chain(self.premium_line()).collect()
    }

    fn paid(&self) -> Vec<Why> {
        let mut lines = self.you_pay();
        for line in &mut lines {
            line.amount = line.amount.negated();
        }
        lines
    }

    /// The premium on what is asked.
    pub(super) fn premium_line(&self) -> Option<Why> {
        let (of, rate) = (self.ask?, self.premium);
        let amount = self.paid_for(of).minus(of);
        let line = Why::new(What::Premium, amount, How::Percent { rate, of });
        (!amount.is_zero()).then_some(line)
    }

    /// What it costs to sell, a line each; what is nothing is left out.
    fn costs(&self) -> Vec<Why> {
        let sums = &self.likely;
        let mut lines = vec![
            Why::new(What::Cut, sums.cut(), How::Sum),
            Why::new(What::PostOut, sums.posting.out, How::Given),
        ];
        lines.extend(self.packing_lines());
        lines.retain(|line| !line.amount.is_zero());
        lines
    }

    /// Packing, and what else it costs to make it ready: these share a place on the rail.
    fn packing_lines(&self) -> Vec<Why> {
        let packing = Why::new(What::Packing, self.likely.packing, How::Given);
        let work = Why::new(What::Work, self.likely.work, How::Given);
        let mut lines = vec![packing, work];
        lines.extend(self.premium_line());
        if lines.iter().any(|line| !line.amount.is_zero()) {
            lines.retain(|line| !line.amount.is_zero());
        } else {
            lines.truncate(1);
        }
        lines
    }

    /// Packing, work and premium together: what the rail shows of them.
    pub fn extras(&self) -> Money {
        self.packing_lines().iter().map(|line| line.amount).sum()
    }

    fn ceiling_lines(&self) -> Vec<Why> {
        let Ok(ceiling) = self.ceiling else {
            return Vec::new();
        };
        let (sums, limit) = match ceiling.bound_by {
            Rule::LeastKeep => (&self.likely, self.rules.least_keep.unwrap_or_default()),
            // What the multiple takes is all but the ceiling itself.
            Rule::LeastMultiple => (
                &self.likely,
                self.likely.before.minus(self.paid_for(ceiling.exact)),
            ),
            Rule::NoLossIfLow => (&self.low, Money::ZERO),
            Rule::NoLoss => (&self.likely, Money::ZERO),
        };
        let how = match (ceiling.bound_by, self.rules.least_multiple) {
            (Rule::LeastMultiple, Some(times)) => How::Times(times),
            _ => How::Given,
        };
        let mut lines = vec![
            Why::new(What::BeforePurchase, sums.before, How::Sum),
            Why::taken(What::Limit(ceiling.bound_by), limit, how),
        ];
        // What is left for the premium: its rounding may leave a unit more than it comes to.
        let premium = sums.before.minus(limit).minus(ceiling.exact);
        if !premium.is_zero() {
            let (rate, of) = (self.premium, ceiling.exact);
            let how = How::Percent { rate, of };
            lines.push(Why::taken(What::Premium, premium, how));
        }
        let rounded = ceiling.exact.minus(ceiling.shown);
        if !rounded.is_zero() {
            let how = How::DownTo(self.rules.cash_step);
            lines.push(Why::taken(What::CashStep, rounded, how));
        }
        lines
    }
}

fn buyer_pays(sums: &Sums) -> Vec<Why> {
    let price = Why::new(What::Price, sums.price, How::Given);
    let post = Why::new(What::PostIn, sums.posting.paid_in, How::Given);
    if sums.posting.paid_in.is_zero() {
        vec![price]
    } else {
        vec![price, post]
    }
}

/// The lines of what is left before purchase; what the venue or the arrangement doesn't have is left out.
fn kept(sums: &Sums) -> Vec<Why> {
    let mut lines = vec![Why::new(What::BuyerPays, sums.buyer_pays, How::Sum)];
    let taken = [
        (What::Cut, sums.cut(), How::Sum),
        (What::PostOut, sums.posting.out, How::Given),
        (What::Packing, sums.packing, How::Given),
        (What::Work, sums.work, How::Given),
        (What::SetAside(None), sums.aside.total, How::Sum),
    ];
    for (what, amount, how) in taken {
        if !amount.is_zero() {
            lines.push(Why::taken(what, amount, how));
        }
    }
    lines
}

fn set_aside(sums: &Sums) -> Vec<Why> {
    let of = sums.price;
    let line = |(what, rate, amount)| {
        Why::new(
            What::SetAside(Some(what)),
            amount,
            How::Percent { rate, of },
        )
    };
    sums.aside.lines.map(line).into()
}

fn cut(sums: &Sums) -> Vec<Why> {
    let line = |line: &terms::Line| {
        let how = match line.how {
            terms::How::Percent { rate, of } if line.bound.is_none() => How::Percent { rate, of },
            terms::How::Flat if line.bound.is_none() => How::Given,
            _ => How::Terms(line.clone()),
        };
        Why::new(What::Charge(line.label.clone()), line.amount, how)
    };
    sums.settlement.lines.iter().map(line).collect()
}
