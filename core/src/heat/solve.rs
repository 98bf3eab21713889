//! The run itself: implicit sweeps up and across, the reaction between them.
//!
//! One step is symmetric: half a step of conduction (up, then across), a whole step of reaction, half a step of
//! conduction (across, then up). Each sweep is a two-stage, stiffly accurate, diagonally implicit Runge-Kutta step, which
//! damps any step length; the reaction is solved in closed form. All of it is right to second order, and the heat that a
//! sweep passes on is the heat that it takes.
#![expect(clippy::float_arithmetic, reason = "an approximate model, solved numerically")]

use super::HeatError;
use super::course::{Course, Energy, Frame, Moment};
use super::grid::{Balance, Four, Grid, LANES, Link, Mesh};
use super::lines::{CARRY, STAGE, blend, gather, rows, scatter, second_stage, solve_across, solve_up, weigh};
use super::scenario::{Phase, Scenario};

/// How long the steps are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// Most that the conversion of any cell may grow in a step, about.
    pub conversion: f64,
    /// By how much a step may be longer than the one before, as a share of it.
    pub growth: f64,
    /// Longest step, seconds.
    pub longest: f64,
    /// First step after the start, a pour or a change of the surroundings, as a share of the time in which heat passes a
    /// cell.
    pub first: f64,
    /// Most steps of a run, after which it is given up.
    pub most: usize,
}

impl Default for Steps {
    fn default() -> Self {
        Self { conversion: 0.05, growth: 0.3, longest: 1800.0, first: 0.5, most: 50_000 }
    }
}

impl Steps {
    /// The default steps divided by `finer`, for checks of accuracy.
    #[must_use]
    pub fn finer(finer: f64) -> Self {
        let usual = Self::default();
        Self {
            conversion: usual.conversion / finer,
            growth: usual.growth / finer,
            longest: usual.longest / finer,
            first: usual.first / finer,
            most: 2_000_000,
        }
    }

    fn check(&self) -> Result<(), HeatError> {
        HeatError::check("conversion", self.conversion, 1e-9, 1.0)?;
        HeatError::check("growth", self.growth, 1e-6, 10.0)?;
        HeatError::check("longest", self.longest, 1e-3, 1e6)?;
        HeatError::check("first", self.first, 1e-9, 100.0)
    }
}

/// Runs a scenario, keeping frames at `frames` (seconds; the ends of the run are kept anyway).
///
/// ```
/// use lamella::heat::{self, Grid, Scenario, Setting};
/// let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
/// let plan = lamella::Plan::of(&recipe).unwrap();
/// let scenario = Scenario::of(&recipe, &plan, &Setting::default()).unwrap();
/// let course = heat::run(&scenario, Grid { columns: 16, rows: 14 }, &heat::Steps::default(), &[]).unwrap();
/// assert!(course.energy.imbalance() < 1e-9);
/// ```
///
/// # Errors
/// [`HeatError`] when the scenario, the grid or the steps are out of their ranges, or the run needs too many steps.
pub fn run(scenario: &Scenario, grid: Grid, steps: &Steps, frames: &[f64]) -> Result<Course, HeatError> {
    scenario.check()?;
    steps.check()?;
    let mesh = Mesh::new(scenario, grid)?;
    let phase = *scenario.phases.first().ok_or(HeatError::Phases)?;
    let mut stops: Vec<f64> = frames
        .iter()
        .copied()
        .chain(scenario.layers.iter().map(|layer| layer.at))
        .chain(scenario.phases.iter().map(|phase| phase.from))
        .filter(|time| *time > 0.0 && *time < scenario.until)
        .chain([scenario.until])
        .collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup();
    let mut run = Run::new(scenario, &mesh, phase);
    run.events(0.0);
    run.keep(0.0);
    let mut time = 0.0;
    let mut step = run.shortest(steps);
    let mut taken = 0_usize;
    for stop in stops {
        while time < stop {
            taken = taken.saturating_add(1);
            if taken > steps.most {
                return Err(HeatError::Steps);
            }
            let left = stop - time;
            // Land on the stop with steps of nearly one length.
            let last = step >= left * (1.0 - 1e-12);
            let take = if last {
                left
            } else if step * 2.0 > left {
                left / 2.0
            } else {
                step
            };
            let grown = run.step(take);
            time = if last { stop } else { time + take };
            run.note(time);
            let by_reaction = if grown > 0.0 { take * steps.conversion / grown } else { f64::INFINITY };
            let base = if take < step / 2.0 { step } else { take };
            step = (base * (1.0 + steps.growth)).min(steps.longest).min(by_reaction);
        }
        let kept = frames.contains(&stop) || stop >= scenario.until;
        if kept {
            run.keep(stop);
        }
        if run.events(stop) {
            step = step.min(run.shortest(steps));
        }
    }
    Ok(run.finish(taken))
}

