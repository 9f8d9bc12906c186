//! What is at hand, and the steps of its loads.

use super::page_under;
use crate::held::{Held, later};
use crate::markup::{Tag, View, rows, tag};
use crate::parts::{Choice, TickGroup, TypedField};
use crate::screens::{card, soft_small};
use crate::state::App;
use crate::text::language::{number, tr};
use crate::text::{errors, reasons, terms, words};
use std::rc::Rc;
use weekloom_engine::catalogue::Equipment as Thing;
use weekloom_engine::kit::{Kit, PlatePairs, Steps};
use weekloom_engine::units::{Load, parse_whole};

/// Equipment, bars, plates, steps. Every accepted answer is kept at once.
pub fn equipment() -> Tag {
    let app = App::here();
    let things = || {
        let choice = |&thing: &Thing| Choice::plain(thing.slug(), terms::equipment(thing));
        Thing::ALL.iter().map(choice).collect()
    };
    let is_ticked = move |value: &str| {
        app.person.with(|p| {
            p.as_ref()
                .is_some_and(|p| p.kit.equipment.iter().any(|e| e.slug() == value))
        })
    };
    let toggle = move |value: &str| {
        if let Some(thing) = Thing::from_slug(value) {
            let _ = app.change_kit(&|kit| {
                if !kit.equipment.remove(&thing) {
                    kit.equipment.insert(thing);
                }
            });
        }
    };
    let at_hand = TickGroup {
        legend: words::KIT_AT_HAND,
        options: Rc::new(things),
        is_ticked: Rc::new(is_ticked),
        on_toggle: Rc::new(toggle),
        is_week: false,
    };
    let bars = tag("div", "fields")
        .with(load_field(
            app,
            "bar",
            words::BAR,
            |k| k.bar,
            |k, l| k.bar = l,
        ))
        .with(load_field(
            app,
            "curl-bar",
            words::CURL_BAR,
            |k| k.curl_bar,
            |k, l| k.curl_bar = l,
        ))
        .with(load_field(
            app,
            "trap-bar",
            words::TRAP_BAR,
            |k| k.trap_bar,
            |k, l| k.trap_bar = l,
        ));
    let racks = [
        Rack {
            id: "dumbbells",
            title: words::DUMBBELL_STEPS,
            read: |k| &k.dumbbells,
            write: |k, s| k.dumbbells = s,
        },
        Rack {
            id: "kettlebells",
            title: words::KETTLEBELL_STEPS,
            read: |k| &k.kettlebells,
            write: |k, s| k.kettlebells = s,
        },
        Rack {
            id: "machine",
            title: words::MACHINE_STEPS,
            read: |k| &k.machine,
            write: |k, s| k.machine = s,
        },
        Rack {
            id: "cable",
            title: words::CABLE_STEPS,
            read: |k| &k.cable,
            write: |k, s| k.cable = s,
        },
    ];
    let mut page = page_under(words::EQUIPMENT)
        .with(
            tag("section", "card")
                .with(at_hand)
                .with(soft_small(words::KIT_CHANGED)),
        )
        .with(card(words::BARS).with(bars))
        .with(plates(app));
    for rack in racks {
        page = page.with(steps_of(app, rack));
    }
    page
}

/// The unit of loads, behind a field.
fn unit(app: App) -> Option<View> {
    Some(app.unit_symbol().into())
}

/// Keeps a typed load, or says why not.
fn keep_load(app: App, text: &str, write: &dyn Fn(&mut Kit, Load)) -> Option<String> {
    Load::parse(text, app.unit_now())
        .map_err(|e| errors::number(&e))
        .and_then(|load| app.change_kit(&|kit| write(kit, load)))
        .err()
}

/// A load of the kit.
fn load_field(
    app: App,
    id: &str,
    label: &'static str,
    read: fn(&Kit) -> Load,
    write: fn(&mut Kit, Load),
) -> TypedField {
    let error = Held::new(None);
    TypedField {
        label: label.into(),
        id: id.to_owned(),
        value: Box::new(move || {
            app.kit_text(&|kit, unit| number(&read(kit).show(unit)))
                .into()
        }),
        error,
        on_typed: Box::new(move |text| error.set(keep_load(app, &text, &write))),
        unit: unit(app),
    }
}

