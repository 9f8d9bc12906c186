//! Exercises of one's own making: the list, and the editor with every field the
//! built-in ones have.
//!
//! Start at [`list`] and [`editor`]. A draft is kept only when it is saved and
//! has no flaw; what a new one does not say comes from a built-in exercise of
//! the same pattern.

use crate::held::{Held, untracked};
use crate::markup::{Tag, View, button, either, live, tag};
use crate::parts::{Choice, ChoiceGroup, TickGroup, TypedField, labelled, line_link, refusal};
use crate::route::{self, KitPage, Route};
use crate::screens::{card, page, page_head_under, soft, soft_small};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{errors, terms, words};
use std::rc::Rc;
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::catalogue::own::{REP_DS, REST_S, SETUP_S, flaw, own_id};
use weekloom_engine::catalogue::{
    Equipment, Exercise, ExerciseId, JointDemand, Kind, Loading, Measure, Muscle, Pattern, Role,
    Sides,
};
use weekloom_engine::units::parse_whole;

/// Address of a new one.
const NEW: &str = "new";

/// Own exercises, and the way to another.
pub(super) fn list() -> Tag {
    let app = App::here();
    let own = app.own_exercises();
    let mut lines = tag("ul", "card lines");
    for (id, own) in own.0.iter() {
        let to = Route::OwnExercise(id.to_string()).hash();
        let more = terms::pattern(own.exercise.pattern);
        lines = lines.with(line_link(to, own.exercise.name.clone(), more));
    }
    let new = Route::OwnExercise(NEW.to_owned()).hash();
    let lines = lines.with(line_link(
        new,
        words::NEW_EXERCISE,
        words::NEW_EXERCISE_MORE,
    ));
    super::page_under(words::OWN_EXERCISES)
        .with(soft(words::OWN_EXERCISES_MORE))
        .with(lines)
}

/// A draft, and whether it was there before.
#[derive(Clone, Copy)]
struct Draft {
    app: App,
    exercise: Held<Exercise>,
    is_new: bool,
    error: Held<Option<String>>,
}

/// The editor of one of them, or of a new one.
pub fn editor(id: &str) -> View {
    let app = App::here();
    let back = Route::Kit(KitPage::Exercises);
    let known = app.own_exercises().0.get(&ExerciseId::new(id)).cloned();
    let is_new = known.is_none();
    let title = match &known {
        Some(own) => own.exercise.name.clone(),
        None => tr(words::NEW_EXERCISE).to_owned(),
    };
    let draft = Draft {
        app,
        exercise: Held::new(known.map_or_else(|| like(app, Pattern::Squat), |own| own.exercise)),
        is_new,
        error: Held::new(None),
    };
    page(page_head_under(&back, title))
        .with(draft.first())
        .with(draft.load())
        .with(draft.numbers())
        .with(draft.care())
        .with(refusal(draft.error))
        .with(button(
            "button button--main button--wide",
            words::SAVE_EXERCISE,
            move || draft.save(),
        ))
        .with((!is_new).then(|| draft.removal()))
        .into()
}

/// A nameless exercise like the first built-in one of a pattern.
fn like(app: App, pattern: Pattern) -> Exercise {
    let catalogue = app.catalogue();
    let mut all = catalogue.iter();
    let found = all.find(|exercise| exercise.pattern == pattern);
    let found = found.or_else(|| catalogue.iter().next());
    let mut like = found.map_or_else(nothing_like, Exercise::clone);
    like.id = ExerciseId::new("own-");
    like.name = String::new();
    like.step_down = Vec::new();
    like.step_up = Vec::new();
    like.cue = String::new();
    like.caution = String::new();
    like
}

/// For a catalogue without any.
fn nothing_like() -> Exercise {
    Exercise {
        id: ExerciseId::new("own-"),
        name: String::new(),
        pattern: Pattern::Squat,
        role: Role::Legs,
        prime: vec![Muscle::Quadriceps],
        assist: Vec::new(),
        equipment: Vec::new(),
        loading: Loading::Bodyweight,
        measure: Measure::Reps,
        sides: Sides::Both,
        kind: Kind::Compound,
        reps: (8, 12),
        rir: 2,
        rest_s: 120,
        rep_ds: 30,
        setup_s: 60,
        joints: Vec::new(),
        strain: 1,
        skill: 1,
        step_down: Vec::new(),
        step_up: Vec::new(),
        cue: String::new(),
        caution: String::new(),
    }
}

