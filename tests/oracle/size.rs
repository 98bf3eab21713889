//! How much fat a size takes.

use super::chain::{Batch, Ideal};
use super::{RBig, cut, exact, ratio};
use lamella::quantity::{Length, Volume};
use lamella::recipe::{FatAmount, LayerShare, Recipe, Size};

enum Target {
    Fat(RBig),
    Mass(RBig),
    Volume(RBig),
    Layers,
}

#[derive(Clone, Copy, PartialEq)]
enum Measure {
    Fat,
    Mass,
    Volume,
}

/// Decimals kept between repetitions, where the answer is no fraction.
const KEPT: usize = 45;
/// Repetitions end when the answer moves by less than one part in ten to this power.
const STILL: usize = 32;

/// Ideal amounts of a recipe; nothing when no size is found.
#[must_use]
pub fn solve(recipe: &Recipe) -> Option<Ideal> {
    let batch = Batch::of(recipe);
    let target = target(recipe);
    let shares = shares(recipe);
    let wanted: Vec<RBig> = batch
        .jugs
        .iter()
        .map(|layers| layers.iter().fold(RBig::ZERO, |sum, layer| sum + &shares[*layer]))
        .collect();
    let measure = match recipe.layers[0].share {
        LayerShare::Mass(_) => Measure::Mass,
        LayerShare::Height(_) | LayerShare::Volume(_) => Measure::Volume,
        _ => Measure::Fat,
    };
    if measure != Measure::Fat {
        return repeated(&batch, &target, measure, &wanted);
    }
    let (measure, aim) = match target {
        Target::Fat(fat) => return Some(batch.at(&fat, &wanted)),
        Target::Mass(aim) => (Measure::Mass, aim),
        Target::Volume(aim) => (Measure::Volume, aim),
        Target::Layers => return None,
    };
    let missed = |fat: &RBig| total(&poured(&batch, &batch.at(fat, &wanted), measure)) - &aim;
    // A straight line is met by the first step; where grams that do not grow with the batch bend it, by some more.
    let (mut before, mut now) = (&aim / ratio(2, 1), aim.clone());
    let mut missed_before = missed(&before);
    for _ in 0..60 {
        let missed_now = missed(&now);
        if missed_now.is_zero() {
            return Some(batch.at(&now, &wanted));
        }
        let next = &now - &missed_now * (&now - &before) / (&missed_now - &missed_before);
        if missed(&next).is_zero() {
            return Some(batch.at(&next, &wanted));
        }
        let next = cut(&next, KEPT);
        let moved = (&next - &now) / &now;
        (before, missed_before, now) = (now, missed_now, next);
        if small(&moved) {
            return Some(Ideal { exact: false, ..batch.at(&now, &wanted) });
        }
    }
    None
}

fn small(moved: &RBig) -> bool {
    let limit = ratio(1, 10_i128.pow(u32::try_from(STILL).unwrap_or(0)));
    *moved < limit && *moved > -limit
}

fn total(values: &[RBig]) -> RBig {
    values.iter().fold(RBig::ZERO, |sum, value| sum + value)
}

/// Each jug takes the fat that gives its layers what they ask for, found by repetition.
fn repeated(batch: &Batch<'_>, target: &Target, measure: Measure, wanted: &[RBig]) -> Option<Ideal> {
    let mut fats: Vec<RBig> = wanted.iter().map(|part| part * ratio(2, 3)).collect();
    let whole = total(wanted);
    // A stated amount of fat is that amount; only how it goes to the jugs is sought.
    let all = |fats: &[RBig]| if let Target::Fat(fat) = target { fat.clone() } else { total(fats) };
    for _ in 0..120 {
        let ideal = batch.at(&all(&fats), &fats);
        let got = poured(batch, &ideal, measure);
        let size = match target {
            Target::Fat(_) => RBig::ONE,
            Target::Mass(aim) => aim / total(&poured(batch, &ideal, Measure::Mass)),
            Target::Volume(aim) => aim / total(&poured(batch, &ideal, Measure::Volume)),
            Target::Layers => &whole / total(&got),
        };
        let mut still = true;
        let got_whole = total(&got);
        for ((fat, part), got) in fats.iter_mut().zip(wanted).zip(&got) {
            let shape = part / &whole * &got_whole / got;
            still &= small(&(&shape - RBig::ONE)) && small(&(&size - RBig::ONE));
            *fat = cut(&(&*fat * shape * &size), KEPT);
        }
        if still {
            return Some(Ideal { exact: false, ..batch.at(&all(&fats), &fats) });
        }
    }
    None
}

/// What comes out of each jug when its residue has stayed.
fn poured(batch: &Batch<'_>, ideal: &Ideal, measure: Measure) -> Vec<RBig> {
    let of = |(index, jug): (usize, &super::IdealJug)| {
        let mass = &jug.contents.mass;
        let out = mass - batch.residue(index);
        match measure {
            Measure::Fat => jug.fat.clone(),
            Measure::Mass => out,
            Measure::Volume => &jug.contents.volume * out / mass,
        }
    };
    ideal.jugs.iter().enumerate().map(of).collect()
}

fn target(recipe: &Recipe) -> Target {
    match recipe.size {
        Some(Size::Fat(mass)) => Target::Fat(exact(mass.exact())),
        Some(Size::Batter(mass)) => Target::Mass(exact(mass.exact())),
        Some(Size::Bars { count, each }) => Target::Mass(exact(each.exact()) * ratio(i128::from(count), 1)),
        Some(_) => {
            let capacity = recipe.moulds.iter().map(|mould| exact(mould.capacity().exact()));
            Target::Volume(capacity.fold(RBig::ZERO, |sum, part| sum + part))
        }
        None => {
            let mut sum = RBig::ZERO;
            for line in &recipe.fats {
                match line.amount {
                    FatAmount::Mass(mass) => sum += exact(mass.exact()),
                    _ => return Target::Layers,
                }
            }
            Target::Fat(sum)
        }
    }
}

/// What each layer asks for, as a number of its kind.
#[must_use]
pub fn shares(recipe: &Recipe) -> Vec<RBig> {
    let mut below = Length::ZERO;
    let held = |height: Length| -> Volume { recipe.moulds.iter().map(|mould| mould.volume_to(height)).sum() };
    let of = |layer: &lamella::recipe::Layer| match layer.share {
        LayerShare::Parts(parts) => exact(parts),
        LayerShare::Mass(mass) => exact(mass.exact()),
        LayerShare::Volume(volume) => exact(volume.exact()),
        LayerShare::Height(height) => {
            let from = below;
            below += height;
            exact((held(below) - held(from)).exact())
        }
        _ => unreachable!("a share that this oracle does not know"),
    };
    recipe.layers.iter().map(of).collect()
}
