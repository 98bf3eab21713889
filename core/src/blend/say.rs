//! A blend, or why there is none, in Markdown that reads as plain text too.

use std::fmt::Write as _;

use super::answer::{Answer, Conflicting, DemandValue, NoBlend};
use super::request::{End, Measure, Request};
use crate::quantity::{Decimal, Exact, Share, fixed, told_apart};

impl Request {
    /// The unit of a measure's bounds; empty for a share.
    pub(super) fn unit(&self, measure: &Measure) -> String {
        match measure {
            Measure::IodineValue => "g I2/100 g".to_owned(),
            Measure::SaponificationValue => "mg KOH/g".to_owned(),
            Measure::Cost => {
                let currency = self.fats.iter().find_map(|fat| Some(fat.price?.currency().to_string()));
                format!("{}/kg", currency.unwrap_or_default())
            }
            Measure::Class(_) | Measure::Acid(_) | Measure::Group(_) => String::new(),
        }
    }
}

/// A number of a measure: a share as per cent.
fn figure(value: Decimal, unit: &str, decimals: u32) -> String {
    let sign = if unit.is_empty() { "%" } else { unit };
    format!("{} {sign}", short(in_unit(value, unit), decimals))
}

fn in_unit(value: Decimal, unit: &str) -> Decimal {
    let percent = unit.is_empty().then(|| (Exact::from(value) * Exact::HUNDRED).decimal()).flatten();
    percent.unwrap_or(value)
}

/// A number of a measure that is beyond a bound, told apart from it: to four decimals, or as many as that takes.
fn beyond(value: Decimal, bound: Decimal, unit: &str) -> String {
    let (text, _) = told_apart(in_unit(value, unit), in_unit(bound, unit), 4);
    let decimals = text.split_once('.').map_or(0, |(_, digits)| digits.len());
    figure(value, unit, u32::try_from(decimals).unwrap_or(4))
}

/// At most so many decimals, without noughts at the end.
fn short(value: Decimal, decimals: u32) -> String {
    let value = Exact::from(value).rounded(decimals).unwrap_or(value).normalize();
    if value.is_zero() { "0".to_owned() } else { value.to_string() }
}

fn percent(share: Share) -> String {
    figure(share.value(), "", 4)
}

/// What a member of a conflict says, and how far the others let it go.
pub(super) fn member(request: &Request, member: &Conflicting, reach: Option<Exact>) -> String {
    let name = |fat: usize| request.fats.get(fat).map_or("", |candidate| &*candidate.fat.name);
    let reached = |unit: &str, least: bool, bound: Decimal| match reach.and_then(Exact::published) {
        Some(value) if least => format!(" (the others need at least {})", beyond(value, bound, unit)),
        Some(value) => format!(" (the others allow at most {})", beyond(value, bound, unit)),
        None => String::new(),
    };
    match member {
        Conflicting::Demand(index, end) => {
            let Some(demand) = request.demands.get(*index) else { return String::new() };
            let unit = request.unit(&demand.measure);
            let (bound, word, least) = match end {
                End::AtLeast => (demand.at_least, "at least", false),
                End::AtMost => (demand.at_most, "at most", true),
            };
            let bound = bound.unwrap_or_default();
            let words = figure(bound, &unit, 12);
            format!("{} {word} {words}{}", demand.measure.name(), reached(&unit, least, bound))
        }
        Conflicting::Min(fat) => {
            let min = request.fats.get(*fat).map_or(Share::ZERO, |candidate| candidate.min);
            format!("{} at least {}{}", name(*fat), min, reached("", false, min.value()))
        }
        Conflicting::Max(fat) => {
            let (most, stock) =
                request.fats.get(*fat).map_or((Share::ZERO, false), |fat| fat.most(request.size));
            let why = if stock { ", which is all there is," } else { "" };
            format!("{} at most {}{why}{}", name(*fat), percent(most), reached("", true, most.value()))
        }
        Conflicting::FatsAtMost => {
            format!("at most {} fats", request.fats_at_most.unwrap_or(0))
        }
        Conflicting::Steps => {
            format!("shares in whole steps of {}", request.step.unwrap_or(Share::ZERO))
        }
    }
}

fn bounds(demand: &DemandValue) -> String {
    let say = |value: Decimal| figure(value, &demand.unit, 12);
    let mut words = match (demand.at_least, demand.at_most) {
        (Some(low), Some(high)) if low == high => vec![format!("exactly {}", say(low))],
        (low, high) => {
            let low = low.map(|low| format!("at least {}", say(low)));
            low.into_iter().chain(high.map(|high| format!("at most {}", say(high)))).collect()
        }
    };
    words.extend(demand.target.map(|target| format!("near {}", say(target))));
    words.join(", ")
}

