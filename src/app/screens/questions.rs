//! Questions about the person, asked at the first opening and again under the
//! plan: days, experience, muscles to bring up, joints to spare.

use crate::parts::{Choice, ChoiceGroup, TickGroup};
use crate::text::{dates, terms, words};
use leptos::prelude::*;
use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::{JointDemand, Muscle};
use weekloom_engine::person::{Person, Priority, Status};

/// More than this and nothing is a priority.
const MOST_PRIORITIES: usize = 3;

/// Muscles offered: those people ask for. The small stabilisers follow along.
const OFFERED: [Muscle; 14] = [
    Muscle::Chest,
    Muscle::Lats,
    Muscle::UpperBack,
    Muscle::FrontDelts,
    Muscle::SideDelts,
    Muscle::RearDelts,
    Muscle::Biceps,
    Muscle::Triceps,
    Muscle::Forearms,
    Muscle::Abdominals,
    Muscle::Glutes,
    Muscle::Quadriceps,
    Muscle::Hamstrings,
    Muscle::Calves,
];

fn wanted(person: &Person) -> Vec<Muscle> {
    person
        .priorities
        .iter()
        .filter(|(_, priority)| **priority == Priority::More)
        .map(|(&muscle, _)| muscle)
        .collect()
}

/// Up to three muscles to bring up.
#[component]
pub fn PriorityWishes(person: RwSignal<Person>) -> impl IntoView {
    let options = OFFERED
        .iter()
        .map(|&m| Choice::plain(m.slug(), terms::muscle(m)))
        .collect::<Vec<_>>();
    let toggle = Callback::new(move |value: String| {
        let Some(muscle) = Muscle::from_slug(&value) else {
            return;
        };
        person.update(|p| {
            if p.priorities.get(&muscle) == Some(&Priority::More) {
                p.priorities.remove(&muscle);
            } else if wanted(p).len() < MOST_PRIORITIES {
                p.priorities.insert(muscle, Priority::More);
            }
        });
    });
    view! {
        <TickGroup
            legend=words::BRING_UP
            options=Signal::stored(options)
            ticked=Signal::derive(move || {
                person.with(|p| wanted(p).iter().map(|m| m.slug().to_owned()).collect())
            })
            on_toggle=toggle
        />
    }
}

/// Joint demands to avoid.
#[component]
pub fn JointWishes(person: RwSignal<Person>) -> impl IntoView {
    let options = JointDemand::ALL
        .iter()
        .map(|&j| Choice::plain(j.slug(), terms::joint(j)))
        .collect::<Vec<_>>();
    let toggle = Callback::new(move |value: String| {
        if let Some(joint) = JointDemand::from_slug(&value) {
            person.update(|p| {
                if !p.joint_limits.remove(&joint) {
                    p.joint_limits.insert(joint);
                }
            });
        }
    });
    view! {
        <TickGroup
            legend=words::SPARE
            options=Signal::stored(options)
            ticked=Signal::derive(move || {
                person.with(|p| p.joint_limits.iter().map(|j| j.slug().to_owned()).collect())
            })
            on_toggle=toggle
        />
    }
}

/// Weekdays to train on.
#[component]
pub fn DaysQuestion(person: RwSignal<Person>) -> impl IntoView {
    let days = Weekday::ALL
        .iter()
        .map(|&day| Choice::plain(&day.index().to_string(), dates::weekday_short(day)))
        .collect::<Vec<_>>();
    view! {
        <TickGroup
            legend=words::WHICH_DAYS
            options=Signal::stored(days)
            ticked=Signal::derive(move || {
                person.with(|p| p.days.iter().map(|d| d.index().to_string()).collect())
            })
            on_toggle=Callback::new(move |value: String| {
                if let Ok(index) = value.parse::<usize>() {
                    person.update(|p| toggle_day(&mut p.days, Weekday::from_index(index)));
                }
            })
            as_week=true
        />
    }
}

/// Ticks or unticks a weekday, keeping the week's order.
fn toggle_day(days: &mut Vec<Weekday>, day: Weekday) {
    if let Some(at) = days.iter().position(|&d| d == day) {
        days.remove(at);
    } else {
        days.push(day);
        days.sort_unstable();
    }
}

/// Training status, and whether sixty-five or older.
#[component]
pub fn StatusQuestion(person: RwSignal<Person>) -> impl IntoView {
    let statuses = Status::ALL
        .iter()
        .map(|&status| {
            let (name, more) = terms::status(status);
            Choice {
                value: status.slug().to_owned(),
                name: name.to_owned(),
                more: more.to_owned(),
            }
        })
        .collect::<Vec<_>>();
    view! {
        <ChoiceGroup
            legend=words::EXPERIENCE
            name="status"
            options=Signal::stored(statuses)
            chosen=Signal::derive(move || person.with(|p| p.status.slug().to_owned()))
            on_choose=Callback::new(move |value: String| {
                if let Some(status) = Status::from_slug(&value) {
                    person.update(|p| p.status = status);
                }
            })
        />
        <label class="tick">
            <input
                type="checkbox"
                prop:checked=move || person.with(|p| p.is_older)
                on:change=move |event| {
                    let is_older = event_target_checked(&event);
                    person.update(|p| p.is_older = is_older);
                }
            />
            {words::OLDER}
        </label>
    }
}
