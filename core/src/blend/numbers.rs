//! The bare numbers of a request, for another solver or another hand to check.

use serde::{Serialize, Serializer};

use super::request::{Aim, Request};
use super::space::Space;
use crate::quantity::{Decimal, Exact};

/// A request without whole steps, as numbers: shares between `lo` and `hi` that sum to one, for each of which
/// `sum(condition x share)` is not below nought; the cheapest makes `sum(cost x share)` small.
///
/// Each condition is one bound of a demand, divided by a power of ten.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Numbers {
    /// Cost of a kilogram of each fat, when every fat has a price.
    #[serde(serialize_with = "maybe_list")]
    pub cost: Option<Vec<Decimal>>,
    /// Least share of each fat.
    #[serde(serialize_with = "list")]
    pub lo: Vec<Decimal>,
    /// Largest share of each fat; its stock counts.
    #[serde(serialize_with = "list")]
    pub hi: Vec<Decimal>,
    /// The conditions, a number for each fat.
    #[serde(serialize_with = "lists")]
    pub conditions: Vec<Vec<Decimal>>,
}

/// The numbers of a request; nothing when a figure is missing or beyond what can be computed.
#[must_use]
pub fn numbers(request: &Request) -> Option<Numbers> {
    let space = Space::of(request)?;
    let plain = |list: &[Exact]| list.iter().map(|value| value.decimal()).collect::<Option<Vec<_>>>();
    Some(Numbers {
        cost: space.linear(Aim::Cheapest).as_deref().and_then(plain),
        lo: plain(&space.lo)?,
        hi: plain(&space.hi)?,
        conditions: space.sides.iter().map(|side| plain(&side.gain)).collect::<Option<_>>()?,
    })
}

fn texts(values: &[Decimal]) -> Vec<String> {
    values.iter().map(|value| value.normalize().to_string()).collect()
}

fn list<S: Serializer>(values: &[Decimal], serializer: S) -> Result<S::Ok, S::Error> {
    texts(values).serialize(serializer)
}

fn lists<S: Serializer>(values: &[Vec<Decimal>], serializer: S) -> Result<S::Ok, S::Error> {
    values.iter().map(|values| texts(values)).collect::<Vec<_>>().serialize(serializer)
}

#[expect(clippy::ref_option, reason = "the signature that serde calls")]
fn maybe_list<S: Serializer>(values: &Option<Vec<Decimal>>, serializer: S) -> Result<S::Ok, S::Error> {
    values.as_deref().map(texts).serialize(serializer)
}
