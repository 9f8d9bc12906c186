//! The planner's question as a mixed-integer linear programme, for a solver to
//! answer with proof.
//!
//! Start at [`Programme`], which states it in full. The search never reads this:
//! it is how the search is checked. This module solves nothing.

use super::dose::{CREDIT_OVER_CAP_QUARTERS, SESSION_CAP};
use super::objective::{
    self, BASICS, DraftItem, HEAVY_COST, HEAVY_FREE, KIN_PRICES, MOST_PAIRS, MUSCLES, Model,
    OUT_OF_RANK, OVER_CEILING, PlanDraft, SETS, SHORTENED,
};
use super::{PlanError, split_of};
use crate::catalogue::Catalogue;
use crate::person::Person;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// A quantity the solver chooses.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Column {
    name: String,
    /// Points for each unit; negative is a cost.
    points: i64,
    /// Greatest value; the least is nought.
    most: Option<i64>,
    is_whole: bool,
}

/// A weighted sum of columns that must not pass a limit.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Row {
    terms: Vec<(usize, i64)>,
    at_most: i64,
}

/// The planning problem of one person as a mixed-integer linear programme. Its
/// optimum is the greatest [`objective::score`] of any week.
///
/// Indices: day `d` of the split, slot `s` of the day with rank `r`, candidate
/// exercise `e` of the slot, sets `n` from 2 to 5, muscle `m`. All coefficients
/// are whole. With `C` the candidates, `a(e,m)` the half sets that one set
/// counts for a muscle and `[..]` one or nought:
///
/// **Choices** (nought or one)
/// - `x(d,s,e,n)`: the slot holds the exercise with so many sets;
///   `Σ(e,n) x ≤ 1`; `y(d,s) = Σ(e,n) x`; `u(d,e) = Σ(s,n) x ≤ 1`.
/// - `p(d,s,G,t,H)`, `s < t`: the slots share their rests as a superset, where
///   `G` and `H` are lifts of their candidates alike in muscles, rests and kind,
///   light enough for it and without a muscle in common; `Σ p(d,·) ≤ 3`, and
///   over all of a slot's supersets `Σ p(d,s,G,·) ≤ Σ(e∈G,n) x(d,s,e,n)`.
/// - `δ(d,d',m)` for days less than 48 h apart: on which of them a large muscle
///   has fewer half sets.
///
/// **Worth.** `h(d,m) = Σ a(e,m)·n·x`. Beyond 22 half sets a session a half set
/// counts a quarter: `o(d,m) ≥ h(d,m) − 22`, credit `V(m) = Σ(d) 4h − 3o` in
/// eighths of a set. The response is concave and piecewise linear:
/// `Σ(k) v(m,k) ≤ V(m)`, `v(m,k) ≤` length of piece `k`, worth its slope.
/// Half sets over the ceiling: `c(m) ≥ Σ(d) h − ceiling`.
///
/// **Costs**, each the price of a column that is at least what stands here
/// - an exercise in a slot, its sets and their norm: on `x` itself;
/// - an empty slot: `1 − y(d,s)`;
/// - out of rank: `z(d,t) ≥ y(d,t) − f(d,r)`, with `f(d,r)` nought or one and
///   `f(d,r) ≤ y(d,s) + u(d,e)` for each slot `s` of a lower rank number and
///   each `e ∈ C(s)`, so that a slot whose every candidate stands elsewhere on
///   the day is no reproach (`f ≤ y` where that cannot be);
/// - near-identical lifts, for each group of them: `Σ u(d,e) − 1`;
/// - heavy lifts carried by the spine: `Σ u(d,e) − 1`;
/// - an exercise on several days: `Σ(k) q(e,k) ≥ Σ(d) u(d,e) − 1`, the first
///   two of the pieces at most one, each dearer than the last;
/// - a basic pattern left out: `1 − Σ u(d,e)` over the lifts that cover it;
/// - shortened rests: the seconds `j(d)`; a superset, by the compound lifts in it: `p`;
/// - a large muscle hard on two days running: `ρ ≥ h(d,m) − 4 − M·δ`,
///   `ρ ≥ h(d',m) − 4 − M·(1 − δ)`.
///
/// **Time.** A day lasts `Σ x·(ready + n·(work + rest)) − l(d) − j(d) − Σ saved`
/// and must keep within its minutes. `l(d)`, the rest after the last set, is at
/// most the shortened rest of every exercise of the day. A superset saves the
/// shorter rest of the two, `ρ`, in as many rounds as both have: two with `p`, a
/// third `w ≤ p` and later ones `r ≤ 2·w`, with `Σ w(d,s,G,·) ≤ Σ(e∈G,n≥3) x` and
/// `Σ r(d,s,G,·) ≤ Σ(e∈G,n≥4) (n − 3)·x`. Shortened rests save
/// `j(d) ≤ Σ x·n·(rest − short rest) − Σ (2p + w + r)·(ρ − short ρ)`.
/// Implied, and stated so that a solver sees it: the least seconds of all
/// contents, rests short and shared by halves, keep within the minutes and one
/// last rest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Programme {
    columns: Vec<Column>,
    rows: Vec<Row>,
    /// Points that no choice changes.
    constant: i64,
    /// What each choice of an exercise stands for: column, day and content.
    choices: Vec<(usize, usize, DraftItem)>,
    days: usize,
}

