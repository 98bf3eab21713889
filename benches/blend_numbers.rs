//! Prints the blends of `clock -- blend` as bare numbers with what was found, for a peer to solve.

use lamella::blend;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut all = Vec::new();
    for (name, text) in lamella_benches::BLENDS {
        let mut request = blend::read(text).map_err(|problems| format!("{name}: {problems:?}"))?;
        let numbers = blend::numbers(&request).ok_or("no numbers")?;
        let whole = blend::solve(&request)?;
        request.step = None;
        let any = blend::solve(&request)?;
        let cost = |answer: &blend::Answer| answer.aims.first().map(|aim| aim.value.to_string());
        all.push(serde_json::json!({
            "name": name,
            "numbers": serde_json::to_value(numbers)?,
            "any-shares": cost(&any),
            "whole-per-cents": cost(&whole),
        }));
    }
    println!("{}", serde_json::Value::from(all));
    Ok(())
}