/// Plates owned, with pairs of each.
fn plates(app: App) -> Tag {
    let owned = move || {
        app.person.with(|p| {
            let plates = p.as_ref().map_or(&[][..], |p| &p.kit.plates);
            let key = |own: &PlatePairs| own.plate.grams().to_string();
            plates.iter().map(key).collect()
        })
    };
    let field = move |grams: &str| {
        let plate = Load::clamped(grams.parse().unwrap_or(0));
        plate_field(app, plate).into()
    };
    let fresh = Held::new(String::new());
    let error = Held::new(None);
    let add = move |text: String| {
        let refused = keep_load(app, &text, &|kit, plate| {
            // The heaviest come first.
            let heavier = |own: &&PlatePairs| own.plate >= plate;
            let at = kit.plates.iter().take_while(heavier).count();
            kit.plates.insert(at, PlatePairs { plate, pairs: 1 });
        });
        fresh.set(text);
        // An accepted plate stands in the list; the field is free again.
        if refused.is_none() {
            later(async move { fresh.set(String::new()) });
        }
        error.set(refused);
    };
    card(words::PLATES)
        .with(soft_small(words::PLATES_MORE))
        .with(tag("div", "fields").with(rows(owned, field)))
        .with(TypedField {
            label: tr(words::ADD_PLATE).into(),
            id: "add-plate".to_owned(),
            value: Box::new(move || fresh.get().into()),
            error,
            on_typed: Box::new(add),
            unit: unit(app),
        })
}

fn plate_field(app: App, plate: Load) -> TypedField {
    let error = Held::new(None);
    let pairs = move || {
        app.kit_text(&|kit, _| {
            kit.plates
                .iter()
                .find(|owned| owned.plate == plate)
                .map_or_else(String::new, |owned| owned.pairs.to_string())
        })
    };
    let typed = move |text: String| {
        let outcome = parse_whole(&text, weekloom_engine::bounds::PLATE_PAIRS)
            .map_err(|e| errors::number(&e))
            .and_then(|pairs| {
                app.change_kit(&|kit| {
                    kit.plates.retain_mut(|owned| {
                        if owned.plate == plate {
                            owned.pairs = u8::try_from(pairs).unwrap_or(owned.pairs);
                        }
                        owned.plate != plate || pairs > 0
                    });
                })
            });
        error.set(outcome.err());
    };
    let unit = app.unit_now();
    TypedField {
        label: reasons::load(plate, unit).into(),
        id: format!("plate-{}", plate.grams()),
        value: Box::new(move || pairs().into()),
        error,
        on_typed: Box::new(typed),
        unit: Some(tr(words::PAIRS).into()),
    }
}

/// A rack or stack of the kit.
#[derive(Clone, Copy)]
struct Rack {
    id: &'static str,
    title: &'static str,
    read: fn(&Kit) -> &Steps,
    write: fn(&mut Kit, Steps),
}

/// First, step and last of a rack or stack, or each of its loads.
fn steps_of(app: App, rack: Rack) -> Tag {
    let fields = tag("div", "fields")
        .with(step_field(app, rack, words::FIRST, "first", 0))
        .with(step_field(app, rack, words::STEP, "step", 1))
        .with(step_field(app, rack, words::LAST, "last", 2));
    let odd = tag("details", "more")
        .with(tag("summary", "").with(words::UNEVEN))
        .with(soft_small(words::UNEVEN_MORE))
        .with(list_field(app, rack));
    card(rack.title).with(fields).with(odd)
}

/// Every load of a rack whose steps are not even. Left empty, the even steps count.
fn list_field(app: App, rack: Rack) -> TypedField {
    let error = Held::new(None);
    let listed = move |kit: &Kit, unit| match (rack.read)(kit) {
        Steps::Even { .. } => String::new(),
        Steps::Listed(loads) => {
            let each: Vec<String> = loads.iter().map(|load| number(&load.show(unit))).collect();
            each.join("; ")
        }
    };
    let typed = move |text: String| {
        let unit = app.unit_now();
        let each = text.split([';', ' ']).filter(|part| !part.is_empty());
        let loads: Result<Vec<Load>, _> = each.map(|part| Load::parse(part, unit)).collect();
        let kept = loads.map_err(|e| errors::number(&e)).and_then(|loads| {
            app.change_kit(&|kit| {
                if let Some(steps) = Steps::of(&loads, (rack.read)(kit)) {
                    (rack.write)(kit, steps);
                }
            })
        });
        error.set(kept.err());
    };
    TypedField {
        label: tr(words::EACH_LOAD).into(),
        id: format!("{}-each", rack.id),
        value: Box::new(move || app.kit_text(&listed).into()),
        error,
        on_typed: Box::new(typed),
        unit: unit(app),
    }
}

fn step_field(
    app: App,
    rack: Rack,
    label: &'static str,
    part: &'static str,
    which: usize,
) -> TypedField {
    let error = Held::new(None);
    let parts = move |kit: &Kit| match (rack.read)(kit) {
        Steps::Even { first, step, last } => [*first, *step, *last],
        Steps::Listed(loads) => Steps::spanned(loads),
    };
    let typed = move |text: String| {
        error.set(keep_load(app, &text, &|kit, load| {
            let mut parts = parts(kit);
            parts[which] = load;
            let [first, step, last] = parts;
            (rack.write)(kit, Steps::Even { first, step, last });
        }));
    };
    TypedField {
        label: label.into(),
        id: format!("{}-{part}", rack.id),
        value: Box::new(move || {
            app.kit_text(&|kit, unit| number(&parts(kit)[which].show(unit)))
                .into()
        }),
        error,
        on_typed: Box::new(typed),
        unit: unit(app),
    }
}