impl Programme {
    /// States the problem of this person's split, or the default for their days.
    ///
    /// # Errors
    /// [`PlanError`] when the person's answers allow no plan.
    pub fn new(catalogue: &Catalogue, person: &Person) -> Result<Self, PlanError> {
        let split = split_of(person)?;
        let model = Model::new(catalogue, person, &split)?;
        Ok(Statement::new(&model).finish())
    }

    /// Number of columns and rows.
    #[must_use]
    pub fn size(&self) -> (usize, usize) {
        (self.columns.len(), self.rows.len())
    }

    /// The programme in the LP text format that solvers read. Its objective
    /// leaves out [`Self::constant`].
    #[must_use]
    pub fn to_lp(&self) -> String {
        let mut text = String::from("maximize\n obj:");
        let terms = |text: &mut String, terms: &mut dyn Iterator<Item = (usize, i64)>| {
            for (at, (column, factor)) in terms.enumerate() {
                if at % 12 == 11 {
                    text.push_str("\n ");
                }
                let sign = if factor < 0 { '-' } else { '+' };
                let name = &self.columns[column].name;
                let _ = write!(text, " {sign} {} {name}", factor.unsigned_abs());
            }
        };
        let priced = self.columns.iter().map(|column| column.points);
        terms(
            &mut text,
            &mut priced.enumerate().filter(|&(_, points)| points != 0),
        );
        text.push_str("\nsubject to\n");
        for (number, row) in self.rows.iter().enumerate() {
            let _ = write!(text, " r{number}:");
            terms(&mut text, &mut row.terms.iter().copied());
            let _ = writeln!(text, " <= {}", row.at_most);
        }
        text.push_str("bounds\n");
        for column in &self.columns {
            if let Some(most) = column.most {
                let _ = writeln!(text, " 0 <= {} <= {most}", column.name);
            }
        }
        text.push_str("general\n");
        for column in self.columns.iter().filter(|column| column.is_whole) {
            let _ = writeln!(text, " {}", column.name);
        }
        text.push_str("end\n");
        text
    }

    /// Points that no choice changes: add them to the optimum of the text.
    #[must_use]
    pub const fn constant(&self) -> i64 {
        self.constant
    }

    /// The week that chooses these columns, named as in the text.
    #[must_use]
    pub fn week_of(&self, chosen: &BTreeSet<&str>) -> PlanDraft {
        let mut days = vec![Vec::new(); self.days];
        for (column, day, item) in &self.choices {
            if chosen.contains(self.columns[*column].name.as_str()) {
                days[*day].push(item.clone());
            }
        }
        PlanDraft { days }
    }

    /// The columns that a week chooses, named as in the text: a solver may start
    /// from them.
    #[must_use]
    pub fn columns_of(&self, week: &PlanDraft) -> Vec<&str> {
        let is_chosen =
            |day: usize, item: &DraftItem| week.days.get(day).is_some_and(|d| d.contains(item));
        let chosen = self
            .choices
            .iter()
            .filter(|(_, day, item)| is_chosen(*day, item));
        chosen
            .map(|(column, ..)| self.columns[*column].name.as_str())
            .collect()
    }

    /// A number that changes with anything in the programme (FNV-1a, 64 bits,
    /// over its text), to tell whether a proof is still about the same question.
    #[must_use]
    pub fn fingerprint(&self) -> u64 {
        let text = format!("{}\n{}", self.to_lp(), self.constant);
        text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        })
    }
}

