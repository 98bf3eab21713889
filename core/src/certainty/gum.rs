//! Standard uncertainty of a superfat and its budget (JCGM 100:2008, 5.1.2): closed-form sensitivities at the middle of
//! each range, rectangular distributions (4.3.7), one input for whatever is one bottle, tub or jar (5.2.5, note 1).
#![expect(
    clippy::float_arithmetic,
    reason = "a distribution is estimated; nothing that is weighed follows from it"
)]

use super::model::{Intake, JugModel, Model, Part, Rate, Var};

/// Expectation, standard uncertainty, and what each input contributes to it, as doubles.
#[derive(Clone, Debug)]
pub(crate) struct Spread {
    pub(crate) expected: f64,
    pub(crate) uncertainty: f64,
    /// (input, |sensitivity| times its standard uncertainty), the largest first; noughts left out.
    pub(crate) budget: Vec<(Var, f64)>,
}

/// What is in something, in sums.
#[derive(Clone, Copy, Default)]
struct Sum {
    net: f64,
    demand: f64,
    mass: f64,
}

/// A model at the middle of its ranges.
pub(crate) struct Middle<'m> {
    model: &'m Model,
    values: Vec<f64>,
    /// Standard uncertainty of each input.
    widths: Vec<f64>,
    pot: Sum,
    lye: Sum,
}

/// Derivatives of N and D by each input.
struct Slopes {
    net: Vec<f64>,
    demand: Vec<f64>,
}

impl Slopes {
    fn add(&mut self, var: Var, net: f64, demand: f64) {
        if let Some((n, d)) = self.net.get_mut(var).zip(self.demand.get_mut(var)) {
            *n += net;
            *d += demand;
        }
    }
}

impl<'m> Middle<'m> {
    pub(crate) fn of(model: &'m Model) -> Self {
        let (mut values, mut widths) = (Vec::new(), Vec::new());
        for input in &model.inputs {
            let (low, high) = (input.low.approximate(), input.high.approximate());
            values.push((low + high) / 2.0);
            // A difference of two readings is the sum of two rectangles, each half as wide.
            widths.push((high - low) / libm::sqrt(12.0 * f64::from(input.readings)));
        }
        let mut middle = Self { model, values, widths, pot: Sum::default(), lye: Sum::default() };
        (middle.pot, middle.lye) = (middle.sum(&model.pot), middle.sum(&model.lye));
        middle
    }

    fn value(&self, var: Var) -> f64 {
        self.values.get(var).copied().unwrap_or(f64::NAN)
    }

    /// Net alkali and demand of a gram.
    fn rate(&self, rate: &Rate) -> (f64, f64) {
        let demand = rate
            .fat
            .map_or(0.0, |(share, sv)| share.map_or(1.0, |share| self.value(share)) * self.value(sv) / 1e3);
        let acid = rate.acid.map_or(0.0, |(share, koh)| self.value(share) * koh.approximate());
        let alkali = rate.alkali.map_or(0.0, |(purity, koh)| self.value(purity) * koh.approximate());
        (alkali - acid, demand)
    }

    fn sum(&self, parts: &[Part]) -> Sum {
        let mut sum = Sum::default();
        for part in parts {
            let (mass, (net, demand)) = (self.value(part.mass), self.rate(&part.rate));
            sum.net += mass * net;
            sum.demand += mass * demand;
            sum.mass += mass;
        }
        sum
    }

    /// Adds what the inputs of `factor` times these parts do; `mean` is that of the vessel when it is weighed out of.
    fn slopes(&self, parts: &[Part], factor: f64, mean: Option<Sum>, slopes: &mut Slopes) {
        for part in parts {
            let mass = self.value(part.mass) * factor;
            let (net, demand) = self.rate(&part.rate);
            let (mean_net, mean_demand) =
                mean.map_or((0.0, 0.0), |sum| (sum.net / sum.mass, sum.demand / sum.mass));
            slopes.add(part.mass, factor * (net - mean_net), factor * (demand - mean_demand));
            if let Some((share, sv)) = part.rate.fat {
                slopes.add(sv, 0.0, mass * share.map_or(1.0, |share| self.value(share)) / 1e3);
                if let Some(share) = share {
                    slopes.add(share, 0.0, mass * self.value(sv) / 1e3);
                }
            }
            if let Some((share, koh)) = part.rate.acid {
                slopes.add(share, -mass * koh.approximate(), 0.0);
            }
            if let Some((purity, koh)) = part.rate.alkali {
                slopes.add(purity, mass * koh.approximate(), 0.0);
            }
        }
    }

    /// Of one jug, or of several together.
    pub(crate) fn spread(&self, jugs: &[JugModel]) -> Spread {
        let count = self.values.len();
        let mut slopes = Slopes { net: vec![0.0; count], demand: vec![0.0; count] };
        let (mut net, mut demand) = (0.0, 0.0);
        // How much of each vessel these jugs get, and whether it is weighed out.
        let mut taken = [(0.0, false); 2];
        let vessels = [(&self.pot, &self.model.pot), (&self.lye, &self.model.lye)];
        for jug in jugs {
            for (((sum, _), share), taken) in vessels.into_iter().zip([jug.pot, jug.lye]).zip(&mut taken) {
                match share {
                    None => {}
                    Some(Intake::Weighed(var)) => {
                        slopes.add(var, sum.net / sum.mass, sum.demand / sum.mass);
                        *taken = (taken.0 + self.value(var) / sum.mass, true);
                    }
                    Some(Intake::AllBut(var)) => {
                        slopes.add(var, -sum.net, -sum.demand);
                        *taken = (taken.0 + 1.0 - self.value(var), false);
                    }
                }
            }
            let doses = self.sum(&jug.parts);
            net += doses.net;
            demand += doses.demand;
            self.slopes(&jug.parts, 1.0, None, &mut slopes);
        }
        for ((sum, parts), (factor, weighed)) in vessels.into_iter().zip(taken) {
            net += sum.net * factor;
            demand += sum.demand * factor;
            self.slopes(parts, factor, weighed.then_some(*sum), &mut slopes);
        }
        // d(1 - N/D) = (N dD - D dN) / D²
        let mut budget: Vec<(Var, f64)> =
            (slopes.net.iter().zip(&slopes.demand).zip(&self.widths).enumerate())
                .map(|(var, ((dn, dd), width))| {
                    (var, libm::fabs((net * dd - demand * dn) / (demand * demand)) * width)
                })
                .filter(|(_, part)| *part > 0.0)
                .collect();
        budget.sort_by(|a, b| b.1.total_cmp(&a.1));
        let variance: f64 = budget.iter().map(|(_, part)| part * part).sum();
        Spread { expected: 1.0 - net / demand, uncertainty: libm::sqrt(variance), budget }
    }
}

/// The share of the variance that each contribution makes.
pub(crate) fn part_of(part: f64, spread: &Spread) -> f64 {
    let ratio = part / spread.uncertainty;
    ratio * ratio
}

/// How many standard uncertainties hold 95 % of a normal distribution (JCGM 100:2008, table G.1).
const COVERAGE: f64 = 1.96;

/// The ends of the 95 % coverage interval, as if the result were normal (G.2).
pub(crate) fn covered(spread: &Spread) -> (f64, f64) {
    let half = COVERAGE * spread.uncertainty;
    (spread.expected - half, spread.expected + half)
}
