//! Labels and sentences.

use super::language::{said, tr};
use crate::say;

/// Bar of places.
pub const PLACES: &str = "Places";
/// Today.
pub const TODAY: &str = "Today";
/// Week.
pub const WEEK: &str = "Week";
/// Plan.
pub const PLAN: &str = "Plan";
/// Log.
pub const LOG: &str = "Log";
/// Kit and data.
pub const KIT: &str = "Kit & data";
/// Closes a sheet.
pub const CLOSE: &str = "Close";
/// One step back.
pub const BACK: &str = "Back";
/// While the code of a screen is on its way.
pub const ONE_MOMENT: &str = "One moment…";
/// It did not come: heading.
pub const NOT_FETCHED: &str = "This page did not arrive";
/// What to do then.
pub const NOT_FETCHED_MORE: &str = "It is fetched once and then kept on this device. Find a network and try again; the session works meanwhile.";
/// Fetches it once more.
pub const TRY_AGAIN: &str = "Try again";

// --- Safety -------------------------------------------------------------

/// Heading of the cautions.
pub const CAUTIONS: &str = "Before you lift";
/// What the app is and is not.
pub const CAUTIONS_GENERAL: &str = "Weekloom gives general information. It is not medical advice, and it cannot see you lift. A doctor's or a qualified coach's word comes before anything it says.";
/// Who should ask first.
pub const CAUTIONS_DOCTOR: &str = "See a doctor before you start if you have a known heart, metabolic or kidney disease, if you are pregnant, if you have had surgery or an injury recently, or if any of these happens to you:";
/// Signs and symptoms that call for clearance first (ACSM Guidelines, 10th
/// ed., Table 2.2; Riebe et al. 2015, MSSE 47(11):2473-2479).
pub const CAUTIONS_SIGNS: [&str; 9] = [
    "pain or pressure in chest, neck, jaw or arms",
    "short of breath at rest or with mild effort",
    "dizziness or fainting",
    "short of breath lying down or at night",
    "swollen ankles",
    "a racing or stumbling heartbeat",
    "pain in the legs when walking",
    "a known heart murmur",
    "unusual tiredness with everyday tasks",
];
/// When to stop.
pub const CAUTIONS_STOP: &str = "Stop at once and get help for chest pain, fainting, unusual breathlessness or sharp joint pain.";
/// Heavy lifts.
pub const CAUTIONS_SPOT: &str = "Lift heavy free weights inside safety bars or with a spotter. New lifts are best learned from a coach.";
/// Taps through.
pub const CAUTIONS_READ: &str = "I have read this";

// --- First opening ------------------------------------------------------

/// Name of the app.
pub const NAME: &str = "Weekloom";
/// One sentence on what it does.
pub const PROMISE: &str = "A training week woven from the days, minutes and kit you have. It stays on this phone: no account, no server.";
/// To the next question.
pub const NEXT: &str = "Next";
/// Makes the plan.
pub const WEAVE: &str = "Weave my week";
/// It is being made.
pub const WEAVING: &str = "Weaving\u{2026}";
/// Skips the questions.
pub const SKIP: &str = "Skip the questions";
/// Skips the questions, for those who make their own plan.
pub const SKIP_TO_EDITING: &str = "Skip to editing";
/// What skipping gives.
pub const SKIP_MORE: &str = "Three days, an hour, a full gym. Everything can be edited.";
/// Question.
pub const WHEN: &str = "When can you train?";
/// Question.
pub const WHICH_DAYS: &str = "Days";
/// Question.
pub const HOW_LONG: &str = "Minutes for a session";
/// Unit word.
pub const MIN: &str = "min";
/// Question.
pub const WITH_WHAT: &str = "What can you lift?";
/// Question.
pub const KIT_AT_HAND: &str = "Kit at hand";
/// Question.
pub const LOADS_IN: &str = "Loads in";
/// Question.
pub const ABOUT_YOU: &str = "And you?";
/// Question.
pub const EXPERIENCE: &str = "Lifting so far";
/// Question.
pub const OLDER: &str = "I am 65 or older";
/// Question.
pub const BRING_UP: &str = "Bring up (up to three)";
/// Question.
pub const SPARE: &str = "Spare my joints: avoid";
/// Folds away the optional questions.
pub const WISHES: &str = "Wishes and sore spots";
/// No day was ticked.
pub const NEED_A_DAY: &str = "Tick at least one day.";
/// What a thing is about or whose it is: "Take it back: Friday 27 Nov".
#[must_use]
pub fn of(name: &str, what: &str) -> String {
    say!("{name}: {what}", name, what)
}
/// Step of the questions.
#[must_use]
pub fn step_of(step: usize, of: usize) -> String {
    say!("Question {step} of {of}", step, of)
}

// --- Session --------------------------------------------------------------

/// Starts the session.
pub const START: &str = "Start session";
/// Load stepper.
pub const LOAD: &str = "Load";
/// Help of an assisted exercise.
pub const HELP: &str = "Help from the machine";
/// Reps stepper.
pub const REPS: &str = "Reps";
/// Reps, one-sided.
pub const REPS_EACH: &str = "Reps, each side";
/// Seconds stepper.
pub const SECONDS: &str = "Seconds";
/// What went beyond the last time.
pub const MORE_THAN_LAST: &str = "More than last time";
/// What was done this week.
pub const WEEK_SO_FAR: &str = "This week so far";
/// What was done this week.
pub const WEEK_SO_FAR_MORE: &str = "Done, not planned: a knot for each day, larger with more sets.";
/// Never done, and without a load to choose.
pub const NOT_YET: &str = "not yet";
/// Seconds stepper.
pub const SECONDS_EACH: &str = "Seconds, each side";
/// Starts the clock of a hold.
pub const HOLD: &str = "Time the hold";
/// Stops it.
pub const HOLD_STOP: &str = "Stop the hold";
/// The clock went back during a hold.
pub const HOLD_UNKNOWN: &str = "The clock was set back during the hold. Say how long it was.";
/// Which side first: common practice, no source.
pub const SIDES: &str = "Begin with the weaker side; the other does no more. It counts as one set.";
/// Unit of seconds.
pub const S: &str = "s";
/// Effort question.
pub const EFFORT: &str = "Reps left in you? (optional)";
/// Effort question of a first climb.
pub const EFFORT_CLIMB: &str = "Reps left in you? The next load goes by it";
/// Takes back the last set.
pub const UNDO: &str = "Undo";
/// Why the suggestion.
pub const WHY: &str = "Why this?";
/// Last time.
pub const LAST_TIME: &str = "Last time";
/// Suggestion.
pub const SUGGESTED: &str = "Today";
/// Sheet.
pub const WHOLE_SESSION: &str = "The whole session";
/// Sheet.
pub const SWAP: &str = "Swap";
/// Sheet.
pub const SWAP_FOR: &str = "Swap for";
/// Sheet.
pub const LOAD_UP: &str = "Plates & warm-up";
/// Sheet for loads without plates.
pub const WARM_UP: &str = "Warm-up";
/// Sheet.
pub const MORE: &str = "More";
/// Finish early or on time.
pub const FINISH: &str = "Finish session";
/// All sets done.
pub const ALL_DONE: &str = "All sets are done";
/// Rest.
pub const REST: &str = "Rest";
/// Skip the rest.
pub const SKIP_REST: &str = "Skip";
/// Rest is over.
pub const REST_OVER: &str = "Rest is over";
/// Pause.
pub const PAUSE: &str = "Pause";
/// Resume.
pub const RESUME: &str = "Go on";
/// Paused.
pub const PAUSED: &str = "Paused. Your sets are saved.";
/// Skip an exercise.
pub const SKIP_EXERCISE: &str = "Leave this exercise out today";
/// Take it back in.
pub const UNSKIP: &str = "Take it back in";
/// Hurts.
pub const HURTS: &str = "It hurts";
/// No discomfort.
pub const HURTS_NOT: &str = "No";
/// Mild.
pub const HURTS_MILD: &str = "A little";
/// Painful.
pub const HURTS_PAINFUL: &str = "Painful";
/// What a painful note does.
pub const HURTS_ADVICE: &str = "Stop this exercise or swap it for one that does not hurt. Next time the load steps down. If pain stays, see a doctor or physiotherapist.";
/// What a mild note does.
pub const HURTS_MILD_ADVICE: &str =
    "Noted. The load will not rise next time. Stop if it gets worse.";
