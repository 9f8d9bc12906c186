//! Somebody's own spreadsheet into the log, by steps: what stands in which
//! column, which exercise each name means, and what all that brings.
//!
//! Start at [`spreadsheet`]. Nothing is kept before the last step.

use super::page_under;
use crate::effects::clock;
use crate::held::Held;
use crate::markup::{Tag, View, button, live, tag};
use crate::parts::{Choice, ChoiceGroup, file_choice, line_more, refusal, tick};
use crate::route::{self, Route};
use crate::screens::{card, list, soft, soft_small};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{errors, sheet as told, words};
use leptos::prelude::event_target_value;
use std::rc::Rc;
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::units::Unit;
use weekloom_store::sheet::{
    Column, DayOrder, Gatherer, Harvest, MOST_BYTES, Mapping, Meaning, Names, PROPOSED, Table,
    bring_in, names,
};

/// Exercises offered for a name.
const OFFERED: usize = 5;
/// Remarks shown.
const SHOWN: usize = 20;

/// A name in the file: its rows, the exercises it may mean, and what it means.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Name {
    name: String,
    rows: usize,
    closest: Vec<(ExerciseId, u8)>,
    meaning: Meaning,
}

/// The file as it is read so far.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Read {
    table: Table,
    mapping: Mapping,
    names: Vec<Name>,
}

#[derive(Clone, Copy)]
struct Desk {
    app: App,
    read: Held<Option<Read>>,
    refused: Held<Option<String>>,
    takes_beside: Held<bool>,
}

/// The steps.
pub(super) fn spreadsheet() -> Tag {
    let desk = Desk {
        app: App::here(),
        read: Held::new(None),
        refused: Held::new(None),
        takes_beside: Held::new(false),
    };
    page_under(words::SPREADSHEET)
        .with(soft(words::SPREADSHEET_MORE))
        .with(desk.choose())
        .with(refusal(desk.refused))
        .with(live(move || desk.columns()))
        .with(live(move || desk.exercises()))
        .with(live(move || desk.outcome()))
}

impl Desk {
    fn choose(self) -> Tag {
        file_choice(
            words::CHOOSE_SHEET,
            "text/csv,.csv,.txt,.tsv",
            MOST_BYTES,
            move |chosen| self.open(chosen),
        )
    }

    fn open(self, chosen: Result<String, &'static str>) {
        self.read.set(None);
        self.refused.set(None);
        let text = match chosen {
            Ok(text) => text,
            Err(why) => return self.refused.set(Some(tr(why).to_owned())),
        };
        match Table::read(&text) {
            Ok(table) => {
                let mapping = Mapping::guess(&table, self.app.unit_now());
                let names = self.names(&table, &mapping, &[]);
                self.read.set(Some(Read {
                    table,
                    mapping,
                    names,
                }));
            }
            Err(error) => self.refused.set(Some(errors::other(&error))),
        }
    }

    /// The names in the exercise column; what was said of one before stays.
    fn names(self, table: &Table, mapping: &Mapping, before: &[Name]) -> Vec<Name> {
        let app = self.app;
        let known = Names::new(app.catalogue(), &|id| app.name_of(id).into_owned());
        let named = |(name, rows): (String, usize)| {
            let said = before.iter().find(|other| other.name == name);
            let closest = known.closest(&name, OFFERED);
            let meaning = match (said, closest.first()) {
                (Some(said), _) => said.meaning.clone(),
                (None, Some((id, score))) if *score >= PROPOSED => Meaning::Known(id.clone()),
                _ => Meaning::LeftOut,
            };
            Name {
                name,
                rows,
                closest,
                meaning,
            }
        };
        names(table, mapping).into_iter().map(named).collect()
    }

    fn remap(self, change: impl FnOnce(&mut Mapping, &Table)) {
        let Some(mut read) = self.read.get_untracked() else {
            return;
        };
        change(&mut read.mapping, &read.table);
        read.names = self.names(&read.table, &read.mapping, &read.names);
        self.read.set(Some(read));
    }

