//! What stands beside every edit: the week, checked, with a mend for each
//! finding, and the way back.

use crate::editing::Way;
use crate::markup::{Tag, View, button, live, nothing, tag, when};
use crate::route::{self, Route};
use crate::screens::soft_small;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{edits, reasons, words};
use weekloom_engine::audit::{audit, mends};
use weekloom_engine::plan::Edit;

/// Findings shown before the rest is folded away.
const SHOWN: usize = 3;

/// A card in the background.
pub fn quiet_card(title: &'static str) -> Tag {
    tag("section", "card card--quiet").with(tag("h2", "").with(title))
}

/// The audit of the plan as it stands, edits included.
pub fn checked() -> Tag {
    quiet_card(words::CHECKED).with(live(findings))
}

fn findings() -> View {
    let app = App::here();
    let (Some(accepted), Some(person)) = (app.plan.get(), app.person.get()) else {
        return nothing();
    };
    let plan = &accepted.plan;
    if plan.days.iter().all(|day| day.items.is_empty()) {
        return tag("p", "").with(words::FILL_FIRST).into();
    }
    let audit = audit(app.catalogue(), &person, plan);
    let mends = mends(app.catalogue(), &person, plan, &audit);
    let name_in = |key| app.name_in(plan, key).into_owned();
    let name_of = |id: &_| app.name_of(id);
    let mut lines = Vec::new();
    let mut offered: Vec<Edit> = Vec::new();
    for (finding, mend) in audit.findings.iter().zip(mends) {
        let way_out: Option<Tag> = mend.map(|mend| {
            if offered.contains(&mend.edit) {
                return soft_small(words::SAME_MEND);
            }
            offered.push(mend.edit.clone());
            let name = tag("strong", "").with(edits::mend(&mend, plan, &name_of));
            let more = tag("span", "small").with(edits::changes(&mend));
            button("button mend", name, move || {
                // What the engine proposes it also takes.
                let _ = app.edit(&mend.edit);
            })
            .with(more)
        });
        let line = tag("li", "stack")
            .with(tag("p", "").with(reasons::finding(finding, name_in)))
            .with(way_out);
        lines.push(line.into());
    }
    let count = lines.len();
    let rest: Vec<View> = lines.drain(SHOWN.min(count)..).collect();
    let more = (!rest.is_empty()).then(|| {
        tag("details", "more")
            .with(tag("summary", "").with(words::more_findings(rest.len())))
            .with(tag("ul", "stack stack--wide").with(rest))
    });
    let said = tag("p", "").attr("role", "status");
    let said = said.with(match count {
        0 => tr(words::NOTHING_OFF).to_owned(),
        count => words::findings(count),
    });
    let list = (count > 0).then(|| tag("ul", "stack stack--wide").with(lines));
    vec![said.into(), list.into(), more.into()].into()
}

/// Undo and redo of edits of the plan, named, while there is something to undo
/// or redo.
pub fn way_back() -> View {
    let app = App::here();
    let next = move |way| app.steps.with(|steps| steps.next(way).map(str::to_owned));
    steps("undo", next, move |way| app.go(way))
}

/// The same for one's own cycles. Where the one that is shown is gone with it, to
/// what is left.
pub fn way_back_among_cycles() -> View {
    let app = App::here();
    let go = move |way| {
        app.go_among_cycles(way);
        let days = |id: &str| {
            app.person.with_untracked(|person| {
                let mut own = person.iter().flat_map(|p| &p.own_splits);
                own.find(|own| own.split.id.as_str() == id)
                    .map(|own| own.split.days.len())
            })
        };
        if let Route::PlanCycle(id) | Route::PlanCycleDay(id, _) = app.route.get_untracked() {
            match (days(&id), app.route.get_untracked()) {
                (None, _) => route::replace(&Route::PlanCycles),
                (Some(days), Route::PlanCycleDay(_, day)) if usize::from(day) >= days => {
                    route::replace(&Route::PlanCycle(id));
                }
                _ => {}
            }
        }
    };
    // At the end of the page: over it, it would lie on the small buttons of places.
    steps("undo undo--still", move |way| app.next_cycle_step(way), go)
}

fn steps(
    class: &'static str,
    next: impl Fn(Way) -> Option<String> + Copy + 'static,
    go: impl Fn(Way) + Copy + 'static,
) -> View {
    let is_any = move || next(Way::Back).or(next(Way::Forth)).is_some();
    let step = move |way, word: &'static str| {
        let name = live(move || match next(way) {
            Some(name) => words::of(tr(word), &name),
            None => tr(word).to_owned(),
        });
        button("button", tag("span", "").with(name), move || go(way))
            .live("aria-disabled", move || {
                next(way).is_none().then_some("true".into())
            })
    };
    when(is_any, move || {
        tag("div", class)
            .attr("role", "group")
            .attr("aria-label", words::EDITS)
            .with(step(Way::Back, words::UNDO))
            .with(step(Way::Forth, words::REDO))
    })
}