/// A term of the trade with its slug and its name.
type Named<T> = (T, &'static str, &'static str);

impl Draft {
    fn with<T>(self, read: impl FnOnce(&Exercise) -> T) -> T {
        self.exercise.with(read)
    }

    fn change(self, change: impl FnOnce(&mut Exercise)) {
        self.error.set(None);
        self.exercise.update(change);
    }

    /// One of several.
    fn one_of<T: Copy + PartialEq + 'static>(
        self,
        (legend, name): (&'static str, &'static str),
        all: fn(&Exercise) -> Vec<Named<T>>,
        get: fn(&Exercise) -> T,
        set: fn(&mut Exercise, T),
    ) -> ChoiceGroup {
        let chosen = move || {
            self.with(|exercise| {
                let now = get(exercise);
                let found = all(exercise).into_iter().find(|one| one.0 == now);
                found.map_or("", |one| one.1)
            })
        };
        let choose = move |value: &str| {
            let all = self.exercise.with_untracked(all);
            if let Some(one) = all.into_iter().find(|one| one.1 == value) {
                self.change(|exercise| set(exercise, one.0));
            }
        };
        ChoiceGroup {
            legend,
            name,
            options: Rc::new(move || {
                let all = self.with(all).into_iter();
                all.map(|one| Choice::plain(one.1, one.2)).collect()
            }),
            chosen: Rc::new(move || chosen().into()),
            on_choose: Rc::new(choose),
            is_chips: true,
        }
    }

    /// Any of several.
    fn any_of<T: Clone + PartialEq + 'static>(
        self,
        legend: &'static str,
        all: impl Fn(&Exercise) -> Vec<(T, String, String)> + Copy + 'static,
        get: fn(&Exercise) -> &Vec<T>,
        toggle: fn(&mut Exercise, &T),
    ) -> TickGroup {
        let named = move |exercise: &Exercise, value: &str| {
            let mut all = all(exercise).into_iter();
            all.find(|one| one.1 == value).map(|one| one.0)
        };
        let is_ticked = move |value: &str| {
            self.with(|exercise| {
                named(exercise, value).is_some_and(|one| get(exercise).contains(&one))
            })
        };
        TickGroup {
            legend,
            options: Rc::new(move || {
                let all = self.with(all).into_iter();
                all.map(|one| Choice::plain(one.1, one.2)).collect()
            }),
            is_ticked: Rc::new(is_ticked),
            on_toggle: Rc::new(move |value: &str| {
                let one = self.exercise.with_untracked(|e| named(e, value));
                if let Some(one) = one {
                    self.change(|exercise| toggle(exercise, &one));
                }
            }),
            is_week: false,
        }
    }

    fn number(
        self,
        id: &'static str,
        label: &'static str,
        bound: fn(&Exercise) -> Bound,
        get: fn(&Exercise) -> u16,
        set: fn(&mut Exercise, u16),
    ) -> TypedField {
        let error = Held::new(None);
        TypedField {
            label: tr(label).into(),
            id: id.to_owned(),
            value: Box::new(move || self.with(get).to_string().into()),
            error,
            on_typed: Box::new(move |text| {
                let bound = self.exercise.with_untracked(bound);
                match parse_whole(&text, bound) {
                    Ok(value) => {
                        error.set(None);
                        let value = u16::try_from(value).unwrap_or(u16::MAX);
                        self.change(|exercise| set(exercise, value));
                    }
                    Err(refused) => error.set(Some(errors::number(&refused))),
                }
            }),
            unit: None,
        }
    }

    /// A line or two of the person's own words.
    fn words(
        self,
        (id, label): (&'static str, &'static str),
        kind: &'static str,
        get: fn(&Exercise) -> &String,
        set: fn(&mut Exercise, String),
    ) -> Tag {
        let field = tag(kind, "input")
            .attr("autocomplete", "off")
            .value(Box::new(move || self.with(|e| get(e).clone()).into()))
            .on_typed(move |text| self.change(|e| set(e, text.trim().to_owned())));
        labelled(id, label, field)
    }

    /// Name, pattern and muscles.
    fn first(self) -> Tag {
        let patterns = |_: &Exercise| {
            let named = |&p: &Pattern| (p, p.slug(), terms::pattern(p));
            Pattern::ALL.iter().map(named).collect()
        };
        let roles = |exercise: &Exercise| {
            let named = |&r: &Role| (r, r.slug(), terms::role(r));
            exercise.pattern.roles().iter().map(named).collect()
        };
        let muscles = |_: &Exercise| {
            let named = |&m: &Muscle| (m, m.slug().to_owned(), terms::muscle(m).to_owned());
            Muscle::ALL.iter().map(named).collect::<Vec<_>>()
        };
        let app = self.app;
        let is_new = self.is_new;
        let pattern = self.one_of(
            (words::PATTERN, "pattern"),
            patterns,
            |e| e.pattern,
            |e, pattern| e.pattern = pattern,
        );
        let draft = self;
        let pattern = ChoiceGroup {
            // What a new one does not say yet follows the pattern.
            on_choose: Rc::new(move |value| {
                if let Some(pattern) = Pattern::from_slug(value) {
                    draft.change(|exercise| {
                        let like = like(app, pattern);
                        if is_new {
                            *exercise = Exercise {
                                name: exercise.name.clone(),
                                cue: exercise.cue.clone(),
                                caution: exercise.caution.clone(),
                                ..like
                            };
                        } else {
                            exercise.pattern = pattern;
                            exercise.role = like.role;
                        }
                    });
                }
            }),
            ..pattern
        };
        let has_roles = move || self.with(|e| e.pattern.roles().len() > 1);
        let role = move || {
            has_roles().then(|| {
                View::from(self.one_of(
                    (words::ROLE, "role"),
                    roles,
                    |e| e.role,
                    |e, role| e.role = role,
                ))
            })
        };
        card(words::WHAT_IT_IS)
            .with(self.words(
                ("own-name", words::EXERCISE_NAME),
                "input",
                |e| &e.name,
                |e, name| e.name = name,
            ))
            .with(pattern)
            .with(live(role))
            .with(self.any_of(
                words::PRIME,
                muscles,
                |e| &e.prime,
                |e, muscle| {
                    e.assist.retain(|other| other != muscle);
                    toggled(&mut e.prime, muscle);
                },
            ))
            .with(self.any_of(
                words::ASSIST,
                muscles,
                |e| &e.assist,
                |e, muscle| {
                    e.prime.retain(|other| other != muscle);
                    toggled(&mut e.assist, muscle);
                },
            ))
            .with(soft_small(words::BY_MUSCLE_MORE))
    }

    /// What it needs and what its number means.
    fn load(self) -> Tag {
        let things = |_: &Exercise| {
            let named = |&t: &Equipment| (t, t.slug().to_owned(), terms::equipment(t).to_owned());
            Equipment::ALL.iter().map(named).collect::<Vec<_>>()
        };
        let loadings = |_: &Exercise| {
            let named = |&l: &Loading| (l, l.slug(), terms::loading(l));
            Loading::ALL.iter().map(named).collect()
        };
        let measures = |_: &Exercise| {
            vec![
                (Measure::Reps, "reps", tr(words::REPS)),
                (Measure::Seconds, "seconds", tr(words::SECONDS)),
            ]
        };
        let sides = |_: &Exercise| {
            vec![
                (Sides::Both, "both", tr(words::SIDES_BOTH)),
                (Sides::Each, "each", tr(words::SIDES_EACH)),
            ]
        };
        let kinds = |_: &Exercise| {
            vec![
                (Kind::Compound, "compound", tr(words::KIND_COMPOUND)),
                (Kind::Isolation, "isolation", tr(words::KIND_ISOLATION)),
            ]
        };
        let holds = tag("div", "stack stack--wide")
            .with(self.one_of(
                (words::LOADING, "loading"),
                loadings,
                |e| e.loading,
                |e, loading| e.loading = loading,
            ))
            .with(self.any_of(
                words::NEEDS,
                things,
                |e| &e.equipment,
                |e, thing| {
                    toggled(&mut e.equipment, thing);
                },
            ))
            .with(self.one_of(
                (words::COUNTED, "measure"),
                measures,
                |e| e.measure,
                measured,
            ))
            .with(self.one_of(
                (words::SIDES_LEGEND, "sides"),
                sides,
                |e| e.sides,
                |e, sides| e.sides = sides,
            ))
            .with(self.one_of(
                (words::KIND, "kind"),
                kinds,
                |e| e.kind,
                |e, kind| e.kind = kind,
            ));
        part(words::HOW_LOADED, holds)
    }

    /// Goal range, effort, rest and times.
    fn numbers(self) -> Tag {
        let goal = |e: &Exercise| match e.measure {
            Measure::Reps => bounds::REPS,
            Measure::Seconds => bounds::HOLD_S,
        };
        let is_timed = move || self.with(|e| e.measure == Measure::Seconds);
        let tempo = move || {
            (!is_timed()).then(|| {
                View::from(self.number(
                    "own-tempo",
                    words::REP_TENTHS,
                    |_| REP_DS,
                    |e| e.rep_ds,
                    |e, tenths| e.rep_ds = tenths,
                ))
            })
        };
        let range = tag("div", "fields")
            .with(self.number(
                "own-least",
                words::GOAL_LEAST,
                goal,
                |e| e.reps.0,
                |e, n| {
                    e.reps.0 = n;
                },
            ))
            .with(self.number(
                "own-most",
                words::GOAL_MOST,
                goal,
                |e| e.reps.1,
                |e, n| {
                    e.reps.1 = n;
                },
            ));
        let rest = tag("div", "fields")
            .with(self.number(
                "own-rest",
                words::REST_IN_SECONDS,
                |_| REST_S,
                |e| e.rest_s,
                |e, s| {
                    e.rest_s = s;
                },
            ))
            .with(self.number(
                "own-rir",
                words::LEFT_AT_END,
                |_| bounds::RIR,
                |e| e.rir.into(),
                |e, rir| e.rir = u8::try_from(rir).unwrap_or(u8::MAX),
            ));
        let times = tag("div", "fields").with(live(tempo)).with(self.number(
            "own-setup",
            words::SETUP_SECONDS,
            |_| SETUP_S,
            |e| e.setup_s,
            |e, s| e.setup_s = s,
        ));
        let holds = tag("div", "stack stack--wide")
            .with(range)
            .with(rest)
            .with(times);
        part(words::NUMBERS_OF_IT, holds)
    }

    /// What it asks of the body, its variants, and words.
    fn care(self) -> Tag {
        let joints = |_: &Exercise| {
            let named = |&j: &JointDemand| (j, j.slug().to_owned(), terms::joint(j).to_owned());
            JointDemand::ALL.iter().map(named).collect::<Vec<_>>()
        };
        let app = self.app;
        let variants = move |exercise: &Exercise| {
            let is_like =
                |other: &&Exercise| other.pattern == exercise.pattern && other.id != exercise.id;
            let named = |other: &Exercise| {
                (
                    other.id.clone(),
                    other.id.to_string(),
                    app.name_of(&other.id).into_owned(),
                )
            };
            app.catalogue()
                .iter()
                .filter(is_like)
                .map(named)
                .collect::<Vec<_>>()
        };
        let variants_of = tag("details", "more")
            .with(tag("summary", "").with(words::VARIANTS))
            .with(
                tag("div", "stack")
                    .with(self.any_of(
                        words::EASIER,
                        variants,
                        |e| &e.step_down,
                        |e, other| {
                            e.step_up.retain(|known| known != other);
                            toggled(&mut e.step_down, other);
                        },
                    ))
                    .with(self.any_of(
                        words::HARDER,
                        variants,
                        |e| &e.step_up,
                        |e, other| {
                            e.step_down.retain(|known| known != other);
                            toggled(&mut e.step_up, other);
                        },
                    )),
            );
        let holds = tag("div", "stack stack--wide")
            .with(self.any_of(
                words::JOINTS,
                joints,
                |e| &e.joints,
                |e, joint| {
                    toggled(&mut e.joints, joint);
                },
            ))
            .with(self.one_of(
                (words::STRAIN, "strain"),
                grades_of,
                |e| e.strain,
                |e, s| {
                    e.strain = s;
                },
            ))
            .with(self.one_of(
                (words::SKILL, "skill"),
                grades_of,
                |e| e.skill,
                |e, s| {
                    e.skill = s;
                },
            ))
            .with(variants_of)
            .with(self.words(
                ("own-cue", words::CUE),
                "textarea",
                |e| &e.cue,
                |e, cue| e.cue = cue,
            ))
            .with(self.words(
                ("own-caution", words::CAUTION),
                "input",
                |e| &e.caution,
                |e, caution| e.caution = caution,
            ));
        part(words::CARE, holds)
    }

    /// Keeps it, if the engine can work with it.
    fn save(self) {
        let app = self.app;
        let mut exercise = self.exercise.get_untracked();
        let mut own = app.own_exercises();
        if self.is_new {
            exercise.id = own_id(&exercise.name);
            if own.0.contains_key(&exercise.id) {
                self.error.set(Some(tr(words::NAME_TAKEN).to_owned()));
                return;
            }
            if own.is_full() {
                self.error.set(Some(tr(words::OWN_FULL).to_owned()));
                return;
            }
        }
        if let Some(flaw) = flaw(&exercise) {
            self.error.set(Some(errors::other(&flaw)));
            return;
        }
        own.put(exercise, app.now.get_untracked());
        app.set_own_exercises(&own);
        app.tell(words::EXERCISE_SAVED);
        route::replace(&Route::Kit(KitPage::Exercises));
    }

    /// Takes it out, unless something still speaks of it.
    fn removal(self) -> View {
        let app = self.app;
        let is_asked = Held::new(false);
        let ask = move || {
            button(
                "button button--warn button--wide",
                words::REMOVE_EXERCISE,
                move || {
                    let id = self.exercise.with_untracked(|e| e.id.clone());
                    let plan = app.plan.get_untracked();
                    let is_planned = plan.is_some_and(|accepted| {
                        let mut items = accepted.plan.days.iter().flat_map(|day| &day.items);
                        items.any(|item| item.prescription.exercise == id)
                    });
                    if is_planned || !app.history(&id).is_empty() {
                        self.error.set(Some(tr(words::STILL_USED).to_owned()));
                    } else {
                        is_asked.set(true);
                    }
                },
            )
            .into()
        };
        let sure = move || {
            let remove = button("button button--warn", words::REMOVE_SURE, move || {
                let mut own = app.own_exercises();
                own.0.remove(&untracked(&|| self.with(|e| e.id.clone())));
                app.set_own_exercises(&own);
                route::replace(&Route::Kit(KitPage::Exercises));
            });
            let cancel = button("button", words::CANCEL, move || is_asked.set(false));
            tag("div", "row").with(remove).with(cancel).into()
        };
        either(move || is_asked.get(), sure, ask)
    }
}

/// A part that is folded away: what it asks has an answer already.
fn part(title: &'static str, holds: Tag) -> Tag {
    let summary = tag("summary", "").with(title);
    let folded = tag("details", "more").with(summary).with(holds);
    tag("section", "card").with(folded)
}

/// Grades of strain and skill.
fn grades_of(_: &Exercise) -> Vec<Named<u8>> {
    vec![
        (0, "0", tr(words::GRADE_NONE)),
        (1, "1", tr(words::GRADE_SOME)),
        (2, "2", tr(words::GRADE_MUCH)),
        (3, "3", tr(words::GRADE_MOST)),
    ]
}

/// Seconds take no time of their own a rep, reps take the usual three.
fn measured(exercise: &mut Exercise, measure: Measure) {
    exercise.measure = measure;
    exercise.rep_ds = match measure {
        Measure::Reps => 30,
        Measure::Seconds => 0,
    };
}

fn toggled<T: Clone + PartialEq>(list: &mut Vec<T>, one: &T) {
    let before = list.len();
    list.retain(|other| other != one);
    if list.len() == before {
        list.push(one.clone());
    }
}
