//! The numbers of a request: what each fat brings to each figure, and each demand as one linear condition.

use std::rc::Rc;

use super::exact::dot;
use super::request::{Aim, Candidate, Demand, End, Measure, Request};
use crate::chemistry::acids_in;
use crate::material::{AcidShare, FattyAcid};
use crate::quantity::{Exact, Share};

/// By how much a demand that is a single point may be missed, and a demand that leaves no room around it: blends are
/// decimals, and such a point need not be one. As a part of the largest figure that a fat brings.
pub(super) const POINT: Exact = Exact::literal(1, 9);
/// Decimals that what a fat brings to a figure keeps.
const FIGURE: u32 = 18;
/// Decimals that the coefficients of conditions keep, so that their products with shares fit into 28 digits without
/// rounding. What a published figure shows is a thousand times coarser.
const KEPT: u32 = 15;
/// What that may round away of a condition, as a part of its scale.
pub(super) const ROUNDING: Exact = Exact::literal(1, 14);

/// A figure as a ratio of two sums over the fats: `sum(value x share) / sum(weight x share)`.
#[derive(Clone, Debug)]
pub(super) struct Figure {
    /// Nothing for a mean over the shares: each weighs one.
    pub(super) weight: Option<Vec<Exact>>,
    pub(super) value: Vec<Exact>,
}

impl Figure {
    pub(super) fn of(&self, shares: &[Exact]) -> Exact {
        dot(&self.value, shares) / self.weighed(shares)
    }

    /// What a share of each fat brings beyond a level of the figure, multiplied out.
    pub(super) fn against(&self, level: Exact) -> Vec<Exact> {
        match &self.weight {
            Some(weight) => {
                let both = self.value.iter().zip(weight);
                both.map(|(value, weight)| *value - *weight * level).collect()
            }
            None => self.value.iter().map(|value| *value - level).collect(),
        }
    }

    /// The lower sum.
    pub(super) fn weighed(&self, shares: &[Exact]) -> Exact {
        self.weight.as_ref().map_or_else(|| shares.iter().copied().sum(), |weight| dot(weight, shares))
    }
}

/// One bound of a demand as a condition: `sum(gain x share)` is not below nought. A ratio is multiplied out, and all is
/// divided by a power of ten, so that the largest gain lies between a tenth and one.
#[derive(Clone, Debug)]
pub(super) struct Side {
    pub(super) demand: usize,
    pub(super) end: End,
    pub(super) gain: Vec<Exact>,
    /// What the gains were divided by.
    pub(super) scale: Exact,
    /// Whether the demand is a single point.
    pub(super) point: bool,
}

/// The numbers of a request. Shares of the fats stand in its order.
#[derive(Clone, Debug)]
pub(super) struct Space {
    pub(super) lo: Vec<Exact>,
    pub(super) hi: Vec<Exact>,
    pub(super) step: Option<Share>,
    /// Steps in the whole: 100 for whole per cents.
    pub(super) steps: Option<i64>,
    pub(super) fats_at_most: Option<u32>,
    pub(super) cost: Option<Vec<Exact>>,
    pub(super) usual: Vec<Exact>,
    /// These do not change from one space of a request to the next, which therefore share them.
    pub(super) figures: Rc<[Figure]>,
    pub(super) sides: Rc<[Side]>,
    /// Target of a demand: the miss as a linear figure, in points.
    pub(super) targets: Rc<[Vec<Exact>]>,
}