/// One way to fill a slot.
struct Choice {
    column: usize,
    slot: usize,
    lift: usize,
    sets: i64,
}

/// The programme while it is written down.
struct Statement<'m, 'a> {
    model: &'m Model<'a>,
    columns: Vec<Column>,
    rows: Vec<Row>,
    constant: i64,
    /// Choices by day.
    choices: Vec<Vec<Choice>>,
}

type Terms = Vec<(usize, i64)>;

impl<'m, 'a> Statement<'m, 'a> {
    fn new(model: &'m Model<'a>) -> Self {
        Self {
            model,
            columns: Vec::new(),
            rows: Vec::new(),
            constant: 0,
            choices: Vec::new(),
        }
    }

    fn finish(mut self) -> Programme {
        for d in 0..self.model.days.len() {
            self.state_choices(d);
        }
        for d in 0..self.model.days.len() {
            self.state_once_a_day(d);
            self.state_rank(d);
            self.state_kin(d);
            self.state_time(d);
        }
        self.state_worth();
        self.state_repeats();
        self.state_basics();
        self.state_recovery();
        let mut choices = Vec::new();
        for (d, day) in self.choices.iter().enumerate() {
            for choice in day {
                let item = DraftItem {
                    slot: choice.slot as u8,
                    exercise: self.model.lifts[choice.lift].exercise.id.clone(),
                    sets: choice.sets as u8,
                };
                choices.push((choice.column, d, item));
            }
        }
        Programme {
            columns: self.columns,
            rows: self.rows,
            constant: self.constant,
            choices,
            days: self.model.days.len(),
        }
    }

    fn column(&mut self, name: String, points: i64, most: Option<i64>, is_whole: bool) -> usize {
        self.columns.push(Column {
            name,
            points,
            most,
            is_whole,
        });
        self.columns.len() - 1
    }

    fn binary(&mut self, name: String, points: i64) -> usize {
        self.column(name, points, Some(1), true)
    }

    /// A quantity that costs so many points a unit.
    fn cost(&mut self, name: String, price: i64) -> usize {
        self.column(name, -price, None, false)
    }

    fn row(&mut self, terms: Terms, at_most: i64) {
        // A column may come from several sides; solvers want each once.
        let mut sums: BTreeMap<usize, i64> = BTreeMap::new();
        for (column, factor) in terms {
            *sums.entry(column).or_default() += factor;
        }
        let terms: Terms = sums
            .into_iter()
            .filter(|&(_, factor)| factor != 0)
            .collect();
        if !terms.is_empty() {
            self.rows.push(Row { terms, at_most });
        }
    }

    /// Terms of the day's choices, each with its factor.
    fn of_day(&self, day: usize, factor: impl Fn(&Choice) -> i64) -> Terms {
        let factors = self.choices[day].iter().map(|c| (c.column, factor(c)));
        factors.filter(|&(_, factor)| factor != 0).collect()
    }

    fn slot(&self, day: usize, slot: usize, factor: i64) -> Terms {
        self.of_day(day, |c| i64::from(c.slot == slot) * factor)
    }

    fn lifts_of(&self, day: usize) -> BTreeSet<usize> {
        self.choices[day].iter().map(|c| c.lift).collect()
    }

    fn state_choices(&mut self, d: usize) {
        let model = self.model;
        let mut choices = Vec::new();
        for (s, place) in model.days[d].iter().enumerate() {
            self.constant -= place.empty_cost;
            let mut one = Terms::new();
            for (c, candidate) in place.candidates.iter().enumerate() {
                for sets in SETS.0..=SETS.1 {
                    let cost = candidate.costs[usize::from(sets - SETS.0)];
                    let name = format!("x{d}_{s}_{c}_{sets}");
                    let column = self.binary(name, place.empty_cost - cost);
                    one.push((column, 1));
                    choices.push(Choice {
                        column,
                        slot: s,
                        lift: candidate.lift,
                        sets: i64::from(sets),
                    });
                }
            }
            self.row(one, 1);
        }
        self.choices.push(choices);
    }

    fn state_once_a_day(&mut self, d: usize) {
        for lift in self.lifts_of(d) {
            let slots: BTreeSet<usize> = self.choices[d]
                .iter()
                .filter(|c| c.lift == lift)
                .map(|c| c.slot)
                .collect();
            if slots.len() > 1 {
                let terms = self.of_day(d, |c| i64::from(c.lift == lift));
                self.row(terms, 1);
            }
        }
    }

