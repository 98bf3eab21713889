//! The cure: what weighings of a bar say of its drying, or, without any, what is to be expected.
//!
//! In: a `weighings/1` document; for an estimate a [`Plan`](crate::Plan). Out: a curve for each bar with its standard
//! errors, the weight at any age with its interval, when the loss of a week falls below a chosen share, and which
//! weighings do not belong. Depends on `quantity`, the reader of documents and the sheet's page; on no other reader.
//!
//! ```
//! let text = r#"{
//!     "lamella": "weighings/1", "batch": "2025-014", "cut": "2025-03-04",
//!     "bars": [{ "bar": "A", "weighings": [
//!         { "date": "2025-03-04", "mass": "112.1 g" }, { "date": "2025-03-08", "mass": "108.2 g" },
//!         { "age": "9 d", "mass": "104.9 g" }, { "age": "16 d", "mass": "101.3 g" },
//!         { "age": "27 d", "mass": "98.3 g" }, { "age": "45 d", "mass": "96.1 g" }
//!     ] }]
//! }"#;
//! let weighings = lamella::cure::read(text).unwrap();
//! let cure = lamella::cure::Cure::of(&weighings);
//! let bar = &cure.bars[0];
//! let ready = bar.ready.unwrap();
//! assert_eq!(ready.date.unwrap().to_string(), "2025-04-14");
//! let later = bar.weight("10 weeks".parse().unwrap()).unwrap();
//! assert!(later.low < later.mass && later.mass < later.high);
//! ```

mod document;
mod drying;
mod estimate;
mod page;

#[cfg(feature = "schema")]
pub use document::schema;
pub use document::{Bar, Weighing, Weighings, fresh, read, write};
pub use drying::{Fit, NoFit, Point, Prediction};
pub use estimate::{Estimate, dried};
pub use page::{markdown, page, svg, text};

use crate::quantity::{Date, Duration, Mass, Share};

/// Loss of a week, as a share of the bar, below which it counts as dry.
///
/// # Source
/// Common practice, no source: two weekly weights that differ by less than 0.5 %.
pub const SETTLED_BELOW: Share = Share::literal(5, 3);

/// A mass with the interval it lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weight {
    /// What is most likely.
    pub mass: Mass,
    /// Lower end.
    pub low: Mass,
    /// Upper end.
    pub high: Mass,
}

/// When a bar loses less in a week than the chosen share.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ready {
    /// Age at which that begins; nought when it is so from the first day on.
    pub age: Duration,
    /// Lower end of its interval.
    pub low: Duration,
    /// Upper end of its interval.
    pub high: Duration,
    /// The day of that age, rounded up to whole days; nothing when the day of the cut is not known.
    pub date: Option<Date>,
}

/// What is made of one weighing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Verdict {
    /// The curve is fitted to it.
    Used,
    /// It lies off the curve of the others and is left out.
    Off,
    /// It belongs to a run that weighs more or less than the rest throughout, and is left out.
    OtherBar,
}

/// A weighing, and what is made of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weighed {
    /// Age of the bar.
    pub age: Duration,
    /// The day, where it is known.
    pub date: Option<Date>,
    /// What it weighed.
    pub mass: Mass,
    /// What the curve says; nothing without a curve.
    pub curve: Option<Mass>,
    /// What is made of it.
    pub verdict: Verdict,
}

/// From some weighing on, all weigh more or less than the curve of those before: another bar, or another scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shift {
    /// Index of the first weighing of the other bar, in the order of age.
    pub from: usize,
    /// How much more it weighs; negative for less.
    pub by: Mass,
}

/// What the weighings of one bar say.
#[derive(Clone, Debug, PartialEq)]
pub struct BarCure {
    /// What the maker calls it.
    pub name: String,
    /// Its weighings in the order of age.
    pub points: Vec<Weighed>,
    /// Another bar among them.
    pub shift: Option<Shift>,
    /// The curve, or why there is none.
    pub fit: Result<Fit, NoFit>,
    /// When it is dry; nothing without a curve.
    pub ready: Option<Ready>,
}

impl BarCure {
    /// Mass at an age with the 95 % interval of the curve; nothing without a curve.
    #[must_use]
    pub fn weight(&self, age: Duration) -> Option<Weight> {
        let there = self.fit.as_ref().ok()?.at(drying::in_days(age));
        weight(there.mass, there.mean)
    }

    /// The same for a single weighing: wider by the scatter of a weighing.
    #[must_use]
    pub fn weighing(&self, age: Duration) -> Option<Weight> {
        let there = self.fit.as_ref().ok()?.at(drying::in_days(age));
        weight(there.mass, there.weighing)
    }

