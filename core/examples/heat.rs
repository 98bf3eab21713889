//! scratch
use lamella::heat::*;
fn main() {
    let recipe = lamella::recipe::read(lamella::EXAMPLE).unwrap();
    let plan = lamella::Plan::of(&recipe).unwrap();
    let mut setting = Setting::default();
    if std::env::args().nth(1).is_some() { setting.surroundings[0].around = vec![(Sheet::Blanket, 0.03)]; }
    let s = Scenario::of(&recipe, &plan, &setting).unwrap();
    
    for (grid, steps) in [(Grid::default(), Steps::default()), (Grid::default(), Steps::finer(8.0)), (Grid{columns:80,rows:56}, Steps::default()), (Grid{columns:160,rows:112}, Steps::default()), (Grid::column(56), Steps::default())] {
        let t = std::time::Instant::now();
        let n = 20;
        let mut c = None;
        for _ in 0..n { c = Some(run(&s, grid, &steps, &[]).unwrap()); }
        let e = t.elapsed().as_secs_f64() / n as f64 * 1e3;
        let c = c.unwrap();
        let best = c.moments.iter().max_by(|a, b| a.hottest.0.total_cmp(&b.hottest.0)).unwrap();
        println!("{grid:?} steps {} {e:.3} ms imbalance {:.1e} peak {:?} at {:.0} s conv {:.4}", c.steps, c.energy.imbalance(), best.hottest, best.time, c.moments.last().unwrap().conversion);
    }
    let mut q = s.clone(); for l in &mut q.layers { l.conversion = 1.0; }
    let t = std::time::Instant::now(); let mut n=0; for _ in 0..50 { n = run(&q, Grid::default(), &Steps::default(), &[]).unwrap().steps; }
    println!("inert {n} steps {:.3} ms", t.elapsed().as_secs_f64()/50.*1e3);
    let c = run(&s, Grid::default(), &Steps::default(), &[]).unwrap();
    for m in c.moments.iter().step_by(6) { println!("{:6.2} h  dt  hot {:.2} centre {:.2} edge {:.2} mean {:.2} conv {:.3} least {:.3}", m.time/3600., m.hottest.0, m.centre, m.edge, m.mean, m.conversion, m.least); }
}