/// Note.
pub const NOTE: &str = "Note";
/// Saved.
pub const SAVED: &str = "Saved";
/// Saving.
pub const SAVING: &str = "Saving\u{2026}";
/// Not saved.
pub const NOT_SAVED: &str = "Not saved";
/// No alert with the screen off.
pub const REST_HINT: &str =
    "With the screen off neither tone nor notice is promised; the time stays right.";
/// Do this exercise now.
pub const DO_NOW: &str = "Do now";
/// Do this exercise after the next one.
pub const DO_LATER: &str = "Do later";
/// One place earlier in the order.
pub const MOVE_EARLIER: &str = "Move earlier";
/// Ends a superset.
pub const UNPAIR: &str = "On its own";
/// Begins a superset with another exercise.
#[must_use]
pub fn in_turn_with(other: &str) -> String {
    say!("In turn with {other}", other)
}
/// Asks how many minutes are left.
pub const SHORT_OF_TIME: &str = "Short of time?";
/// Label of their number.
pub const MINUTES_LEFT: &str = "Minutes left";
/// Cuts the session to them.
pub const SHORT_ACCEPT: &str = "Do it this way";
/// Rests are among what gives way.
pub const RESTS_SHORTER: &str = "Rests are shorter, by no more than the sets can bear.";
/// Nothing has to go.
#[must_use]
pub fn all_fits(minutes: u32) -> String {
    say!(
        "All that is left takes about {minutes} min: nothing has to go.",
        minutes
    )
}
/// Something has to go.
#[must_use]
pub fn all_needs(all: u32, then: u32) -> String {
    say!(
        "All that is left takes about {all} min. What is worth most takes {then} min:",
        all,
        then
    )
}
/// An exercise that is let go.
#[must_use]
pub fn left_out(exercise: &str) -> String {
    say!("{exercise}: left out", exercise)
}
/// An exercise with fewer sets.
#[must_use]
pub fn sets_fewer(exercise: &str, sets: usize) -> String {
    if sets == 1 {
        say!("{exercise}: 1 set fewer", exercise)
    } else {
        say!("{exercise}: {sets} sets fewer", exercise, sets)
    }
}
/// Two exercises that are done in turn.
#[must_use]
pub fn pair_in_turn(first: &str, second: &str) -> String {
    say!("{first} and {second} in turn", first, second)
}
/// What it does to the week's sets.
#[must_use]
pub fn week_then(changes: &str) -> String {
    say!("This week's sets: {changes}", changes)
}
/// Edit a set.
pub const AMEND: &str = "Amend";
/// Heading of the ways to hand a plan on, and the way to them.
pub const HAND_ON: &str = "Hand on or take a plan";
/// What is handed on.
pub const HAND_ON_MORE: &str = "Days, exercises, sets and rests; nothing of your logs and nothing about you. It goes from phone to phone, without a server.";
/// A plan that no link can hold.
pub const TOO_LARGE: &str = "This plan is too large to hand on";
/// What to do then.
pub const TOO_LARGE_MORE: &str =
    "A plan of fewer days or exercises fits. A backup file, under Kit & data, holds any.";
/// Heading of the code.
pub const TO_SCAN: &str = "A code to scan";
/// How to scan it.
pub const TO_SCAN_MORE: &str = "Point the camera of the other phone at it.";
/// No code holds the link.
pub const NO_CODE: &str =
    "The plan is too long for a code that a phone can read. The link and the file hold it.";
/// What the code is, to a screen reader.
pub const CODE_OF_PLAN: &str = "QR code of the link to the plan";
/// How large the code is.
#[must_use]
pub fn code_size(version: u8, width: u32, module: &str) -> String {
    say!(
        "QR code, version {version}; {width} mm wide, one module is {module} mm.",
        version,
        width,
        module
    )
}
/// Heading of the link.
pub const AS_LINK: &str = "As a link or a file";
/// Label of the link.
pub const PLAN_LINK: &str = "Link to the plan";
/// Puts the link into the clipboard.
pub const COPY_LINK: &str = "Copy the link";
/// It is there.
pub const COPIED: &str = "The link is copied";
/// It is not.
pub const NOT_COPIED: &str = "The browser did not copy it. Tap the link and copy it by hand.";
/// What the link is.
pub const AS_LINK_MORE: &str =
    "The whole plan is in the link, behind the #, which browsers do not send to any server.";
/// Heading of taking a plan.
pub const TAKE_ONE: &str = "Take a plan";
/// Label of the field for a link.
pub const PASTE_LINK: &str = "Paste a link";
/// Chooses a file with a link.
pub const PLAN_FROM_FILE: &str = "Choose a plan file";
/// A plan came.
pub const PLAN_CAME: &str = "A plan for you";
/// What it is.
pub const PLAN_CAME_MORE: &str = "Somebody handed it on. Nothing changes before you take it.";
/// Heading of the audit.
pub const CHECKED_FOR_YOU: &str = "Checked for you and your kit";
/// The audit found nothing.
pub const FITS: &str = "It fits: nothing to mend.";
/// Own exercises come with it.
#[must_use]
pub fn own_come_along(count: usize) -> String {
    if count == 1 {
        said("1 exercise of the giver's own comes along.")
    } else {
        say!("{count} exercises of the giver's own come along.", count)
    }
}
/// Before it is taken.
pub const TAKE_CAUTION: &str = "It was made for somebody else. What to lift follows from your own logs, never from theirs; swap what hurts or what you have not learned.";
/// Takes it up.
pub const TAKE_IT: &str = "Take it as my plan";
/// Leaves it.
pub const LEAVE_IT: &str = "Leave it";
/// A session is running.
pub const FINISH_FIRST_TAKE: &str = "A session is running. Finish it first, then take the plan.";
/// Heading of the list of exercises, and the way to it.
pub const BY_EXERCISE: &str = "By exercise";
/// Under the link to it.
pub const BY_EXERCISE_LINK: &str = "Each over time, with its bests";
/// Heading of the weeks by muscle, and the way to it.
pub const BY_MUSCLE: &str = "By week and muscle";
/// Under the link to it.
pub const BY_MUSCLE_LINK: &str = "Sessions, time, and the sets each muscle had";
/// How sets are counted.
pub const BY_MUSCLE_MORE: &str = "A set counts half for a muscle that only helps.";
/// Legend of the ranges.
pub const SPAN: &str = "How far back";
/// A range.
pub const FOUR_WEEKS: &str = "4 weeks";
/// A range: since the block began.
pub const BLOCK: &str = "Block";
/// A range.
pub const A_YEAR: &str = "Year";
/// A range.
pub const EVERYTHING: &str = "All";
/// Nothing in the range.
pub const NOT_IN_SPAN: &str = "It was not done in this time.";
/// Head of a column.
pub const LEVEL_AND_TREND: &str = "Level, trend";
/// What the lines in the picture are.
pub const TREND_LINES: &str = "The line is the trend: newer days count more, and a rise shows late in it. By scatter alone it strays no further than the dotted lines 95 times in 100.";
/// What the shaded strip in the picture is.
pub const SCATTER_STRIP: &str = "In the shaded strip a single day differs from the first ones by no more than chance; full points lie beyond it.";
/// Head of a column.
pub const DAY: &str = "Day";
/// Head of a column.
pub const HARDEST_SET: &str = "Hardest set";
/// Head of a column.
pub const LEVEL: &str = "Level";
/// Saves a picture.
pub const SAVE_PICTURE: &str = "Save the picture";
/// Heading of the bests.
pub const BESTS: &str = "Bests";
/// Which are listed.
pub const BESTS_MORE: &str =
    "The hardest for each number of reps, less those that a harder set outdoes.";
