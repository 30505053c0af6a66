//! Arrangements: `"buyer_at_cost"`, `{"stated":450}`, `{"label":{"price":{"flat":450},"paid_by":"buyer"}}`,
//! `{"free_from":{"sum":5000,"below":"buyer_at_cost"}}`.

use serde_json::Value;

use super::{Fields, Object, as_text, choice, chosen, list, pair, plain, text, write_list};
use crate::measure::Weight;
use crate::money::Money;
use crate::postage::{Arrangement, LabelPrice, Payer};

const HANDED_OVER: &str = "handed_over";
const BUYER_AT_COST: &str = "buyer_at_cost";
const SELLER_PAYS: &str = "seller_pays";

/// Reads one, and refuses one that couldn't be saved.
pub(super) fn read(value: &Value) -> Option<Arrangement> {
    let found = match value.as_str() {
        Some(HANDED_OVER) => Arrangement::HandedOver,
        Some(BUYER_AT_COST) => Arrangement::BuyerAtCost,
        Some(SELLER_PAYS) => Arrangement::SellerPays,
        Some(_) => return None,
        None => match choice(value)? {
            ("stated", sum) => Arrangement::Stated(plain(sum)?),
            ("label", label) => {
                let mut fields = Fields::of(label)?;
                let price = fields.must("price", price)?;
                let payer = fields.must("paid_by", payer)?;
                fields.end()?;
                Arrangement::Label { price, payer }
            }
            ("free_from", free) => {
                let mut fields = Fields::of(free)?;
                let sum = fields.must("sum", plain)?;
                let below = Box::new(fields.must("below", read)?);
                fields.end()?;
                Arrangement::FreeFrom { sum, below }
            }
            _ => return None,
        },
    };
    found.check().ok().map(|()| found)
}

pub(super) fn write(arrangement: &Arrangement) -> Value {
    match arrangement {
        Arrangement::HandedOver => as_text(HANDED_OVER),
        Arrangement::BuyerAtCost => as_text(BUYER_AT_COST),
        Arrangement::SellerPays => as_text(SELLER_PAYS),
        Arrangement::Stated(sum) => chosen("stated", sum.minor().into()),
        Arrangement::Label { price, payer } => {
            let label = Object::default()
                .with("price", write_price(price))
                .with("paid_by", write_payer(*payer));
            chosen("label", label.done())
        }
        Arrangement::FreeFrom { sum, below } => {
            let free = Object::default()
                .with("sum", sum.minor().into())
                .with("below", write(below));
            chosen("free_from", free.done())
        }
    }
}

fn price(value: &Value) -> Option<LabelPrice> {
    match choice(value)? {
        ("flat", flat) => plain(flat).map(LabelPrice::Flat),
        ("bands", bands) => list(bands, band).map(LabelPrice::Bands),
        _ => None,
    }
}

fn write_price(price: &LabelPrice) -> Value {
    match price {
        LabelPrice::Flat(flat) => chosen("flat", flat.minor().into()),
        LabelPrice::Bands(bands) => chosen("bands", write_list(bands, write_band)),
    }
}

fn band(value: &Value) -> Option<(Weight, Money)> {
    let (up_to, price) = pair(value)?;
    Some((text(up_to)?, plain(price)?))
}

fn write_band((up_to, price): &(Weight, Money)) -> Value {
    Value::Array(vec![as_text(up_to), price.minor().into()])
}

fn payer(value: &Value) -> Option<Payer> {
    match value.as_str() {
        Some("buyer") => Some(Payer::Buyer),
        Some("seller") => Some(Payer::Seller),
        Some(_) => None,
        None => match choice(value)? {
            ("shared", share) => text(share).map(Payer::Shared),
            _ => None,
        },
    }
}

fn write_payer(payer: Payer) -> Value {
    match payer {
        Payer::Buyer => as_text("buyer"),
        Payer::Seller => as_text("seller"),
        Payer::Shared(share) => chosen("shared", as_text(&share)),
    }
}
