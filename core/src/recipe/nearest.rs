//! Which known word a mistyped one is closest to.

/// Longest word for which a neighbour is sought.
const LONGEST: usize = 64;

/// The candidate that the fewest edits turn `word` into, when it is close enough to be meant; the first of equals.
pub(crate) fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let letters: Vec<char> =
        word.chars().take(LONGEST.saturating_add(1)).flat_map(char::to_lowercase).collect();
    if letters.len() > LONGEST {
        return None;
    }
    let most = (letters.len() / 3).max(1);
    let mut best: Option<(usize, &str)> = None;
    for candidate in candidates {
        let edits = distance(&letters, candidate);
        if edits <= most && best.is_none_or(|(least, _)| edits < least) {
            best = Some((edits, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// Insertions, deletions, replacements and swaps of neighbours that turn `word` into `other`.
fn distance(word: &[char], other: &str) -> usize {
    let other: Vec<char> = other.chars().flat_map(char::to_lowercase).collect();
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=other.len()).collect();
    let get = |row: &[usize], index: usize| row.get(index).copied().unwrap_or(usize::MAX / 2);
    for (i, &letter) in word.iter().enumerate() {
        let mut row = vec![i.saturating_add(1)];
        for (j, &target) in other.iter().enumerate() {
            let replace = get(&above, j).saturating_add(usize::from(letter != target));
            let insert = get(&row, j).saturating_add(1);
            let delete = get(&above, j.saturating_add(1)).saturating_add(1);
            let last = |list: &[char], at: usize| at.checked_sub(1).and_then(|at| list.get(at).copied());
            let swapped = last(word, i) == Some(target) && last(&other, j) == Some(letter);
            let swap = j
                .checked_sub(1)
                .filter(|_| swapped)
                .map_or(usize::MAX, |j| get(&before, j).saturating_add(1));
            row.push(replace.min(insert).min(delete).min(swap));
        }
        before = std::mem::replace(&mut above, row);
    }
    above.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn slips_are_understood_and_other_words_left_alone() {
        let known = ["layers", "layer", "share", "size"];
        assert_eq!(nearest("layrs", known), Some("layers"));
        assert_eq!(nearest("Layer", known), Some("layer"));
        assert_eq!(nearest("shaer", known), Some("share"), "a swap is one slip");
        assert_eq!(nearest("siz", known), Some("size"));
        assert_eq!(nearest("jugs", known), None);
        assert_eq!(nearest("", known), None);
        assert_eq!(nearest(&"layers".repeat(100), known), None);
        assert_eq!(nearest("é", ["è"]), Some("è"));
    }
}
