//! What is at hand, and the steps of its loads.

use crate::parts::{Choice, TickGroup, TypedField};
use crate::route::{KitPage, Route};
use crate::screens::PageHead;
use crate::state::App;
use crate::text::{errors, terms, words};
use leptos::prelude::*;
use weekloom_engine::catalogue::Equipment as Thing;
use weekloom_engine::kit::{Kit, PlatePairs, Steps};
use weekloom_engine::units::{Load, parse_whole};

/// Equipment, bars, plates, steps. Every accepted answer is kept at once.
#[component]
pub fn Equipment() -> impl IntoView {
    let app = App::here();
    let things = Thing::ALL
        .iter()
        .map(|&thing| Choice::plain(thing.slug(), terms::equipment(thing)))
        .collect::<Vec<_>>();
    let ticked = Signal::derive(move || {
        app.person.with(|p| {
            p.as_ref().map_or_else(Vec::new, |p| {
                p.kit
                    .equipment
                    .iter()
                    .map(|e| e.slug().to_owned())
                    .collect()
            })
        })
    });
    let toggle = Callback::new(move |value: String| {
        if let Some(thing) = Thing::from_slug(&value) {
            let _ = app.change_kit(|kit| {
                if !kit.equipment.remove(&thing) {
                    kit.equipment.insert(thing);
                }
            });
        }
    });
    view! {
        <main class="page">
            <PageHead
                title=Signal::stored(words::EQUIPMENT.to_owned())
                back=Route::Kit(KitPage::Index)
            />
            <section class="card">
                <TickGroup
                    legend=words::KIT_AT_HAND
                    options=Signal::stored(things)
                    ticked=ticked
                    on_toggle=toggle
                />
                <p class="soft small">{words::KIT_CHANGED}</p>
            </section>
            <section class="card">
                <h2>{words::BARS}</h2>
                <div class="fields">
                    <LoadField id="bar" label=words::BAR read=|k| k.bar write=|k, l| k.bar = l />
                    <LoadField
                        id="curl-bar"
                        label=words::CURL_BAR
                        read=|k| k.curl_bar
                        write=|k, l| k.curl_bar = l
                    />
                    <LoadField
                        id="trap-bar"
                        label=words::TRAP_BAR
                        read=|k| k.trap_bar
                        write=|k, l| k.trap_bar = l
                    />
                </div>
            </section>
            <Plates />
            <StepFields
                id="dumbbells"
                title=words::DUMBBELL_STEPS
                read=|k| &k.dumbbells
                write=|k, s| k.dumbbells = s
            />
            <StepFields
                id="kettlebells"
                title=words::KETTLEBELL_STEPS
                read=|k| &k.kettlebells
                write=|k, s| k.kettlebells = s
            />
            <StepFields
                id="machine"
                title=words::MACHINE_STEPS
                read=|k| &k.machine
                write=|k, s| k.machine = s
            />
            <StepFields
                id="cable"
                title=words::CABLE_STEPS
                read=|k| &k.cable
                write=|k, s| k.cable = s
            />
        </main>
    }
}

/// A load of the kit.
#[component]
fn LoadField(
    #[prop(into)] id: String,
    label: &'static str,
    read: fn(&Kit) -> Load,
    write: fn(&mut Kit, Load),
) -> impl IntoView {
    let app = App::here();
    let error = RwSignal::new(None::<String>);
    let value = Signal::derive(move || app.kit_text(|kit, unit| read(kit).show(unit)));
    let typed = Callback::new(move |text: String| {
        let outcome = Load::parse(&text, app.unit())
            .map_err(|e| errors::number(&e))
            .and_then(|load| app.change_kit(|kit| write(kit, load)));
        error.set(outcome.err());
    });
    view! {
        <TypedField
            label=label
            id=id
            value=value
            error=error
            on_typed=typed
            unit=Signal::derive(move || Some(app.unit().symbol().to_owned()))
        />
    }
}