    /// What stands in which column.
    fn columns(self) -> Option<Tag> {
        let read = self.read.get()?;
        let mut fields = tag("ul", "stack");
        let skipped = usize::from(read.mapping.has_head);
        for (at, &column) in read.mapping.columns.iter().enumerate() {
            let cell = |row: usize| {
                let row = read.table.rows.get(row)?;
                row.cells.get(at).filter(|cell| !cell.is_empty()).cloned()
            };
            let head = if read.mapping.has_head { cell(0) } else { None };
            let title = head.unwrap_or_else(|| told::column_number(at + 1));
            let example = (skipped..skipped + 20).find_map(cell);
            let mut select = tag("select", "input")
                .attr("id", format!("column-{at}"))
                .on("change", move |event| {
                    let chosen = Column::from_slug(&event_target_value(&event));
                    self.remap(|mapping, table| {
                        if let (Some(place), Some(chosen)) = (mapping.columns.get_mut(at), chosen) {
                            *place = chosen;
                        }
                        mapping.find_order(table);
                    });
                });
            for (known, slug) in Column::ALL {
                select = select.with(option(slug, told::column(known), known == column));
            }
            let label = tag("label", "field__label")
                .attr("for", format!("column-{at}"))
                .with(title);
            let example = example.map(|example| line_more(told::example(&example)));
            fields = fields.with(tag("li", "field").with(label).with(example).with(select));
        }
        let shown = card(words::SHEET_COLUMNS).with(fields).with(self.unit());
        let shown = shown.with(read.mapping.is_order_unsure.then(|| self.order()));
        Some(if read.mapping.is_enough() {
            shown
        } else {
            shown.with(tag("p", "field__error").with(words::COLUMNS_LACK))
        })
    }