/// Head of a column: the week of a Monday.
pub const WEEK_OF: &str = "Week of";
/// Beside a lighter week.
pub const LIGHTER_MARK: &str = "lighter";
/// Head of a column.
pub const SESSIONS: &str = "Sessions";
/// Head of a column.
pub const TIME: &str = "Time";
/// Heading of sessions and time.
pub const SESSIONS_AND_TIME: &str = "Sessions and time";
/// Unfolds them.
pub const WEEK_BY_WEEK: &str = "Week by week";
/// Heading of the person's own exercises, and the way to them.
pub const OWN_EXERCISES: &str = "Own exercises";
/// Under the link to them.
pub const OWN_EXERCISES_LINK: &str = "What the catalogue lacks";
/// What becomes of them.
pub const OWN_EXERCISES_MORE: &str =
    "They stand beside the built-in ones: in the plan, in swaps, in the log and in every count.";
/// Begins another.
pub const NEW_EXERCISE: &str = "New exercise";
/// Under it.
pub const NEW_EXERCISE_MORE: &str = "Name, pattern and muscles are enough; the rest is filled in";
/// Heading.
pub const WHAT_IT_IS: &str = "What it is";
/// Label of the name.
pub const EXERCISE_NAME: &str = "Name of the exercise";
/// Legend of the pattern.
pub const PATTERN: &str = "Movement pattern";
/// Legend of the role.
pub const ROLE: &str = "Counts as";
/// Legend of the prime movers.
pub const PRIME: &str = "Muscles it trains";
/// Legend of the assisting muscles.
pub const ASSIST: &str = "Muscles that help";
/// Heading.
pub const HOW_LOADED: &str = "How it is loaded";
/// Legend of the loading.
pub const LOADING: &str = "The number is";
/// Legend of the equipment.
pub const NEEDS: &str = "It needs";
/// Legend of the measure.
pub const COUNTED: &str = "Counted in";
/// Legend of the sides.
pub const SIDES_LEGEND: &str = "Sides";
/// Both sides at once.
pub const SIDES_BOTH: &str = "both at once";
/// One side after the other.
pub const SIDES_EACH: &str = "one after the other";
/// Legend of the kind.
pub const KIND: &str = "Joints that move";
/// Several joints.
pub const KIND_COMPOUND: &str = "several";
/// One joint.
pub const KIND_ISOLATION: &str = "one";
/// Heading of the numbers.
pub const NUMBERS_OF_IT: &str = "Goal and rest";
/// Least of the goal.
pub const GOAL_LEAST: &str = "Goal from";
/// Most of the goal.
pub const GOAL_MOST: &str = "Goal to";
/// Rest after a set.
pub const REST_IN_SECONDS: &str = "Rest, seconds";
/// Effort aimed at.
pub const LEFT_AT_END: &str = "Reps left";
/// Time of a rep.
pub const REP_TENTHS: &str = "A rep, tenths of a second";
/// Time to set up.
pub const SETUP_SECONDS: &str = "Set-up, seconds";
/// Heading.
pub const CARE: &str = "Care and words";
/// Legend of the joint demands.
pub const JOINTS: &str = "What it asks of joints";
/// Legend of the strain.
pub const STRAIN: &str = "Strain on the whole body";
/// Legend of the skill.
pub const SKILL: &str = "Skill to do it safely";
/// A grade.
pub const GRADE_NONE: &str = "little";
/// A grade.
pub const GRADE_SOME: &str = "some";
/// A grade.
pub const GRADE_MUCH: &str = "much";
/// A grade.
pub const GRADE_MOST: &str = "most";
/// Unfolds the variants.
pub const VARIANTS: &str = "Easier and harder variants";
/// Legend.
pub const EASIER: &str = "Easier";
/// Legend.
pub const HARDER: &str = "Harder";
/// Label of the cue.
pub const CUE: &str = "How to do it (two lines at most)";
/// Label of the caution.
pub const CAUTION: &str = "What to beware of";
/// Keeps it.
pub const SAVE_EXERCISE: &str = "Keep the exercise";
/// It is kept.
pub const EXERCISE_SAVED: &str = "The exercise is kept";
/// Another has the name.
pub const NAME_TAKEN: &str = "You have an exercise of this name. Open it, or choose another name.";
/// No more fit.
pub const OWN_FULL: &str = "300 own exercises are the most. Remove one first.";
/// Takes it out.
pub const REMOVE_EXERCISE: &str = "Remove this exercise";
/// It cannot go.
pub const STILL_USED: &str = "It stands in the plan or in the log. Take it out of the plan first; with sets logged it stays, so that they keep their name.";
/// Heading of the way in for a spreadsheet, and the way to it.
pub const SPREADSHEET: &str = "Bring in a spreadsheet";
/// What is read.
pub const SPREADSHEET_MORE: &str = "A CSV file with a row for each set: day, exercise, reps, load. You see what comes of it before anything is kept.";
/// Chooses the file.
pub const CHOOSE_SHEET: &str = "Choose a CSV file";
/// Heading of the columns.
pub const SHEET_COLUMNS: &str = "What stands in the columns";
/// Too little is known.
pub const COLUMNS_LACK: &str =
    "A day, an exercise, and reps or seconds are needed. Choose their columns.";
