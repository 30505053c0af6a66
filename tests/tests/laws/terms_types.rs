//! What the model of the terms is given: the rules of a venue and what is known of a sale.
//!
//! Amounts are minor units; rates are ten-thousandths of a percent, so that the whole is a million.

/// The rules of a venue.
#[derive(Clone, Debug)]
pub struct Terms {
    pub rules: Vec<Rule>,
    pub limits: Vec<Limit>,
}

/// One charge.
#[derive(Clone, Debug)]
pub struct Rule {
    pub of: Of,
    pub much: Much,
    /// 0 thing, 1 order, 2 parcel, 3 listing, 4 month.
    pub scope: u8,
    pub least: Option<i128>,
    pub most: Option<i128>,
    pub from: Option<i128>,
    pub below: Option<i128>,
    pub kinds: Vec<u8>,
    pub promoted: Option<bool>,
    pub regions: Vec<u8>,
    pub unsold: bool,
    pub back: Back,
}

/// What a rate is taken of.
#[derive(Clone, Debug)]
pub enum Of {
    Price,
    PriceAndPost,
    Total { assumed: i128 },
    Others(Vec<usize>),
}

/// How much.
#[derive(Clone, Debug)]
pub enum Much {
    Rate(i128),
    Flat(i128),
    Brackets(Vec<Row>),
    Slices(Vec<Row>),
    Tiers(Vec<Row>),
}

/// From so much on: a rate and a flat sum.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    pub from: i128,
    pub rate: i128,
    pub flat: i128,
}

/// What comes back.
#[derive(Clone, Copy, Debug)]
pub enum Back {
    Nothing,
    All,
    AllBut(i128),
}

/// A least and a most for several charges.
#[derive(Clone, Debug)]
pub struct Limit {
    pub of: Vec<usize>,
    pub least: Option<i128>,
    pub most: Option<i128>,
}

/// What is known of a sale.
#[derive(Clone, Debug)]
pub struct Facts {
    pub post: i128,
    pub tax: Option<i128>,
    pub kind: Option<u8>,
    pub promoted: bool,
    pub region: Option<u8>,
    pub running: i128,
}
