//! Heat: a day of a block on grids of three sizes, in one column, and a whole forecast.

use std::hint::black_box;

use criterion::{BenchmarkId, Criterion, Throughput};
use lamella::Plan;
use lamella::heat::{Grid, Scenario, Setting, Sheet, Steps, forecast, run};

/// The example in a wrapped box, so that its upper half gels: seven layers, a day.
fn scenario() -> Scenario {
    let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let mut setting = Setting { until: 86_400.0, ..Setting::default() };
    for surroundings in &mut setting.surroundings {
        surroundings.around = vec![(Sheet::Blanket, 0.03)];
    }
    Scenario::of(&recipe, &plan, &setting).unwrap()
}

pub(crate) fn define(criterion: &mut Criterion) {
    let scenario = scenario();
    let steps = Steps::default();
    let mut group = criterion.benchmark_group("heat/day");
    for (columns, rows) in [(0, 56), (20, 14), (40, 28), (80, 56), (160, 112)] {
        let grid = Grid { columns, rows };
        let course = run(&scenario, grid, &steps, &[]).unwrap();
        assert!(course.energy.imbalance() < 1e-10);
        group.throughput(Throughput::Elements(u64::try_from(columns.max(1).saturating_mul(rows)).unwrap()));
        group.bench_function(BenchmarkId::from_parameter(format!("{columns}x{rows}")), |bencher| {
            bencher.iter(|| run(black_box(&scenario), grid, &steps, &[]).unwrap());
        });
    }
    group.finish();
    let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    let plan = Plan::of(&recipe).unwrap();
    let setting = Setting::default();
    criterion.bench_function("heat/forecast", |bencher| {
        bencher.iter(|| forecast(black_box(&recipe), &plan, &setting, Grid::default()).unwrap());
    });
}
