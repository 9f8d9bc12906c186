//! Enums with a fixed spelling in data files.
//!
//! Start at [`slugged`]. A slug never changes once released: stored plans and
//! logs hold it.

/// Declares a fieldless enum whose variants have a stable slug, with `ALL`,
/// `slug` and `from_slug`.
macro_rules! slugged {
    ($(#[$meta:meta])* $name:ident { $($(#[$vmeta:meta])* $variant:ident = $slug:literal),+ $(,)? }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[$vmeta])* $variant),+
        }

        impl $name {
            /// Every variant, in declared order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            const SLUGS: &'static [&'static str] = &[$($slug),+];

            /// The stable spelling used in data files and stored values.
            #[must_use]
            pub const fn slug(self) -> &'static str {
                Self::SLUGS[self as usize]
            }

            /// The variant with this slug.
            #[must_use]
            pub fn from_slug(slug: &str) -> Option<Self> {
                $crate::slug::place(slug, Self::SLUGS).map(|at| Self::ALL[at])
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.slug())
            }
        }
    };
}
pub(crate) use slugged;

/// Where a slug stands among others. Matching the text against each would take
/// twenty bytes of code for every slug.
#[inline(never)]
pub(crate) fn place(slug: &str, slugs: &[&str]) -> Option<usize> {
    slugs.iter().position(|known| *known == slug)
}
