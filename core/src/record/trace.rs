//! Where a lot went, and where a batch came from: through soap that was worked in again, as far as the records reach.

use std::collections::BTreeSet;

use super::{Lot, Record};
use crate::quantity::Mass;

/// How a lot is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum LotName<'n> {
    /// By the maker.
    Own(&'n str),
    /// By its supplier, whoever named it what in the workshop.
    Supplier {
        /// The supplier.
        supplier: &'n str,
        /// The supplier's name of the lot.
        lot: &'n str,
    },
}

impl LotName<'_> {
    fn is(self, lot: &Lot) -> bool {
        match self {
            Self::Own(name) => lot.lot == name,
            Self::Supplier { supplier, lot: name } => lot.supplier == supplier && lot.supplier_lot == name,
        }
    }
}

/// A batch that holds some of a lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found<'r> {
    /// Its record.
    pub record: &'r Record,
    /// How much was weighed into it of what was looked for: of the lot, or of the batch that brought it.
    pub mass: Mass,
    /// Batches that brought it, in the order in which it went through them; empty when it went in as it is.
    pub through: Vec<&'r str>,
}

/// Which batches hold some of a lot: those it was weighed into, then those that such a batch was worked into again.
/// Each batch stands once, by the shortest way.
///
/// ```
/// use lamella::record::{LotName, forward, read};
/// let first = read(r#"{"lamella": "record/1", "batch": "1", "product": "Plain",
///     "lots": [{"lot": "O7", "material": "olive-oil"}], "weighings": [{"lot": "O7", "mass": "400 g"}]}"#).unwrap();
/// let second = read(r#"{"lamella": "record/1", "batch": "2", "product": "Confetti",
///     "lots": [{"lot": "R1", "material": "soap", "batch": "1"}], "weighings": [{"lot": "R1", "mass": "90 g"}]}"#).unwrap();
/// let records = [first, second];
/// let found = forward(&records, LotName::Own("O7"));
/// assert_eq!(found[0].record.batch, "1");
/// assert_eq!((&*found[1].record.batch, &found[1].through), ("2", &vec!["1"]));
/// ```
#[must_use]
pub fn forward<'r>(records: &'r [Record], lot: LotName<'_>) -> Vec<Found<'r>> {
    let holding = |wanted: &dyn Fn(&Lot) -> bool, through: &[&'r str]| {
        let mass = |record: &'r Record| -> Option<Mass> {
            let used: Vec<Mass> =
                record.used().into_iter().filter(|(lot, _)| wanted(lot)).map(|(_, mass)| mass).collect();
            (!used.is_empty()).then(|| used.into_iter().sum())
        };
        let found = records
            .iter()
            .filter_map(|record| Some(Found { record, mass: mass(record)?, through: through.to_vec() }));
        found.collect::<Vec<_>>()
    };
    let mut seen = BTreeSet::new();
    let mut found: Vec<Found<'r>> = Vec::new();
    let mut next = holding(&|known| lot.is(known), &[]);
    while !next.is_empty() {
        let mut after = Vec::new();
        for one in next {
            if seen.insert(one.record.batch.as_str()) {
                let mut through = one.through.clone();
                through.push(&one.record.batch);
                after.extend(holding(&|known| known.batch == one.record.batch, &through));
                found.push(one);
            }
        }
        next = after;
    }
    found
}

/// A lot that is in a batch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source<'r> {
    /// The lot.
    pub lot: &'r Lot,
    /// How much of it was weighed into the batch that it went into as it is.
    pub mass: Mass,
    /// Batches that brought it, from the one asked for on; empty when it went in as it is.
    pub through: Vec<&'r str>,
}

/// Which lots are in a batch: those weighed into it, and those of batches that were worked in again, as far as the records
/// reach. Nothing when there is no record of the batch. A lot of soap stands in the list before what it is made of.
#[must_use]
pub fn back<'r>(records: &'r [Record], batch: &str) -> Option<Vec<Source<'r>>> {
    let record = |batch: &str| records.iter().find(|record| record.batch == batch);
    let first = record(batch)?;
    let mut seen = BTreeSet::from([first.batch.as_str()]);
    let mut sources = Vec::new();
    let mut waiting: Vec<(&'r Record, Vec<&'r str>)> = vec![(first, Vec::new())];
    while let Some((here, through)) = waiting.pop() {
        for (lot, mass) in here.used() {
            sources.push(Source { lot, mass, through: through.clone() });
            if let Some(of) = record(&lot.batch).filter(|of| seen.insert(of.batch.as_str())) {
                let mut through = through.clone();
                through.push(&of.batch);
                waiting.push((of, through));
            }
        }
    }
    Some(sources)
}