    fn state_rank(&mut self, d: usize) {
        let model = self.model;
        let slots = &model.days[d];
        let ranks: BTreeSet<u8> = slots.iter().map(|place| place.keep).collect();
        for &rank in ranks.iter().skip(1) {
            let full = self.binary(format!("f{d}_{rank}"), 0);
            for (s, place) in slots.iter().enumerate().filter(|(_, p)| p.keep < rank) {
                let mut terms = self.slot(d, s, -1);
                terms.push((full, 1));
                if !place.may_run_out {
                    self.row(terms, 0);
                    continue;
                }
                for candidate in &place.candidates {
                    let mut terms = terms.clone();
                    // In the slot itself it would not be empty.
                    terms.extend(
                        self.of_day(d, |c| -i64::from(c.lift == candidate.lift && c.slot != s)),
                    );
                    self.row(terms, 0);
                }
            }
            for (t, place) in slots.iter().enumerate().filter(|(_, p)| p.keep == rank) {
                if place.candidates.is_empty() {
                    continue;
                }
                let late = self.cost(format!("z{d}_{t}"), OUT_OF_RANK);
                let mut terms = self.slot(d, t, 1);
                terms.extend([(late, -1), (full, -1)]);
                self.row(terms, 0);
            }
        }
    }

    /// Groups of near-identical lifts, and heavy lifts on the spine.
    fn state_kin(&mut self, d: usize) {
        let model = self.model;
        let lifts = self.lifts_of(d);
        for (level, &price) in KIN_PRICES.iter().enumerate() {
            let mut groups: BTreeMap<u16, usize> = BTreeMap::new();
            for &lift in &lifts {
                *groups.entry(model.lifts[lift].kin[level]).or_default() += 1;
            }
            for (group, _) in groups.into_iter().filter(|&(_, size)| size > 1) {
                let extra = self.cost(format!("k{d}_{level}_{group}"), price);
                let mut terms =
                    self.of_day(d, |c| i64::from(model.lifts[c.lift].kin[level] == group));
                terms.push((extra, -1));
                self.row(terms, 1);
            }
        }
        let mut terms = self.of_day(d, |c| i64::from(model.lifts[c.lift].is_heavy_spine));
        if !terms.is_empty() {
            let extra = self.cost(format!("s{d}"), HEAVY_COST);
            terms.push((extra, -1));
            self.row(terms, HEAVY_FREE);
        }
    }

    fn state_time(&mut self, d: usize) {
        let model = self.model;
        let budget = i64::from(model.budget_s);
        let full = |c: &Choice| {
            let lift = &model.lifts[c.lift];
            i64::from(lift.ready_s) + c.sets * i64::from(lift.work_s + lift.rest_s)
        };
        let longest: i64 = (0..model.days[d].len())
            .map(|s| {
                let of_slot = self.choices[d].iter().filter(|c| c.slot == s);
                of_slot.map(full).max().unwrap_or(0)
            })
            .sum();
        if longest <= budget {
            return;
        }
        let mut clock = self.of_day(d, full);
        let rest = |lift: usize| i64::from(model.lifts[lift].rest_s);
        let short = |lift: usize| i64::from(model.lifts[lift].short_rest_s);
        // The rest after the last set.
        let most_rest = self.lifts_of(d).into_iter().map(short).max().unwrap_or(0);
        let last = self.column(format!("l{d}"), 0, Some(most_rest), false);
        for s in 0..model.days[d].len() {
            let shorter = |c: &Choice| i64::from(c.slot == s) * (most_rest - short(c.lift));
            let mut terms = self.of_day(d, shorter);
            terms.push((last, 1));
            self.row(terms, most_rest);
        }
        clock.push((last, -1));
        let shortened = self.cost(format!("j{d}"), SHORTENED);
        clock.push((shortened, -1));
        let mut terms = self.of_day(d, |c| c.sets * (short(c.lift) - rest(c.lift)));
        terms.push((shortened, 1));
        self.state_supersets(d, &mut clock, &mut terms);
        self.row(terms, 0);
        self.row(clock, budget);
        let least = self.of_day(d, |c| self.least_seconds(c));
        self.row(least, budget + most_rest);
    }

