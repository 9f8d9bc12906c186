//! Questions about the person, asked at the first opening and again under the
//! plan: days, experience, muscles to bring up, joints to spare.

use crate::held::Held;
use crate::markup::View;
use crate::parts::{Choice, ChoiceGroup, TickGroup, tick};
use crate::text::{dates, terms, words};
use std::rc::Rc;
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
pub fn priority_wishes(person: Held<Person>) -> TickGroup {
    let options = || {
        let choice = |&m: &Muscle| Choice::plain(m.slug(), terms::muscle(m));
        OFFERED.iter().map(choice).collect()
    };
    let toggle = move |value: &str| {
        let Some(muscle) = Muscle::from_slug(value) else {
            return;
        };
        person.update(|p| {
            if p.priorities.get(&muscle) == Some(&Priority::More) {
                p.priorities.remove(&muscle);
            } else if wanted(p).len() < MOST_PRIORITIES {
                p.priorities.insert(muscle, Priority::More);
            }
        });
    };
    TickGroup {
        legend: words::BRING_UP,
        options: Rc::new(options),
        is_ticked: Rc::new(move |value| {
            person.with(|p| wanted(p).iter().any(|m| m.slug() == value))
        }),
        on_toggle: Rc::new(toggle),
        is_week: false,
    }
}

/// Joint demands to avoid.
pub fn joint_wishes(person: Held<Person>) -> TickGroup {
    let options = || {
        let choice = |&j: &JointDemand| Choice::plain(j.slug(), terms::joint(j));
        JointDemand::ALL.iter().map(choice).collect()
    };
    let toggle = move |value: &str| {
        if let Some(joint) = JointDemand::from_slug(value) {
            person.update(|p| {
                if !p.joint_limits.remove(&joint) {
                    p.joint_limits.insert(joint);
                }
            });
        }
    };
    TickGroup {
        legend: words::SPARE,
        options: Rc::new(options),
        is_ticked: Rc::new(move |value| {
            person.with(|p| p.joint_limits.iter().any(|j| j.slug() == value))
        }),
        on_toggle: Rc::new(toggle),
        is_week: false,
    }
}

/// Weekdays to train on.
pub fn days_question(person: Held<Person>) -> TickGroup {
    let options = || {
        let choice =
            |&day: &Weekday| Choice::plain(day.index().to_string(), dates::weekday_short(day));
        dates::weekdays().iter().map(choice).collect()
    };
    let day_of = |value: &str| value.parse().ok().map(Weekday::from_index);
    TickGroup {
        legend: words::WHICH_DAYS,
        options: Rc::new(options),
        is_ticked: Rc::new(move |value| {
            person.with(|p| day_of(value).is_some_and(|day| p.days.contains(&day)))
        }),
        on_toggle: Rc::new(move |value| {
            if let Some(day) = day_of(value) {
                person.update(|p| toggle_day(&mut p.days, day));
            }
        }),
        is_week: true,
    }
}

/// Ticks or unticks a weekday, keeping the week's order.
pub fn toggle_day(days: &mut Vec<Weekday>, day: Weekday) {
    if let Some(at) = days.iter().position(|&d| d == day) {
        days.remove(at);
    } else {
        let at = days.iter().take_while(|&&d| d < day).count();
        days.insert(at, day);
    }
}

/// Training status, and whether sixty-five or older.
pub fn status_question(person: Held<Person>) -> View {
    let statuses = || {
        let choice = |&status: &Status| {
            let (name, more) = terms::status(status);
            Choice::new(status.slug(), name, more)
        };
        Status::ALL.iter().map(choice).collect()
    };
    let experience = ChoiceGroup {
        legend: words::EXPERIENCE,
        name: "status",
        options: Rc::new(statuses),
        chosen: Rc::new(move || person.with(|p| p.status.slug().into())),
        on_choose: Rc::new(move |value| {
            if let Some(status) = Status::from_slug(value) {
                person.update(|p| p.status = status);
            }
        }),
        is_chips: false,
    };
    let older = tick(
        words::OLDER,
        move || person.with(|p| p.is_older),
        move |is_older| person.update(|p| p.is_older = is_older),
    );
    vec![experience.into(), older.into()].into()
}
