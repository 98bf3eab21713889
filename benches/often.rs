//! Plans one recipe so many times, for profilers: `often [times]`.
#![expect(clippy::unwrap_used, reason = "a bench stops where its result is not as it should be")]

fn main() {
    let times = std::env::args().nth(1).map_or(1000, |text| text.parse().unwrap());
    let recipe = lamella_benches::TEN_BY_SEVEN.recipe();
    for _ in 0..times {
        std::hint::black_box(lamella::Plan::of(std::hint::black_box(&recipe)).unwrap());
    }
}