    /// Mass that it dries to, with its 95 % interval; nothing without a curve.
    #[must_use]
    pub fn equilibrium(&self) -> Option<Weight> {
        let fit = self.fit.as_ref().ok()?;
        let [error, ..] = fit.errors();
        drying::around(fit.equilibrium, error, fit.freedom).and_then(|ends| weight(fit.equilibrium, ends))
    }
}

fn weight(mass: f64, (low, high): (f64, f64)) -> Option<Weight> {
    let [mass, low, high] = [mass, low, high].map(drying::grams);
    Some(Weight { mass: mass?, low: low?, high: high? })
}

/// What the weighings of a batch say.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// The batch.
    pub batch: String,
    /// The day it was cut; age is counted from it.
    pub cut: Option<Date>,
    /// Loss of a week below which a bar counts as dry.
    pub settled_below: Share,
    /// Each bar that was weighed.
    pub bars: Vec<BarCure>,
}

impl Cure {
    /// Fits a curve to the weighings of each bar.
    #[must_use]
    pub fn of(weighings: &Weighings) -> Self {
        let bars = weighings.bars.iter().map(|bar| bar_cure(bar, weighings)).collect();
        Self {
            batch: weighings.batch.clone(),
            cut: weighings.cut,
            settled_below: weighings.settled_below,
            bars,
        }
    }

    /// When the last of the bars is dry; nothing unless all have a curve.
    #[must_use]
    pub fn ready(&self) -> Option<Ready> {
        let all: Option<Vec<Ready>> = self.bars.iter().map(|bar| bar.ready).collect();
        all?.into_iter().max_by_key(|ready| ready.age)
    }
}

fn bar_cure(bar: &Bar, weighings: &Weighings) -> BarCure {
    let mut sorted: Vec<&Weighing> = bar.weighings.iter().collect();
    sorted.sort_by_key(|weighing| weighing.age);
    let points: Vec<Point> = sorted.iter().map(|weighing| point(weighing)).collect();
    let watched = drying::watch(&points);
    let of_other = |index: usize| {
        let larger = |at: usize| at.saturating_mul(2) > points.len();
        watched.shift.is_some_and(|(at, _)| if larger(at) { index >= at } else { index < at })
    };
    let curve = |weighing: &Weighing| {
        let fit = watched.fit.as_ref().ok()?;
        drying::grams(fit.at(drying::in_days(weighing.age)).mass)
    };
    let weighed = sorted.iter().zip(&watched.off).enumerate().map(|(index, (weighing, off))| Weighed {
        age: weighing.age,
        date: weighing.date.or_else(|| day(weighings.cut, weighing.age)),
        mass: weighing.mass,
        curve: curve(weighing),
        verdict: match (of_other(index), off) {
            (true, _) => Verdict::OtherBar,
            (false, true) => Verdict::Off,
            (false, false) => Verdict::Used,
        },
    });
    let below = weighings.settled_below.exact().approximate();
    let ready = watched.fit.as_ref().ok().and_then(|fit| ready(fit.settled(below), weighings.cut));
    BarCure {
        name: bar.name.clone(),
        points: weighed.collect(),
        shift: watched.shift.and_then(|(from, by)| drying::grams(by).map(|by| Shift { from, by })),
        ready,
        fit: watched.fit,
    }
}

fn point(weighing: &Weighing) -> Point {
    Point {
        age: drying::in_days(weighing.age),
        mass: weighing.mass.exact().approximate(),
        uncertainty: weighing.uncertainty.map_or(1.0, |sigma| sigma.exact().approximate()),
    }
}

fn ready((age, (low, high)): (f64, (f64, f64)), cut: Option<Date>) -> Option<Ready> {
    let [age, low, high] = [age, low, high].map(drying::days);
    let age = age?;
    Some(Ready { age, low: low?, high: high?, date: day_after(cut, age) })
}

/// The day of an age that is whole days.
fn day(cut: Option<Date>, age: Duration) -> Option<Date> {
    let days = age.exact().whole_steps(Duration::literal(86_400, 0).exact())?;
    cut?.plus_days(days)
}

/// The first day on which a bar has at least this age.
fn day_after(cut: Option<Date>, age: Duration) -> Option<Date> {
    let day = Duration::literal(86_400, 0);
    let whole = age.exact().whole_steps(day.exact())?;
    let rest = (age.exact() - crate::quantity::Exact::from(whole) * day.exact()).is_positive();
    cut?.plus_days(whole.checked_add(i64::from(rest))?)
}