/// A run under way.
struct Run<'s> {
    scenario: &'s Scenario,
    mesh: &'s Mesh,
    phase: Phase,
    /// Rows that are poured, and the layers they belong to.
    poured: usize,
    layers: usize,
    balance: Balance,
    /// The step that the factors are for, and they.
    factored: f64,
    across: Vec<Four>,
    up: Vec<Link>,
    /// Temperature over that of the air, K.
    excess: Vec<f64>,
    conversion: Vec<f64>,
    peak: Vec<f64>,
    buffer: Vec<f64>,
    /// Four rows side by side, and the same after the first stage.
    lanes: Vec<[f64; LANES]>,
    first: Vec<[f64; LANES]>,
    /// By how much the conversion of the cells of a row grew.
    grown: Vec<f64>,
    volumes: Vec<f64>,
    gels_at: Vec<f64>,
    energy: Energy,
    moments: Vec<Moment>,
    frames: Vec<Frame>,
}

impl<'s> Run<'s> {
    fn new(scenario: &'s Scenario, mesh: &'s Mesh, phase: Phase) -> Self {
        Self {
            scenario,
            mesh,
            phase,
            poured: 0,
            layers: 0,
            balance: Balance::new(scenario, mesh, &phase, 0),
            factored: 0.0,
            across: Vec::new(),
            up: Vec::new(),
            excess: Vec::new(),
            conversion: Vec::new(),
            peak: Vec::new(),
            buffer: Vec::new(),
            lanes: vec![[0.0; LANES]; mesh.columns],
            first: vec![[0.0; LANES]; mesh.columns],
            grown: vec![0.0; mesh.columns],
            volumes: mesh.volumes().collect(),
            gels_at: scenario.layers.iter().map(|layer| layer.material.gels_at).collect(),
            energy: Energy::default(),
            moments: Vec::new(),
            frames: Vec::new(),
        }
    }

    /// Pours and changes of the surroundings that are due; says whether there were any.
    fn events(&mut self, time: f64) -> bool {
        let mut any = false;
        while let Some(layer) = self.scenario.layers.get(self.layers).filter(|layer| layer.at <= time) {
            let capacity = layer.material.density * layer.material.capacity;
            for (_, height) in self.mesh.rows.iter().filter(|(of, _)| *of == self.layers) {
                for volume in &self.volumes {
                    self.excess.push(layer.temperature - self.phase.air);
                    self.conversion.push(layer.conversion);
                    self.peak.push(layer.temperature);
                    self.energy.poured += capacity * volume * height * layer.temperature;
                }
                self.poured = self.poured.saturating_add(1);
            }
            self.layers = self.layers.saturating_add(1);
            any = true;
        }
        let now = self.scenario.phases.iter().rev().find(|phase| phase.from <= time);
        if let Some(phase) = now.filter(|phase| **phase != self.phase).copied() {
            let change = self.phase.air - phase.air;
            for excess in &mut self.excess {
                *excess += change;
            }
            self.phase = phase;
            any = true;
        }
        if any {
            self.balance = Balance::new(self.scenario, self.mesh, &self.phase, self.poured);
            self.factored = 0.0;
            self.buffer.resize(self.excess.len(), 0.0);
        }
        any
    }

    /// The first step: a share of the time in which heat passes the thinnest cell that is poured.
    fn shortest(&self, steps: &Steps) -> f64 {
        let of_row = |(layer, height): &(usize, f64)| {
            let cell = if self.mesh.columns > 1 { height.min(self.mesh.dx) } else { *height };
            self.scenario.layers.get(*layer).map_or(f64::INFINITY, |layer| {
                let material = &layer.material;
                cell * cell * material.density * material.capacity / material.conductivity
            })
        };
        let least = self.mesh.rows.iter().take(self.poured).map(of_row).fold(f64::INFINITY, f64::min);
        (least * steps.first).clamp(self.scenario.until * 1e-7, steps.longest)
    }

    /// One step; gives the largest growth of conversion in it.
    fn step(&mut self, step: f64) -> f64 {
        let half = step / 2.0;
        if (self.factored - half).abs() > 0.0 {
            self.balance.factor_across(self.mesh, self.poured, half * STAGE, &mut self.across);
            self.up = self.balance.factor_up(half * STAGE);
            self.factored = half;
        }
        self.conduct_up(half);
        self.conduct_across(half);
        let grown = self.react(step);
        self.conduct_across(half);
        self.conduct_up(half);
        grown
    }

