//! Minus and plus around a number that can also be typed.

use super::field::select_all;
use leptos::prelude::*;

/// A number with a big button on each side. The part knows no units and does
/// no sums: what less, more and a typed text mean is the caller's.
#[component]
pub fn Stepper(
    /// What the number is, for the label and for a screen reader.
    #[prop(into)]
    label: Signal<String>,
    /// Stable id of the text field.
    id: &'static str,
    /// The number as text.
    #[prop(into)]
    value: Signal<String>,
    /// Unit or noun behind the number.
    #[prop(into)]
    unit: Signal<String>,
    /// What is wrong with the typed text.
    #[prop(into)]
    error: Signal<Option<String>>,
    /// One step down.
    on_less: Callback<()>,
    /// One step up.
    on_more: Callback<()>,
    /// Text was typed.
    on_typed: Callback<String>,
    /// Spoken name of the minus button.
    #[prop(into)]
    less_name: Signal<String>,
    /// Spoken name of the plus button.
    #[prop(into)]
    more_name: Signal<String>,
    /// A smaller one, for pages with many.
    #[prop(optional)]
    small: bool,
) -> impl IntoView {
    let error_id = format!("{id}-error");
    let described = {
        let error_id = error_id.clone();
        move || error.get().is_some().then(|| error_id.clone())
    };
    view! {
        <div class="stepper-field">
            <div class="stepper" class:stepper--small=small>
                <button
                    type="button"
                    class="stepper__turn"
                    aria-label=less_name
                    on:click=move |_| on_less.run(())
                >
                    "\u{2212}"
                </button>
                <div class="stepper__value">
                    <span class="stepper__name">
                        <label class="stepper__label" for=id>{label}</label>
                        <span class="stepper__unit">{unit}</span>
                    </span>
                    <input
                        class="stepper__input"
                        id=id
                        type="text"
                        inputmode="decimal"
                        autocomplete="off"
                        enterkeyhint="done"
                        prop:value=value
                        aria-invalid=move || error.get().is_some().then_some("true")
                        aria-describedby=described
                        on:focus=select_all
                        on:change=move |event| on_typed.run(event_target_value(&event))
                    />
                </div>
                <button
                    type="button"
                    class="stepper__turn"
                    aria-label=more_name
                    on:click=move |_| on_more.run(())
                >
                    "+"
                </button>
            </div>
            {move || {
                error
                    .get()
                    .map(|text| view! { <p class="field__error" id=error_id.clone() role="alert">{text}</p> })
            }}
        </div>
    }
}
