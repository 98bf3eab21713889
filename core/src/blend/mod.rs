//! Fats and shares chosen by a solver: which blend meets what a maker demands, and is best in what the maker aims at.
//!
//! In: a `blend/1` document, or a [`Request`]. Out: an [`Answer`], which can become the fats of a recipe; or a
//! [`Conflict`], the smallest set of demands that cannot be met together. Behind the feature `blend`. Depends on `recipe`
//! and `chemistry`; it does not need a plan.
//!
//! # What can be trusted
//!
//! The solver (`microlp`) computes in doubles. It proposes; decimals decide:
//!
//! * every blend is checked in decimals before it is returned: the shares sum to 100 %, each lies within its limits, in
//!   whole steps where that is wanted, and every demand is met exactly. Only where demands leave no room around a single
//!   point may they be missed by a billionth of the largest figure of any fat ([`Answer::miss`]);
//! * how good a blend can be at all is proved in decimals for costs and stocks ([`AimValue::bound`]);
//! * that demands conflict is proved in decimals for blends of any shares ([`Conflict::proved`]).
//!
//! The effort of a search is bounded by the number of parts that are looked at, not by a clock, so that the same request
//! gives the same answer on every machine; [`Answer::best`] says when it was.
//!
//! # How it is reckoned
//!
//! Every demand is one linear condition on the shares. Shares in the fatty acids are ratios (grams of the acid over grams
//! of all acids, see [`Measure::Class`]); a ratio of at least r is multiplied out to *grams of the acid less r times
//! grams of all acids is not below nought*. Aims are met in their order; a later one may take a billionth of an earlier.

mod answer;
mod choose;
mod conflict;
mod dual;
mod exact;
mod numbers;
mod program;
mod read;
mod refine;
mod request;
mod result;
mod say;
mod shadow;
mod solve;
mod space;
mod tables;
mod what_if;

pub use answer::{AimValue, Answer, Conflict, Conflicting, DemandValue, FatShare, Miss, Nearest, NoBlend};
pub use numbers::{Numbers, numbers};
pub use read::read;
#[cfg(feature = "schema")]
pub use read::schema;
pub use request::{Aim, Candidate, Demand, End, Measure, Request};
pub use result::{fat_lines, fats_json, solve};
pub use say::{render, render_refusal};
pub use what_if::{OneMore, one_more_point, settled};
