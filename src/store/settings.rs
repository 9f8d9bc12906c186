//! What the app keeps beside person and log: settings, and the plan with the
//! days it was accepted for.
//!
//! Start at [`Settings`] and [`AcceptedPlan`].

use weekloom_engine::calendar::{Day, Weekday};
use weekloom_engine::plan::Plan;
use weekloom_engine::progress::DeloadAnswer;
use weekloom_engine::schedule::Repairs;

/// Light, dark, or what the phone says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Theme {
    /// What the phone says.
    #[default]
    Auto,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

/// The hand that holds the phone; steppers and buttons lean to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Hand {
    /// Right.
    #[default]
    Right,
    /// Left.
    Left,
}

/// Whether the end of a rest is heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sound {
    /// A short tone.
    #[default]
    On,
    /// Nothing.
    Off,
}

/// Whether the platform shows a notice at the end of a rest while another
/// program is in front.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Notice {
    /// None.
    #[default]
    Off,
    /// One, where the browser allows it.
    On,
}

/// Whether the screen stays lit during a session.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Screen {
    /// It stays lit where the browser allows it.
    #[default]
    StaysOn,
    /// As the phone has it.
    MayDim,
}

/// How the app looks and behaves.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Settings {
    /// Light or dark.
    pub theme: Theme,
    /// Left- or right-handed.
    pub hand: Hand,
    /// Tone at the end of a rest.
    pub sound: Sound,
    /// Notice at the end of a rest.
    pub notice: Notice,
    /// Screen during a session.
    pub screen: Screen,
    /// The day the cautions were read; `None` until then.
    pub cautions_read: Option<Day>,
    /// The day of the last backup file; `None` when there was none.
    pub backed_up: Option<Day>,
    /// What was said to the last proposal of a lighter week.
    pub deload: Option<DeloadAnswer>,
}

/// A plan the person trains by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AcceptedPlan {
    /// The plan, the person's own edits included.
    pub plan: Plan,
    /// The day from which it counts.
    pub accepted: Day,
    /// The weekdays its sessions are placed on, ascending, without repeats.
    pub weekdays: Vec<Weekday>,
    /// What was chosen for days that went otherwise.
    pub repairs: Repairs,
}
