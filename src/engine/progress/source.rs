//! Where the numbers of the rules come from.

/// A published source, or the plain word that there is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {
    /// Two reps over the goal in the last set of two sessions running.
    TwoForTwo,
    /// Load up by 2 to 10 % when the goal is beaten by one or two reps.
    Acsm2009,
    /// New lifters 5 to 10 %, advanced 2 to 5 %; small steps for the upper
    /// body, larger ones for the lower.
    StepSizes,
    /// Percent of the 1RM by reps.
    PercentTable,
    /// The seven equations from load and reps to the 1RM.
    Equations,
    /// Effort rated by the reps left before failure.
    Zourdos2016,
    /// People have about one rep more left than they say.
    Halperin2022,
    /// Strength falls with time off.
    Bosquet2013,
    /// Strength outlasts ten weeks off and comes back in about five.
    Halonen2024,
    /// What coached lifters change in a deload.
    Rogerson2024,
    /// What coaches do; nothing published was found for the size.
    CommonPractice,
}

impl Source {
    /// Every one.
    pub const ALL: [Self; 11] = [
        Self::TwoForTwo,
        Self::Acsm2009,
        Self::StepSizes,
        Self::PercentTable,
        Self::Equations,
        Self::Zourdos2016,
        Self::Halperin2022,
        Self::Bosquet2013,
        Self::Halonen2024,
        Self::Rogerson2024,
        Self::CommonPractice,
    ];

    /// The citation as it is printed.
    #[must_use]
    pub const fn citation(self) -> &'static str {
        match self {
            Self::TwoForTwo => {
                "Baechle and Earle (eds.), Essentials of Strength Training and Conditioning"
            }
            Self::Acsm2009 => "Ratamess et al. 2009, MSSE 41(3):687-708",
            Self::StepSizes => {
                "Haff and Triplett (eds.), Essentials of Strength Training and Conditioning, \
                 examples of load increases (from memory); Graves and Baechle, by secondary pages"
            }
            Self::PercentTable => {
                "Haff and Triplett (eds.), Essentials of Strength Training and Conditioning"
            }
            Self::Equations => {
                "Epley 1985; Brzycki 1993; Lander 1985; Lombardi 1989; Mayhew et al. 1992; \
                 O'Conner et al. 1989; Wathan 1994"
            }
            Self::Zourdos2016 => "Zourdos et al. 2016, JSCR 30(1):267-275",
            Self::Halperin2022 => "Halperin et al. 2022, Sports Med 52(2):377-390",
            Self::Bosquet2013 => "Bosquet et al. 2013, Scand J Med Sci Sports 23:e140-149",
            Self::Halonen2024 => "Halonen et al. 2024, Scand J Med Sci Sports",
            Self::Rogerson2024 => "Rogerson et al. 2024, Sports Med Open 10:26",
            Self::CommonPractice => "common practice, no source",
        }
    }
}