/// The blend as Markdown.
#[must_use]
pub fn render(answer: &Answer) -> String {
    let mut out = format!("# {}\n\n| fat | share | mass |\n| --- | ---: | ---: |\n", answer.name);
    for fat in answer.fats.iter().filter(|fat| !fat.share.is_zero()) {
        let mass = fat.mass.map_or(String::new(), |mass| format!("{} g", fixed(mass.value(), 1)));
        let _ = writeln!(out, "| {} | {} | {mass} |", fat.name, percent(fat.share));
    }
    let currency = answer.currency.as_deref().unwrap_or("");
    if let Some(cost) = answer.cost_per_kilogram {
        let whole =
            answer.cost.map_or(String::new(), |cost| format!(", {} {currency} in all", fixed(cost, 2)));
        let _ = writeln!(out, "\nCost: {} {currency}/kg{whole}.", fixed(cost, 4));
    }
    let _ = writeln!(out, "\n| aim | comes to | cannot be better than |\n| --- | ---: | ---: |");
    for aim in &answer.aims {
        let share = aim.aim.starts_with("most of") || aim.aim == "nearest usual";
        let say = |value: Decimal| {
            if share {
                figure(value, "", 4)
            } else {
                format!("{} {}", short(value, 4), aim.unit).trim().to_owned()
            }
        };
        let _ =
            writeln!(out, "| {} | {} | {} |", aim.aim, say(aim.value), aim.bound.map_or(String::new(), say));
    }
    if !answer.demands.is_empty() {
        out.push_str("\nFigures are of these fats alone; a plan counts the fat of additives too.\n");
        let _ = writeln!(
            out,
            "\n| demand | wanted | is | to the bound | one more point costs |\n| --- | --- | ---: | ---: | ---: |"
        );
        for demand in &answer.demands {
            let slack = match (demand.binding, demand.slack) {
                (Some(_), _) => "none".to_owned(),
                (None, Some(slack)) => figure(slack, &demand.unit, 4),
                (None, None) => String::new(),
            };
            let _ = writeln!(
                out,
                "| {} | {} | {} | {slack} | {} |",
                demand.figure,
                bounds(demand),
                figure(demand.value, &demand.unit, 4),
                demand.shadow_price.as_ref().map_or(String::new(), |price| short(price.per_point, 6)),
            );
        }
    }
    let dear: Vec<_> = answer.fats.iter().filter_map(|fat| Some((fat, fat.too_dear_by?))).collect();
    if !dear.is_empty() {
        out.push_str("\nNot used, because they would have to be cheaper by:\n\n");
        for (fat, by) in dear {
            let _ = writeln!(out, "- {}: {} {currency}/kg", fat.name, fixed(by, 4));
        }
    }
    if !answer.best {
        out.push_str("\nThe search was stopped before it ended; there may be a better blend.\n");
    }
    if !answer.miss.is_zero() {
        out.push_str("\nThe demands leave room for a single point only, which decimals come near.\n");
    }
    out
}

/// Why there is no blend, as Markdown.
#[must_use]
pub fn render_refusal(request: &Request, refusal: &NoBlend) -> String {
    let mut out = format!("# {}\n\n", request.name);
    let NoBlend::Conflict(conflict) = refusal else {
        let _ = writeln!(out, "{refusal}");
        return out;
    };
    out.push_str(match conflict.words.as_slice() {
        [_] => {
            "There is no such blend. No blend of these fats meets this demand, whatever the others are:\n\n"
        }
        _ => {
            "There is no such blend. These cannot be met together; without any one of them the rest can:\n\n"
        }
    });
    for words in &conflict.words {
        let _ = writeln!(out, "- {words}");
    }
    if let Some(nearest) = &conflict.nearest {
        let _ = writeln!(
            out,
            "\nThe blend that misses the demands least, by {} points in all:\n\n| fat | share |\n| --- | ---: |",
            short(nearest.points, 4)
        );
        for (candidate, share) in
            request.fats.iter().zip(&nearest.shares).filter(|(_, share)| !share.is_zero())
        {
            let _ = writeln!(out, "| {} | {} |", candidate.fat.name, percent(*share));
        }
        out.push('\n');
        for miss in &nearest.misses {
            let Some(demand) = request.demands.get(miss.demand) else { continue };
            let unit = request.unit(&demand.measure);
            let (bound, word) = match miss.end {
                End::AtLeast => (demand.at_least, "too little"),
                End::AtMost => (demand.at_most, "too much"),
            };
            let _ = writeln!(
                out,
                "- {}: {}, {} {word}",
                demand.measure.name(),
                beyond(miss.value, bound.unwrap_or_default(), &unit),
                beyond(miss.by, Decimal::ZERO, &unit)
            );
        }
    }
    out
}
