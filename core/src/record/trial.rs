//! A trial of a cured bar at the basin: words, and a few figures that anyone can take.

use crate::quantity::{
    Date, Decimal, Duration, Exact, Length, Mass, QuantityError, Share, Temperature, fixed,
};

/// How a bar lathers and feels after its cure. What is worth knowing is told in the maker's words and in figures that a
/// glass, a ruler, a scale and a pH meter give; no marks are awarded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trial {
    /// The batch.
    pub batch: String,
    /// Free text.
    pub note: String,
    /// When.
    pub on: Option<Date>,
    /// Age of the bar.
    pub age: Option<Duration>,
    /// Who tried it; may be empty.
    pub by: String,
    /// The water in words: from the tap, hard, rain; may be empty.
    pub water: String,
    /// Temperature of the water.
    pub temperature: Option<Temperature>,
    /// The lather in words; may be empty.
    pub lather: String,
    /// How the skin feels, at once and later; may be empty.
    pub feel: String,
    /// How the bar looks and smells; may be empty.
    pub look: String,
    /// Height of the foam in a shaken glass.
    pub foam: Option<Foam>,
    /// What a number of washes takes off the bar.
    pub washes: Option<Washes>,
    /// pH of a solution.
    pub ph: Option<Decimal>,
    /// How strong that solution is, by mass.
    pub solution: Option<Share>,
}

/// Foam in a glass that was shaken, always the same glass, the same soap and water, the same number of shakes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Foam {
    /// How high it stands at once.
    pub height: Length,
    /// How high it still stands later ...
    pub later: Option<Length>,
    /// ... and how much later that is.
    pub after: Option<Duration>,
}

impl Foam {
    /// The share of the foam that still stands later.
    #[must_use]
    pub fn kept(&self) -> Option<Share> {
        Share::try_new(self.later?.exact() / self.height.exact()).ok()
    }
}

/// A number of washes, each the same, and the bar weighed before the first and dry after the last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Washes {
    /// How many.
    pub count: u32,
    /// The bar before.
    pub before: Mass,
    /// The bar after, dried.
    pub after: Mass,
}

impl Washes {
    /// What one wash takes.
    ///
    /// # Errors
    /// None that a document can bring about: counts are above nought.
    pub fn loss(&self) -> Result<Mass, QuantityError> {
        Mass::try_new((self.before - self.after).exact() / Exact::from(i64::from(self.count)))
    }

    /// How many such washes the bar would last from its first day.
    #[must_use]
    pub fn lasts(&self) -> Option<i64> {
        let loss = self.loss().ok()?;
        self.before.exact().whole_steps(loss.exact())
    }
}

/// A figure of two bars.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// What was measured.
    pub what: &'static str,
    /// This bar.
    pub this: String,
    /// The usual bar.
    pub usual: String,
    /// This less the usual, with its sign.
    pub more: String,
}

/// A bar beside the maker's usual one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Comparison {
    /// The batch of the usual bar.
    pub usual: String,
    /// Figures that both have.
    pub figures: Vec<Difference>,
    /// Words of both: what about, this bar, the usual one.
    pub words: Vec<(&'static str, String, String)>,
    /// What was not the same at both trials, so that the figures say less.
    pub unlike: Vec<String>,
}

/// Ages that differ by more make another bar of it. Source: common practice, no source: a week.
const AGES_APART: Duration = Duration::literal(604_800, 0);
/// Water that differs by more foams otherwise. Source: common practice, no source.
const WATER_APART: i64 = 3;

impl Comparison {
    /// Holds a trial against that of the maker's usual bar.
    #[must_use]
    pub fn of(trial: &Trial, usual: &Trial) -> Self {
        Self {
            usual: usual.batch.clone(),
            figures: figures(trial, usual),
            words: words(trial, usual),
            unlike: unlike(trial, usual),
        }
    }
}

fn difference(
    what: &'static str,
    unit: &str,
    decimals: u32,
    pair: Option<(Exact, Exact)>,
) -> Option<Difference> {
    let (this, usual) = pair?;
    let shown = |value: Exact| Some(format!("{}{unit}", fixed(value.decimal()?, decimals)));
    let more = this - usual;
    let sign = if more.is_positive() { "+" } else { "" };
    Some(Difference {
        what,
        this: shown(this)?,
        usual: shown(usual)?,
        more: format!("{sign}{}", shown(more)?),
    })
}

fn figures(trial: &Trial, usual: &Trial) -> Vec<Difference> {
    let foam = trial.foam.zip(usual.foam);
    let height = foam.map(|(this, usual)| (this.height.exact(), usual.height.exact()));
    let percent = |share: Share| share.exact() * Exact::HUNDRED;
    let kept = foam.and_then(|(this, usual)| Some((percent(this.kept()?), percent(usual.kept()?))));
    let washes = trial.washes.zip(usual.washes);
    let loss = washes.and_then(|(this, usual)| Some((this.loss().ok()?.exact(), usual.loss().ok()?.exact())));
    let lasts =
        washes.and_then(|(this, usual)| Some((Exact::from(this.lasts()?), Exact::from(usual.lasts()?))));
    let ph = trial.ph.zip(usual.ph).map(|(this, usual)| (Exact::from(this), Exact::from(usual)));
    [
        difference("height of the foam", " mm", 0, height),
        difference("foam that still stands later", " %", 1, kept),
        difference("what a wash takes", " g", 2, loss),
        difference("washes that a bar lasts", "", 0, lasts),
        difference("pH of the solution", "", 1, ph),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn words(trial: &Trial, usual: &Trial) -> Vec<(&'static str, String, String)> {
    let all = [
        ("lather", &trial.lather, &usual.lather),
        ("feel", &trial.feel, &usual.feel),
        ("look and smell", &trial.look, &usual.look),
    ];
    let said = all.into_iter().filter(|(_, this, usual)| !this.is_empty() || !usual.is_empty());
    said.map(|(what, this, usual)| (what, this.clone(), usual.clone())).collect()
}

fn unlike(trial: &Trial, usual: &Trial) -> Vec<String> {
    let mut unlike = Vec::new();
    let apart = |a: Exact, b: Exact| (a - b).max(b - a);
    if let Some((this, other)) = trial.age.zip(usual.age) {
        if (apart(this.exact(), other.exact()) - AGES_APART.exact()).is_positive() {
            let days = |age: Duration| fixed(age.in_unit("d").unwrap_or_default(), 0);
            unlike.push(format!("the bars are {} and {} days old", days(this), days(other)));
        }
    } else {
        unlike.push("the age of a bar is not written down".to_owned());
    }
    if let Some((this, other)) = trial.temperature.zip(usual.temperature)
        && (apart(this.exact(), other.exact()) - Exact::from(WATER_APART)).is_positive()
    {
        unlike.push(format!("the water was {this} and {other} warm"));
    }
    if trial.water != usual.water {
        unlike.push(format!("the water was “{}” and “{}”", trial.water, usual.water));
    }
    if trial.solution != usual.solution && trial.ph.is_some() && usual.ph.is_some() {
        unlike.push("the pH is of solutions of different strength".to_owned());
    }
    let after = |trial: &Trial| trial.foam.and_then(|foam| foam.after);
    if after(trial) != after(usual) && trial.foam.is_some() && usual.foam.is_some() {
        unlike.push("the foam was looked at after different times".to_owned());
    }
    unlike
}
