//! How alike two names of exercises are.
//!
//! Start at [`Names`]. Small on purpose: it proposes, a person confirms.

use std::cmp::Reverse;
use weekloom_engine::catalogue::{Catalogue, Exercise, ExerciseId};

/// Short forms and other words the trade writes, and what the catalogue has for
/// them.
const SHORT: [(&str, &str); 13] = [
    ("bb", "barbell"),
    ("db", "dumbbell"),
    ("kb", "kettlebell"),
    ("bw", "bodyweight"),
    ("rdl", "straight leg deadlift"),
    ("romanian", "straight leg"),
    ("ohp", "overhead press"),
    ("ez", "curl bar"),
    ("tri", "triceps"),
    ("bi", "biceps"),
    ("ext", "extension"),
    ("inc", "incline"),
    ("alt", "alternating"),
];

/// Likeness from which a name is proposed, of 100 (the project's own judgement).
pub const PROPOSED: u8 = 62;

/// A word without what writers differ in: capitals, plurals, accents.
fn words(name: &str) -> Vec<String> {
    let mut words = Vec::new();
    let lower = name.to_lowercase();
    for word in lower.split(|c: char| !c.is_alphanumeric()) {
        let word = match SHORT.iter().find(|(short, _)| *short == word) {
            Some((_, long)) => long,
            None => word,
        };
        for word in word.split(' ') {
            let is_plural = word.len() > 3 && word.ends_with('s') && !word.ends_with("ss");
            let word = if is_plural {
                &word[..word.len() - 1]
            } else {
                word
            };
            if !word.is_empty() && !matches!(word, "the" | "a" | "with" | "of" | "on" | "mit") {
                words.push(word.to_owned());
            }
        }
    }
    words
}

/// Dice's coefficient of two words' pairs of letters, of 100.
fn word_likeness(a: &str, b: &str) -> usize {
    if a == b {
        return 100;
    }
    let pairs =
        |word: &str| -> Vec<(char, char)> { word.chars().zip(word.chars().skip(1)).collect() };
    let (of_a, mut of_b) = (pairs(a), pairs(b));
    let all = of_a.len() + of_b.len();
    let mut shared: usize = 0;
    for pair in of_a {
        if let Some(at) = of_b.iter().position(|other| *other == pair) {
            of_b.swap_remove(at);
            shared += 1;
        }
    }
    (200 * shared).checked_div(all).unwrap_or(0)
}

/// How much of one name is found in the other, of 100, long words counting
/// more.
fn covered(name: &[String], by: &[String]) -> usize {
    let weight: usize = name.iter().map(String::len).sum();
    let found: usize = name
        .iter()
        .map(|word| {
            let best = by.iter().map(|other| word_likeness(word, other)).max();
            word.len() * best.unwrap_or(0)
        })
        .sum();
    found.checked_div(weight).unwrap_or(0)
}

/// How alike two names are, of 100. Order, capitals and plurals do not count.
fn likeness(a: &[String], b: &[String]) -> u8 {
    // Run together or apart: "pushup", "push-up".
    let together = word_likeness(&a.concat(), &b.concat());
    let best = together.max(usize::midpoint(covered(a, b), covered(b, a)));
    // Only the same spelling is certain.
    u8::try_from(best.min(99)).unwrap_or(99)
}

/// The names of all exercises, ready to be compared.
pub struct Names {
    all: Vec<Named>,
}

struct Named {
    id: ExerciseId,
    /// Spellings that are certain.
    spelled: [String; 3],
    /// Words of the id and of the name shown.
    words: [Vec<String>; 2],
}

impl Names {
    /// The names the caller gives, because they are in the person's language;
    /// ids are looked at too.
    #[must_use]
    pub fn new(catalogue: &Catalogue, name_of: &dyn Fn(&ExerciseId) -> String) -> Self {
        let named = |exercise: &Exercise| {
            let id = exercise.id.as_str();
            let shown = name_of(&exercise.id);
            Named {
                id: exercise.id.clone(),
                words: [words(id), words(&shown)],
                spelled: [id, &shown, &exercise.name].map(str::to_lowercase),
            }
        };
        Self {
            all: catalogue.iter().map(named).collect(),
        }
    }

    /// The exercises whose names are most alike, best first, each with its
    /// likeness of 100; at most `most` of them.
    #[must_use]
    pub fn closest(&self, name: &str, most: usize) -> Vec<(ExerciseId, u8)> {
        let asked = words(name);
        let plain = name.trim().to_lowercase();
        let scored = |named: &Named| {
            let score = if named.spelled.contains(&plain) {
                100
            } else {
                let scores = named.words.iter().map(|words| likeness(&asked, words));
                scores.max().unwrap_or(0)
            };
            (named.id.clone(), score)
        };
        let mut found: Vec<(ExerciseId, u8)> = self.all.iter().map(scored).collect();
        weekloom_engine::order::sort_by_key(&mut found, |(_, score)| Reverse(*score));
        found.truncate(most);
        found
    }
}