/// Legend of the unit.
pub const SHEET_UNIT: &str = "Loads without a unit are in";
/// Legend of the order of day and month.
pub const SHEET_DAYS: &str = "In a day like 3/4";
/// A choice of it.
pub const DAY_FIRST: &str = "the day is first";
/// A choice of it.
pub const MONTH_FIRST: &str = "the month is first";
/// Heading of the names.
pub const SHEET_NAMES: &str = "Which exercises they are";
/// How they were found.
pub const SHEET_NAMES_MORE: &str = "Guessed by the spelling: look through them.";
/// Leaves a name out.
pub const LEAVE_OUT: &str = "leave out";
/// Heading of what comes of it.
pub const SHEET_BRINGS: &str = "What comes of it";
/// Takes it in.
pub const TAKE_SHEET: &str = "Take it into the log";
/// It is in.
pub const SHEET_TAKEN: &str = "The spreadsheet is in the log";
/// Heading of the cards on paper, and the way to them.
pub const CARDS: &str = "Cards to print";
/// What they are.
pub const CARDS_MORE: &str = "A page for each session, with a box to write each set in. Loads are what the rules suggest today.";
/// Prints the page.
pub const PRINT: &str = "Print";
/// A line for the day.
pub const CARD_DATE: &str = "Day";
/// Rest after a set, on paper.
#[must_use]
pub fn rest_of(seconds: u32) -> String {
    say!("rest {seconds} s", seconds)
}
/// The aim, on paper.
#[must_use]
pub fn aim_is(aim: &str) -> String {
    say!("aim: {aim}", aim)
}
/// Label of the field that finds past sessions.
pub const SEARCH_LOG: &str = "Find an exercise or a note";
/// Nothing holds the word.
#[must_use]
pub fn nothing_found(word: &str) -> String {
    say!("No session holds \u{201c}{word}\u{201d}.", word)
}
/// There are more than those listed.
pub const FOUND_MORE: &str = "These are the latest thirty; there are more.";
/// Heading of the year, and the way to it.
pub const YEAR: &str = "The year as cloth";
/// Under the link to it.
pub const YEAR_LINK: &str = "A row for each week, a weft where you trained";
/// What the year shows.
pub const YEAR_MORE: &str = "The latest week is on top. Tap a row for its sessions.";
/// How to read it.
pub const YEAR_KEY: &str = "One weft for every five sets, dashed in a lighter week; a ring where a planned session was not done.";
/// Unfolds the sets of a past exercise.
pub const AMEND_SETS: &str = "Put it right";
/// An exercise without a set.
pub const NOT_DONE: &str = "Not done";
/// Puts in a set that was not logged in its time.
pub const ADD_SET: &str = "Add a forgotten set";
/// Opens the note and the discomfort of a past exercise.
pub const REMARKS: &str = "Note and pain";
/// A set that was put in later.
#[must_use]
pub fn set_put_in(set: usize, day: &str) -> String {
    say!("Set {set} put in on {day}", set, day)
}
/// What was remarked before it was changed.
#[must_use]
pub fn remark_was(note: &str, hurt: &str, day: &str) -> String {
    if note.is_empty() {
        return say!("Before {day}: no note. It hurt: {hurt}", day, hurt);
    }
    say!(
        "Before {day}: \u{201c}{note}\u{201d}. It hurt: {hurt}",
        day,
        note,
        hurt
    )
}
/// Takes a session out of the log.
pub const REMOVE_SESSION: &str = "Remove this session";
/// What that means.
pub const REMOVE_SESSION_MORE: &str = "Its sets leave the log and no longer count for what to lift next. Only a backup file brings them back.";
/// It is out.
pub const SESSION_REMOVED: &str = "The session is out of the log";
/// What a set was before it was changed.
#[must_use]
pub fn set_was(set: usize, was: &str, day: &str) -> String {
    say!("Set {set} was {was}, changed on {day}", set, was, day)
}
/// A set that was taken out.
#[must_use]
pub fn set_taken_out(set: usize, was: &str, day: &str) -> String {
    say!("Set {set}, {was}, taken out on {day}", set, was, day)
}
/// Remove a set.
pub const REMOVE: &str = "Remove";
/// One more set.
pub const ONE_MORE_SET: &str = "One more set";
/// One set fewer.
pub const ONE_SET_FEWER: &str = "One set fewer";
/// Add an exercise.
pub const ADD_EXERCISE: &str = "Add an exercise";
/// The session is over.
pub const SESSION_DONE: &str = "Session done";
/// Set kept for later.
pub const KEEP: &str = "Keep";
/// "Set 2 of 4".
#[must_use]
pub fn set_of(set: usize, of: usize) -> String {
    say!("Set {set} of {of}", set, of)
}
/// "12 of 21 sets".
#[must_use]
pub fn sets_done(done: usize, of: usize) -> String {
    say!("{done} of {of} sets", done, of)
}
/// "7 exercises".
#[must_use]
pub fn exercises(count: usize) -> String {
    if count == 1 {
        said("1 exercise")
    } else {
        say!("{count} exercises", count)
    }
}
/// "3 × 6–8".
#[must_use]
pub fn sets_by_reps(sets: u8, least: u16, most: u16, is_timed: bool) -> String {
    let s = if is_timed { tr(" s") } else { "" };
    if least == most {
        format!("{sets} \u{d7} {least}{s}")
    } else {
        format!("{sets} \u{d7} {least}\u{2013}{most}{s}")
    }
}
/// A set that was logged.
#[must_use]
pub fn logged(what: &str) -> String {
    say!("Logged {what}", what)
}

// --- Rest day ---------------------------------------------------------------

/// Nothing planned today.
pub const REST_DAY: &str = "Rest day";
/// Proposes a deload.
pub const LIGHTER: &str = "A lighter week?";
/// What it is, and what is known of it (Rogerson et al. 2024, Sports Med Open
/// 10:26; Coleman et al. 2024, PeerJ 12:e16777).
pub const LIGHTER_MORE: &str = "Seven days with a tenth less load, fewer sets and a rep more left in you; then all goes on where it stood. Coached lifters do it every four to eight weeks (Rogerson et al. 2024). That it makes anyone stronger is not shown.";
/// Yes.
pub const LIGHTER_TAKE: &str = "Take it now";
/// No.
pub const LIGHTER_NOT_NOW: &str = "Not now";
/// What a lighter week changes.
pub const LIGHTER_NOW: &str = "Less load, fewer sets, more left in you. It ends by itself, and nothing lifted in it counts against you.";
/// Ends it early.
pub const LIGHTER_END: &str = "End it now";
/// Marks a session of it.
pub const LIGHTER_SESSION: &str = "Lighter week";
/// Marks the days of one that the block plans.
pub const LIGHTER_PLANNED: &str = "Lighter week in your block";
/// Marks the days of it.
#[must_use]
pub fn lighter_until(when: &str) -> String {
    say!("Lighter week, last day {when}", when)
}
/// Train anyway.
pub const TRAIN_ANYWAY: &str = "Train today instead";
/// Done for today.
pub const DONE_TODAY: &str = "Done for today";
/// Next session.
#[must_use]
pub fn next_session(when: &str) -> String {
    say!("Next session {when}", when)
}

// --- Week -------------------------------------------------------------------

/// Missed.
pub const MISSED: &str = "missed; it comes next";
/// Done.
pub const DONE: &str = "done";
/// Loom caption.
pub const LOOM: &str = "The loom: the week's sets per muscle";
/// How to read the loom.
pub const LOOM_HELP: &str = "A thread for each muscle, a day for each column. A knot is a session that trains it, larger with more sets; the drawn-out thread is the day or two in which it builds. An indirect set counts half.";

// --- Plan -------------------------------------------------------------------

