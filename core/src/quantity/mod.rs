//! Exact typed units: what a maker types becomes one number in one base unit, without loss.
//!
//! In: text with a unit, or a decimal. Out: newtypes ([`Mass`], [`Volume`], [`Share`] ...) that add only to their own
//! kind, and [`Exact`], the number that a computation runs in. Depends on nothing else of this crate but `limits`.
//!
//! # Which type when
//!
//! * A quantity type is a *published* figure: at most twelve decimals of its base unit, inside its
//!   [`Limit`](crate::limits::Limit). Sums and differences of equal types are exact, always.
//! * [`Exact`] is what happens between two published figures: 28 significant digits, all four operations, and an
//!   overflow or a division by zero poisons the value instead of panicking. Turning it into a quantity rounds once,
//!   half to even, at the twelfth decimal; that is the only rounding of an ideal figure.
//!
//! # Rounding
//!
//! One rule everywhere: half to even.
//!
//! | value | to whole steps of 0.1 |
//! | --- | --- |
//! | 1.24 | 1.2 |
//! | 1.25 | 1.2 |
//! | 1.35 | 1.4 |
//! | -1.25 | -1.2 |
//!
//! # Units are kinds
//!
//! Adding grams to millilitres does not compile:
//!
//! ```compile_fail
//! use lamella::quantity::{Mass, Volume};
//! let mass: Mass = "10 g".parse().unwrap();
//! let volume: Volume = "10 mL".parse().unwrap();
//! let _ = mass + volume;
//! ```

mod comma;
mod date;
mod exact;
mod fixed;
mod kind;
mod money;
mod parse;
mod print;
mod shown;
mod split;

pub(crate) use comma::advice as comma_advice;
pub use date::{Date, DateError, Moment};
pub use exact::Exact;
pub use kind::{
    Conductivity, Density, Duration, Energy, IodineValue, Length, Mass, SaponificationValue, Share,
    SpecificHeat, Temperature, Unit, Volume,
};
pub use money::{Currency, Money, Price};
pub(crate) use parse::bare;
pub(crate) use parse::unit as unit_named;
pub use parse::{MassText, QuantityError};
pub(crate) use print::percent_beside;
pub use print::{fixed, grouped, pounds_and_ounces, told_apart};
pub use rust_decimal::Decimal;
pub use shown::{shown, step_decimals, typed};
pub(crate) use split::{Share as StepShare, divide};
pub use split::{Split, apportion, close, split_into_steps};
