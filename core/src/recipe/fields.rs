//! What a table of fields is made of: the reader takes documents by these tables, the writer spells its words by
//! them, and the schema is printed from them.
#![cfg_attr(
    not(feature = "schema"),
    expect(dead_code, reason = "kinds and ids of fields are there for the schema")
)]

use crate::limits::Limit;
use crate::quantity::Unit;

/// Words that stand for the values of an enum.
#[derive(Debug)]
pub(crate) struct Words<T: 'static> {
    pub(crate) names: &'static [&'static str],
    pub(crate) values: &'static [T],
}

impl<T: Copy + PartialEq> Words<T> {
    pub(crate) fn value(&self, name: &str) -> Option<T> {
        let index = self.names.iter().position(|known| *known == name)?;
        self.values.get(index).copied()
    }

    pub(crate) fn name(&self, value: T) -> &'static str {
        let index = self.values.iter().position(|known| *known == value);
        index.and_then(|index| self.names.get(index)).copied().unwrap_or("")
    }
}

/// The units in which a quantity of a document may be stated.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Units {
    /// Those of a quantity type.
    Of(&'static [Unit]),
    /// `part`, `parts` or `%`.
    Parts,
    /// None.
    Bare,
}

/// A quantity: its units, its range, and how one is written.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wanted {
    pub(crate) limit: Limit,
    pub(crate) units: Units,
    pub(crate) example: &'static str,
}

/// What a field holds.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Kind {
    /// The name of the format.
    Tag(&'static str),
    /// A name or an id.
    Name,
    /// Text that may be empty.
    Note,
    /// One of some words.
    Word(&'static [&'static str]),
    /// `#rrggbb`.
    Swatch,
    /// A count, as a JSON number.
    Count(Limit),
    /// A quantity of one of some kinds.
    Quantity(&'static [Wanted]),
    /// A list with a least number of items.
    List(&'static Kind, usize),
    /// An object.
    Object(&'static Table),
    /// An object of the table that the word under the key names.
    Tagged(&'static str, &'static [(&'static str, &'static Table)]),
    /// One of some kinds.
    Either(&'static [Kind]),
    /// A day of the calendar.
    Date,
    /// A day, and the time of day where it is known.
    Moment,
    /// An object with fatty acids as keys and shares as values.
    Profile,
}

/// A field of an object.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Field {
    pub(crate) name: &'static str,
    pub(crate) must: bool,
    pub(crate) kind: Kind,
    pub(crate) doc: &'static str,
}

/// An object: its fields in the order in which they are written.
#[derive(Debug)]
pub(crate) struct Table {
    /// Its name in the schema.
    pub(crate) id: &'static str,
    /// What it is, with its article.
    pub(crate) what: &'static str,
    pub(crate) fields: &'static [Field],
    /// Groups of fields of which exactly one must be there, whole; empty for none.
    pub(crate) choice: &'static [&'static [&'static str]],
}

/// A field that must be there.
pub(crate) const fn must(name: &'static str, kind: Kind, doc: &'static str) -> Field {
    Field { name, must: true, kind, doc }
}

/// A field that may be there.
pub(crate) const fn may(name: &'static str, kind: Kind, doc: &'static str) -> Field {
    Field { name, must: false, kind, doc }
}

impl Table {
    pub(crate) const fn new(
        id: &'static str,
        what: &'static str,
        fields: &'static [Field],
        choice: &'static [&'static [&'static str]],
    ) -> Self {
        Self { id, what, fields, choice }
    }
}