/// Your week.
pub const YOUR_WEEK: &str = "Your week";
/// Shape of the week.
pub const SHAPE: &str = "Days, split and wishes";
/// Why it is there.
pub const WHY_HERE: &str = "Why it is here";
/// Rules of progression.
pub const RULES: &str = "How it goes up";
/// The rule followed.
pub const RULE: &str = "Rule";
/// Marks the rule that is followed where none was chosen.
pub const USUAL: &str = "the usual one";
/// Sets.
pub const SETS: &str = "Sets";
/// Least reps.
pub const REPS_FROM: &str = "Reps from";
/// Most reps.
pub const REPS_TO: &str = "Reps to";
/// Seconds least.
pub const SECONDS_FROM: &str = "Seconds from";
/// Seconds most.
pub const SECONDS_TO: &str = "Seconds to";
/// Rest.
pub const REST_SECONDS: &str = "Rest";
/// Swap an exercise.
pub const SWAP_EXERCISE: &str = "Swap this exercise";
/// Remove an exercise.
pub const TAKE_OUT: &str = "Take out of the plan";
/// Never plan it again.
pub const NEVER_AGAIN: &str = "Never plan it again";
/// Earlier in the day.
pub const EARLIER: &str = "Earlier";
/// Later in the day.
pub const LATER: &str = "Later";
/// Weekly sets.
pub const WEEKLY_SETS: &str = "Sets a week";
/// Weave anew.
pub const REWEAVE: &str = "Weave a new plan";
/// What weaving does.
pub const REWEAVE_MORE: &str =
    "Replaces the exercises of the plan, your edits of it included. Your log stays.";
/// First of a superset.
pub const WITH_NEXT: &str = ", in turn with the next";
/// Second of a superset.
pub const WITH_LAST: &str = ", in turn with the one before";
/// Superset partner in the session.
pub const IN_TURN_WITH: &str = "In turn with";
/// Cycles of the person's own making.
pub const OWN_CYCLES: &str = "Your own cycles";
/// What they are.
pub const OWN_CYCLES_MORE: &str = "Say which days there are and what each is for. Then have the week woven on it, or pick every exercise yourself.";
/// A split of one's own.
pub const OWN_CYCLE: &str = "Own cycle";
/// Heading of ways to begin.
pub const NEW_CYCLE: &str = "Make a new one";
/// Begins without anything.
pub const FROM_NOTHING: &str = "From nothing";
/// Its second line.
pub const FROM_NOTHING_MORE: &str = "One empty day";
/// Name of a cycle.
pub const CYCLE_NAME: &str = "Name";
/// Days of a cycle.
pub const CYCLE_DAYS: &str = "Its days, in turn";
/// Kinds of days.
pub const ADD_CYCLE_DAY: &str = "Add a day";
/// A day without places.
pub const NO_PLACES: &str = "No places yet";
/// Has the planner fill the cycle.
pub const WEAVE_IT: &str = "Weave it for me";
/// Fills it by hand.
pub const PICK_MYSELF: &str = "Pick every exercise myself";
/// Removes a cycle.
pub const REMOVE_CYCLE: &str = "Remove this cycle";
/// Sure?
pub const REMOVE_SURE: &str = "Yes, remove it";
/// What removing did.
pub const CYCLE_GONE: &str = "Removed. Your plan stays; the next one is dealt out the usual way.";
/// What a day is about.
pub const DAY_ABOUT: &str = "What the day is called";
/// Places for exercises.
pub const PLACES_OF_DAY: &str = "Places for exercises";
/// How places work.
pub const PLACES_OF_DAY_MORE: &str =
    "The first are what the day is about; the last go first when minutes are short.";
/// Adds a place.
pub const ADD_PLACE: &str = "Add a place for";
/// Moves a day.
pub const DAY_EARLIER: &str = "\u{2191} Day earlier";
/// Moves a day.
pub const DAY_LATER: &str = "\u{2193} Day later";
/// A cycle's first name, by its slug.
#[must_use]
pub fn numbered_cycle(slug: &str) -> String {
    say!(
        "My cycle {number}",
        number = slug.trim_start_matches("own-")
    )
}
/// "3 days".
#[must_use]
pub fn days(count: usize) -> String {
    if count == 1 {
        said("1 day")
    } else {
        say!("{count} days", count)
    }
}
/// An open place of the plan.
#[must_use]
pub fn choose(what: &str) -> String {
    say!("Choose: {what}", what)
}
/// Whole new plan, as an edit.
pub const NEW_PLAN: &str = "new plan";
/// Other weekdays, as an edit.
pub const OTHER_DAYS: &str = "other training days";
/// Does an undone edit again.
pub const REDO: &str = "Redo";
/// Undo and redo.
pub const EDITS: &str = "Edits";
/// A mend that does not do it all.
pub const MENDS_PARTLY: &str = "Helps, but not all the way.";
/// Another finding's mend helps here as well.
pub const SAME_MEND: &str = "The same mend as above.";
/// A plan without any exercise.
pub const FILL_FIRST: &str = "No exercise yet. Choose some below; the week is checked as it fills.";
/// Edits of a day.
pub const THIS_DAY: &str = "Change this day";
/// Removes a day.
pub const TAKE_DAY_OUT: &str = "Take the day out";
/// Adds a day.
pub const ADD_DAY: &str = "Add a day to the plan";
/// Weekdays of the plan.
pub const TRAINED_ON: &str = "Training days";
/// What other weekdays do.
pub const TRAINED_ON_MORE: &str =
    "The plan's days follow each other on these. Exercises stay as they are.";
/// Other days for an exercise.
pub const MOVE_TO: &str = "Move to another day";
/// Makes a superset.
pub const IN_TURN: &str = "Do it in turn with the next";
/// Parts a superset.
pub const ON_ITS_OWN: &str = "Do it on its own again";
/// "2. Pull".
#[must_use]
pub fn numbered(index: usize, name: &str) -> String {
    format!("{}. {name}", index + 1)
}
/// How much is off.
#[must_use]
pub fn findings(count: usize) -> String {
    if count == 1 {
        said("One thing is off.")
    } else {
        say!("{count} things are off.", count)
    }
}
/// What is folded away.
#[must_use]
pub fn more_findings(count: usize) -> String {
    say!("{count} more", count)
}
/// The audit.
pub const CHECKED: &str = "The week, checked";
/// The audit found nothing.
pub const NOTHING_OFF: &str =
    "Nothing is off: every muscle has its sets, pushing and pulling are even, the minutes hold.";
/// Exercises never planned.
pub const EXCLUDED: &str = "Never planned: tap to allow again";
/// Days of this week and the next.
pub const THIS_WEEK: &str = "This week and the next";
/// Card.
pub const RELIEF: &str = "What a limit costs";
/// What it tells.
pub const RELIEF_MORE: &str = "What a newly woven week would gain if you had more minutes, days or equipment, or ruled less out, and what mends what it lacks.";
/// Works it out.
pub const ASK_RELIEF: &str = "Work it out";
/// It is on its way.
pub const WORKING_OUT: &str = "Weeks are being woven\u{2026}";
/// None is worth telling.
pub const NO_RELIEF: &str =
    "Nothing of note: more minutes, days or equipment would hardly change this week.";
