//! Money: exact decimal amounts of a named currency, and prices per mass.

use std::fmt;

use rust_decimal::Decimal;

use super::exact::Exact;
use super::kind::Mass;
use super::parse::{self, QuantityError};
use crate::limits;

/// A currency by its three-letter code (ISO 4217), as data: nothing is converted between currencies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency([u8; 3]);

impl Currency {
    /// From a code of three capital letters, `"GBP"`.
    ///
    /// # Errors
    /// When the code has another form.
    pub fn try_new(code: &str) -> Result<Self, QuantityError> {
        match code.as_bytes() {
            [a, b, c] if [a, b, c].iter().all(|letter| letter.is_ascii_uppercase()) => Ok(Self([*a, *b, *c])),
            _ => Err(QuantityError::Form {
                found: code.to_owned(),
                what: "currency",
                example: "GBP".to_owned(),
            }),
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|letter| write!(f, "{}", char::from(*letter)))
    }
}

/// An amount of money, exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Money {
    amount: Decimal,
    currency: Currency,
}

impl Money {
    /// An amount of a currency.
    ///
    /// # Errors
    /// When the amount is outside `limits::MONEY`, or poisoned.
    pub fn try_new(amount: impl Into<Exact>, currency: Currency) -> Result<Self, QuantityError> {
        Ok(Self { amount: parse::within(amount.into(), &limits::MONEY)?, currency })
    }

    /// The amount.
    #[must_use]
    pub const fn amount(self) -> Decimal {
        self.amount
    }

    /// The currency.
    #[must_use]
    pub const fn currency(self) -> Currency {
        self.currency
    }

    /// The sum of two amounts of one currency; nothing when the currencies differ.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        let amount = (Exact::from(self.amount) + Exact::from(other.amount)).decimal()?;
        (self.currency == other.currency).then_some(Self { amount, currency: self.currency })
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.amount.normalize(), self.currency)
    }
}

/// A price: so much money for a pack of so much mass. Kept as typed, so that nothing is lost in "per gram".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Price {
    pay: Money,
    pack: Mass,
}

impl Price {
    /// So much for a pack of that mass.
    ///
    /// # Errors
    /// When the pack is not above nought.
    pub fn try_new(pay: Money, pack: Mass) -> Result<Self, QuantityError> {
        if pack > Mass::ZERO {
            Ok(Self { pay, pack })
        } else {
            Err(parse::out_of(pack.value(), &limits::MASS))
        }
    }

    /// The currency it is stated in.
    #[must_use]
    pub const fn currency(self) -> Currency {
        self.pay.currency
    }

    /// What `mass` costs, to 28 digits before the one rounding to a published amount.
    ///
    /// # Errors
    /// When the cost is beyond `limits::MONEY`.
    pub fn of(self, mass: Mass) -> Result<Money, QuantityError> {
        Money::try_new(Exact::from(self.pay.amount) * mass.exact() / self.pack.exact(), self.pay.currency)
    }
}
