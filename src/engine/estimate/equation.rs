//! The seven published 1RM equations.
//!
//! Start at [`Equation::one_rm`]. Epley, Brzycki and Lander rest on no
//! published data (Richens and Cleather 2014, Biol Sport 31(2):157-161); that
//! is why no single one is used alone.

use super::MOST_REPS;
use crate::slug::slugged;
use crate::units::Load;

slugged! {
    /// A published equation from load and reps to failure to the 1RM.
    Equation {
        /// Epley 1985.
        Epley = "epley",
        /// Brzycki 1993.
        Brzycki = "brzycki",
        /// Lander 1985.
        Lander = "lander",
        /// Lombardi 1989.
        Lombardi = "lombardi",
        /// Mayhew et al. 1992.
        Mayhew = "mayhew",
        /// O'Conner et al. 1989.
        OConner = "oconner",
        /// Wathan 1994.
        Wathan = "wathan",
    }
}

impl Equation {
    /// The 1RM for a load lifted so many times to failure, to the nearest
    /// gram. `None` outside 1 to 20 reps; Brzycki and Lander diverge at 37.
    #[must_use]
    pub fn one_rm(self, load: Load, reps: u16) -> Option<Load> {
        if !(1..=MOST_REPS).contains(&reps) {
            return None;
        }
        #[expect(clippy::cast_precision_loss, reason = "at most a million grams")]
        let grams = load.grams() as f64 * self.ratio(f64::from(reps));
        #[expect(clippy::cast_possible_truncation, reason = "at most a few million")]
        let grams = grams.round() as i64;
        Some(Load::clamped(grams))
    }

    /// 1RM over load.
    fn ratio(self, reps: f64) -> f64 {
        match self {
            Self::Epley => 1.0 + reps / 30.0,
            Self::Brzycki => 36.0 / (37.0 - reps),
            Self::Lander => 100.0 / (101.3 - 2.671_23 * reps),
            Self::Lombardi => reps.powf(0.10),
            Self::Mayhew => 100.0 / (52.2 + 41.9 * (-0.055 * reps).exp()),
            Self::OConner => 1.0 + 0.025 * reps,
            Self::Wathan => 100.0 / (48.8 + 53.8 * (-0.075 * reps).exp()),
        }
    }

    /// Where it was published.
    #[must_use]
    pub const fn citation(self) -> &'static str {
        match self {
            Self::Epley => "Epley 1985, Poundage chart, University of Nebraska",
            Self::Brzycki => "Brzycki 1993, JOPERD 64(1):88-90",
            Self::Lander => "Lander 1985, NSCA J 6:60-61",
            Self::Lombardi => "Lombardi 1989, Beginning Weight Training",
            Self::Mayhew => "Mayhew et al. 1992, J Appl Sport Sci Res 6:200-206",
            Self::OConner => "O'Conner et al. 1989, Weight Training Today",
            Self::Wathan => {
                "Wathan 1994, in Essentials of Strength Training and Conditioning, 1st ed."
            }
        }
    }
}
