//! The loom: the week as cloth. A thread for each muscle, a column for each
//! day, a knot where a session trains it, the growth window drawn out behind.
//! The same numbers stand in a table behind the picture.

use crate::state::App;
use crate::text::{dates, reasons, terms, words};
use leptos::prelude::*;
use weekloom_engine::calendar::Weekday;
use weekloom_engine::loom::{Crossing, loom};
use weekloom_store::AcceptedPlan;

/// Width of the names, height of a thread, in the picture's own units.
const NAMES: f64 = 92.0;
const WIDTH: f64 = 340.0;
const THREAD: f64 = 22.0;
const HEAD: f64 = 20.0;

/// The loom of a plan.
#[component]
pub fn Loom(plan: Signal<Option<AcceptedPlan>>) -> impl IntoView {
    let app = App::here();
    let threads = Memo::new(move |_| {
        plan.with(|plan| {
            plan.as_ref()
                .map(|p| loom(&app.catalogue(), &p.plan, &p.weekdays))
                .unwrap_or_default()
        })
    });
    move || {
        let threads = threads.get();
        #[expect(clippy::cast_precision_loss, reason = "a few rows of a picture")]
        let height = HEAD + THREAD * threads.len() as f64 + 4.0;
        let columns = Weekday::ALL.iter().map(|&day| {
            view! {
                <text class="loom__day" x=x_of(day, 12.0) y="13" text-anchor="middle">
                    {dates::weekday_short(day)}
                </text>
            }
        });
        let rows = threads.iter().enumerate().map(|(row, thread)| {
            #[expect(clippy::cast_precision_loss, reason = "a few rows of a picture")]
            let y = HEAD + THREAD * row as f64 + THREAD / 2.0;
            let windows = thread.crossings.iter().map(move |crossing| {
                view! {
                    <line
                        class="loom__window"
                        x1=x_of(crossing.weekday, 12.0)
                        x2=(x_of(crossing.weekday, 12.0) + hours(crossing)).min(WIDTH)
                        y1=y
                        y2=y
                    />
                }
            });
            let knots = thread.crossings.iter().map(move |crossing| {
                view! {
                    <circle
                        class="loom__knot"
                        cx=x_of(crossing.weekday, 12.0)
                        cy=y
                        r=radius(crossing)
                    />
                }
            });
            view! {
                <text class="loom__name" x="0" y=y + 4.0>
                    {terms::muscle(thread.muscle)}
                </text>
                <line class="loom__thread" x1=NAMES x2=WIDTH y1=y y2=y />
                {windows.collect_view()}
                {knots.collect_view()}
            }
        });
        let table_rows = threads.iter().map(|thread| {
            let days = thread
                .crossings
                .iter()
                .map(|c| {
                    format!(
                        "{} {}",
                        dates::weekday_short(c.weekday),
                        reasons::half_sets(c.half_sets)
                    )
                })
                .collect::<Vec<_>>()
                .join(", ");
            view! {
                <tr>
                    <th scope="row">{terms::muscle(thread.muscle)}</th>
                    <td>{reasons::half_sets(thread.half_sets)}</td>
                    <td>{days}</td>
                </tr>
            }
        });
        view! {
            <figure class="loom">
                <svg viewBox=format!("0 0 {WIDTH} {height}") aria-hidden="true">
                    {columns.collect_view()}
                    {rows.collect_view()}
                </svg>
                <details class="more">
                    <summary>{words::LOOM_TABLE}</summary>
                    <table>
                        <thead>
                            <tr>
                                <th scope="col">{words::MUSCLE}</th>
                                <th scope="col">{words::WEEKLY_SETS}</th>
                                <th scope="col">{words::ON_DAYS}</th>
                            </tr>
                        </thead>
                        <tbody>{table_rows.collect_view()}</tbody>
                    </table>
                </details>
            </figure>
        }
    }
}

/// Where a weekday's hour lies across the picture.
fn x_of(day: Weekday, hour: f64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "an index below 7")]
    let days = day.index() as f64 + hour / 24.0;
    NAMES + (WIDTH - NAMES) * days / 7.0
}

/// Length of the growth window across the picture.
fn hours(crossing: &Crossing) -> f64 {
    (WIDTH - NAMES) * f64::from(crossing.window_h) / (7.0 * 24.0)
}

/// A knot's area grows with its sets.
fn radius(crossing: &Crossing) -> f64 {
    2.0 + 1.7 * f64::from(crossing.half_sets).sqrt()
}
