//! "Units and appearance".

use super::places::Places;
use crate::browser::{Page, Role};
use crate::words;

/// The page "Units and appearance".
pub struct Looks<'a>(pub &'a Page);

impl Looks<'_> {
    /// Goes there and says that the phone is in the left hand.
    pub async fn left_handed(&self) {
        Places(self.0).go_to_kit(words::LOOKS).await;
        self.0.tap(Role::Radio, words::HAND_LEFT).await;
        assert!(self.0.is_chosen(Role::Radio, words::HAND_LEFT).await);
    }

    /// Goes there and chooses the unit loads are shown in.
    pub async fn choose_unit(&self, unit: &str) {
        Places(self.0).go_to_kit(words::LOOKS).await;
        self.0.tap(Role::Radio, unit).await;
        assert!(self.0.is_chosen(Role::Radio, unit).await);
    }
}