impl Space {
    /// Nothing when a figure is missing or out of range; the reader reports that before.
    pub(super) fn of(request: &Request) -> Option<Self> {
        let fats = &request.fats;
        let cost: Option<Vec<Exact>> = fats.iter().map(Candidate::cost).collect();
        let all: Vec<Exact> = fats.iter().map(|candidate| short(acids_in(&candidate.fat), FIGURE)).collect();
        let listed = |profile: &[AcidShare], counts: &dyn Fn(FattyAcid) -> bool| -> Exact {
            profile.iter().filter(|line| counts(line.acid)).map(|line| line.share.typical.exact()).sum()
        };
        // Grams of acids in a gram of each fat, to a whole of what its profile lists.
        let parts: Vec<Exact> =
            fats.iter()
                .zip(&all)
                .map(|(candidate, all)| {
                    if all.is_zero() { Exact::ZERO } else { *all / listed(&candidate.fat.profile, &|_| true) }
                })
                .collect();
        let acid_figure = |counts: &dyn Fn(FattyAcid) -> bool| {
            let of_fat = |(candidate, part): (&Candidate, &Exact)| {
                short(listed(&candidate.fat.profile, counts) * *part, FIGURE)
            };
            Some(Figure { weight: Some(all.clone()), value: fats.iter().zip(&parts).map(of_fat).collect() })
        };
        let mean = |value: Option<Vec<Exact>>| Some(Figure { weight: None, value: value? });
        let figure = |demand: &Demand| match &demand.measure {
            Measure::Class(class) => acid_figure(&|acid| acid.class() == *class),
            Measure::Acid(wanted) => acid_figure(&|acid| acid == *wanted),
            Measure::IodineValue => {
                mean(fats.iter().map(|fat| fat.iodine_value.map(|value| value.exact())).collect())
            }
            Measure::SaponificationValue => {
                mean(Some(fats.iter().map(|fat| fat.fat.saponification_value.typical.exact()).collect()))
            }
            Measure::Group(group) => {
                let member = |fat: &Candidate| {
                    if fat.groups.contains(group) { Exact::ONE } else { Exact::ZERO }
                };
                mean(Some(fats.iter().map(member).collect()))
            }
            Measure::Cost => mean(cost.clone()),
        };
        let figures = request.demands.iter().map(figure).collect::<Option<Vec<_>>>()?;
        let mut sides = Vec::new();
        let mut targets = Vec::new();
        for (index, (demand, figure)) in request.demands.iter().zip(&figures).enumerate() {
            let point = demand.at_least.is_some() && demand.at_least == demand.at_most;
            if let Some(level) = demand.at_least {
                sides.push(Side::new(index, End::AtLeast, &figure.against(Exact::from(level)), point)?);
            }
            if let Some(level) = demand.at_most {
                let gain: Vec<_> = figure.against(Exact::from(level)).into_iter().map(|gain| -gain).collect();
                sides.push(Side::new(index, End::AtMost, &gain, point)?);
            }
            if let Some(level) = demand.target {
                targets.push(
                    figure
                        .against(Exact::from(level))
                        .into_iter()
                        .map(|miss| miss / demand.measure.point())
                        .collect(),
                );
            }
        }
        let steps = match request.step {
            Some(step) => Some((Exact::ONE / step.exact()).steps(Exact::ONE)?),
            None => None,
        };
        Some(Self {
            lo: fats.iter().map(|fat| fat.min.exact()).collect(),
            hi: fats.iter().map(|fat| fat.most(request.size).0.exact()).collect(),
            step: request.step,
            steps,
            fats_at_most: request.fats_at_most,
            cost,
            usual: fats.iter().map(|fat| fat.usual.exact()).collect(),
            figures: figures.into(),
            sides: sides.into(),
            targets: targets.into(),
        })
    }

    /// What an aim comes to at these shares: the smaller the better, but for [`Aim::MostOf`].
    pub(super) fn value(&self, aim: Aim, shares: &[Exact]) -> Option<Exact> {
        let size = |value: Exact| value.max(-value);
        let misses = || self.targets.iter().map(|miss| size(dot(miss, shares)));
        Some(match aim {
            Aim::Cheapest => dot(self.cost.as_ref()?, shares),
            Aim::NearestUsual => {
                shares.iter().zip(&self.usual).map(|(share, usual)| size(*share - *usual)).sum()
            }
            Aim::NearestTargets => misses().sum(),
            Aim::LeastWorstMiss => misses().fold(Exact::ZERO, Exact::max),
            Aim::FewestFats => Exact::count(shares.iter().filter(|share| share.is_positive()).count()),
            Aim::MostOf(index) => *shares.get(index)?,
        })
    }

    /// The aim as a linear figure to make small, where it is one.
    pub(super) fn linear(&self, aim: Aim) -> Option<Vec<Exact>> {
        match aim {
            Aim::Cheapest => self.cost.clone(),
            Aim::MostOf(index) => Some(
                (0..self.lo.len()).map(|at| if at == index { -Exact::ONE } else { Exact::ZERO }).collect(),
            ),
            _ => None,
        }
    }

    /// What these shares bring to each side.
    pub(super) fn brought(&self, shares: &[Exact]) -> Vec<Exact> {
        self.sides.iter().map(|side| dot(&side.gain, shares)).collect()
    }