/// What was not met.
pub const NOT_MET: &str = "What could not be met";
/// Evidence note.
pub const EVIDENCE_SPLIT: &str = "At equal weekly sets, split and full body grow muscle alike in trials (Ramos-Campo et al. 2024). A spread week buys fresher sets and smaller doses.";
/// The split.
pub const SPLIT: &str = "How the week is dealt out";

// --- Log ----------------------------------------------------------------------

/// Nothing yet.
pub const LOG_EMPTY: &str = "No session yet. What you log appears here.";
/// "18 sets".
#[must_use]
pub fn sets(count: usize) -> String {
    if count == 1 {
        said("1 set")
    } else {
        say!("{count} sets", count)
    }
}

/// What the logs show.
pub const BLOCK_ENDED_MORE: &str = "The plan goes on as it is until you begin the next block.";
/// Review.
pub const REVIEW: &str = "What the last weeks show";
/// Under the link to it.
pub const REVIEW_LINK: &str = "What rose, what stands still and why, what hurt";
/// What it is made of.
pub const REVIEW_MORE: &str = "The last twelve weeks of this log.";
/// How it judges.
pub const REVIEW_HOW: &str = "An exercise rose only where the change is beyond the scatter of strength tests; what may be behind a stall is a guess from the logs. A coach who sees you lift knows more.";
/// Too few sessions.
pub const NOT_ENOUGH: &str = "Not enough to tell yet. Six sessions of an exercise over four weeks are the least that shows anything.";
/// A review that found nothing.
pub const NOTHING_STANDS_OUT: &str =
    "Nothing calls for a change: nothing stands still, nothing hurt, and the week was kept.";
/// Heading of the exercises that rose.
pub const ROSE: &str = "What rose";
/// How they are judged.
pub const ROSE_MORE: &str = "The last third of the days against the first; changes within the scatter could be chance. Thin: effort was not said, or the reps were too many to judge by.";
/// Beside an exercise about which the logs say little.
pub const THIN: &str = " (thin)";
/// Head of a column.
pub const EXERCISE: &str = "Exercise";
/// Head of a column.
pub const CHANGE: &str = "Change";
/// Head of a column: changes below this could be chance.
pub const SCATTER: &str = "Scatter";
/// Heading of the weekly sets.
pub const SETS_BY_MUSCLE: &str = "Weekly sets by muscle";
/// How they are counted.
pub const SETS_BY_MUSCLE_MORE: &str = "On average over whole weeks, lighter ones left out. A set counts half for a muscle that only helps.";
/// Head of a column.
pub const DONE_SETS: &str = "Done";
/// Head of a column.
pub const PLANNED: &str = "Planned";
/// Heading of the next block, and the way to it.
pub const NEXT_BLOCK: &str = "The next block";
/// Under the link to it.
pub const NEXT_BLOCK_LINK: &str = "How long, what changes and why, what for";
/// What a block is.
pub const NEXT_BLOCK_MORE: &str = "Some weeks with an end. Nothing changes before you begin it, and every change can be left out.";
/// Heading of the length.
pub const HOW_LONG_BLOCK: &str = "How long";
/// Legend of the number of weeks.
pub const BLOCK_WEEKS: &str = "Weeks";
/// Ticks the lighter week.
pub const LAST_LIGHTER: &str = "The last week is lighter";
/// Heading of the changes.
pub const WHAT_CHANGES: &str = "What changes";
/// No change is proposed.
pub const NO_CHANGE: &str = "The logs speak for no change: go on as you are.";
/// Beside a change that little speaks for.
pub const THIN_EVIDENCE: &str = "Thin evidence: as you like.";
/// Heading of the goals.
pub const WHAT_FOR: &str = "What for";
/// Heading of the preview.
pub const WEEK_THEN: &str = "Your week then";
/// Nothing in it changes.
pub const WEEK_STAYS: &str = "The plan stays as it is.";
/// The sets do not change.
pub const SETS_STAY: &str = "Every muscle keeps its weekly sets.";
/// Head of a column.
pub const NOW: &str = "Now";
/// Head of a column.
pub const THEN: &str = "Then";
/// What a block leaves alone.
pub const BLOCK_LOADS: &str = "No change touches a load: what to lift next still follows from what you lifted. A changed plan begins with its first day.";
/// Why a lighter week is asked for: the block has it now.
pub const LIGHTER_IN_BLOCK: &str = "Your block has one this week.";
/// Where in a block one is.
#[must_use]
pub fn week_of(week: u8, of: u8) -> String {
    say!("Week {week} of {of}", week, of)
}
/// Begins it.
pub const BEGIN_BLOCK: &str = "Begin this block";
/// It has begun.
pub const BLOCK_BEGUN: &str = "The block has begun";
/// A session is running.
pub const FINISH_FIRST: &str = "A session is running. Finish it first, then begin the block.";
/// The first day looked at.
#[must_use]
pub fn since(day: &str) -> String {
    say!("Since {day}", day)
}
/// Sessions done of those planned.
#[must_use]
pub fn sessions_of(done: u32, planned: u32) -> String {
    say!("{done} of {planned} planned sessions done", done, planned)
}
/// Sessions done.
#[must_use]
pub fn sessions_count(count: usize) -> String {
    if count == 1 {
        said("1 session done")
    } else {
        say!("{count} sessions done", count)
    }
}
/// Sets done of those asked for.
#[must_use]
pub fn sets_done_of(done: u32, asked: u32) -> String {
    say!("{done} of {asked} sets done in them", done, asked)
}
/// Rest taken and prescribed.
#[must_use]
pub fn rest_taken(taken: u32, asked: u32) -> String {
    say!(
        "Rest: {taken} s on average, {asked} s asked for",
        taken,
        asked
    )
}

// --- Kit and data ---------------------------------------------------------------

/// Equipment page.
pub const EQUIPMENT: &str = "Equipment and increments";
/// Its second line.
pub const EQUIPMENT_MORE: &str = "What is at hand, bars, plates, steps";
/// Data page.
pub const DATA: &str = "Your data";
/// Its second line.
pub const DATA_MORE: &str = "Backup file, restore, delete, demo";
/// Looks page.
pub const LOOKS: &str = "Language, units, appearance";
/// Its second line.
pub const LOOKS_MORE: &str = "German or English, kilograms or pounds, light or dark";
/// Cautions page.
pub const CAUTIONS_MORE: &str = "Who should ask a doctor first, when to stop";
/// The page of published values.
pub const NUMBERS: &str = "Where the numbers come from";
/// Its second line.
pub const NUMBERS_MORE: &str = "Published values, their sources, and what has none";
/// Its address, seen from the app.
pub const NUMBERS_AT: &str = "numbers/";
/// Where the data is.
pub const DATA_WHERE: &str = "Everything is kept in this browser on this device and nowhere else. Clearing the browser's data deletes it. A backup file is the only copy that leaves the device, and only when you take it.";
/// Files for other programs.
pub const TAKE_ALONG: &str = "For other programs";
/// What they are.
pub const TAKE_ALONG_MORE: &str =
    "Copies to look at elsewhere. To move to another phone take a backup file.";