/// Plates owned, with pairs of each.
#[component]
fn Plates() -> impl IntoView {
    let app = App::here();
    let plates = move || {
        app.person
            .with(|p| p.as_ref().map_or_else(Vec::new, |p| p.kit.plates.clone()))
    };
    let fresh = RwSignal::new(String::new());
    let error = RwSignal::new(None::<String>);
    let add = Callback::new(move |text: String| {
        let outcome = Load::parse(&text, app.unit())
            .map_err(|e| errors::number(&e))
            .and_then(|plate| {
                app.change_kit(|kit| {
                    kit.plates.push(PlatePairs { plate, pairs: 1 });
                    kit.plates.sort_unstable_by_key(|own| std::cmp::Reverse(own.plate));
                })
            });
        // An accepted plate stands in the list; the field is free again.
        fresh.set(if outcome.is_ok() { String::new() } else { text });
        error.set(outcome.err());
    });
    view! {
        <section class="card">
            <h2>{words::PLATES}</h2>
            <p class="soft small">{words::PLATES_MORE}</p>
            <div class="fields">
                <For each=plates key=|owned| owned.plate let:owned>
                    <PlateField plate=owned.plate />
                </For>
            </div>
            <TypedField
                label=words::ADD_PLATE
                id="add-plate"
                value=fresh
                error=error
                on_typed=add
                unit=Signal::derive(move || Some(app.unit().symbol().to_owned()))
            />
        </section>
    }
}

#[component]
fn PlateField(plate: Load) -> impl IntoView {
    let app = App::here();
    let error = RwSignal::new(None::<String>);
    let value = Signal::derive(move || {
        app.kit_text(|kit, _| {
            kit.plates
                .iter()
                .find(|owned| owned.plate == plate)
                .map_or_else(String::new, |owned| owned.pairs.to_string())
        })
    });
    let typed = Callback::new(move |text: String| {
        let outcome = parse_whole(&text, weekloom_engine::bounds::PLATE_PAIRS)
            .map_err(|e| errors::number(&e))
            .and_then(|pairs| {
                app.change_kit(|kit| {
                    kit.plates.retain_mut(|owned| {
                        if owned.plate == plate {
                            owned.pairs = u8::try_from(pairs).unwrap_or(owned.pairs);
                        }
                        owned.plate != plate || pairs > 0
                    });
                })
            });
        error.set(outcome.err());
    });
    let unit = app.unit_now();
    let name = format!("{} {}", plate.show(unit), unit.symbol());
    view! {
        <TypedField
            label=name
            id=format!("plate-{}", plate.grams())
            value=value
            error=error
            on_typed=typed
            unit=Signal::stored(Some(words::PAIRS.to_owned()))
        />
    }
}

/// First, step and last of a rack or stack. A listed rack is shown as it is.
#[component]
fn StepFields(
    id: &'static str,
    title: &'static str,
    read: fn(&Kit) -> &Steps,
    write: fn(&mut Kit, Steps),
) -> impl IntoView {
    let app = App::here();
    let listed = move || {
        app.kit_text(|kit, unit| match read(kit) {
            Steps::Even { .. } => String::new(),
            Steps::Listed(loads) => loads
                .iter()
                .map(|load| load.show(unit))
                .collect::<Vec<_>>()
                .join(", "),
        })
    };
    let fields = [
        (words::FIRST, "first", 0_usize),
        (words::STEP, "step", 1),
        (words::LAST, "last", 2),
    ];
    view! {
        <section class="card">
            <h2>{title}</h2>
            <p class="soft small">{listed}</p>
            <div class="fields">
                {fields
                    .into_iter()
                    .map(|(label, part, which)| {
                        view! {
                            <StepField id=format!("{id}-{part}") label which read write />
                        }
                    })
                    .collect_view()}
            </div>
        </section>
    }
}

#[component]
fn StepField(
    id: String,
    label: &'static str,
    which: usize,
    read: fn(&Kit) -> &Steps,
    write: fn(&mut Kit, Steps),
) -> impl IntoView {
    let app = App::here();
    let error = RwSignal::new(None::<String>);
    let parts = move |kit: &Kit| match read(kit) {
        Steps::Even { first, step, last } => [*first, *step, *last],
        Steps::Listed(loads) => {
            let first = loads.first().copied().unwrap_or_default();
            let last = loads.last().copied().unwrap_or_default();
            [first, Load::ZERO, last]
        }
    };
    let value = Signal::derive(move || app.kit_text(|kit, unit| parts(kit)[which].show(unit)));
    let typed = Callback::new(move |text: String| {
        let outcome = Load::parse(&text, app.unit())
            .map_err(|e| errors::number(&e))
            .and_then(|load| {
                app.change_kit(|kit| {
                    let mut parts = parts(kit);
                    parts[which] = load;
                    let [first, step, last] = parts;
                    write(kit, Steps::Even { first, step, last });
                })
            });
        error.set(outcome.err());
    });
    view! {
        <TypedField
            label=label
            id=id
            value=value
            error=error
            on_typed=typed
            unit=Signal::derive(move || Some(app.unit().symbol().to_owned()))
        />
    }
}
