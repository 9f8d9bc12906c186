//! Away for longer: a pause, and days with other equipment.

use super::{card, page, page_head_under, soft, soft_live};
use crate::held::Held;
use crate::markup::{Tag, View, button, live, tag};
use crate::parts::{Choice, ChoiceGroup, refusal};
use crate::route::{self, Route};
use crate::state::App;
use crate::text::{course, errors, terms, words};
use std::rc::Rc;
use weekloom_engine::calendar::Day;
use weekloom_engine::presets::KitPreset;
use weekloom_engine::schedule::repair::{Effect, travel};
use weekloom_engine::schedule::{Pause, Travel};

/// Pause and travel.
pub fn away() -> View {
    let app = App::here();
    page(page_head_under(&Route::Week, words::AWAY))
        .with(pause(app))
        .with(journey(app))
        .into()
}

/// A day to choose, from tomorrow on.
fn until(app: App, id: &'static str, label: &'static str, day: Held<Day>) -> Tag {
    let today = app.today.get_untracked();
    let input = tag("input", "input")
        .attr("id", id)
        .attr("type", "date")
        .attr("min", today.plus(1).to_string())
        .value(Box::new(move || day.get().to_string().into()))
        .on_typed(move |text| {
            let wanted = Day::parse(&text).filter(|wanted| *wanted > today);
            // A day gone by, or none: back to what stood there.
            day.set(wanted.unwrap_or_else(|| day.get_untracked()));
        });
    tag("div", "field")
        .with(tag("label", "field__label").attr("for", id).with(label))
        .with(input)
}

fn pause(app: App) -> Tag {
    let today = app.today.get_untracked();
    let day = Held::new(today.plus(7));
    let begin = move || {
        let pause = Pause {
            from: app.today.get_untracked(),
            resume: day.get_untracked(),
        };
        app.repair(&|repairs| repairs.pause = Some(pause));
        route::replace(&Route::Week);
    };
    let pausing = move || {
        app.plan
            .with(|p| p.as_ref()?.repairs.pause.filter(|p| p.resume > today))
    };
    card(words::PAUSE_TRAINING)
        .with(soft(words::PAUSE_TRAINING_MORE))
        .with(live(move || match pausing() {
            Some(pause) => tag("div", "stack")
                .with(tag("p", "").with(course::paused(pause.resume, today)))
                .with(button("button button--wide", words::END_PAUSE, move || {
                    app.repair(&|repairs| repairs.pause = None);
                })),
            None => tag("div", "stack")
                .with(until(app, "resume", words::TRAIN_AGAIN_ON, day))
                .with(button("button button--wide", words::PAUSE_NOW, begin)),
        }))
}

fn journey(app: App) -> Tag {
    let today = app.today.get_untracked();
    let day = Held::new(today.plus(7));
    let preset = Held::new(KitPreset::ALL[KitPreset::ALL.len() - 1]);
    let error = Held::new(None);
    let planned = move |preset: KitPreset| -> Option<Result<(Travel, Effect), String>> {
        let (accepted, person) = (app.plan.get_untracked()?, app.person.get_untracked()?);
        let kit = preset.kit(person.unit);
        let days = (app.today.get_untracked(), day.get_untracked());
        let found = travel(app.catalogue(), &person, &accepted.plan, &kit, days);
        Some(found.map_err(|refused| errors::plan(&refused)))
    };
    let begin = move || match planned(preset.get_untracked()) {
        Some(Ok((journey, _))) => {
            app.repair(&|repairs| repairs.travel = Some(journey.clone()));
            route::replace(&Route::Week);
        }
        Some(Err(refused)) => error.set(Some(refused)),
        None => {}
    };
    let options = || {
        let choice = |preset: &KitPreset| {
            let (name, more) = terms::kit(*preset);
            Choice::new(preset.slug(), name, more)
        };
        KitPreset::ALL.iter().map(choice).collect()
    };
    let back = move || {
        app.plan
            .with(|p| Some(p.as_ref()?.repairs.travel.as_ref()?.back).filter(|back| *back > today))
    };
    let form = move || {
        let group = ChoiceGroup {
            legend: words::WITH_WHAT,
            name: "journey",
            options: Rc::new(options),
            chosen: Rc::new(move || preset.get().slug().into()),
            on_choose: Rc::new(move |value| {
                if let Some(chosen) = KitPreset::from_slug(value) {
                    error.set(None);
                    preset.set(chosen);
                }
            }),
            is_chips: false,
        };
        let effect = soft_live(move || match planned(preset.get())? {
            Ok((_, effect)) => Some(course::journey(&effect)),
            Err(refused) => Some(refused),
        });
        tag("div", "stack")
            .with(group)
            .with(until(app, "back", words::BACK_ON, day))
            .with(effect)
            .with(refusal(error))
            .with(button("button button--wide", words::PLAN_JOURNEY, begin))
    };
    card(words::TRAVEL)
        .with(soft(words::TRAVEL_MORE))
        .with(live(move || match back() {
            Some(back) => tag("div", "stack")
                .with(tag("p", "").with(course::away(back, today)))
                .with(button(
                    "button button--wide",
                    words::END_TRAVEL,
                    move || {
                        app.repair(&|repairs| repairs.travel = None);
                    },
                )),
            None => form(),
        }))
}