/// All sets as CSV.
pub const SETS_AS_SHEET: &str = "All sets as a table (CSV)";
/// Coming sessions as a calendar file.
pub const SESSIONS_AS_CALENDAR: &str = "Coming sessions for a calendar";
/// What the calendar file is.
pub const CALENDAR_MORE: &str = "Four weeks, a day each. When the week changes, save and open it again: a later file puts its sessions in the place of the earlier ones of the same days.";
/// There is nothing for the table yet.
pub const NO_SETS_YET: &str = "No set is logged yet.";
/// There is nothing for the calendar.
pub const NO_SESSION_COMES: &str = "No session is planned in the next four weeks.";
/// Takes a backup.
pub const BACKUP_OUT: &str = "Save a backup file";
/// Another program.
pub const BACKUP_SHARE: &str = "Share a backup file";
/// Another program.
pub const LINK_SHARE: &str = "Share the link";
/// Another program.
pub const NOT_SHARED: &str = "It could not be shared. Save the file instead.";
/// Reads a backup.
pub const BACKUP_IN: &str = "Read a backup file";
/// Accept the import.
pub const BACKUP_ACCEPT: &str = "Take it in";
/// Refuse the import.
pub const CANCEL: &str = "Cancel";
/// Nothing was changed.
pub const NOTHING_CHANGED: &str = "Nothing was changed.";
/// Delete everything.
pub const DELETE_ALL: &str = "Delete everything on this device";
/// What it does.
pub const DELETE_ALL_MORE: &str = "Deletes your plan, kit, every logged set and the logs of others you read here from this browser. Only a backup file brings yours back.";
/// Sure?
pub const DELETE_SURE: &str = "Yes, delete everything";
/// Demo.
pub const DEMO: &str = "Demo: the weather station";
/// What the demo is.
pub const DEMO_MORE: &str = "Twelve weeks of invented logs of a small crew with a container gym. Kept apart from your own data.";
/// Leaves the demo.
pub const DEMO_LEAVE: &str = "Leave the demo";
/// Marks the demo.
pub const DEMO_BANNER: &str = "Demo: invented logs of the weather-station crew.";
/// Set-aside data.
pub const ASIDE: &str = "Data that could not be read";
/// What happened to it.
pub const ASIDE_MORE: &str =
    "It was set aside untouched. Save it as a file before deleting anything.";
/// Saves the set-aside data.
pub const ASIDE_SAVE: &str = "Save as a file";
/// Theme.
pub const THEME: &str = "Light or dark";
/// Theme.
pub const THEME_AUTO: &str = "As the phone";
/// Theme.
pub const THEME_LIGHT: &str = "Light";
/// Theme.
pub const THEME_DARK: &str = "Dark";
/// Language.
pub const LANGUAGE: &str = "Language";
/// Sound.
pub const SOUND: &str = "Tone when the rest is over";
/// Notice.
pub const NOTICE: &str = "Notice when the rest is over";
/// Notice.
pub const NOTICE_MORE: &str = "The notice shows while another app is in front.";
/// Notice.
pub const NOTICE_REFUSED: &str =
    "The browser refuses notices for this page. They can be allowed in its settings.";
/// Notice.
pub const NOTICE_MISSING: &str = "There are no notices here. On some phones they come once Weekloom is on the home screen and opened from there.";
/// Hand.
pub const HAND: &str = "In a session the phone is in your";
/// Hand.
pub const HAND_RIGHT: &str = "Right hand";
/// Hand.
pub const HAND_LEFT: &str = "Left hand";
/// Hand.
pub const HAND_MORE: &str = "What you tap often comes to the side of that thumb.";
/// Screen.
pub const SCREEN: &str = "Keep the screen on during a session";
/// Bars and plates.
pub const BARS: &str = "Bars, without plates";
/// Bar.
pub const BAR: &str = "Straight bar";
/// Bar.
pub const CURL_BAR: &str = "Curl bar";
/// Bar.
pub const TRAP_BAR: &str = "Trap bar";
/// Plates.
pub const PLATES: &str = "Plates, pairs of each";
/// Another plate.
pub const ADD_PLATE: &str = "Add a plate";
/// Steps.
pub const FIRST: &str = "From";
/// Steps.
pub const STEP: &str = "Step";
/// Steps.
pub const LAST: &str = "To";
/// Folds the list of loads.
pub const UNEVEN: &str = "Uneven steps";
/// What the list is for.
pub const UNEVEN_MORE: &str = "For a rack with gaps, or a stack with small add-on plates: every load it makes, with spaces between. Empty, the even steps count.";
/// Every load of a rack.
pub const EACH_LOAD: &str = "Each load";
/// Steps.
pub const DUMBBELL_STEPS: &str = "Dumbbells (one of them)";
/// Steps.
pub const KETTLEBELL_STEPS: &str = "Kettlebells";
/// Steps.
pub const MACHINE_STEPS: &str = "Machine stacks";
/// Steps.
pub const CABLE_STEPS: &str = "Cable stack";
/// Kit changed.
pub const KIT_CHANGED: &str =
    "Saved. Loads follow at once; exercises change when you weave a new plan.";

// --- Storage -----------------------------------------------------------------------

/// Banner: memory only.
pub const MEMORY_ONLY: &str = "This browser refuses to keep anything (private mode, or storage switched off). Your sets stay only while this page is open.";
/// Banner: save failed.
pub const SAVE_FAILED: &str = "The last change could not be kept: this browser's storage is full or refuses. It stays here while the page is open. Save a backup file now.";
/// Banner: damaged data.
pub const SOME_ASIDE: &str =
    "Some stored data could not be read. It was set aside untouched; the rest works.";
/// Banner: another window.
pub const OTHER_WINDOW: &str =
    "Weekloom is open in another window. Log there, or close it and reload.";
/// Update ready.
pub const UPDATE_READY: &str = "A new version is ready.";
/// Applies it.
pub const UPDATE_NOW: &str = "Switch to it";
/// Never done.
pub const NEVER: &str = "never: start light, or type the load you know";
/// What the body weighs.
pub const BODY_WEIGHT: &str = "Body weight";
/// What the body weighs.
pub const BODY_WEIGHT_LINK: &str = "If you like: it counts in pull-ups and dips";
/// What the body weighs.
pub const BODY_WEIGHT_TODAY: &str = "Body weight today";
/// What the body weighs.
pub const BODY_WEIGHT_WHY: &str = "Where you lift your body too, as in pull-ups and dips, its weight belongs to what you lift. If you give it now and then, the log can show their 1RM. No load is suggested by it, and after a session it is asked for at most once a month.";
/// What the body weighed.
pub const BODY_WEIGHT_PAST: &str = "What you weighed";
/// Body alone.
pub const OWN_WEIGHT: &str = "own weight";
/// Band.
pub const BAND: &str = "band";
/// Bar without plates.
pub const BARE_BAR: &str = "The bare bar";
/// A load between two that the kit makes.
pub const NOT_MAKEABLE: &str = "Your kit does not make this load.";
/// The exercise is gone from the catalogue.
pub const UNKNOWN_EXERCISE: &str = "This exercise is not known here. Swap it or leave it out.";
/// The last set was taken back.
pub const UNDONE: &str = "Set taken back";
/// Rest stepper.
pub const LESS_REST: &str = "Less rest";
/// Rest stepper.
pub const MORE_REST: &str = "More rest";
/// Swap list is empty.
pub const NO_SWAP: &str = "Nothing else fits your kit and limits.";
/// No warm-up needed.
pub const NO_WARM_UP: &str = "Light enough to start right away.";
/// Warm-up heading.
pub const WARM_UP_FIRST: &str = "Warm up first";
/// Plates heading.
pub const PLATES_NOW: &str = "On the bar";
/// Pairs of plates.
pub const PAIRS: &str = "pairs";
/// Plates hint.
pub const PLATES_MORE: &str = "A pair is one for each side. 0 takes a plate off the list.";
/// Unit hint.
pub const UNIT_MORE: &str = "Logged loads stay what they were; they are only shown in the other unit. Bars and plates of your kit stay too: check them under Equipment.";
/// File too large.
pub const FILE_TOO_LARGE: &str =
    "This file is far larger than what is asked for here. Choose another.";
