//! Names of muscles, patterns, equipment and days of the cycle.

use super::language::tr;
use crate::markup::Text;
use weekloom_engine::catalogue::own::is_own;
use weekloom_engine::catalogue::{
    Equipment, Exercise, JointDemand, Loading, Muscle, Pattern, Role,
};
use weekloom_engine::person::Status;
use weekloom_engine::plan::split::Focus;
use weekloom_engine::presets::KitPreset;
use weekloom_engine::progress::Rule;

/// A rule of progression, and how it goes up.
#[must_use]
pub fn rule(rule: Rule) -> (&'static str, &'static str) {
    let (name, more) = match rule {
        Rule::DoubleProgression => (
            "Reps, then load",
            "More reps first; when every set is at the top of the range, one step more load.",
        ),
        Rule::FixedSteps => (
            "A step a session",
            "One step more load each time all sets went as asked.",
        ),
        Rule::EffortLed => (
            "By effort",
            "The load follows the reps you say were left in you. Unsaid, it goes by reps alone, and slower.",
        ),
        Rule::PercentOfMax => (
            "Percent of 1RM",
            "A share of the 1RM estimated from your own sets. Say the reps left now and then, or it goes by reps alone.",
        ),
        Rule::RepsThenVariant => (
            "Reps, then harder",
            "More reps up to the top of the range, then a harder variant.",
        ),
        Rule::LessHelp => (
            "Less help",
            "More reps, then less help from the machine, until none is needed.",
        ),
        Rule::LongerHolds => (
            "Longer holds",
            "More seconds up to the top of the range, then a harder variant.",
        ),
    };
    (tr(name), tr(more))
}

/// A muscle as people call it.
#[must_use]
pub fn muscle(muscle: Muscle) -> &'static str {
    tr(match muscle {
        Muscle::Chest => "chest",
        Muscle::Lats => "lats",
        Muscle::UpperBack => "upper back",
        Muscle::UpperTraps => "upper traps",
        Muscle::FrontDelts => "front shoulder",
        Muscle::SideDelts => "side shoulder",
        Muscle::RearDelts => "rear shoulder",
        Muscle::Biceps => "biceps",
        Muscle::Triceps => "triceps",
        Muscle::Forearms => "forearms",
        Muscle::Abdominals => "abdominals",
        Muscle::SpinalErectors => "lower back",
        Muscle::Glutes => "glutes",
        Muscle::Abductors => "outer hips",
        Muscle::Adductors => "inner thighs",
        Muscle::Quadriceps => "quadriceps",
        Muscle::Hamstrings => "hamstrings",
        Muscle::Calves => "calves",
    })
}

/// A pattern as a coach calls it.
#[must_use]
pub fn pattern(pattern: Pattern) -> &'static str {
    tr(match pattern {
        Pattern::Squat => "squat",
        Pattern::Lunge => "lunge",
        Pattern::Hinge => "hip hinge",
        Pattern::HipExtension => "hip extension",
        Pattern::HipAbduction => "hip abduction",
        Pattern::HipAdduction => "hip adduction",
        Pattern::KneeExtension => "knee extension",
        Pattern::KneeFlexion => "knee flexion",
        Pattern::CalfRaise => "calf raise",
        Pattern::HorizontalPush => "horizontal push",
        Pattern::VerticalPush => "vertical push",
        Pattern::ChestFly => "chest fly",
        Pattern::HorizontalPull => "horizontal pull",
        Pattern::VerticalPull => "vertical pull",
        Pattern::ShoulderExtension => "straight-arm pull",
        Pattern::SideRaise => "side raise",
        Pattern::RearRaise => "rear raise",
        Pattern::Shrug => "shrug",
        Pattern::ElbowFlexion => "elbow flexion",
        Pattern::ElbowExtension => "elbow extension",
        Pattern::Wrist => "grip and wrist",
        Pattern::TrunkFlexion => "trunk flexion",
        Pattern::TrunkStability => "trunk stability",
        Pattern::BackExtension => "back extension",
        Pattern::Carry => "carry",
    })
}

/// What a day of the cycle is about.
#[must_use]
pub fn focus(focus: Focus) -> &'static str {
    tr(match focus {
        Focus::FullBody => "Full body",
        Focus::PushLed => "Full body, push first",
        Focus::PullLed => "Full body, pull first",
        Focus::LegsLed => "Full body, legs first",
        Focus::Push => "Push",
        Focus::Pull => "Pull",
        Focus::Legs => "Legs",
        Focus::Upper => "Upper body",
        Focus::Lower => "Lower body",
        Focus::Own => "Own day",
    })
}

/// A split by its slug, with a second line saying what it means.
#[must_use]
pub fn split(slug: &str) -> (String, &'static str) {
    let (name, more) = match slug {
        "full-body-once" => ("Full body", "The whole body in one session"),
        "full-body-twice" => ("Full body, twice", "The whole body in each session"),
        "upper-lower-once" => (
            "Upper / lower, once",
            "Each half of the body in one long dose",
        ),
        "rotating-emphasis" => (
            "Full body, emphasis in turn",
            "Everything each session; push, pull and legs lead in turn",
        ),
        "push-pull-legs" => ("Push / pull / legs", "Each once a week, in one long dose"),
        "upper-lower-twice" => ("Upper / lower", "Each half of the body twice"),
        "full-body-four" => ("Full body, four times", "Small doses, often"),
        "upper-lower-push-pull-legs" => (
            "Upper / lower + push / pull / legs",
            "Two halves, then three thirds",
        ),
        "full-body-five" => (
            "Full body, five times",
            "Small doses, often; push, pull and legs lead in turn",
        ),
        "push-pull-legs-twice" => ("Push / pull / legs, twice", "Each third twice a week"),
        "upper-lower-thrice" => ("Upper / lower, three times", "Each half three times a week"),
        "push-pull-legs-twice-and-small" => (
            "Push / pull / legs, twice, and a small day",
            "Six days of thirds and one short one",
        ),
        "upper-lower-thrice-and-small" => (
            "Upper / lower, three times, and a small day",
            "Six days of halves and one short one",
        ),
        _ => return (slug.replace('-', " "), ""),
    };
    (tr(name).to_owned(), tr(more))
}