    /// Candidates of a slot that are the same to any partner.
    fn partners(&self, d: usize, s: usize) -> Vec<Vec<usize>> {
        let mut groups: BTreeMap<(u32, bool, u32, u32), Vec<usize>> = BTreeMap::new();
        for candidate in &self.model.days[d][s].candidates {
            let lift = &self.model.lifts[candidate.lift];
            if lift.can_pair {
                let is_compound = self.model.is_compound(candidate.lift);
                let alike = (lift.muscles, is_compound, lift.rest_s, lift.short_rest_s);
                groups.entry(alike).or_default().push(candidate.lift);
            }
        }
        groups.into_values().collect()
    }

    fn state_supersets(&mut self, d: usize, clock: &mut Terms, shortened: &mut Terms) {
        let model = self.model;
        let (least_sets, most_sets) = (i64::from(SETS.0), i64::from(SETS.1));
        let slots = model.days[d].len();
        let groups: Vec<Vec<Vec<usize>>> = (0..slots).map(|s| self.partners(d, s)).collect();
        let mut all = Terms::new();
        let mut columns_of: BTreeMap<(usize, usize), [Terms; 3]> = BTreeMap::new();
        for s in 0..slots {
            for t in s + 1..slots {
                for (a, first) in groups[s].iter().enumerate() {
                    for (b, second) in groups[t].iter().enumerate() {
                        let (one, other) = (first[0], second[0]);
                        if model.lifts[one].muscles & model.lifts[other].muscles != 0 {
                            continue;
                        }
                        let cost = model.pair_cost(one, other);
                        let of = |what: &str| format!("{what}{d}_{s}_{t}_{a}_{b}");
                        let pair = self.binary(of("p"), -cost);
                        // Two rounds come with it; the third costs all of it too.
                        let third = self.column(of("w"), 0, Some(1), false);
                        let more = most_sets - least_sets - 1;
                        let later = self.column(of("r"), 0, Some(more), false);
                        self.row(vec![(third, 1), (pair, -1)], 0);
                        self.row(vec![(later, 1), (third, -more)], 0);
                        let (one, other) = (&model.lifts[one], &model.lifts[other]);
                        let rest = i64::from(one.rest_s.min(other.rest_s));
                        let short = i64::from(one.short_rest_s.min(other.short_rest_s));
                        for (column, rounds) in [(pair, least_sets), (third, 1), (later, 1)] {
                            clock.push((column, -rest * rounds));
                            shortened.push((column, (rest - short) * rounds));
                        }
                        all.push((pair, 1));
                        for side in [(s, a), (t, b)] {
                            let columns = columns_of.entry(side).or_default();
                            for (column, terms) in [pair, third, later].into_iter().zip(columns) {
                                terms.push((column, 1));
                            }
                        }
                    }
                }
            }
        }
        self.row(all, MOST_PAIRS as i64);
        for ((s, g), columns) in columns_of {
            let group = &groups[s][g];
            let is_in = |c: &Choice| c.slot == s && group.contains(&c.lift);
            let rounds = |c: &Choice| {
                let later = (c.sets - least_sets - 1).max(0);
                [1, i64::from(c.sets > least_sets), later]
            };
            for (k, mut terms) in columns.into_iter().enumerate() {
                terms.extend(self.of_day(d, |c| -i64::from(is_in(c)) * rounds(c)[k]));
                self.row(terms, 0);
            }
        }
    }

    /// Fewest seconds that a content adds to its day: rests as short as may be and
    /// shared half and half where they can be.
    fn least_seconds(&self, c: &Choice) -> i64 {
        let lift = &self.model.lifts[c.lift];
        let rests = c.sets * i64::from(lift.short_rest_s);
        let shared = if lift.can_pair { rests / 2 } else { 0 };
        i64::from(lift.ready_s) + c.sets * i64::from(lift.work_s) + rests - shared
    }

    /// Half sets of a muscle on a day.
    fn half_sets(&self, d: usize, m: usize, factor: i64) -> Terms {
        let count = |lift: usize| {
            let counts = &self.model.lifts[lift].counts;
            let found = counts.iter().find(|&&(muscle, _)| muscle == m);
            found.map_or(0, |&(_, one)| i64::from(one))
        };
        self.of_day(d, |c| count(c.lift) * c.sets * factor)
    }

    /// Most half sets of a muscle that a day can hold.
    fn most_half_sets(&self, d: usize, m: usize) -> i64 {
        let terms = self.half_sets(d, m, 1);
        let mut by_slot = vec![0; self.model.days[d].len()];
        let slot_of: BTreeMap<usize, usize> =
            self.choices[d].iter().map(|c| (c.column, c.slot)).collect();
        for (column, half_sets) in terms {
            let most = &mut by_slot[slot_of[&column]];
            *most = half_sets.max(*most);
        }
        by_slot.iter().sum::<i64>().min(self.most_in_time(d, m))
    }