    fn unit(self) -> ChoiceGroup {
        let units = [("kg", Unit::Kg), ("lb", Unit::Lb)];
        let choice = |unit: &(&'static str, Unit)| Choice::plain(unit.0, unit.0);
        let chosen = move || {
            self.read
                .with(|read| read.as_ref().map_or("kg", |r| r.mapping.unit.symbol()))
        };
        ChoiceGroup {
            legend: words::SHEET_UNIT,
            name: "sheet-unit",
            options: Rc::new(move || units.iter().map(choice).collect()),
            chosen: Rc::new(move || chosen().into()),
            on_choose: Rc::new(move |value| {
                let found = units.iter().find(|unit| unit.0 == value);
                if let Some(&(_, unit)) = found {
                    self.remap(|mapping, _| mapping.unit = unit);
                }
            }),
            is_chips: true,
        }
    }

    fn order(self) -> ChoiceGroup {
        let is_month = move || {
            self.read.with(|read| {
                read.as_ref()
                    .is_some_and(|read| read.mapping.order == DayOrder::MonthFirst)
            })
        };
        ChoiceGroup {
            legend: words::SHEET_DAYS,
            name: "sheet-days",
            options: Rc::new(|| {
                vec![
                    Choice::plain("day", tr(words::DAY_FIRST)),
                    Choice::plain("month", tr(words::MONTH_FIRST)),
                ]
            }),
            chosen: Rc::new(move || if is_month() { "month" } else { "day" }.into()),
            on_choose: Rc::new(move |value| {
                let order = if value == "month" {
                    DayOrder::MonthFirst
                } else {
                    DayOrder::DayFirst
                };
                self.remap(|mapping, _| mapping.order = order);
            }),
            is_chips: true,
        }
    }

    /// Which exercise each name means.
    fn exercises(self) -> Option<Tag> {
        let read = self.read.get()?;
        if !read.mapping.is_enough() || read.names.is_empty() {
            return None;
        }
        let mut fields = tag("ul", "stack");
        for (at, name) in read.names.iter().enumerate() {
            let mut select = tag("select", "input")
                .attr("id", format!("name-{at}"))
                .on("change", move |event| {
                    self.mean(at, &event_target_value(&event))
                });
            for (id, _) in &name.closest {
                let is_it = name.meaning == Meaning::Known(id.clone());
                let shown = self.app.name_of(id).into_owned();
                select = select.with(option(&format!("is {id}"), shown, is_it));
            }
            for (id, _) in &name.closest {
                let is_it = name.meaning == Meaning::Like(id.clone());
                let shown = told::new_like(&self.app.name_of(id));
                select = select.with(option(&format!("like {id}"), shown, is_it));
            }
            let is_out = name.meaning == Meaning::LeftOut;
            select = select.with(option("out", tr(words::LEAVE_OUT), is_out));
            let label = tag("label", "field__label")
                .attr("for", format!("name-{at}"))
                .with(name.name.clone());
            let rows = line_more(told::rows(name.rows));
            fields = fields.with(tag("li", "field").with(label).with(rows).with(select));
        }
        Some(
            card(words::SHEET_NAMES)
                .with(soft_small(words::SHEET_NAMES_MORE))
                .with(fields),
        )
    }

    /// What a name means from now on.
    fn mean(self, at: usize, value: &str) {
        let meaning = match value.split_once(' ') {
            Some(("is", id)) => Meaning::Known(ExerciseId::new(id)),
            Some((_, id)) => Meaning::Like(ExerciseId::new(id)),
            None => Meaning::LeftOut,
        };
        self.read.update(|read| {
            let name = read.as_mut().and_then(|read| read.names.get_mut(at));
            if let Some(name) = name {
                name.meaning = meaning;
            }
        });
    }

    /// What all that brings, and the choice.
    fn outcome(self) -> Option<Tag> {
        let read = self.read.get()?;
        if !read.mapping.is_enough() {
            return None;
        }
        let app = self.app;
        let meanings: Vec<Meaning> = read.names.iter().map(|n| n.meaning.clone()).collect();
        let gatherer = Gatherer {
            catalogue: app.catalogue(),
            mapping: &read.mapping,
            meanings: &meanings,
            today: app.today.get_untracked(),
        };
        let harvest = app.ask(|store| gatherer.gather(&read.table, store));
        let today = app.today.get_untracked();
        let mut shown = card(words::SHEET_BRINGS).with(list(told::brings(&harvest, today)));
        if !harvest.beside.is_empty() {
            let beside = self.takes_beside;
            shown = shown.with(tick(
                told::beside(harvest.beside.len()),
                move || beside.get(),
                move |is_on| beside.set(is_on),
            ));
        }
        if !harvest.remarks.is_empty() {
            let remarks = harvest.remarks.iter().take(SHOWN).map(told::remark);
            let count = harvest.remarks.len();
            let more = (count > SHOWN).then(|| soft_small(told::more_remarks(count - SHOWN)));
            let folded = tag("details", "more")
                .with(tag("summary", "").with(told::remarks(count)))
                .with(list(remarks.collect()))
                .with(more);
            shown = shown.with(folded);
        }
        let is_empty = harvest.new.is_empty() && harvest.beside.is_empty();
        if is_empty {
            return Some(shown);
        }
        let take = button(
            "button button--main button--wide",
            words::TAKE_SHEET,
            move || {
                self.take(&harvest);
            },
        );
        Some(shown.with(take))
    }

    fn take(self, harvest: &Harvest) {
        let app = self.app;
        let takes_beside = self.takes_beside.get_untracked();
        match app.ask(|store| bring_in(store, harvest, takes_beside, clock::now())) {
            Ok(changes) => {
                app.replace_with(changes);
                app.tell(words::SHEET_TAKEN);
                route::replace(&Route::Log);
            }
            Err(error) => self.refused.set(Some(errors::store(&error))),
        }
    }
}

/// An entry of a list to choose from.
fn option(value: &str, shown: impl Into<View>, is_chosen: bool) -> Tag {
    let option = tag("option", "")
        .attr("value", value.to_owned())
        .with(shown);
    if is_chosen {
        option.attr("selected", "")
    } else {
        option
    }
}
