//! The words of the catalogue: muscles, patterns, equipment, ways of loading.
//!
//! These are the trade's standard terms. Nothing here knows an exercise.

use crate::slug::slugged;

slugged! {
    /// A muscle or muscle group whose weekly sets are counted.
    Muscle {
        /// Pectoralis major.
        Chest = "chest",
        /// Latissimus dorsi and teres major.
        Lats = "lats",
        /// Rhomboids, middle and lower trapezius.
        UpperBack = "upper-back",
        /// Upper trapezius.
        UpperTraps = "upper-traps",
        /// Anterior deltoid.
        FrontDelts = "front-delts",
        /// Lateral deltoid.
        SideDelts = "side-delts",
        /// Posterior deltoid.
        RearDelts = "rear-delts",
        /// Elbow flexors.
        Biceps = "biceps",
        /// Triceps brachii.
        Triceps = "triceps",
        /// Wrist and finger flexors and extensors.
        Forearms = "forearms",
        /// Rectus abdominis and obliques.
        Abdominals = "abdominals",
        /// Spinal erectors.
        SpinalErectors = "spinal-erectors",
        /// Gluteus maximus.
        Glutes = "glutes",
        /// Hip abductors: gluteus medius and minimus.
        Abductors = "abductors",
        /// Hip adductors.
        Adductors = "adductors",
        /// Quadriceps.
        Quadriceps = "quadriceps",
        /// Hamstrings.
        Hamstrings = "hamstrings",
        /// Gastrocnemius and soleus.
        Calves = "calves",
    }
}

slugged! {
    /// A movement pattern: what the joints do under load.
    Pattern {
        /// Both legs, knees and hips bend together.
        Squat = "squat",
        /// One leg leads: split squats, lunges, step-ups.
        Lunge = "lunge",
        /// The hips fold over a nearly straight knee.
        Hinge = "hinge",
        /// The hips extend against a load across them: bridges and thrusts.
        HipExtension = "hip-extension",
        /// The legs move away from the midline.
        HipAbduction = "hip-abduction",
        /// The legs move towards the midline.
        HipAdduction = "hip-adduction",
        /// The knee straightens against load, the hip still.
        KneeExtension = "knee-extension",
        /// The knee bends against load, the hip still.
        KneeFlexion = "knee-flexion",
        /// The ankle extends.
        CalfRaise = "calf-raise",
        /// Pushing away from the chest.
        HorizontalPush = "horizontal-push",
        /// Pushing overhead.
        VerticalPush = "vertical-push",
        /// Arms brought together before the chest, elbows still.
        ChestFly = "chest-fly",
        /// Pulling towards the trunk.
        HorizontalPull = "horizontal-pull",
        /// Pulling down from overhead, or the body up.
        VerticalPull = "vertical-pull",
        /// Straight arms brought down to the sides.
        ShoulderExtension = "shoulder-extension",
        /// Arms raised to the side.
        SideRaise = "side-raise",
        /// Arms opened backwards.
        RearRaise = "rear-raise",
        /// Shoulder blades raised.
        Shrug = "shrug",
        /// The elbow bends.
        ElbowFlexion = "elbow-flexion",
        /// The elbow straightens.
        ElbowExtension = "elbow-extension",
        /// The wrist bends or extends, or the hand grips.
        Wrist = "wrist",
        /// The trunk bends or twists against load.
        TrunkFlexion = "trunk-flexion",
        /// The trunk resists movement.
        TrunkStability = "trunk-stability",
        /// The lower back extends over a support.
        BackExtension = "back-extension",
        /// Walking under load.
        Carry = "carry",
    }
}

slugged! {
    /// The broad job an exercise does in a split.
    Role {
        /// Upper-body pushing.
        Push = "push",
        /// Upper-body pulling.
        Pull = "pull",
        /// Hips, knees and ankles.
        Legs = "legs",
        /// The trunk, and carrying.
        Trunk = "trunk",
    }
}

slugged! {
    /// A thing one may own or find in a gym.
    Equipment {
        /// A straight bar with plates.
        Barbell = "barbell",
        /// A squat rack or stand with safety bars.
        Rack = "rack",
        /// A flat bench.
        Bench = "bench",
        /// A bench whose back can be raised.
        InclineBench = "incline-bench",
        /// A curling bench with an arm pad.
        ArmPadBench = "arm-pad-bench",
        /// A short cambered curling bar with plates.
        CurlBar = "curl-bar",
        /// A bar one stands inside.
        TrapBar = "trap-bar",
        /// One end of a bar in a pivot.
        Landmine = "landmine",
        /// A bar on rails.
        GuidedBar = "guided-bar",
        /// A pair of dumbbells.
        Dumbbells = "dumbbells",
        /// Kettlebells.
        Kettlebell = "kettlebell",
        /// A cable column, pulley at any height.
        Cable = "cable",
        /// Elastic bands.
        Bands = "bands",
        /// A bar to hang from.
        PullUpBar = "pull-up-bar",
        /// Parallel bars.
        DipBars = "dip-bars",
        /// Rings or suspension straps.
        Rings = "rings",
        /// A belt or vest that adds load to the body.
        LoadBelt = "load-belt",
        /// A sturdy box or step.
        Box = "box",
        /// A wheel to roll out on.
        AbWheel = "ab-wheel",
        /// A hip-high back-extension bench.
        BackExtensionBench = "back-extension-bench",
        /// A pull-up and dip machine that carries part of the body.
        AssistMachine = "assist-machine",
        /// High-pulley pulldown seat.
        PulldownMachine = "pulldown-machine",
        /// Seated row, cable or lever.
        RowMachine = "row-machine",
        /// Seated chest press.
        ChestPressMachine = "chest-press-machine",
        /// Seated shoulder press.
        ShoulderPressMachine = "shoulder-press-machine",
        /// Chest fly, most also reverse.
        FlyMachine = "fly-machine",
        /// Lateral raise machine.
        SideRaiseMachine = "side-raise-machine",
        /// Arm curl machine.
        CurlMachine = "curl-machine",
        /// Triceps extension machine.
        TricepsMachine = "triceps-machine",
        /// Leg press.
        LegPress = "leg-press",
        /// Inclined squat machine with shoulder pads.
        HackSquatMachine = "hack-squat-machine",
        /// Knee extension.
        LegExtensionMachine = "leg-extension-machine",
        /// Knee flexion, seated or lying.
        LegCurlMachine = "leg-curl-machine",
        /// Standing or seated calf raise.
        CalfMachine = "calf-machine",
        /// Hip thrust or glute bridge machine.
        HipThrustMachine = "hip-thrust-machine",
        /// Hip abduction and adduction machine.
        HipMachine = "hip-machine",
        /// Seated abdominal crunch machine.
        CrunchMachine = "crunch-machine",
    }
}