    /// Most half sets of a muscle that a day has the time for.
    fn most_in_time(&self, d: usize, m: usize) -> i64 {
        let count = |c: &Choice| {
            let counts = &self.model.lifts[c.lift].counts;
            let found = counts.iter().find(|&&(muscle, _)| muscle == m);
            found.map_or(0, |&(_, one)| i64::from(one) * c.sets)
        };
        let rests = self.choices[d]
            .iter()
            .map(|c| self.model.lifts[c.lift].short_rest_s);
        let budget = i64::from(self.model.budget_s) + i64::from(rests.max().unwrap_or(0));
        let most = |c: &Choice| count(c) * budget / self.least_seconds(c).max(1);
        self.choices[d].iter().map(most).max().unwrap_or(0)
    }

    fn state_worth(&mut self) {
        let model = self.model;
        let lost = 4 - CREDIT_OVER_CAP_QUARTERS;
        for m in 0..MUSCLES {
            let mut credit = Terms::new();
            let mut week = Terms::new();
            for d in 0..model.days.len() {
                credit.extend(self.half_sets(d, m, -4));
                week.extend(self.half_sets(d, m, 1));
                if self.most_half_sets(d, m) > i64::from(SESSION_CAP) {
                    let over = self.cost(format!("o{d}_{m}"), 0);
                    let mut terms = self.half_sets(d, m, 1);
                    terms.push((over, -1));
                    self.row(terms, i64::from(SESSION_CAP));
                    credit.push((over, lost));
                }
            }
            if week.is_empty() {
                continue;
            }
            for (k, (length, slope)) in model.pieces(m).into_iter().enumerate() {
                let piece = self.column(format!("v{m}_{k}"), slope, Some(length), false);
                credit.push((piece, 1));
            }
            self.row(credit, 0);
            if model.ceilings[m] < u32::MAX {
                let over = self.cost(format!("c{m}"), OVER_CEILING);
                week.push((over, -1));
                self.row(week, i64::from(model.ceilings[m]));
            }
        }
    }

    fn state_repeats(&mut self) {
        let model = self.model;
        for lift in 0..model.lifts.len() {
            let days: Vec<Terms> = (0..model.days.len())
                .map(|d| self.of_day(d, |c| i64::from(c.lift == lift)))
                .filter(|terms| !terms.is_empty())
                .collect();
            if days.len() < 2 {
                continue;
            }
            let mut terms: Terms = days.concat();
            for (k, price) in model.repeat_steps(lift).into_iter().enumerate() {
                let most = (k < 2).then_some(1);
                let again = self.column(format!("q{lift}_{k}"), -price, most, false);
                terms.push((again, -1));
            }
            self.row(terms, 1);
        }
    }

    fn state_basics(&mut self) {
        let model = self.model;
        for basic in 0..BASICS.len() {
            let price = model.uncovered_cost(basic, 0);
            if price == 0 {
                continue;
            }
            let missing = self.cost(format!("m{basic}"), price);
            let mut terms = vec![(missing, -1)];
            for d in 0..model.days.len() {
                terms.extend(
                    self.of_day(d, |c| -i64::from(model.lifts[c.lift].basic == Some(basic))),
                );
            }
            self.row(terms, -1);
        }
    }

    fn state_recovery(&mut self) {
        let model = self.model;
        let free = objective::RECOVERY_FREE;
        for &(a, b) in model.close_days() {
            for &m in &model.large_muscles {
                let [most_a, most_b] = [a, b].map(|d| self.most_half_sets(d, m) - free);
                if most_a <= 0 || most_b <= 0 {
                    continue;
                }
                let both = self.cost(format!("h{a}_{b}_{m}"), objective::RECOVERY_COST);
                let fewer = self.binary(format!("d{a}_{b}_{m}"), 0);
                let mut terms = self.half_sets(a, m, 1);
                terms.extend([(both, -1), (fewer, -most_a)]);
                self.row(terms, free);
                let mut terms = self.half_sets(b, m, 1);
                terms.extend([(both, -1), (fewer, most_b)]);
                self.row(terms, free + most_b);
            }
        }
    }
}