/// Training status with its second line.
#[must_use]
pub fn status(status: Status) -> (&'static str, &'static str) {
    let (name, more) = match status {
        Status::Novice => ("New to it", "No lifting yet, or several years off"),
        Status::Intermediate => ("Some training", "About six months or more, fairly steady"),
        Status::Advanced => ("Long trained", "Years of steady lifting"),
    };
    (tr(name), tr(more))
}

/// A joint demand as a wish to avoid it.
#[must_use]
pub fn joint(joint: JointDemand) -> &'static str {
    tr(match joint {
        JointDemand::Overhead => "arms overhead",
        JointDemand::LoadedSpine => "load on the spine",
        JointDemand::DeepKnee => "deep knee bend",
        JointDemand::Wrist => "bent wrists",
        JointDemand::Grip => "hard grip",
        JointDemand::ShoulderStretch => "shoulder stretched back",
    })
}

/// The job of an exercise in a split.
#[must_use]
pub fn role(role: Role) -> &'static str {
    tr(match role {
        Role::Push => "push",
        Role::Pull => "pull",
        Role::Legs => "legs",
        Role::Trunk => "trunk",
    })
}

/// What the load number means.
#[must_use]
pub fn loading(loading: Loading) -> &'static str {
    tr(match loading {
        Loading::Barbell => "bar with plates",
        Loading::DumbbellPair => "each of two dumbbells",
        Loading::Single => "one dumbbell or kettlebell",
        Loading::Machine => "machine",
        Loading::Cable => "cable stack",
        Loading::Bodyweight => "bodyweight, no number",
        Loading::BodyweightPlus => "added to the body",
        Loading::Assisted => "help taken off the body",
        Loading::Band => "band, no number",
    })
}

/// A thing one may have.
#[must_use]
pub fn equipment(thing: Equipment) -> &'static str {
    tr(match thing {
        Equipment::Barbell => "barbell and plates",
        Equipment::Rack => "rack with safety bars",
        Equipment::Bench => "flat bench",
        Equipment::InclineBench => "incline bench",
        Equipment::ArmPadBench => "arm-pad bench",
        Equipment::CurlBar => "curl bar",
        Equipment::TrapBar => "trap bar",
        Equipment::Landmine => "landmine pivot",
        Equipment::GuidedBar => "bar on rails",
        Equipment::Dumbbells => "dumbbells",
        Equipment::Kettlebell => "kettlebells",
        Equipment::Cable => "cable column",
        Equipment::Bands => "elastic bands",
        Equipment::PullUpBar => "pull-up bar",
        Equipment::DipBars => "dip bars",
        Equipment::Rings => "rings or straps",
        Equipment::LoadBelt => "loading belt or vest",
        Equipment::Box => "box or step",
        Equipment::AbWheel => "roll-out wheel",
        Equipment::BackExtensionBench => "back-extension bench",
        Equipment::AssistMachine => "assisted pull-up machine",
        Equipment::PulldownMachine => "pulldown",
        Equipment::RowMachine => "seated row",
        Equipment::ChestPressMachine => "chest press machine",
        Equipment::ShoulderPressMachine => "shoulder press machine",
        Equipment::FlyMachine => "fly machine",
        Equipment::SideRaiseMachine => "side raise machine",
        Equipment::CurlMachine => "arm curl machine",
        Equipment::TricepsMachine => "triceps machine",
        Equipment::LegPress => "leg press",
        Equipment::HackSquatMachine => "hack squat machine",
        Equipment::LegExtensionMachine => "leg extension",
        Equipment::LegCurlMachine => "leg curl",
        Equipment::CalfMachine => "calf machine",
        Equipment::HipThrustMachine => "hip thrust machine",
        Equipment::HipMachine => "hip abduction machine",
        Equipment::CrunchMachine => "crunch machine",
    })
}

/// A usual kit with its second line.
#[must_use]
pub fn kit(preset: KitPreset) -> (&'static str, &'static str) {
    let (name, more) = match preset {
        KitPreset::FullGym => ("A full gym", "Bars, dumbbells, cables and machines"),
        KitPreset::BarbellAtHome => (
            "A bar and a rack",
            "With a bench, a pull-up bar and some dumbbells",
        ),
        KitPreset::Dumbbells => ("Dumbbells", "And a bench"),
        KitPreset::FloorAndBar => ("My own weight", "A floor and a bar to hang from"),
    };
    (tr(name), tr(more))
}

/// The name of an exercise. One of the person's own making is called what they
/// called it.
#[must_use]
pub fn exercise(exercise: &'static Exercise) -> Text {
    of_exercise(exercise, &exercise.name)
}

/// What to beware of in an exercise.
#[must_use]
pub fn caution(exercise: &'static Exercise) -> Text {
    of_exercise(exercise, &exercise.caution)
}

/// How to do an exercise, a line for each thing.
#[must_use]
pub fn cue(exercise: &'static Exercise) -> Text {
    of_exercise(exercise, &exercise.cue)
}

fn of_exercise(exercise: &'static Exercise, text: &'static str) -> Text {
    if is_own(&exercise.id) {
        text.to_owned().into()
    } else {
        tr(text).into()
    }
}