/// File cannot be read.
pub const FILE_UNREADABLE: &str = "The browser could not read this file. Choose it again.";
/// Taken in.
pub const BACKUP_TAKEN: &str = "Backup taken in";
/// The backup's plan and kit too.
pub const BACKUP_PLAN_TOO: &str = "Take its plan, kit and settings in place of those here";
/// Finish early.
pub const FINISH_EARLY: &str = "Finish now";
/// Drop an empty session.
pub const DISCARD: &str = "Drop this session";
/// Kept in the journal only.
pub const SOME_ROOM: &str = "Room used on this device";
/// A backup's day.
#[must_use]
pub fn backup_of(day: &str) -> String {
    say!("Backup of {day}.", day)
}
/// What a backup brings.
#[must_use]
pub fn backup_brings(new: usize, changed: usize, same: usize) -> String {
    say!(
        "Sessions: {new} new, {changed} fuller than yours, {same} you have already.",
        new,
        changed,
        same
    )
}
/// Sessions that no backup file holds.
#[must_use]
pub fn unsaved(count: usize) -> String {
    say!("{count} sessions are on this device only", count)
}
/// Why a file is worth it.
pub const UNSAVED_MORE: &str = "A file kept elsewhere outlives a lost phone and a cleared browser.";
/// Last backup.
#[must_use]
pub fn last_backup(day: &str) -> String {
    say!("Last file saved {day}.", day)
}
/// Characters used.
#[must_use]
pub fn used(characters: usize) -> String {
    say!(
        "{room}: {used} KB of about {most}.",
        room = tr(SOME_ROOM),
        used = characters.div_ceil(1000),
        most = 5000
    )
}
/// Spoken name of a minus button.
#[must_use]
pub fn less(what: &str) -> String {
    say!("Less: {what}", what)
}
/// Spoken name of a plus button.
#[must_use]
pub fn more(what: &str) -> String {
    say!("More: {what}", what)
}
/// "12 sessions, 240 sets".
#[must_use]
pub fn totals(sessions: usize, work_sets: usize) -> String {
    let sets = sets(work_sets);
    if sessions == 1 {
        say!("1 session, {sets}", sets)
    } else {
        say!("{sessions} sessions, {sets}", sessions, sets)
    }
}
/// Spoken effort. It begins with what the chip shows, so that who speaks to the
/// phone can say what they see (WCAG 2.2, 2.5.3).
#[must_use]
pub fn effort(rir: u8) -> String {
    let shown = effort_short(rir);
    if rir == 1 {
        said("1 rep left")
    } else {
        say!("{shown} reps left", shown)
    }
}
/// Effort on a chip.
#[must_use]
pub fn effort_short(rir: u8) -> String {
    if rir >= 5 {
        "5+".to_owned()
    } else {
        rir.to_string()
    }
}
/// A warm-up set.
#[must_use]
pub fn warm_up_set(load: &str, reps: u16) -> String {
    format!("{load} \u{d7} {reps}")
}
/// Why the rest is longer than planned.
pub fn longer_rest(seconds: u16) -> String {
    say!("{seconds} s longer: it was harder than aimed at", seconds)
}
/// "of 30 s".
pub fn of_seconds(seconds: u16) -> String {
    say!("of {seconds} s", seconds)
}
/// "Set 2".
#[must_use]
pub fn set_of_short(set: usize) -> String {
    say!("Set {set}", set)
}
/// Enters the demo.
pub const DEMO_ENTER: &str = "Look at the demo";
/// Whose logs.
pub const DEMO_WHO: &str = "Whose logs?";
/// A backup at the first opening.
pub const HAVE_BACKUP: &str = "I have a backup file";
/// The table behind the loom.
pub const LOOM_TABLE: &str = "As a table";
/// Column.
pub const MUSCLE: &str = "Muscle";
/// Column.
pub const ON_DAYS: &str = "Sets by day";
/// Settles a session.
pub const CANT_MAKE_IT: &str = "Can't make it";
/// Nothing to settle on the day.
pub const NOTHING_TO_SETTLE: &str = "No session waits on this day.";
/// Takes a way to settle a session.
pub const DO_THIS: &str = "Do this";
/// Takes back how a session was settled.
pub const TAKE_BACK: &str = "Take it back";
/// A session that waits.
pub const MOVED_ON: &str = "moved on to the next training day";
/// A session let go.
pub const LET_GO: &str = "let go";
/// Sets a coming session takes on.
#[must_use]
pub fn extra_sets(focus: &str, sets: u8, exercise: &str) -> String {
    say!("{focus}: +{sets} sets of {exercise}", focus, sets, exercise)
}
/// A pause or travel.
pub const AWAY: &str = "Pause or travel";
/// Card.
pub const PAUSE_TRAINING: &str = "Pause";
/// What a pause means.
pub const PAUSE_TRAINING_MORE: &str = "Holiday, illness, a busy spell: no sessions until the day you choose. Strength keeps for weeks. After illness, ask your doctor when to start again, and start lighter.";
/// Field.
pub const TRAIN_AGAIN_ON: &str = "Train again on";
/// Begins a pause.
pub const PAUSE_NOW: &str = "Pause from today";
/// Ends a pause.
pub const END_PAUSE: &str = "End the pause";
/// Card.
pub const TRAVEL: &str = "Travel";
/// What travel means.
pub const TRAVEL_MORE: &str = "Other equipment for some days: the same week, planned for what is there. Your own plan comes back by itself.";
/// Field.
pub const BACK_ON: &str = "Back on";
/// Begins a journey.
pub const PLAN_JOURNEY: &str = "Plan these days for it";
/// Ends a journey.
pub const END_TRAVEL: &str = "I am back";
/// Leads to the comparison.
pub const COMPARE: &str = "Compare with another split";
/// What the comparison shows.
pub const COMPARE_MORE: &str = "Your week beside one on another split, for the same person, minutes and equipment, its weekly sets brought as near to yours as they allow.";
/// No other split is made for these days.
pub const NO_OTHER_SPLIT: &str = "For this number of days there is no other split to hold it against. One day has none: half a body a week would leave the other half untrained.";
/// Card.
pub const WHAT_CAN_BE_SAID: &str = "What can be said";
/// Card.
pub const IN_FIGURES: &str = "In figures";
/// Column.
pub const IN_A_WEEK: &str = "In a week";
/// Where the figures come from.
pub const FIGURES_MORE: &str = "Reps lost: what a set does less than a fresh one at the same load, by a small model of two studies of rest and order. Trust the difference between the weeks, not the single number. Doses and waits are those of the large muscles.";
