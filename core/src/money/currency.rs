//! Currencies of ISO 4217 and how many decimals each one has.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::{Money, MoneyError};

/// One of the codes below. Named, since a derived reader would want to borrow a bare `&'static str` from its input.
type Code = &'static str;

/// A currency of ISO 4217. In files: its three-letter code.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Currency {
    code: Code,
    exponent: u8,
}

// The active codes of ISO 4217 that have a minor unit, grouped by its exponent: written from memory. Metals, units of
// account and test codes are left out, as nobody pays with them. BGN stays for books begun before the euro replaced it.
const WITH_0: &str = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF";
const WITH_2: &str = "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD \
    CAD CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD \
    HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU \
    MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK \
    SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG \
    YER ZAR ZMW ZWG";
const WITH_3: &str = "BHD IQD JOD KWD LYD OMR TND";
const WITH_4: &str = "CLF UYW";

const BY_EXPONENT: [(u8, &str); 4] = [(0, WITH_0), (2, WITH_2), (3, WITH_3), (4, WITH_4)];

impl Currency {
    /// The most decimals that any currency has.
    pub const MAX_EXPONENT: u8 = 4;

    /// The currency of this three-letter code, in either case.
    ///
    /// # Errors
    /// [`MoneyError::UnknownCurrency`] for any other text.
    pub fn from_code(code: &str) -> Result<Self, MoneyError> {
        Self::all()
            .find(|currency| currency.code.eq_ignore_ascii_case(code))
            .ok_or(MoneyError::UnknownCurrency)
    }

    /// Every currency known, by exponent and then by code.
    pub fn all() -> impl Iterator<Item = Self> {
        BY_EXPONENT
            .into_iter()
            .flat_map(|(exponent, codes)| codes.split(' ').map(move |code| Self { code, exponent }))
    }

    /// The three-letter code, in capitals.
    pub const fn code(self) -> &'static str {
        self.code
    }

    /// How many decimals its amounts have: 2 for cents.
    pub const fn exponent(self) -> u8 {
        self.exponent
    }

    /// One whole unit: 1.00 as money.
    pub const fn unit(self) -> Money {
        Money::new(10_i64.pow(self.exponent as u32))
    }
}

impl TryFrom<String> for Currency {
    type Error = MoneyError;

    fn try_from(code: String) -> Result<Self, MoneyError> {
        Self::from_code(&code)
    }
}

impl From<Currency> for String {
    fn from(currency: Currency) -> Self {
        currency.code.to_owned()
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code)
    }
}

impl fmt::Debug for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_well_formed_and_has_no_code_twice() {
        let mut codes: Vec<_> = Currency::all().map(Currency::code).collect();
        assert!(
            codes
                .iter()
                .all(|code| code.len() == 3 && code.bytes().all(|b| b.is_ascii_uppercase()))
        );
        let count = codes.len();
        codes.sort_unstable();
        codes.dedup();
        assert_eq!(codes.len(), count);
        assert!(Currency::all().all(|currency| currency.exponent() <= Currency::MAX_EXPONENT));
    }

    #[test]
    fn a_currency_is_its_code_in_json() {
        let usd = Currency::from_code("usd").unwrap();
        assert_eq!(serde_json::to_string(&usd).unwrap(), "\"USD\"");
        assert_eq!(serde_json::from_str::<Currency>("\"USD\"").unwrap(), usd);
        for bad in ["\"\"", "\"US\"", "\"XXX\"", "\"USD \"", "840"] {
            assert!(serde_json::from_str::<Currency>(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn a_whole_unit_has_the_currencys_decimals() {
        let unit = |code| Currency::from_code(code).unwrap().unit();
        assert_eq!(unit("JPY"), Money::new(1));
        assert_eq!(unit("USD"), Money::new(100));
        assert_eq!(unit("KWD"), Money::new(1000));
    }
}