    fn conduct_up(&mut self, step: f64) {
        let columns = self.mesh.columns;
        self.buffer.copy_from_slice(&self.excess);
        solve_up(&mut self.buffer, columns, &self.up);
        second_stage(&mut self.excess, &self.buffer);
        solve_up(&mut self.excess, columns, &self.up);
        let mut lost = 0.0;
        for (link, rows) in self.up.iter().zip(rows(&self.buffer, columns).zip(rows(&self.excess, columns))) {
            if link.loss > 0.0 {
                let first = weigh(&self.volumes, rows.0);
                let second = weigh(&self.volumes, rows.1);
                lost += link.loss * ((1.0 - STAGE) * first + STAGE * second);
            }
        }
        self.energy.lost += lost * step;
    }

    fn conduct_across(&mut self, step: f64) {
        let columns = self.mesh.columns;
        let ends = self.scenario.section.ends.is_some();
        let mut lost = 0.0;
        let heights = self.mesh.rows.get(..self.poured).unwrap_or(&[]).chunks(LANES);
        let fours = self.across.chunks_exact(columns);
        for ((rows, links), heights) in
            self.excess.chunks_mut(columns.saturating_mul(LANES)).zip(fours).zip(heights)
        {
            gather(rows, columns, &mut self.lanes);
            self.first.copy_from_slice(&self.lanes);
            solve_across(&mut self.first, links);
            for (start, first) in self.lanes.iter_mut().zip(&self.first) {
                *start = blend(*start, [1.0 - CARRY; LANES], *first, [CARRY; LANES]);
            }
            solve_across(&mut self.lanes, links);
            let mut sum = [0.0; LANES];
            let skip = if ends { 0 } else { columns.saturating_sub(1) };
            for (link, (first, second)) in links.iter().zip(self.first.iter().zip(&self.lanes)).skip(skip) {
                let mean = blend(*first, [1.0 - STAGE; LANES], *second, [STAGE; LANES]);
                sum = blend(sum, [1.0; LANES], mean, link.loss);
            }
            lost += sum.iter().zip(heights).map(|(sum, (_, height))| sum * height).sum::<f64>();
            scatter(&self.lanes, columns, rows);
        }
        self.energy.lost += lost * step;
    }

    fn react(&mut self, step: f64) -> f64 {
        let columns = self.mesh.columns;
        let mut most = 0.0_f64;
        let cells = self.excess.chunks_exact_mut(columns).zip(self.conversion.chunks_exact_mut(columns));
        for ((layer, height), (excess, conversion)) in self.mesh.rows.iter().zip(cells) {
            let Some(layer) = self.scenario.layers.get(*layer) else { continue };
            let rise = layer.material.heat / (layer.material.density * layer.material.capacity);
            let grown = self.grown.as_mut_slice();
            layer.kinetics.advance_row([conversion, excess, grown], self.phase.air, rise, step);
            let mut sum = 0.0;
            for (grown, volume) in self.grown.iter().zip(&self.volumes) {
                sum += grown * volume;
                most = most.max(*grown);
            }
            self.energy.released += layer.material.heat * sum * height;
        }
        most
    }

    /// Notes what a moment is like, and the highest temperature of each cell so far.
    fn note(&mut self, time: f64) {
        let moment = Moment::of(
            self.mesh,
            time,
            self.phase.air,
            self.gels_at.get(..self.layers).unwrap_or(&[]),
            &self.excess,
            &self.conversion,
            &mut self.peak,
        );
        self.moments.push(moment);
    }

    fn keep(&mut self, time: f64) {
        if self.moments.is_empty() {
            self.note(time);
        }
        self.frames.push(Frame {
            time,
            phase: self.phase,
            temperature: self.excess.iter().map(|excess| excess + self.phase.air).collect(),
            conversion: self.conversion.clone(),
        });
    }

    fn finish(mut self, steps: usize) -> Course {
        let cells = self.excess.chunks_exact(self.mesh.columns);
        for ((layer, height), row) in self.mesh.rows.iter().zip(cells) {
            let Some(layer) = self.scenario.layers.get(*layer) else { continue };
            let capacity = layer.material.density * layer.material.capacity;
            for (excess, volume) in row.iter().zip(&self.volumes) {
                self.energy.held += capacity * volume * height * (excess + self.phase.air);
            }
        }
        let energy = self.energy.times(self.mesh.whole);
        Course::new(
            self.scenario.clone(),
            self.mesh.clone(),
            energy,
            self.moments,
            self.frames,
            self.peak,
            steps,
        )
    }
}