slugged! {
    /// How an exercise is loaded: what the number on the screen means.
    Loading {
        /// The whole bar with its plates.
        Barbell = "barbell",
        /// One dumbbell of a pair.
        DumbbellPair = "dumbbell-pair",
        /// One dumbbell or kettlebell held alone.
        Single = "single",
        /// The pin of a stack or the plates on a lever.
        Machine = "machine",
        /// The pin of a cable stack.
        Cable = "cable",
        /// The body alone; no number.
        Bodyweight = "bodyweight",
        /// Load added to the body, from nought.
        BodyweightPlus = "bodyweight-plus",
        /// Help taken off the body: less is harder.
        Assisted = "assisted",
        /// An elastic band; no number.
        Band = "band",
    }
}

slugged! {
    /// What is counted in a set.
    Measure {
        /// Repetitions.
        Reps = "reps",
        /// Seconds held or walked.
        Seconds = "seconds",
    }
}

slugged! {
    /// Whether the two sides work together.
    Sides {
        /// Both at once.
        Both = "both",
        /// One after the other; reps are per side.
        Each = "each",
    }
}

slugged! {
    /// How many joints move under load.
    Kind {
        /// Several joints.
        Compound = "compound",
        /// One joint.
        Isolation = "isolation",
    }
}

slugged! {
    /// A demand on a joint that some people must avoid or limit.
    JointDemand {
        /// Arms under load above the head.
        Overhead = "overhead",
        /// Load carried by the spine, or a loaded bend of it.
        LoadedSpine = "loaded-spine",
        /// Knees bent deeply under load.
        DeepKnee = "deep-knee",
        /// Wrists bent back or twisted under load.
        Wrist = "wrist",
        /// A hard or long grip.
        Grip = "grip",
        /// Arm drawn behind the body or wide under load.
        ShoulderStretch = "shoulder-stretch",
    }
}

impl Pattern {
    /// The jobs an exercise of this pattern may do in a split (common
    /// practice, no source).
    #[must_use]
    pub const fn roles(self) -> &'static [Role] {
        match self {
            Self::Squat
            | Self::Lunge
            | Self::Hinge
            | Self::HipExtension
            | Self::HipAbduction
            | Self::HipAdduction
            | Self::KneeExtension
            | Self::KneeFlexion
            | Self::CalfRaise => &[Role::Legs],
            Self::HorizontalPush
            | Self::VerticalPush
            | Self::ChestFly
            | Self::SideRaise
            | Self::ElbowExtension => &[Role::Push],
            Self::HorizontalPull
            | Self::VerticalPull
            | Self::ShoulderExtension
            | Self::RearRaise
            | Self::Shrug
            | Self::ElbowFlexion
            | Self::Wrist => &[Role::Pull],
            Self::TrunkFlexion | Self::TrunkStability | Self::Carry => &[Role::Trunk],
            // Folding at the hip trains the legs, raising the chest the trunk.
            Self::BackExtension => &[Role::Legs, Role::Trunk],
        }
    }
}

impl Loading {
    /// What carries the load: at least one of these must be among an
    /// exercise's equipment. Empty when the body alone does.
    #[must_use]
    pub const fn needs(self) -> &'static [Equipment] {
        match self {
            Self::Barbell => &[
                Equipment::Barbell,
                Equipment::CurlBar,
                Equipment::TrapBar,
                Equipment::Landmine,
                Equipment::GuidedBar,
            ],
            Self::DumbbellPair => &[Equipment::Dumbbells],
            Self::Single => &[Equipment::Dumbbells, Equipment::Kettlebell],
            Self::Machine => &[
                Equipment::PulldownMachine,
                Equipment::RowMachine,
                Equipment::ChestPressMachine,
                Equipment::ShoulderPressMachine,
                Equipment::FlyMachine,
                Equipment::SideRaiseMachine,
                Equipment::CurlMachine,
                Equipment::TricepsMachine,
                Equipment::LegPress,
                Equipment::HackSquatMachine,
                Equipment::LegExtensionMachine,
                Equipment::LegCurlMachine,
                Equipment::CalfMachine,
                Equipment::HipThrustMachine,
                Equipment::HipMachine,
                Equipment::CrunchMachine,
            ],
            Self::Cable => &[
                Equipment::Cable,
                Equipment::PulldownMachine,
                Equipment::RowMachine,
            ],
            Self::Bodyweight => &[],
            Self::BodyweightPlus => &[
                Equipment::LoadBelt,
                Equipment::Dumbbells,
                Equipment::Kettlebell,
            ],
            // A band helps too, but by no number: that is loading `band`.
            Self::Assisted => &[Equipment::AssistMachine],
            Self::Band => &[Equipment::Bands],
        }
    }
}
