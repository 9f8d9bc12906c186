//! Labelled fields: typed values, one of several, any of several.

use leptos::prelude::*;

/// One thing to choose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// Stable value.
    pub value: String,
    /// Name shown.
    pub name: String,
    /// A second, softer line; may be empty.
    pub more: String,
}

impl Choice {
    /// A choice with a name only.
    #[must_use]
    pub fn plain(value: &str, name: &str) -> Self {
        Self {
            value: value.to_owned(),
            name: name.to_owned(),
            more: String::new(),
        }
    }
}

/// Typing replaces the number: nobody wants to delete digits with a thumb, and
/// a 9 typed beside an 8 must not be logged as 89.
pub(super) fn select_all(event: web_sys::FocusEvent) {
    event_target::<web_sys::HtmlInputElement>(&event).select();
}

/// A text field with its label, hint and error. `on_typed` runs when the
/// person leaves the field.
#[component]
pub fn TypedField(
    /// Label.
    #[prop(into)]
    label: String,
    /// Stable id.
    #[prop(into)]
    id: String,
    /// Present value as text.
    #[prop(into)]
    value: Signal<String>,
    /// What is wrong with what was typed.
    #[prop(into)]
    error: Signal<Option<String>>,
    /// Text was typed.
    on_typed: Callback<String>,
    /// Unit behind the field.
    #[prop(into, optional)]
    unit: MaybeProp<String>,
    /// Softer line below the label.
    #[prop(into, optional)]
    hint: Option<String>,
) -> impl IntoView {
    let error_id = format!("{id}-error");
    let described = {
        let error_id = error_id.clone();
        move || error.get().is_some().then(|| error_id.clone())
    };
    view! {
        <div class="field">
            <label class="field__label" for=id.clone()>{label}</label>
            {hint.map(|hint| view! { <p class="field__hint">{hint}</p> })}
            <div class="with-unit">
                <input
                    class="input input--short"
                    id=id
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    prop:value=value
                    aria-invalid=move || error.get().is_some().then_some("true")
                    aria-describedby=described
                    on:focus=select_all
                    on:change=move |event| on_typed.run(event_target_value(&event))
                />
                {move || unit.get().map(|unit| view! { <span class="soft">{unit}</span> })}
            </div>
            {move || {
                error
                    .get()
                    .map(|text| view! { <p class="field__error" id=error_id.clone() role="alert">{text}</p> })
            }}
        </div>
    }
}

/// One of several, each a block with a second line, or chips in a row.
#[component]
pub fn ChoiceGroup(
    /// What is chosen.
    #[prop(into)]
    legend: String,
    /// Name of the radio group.
    name: &'static str,
    /// The choices.
    #[prop(into)]
    options: Signal<Vec<Choice>>,
    /// Value chosen.
    #[prop(into)]
    chosen: Signal<String>,
    /// A choice was made.
    on_choose: Callback<String>,
    /// Chips in a row instead of blocks.
    #[prop(optional)]
    chips: bool,
) -> impl IntoView {
    view! {
        <fieldset class="group">
            <legend>{legend}</legend>
            <div class=if chips { "chips" } else { "stack" }>
                <For each=move || options.get() key=|o| (o.value.clone(), o.name.clone()) let:option>
                    {
                        let value = option.value.clone();
                        let is_chosen = {
                            let value = value.clone();
                            move || chosen.get() == value
                        };
                        let more = (!option.more.is_empty())
                            .then(|| view! { <span>{option.more.clone()}</span> });
                        view! {
                            <label class=if chips { "chip chip--grow" } else { "choice" }>
                                <input
                                    type="radio"
                                    name=name
                                    value=value.clone()
                                    prop:checked=is_chosen
                                    on:change={
                                        let value = value.clone();
                                        move |_| on_choose.run(value.clone())
                                    }
                                />
                                <strong>{option.name.clone()}</strong>
                                {more}
                            </label>
                        }
                    }
                </For>
            </div>
        </fieldset>
    }
}

/// Any of several, as chips.
#[component]
pub fn TickGroup(
    /// What is chosen.
    #[prop(into)]
    legend: String,
    /// The choices.
    #[prop(into)]
    options: Signal<Vec<Choice>>,
    /// Values ticked.
    #[prop(into)]
    ticked: Signal<Vec<String>>,
    /// A value was ticked or unticked.
    on_toggle: Callback<String>,
    /// Seven in one row.
    #[prop(optional)]
    as_week: bool,
) -> impl IntoView {
    view! {
        <fieldset class="group">
            <legend>{legend}</legend>
            <div class="chips" class:chips--week=as_week>
                <For each=move || options.get() key=|o| (o.value.clone(), o.name.clone()) let:option>
                    {
                        let value = option.value.clone();
                        let is_ticked = {
                            let value = value.clone();
                            move || ticked.get().contains(&value)
                        };
                        view! {
                            <label class="chip">
                                <input
                                    type="checkbox"
                                    value=value.clone()
                                    prop:checked=is_ticked
                                    on:change=move |_| on_toggle.run(value.clone())
                                />
                                {option.name.clone()}
                            </label>
                        }
                    }
                </For>
            </div>
        </fieldset>
    }
}
