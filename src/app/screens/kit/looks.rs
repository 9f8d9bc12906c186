//! Units and appearance.

use crate::parts::{Choice, ChoiceGroup};
use crate::route::{KitPage, Route};
use crate::screens::PageHead;
use crate::state::App;
use crate::text::words;
use leptos::prelude::*;
use weekloom_engine::units::Unit;
use weekloom_store::{Screen, Sound, Theme};

/// Units, theme, tone, screen.
#[component]
pub fn Looks() -> impl IntoView {
    let app = App::here();
    let themes = vec![
        Choice::plain("auto", words::THEME_AUTO),
        Choice::plain("light", words::THEME_LIGHT),
        Choice::plain("dark", words::THEME_DARK),
    ];
    let units = vec![Choice::plain("kg", "kg"), Choice::plain("lb", "lb")];
    view! {
        <main class="page">
            <PageHead
                title=Signal::stored(words::LOOKS.to_owned())
                back=Route::Kit(KitPage::Index)
            />
            <section class="card stack--wide">
                <ChoiceGroup
                    legend=words::LOADS_IN
                    name="unit"
                    options=Signal::stored(units)
                    chosen=Signal::derive(move || app.unit().symbol().to_owned())
                    on_choose=Callback::new(move |value: String| {
                        if let Some(mut person) = app.person.get_untracked() {
                            person.unit = if value == "lb" { Unit::Lb } else { Unit::Kg };
                            app.set_person(person);
                        }
                    })
                    chips=true
                />
                <p class="soft small">{words::UNIT_MORE}</p>
                <ChoiceGroup
                    legend=words::THEME
                    name="theme"
                    options=Signal::stored(themes)
                    chosen=Signal::derive(move || {
                        match app.settings.get().theme {
                            Theme::Auto => "auto",
                            Theme::Light => "light",
                            Theme::Dark => "dark",
                        }
                            .to_owned()
                    })
                    on_choose=Callback::new(move |value: String| {
                        app.change_settings(|s| {
                            s.theme = match value.as_str() {
                                "light" => Theme::Light,
                                "dark" => Theme::Dark,
                                _ => Theme::Auto,
                            };
                        });
                    })
                    chips=true
                />
                <label class="tick">
                    <input
                        type="checkbox"
                        prop:checked=move || app.settings.get().sound == Sound::On
                        on:change=move |event| {
                            let is_on = event_target_checked(&event);
                            app.change_settings(|s| {
                                s.sound = if is_on { Sound::On } else { Sound::Off };
                            });
                        }
                    />
                    {words::SOUND}
                </label>
                <label class="tick">
                    <input
                        type="checkbox"
                        prop:checked=move || app.settings.get().screen == Screen::StaysOn
                        on:change=move |event| {
                            let is_on = event_target_checked(&event);
                            app.change_settings(|s| {
                                s.screen = if is_on { Screen::StaysOn } else { Screen::MayDim };
                            });
                        }
                    />
                    {words::SCREEN}
                </label>
                <p class="soft small">{words::REST_HINT}</p>
            </section>
        </main>
    }
}