    /// By how much these shares miss what is demanded, as a part of each side's scale: nought when nothing is missed.
    /// Nothing when they are no shares between the limits of each fat, in whole steps where that is wanted, of not too
    /// many fats. `brought` is what they bring to each side.
    pub(super) fn miss(&self, shares: &[Exact], brought: &[Exact]) -> Option<Exact> {
        let sum: Exact = shares.iter().copied().sum();
        if !(sum - Exact::ONE).is_zero() || shares.len() != self.lo.len() {
            return None;
        }
        let outside = |((share, lo), hi): ((&Exact, &Exact), &Exact)| {
            (*share - *lo).is_negative() || (*hi - *share).is_negative()
        };
        if shares.iter().zip(&self.lo).zip(&self.hi).any(outside) {
            return None;
        }
        let broken = |share: &Exact, step: Share| {
            share
                .steps(step.exact())
                .is_none_or(|steps| !(Exact::from(steps) * step.exact() - *share).is_zero())
        };
        if self.step.is_some_and(|step| shares.iter().any(|share| broken(share, step))) {
            return None;
        }
        let used = Exact::count(shares.iter().filter(|share| share.is_positive()).count());
        if self.fats_at_most.is_some_and(|most| (used - Exact::from(i64::from(most))).is_positive()) {
            return None;
        }
        let miss = brought.iter().map(|brought| missed(*brought)).fold(Exact::ZERO, Exact::max);
        miss.decimal().map(|_| miss)
    }

    /// Whether nothing is missed but single points, and those by no more than [`POINT`].
    pub(super) fn holds(&self, shares: &[Exact], brought: &[Exact]) -> bool {
        let allowed = |side: &Side| if side.point { POINT } else { Exact::ZERO };
        let held = |(side, brought): (&Side, &Exact)| !(missed(*brought) - allowed(side)).is_positive();
        let miss = self.miss(shares, brought);
        miss.is_some_and(|miss| miss.is_zero() || self.sides.iter().zip(brought).all(held))
    }

    /// The same without the fats that a side alone forbids: one that every fat meets at best just so is met only without
    /// those that do not meet it.
    pub(super) fn without_forbidden(&self) -> Self {
        let mut space = self.clone();
        for side in self.sides.iter().filter(|side| side.gain.iter().all(|gain| !gain.is_positive())) {
            for ((gain, lo), hi) in side.gain.iter().zip(&self.lo).zip(&mut space.hi) {
                if gain.is_negative() && lo.is_zero() {
                    *hi = Exact::ZERO;
                }
            }
        }
        space
    }

    /// The same without whole steps.
    pub(super) fn any_shares(&self) -> Self {
        Self { step: None, steps: None, ..self.clone() }
    }

    /// Which fats have room on both sides, and which sides hold the blend back: of a single point only the first.
    pub(super) fn corner(&self, shares: &[Exact], brought: &[Exact]) -> (Vec<usize>, Vec<usize>) {
        let near = POINT;
        let free = |index: &usize| {
            let at = |list: &[Exact]| list.get(*index).copied().unwrap_or(Exact::ZERO);
            (at(shares) - at(&self.lo) - near).is_positive()
                && (at(&self.hi) - at(shares) - near).is_positive()
        };
        let mut point = None;
        let mut held = |(_, (side, brought)): &(usize, (&Side, &Exact))| {
            let again = side.point && point.replace(side.demand) == Some(side.demand);
            let movable = |((gain, lo), hi): ((&Exact, &Exact), &Exact)| !gain.is_zero() && hi != lo;
            !again
                && side.gain.iter().zip(&self.lo).zip(&self.hi).any(movable)
                && !(**brought - near).is_positive()
        };
        (
            (0..self.lo.len()).filter(free).collect(),
            self.sides.iter().zip(brought).enumerate().filter(|side| held(side)).map(|(at, _)| at).collect(),
        )
    }
}

/// A number with at most so many decimals, to go on computing with.
fn short(value: Exact, decimals: u32) -> Exact {
    Exact::from(value.rounded(decimals))
}

impl Side {
    fn new(demand: usize, end: End, gain: &[Exact], point: bool) -> Option<Self> {
        let most = gain.iter().fold(Exact::ZERO, |most, gain| most.max(*gain).max(-*gain));
        most.decimal()?;
        let (ten, tenth) = (Exact::from(10), Exact::literal(1, 1));
        let (mut scale, mut share) = (Exact::ONE, Exact::ONE);
        while (most - scale).is_positive() {
            (scale, share) = (scale * ten, share * tenth);
        }
        while most.is_positive() && !(most - scale * tenth).is_positive() && (scale - POINT).is_positive() {
            (scale, share) = (scale * tenth, share * ten);
        }
        let as_it_is = (scale - Exact::ONE).is_zero();
        let scaled = |gain: &Exact| short(if as_it_is { *gain } else { *gain * share }, KEPT);
        let gain = gain.iter().map(scaled).collect();
        Some(Self { demand, end, gain, scale, point })
    }

    /// By how much the condition is missed, as a part of its scale.
    pub(super) fn miss(&self, shares: &[Exact]) -> Exact {
        missed(dot(&self.gain, shares))
    }
}

/// By how much a condition is missed to which so much is brought.
fn missed(brought: Exact) -> Exact {
    let miss = -brought;
    if (miss - ROUNDING).is_negative() { Exact::ZERO } else { miss }
}
